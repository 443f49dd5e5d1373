package psplib

import (
	"bufio"
	"io"
	"strings"
)

// sm is a .sm file while it is read. Its precedences stand before the lengths.
type sm struct {
	Instance
	part  string
	first int // jobs of the precedence part so far
	after [][2]int
}

// ReadSM reads a .sm file. An error is a [*Fault] or one of r.
func ReadSM(r io.Reader) (*Instance, error) {
	in := &sm{}
	sc := bufio.NewScanner(r)
	line := 0
	for sc.Scan() {
		line++
		if err := in.line(line, strings.TrimSpace(sc.Text())); err != nil {
			return nil, err
		}
	}
	if err := sc.Err(); err != nil {
		return nil, err
	}
	n := len(in.Lengths)
	for _, p := range in.after {
		if p[0] >= n || p[1] < 0 || p[1] >= n {
			return nil, &Fault{line, "a successor of job", p[0] + 1, "jobs that have a length"}
		}
		in.Lags = append(in.Lags, Lag{p[0], p[1], in.Lengths[p[0]]})
	}
	if err := in.check(line); err != nil {
		return nil, err
	}
	return &in.Instance, nil
}

// line takes one line: the head of a part, a row of numbers in one, or words.
func (in *sm) line(line int, text string) error {
	for _, head := range []string{"PRECEDENCE", "REQUESTS", "RESOURCEAVAIL"} {
		if strings.HasPrefix(text, head) {
			in.part = head
			return nil
		}
	}
	if in.part == "" || text == "" || !strings.ContainsAny(text[:1], "-0123456789") || strings.HasPrefix(text, "--") {
		return nil
	}
	row, err := numbers(line, text)
	if err != nil {
		return err
	}
	switch in.part {
	case "PRECEDENCE":
		return in.precedence(line, row)
	case "REQUESTS":
		return in.request(line, row)
	}
	if in.Capacity != nil {
		return &Fault{line, "a second row of capacities", row, "one row"}
	}
	in.Capacity = row
	return notBelowZero(line, "capacities", row)
}

// precedence takes: job, modes, number of successors, successors.
func (in *sm) precedence(line int, row []int) error {
	in.first++
	switch {
	case len(row) < 3 || len(row) != 3+row[2]:
		return &Fault{line, "a row of successors", row, "job, modes, how many successors, and each"}
	case row[0] != in.first || row[0] > mostTasks:
		return &Fault{line, "job", row[0], "the next in order, up to 1000"}
	case row[1] != 1:
		return &Fault{line, "modes", row[1], "1"}
	}
	for _, to := range row[3:] {
		in.after = append(in.after, [2]int{row[0] - 1, to - 1})
	}
	return nil
}

// request takes: job, mode, duration, demands.
func (in *sm) request(line int, row []int) error {
	switch {
	case len(row) < 4:
		return &Fault{line, "a row of requests", row, "job, mode, duration and demands"}
	case row[0] != len(in.Lengths)+1 || row[0] > mostTasks:
		return &Fault{line, "job", row[0], "the next in order, up to 1000"}
	}
	in.Lengths = append(in.Lengths, row[2])
	in.Demands = append(in.Demands, row[3:])
	return notBelowZero(line, "length and demands", row[2:])
}
