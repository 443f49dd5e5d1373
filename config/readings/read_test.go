package readings

import (
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"ripeby/config/fault"
	"ripeby/resources"
)

// Every line that is written is read again, at its own moment: also in the hour that the clocks show twice
// (Europe/Dublin, 2027-10-31 02:00 to 01:00, from the time zone database).
func TestLinesComeBack(t *testing.T) {
	zone := dublin(t)
	for _, c := range []struct {
		at    string
		place string
		is    resources.MilliCelsius
		want  string
	}{
		{"2027-03-16 08:02", "fridge", 4600, "2027-03-16 08:02,fridge,4.60\n"},
		{"2027-07-16 08:02", "cave, back", -500, "2027-07-16 09:02,\"cave, back\",-0.50\n"},
		{"2027-10-31 00:30", `the "old" one`, 0, "2027-10-31 01:30,\"the \"\"old\"\" one\",0.00\n"},
		{"2027-10-31 01:30", "'=1+1", 100_000, "2027-10-31T01:30:00Z,'=1+1,100.00\n"},
		{"2027-10-31 02:30", " käse ", -60_000, "2027-10-31 02:30,\" käse \",-60.00\n"},
	} {
		l := Line{moment(t, c.at), c.place, c.is}
		got, err := l.text(zone)
		if err != nil || got != c.want {
			t.Errorf("got %q, %v, want %q", got, err, c.want)
		}
		again, read, bad := (&parser{zone: zone}).parse(strings.TrimSuffix(got, "\n"))
		if !read || bad != nil || again != l {
			t.Errorf("%q: got %+v, %v, want %+v", got, again, bad, l)
		}
		for n := range len(got) - 2 { // cut anywhere, no last line is another number
			if cut := got[:n]; whole(cut) {
				t.Errorf("%q is taken for whole", cut)
			}
		}
	}
	for in, want := range map[resources.MilliCelsius]string{4: "0.00", -4: "0.00", 5: "0.01", -5: "-0.01", 62: "0.06", 4999: "5.00", -12345: "-12.35"} {
		if got := celsius(in); got != want {
			t.Errorf("%d thousandths: got %s, want %s", in, got, want)
		}
	}
	if _, err := (Line{Place: strings.Repeat("x", MaxLine)}).text(zone); err == nil || !strings.Contains(err.Error(), "limit of 1024 bytes") {
		t.Errorf("a long name: got %v", err)
	}
}

// A line that cannot be read is told with its file and line, and how to write it; all others hold.
func TestWrongLines(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"2027-03-16 08:02,fridge", "a line has a time, a place and a temperature"},
		{"2027-03-16 08:02,fridge,4.6,x", "a line has a time, a place and a temperature"},
		{"2027-03-16;fridge;4.6", "with commas between"},
		{"2027-03-16 08:02,fridge,4.,cut", "was cut short"},
		{"16/03/2027 08:02,fridge,4.6", "write 2027-"},
		{"2027-03-28 01:30,fridge,4.6", "the clocks go forward"},
		{"2027-03-16 08:02,,4.6", "the place is missing"},
		{"2027-03-16 08:02,fridge,cold", `number of °C: got "cold"; write 4.60`},
		{"2027-03-16 08:02,fridge,NaN", "number of °C"},
		{"2027-03-16 08:02,fridge,4.6 °C", "number of °C"},
		{"2027-03-16 08:02,fridge,1e1", "number of °C"},
		{"2027-03-16 08:02,fridge,-60.01", "no place is colder than -60 °C"},
		{"2027-03-16 08:02,fridge,100.01", "or warmer than 100 °C"},
		{"2027-03-16 08:02,\"fridge,4.6", "a quotation mark is not closed"},
		{"2027-03-16 08:02,fr\xffidge,4.6", "not text in UTF-8"},
		{"\x00\x00\x00", "not text in UTF-8"},
		{"2027-03-16 08:02," + strings.Repeat("x", MaxLine) + ",4.6", "limit of 1024 bytes"},
	} {
		text := "at,place,celsius\r\n\r\n2027-03-16 08:02,fridge,4.6\r\n" + c.line + "\n2027-03-16T08:20,fridge,\"4,7\"\nAT,Place,Celsius\n2027-03-16 08:31,fridge,-1\n"
		lines, faults := month("readings/2027-03.csv", []byte(text), dublin(t))
		if len(lines) != 3 || lines[0].Is != 4600 || lines[1].Is != 4700 || lines[2].Is != -1000 {
			t.Errorf("%q: got the lines %v", c.line, lines)
		}
		if len(faults) != 1 || !strings.HasPrefix(faults[0].Error(), "readings/2027-03.csv:4: ") || !strings.Contains(faults[0].Error(), c.want) || len(faults[0].Error()) > 300 {
			t.Errorf("%q: got %v, want %q", c.line, faults, c.want)
		}
	}
	lines, faults := month("f", []byte("\ufeffat,place,celsius\n2027-03-16 08:02,fridge,4.6"), dublin(t))
	if len(lines) != 0 || len(faults) != 1 || faults[0].Line != 2 || !strings.Contains(faults[0].Error(), "end it with a line break") {
		t.Errorf("a last line that may be cut: got %v, %v", lines, faults)
	}
	lines, faults = month("f", []byte("2027-03-16 08:02,fridge,4.60"), dublin(t))
	if len(lines) != 1 || len(faults) != 0 {
		t.Errorf("a last line that is whole: got %v, %v", lines, faults)
	}
	_, faults = month("f", []byte(strings.Repeat("x\n", 100_000)), dublin(t))
	if len(faults) != fault.Max+1 || !strings.Contains(faults[fault.Max].Error(), "99800 more lines cannot be read (limit 200)") {
		t.Errorf("a file of another kind: got %d faults, the last %v", len(faults), faults[len(faults)-1])
	}
}

// opened counts which files are opened.
type opened struct {
	fs.FS
	names []string
}

func (o *opened) Open(name string) (fs.File, error) {
	o.names = append(o.names, name)
	return o.FS.Open(name)
}

func (o *opened) Stat(name string) (fs.FileInfo, error) { return fs.Stat(o.FS, name) }

// Of five years of readings only the months of the span are opened.
func TestOnlyMonthsOfTheSpanAreOpened(t *testing.T) {
	zone, all := dublin(t), fstest.MapFS{}
	for year := 2023; year <= 2028; year++ {
		for m := 1; m <= 12; m++ {
			all[fmt.Sprintf("readings/%d-%02d.csv", year, m)] = &fstest.MapFile{Data: fmt.Appendf(nil, "%s\n%d-%02d-14 12:00,fridge,4.60\n", header, year, m)}
		}
	}
	for _, c := range []struct {
		from, until string
		want        []string
	}{
		{"2027-03-10 08:00", "2027-03-17 08:00", []string{"readings/2027-03.csv"}},
		{"2027-02-27 08:00", "2027-03-06 08:00", []string{"readings/2027-02.csv", "readings/2027-03.csv"}},
		{"2026-12-30 08:00", "2027-01-01 00:00", []string{"readings/2026-12.csv"}},
		{"2027-06-30 23:30", "2027-07-01 08:00", []string{"readings/2027-07.csv"}}, // local time is an hour ahead
		{"2027-01-31 12:00", "2027-03-01 12:00", []string{"readings/2027-01.csv", "readings/2027-02.csv", "readings/2027-03.csv"}},
		{"2030-01-31 12:00", "2030-02-01 12:00", nil},
	} {
		fsys := &opened{FS: all}
		lines, faults := Read(fsys, zone, resources.Span{From: moment(t, c.from), Until: moment(t, c.until)})
		if !reflect.DeepEqual(fsys.names, c.want) || len(lines) != len(c.want) || len(faults) != 0 {
			t.Errorf("%s to %s: opened %q, want %q; read %v, %v", c.from, c.until, fsys.names, c.want, lines, faults)
		}
	}
}

// A month beyond its limit, or one that is no file, is told, and the other is read.
func TestFilesThatCannotBeRead(t *testing.T) {
	all := fstest.MapFS{"readings/2027-02.csv": {Data: make([]byte, MaxBytes+1)}, "readings/2027-03.csv": {Mode: fs.ModeDir},
		"readings/2027-04.csv": {Data: []byte("2027-04-01 08:00,fridge,4.60\n")}}
	lines, faults := Read(all, dublin(t), resources.Span{From: moment(t, "2027-02-20 08:00"), Until: moment(t, "2027-04-20 08:00")})
	if len(lines) != 1 || len(faults) != 2 || !strings.Contains(faults.Error(), "readings/2027-02.csv: this file is larger than the limit of 8388608 bytes") ||
		!strings.Contains(faults.Error(), "readings/2027-03.csv: this is a folder") {
		t.Errorf("got %v, %v", lines, faults)
	}
}

// A month of four thermometers, the most that a page reads twice of.
func BenchmarkReadMonth(b *testing.B) {
	zone := dublin(b)
	text := []byte(header + "\n")
	for m := moment(b, "2027-03-01 00:00"); m < moment(b, "2027-04-01 00:00"); m += 15 {
		for _, place := range []string{"fridge", "cave", "pantry", "room"} {
			line, err := Line{m, place, 4600}.text(zone)
			if err != nil {
				b.Fatal(err)
			}
			text = append(text, line...)
		}
	}
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if lines, faults := month("f", text, zone); len(lines) < 11_000 || len(faults) > 0 {
			b.Fatal(len(lines), faults)
		}
	}
}
