package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
)

// known is what tables say of a least makespan.
type known struct {
	impossible bool
	lower      int // proved; 0 for none stated
	upper      int // of a schedule that was found; 0 for none stated
}

// closed reports whether the tables leave nothing open.
func (k known) closed() bool { return k.impossible || k.upper > 0 && k.lower == k.upper }

// String writes what is known as it is printed beside an answer.
func (k known) String() string {
	switch {
	case k.impossible:
		return "impossible"
	case k.lower == 0 && k.upper == 0:
		return "nothing"
	case k.closed():
		return strconv.Itoa(k.upper)
	case k.upper == 0:
		return fmt.Sprintf("at least %d", k.lower)
	}
	return fmt.Sprintf("%d to %d", k.lower, k.upper)
}

// readTables reads the tables that are there; a measured row stands over an open
// one of the same instance.
func readTables(dir string) (map[string]known, error) {
	out := map[string]known{}
	for _, name := range []string{"rcpsp.csv", "rcpsp_max.csv"} {
		rows, err := readRows(filepath.Join(dir, name), "instance", "lower", "upper")
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		for _, r := range rows {
			if r["upper"] == "unsat" {
				out[r["instance"]] = known{impossible: true}
				continue
			}
			lower, err1 := strconv.Atoi(r["lower"])
			upper, err2 := strconv.Atoi(r["upper"])
			if err1 != nil || err2 != nil {
				return nil, fmt.Errorf("%s: %s: got bounds %q and %q, want whole numbers or unsat", name, r["instance"], r["lower"], r["upper"])
			}
			out[r["instance"]] = known{lower: lower, upper: upper}
		}
	}
	return out, eachMeasured(dir, "rcpsp_max_measured.csv", "makespan", func(instance string, k known) {
		k.lower = max(k.lower, out[instance].lower)
		out[instance] = k
	})
}

// readWanted reads the table of the set with wanted times.
func readWanted(dir string) (map[string]known, error) {
	out := map[string]known{}
	return out, eachMeasured(dir, "wet_measured.csv", "objective", func(instance string, k known) { out["wet/"+instance] = k })
}

// eachMeasured goes through a table of measurements, if it is there; column has the
// value.
func eachMeasured(dir, name, column string, take func(instance string, k known)) error {
	rows, err := readRows(filepath.Join(dir, name), "instance", "status", column)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, r := range rows {
		k, err := measured(r["status"], r[column])
		if err != nil {
			return fmt.Errorf("%s: %s: %w", name, r["instance"], err)
		}
		take(r["instance"], k)
	}
	return err
}

// measured reads the outcome of a measurement.
func measured(status, makespan string) (known, error) {
	if status == "infeasible" || status == "unsat" {
		return known{impossible: true}, nil
	}
	n, err := strconv.Atoi(makespan)
	if err != nil || (status != "optimal" && status != "feasible") {
		return known{}, fmt.Errorf("got status %q and makespan %q, want optimal, feasible or infeasible and a whole number", status, makespan)
	}
	if status == "feasible" {
		return known{upper: n}, nil
	}
	return known{lower: n, upper: n}, nil
}

// readRows reads a table with a head row; the columns named must be there.
func readRows(path string, columns ...string) ([]map[string]string, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s: got no rows, want a head at least", path)
	}
	for _, c := range columns {
		if !slices.Contains(all[0], c) {
			return nil, fmt.Errorf("%s: got columns %v, want %s among them", path, all[0], c)
		}
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, c := range all[0] {
			row[c] = line[i]
		}
		out = append(out, row)
	}
	return out, nil
}
