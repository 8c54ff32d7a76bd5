"""Reads an iCalendar file with the icalendar package and prints its events as JSON: an independent second reader."""
import json
import sys

from icalendar import Calendar

with open(sys.argv[1], "rb") as file:
    calendar = Calendar.from_ical(file.read())
events = []
for event in calendar.walk("VEVENT"):
    events.append({
        "uid": str(event["UID"]),
        "sequence": int(event["SEQUENCE"]),
        "stamp": event["DTSTAMP"].dt.isoformat(),
        "start": event["DTSTART"].dt.isoformat(),
        "end": event["DTEND"].dt.isoformat() if "DTEND" in event else None,
        "summary": str(event["SUMMARY"]),
        "location": str(event.get("LOCATION", "")),
        "description": str(event.get("DESCRIPTION", "")),
    })
print(json.dumps(events))
