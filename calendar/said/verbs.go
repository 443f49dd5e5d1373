package said

import (
	"slices"
	"strings"

	"ripeby/resources"
)

// verb puts the words of what a form says behind its verb. What it is about is sealed; what is typed is
// believed no further than the record does. The refusal says what is missing or what is asked.
func (f *Form) verb(about *About, out *Saying) *Refusal {
	switch {
	case out.Verb == "strike" && about.Nr > 0:
		out.Words = []string{about.number()}
	case about.Nr > 0:
		return old()
	case about.Batch != "":
		return f.ofBatch(about, out)
	case out.Verb == "note":
		out.Words, out.Note = []string{out.Note}, ""
	case about.Round != "" && out.Verb == "round":
		out.Words = []string{about.Round}
	case about.Round != "" && out.Verb == "skipped":
		out.Verb, out.Words = "round", []string{about.Round}
		out.Options["skipped"] = "true"
	case about.Milk != "" && (out.Verb == "ordered" || out.Verb == "came"):
		out.Words = []string{about.Milk, about.Day, inLitres(f.get("litres"))}
	case about.Target != "" && (out.Verb == "took" || out.Verb == "back" || out.Verb == "sold_out"):
		out.Words = []string{about.Target, about.Cheese, f.get(f.wanted())}
	case about.Place != "" || about.Person != "" || about.Anybody:
		return f.ofKitchen(about, out)
	default:
		return old()
	}
	return nil
}

// ofBatch is what is said of a batch.
func (f *Form) ofBatch(about *About, out *Saying) *Refusal {
	batch := about.Batch
	switch out.Verb {
	case "did", "began", "not_yet":
		if about.Stage == "" {
			return old()
		}
		out.Words = []string{batch, about.Stage}
		f.option(out, "pieces", "measured")
		out.Measured = f.measures()
	case "pieces":
		out.Words = []string{batch, f.get("pieces")}
	case "measured":
		out.Words = slices.Concat([]string{batch}, f.measures(), Readings(f.get("measured")))
	case "lost":
		if !out.Again {
			return &Refusal{Asked: true, Lines: []string{"Then all of " + batch + " counts as lost: no more is planned of it, and nothing of it for anybody. Is it so?"}}
		}
		out.Words = []string{batch}
		f.option(out, "why")
	case "stands":
		if about.Place == "" {
			return old()
		}
		out.Words = []string{batch, about.Place}
	case "note":
		out.Words, out.Note = []string{out.Note}, ""
		out.Options["batch"] = batch
	default:
		return old()
	}
	return nil
}

// ofKitchen is who is away, and what is closed.
func (f *Form) ofKitchen(about *About, out *Saying) *Refusal {
	switch {
	case about.Anybody && out.Verb == "away":
		out.Words = []string{f.get("person")}
	case about.Person != "" && out.Verb == "here":
		out.Words = []string{about.Person}
	case about.Place != "" && out.Verb == "measured":
		out.Words = []string{about.Place}
		for _, one := range Readings(f.get("measured")) {
			out.Words = append(out.Words, inUnit(one, resources.Celsius))
		}
	case about.Place != "" && out.Verb == "closed":
		out.Words = []string{about.Place}
		if shelf := f.get("shelf"); shelf != "" {
			out.Words = append(out.Words, shelf)
		}
	case about.Place != "" && out.Verb == "open":
		out.Words = []string{about.Place}
		if about.Shelf != "" {
			out.Words = append(out.Words, about.Shelf)
		}
	default:
		return old()
	}
	for _, name := range []string{"from", "until"} {
		day, clock := f.get(name), f.get(name+"_at")
		switch {
		case day == "" && clock != "":
			return &Refusal{Lines: []string{"Beside the time " + clock + " the day is to be filled in."}}
		case day != "" && (name == "until" || out.Verb == "away"):
			out.Options[name] = strings.TrimSpace(day + " " + clock)
		}
	}
	return nil
}

// option puts what was filled in behind the options of its name.
func (f *Form) option(out *Saying, names ...string) {
	for _, name := range names {
		if v := f.get(name); v != "" {
			out.Options[name] = v
		}
	}
}

// old refuses a form that this server has not drawn for the address.
func old() *Refusal { return &Refusal{Lines: []string{stale}, Stale: true} }

// Readings are what was measured, of several that are written one after the other: "pH 4.5, room 19 °C". A
// comma within a number parts nothing.
func Readings(text string) (all []string) {
	for _, one := range strings.FieldsFunc(strings.ReplaceAll(text, ", ", ";"), func(r rune) bool { return r == ';' }) {
		if one = strings.TrimSpace(one); one != "" {
			all = append(all, one)
		}
	}
	return all
}
