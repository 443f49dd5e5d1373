package schedule

import "ripeby/resources"

// Label is what a recipe says of the label of its cheese. Texts are as the maker wrote them; "" or 0
// stands for what is not said.
type Label struct {
	Milk        Treatment
	Ingredients string
	Keep        string               // how it is kept: "below 5 °C"
	Weight      resources.Milligrams // of a piece, as it is declared
	GTIN        resources.GTIN
	BestBefore  bool // the date is called so, and not use by
}

// Treatment is how the milk of a cheese was treated.
type Treatment string

// The treatments that a label tells of.
const (
	Raw         Treatment = "raw"
	Pasteurised Treatment = "pasteurised"
	Thermised   Treatment = "thermised"
)
