# SPDX-License-Identifier: GPL-3.0-or-later
"""A file that others change, move or delete under an open window is told by a bar over the drawing, with what can be
done about it; a file of a newer version opens for reading only and names what is not shown.

Arguments: the program, the source folder."""
import json
import os
import shutil
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Tap, equal, pause, put_away, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
folder = tempfile.mkdtemp(prefix="drybay-watch-")
path = os.path.join(folder, "bath.drybay")
demo = os.path.join(source, "data/demo/alcove-refit.drybay")
shutil.copy(demo, path)
tap = Tap()
app = App([program, path])

CHANGED = ".*was changed by another program.*"
GONE = ".*was moved or deleted.*"
NEWER = "This file was saved by a newer Drybay.*"


def read(name=path):
    with open(name, "rb") as f:
        return f.read()


def write_theirs(title):
    with open(demo) as f:
        text = f.read()
    value = json.loads(text)
    with open(path, "w") as f:
        f.write(text.replace(json.dumps(value["job"]["title"], ensure_ascii=False), json.dumps(title)))


def press(name):
    app.get("push button", name).do_action(0)


def test_reload():
    app.get("label", "bath.drybay")
    write_theirs("Theirs")
    app.get("label", CHANGED)
    press("_?Reload.*")
    app.get("frame", "Theirs")
    app.gone("label", CHANGED)
    app.key("ctrl+z")
    app.get("frame", "Alcove refit")
    app.key("ctrl+shift+z")
    app.get("frame", "Theirs")


def test_keep_mine():
    write_theirs("Third")
    app.get("label", CHANGED)
    press("_?Keep Mine.*")
    app.gone("label", CHANGED)
    app.get("label", "bath.drybay · unsaved changes")
    app.key("ctrl+s")
    app.wait(lambda: b"Theirs" in read(), "mine to be saved without asking")
    pause(1.2)
    true(app.find("label", CHANGED) is None, "the window's own save is taken for someone else's")


def test_gone():
    before = read()
    os.rename(path, path + ".away")
    app.get("label", GONE)
    os.rename(path + ".away", path)
    app.gone("label", GONE)
    os.remove(path)
    app.get("label", GONE)
    press("_?Save Again.*")
    app.wait(lambda: os.path.exists(path) and read() == before, "the file to be saved again")
    app.gone("label", GONE)


def test_replaced_by_rubbish():
    before = read()
    with open(path, "wb") as f:
        f.write(b"rubbish")
    app.get("label", CHANGED)
    press("_?Reload.*")
    app.get("label", ".*bath.drybay:1:1.*")
    true(app.find("label", CHANGED) is not None, "the bar went away")
    with open(path, "wb") as f:
        f.write(before)
    app.gone("label", CHANGED)
    app.close()


def test_newer():
    global app
    newer = os.path.join(folder, "newer.drybay")
    value = json.loads(read(demo))
    value["version"] = 2
    value["phases"] = ["<b>first</b>"]
    value["rooms"][0]["parts"][0]["kind"] = "mirror & lamp"
    with open(newer, "w") as f:
        json.dump(value, f)
    before = read(newer)
    app = App([program, newer])
    app.get("label", NEWER + "2 things in it are not shown.")
    app.get("label", "newer.drybay · for reading only")
    press("_?What Is Not Shown.*")
    app.get("label", "(?s).*phases: unknown field.*parts.0..kind: unknown word “mirror & lamp”.*")
    app.key("Escape")
    app.gone("label", "These places of the file.*")
    pause(0.6)
    # No papers of half a bath.
    app.key("ctrl+e")
    app.get("label", "Papers would lack what is not shown here.*")
    true(app.find(name="Export the Crew.s Papers") is None, "papers can be made")
    # Saving asks for another name, and then it is a file of this version.
    copy = os.path.join(folder, "copy.drybay")
    app.key("ctrl+s")
    pause(1.2)
    app.key("ctrl+a")
    app.type(copy)
    app.key("Return")
    app.wait(lambda: os.path.exists(copy), "the copy")
    app.gone("label", NEWER)
    app.get("label", "copy.drybay")
    equal(json.loads(read(copy))["version"], 1)
    equal(read(newer), before)
    app.close()


try:
    tap.run_all(globals())
finally:
    put_away(app, folder)
tap.end()
