package sample

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/mattn/go-runewidth"
)

// Golden holds what was made against a file of the test's testdata, or writes that
// file first where update says so.
func Golden(name string, got []byte, update bool) error {
	path := filepath.Join("testdata", name)
	if update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			return err
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !bytes.Equal(got, want) {
		return fmt.Errorf("%s differs; run go test with -update if that is right\ngot:\n%s\nwant:\n%s", name, got, want)
	}
	return nil
}

// Fits finds lines that are wider than the width.
func Fits(text string, width int) error {
	cond := runewidth.Condition{StrictEmojiNeutral: true}
	for _, line := range strings.Split(text, "\n") {
		if got := cond.StringWidth(line); got > width {
			return fmt.Errorf("line of %d columns, want at most %d: %q", got, width, line)
		}
	}
	return nil
}

// Harmless finds characters that could move the cursor or turn the text.
func Harmless(text string) error {
	for _, r := range text {
		if (r < 0x20 && r != '\n') || (r >= 0x7f && r < 0xa0) || (r >= 0x202a && r <= 0x202e) ||
			(r >= 0x2066 && r <= 0x2069) || r == 0x2028 || r == 0x200b || r == 0xfeff || r >= 0xe0000 {
			return fmt.Errorf("%U is in the text", r)
		}
	}
	return nil
}
