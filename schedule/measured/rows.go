package measured

import (
	"cmp"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// Row is one measure of a batch with what was written down of it, by time; Said is empty where that is a blank yet.
type Row struct {
	schedule.Measure
	Said []schedule.Measured
}

// Last is what was written down last; nil for a blank.
func (r *Row) Last() *schedule.Measured {
	if len(r.Said) == 0 {
		return nil
	}
	return &r.Said[len(r.Said)-1]
}

// Outside is [Outside] of what was written down last; "" for a blank too.
func (r *Row) Outside() string {
	if last := r.Last(); last != nil {
		return Outside(&r.Measure, last.Is)
	}
	return ""
}

// Rows gives the measures of a batch, in their order, with what was said of each. A word that was said with a stage is
// of that stage; one that was said alone is of the last stage that has begun by then and asks for it, and of the first
// that does where none has. Began gives when a stage began, or is to; 0 where that is not known. What no measure asks
// for is in no row.
func Rows(measures []schedule.Measure, began func(stage string) resources.Moment, said []schedule.Measured) []Row {
	rows := make([]Row, len(measures))
	for i := range measures {
		rows[i].Measure = measures[i]
	}
	said = slices.Clone(said)
	slices.SortStableFunc(said, func(a, b schedule.Measured) int { return cmp.Compare(a.At, b.At) })
	for _, s := range said {
		if i := of(measures, began, &s); i >= 0 {
			rows[i].Said = append(rows[i].Said, s)
		}
	}
	return rows
}

// Find is the measure that a word is of, as [Rows] has it; nil for none.
func Find(measures []schedule.Measure, began func(stage string) resources.Moment, s *schedule.Measured) *schedule.Measure {
	if i := of(measures, began, s); i >= 0 {
		return &measures[i]
	}
	return nil
}

// of is which measure a word is of; -1 for none. A name is the same in capitals and small letters: "ph" is pH.
func of(measures []schedule.Measure, began func(stage string) resources.Moment, s *schedule.Measured) int {
	found, first := -1, -1
	for i := range measures {
		m := &measures[i]
		if !strings.EqualFold(m.What, s.What) || s.Stage != "" && s.Stage != m.Stage {
			continue
		}
		if first < 0 {
			first = i
		}
		if at := began(m.Stage); at != 0 && at <= s.At {
			found = i
		}
	}
	if found < 0 {
		return first
	}
	return found
}

// Blank are the measures of a stage of which nothing is written down yet.
func Blank(rows []Row, stage string) (all []schedule.Measure) {
	for i := range rows {
		if rows[i].Stage == stage && len(rows[i].Said) == 0 {
			all = append(all, rows[i].Measure)
		}
	}
	return all
}
