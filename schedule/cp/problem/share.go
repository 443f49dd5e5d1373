package problem

// UnitsOf is how many units the shares come to.
func UnitsOf(shares []Share) int {
	n := 0
	for _, sh := range shares {
		n += sh.Units
	}
	return n
}

// UnitsFor is how many of the units go to a demand.
func UnitsFor(shares []Share, demand int) int {
	n := 0
	for _, sh := range shares {
		if sh.Demand == demand {
			n += sh.Units
		}
	}
	return n
}

// AddShare adds units of a demand to shares, which stay in order of demand.
func AddShare(shares []Share, demand, units int) []Share {
	for i := range shares {
		if shares[i].Demand == demand {
			shares[i].Units += units
			return shares
		}
	}
	shares = append(shares, Share{demand, units})
	for i := len(shares) - 1; i > 0 && shares[i].Demand < shares[i-1].Demand; i-- {
		shares[i], shares[i-1] = shares[i-1], shares[i]
	}
	return shares
}
