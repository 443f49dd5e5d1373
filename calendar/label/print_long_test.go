//go:build long

package label

import (
	"bytes"
	"compress/zlib"
	"context"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// nearEnough is how far from its place a label may be printed, in millimetres.
const nearEnough = 0.3

// TestPrintedAtTrueSize prints labels with a browser and measures the PDF: how many pages, how large
// each is, and where the line round each label lies; and on the page whether all text is seen.
func TestPrintedAtTrueSize(t *testing.T) {
	for _, c := range []struct {
		name         string
		size         resources.Area
		sheet        func() *resources.Sheet
		labels, from int
		pages        int
		lines        []resources.LabelLine
	}{
		{"A4 in columns", resources.Area{Width: 60_000, Height: 40_000}, func() *resources.Sheet {
			return &resources.Sheet{Paper: resources.Papers()[0], Columns: 3, Rows: 7, Left: 7_000, Top: 5_000, Across: 63_500, Down: 41_000}
		}, 24, 5, 2, nil},
		{"letter, small ones", resources.Area{Width: 38_100, Height: 21_200}, func() *resources.Sheet {
			s := &resources.Sheet{Paper: resources.Papers()[3], Left: -1, Top: -1}
			s.Fill(resources.Area{Width: 38_100, Height: 21_200})
			return s
		}, 70, 1, 2, []resources.LabelLine{resources.LineName, resources.LineMilk, resources.LineWeight, resources.LineUseBy, resources.LineLot}},
		{"a roll, large", resources.Area{Width: 101_600, Height: 76_200}, func() *resources.Sheet { return nil }, 3, 1, 3, resources.LabelLines()},
		{"A4 to its edges", resources.Area{Width: 70_000, Height: 37_125}, func() *resources.Sheet {
			return &resources.Sheet{Paper: resources.Papers()[0], Columns: 3, Rows: 8, Across: 70_000, Down: 37_125}
		}, 24, 1, 1, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy()
			p.Kitchen.Labels.Size, p.Kitchen.Labels.Sheet, p.Kitchen.Labels.Lines = c.size, c.sheet(), c.lines
			if len(c.lines) > 8 {
				p.Recipes[0].Label.GTIN = "09521234543213"
			}
			made, err := Page(p, []Lot{hoops(p, c.labels)}, Options{Start: c.from, Outline: true})
			if err != nil {
				t.Fatal(err)
			}
			pdf, hidden := printed(t, made)
			if hidden != 0 {
				t.Errorf("%d labels do not show all of their text", hidden)
			}
			if folder := os.Getenv("RIPEBY_SHOTS"); folder != "" {
				if err := os.WriteFile(filepath.Join(folder, "labels-"+strings.ReplaceAll(c.name, " ", "-")+".pdf"), pdf, 0o644); err != nil {
					t.Error(err)
				}
			}
			held(t, p, pdf, c.labels, c.from, c.pages)
		})
	}
}

// held holds a PDF against where the kitchen has its labels lie.
func held(t *testing.T, p *schedule.Problem, pdf []byte, labels, from, pages int) {
	t.Helper()
	k := p.Kitchen.Labels
	sheet := k.Sheet
	if sheet == nil {
		sheet = &resources.Sheet{Paper: resources.Paper{Area: k.Size}, Columns: 1, Rows: 1}
	}
	mm := func(l resources.Micrometres) float64 { return float64(l) / 1000 }
	read := readPDF(t, pdf)
	if len(read) != pages {
		t.Fatalf("got %d pages, want %d", len(read), pages)
	}
	place, worst := from-1, 0.0
	for n, printed := range read {
		if off := max(math.Abs(printed.wide-mm(sheet.Width)), math.Abs(printed.high-mm(sheet.Height))); off > nearEnough {
			t.Errorf("page %d: got %.2f x %.2f mm", n+1, printed.wide, printed.high)
		}
		for _, box := range printed.boxes(mm(k.Size.Width), mm(k.Size.Height)) {
			i := place % sheet.Cells()
			x := mm(sheet.Left + resources.Micrometres(i%sheet.Columns)*sheet.Across)
			y := mm(sheet.Top + resources.Micrometres(i/sheet.Columns)*sheet.Down)
			off := max(math.Abs(box.left-x), math.Abs(box.top-y), math.Abs(box.right-x-mm(k.Size.Width)), math.Abs(box.bottom-y-mm(k.Size.Height)))
			if worst = max(worst, off); off > nearEnough {
				t.Errorf("label %d on page %d: got %+v, want it from %.2f, %.2f mm on", place, n+1, box, x, y)
			}
			place++
		}
	}
	if got := place - from + 1; got != labels {
		t.Errorf("got %d labels in the PDF, want %d", got, labels)
	}
	t.Logf("%d labels on %d pages, the farthest %.3f mm from its place", place-from+1, len(read), worst)
}

// printed prints a page as a browser does at 100 %, and counts the labels that hide some of their text.
func printed(t *testing.T, made []byte) (pdf []byte, hidden int) {
	t.Helper()
	program, err := exec.LookPath("chromium")
	if err != nil {
		if program, err = exec.LookPath("google-chrome"); err != nil {
			testrun.Missing(t, "there is no chromium or google-chrome here")
		}
	}
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = w.Write(made)
	}))
	defer web.Close()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	defer stop()
	ctx, stop = chromedp.NewContext(ctx)
	defer stop()
	ctx, stop = context.WithTimeout(ctx, time.Minute)
	defer stop()
	const cut = `[...document.querySelectorAll(".label")].filter(l => {
		const all = l.getBoundingClientRect()
		return l.scrollHeight > l.clientHeight + 1 || l.scrollWidth > l.clientWidth + 1 ||
			[...l.querySelectorAll("p, svg")].some(e => e.getBoundingClientRect().bottom > all.bottom || e.getBoundingClientRect().right > all.right)
	}).length`
	if err := chromedp.Do(ctx, chromedp.Navigate(web.URL)); err != nil {
		t.Fatal(err)
	}
	if hidden, err = chromedp.Run(ctx, chromedp.Evaluate[int](cut)); err != nil {
		t.Fatal(err)
	}
	yes := true
	got, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &yes, PrintBackground: &yes})
	if err != nil {
		t.Fatal(err)
	}
	return got.Data, hidden
}

// printedPage is one page of a PDF, in millimetres from its upper left corner.
type printedPage struct {
	wide, high float64
	drawn      []box // what was filled or stroked
}

type box struct{ left, top, right, bottom float64 }

// boxes are those of what was drawn that are as large as a label; of what lies on each other, as the
// paper itself on a roll, what was drawn last.
func (p printedPage) boxes(wide, high float64) (out []box) {
	for _, b := range p.drawn {
		if math.Abs(b.right-b.left-wide) > 1 || math.Abs(b.bottom-b.top-high) > 1 {
			continue
		}
		if n := len(out); n > 0 && math.Abs(out[n-1].left-b.left) < 1 && math.Abs(out[n-1].top-b.top) < 1 {
			out = out[:n-1]
		}
		out = append(out, b)
	}
	return out
}

var (
	mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	contents = regexp.MustCompile(`/Contents (\d+) 0 R`)
)

const point = 25.4 / 72 // millimetres

// readPDF reads as much of a PDF as measuring labels wants: each page's size and what is drawn.
func readPDF(t *testing.T, pdf []byte) (out []printedPage) {
	t.Helper()
	sizes, streams := mediaBox.FindAllSubmatch(pdf, -1), contents.FindAllSubmatch(pdf, -1)
	if len(sizes) != len(streams) {
		t.Fatalf("got %d page sizes and %d pages", len(sizes), len(streams))
	}
	number := func(b []byte) float64 { f, _ := strconv.ParseFloat(string(b), 64); return f }
	for i := range sizes {
		p := printedPage{wide: number(sizes[i][1]) * point, high: number(sizes[i][2]) * point}
		_, rest, ok := bytes.Cut(pdf, fmt.Appendf(nil, "\n%s 0 obj\n", streams[i][1]))
		_, rest, begun := bytes.Cut(rest, []byte("stream\n"))
		unpacked, err := zlib.NewReader(bytes.NewReader(rest))
		if !ok || !begun || err != nil {
			t.Fatalf("page %d cannot be read: %v", i+1, err)
		}
		text, err := io.ReadAll(unpacked)
		if err != nil {
			t.Fatal(err)
		}
		p.drawn = drawn(string(text), p.high)
		out = append(out, p)
	}
	return out
}

// drawn follows the operators of a content stream (ISO 32000-1, 8.2) and gives the box of each path
// that is painted.
func drawn(text string, high float64) (out []box) {
	type matrix [6]float64
	now := matrix{1, 0, 0, 1, 0, 0}
	var kept []matrix
	var args, xs, ys []float64
	add := func(x, y float64) {
		xs = append(xs, (now[0]*x+now[2]*y+now[4])*point)
		ys = append(ys, high-(now[1]*x+now[3]*y+now[5])*point)
	}
	for _, word := range strings.Fields(text) {
		if f, err := strconv.ParseFloat(word, 64); err == nil {
			args = append(args, f)
			continue
		}
		switch n := len(args); {
		case word == "q":
			kept = append(kept, now)
		case word == "Q" && len(kept) > 0:
			now, kept = kept[len(kept)-1], kept[:len(kept)-1]
		case word == "cm" && n >= 6:
			a, b := matrix(args[n-6:]), now
			now = matrix{a[0]*b[0] + a[1]*b[2], a[0]*b[1] + a[1]*b[3], a[2]*b[0] + a[3]*b[2], a[2]*b[1] + a[3]*b[3],
				a[4]*b[0] + a[5]*b[2] + b[4], a[4]*b[1] + a[5]*b[3] + b[5]}
		case word == "re" && n >= 4:
			add(args[n-4], args[n-3])
			add(args[n-4]+args[n-2], args[n-3]+args[n-1])
		case (word == "m" || word == "l") && n >= 2:
			add(args[n-2], args[n-1])
		case strings.Contains(" S s f F f* B B* b b* ", " "+word+" ") && len(xs) > 0:
			out = append(out, box{slices.Min(xs), slices.Min(ys), slices.Max(xs), slices.Max(ys)})
			xs, ys = nil, nil
		case word == "n":
			xs, ys = nil, nil
		}
		args = nil
	}
	return out
}
