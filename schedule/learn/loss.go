package learn

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule/record/trace"
)

// Loss is what a cheese loses in weight between two stages at which it was weighed.
type Loss struct {
	From, To string
	Batches  int
	// Share is the loss of all batches together, and Least to Most what single ones lost; Days how long lay
	// between, half of the time. All are 0 where it was weighed of under [Fewest] batches.
	Share, Least, Most float64
	Days               int
}

// weighed is a batch between its first and its last weighing, by the piece.
type weighed struct {
	from, to    string
	first, last float64 // milligrams a piece
	pieces      int     // at the last
	between     resources.Minutes
	lost        float64
}

// lossOf learns what was lost, apart for every two stages: what was weighed with the whey in it is another
// loss than that of ripening.
func lossOf(made []trace.Made) (out []Loss) {
	var all []weighed
	for i := range made {
		if w, ok := weighedTwice(&made[i]); ok {
			all = append(all, w)
		}
	}
	for _, w := range all {
		if slices.ContainsFunc(out, func(l Loss) bool { return l.From == w.from && l.To == w.to }) {
			continue
		}
		out = append(out, lossBetween(w.from, w.to, all))
	}
	return out
}

// weighedTwice takes the first and the last weighing of a batch at different stages, a day apart at the
// least, of which it is known how many pieces there were.
func weighedTwice(m *trace.Made) (w weighed, ok bool) {
	var known []trace.Weighed
	for _, x := range m.Weighed {
		if x.Pieces > 0 && x.Stage != "" {
			known = append(known, x)
		}
	}
	if m.Lost || len(known) < 2 {
		return w, false
	}
	first, last := known[0], known[len(known)-1]
	each := func(x trace.Weighed) float64 { return float64(x.Weight) / float64(x.Pieces) }
	w = weighed{from: first.Stage, to: last.Stage, first: each(first), last: each(last), pieces: last.Pieces, between: last.At.Sub(first.At)}
	w.lost = 1 - w.last/w.first
	return w, first.Stage != last.Stage && w.between >= resources.Day
}

// lossBetween is what all batches lost that were weighed at the same two stages.
func lossBetween(from, to string, all []weighed) Loss {
	l := Loss{From: from, To: to}
	var before, after float64
	var shares []float64
	var between []resources.Minutes
	for _, w := range all {
		if w.from == from && w.to == to {
			l.Batches++
			before += w.first * float64(w.pieces)
			after += w.last * float64(w.pieces)
			shares = append(shares, w.lost)
			between = append(between, w.between)
		}
	}
	if l.Batches >= Fewest {
		l.Share, l.Least, l.Most = 1-after/before, slices.Min(shares), slices.Max(shares)
		l.Days = int((rangeOf(between).Median + resources.Day/2) / resources.Day)
	}
	return l
}
