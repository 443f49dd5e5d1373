package readings

import (
	"encoding/csv"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"ripeby/config/fault"
	"ripeby/resources"
)

// header is the first line of a file.
const header = "at,place,celsius"

// cutMark ends a line that was cut, so that nobody takes it for a shorter number.
const cutMark = ",cut"

// wanted is how a line is written by hand.
const wanted = "2027-03-16 08:02,fridge,4.60"

// Line is one reading as it stands in a file.
type Line struct {
	At    resources.Moment
	Place string // the cell as it is written
	Is    resources.MilliCelsius
}

// text is a line with its end. A temperature is given to the hundredth of a degree, halves away from 0.
func (l Line) text(zone *time.Location) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	if err := w.Write([]string{momentText(l.At, zone), l.Place, celsius(l.Is)}); err != nil {
		return "", err
	}
	w.Flush()
	if b.Len() > MaxLine {
		return "", fmt.Errorf("a line with so long a name is longer than the limit of %d bytes", MaxLine)
	}
	return b.String(), w.Error()
}

// momentText is local time; with its offset where that would be taken for another moment.
func momentText(m resources.Moment, zone *time.Location) string {
	local := resources.FormatMoment(m, zone)
	if again, err := resources.ParseMoment(local, zone); err == nil && again == m {
		return local
	}
	return m.In(zone).Format(time.RFC3339)
}

// celsius is a number of degrees with two decimals.
func celsius(t resources.MilliCelsius) string {
	sign, n := "", int64(t)
	if n < 0 {
		sign, n = "-", -n
	}
	n = (n + 5) / 10
	if n == 0 {
		sign = ""
	}
	return fmt.Sprintf("%s%d.%02d", sign, n/100, n%100)
}

// whole reports whether a last line without a line break has all that is written of one: its two decimals.
func whole(line string) bool { return wholeLine().MatchString(line) || line == header }

func wholeLine() *regexp.Regexp { return regexp.MustCompile(`,-?\d+\.\d\d$`) }

func digits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}

// parser reads lines of a zone. It remembers the day that it read last: lines of one day follow each other.
type parser struct {
	zone  *time.Location
	day   string           // "2027-03-16"; "" for none
	start resources.Moment // of that day, which has 24 hours
}

// moment reads the time of a line.
func (p *parser) moment(text string) (resources.Moment, error) {
	if len(text) == len("2027-03-16 08:02") && text[10] == ' ' {
		if text[:10] != p.day {
			p.day = ""
			if day, err := resources.ParseDate(text[:10]); err == nil && day.Span(p.zone).Until.Sub(day.Span(p.zone).From) == resources.Day {
				p.day, p.start = text[:10], day.Start(p.zone)
			}
		}
		if c, err := resources.ParseClock(text[11:]); err == nil && c < 24*60 && p.day != "" {
			return p.start.Add(resources.Minutes(c)), nil
		}
	}
	return resources.ParseMoment(text, p.zone)
}

// degrees reads a number of degrees Celsius, to the thousandth; what is beyond is left out.
func degrees(text string) (resources.MilliCelsius, bool) {
	rest, below := strings.CutPrefix(text, "-")
	ones, part, pointed := strings.Cut(rest, ".")
	if !digits(ones) || pointed && !digits(part) || len(text) > mostNumber {
		return 0, false
	}
	n, err := strconv.ParseInt(ones+(part + "000")[:3], 10, 64)
	if below {
		n = -n
	}
	return resources.MilliCelsius(n), err == nil
}

// mostNumber is how many characters a number has at the most.
const mostNumber = 16

// parse reads a line without its end. It gives no line, and no fault, of what is nothing: an empty line, or the header.
func (p *parser) parse(text string) (line Line, read bool, bad *fault.Fault) {
	text = strings.TrimSuffix(text, "\r")
	if strings.TrimSpace(text) == "" || strings.EqualFold(text, header) {
		return Line{}, false, nil
	}
	if len(text) > MaxLine {
		return Line{}, false, &fault.Fault{What: fmt.Sprintf("this line is longer than the limit of %d bytes", MaxLine), Want: wanted}
	}
	if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
		return Line{}, false, &fault.Fault{What: "this is not text in UTF-8", Want: wanted}
	}
	cells := strings.Split(text, ",")
	if strings.Contains(text, `"`) {
		var err error
		if cells, err = csv.NewReader(strings.NewReader(text)).Read(); err != nil {
			return Line{}, false, &fault.Fault{What: "a quotation mark is not closed, or stands within a cell", Got: fault.Clip(text), Want: wanted}
		}
	}
	return p.line(cells, text)
}

// line makes a line of its cells.
func (p *parser) line(cells []string, text string) (line Line, read bool, bad *fault.Fault) {
	switch n := len(cells); {
	case n > 1 && cells[n-1] == cutMark[1:]:
		return Line{}, false, &fault.Fault{What: "this line was cut short while it was written, and counts for nothing; take it away", Got: fault.Clip(text)}
	case n != 3:
		return Line{}, false, &fault.Fault{What: "a line has a time, a place and a temperature, with commas between", Got: fault.Clip(text), Want: wanted}
	}
	at, err := p.moment(cells[0])
	if err != nil {
		f := fault.OfQuantity(err)
		return Line{}, false, &f
	}
	if cells[1] == "" {
		return Line{}, false, &fault.Fault{What: "the place is missing", Got: fault.Clip(text), Want: wanted}
	}
	is, ok := degrees(strings.Replace(strings.TrimSpace(cells[2]), ",", ".", 1))
	if !ok {
		return Line{}, false, &fault.Fault{What: "the temperature is to be a number of °C", Got: fault.Clip(cells[2]), Want: "4.60"}
	}
	if is < Least || is > Greatest {
		return Line{}, false, &fault.Fault{What: fmt.Sprintf("no place is colder than %s or warmer than %s", resources.FormatTemperature(Least), resources.FormatTemperature(Greatest)), Got: fault.Clip(cells[2])}
	}
	return Line{at, cells[1], is}, true, nil
}
