package psplib

import (
	"fmt"
	"io"
	"slices"
)

// Dated is a project whose tasks are wanted at certain times. Every start lies in
// [0, Most]; each step before or after its wanted time costs.
type Dated struct {
	Instance
	Dues []Due // one for each task
	Most int   // latest start of any task
}

// Due is the start that is wanted of a task and what each step before or after it
// costs.
type Due struct{ At, Early, Late int }

// Cost is what a start costs.
func (d Due) Cost(start int) int { return d.Early*max(0, d.At-start) + d.Late*max(0, start-d.At) }

// ReadDZN reads a .dzn file with the eight names of the public sets with earliness
// and tardiness: n_tasks, n_res, d (lengths), rr (demands by thing), rc
// (capacities), suc (successors), t_max and deadline (wanted start, cost of a step
// before it, of a step after it). Each must be there once, and nothing else. An
// error is a [*Fault] or one of r.
func ReadDZN(r io.Reader) (*Dated, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	p := &dzn{words: wordsOf(string(text)), values: map[string]value{}}
	for p.at < len(p.words) {
		if err := p.assignment(); err != nil {
			return nil, err
		}
	}
	return p.dated()
}

// dated makes the project of the values read.
func (p *dzn) dated() (*Dated, error) {
	n, err := p.count("n_tasks", mostTasks)
	if err != nil {
		return nil, err
	}
	things, err := p.count("n_res", mostTasks)
	if err != nil {
		return nil, err
	}
	out := &Dated{}
	if out.Most, err = p.count("t_max", mostNumber); err != nil {
		return nil, err
	}
	if out.Lengths, err = p.list("d", n, 0); err != nil {
		return nil, err
	}
	if out.Capacity, err = p.list("rc", things, 0); err != nil {
		return nil, err
	}
	demands, err := p.list("rr", things*n, n)
	if err != nil {
		return nil, err
	}
	dues, err := p.list("deadline", 3*n, 3)
	if err != nil {
		return nil, err
	}
	for i := range n {
		row := make([]int, things)
		for k := range row {
			row[k] = demands[k*n+i]
		}
		out.Demands = append(out.Demands, row)
		out.Dues = append(out.Dues, Due{dues[3*i], dues[3*i+1], dues[3*i+2]})
	}
	if err := p.successors(out, n); err != nil {
		return nil, err
	}
	return out, out.check(p.last())
}

// successors turns the sets of followers into lags.
func (p *dzn) successors(out *Dated, n int) error {
	v, err := p.value("suc")
	if err != nil {
		return err
	}
	if len(v.sets) != n || v.nums != nil {
		return &Fault{v.line, "suc", fmt.Sprintf("%d sets", len(v.sets)), fmt.Sprintf("one for each of %d tasks", n)}
	}
	for i, set := range v.sets {
		for _, to := range set {
			if to < 1 || to > n {
				return &Fault{v.line, "a successor of task", []int{i + 1, to}, "a task that is there"}
			}
			out.Lags = append(out.Lags, Lag{i, to - 1, out.Lengths[i]})
		}
	}
	return nil
}

// count is one whole number from 0 to most.
func (p *dzn) count(name string, most int) (int, error) {
	v, err := p.value(name)
	if err != nil {
		return 0, err
	}
	if !v.single || v.nums[0] < 0 || v.nums[0] > most {
		return 0, &Fault{v.line, name, v.nums, fmt.Sprintf("one whole number up to %d", most)}
	}
	return v.nums[0], nil
}

// list is so many whole numbers, none below 0; of a table, with rows of across,
// its rows one after another.
func (p *dzn) list(name string, size, across int) ([]int, error) {
	v, err := p.value(name)
	if err != nil {
		return nil, err
	}
	if v.single || len(v.nums) != size || v.sets != nil || v.across != across {
		return nil, &Fault{v.line, name, fmt.Sprintf("%d numbers in rows of %d", len(v.nums), v.across), fmt.Sprintf("%d in rows of %d", size, across)}
	}
	return v.nums, notBelowZero(v.line, name, v.nums)
}

func (p *dzn) value(name string) (value, error) {
	v, there := p.values[name]
	if !there {
		return v, &Fault{p.last(), name, "nothing", "a value"}
	}
	return v, nil
}

// dznNames are the names that a file has.
var dznNames = []string{"n_tasks", "n_res", "d", "rr", "rc", "suc", "t_max", "deadline"}

func (p *dzn) assignment() error {
	w := p.next()
	if !slices.Contains(dznNames, w.text) {
		return &Fault{w.line, "a name", w.text, fmt.Sprint("one of ", dznNames)}
	}
	if _, twice := p.values[w.text]; twice {
		return &Fault{w.line, "a name", w.text, "each once"}
	}
	if err := p.want("="); err != nil {
		return err
	}
	v, err := p.read()
	if err != nil {
		return err
	}
	v.line = w.line
	p.values[w.text] = v
	return p.want(";")
}
