package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// recordFolder is a kitchen folder with a plan, in which it is Saturday the 13th, 20:00. The
// plan's only batch is QC-270304-1.
func recordFolder(t *testing.T) (folder string, said func(args ...string) ran) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "small")
	if err := os.CopyFS(folder, os.DirFS("../../testdata/script/small")); err != nil {
		t.Fatal(err)
	}
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--from", "2027-03-01 06:00"); got.code != exitMet {
		t.Fatal(got.err)
	}
	now := time.Date(2027, 3, 4, 20, 0, 30, 0, time.UTC)
	return folder, func(args ...string) ran {
		t.Helper()
		return runWith(t.Context(), func(p *program) { p.now = func() time.Time { return now } }, append([]string{"record", "-C", folder}, args...)...)
	}
}

func lastLine(text string) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	return lines[len(lines)-1]
}

// TestEachVerb says each thing once, as a maker would, and looks at the line.
func TestEachVerb(t *testing.T) {
	folder, said := recordFolder(t)
	rewrite(t, folder, "kitchen.yaml", "pots:", "businesses: [{name: Shop, address: \"2 Quay Row\"}]\ncold: [{name: fridge, temperature: 4 °C, shelves: [{name: top, size: 50 x 40 x 30 cm}]}]\nmilk: [{name: Hill cow, days: daily, ready: \"07:00\", keeps: 2 d}]\npots:")
	file := filepath.Join(folder, "record", "2027-03.yaml")
	cases := []struct{ args, want string }{
		{`began|QC-270304-1|make|--at|15:00|--litres|7.5 L|--lots|calcium chloride C-1|--lots|rennet no|--drew|Hill cow 2027-03-04|--pot|tall pot`,
			`at: "2027-03-04 15:00", written: "2027-03-04 20:00", batch: "QC-270304-1", began: "make", litres: "7.5 L", pot: "tall pot", drew: {supply: "Hill cow", day: "2027-03-04"}, lots: [{what: "calcium chloride", lot: "C-1"}, {what: "rennet", lot: "no"}]`},
		{`did|QC-270304-1|make|--at|15:40|--pieces|15|--measured|curd temperature 26 °C|--measured|pH 4.5|--measured|smell fresh and sour|--who|Nell|--note|soft, whey clear`,
			`at: "2027-03-04 15:40", written: "2027-03-04 20:00", who: "Nell", batch: "QC-270304-1", did: "make", pieces: 15, measured: [{what: "curd temperature", is: "26 °C"}, {what: "pH", is: "4.5"}, {what: "smell", is: "fresh and sour"}], note: "soft, whey clear"`},
		{`not_yet|QC-270304-1|pack|--look|3 h|--place|fridge|--shelf|top`, `at: "2027-03-04 20:00", batch: "QC-270304-1", not_yet: "pack", look: "3 h", stands: {place: "fridge", shelf: "top"}`},
		{`pieces|QC-270304-1|14`, `at: "2027-03-04 20:00", batch: "QC-270304-1", pieces: 14`},
		{`gone|QC-270304-1|3|--why|no`, `at: "2027-03-04 20:00", batch: "QC-270304-1", gone: 3, why: "no"`},
		{`weight|QC-270304-1|1.2 kg`, `at: "2027-03-04 20:00", batch: "QC-270304-1", weight: "1.2 kg"`},
		{`stands|QC-270304-1|fridge`, `at: "2027-03-04 20:00", batch: "QC-270304-1", stands: {place: "fridge"}`},
		{`measured|QC-270304-1|pH 4.5|room 19 °C`, `at: "2027-03-04 20:00", batch: "QC-270304-1", measured: [{what: "pH", is: "4.5"}, {what: "room", is: "19 °C"}]`},
		{`measured|fridge|temperature -1 °C`, `at: "2027-03-04 20:00", place: "fridge", measured: [{what: "temperature", is: "-1 °C"}]`},
		{`lost|QC-270304-1|--why|it fell, all of it`, `at: "2027-03-04 20:00", batch: "QC-270304-1", why: "it fell, all of it", lost: true`},
		{`did|Quick curd|make|--litres|8 L`, `at: "2027-03-04 20:00", cheese: "Quick curd", did: "make", litres: "8 L"`},
		{`ordered|Hill cow|2027-03-06|24 L`, `at: "2027-03-04 20:00", milk: "Hill cow", day: "2027-03-06", ordered: "24 L"`},
		{`came|Hill cow|yesterday|0 L|--lot|11:20`, `at: "2027-03-04 20:00", milk: "Hill cow", day: "2027-03-03", came: "0 L", lot: "11:20"`},
		{`took|Friday stall|Quick curd|8|--of|QC-270304-1 8`, `at: "2027-03-04 20:00", target: "Friday stall", cheese: "Quick curd", took: 8, of: {"QC-270304-1": 8}`},
		{`back|Friday stall|Quick curd|2|--resell|--to|Shop`, `at: "2027-03-04 20:00", target: "Friday stall", cheese: "Quick curd", back: 2, resell: true, to: "Shop"`},
		{`sold_out|Friday stall|Quick curd|11:20`, `at: "2027-03-04 20:00", target: "Friday stall", cheese: "Quick curd", sold_out: "11:20"`},
		{`closed|fridge|top|--until|2027-03-06`, `at: "2027-03-04 20:00", place: "fridge", shelf: "top", closed: {until: "2027-03-07 00:00"}`},
		{`closed|fridge`, `at: "2027-03-04 20:00", place: "fridge", closed: true`},
		{`open|fridge|top`, `at: "2027-03-04 20:00", place: "fridge", shelf: "top", open: true`},
		{`away|Nell|--from|2027-03-06|--until|2027-03-07 12:00`, `at: "2027-03-04 20:00", person: "Nell", away: {from: "2027-03-06 00:00", until: "2027-03-07 12:00"}`},
		{`away|Nell`, `at: "2027-03-04 20:00", person: "Nell", away: true`},
		{`here|Nell`, `at: "2027-03-04 20:00", person: "Nell", here: true`},
		{`takes|Nell|QC-270304-1|pack`, `at: "2027-03-04 20:00", person: "Nell", takes: {batch: "QC-270304-1", stage: "pack"}`},
		{`round`, `at: "2027-03-04 20:00", round: "2027-03-04", did: true`},
		{`round|2027-03-03|--skipped`, `at: "2027-03-04 20:00", round: "2027-03-03", skipped: true`},
		{`new|rennet|--lot|0012|--use_by|2027-09-30|--strength|200 IMCU/mL|--holds|50 mL`, `at: "2027-03-04 20:00", new: "rennet", lot: "0012", use_by: "2027-09-30", strength: "200 IMCU/mL", holds: "50 mL"`},
		{`note|the fridge hums, loudly|--batch|QC-270304-1`, `at: "2027-03-04 20:00", batch: "QC-270304-1", note: "the fridge hums, loudly"`},
		{`strike|3|4`, `at: "2027-03-04 20:00", strikes: [3, 4]`},
		{`gone|QC-270304-1|2|--strikes|5`, `at: "2027-03-04 20:00", batch: "QC-270304-1", gone: 2, strikes: 5`},
	}
	verbs := map[string]bool{}
	for i, c := range cases {
		args := strings.Split(c.args, "|")
		verbs[args[0]] = true
		before, _ := os.ReadFile(file)
		dry := said(append(args, "--dry-run")...)
		if now, _ := os.ReadFile(file); string(now) != string(before) {
			t.Fatalf("%s: --dry-run wrote something", c.args)
		}
		got := said(args...)
		text, err := os.ReadFile(file)
		if got.code != 0 || got.err != "" || err != nil {
			t.Errorf("%s: got exit code %d, %q (%v)", c.args, got.code, got.err, err)
			continue
		}
		want := "- {nr: " + string(rune('0'+(i+1)/10)) + string(rune('0'+(i+1)%10)) + ", " + c.want + "}"
		want = strings.Replace(want, "nr: 0", "nr: ", 1)
		if line := lastLine(string(text)); line != want || !strings.HasPrefix(string(text), string(before)) {
			t.Errorf("%s:\ngot  %s\nwant %s", c.args, line, want)
		}
		if dry.code != 0 || lastLine(dry.out) != want || !strings.Contains(dry.out, "This would be added to record/2027-03.yaml:") {
			t.Errorf("%s, --dry-run: got exit code %d, %q and %q", c.args, dry.code, dry.out, dry.err)
		}
	}
	for _, v := range recordVerbs {
		if !verbs[v.name] {
			t.Errorf("%s is not tried here", v.name)
		}
	}
	if got := said(); got.code != 0 || len(strings.Split(got.out, "\n")) != recordListed+2 || !strings.HasPrefix(got.out, "The last 20 of 29 entries:\n") ||
		!strings.Contains(got.out, "   28  2027-03-04 20:00  strikes: [3, 4]\n") {
		t.Errorf("the list: got exit code %d and\n%s", got.code, got.out)
	}
	got := said("--count", "40")
	for _, want := range []string{"    2  2027-03-04 15:40  Nell  batch: QC-270304-1, did: make, pieces: 15, measured: [{what: curd temperature, is: 26 °C}, {what: pH, is: 4.5}, {what: smell, is: fresh and sour}], note: soft, whey clear\n",
		"    3  2027-03-04 20:00        batch: QC-270304-1, not_yet: pack, look: 3 h, stands: {place: fridge, shelf: top}  (struck by 28)\n"} {
		if !strings.Contains(got.out, want) {
			t.Errorf("the list has no\n%sbut\n%s", want, got.out)
		}
	}
}

// TestSaidTwiceIsTold, and what was asked about is taken with --again.
func TestSaidTwiceIsTold(t *testing.T) {
	_, said := recordFolder(t)
	first := said("did", "QC-270304-1", "make", "--pieces", "14", "--at", "15:40")
	if want := "Written down in record/2027-03.yaml, line 1:\n    1  2027-03-04 15:40  batch: QC-270304-1, did: make, pieces: 14\nAs planned. Next: pack, Thu 4 Mar 2027 21:40, Nell.\n"; first.out != want {
		t.Errorf("got %q, want %q", first.out, want)
	}
	if got := said("did", "QC-270304-1", "make", "--at", "15:50"); got.code != 0 || lastLine(got.out) != "Entry 1, record/2027-03.yaml:1, said so first and holds; strike it if this one is right." {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	if got := said("pieces", "QC-270304-1", "15"); got.code != exitWrong || got.out != "" || got.err != "ripeby: nothing was written\n"+
		"record/2027-03.yaml:3: 15 pieces are more than the 14 that were left of it, see record/2027-03.yaml:1: batch: QC-270304-1, did: make, pieces: 14; write the right number, or say it again (--again) if it is so\n" {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	if got := said("pieces", "QC-270304-1", "15", "--again"); got.code != 0 {
		t.Errorf("said again: got exit code %d and %q", got.code, got.err)
	}
}

// TestCutAndWrongLines: neither keeps anybody from saying something, and both are told.
func TestCutAndWrongLines(t *testing.T) {
	folder, said := recordFolder(t)
	said("note", "first")
	file := filepath.Join(folder, "record", "2027-03.yaml")
	text, _ := os.ReadFile(file)
	if err := os.WriteFile(file, []byte(string(text)+"- {nr: 2, at: \"2027-03"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := said("note", "third"); got.code != 0 || !strings.Contains(got.out, "    3  ") || !strings.Contains(got.err, "mind that record/2027-03.yaml:2: this line was cut short") {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	if got := said(); got.code != 0 || !strings.Contains(got.err, "mind that record/2027-03.yaml:2: ") || strings.Count(got.out, "  note: ") != 2 {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	rewrite(t, folder, "record/2027-03.yaml", `- {nr: 2, at: "2027-03`, `- {nr: 2, at: "2027-03"}`)
	if got := said(); got.code != exitWrong || !strings.Contains(got.err, "\nrecord/2027-03.yaml:2:15: at: a moment") {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	if got := said("note", "fourth"); got.code != 0 || !strings.Contains(got.out, "    4  ") || !strings.Contains(got.err, "mind that record/2027-03.yaml:2:15: at: a moment") {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	if got := runWith(t.Context(), nil, "check", "-C", folder, "--from", "2027-03-01 06:00"); got.code != exitWrong || !strings.Contains(got.err, "record/2027-03.yaml:2:15: at: a moment") {
		t.Errorf("check: got exit code %d, %q and %q", got.code, got.out, got.err)
	}
	rewrite(t, folder, "record/2027-03.yaml", `- {nr: 2, at: "2027-03"}`, "# nothing")
	if got := runWith(t.Context(), nil, "check", "-C", folder, "--from", "2027-03-01 06:00"); got.code != 0 || !strings.Contains(got.out, "\nRecord      3 entries, the last of Thu 4 Mar 2027 20:00\n") {
		t.Errorf("check: got exit code %d, %q and %q", got.code, got.out, got.err)
	}
}

// TestRecordCSV has a column for every key, and nothing that a spreadsheet would reckon.
func TestRecordCSV(t *testing.T) {
	_, said := recordFolder(t)
	said("did", "QC-270304-1", "make", "--pieces", "14", "--at", "15:40", "--who", "Nell", "--note", "=1+1")
	said("strike", "1")
	want := "nr,at,written,who,batch,milk,day,target,date,cheese,place,shelf,person,round,new,began,did,not_yet,look,litres,pot,drew,stands,pieces,gone,why,weight,measured,lots,lost," +
		"ordered,came,lot,took,of,back,resell,sold_out,to,closed,open,away,here,takes,skipped,use_by,strength,holds,note,once,strikes,struck_by,file,line\r\n" +
		"1,2027-03-04 15:40,2027-03-04 20:00,Nell,QC-270304-1,,,,,,,,,,,,make,,,,,,,14,,,,,,,,,,,,,,,,,,,,,,,,,'=1+1,,,2,record/2027-03.yaml,1\r\n" +
		"2,2027-03-04 20:00,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,1,,record/2027-03.yaml,2\r\n"
	if got := said("--csv"); got.code != 0 || got.out != want {
		t.Errorf("got exit code %d, %q and\n%s\nwant\n%s", got.code, got.err, got.out, want)
	}
}

// TestNothingCanBeWritten: where the disk refuses, it is told that it may not be there.
func TestNothingCanBeWritten(t *testing.T) {
	folder, said := recordFolder(t)
	if err := os.WriteFile(filepath.Join(folder, "record"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if got := said("note", "x"); got.code == 0 || got.out != "" {
		t.Errorf("got exit code %d, %q and %q", got.code, got.out, got.err)
	}
}

// TestAnswersSayWhatItMeans: on its way as planned, or what must move.
func TestAnswersSayWhatItMeans(t *testing.T) {
	for _, c := range []struct{ args, want string }{
		{`did|QC-270304-1|make|--at|PLANNED`, `As planned. Next: pack, `},
		{`did|QC-270304-1|make|--at|2027-03-04 19:59`, `but within what it may slip: nothing else has to move`},
		{`began|QC-270304-1|make|--at|06:30`, `Sooner than planned`},
		{`lost|QC-270304-1`, `10 pieces were for targets; see what can be made up for: ripeby plan -C`},
		{`pieces|QC-270304-1|14`, `There are enough of it`},
		{`pieces|QC-270304-1|8`, `fewer than are for targets`},
		{`not_yet|QC-270304-1|pack`, `See who looks again and when`},
		{`away|Nell`, `1 task planned for Nell falls into it, the first Thu 4 Mar 2027 21:40`},
		{`away|Nell|--from|2027-03-20|--until|2027-03-22`, `No work that is planned for Nell falls into it`},
		{`takes|Nell|QC-270304-1|pack`, `It is planned for Nell already, Thu 4 Mar 2027 `},
		{`takes|Nell|QC-270304-1|make`, `It is planned for Nell already`},
	} {
		folder, said := recordFolder(t)
		plan, err := output{filepath.Join(folder, "plan")}.earlier()
		if err != nil {
			t.Fatal(err)
		}
		make := plan.Batch("QC-270304-1").Stages[0]
		args := strings.ReplaceAll(c.args, "PLANNED", make.Start.Add(make.Work).In(time.UTC).Format("2006-01-02 15:04"))
		if got := said(strings.Split(args, "|")...); got.code != exitMet || !strings.Contains(lastLine(got.out), c.want) {
			t.Errorf("%s: got %d, %q %q, want %q", c.args, got.code, got.out, got.err, c.want)
		}
	}
	_, said := recordFolder(t)
	if got := said("note", "cold"); strings.Contains(got.out, "plan") {
		t.Errorf("a note: got %q, want nothing of the plan", got.out)
	}
	if got := said(); !strings.Contains(got.out, "To be answered") || !strings.Contains(got.out, "make of QC-270304-1") {
		t.Errorf("the list: got %q, want the make to be answered", got.out)
	}
}
