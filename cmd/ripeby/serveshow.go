package main

import (
	"io"

	"ripeby/calendar/address"
	"ripeby/calendar/feed"
	"ripeby/calendar/qr"
)

// shownBook is the addresses as a terminal shows them.
type shownBook struct {
	book   *address.Book
	site   feed.Site
	look   look
	qr     bool // each address as a QR code
	pageQR bool // the page's at least
}

// write shows each address: webcal opens a phone's calendar, the other form is for
// what wants an address typed or pasted.
func (s shownBook) write(w io.Writer) error {
	for i, a := range s.book.Addresses {
		if i > 0 {
			line(w, "")
		}
		link := s.site.Link(a.Path())
		switch a.Kind {
		case address.Page:
			line(w, "The page:")
		case address.Writing:
			line(w, "Writing address of "+a.Label()+":")
		case address.Thermometer:
			line(w, "Thermometer of "+a.Place+" posts what it reads, in °C or with its unit:")
			line(w, "  curl -d 4.6 "+link)
			continue
		default:
			line(w, "Calendar for "+a.Label()+":")
			link = s.site.Webcal(a.Path())
			line(w, "  "+link)
		}
		line(w, "  "+s.site.Link(a.Path()))
		if !s.qr && (!s.pageQR || a.Kind != address.Page) {
			continue
		}
		code, err := qr.Terminal(link, s.look.colour)
		if err != nil {
			return err
		}
		_, _ = io.WriteString(w, code) // resultWriter keeps the error
	}
	return nil
}
