package list

import (
	_ "embed"
	"html/template"
	"io"
)

//go:embed page.html
var pageText string

var pages = template.Must(template.New("page").Parse(pageText))

// HTML writes the list as a page to print, on A4 or letter paper.
func (s *Shown) HTML(w io.Writer) error { return pages.ExecuteTemplate(w, "list", s) }

// HTML writes the delivery note as a page to print, on A4 or letter paper.
func (d *Note) HTML(w io.Writer) error { return pages.ExecuteTemplate(w, "note", d) }
