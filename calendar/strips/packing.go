package strips

// packing puts things side by side into as few rows as one pass finds.
type packing struct{ ends []int }

// row is the first row that is free from left on, taken until right.
func (p *packing) row(left, right int) int {
	for i, end := range p.ends {
		if end <= left {
			p.ends[i] = right
			return i
		}
	}
	p.ends = append(p.ends, right)
	return len(p.ends) - 1
}
