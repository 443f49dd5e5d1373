"""Cold places: which boxes stand where from when to when, in places that are counted and on shelves."""
from shelves import stack


class Stay:
    """Boxes from step put to step gone: at is {place: truth}, there a truth for any boxes for any time.

    left is when they have gone, in minutes; closed whether times in which a place is closed count for it.
    """

    def keep_out(self, m, grid, span, here):
        """Where it is here, it is not so in a time that is closed: it has gone before, or is put there after."""
        before = m.choice()
        m.add(self.left <= span[0]).only_enforce_if([here, before])
        m.add(self.put >= grid.up(span[1])).only_enforce_if([here, ~before])


def store(m, grid, facts, batches, stock, forever):
    """States the cold; gives the stays, those of batches in order, then those of stock."""
    stays = []
    for b in batches:
        for row in b.row["stays"]:
            stays.append(of_batch(m, grid, b, row, forever))
    for s in stock:
        stays.append(of_stock(m, s))
    for s in stays:
        s.present = {c: m.both(lit, s.there) for c, lit in s.at.items()}
        s.interval, s.long = {}, m.number(0, forever)
    for c, place in enumerate(facts["places"]):
        here = [s for s in stays if c in s.at]
        for s in here:
            s.interval[c] = m.new_optional_interval_var(s.put, s.long, s.gone, s.present[c], "")
            if s.closed:
                for span in place["closed"]:
                    s.keep_out(m, grid, span, s.present[c])
        if place["boxes"] >= 0 and here:
            m.add_cumulative([s.interval[c] for s in here], [s.boxes for s in here], place["boxes"])
            for s in here:
                m.add(s.boxes <= place["boxes"]).only_enforce_if(s.present[c])
        elif place["boxes"] < 0:
            stack(m, grid, facts, c, here)
    return stays


def of_batch(m, grid, b, row, forever):
    """A stay of a batch: one that runs already is where it is and stays there."""
    s = Stay()
    s.box, s.most, held = row["box"], max(row["takes"]), row["from"] < 0
    s.put = grid.up(row["put"]) if held else b.stages[row["from"]].end
    gone = b.gone(0) if row["to"] < 0 else b.stages[row["to"]].x
    s.left = b.leaves if row["to"] < 0 else grid.step * gone
    s.gone = b.kept(gone, held, forever)
    s.closed = not held
    s.boxes = b.takes(row["takes"], held)
    s.at = b.one_of(row["places"], held)
    s.there = m.choice()
    if s.most == 0:
        m.add(s.there == 0)
        return s
    m.add(s.gone > s.put).only_enforce_if(s.there)
    m.add(s.gone <= s.put).only_enforce_if([m.yes if held else b.on, ~s.there])
    if not held:
        m.add_implication(s.there, b.on)
    return s


def of_stock(m, stock):
    """A stay of stock: it is where it is until it leaves."""
    s, f = Stay(), stock.facts
    s.box, s.boxes, s.most, s.put, s.closed = f["box"], f["count"], f["count"], 0, False
    s.gone = m.value_of(stock.gone(0), 0, stock.far)
    s.at = {f["place"]: m.yes} if f["place"] >= 0 and f["count"] > 0 else {}
    s.there = m.choice()
    m.add(s.gone > 0).only_enforce_if(s.there)
    m.add(s.gone <= 0).only_enforce_if(~s.there)
    return s
