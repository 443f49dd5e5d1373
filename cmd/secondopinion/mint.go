package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// mint draws small kitchen folders by chance, the same for the same seed: coarse grids,
// a few days, few pieces, so that a general solver can answer them. Kit and hours are
// drawn so scarce that batches often get in each other's way.
type mint struct {
	r     *rand.Rand
	files map[string]string
	has   map[string]bool // features, for the tally

	zone, month string
	day         int // of the planning start
	days        int // until the last target
	hour        int // steps an hour
	cheeses     []string
	cold        []string // places that stages may name
	milk        bool
	boxTakes    int
	cheese      int           // the one being drawn
	litres      int           // of the least batch of the first cheese
	rests       int           // hours after the make of the first cheese, at most; 0 for none
	rested      int           // hours of the last hold drawn, at most
	starts      int           // hour of the planning start
	course      []courseStage // of the first cheese
}

// drawn is one kitchen folder.
type drawn struct {
	files map[string]string
	from  string
	has   map[string]bool
}

// newKitchen draws kitchen number n of a seed.
func newKitchen(seed uint64, n int) drawn {
	m := &mint{r: rand.New(rand.NewPCG(seed, uint64(n))), files: map[string]string{}, has: map[string]bool{}}
	m.zone, m.month, m.day = "UTC", "2027-03", 2
	if m.chance(25) {
		m.zone, m.day = "Europe/Dublin", 26 // clocks change on 28 March 2027: IANA time zone database
		m.has["clock change"] = true
	}
	m.days = m.from(3, 4)
	m.hour = m.pick(1, 1, 1, 2)
	m.cheeses = []string{"Curd", "Wheel"}[:m.pick(1, 1, 2)]
	if len(m.cheeses) > 1 {
		m.has["two cheeses"] = true
	}
	m.starts = m.pick(6, 7, 7, 9)
	m.kitchen()
	for i := range m.cheeses {
		m.recipe(i)
	}
	m.targets()
	m.begun()
	m.underWay(rand.New(rand.NewPCG(seed, uint64(n)^1<<40)))
	m.standing(rand.New(rand.NewPCG(seed, uint64(n)^1<<41)))
	m.stacks(rand.New(rand.NewPCG(seed, uint64(n)^1<<42)))
	return drawn{m.files, fmt.Sprintf("%s-%02d %02d:%s", m.month, m.day, m.starts, m.word("00", "00", "00", "20")), m.has}
}

// standing has milk come without an order in every other kitchen that has any.
func (m *mint) standing(r *rand.Rand) {
	if m.milk && r.IntN(2) == 0 {
		m.has["standing"] = true
		m.files["kitchen.yaml"] = strings.Replace(m.files["kitchen.yaml"], "keeps: ", fmt.Sprintf("standing: %d L, keeps: ", 1+r.IntN(3)), 1)
	}
}

// topShelf is the upper shelf of the fridge, up to its height.
var topShelf = regexp.MustCompile(`(name: top, size: \d+ x \d+ x )\d+`)

// stacks says of some boxes that they stand on no others, or on those of their batch alone; and has
// room for three on one another on some shelves.
func (m *mint) stacks(r *rand.Rand) {
	if r.IntN(3) > 0 {
		m.files["kitchen.yaml"] = topShelf.ReplaceAllString(m.files["kitchen.yaml"], "${1}31")
	}
	for _, box := range []string{"tub", "carton"} {
		if text := []string{"", "", "", "", ", stack: batch", ", stack: no"}[r.IntN(6)]; text != "" {
			m.has["boxes not on their kind"] = true
			m.files["kitchen.yaml"] = strings.Replace(m.files["kitchen.yaml"], "{name: "+box, "{name: "+box+text, 1)
		}
	}
}

// write puts the folder on the disk.
func (d drawn) write(dir string) error {
	for name, text := range d.files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

func (m *mint) from(least, most int) int   { return least + m.r.IntN(most-least+1) }
func (m *mint) chance(percent int) bool    { return m.r.IntN(100) < percent }
func (m *mint) pick(list ...int) int       { return list[m.r.IntN(len(list))] }
func (m *mint) word(list ...string) string { return list[m.r.IntN(len(list))] }
func (m *mint) date(after int) string      { return fmt.Sprintf("%s-%02d", m.month, m.day+after) }
func (m *mint) maybe(p int, s string) string {
	if m.chance(p) {
		return s
	}
	return ""
}

// mark remembers a feature by its text, and gives the text.
func (m *mint) mark(feature string, percent int, text string) string {
	if !m.chance(percent) {
		return ""
	}
	m.has[feature] = true
	return text
}

func (m *mint) kitchen() {
	var b strings.Builder
	fmt.Fprintf(&b, "kitchen: {name: Reed Farm, timezone: %s, step: %d min}\npeople:\n", m.zone, 60/m.hour)
	for i, name := range []string{"Ann", "Ben"}[:m.pick(1, 1, 2)] {
		if i == 1 {
			m.has["two people"] = true
		}
		fmt.Fprintf(&b, "  - {name: %s, hours: [%q%s]%s%s%s}\n", name, m.hours(i), m.maybe(45, `, "daily 17:00-22:00"`),
			m.mark("rather not", 35, `, rather_not: ["`+m.word("daily 07:00-09:30", "sat,sun 06:00-20:00", "daily 15:00-22:00")+`"]`),
			m.mark("most per day", 25, fmt.Sprintf(", most_per_day: %d h", m.from(2, 4))),
			m.mark("away", 20, fmt.Sprintf(", away: [{from: %s, until: %s}]", m.date(1), m.date(1))))
	}
	b.WriteString(m.mark("round", 30, fmt.Sprintf("round: {at: %q, for: %d min}\n", m.word("08:00", "09:15", "12:00"), m.pick(15, 30, 60))))
	fmt.Fprintf(&b, "pots:\n  - {name: tall pot, holds: %d L, clean: %d min}\n", m.from(3, 5), m.pick(0, 30, 60, 120))
	if m.chance(35) {
		m.has["two pots"] = true
		fmt.Fprintf(&b, "  - {name: wide pot, holds: %d L}\n", m.from(2, 4))
	}
	fmt.Fprintf(&b, "stations: [{name: hook, count: %d, takes: %s, clean: %d min}, {name: press%s}]\n",
		m.from(1, 2), m.word("3 L", "6 L", "3 pieces"), m.pick(0, 0, 60), m.maybe(30, ", count: 2"))
	fmt.Fprintf(&b, "moulds: [{name: ring, count: %d, clean: %d min}]\n", m.from(4, 9), m.pick(0, 60))
	fmt.Fprintf(&b, "boxes: [{name: tub, count: %d, size: 30 x 20 x 10 cm, clean: %d min}, {name: carton, count: %d, size: 20 x 20 x 10 cm}]\n",
		m.from(2, 4), m.pick(0, 0, 60), m.from(2, 5))
	m.places(&b)
	if m.chance(45) {
		m.milk, m.has["milk"] = true, true
		fmt.Fprintf(&b, "milk: [{name: Hill cow, days: [%s], ready: %q, keeps: %s, order: %s%s%s}]\n",
			m.word("daily", "daily", "mon-fri", "tue,wed,fri,sat"), m.word("07:00", "07:30", "12:00"), m.word("20 h", "2 d", "9 h"),
			m.word("0 h", "0 h", "12 h", "1 d"), m.maybe(60, fmt.Sprintf(", most: %d L", m.from(3, 7))),
			m.maybe(20, fmt.Sprintf(", closed: [%s]", m.date(1))))
	}
	m.files["kitchen.yaml"] = b.String()
}

func (m *mint) hours(i int) string {
	if i == 1 {
		return m.word("daily 13:00-16:00", "fri,sat,sun,mon 08:00-12:00", "mon-fri 09:00-11:00")
	}
	if m.chance(50) {
		return m.word("daily 05:00-22:00", "daily 06:00-21:00", "daily 00:00-24:00")
	}
	return m.word("daily 06:00-20:00", "daily 07:00-19:00", "daily 08:00-14:00", "mon-fri 07:00-18:00", "daily 18:00-01:00", "daily 06:30-10:30", "daily 09:00-21:00")
}

// places draws one counted place, and sometimes a measured one beside it.
func (m *mint) places(b *strings.Builder) {
	taken := func() string {
		return m.mark("taken", 15, fmt.Sprintf(", taken: [{from: %s, until: %s}]", m.date(m.from(1, 2)), m.date(m.from(2, 3))))
	}
	fmt.Fprintf(b, "cold:\n  - {name: cave, temperature: 11 °C, boxes: %d%s}\n", m.from(1, 3), taken())
	m.cold = []string{"cave"}
	if !m.chance(35) {
		return
	}
	m.has["shelves"] = true
	m.cold = append(m.cold, "fridge", "3-12 °C", "fridge")
	fmt.Fprintf(b, "  - name: fridge\n    temperature: 4 °C\n    shelves:\n")
	fmt.Fprintf(b, "      - {name: top, size: %s%s}\n", m.word("30 x 20 x 10 cm", "40 x 30 x 12 cm", "52 x 21 x 21 cm", "25 x 41 x 15 cm"), taken())
	b.WriteString(m.maybe(40, "      - {name: low, size: 30 x 40 x 10 cm}\n"))
}
