package resources

// Milk is a supply that is collected on certain days of the week.
type Milk struct {
	Name     string
	Days     Weekdays
	Ready    Clock
	Most     Millilitres // of one collection; NoLimit for none
	Keeps    Minutes     // the make starts no later than this after Ready
	Order    Minutes     // how long ahead it must be ordered
	Standing Millilitres // comes of each collection without an order; 0 for none, at most Most
	Closed   []Span      // whole local days without a collection
}
