package sample

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
)

// Element is what tests look at of an element of a picture.
type Element struct {
	Name, Class, ID, Fill, Text string
}

// ReadPicture reads an SVG strictly and gives its elements in order. Character data goes
// to the element that it stands in.
func ReadPicture(svg []byte) ([]Element, error) {
	dec := xml.NewDecoder(bytes.NewReader(svg))
	var all []Element
	var open []int
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return nil, fmt.Errorf("not well-formed: %w", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			e := Element{Name: tok.Name.Local}
			for _, a := range tok.Attr {
				switch a.Name.Local {
				case "class":
					e.Class = a.Value
				case "id":
					e.ID = a.Value
				case "fill":
					e.Fill = a.Value
				}
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].Text += string(tok)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}
