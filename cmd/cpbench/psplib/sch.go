package psplib

import (
	"bufio"
	"io"
	"strings"
)

// row is a line of numbers and where it stands.
type row struct {
	line int
	nums []int
}

// ReadSCH reads a .sch file: a head (tasks without start and end, things), a row
// of successors with their lags for each task, a row of length and demands for
// each, the capacities. An error is a [*Fault] or one of r.
func ReadSCH(r io.Reader) (*Instance, error) {
	rows, line, err := rowsOf(r)
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || len(rows[0].nums) < 2 || rows[0].nums[0] < 0 || rows[0].nums[0] > mostTasks-2 {
		return nil, &Fault{1, "the head", first(rows), "how many tasks, up to 998, and things"}
	}
	n := rows[0].nums[0] + 2
	if len(rows) != 2*n+2 {
		return nil, &Fault{line, "rows", len(rows), "a head, two for each task, and the capacities"}
	}
	in := &Instance{Capacity: rows[2*n+1].nums}
	if len(in.Capacity) != rows[0].nums[1] {
		return nil, &Fault{line, "capacities", in.Capacity, "as many as the head says"}
	}
	if err := notBelowZero(rows[2*n+1].line, "capacities", in.Capacity); err != nil {
		return nil, err
	}
	for i, r := range rows[1 : n+1] {
		if err := in.successors(i, r); err != nil {
			return nil, err
		}
	}
	for i, r := range rows[n+1 : 2*n+1] {
		if len(r.nums) != 3+len(in.Capacity) || r.nums[0] != i {
			return nil, &Fault{r.line, "a row of demands", r.nums, "the next task, mode, length and demands"}
		}
		if r.nums[1] != 1 {
			return nil, &Fault{r.line, "mode", r.nums[1], "1"}
		}
		if err := notBelowZero(r.line, "length and demands", r.nums[2:]); err != nil {
			return nil, err
		}
		in.Lengths = append(in.Lengths, r.nums[2])
		in.Demands = append(in.Demands, r.nums[3:])
	}
	if err := in.check(line); err != nil {
		return nil, err
	}
	return in, nil
}

// successors takes: task, modes, how many, each, and each one's lag.
func (in *Instance) successors(task int, r row) error {
	if len(r.nums) < 3 || r.nums[2] < 0 || len(r.nums) != 3+2*r.nums[2] || r.nums[0] != task {
		return &Fault{r.line, "a row of successors", r.nums, "the next task, modes, how many successors, each, and a lag for each"}
	}
	if r.nums[1] != 1 {
		return &Fault{r.line, "modes", r.nums[1], "1"}
	}
	k := r.nums[2]
	for i, to := range r.nums[3 : 3+k] {
		in.Lags = append(in.Lags, Lag{task, to, r.nums[3+k+i]})
	}
	return nil
}

// rowsOf reads the lines that are not empty, and how many lines there are.
func rowsOf(r io.Reader) (rows []row, line int, err error) {
	sc := bufio.NewScanner(r)
	plain := strings.NewReplacer("[", " ", "]", " ")
	for sc.Scan() {
		line++
		nums, err := numbers(line, plain.Replace(sc.Text()))
		if err != nil {
			return nil, line, err
		}
		if len(nums) > 0 {
			rows = append(rows, row{line, nums})
		}
	}
	return rows, line, sc.Err()
}

func first(rows []row) []int {
	if len(rows) == 0 {
		return nil
	}
	return rows[0].nums
}
