package label

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"strings"

	"ripeby/calendar/qr"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// MostLabels is how many labels one page has at the most.
const MostLabels = 1000

// Options says how labels are printed.
type Options struct {
	Start   int    // the cell of the first sheet that the first label goes to, from 1 along the rows; 0 for 1
	Outline bool   // a thin line goes round each label
	Back    string // where the page leads back to; "" for nowhere
	Cells   string // what the address of the page that begins at another cell begins with; "" for no such links
}

// ErrNoLabels says that there is nothing to print.
var ErrNoLabels = errors.New("there is no label to print")

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// Page makes the page from which the labels of some lots are printed. The error is a [*TooMuch], a
// limit that is passed, or [ErrNoLabels].
func Page(p *schedule.Problem, lots []Lot, opt Options) ([]byte, error) {
	k := settings(p)
	v := &view{Kitchen: words.Printable(p.Kitchen.Name), Options: opt, Start: max(opt.Start, 1), sheet: k.Sheet, Size: resources.FormatArea(k.Size)}
	if v.sheet == nil {
		v.sheet = &resources.Sheet{Paper: resources.Paper{Name: "a roll", Area: k.Size}, Columns: 1, Rows: 1}
		v.Roll = true
	}
	v.Paper = v.sheet.Name
	cells := v.sheet.Cells()
	if v.Start > cells {
		return nil, fmt.Errorf("the first label is to go to cell %d, and a sheet has %d", v.Start, cells)
	}
	v.Sheets = []sheetView{{}}
	place := v.Start - 1
	for i := range lots {
		l := Of(p, lots[i])
		set, err := l.fit(k.Size)
		if err != nil {
			return nil, err
		}
		if v.Count += l.Lot.Labels; v.Count > MostLabels {
			return nil, fmt.Errorf("more than %d labels at once are more than the limit; print them in parts", MostLabels)
		}
		lot := lotView{Label: l, Setting: set, Nr: i + 1, Name: words.Printable(l.Lot.Cheese), Lot: words.Printable(l.Lot.Lot), Told: l.told(p)}
		if l.Code != "" {
			if lot.Symbol, err = qr.Symbol(l.Code, fmt.Sprintf("code%d", i+1)); err != nil {
				return nil, err
			}
		}
		v.Lots = append(v.Lots, lot)
		for range l.Lot.Labels {
			if place == cells {
				v.Sheets, place = append(v.Sheets, sheetView{}), 0
			}
			last := &v.Sheets[len(v.Sheets)-1]
			last.Cells = append(last.Cells, cellView{Of: &lot, Column: place % v.sheet.Columns, Row: place / v.sheet.Columns})
			place++
		}
	}
	if v.Count == 0 {
		return nil, ErrNoLabels
	}
	if opt.Cells != "" && cells > 1 {
		for i := range cells {
			v.Begin = append(v.Begin, i+1)
		}
	}
	v.Style = v.style(k.Size)
	var out bytes.Buffer
	if err := pageTemplate.Execute(&out, v); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// view is what the page is drawn from.
type view struct {
	Options
	Kitchen, Paper, Size string
	Roll                 bool
	Start, Count         int
	Lots                 []lotView
	Sheets               []sheetView
	Begin                []int // cells at which the labels may begin
	Style                template.CSS
	sheet                *resources.Sheet
}

// lotView is one lot; its labels are all the same.
type lotView struct {
	*Label
	Setting
	Nr        int
	Name, Lot string
	Told      []string
	Symbol    template.HTML
}

// Labels is how many are printed.
func (l lotView) Labels() string { return schedule.Counted(l.Label.Lot.Labels, "label") }

type sheetView struct{ Cells []cellView }

// cellView is one label in its place.
type cellView struct {
	Of          *lotView
	Column, Row int
}

// On says how many labels there are, and on how many sheets.
func (v *view) On() string {
	text := schedule.Counted(v.Count, "label") + " of " + v.Size
	if v.Roll {
		return text + ", each a page of its own, as on a roll"
	}
	return text + " on " + schedule.Counted(len(v.Sheets), "sheet") + " of " + v.Paper
}

// Last is the number of the last sheet.
func (v *view) Last() int { return len(v.Sheets) - 1 }

// style is the part of the page's style that is in millimetres. An orientation beside the size of
// the page would have browsers drop the size, and a margin would move the labels.
func (v *view) style(label resources.Area) template.CSS {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	paper := v.sheet.Area
	line("@page{size:%s %s;margin:0}", mm(paper.Width), mm(paper.Height))
	line(".sheet{width:%s;height:%s}", mm(paper.Width), mm(paper.Height))
	line(".label{width:%s;height:%s;padding:%gmm}", mm(label.Width), mm(label.Height), border)
	for i := range v.sheet.Columns {
		line(".x%d{left:%s}", i, mm(v.sheet.Left+resources.Micrometres(i)*v.sheet.Across))
	}
	for i := range v.sheet.Rows {
		line(".y%d{top:%s}", i, mm(v.sheet.Top+resources.Micrometres(i)*v.sheet.Down))
	}
	for _, l := range v.Lots {
		line(".lot%d{font-size:%.2fmm}", l.Nr, l.Letters)
		if l.Code() {
			line(".lot%d svg{width:%.2fmm;height:%.2fmm}", l.Nr, l.Setting.Code, l.Setting.Code)
		}
	}
	return template.CSS(b.String())
}

// Code reports whether the labels have one.
func (l lotView) Code() bool { return l.Setting.Code > 0 }

// mm is a length as a style sheet has it.
func mm(l resources.Micrometres) string {
	return strings.ReplaceAll(resources.FormatMillimetres(l), " ", "")
}
