# SPDX-License-Identifier: GPL-3.0-or-later
"""Work is not lost: killed in the middle, the next start offers what was not saved, with its undo list; a file
changed by someone else is asked about before it is written over; earlier versions can be had again.

Arguments: the program, the source folder."""
import os
import shutil
import signal
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Atspi, Board, Tap, equal, pause, put_away, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
folder = tempfile.mkdtemp(prefix="drybay-keeping-")
path = os.path.join(folder, "bath.drybay")
shutil.copy(os.path.join(source, "data/demo/alcove-refit.drybay"), path)
tap = Tap()
app = None


def read():
    with open(path, "rb") as f:
        return f.read()


def nudge(times):
    """Moves the niche by the keyboard; each press is told by its entry, so it has been taken."""
    for _ in range(times):
        app.key("Right")
        pause(0.15)


def select_niche():
    board = Board(app)
    app.click(app.centre(board.item(".*[Nn]iche.*")))
    app.wait(board.selected, "the niche to be selected")


def start(*files):
    global app
    app = App([program, *files])


def test_kill_and_recover():
    start(path)
    before = read()
    select_niche()
    nudge(3)
    app.get("label", ".*bath.drybay.*")
    pause(0.5)
    app.process.send_signal(signal.SIGKILL)
    app.process.wait()
    equal(read(), before, "the file after the kill")
    start()
    app.get("label", "Not Saved When Drybay Stopped")
    row = app.get("list item", "Alcove refit")
    app.click(row)
    app.get("label", "Unsaved work is back.*")
    # The undo list is there as it was: back to the file's state, and forward again.
    app.key("ctrl+z")
    pause(0.3)
    app.key("ctrl+shift+z")
    pause(0.3)
    app.key("ctrl+s")
    app.wait(lambda: read() != before, "the recovered work to be saved")
    app.key("ctrl+z")
    pause(0.3)
    app.key("ctrl+s")
    app.wait(lambda: read() == before, "the state before the first step")


def test_changed_elsewhere():
    select_niche()
    nudge(1)
    with open(path, "wb") as f:
        f.write(b"theirs")
    app.key("ctrl+s")
    app.get("label", "The File Was Changed Elsewhere")
    equal(read(), b"theirs")
    app.get("push button", "_?Cancel.*").do_action(0)
    app.gone("label", "The File Was Changed Elsewhere")
    equal(read(), b"theirs")
    app.key("ctrl+s")
    app.get("push button", "_?Replace.*").do_action(0)
    app.wait(lambda: read().startswith(b"{"), "the file to be replaced")
    app.gone("label", "The File Was Changed Elsewhere")


def test_versions():
    app.key("F10")
    app.get("menu item", "_?Earlier Versions.*").do_action(0)
    app.get("label", "Earlier Versions")
    buttons = app.wait(lambda: [n for n in app.nodes() if n.get_role_name() == "push button"
                                and n.get_name().startswith("Go back to ")], "versions")
    true(len(buttons) >= 3, "%d versions" % len(buttons))
    app.wait(lambda: buttons[-1].get_state_set().contains(Atspi.StateType.SENSITIVE), "the oldest to be read")
    saved = read()
    buttons[-1].do_action(0)
    app.gone("label", "Earlier Versions")
    app.key("ctrl+s")
    app.wait(lambda: read() != saved, "the earlier version to be saved")


def test_same_file_twice():
    n = len(app.windows())
    app.key("ctrl+o")
    pause(1.2)
    app.type(path)
    app.key("Return")
    pause(1.0)
    equal(len(app.windows()), n, "windows")


def test_discard_and_undo():
    select_niche()
    nudge(2)
    pause(0.5)
    app.process.send_signal(signal.SIGKILL)
    app.process.wait()
    start()
    app.get("list item", "Alcove refit")
    app.get("push button", "Discard").do_action(0)
    app.gone("label", "Not Saved When Drybay Stopped")
    app.get("push button", "_?Undo.*").do_action(0)
    app.get("label", "Not Saved When Drybay Stopped")
    app.get("push button", "Discard").do_action(0)
    app.gone("label", "Not Saved When Drybay Stopped")
    app.close()
    start(path)
    app.get("label", "bath.drybay")
    true(app.find("label", "There are changes to this project.*") is None, "discarded work is offered again")
    app.close()


try:
    tap.run_all(globals())
finally:
    put_away(app, folder)
tap.end()
