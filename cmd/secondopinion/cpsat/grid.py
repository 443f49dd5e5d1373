"""Minutes and grid steps, and when somebody may begin a piece of work."""
import numpy as np
from ortools.sat.python import cp_model


class Grid:
    """The planning grid: step minutes a step, step 0 at minute 0, no start after minute until."""

    def __init__(self, facts):
        self.step = facts["step"]
        self.steps = facts["until"] // self.step

    def up(self, minutes):
        """Steps, rounded up."""
        return -(-minutes // self.step)

    def down(self, minutes):
        """Steps, rounded down."""
        return minutes // self.step


class Hours:
    """One person's minutes: which are free for planned work, and which are better avoided."""

    def __init__(self, grid, person):
        self.grid = grid
        size = (grid.steps + 1) * grid.step + 3 * 24 * 60
        free = marked(size, person["hours"]) & ~marked(size, person["taken"])
        self.free = np.concatenate(([0], np.cumsum(free)))
        self.avoided = np.concatenate(([0], np.cumsum(marked(size, person["rather_not"]))))
        self.known = {}

    def starts(self, length):
        """Steps at which work of length steps may begin, by what it costs: {cost: Domain}.

        Work lies wholly within hours; each whole five minutes of it in avoided time cost one.
        """
        if length not in self.known:
            step = self.grid.step
            at = np.arange(self.grid.steps + 1) * step
            may = self.free[at + length * step] - self.free[at] == length * step
            cost = (self.avoided[at + length * step] - self.avoided[at]) // 5
            self.known[length] = {int(c): cp_model.Domain.from_values(np.flatnonzero(may & (cost == c)).tolist())
                                  for c in np.unique(cost[may])}
        return self.known[length]


def marked(size, spans):
    """Which of the minutes 0 to size lie in spans: an array of truths."""
    out = np.zeros(size, dtype=bool)
    for first, past in spans:
        out[max(0, first):max(0, past)] = True
    return out


def union(domains):
    """The numbers that lie in any of the domains."""
    out = cp_model.Domain.from_values([])
    for d in domains:
        out = out.union_with(d)
    return out
