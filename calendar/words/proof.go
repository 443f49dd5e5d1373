package words

import "ripeby/schedule"

// Proof says in one sentence how good a plan is known to be. The parts of the
// order come one after another, so what is proved of one holds with all before it.
func Proof(p schedule.Proof) string {
	switch p.Level {
	case schedule.LevelAll:
		return "Proved: there is no better plan."
	case schedule.LevelBother:
		return "Proved but for one thing: the same cheese might be made a little later, and so be fresher."
	case schedule.LevelLitres:
		return "Proved: no plan meets more of what is wanted, and none that meets as much needs fewer batches or less milk; one with less bother might exist."
	case schedule.LevelBatches, schedule.LevelMoved:
		return "Proved: no plan meets more of what is wanted, and none that meets as much needs fewer batches; one with less milk might exist."
	case schedule.LevelShort:
		return "Proved: no plan meets more of what is wanted; one with fewer batches might exist."
	case schedule.LevelLate:
		return "Proved: no plan meets more of what is promised, and none lets what has begun wait less past its time; one that meets more of what else is wanted might exist."
	case schedule.LevelPromisedShort:
		return "Proved: no plan meets more of what is promised; one that lets what has begun wait less past its time, or meets more of what else is wanted, might exist."
	}
	return "Not proved: a better plan might exist."
}
