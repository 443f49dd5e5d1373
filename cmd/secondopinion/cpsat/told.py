"""What an earlier plan told: which batch is which of its own, and what is otherwise."""

LATER = 3  # points of bother of what was told for after the settled time and is otherwise


class Told:
    """Each batch of the earlier plan is one batch of its row at the most; one under way is the one it was.

    moved and points are sums to be small: of stages whose work begins in the settled time by what was told
    or by what is done, and is not the same; and of those told for later that are otherwise. Work that
    somebody has taken on is the same by whomever, and one more moved where another does it.
    """

    def __init__(self, m, grid, facts, batches):
        self.m, self.grid, told = m, grid, facts["told"]
        self.settled = grid.up(told["settled"])
        self.moved, self.points = told["always"]["moved"], told["always"]["points"]
        self.kept = [{} for _ in batches]  # of each batch, which it may be: {number: truth}
        if told["settled"] <= 0:
            return
        for k, old in enumerate(told["batches"]):
            for x, b in enumerate(batches):
                if facts["slots"][x] == old["row"]:
                    self.kept[x][k] = b.on if b.begun else m.choice()
        for x, b in enumerate(batches):
            m.add_at_most_one(self.kept[x].values())
            for lit in self.kept[x].values():
                m.add_implication(lit, b.on)
        for k, old in enumerate(told["batches"]):
            mine = [(b, self.kept[x][k]) for x, b in enumerate(batches) if k in self.kept[x]]
            m.add_at_most_one(lit for _, lit in mine)
            for task in old["tasks"]:
                self.task(task, mine, facts)
        for x, b in enumerate(batches):
            for i, g in enumerate(b.stages):
                known = [lit for k, lit in self.kept[x].items() if any(t["stage"] == i for t in told["batches"][k]["tasks"])]
                self.fresh(b, g, known)

    def working(self, b, g):
        """Whether a stage has work, of a batch that is made."""
        if max(g.work) == 0:
            return None
        if min(g.work) > 0:
            return b.on
        some = self.m.choice()
        self.m.add(b.of([int(w > 0) for w in g.work]) == some)
        return some

    def before(self, g):
        """Whether a stage begins in the settled time."""
        soon = self.m.choice()
        self.m.add(g.x <= self.settled - 1).only_enforce_if(soon)
        self.m.add(g.x >= self.settled).only_enforce_if(~soon)
        return soon

    def task(self, task, mine, facts):
        """A task that was told, of a batch that is one of mine, each with whether it is that."""
        m, start = self.m, facts["start"]
        if task["taken"]:
            self.taken(task, mine)
        if task["at"] < start:
            return
        same, soon = [], []
        later = task["at"] >= self.settled * self.grid.step
        for b, lit in mine:
            g = b.stages[task["stage"]]
            works = self.working(b, g)
            if works is None:
                continue
            if later:
                here = m.choice()
                m.add_bool_or([~lit, ~works, ~self.before(g), here])
                soon.append(here)
            if task["at"] % self.grid.step == 0 and (task["taken"] or task["who"] in g.does):
                as_told = m.choice()
                m.add_implication(as_told, lit)
                m.add_implication(as_told, works)
                if not task["taken"]:
                    m.add_implication(as_told, g.does[task["who"]])
                m.add(g.x == task["at"] // self.grid.step).only_enforce_if(as_told)
                same.append(as_told)
        if not later:
            self.moved += 1 - sum(same)
            return
        other = m.choice()
        m.add_bool_or(same + soon + [other])
        self.moved += sum(soon)
        self.points += LATER * other

    def taken(self, task, mine):
        """One more unless the one who has taken it on does it, whenever."""
        theirs = []
        for b, lit in mine:
            g = b.stages[task["stage"]]
            works = self.working(b, g)
            if works is not None and task["who"] in g.does:
                by = self.m.choice()
                for needed in (lit, works, g.does[task["who"]]):
                    self.m.add_implication(by, needed)
                theirs.append(by)
        self.moved += 1 - sum(theirs)

    def fresh(self, b, g, known):
        """Work in the settled time of which nothing was told."""
        works = self.working(b, g)
        if works is None:
            return
        new = self.m.choice()
        self.m.add_bool_or([~works, ~self.before(g), new] + known)
        self.moved += new
