package problem

import "sort"

// Many jobs under way have their lags in common: what these are like past their time is worked
// out once, as far as any of them goes on, and each has as much of it as it may.

// stretches are lags with what they are like past their time.
type stretches map[lagKey]*Lag

// lagKey tells lags apart by where their costs are, and by what tells of them beyond.
type lagKey struct {
	past        *Beyond
	cost, late  *int32
	least, most int
}

func keyOf(l *Lag) lagKey {
	first := func(row []int32) *int32 {
		if len(row) == 0 {
			return nil
		}
		return &row[0]
	}
	return lagKey{l.Past, first(l.Cost), first(l.Late), l.Least, l.Most}
}

// lateBy is the lag with what it may go on to: so late, and so long, at the most.
func (s stretches) lateBy(l Lag, most int64, reach int) Lag {
	key := keyOf(&l)
	long := s[key]
	if long == nil {
		long = l.inTime()
		s[key] = long
	}
	long.goOn(most, reach)
	n := l.Most - l.Least + 1 // in time it may be however late that is
	n += sort.Search(min(long.Most, max(reach, l.Most))-l.Most, func(x int) bool { return int64(long.Late[n+x]) > most })
	out := *long
	out.Most, out.Late, out.Cost, out.Past = l.Least+n-1, long.Late[:n:n], long.Cost[:n:n], nil
	return out
}

// inTime is the lag, with how late it is in time, ready to go on.
func (l *Lag) inTime() *Lag {
	out := *l
	out.InTime = l.Most
	out.Late = append([]int32(nil), l.Late...)
	if l.Late == nil {
		out.Late = make([]int32, l.Most-l.Least+1)
	}
	out.Cost = append([]int32(nil), l.Cost...)
	for len(out.Cost) < len(out.Late) {
		out.Cost = append(out.Cost, 0)
	}
	return &out
}

// goOn lengthens a lag up to so late, and so long, at the most.
func (l *Lag) goOn(most int64, reach int) {
	for ; l.Most < reach; l.Most++ {
		late, cost := l.Past.Of(l.Most + 1)
		if int64(late) > most {
			break
		}
		l.Late, l.Cost = append(l.Late, late), append(l.Cost, cost)
	}
}
