# SPDX-License-Identifier: GPL-3.0-or-later
"""One small project built three times from a new one: by dragging, by single clicks, by keys alone. The files
saved must be the same byte for byte, ids included.

Arguments: the program, the source folder."""
import difflib
import json
import os
import shutil
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Board, Tap, pause, true  # noqa: E402

program = sys.argv[1]
folder = tempfile.mkdtemp(prefix="drybay-ways-")
tap = Tap()
TUB, NICHE, VALVE = "Alcove tub, 60 x 30 in", "Niche built on site, 12 x 20 in", "Mixing valve for a shower"
made = {}


class Way:
    """A new project and where its back wall is on the screen; `build` of each way puts three things there."""

    def __init__(self, name):
        self.path = os.path.join(folder, name + ".drybay")
        self.app = App([program])
        self.app.key("ctrl+n")
        self.app.get("label", "Not saved yet")
        self.board = Board(self.app)
        self.board.item("Back wall|Wall 2")
        pause(0.6)

    def spots(self):
        """Places on the back wall, after the tub is there: of the niche, and where the valve ends up."""
        x, y, w, h = self.app.box(self.board.item("Back wall"))
        return (x + w // 2, y + h // 2), (x + w // 4, y + h // 3)

    def finish(self):
        self.app.key("ctrl+s")
        self.app.answer_dialog(self.path)
        self.app.wait(lambda: os.path.exists(self.path) and os.path.getsize(self.path), "the file")
        pause(0.2)
        self.app.close()
        with open(self.path, "rb") as f:
            return f.read()


def parts(data):
    return {p["kind"]: p for p in json.loads(data)["rooms"][0]["parts"]}


def same(way):
    """Equal to the one made by dragging; else the lines that differ."""
    lines = list(difflib.unified_diff(made["drag"].decode().splitlines(), made[way].decode().splitlines(), "drag", way, n=2))
    true(made[way] == made["drag"], "\n".join(lines[:60]))


def test_by_dragging():
    way = Way("drag")
    app, board = way.app, way.board
    app.drag(app.centre(app.get("push button", TUB)), board.top_of_plan(), steps=25)
    board.item("Alcove tub.*|Tub.*")
    niche, valve = way.spots()
    app.drag(board.shelf(NICHE), niche, steps=25)
    board.item("Niche.*")
    app.drag(board.shelf(VALVE), niche, steps=25)
    board.item("Mixing valve.*")
    app.drag(app.centre(board.item("Mixing valve.*")), valve)
    made["drag"] = way.finish()
    found = parts(made["drag"])
    true("niche" in found and "valve" in found, "parts: %s" % found)


def test_by_clicks():
    """Pick a part, click the place; the object's menu, Move to…, click the new place."""
    way = Way("click")
    app, board = way.app, way.board
    app.click(app.get("push button", TUB))
    app.click(board.top_of_plan())
    board.item("Alcove tub.*|Tub.*")
    niche, valve = way.spots()
    app.click(board.shelf(NICHE))
    app.click(niche)
    board.item("Niche.*")
    app.click(board.shelf(VALVE))
    app.click(niche)
    app.click(app.centre(board.item("Mixing valve.*")), button=3)
    app.click(app.get("menu item", "_?Move to….*"))
    app.click(valve)
    made["click"] = way.finish()
    same("click")


def test_by_keys():
    """Ctrl+F and a name find a part, Enter takes it, digits set distances exactly."""
    way = Way("keys")
    app, board = way.app, way.board
    wanted = parts(made["drag"])

    def take(name):
        app.key("ctrl+f")
        app.key("ctrl+a")
        app.type(name)
        pause(0.5)
        app.key("Tab")
        board.until_focused("push button", name)
        app.key("Return")
        pause(0.4)

    def distance(side_name, length):
        app.type("0")
        board.until_side(side_name)
        app.key("ctrl+a")
        app.type("%.6fmm" % length)
        app.key("Return")
        pause(0.3)

    def to_wall(part):
        for _ in range(8):
            if board.selected_place().startswith("Back wall"):
                return
            app.key("Tab")
            pause(0.2)

    take(TUB)
    app.key("Return")
    board.item("Alcove tub.*|Tub.*")
    for name, kind in ((NICHE, "niche"), (VALVE, "valve")):
        take(name)
        to_wall(kind)
        part = wanted[kind]
        low = part["z"] if kind == "niche" else part["z"] - part["height"] / 2
        distance("Left, to the wall.*|Left.*", part["u"] - part["width"] / 2)
        distance("Down, to the floor.*", low)
    made["keys"] = way.finish()
    same("keys")


try:
    tap.run_all(globals())
finally:
    shutil.rmtree(folder, ignore_errors=True)
tap.end()
