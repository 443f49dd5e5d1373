package cp

import "slices"

// The walk is found in two passes. The first counts value short, jobs and
// amounts only. The second goes over the moves that lie on some cheapest walk of
// the first and adds bother and first starts, which take a placing each.

// walk finds a cheapest cover.
func (c *coverer) walk() cover {
	reach, tight := c.firstPass()
	nodes := len(reach)
	full := make([]Cost, nodes)
	via := make([]edge, nodes)
	seen := make([]bool, nodes)
	seen[0] = true
	c.forward(func(e edge) {
		if !tight[e.to] || reach[e.from].Plus(e.cost) != reach[e.to] {
			return
		}
		v := full[e.from].Plus(c.fullCost(e))
		if !seen[e.to] || v.Less(full[e.to]) {
			seen[e.to], full[e.to], via[e.to] = true, v, e
		}
	}, seen)
	c.least = full[nodes-1]
	return c.decode(full[nodes-1], via)
}

// firstPass counts value short, jobs and amounts only: what they come to at the least
// up to each node, and which nodes lie on a cheapest walk.
func (c *coverer) firstPass() (reach []Cost, tight []bool) {
	nodes := (len(c.units) + 1) * c.states
	reach = make([]Cost, nodes)
	known := make([]bool, nodes)
	known[0] = true
	c.forward(func(e edge) {
		if v := reach[e.from].Plus(e.cost); !known[e.to] || v.Less(reach[e.to]) {
			known[e.to], reach[e.to] = true, v
		}
	}, known)
	tight = c.tight(reach, known)
	c.keepWalks(reach, tight)
	return reach, tight
}

// forward visits the edges out of every known node in walking order.
func (c *coverer) forward(visit func(edge), known []bool) {
	for u := 0; u <= len(c.units); u++ {
		for st := 0; st < c.states; st++ {
			if known[u*c.states+st] {
				c.s.spent += 4
				c.edges(u, st, visit)
			}
		}
	}
}

// tight marks the nodes that lie on some cheapest walk.
func (c *coverer) tight(reach []Cost, known []bool) []bool {
	into := make([][]int, len(reach))
	c.forward(func(e edge) {
		if reach[e.from].Plus(e.cost) == reach[e.to] {
			into[e.to] = append(into[e.to], e.from)
		}
	}, known)
	mark := make([]bool, len(reach))
	stack := []int{len(reach) - 1}
	mark[len(reach)-1] = true
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, from := range into[n] {
			if !mark[from] {
				mark[from] = true
				stack = append(stack, from)
			}
		}
	}
	return mark
}

// fullCost adds to a new job's cost what its best placing on an empty kitchen costs.
func (c *coverer) fullCost(e edge) Cost {
	if e.length == 0 {
		return e.cost
	}
	shares := c.run(e.from/c.states, e.length)
	v := c.idle(c.modeFor[e.length], shares)
	cost := e.cost
	cost.Bother += v.bother
	cost.Early += v.early
	if !v.ok { // possible took a smaller mode on trust
		cost.Early -= int64(c.s.m.Horizon - c.s.m.From)
	}
	return cost
}

// keepWalks keeps the moves of all cheapest walks of the first pass.
func (c *coverer) keepWalks(reach []Cost, tight []bool) {
	c.into = make([][]edge, len(reach))
	c.forward(func(e edge) {
		if tight[e.to] && tight[e.from] && reach[e.from].Plus(e.cost) == reach[e.to] {
			c.into[e.to] = append(c.into[e.to], e)
		}
	}, tight)
}

// sample is the orders of some cheapest walk of the first pass, each move drawn
// by pick among those that lead there.
func (c *coverer) sample(pick func(n int) int) []order {
	var out []order
	for n := len(c.into) - 1; n > 0; {
		if len(c.into[n]) == 0 {
			return nil
		}
		e := c.into[n][pick(len(c.into[n]))]
		if e.length > 0 {
			out = append(out, order{family: c.family, shares: c.run(e.from/c.states, e.length)})
		}
		n = e.from
	}
	return out
}

func (c *coverer) decode(cost Cost, via []edge) cover {
	out := cover{cost: cost}
	given := make([][]Share, len(c.sources))
	for n := len(via) - 1; n > 0; {
		e := via[n]
		switch {
		case e.length > 0:
			out.orders = append(out.orders, order{family: c.family, shares: c.run(e.from/c.states, e.length)})
		case e.source >= 0:
			d := c.units[e.from/c.states].demand
			given[e.source] = addShare(given[e.source], d, 1)
		}
		n = e.from
	}
	for i, shares := range given {
		out.sources = append(out.sources, sourceShares{c.sources[i], shares})
	}
	slices.Reverse(out.orders)
	return out
}

// addShare adds units of a demand to shares, which stay in order of demand.
func addShare(shares []Share, demand, units int) []Share {
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
