"""An answer in the words of kitchen.mzn, whose lists count from 1."""


def told(k, solver):
    """The plan that the solver has."""
    value, out = solver.value, {}
    number = lambda x: x if isinstance(x, int) else value(x)
    stages = [(b, g) for b in k.batches for g in b.stages]
    out["size"] = [sum((z + 1) * value(lit) for z, lit in enumerate(b.sizes)) for b in k.batches]
    out["X"] = [value(g.x) for _, g in stages]
    out["W"] = [number(g.w) * value(b.on) for b, g in stages]
    out["H"] = [number(getattr(g, "h", 0)) for _, g in stages]
    out["does"] = [[bool(p in g.does and value(g.does[p])) for p in range(len(k.facts["people"]))] for _, g in stages]
    out["chosen"] = [max([i + 1 for i, lit in c.items() if value(lit)] + [min(c) + 1]) for b in k.batches for c in b.chosen]
    out["place"] = [max([c + 1 for c, lit in s.at.items() if value(lit)] + [0]) for s in k.stays]
    out["draws"] = [max([c + 1 for c, lit in b.drawn.items() if value(lit)] + [0]) for b in k.batches]
    wants = range(len(k.facts["wants"]))
    out["give"] = [[number(b.give.get(w, 0)) for w in wants] for b in k.batches]
    out["stock_give"] = [[number(s.give.get(w, 0)) for w in wants] for s in k.stock]
    out["spots"] = [spots(k, s, value) for s in k.stays]
    out["kept_as"] = [max([k + 1 for k, lit in kept.items() if value(lit)] + [0]) for kept in k.told.kept]
    for n, (part, _) in enumerate(k.parts):
        out[f"part{n + 1}"] = number(part)
    return out


def spots(k, s, value):
    """The spots that the boxes of a stay are in: {shelf, x, y, turned, many}, shelves counted over all places."""
    out = []
    for place, spot, here, many in getattr(s, "spots", []):
        if value(here):
            before = sum(len(p["shelves"]) for p in k.facts["places"][:place])
            turned = spot.wide != k.facts["boxes"][spot.box]["width"]
            out.append({"shelf": before + spot.shelf + 1, "x": spot.x, "y": spot.y, "turned": turned, "many": spot.layers if isinstance(many, int) else value(many)})
    return out
