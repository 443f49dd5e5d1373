"""Who does which work: within hours, one piece at a time, no more of a day than is allowed."""
from grid import Hours, union


def staff(m, grid, facts, batches):
    """States people's work; gives what it costs, a list of numbers. does of a stage is {person: truth}."""
    people = [Hours(grid, p) for p in facts["people"]]
    busy, days, rue = [[] for _ in people], [[] for _ in people], []
    for b in batches:
        for g in b.stages:
            g.does = {}
            if max(g.work) == 0:
                continue
            if min(g.work) == 0:  # work in some sizes only
                needed = m.choice()
                m.add(b.of([int(w > 0) for w in g.work]) == needed)
            else:
                needed = b.on
            who = g.facts["who"]
            g.does = {p: m.choice(f"does{p}") for p in who} if len(who) > 1 else {p: needed for p in who}
            m.add(sum(g.does.values()) == needed)
            starts = {(p, w): people[p].starts(w) for p in who for w in set(g.work) - {0}}
            m.add_linear_expression_in_domain(g.x, union(d for s in starts.values() for d in s.values())).only_enforce_if(needed)
            cost = costs(m, b, g, starts)
            if cost is not None:
                rue.append(cost)
            for p, does in g.does.items():
                busy[p].append(m.new_optional_interval_var(g.x, g.w, g.end, does, ""))
                if facts["people"][p]["days"]:
                    days[p].append((b, g, does))
    for mine in busy:
        m.add_no_overlap(mine)
    for person, mine in zip(facts["people"], days):
        most_per_day(m, grid, person, mine)
    return rue


def costs(m, b, g, starts):
    """Ties a stage's start to who does it and how long it takes; gives what the start costs, None for nothing."""
    dearest = max((c for s in starts.values() for c in s), default=0)
    cost = m.number(0, dearest) if dearest > 0 else None
    for (p, w), by_cost in starts.items():
        when = [g.does[p]]
        if any(v != w for v in g.work):
            length = m.choice()
            m.add(length == b.of([int(v == w) for v in g.work]))
            when.append(length)
        m.add_linear_expression_in_domain(g.x, union(by_cost.values())).only_enforce_if(when)
        if set(by_cost) - {0}:
            which = {c: m.choice() for c in by_cost}
            m.add(sum(which.values()) == 1).only_enforce_if(when)
            for c, here in which.items():
                m.add_linear_expression_in_domain(g.x, by_cost[c]).only_enforce_if(when + [here])
                m.add(cost >= c).only_enforce_if(when + [here])
    return cost


def most_per_day(m, grid, person, mine):
    """A person's pieces of work that start on a day take no more than the day has left, in minutes."""
    by_day = {i: [] for i in range(len(person["days"]))}
    for b, g, does in mine:
        here = {i: m.choice() for i in by_day}
        m.add(sum(here.values()) == does)
        for i, lit in here.items():
            first, past = person["days"][i]["day"]
            m.add(g.x >= grid.up(first)).only_enforce_if(lit)
            m.add(g.x <= grid.up(past) - 1).only_enforce_if(lit)
            minutes = m.number(0, max(g.work) * grid.step)
            m.add(minutes >= g.w * grid.step).only_enforce_if(lit)
            by_day[i].append(minutes)
    for i, day in enumerate(person["days"]):
        if by_day[i]:
            m.add(sum(by_day[i]) <= max(0, day["left"]))
