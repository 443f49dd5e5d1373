package svg

import (
	"fmt"
	"strings"
)

// Colours is how many fills there are, Shapes how many patterns of one strength and
// Patterns how many in all.
const (
	Colours  = len(fills)
	Shapes   = len(shapes)
	Patterns = len(shapes) * len(shades)
)

// Colour is the class of a fill by its number. After the last they come round again, so
// a picture must not tell things apart by colour alone.
func Colour(n int) string { return fmt.Sprintf("p%d", n%Colours) }

// Pattern is the name of a pattern by its number, "" for plain. After all of them they
// come round again.
func Pattern(n int) string {
	n %= Patterns
	if shapes[n%Shapes] == "" {
		return ""
	}
	return fmt.Sprintf("g%d", n)
}

// fills are the colours, in the light scheme and the dark one: a warm one first, then
// cool ones.
var fills = [...][2]string{
	{"#f2c48d", "#9a6a2f"},
	{"#a9cdf0", "#2f628f"},
	{"#b5dcc0", "#35704a"},
	{"#d3c3ea", "#64519a"},
	{"#ecd98f", "#857122"},
	{"#f0b8bf", "#8f4652"},
}

// styleSheet is the style sheet. Fills are given outright and not by variables,
// which some programs that turn SVG into pixels do not know.
func styleSheet(colours int) string {
	var light, dark strings.Builder
	for i := range min(colours, len(fills)) {
		fmt.Fprintf(&light, ".p%d{fill:%s}", i, fills[i][0])
		fmt.Fprintf(&dark, ".p%d{fill:%s}", i, fills[i][1])
	}
	return `<style>
text{font-family:system-ui,-apple-system,"Segoe UI","DejaVu Sans",sans-serif;fill:#1d2329;unicode-bidi:isolate}
.h{font-size:17px;font-weight:700}.b,.n{font-size:12px}.b{font-weight:700}.s{font-size:10.5px;fill:#4b5560}.m{text-anchor:middle}.e{text-anchor:end}
.k{font-size:10.5px;paint-order:stroke;stroke:#fff;stroke-width:3px;stroke-opacity:.85;stroke-linejoin:round}
.bg{fill:#fff}.we{fill:#eef1f4}.day{stroke:#d9dee3;stroke-width:1}.month{stroke:#8b96a1;stroke-width:1}
.by{stroke:#b3261e;stroke-width:1.4;stroke-dasharray:5 3;stroke-opacity:.55}.now{stroke:#1d2329;stroke-width:1.4}
.mark{fill:#b3261e;stroke:#fff;stroke-width:1}.edge{fill:none;stroke:#4b5560;stroke-width:1}.sharp{fill:none;stroke:#1d2329;stroke-width:2.4}.past{opacity:.55}
.area{fill-opacity:.9;stroke:none}.cap{fill:none;stroke:#b3261e;stroke-width:1.4;stroke-dasharray:6 3}.base{stroke:#4b5560;stroke-width:1}
.bad{fill:#b3261e}.ink{stroke:#1d2329;fill:none}.dot{fill:#1d2329}
` + light.String() + `
@media (prefers-color-scheme:dark){
text{fill:#e8ecf0}.s{fill:#aeb8c2}.k{stroke:#14181d}.bg{fill:#14181d}.we{fill:#1f262d}.day{stroke:#2c343c}.month{stroke:#65707b}
.by,.cap{stroke:#ff8a80}.now{stroke:#e8ecf0}.mark{fill:#ff8a80;stroke:#14181d}.edge,.base{stroke:#aeb8c2}.bad{fill:#ff8a80}
.sharp{stroke:#f4f6f8}.ink{stroke:#f4f6f8}.dot{fill:#f4f6f8}
` + dark.String() + `
}
</style>
`
}

// shapes are the patterns, drawn in a tile of 8 by 8. The first
// is plain.
var shapes = [...]string{
	``,
	`<path class="ink" d="M-2 2L2 -2M0 8L8 0M6 10L10 6"/>`,
	`<circle class="dot" cx="2" cy="2" r="1.1"/><circle class="dot" cx="6" cy="6" r="1.1"/>`,
	`<path class="ink" d="M0 2H8M0 6H8"/>`,
	`<path class="ink" d="M-2 6L2 10M0 0L8 8M6 -2L10 2"/>`,
	`<path class="ink" d="M2 0V8M6 0V8"/>`,
	`<path class="ink" d="M0 0L8 8M8 0L0 8"/>`,
	`<path class="ink" d="M0 4H8M4 0V8"/>`,
	`<path class="ink" d="M0 6L2 2L4 6L6 2L8 6"/>`,
	`<circle class="ink" cx="4" cy="4" r="2.2"/>`,
	`<path class="ink" d="M0 1H5M3 5H8"/>`,
	`<path class="ink" d="M4 1.5V6.5M1.5 4H6.5"/>`,
}

// shades are how strongly a pattern is drawn: once round the shapes, and
// the next round is stronger.
var shades = [...]string{".38", ".75"}

// patternList holds the definitions of all patterns.
func patternList() string {
	var b strings.Builder
	b.WriteString("<defs>\n")
	for i := range len(shapes) * len(shades) {
		if shape := shapes[i%len(shapes)]; shape != "" {
			fmt.Fprintf(&b, `<pattern id="g%d" width="8" height="8" patternUnits="userSpaceOnUse"><g opacity="%s">%s</g></pattern>`+"\n",
				i, shades[i/len(shapes)], shape)
		}
	}
	b.WriteString("</defs>\n")
	return b.String()
}
