package calendar

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"ripeby/resources"
	"ripeby/schedule"
)

var updateWeek = flag.Bool("update-week", false, "write the golden files of the week table and the picture anew")

// weekGolden compares with a file of testdata, or writes it.
func weekGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *updateWeek {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; run go test ./calendar -update-week if that is right\ngot:\n%s\nwant:\n%s", name, got, want)
	}
}

func weekText(t *testing.T, p *schedule.Problem, plan *schedule.Plan, opt WeekOptions) string {
	t.Helper()
	var buf bytes.Buffer
	if err := Week(&buf, p, plan, opt); err != nil {
		t.Fatal(err)
	}
	return buf.String()
}

func TestWeekGolden(t *testing.T) {
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	march := func(d int) resources.Date { return resources.Date{Year: 2027, Month: 3, Day: d} }
	for _, c := range []struct {
		name string
		opt  WeekOptions
	}{
		{"week_80.txt", WeekOptions{Of: march(18)}},
		{"week_40.txt", WeekOptions{Of: march(18), Width: 40}},
		{"week_130.txt", WeekOptions{Of: march(18), Width: 130}},
		{"week_clock_80.txt", WeekOptions{Of: march(28)}},
		{"week_market_80.txt", WeekOptions{Of: march(29)}},
		{"week_empty_80.txt", WeekOptions{Of: march(8)}},
		{"week.md", WeekOptions{Of: march(18), Format: WeekMarkdown}},
		{"week.csv", WeekOptions{Of: march(18), Format: WeekCSV}},
	} {
		t.Run(c.name, func(t *testing.T) {
			weekGolden(t, c.name, []byte(weekText(t, p, plan, c.opt)))
		})
	}
}

// weekWidthCheck fails for each line that is wider than the width.
func weekWidthCheck(t *testing.T, text string, width int) {
	t.Helper()
	cond := runewidth.Condition{StrictEmojiNeutral: true}
	for _, line := range strings.Split(text, "\n") {
		if got := cond.StringWidth(line); got > width {
			t.Errorf("line of %d columns, want at most %d: %q", got, width, line)
		}
	}
}

func TestWeekFitsItsWidth(t *testing.T) {
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	for day := 8; day <= 29; day += 7 {
		for _, width := range []int{30, 33, 40, 55, 72, 80, 81, 100, 132, 250} {
			opt := WeekOptions{Of: resources.Date{Year: 2027, Month: 3, Day: day}, Width: width}
			weekWidthCheck(t, weekText(t, p, plan, opt), width)
		}
	}
}

// nastyNames are names that a kitchen folder may hold.
var nastyNames = map[string]string{
	"newline":     "a\r\nb",
	"escape":      "\x1b[31mred\x07",
	"right":       "abc\u202edef\u2066",
	"hebrew":      "גבינה רכה",
	"wide":        "チーズ工房の冷蔵庫一番上の棚",
	"pipe":        "a|b\\|c",
	"markup":      "<b>*x*</b> _y_ `z` [l](http://example.org)",
	"formula":     "=cmd|'/c calc'!A1",
	"emoji":       "👩\u200d🍳🇮🇪❤️ 🏴\U000e0067\U000e0062\U000e007f",
	"broken":      "\xff\xfeabc",
	"long":        strings.Repeat("long name ", 30),
	"unbroken":    strings.Repeat("x", 300),
	"separators":  "a\u2028b\u0085c\u00a0d",
	"invisible":   "\u200b\ufeff\u00ad",
	"combining":   "e\u0301\u0301\u0301",
	"devanagari":  "नमस्ते दुनिया",
	"semicolons":  "a;b,c\"d",
	"leading tab": "\t=1+1",
}

func TestWeekNastyNames(t *testing.T) {
	for name, nasty := range nastyNames {
		t.Run(name, func(t *testing.T) {
			p := weekTestProblem(t)
			plan := weekTestPlan(t, p)
			rename(p, plan, nasty)
			for _, width := range []int{40, 80, 120} {
				text := weekText(t, p, plan, WeekOptions{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Width: width})
				weekWidthCheck(t, text, width)
				harmless(t, text)
				if !strings.Contains(text, "BH-270316-1") {
					t.Errorf("batch is missing from\n%s", text)
				}
			}
			md := weekText(t, p, plan, WeekOptions{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Format: WeekMarkdown})
			harmless(t, md)
			pipesAgree(t, md)
			if cut := strings.Contains(md, cutNote); cut != (len(nasty) >= 300) {
				t.Errorf("%q: says that names are shortened: %t", nasty, cut)
			}
		})
	}
}

// rename gives every name of the test kitchen the same text.
func rename(p *schedule.Problem, plan *schedule.Plan, name string) {
	p.Kitchen.Name = name
	p.Kitchen.Milk[0].Name = name
	p.Recipes[0].Name = name
	p.Targets[0].Wants[0].Cheese = name
	p.Kitchen.Cold[0].Name = name
	p.Kitchen.Cold[0].Shelves[0].Name = name
	for i := range plan.Targets {
		plan.Targets[i].Because, plan.Targets[i].Cheese = name, name
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		b.Cheese, b.Milk.Supply = name, name
		for j := range b.Stages {
			t := &b.Stages[j]
			t.Stage = name
			if t.Who != "" {
				t.Who = name
			}
			if t.At == "kitchen fridge" {
				t.At = name
			}
			for k := range t.BoxesAt {
				if t.BoxesAt[k].Place == "kitchen fridge" {
					t.BoxesAt[k].Place, t.BoxesAt[k].Shelf = name, name
				}
			}
			for k := range t.Uses {
				t.Uses[k].Thing = name
			}
		}
	}
}

// harmless fails for characters that could move the cursor or turn the text.
func harmless(t *testing.T, text string) {
	t.Helper()
	for _, r := range text {
		if (r < 0x20 && r != '\n') || (r >= 0x7f && r < 0xa0) || (r >= 0x202a && r <= 0x202e) ||
			(r >= 0x2066 && r <= 0x2069) || r == 0x2028 || r == 0x200b || r == 0xfeff || r >= 0xe0000 {
			t.Errorf("%U is in the text", r)
		}
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
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	opt := WeekOptions{Of: resources.Date{Year: 2027, Month: 3, Day: 18}}
	plain := weekText(t, p, plan, opt)
	opt.Colour = true
	coloured := weekText(t, p, plan, opt)
	if strings.Contains(plain, "\x1b") {
		t.Error("colour without being asked")
	}
	if !strings.Contains(coloured, ansiYellow+sharp) {
		t.Error("no colour though asked")
	}
	bare := strings.NewReplacer(ansiBold, "", ansiYellow, "", ansiOff, "").Replace(coloured)
	if bare != plain {
		t.Errorf("colour changes the text: got\n%s\nwant\n%s", bare, plain)
	}
	opt.Format = WeekMarkdown
	if md := weekText(t, p, plan, opt); strings.Contains(md, "\x1b") {
		t.Error("colour in Markdown")
	}
}

func TestWeekErrors(t *testing.T) {
	p := weekTestProblem(t)
	var e *WeekFormatError
	err := Week(&bytes.Buffer{}, p, weekTestPlan(t, p), WeekOptions{Format: "html"})
	if !errors.As(err, &e) || e.Got != "html" || !strings.Contains(err.Error(), "markdown") {
		t.Errorf("got %v, want a WeekFormatError that names the formats", err)
	}
	if err := Week(&bytes.Buffer{}, nil, nil, WeekOptions{}); err == nil {
		t.Error("got no error without a plan")
	}
	if err := Week(failing{}, p, weekTestPlan(t, p), WeekOptions{}); err == nil {
		t.Error("got no error of the writer")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, fmt.Errorf("full") }

func TestWeekOfNoDayIsThatOfTheStart(t *testing.T) {
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	got := weekText(t, p, plan, WeekOptions{})
	if want := "(2027-W10)"; !strings.Contains(got, want) {
		t.Errorf("got\n%s\nwant it to hold %s", got, want)
	}
}

func TestWeekSameBytesWhateverTheLocale(t *testing.T) {
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	want := weekText(t, p, plan, WeekOptions{})
	t.Setenv("LANG", "ja_JP.UTF-8")
	t.Setenv("LC_ALL", "ja_JP.UTF-8")
	t.Setenv("TZ", "Asia/Tokyo")
	t.Setenv("RUNEWIDTH_EASTASIAN", "1")
	if got := weekText(t, p, plan, WeekOptions{}); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What sharp means is said once, and only under a week that has something sharp.
func TestWeekSaysWhatSharpMeans(t *testing.T) {
	p := weekTestProblem(t)
	plan := weekTestPlan(t, p)
	of := resources.Date{Year: 2027, Month: 3, Day: 18}
	for _, format := range []WeekFormat{WeekTerminal, WeekMarkdown} {
		opt := WeekOptions{Of: of, Format: format, Width: 200}
		if got := strings.Count(weekText(t, p, plan, opt), SharpNote); got != 1 {
			t.Errorf("%s: sharp is explained %d times, want once", format, got)
		}
		plain := weekTestPlan(t, p)
		plain.Batches[0].Stages[0].Critical = false
		if got := weekText(t, p, plain, opt); strings.Contains(got, sharp) {
			t.Errorf("%s: nothing is sharp, but it is spoken of in\n%s", format, got)
		}
	}
}
