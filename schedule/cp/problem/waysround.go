package problem

// WaysRound makes of a model one in which there is a way round every thing: beside each
// pool, space, worker and supply stands one like it that never ends. Which of the
// ways round are open is then a matter of literals ([explain.reasons]), and one statement
// answers for every choice of facts. The things themselves keep their numbers; the way
// round thing i of n is n+i.
func WaysRound(m *Model) *Model {
	out := *m
	out.Pools = append([]Pool(nil), m.Pools...)
	for range m.Pools {
		out.Pools = append(out.Pools, Pool{Capacity: Infinite})
	}
	out.Spaces = append([]Space(nil), m.Spaces...)
	for range m.Spaces {
		out.Spaces = append(out.Spaces, Space{Capacity: Infinite})
	}
	out.Workers = append([]Worker(nil), m.Workers...)
	for range m.Workers {
		out.Workers = append(out.Workers, Worker{Windows: []Span{{m.From, m.Horizon}}, Many: true})
	}
	out.Intakes = append([]Intake(nil), m.Intakes...)
	for s, drawn := range m.Supplies() {
		if drawn {
			out.Intakes = append(out.Intakes, Intake{Supply: s, Ready: m.From, Until: m.Horizon, Amount: Infinite})
		}
	}
	out.Families = append([]Family(nil), m.Families...)
	for f := range out.Families {
		modes := make([]Mode, len(m.Families[f].Modes))
		for k := range modes {
			modes[k] = m.roundabout(&m.Families[f].Modes[k], 0)
		}
		out.Families[f].Modes = modes
	}
	out.Begun = append([]Begun(nil), m.Begun...)
	for b := range out.Begun {
		out.Begun[b].Mode = m.roundabout(&m.Begun[b].Mode, len(m.Begun[b].Starts))
	}
	return &out
}

// roundabout gives what a mode has yet to begin the ways round.
func (m *Model) roundabout(mode *Mode, begun int) Mode {
	out := *mode
	out.Acts = append([]Activity(nil), mode.Acts...)
	for i := begun; i < len(out.Acts); i++ {
		who := append([]int(nil), mode.Acts[i].Workers...)
		for _, w := range mode.Acts[i].Workers {
			who = append(who, len(m.Workers)+w)
		}
		out.Acts[i].Workers = who
	}
	out.Runs = append([]Run(nil), mode.Runs...)
	for r := range out.Runs {
		if mode.Runs[r].First < begun {
			continue
		}
		choices := append([]PoolChoice(nil), mode.Runs[r].Choices...)
		for _, c := range mode.Runs[r].Choices {
			choices = append(choices, PoolChoice{len(m.Pools) + c.Pool, c.Clean})
		}
		out.Runs[r].Choices = choices
	}
	out.Stays = append([]Stay(nil), mode.Stays...)
	for r := range out.Stays {
		if mode.Stays[r].First < begun {
			continue
		}
		spaces := append([]int(nil), mode.Stays[r].Spaces...)
		for _, s := range mode.Stays[r].Spaces {
			spaces = append(spaces, len(m.Spaces)+s)
		}
		out.Stays[r].Spaces = spaces
	}
	return out
}
