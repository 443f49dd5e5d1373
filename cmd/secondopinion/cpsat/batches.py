"""Batches: which are made, in which size, when their stages start, and how long they hold."""

PATIENCE = 60 * 24 * 60  # minutes after the planning start in which what has begun is carried on


class Stage:
    """A stage of one batch, in steps: start x, work w, end x + w, and the hold h after it."""


class Limits:
    """A hold's limits on the grid, rounded inward: least, most and best in minutes, best None for none."""

    def __init__(self, grid, hold):
        hold = hold or {"least": 0, "most": 0, "best": None}
        self.least, self.most = grid.up(hold["least"]) * grid.step, grid.down(hold["most"]) * grid.step
        self.best = hold["best"]


def hands(grid, stage, size):
    """Steps of work of a stage for a size; rates are in thousandths of a minute."""
    millionths = 1000 * (stage["fixed"] + stage["per_piece"] * size["pieces"]) + stage["per_litre"] * size["litres"]
    return grid.up(-(-millionths // 1_000_000))


def has_hands(stage):
    """Whether a stage has work at all."""
    return stage["fixed"] + stage["per_litre"] + stage["per_piece"] > 0


class Batch:
    """A slot of a row of the kitchen: a batch that may be made, or one under way.

    on: whether it is made, or carried on. sizes: a truth for each size of the row. stages: those to
    come. of(list) is the entry of a list by size, 0 where nothing is made.
    """

    def __init__(self, m, grid, facts, row):
        self.m, self.grid, self.row, self.begun = m, grid, row, row["begun"]
        self.on = m.choice("on")
        self.sizes = [self.on] if len(row["sizes"]) == 1 else [m.choice() for _ in row["sizes"]]
        if len(self.sizes) > 1:
            m.add(sum(self.sizes) == self.on)
        self.never = False
        windows = self.windows(facts)
        self.stages = [self.stage(i, g, windows[i]) for i, g in enumerate(row["stages"])]
        self.first, self.last = self.stages[0], self.stages[-1]
        self.packed = self.last.end
        for a, b in zip(self.stages, self.stages[1:]):
            chain = m.add(b.x == a.end + a.h)
            if self.begun or self.never:
                chain.only_enforce_if(self.on)
        if self.begun:
            self.carry_on(facts)

    def of(self, values):
        """What a list by size comes to: a linear expression, or a constant times on."""
        return sum(v * z for v, z in zip(values, self.sizes))

    def takes(self, by_size, held):
        """How many of a thing it takes; what is in hand stays so many whatever becomes of the batch."""
        if held or min(by_size) == max(by_size):
            return by_size[0]
        return self.m.value_of(self.of(by_size), 0, max(by_size))

    def one_of(self, kinds, held):
        """Which of some kinds of kit, or places, it has: {kind: truth}; what is in hand it has in any case."""
        present = self.m.yes if held else self.on
        out = {k: present if len(kinds) == 1 else self.m.choice() for k in kinds}
        if len(out) > 1:
            self.m.add_exactly_one(list(out.values()) + ([] if held else [~self.on]))
        return out

    def windows(self, facts):
        """First and last step at which each stage may start, such that every start has others to go with.

        A batch that may be made is packed when some want is served by it. Where there is no way to do
        so it is not made, and the windows say nothing.
        """
        grid, rows = self.grid, self.row["stages"]
        whole = [(0, grid.steps)] * len(rows)
        if self.begun:
            return whole
        wants = [w for w in facts["wants"] if w["cheese"] == self.row["cheese"]]
        packed = [(grid.up(w["by"] - self.row["keeps"]), grid.down(w["by"] - w["packed"])) for w in wants]
        packed = [(a, b) for a, b in packed if a <= b] or [(1, 0)]
        lasts = []  # shortest and longest from the start of a stage to that of the next, or to the end of packing
        for i, g in enumerate(rows):
            work, hold = [hands(grid, g, z) for z in self.row["sizes"]], Limits(grid, g["hold"])
            last = i == len(rows) - 1
            lasts.append((min(work) + (0 if last else hold.least // grid.step), max(work) + (0 if last else hold.most // grid.step)))
        out, (low, high) = [], (min(a for a, _ in packed), max(b for _, b in packed))
        for short, long in reversed(lasts):
            low, high = max(0, low - long), min(grid.steps, high - short)
            out.insert(0, (low, high))
        for i in range(1, len(out)):
            short, long = lasts[i - 1]
            out[i] = (max(out[i][0], out[i - 1][0] + short), min(out[i][1], out[i - 1][1] + long))
        self.never = any(low > high for low, high in out) or any(short > long for short, long in lasts)
        if self.never:
            self.m.add(self.on == 0)
        return whole if self.never else out

    def stage(self, i, facts, window):
        """Stage i of the row, which starts within a window of steps."""
        m, g = self.m, Stage()
        g.facts, g.limits = facts, Limits(self.grid, facts["hold"])
        g.work = [hands(self.grid, facts, z) for z in self.row["sizes"]]
        g.x = m.number(*window, f"x{i}")
        if min(g.work) == max(g.work):
            g.w, g.end = g.work[0], g.x + g.work[0]
        else:
            g.w = m.number(min(g.work), max(g.work))
            m.add(g.w == self.of(g.work)).only_enforce_if(self.on)
            g.end = m.number(0, self.grid.steps + max(g.work))
            m.add(g.end == g.x + g.w)
        if i == len(self.row["stages"]) - 1:
            return g
        least, most = self.grid.down(g.limits.least), self.grid.down(g.limits.most)
        if self.begun:
            most += self.grid.steps
        g.h = least if least >= most else m.number(least, most, f"h{i}")
        return g

    def itself(self, i):
        """Whether stage i begins when the hold before it ends, since nobody has anything to do there."""
        before = Limits(self.grid, self.begun["hold"]) if i == 0 else self.stages[i - 1].limits
        return i < len(self.stages) - 1 and not has_hands(self.row["stages"][i]) and before.most > 0

    def carry_on(self, facts):
        """What runs, and by when each stage to come has to start.

        A hold that somebody ends may run past its most, where those before it that end by
        themselves are as long as they may be on the grid; those are within their limits. One that
        runs and ends by itself does so at the first step there is where that is past its most. What
        nothing carries on is left where it is.
        """
        m, step, worked = self.m, self.grid.step, self.begun["worked"]
        self.ran = Limits(self.grid, self.begun["hold"])
        soonest = self.grid.up(max(worked + self.ran.least, 0))
        latest = max(facts["start"] + PATIENCE, worked + self.ran.most)
        for g in self.stages:
            m.add(g.x <= self.grid.down(latest)).only_enforce_if(self.on)
            m.add(g.x == 0).only_enforce_if(~self.on)
            if g is not self.last:
                m.add(g.h == g.limits.least // step).only_enforce_if(~self.on)
            latest += g.work[0] * step + g.limits.most
        m.add(self.first.x >= soonest).only_enforce_if(self.on)
        ran = step * self.first.x - worked
        self.holds = [(ran, self.ran)] + [(step * g.h, g.limits) for g in self.stages[:-1]]
        forced = self.itself(0) and step * soonest - worked > self.ran.most
        if forced:
            m.add(self.first.x == soonest).only_enforce_if(self.on)
        for i, (length, limits) in enumerate(self.holds):
            if i == 0 and forced:
                continue
            if self.itself(i):
                m.add(length <= limits.most).only_enforce_if(self.on)
                continue
            over = m.choice()
            m.add(length <= limits.most).only_enforce_if([self.on, ~over])
            k = i
            while k > 0 and self.itself(k - 1):
                k -= 1
                m.add(self.holds[k][0] + step > self.holds[k][1].most).only_enforce_if([self.on, over])

    def kept(self, end, held, forever):
        """When something in hand is given back: at end, but never by a batch that is left where it is."""
        if not (self.begun and held):
            return end
        out = self.m.number(0, forever)
        self.m.add(out == end).only_enforce_if(self.on)
        self.m.add(out == forever).only_enforce_if(~self.on)
        return out


def in_order(m, batches):
    """Batches of one row are interchangeable: they are made in order."""
    for a, b in zip(batches, batches[1:]):
        if a.row is b.row and not a.begun:
            m.add_implication(b.on, a.on)
            m.add(a.first.x <= b.first.x).only_enforce_if(b.on)
