package thermometer

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/url"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

	"ripeby/resources"
)

// What is believed: what a place may be, by a thermometer of the household kind, and when it may have been read.
const (
	least    resources.MilliCelsius = -60_000
	greatest resources.MilliCelsius = 100_000

	mostAhead = 10 * time.Minute   // clocks of devices are not exact
	mostOld   = 7 * 24 * time.Hour // a device that kept its readings while there was no network
)

// mostBody is how large a body may be, in bytes.
const mostBody = 1 << 10

// sent is a reading as it was sent.
type sent struct {
	temperature string // as written, with a unit or without
	at          string // "" for now
}

// wrong is why a reading is not taken.
type wrong struct {
	status int
	text   string
}

// open takes a body apart.
func open(body []byte) (s sent, bad *wrong) {
	body = bytes.TrimSpace(bytes.TrimPrefix(body, []byte("\ufeff")))
	switch {
	case !utf8.Valid(body) || bytes.ContainsRune(body, 0):
		return s, &wrong{400, "This is not text in UTF-8. " + how}
	case len(body) == 0:
		return s, &wrong{400, "Nothing was sent. " + how}
	case body[0] == '{':
		return openJSON(body)
	case bytes.ContainsRune(body, '='):
		return openForm(string(body))
	}
	return sent{temperature: string(body)}, nil
}

// openForm reads form fields. Others than ours are what a device also measures, and not looked at.
func openForm(text string) (s sent, bad *wrong) {
	fields, err := url.ParseQuery(text)
	if err != nil {
		return s, &wrong{400, "This form cannot be read. " + how}
	}
	if len(fields["temperature"]) != 1 || len(fields["at"]) > 1 {
		return s, &wrong{400, "A form has the field temperature once, and may have at. " + how}
	}
	return sent{fields.Get("temperature"), fields.Get("at")}, nil
}

// openJSON reads an object. Other keys than ours are not looked at.
func openJSON(body []byte) (s sent, bad *wrong) {
	var of struct {
		Temperature json.RawMessage `json:"temperature"`
		At          *string         `json:"at"`
	}
	if err := json.Unmarshal(body, &of); err != nil {
		return s, &wrong{400, `This JSON cannot be read. ` + how}
	}
	if of.At != nil {
		s.at = *of.At
	}
	var number json.Number
	if json.Unmarshal(of.Temperature, &s.temperature) != nil {
		if json.Unmarshal(of.Temperature, &number) != nil {
			return s, &wrong{400, "JSON has the key temperature with a number. " + how}
		}
		s.temperature = number.String()
	}
	return s, nil
}

// degreesText is a number, with a point or a comma, and perhaps a unit.
func degreesText() *regexp.Regexp {
	return regexp.MustCompile(`^\+?([-−]?\d{1,6}(?:[.,]\d{1,12})?)\s*(\pL|[°º˚]\s*\pL|[℃℉])?$`)
}

// degrees reads the temperature.
func (s sent) degrees() (resources.MilliCelsius, *wrong) {
	found := degreesText().FindStringSubmatch(strings.TrimSpace(s.temperature))
	if found == nil {
		return 0, &wrong{400, fmt.Sprintf("%s is no temperature. %s", quoted(s.temperature), how)}
	}
	number, unit := strings.Replace(found[1], ",", ".", 1), found[2]
	if unit == "" {
		unit = "°C"
	}
	is, err := resources.ParseTemperature(number + " " + unit)
	beyond := &wrong{422, fmt.Sprintf("%s is colder than %s or warmer than %s, which no place is: see to the thermometer.", quoted(s.temperature), resources.FormatTemperature(least), resources.FormatTemperature(greatest))}
	switch {
	case err != nil && strings.Contains(err.Error(), "limits"):
		return 0, beyond
	case err != nil:
		return 0, &wrong{400, fmt.Sprintf("%s is no temperature. %s", quoted(s.temperature), how)}
	case is < least || is > greatest:
		return 0, beyond
	}
	return is, nil
}

// moment is when it was read.
func (s sent) moment(now time.Time) (resources.Moment, *wrong) {
	if s.at == "" {
		return resources.MomentOf(now), nil
	}
	// In a form that was not escaped the sign of an offset has become a space.
	at, err := time.Parse(time.RFC3339, strings.Replace(s.at, " ", "+", 1))
	switch {
	case err != nil:
		return 0, &wrong{400, fmt.Sprintf("At is %s; write it as 2027-03-16T08:02:00Z, or leave it out for now.", quoted(s.at))}
	case at.Sub(now) > mostAhead:
		return 0, &wrong{422, "At is more than 10 minutes ahead of the kitchen's clock: see to the clock of the device, or leave it out for now."}
	case now.Sub(at) > mostOld:
		return 0, &wrong{422, "At is more than 7 days ago, and such a reading is not taken any more."}
	}
	return resources.MomentOf(at), nil
}

// quoted shows what was sent, on one line.
func quoted(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
