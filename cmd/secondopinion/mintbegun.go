package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// courseStage is a stage of the cheese that a batch under way is of: where it is, and how
// many hours its hold lasts at most.
type courseStage struct {
	name, at string
	most     int
}

// underWay adds, to two kitchens of five, a batch that is under way at some stage, its hold
// often past its most: by hours of which there may be none to make good. It draws by a
// chance of its own, so that the rest of a kitchen is what it is without it.
func (m *mint) underWay(r *rand.Rand) {
	if r.IntN(5) > 1 || m.has["begun batch"] || strings.Contains(m.files["begun.yaml"], "begun:") {
		return
	}
	before := len(m.course) // the packing
	if m.course[before-1].name == "pack" {
		before--
	}
	begun := 1 + r.IntN(before)
	hour := m.day*24 + m.starts
	var stages []string
	for k := begun - 1; k >= 0; k-- {
		g := m.course[k]
		rests := r.IntN(g.most + 1)
		if k == begun-1 && r.IntN(4) > 0 {
			rests = g.most + r.IntN(3) + r.IntN(2)*r.IntN(30)
			m.has["overdue"] = true
		}
		hour -= 1 + rests
		stages = append([]string{fmt.Sprintf("%s: %s", g.name, m.clock(hour))}, stages...)
	}
	where := ""
	if at := m.course[begun-1].at; at == "cave" || at == "fridge" {
		where = ", has: {at: " + at + "}"
	}
	if begun > 1 {
		m.has["begun later"] = true
	}
	left := ""
	if r.IntN(3) == 0 {
		left = ", pieces: 2"
	}
	m.has["begun batch"] = true
	m.files["begun.yaml"] += fmt.Sprintf("begun: [{id: C-9, cheese: Curd, litres: %d%s, stages: {%s}%s}]\n", m.litres, left, strings.Join(stages, ", "), where)
}

// clock writes an hour, counted from the midnight that begins the day before the first of the
// kitchen's month.
func (m *mint) clock(hour int) string {
	month, day := m.month, (hour+2400)/24-100
	if day < 1 {
		month, day = "2027-02", day+28 // the only month before that is drawn
	}
	return fmt.Sprintf("%s-%02d %02d:00", month, day, (hour%24+24)%24)
}
