package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"ripeby/cmd/cpbench/psplib"
)

// trial is one question: an instance, the windows in which its hands work, and
// what the tables say of its least makespan.
type trial struct {
	name     string // as in the tables, such as j30/j301_1.sm
	path     string
	calendar calendar
	known    known
}

// calendar says that hands, the first thing, work in [k x period, k x period + on)
// for every k from 0; a period of 0 is no calendar.
type calendar struct{ period, on int }

// sampleSet is every so many of j60, always the same: what is run beside the
// yardstick, for which the whole set would take hours.
const (
	sampleSet  = "j60sample"
	sampleSize = 60
)

// trialsOf gives the trials of a set in the order of their names, or of the rows
// of calendar.csv. The error is fs.ErrNotExist where the set is not there.
func trialsOf(dir, set string) ([]trial, error) {
	if set == "calendar" {
		return calendarTrials(dir)
	}
	if set == sampleSet {
		all, err := trialsOf(dir, "j60")
		return spread(all, sampleSize), err
	}
	ending, tablesOf := "*.s*", readTables
	if set == "wet" {
		ending, tablesOf = "*.dzn", readWanted
	}
	files, err := filepath.Glob(filepath.Join(dir, set, ending))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("no instances in %s: %w", filepath.Join(dir, set), fs.ErrNotExist)
	}
	tables, err := tablesOf(dir)
	if err != nil {
		return nil, err
	}
	var out []trial
	for _, path := range files {
		name := set + "/" + filepath.Base(path)
		out = append(out, trial{name: name, path: path, known: tables[name]})
	}
	return out, nil
}

// calendarTrials reads calendar/calendar.csv.
func calendarTrials(dir string) ([]trial, error) {
	rows, err := readRows(filepath.Join(dir, "calendar", "calendar.csv"), "instance", "period", "on", "status", "makespan")
	if err != nil {
		return nil, err
	}
	var out []trial
	for _, r := range rows {
		period, err1 := strconv.Atoi(r["period"])
		on, err2 := strconv.Atoi(r["on"])
		if err1 != nil || err2 != nil || period < 1 || on < 0 || on > period {
			return nil, fmt.Errorf("calendar.csv: %s: got period %q and on %q, want whole numbers, on within the period", r["instance"], r["period"], r["on"])
		}
		k, err := measured(r["status"], r["makespan"])
		if err != nil {
			return nil, fmt.Errorf("calendar.csv: %s: %w", r["instance"], err)
		}
		out = append(out, trial{fmt.Sprintf("%s %d of %d", r["instance"], on, period), filepath.Join(dir, r["instance"]), calendar{period, on}, k})
	}
	return out, nil
}

// read reads an instance by the ending of its name.
func read(path string) (*psplib.Dated, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	var in *psplib.Instance
	switch filepath.Ext(path) {
	case ".dzn":
		return psplib.ReadDZN(file)
	case ".sm":
		in, err = psplib.ReadSM(file)
	default:
		in, err = psplib.ReadSCH(file)
	}
	if err != nil {
		return nil, err
	}
	return &psplib.Dated{Instance: *in}, nil
}
