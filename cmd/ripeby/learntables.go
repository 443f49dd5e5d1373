package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
	"ripeby/schedule/learn"
)

// learnJSON is the answer for a program. Keys are only ever added.
type learnJSON struct {
	Schema  string             `json:"schema"`
	Cheeses []learnCheeseJSON  `json:"cheeses"`
	Written []learnWrittenJSON `json:"written"`
}

type learnWrittenJSON struct {
	File    string   `json:"file"`
	Cheese  string   `json:"cheese"`
	Changes []string `json:"changes"`
}

type learnCheeseJSON struct {
	Cheese string          `json:"cheese"`
	Holds  []learnHoldJSON `json:"holds"`
	Yield  learnYieldJSON  `json:"yield"`
	Work   []learnWorkJSON `json:"work"`
	Loss   []learnLossJSON `json:"loss"`
}

// learnHoldJSON is one hold; times, low, high and next are null where why says why. Lengths are in minutes.
type learnHoldJSON struct {
	Stage       string            `json:"stage"`
	Ready       int64             `json:"ready"`
	Temperature json.Number       `json:"temperature"`
	Written     json.Number       `json:"written"`
	Times       *json.Number      `json:"times"`
	Low         *json.Number      `json:"low"`
	High        *json.Number      `json:"high"`
	Why         *string           `json:"why"`
	Next        *learnNextJSON    `json:"next"`
	Looks       []learnLookJSON   `json:"looks"`
	Passed      []learnPassedJSON `json:"passed"`
}

type learnNextJSON struct {
	Low    int64 `json:"low"`
	Median int64 `json:"median"`
	High   int64 `json:"high"`
}

type learnLookJSON struct {
	Batch  string      `json:"batch"`
	NotYet *int64      `json:"not_yet"`
	Ready  *int64      `json:"ready"`
	Room   json.Number `json:"room"`
}

type learnPassedJSON struct {
	Batch string `json:"batch"`
	Why   string `json:"why"`
}

// learnYieldJSON is a yield; all but batches and passed are null where there are too few. Low is of as many
// litres.
type learnYieldJSON struct {
	Batches  int               `json:"batches"`
	Pieces   *int              `json:"pieces"`
	From     *json.Number      `json:"from"`
	PerLitre *json.Number      `json:"per_litre"`
	Scatter  *json.Number      `json:"scatter"`
	Litres   *json.Number      `json:"litres"`
	Low      *int              `json:"low"`
	Passed   []learnPassedJSON `json:"passed"`
}

// learnWorkJSON is the work of one stage, in minutes.
type learnWorkJSON struct {
	Stage  string            `json:"stage"`
	Times  int               `json:"times"`
	Median *int64            `json:"median"`
	Least  *int64            `json:"least"`
	Most   *int64            `json:"most"`
	Recipe *int64            `json:"recipe"`
	Passed []learnPassedJSON `json:"passed"`
}

// learnLossJSON is a loss as a share of the weight.
type learnLossJSON struct {
	From    string       `json:"from"`
	To      string       `json:"to"`
	Batches int          `json:"batches"`
	Share   *json.Number `json:"share"`
	Least   *json.Number `json:"least"`
	Most    *json.Number `json:"most"`
	Days    *int         `json:"days"`
}

// json tells the answer to a program.
func (a *learnAnswer) json(w io.Writer) error {
	out := learnJSON{Schema: "ripeby/learn/1", Cheeses: []learnCheeseJSON{}, Written: []learnWrittenJSON{}}
	for i := range a.cheeses {
		c := &a.cheeses[i]
		j := learnCheeseJSON{Cheese: c.Name, Holds: []learnHoldJSON{}, Yield: yieldJSON(&c.Yield), Work: []learnWorkJSON{}, Loss: []learnLossJSON{}}
		for k := range c.Holds {
			j.Holds = append(j.Holds, holdJSON(&c.Holds[k]))
		}
		for _, k := range c.Works {
			one := learnWorkJSON{Stage: k.Stage, Times: k.Times, Passed: passedJSON(k.Passed)}
			if k.Took.Median > 0 {
				one.Median, one.Least, one.Most, one.Recipe = inMinutes(k.Took.Median), inMinutes(k.Took.Least), inMinutes(k.Took.Most), inMinutes(k.Recipe)
			}
			j.Work = append(j.Work, one)
		}
		for _, l := range c.Loss {
			one := learnLossJSON{From: l.From, To: l.To, Batches: l.Batches}
			if l.Batches >= learn.Fewest {
				one.Share, one.Least, one.Most, one.Days = fixed(l.Share), fixed(l.Least), fixed(l.Most), &l.Days
			}
			j.Loss = append(j.Loss, one)
		}
		out.Cheeses = append(out.Cheeses, j)
	}
	for _, r := range a.written {
		out.Written = append(out.Written, learnWrittenJSON{r.file, r.cheese, r.changes})
	}
	return printJSON(w, out)
}

// fixed is a number with three decimals.
func fixed(x float64) *json.Number {
	n := json.Number(strconv.FormatFloat(math.Round(1000*x)/1000, 'f', 3, 64))
	return &n
}

func inMinutes(m resources.Minutes) *int64 {
	n := int64(m)
	return &n
}

func passedJSON(all []learn.Passed) []learnPassedJSON {
	out := []learnPassedJSON{}
	for _, p := range all {
		out = append(out, learnPassedJSON(p))
	}
	return out
}

func holdJSON(h *learn.Hold) learnHoldJSON {
	j := learnHoldJSON{Stage: h.Stage, Ready: int64(h.Ready), Temperature: json.Number(thousandths(int64(h.At))), Written: *fixed(asTimes(h.Written)),
		Looks: []learnLookJSON{}, Passed: passedJSON(h.Passed)}
	if h.Times > 0 {
		j.Times, j.Low, j.High = fixed(asTimes(h.Times)), fixed(asTimes(h.Low)), fixed(asTimes(h.High))
		j.Next = &learnNextJSON{int64(h.Next.Low), int64(h.Next.Median), int64(h.Next.High)}
	} else {
		j.Why = &h.Why
	}
	for _, l := range h.Looks {
		one := learnLookJSON{Batch: l.Batch, Room: json.Number(thousandths(int64(l.Room)))}
		if l.NotYet > 0 {
			one.NotYet = inMinutes(l.NotYet)
		}
		if l.Ready > 0 {
			one.Ready = inMinutes(l.Ready)
		}
		j.Looks = append(j.Looks, one)
	}
	return j
}

func yieldJSON(y *learn.Yield) learnYieldJSON {
	j := learnYieldJSON{Batches: y.Batches, Passed: passedJSON(y.Passed)}
	if y.Told() {
		mean := meanLitres(y)
		low := y.Low(mean)
		from, of := json.Number(thousandths(int64(y.From))), json.Number(thousandths(int64(mean)))
		j.Pieces, j.From, j.PerLitre, j.Scatter, j.Litres, j.Low = &y.Pieces, &from, fixed(y.PerLitre()), fixed(y.Scatter), &of, &low
	}
	return j
}

// learnColumns are those of the answer as a table. Columns are only ever added, at the end. Work is in minutes,
// a loss a share, a yield pieces a litre.
var learnColumns = []string{"cheese", "what", "stage", "to_stage", "of", "here", "low", "high", "recipe", "why"}

// csv tells the answer to a spreadsheet, a row for each thing that is learned or is not.
func (a *learnAnswer) csv(w io.Writer) error {
	var rows [][]string
	for i := range a.cheeses {
		c := &a.cheeses[i]
		row := func(what, stage, to string, of int, here, low, high, recipe, why string) {
			rows = append(rows, []string{c.Name, what, stage, to, strconv.Itoa(of), here, low, high, recipe, why})
		}
		few := fmt.Sprintf("under %d", learn.Fewest)
		for k := range c.Holds {
			if h := &c.Holds[k]; h.Times > 0 {
				row("times", h.Stage, "", len(h.Looks), factor(h.Times), factor(h.Low), factor(h.High), factor(h.Written), "")
			} else {
				row("times", h.Stage, "", len(h.Looks), "", "", "", factor(h.Written), h.Why)
			}
		}
		says := strconv.FormatFloat(float64(c.Yield.Written.Pieces)*1000/float64(c.Yield.Written.From), 'f', 3, 64)
		if y := &c.Yield; y.Told() {
			low := float64(y.Low(meanLitres(y))) * 1000 / float64(meanLitres(y))
			row("yield", "", "", y.Batches, string(*fixed(y.PerLitre())), string(*fixed(low)), "", says, "")
		} else {
			row("yield", "", "", y.Batches, "", "", "", says, few)
		}
		number := func(m resources.Minutes) string { return strconv.Itoa(int(m)) }
		for _, k := range c.Works {
			if k.Took.Median > 0 {
				row("work", k.Stage, "", k.Times, number(k.Took.Median), number(k.Took.Least), number(k.Took.Most), number(k.Recipe), "")
			} else {
				row("work", k.Stage, "", k.Times, "", "", "", "", few)
			}
		}
		for _, l := range c.Loss {
			if l.Batches >= learn.Fewest {
				row("loss", l.From, l.To, l.Batches, string(*fixed(l.Share)), string(*fixed(l.Least)), string(*fixed(l.Most)), "", "")
			} else {
				row("loss", l.From, l.To, l.Batches, "", "", "", "", few)
			}
		}
	}
	return spreadsheet.Write(w, learnColumns, rows)
}
