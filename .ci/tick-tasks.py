"""Three calendar programs that nobody here wrote tick tasks at a real server: caldav and vdirsyncer of
PyPI, tsdav of npm. Each lists, ticks, takes that back, and syncs after a plan that moves, adds and
drops; what it has must each time be what plan.json wants, and a second sync transfers nothing, by the
count of what goes by between it and the server.
"""

import http.client
import http.server
import json
import pathlib
import re
import subprocess
import sys
import threading
import time
import urllib.request
from datetime import datetime, timedelta

import caldav
import icalendar

from planned import instant, number, pieces, uid

PLANNED_ANEW = [("pieces: 8", "pieces: 20"), ("pieces: 6", "pieces: 1"), ('-20:00"', '-17:30"')]


class Counting(http.server.ThreadingHTTPServer):
    """Hands requests on to the server, and counts the tasks that go either way."""

    def __init__(self, port):
        super().__init__(("127.0.0.1", 0), Handing)
        self.port, self.tasks = port, 0
        threading.Thread(target=self.serve_forever, daemon=True).start()


class Handing(http.server.BaseHTTPRequestHandler):
    """One request that is handed on as it came."""

    protocol_version = "HTTP/1.1"

    def hand_on(self):
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        there = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=60)
        there.request(self.command, self.path, body, dict(self.headers.items()))
        answer = there.getresponse()
        text = answer.read()
        there.close()
        self.server.tasks += body.count(b"BEGIN:VTODO") + text.count(b"BEGIN:VTODO")
        self.send_response(answer.status)
        for name, value in answer.getheaders():
            if name.lower() not in ("content-length", "connection"):
                self.send_header(name, value)
        self.send_header("Content-Length", str(len(text)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(text)

    do_GET = do_HEAD = do_PUT = do_DELETE = do_OPTIONS = do_PROPFIND = do_PROPPATCH = do_REPORT = hand_on

    def log_message(self, *_):
        pass


class Kitchen:
    """A new kitchen that is served, until it is closed."""

    def __init__(self, ripeby, folder, port):
        self.folder, self.port, self.seen = folder, port, None
        subprocess.run([ripeby, "new", folder], check=True, stdout=subprocess.DEVNULL)
        self.server = subprocess.Popen([ripeby, "serve", "-C", folder, "--listen", f"127.0.0.1:{port}", "--every", "200ms"], stdout=subprocess.DEVNULL)
        self.settled()
        book = json.loads((folder / "plan/addresses.json").read_text())
        mine = next(a for a in book["addresses"] if a["kind"] == "writing")
        self.person, self.token = mine["person"], mine["token"]

    def close(self):
        self.server.terminate()
        self.server.wait(10)

    def settled(self):
        """Waits until a plan was made since the last time, and has stood for a while."""
        end, seen, since = time.monotonic() + 120, self.seen, 0
        while time.monotonic() < end:
            time.sleep(0.1)
            try:
                now = (self.folder / "plan/plan.json").stat().st_mtime_ns
                with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/health", timeout=5) as answer:
                    assert answer.read() == b"ok\n"
            except (OSError, AssertionError):
                continue
            if now != seen:
                seen, since = now, time.monotonic()
            elif seen != self.seen and time.monotonic() - since > 2:
                self.seen = seen
                return
        raise SystemExit("no plan came")

    def said(self):
        """The lines of the record."""
        return [l for f in sorted(self.folder.glob("record/*.yaml")) for l in f.read_text().splitlines() if l.strip()]

    def plan_anew(self):
        """Changes the folder so that tasks move, come and go."""
        for name in ("kitchen.yaml", "targets.yaml"):
            file = self.folder / name
            text = file.read_text()
            for old, new in PLANNED_ANEW:
                text = text.replace(old, new)
            file.write_text("".join(l for l in text.splitlines(True) if "every: week" not in l and not l.startswith("    until:")))
        self.settled()

    def wanted(self, done=(), asked=()):
        """The tasks that plan.json wants, by UID: start, due, title and whether each is done. Of what has
        begun those that are done, and that are to be answered."""
        plan = json.loads((self.folder / "plan/plan.json").read_text())
        out = {}
        for b in plan["batches"]:
            for i, s in enumerate(b["stages"]):
                name = uid("task", b["id"], s["stage"])
                if s["work"] > 0 and s["who"] == self.person and (not s.get("begun") or name in {*done, *asked}):
                    much = number(b["litres"]) + " L" if i == 0 else pieces(b["pieces"])
                    start = instant(s["start"])
                    out[name] = (start, start + timedelta(minutes=s["work"]), f"{s['stage'][:1].upper()}{s['stage'][1:]}: {b['cheese']}, {much}", name in done)
        return out


def task_of(text):
    """A task as a program has it."""
    t = icalendar.Calendar.from_ical(text).walk("VTODO")[0]
    return str(t["UID"]), (t.decoded("DTSTART"), t.decoded("DUE"), str(t["SUMMARY"]), str(t["STATUS"]) == "COMPLETED")


def ticked(text, done):
    """The text of a task, done or not done."""
    text = re.sub(r"(STATUS|PERCENT-COMPLETE|COMPLETED):.*\r?\n", "", text)
    lines = "STATUS:COMPLETED\r\nPERCENT-COMPLETE:100" if done else "STATUS:NEEDS-ACTION"
    return text.replace("END:VTODO", lines + "\r\nEND:VTODO")


class PythonCaldav:
    """caldav of PyPI, with its own ways to complete and to sync."""

    def __init__(self, kitchen, url, _):
        client = caldav.DAVClient(url=url + "/dav/", username=kitchen.person, password=kitchen.token)
        found = client.principal().calendars()
        assert len(found) == 1 and found[0].get_supported_components() == ["VTODO"], found
        self.calendar, self.held = found[0], found[0].objects_by_sync_token(load_objects=True)

    def sync(self):
        changed, gone = self.held.sync()
        return len(list(changed)) + len(list(gone))

    def tasks(self):
        return dict(task_of(o.data) for o in self.held)

    def tick(self, name, done):
        todo = next(t for t in self.calendar.todos(include_completed=True) if t.icalendar_component["UID"] == name)
        todo.complete() if done else todo.uncomplete()


class Vdirsyncer:
    """vdirsyncer of PyPI, between the server and a folder of files."""

    def __init__(self, kitchen, url, scratch):
        self.folder = scratch / "tasks"
        self.config = scratch / "vdirsyncer.conf"
        self.config.write_text(f"""
[general]
status_path = "{scratch}/status"
[pair tasks]
a = "there"
b = "here"
collections = ["from a"]
[storage there]
type = "caldav"
url = "{url}/"
username = "{kitchen.person}"
password = "{kitchen.token}"
item_types = ["VTODO"]
[storage here]
type = "filesystem"
path = "{self.folder}"
fileext = ".ics"
""")
        self.run("discover", "y\n" * 9)
        self.sync()

    def run(self, what, answers=""):
        tool = pathlib.Path(sys.executable).parent / "vdirsyncer"
        done = subprocess.run([tool, "-c", self.config, what], input=answers, text=True, capture_output=True, timeout=120)
        if done.returncode:
            raise SystemExit(f"vdirsyncer {what}: {done.stdout}{done.stderr}")
        return done.stderr + done.stdout

    def sync(self):
        return len(re.findall(r"(?:Copying|Deleting) ", self.run("sync")))

    def files(self):
        return list(self.folder.glob("*/*.ics"))

    def tasks(self):
        return dict(task_of(f.read_bytes()) for f in self.files())

    def tick(self, name, done):
        file = next(f for f in self.files() if f"UID:{name}" in f.read_text().replace("\n ", "").replace("\r", ""))
        file.write_bytes(ticked(file.read_bytes().decode(), done).encode())
        assert self.sync() == 1, "what was ticked was not sent"


class Tsdav:
    """tsdav of npm, which a script of its own speaks to (tick-tasks.mjs)."""

    def __init__(self, kitchen, url, scratch, node):
        self.node = subprocess.Popen(["node", node / "tick-tasks.mjs", url, kitchen.person, kitchen.token], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        self.ask(do="begin")

    def ask(self, **what):
        self.node.stdin.write(json.dumps(what) + "\n")
        self.node.stdin.flush()
        line = self.node.stdout.readline()
        if not line:
            raise SystemExit("tsdav ended")
        return json.loads(line)

    def sync(self):
        return self.ask(do="sync")["changed"]

    def tasks(self):
        return dict(task_of(o["data"]) for o in self.ask(do="tasks")["objects"])

    def tick(self, name, done):
        one = next(o for o in self.ask(do="tasks")["objects"] if task_of(o["data"])[0] == name)
        status = self.ask(do="put", url=one["url"], etag=one["etag"], data=ticked(one["data"], done))["status"]
        assert status == 204, status


def compare(what, got, want):
    """Has what a program holds be what the plan wants."""
    faults = [f"{n}: got {got.get(n)}, want {w}" for n, w in want.items() if got.get(n) != w]
    faults += [f"not in the plan: {n} {g}" for n, g in got.items() if n not in want]
    if faults or not want:
        raise SystemExit(f"{what}:\n" + "\n".join(faults))
    print(f"{what}: {len(got)} tasks, as the plan has them")


def go_through(name, make, kitchen, counting):
    """Everything that one program does."""
    program = make(kitchen, f"http://127.0.0.1:{counting.server_port}")

    def synced(what, **states):
        program.sync()
        program.sync()  # what was sent itself is fetched as it is kept
        compare(f"{name}, {what}", program.tasks(), kitchen.wanted(**states))
        before = counting.tasks
        again = program.sync()
        if again or counting.tasks != before:
            raise SystemExit(f"{name}, {what}: a second sync transferred {counting.tasks - before} tasks, and told of {again}")

    synced("listed")
    first = min(kitchen.wanted().items(), key=lambda w: w[1][0])[0]
    program.tick(first, True)
    kitchen.settled()
    said = kitchen.said()
    assert len(said) == 1 and "did:" in said[0] and f'who: "{kitchen.person}"' in said[0], said
    synced("ticked", done={first})
    program.tick(first, False)
    kitchen.settled()
    said = kitchen.said()
    assert len(said) == 2 and "strikes: 1" in said[1], said
    synced("taken back", asked={first})  # the plan before had it as begun
    before = kitchen.wanted()
    kitchen.plan_anew()
    after = kitchen.wanted()
    moved = sum(n in after and after[n][0] != w[0] for n, w in before.items())
    print(f"{name}: planned anew, {moved} moved, {len(after.keys() - before.keys())} added, {len(before.keys() - after.keys())} dropped")
    if not (moved and after.keys() - before.keys() and before.keys() - after.keys()):
        raise SystemExit("the new plan does not move, add and drop tasks, so that nothing is checked")
    synced("planned anew", asked={first})
    assert len(kitchen.said()) == 2, kitchen.said()


def main(ripeby, scratch, node, port):
    """All programs, each in a kitchen of its own."""
    scratch, node = pathlib.Path(scratch), pathlib.Path(node)
    programs = {"caldav": PythonCaldav, "vdirsyncer": Vdirsyncer, "tsdav": lambda *a: Tsdav(*a, node)}
    for name, make in programs.items():
        place = scratch / name
        place.mkdir(parents=True)
        kitchen = Kitchen(ripeby, place / "kitchen", int(port))
        counting = Counting(int(port))
        try:
            go_through(name, lambda k, url: make(k, url, place), kitchen, counting)
        finally:
            counting.shutdown()
            kitchen.close()


main(*sys.argv[1:])
