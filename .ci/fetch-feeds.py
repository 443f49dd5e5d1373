"""Fetches every calendar of a kitchen that ripeby serve serves, as a phone does, and
checks the answers: a first one in full, a second with its tag that must be 304.

    python3 fetch-feeds.py http://127.0.0.1:7379 plan/addresses.json DIR [BEFORE]

Each is written to DIR under the name of what it is for: everything.ics, cold.ics,
person-NAME.ics. The addresses themselves are not printed. Waits up to a minute for
the server, and, with BEFORE, for everything.ics to be another than the one there: a
request with the tag of that one is 304 until then, and between the two some tasks
must have moved, some come and some gone. Exit code 0 when all is well, 1 when not, 2 for a wrong command line.
"""

import hashlib
import json
import os
import sys
import time
import urllib.error
import urllib.request


def fetch(url, tag=None):
    """Status, headers and body of one request."""
    request = urllib.request.Request(url, headers={"If-None-Match": tag} if tag else {})
    try:
        with urllib.request.urlopen(request, timeout=10) as answer:
            return answer.status, answer.headers, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, error.headers, error.read()


def wait(root):
    for _ in range(600):
        try:
            if fetch(root + "/health")[0] == 200:
                return True
        except OSError:
            pass
        time.sleep(0.1)
    return False


def changed(url, before):
    """Waits until a calendar is another than the one in the file."""
    with open(before, "rb") as f:
        tag = '"' + hashlib.sha256(f.read()).hexdigest()[:32] + '"'
    for _ in range(600):
        status = fetch(url, tag)[0]
        if status != 304:
            return status == 200
        time.sleep(0.1)
    return False


def starts(file):
    """The start of each event as the file writes it, by UID."""
    with open(file, encoding="utf-8", newline="") as f:
        lines = f.read().replace("\r\n ", "").split("\r\n")
    events, name = {}, None
    for line in lines:
        if line.startswith("UID:"):
            name = line
        elif line.startswith("DTSTART") and name:
            events[name] = line
    return events


def differs(before, after):
    """Whether events have moved, come and gone, each at least once."""
    old, new = starts(before), starts(after)
    moved = sum(new.get(name, start) != start for name, start in old.items())
    added, dropped = len(new.keys() - old.keys()), len(old.keys() - new.keys())
    print(f"everything: {moved} moved, {added} added, {dropped} dropped")
    return min(moved, added, dropped) > 0


def main():
    if len(sys.argv) not in (4, 5):
        print("usage: fetch-feeds.py ROOT addresses.json DIR [BEFORE]", file=sys.stderr)
        return 2
    root, book, folder = sys.argv[1:4]
    if not wait(root):
        print("the server does not answer, or has no plan", file=sys.stderr)
        return 1
    with open(book, encoding="utf-8") as f:
        addresses = json.load(f)["addresses"]
    if len(sys.argv) == 5:
        everything = next(a["token"] for a in addresses if a["kind"] == "everything")
        if not changed(f"{root}/f/{everything}.ics", os.path.join(sys.argv[4], "everything.ics")):
            print("the calendar has not changed", file=sys.stderr)
            return 1
    faults = 0
    for a in addresses:
        if a["kind"] in ("page", "writing", "thermometer"):  # no calendar
            continue
        name = a["kind"] + ("-" + a["person"] if "person" in a else "")
        url = f"{root}/f/{a['token']}.ics"
        status, headers, body = fetch(url)
        again = fetch(url, headers["ETag"])
        with open(os.path.join(folder, name + ".ics"), "wb") as f:
            f.write(body)
        good = (status == 200 and headers["Content-Type"] == "text/calendar; charset=utf-8"
                and again[0] == 304 and again[1]["ETag"] == headers["ETag"] and again[2] == b"")
        faults += not good
        print(f"{name}: {status}, {len(body)} bytes, then {again[0]}" + ("" if good else ": WRONG"))
    if len(sys.argv) == 5 and not differs(*(os.path.join(d, "everything.ics") for d in (sys.argv[4], folder))):
        print("the calendars before and after do not show a plan that moves, adds and drops tasks", file=sys.stderr)
        faults += 1
    return 1 if faults else 0


sys.exit(main())
