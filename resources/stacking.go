package resources

// Stacking is what boxes of a kind may stand on.
type Stacking int

// The ways, the usual one first.
const (
	StackKind  Stacking = iota // on boxes of their kind, whatever batch those are of
	StackBatch                 // on boxes of their own batch
	StackNo                    // on the shelf alone
)

// stackings are the ways as they are written, in the order of their constants.
var stackings = [...]string{"kind", "batch", "no"}

// String is the way as it is written.
func (s Stacking) String() string { return stackings[s] }

// ParseStacking reads a way; the error is a *[QuantityError].
func ParseStacking(text string) (Stacking, error) {
	t, err := tidy(text, "what boxes may stand on")
	if err != nil {
		return 0, err
	}
	for i, word := range stackings {
		if t == word {
			return Stacking(i), nil
		}
	}
	return 0, &QuantityError{"boxes stand on boxes of their kind, on those of their own batch, or on none", text, "kind, batch or no"}
}
