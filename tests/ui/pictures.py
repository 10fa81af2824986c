#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Takes pictures of the real window in every state worth looking at: pictures.sh starts this on a virtual screen.

Arguments: the program, the source folder, the folder to write to, then names or parts of names (none: all pictures).
Each picture is the window's own pixels with the pointer away from it, after the worker has gone quiet."""
import os
import shutil
import subprocess
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Failure, xd  # noqa: E402

program, source, folder = sys.argv[1:4]
wanted = sys.argv[4:]
DARK = {"ADW_DEBUG_COLOR_SCHEME": "prefer-dark"}
CONTRAST = {"ADW_DEBUG_HIGH_CONTRAST": "1"}
RIGHT_TO_LEFT = {"DRYBAY_ODD": "right-to-left"}
LONG = {"DRYBAY_ODD": "long"}
BIG = {"DRYBAY_ODD": "big"}
DOUBLE = {"GDK_SCALE": "2"}
SMALL, LARGE = "1280x800", "1920x1080"


def demo(name):
    return os.path.join(source, "data/demo", name + ".drybay")


FAULTY = os.path.join(source, "tests/cases/02-old-house.drybay")

# --- steps ---

def page(name):
    def step(app):
        app.key("ctrl+l")
        app.get("page tab", name).do_action(0)
    return step


def unfold(*titles):
    """The first row whose title begins so is unfolded."""
    def step(app):
        for title in titles:
            app.click(app.get("list item", title + ".*"))
    return step


def pick(name):
    def step(app):
        app.click(app.get("list item", name))
    return step


def key(*keys):
    return lambda app: app.key(*keys)


def show_client(*keys):
    """What the client sees, after these keys; in a window of its own size, for the screen here is larger."""
    def step(app):
        app.key("F7")
        app.get("push button", "As planned")
        app.key("F11")
        time.sleep(0.6)
        app.key(*keys)
    return step


def enlarge(app):
    app.get("push button", "Cut sheet 1, show it large").do_action(0)


def drag_niche(app):
    niche = app.get("list item", ".*[Nn]iche.*")
    x, y = app.centre(niche)
    app.drag((x, y), (x - 30, y - 26), release=False)


PICTURES = [
    ("start", None, SMALL, {}, []),
    ("start-dark", None, SMALL, DARK, []),
    ("alcove", demo("alcove-refit"), SMALL, {}, []),
    ("alcove-dark", demo("alcove-refit"), SMALL, DARK, []),
    ("alcove-contrast", demo("alcove-refit"), SMALL, CONTRAST, []),
    ("alcove-2x", demo("alcove-refit"), SMALL, DOUBLE, []),
    ("alcove-right-to-left", demo("alcove-refit"), SMALL, RIGHT_TO_LEFT, []),
    ("alcove-long-texts", demo("alcove-refit"), SMALL, LONG, [page("Take-off.*")]),
    ("alcove-big-text", demo("alcove-refit"), LARGE, BIG, []),
    ("alcove-drag", demo("alcove-refit"), SMALL, {}, [drag_niche]),
    ("shower-large", demo("client-shower"), LARGE, {}, []),
    ("house-large", demo("two-bath-house"), LARGE, {}, []),
    ("ledger-findings", FAULTY, SMALL, {}, [page("Findings")]),
    ("ledger-findings-contrast", FAULTY, SMALL, {**CONTRAST, **DARK}, [page("Findings")]),
    ("ledger-takeoff", demo("alcove-refit"), SMALL, {}, [page("Take-off")]),
    ("ledger-sheets", demo("alcove-refit"), SMALL, {}, [page("Cut sheets")]),
    ("ledger-sheet", demo("alcove-refit"), SMALL, {}, [page("Cut sheets"), enlarge]),
    ("ledger-order", demo("alcove-refit"), SMALL, DARK, [page("Order of work")]),
    ("inspector-niche", demo("alcove-refit"), SMALL, {}, [pick(".*[Nn]iche.*")]),
    ("inspector-tub", demo("alcove-refit"), SMALL, {}, [pick(".*[Tt]ub.*")]),
    ("inspector-valve", demo("alcove-refit"), SMALL, DARK, [pick(".*[Vv]alve.*")]),
    ("client", demo("client-shower"), SMALL, {}, [show_client("Down", "Down", "Return")]),
    ("client-dark-large", demo("client-shower"), LARGE, DARK, [show_client("e")]),
    ("client-contrast", demo("alcove-refit"), SMALL, CONTRAST, [show_client()]),
    ("ledger-schedule", demo("client-shower"), SMALL, {}, [page("Schedule")]),
    ("ledger-schedule-dark", demo("client-shower"), LARGE, DARK, [page("Schedule")]),
    ("ledger-alternates", demo("client-shower"), SMALL, {}, [page("Alternates"), unfold("One niche")]),
    ("ledger-alternates-contrast", demo("client-shower"), LARGE, CONTRAST, [page("Alternates"), unfold("Cement board and coats")]),
    ("preferences", demo("alcove-refit"), SMALL, {}, [key("ctrl+comma")]),
    ("shortcuts", demo("alcove-refit"), SMALL, {}, [key("ctrl+question")]),
]


def grab(app, path):
    """The front window alone; a window manager's frame is no part of it."""
    xd("mousemove", 0, 0)
    time.sleep(0.9)
    window = xd("getactivewindow")
    subprocess.run(["import", "-silent", "-window", window, "-depth", "8", "-define", "png:exclude-chunk=date,time",
                    path], check=True)


def forget():
    """A program stopped in the middle of a drag leaves unsaved work, which the next one would offer."""
    state = os.environ.get("XDG_STATE_HOME") or os.path.join(os.path.expanduser("~"), ".local", "state")
    shutil.rmtree(os.path.join(state, "drybay", "journals"), ignore_errors=True)


def take(name, file, size, env, steps):
    scale = int(env.get("GDK_SCALE", 1))
    os.environ.update(env)
    try:
        forget()
        app = App([program, "--size", size] + ([file] if file else []))
    finally:
        for variable in env:
            del os.environ[variable]
    path = os.path.join(folder, name + ".png")
    try:
        app.get("push button", "_?New Project.*|New.*" if file is None else ".*(finding|advice).*")
        time.sleep(1.5 * scale)
        for step in steps:
            step(app)
        grab(app, path)
    finally:
        xd("mouseup", 1)
        app.end()
    print(path, flush=True)


def main():
    os.makedirs(folder, exist_ok=True)
    failed = 0
    for picture in PICTURES:
        if wanted and not any(part in picture[0] for part in wanted):
            continue
        try:
            take(*picture)
        except (Failure, ValueError) as failure:
            failed += 1
            print("%s: %s" % (picture[0], failure), file=sys.stderr)
    sys.exit(1 if failed else 0)


main()
