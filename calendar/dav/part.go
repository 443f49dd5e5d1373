package dav

import (
	"slices"
	"strings"
)

// partOf is so much of a task's text as a report asks for (RFC 4791, 9.6.1): want is the VCALENDAR, with the
// properties and components that it is to have; nil for all of it.
func partOf(text string, want *element) string {
	if want == nil {
		return text
	}
	var out strings.Builder
	open := []*element{} // what is wanted of the components that are open; nil for nothing
	kept := false        // the line that goes on
	whole := of(caldavName("comp"), of(caldavName("allcomp")), of(caldavName("allprop")))
	for line := range strings.SplitAfterSeq(text, "\r\n") {
		if strings.HasPrefix(line, " ") {
			if kept {
				out.WriteString(line)
			}
			continue
		}
		name, value, _ := strings.Cut(strings.TrimSuffix(line, "\r\n"), ":")
		name, _, _ = strings.Cut(name, ";")
		switch name {
		case "BEGIN":
			var of *element
			switch {
			case len(open) == 0:
				if strings.EqualFold(want.attr("name"), value) {
					of = want
				}
			case open[len(open)-1] != nil:
				of = componentOf(open[len(open)-1], value, &whole)
			}
			open = append(open, of)
			kept = of != nil
		case "END":
			kept = len(open) > 0 && open[len(open)-1] != nil
			open = open[:max(0, len(open)-1)]
		default:
			kept = len(open) > 0 && open[len(open)-1] != nil && wantsProperty(open[len(open)-1], name)
		}
		if kept {
			out.WriteString(line)
		}
	}
	return out.String()
}

// componentOf is what is wanted of a component in another: all where all are wanted.
func componentOf(of *element, name string, whole *element) *element {
	if of.kid(caldavName("allcomp")) != nil {
		return whole
	}
	at := slices.IndexFunc(of.kids, func(e element) bool { return e.name == caldavName("comp") && strings.EqualFold(e.attr("name"), name) })
	if at < 0 {
		return nil
	}
	return &of.kids[at]
}

// wantsProperty reports whether a property of a component is wanted.
func wantsProperty(of *element, name string) bool {
	return of.kid(caldavName("allprop")) != nil ||
		slices.ContainsFunc(of.kids, func(e element) bool { return e.name == caldavName("prop") && strings.EqualFold(e.attr("name"), name) })
}
