package schedule

import "slices"

// RulesOutMore reports whether the plan's proof rules out one piece more of one of its wants
// while no other gets less and nothing gets later: such a plan would be better in the part of
// the score that the want counts in, or in one before it. It says nothing of a want without a
// price.
func (p *Plan) RulesOutMore(w *WantResult) bool {
	own := Score{Short: 1}
	if w.Promised {
		own = Score{PromisedShort: 1}
	}
	of, score, bound := own.parts(), p.Score.parts(), p.Proof.Bound.parts()
	last := slices.Index(of[:], 1)
	return w.Price > 0 && slices.Equal(score[:last+1], bound[:last+1])
}
