package week

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"strings"
	"testing"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew")

func tableText(t *testing.T, p *schedule.Problem, plan *schedule.Plan, opt Options) string {
	t.Helper()
	var buf bytes.Buffer
	if err := Table(&buf, p, plan, opt); err != nil {
		t.Fatal(err)
	}
	return buf.String()
}

func TestWeekGolden(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	march := func(d int) resources.Date { return resources.Date{Year: 2027, Month: 3, Day: d} }
	for _, c := range []struct {
		name string
		opt  Options
	}{
		{"week_80.txt", Options{Of: march(18)}},
		{"week_40.txt", Options{Of: march(18), Width: 40}},
		{"week_130.txt", Options{Of: march(18), Width: 130}},
		{"week_clock_80.txt", Options{Of: march(28)}},
		{"week_market_80.txt", Options{Of: march(29)}},
		{"week_empty_80.txt", Options{Of: march(1)}},
		{"week_order_80.txt", Options{Of: march(8)}},
		{"week.md", Options{Of: march(18), Format: Markdown}},
		{"week.csv", Options{Of: march(18), Format: CSV}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := sample.Golden(c.name, []byte(tableText(t, p, plan, c.opt)), *update); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestWeekFitsItsWidth(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for day := 8; day <= 29; day += 7 {
		for _, width := range []int{30, 33, 40, 55, 72, 80, 81, 100, 132, 250} {
			opt := Options{Of: resources.Date{Year: 2027, Month: 3, Day: day}, Width: width}
			if err := sample.Fits(tableText(t, p, plan, opt), width); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestWeekNastyNames(t *testing.T) {
	for name, nasty := range sample.NastyNames {
		t.Run(name, func(t *testing.T) {
			p := sample.Kitchen()
			plan := sample.Plan(p)
			sample.Rename(p, plan, nasty)
			for _, width := range []int{40, 80, 120} {
				text := tableText(t, p, plan, Options{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Width: width})
				if err := sample.Fits(text, width); err != nil {
					t.Error(err)
				}
				if err := sample.Harmless(text); err != nil {
					t.Error(err)
				}
				if !strings.Contains(text, "BH-270316-1") {
					t.Errorf("batch is missing from\n%s", text)
				}
			}
			md := tableText(t, p, plan, Options{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Format: Markdown})
			if err := sample.Harmless(md); err != nil {
				t.Error(err)
			}
			pipesAgree(t, md)
			if cut := strings.Contains(md, cutNote); cut != (len(nasty) >= 300) {
				t.Errorf("%q: says that names are shortened: %t", nasty, cut)
			}
		})
	}
}

// pipesAgree fails when a row of a pipe table has not as many columns as the row
// above it.
func pipesAgree(t *testing.T, md string) {
	t.Helper()
	above := 0
	for _, line := range strings.Split(md, "\n") {
		if !strings.HasPrefix(line, "|") {
			above = 0
			continue
		}
		bare := strings.ReplaceAll(strings.ReplaceAll(line, `\\`, ""), `\|`, "")
		n := strings.Count(bare, "|")
		if above != 0 && n != above {
			t.Errorf("row with %d pipes under one with %d: %s", n, above, line)
		}
		above = n
	}
}

func TestWeekColourOnlyWhenAsked(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	opt := Options{Of: resources.Date{Year: 2027, Month: 3, Day: 18}}
	plain := tableText(t, p, plan, opt)
	opt.Colour = true
	coloured := tableText(t, p, plan, opt)
	if strings.Contains(plain, "\x1b") {
		t.Error("colour without being asked")
	}
	if !strings.Contains(coloured, "\x1b[33m"+words.Sharp) {
		t.Error("no colour though asked")
	}
	bare := strings.NewReplacer("\x1b[1m", "", "\x1b[33m", "", "\x1b[0m", "").Replace(coloured)
	if bare != plain {
		t.Errorf("colour changes the text: got\n%s\nwant\n%s", bare, plain)
	}
	opt.Format = Markdown
	if md := tableText(t, p, plan, opt); strings.Contains(md, "\x1b") {
		t.Error("colour in Markdown")
	}
}

func TestWeekErrors(t *testing.T) {
	p := sample.Kitchen()
	var e *FormatError
	err := Table(&bytes.Buffer{}, p, sample.Plan(p), Options{Format: "html"})
	if !errors.As(err, &e) || e.Got != "html" || !strings.Contains(err.Error(), "markdown") {
		t.Errorf("got %v, want a WeekFormatError that names the formats", err)
	}
	if err := Table(&bytes.Buffer{}, nil, nil, Options{}); err == nil {
		t.Error("got no error without a plan")
	}
	if err := Table(failing{}, p, sample.Plan(p), Options{}); err == nil {
		t.Error("got no error of the writer")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, fmt.Errorf("full") }

func TestWeekOfNoDayIsThatOfTheStart(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	got := tableText(t, p, plan, Options{})
	if want := "(2027-W10)"; !strings.Contains(got, want) {
		t.Errorf("got\n%s\nwant it to hold %s", got, want)
	}
}

func TestWeekSameBytesWhateverTheLocale(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	want := tableText(t, p, plan, Options{})
	t.Setenv("LANG", "ja_JP.UTF-8")
	t.Setenv("LC_ALL", "ja_JP.UTF-8")
	t.Setenv("TZ", "Asia/Tokyo")
	t.Setenv("RUNEWIDTH_EASTASIAN", "1")
	if got := tableText(t, p, plan, Options{}); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What Sharp means is said once, and only under a week that has something Sharp.
func TestWeekSaysWhatSharpMeans(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	of := resources.Date{Year: 2027, Month: 3, Day: 18}
	for _, format := range []Format{Terminal, Markdown} {
		opt := Options{Of: of, Format: format, Width: 200}
		if got := strings.Count(tableText(t, p, plan, opt), words.SharpNote); got != 1 {
			t.Errorf("%s: sharpWord is explained %d times, want once", format, got)
		}
		plain := sample.Plan(p)
		plain.Batches[0].Stages[0].Critical = false
		if got := tableText(t, p, plain, opt); strings.Contains(got, words.Sharp) {
			t.Errorf("%s: nothing is sharpWord, but it is spoken of in\n%s", format, got)
		}
	}
}
