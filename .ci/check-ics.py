"""Reads a tasks.ics with icalendar, a reader that shares no code with the writer,
and compares every event with the plan.json beside it: how many there are, and for
each its UID, instant, length, summary and alarm.

    pip install icalendar tzdata          in an environment of its own
    python check-ics.py plan.json tasks.ics          there
    python check-ics.py plan.json nell.ics Nell      one person's calendar
    python check-ics.py plan.json cold.ics --cold    stays in cold places, in whole days

Moments are read by Python's own zone data from the wall clock that the file
writes, and once more by the file's own VTIMEZONE. Exit code 0 when all is the same,
1 when not, 2 for a wrong command line.
"""

import sys
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

from icalendar import Calendar, Timezone

import planned


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


def read(text, whole_days, fault):
    """What the calendar shows."""
    calendar = Calendar.from_ical(text)
    zones = {str(z["TZID"]): z.to_tz() for z in calendar.walk("VTIMEZONE") if isinstance(z, Timezone)}
    for component in calendar.walk():
        for error in component.errors:
            fault(f"a component that cannot be read: {error}")
    for e in calendar.walk("VEVENT"):
        name, summary = str(e["UID"]), str(e["SUMMARY"])
        alarms = [-a["TRIGGER"].dt // timedelta(seconds=1) for a in e.walk("VALARM")]
        if whole_days:
            start, end = e["DTSTART"].dt, e["DTEND"].dt
            if isinstance(start, datetime) or isinstance(end, datetime) or alarms or str(e["TRANSP"]) != "TRANSPARENT":
                fault(f"{name}: not whole days, or they call or make busy")
            yield name, (start, end, summary)
            continue
        start = moment(e["DTSTART"], zones, fault)
        end = moment(e["DTEND"], zones, fault) if "DTEND" in e else start
        yield name, (start, (end - start) // timedelta(minutes=1), summary, alarms)


sys.exit(planned.main(read))
