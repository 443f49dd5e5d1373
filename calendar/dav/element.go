package dav

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
)

// The names of elements are those of WebDAV and its kin.
const (
	nsDAV    = "DAV:"
	nsCalDAV = "urn:ietf:params:xml:ns:caldav"
	nsServer = "http://calendarserver.org/ns/" // getctag
	nsOurs   = "urn:ripeby:dav"                // a sentence with an error
)

// prefixes are how answers write them.
var prefixes = map[string]string{nsDAV: "D", nsCalDAV: "C", nsServer: "S", nsOurs: "R"}

func davName(local string) xml.Name    { return xml.Name{Space: nsDAV, Local: local} }
func caldavName(local string) xml.Name { return xml.Name{Space: nsCalDAV, Local: local} }

// element is an element of XML, read or to be written.
type element struct {
	name  xml.Name
	attrs []xml.Attr
	text  string // all that stands directly in it
	kids  []element
}

// of makes an element of others.
func of(name xml.Name, kids ...element) element { return element{name: name, kids: kids} }

// saying makes an element of a text.
func saying(name xml.Name, text string) element { return element{name: name, text: text} }

// href makes an address.
func href(path string) element { return saying(davName("href"), path) }

// kid is the first child of a name; nil for none.
func (e *element) kid(name xml.Name) *element {
	for i := range e.kids {
		if e.kids[i].name == name {
			return &e.kids[i]
		}
	}
	return nil
}

// attr is the value of an attribute without a name space; "" for none.
func (e *element) attr(local string) string {
	for _, a := range e.attrs {
		if a.Name.Space == "" && a.Name.Local == local {
			return a.Value
		}
	}
	return ""
}

// How much XML a request may hold, besides its bytes.
const (
	mostDepth    = 32
	mostElements = 4096
)

// errXML is for bodies that are not XML as it is taken here.
var errXML = errors.New("the body is no XML that is taken here: well formed, in UTF-8, without a document type, at most 32 deep and with at most 4096 elements")

// readXML reads a body; nil for an empty one. Entities of a document's own and whatever else a document type
// brings are refused, so that none is expanded or fetched.
func readXML(from io.Reader) (*element, error) {
	d := xml.NewDecoder(from)
	var open []*element // the elements that are open
	root, count := (*element)(nil), 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) && len(open) == 0 {
			return root, nil
		}
		if err != nil {
			return nil, notRead(err)
		}
		switch token := token.(type) {
		case xml.Directive:
			return nil, errXML
		case xml.StartElement:
			if count++; count > mostElements || len(open) >= mostDepth || len(open) == 0 && root != nil {
				return nil, errXML
			}
			e := element{name: token.Name, attrs: token.Copy().Attr}
			if len(open) == 0 {
				root = &e
				open = append(open, root)
				continue
			}
			in := open[len(open)-1]
			in.kids = append(in.kids, e) // elements before it are closed: no pointer to them is kept
			open = append(open, &in.kids[len(in.kids)-1])
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(token)
			} else if strings.TrimSpace(string(token)) != "" {
				return nil, errXML
			}
		}
	}
}

// notRead tells a body that is too large from one that is no XML.
func notRead(err error) error {
	if isTooLarge(err) {
		return err
	}
	return errXML
}

// document writes an element as a whole document.
func document(e element) []byte {
	var b bytes.Buffer
	b.WriteString(`<?xml version="1.0" encoding="utf-8"?>` + "\n")
	e.write(&b, true)
	b.WriteByte('\n')
	return b.Bytes()
}

// write writes an element; the outermost one binds the prefixes. A name of a space that has none carries it.
func (e *element) write(b *bytes.Buffer, outermost bool) {
	name := e.name.Local
	prefix, known := prefixes[e.name.Space]
	if known {
		name = prefix + ":" + name
	}
	b.WriteString("<" + name)
	if outermost {
		for _, space := range []string{nsDAV, nsCalDAV, nsServer, nsOurs} {
			b.WriteString(" xmlns:" + prefixes[space] + `="` + space + `"`)
		}
	}
	if !known {
		b.WriteString(` xmlns="` + escaped(e.name.Space) + `"`)
	}
	for _, a := range e.attrs {
		b.WriteString(" " + a.Name.Local + `="` + escaped(a.Value) + `"`)
	}
	if e.text == "" && len(e.kids) == 0 {
		b.WriteString("/>")
		return
	}
	b.WriteString(">" + escaped(e.text))
	for i := range e.kids {
		e.kids[i].write(b, false)
	}
	b.WriteString("</" + name + ">")
}

// escaped is a text as XML carries it: a carriage return by its number, or readers would drop it.
func escaped(text string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(text)) // a buffer takes all
	return strings.ReplaceAll(b.String(), "&#xA;", "\n")
}
