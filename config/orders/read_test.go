package orders

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"ripeby/config"
	"ripeby/schedule"
)

// kitchenFiles is a folder with two cheeses and a targets.yaml.
func kitchenFiles(targets string) fstest.MapFS {
	recipe := "name: %s\ncode: %s\nbatch: {least: 2 L, most: 8 L}\nyield: {pieces: 2, from: 1 L}\nkeeps: 10 d\nstages: [{stage: make, hands: 30 min, uses: [pot]}, {stage: pack, hands: 10 min}]\n"
	return fstest.MapFS{
		"kitchen.yaml":   {Data: []byte("kitchen: {timezone: Europe/Dublin}\npeople: [{name: Nell, hours: ['daily 06:00-22:00']}]\npots: [{name: tall pot, holds: 10 L}]\n")},
		"recipes/a.yaml": {Data: fmt.Appendf(nil, recipe, "Alder drum", "AD")},
		"recipes/b.yaml": {Data: fmt.Appendf(nil, recipe, "Spoon curd", "SC")},
		"targets.yaml":   {Data: []byte(targets)},
	}
}

// kitchen reads such a folder as of 1 March 2027.
func kitchen(t testing.TB, targets string) *schedule.Problem {
	t.Helper()
	p, err := config.LoadFS(kitchenFiles(targets), config.Options{From: "2027-03-01 06:00"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// there is a targets.yaml with orders in it.
const there = `# what leaves
targets:
  - {name: over, by: 2027-01-02 07:00, want: []}
  - {name: Eve, by: 2027-03-20 12:00, want: [{cheese: Alder drum, pieces: 5, price: 6.50, promised: true}]}
  - {name: Stall, by: 2027-04-03 07:00, every: week, until: 2027-04-10, want: [{cheese: Alder drum, pieces: 3}]}
`

// flat is a target on one line.
func flat(t config.NewTarget) string {
	text := t.Name + " | " + t.By
	for _, w := range t.Wants {
		text += fmt.Sprintf(" | %d %s at %d", w.Pieces, w.Cheese, w.Price)
		if !w.Promised {
			text += ", no promise"
		}
	}
	return text
}

// told is what a file holds, a line each: targets, then what is refused, then the error.
func told(t testing.TB, text string) string {
	t.Helper()
	r, err := Of([]byte(text), "o.csv", kitchen(t, there), []byte(there))
	if err != nil {
		return "nothing: " + err.Error()
	}
	var lines []string
	wants := 0
	for _, target := range r.Targets {
		lines, wants = append(lines, flat(target)), wants+len(target.Wants)
	}
	if wants != r.Taken {
		t.Errorf("says that %d orders are taken, and has %d", r.Taken, wants)
	}
	for _, f := range r.Refused {
		lines = append(lines, f.Error())
	}
	return strings.Join(lines, "\n")
}

const head = "date,who,cheese,pieces,price\n"

// RFC 4180, section 2: CRLF or not, the last line with an end or without, quoted cells; and what
// spreadsheets write besides: a mark at the beginning, semicolons and decimal commas, tabs.
func TestForms(t *testing.T) {
	const want = "Corner shop | 2027-03-27 12:00 | 24 Alder drum at 650"
	for _, c := range []struct{ name, text string }{
		{"commas", head + "2027-03-27,Corner shop,Alder drum,24,6.50\n"},
		{"no last line end", head + "2027-03-27,Corner shop,Alder drum,24,6.50"},
		{"carriage returns", "date,who,cheese,pieces,price\r\n2027-03-27,Corner shop,Alder drum,24,6.50\r\n"},
		{"carriage returns alone", "date,who,cheese,pieces,price\r2027-03-27,Corner shop,Alder drum,24,6.50\r"},
		{"a mark", "\ufeff" + head + "2027-03-27,Corner shop,Alder drum,24,6.50\n"},
		{"a mark and quotes", "\ufeff\"date\",\"who\",\"cheese\",\"pieces\",\"price\"\n\"2027-03-27\",\"Corner shop\",\"Alder drum\",\"24\",\"6,50\"\n"},
		{"semicolons, decimal comma", "date;who;cheese;pieces;price\n2027-03-27;Corner shop;Alder drum;24;6,50\n"},
		{"semicolons, decimal point", "date;who;cheese;pieces;price\n2027-03-27;Corner shop;Alder drum;24;6.5\n"},
		{"tabs", "date\twho\tcheese\tpieces\tprice\n2027-03-27\tCorner shop\tAlder drum\t24\t6,5\n"},
		{"another order, capitals, spaces", " Price ; PIECES;Cheese ;who;Date\n6,50; 24 ;Alder drum ; Corner shop;2027-03-27\n"},
		{"spaces before quotes", "date, who, \"cheese\", pieces, price\n2027-03-27, \"Corner shop\", Alder drum, 24, 6.50\n"},
		{"empty lines and cells", "\n \n" + head + "\n,,,,\n\"\",\"\",,,\n2027-03-27,Corner shop,Alder drum,24,6.50,,\n   \n"},
		{"an empty column", "date,who,,cheese,pieces,price,\n2027-03-27,Corner shop,,Alder drum,24,6.50,\n"},
		{"hard spaces", head + "2027-03-27\u00a0,\u00a0Corner shop,Alder drum,24,6.50\n"},
		{"a name marked as text", head + "2027-03-27,'Corner shop,Alder drum,24,6.50\n"},
	} {
		want := want
		if c.name == "a name marked as text" { // only before what a spreadsheet would reckon
			want = strings.Replace(want, "Corner", "'Corner", 1)
		}
		if got := told(t, c.text); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

func TestLines(t *testing.T) {
	for _, c := range []struct{ name, lines, want string }{
		{"a time, and no price", "2027-03-27 11:00,Eve,Spoon curd,8,", "Eve 2027-03-27 | 2027-03-27 11:00 | 8 Spoon curd at 100"},
		{"an offset says which of two", "2027-10-31T01:30+00:00,Nan,Spoon curd,8,", "Nan | 2027-10-31T01:30+00:00 | 8 Spoon curd at 100"},
		{"seconds of nothing", "2027-03-27 11:00:00,Nan,Spoon curd,8,0", "Nan | 2027-03-27 11:00:00 | 8 Spoon curd at 0"},
		{"one name, one moment", "2027-03-27,Nan,Spoon curd,8,\n2027-03-28,Nan,Spoon curd,1,\n2027-03-27 12:00,Nan,Alder drum,2,6.5",
			"Nan | 2027-03-27 12:00 | 8 Spoon curd at 100 | 2 Alder drum at 650\nNan 2027-03-28 | 2027-03-28 12:00 | 1 Spoon curd at 100"},
		{"one name, three times of a day", "2027-03-27 09:00,Nan,Spoon curd,1,\n2027-03-27 10:00,Nan,Spoon curd,2,\n2027-03-27 11:00,Nan,Spoon curd,3,",
			"Nan | 2027-03-27 09:00 | 1 Spoon curd at 100\nNan 2027-03-27 | 2027-03-27 10:00 | 2 Spoon curd at 100\nNan 2027-03-27 11:00 | 2027-03-27 11:00 | 3 Spoon curd at 100"},
		{"the hour that comes twice", "2027-10-31T01:30+01:00,Nan,Spoon curd,1,\n2027-10-31T01:30Z,Nan,Spoon curd,2,\n2027-10-31 09:30,Nan,Spoon curd,2,\n2027-10-31 10:30,Nan,Spoon curd,2,",
			"Nan | 2027-10-31T01:30+01:00 | 1 Spoon curd at 100\nNan 2027-10-31 | 2027-10-31T01:30Z | 2 Spoon curd at 100\nNan 2027-10-31 09:30 | 2027-10-31 09:30 | 2 Spoon curd at 100\nNan 2027-10-31 10:30 | 2027-10-31 10:30 | 2 Spoon curd at 100"},
		{"two prices", "2027-03-27,Nan,Spoon curd,8,2\n2027-03-27,Nan,Spoon curd,8,3", "Nan | 2027-03-27 12:00 | 8 Spoon curd at 200 | 8 Spoon curd at 300"},
		{"the same twice", "2027-03-27,Nan,Spoon curd,8,2\n2027-03-27,Nan,Spoon curd,4,2", "Nan | 2027-03-27 12:00 | 8 Spoon curd at 200\no.csv:3: line 2 orders the same; if both are meant, add their pieces up there"},
		{"the name of what is over", "2027-03-27,over,Spoon curd,8,", "over 2027-03-27 | 2027-03-27 12:00 | 8 Spoon curd at 100"},
		{"there already", "2027-03-20,Eve,Alder drum,5,6.50", "o.csv:2: this order is there already, see targets.yaml:4"},
		{"there with other pieces", "2027-03-20,Eve,Alder drum,6,6.50", "o.csv:2: targets.yaml:4 has an order of this cheese for Eve then, of 5 pieces at 6.50; change it there"},
		{"there without the cheese", "2027-03-20,Eve,Spoon curd,5,", "Eve 2027-03-20 | 2027-03-20 12:00 | 5 Spoon curd at 100"},
		{"a date of what comes again", "2027-04-10 07:00,Stall,Alder drum,3,\n2027-04-10 07:00,Stall,Spoon curd,3,", "Stall 2027-04-10 07:00 | 2027-04-10 07:00 | 3 Spoon curd at 100\no.csv:2: this order is there already, see targets.yaml:5"},
		{"good ones beside bad ones", "2027-03-27,Nan,Spoon curd,x,\n2027-03-27,Nan,Spoon curd,8,\n2027-03-27,Nan,Alder drum,0,", "Nan | 2027-03-27 12:00 | 8 Spoon curd at 100\no.csv:2: pieces: pieces are a whole number in digits alone, such as 24: got \"x\"\no.csv:4: pieces: this number is at least 1: got \"0\""},
		{"a sign that a spreadsheet would reckon", "2027-03-27,'=Nan,Spoon curd,8,\n2027-03-27,-Nan,Spoon curd,8,", "=Nan | 2027-03-27 12:00 | 8 Spoon curd at 100\n-Nan | 2027-03-27 12:00 | 8 Spoon curd at 100"},
		{"quotes within", "2027-03-27,\"Nan's \"\"inn\"\", back door\",Spoon curd,8,", "Nan's \"inn\", back door | 2027-03-27 12:00 | 8 Spoon curd at 100"},
		{"a name that is too long with its date", "2027-03-27," + strings.Repeat("n", 75) + ",Spoon curd,8,\n2027-03-28," + strings.Repeat("n", 75) + ",Spoon curd,8,",
			strings.Repeat("n", 75) + " | 2027-03-27 12:00 | 8 Spoon curd at 100\no.csv:3: who: this name is taken, and with a date behind it longer than the limit of 80 characters: got \"" + strings.Repeat("n", 60) + "…\""},
	} {
		if got := told(t, head+c.lines); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

func TestRefusedLines(t *testing.T) {
	const day = "2027-03-27,Nan,Spoon curd,"
	for _, c := range []struct{ line, want string }{
		{"27/03/2027,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "27/03/2027"; write 2027-03-27`},
		{"04/03/2027,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "04/03/2027"; write 2027-03-04 or 2027-04-03`},
		{"04/03/2027 11:00:00,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "04/03/2027 11:00:00"; write 2027-03-04 11:00 or 2027-04-03 11:00`},
		{"27.03.2027,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "27.03.2027"; write 2027-03-27`},
		{"27.3.27,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "27.3.27"; write 2027-03-27`},
		{"3/4/27 9:30,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "3/4/27 9:30"; write `},
		{"2027/03/27,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "2027/03/27"; write 2027-03-27`},
		{"27 Mar 2027,Nan,Spoon curd,8,", `date: a date is written year-month-day: got "27 Mar 2027"; write 2027-03-12`},
		{"46473,Nan,Spoon curd,8,", `date: a date is written year-month-day, and not counted in days: got "46473"; write 2027-03-27`},
		{"2027-02-30,Nan,Spoon curd,8,", `date: this is not a date of the calendar: got "2027-02-30"; write 2027-02-28`},
		{"2027-03-27 25:00,Nan,Spoon curd,8,", `date: `},
		{"2027-03-28 01:30,Nan,Spoon curd,8,", `date: the clocks go forward over this time, so there is no such moment: got "2027-03-28 01:30"; write 2027-03-28 02:00 or later`},
		{"2027-02-28,Nan,Spoon curd,8,", `date: this is before the planning start, 2027-03-01 06:00: got "2027-02-28"`},
		{"2037-02-28,Nan,Spoon curd,8,", `date: this is further ahead of the planning start, 2027-03-01 06:00, than the limit of 731 days: got "2037-02-28"`},
		{",Nan,Spoon curd,8,", "nothing stands under date"},
		{"2027-03-27,,Spoon curd,8,", "nothing stands under who"},
		{"2027-03-27,Nan,,8,", "nothing stands under cheese"},
		{day + ",", "nothing stands under pieces"},
		{"2027-03-27,Nan,Spon curd,8,", `cheese: there is no recipe of this name: got "Spon curd"; did you mean "Spoon curd"?`},
		{"2027-03-27,Nan,spoon curd,8,", `cheese: there is no recipe of this name: got "spoon curd"; did you mean "Spoon curd"?`},
		{"2027-03-27,Nan,Blue,8,", `cheese: there is no recipe of this name: got "Blue"; write one of Alder drum and Spoon curd`},
		{day + "8.0,", `pieces: pieces are a whole number in digits alone, such as 24: got "8.0"`},
		{day + "\"1,200\",", `pieces: pieces are a whole number in digits alone, such as 24: got "1,200"`},
		{day + "-8,", `pieces: pieces are a whole number in digits alone, such as 24: got "-8"`},
		{day + "100001,", `pieces: this is more than the limit of 100000: got "100001"`},
		{day + "99999999999999999999,", `pieces: this is more than the limit of 100000: got "99999999999999999999"`},
		{day + "8,6.505", `price: a price has at most two decimals: got "6.505"; write 6.51`},
		{day + "8,€6.50", `price: a price is a plain number from 0: got "€6.50"; write 6.50`},
		{day + "8,6.50 €", `price: a price is a plain number, without a sign or name of the money: got "6.50 €"; write 6.50`},
		{day + "8,\"1.234,50\"", `price: `},
		{day + "8,\"1,234\"", `price: `},
		{day + "8,-1", `price: a price is a plain number from 0: got "-1"; write 6.50`},
		{day + "8,6,50", `no column is named above this cell; one that has a comma or semicolon within stands in quotation marks: got "50"`},
		{day + "8", "this line has 4 cells, and the header 5"},
		{"2027-03-27;Nan;Spoon curd;8;6,50", "this line has 2 cells, and the header 5"},
		{"2027-03-27,\"Nan\nand son\",Spoon curd,8,", `who: a name is a single line of letters, digits and signs: got "Nan\nand son"`},
		{"2027-03-27,Nan \u202eX,Spoon curd,8,", `who: a name is a single line of letters, digits and signs: got "Nan \u202eX"`},
		{"2027-03-27," + strings.Repeat("n", 81) + ",Spoon curd,8,", "who: a name has at most 80 characters"},
		{"2027-03-27,Nan 12\" wide,Spoon curd,8,", `a quotation mark is not closed, or stands within a cell; write "…" round the whole cell, and "" for a mark within it`},
	} {
		got := told(t, head+c.line+"\n2027-03-29,last,Spoon curd,1,\n")
		if !strings.HasPrefix(got, "last | ") || !strings.Contains(got, "\no.csv:2: "+c.want) || strings.Count(got, "\n") != 1 {
			t.Errorf("%s: got\n%s\nwant the order below it and\n%s", c.line, got, c.want)
		}
	}
	// A mark that is not closed takes in what is below it, and says so.
	if got, want := told(t, head+day+"1,\n2027-03-27,\"Eve,Spoon curd,8,\n2027-03-27,Eve,Alder drum,8,\n"),
		"Nan | 2027-03-27 12:00 | 1 Spoon curd at 100\no.csv:3: a quotation mark is not closed, or stands within a cell; lines 3 to 4 are taken for one and not read; write"; !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestRefusedFiles(t *testing.T) {
	many := func(n int) string { return head + strings.Repeat("x,,,,\n", n) }
	for _, c := range []struct{ name, text, want string }{
		{"nothing", "", "o.csv: this file is empty; write date,who,cheese,pieces,price"},
		{"empty lines", "\n,,,\n\n", "o.csv: this file is empty; write date,who,cheese,pieces,price"},
		{"no header", "2027-03-27,Nan,Spoon curd,8,\n", `o.csv:1: there is no column of this name: got "2027-03-27"; write date,who,cheese,pieces,price in any order`},
		{"one column", "date who\n", `o.csv:1: this line is to name the columns, with a comma, a semicolon or a tab between them: got "date who"; write date,who,cheese,pieces,price`},
		{"two signs", "\ndate;who;cheese,pieces\n", `o.csv:2: different signs stand between the columns; use one, a comma, a semicolon or a tab: got "date;who;cheese,pieces"; write`},
		{"another sign", "date|who|cheese|pieces\n", `o.csv:1: this line is to name the columns`},
		{"an unknown column", "date,who,chese,pieces\n", `o.csv:1: there is no column of this name: got "chese"; write date,who,cheese,pieces,price in any order; did you mean "cheese"?`},
		{"one column more", "date,who,cheese,pieces,note\n", `o.csv:1: there is no column of this name: got "note"; write date,who,cheese,pieces,price in any order`},
		{"a column twice", "date,who,cheese,pieces,Date\n", `o.csv:1: this column is there twice: got "date"; write date,who,cheese,pieces,price, each once`},
		{"a column missing", "date,who,pieces,price\n", `o.csv:1: the column cheese is missing; write date,who,cheese,pieces,price`},
		{"a header that is not closed", "date,\"who,cheese\n", `o.csv:1: a quotation mark is not closed`},
		{"another encoding", head + "2027-03-27,Nan\xe9,Spoon curd,8,\n", "o.csv:2: this is not text in UTF-8; save it anew from the spreadsheet as CSV in UTF-8"},
		{"two bytes a letter", "\xff\xfed\x00a\x00", "o.csv:1: this is not text in UTF-8; save it anew from the spreadsheet as CSV in UTF-8"},
		{"a byte of nothing", head + "\x00", "o.csv:2: this is not text in UTF-8; save it anew from the spreadsheet as CSV in UTF-8"},
		{"too many lines", many(MaxLines + 1), "o.csv:2002: these are more than the limit of 2000 lines with an order; split the file"},
		{"too large", head + strings.Repeat("\n", MaxBytes), "o.csv: this file is larger than the limit of 1048576 bytes; split it"},
	} {
		if got := told(t, c.text); !strings.HasPrefix(got, "nothing: "+c.want) || strings.Contains(got, "\n") {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
	if got := told(t, many(MaxLines)); !strings.Contains(got, "more faults are not listed") {
		t.Errorf("at the limit: got %.200s, want the lines that are refused", got)
	}
	if _, err := Of([]byte(head), "o.csv", kitchen(t, ""), []byte("targets: 3\n")); err == nil || !strings.HasPrefix(err.Error(), "targets.yaml:1") {
		t.Errorf("got %v, want what is wrong with targets.yaml", err)
	}
	if got := told(t, head); got != "" {
		t.Errorf("a header alone: got %q, want nothing and no fault", got)
	}
}
