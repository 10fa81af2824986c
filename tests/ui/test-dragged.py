# SPDX-License-Identifier: GPL-3.0-or-later
"""What the pointer pressed or dragged stays behind for nothing: fields whose menu was asked for, parts dragged onto the
board, windows closed after that or while a button is held.

Arguments: a program that counts its objects (tests/ui/counted-window.c), the source folder."""
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, pause, xd  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
NICHE = "Niche built on site, 12 x 20 in"
TYPES = ("DryWindow", "DryItemPicture", "GtkDragSource", "GtkDragIcon", "GdkX11Drag", "GdkX11Drop", "GdkX11DragSurface",
         "GdkX11Toplevel", "GdkX11Popup")
BESIDE = (460, 250)  # on the board, where nothing is
told = os.environ["DRYBAY_OBJECTS"] = os.path.join(tempfile.mkdtemp(prefix="drybay-dragged-"), "objects")
tap = Tap()
work = Work(program, source)
app, board = work.app, work.board


def windows():
    """Those of documents, not what is dragged or hangs open."""
    return [w for w in app.windows() if w["WIDTH"] > 400]


def open_next(name):
    """A window of another document beside the one there is. Its path, that one, the new one."""
    path = os.path.join(work.folder, name)
    shutil.copy(os.path.join(source, "data/demo/alcove-refit.drybay"), path)
    (old,) = windows()
    subprocess.run([program, path], check=True, timeout=60)
    app.wait(lambda: len(windows()) == 2, "the next window")
    return path, old, next(w for w in windows() if w["id"] != old["id"])


def wait_closed(window):
    app.wait(lambda: window["id"] not in [w["id"] for w in windows()], "the window to close")


def count(types=TYPES):
    if os.path.exists(told):
        os.remove(told)
    os.kill(app.process.pid, signal.SIGUSR1)
    app.wait(lambda: os.path.exists(told), "the counts")
    with open(told) as f:
        counts = dict(line.split() for line in f)
    return {name: counts.get(name, "0") for name in types}


def find_places():
    """Where the search, the part found by it and a wall are in the window, all of which are of one size."""
    places = {"search": app.centre(board.search()), "part": board.shelf(NICHE), "wall": app.centre(board.item("Back wall"))}
    (at,) = windows()
    return {name: (x - at["X"], y - at["Y"]) for name, (x, y) in places.items()}


def n_parts(path):
    with open(path, encoding="utf-8") as f:
        return len(json.load(f)["rooms"][0]["parts"])


def drag_and_save(places, path):
    """By places on the screen: the accessible tree may still hold the window that was closed."""
    (at,) = windows()
    before = n_parts(path)
    search, part, wall = ((at["X"] + x, at["Y"] + y) for x, y in (places["search"], places["part"], places["wall"]))
    app.click(search)
    app.key("ctrl+a")
    app.type(NICHE)
    pause(0.8)
    app.drag(part, (wall[0] - 60, wall[1] - 30), steps=25)
    pause(0.8)
    app.key("ctrl+s")
    app.wait(lambda: n_parts(path) == before + 1, "one part more in the file")


def replace_window(n):
    """By the window of another document."""
    path, old, _ = open_next("next-%d.drybay" % n)
    xd("windowactivate", "--sync", old["id"])
    pause(0.5)
    app.key("ctrl+w")
    wait_closed(old)
    pause(3)
    return path


def close_while_held(x, y, far):
    """Opens a second window, presses there in it, moves so far down, closes it by its keys and only then lets go."""
    _, _, at = open_next("held.drybay")
    pause(2)
    x, y = x + at["X"], y + at["Y"]
    xd("windowactivate", "--sync", at["id"])
    for k in range(4):
        xd("mousemove", x, y + k)
        pause(0.2)
    xd("mousedown", 1)
    for k in range(6):
        xd("mousemove", x, y + 3 + far * k // 5)
        pause(0.05)
    app.key("ctrl+w")
    wait_closed(at)
    xd("mouseup", 1)
    pause(1.5)
    equal(app.process.poll(), None, "exit status")


def visit_field(button):
    """Clicks into a field, then beside it, then leaves what the field is of."""
    app.click(board.item("Shampoo niche"))
    field = app.wait(lambda: next((n for n in app.nodes() if n.get_role_name() == "text" and app.box(n)[0] > 900), None), "a field")
    app.click(field, button=button)
    pause(0.8)
    app.click(BESIDE)
    pause(0.5)
    app.click(board.item("Tub .*"))
    pause(0.8)


def test_menu_of_field():
    """The menu that comes of a right click gets the release, and a click beside it closes it: the field keeps its press."""
    work.ready()
    counts = []
    for button in (1, 3, 3, 3, 3, 3):
        visit_field(button)
        counts.append(count(("GtkText", "GtkPopoverMenu", "GtkModelButton")))
    equal(counts[-1], counts[0], "objects after five menus and before")


def test_closed_while_bar_held():
    """The bar at the shelf's right edge goes with its window before what holds it is told."""
    app.wait(board.objects, "objects on the board")
    for _ in range(2):
        close_while_held(231, 250, 50)


def test_closed_while_part_pressed():
    counts = []
    for _ in range(3):
        close_while_held(120, 250, 2)
        counts.append(count())
    equal(counts[-1], counts[0], "objects after the third window and after the first")


def test_nothing_stays():
    work.ready()
    places, path, counts = find_places(), work.path, []
    for n in range(4):
        drag_and_save(places, path)
        path = replace_window(n)
        counts.append(count())
    # The first may set up what is kept for good.
    equal(counts[-1], counts[1], "objects after the fourth window and after the second")


try:
    tap.run_all(globals())
finally:
    work.remove()
    shutil.rmtree(os.path.dirname(told))
tap.end()
