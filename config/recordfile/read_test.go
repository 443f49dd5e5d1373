package recordfile_test

import (
	"fmt"
	"strings"
	"testing"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// one reads one line, which must be an entry.
func one(t *testing.T, line string) record.Entry {
	t.Helper()
	m := recordfile.Read("record/2027-03.yaml", []byte(line), dublin(t))
	if len(m.Entries) != 1 || len(m.Faults)+len(m.Cut) > 0 {
		t.Fatalf("%s: got %d entries, cut %v and faults\n%v", line, len(m.Entries), m.Cut, m.Faults)
	}
	return m.Entries[0]
}

// TestTextsAreTakenAsWritten has what YAML would make something else of.
func TestTextsAreTakenAsWritten(t *testing.T) {
	for _, c := range []struct{ written, want string }{
		{`no`, "no"}, {`11:20`, "11:20"}, {`0012`, "0012"}, {`1_000`, "1_000"}, {`2027-03-12`, "2027-03-12"}, {`null`, "null"}, {`~`, "~"},
		{`a, b`, "a, b"}, {`soft, whey clear, nearly`, "soft, whey clear, nearly"}, {`from 8:20, to 9:30`, "from 8:20, to 9:30"},
		{`batch #3`, "batch #3"}, {`*`, "*"}, {`&co`, "&co"}, {`!`, "!"}, {`50 % more`, "50 % more"}, {`it's 5" wide`, `it's 5" wide`},
		{`she said, "fine"`, `she said, "fine"`}, {"tab\there", "tab\there"}, {`käse, größer`, "käse, größer"},
		{`"a, who: b"`, "a, who: b"}, {`'it''s'`, "it's"}, {`"\u00e9\x41\n\"\\\/\e"`, "éA\n\"\\/\x1b"}, {`"\ud83e\uddc0"`, "🧀"}, {`" kept "`, " kept "},
		{`a:b`, "a:b"},
	} {
		for _, line := range []string{
			"- {at: 2027-03-13 08:10, who: Nell, note: " + c.written + "}",
			"- {note: " + c.written + ", at: 2027-03-13 08:10, who: Nell}",
			"  - { note: " + c.written + " , at: 2027-03-13 08:10, \"who\": Nell, } # by hand\r\n",
		} {
			if got := one(t, line); got.Note != c.want || got.Who != "Nell" {
				t.Errorf("%s: got %q by %q, want %q by Nell", line, got.Note, got.Who, c.want)
			}
		}
	}
}

// TestEveryFactIsRead reads each fact of the contract.
func TestEveryFactIsRead(t *testing.T) {
	zone := dublin(t)
	at := func(text string) resources.Moment {
		m, err := resources.ParseMoment(text, zone)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	day := func(month, day int) resources.Date {
		return resources.Date{Year: 2027, Month: 1, Day: 1}.AddDays(map[int]int{3: 59, 9: 243}[month] + day - 1)
	}
	batch := record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"}
	facts := func(f record.BatchFacts) record.Entry { return record.Entry{Subject: batch, Batch: f} }
	target := func(f record.TargetFacts) record.Entry {
		return record.Entry{Subject: record.Subject{Kind: record.OfTarget, Name: "Saturday stall 2027-03-13", Cheese: "Ash button"}, Target: f}
	}
	milk := func(f record.MilkFacts) record.Entry {
		return record.Entry{Subject: record.Subject{Kind: record.OfMilk, Name: "Hill Farm cow", Day: day(3, 12)}, Milk: f}
	}
	const now = "2027-03-13 08:10"
	for _, c := range []struct {
		said string
		want record.Entry
	}{
		{"batch: AB-270312-1, began: make, litres: 7.5 L, pot: tall pot, drew: {supply: Hill Farm cow, day: 2027-03-12}", facts(record.BatchFacts{Began: "make",
			Litres: record.Say[resources.Millilitres](7500), Pot: "tall pot", Drew: record.Say(record.Draw{Supply: "Hill Farm cow", Day: day(3, 12)})})},
		{"batch: AB-270312-1, did: drain, pieces: 0", facts(record.BatchFacts{Did: "drain", Pieces: record.Say(0)})},
		{"batch: AB-270312-1, not_yet: drain, look: 3 h, measured: [{what: pH, is: 5.1}, {what: room, is: 19 °C}]", facts(record.BatchFacts{NotYet: "drain",
			Look: record.Say(3 * resources.Hour), Measured: []record.Measure{{What: "pH", Is: "5.1"}, {What: "room", Is: "19 °C"}}})},
		{"batch: AB-270312-1, stands: {place: kitchen fridge, shelf: top}, weight: 1.2 kg", facts(record.BatchFacts{
			Stands: record.Say(record.Stand{Place: "kitchen fridge", Shelf: "top"}), Weight: record.Say[resources.Milligrams](1_200_000)})},
		{"batch: AB-270312-1, gone: 3, why: no", facts(record.BatchFacts{Gone: record.Say(3), Why: "no"})},
		{"batch: AB-270312-1, lost: true, why: fell, all of it", facts(record.BatchFacts{Lost: true, Why: "fell, all of it"})},
		{"batch: AB-270312-1, lots: [{what: rennet, lot: 0012}]", facts(record.BatchFacts{Lots: []record.Packet{{What: "rennet", Lot: "0012"}}})},
		{"cheese: Ash button, did: make, litres: 8 L", record.Entry{Subject: record.Subject{Kind: record.OfCheese, Name: "Ash button"},
			Batch: record.BatchFacts{Did: "make", Litres: record.Say[resources.Millilitres](8000)}}},
		{"milk: Hill Farm cow, day: 2027-03-12, came: 0 L, lot: 11:20", milk(record.MilkFacts{Came: record.Say[resources.Millilitres](0), Lot: "11:20"})},
		{"milk: Hill Farm cow, day: 2027-03-12, ordered: 24 L", milk(record.MilkFacts{Ordered: record.Say[resources.Millilitres](24_000)})},
		{"target: Saturday stall 2027-03-13, cheese: Ash button, took: 8, of: {AB-270312-1: 5, C 2: 3}, to: Corner shop", target(record.TargetFacts{
			Took: record.Say(8), Of: []record.FromLot{{Lot: "AB-270312-1", Pieces: 5}, {Lot: "C 2", Pieces: 3}}, To: "Corner shop"})},
		{"target: Saturday stall, date: 2027-03-13, cheese: Ash button, back: 2, resell: true, sold_out: 11:20", target(record.TargetFacts{
			Back: record.Say(2), Resell: true, SoldOut: record.Say[resources.Clock](680)})},
		{"target: Saturday stall, date: 2027-03-13, cheese: Ash button, back: 0", target(record.TargetFacts{Back: record.Say(0)})},
		{"place: kitchen fridge, shelf: top, closed: {until: 2027-03-13}", record.Entry{Subject: record.Subject{Kind: record.OfPlace, Name: "kitchen fridge", Shelf: "top"},
			Place: record.PlaceFacts{Closed: record.Say(record.Stretch{From: at(now), Until: record.Say(at("2027-03-14 00:00"))})}}},
		{"place: cave, closed: true", record.Entry{Subject: record.Subject{Kind: record.OfPlace, Name: "cave"}, Place: record.PlaceFacts{Closed: record.Say(record.Stretch{From: at(now)})}}},
		{"place: cave, open: true", record.Entry{Subject: record.Subject{Kind: record.OfPlace, Name: "cave"}, Place: record.PlaceFacts{Open: true}}},
		{"person: Nell, away: {from: 2027-03-14, until: 2027-03-15 12:00}", record.Entry{Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"},
			Person: record.PersonFacts{Away: record.Say(record.Stretch{From: at("2027-03-14 00:00"), Until: record.Say(at("2027-03-15 12:00"))})}}},
		{"person: Nell, here: true, takes: {batch: AB-270312-1, stage: drain}", record.Entry{Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"},
			Person: record.PersonFacts{Here: true, Takes: record.Say(record.Task{Batch: "AB-270312-1", Stage: "drain"})}}},
		{"round: 2027-03-13, skipped: true", record.Entry{Subject: record.Subject{Kind: record.OfRound, Day: day(3, 13)}, Round: record.RoundFacts{Skipped: true}}},
		{"round: 2027-03-13, did: true", record.Entry{Subject: record.Subject{Kind: record.OfRound, Day: day(3, 13)}, Round: record.RoundFacts{Did: true}}},
		{"new: rennet, lot: R-56, use_by: 2027-09-30, strength: 200 IMCU/mL, holds: 50 mL", record.Entry{Subject: record.Subject{Kind: record.OfPacket, Name: "rennet"},
			Packet: record.PacketFacts{Lot: "R-56", UseBy: record.Say(day(9, 30)), Strength: "200 IMCU/mL", Holds: "50 mL"}}},
		{"note: no", record.Entry{Note: "no"}},
		{"strikes: [43, 44]", record.Entry{Strikes: []int{43, 44}}},
		{`nr: 7, written: 2027-03-13 09:00, who: Nell, once: "k3", strikes: 5`, record.Entry{Nr: 7, Written: record.Say(at("2027-03-13 09:00")), Who: "Nell", Once: "k3", Strikes: []int{5}}},
	} {
		want := c.want
		want.At = at(now)
		if got := one(t, "- {at: "+now+", "+c.said+"}"); !record.Same(got, want) {
			t.Errorf("%s:\ngot  %+v\nwant %+v", c.said, got, want)
		}
		if got := one(t, recordfile.Line(want, zone)); !record.Same(got, want) {
			t.Errorf("written and read:\ngot  %+v\nwant %+v", got, want)
		}
		json := strings.NewReplacer(`- {at: "`, `- {"at":"`, `", who: `, `","who":`).Replace(recordfile.Line(want, zone))
		if got := one(t, json); !record.Same(got, want) {
			t.Errorf("as JSON, %s: got %+v", json, got)
		}
	}
}

// TestWrongLines says of each where it is wrong and how to write it right.
func TestWrongLines(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{`{at: 2027-03-13 08:10, note: x}`, `1:1: an entry is one line that begins with a dash; write - {at: 2027`},
		{`- at: 2027-03-13 08:10}`, `1:3: an entry is one line in braces; write - {at: 2027`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, did: drain, peices: 3}`, `1:51: there is no such key: got "peices"; did you mean "pieces"?`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, peices: 3}`, `1:39: there is no such key: got "peices"; did you mean "pieces"?`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, pieces:3}`, `1:39: a space is missing after the colon of "pieces:3"; write pieces: 3`},
		{`- {at: 2027-03-13 08:10, note: soft, then: hard}`, `1:38: there is no such key: got "then"; write one of nr, at, written, who, note, once, strikes; or, if it is a part of a text, put the text in quotation marks`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, took: 3}`, `1:39: this is said of a target: got "took"; write it in an entry of its own`},
		{`- {at: 2027-03-13 08:10, did: drain}`, `1:26: this is said of a batch or a cheese made off the plan or a round: got "did"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, person: Nell, here: true}`, `1:3: one entry is about one thing, and this is about a batch and a person; write an entry for each`},
		{`- {at: 2027-03-13 08:10, batch: AB-1}`, `1:3: nothing is said of a batch; write one or more of began, did, `},
		{`- {at: 2027-03-13 08:10, who: Nell}`, `1:3: this entry says nothing of anything; write batch: `},
		{`- {batch: AB-1, did: drain}`, `1:3: at: this is missing; write at: 2027-03-13 08:10`},
		{`- {at: 2027-03-13, batch: AB-1, did: drain}`, `1:8: at: a moment needs the time too: got "2027-03-13"; write 2027-03-13 07:00`},
		{`- {at: 2027-03-28 01:30, batch: AB-1, did: drain}`, `1:8: at: the clocks go forward over this time`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, litres: 7,5 L}`, `1:47: litres: decimals come after a point, and thousands have no comma: got "7,5 L"; write 7.5 L`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, litres: 7.5}`, `1:47: litres: a volume needs its unit: got "7.5"; write 7.5 L`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, pieces: null}`, `1:47: pieces: a plain whole number is wanted here: got "null"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, pieces: -1}`, `1:47: pieces: this number is at least 0: got "-1"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, pieces: }`, `1:47: pieces: nothing stands after the colon; write pieces: 14, or leave the key out`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, lost: false}`, `1:45: lost: only true is said; strike the entry that said so, or leave this out: got "false"; write lost: true`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, did: drain, not_yet: drain}`, `1:60: not_yet: this stage is said to have begun in the same entry`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, look: 3 h}`, `1:45: look: this is said together with not_yet; write not_yet: drain`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, did: drain, did: mould}`, `1:51: this key stands in the line already: got "did"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, lots: [rennet]}`, `1:46: lots: keys and values in braces are wanted here: got "rennet"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, lots: [{what: rennet}]}`, `1:46: lots, lot: this is missing; write lot: "R-55"`},
		{`- {at: 2027-03-13 08:10, batch: AB-1, measured: pH 4.5}`, `1:49: measured: a list is wanted here: got "pH 4.5"; write measured: [{what: pH, is: 5.1}]`},
		{`- {at: 2027-03-13 08:10, milk: Hill Farm cow, came: 20 L}`, `1:3: day: this is missing; write day: 2027-03-12`},
		{`- {at: 2027-03-13 08:10, target: Market, took: 8}`, `1:3: cheese: this is missing; write cheese: Ash button`},
		{`- {at: 2027-03-13 08:10, target: Market, cheese: A, took: 8, of: {B: 5, C: 2}}`, `1:66: of: this adds up to 7 pieces, and 8 were taken`},
		{`- {at: 2027-03-13 08:10, target: Market, cheese: A, took: 8, of: {B: 4, B: 4}}`, `1:73: of: this batch is named twice: got "B"`},
		{`- {at: 2027-03-13 08:10, target: Market, cheese: A, resell: true}`, `1:61: resell: this is said together with back; write back: 2`},
		{`- {at: 2027-03-13 08:10, shelf: top, open: true}`, `1:3: a shelf is named with its place; write place: kitchen fridge, shelf: top`},
		{`- {at: 2027-03-13 08:10, place: cave, open: true, closed: true}`, `1:45: open: this takes back closed in the same entry`},
		{`- {at: 2027-03-13 08:10, place: cave, closed: {until: 2027-03-13 08:00}}`, `1:55: closed, until: this is not after the time begins`},
		{`- {at: 2027-03-13 08:10, person: Nell, away: {from: 2027-03-14}}`, `1:46: away, until: this is missing; write until: 2027-03-13 18:00`},
		{`- {at: 2027-03-13 08:10, new: rennet, strength: strong}`, `1:49: strength: a number and its unit are wanted here: got "strong"; write 200 IMCU/mL`},
		{`- {at: 2027-03-13 08:10, note: "soft" whey}`, `1:39: a comma or the closing brace is wanted here`},
		{`- {at: 2027-03-13 08:10, note: a [b]}`, `1:34: a text with brackets in it stands in quotation marks`},
		{`- {at: 2027-03-13 08:10, note: "\q"}`, `1:33: a backslash in quotation marks begins a letter's number`},
		{`- {at: 2027-03-13 08:10, note: x} - {at: 2027-03-13 08:10, note: x}`, `1:35: nothing but a comment stands after the closing brace of an entry`},
		{"- {at: 2027-03-13 08:10, note: é\xff}", `1:33: the byte 0xff is not UTF-8`},
		{"- {at: 2027-03-13 08:10, note: \x1b[31m}", `1:33: a text with brackets`},
		{"- {at: 2027-03-13 08:10, note: a\x7fb}", `1:33: the byte 0x7f is not UTF-8 or steers a terminal`},
		{`- {at: 2027-03-13 08:10, note: ` + strings.Repeat("é", 2001) + `}`, `1:32: note: a text here has at most 2000 characters, and this has 2001`},
		{`- {at: 2027-03-13 08:10, note: ` + strings.Repeat("x", 66_000) + `}`, `1:1: this entry is longer than the limit of 65536 bytes`},
		{`- {at: 2027-03-13 08:10, x: [[[[[[[[[[[[]]]]]]]]]]]]}`, `1:37: braces and lists lie in each other more than the limit of 8 deep`},
	} {
		m := recordfile.Read("record/2027-03.yaml", []byte(c.line), dublin(t))
		got := ""
		if len(m.Faults) > 0 {
			got = m.Faults[0].Error()
		}
		want := "record/2027-03.yaml:" + c.want
		if !strings.HasPrefix(got, want) || len(m.Entries) > 0 || len(m.Cut) > 0 {
			t.Errorf("%.100s\ngot  %s and %d entries, %d cut\nwant %s", c.line, got, len(m.Entries), len(m.Cut), want)
		}
	}
}

// TestLimitsOfLines stands one step inside those limits.
func TestLimitsOfLines(t *testing.T) {
	if got := one(t, `- {at: 2027-03-13 08:10, note: `+strings.Repeat("é", 2000)+`}`); len(got.Note) != 4000 {
		t.Errorf("got a note of %d bytes, want 4000", len(got.Note))
	}
	long := `- {at: 2027-03-13 08:10, note: x}`
	long += strings.Repeat(" ", recordfile.MaxLine-len(long))
	one(t, long)
}

// TestAllFaultsAtOnce has several wrong lines beside good ones and comments.
func TestAllFaultsAtOnce(t *testing.T) {
	text := "\ufeff# by hand\r\n---\n\n- {at: 2027-03-13 08:10, note: one}\n- {at: now, note: two, strikes: x}\nwhat?\n- {at: 2027-03-13 08:10, note: three}\n"
	m := recordfile.Read("record/2027-03.yaml", []byte(text), dublin(t))
	var got []string
	for _, f := range m.Faults {
		got = append(got, fmt.Sprintf("%d:%d", f.Line, f.Column))
	}
	if want := "[5:8 5:33 6:1]"; fmt.Sprint(got) != want {
		t.Errorf("got faults at %v, want %s", got, want)
	}
	if len(m.Entries) != 2 || m.Entries[0].Line != 4 || m.Entries[1].Line != 7 || m.Entries[1].File != "record/2027-03.yaml" {
		t.Errorf("got entries %+v, want those of lines 4 and 7", m.Entries)
	}
}

// TestEveryCutOfALineIsCut cuts a line after each of its bytes.
func TestEveryCutOfALineIsCut(t *testing.T) {
	zone := dublin(t)
	e := record.Entry{Nr: 41, At: 29_990_000, Who: "Nell", Note: `é "a}" {b, c: d} \`, Subject: record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"},
		Batch: record.BatchFacts{Did: "drain", Stands: record.Say(record.Stand{Place: "cave"}), Lots: []record.Packet{{What: "rennet", Lot: "R}"}}}}
	for _, line := range []string{recordfile.Line(e, zone), `- {nr: 3, at: 2027-03-13 08:10, pieces: 14, batch: AB-1, of: x, note: soft, lots: [{what: a, lot: b}], strikes: [3, 4]}`} {
		for n := 1; n < len(line); n++ {
			for _, rest := range []string{"", "\x00\x00", "\n- {at: 2027-03-13 08:10, note: after}\n"} {
				m := recordfile.Read("x", []byte(line[:n]+rest), zone)
				if len(m.Cut) != 1 || len(m.Faults) > 0 || len(m.Entries) != strings.Count(rest, "note") {
					t.Fatalf("cut after %q: got %d cut, %d entries and faults %v", line[:n], len(m.Cut), len(m.Entries), m.Faults)
				}
				if got := m.Cut[0].Error(); !strings.HasPrefix(got, "x:1: this line was cut short") {
					t.Fatalf("got %s", got)
				}
			}
		}
	}
	if m := recordfile.Read("x", []byte("\x00\x00\x00"), zone); len(m.Cut) != 1 || len(m.Faults) != 0 {
		t.Errorf("a sector of zeros: got %+v", m)
	}
}

// TestOrderOfFiles: months in order, copies of one behind it.
func TestOrderOfFiles(t *testing.T) {
	names := []string{"2027-04.yaml", "2027-03 (copy).yaml", "2027-03.yaml", "2027-03.sync-conflict.yaml", "2026-12.yaml"}
	if got, want := strings.Join(recordfile.InOrder(names), "|"), "2026-12.yaml|2027-03.yaml|2027-03 (copy).yaml|2027-03.sync-conflict.yaml|2027-04.yaml"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	for name, want := range map[string]bool{"2027-03.yaml": true, "2027-03 (copy).yaml": true, "2027-03.yml": false, "notes.yaml": false, "2027-034.yaml": false, ".lock": false} {
		if got := recordfile.OfMonth(name); got != want {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
}
