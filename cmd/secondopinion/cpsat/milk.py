"""Milk: each make draws on one collection while it keeps, and all of them no more than there is."""


def draw(m, grid, facts, batches):
    """States collections; drawn of a batch is {collection: truth}."""
    taken = {c: [] for c in range(len(facts["milk"]))}
    for b in batches:
        b.drawn = {}
        if b.begun or b.row["supply"] == "":
            continue
        litres = [z["litres"] for z in b.row["sizes"]]
        for c, milk in enumerate(facts["milk"]):
            if milk["supply"] != b.row["supply"]:
                continue
            here = b.drawn[c] = m.choice()
            m.add(b.first.x >= grid.up(milk["ready"])).only_enforce_if(here)
            m.add(b.first.x <= grid.down(milk["until"])).only_enforce_if(here)
            if milk["most"] >= 0:
                many = m.number(0, max(litres))
                m.add(many == b.of(litres)).only_enforce_if(here)
                m.add(many == 0).only_enforce_if(~here)
                taken[c].append(many)
        m.add(sum(b.drawn.values()) == b.on)
    for c, all_of_it in taken.items():
        if all_of_it:
            m.add(sum(all_of_it) <= facts["milk"][c]["most"])
