# SPDX-License-Identifier: GPL-3.0-or-later
"""Seams on the board: dragged, by clicks, by keys and typed; given back to the plan; boards looked at.

Arguments: the program, the source folder."""
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, near, pause, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
tap = Tap()
work = Work(program, source)
app, board = work.app, work.board
room, undo = work.room, work.undo
INCH = 25.4


def seams():
    return [o for o in board.objects() if re.search("seam at", o.get_name())]


def wished():
    return room().get("seams", [])


def enter_pieces():
    # With a board selected a click takes the next board: let go of everything first, on empty paper.
    x, y, _, h = app.box(board.node())
    app.click((x + 30, y + h // 3))
    app.wait(lambda: board.selected() is None, "nothing to be selected")
    work.select_wall()
    app.key("j")
    app.wait(lambda: board.selected() and "seam at" in board.selected().get_name(), "a seam to be selected")


def test_clear_wall():
    """Without the niche every stud of the back wall carries a seam."""
    work.select("Shampoo niche")
    app.key("Delete")
    app.wait(lambda: "Shampoo niche" not in board.names(), "the niche to be gone")


def test_named_and_walked():
    enter_pieces()
    true(any(re.fullmatch('Upright seam at 48.*', s.get_name()) for s in seams()), [s.get_name() for s in seams()])
    true("planned, on a stud" in board.selected_place(), board.selected_place())
    app.key("shift+Tab")
    app.wait(lambda: board.selected().get_name().startswith("Board B"), "a board")
    true("Back wall, " in board.selected_place(), board.selected_place())
    app.get("label", "Cut from")
    app.get("label", "Sheet [0-9].*")
    app.key("Escape")
    app.wait(lambda: board.selected().get_name() == "Back wall", "the wall again")


def test_by_keys():
    enter_pieces()
    at = board.selected().get_name()
    app.key("bracketleft")
    app.wait(lambda: board.selected().get_name() == 'Upright seam at 32"', "the seam on the stud at 32 in")
    app.get("push button", "Undo: Move seam")
    app.wait(lambda: "wished, on a stud" in board.selected_place(), "it is wished")
    near(wished()[0]["at"], 32 * INCH, "in the file")
    app.key("Right", "Right")
    app.wait(lambda: board.selected().get_name() == 'Upright seam at 32 1/8"', "an eighth to the right")
    near(wished()[0]["at"], 32.125 * INCH, "nudged")
    app.key("Delete")
    app.wait(lambda: "seams" not in room(), "no wish any more")
    app.get("label", "The plan chooses this seam again")
    undo(3)
    equal(len(wished()), 0, "wishes after undo")
    enter_pieces()
    equal(board.selected().get_name(), at)


def test_dragged():
    enter_pieces()
    x, y = app.centre(board.selected())
    u = float(re.search('at ([0-9]+)', board.selected().get_name()).group(1))
    left, _, width, _ = app.box(board.item("Back wall"))
    inch = width / 60.0
    app.drag((x, y), (int(x - (u - 32) * inch + 2), y))
    app.wait(lambda: board.selected() and board.selected().get_name() == 'Upright seam at 32"', "it snapped to the stud")
    near(wished()[0]["at"], 32 * INCH, "dragged")
    undo()
    equal(len(wished()), 0, "wishes after undo")


def test_by_clicks():
    enter_pieces()
    x, y = app.centre(board.selected())
    app.click((x, y), button=3)
    work.menu_item("Move to…")
    _, _, width, _ = app.box(board.item("Back wall"))
    app.click((int(x - 16 * width / 60.0), y))
    app.wait(lambda: wished() and abs(wished()[0]["at"] - 32 * INCH) < 0.01, "the seam to be clicked to 32 in")
    undo()


def test_typed_and_finding():
    enter_pieces()
    app.key("Return")
    pause(0.5)
    app.key("ctrl+a")
    app.type("36")
    app.key("Return")
    app.wait(lambda: wished() and abs(wished()[0]["at"] - 36 * INCH) < 0.01, "the seam at 36 in")
    enter_pieces()
    for _ in range(12):
        if "wished" in board.selected_place():
            break
        app.key("Tab")
        pause(0.2)
    app.key("p")
    app.wait(lambda: not wished(), "the plan to choose")
    undo(2)


def test_end():
    work.project()  # saved: nothing is asked at the end
    app.close()
    work.quiet()


try:
    work.ready()
    tap.run_all(globals())
finally:
    work.remove()
tap.end()
