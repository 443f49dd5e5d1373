package sheet

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
)

//go:embed page.html
var pageText string

var pages = template.Must(template.New("page").Parse(pageText))

// mostLines is how many lines to write on there are at the most.
const mostLines = 20

// HTML writes what one page of A4 has room for ([Shown.Paper]), to print from a browser. back is where the page
// leads back to; "" for nowhere.
func (s *Shown) HTML(w io.Writer, back string) error {
	p := s.Paper()
	return pages.Execute(w, struct {
		*Shown
		Back  string
		Style template.CSS
		Rules [mostLines]struct{} // to write on: those that there is room for are seen
	}{p, back, p.style(), [mostLines]struct{}{}})
}

// style is what the page's own measures ask for on paper, as [Shown.height] counts them.
func (s *Shown) style() template.CSS {
	return template.CSS(fmt.Sprintf("@media print{:root{font-size:%gpt}.blank{height:%gmm}.rules{min-height:%gmm}}", s.Letters, s.LineMM, float64(s.Lines)*ruled))
}
