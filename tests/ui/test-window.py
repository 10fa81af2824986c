# SPDX-License-Identifier: GPL-3.0-or-later
"""The real window: pointer, keys and the accessible tree, from opening a file to closing with a question.

Arguments: the program, the source folder. Judges by what assistive tools see and by the file saved."""
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, extents, pause, true, xd  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
tap = Tap()
work = Work(program, source)
app, room, parts = work.app, work.room, work.parts
board, objects, place = work.board.node, work.board.objects, work.board.place
NICHE = "Shampoo niche"


def item(name):
    return work.board.item(re.escape(name))


def moved(name, before):
    return app.wait(lambda: place(name) != before and place(name), "%s to move" % name)


def test_tree():
    names = [o.get_name() for o in objects()]
    for name in ("Back wall", NICHE, "Mixing valve", "Spout", "Shower head"):
        true(name in names, "%s missing among %s" % (name, names))
    for o in objects():
        equal(o.get_role_name(), "list item", "role of " + o.get_name())
        true(o.get_name() and o.get_description(), "an object without name or place")
        true(extents(o), o.get_name() + " has no place on the screen")


def test_pointer_drag():
    before = place(NICHE)
    x, y = app.centre(item(NICHE))
    app.drag((x, y), (x + 40, y - 20))
    after = moved(NICHE, before)
    true(after.startswith("Back wall, "), after)
    app.get("push button", "Undo: Move " + NICHE)
    app.key("ctrl+z")
    app.wait(lambda: place(NICHE) == before, "undo to bring it back")


def test_drag_to_other_wall():
    before = place(NICHE)
    x, y = app.centre(item(NICHE))
    bx, by, bw, bh = app.box(item("Left end wall"))
    app.drag((x, y), (bx + bw // 2, y))
    true(moved(NICHE, before).startswith("Left end wall, "), place(NICHE))
    app.key("ctrl+z")
    app.wait(lambda: place(NICHE) == before, "undo")


def test_escape_cancels_drag():
    before = place(NICHE)
    x, y = app.centre(item(NICHE))
    app.drag((x, y), (x + 40, y), hold=lambda: app.key("Escape"))
    pause(0.3)
    equal(place(NICHE), before)
    true(app.find("push button", "Undo"), "a cancelled drag left a step to undo")


def test_arrow_keys():
    app.click(app.centre(item(NICHE)))
    before = place(NICHE)
    left = [p for p in room()["parts"] if p.get("label") == NICHE][0]["u"]
    app.key("Right", "Right", "Right")
    moved(NICHE, before)
    now = [p for p in room()["parts"] if p.get("label") == NICHE][0]["u"]
    equal(round(now - left, 6), round(3 * 25.4 / 16, 6), "three steps of 1/16 in")
    app.key("shift+Up")
    pause(0.2)
    app.key("ctrl+z")
    app.key("ctrl+z")  # nudges of one go are one step; saving in between ended the first
    app.wait(lambda: place(NICHE) == before, "undo")


def test_tab_walks():
    app.click(app.centre(item(NICHE)))
    seen = []
    for _ in range(4):
        app.key("Tab")
        pause(0.15)
        focused = [o.get_name() for o in objects() if "focused" in [s.value_nick for s in o.get_state_set().get_states()]]
        seen += focused
    true(len(set(seen)) == 4, "Tab walked over %s" % seen)


def test_delete_and_toast():
    app.click(app.centre(item(NICHE)))
    n = len(parts("niche"))
    app.key("Delete")
    app.get("label", NICHE + " deleted")
    equal(len(parts("niche")), n - 1)
    app.click(app.get("push button", "_?Undo.*"))
    item(NICHE)


def test_duplicate_copy_paste():
    app.click(app.centre(item(NICHE)))
    n = len(parts("niche"))
    app.key("ctrl+d")
    pause(0.3)
    equal(len(parts("niche")), n + 1)
    app.key("ctrl+c")
    app.key("ctrl+v")
    pause(0.3)
    equal(len(parts("niche")), n + 2)
    app.key("ctrl+x")
    pause(0.3)
    equal(len(parts("niche")), n + 1)
    app.key("ctrl+z", "ctrl+z", "ctrl+z")
    pause(0.3)
    equal(len(parts("niche")), n)


def shelf_button(pattern):
    """Scrolls to the part by searching for it."""
    return app.get("push button", pattern)


def test_click_to_place():
    n = len(parts("valve"))
    button = shelf_button("Mixing valve for a shower")
    button.do_action(0)
    pause(0.4)
    x, y, w, h = app.box(item("Back wall"))
    app.move(x + w // 4, y + h // 3)
    pause(0.2)
    app.click((x + w // 4, y + h // 3))
    pause(0.4)
    valves = parts("valve")
    equal(len(valves), n + 1)
    app.key("ctrl+z")
    pause(0.3)
    equal(len(parts("valve")), n)


def test_place_by_keyboard():
    n = len(parts("spout"))
    shelf_button("Tub spout").do_action(0)
    pause(0.4)
    app.key("shift+Up", "shift+Up", "Return")
    pause(0.3)
    equal(len(parts("spout")), n + 1)
    shelf_button("Tub spout").do_action(0)
    pause(0.4)
    app.key("Escape")
    pause(0.3)
    equal(len(parts("spout")), n + 1, "Escape put it away")
    app.key("ctrl+z")


def test_shelf_drag():
    before = [o for o in objects() if o.get_name().startswith("Tub")][0].get_name()
    button = app.get("push button", "Alcove tub, 60 x 32 in")
    tub = [o for o in objects() if o.get_name().startswith("Tub")][0]
    app.drag(app.centre(button), app.centre(tub), steps=25)
    app.wait(lambda: any(o.get_name().startswith("Alcove tub, 60 x 32") or o.get_name() == 'Tub 60" × 32"' for o in objects()),
             "the wider tub instead of " + before)
    app.key("ctrl+z")
    pause(0.3)


def test_window_keys():
    width = app.box(board())[2]
    app.key("F9")
    app.wait(lambda: app.box(board())[2] > width, "the inspector to give way")
    app.key("F9")
    app.wait(lambda: app.box(board())[2] == width, "the inspector to come back")
    x, y = app.centre(board())
    before = app.box(item("Back wall"))
    app.move(x, y)
    xd("click", 4)
    app.wait(lambda: app.box(item("Back wall"))[2] > before[2], "the wheel to zoom in")
    app.key("ctrl+0")
    app.wait(lambda: app.box(item("Back wall"))[2] == before[2], "everything to fit again")


def test_draw_room():
    """Four corners by typed lengths and arrows, no pointer."""
    app.click(app.centre(item("Back wall")))
    app.key("ctrl+r")
    pause(0.3)
    app.key("Return")
    for arrow, length in (("Right", "70"), ("Up", "8'"), ("Left", "70")):
        app.key(arrow)
        app.type(length)
        app.key("Return")
    app.key("c")
    pause(0.5)
    walls = [w for w in room()["walls"]]
    equal(len([w for w in walls if not w.get("added")]), 4, "walls of the outline")
    app.key("ctrl+z")
    pause(0.3)
    item(NICHE)


def test_close_asks():
    item(NICHE)
    app.click(app.centre(item(NICHE)))
    app.key("Right")
    pause(0.3)
    app.key("ctrl+w")
    app.get("push button", "_?Discard.*")
    app.key("Escape")
    app.gone("push button", "_?Discard.*")
    app.key("ctrl+w")
    app.get("push button", "_?Discard.*").do_action(0)
    app.process.wait(10)
    equal(app.process.returncode, 0, "exit status")
    work.quiet()


try:
    work.ready()
    tap.run_all(globals())
finally:
    work.remove()
tap.end()
