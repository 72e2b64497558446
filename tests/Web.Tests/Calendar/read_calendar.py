"""Reads a calendar with Python's icalendar library (RFC 5545): the second library of the feed tests.
usage: read_calendar.py FILE -> one JSON object on standard output."""
import datetime
import json
import pathlib
import sys

from icalendar import Calendar


def words(value):
    if isinstance(value, datetime.datetime):
        return value.astimezone(datetime.timezone.utc).strftime("%Y%m%dT%H%M%SZ")
    return value.strftime("%Y%m%d") if isinstance(value, datetime.date) else str(value)


calendar = Calendar.from_ical(pathlib.Path(sys.argv[1]).read_bytes())
events = [
    {name: words(e.decoded(name)) if name in ("DTSTART", "DTEND", "DTSTAMP") else str(e.get(name)) for name in e if name not in ("CATEGORIES",)}
    for e in calendar.walk("VEVENT")
]
print(json.dumps({"version": str(calendar["VERSION"]), "errors": [str(x) for e in calendar.walk() for x in e.errors], "events": events}))
