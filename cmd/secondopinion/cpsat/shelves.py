"""Shelves: every spot in which a box can stand, how many stand on one another there, and which spots meet.

Boxes pushed left and to the front as far as they go stand at sums of sides, so that these spots
are enough: what stays where it was put can be pushed with all that it meets in time.
"""


class Spot:
    """A place for boxes of one kind, upright: where on which shelf, its sides, and how many fit on one another."""

    def __init__(self, shelf, box, x, y, wide, deep, layers):
        self.shelf, self.box, self.x, self.y = shelf, box, x, y
        self.wide, self.deep, self.layers = wide, deep, layers

    def meets(self, o):
        """Whether two spots overlap."""
        return (self.shelf == o.shelf and self.x < o.x + o.wide and o.x < self.x + self.wide
                and self.y < o.y + o.deep and o.y < self.y + self.deep)

    def same(self, o):
        """Whether two spots are one: boxes of one kind square on each other."""
        return (self.shelf, self.box, self.x, self.y, self.wide) == (o.shelf, o.box, o.x, o.y, o.wide)


def stack(m, grid, facts, place, stays):
    """States where the boxes of stays stand on the shelves of a place; a stay's spots is [(spot, how many)].

    Which boxes may stand on one another each kind of box says: those of their batch, of their kind, none.
    """
    shelves, kinds = facts["places"][place]["shelves"], sorted({s.box for s in stays})
    spots = {k: spots_of(facts, shelves, k, kinds) for k in kinds}
    used = {}  # spot: [(stay, whether, how many)]
    for s in stays:
        s.spots = getattr(s, "spots", [])
        mine = []
        for spot in spots[s.box]:
            here = m.choice()
            shared = facts["boxes"][s.box]["stack"] == "kind"
            many = m.number(0, min(spot.layers, s.most)) if shared else spot.layers * here
            if shared:
                m.add(many >= 1).only_enforce_if(here)
                m.add(many == 0).only_enforce_if(~here)
            m.add_implication(here, s.present[place])
            if s.closed:
                for span in shelves[spot.shelf]["closed"]:
                    s.keep_out(m, grid, span, here)
            mine.append((spot, here, many))
            used.setdefault(spot, []).append((s, here, many))
        m.add(sum(many for _, _, many in mine) >= s.boxes).only_enforce_if(s.present[place])
        s.spots += [(place, spot, here, many) for spot, here, many in mine]
    share(m, facts, place, used)
    apart(m, facts, place, used)


def spots_of(facts, shelves, kind, kinds):
    """The spots of a kind of box, among boxes of such kinds."""
    box, out = facts["boxes"][kind], []
    for n, shelf in enumerate(shelves):
        layers = shelf["height"] // box["height"] if box["height"] > 0 else 0
        if box["stack"] == "no":
            layers = min(layers, 1)
        if layers == 0:
            continue
        for wide, deep in sorted({(box["width"], box["depth"]), (box["depth"], box["width"])}):
            for x in sums(facts, kinds, shelf["width"] - wide):
                for y in sums(facts, kinds, shelf["depth"] - deep):
                    out.append(Spot(n, kind, x, y, wide, deep, layers))
    return out


def sums(facts, kinds, most):
    """Sums of sides of boxes up to most, 0 among them; none where most is below 0."""
    sides = {facts["boxes"][k][side] for k in kinds for side in ("width", "depth")}
    known = {0} if most >= 0 else set()
    more = known
    while more:
        more = {a + b for a in more for b in sides if 0 < b and a + b <= most} - known
        known = known | more
    return sorted(known)


def share(m, facts, place, used):
    """Boxes of several batches in one spot are no higher than the shelf at any time."""
    for spot, mine in used.items():
        if len(mine) > 1 and facts["boxes"][spot.box]["stack"] == "kind":
            m.add_cumulative([s.interval[place] for s, _, _ in mine], [many for _, _, many in mine], spot.layers)


def apart(m, facts, place, used):
    """Of spots that meet one is in use at a time, by one batch unless boxes of a kind may share one.

    Where they may not share, every corner cell of the shelf is a thing that one stay has at a time.
    """
    if any(facts["boxes"][spot.box]["stack"] == "kind" for spot in used):
        pairs_apart(m, facts, used)
        return
    spans = {spot: [m.new_optional_interval_var(s.put, s.long, s.gone, here, "") for s, here, _ in mine]
             for spot, mine in used.items()}
    for cell in cells(list(used)):
        m.add_no_overlap([i for spot in cell for i in spans[spot]])


def cells(spots):
    """For each smallest cell of the shelves, between sides of spots, the spots that cover it; largest lists only."""
    out = {}
    for n in sorted({s.shelf for s in spots}):
        mine = [s for s in spots if s.shelf == n]
        for x in sorted({s.x for s in mine}):
            for y in sorted({s.y for s in mine}):
                over = tuple(i for i, s in enumerate(spots) if s.shelf == n and s.x <= x < s.x + s.wide and s.y <= y < s.y + s.deep)
                if len(over) > 0:
                    out[over] = True
    kept = [set(o) for o in out]
    return [[spots[i] for i in sorted(o)] for o in kept if not any(o < p for p in kept)]


def pairs_apart(m, facts, used):
    """Two stays that meet in time are in no two different spots that overlap, or in one that is not shared."""
    stays = []
    for mine in used.values():
        stays += [s for s, _, _ in mine if all(s is not t for t in stays)]
    for i, s in enumerate(stays):
        for t in stays[i + 1:]:
            first, second = m.choice(), m.choice()
            m.add(s.gone <= t.put).only_enforce_if(first)
            m.add(t.gone <= s.put).only_enforce_if(second)
            for spot, mine in used.items():
                here = [h for u, h, _ in mine if u is s]
                if not here:
                    continue
                shared = facts["boxes"][spot.box]["stack"] == "kind"
                clash = [h for o, those in used.items() if spot.meets(o) and not (shared and spot.same(o)) for u, h, _ in those if u is t]
                for h in clash:
                    m.add_bool_or([~here[0], ~h, first, second])
    for spot in used:
        for s, here, _ in used[spot]:
            for o in used:
                if o is not spot and spot.meets(o):
                    for t, h, _ in used[o]:
                        if t is s:
                            m.add_bool_or([~here, ~h])
