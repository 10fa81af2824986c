# SPDX-License-Identifier: GPL-3.0-or-later
"""Grips pulled on the plan, and files dropped on the window by another program.

Arguments: the program, the source folder."""
import os
import re
import shutil
import subprocess
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, near, pause, true, xd  # noqa: E402

from gi.repository import Gio, GLib  # noqa: E402  (after the driver, which takes G_DEBUG off this process)

program, source = sys.argv[1], sys.argv[2]
NICHE = "Niche built on site, 12 x 20 in"
here = os.path.dirname(os.path.abspath(__file__))
tap = Tap()
work = Work(program, source, "data/demo/client-shower.drybay")
app, board = work.app, work.board


def plan_spot(x, y):
    """Where a point of the plan is on the screen, by the pan in the upper left corner of the room."""
    room = work.room()
    left, top, width, _ = app.box(board.item("(?i).*pan.*"))
    scale = width / room["basin"]["length"]
    back = room["walls"][0]["start"]
    return round(left + (x - back[0]) * scale), round(top + (back[1] - y) * scale)


def said_size(name):
    """The last of what is said about a thing: while a grip is pulled, its size."""
    return app.wait(lambda: re.search(r", ([^,]+)$", board.place(name)), "a size of " + name).group(1)


def pull(name, edge, by, field):
    """Pulls the grip at `edge` of the plan; the size told meanwhile is the size in the file."""
    kind = {"depth": "bench", "width": "glass"}[field]
    before = work.parts(kind)[0][field]
    work.select(name)
    spot = plan_spot(*edge)
    told = []

    def hold():
        told.append((said_size(name), board.place(name)))

    quiet = board.place(name)
    app.drag(spot, (spot[0] + by, spot[1]), hold=hold)
    after = work.parts(kind)[0][field]
    true(abs(after - before) > 10, "%s of the %s stayed %s" % (field, name, after))
    millimeters = re.fullmatch(r"([\d ,.]+) mm", told[0][0])
    true(millimeters, "told %r" % (told,))
    near(float(re.sub("[ ,]", "", millimeters.group(1))), after, "the size told while pulling", by=0.51)
    equal(board.place(name), quiet, "no size is told once the grip is let go")
    app.get("push button", "Undo: Resize .*")
    work.undo()
    near(work.parts(kind)[0][field], before, "after undo")


def test_bench_pulled_on_the_plan():
    bench = next(p for p in work.parts("bench"))
    right = work.room()["walls"][1]["start"]
    pull("(?i).*bench.*", (right[0] - bench["depth"], right[1] - bench["u"]), -24, "depth")


def test_glass_pulled_on_the_plan():
    glass = next(p for p in work.parts("glass"))
    pull("(?i).*glass.*", (glass["width"], glass["u"]), -24, "width")


# --- parts dropped on what takes none ---

def toggle_client_view():
    """By D-Bus: while something is dragged, the keys are the drag's."""
    bus = Gio.bus_get_sync(Gio.BusType.SESSION)
    bus.call_sync("io.github.drybay.Drybay", "/io/github/drybay/Drybay/window/1", "org.gtk.Actions", "Activate",
                  GLib.Variant("(sava{sv})", ("show-client", [], {})), None, Gio.DBusCallFlags.NONE, 5000, None)
    pause(0.5)


def test_wheel_over_numbers():
    """Who rolls down the inspector to see what is there changes nothing, whatever comes under the pointer."""
    work.select(r"(?i)niche, left.*")
    pitch = app.get("spin button", "Pitch of the floor")
    before = work.project()
    x, y = app.centre(app.get("text", "Width"))

    def roll(direction):
        was = app.box(pitch)[1]
        for _ in range(14):
            xd("click", direction)
            pause(0.05)
        true(app.box(pitch)[1] != was, "the wheel rolls the inspector")

    app.move(x, y)
    roll(5)
    app.move(*app.centre(pitch))
    roll(4)
    equal(work.project(), before)


def test_board_covered_while_something_is_held_over_it():
    """Let go on the picture that came up over the board: the drag ends, nothing is placed, and the next one works."""
    n = len(work.parts("niche"))
    back = app.box(board.item("(?i)back wall"))
    spot = (back[0] + back[2] // 2, back[1] + back[3] // 2)
    app.drag(board.shelf(NICHE), spot, steps=25, hold=toggle_client_view)
    toggle_client_view()
    equal(len(work.parts("niche")), n, "niches after a drop on no board")
    app.drag(board.shelf(NICHE), spot, steps=25)
    equal(len(work.parts("niche")), n + 1, "niches after a drop on the board")
    work.undo()


def test_part_dropped_on_an_entry():
    """A part is no text: the entry does not take it, and what is searched for is still found."""
    button = board.shelf(NICHE)
    search = app.find("text", "Find a part.*") or app.get("entry", "Find a part.*")
    app.drag(button, app.centre(search), steps=25)
    pause(0.6)
    equal(app.centre(app.get("push button", re.escape(NICHE))), button, "where the part is on the shelf")


# --- files dropped by another program ---

class Files:
    """Another program's window with files to drag, in the upper left corner of the screen."""

    def __init__(self, *paths):
        environment = {key: value for key, value in os.environ.items() if key != "G_DEBUG"}
        self.process = subprocess.Popen(["/usr/bin/python3", os.path.join(here, "drag-file.py"), *paths], text=True,
                                        stdout=subprocess.PIPE, env=environment)
        equal(self.line(), "ready")
        self.window = app.wait(lambda: xd("search", "--onlyvisible", "--name", "^Files to drag$").split(), "its window")[-1]
        xd("windowmove", self.window, 0, 0)
        xd("windowraise", self.window)
        pause(0.4)

    def line(self):
        return self.process.stdout.readline().strip()

    def drag_to(self, place):
        lines = [line.split("=") for line in xd("getwindowgeometry", "--shell", self.window).splitlines() if "=" in line]
        at = {key: int(value) for key, value in lines}
        app.drag((at["X"] + at["WIDTH"] // 2, at["Y"] + at["HEIGHT"] - 25), place, steps=30)
        return self.line()

    def close(self):
        self.process.terminate()
        self.process.wait()


def test_file_dropped():
    """What is open has a file of its own, so the dropped one comes in a window of its own."""
    dropped = os.path.join(work.folder, "dropped here.drybay")
    shutil.copy(os.path.join(source, "data/demo/two-bath-house.drybay"), dropped)
    files = Files(dropped)
    try:
        x, y, w, h = app.box(board.node())
        equal(files.drag_to((x + w // 2, y + h - 60)), "dropped")
        app.get("label", "dropped here.drybay")
        app.wait(lambda: len(app.windows()) == 2, "a window of its own")
    finally:
        files.close()
    app.key("ctrl+w")
    app.wait(lambda: len(app.windows()) == 1, "one window again")


def test_wrong_file_dropped():
    """Something that is no project is told, and the work that is open stays."""
    wrong = os.path.join(work.folder, "letter.drybay")
    with open(wrong, "w", encoding="utf-8") as f:
        f.write("Dear neighbor")
    before = board.names()
    files = Files(wrong)
    try:
        x, y, w, h = app.box(board.node())
        files.drag_to((x + w // 2, y + h - 60))
        app.get("label", ".*letter.drybay.*")
    finally:
        files.close()
    equal(board.names(), before)
    equal(len(app.windows()), 1, "windows after a file that cannot be read")


def test_end():
    work.project()
    app.close()
    work.quiet()


try:
    work.ready()
    tap.run_all(globals())
finally:
    work.remove()
tap.end()
