"""What a plan is worth, part by part in the order in which the parts count."""

from batches import Limits

HOLD_LATE, STUCK_LATE = 999, 1000
LONGEST = 10**7  # minutes, more than any hold has
TENTH = 1000  # as lateness counts: of plans as late the one with fewer holds past their most comes first
SHORT_HOLD = 120  # minutes against which at the least the lateness of a hold is told


def parts(m, grid, facts, batches, missing, rue, told):
    """The parts: [(expression, whether it is to be small)]. Litres are in millilitres, make starts in steps."""
    short = {True: 0, False: 0}
    for w, want in enumerate(facts["wants"]):
        short[want["promised"]] += want["price"] * missing[w]
    new, begun = [b for b in batches if not b.begun], [b for b in batches if b.begun]
    stuck = sum(1 - b.on for b in begun)
    late = sum(tenths(m, b, length, limits) for b in begun for length, limits in b.holds) + TENTH * STUCK_LATE * stuck
    over = [(e["length"], Limits(grid, e["hold"])) for e in facts["ended"]]
    late += sum(tenths_of(*e) for e in over)
    litres = sum(b.of([z["litres"] for z in b.row["sizes"]]) for b in new)
    return [(stuck, True), (short[True], True), (late, True), (short[False], True), (sum(b.on for b in new), True),
            (told.moved, True), (litres, True),
            (bother(m, grid, batches) + sum(rue) + sum(off_best_of(*e) for e in over) + told.points, True), (sum(begins(m, grid, b) for b in new), False)]


def begins(m, grid, b):
    """When a batch that may be made begins, as a number that is at most that; 0 where it is not made."""
    x = m.number(0, grid.steps)
    m.add(x <= b.first.x)
    m.add(x == 0).only_enforce_if(~b.on)
    return x


def tenths_of(length, limits):
    """By how many whole tenths of its most a hold of so many minutes has run past it, as lateness counts."""
    over = max(0, length - limits.most)
    return TENTH * min(HOLD_LATE, 10 * over // max(limits.most, SHORT_HOLD)) + (over > 0)


def off_best_of(length, limits):
    """Per cent of the way from best to the limit on that side, halves up, of a hold of so many minutes."""
    if limits.best is None or length == limits.best:
        return 0
    width = limits.most - limits.best if length > limits.best else limits.best - limits.least
    return 100 if width <= 0 else (200 * abs(length - limits.best) + width) // (2 * width)


def tenths(m, b, length, limits):
    """By how many whole tenths of its most a hold runs past it, as lateness counts: a number that is at least that."""
    base = max(limits.most, SHORT_HOLD)
    n, full, past = m.number(0, HOLD_LATE), m.choice(), m.choice()
    m.add(length - limits.most <= LONGEST * past).only_enforce_if(b.on)
    m.add(n == HOLD_LATE).only_enforce_if(full)
    m.add(10 * (length - limits.most) + 1 <= base * (n + 1)).only_enforce_if([b.on, ~full])
    return TENTH * n + past


def bother(m, grid, batches):
    """How far holds are from their best, as numbers that are at least that: for what is left where it is nothing."""
    out = []
    for b in batches:
        holds = b.holds if b.begun else [(grid.step * g.h, g.limits) for g in b.stages[:-1]]
        for length, limits in holds:
            if limits.best is not None and not (isinstance(length, int) and length == limits.best):
                out.append(off_best(m, b, length, limits, grid))
    return sum(out)


def off_best(m, b, length, limits, grid):
    """Per cent of the way from best to the limit on that side, halves up: the least n with 2 w n > 200 d - w."""
    below, above = limits.best - limits.least, limits.most - limits.best
    longest = grid.steps * grid.step + 7 * 24 * 60 if b.begun else limits.most
    most = 100
    if b.begun and above > 0:
        most = max(most, (200 * longest) // (2 * above) + 1)
    n = m.number(0, most)
    for width, off in ((below, limits.best - length), (above, length - limits.best)):
        if width > 0:
            m.add(2 * width * n >= 200 * off - width + 1).only_enforce_if(b.on)
        else:
            there = m.choice()
            m.add(off <= 0).only_enforce_if([b.on, ~there])
            m.add(n >= 100).only_enforce_if(there)
    return n
