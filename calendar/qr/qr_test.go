package qr

import (
	"image"
	"image/color"
	"strings"
	"testing"

	goqr "github.com/piglig/go-qr"
)

// What the terminal shows is read back as the address, from the characters alone.
func TestTerminalReadsBack(t *testing.T) {
	const text = "webcal://192.168.178.201:7379/f/abcdefghijklmnopqrstuvwxyz.ics"
	for _, colour := range []bool{false, true} {
		drawn, err := Terminal(text, colour)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(drawn, "\x1b["); got != colour {
			t.Errorf("colour %v: got %v", colour, got)
		}
		drawn = strings.NewReplacer("\x1b[38;5;231;48;5;16m", "", "\x1b[0m", "").Replace(drawn)
		lines := strings.Split(strings.TrimSuffix(drawn, "\n"), "\n")
		const scale = 4
		side := len([]rune(lines[0]))
		img := image.NewGray(image.Rect(0, 0, side*scale, 2*len(lines)*scale))
		for y := range img.Rect.Dy() {
			for x := range img.Rect.Dx() {
				c := []rune(lines[y/scale/2])[x/scale]
				upper := y/scale%2 == 0
				if light := c == '█' || upper && c == '▀' || !upper && c == '▄'; light {
					img.SetGray(x, y, color.Gray{Y: 255})
				}
			}
		}
		if got, err := goqr.Decode(img); err != nil || got != text {
			t.Errorf("colour %v: got %q (%v), want %q", colour, got, err, text)
		}
	}
}

func TestTooLong(t *testing.T) {
	if _, err := Terminal(strings.Repeat("x", 5000), false); err == nil {
		t.Error("got no error for a text that no code can hold")
	}
	if _, err := Page(strings.Repeat("x", 5000), ""); err == nil {
		t.Error("got no error for a text that no code can hold")
	}
}
