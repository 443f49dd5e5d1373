"""Who gives how much to which want, when the last of a batch has left, and what is short."""


def serve(m, grid, facts, batches):
    """States targets; gives {want: how many pieces are missing}, and the stock in its order."""
    given = {w: [] for w in range(len(facts["wants"]))}
    for b in batches:
        b.give, b.served = {}, {}
        sellable = [z["sellable"] for z in b.row["sizes"]]
        for w, want in enumerate(facts["wants"]):
            if want["cheese"] == b.row["cheese"]:
                give_to(m, grid, b, w, want, max(sellable))
                given[w].append(b.give[w])
        m.add(sum(b.give.values()) <= b.of(sellable))
        leave(m, grid, facts, b)
        if not b.begun:
            serves(m, facts, b)
    stock = [from_stock(m, grid, facts, s) for s in facts["stock"]]
    for s in stock:
        for w, n in s.give.items():
            given[w].append(n)
    missing = {}
    for w, want in enumerate(facts["wants"]):
        missing[w] = m.number(0, want["pieces"], "missing")
        m.add(missing[w] + sum(given[w]) == want["pieces"])
    return missing, stock


def give_to(m, grid, b, w, want, most):
    """Pieces of a batch for a want: packed in time for it, and no longer before it than they keep."""
    b.give[w], b.served[w] = handed(m, min(want["pieces"], most))
    m.add_implication(b.served[w], b.on)
    m.add(b.packed >= grid.up(want["by"] - b.row["keeps"])).only_enforce_if(b.served[w])
    m.add(b.packed <= grid.down(want["by"] - want["packed"])).only_enforce_if(b.served[w])


def handed(m, most):
    """Pieces for a want, up to so many, and whether there are any."""
    pieces, any_of_it = m.number(0, most), m.choice()
    m.add(pieces >= 1).only_enforce_if(any_of_it)
    m.add(pieces == 0).only_enforce_if(~any_of_it)
    return pieces, any_of_it


def last_of(m, served, by, leaves, idle):
    """Which moment is the last at which wants are served: {moment: truth}, of which one holds where leaves does.

    served is {want: truth}, by {want: moment}. Where it may leave idle there is a truth more, for
    no want at all, which comes second; else 0.
    """
    moments = sorted(set(by.values()))
    last_is, none = {t: m.choice() for t in moments}, m.choice() if idle else 0
    m.add(sum(last_is.values()) + none == leaves)
    for w, t in by.items():
        m.add_bool_or([last_is[u] for u in moments if u >= t]).only_enforce_if(served[w])
    for t in moments:
        m.add_bool_or([served[w] for w in by if by[w] == t]).only_enforce_if(last_is[t])
    return last_is, none


def serves(m, facts, b):
    """A batch is made only where enough of its pieces have a target, or a promised one has."""
    promised = [lit for w, lit in b.served.items() if facts["wants"][w]["promised"]]
    enough = m.choice()
    m.add(sum(b.give.values()) >= max(1, b.row["serves"])).only_enforce_if(enough)
    m.add_bool_or(promised + [enough, ~b.on])


def leave(m, grid, facts, b):
    """When the last of a batch leaves: leaves in minutes, and gone(clean) in steps, clean minutes later, rounded up.

    It is the latest by that it serves; a batch under way without a target leaves when its store has
    run its least.
    """
    last_is, none = last_of(m, b.served, {w: facts["wants"][w]["by"] for w in b.give}, b.on, idle=b.begun)
    store = b.row["store"] or {"least": 0, "most": b.row["keeps"]}
    least = grid.up(store["least"]) * grid.step
    most = min(b.row["keeps"], grid.down(store["most"]) * grid.step) if b.row["store"] else b.row["keeps"]
    far = max([*last_is, 0]) + (grid.steps + max(b.last.work) + 1) * grid.step + least
    b.leaves = m.number(0, far)
    for t, last in last_is.items():
        m.add(b.leaves == t).only_enforce_if(last)
        m.add(b.packed * grid.step + least <= t).only_enforce_if(last)
        m.add(b.packed * grid.step + most >= t).only_enforce_if(last)
    if b.begun:
        m.add(b.leaves == b.packed * grid.step + least).only_enforce_if(none)
        m.add_bool_and([~lit for lit in b.served.values()]).only_enforce_if(none)
    m.add(b.leaves == 0).only_enforce_if(~b.on)
    known = {}

    def gone(clean):
        if clean not in known:
            known[clean] = m.number(0, grid.up(far + clean))
            for t, last in last_is.items():
                m.add(known[clean] == grid.up(t + clean)).only_enforce_if(last)
            if b.begun:
                m.add(known[clean] == b.packed + grid.up(least + clean)).only_enforce_if(none)
            m.add(known[clean] == grid.up(clean)).only_enforce_if(~b.on)
        return known[clean]

    b.gone = gone


class Stock:
    """Packed cheese: give is {want: pieces}, gone(clean) as of a batch."""


def from_stock(m, grid, facts, s):
    """An entry of stock: it leaves with the last want that it serves, else at its end."""
    out = Stock()
    out.facts = s
    handing = {w: handed(m, min(s["pieces"], facts["wants"][w]["pieces"])) for w in s["may"]}
    out.give, served = {w: n for w, (n, _) in handing.items()}, {w: lit for w, (_, lit) in handing.items()}
    m.add(sum(out.give.values()) <= s["pieces"])
    last_is, none = last_of(m, served, {w: facts["wants"][w]["by"] for w in s["may"]}, 1, idle=True)
    out.gone = lambda clean: sum(grid.up(t + clean) * lit for t, lit in last_is.items()) + grid.up(max(0, s["ends"]) + clean) * none
    out.far = grid.up(max([*last_is, s["ends"], 0]))
    return out
