# SPDX-License-Identifier: GPL-3.0-or-later
"""Text from a file is shown as text: markup, marks that turn the direction, emoji, and as much as a field may hold.

Every text field of a project is filled by a script, the window is walked through every page, and nothing warns (the driver
runs the program with fatal warnings). Arguments: the program, the source folder, drybay-cli."""
import json
import os
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Board, Ledger, Tap, pause, true  # noqa: E402

program, source, cli = sys.argv[1:4]
folder = tempfile.mkdtemp(prefix="drybay-hostile-")
tap = Tap()
# Fields that are one of a few words, ids of the catalogue, or dates and lists of dates read as such.
WORDS = {"format", "kind", "side", "units", "pattern", "direction", "drain", "system", "rule_pack", "rule_choices", "item", "start", "work_days",
         "holidays", "price_book", "faucet", "hinge", "swing", "board", "covering"}
TEXTS = {
    "markup": "<span size='90000' foreground='red'>&amp; <b>not bold & <i>",
    "marks": "\u202eright to left\u202c \u2066isolate \u200f\u200e\u061c \u0627\u0644\u062c\u062f\u0627\u0631 \u05d7\u05d3\u05e8",
    "emoji": "\U0001f6c1\U0001f469\u200d\U0001f469\u200d\U0001f466\ufe0f \u0301\u0301\u0301e\u0301 \ufffd \ufdfa",
    "controls": "one\ntwo\tthree\rfour\u0001\u007f\u0085\u2028%s %n %d _under __score",
    # Five letters at which Pango 1.50 aborts when it may break a line anywhere.
    "mixed": "e\u0627 \u0301e",
    "formula": "=HYPERLINK(\"x\") @SUM +1 -1",
}


def fill(value, text, key=""):
    """The value with every free text in it replaced."""
    if isinstance(value, dict):
        return {name: fill(inner, text, name) for name, inner in value.items()}
    if isinstance(value, list):
        return [fill(inner, text, key) for inner in value]
    if isinstance(value, str) and key not in WORDS:
        return text
    return value


def limit(text, most):
    """Repeated to so many bytes: names may have 4096, notes 65536."""
    text = (text * (most // len(text.encode()) + 1)).encode()[:most]
    return text.decode("utf-8", "ignore")


def make(name, text, note):
    """Title, client and note are there in any case, and a label on every part."""
    with open(os.path.join(source, "data/demo/client-shower.drybay"), encoding="utf-8") as f:
        project = fill(json.load(f), text)
    project["job"].update(title=text, client=text, note=note)
    for room in project["rooms"]:
        room["name"] = text
        for part in room.get("parts", []):
            part["label"] = text
        for wall in room["walls"] + room.get("added_walls", []):
            wall["name"] = text
    path = os.path.join(folder, name + ".drybay")
    with open(path, "w", encoding="utf-8") as f:
        json.dump(project, f, ensure_ascii=False)
    return path


def names(app):
    return [node.get_name() or "" for node in app.nodes()]


def look(path, shown):
    app = App([program, path], timeout=60)
    try:
        app.wait(Board(app).objects, "objects on the board")
        app.wait(lambda: any(shown in name for name in names(app)), "%r to be shown" % shown)
        ledger = Ledger(app)
        app.key("ctrl+l")
        pause(0.5)
        pages = [node.get_name() for node in app.nodes() if node.get_role_name() == "page tab"]
        true(len(pages) > 3, "the ledger has few pages: %r" % pages)
        for page in pages:
            ledger.open(page)
        for _ in range(4):  # the inspector of one object after the other
            app.key("Tab", "Return")
            pause(0.2)
        for key in ("ctrl+z", "F10", "Escape", "ctrl+h", "Escape"):
            app.key(key)
            pause(0.3)
        true(app.process.poll() is None, "the program ended\n" + app.log())
        log = app.log()
        true("WARNING" not in log and "CRITICAL" not in log, log)
    finally:
        app.end()


def test_markup():
    look(make("markup", TEXTS["markup"], TEXTS["markup"]), "<b>not bold & <i>")


def test_marks():
    look(make("marks", TEXTS["marks"], TEXTS["marks"]), "right to left")


def test_emoji():
    look(make("emoji", TEXTS["emoji"], TEXTS["emoji"]), "\U0001f6c1")


def test_controls():
    look(make("controls", TEXTS["controls"], TEXTS["controls"]), "two")


def test_mixed():
    look(make("mixed", TEXTS["mixed"], TEXTS["mixed"]), "e\u0627")


def test_long():
    everything = " ".join(TEXTS.values())
    look(make("long", limit(everything, 4096), limit(everything, 65536)), "not bold")


def test_long_word():
    """One word without an end has nowhere to break."""
    look(make("word", limit("W", 4096), limit("W", 65536)), "WWWW")


def test_papers_and_tables():
    for name, text in TEXTS.items():
        path = make("papers-" + name, limit(text, 4096), limit(text, 65536))
        for arguments in (["papers", path, "-o", path + ".pdf"], ["takeoff", path], ["findings", path], ["cost", path], ["schedule", path]):
            answer = subprocess.run([cli, *arguments], capture_output=True, timeout=120, env={**os.environ, "G_DEBUG": "fatal-warnings"})
            true(answer.returncode in (0, 1) and b"WARNING" not in answer.stderr, "%r: %s %s" % (arguments[0], answer.returncode, answer.stderr[-400:]))


tap.run_all(dict(globals()))
tap.end()
