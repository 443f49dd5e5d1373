package problem

// RunningStay is the stay that the last begun activity is in, -1 for none.
func (b *Begun) RunningStay() int {
	k := len(b.Starts)
	for r := range b.Mode.Stays {
		if st := &b.Mode.Stays[r]; st.First < k && k-1 <= st.Last {
			return r
		}
	}
	return -1
}

// Held is what has begun of a job, left where it is for so long after its last start.
func (b *Begun) Held(long int) Begun {
	out := *b
	out.Left, out.Latest = b, nil
	n := len(b.Starts)
	mode := &out.Mode
	mode.Units = 0
	mode.Acts = append([]Activity(nil), b.Mode.Acts[:n]...)
	mode.Acts[n-1].Lag = Lag{Least: long, Most: Infinite}
	mode.Runs, mode.Stays, out.Choices, out.Homes = nil, nil, nil, nil
	for r, run := range b.Mode.Runs {
		if run.First < n {
			run.Last = min(run.Last, n-1)
			mode.Runs, out.Choices = append(mode.Runs, run), append(out.Choices, b.Choices[r])
		}
	}
	for r, stay := range b.Mode.Stays {
		if stay.First < n {
			stay.Last = min(stay.Last, n-1)
			mode.Stays, out.Homes = append(mode.Stays, stay), append(out.Homes, b.Homes[r])
		}
	}
	return out
}

// DueBy is when the running lag of a job under way is over at the latest.
func (b *Begun) DueBy() int {
	k := len(b.Starts)
	if k == 0 {
		return 0
	}
	return b.Starts[k-1] + b.Mode.Acts[k-1].Work + b.Mode.Acts[k-1].Lag.Most
}

// StandsFor is since when the boxes of a stay that has begun stand there, and until when at the
// latest.
func (b *Begun) StandsFor(stay int) (since, until int) {
	h := b.Mode.Stays[stay].Occupied()
	since = b.Starts[h.From.Act] + b.Mode.After(h.From)
	until = since + b.Mode.Between(h.From, h.Until, MostLag)
	if h.Until.Act == len(b.Mode.Acts) {
		until += LastLag(&b.Mode).Most
	}
	return since, until
}
