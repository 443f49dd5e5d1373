package main

import (
	"fmt"
	"strings"
)

// recipe draws the recipe of cheese i: a pot, a rest on a hook or in moulds, sometimes a
// ripening in the cold, and the packing.
func (m *mint) recipe(i int) {
	var b strings.Builder
	least := m.from(2, 3)
	m.boxTakes = m.from(2, 4)
	fmt.Fprintf(&b, "name: %s\n", m.cheeses[i])
	if m.milk && (i == 0 || m.chance(50)) {
		b.WriteString("milk: Hill cow\n")
	}
	fmt.Fprintf(&b, "yield: {pieces: %s}\n", m.word("1, from: 1 L", "2, from: 2 L", "3, from: 2 L"))
	b.WriteString(m.mark("spare", 20, "spare: 1\n"))
	serves := m.pick(1, 1, 2, 2, 3)
	fmt.Fprintf(&b, "batch: {least: %d L, most: %d L, step: %s, serves: %d}\n", least, least+m.from(0, 3), m.word("1 L", "1 L", "1500 mL"), serves)
	fmt.Fprintf(&b, "mould: ring\nbox: {name: tub, takes: %d}\nkeeps: %s\nstages:\n", m.boxTakes, m.word("2 d", "2 d", "3 d", "30 h"))
	m.cheese = i
	if i == 0 {
		m.litres = least
	}
	switch m.from(0, 3) {
	case 0:
		m.make(&b, 1)
		m.stage(&b, "drain", m.hands(), m.hold(8, 14), "", "hook")
	case 1:
		m.has["stage without work"] = true
		m.stage(&b, "make", m.hands(), "", "", "pot")
		m.stage(&b, "set", "", m.hold(5, 14), "", "pot")
		m.stage(&b, "mould", "hands: {fixed: 20 min, per_piece: 10 min}, ", m.hold(4, 10), "", "mould")
	case 2:
		m.make(&b, 1)
		m.stage(&b, "press", m.hands(), m.hold(3, 12), "", m.word("press", "press, mould"))
		m.has["ripening"] = true
		at := m.word(m.cold...)
		m.stage(&b, "ripen", m.hands(), m.hold(12, 20), at, "box")
		if m.chance(20) {
			m.has["packing without work"] = true
			m.stage(&b, "pack", "", "", at, "box")
			m.files[m.fileOf(i)] = b.String()
			return
		}
	case 3:
		m.has["stay of two stages"] = true
		m.make(&b, 0)
		at := m.word(m.cold...)
		m.stage(&b, "mould", m.hands(), m.hold(3, 10), at, "mould, box")
		m.stage(&b, "chill", "", m.hold(4, 10), at, "mould, box")
	}
	m.pack(&b)
	m.files[m.fileOf(i)] = b.String()
}

// fileOf is the file of cheese i.
func (m *mint) fileOf(i int) string { return "recipes/" + strings.ToLower(m.cheeses[i]) + ".yaml" }

func (m *mint) make(b *strings.Builder, least int) {
	m.stage(b, "make", "hands: {fixed: "+m.word("30 min, per_litre: 15 min", "50 min", "60 min, per_litre: 20 min")+"}, ", m.hold(least*m.from(1, 8), 12), "", m.word("pot", "pot", "tall pot"))
	if m.cheese == 0 {
		m.rests = m.course[0].most
	}
}

// pack draws the last stage.
func (m *mint) pack(b *strings.Builder) {
	extra := ""
	if m.chance(30) {
		m.has["another kind of box"] = true
		extra = fmt.Sprintf(", box: {name: carton, takes: %d}", m.from(2, 4))
	} else {
		extra = m.mark("fresh boxes", 25, ", fresh: [box]")
	}
	hold := m.mark("last hold", 12, "hold: {least: 5 h, most: 40 h}, ")
	fmt.Fprintf(b, "  - {stage: pack, %s%sat: %s, uses: [box]%s}\n", m.hands(), hold, m.word(m.cold...), extra)
}

func (m *mint) hands() string {
	who := m.mark("who", 8, "who: [Ann], ")
	return "hands: {fixed: " + m.word("20 min", "60 min", "30 min", "40 min, per_piece: 5 min") + "}, " + who
}

// hold draws a hold of at least so many hours or a little more, with so much room.
func (m *mint) hold(least, room int) string {
	least += m.from(0, 3)
	most := least + m.from(2, room)
	m.rested = most
	best := m.maybe(80, fmt.Sprintf("best: %d h, ", m.from(least, most)))
	return fmt.Sprintf("hold: {least: %d h, %smost: %d h}, ", least, best, most)
}

func (m *mint) stage(b *strings.Builder, name, hands, hold, at, uses string) {
	if m.cheese == 0 {
		m.course = append(m.course, courseStage{name, at, m.rested})
		m.rested = 0
	}
	if at != "" {
		at = "at: " + at + ", "
	}
	fmt.Fprintf(b, "  - {stage: %s, %s%s%suses: [%s]}\n", name, hands, hold, at, uses)
}

// targets draws one to three targets of the last days.
func (m *mint) targets() {
	var b strings.Builder
	b.WriteString("targets:\n")
	n := m.from(1, 3)
	for i := range n {
		day := m.days
		if i > 0 {
			day = m.from(max(2, m.days-2), m.days)
		}
		if m.zone != "UTC" {
			day = min(day, 5) // the month has 31 days
		}
		fmt.Fprintf(&b, "  - name: %s\n    by: %s %s\n", []string{"market", "stall", "inn"}[i], m.date(day), m.word("12:00", "16:00", "09:00", "11:30"))
		b.WriteString(m.mark("packed early", 20, fmt.Sprintf("    packed: %d h\n", m.from(1, 12))))
		b.WriteString("    want:\n")
		for k, cheese := range m.cheeses {
			if k > 0 && m.chance(40) {
				continue
			}
			fmt.Fprintf(&b, "      - {cheese: %s, pieces: %d, price: %d.%d0}\n", cheese, m.from(1, 4), m.from(0, 4), m.from(1, 9))
			b.WriteString(m.mark("promised", 30, fmt.Sprintf("      - {cheese: %s, pieces: %d, price: 5.00, promised: true}\n", cheese, m.from(1, 3))))
		}
	}
	m.files["targets.yaml"] = b.String()
}

// begun draws stock, ordered milk, and a batch whose make has begun.
func (m *mint) begun() {
	var b strings.Builder
	if m.chance(30) {
		m.has["stock"] = true
		fmt.Fprintf(&b, "stock: [{cheese: Curd, pieces: %d, packed: %s-%02d 20:00, at: cave, boxes: 1}]\n", m.from(1, 3), m.month, m.day-1)
	}
	if m.milk && m.chance(25) {
		m.has["ordered"] = true
		fmt.Fprintf(&b, "ordered: [{milk: Hill cow, day: %s, litres: %d}]\n", m.date(m.pick(0, 1, 3)), m.from(2, 5))
	}
	if m.rests > 0 && m.chance(35) {
		m.has["begun batch"] = true
		day, hour := m.day, m.starts-m.from(2, m.rests)
		for hour < 0 {
			day, hour = day-1, hour+24
		}
		fmt.Fprintf(&b, "begun: [{id: C-1, cheese: Curd, litres: %d, stages: {make: %s-%02d %02d:00}}]\n", m.litres, m.month, day, hour)
	}
	if b.Len() > 0 {
		m.files["begun.yaml"] = b.String()
	}
}
