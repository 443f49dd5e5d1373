package chain

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Schedule is a ledger into which jobs are placed exactly, with what has been worked out for
// that of its model.
type Schedule struct {
	usage.Ledger
	Prep  *Prepared
	Flat  bool // what waiting costs is not asked for
	Limit Limit
}

// NewSchedule is a model's schedule with nothing in it.
func NewSchedule(m *problem.Model) *Schedule {
	s := EmptySchedule(m, prepare(m))
	return &s
}

// EmptySchedule is a schedule with nothing in it that shares what has been worked out with
// others of its kitchen.
func EmptySchedule(m *problem.Model, prep *Prepared) Schedule {
	return Schedule{Ledger: usage.NewLedger(m, prep.Packed), Prep: prep}
}
