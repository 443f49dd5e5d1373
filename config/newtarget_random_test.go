package config

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
)

// lay draws a targets.yaml of some layout.
type lay struct {
	t     *rapid.T
	n     int    // targets so far
	brk   string // how lines end
	lines []string
}

func (l *lay) odds(of int) bool { return rapid.IntRange(1, of).Draw(l.t, "odds") == 1 }

func (l *lay) one(of ...string) string { return rapid.SampledFrom(of).Draw(l.t, "one") }

func (l *lay) number(of ...int) int { return rapid.SampledFrom(of).Draw(l.t, "number") }

func (l *lay) add(text string) { l.lines = append(l.lines, text) }

// note draws a comment for the end of a line, most often none.
func (l *lay) note() string {
	if l.odds(4) {
		return l.one("", " ") + " " + l.one("# é: [", "# }", "# - {name: \"x", "#", "# 'tis, so", "# * & ! |")
	}
	return ""
}

// remarks draws lines that say nothing, indented in any way.
func (l *lay) remarks() {
	for l.odds(3) {
		l.add(l.one("", "  ", "# all", "  # two", "    # - name: four", "      # by: six", "         # deep", " # ] }"))
	}
}

// text draws one of the ways to write a text that is no more than a line.
func (l *lay) text(text string, deeper string) string {
	anchor := ""
	if l.odds(12) {
		anchor = fmt.Sprintf("&a%d ", l.n)
	}
	escaped := strings.NewReplacer(`\`, `\\`, `"`, `\"`)
	forms := []string{"'" + strings.ReplaceAll(text, "'", "''") + "'", `"` + escaped.Replace(text) + `"`}
	if plain(text) {
		forms = append(forms, text, text)
	}
	if first, rest, ok := strings.Cut(text, " "); ok && deeper != "" {
		forms = append(forms, `"`+escaped.Replace(first)+l.brk+deeper+" "+escaped.Replace(rest)+`"`,
			"|-"+l.brk+deeper+text, ">-"+l.brk+deeper+first+l.brk+deeper+rest)
		if plain(text) {
			forms = append(forms, first+l.brk+deeper+rest)
		}
	}
	return anchor + l.one(forms...)
}

// keys draws the keys of a target and what is written under them; deeper indents a
// line that goes on, "" for brackets.
func (l *lay) keys(deeper string) [][2]string {
	l.n++
	name := fmt.Sprintf("%s %d", l.one("Market", "Nell's", "#", "a: b", "- c", `"q"`, "é", "チ"), l.n)
	keys := [][2]string{{"name", l.text(name, deeper)}}
	moment := fmt.Sprintf("%d-%02d-%02d 07:00", l.number(2026, 2027), rapid.IntRange(4, 12).Draw(l.t, "month"), rapid.IntRange(1, 28).Draw(l.t, "day"))
	switch {
	case l.odds(6):
		keys = append(keys, [2]string{"by", "{feast: easter, time: \"15:00\"}"})
	case l.odds(4):
		keys = append(keys, [2]string{"by", "2027-04-03 08:00"}, [2]string{"every", l.one("week", "2 weeks")}, [2]string{"until", "2027-05-03"})
	default:
		keys = append(keys, [2]string{"by", l.text(moment, deeper)})
	}
	if l.odds(3) {
		keys = append(keys, [2]string{"packed", l.text(l.one("2 h", "30 min"), deeper)})
	}
	if deeper != "" && l.odds(6) {
		keys = append(keys, [2]string{"packed", ""})
	}
	if len(keys) > 1 && keys[len(keys)-2][0] == "packed" {
		keys = keys[:len(keys)-1]
	}
	if !l.odds(5) {
		keys = append(keys, [2]string{"want", "[" + l.wants() + l.one("", " ", ",") + "]"})
	}
	if l.odds(2) {
		slices.Reverse(keys)
	}
	return keys
}

// wants draws what is wanted, one at least.
func (l *lay) wants() string {
	wants := "{cheese: Second, pieces: 3}"
	if l.odds(2) {
		wants += l.one(",", ", ") + `{cheese: 'Nan''s "blue": #1', price: 2.50, pieces: 4, promised: true` + l.one("}", " }", ", }")
	}
	return wants
}

// braces draws a target in braces, on one line or more.
func (l *lay) braces(indent string) string {
	quote := l.one("", "", `"`)
	gap := func() string {
		if l.odds(8) {
			return l.note() + l.brk + indent + "  "
		}
		return l.one("", " ")
	}
	text := "{"
	keys := l.keys("")
	for i, k := range keys {
		text += gap() + quote + k[0] + quote + ":" + " " + k[1]
		if i < len(keys)-1 {
			text += gap() + "," + l.one("", " ")
		}
	}
	return text + l.one("", ",") + gap() + "}"
}

// block draws a target in lines.
func (l *lay) block(indent string) {
	gap := l.one(" ", " ", "   ")
	lead := indent + "-" + gap
	within := strings.Repeat(" ", len(lead))
	if l.odds(8) {
		l.add(indent + "-" + l.note())
		lead = within
	}
	for _, k := range l.keys(within + "  ") {
		switch {
		case k[0] == "want" && l.odds(2):
			deeper := l.one("", "  ", " ")
			l.add(lead + "want:" + l.note())
			l.remarks()
			l.add(within + deeper + "- {cheese: Second, pieces: 3}" + l.note())
			if l.odds(2) {
				l.add(within + deeper + "- cheese: 'Nan''s \"blue\": #1'")
				l.add(within + deeper + "  pieces: 4" + l.note())
			}
		case strings.Contains(k[1], l.brk) || k[1] == "":
			l.add(lead + strings.TrimSpace(k[0]+": "+k[1]))
		default:
			l.add(lead + k[0] + ": " + k[1] + l.note())
		}
		lead = within
		if l.odds(10) && !strings.ContainsAny(k[1], "\r\n") {
			l.remarks()
		}
	}
}

// list draws the whole list, in lines or in brackets.
func (l *lay) list() {
	count := rapid.IntRange(0, 4).Draw(l.t, "count")
	switch {
	case count == 0:
		l.add(l.one("targets:", "targets: []", "targets: [ ]", "targets: &a []", `"targets": []`) + l.note())
	case l.odds(3):
		text := "targets: ["
		for i := range count {
			if l.odds(2) {
				text += l.note() + l.brk + l.one("  ", "    ", " ")
			}
			text += l.braces("  ")
			if i < count-1 {
				text += l.one(",", " ,") + l.one(" ", "")
			}
		}
		text += l.one("", "", ",", " ,")
		if l.odds(2) {
			text += l.note() + l.brk + " "
		}
		l.add(text + "]" + l.note())
	default:
		l.add("targets:" + l.note())
		indent := l.one("", "  ", "  ", "    ")
		for range count {
			l.remarks()
			if l.odds(3) {
				l.add(indent + "- " + l.braces(indent) + l.note())
			} else {
				l.block(indent)
			}
		}
	}
}

// file draws a whole file.
func (l *lay) file() string {
	l.remarks()
	marks := l.odds(4)
	if marks {
		l.add("---" + l.note())
		l.remarks()
	}
	if !l.odds(12) {
		l.list()
	}
	l.remarks()
	if marks && l.odds(2) {
		l.add("...")
		l.remarks()
	}
	text := l.one("", "", "", "\ufeff") + strings.Join(l.lines, l.brk)
	if !l.odds(4) {
		text += l.brk
	}
	return text
}

// newTarget draws a target.
func (l *lay) newTarget() NewTarget {
	n := NewTarget{
		Name:   l.one("Fair", "a: b", "'", `"`, "# x", "- y", "null", "ünï, {c}", `\`) + l.one("", " [fair]", " 7"),
		By:     l.one("2027-06-05 07:00", "2027-06-05T07:00:00+02:00", "2027-10-31 01:30"),
		Packed: resources.Minutes(l.number(0, 90, 1440)),
	}
	for i := range rapid.IntRange(0, 3).Draw(l.t, "wants") {
		n.Wants = append(n.Wants, schedule.Want{Cheese: l.one(hayCheese, oddCheese), Pieces: 1 + i,
			Price: resources.Money(100 * i), Promised: l.odds(2)})
	}
	return n
}

// Whatever the layout, one text is inserted, and the folder says what was added besides.
func TestAddTargetToAnyLayout(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := &lay{t: rt, brk: rapid.SampledFrom([]string{"\n", "\n", "\r\n"}).Draw(rt, "line end")}
		old := l.file()
		add := []NewTarget{l.newTarget()}
		for i := range rapid.IntRange(0, 2).Draw(rt, "more") {
			n := l.newTarget()
			n.Name += fmt.Sprintf(" +%d", i)
			add = append(add, n)
		}
		p, err := LoadFS(targetKitchen(t, old), Options{From: targetFrom})
		if err != nil {
			rt.Skip("a comment was taken into a text of several lines")
		}
		text, err := AddTargets([]byte(old), p, add)
		if err != nil {
			rt.Fatalf("%v, in\n%s", err, old)
		}
		holdsMore(rt, t, p, add, []byte(old), text)
		if !strings.Contains(strings.ReplaceAll(old, "\r\n", ""), "\n") && strings.Contains(old, "\r\n") &&
			strings.Contains(strings.ReplaceAll(string(text), "\r\n", ""), "\n") {
			rt.Fatalf("a line of the new text ends in another way:\n%q", text)
		}
	})
}

// holdsMore sees that a text is the old one with an insertion, and that the
// folder then says the old targets and the new ones.
func holdsMore(rt interface{ Fatalf(string, ...any) }, t testing.TB, p *schedule.Problem, add []NewTarget, old, text []byte) {
	grown := len(text) - len(old)
	split := 0
	for split < len(old) && grown >= 0 && text[split] == old[split] {
		split++
	}
	if grown <= 0 || !bytes.Equal(old[split:], text[split+grown:]) {
		rt.Fatalf("not one insertion:\n%q\n%q", old, text)
	}
	now, err := LoadFS(targetKitchen(t, string(text)), Options{From: targetFrom})
	if err != nil {
		rt.Fatalf("the new text has faults:\n%v\n%s", err, text)
	}
	want := slices.Clip(p.Targets)
	for _, n := range add {
		by, err := resources.ParseMoment(n.By, p.Kitchen.Zone)
		if err != nil {
			rt.Fatalf("%v", err)
		}
		want = append(want, schedule.Target{Name: n.Name, By: by, Packed: n.Packed, Wants: n.Wants})
	}
	if got, want := fmt.Sprintf("%#v", now.Targets), fmt.Sprintf("%#v", want); got != want {
		rt.Fatalf("got the targets\n%s\nwant\n%s\nin\n%s", got, want, text)
	}
}

// FuzzAddTarget gives arbitrary files and targets. Either there is an error, which
// there is when the file alone has faults, or all is as in the property above.
func FuzzAddTarget(f *testing.F) {
	f.Add(strings.ReplaceAll(string(saltgrass(f)["targets.yaml"].Data), "Ash button", hayCheese), "Fair", "2027-04-10 07:00", 2, 100, 0, false)
	f.Add("targets: [\r\n  "+aFlow+" # a\r\n]", "- a", "2027-10-31 01:30", 2, 650, 90, true)
	f.Add("? &a targets\n: - &b {name: a,\nby: &c 2027-04-03 07:00} # c\n  - name: >-\n      b\n    by: *c\n # d", "é: #", "2027-04-10T07:00Z", 1, 0, 1, false)
	f.Add(`{"targets": [`+hayJSON+`]}`, `"`, "2027-04-10 07:00", 1, 1, 1, true)
	f.Add("targets:\n- name: a\n  by: |+\n   2027-04-03 07:00\n\n# b\n...\n", "~", "2027-04-10 07:00", 1, 1, 1, false)
	kitchen := loaded(f, targetKitchen(f, ""), targetFrom)
	f.Fuzz(func(t *testing.T, old, name, by string, pieces, price, packed int, promised bool) {
		n := NewTarget{Name: name, By: by, Packed: resources.Minutes(packed), Wants: []schedule.Want{
			{Cheese: oddCheese, Pieces: pieces, Price: resources.Money(price), Promised: promised}}}
		text, err := AddTarget([]byte(old), kitchen, n)
		p, bad := LoadFS(targetKitchen(t, old), Options{From: targetFrom})
		switch {
		case (text == nil) != (err != nil):
			t.Fatalf("got the text %q and the error %v", text, err)
		case bad != nil && err == nil:
			t.Fatalf("a file with the faults %v got a target:\n%s", bad, text)
		case err == nil:
			holdsMore(t, t, p, []NewTarget{n}, []byte(old), text)
		}
	})
}
