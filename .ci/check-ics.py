"""Reads a tasks.ics with icalendar, a reader that shares no code with the writer,
and compares every event with the plan.json beside it: how many there are, and for
each its UID, instant, length, summary and alarm.

    pip install icalendar tzdata          in an environment of its own
    python check-ics.py plan.json tasks.ics          there
    python check-ics.py plan.json nell.ics Nell      one person's calendar
    python check-ics.py plan.json cold.ics --cold    stays in cold places, in whole days

Moments are read by Python's own zone data from the wall clock that the file
writes, and once more by the file's own VTIMEZONE. UIDs and summaries are made here
anew from plan.json. Exit code 0 when all is the same, 1 when not, 2 for a wrong
command line.
"""

import hashlib
import json
import re
import sys
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

from icalendar import Calendar, Timezone


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
    for b in plan["batches"]:
        for i, s in enumerate(b["stages"]):
            if s["work"] > 0 and person in (None, s["who"]):
                much = number(b["litres"]) + " L" if i == 0 else pieces(b["pieces"])
                name = s["stage"][:1].upper() + s["stage"][1:]
                events[uid("work", b["id"], s["stage"])] = (
                    instant(s["start"]), s["work"], f"{name}: {b['cheese']}, {much}", 1)
    for r in plan["rounds"]:
        if person not in (None, r["who"]):
            continue
        start = instant(r["start"])
        kinds = ", ".join(dict.fromkeys(c["do"] for c in r["care"])) or "look at what is ripening"
        events[uid("round", start.astimezone(zone).strftime("%Y-%m-%d"))] = (start, r["minutes"], "Round: " + kinds, 1)
    targets = {}
    for t in plan["targets"]:
        of = targets.setdefault(t["target"], [instant(t["by"]), 0, 0])
        of[1] += t["met"]
        of[2] += t["short"]
    for name, (by, met, short) in targets.items():
        summary = f"Target: {name}, {pieces(met)}" + (f", {short} short" if short else "")
        events[uid("target", name)] = (by, 0, summary, 0)
    return events


def stays(plan):
    """The stays in cold places that the plan wants to see, by UID: first day, and the
    day after the last, in the kitchen's own calendar."""
    zone = ZoneInfo(plan["timezone"])

    def days(start, end):
        last = (end - timedelta(minutes=1)).astimezone(zone).date()
        return start.astimezone(zone).date(), last + timedelta(days=1)

    events = {}
    for b in plan["batches"]:
        name, place, start, end = None, None, None, None
        for s in [*b["stages"], None]:  # a stay goes on while nobody touches it
            cold = s is not None and s["at"] != "room" and s["hold"] > 0
            if name and (s is None or s["work"] > 0 or s["at"] != place):
                events[uid("stay", b["id"], name)] = days(start, end)
                name = None
            if cold and not name:
                name, place = s["stage"], s["at"]
                start = instant(s["start"]) + timedelta(minutes=s["work"])
            if name:
                end = instant(s["ends"])
    stock = {}
    for s in plan["stock"]:
        if s["at"] not in ("", "room") and instant(s["ends"]) > instant(s["packed"]):
            of = stock.setdefault((s["cheese"], instant(s["packed"])), [])
            of.append(instant(s["ends"]))
    for (cheese, packed), ends in stock.items():
        events[uid("stock", cheese, packed.strftime("%Y-%m-%dT%H:%M:%SZ"))] = days(packed, max(ends))
    return events


def spans(calendar, fault):
    """The whole days that the calendar shows, by UID."""
    events = {}
    for e in calendar.walk("VEVENT"):
        start, end = e["DTSTART"].dt, e["DTEND"].dt
        if isinstance(start, datetime) or isinstance(end, datetime) or e.walk("VALARM"):
            fault(f"{e['UID']}: not whole days, or with an alarm")
        if str(e["TRANSP"]) != "TRANSPARENT":
            fault(f"{e['UID']}: makes somebody busy")
        events[str(e["UID"])] = (start, end)
    return events


def moment(prop, zones, fault):
    """One written moment as an instant, read with both zone data."""
    when, tzid = prop.dt, prop.params.get("TZID")
    if tzid is None:
        if when.tzinfo is None:
            fault(f"{when} has no zone")
        return when.astimezone(timezone.utc)
    wall = when.replace(tzinfo=None)
    by_python = wall.replace(tzinfo=ZoneInfo(tzid)).astimezone(timezone.utc)
    if tzid not in zones:
        fault(f"{tzid} has no VTIMEZONE")
    else:
        by_file = wall.replace(tzinfo=zones[tzid]).astimezone(timezone.utc)
        if by_file != by_python:
            fault(f"{wall} is {by_file} by the file's VTIMEZONE and {by_python} by the zone data")
    return by_python


def written(calendar, fault):
    """What the calendar shows, by UID."""
    zones = {str(z["TZID"]): z.to_tz() for z in calendar.walk("VTIMEZONE") if isinstance(z, Timezone)}
    events = {}
    for e in calendar.walk("VEVENT"):
        name = str(e["UID"])
        if name in events:
            fault(f"{name} stands twice")
        start = moment(e["DTSTART"], zones, fault)
        end = moment(e["DTEND"], zones, fault) if "DTEND" in e else start
        alarms = e.walk("VALARM")
        events[name] = (start, (end - start) // timedelta(minutes=1), str(e["SUMMARY"]), len(alarms))
    return events


def main():
    if len(sys.argv) not in (3, 4):
        print("usage: python check-ics.py plan.json tasks.ics [PERSON | --cold]", file=sys.stderr)
        return 2
    only = sys.argv[3] if len(sys.argv) == 4 else None
    with open(sys.argv[1], encoding="utf-8") as f:
        plan = json.load(f)
    with open(sys.argv[2], "rb") as f:
        calendar = Calendar.from_ical(f.read())
    faults = []
    if only == "--cold":
        want, got = stays(plan), spans(calendar, faults.append)
    else:
        want, got = planned(plan, only), written(calendar, faults.append)
    began = instant(plan["from"])
    for name, event in want.items():
        if name not in got:
            faults.append(f"not in the calendar: {name} {event}")
        elif only == "--cold":
            if got[name] != event:
                faults.append(f"{name}: got {got[name]}, want {event}")
        elif got[name][:3] != event[:3] or got[name][0] >= began and got[name][3] != event[3]:
            faults.append(f"{name}: got {got[name]}, want {event}")
    faults += [f"not in the plan: {name} {event}" for name, event in got.items() if name not in want]
    faults += [f"a component that cannot be read: {e}" for c in calendar.walk() for e in c.errors]
    for text in faults:
        print(f"{sys.argv[2]}: {text}", file=sys.stderr)
    print(f"{sys.argv[2]}: {len(got)} events, {len(want)} in the plan, {len(faults)} faults")
    return 1 if faults or not want else 0


sys.exit(main())
