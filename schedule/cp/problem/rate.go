package problem

// Rate is the most value for an amount among all modes.
type Rate struct{ Value, Amount int64 }

// Better reports whether r gives more for an amount than o; a rate of no value is none.
func (r Rate) Better(o Rate) bool {
	return r.Value > 0 && (o.Value == 0 || r.Value*o.Amount > o.Value*r.Amount)
}
