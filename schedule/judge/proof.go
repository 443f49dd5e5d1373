package judge

import "ripeby/schedule"

// parts gives the eight parts of a score in their order, each to be small.
func parts(s schedule.Score) [8]int64 {
	return [8]int64{int64(s.PromisedShort), s.Late, int64(s.Short), int64(s.Batches), int64(s.Moved), int64(s.Litres), s.Bother, -s.MakeStarts}
}

// levelAfter names the level at which so many parts are proved.
func levelAfter(proved int) schedule.Level {
	return [...]schedule.Level{schedule.LevelNone, schedule.LevelPromisedShort, schedule.LevelLate, schedule.LevelShort,
		schedule.LevelBatches, schedule.LevelMoved, schedule.LevelLitres, schedule.LevelBother, schedule.LevelAll}[proved]
}

// checkProof: the level is the last part that the bound proves with all before it,
// and best means all of them. No part of the bound is worse than the score's: the
// plan itself reaches that part, given the score's earlier ones.
func checkProof(h *hearing) {
	proof := &h.plan.Proof
	score, bound := parts(h.plan.Score), parts(proof.Bound)
	proved := 0
	for proved < len(score) && score[proved] == bound[proved] {
		proved++
	}
	if want := levelAfter(proved); proof.Level != want {
		h.fail("proof-level", "", 0, "got level %q, want %q: score %+v, bound %+v", proof.Level, want, h.plan.Score, proof.Bound)
	}
	if proof.Best != (proof.Level == schedule.LevelAll) {
		h.fail("proof-best", "", 0, "got best %v at level %q, want best just at level %q", proof.Best, proof.Level, schedule.LevelAll)
	}
	for i := range score {
		if bound[i] > score[i] {
			rule := "proof-bound"
			if i > proved {
				rule = "proof-bound-later"
			}
			h.fail(rule, string(levelAfter(i+1)), 0, "got bound %+v, want none that the score %+v beats", proof.Bound, h.plan.Score)
			return
		}
	}
}
