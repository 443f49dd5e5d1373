package readings

import (
	"fmt"
	"path"

	"ripeby/resources"
)

// Folder is where readings are, below the kitchen folder.
const Folder = "readings"

// How much is read and written; each is far beyond what a small kitchen's thermometers tell. Beyond it a file is
// refused, with the limit named.
const (
	MaxBytes = 8 << 20 // of a month: some 200,000 readings, of sixty places
	MaxLine  = 1 << 10 // bytes of a line
)

// What a place may be: beyond it a reading is a fault of the thermometer or of who sends it.
const (
	Least    resources.MilliCelsius = -60_000
	Greatest resources.MilliCelsius = 100_000
)

// monthOf is the file of the month of a day, and below the same as faults have it.
func monthOf(day resources.Date) string {
	return fmt.Sprintf("%04d-%02d.csv", day.Year, int(day.Month))
}

func below(name string) string { return path.Join(Folder, name) }
