"""Pots, stations, moulds and boxes: kept over stages, then cleaned."""


def equip(m, grid, facts, batches, stock, forever):
    """States kit; a batch's chosen lists, in the order of its row's uses, {kit: truth}."""
    claims = {k: [] for k in range(len(facts["kit"]))}  # (interval, how many)
    for b in batches:
        b.chosen = []
        for use in b.row["uses"]:
            held = use["from"] < 0
            b.chosen.append(choose(m, facts, b, use, held))
            start = 0 if held else b.stages[use["from"]].x
            for k, lit in b.chosen[-1].items():
                clean = facts["kit"][k]["clean"]
                if use["to"] < 0:
                    end = b.gone(clean)
                else:
                    end = b.stages[use["to"]].end + grid.up(clean)
                end = b.kept(end, held, forever)
                many = b.takes(use["takes"], held)
                if isinstance(many, int) and many == 0:
                    continue
                claims[k].append((m.span(start, end, forever, lit), many))
                m.add(many <= facts["kit"][k]["count"]).only_enforce_if(lit)  # for no time, too
    for s in stock:
        if s.facts["kit"] >= 0 and s.facts["count"] > 0:
            k = s.facts["kit"]
            end = m.value_of(s.gone(facts["kit"][k]["clean"]), 0, forever)
            claims[k].append((m.span(0, end, forever, m.yes), s.facts["count"]))
    for busy in facts["busy"]:
        claims[busy["kit"]].append((m.span(0, grid.up(busy["until"]), forever, m.yes), busy["count"]))
    for k, mine in claims.items():
        if mine:
            m.add_cumulative([i for i, _ in mine], [n for _, n in mine], facts["kit"][k]["count"])


def choose(m, facts, b, use, held):
    """Which kind of kit a run keeps: {kit: truth}. A pot takes no more litres than it holds."""
    out = b.one_of(use["kit"], held)
    for k, lit in out.items():
        holds = facts["kit"][k]["holds"]
        for z, size in enumerate(b.row["sizes"]):
            if not held and 0 <= holds < size["litres"]:
                m.add_bool_or([~lit, ~b.sizes[z]])
    return out
