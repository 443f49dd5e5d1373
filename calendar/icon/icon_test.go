package icon

import (
	"bytes"
	"image/color"
	"image/png"
	"testing"
)

// The sign is a picture of the size that is asked for, the same each time, with the wheel in the middle, the
// wedge to its right and nothing at the edge that is cut off for a round icon.
func TestSign(t *testing.T) {
	for _, side := range []int{180, 192, 512} {
		text := PNG(side)
		if !bytes.Equal(text, PNG(side)) {
			t.Errorf("%d: two pictures differ", side)
		}
		picture, err := png.Decode(bytes.NewReader(text))
		if err != nil || picture.Bounds().Dx() != side || picture.Bounds().Dy() != side {
			t.Fatalf("%d: got %v, %v", side, picture.Bounds(), err)
		}
		for what, x := range map[string]struct {
			x, y float64
			want color.RGBA
		}{"the wheel": {0.4, 0.5, wheel}, "the wedge": {0.7, 0.5, wedge}, "the edge": {0.02, 0.5, ground}, "a corner": {0.05, 0.05, ground}, "outside the round": {0.5, 0.12, ground}} {
			if got := color.RGBAModel.Convert(picture.At(int(x.x*float64(side)), int(x.y*float64(side)))); got != x.want {
				t.Errorf("%d, %s: got %v, want %v", side, what, got, x.want)
			}
		}
	}
}
