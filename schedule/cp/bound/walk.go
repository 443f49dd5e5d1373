package bound

import (
	"slices"

	"ripeby/schedule/cp/problem"
)

// The walk is found in two passes. The first counts value short, jobs and
// amounts only. The second goes over the moves that lie on some cheapest walk of
// the first and adds penalty and first starts, which take a placing each.

// walk finds a cheapest cover.
func (c *coverer) walk() cover {
	reach, tight := c.FirstPass()
	if c.off {
		return cover{}
	}
	nodes := len(reach)
	full := make([]problem.Cost, nodes)
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
	if c.off {
		return cover{}
	}
	c.Least = full[nodes-1]
	return c.decode(full[nodes-1], via)
}

// FirstPass counts value short, jobs and amounts only: what they come to at the least
// up to each node, and which nodes lie on a cheapest walk.
func (c *coverer) FirstPass() (reach []problem.Cost, tight []bool) {
	nodes := (len(c.Units) + 1) * c.states
	reach = make([]problem.Cost, nodes)
	known := make([]bool, nodes)
	known[0] = true
	c.forward(func(e edge) {
		if v := reach[e.from].Plus(e.cost); !known[e.to] || v.Less(reach[e.to]) {
			known[e.to], reach[e.to] = true, v
		}
	}, known)
	if c.off {
		return nil, nil
	}
	tight = c.tight(reach, known)
	c.keepWalks(reach, tight)
	return reach, tight
}

// forward visits the edges out of every known node in walking order, unless it is called off.
func (c *coverer) forward(visit func(edge), known []bool) {
	for u := 0; u <= len(c.Units); u++ {
		if c.off = c.off || c.s.CalledOff(); c.off {
			return
		}
		for st := 0; st < c.states; st++ {
			if known[u*c.states+st] {
				c.s.Spent += 4
				c.edges(u, st, visit)
			}
		}
	}
}

// tight marks the nodes that lie on some cheapest walk.
func (c *coverer) tight(reach []problem.Cost, known []bool) []bool {
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
func (c *coverer) fullCost(e edge) problem.Cost {
	if e.length == 0 {
		return e.cost
	}
	shares := c.run(e.from/c.states, e.length)
	v := c.idle(c.modeFor[e.length], shares)
	cost := e.cost
	cost.Penalty += v.Penalty
	cost.Early += v.Early
	if !v.OK { // possible took a smaller mode on trust
		cost.Early -= int64(c.s.Model.Horizon - c.s.Model.From)
	}
	return cost
}

// keepWalks keeps the moves of all cheapest walks of the first pass.
func (c *coverer) keepWalks(reach []problem.Cost, tight []bool) {
	c.into = make([][]edge, len(reach))
	c.forward(func(e edge) {
		if tight[e.to] && tight[e.from] && reach[e.from].Plus(e.cost) == reach[e.to] {
			c.into[e.to] = append(c.into[e.to], e)
		}
	}, tight)
}

// Sample is the orders of some cheapest walk of the first pass, each move drawn
// by pick among those that lead there.
func (c *coverer) Sample(pick func(n int) int) []Order {
	var out []Order
	for n := len(c.into) - 1; n > 0; {
		if len(c.into[n]) == 0 {
			return nil
		}
		e := c.into[n][pick(len(c.into[n]))]
		if e.length > 0 {
			out = append(out, Order{Family: c.family, Shares: c.run(e.from/c.states, e.length)})
		}
		n = e.from
	}
	return out
}

func (c *coverer) decode(cost problem.Cost, via []edge) cover {
	out := cover{cost: cost}
	given := make([][]problem.Share, len(c.sources))
	for n := len(via) - 1; n > 0; {
		e := via[n]
		switch {
		case e.length > 0:
			out.Orders = append(out.Orders, Order{Family: c.family, Shares: c.run(e.from/c.states, e.length)})
		case e.source >= 0:
			d := c.Units[e.from/c.states].demand
			given[e.source] = problem.AddShare(given[e.source], d, 1)
		}
		n = e.from
	}
	for i, shares := range given {
		out.Sources = append(out.Sources, sourceShares{c.sources[i], shares})
	}
	slices.Reverse(out.Orders)
	return out
}
