"""Answers planning problems with CP-SAT, by a model of its own that was written from the contract.

Every line of the input is a question, {id, facts, seconds}; facts is what "secondopinion export --json"
writes. Every line of the output is its answer, {id, status, parts, text, last, spent}: "best" with all
parts of the best plan's worth proved, "open" with the first ones, "none" when nothing is allowed at
all, "fault" with what went wrong. last is the plan in the words of kitchen.mzn, spent the processor
seconds taken. One worker, a fixed seed and a budget of work: the same question has the same answer.
"""
import json
import sys
import time
import traceback

from ortools.sat.python import cp_model

from answer import told
from batches import Batch, in_order
from cold import store
from grid import Grid
from kit import equip
from milk import draw
from model import Model
from people import staff
from score import parts
from told import Told
from wants import serve


class Kitchen:
    """The model of a kitchen and what it is made of."""

    def __init__(self, facts):
        self.facts, self.grid, self.m = facts, Grid(facts), Model()
        m, grid = self.m, self.grid
        self.batches = [Batch(m, grid, facts, facts["rows"][r]) for r in facts["slots"]]
        in_order(m, self.batches)
        rue = staff(m, grid, facts, self.batches)
        missing, self.stock = serve(m, grid, facts, self.batches)
        forever = self.forever()
        equip(m, grid, facts, self.batches, self.stock, forever)
        self.stays = store(m, grid, facts, self.batches, self.stock, forever)
        draw(m, grid, facts, self.batches)
        self.told = Told(m, grid, facts, self.batches)
        self.parts = parts(m, grid, facts, self.batches, missing, rue, self.told)

    def forever(self):
        """A step after which nothing is given back any more."""
        moments = [w["by"] for w in self.facts["wants"]] + [s["ends"] for s in self.facts["stock"]] + [0]
        rest = max([max(g.work) + self.grid.up(b.row["keeps"]) for b in self.batches for g in b.stages] + [0])
        clean = max([k["clean"] for k in self.facts["kit"]] + [b["until"] for b in self.facts["busy"]] + [0])
        return max(self.grid.steps, self.grid.up(max(moments))) + rest + self.grid.up(clean) + 1


def solve(facts, seconds):
    """Makes each part as good as it can be and keeps it so, one after the other.

    Seconds are the solver's own count of work, some of which a quiet machine does in one: so the same is
    answered however busy it is.
    """
    left = seconds
    k = Kitchen(facts)
    proved, last = [], None
    for part, small in k.parts:
        if isinstance(part, int):
            proved.append(part)
            continue
        if last is not None and small and last.value(part) == 0:
            proved.append(0)
            k.m.add(part == 0)
            continue
        if small:
            k.m.minimize(part)
        else:
            k.m.maximize(part)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.cp_model_probing_level = 0  # took most of the time of most parts
        solver.parameters.max_deterministic_time = max(0.01, left)
        status = solver.solve(k.m)
        left -= solver.response_proto.deterministic_time
        if status == cp_model.INFEASIBLE:
            return {"status": "none", "parts": proved}
        if status == cp_model.MODEL_INVALID:
            return {"status": "fault", "parts": [], "text": k.m.validate()}
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            last = solver
        if status != cp_model.OPTIMAL:
            return {"status": "open", "parts": proved, "last": last and told(k, last)}
        proved.append(solver.value(part))
        k.m.add(part == proved[-1])
        k.m.clear_hints()
        for x in k.m.made:
            k.m.add_hint(x, solver.value(x))
    if last is None and cp_model.CpSolver().solve(k.m) == cp_model.INFEASIBLE:
        return {"status": "none", "parts": []}
    return {"status": "best", "parts": proved, "last": last and told(k, last)}


def main():
    """Answers until the input ends."""
    for line in sys.stdin:
        if not line.strip():
            continue
        q, before = json.loads(line), time.process_time()
        try:
            out = solve(q["facts"], q["seconds"])
        except Exception:
            out = {"status": "fault", "parts": [], "text": traceback.format_exc(limit=-3)}
        out |= {"id": q["id"], "spent": time.process_time() - before}
        print(json.dumps(out), flush=True)


if __name__ == "__main__":
    main()
