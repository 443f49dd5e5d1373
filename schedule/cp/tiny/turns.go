package tiny

import (
	"slices"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
)

// LagAt is the lag as it is when it begins at a tick: by the last turn that has come by then, else the
// first.
func LagAt(lag problem.Lag, begins int) problem.Lag {
	is := lag
	for k, turn := range lag.Turns {
		if k == 0 || turn.From <= begins {
			is = *turn.Lag
		}
	}
	return is
}

// drawTurns has some lags be others from some tick on.
func drawTurns(t *rapid.T, m *problem.Model) {
	for f := range m.Families {
		modes := m.Families[f].Modes
		n := len(modes[0].Acts) - 1
		if n == 0 {
			continue
		}
		i := DrawInt(t, 0, n-1, "turning")
		turns, first := drawTurn(t, m, modes[0].Acts, i), &modes[0].Acts[0]
		for k, shared := range slices.Clone(modes) {
			if k > 0 && &shared.Acts[0] == first { // the sizes share them
				modes[k].Acts = modes[0].Acts
				continue
			}
			modes[k].Acts = slices.Clone(modes[k].Acts)
			own := modes[k].Acts[i].Lag
			modes[k].Acts[i].Lag = problem.Turning(append([]problem.Turn{{Lag: &own}}, turns...))
		}
	}
	for b := range m.Begun {
		mode := &m.Begun[b].Mode
		if n := len(mode.Acts) - 1; n > 0 {
			mode.Acts = slices.Clone(mode.Acts)
			i := DrawInt(t, 0, n-1, "turning, begun")
			own := mode.Acts[i].Lag
			turns := drawTurn(t, m, mode.Acts, i)
			for k := range turns {
				if lag := turns[k].Lag; own.Past != nil {
					unit, most := DrawInt(t, 1, 4, "late by, then"), lag.Most
					lag.Past = &problem.Beyond{Of: func(l int) (late, cost int32) { return int32((l - most) / unit), int32(200 + l - most) }}
				}
			}
			mode.Acts[i].Lag = problem.Turning(append([]problem.Turn{{Lag: &own}}, turns...))
		}
	}
}

// drawTurn is one or two turns of the lag after an activity.
func drawTurn(t *rapid.T, m *problem.Model, acts []problem.Activity, i int) []problem.Turn {
	var out []problem.Turn
	at := m.From
	for range DrawInt(t, 1, 2, "turns") {
		at += DrawInt(t, 0, 9, "turns after")
		lag := drawLag(t, m, DrawInt(t, 0, 3, "least, then"), DrawInt(t, 0, 4, "wide, then"))
		if acts[i+1].Work == 0 && lag.Least == 0 { // never two activities at one moment
			lag.Least, lag.Most = lag.Least+m.Step, lag.Most+m.Step
		}
		out = append(out, problem.Turn{From: at, Lag: &lag})
	}
	return out
}
