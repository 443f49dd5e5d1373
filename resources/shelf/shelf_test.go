package shelf_test

import (
	"testing"

	"ripeby/resources"
	"ripeby/resources/shelf"
)

func size(w, d, h int64) resources.Size {
	cm := resources.Centimetre
	return resources.Size{
		Width:  resources.Micrometres(w) * cm,
		Depth:  resources.Micrometres(d) * cm,
		Height: resources.Micrometres(h) * cm,
	}
}

func TestLayers(t *testing.T) {
	fridge := size(52, 36, 26)
	for _, c := range []struct {
		name string
		box  resources.Size
		want int
	}{
		{"two and a little", size(40, 30, 12), 2},
		{"exactly two", size(40, 30, 13), 2},
		{"one", size(40, 30, 14), 1},
		{"exactly one", size(40, 30, 26), 1},
		{"too high", size(40, 30, 27), 0},
		{"turned", size(30, 50, 12), 2},
		{"too wide both ways", size(53, 10, 12), 0},
		{"too deep both ways", size(37, 37, 12), 0},
		{"no height", size(40, 30, 0), 0},
		{"no width", size(0, 30, 12), 0},
		{"negative", size(40, -30, 12), 0},
	} {
		if got := shelf.Layers(fridge, c.box); got != c.want {
			t.Errorf("%s: Layers(%v) = %d, want %d", c.name, c.box, got, c.want)
		}
	}
}

func TestRectOf(t *testing.T) {
	got, want := shelf.RectOf(size(52, 36, 26)), shelf.Rect{W: 520_000, D: 360_000}
	if got != want {
		t.Errorf("RectOf = %v, want %v", got, want)
	}
}

func TestAnswerString(t *testing.T) {
	for a, want := range map[shelf.Answer]string{
		shelf.No: "no", shelf.Yes: "yes", shelf.Unknown: "unknown", shelf.Answer(7): "answer?",
	} {
		if got := a.String(); got != want {
			t.Errorf("Answer(%d) = %q, want %q", int(a), got, want)
		}
	}
}
