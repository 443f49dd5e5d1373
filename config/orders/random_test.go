package orders

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
)

// inserted sees that one text is another with an insertion.
func inserted(old, now []byte) bool {
	grown, split := len(now)-len(old), 0
	for split < len(old) && grown >= 0 && now[split] == old[split] {
		split++
	}
	return grown >= 0 && bytes.Equal(old[split:], now[split+grown:])
}

// read loads the folder with a text as its targets.yaml.
func read(targets []byte) (*schedule.Problem, error) {
	return config.LoadFS(kitchenFiles(string(targets)), config.Options{From: "2027-03-01 06:00"})
}

// counted is how many pieces of a cheese at a price each name has at a moment, dates behind a name
// taken off.
func counted(targets []schedule.Target, more ...order) map[string]int {
	all := map[string]int{}
	for _, t := range targets {
		who, _, _ := strings.Cut(t.Name, " 2027-")
		for _, w := range t.Wants {
			all[fmt.Sprint(who, "|", t.By, "|", w.Cheese, "|", w.Price, "|", w.Promised)] += w.Pieces
		}
	}
	for _, o := range more {
		all[fmt.Sprint(o.who, "|", o.at, "|", o.want.Cheese, "|", o.want.Price, "|", o.want.Promised)] += o.want.Pieces
	}
	return all
}

// Whatever good orders a spreadsheet holds, in whatever form of it, the folder then reads and has
// exactly those besides, all else in targets.yaml byte for byte; and read again it adds nothing.
func TestGoodOrdersAreWritten(t *testing.T) {
	files := []string{"", "# none yet\ntargets:\n# the end", there, "targets: [ # all\n  {name: Eve, by: 2027-03-20 12:00, want: []} # é\n]\n",
		"\ufefftargets:\r\n- name: Nan\r\n  by: 2027-03-21 12:00 # soon\r\n  want:\r\n  - {cheese: Spoon curd, pieces: 1}\r\n\r\n# more\r\n"}
	rapid.Check(t, func(rt *rapid.T) {
		old := []byte(rapid.SampledFrom(files).Draw(rt, "file"))
		p, err := read(old)
		if err != nil {
			rt.Fatal(err)
		}
		heads := rapid.Permutation(columns).Draw(rt, "columns")
		if rapid.Bool().Draw(rt, "no price") {
			heads = slices.DeleteFunc(slices.Clone(heads), func(h string) bool { return h == mayLack })
		}
		var text bytes.Buffer
		w := csv.NewWriter(&text)
		w.Comma = rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(rt, "between")
		w.UseCRLF = rapid.Bool().Draw(rt, "line ends")
		rows := [][]string{heads}
		var want []order
		seen := map[string]bool{}
		for range rapid.IntRange(0, 12).Draw(rt, "lines") {
			o := order{who: rapid.SampledFrom([]string{"Nan", "a: b", "# x", `"q", "r"; s`, "=1+1", "'", "null", "チ"}).Draw(rt, "who")}
			o.want = schedule.Want{Cheese: rapid.SampledFrom([]string{"Alder drum", "Spoon curd"}).Draw(rt, "cheese"),
				Pieces: rapid.IntRange(1, 99).Draw(rt, "pieces"), Price: plainPrice, Promised: true}
			cell := map[string]string{"who": o.who, "cheese": o.want.Cheese, "pieces": fmt.Sprint(o.want.Pieces)}
			cell["date"] = fmt.Sprintf("2027-04-%02d", rapid.IntRange(1, 3).Draw(rt, "day")) + rapid.SampledFrom([]string{"", " 12:00", " 09:30"}).Draw(rt, "time")
			if cents := rapid.IntRange(0, 3000).Draw(rt, "price"); slices.Contains(heads, mayLack) && cents > 0 {
				o.want.Price = resources.Money(cents)
				cell["price"] = fmt.Sprintf("%d%s%02d", cents/100, rapid.SampledFrom([]string{".", ","}).Draw(rt, "decimal"), cents%100)
			}
			if _, o.at, err = leaves(cell["date"], p); err != nil {
				rt.Fatal(err)
			}
			key := fmt.Sprint(o.who, o.at, o.want.Cheese)
			if seen[key] {
				continue // a good file has each order once
			}
			seen[key] = true
			row := make([]string, len(heads))
			for i, h := range heads {
				row[i] = cell[h]
			}
			rows, want = append(rows, row), append(want, o)
		}
		if err := w.WriteAll(rows); err != nil {
			rt.Fatal(err)
		}
		r, err := Of(text.Bytes(), "o.csv", p, old)
		if err != nil || len(r.Refused) > 0 || r.Taken != len(want) {
			rt.Fatalf("%v; %v; %d taken of %d, of\n%s", err, r.Refused, r.Taken, len(want), text.String())
		}
		now, err := config.AddTargets(old, p, r.Targets)
		if err != nil {
			rt.Fatalf("%v, of\n%s", err, text.String())
		}
		after, err := read(now)
		if err != nil || !inserted(old, now) {
			rt.Fatalf("%v: from\n%s\ncame\n%s", err, old, now)
		}
		if got, want := counted(after.Targets), counted(p.Targets, want...); fmt.Sprint(got) != fmt.Sprint(want) {
			rt.Fatalf("got %v\nwant %v\nof\n%s", got, want, text.String())
		}
		again, err := Of(text.Bytes(), "o.csv", after, now)
		if err != nil || len(again.Targets) > 0 || len(again.Refused) != len(want) {
			rt.Fatalf("read again: %v, %v, %v, want each line refused", err, again.Targets, again.Refused)
		}
	})
}

// FuzzOf reads arbitrary bytes. Whatever they are, it does not panic, each fault is one line that
// names the file, and what is taken can be written and read again.
func FuzzOf(f *testing.F) {
	f.Add([]byte(head+"2027-03-27,Corner shop,Alder drum,24,6.50\n2027-03-27,Nan,Spoon curd,x,\n"), []byte(there))
	f.Add([]byte("\ufeffdate;who;cheese;pieces;price\r\n27/03/2027;\"a\nb\";Alder drum;24;6,50\r\n"), []byte("targets: []"))
	f.Add([]byte("pieces\twho\tcheese\tdate\n3\t'=1\tAlder drum\t46473\n3\t\t\n\"\n"), []byte(""))
	p := kitchen(f, "")
	f.Fuzz(func(t *testing.T, text, targets []byte) {
		r, err := Of(text, "o.csv", p, targets)
		if err != nil {
			if len(err.Error()) == 0 {
				t.Error("an error without words")
			}
			return
		}
		for _, one := range r.Refused {
			if line := one.Error(); !strings.HasPrefix(line, "o.csv") || strings.ContainsAny(line, "\n\r") {
				t.Errorf("got the fault %q, want one line with its file", line)
			}
		}
		now, err := config.AddTargets(targets, p, r.Targets)
		if err != nil {
			return // of the layout or the limits of targets.yaml: nothing is written
		}
		before, _ := read(targets)
		after, err := read(now)
		if err != nil || !inserted(targets, now) || before != nil && len(after.Targets) != len(before.Targets)+len(r.Targets) {
			t.Fatalf("%v: from\n%s\ncame\n%s", err, targets, now)
		}
	})
}
