// Package judge checks a plan against the problem it answers and works its score
// out again. It is written from the contract alone, one rule a function, and
// shares no code with what made the plan: it knows only the plain types of
// resources and schedule, and does its own arithmetic with clocks and dates. So a
// mistake in the planner is not repeated here.
//
// [Check] gives every breach as a [Violation]; none means that the plan holds,
// its score included: its eight parts are worked out again from batches, stages and
// shares.
//
// # What has happened is not judged
//
// A begun batch must stand in the plan as it was (past.go, begun.go). What it has
// broken by then, it has broken: a limit is broken by a plan only where a run of
// kit, a stay in the cold, a piece of work or a make that is still planned takes
// part in it (sweep.go).
//
// # What is not checked
//
// Some things cannot be told without planning again, and are taken as the plan
// tells them: that a hold past its most could not be ended sooner, and that boxes said
// not to fit fit nowhere. Each of them needs a warning of the plan. That no place takes what
// would have to be carried, or only one that is listed later, is doubted where boxes put one
// after another surely find room. That a batch is
// stuck is doubted only where it could certainly go on beside the others. The earliest
// and the latest start of a stage (slip_from, slip_until) are checked for what they may
// not exceed, not for being the earliest and the latest; that what is critical has no
// room follows from slip_until, and is taken from it.
//
// # Reading order
//
// judge.go (the list of rules), hearing.go and lot.go (a plan with everything
// looked up), past.go (what has happened), localtime.go and hours.go (clocks);
// then the rules: header.go, identity.go, begun.go, look.go, sitter.go, carry.go, carryroom.go, overdue.go, course.go, temperature.go, late.go,
// patience.go, stuck.go, size.go, work.go, people.go, kit.go, place.go, stay.go,
// shelf.go, spot.go, milk.go, care.go, share.go, stock.go, remembered.go, result.go, slip.go, history.go, changes.go;
// score.go, moved.go and proof.go. What is counted against a limit is in sweep.go.
package judge
