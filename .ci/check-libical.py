"""Reads a tasks.ics with libical, the C library behind several desktop calendars, and
compares every event with the plan.json beside it. Command line and exit codes as of
check-ics.py.

    apt-get install python3-gi gir1.2-ical-3.0
    /usr/bin/python3 check-libical.py plan.json tasks.ics

Moments are read by the file's own VTIMEZONE, and libical's own check of what RFC 5546
lets stand where must pass.
"""

import sys
from datetime import date, datetime, timedelta, timezone

import gi

import planned

gi.require_version("ICalGLib", "3.0")
from gi.repository import ICalGLib as ical  # noqa: E402


def components(of, kind):
    """The components of a kind within another."""
    each = of.get_first_component(kind)
    while each is not None:
        yield each
        each = of.get_next_component(kind)


def moment(when, fault):
    """One written moment as an instant."""
    zone = when.get_timezone()
    if zone is None:
        fault("a moment without a zone")
    return datetime.fromtimestamp(when.as_timet_with_zone(zone), timezone.utc)


def day(when):
    return date(when.get_year(), when.get_month(), when.get_day())


def read(text, whole_days, fault):
    """What the calendar shows."""
    calendar = ical.Component.new_from_string(text.decode())
    if calendar is None or not ical.restriction_check(calendar) or calendar.count_errors():
        fault("libical finds something in it that may not be there")
        return
    for e in components(calendar, ical.ComponentKind.VEVENT_COMPONENT):
        name, summary = e.get_uid(), e.get_summary()
        alarms = []
        for a in components(e, ical.ComponentKind.VALARM_COMPONENT):
            trigger = a.get_first_property(ical.PropertyKind.TRIGGER_PROPERTY).get_trigger()
            alarms.append(-trigger.get_duration().as_int())
        start, end = e.get_dtstart(), e.get_dtend()
        if whole_days:
            if not start.is_date() or not end.is_date() or alarms:
                fault(f"{name}: not whole days, or they call")
            yield name, (day(start), day(end), summary)
            continue
        start = moment(start, fault)
        end = start if end.is_null_time() else moment(end, fault)
        yield name, (start, (end - start) // timedelta(minutes=1), summary, alarms)


sys.exit(planned.main(read))
