"""What a plan wants to see in a calendar, for the readers beside this file: made anew
from plan.json, with no code of the writer's.

Events stand under their UIDs: of what goes by the clock the start, the minutes, the
summary and how many seconds before each alarm calls; of whole days the first, the day
after the last and the summary.
"""

import hashlib
import json
import re
import sys
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

LEAD = 15 * 60  # seconds from an alarm to the work that it is for


def slug(name):
    """The letters and digits of a name with single dashes between, cut short."""
    text, gap = "", False
    for c in name:
        if not re.match(r"[A-Za-z0-9]", c):
            gap = text != ""
            continue
        text += "-" + c if gap else c
        gap = False
        if len(text) >= 32:
            break
    return text


def uid(kind, *names):
    """The UID that names an event for ever."""
    digest = hashlib.sha256()
    for part in (kind, *names):
        digest.update(f"{len(part.encode())}:{part}".encode())
    parts = ["ripeby", kind, *(s for s in map(slug, names) if s), digest.digest()[:10].hex()]
    return "-".join(parts)


def number(n):
    """A number of litres with as many decimals as it needs."""
    return f"{n:.3f}".rstrip("0").rstrip(".")


def pieces(n):
    return "1 piece" if n == 1 else f"{n} pieces"


def instant(text):
    return datetime.fromisoformat(text).astimezone(timezone.utc)


def planned(plan, person=None):
    """What the plan wants to see, by UID; of one person when there is one."""
    events = {}
    zone = ZoneInfo(plan["timezone"])
    names = person is None and plan.get("titles", {}).get("named", False)

    def named(summary, who):
        return f"{summary} ({who})" if names and who else summary

    for b in plan["batches"]:
        for i, s in enumerate(b["stages"]):
            if s["work"] > 0 and person in (None, s["who"]):
                much = number(b["litres"]) + " L" if i == 0 else pieces(b["pieces"])
                name = s["stage"][:1].upper() + s["stage"][1:]
                events[uid("work", b["id"], s["stage"])] = (
                    instant(s["start"]), s["work"], named(f"{name}: {b['cheese']}, {much}", s["who"]), [] if s.get("begun") else [LEAD])
    for r in plan["rounds"]:
        if person not in (None, r["who"]):
            continue
        start = instant(r["start"])
        kinds = ", ".join(dict.fromkeys(c["do"] for c in r["care"])) or "look at what is ripening"
        events[uid("round", start.astimezone(zone).strftime("%Y-%m-%d"))] = (start, r["minutes"], named("Round: " + kinds, r["who"]), [LEAD])
    for l in plan.get("looks", []):
        if person in (None, l["who"]):
            cheese = next(b["cheese"] for b in plan["batches"] if b["id"] == l["batch"])
            minute = str(int(instant(l["start"]).timestamp()) // 60)
            events[uid("look", l["batch"], l["stage"], minute, l["who"])] = (
                instant(l["start"]), l["minutes"], named(f"Look: is {cheese} ready to {l['stage']}?", l["who"]), [LEAD])
    like = {}  # entries of stock of one cheese and packing are told apart by their turn
    for c in plan.get("carries", []):
        if "stock" in c:
            of = plan["stock"][c["stock"]]
            packed = instant(of["packed"]).strftime("%Y-%m-%dT%H:%M:%SZ")
            turn = like.setdefault((of["cheese"], packed), 0)
            like[of["cheese"], packed] += 1
            name = uid("carry", of["cheese"], packed, c["from"], str(turn))
        else:
            of = next(b for b in plan["batches"] if b["id"] == c["batch"])
            name = uid("carry", c["batch"], c["stage"], c["from"])
        if person in (None, c["who"]):
            events[name] = (instant(c["start"]), c["minutes"], named(f"Carry {of['cheese']} to the {c['to']}", c["who"]), [LEAD])
    targets = {}
    for t in plan["targets"]:
        of = targets.setdefault(t["target"], [instant(t["by"]), 0, 0])
        of[1] += t["met"]
        of[2] += t["short"]
    for name, (by, met, short) in targets.items():
        summary = f"Target: {name}, {pieces(met)}" + (f", {short} short" if short else "")
        events[uid("target", name)] = (by, 0, summary, [])
    for m in plan.get("milk", []):
        collect = instant(m["collect"]).astimezone(zone).strftime("%Y-%m-%d")
        events[uid(m["do"], m["supply"], collect)] = (
            instant(m["at"]), 0, f"{m['do'].capitalize()} milk: {m['supply']}, {number(m['litres'])} L",
            [LEAD] if m["do"] == "order" else [])
    return events


def stay_summary(at, boxes, cheese, much):
    """Where something stands and how much of it."""
    places = list(dict.fromkeys([at, *(b["place"] for b in boxes)]))
    where = ", ".join("make room" if p == "room" else p for p in places)
    many = {0: pieces(much), 1: "1 box"}.get(len(boxes), f"{len(boxes)} boxes")
    return f"{where[:1].upper() + where[1:]}: {cheese}, {many}"


def stays(plan):
    """The stays in cold places that the plan wants to see, by UID, in the kitchen's own
    calendar."""
    zone = ZoneInfo(plan["timezone"])

    def days(start, end):
        last = (end - timedelta(minutes=1)).astimezone(zone).date()
        return start.astimezone(zone).date(), last + timedelta(days=1)

    events = {}
    for b in plan["batches"]:
        first, start, end = None, None, None
        for s in [*b["stages"], None]:  # a stay goes on while nobody touches it
            cold = s is not None and s["at"] != "room" and s["hold"] > 0
            if first and (s is None or s["work"] > 0 or s["at"] != first["at"]):
                summary = stay_summary(first["at"], first["boxes_at"], b["cheese"], b["pieces"])
                events[uid("stay", b["id"], first["stage"])] = (*days(start, end), summary)
                first = None
            if cold and not first:
                first, start = s, instant(s["start"]) + timedelta(minutes=s["work"])
            if first:
                end = instant(s["ends"])
    stock = {}
    for s in plan["stock"]:
        if s["at"] not in ("", "room") and instant(s["ends"]) > instant(s["packed"]):
            stock.setdefault((s["cheese"], instant(s["packed"])), []).append(s)
    for (cheese, packed), of in stock.items():
        boxes = [b for s in of for b in s["boxes_at"]]
        summary = stay_summary(of[0]["at"], boxes, cheese, sum(s["pieces"] for s in of))
        last = max(instant(s["ends"]) for s in of)
        events[uid("stock", cheese, packed.strftime("%Y-%m-%dT%H:%M:%SZ"))] = (*days(packed, last), summary)
    return events


def main(read):
    """A whole script: has a reader read the calendar of the command line and compares.
    The reader gets the bytes, whether whole days are wanted, and what to tell a fault
    to, and gives pairs of a UID and an event."""
    if len(sys.argv) not in (3, 4):
        print(f"usage: {sys.argv[0]} plan.json tasks.ics [PERSON | --cold]", file=sys.stderr)
        return 2
    only = sys.argv[3] if len(sys.argv) == 4 else None
    with open(sys.argv[1], encoding="utf-8") as f:
        plan = json.load(f)
    with open(sys.argv[2], "rb") as f:
        text = f.read()
    faults, got = [], {}
    for name, event in read(text, only == "--cold", faults.append):
        if name in got:
            faults.append(f"{name} stands twice")
        got[name] = event
    want = stays(plan) if only == "--cold" else planned(plan, only)
    faults += [f"{name}: got {got.get(name)}, want {event}" for name, event in want.items() if got.get(name) != event]
    faults += [f"not in the plan: {name} {event}" for name, event in got.items() if name not in want]
    if not want:
        faults.append("the plan wants nothing of this calendar, so that nothing is checked")
    for fault in faults:
        print(f"{sys.argv[2]}: {fault}", file=sys.stderr)
    print(f"{sys.argv[2]}: {len(got)} events, {len(want)} in the plan, {len(faults)} faults")
    return 1 if faults else 0
