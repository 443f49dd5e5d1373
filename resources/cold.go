package resources

// ColdPlace is a fridge, a cave, a ripening room. A measured place has Shelves;
// a counted one has none and holds Boxes boxes of any kind.
type ColdPlace struct {
	Name        string
	Temperature MilliCelsius
	Shelves     []Shelf
	Boxes       int
	Taken       []Span // the whole place is closed
}

// Measured reports whether the place is described by its shelves.
func (c ColdPlace) Measured() bool { return len(c.Shelves) > 0 }

// Shelf is one shelf of a measured place, with the free height above it.
type Shelf struct {
	Name  string
	Size  Size
	Taken []Span
}
