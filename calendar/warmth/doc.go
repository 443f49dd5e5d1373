// Package warmth shows how warm it was in the places of a kitchen over the last seven days, by their
// thermometers and by what people measured there: in sentences, in a table a line a day, and as a line in a
// picture. Where no reading came the line ends, and begins again where one does: no stroke goes across a gap.
//
// It judges nothing. Whether a temperature is right for a cheese is no affair of a line's, and is not said.
//
// The pictures are below the page's address of cold places, each with the moment up to which it shows:
//
//	cold/readings-0-20270316T0835Z.svg   seven days of a place, by its number among readings.Places
//
// What is shown goes up to a moment that moves on by [Step], so that a page that is looked at is another every
// few minutes, and not with each reading.
//
// Reading order: shown.go (what is said), table.go, address.go, picture.go with scale.go, terminal.go.
package warmth
