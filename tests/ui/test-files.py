# SPDX-License-Identifier: GPL-3.0-or-later
"""Files through the real dialogs: new, save as, open, papers, drawing, print; a bad file is told, not opened.

Arguments: the program, the source folder."""
import os
import shutil
import struct
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Tap, equal, pause, put_away, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
folder = tempfile.mkdtemp(prefix="drybay-files-")
tap = Tap()
app = App([program])


def written(name):
    path = os.path.join(folder, name)
    app.wait(lambda: os.path.exists(path) and os.path.getsize(path) > 0, name + " to be written")
    pause(0.2)
    with open(path, "rb") as f:
        return f.read()


def test_new():
    app.get("push button", "_?New Project.*").do_action(0)
    app.get("label", "Not saved yet")
    app.get("list item", "Back wall.*|Wall 1")


def test_save_as():
    app.key("ctrl+s")
    app.answer_dialog(os.path.join(folder, "first"))
    true(written("first.drybay").startswith(b'{'), "no project was written")
    app.get("label", "first.drybay")


def test_papers():
    app.key("ctrl+e")
    app.answer_dialog(os.path.join(folder, "crew.pdf"))
    equal(written("crew.pdf")[:5], b"%PDF-")
    app.get("label", "crew.pdf exported")


def test_drawing():
    app.key("ctrl+shift+e")
    app.answer_dialog(os.path.join(folder, "board.svg"))
    true(b"<svg" in written("board.svg")[:400], "no SVG")


def test_print_dialog():
    app.key("ctrl+p")
    app.wait(lambda: len(app.windows()) > 1, "the print dialog")
    pause(0.5)
    app.key("Escape")
    app.wait(lambda: len(app.windows()) == 1, "the print dialog to close")


def test_open():
    shutil.copy(os.path.join(source, "data/demo/client-shower.drybay"), os.path.join(folder, "second.drybay"))
    app.key("ctrl+o")
    pause(1.2)
    app.type(os.path.join(folder, "second.drybay"))
    app.key("Return")
    app.get("label", "second.drybay")
    # What was open has a file, so the other came in a window of its own.
    app.key("ctrl+w")
    app.wait(lambda: len(app.windows()) == 1, "one window again")


def test_bad_file():
    with open(os.path.join(folder, "bad.drybay"), "w") as f:
        f.write('{"format": "drybay-project", "version": 1, "rooms": [')
    app.key("ctrl+o")
    pause(1.2)
    app.type(os.path.join(folder, "bad.drybay"))
    app.key("Return")
    app.get("label", ".*bad.drybay.*")


def test_picture():
    """Of the window as it is on the screen, its edge with it: as large as was asked for, or it were shrunk."""
    path = os.path.join(folder, "window.png")
    demo = os.path.join(source, "data/demo/client-shower.drybay")
    subprocess.run([program, "--screenshot", path, "--size", "1180x760", demo], check=True, timeout=60)
    with open(path, "rb") as f:
        equal(struct.unpack(">II", f.read(24)[16:]), (1180, 760), "size of the picture")


def test_quit():
    app.close()
    log = app.log()
    true("CRITICAL" not in log and "WARNING **" not in log, log)
    equal(app.process.returncode, 0, "exit status")


try:
    tap.run_all(globals())
finally:
    put_away(app, folder)
tap.end()
