# SPDX-License-Identifier: GPL-3.0-or-later
"""Drives a real window on a virtual screen: pointer and keys by xdotool, names and places by AT-SPI.

Used by the window tests only; knows how GTK 4.8 reports extents (relative to the window, popovers displaced)
and nothing of what the program does."""
import glob
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

# Warnings shall end the program under test, not this one: libatspi grumbles about nodes that went away.
G_DEBUG = os.environ.pop("G_DEBUG", "fatal-warnings")

# What it remembers of a tree may run in a circle, which it then follows without end (2.46).
os.environ["ATSPI_NO_CACHE"] = "1"

import gi  # noqa: E402

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402


def xd(*args):
    return subprocess.run(["xdotool", *map(str, args)], capture_output=True, text=True).stdout.strip()


def children(node):
    for i in range(node.get_child_count()):
        child = node.get_child_at_index(i)
        if child:
            yield child


def walk(node):
    yield node
    for child in children(node):
        yield from walk(child)


def is_open(node):
    """Not so: a closed drop-down, whose lines GTK names when it opens, and the switcher of a preferences window that has one
    page only."""
    return node.get_role_name() != "combo box" and node.get_name() != "AdwViewSwitcher"


def walk_open(node):
    """The tree without what is not there for people."""
    yield node
    if is_open(node):
        for child in children(node):
            yield from walk_open(child)


def is_named(node):
    """By words of its own: neither its class nor a label with the mark of a key in it."""
    name = node.get_name() or ""
    return bool(name.strip()) and not re.match(r"(Gtk|Adw|Dry)[A-Z]\w+$|_\w", name)


def path_to(node):
    """What and where it is, from the inside out, for a message and to tell two of a kind apart."""
    names = []
    while node and node.get_role_name() != "application":
        names.append("%s %r" % (node.get_role_name(), node.get_name()))
        node = node.get_parent()
    return " < ".join(names[:6])


def walk_with_paths(node, opened=lambda node: True, above=()):
    """Each node with its path_to(), whose words are asked for once only: each is a question to the program."""
    role = node.get_role_name()
    names = () if role == "application" else ("%s %r" % (role, node.get_name()), *above[:5])
    yield node, " < ".join(names)
    if opened(node):
        for child in children(node):
            yield from walk_with_paths(child, opened, names)


def extents(node):
    try:
        e = node.get_extents(Atspi.CoordType.WINDOW)
        return e if e.width > 0 else None
    except Exception:  # stack pages have no place
        return None


def pictures_folder():
    """Where pictures of what failed are kept, made when it is not there yet; None when nobody asked for them."""
    folder = os.environ.get("DRYBAY_TEST_PICTURES")
    if folder:
        os.makedirs(folder, exist_ok=True)
    return folder


class Failure(Exception):
    pass


programs = []  # process ids under test, and the screen's server
if os.environ.get("DRYBAY_SCREEN_SERVER"):
    programs.append(int(os.environ["DRYBAY_SCREEN_SERVER"]))
LOOK, PATIENCE = 0.04, 15  # s between two looks at what they do; s at most that is waited beyond what was asked for


def read_threads():
    """Of each thread: seconds it has run and has waited for a processor, whether it waits for a disk, whether it is the
    first of its program."""
    threads = {}
    for pid in programs:
        for task in glob.glob("/proc/%d/task/*" % pid):
            try:
                with open(task + "/schedstat") as f:
                    ran, waited, _ = map(int, f.read().split())
                with open(task + "/stat") as f:
                    state = f.read().rpartition(")")[2].split()[0]
            except (OSError, ValueError):  # a thread that has ended
                continue
            threads[task] = ran / 1e9, waited / 1e9, state == "D", task.endswith("/%d" % pid)
    return threads


def pause(seconds):
    """Gives the program that long: what a thread of it has to wait for a processor, on a machine that does other things
    too, does not count. Then waits until its window has done what came before."""
    given, begun, before = 0.0, time.monotonic(), read_threads()
    end = begun + seconds + PATIENCE
    while begun < end:
        time.sleep(min(LOOK, seconds))
        now, after = time.monotonic(), read_threads()
        took = now - begun
        starved, busy = 0.0, False
        for task, (ran, waited, stuck, first) in after.items():
            ran, waited = ran - before.get(task, after[task])[0], waited - before.get(task, after[task])[1]
            starved = max(starved, waited)
            busy = busy or first and (stuck or ran > 0.5 * took or waited > 0.25 * took)
        given += took - min(starved, took)
        if given >= seconds - 0.01 and not busy:
            return
        begun, before = now, after


class App:
    """One running program. Every wait polls until its timeout, so that a slow machine only makes a test slow."""

    def __init__(self, command, name="drybay", timeout=30):
        self.timeout = timeout
        self.name = name
        self.errors = open(os.environ.get("DRYBAY_TEST_LOG", "/tmp/drybay-ui-test.%d.log" % os.getpid()), "w+")
        self.process = subprocess.Popen(command, stderr=self.errors, env={**os.environ, "G_DEBUG": G_DEBUG})
        programs.append(self.process.pid)
        self.root = self.wait(self._find_root, "the program on the accessibility bus")

    def _find_root(self):
        desktop = Atspi.get_desktop(0)
        for i in range(desktop.get_child_count()):
            app = desktop.get_child_at_index(i)
            if app and app.get_name() == self.name:
                return app
        return None

    def wait(self, probe, what, timeout=None):
        end = time.monotonic() + (timeout or self.timeout)
        while time.monotonic() < end:
            if self.process.poll() is not None and self.process.returncode != 0:
                raise Failure("program ended with %s while waiting for %s\n%s" % (self.process.returncode, what, self.log()))
            try:
                found = probe()
            except Exception as error:  # nodes may vanish while walked
                found, last = None, error
            if found:
                return found
            time.sleep(0.05)
        raise Failure("timeout waiting for %s\n%s" % (what, self.log()))

    def log(self):
        self.errors.flush()
        self.errors.seek(0)
        return self.errors.read()

    def nodes(self):
        return list(walk(self.root))

    def find(self, role=None, name=None, description=None, visible=True):
        """First node whose role matches exactly and whose name and description match the patterns wholly."""
        for node in self.nodes():
            if role and node.get_role_name() != role:
                continue
            if name is not None and not re.fullmatch(name, node.get_name() or ""):
                continue
            if description is not None and not re.fullmatch(description, node.get_description() or ""):
                continue
            if visible and not node.get_state_set().contains(Atspi.StateType.VISIBLE):
                continue
            return node
        return None

    def get(self, role=None, name=None, description=None, timeout=None, visible=True):
        return self.wait(lambda: self.find(role, name, description, visible), "%s %r %r" % (role, name, description), timeout)

    def gone(self, role, name, timeout=None):
        return self.wait(lambda: self.find(role, name) is None, "%s %r to go" % (role, name), timeout)

    # --- places ---

    def windows(self):
        """Of the program; under Wayland, which tells nobody of them, the compositor's, which each of them fills."""
        found = []
        which = ("--class", "weston") if os.environ["GDK_BACKEND"] == "wayland" else ("--pid", self.process.pid)
        for window in xd("search", "--onlyvisible", *which).split():
            lines = [line.split("=") for line in xd("getwindowgeometry", "--shell", window).splitlines() if "=" in line]
            found.append({"id": window, **{key: int(value) for key, value in lines if key != "WINDOW"}})
        return found

    def box(self, node):
        """x, y, width, height on the screen."""
        e = extents(node)
        frame = node
        while frame and frame.get_role_name() not in ("frame", "dialog", "alert"):
            if frame.get_name().startswith("GtkPopover") and extents(frame):
                p = extents(frame)
                for w in self.windows():
                    if (w["WIDTH"], w["HEIGHT"]) == (p.width, p.height):
                        return w["X"] + e.x - p.x, w["Y"] + e.y - p.y, e.width, e.height
            frame = frame.get_parent()
        p = extents(frame)
        windows = self.windows()
        best = min(windows, key=lambda w: abs(w["WIDTH"] - p.width) + abs(w["HEIGHT"] - p.height))
        return (best["X"] + (best["WIDTH"] - p.width) // 2 + e.x, best["Y"] + (best["HEIGHT"] - p.height) // 2 + e.y,
                e.width, e.height)

    def centre(self, node):
        x, y, w, h = self.box(node)
        return x + w // 2, y + h // 2

    # --- hands ---

    def resting_centre(self, node):
        """Of a thing that may still be sliding in, as a toast does."""
        last = self.centre(node)
        for _ in range(20):
            time.sleep(0.03)
            now = self.centre(node)
            if now == last:
                break
            last = now
        return last

    def click(self, where, button=1, repeat=1):
        """Comes to the place in two steps, as a hand does in many."""
        x, y = where if isinstance(where, tuple) else self.resting_centre(where)
        xd("mousemove", x - 2, y - 1)
        time.sleep(0.04)
        xd("mousemove", x, y)
        pause(0.08)
        xd("click", "--repeat", repeat, "--delay", 60, button)
        pause(0.15)

    def move(self, x, y, steps=6):
        here = dict(line.split("=") for line in xd("getmouselocation", "--shell").splitlines())
        x0, y0 = int(here["X"]), int(here["Y"])
        for i in range(1, steps + 1):
            xd("mousemove", x0 + (x - x0) * i // steps, y0 + (y - y0) * i // steps)
            time.sleep(0.012)

    def drag(self, start, end, button=1, steps=14, hold=None, release=True):
        """Canvas drags and drag-and-drop alike: the latter needs several moves at least 10 ms apart."""
        xd("mousemove", *start)
        pause(0.08)
        xd("mousedown", button)
        pause(0.06)
        for i in range(1, steps + 1):
            xd("mousemove", start[0] + (end[0] - start[0]) * i // steps, start[1] + (end[1] - start[1]) * i // steps)
            time.sleep(0.015)
        pause(0.15)
        if hold:
            hold()
        if release:
            xd("mouseup", button)
            pause(0.3)

    def key(self, *keys):
        """Once the window has done what came before: a dialog that is about to close would get the first one."""
        pause(LOOK)
        for key in keys:
            xd("key", key)  # --clearmodifiers would also let go of a held mouse button
            pause(0.06)

    def type(self, text):
        pause(LOOK)
        xd("type", "--delay", 25, text)
        pause(0.1)

    def answer_dialog(self, path):
        """The file chooser's name entry is focused and selected when a file is to be saved."""
        pause(1.2)
        self.key("ctrl+a")
        self.type(path)
        self.key("Return")
        pause(0.4)

    def screenshot(self, path):
        subprocess.run(["import", "-window", "root", path], check=False)

    def close(self, timeout=10):
        """Asks every window to close and waits for a clean end."""
        self.key("ctrl+q")
        try:
            self.process.wait(timeout)
        except subprocess.TimeoutExpired:
            self.process.terminate()
            raise Failure("program did not end\n" + self.log())
        return self.process.returncode

    def end(self):
        """Stops the program if it runs still; may be asked for again. A program that had ended by itself is a failure,
        whatever was looked at last: the bus only says of such a program that it is gone."""
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait(20)
        elif self.process.returncode not in (0, -signal.SIGTERM):
            raise Failure("the program had ended with %s\n%s" % (self.process.returncode, self.log()))


class Board:
    """The board and the shelf of a running program: objects by name, places to drop on, which one has the keyboard."""

    def __init__(self, app):
        self.app = app

    def node(self):
        return self.app.get("list", "Board: plan and walls")

    def objects(self):
        node = self.node()
        return [node.get_child_at_index(i) for i in range(node.get_child_count())]

    def item(self, pattern):
        def probe():
            return next((o for o in self.objects() if re.fullmatch(pattern, o.get_name() or "")), None)
        return self.app.wait(probe, "%s on the board" % pattern)

    def names(self):
        return [o.get_name() for o in self.objects()]

    def place(self, pattern):
        return self.item(pattern).get_description()

    def selected(self):
        return next((o for o in self.objects() if o.get_state_set().contains(Atspi.StateType.SELECTED)), None)

    def selected_place(self):
        found = self.app.wait(self.selected, "something selected")
        return found.get_description()

    def top_of_plan(self):
        """Just inside the wall at the top of the plan: the middle of the tub's back."""
        tub = next((o for o in self.objects() if "tub" in (o.get_name() or "").lower()), None)
        if tub:
            x, y, w, h = self.app.box(tub)
            return x + w // 2, y + h // 2
        x, y, w, h = self.app.box(self.node())
        return x + w // 2, y + h // 5

    def search(self):
        """The shelf's search."""
        return self.app.wait(lambda: self.app.find("text", "Find a part.*") or self.app.find("entry", "Find a part.*"), "the search")

    def shelf(self, name):
        """Where a part's button is on the screen, after searching for it as one does who sees no such part."""
        self.app.click(self.app.centre(self.search()))
        self.app.key("ctrl+a")
        self.app.type(name)
        pause(0.6)
        return self.app.centre(self.app.get("push button", re.escape(name)))

    def focused(self):
        return next((n for n in self.app.nodes() if n.get_state_set().contains(Atspi.StateType.FOCUSED)), None)

    def until_focused(self, role, name, tries=12):
        for _ in range(tries):
            found = self.focused()
            if found and found.get_role_name() == role and found.get_name() == name:
                return found
            self.app.key("Tab")
            pause(0.15)
        raise Failure("%s %r was not reached by Tab" % (role, name))

    def until_side(self, pattern, tries=6):
        """Walks the distance entry to the side whose name matches."""
        for _ in range(tries):
            found = self.focused()
            if found and re.fullmatch(pattern, found.get_name() or ""):
                return found
            self.app.key("Tab")
            pause(0.15)
        raise Failure("no side %r in the entry" % pattern)


class Work:
    """A program with a copy of one of the source's projects open, its board, and what is in the file saved."""

    def __init__(self, program, source, project="data/demo/alcove-refit.drybay"):
        self.folder = tempfile.mkdtemp(prefix="drybay-ui-")
        self.source = source
        self.path = os.path.join(self.folder, os.path.basename(project))
        shutil.copy(os.path.join(source, project), self.path)
        self.app = App([program, self.path])
        self.board = Board(self.app)

    def ready(self):
        """Waits until the objects stand on the board and the window is as large as it will be."""
        self.app.wait(self.board.objects, "objects on the board")
        pause(0.5)
        return self

    # --- the file ---

    def project(self):
        """Saves and reads the file back."""
        before = os.stat(self.path).st_mtime_ns
        self.app.key("ctrl+s")
        self.app.wait(lambda: os.stat(self.path).st_mtime_ns != before, "the file to be written")
        with open(self.path, encoding="utf-8") as f:
            return json.load(f)

    def room(self):
        return self.project()["rooms"][0]

    def wall(self, index):
        return self.room()["walls"][index]

    def parts(self, kind):
        return [p for p in self.room().get("parts", []) if p["kind"] == kind]

    def part(self, label):
        return next(p for p in self.room()["parts"] if p.get("label") == label)

    # --- acts ---

    def undo(self, n=1):
        for _ in range(n):
            self.app.key("ctrl+z")
        pause(0.3)

    def select(self, name):
        self.app.click(self.app.centre(self.board.item(name)))
        self.app.wait(lambda: self.board.selected() and re.fullmatch(name, self.board.selected().get_name()), name + " to be selected")

    def select_wall(self, name="Back wall"):
        """Beside the upper left corner of its face, where nothing hangs."""
        x, y, _, _ = self.app.box(self.board.item(name))
        self.app.click((x + 10, y + 26))
        self.app.wait(lambda: self.board.selected().get_name() == name, "the wall to be selected")

    def menu_item(self, pattern):
        self.app.click(self.app.get("menu item", pattern))
        pause(0.3)

    def menu_button(self, name):
        def probe():
            return next((n for n in self.app.nodes() if n.get_name() == name and n.get_role_name() not in ("label", "panel")), None)
        self.app.click(self.app.wait(probe, "the %s button" % name))

    # --- what the program says ---

    def quiet(self):
        """No warning so far."""
        log = self.app.log()
        true("CRITICAL" not in log and "WARNING **" not in log, log)

    def remove(self):
        put_away(self.app, self.folder)


class Ledger:
    """The line of totals and the lists it opens into, as read aloud."""

    def __init__(self, app):
        self.app = app

    def total(self, pattern):
        """What one of the totals says: its button's whole text."""
        return self.app.get("push button", pattern).get_name()

    def money(self):
        """The cost told in the line, a number; prices are samples."""
        return float(re.search(r"[\d,]+\.\d\d", self.total(r".*sample prices.*")).group(0).replace(",", ""))

    def open(self, page):
        """Its lists are filled only while they are seen."""
        if self.app.box(self.app.get("panel", "Ledger"))[3] < 120:
            self.app.key("ctrl+l")
            pause(0.3)
        self.app.get("page tab", page).do_action(0)
        pause(0.4)

    def panel(self, page):
        return self.app.get("panel", page)

    def rows(self, page):
        """Titles of the rows of a page, each with every label in it."""
        found = {}
        for node in walk(self.panel(page)):
            if node.get_role_name() == "list item" and (node.get_name() or "").strip():
                found[node.get_name()] = [n.get_name() for n in walk(node) if n.get_role_name() == "label"]
        return found

    def texts(self, page):
        return [text for labels in self.rows(page).values() for text in labels]

    def findings(self):
        self.open("Findings")
        return [title for title in self.rows("Findings")]

    def wait_finding(self, pattern, there=True):
        """Waits until a finding's title matches, or none does any more."""
        self.open("Findings")
        what = "a finding like %r" % pattern if there else "no finding like %r" % pattern
        self.app.wait(lambda: any(re.search(pattern, title) for title in self.rows("Findings")) == there, what, 12)


def put_away(app, folder):
    """The program, if one was started, and the test's own files, also when the program had ended by itself."""
    try:
        if app is not None:
            app.end()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


class Tap:
    """Test functions in order, as TAP: a failure keeps a picture of the screen and goes on with the next."""

    def __init__(self):
        self.n = 0
        self.failed = 0

    def run(self, name, function, *args):
        self.n += 1
        try:
            function(*args)
            print("ok %d %s" % (self.n, name), flush=True)
        except Exception as error:
            self.failed += 1
            print("not ok %d %s" % (self.n, name), flush=True)
            while error:
                for line in ("%s: %s" % (type(error).__name__, error)).splitlines():
                    print("# " + line, flush=True)
                error = error.__context__
            folder = pictures_folder()
            if folder:
                path = os.path.join(folder, re.sub(r"\W+", "-", name) + ".png")
                subprocess.run(["import", "-window", "root", path], check=False)
                print("# screen: " + path, flush=True)

    def run_all(self, names):
        """Every function of `names` (a module's globals) that begins with test_, in the order written; with
        DRYBAY_TEST_ONLY only those whose name holds it."""
        only = os.environ.get("DRYBAY_TEST_ONLY", "")
        for name, function in [(k[5:], v) for k, v in list(names.items()) if k.startswith("test_") and only in k]:
            self.run(name, function)

    def end(self):
        print("1..%d" % self.n, flush=True)
        sys.exit(1 if self.failed else 0)


def equal(found, wanted, what=""):
    if found != wanted:
        raise Failure("%s: found %r, wanted %r" % (what, found, wanted))


def true(condition, what):
    if not condition:
        raise Failure(what)


def near(found, wanted, what, by=0.001):
    """Lengths of the file are millimeters."""
    true(abs(found - wanted) < by, "%s: found %r, wanted %r" % (what, found, wanted))
