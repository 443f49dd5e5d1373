package dav

import (
	"encoding/xml"
	"slices"
	"strconv"
	"strings"
)

// prop is a property of a place: how it is had, and whether it is told where all are asked for. Of those that
// other standards than WebDAV itself define that need not be (RFC 4918, 9.1).
type prop struct {
	name xml.Name
	of   func(*view, place) (element, bool)
}

// view is what one answer tells of.
type view struct {
	*person
	kitchen string
	shelf   *shelf
	seen    *seen
}

// hasText is a property whose value is one text.
func hasText(name xml.Name, of func(*view, place) string) prop {
	return prop{name, func(v *view, at place) (element, bool) {
		text := of(v, at)
		return saying(name, text), text != ""
	}}
}

// hasHref is a property that leads to somewhere, at places of some kinds.
func hasHref(name xml.Name, to func(*view) string, kinds ...kind) prop {
	return prop{name, func(v *view, at place) (element, bool) {
		return of(name, href(to(v))), len(kinds) == 0 || slices.Contains(kinds, at.kind)
	}}
}

// ofTasks is a property of the collection alone.
func ofTasks(name xml.Name, value func(*view) element) prop {
	return prop{name, func(v *view, at place) (element, bool) {
		if at.kind != tasksKind {
			return element{}, false
		}
		e := value(v)
		e.name = name
		return e, true
	}}
}

// textName is had in reports alone (RFC 4791, 9.6).
var textName = caldavName("calendar-data")

// reports are the reports that are answered.
var reports = []xml.Name{caldavName("calendar-query"), caldavName("calendar-multiget"), davName("sync-collection")}

// props are all properties that there are.
var props = []prop{
	{davName("resourcetype"), func(_ *view, at place) (element, bool) {
		e := of(davName("resourcetype"))
		switch at.kind {
		case rootKind, homeKind:
			e.kids = []element{of(davName("collection"))}
		case principalKind: // RFC 3744, 4
			e.kids = []element{of(davName("collection")), of(davName("principal"))}
		case tasksKind: // RFC 4791, 4.2
			e.kids = []element{of(davName("collection")), of(caldavName("calendar"))}
		}
		return e, true
	}},
	hasText(davName("displayname"), func(v *view, at place) string {
		return map[kind]string{rootKind: v.kitchen, principalKind: v.Person, homeKind: v.Person, tasksKind: v.kitchen + ": work of " + v.Person}[at.kind]
	}),
	hasHref(davName("current-user-principal"), func(v *view) string { return v.principal() }), // RFC 5397, 3
	hasHref(davName("principal-URL"), func(v *view) string { return v.principal() }, principalKind),
	hasHref(davName("owner"), func(v *view) string { return v.principal() }, homeKind, tasksKind, memberKind),
	hasHref(davName("principal-collection-set"), func(*view) string { return Root }),
	hasHref(caldavName("calendar-home-set"), func(v *view) string { return v.home() }, principalKind), // RFC 4791, 6.2.1
	{davName("current-user-privilege-set"), func(_ *view, at place) (element, bool) { return privileges(at), true }},
	{davName("supported-report-set"), func(_ *view, at place) (element, bool) {
		e := of(davName("supported-report-set"))
		if at.kind == tasksKind {
			for _, name := range reports {
				e.kids = append(e.kids, of(davName("supported-report"), of(davName("report"), of(name))))
			}
		}
		return e, true
	}},
	// For tasks alone, or programs offer it for appointments (RFC 4791, 5.2.3).
	ofTasks(caldavName("supported-calendar-component-set"), func(*view) element {
		return element{kids: []element{{name: caldavName("comp"), attrs: []xml.Attr{{Name: xml.Name{Local: "name"}, Value: todoName}}}}}
	}),
	ofTasks(caldavName("supported-calendar-data"), func(*view) element { // RFC 4791, 5.2.4
		return element{kids: []element{{name: textName, attrs: []xml.Attr{
			{Name: xml.Name{Local: "content-type"}, Value: "text/calendar"}, {Name: xml.Name{Local: "version"}, Value: "2.0"}}}}}
	}),
	ofTasks(caldavName("calendar-description"), func(*view) element {
		return element{text: "Hands-on work by the plan. To tick it says that it is done."}
	}),
	ofTasks(caldavName("max-resource-size"), func(*view) element { return element{text: strconv.Itoa(mostBody)} }),
	ofTasks(caldavName("supported-collation-set"), func(*view) element { // RFC 4791, 7.5.1
		return element{kids: []element{saying(caldavName("supported-collation"), asciiCasemap), saying(caldavName("supported-collation"), octets)}}
	}),
	ofTasks(davName("sync-token"), func(v *view) element { return element{text: v.seen.last().token("")} }), // RFC 6578, 4
	ofTasks(xml.Name{Space: nsServer, Local: "getctag"}, func(v *view) element { return element{text: v.seen.last().token("")} }),
	hasText(davName("getetag"), func(v *view, at place) string { // RFC 4918, 15.6
		if at.kind != memberKind {
			return ""
		}
		return v.seen.Members[at.member].etag()
	}),
	hasText(davName("getcontenttype"), func(_ *view, at place) string {
		if at.kind != memberKind {
			return ""
		}
		return memberType
	}),
	hasText(davName("getcontentlength"), func(v *view, at place) string {
		if at.kind != memberKind {
			return ""
		}
		return strconv.Itoa(len(v.shelf.todos[at.member].Text))
	}),
	hasText(davName("getlastmodified"), func(v *view, at place) string {
		if at.kind != memberKind {
			return ""
		}
		return modified(v.shelf.todos[at.member])
	}),
}

// privileges are what may be done at a place (RFC 3744, 5.4): nothing is added or taken away, and of what
// there is the text is written.
func privileges(at place) element {
	e := of(davName("current-user-privilege-set"))
	names := []string{"read", "read-current-user-privilege-set"}
	if at.kind >= tasksKind {
		names = append(names, "write-content")
	}
	for _, name := range names {
		e.kids = append(e.kids, of(davName("privilege"), of(davName(name))))
	}
	return e
}

// asked is which properties a request wants.
type asked struct {
	all, names bool
	some       []xml.Name
	part       *element // of the text; nil for all of it
}

// askedBy reads that of a request; of an empty one, all (RFC 4918, 9.1).
func askedBy(e *element) (asked, *fault) {
	switch {
	case e == nil || e.kid(davName("allprop")) != nil:
		return asked{all: true}, nil
	case e.kid(davName("propname")) != nil:
		return asked{names: true}, nil
	case e.kid(davName("prop")) == nil:
		return asked{}, refused(400, "a request says which properties it wants: prop, propname or allprop")
	}
	var a asked
	for _, p := range e.kid(davName("prop")).kids {
		if !slices.Contains(a.some, p.name) {
			a.some = append(a.some, p.name)
		}
		if p.name == textName {
			a.part = p.kid(caldavName("comp"))
		}
	}
	return a, nil
}

// answer tells of one place what is asked. In a report a member's text is told too.
func (v *view) answer(at place, a asked, report bool) element {
	var has, lacks []element
	for _, p := range props {
		if e, there := p.of(v, at); there && (a.all || a.names || slices.Contains(a.some, p.name)) {
			if a.names {
				e = of(p.name)
			}
			has = append(has, e)
		}
	}
	if report && at.kind == memberKind && slices.Contains(a.some, textName) {
		has = append(has, saying(textName, partOf(string(v.shelf.todos[at.member].Text), a.part)))
	}
	for _, name := range a.some {
		if !slices.ContainsFunc(has, func(e element) bool { return e.name == name }) {
			lacks = append(lacks, of(name))
		}
	}
	return found(v.pathOf(at), has, lacks)
}

// memberType is what a member is.
var memberType = strings.Join([]string{"text/calendar", "charset=utf-8", "component=VTODO"}, "; ")
