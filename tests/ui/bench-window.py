#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Start to first frame beside an empty libadwaita window in the same run, and the frames of a drag by the pointer.

Arguments: the bench program, the source folder, and "start", "drag" or "alternates" for one of them only. Prints figures; a person
compares, nothing is asserted on seconds. Times of day depend on what else the machine does, those of the main thread
(cpu) hardly.
"""
import math
import os
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import display  # noqa: E402
import driver  # noqa: E402

ROUNDS = 15


def run(program, *arguments):
    start = time.monotonic_ns() // 1000
    answer = subprocess.run([program, *arguments], capture_output=True, text=True, timeout=60)
    figures = {}
    for line in answer.stdout.splitlines():
        name, _, value = line.partition(" ")
        figures[name] = float(value)
    if "first-frame-us" not in figures:
        sys.exit(f"{arguments}: no frame came: {answer.stderr[-400:]}")
    figures["ms"] = (figures["first-frame-us"] - start) / 1000
    return figures


def start(program, source):
    project = os.path.join(source, "data/demo/alcove-refit.drybay")
    kinds = {"empty window": ["empty"], "start page": ["open"], "a project": ["open", project]}
    runs = {kind: [] for kind in kinds}
    run(program, "empty")  # files into memory
    for _ in range(ROUNDS):  # in turn, so that a busy moment falls on all three
        for kind, arguments in kinds.items():
            runs[kind].append(run(program, *arguments))
    for what, aim in (("ms", 1.3), ("cpu-ms", 1.3), ("rss-mb", 1.5)):
        medians = {kind: statistics.median(f[what] for f in figures) for kind, figures in runs.items()}
        a = medians["empty window"]
        print(f"first frame, {what}: " + ", ".join(f"{kind} {b:.1f} ({b / a:.2f})" for kind, b in medians.items()) +
              f"  (aim {aim})", flush=True)


def drag(program, path, page=None):
    """The niche to and fro on its wall for five seconds, a step of the pointer every 8 ms; with a page of the ledger
    open, if one is named."""
    out = os.path.join(tempfile.mkdtemp(), "figures")
    app = driver.App(["sh", "-c", 'exec "$0" drag "$1" >"$2"', program, path, out], name=os.path.basename(program))
    screen = display.Display()
    if page:
        driver.Board(app).item(".*[Nn]iche.*")
        driver.Ledger(app).open(page)
        time.sleep(2)
    niche = driver.Board(app).item(".*[Nn]iche.*")
    app.wait(lambda: app.box(niche)[2] > (6 if page else 20), "the niche's place")
    time.sleep(2)
    x, y, w, h = app.box(niche)
    x, y = x + w // 2, y + h // 2
    screen.move(x, y)
    time.sleep(0.3)
    screen.button(1, True)
    screen.key("Alt_L", True)  # no snapping: every step is another place
    begin = time.monotonic()
    while time.monotonic() < begin + 5.5:
        since = time.monotonic() - begin
        screen.move(x + 20 + 40 * math.sin(4 * since), y + 8 * math.cos(3 * since))
        time.sleep(0.008)
    screen.key("Alt_L", False)
    screen.press("Escape")
    screen.button(1, False)
    app.close()
    figures = dict(line.split() for line in open(out, encoding="utf-8"))
    f = {key: float(value) for key, value in figures.items()}
    print(f"drag, {os.path.basename(path)}{', ' + page if page else ''}: {f['drag-dropped']:.0f} of {f['drag-due']:.0f} frames dropped "
          f"({f['drag-frames']:.1f} a second), {f['drag-plans']:.1f} plans a second, longest gap "
          f"{f['drag-longest-ms']:.1f} ms; main thread a frame {f['drag-cpu-ms']:.1f} ms, p95 "
          f"{f['drag-cpu95-ms']:.1f}, most {f['drag-cpumax-ms']:.1f}; rss {f['rss-mb']:.1f} MB", flush=True)


def main():
    program, source = sys.argv[1:3]
    what = sys.argv[3:] or ["start", "drag"]
    before = os.getloadavg()[0]
    if "start" in what:
        start(program, source)
    if "drag" in what:
        folder = tempfile.mkdtemp()
        drag(program, os.path.join(source, "data/demo/alcove-refit.drybay"))
        for kind in ("tiles", ):
            path = os.path.join(folder, kind + ".drybay")
            subprocess.run([sys.executable, os.path.join(source, "tests/ui/big-project.py"), kind, path], check=True)
            drag(program, path)
    if "alternates" in what or "drag" in what:
        shower = os.path.join(source, "data/demo/client-shower.drybay")
        for page in ("Order of work", "Schedule", "Alternates"):
            drag(program, shower, page)
    print(f"load of the machine before and after: {before:.1f}, {os.getloadavg()[0]:.1f} "
          "(measure again on a quiet one when above 1)")


main()
