# SPDX-License-Identifier: GPL-3.0-or-later
"""The window under Wayland, where it has no places on the screen, and menus come and go by other rules: what a hand does
most, without a warning (they end the program here).

Arguments: the program, the source folder."""
import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, pause, true  # noqa: E402

tap = Tap()
work = Work(sys.argv[1], sys.argv[2])
app, board = work.app, work.board
NICHE = "Shampoo niche"


def test_opens():
    work.ready()
    true(board.item(NICHE) is not None, "the niche is not on the board")


def test_menus():
    for _ in range(3):
        app.click(app.centre(board.item(NICHE)), button=3)
        app.get("menu item", "Exact Sizes.*")
        app.key("Escape")
        app.gone("menu item", "Exact Sizes.*")


def test_keys():
    work.select(NICHE)
    before = board.place(NICHE)
    app.key("Right")
    app.wait(lambda: board.place(NICHE) != before, "the niche to move")
    work.undo()
    app.wait(lambda: board.place(NICHE) == before, "the niche to go back")


def test_refused_menu():
    """This compositor lets no menu come that is asked for by a key after others. GDK 4.8 then kept the pointer: no press
    did anything any more."""
    work.select(NICHE)
    app.key("Right")
    work.undo()
    app.key("F10")
    pause(0.5)
    app.key("Escape")
    work.select_wall()
    work.select(NICHE)


def test_typed_distance():
    work.select(NICHE)
    before = board.place(NICHE)
    app.type("7 1/2")
    board.until_side("Left, to .*")
    app.key("Return")
    app.wait(lambda: '7 1/2" from the left' in board.place(NICHE), "the niche at 7 1/2 in")
    work.undo()
    app.wait(lambda: board.place(NICHE) == before, "the niche to go back")


def test_drag_on_the_board():
    x, y, w, h = app.box(board.item(NICHE))
    before = board.place(NICHE)
    app.drag((x + w // 2, y + h // 2), (x + w // 2 + 40, y + h // 2))
    app.wait(lambda: board.place(NICHE) != before, "the niche to move")
    work.undo()
    app.wait(lambda: board.place(NICHE) == before, "the niche to go back")


def test_drag_from_the_shelf():
    x, y, w, h = app.box(board.item("Back wall"))
    app.drag(board.shelf("Grab bar, 24 in"), (x + w // 2, y + h * 3 // 4))
    app.wait(lambda: "Grab bar" in board.names(), "a bar on the wall")
    work.select_wall()  # this compositor takes the keyboard away for a drag, and a dialog, and gives it back with a press
    work.undo()
    app.wait(lambda: "Grab bar" not in board.names(), "the bar to go")


def test_dialog():
    work.select(NICHE)
    app.key("ctrl+comma")
    app.get("label", "New Projects")
    pause(0.3)
    app.key("Escape")
    app.gone("label", "New Projects")


def test_ledger():
    app.click(app.centre(app.get("push button", ".*sheets.*")))
    app.get(None, "Cut sheets")
    app.click(app.centre(app.get("push button", ".*(finding|advice).*")))
    app.get("label", "By the rules of.*")


def test_closes():
    work.select(NICHE)
    app.key("Right")
    app.get("push button", "Undo: .*")
    work.quiet()
    app.key("ctrl+w")
    app.get("push button", "_?Discard.*")
    app.key("alt+d")
    equal(app.process.wait(20), 0, "exit status")


try:
    tap.run_all(globals())
finally:
    work.remove()
tap.end()
