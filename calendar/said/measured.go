package said

import (
	"slices"
	"strings"
)

// measurePrefix begins the name of a field for what a recipe asks for: "is:°C:curd temperature". The unit is told by
// the name, so that a number alone may be filled in.
const measurePrefix = "is:"

// MeasureField is the name of the field for what a recipe asks for; unit is "" where it has none.
func MeasureField(what, unit string) string { return measurePrefix + unit + ":" + what }

// ofMeasure reads such a name back.
func ofMeasure(name string) (unit, what string, ok bool) {
	rest, ok := strings.CutPrefix(name, measurePrefix)
	if !ok {
		return "", "", false
	}
	unit, what, ok = strings.Cut(rest, ":")
	return unit, what, ok && what != ""
}

// measures are those fields that were filled in, one a text, by their names.
func (f *Form) measures() (all []string) {
	var names []string
	for name := range f.Values {
		if _, _, ok := ofMeasure(name); ok && f.get(name) != "" {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		unit, what, _ := ofMeasure(name)
		all = append(all, what+" "+inUnit(f.get(name), unit))
	}
	return all
}

// inUnit has a number without a unit be in the one that stands beside its field.
func inUnit(text, unit string) string {
	if unit == "" || !strings.ContainsAny(text, "0123456789") || strings.Trim(text, "0123456789.,+-−") != "" {
		return text
	}
	return text + " " + unit
}
