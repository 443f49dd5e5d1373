package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/mattn/go-runewidth"

	"ripeby/resources"
)

// litres is a volume exactly: "64 L", "8.5 L".
func litres(v resources.Millilitres) string {
	return thousandths(int64(v)) + " L"
}

// degrees is a temperature exactly: "4 °C".
func degrees(t resources.MilliCelsius) string { return thousandths(int64(t)) + " °C" }

// thousandths writes n / 1000 without trailing zeros.
func thousandths(n int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	text := fmt.Sprintf("%s%d.%03d", sign, n/1000, n%1000)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// centimetres is a length exactly: "40", "25.4".
func centimetres(m resources.Micrometres) string {
	text := fmt.Sprintf("%d.%04d", m/resources.Centimetre, m%resources.Centimetre)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// size is width x depth x height.
func size(s resources.Size) string {
	return centimetres(s.Width) + " x " + centimetres(s.Depth) + " x " + centimetres(s.Height) + " cm"
}

// money is an amount with its hundredths: "6.50".
func money(m resources.Money) string { return fmt.Sprintf("%d.%02d", m/100, m%100) }

// length is an elapsed length as the kitchen folder writes it: "1 d 6 h".
func length(d resources.Minutes) string {
	var parts []string
	for _, unit := range []struct {
		size resources.Minutes
		name string
	}{{resources.Day, "d"}, {resources.Hour, "h"}, {1, "min"}} {
		if n := d / unit.size; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, unit.name))
			d %= unit.size
		}
	}
	if len(parts) == 0 {
		return "0 min"
	}
	return strings.Join(parts, " ")
}

// hoursLong is a length in hours, however many: "112 h", "7 h 30 min".
func hoursLong(d resources.Minutes) string {
	if d%resources.Hour == 0 {
		return fmt.Sprintf("%d h", d/resources.Hour)
	}
	return fmt.Sprintf("%d h %d min", d/resources.Hour, d%resources.Hour)
}

// moment is a local moment: "Sat 27 Mar 2027 07:00".
func moment(m resources.Moment, zone *time.Location) string {
	return m.In(zone).Format("Mon 2 Jan 2006 15:04")
}

// wrapped breaks a text into lines of at most width columns, the second and later
// ones indented. A word longer than a line stands alone and is not cut.
func wrapped(text string, width int, indent string) string {
	var b strings.Builder
	column := 0
	for i, word := range strings.Fields(text) {
		wide := runewidth.StringWidth(word)
		switch {
		case i == 0:
		case column+1+wide > width:
			b.WriteString("\n" + indent)
			column = len(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += wide
	}
	return b.String()
}

// day is a local day: "Fri 19 Mar 2027".
func day(d resources.Date) string {
	return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).Format("Mon 2 Jan 2006")
}

// shellWord quotes a word for the shell where it needs to be.
func shellWord(word string) string {
	safe := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./:+,@%", r)
	}
	if word != "" && strings.IndexFunc(word, func(r rune) bool { return !safe(r) }) < 0 {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
