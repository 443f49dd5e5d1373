package shelf

// CountMost is the largest number of boxes that Most searches for. Where more
// might stand, it answers Unknown unless a pattern of blocks reaches the bound.
const CountMost = 10_000

// Most is the largest number of boxes (footprints) of one size that stand on an
// empty floor. If the answer is Yes, n is that number; if it is Unknown, n boxes
// do stand but more might, because the budget ran out or a limit of this package
// was met. It is never No. A box whose sides are not both positive stands nowhere.
func Most(floor Rect, box Rect, budget int64) (n int, answer Answer) {
	if !standsAlone(floor, box) {
		return 0, Yes
	}
	if floor.W > Longest || floor.D > Longest {
		return 0, Unknown
	}
	u := gcd(box.W, box.D)
	w, d := floor.W/u, floor.D/u
	long, short := max(box.W, box.D)/u, min(box.W, box.D)/u
	bound := atMost(w, d, long, short)
	found, spent := byBlocks(w, d, long, short, bound, budget)
	if bound > CountMost {
		return int(found), answerIf(found == bound)
	}
	boxes := make([]Rect, bound)
	for i := range boxes {
		boxes[i] = Rect{long, short}
	}
	for spent < budget && found < bound {
		_, a, more := Fit(Rect{w, d}, nil, boxes[:found+1], budget-spent)
		spent += more
		switch a {
		case Yes:
			found++
		case No:
			return int(found), Yes
		case Unknown:
			return int(found), Unknown
		}
	}
	return int(found), answerIf(found == bound)
}

func answerIf(proved bool) Answer {
	if proved {
		return Yes
	}
	return Unknown
}

// byBlocks counts the boxes of the better of the two ways to lay straight rows,
// and of the best pattern of blocks if that takes no more than half of budget.
func byBlocks(w, d, long, short, enough, budget int64) (found, spent int64) {
	found = max((w/long)*(d/short), (w/short)*(d/long))
	if found >= enough {
		return min(found, enough), 0
	}
	b, spent, ok := newBlocks(w, d, long, short, budget/2)
	if !ok {
		return found, spent
	}
	p, more := b.whirl(enough, budget/2-spent)
	return max(found, int64(p.count)), spent + more
}
