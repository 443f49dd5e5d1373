// Package icon draws the page's sign, a wheel of cheese with a wedge of another colour, as a picture for a
// phone's first screen: those take no drawings, and nothing but text is kept with the program.
package icon

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
)

// The colours of assets/wheel.svg, on the page's own ground.
var (
	ground = color.RGBA{0xfa, 0xf8, 0xf3, 0xff}
	wheel  = color.RGBA{0x0f, 0x52, 0x57, 0xff}
	wedge  = color.RGBA{0xf2, 0xc4, 0x8d, 0xff}
)

// The wheel's radius as a share of the picture's side, so that what is cut off for a round icon is ground alone
// (Web Application Manifest, W3C: a maskable icon keeps to a circle of two fifths of its side); the wedge is this
// far to each side of the level, in radians.
const (
	radius   = 0.32
	halfOpen = math.Pi / 6
)

// fine is how many points of a pixel are looked at, each way, so that edges are smooth.
const fine = 4

// PNG is the sign, so many pixels wide and high.
func PNG(side int) []byte {
	picture := image.NewRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			picture.SetRGBA(x, y, pixel(x, y, side))
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, picture); err != nil {
		panic(fmt.Errorf("drawing the sign: %w", err)) // it is written to memory, and of a size that there is
	}
	return out.Bytes()
}

// pixel is the mean of the points looked at.
func pixel(x, y, side int) color.RGBA {
	var r, g, b int
	for i := range fine * fine {
		at := func(pixel, step int) float64 { return (float64(pixel)+(float64(step)+0.5)/fine)/float64(side) - 0.5 }
		c := point(at(x, i%fine), at(y, i/fine))
		r, g, b = r+int(c.R), g+int(c.G), b+int(c.B)
	}
	mean := func(sum int) uint8 { return uint8((sum + fine*fine/2) / (fine * fine)) }
	return color.RGBA{mean(r), mean(g), mean(b), 0xff}
}

// point is the colour at a place, from the middle in sides of the picture.
func point(x, y float64) color.RGBA {
	switch {
	case math.Hypot(x, y) > radius:
		return ground
	case math.Abs(math.Atan2(y, x)) < halfOpen:
		return wedge
	}
	return wheel
}
