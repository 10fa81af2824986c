#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A project of 1,000 objects, in one room and in many: opening it, walking its objects by Tab, dragging, the accessible
tree, the ledger's lists, memory.

Arguments: the program, the source folder. Prints figures; a person compares, nothing is asserted on seconds.
"""
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import display  # noqa: E402
import driver  # noqa: E402


def spread(name, times):
    seen = sorted(t for t in times if t is not None)
    if len(seen) < 0.7 * len(times):
        sys.exit("%s: only %d of %d changed anything on the screen" % (name, len(seen), len(times)))
    times = seen
    print("  %-44s median %6.1f ms, p95 %6.1f ms, longest %6.1f ms" % (
        name, statistics.median(times), times[max(int(len(times) * 0.95) - 1, 0)], times[-1]), flush=True)


def memory(app):
    for line in open("/proc/%d/status" % app.process.pid, encoding="ascii"):
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1024
    return 0


def cpu(app):
    """Seconds of the processor the program used so far, all threads."""
    fields = open("/proc/%d/stat" % app.process.pid, encoding="ascii").read().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def timed(app, name, act):
    start, before = time.perf_counter(), cpu(app)
    found = act()
    print("  %-44s %8.0f ms, of the program's processor %.0f ms" % (
        name, (time.perf_counter() - start) * 1000, (cpu(app) - before) * 1000), flush=True)
    return found


def quiet(app):
    """When the program came to rest after its start, by the clock of its processor time."""
    used, since = cpu(app), time.perf_counter()
    while time.perf_counter() - since < 1:
        time.sleep(0.02)
        now = cpu(app)
        if now > used:
            used, since = now, time.perf_counter()
    return since


def tabs(app, screen, area, count=40):
    times = []
    before = cpu(app)
    for _ in range(count):
        screen.settle(area, 0.06)
        times.append(screen.until_changed(area, lambda: screen.press("Tab"), 3))
    spread("Tab to the next object, until seen", times)
    print("  %-44s %8.1f ms" % ("of the processor for each", (cpu(app) - before) * 1000 / count), flush=True)


def drag(app, screen, where, steps=40):
    x, y, w, h = where
    at = [x + w // 2, y + h // 2]
    screen.move(*at)
    time.sleep(0.2)
    screen.button(1, True)
    for _ in range(8):
        at[0] += 2
        screen.move(*at)
        time.sleep(0.05)
    box = (x - 60, y + h // 2 - 2, w + 120, 4)
    times = []
    before = cpu(app)
    for i in range(steps):
        at[0] += 5 if i % 10 < 5 else -5
        screen.settle(box)
        times.append(screen.until_changed(box, lambda: screen.move(*at), 3))
    screen.press("Escape")
    screen.button(1, False)
    spread("a step of a drag, until seen", times)
    print("  %-44s %8.1f ms" % ("of the processor for each, plan and all", (cpu(app) - before) * 1000 / steps), flush=True)


def open_ledger(app, screen):
    """Built and laid out; looked for only afterwards, since the accessible tree costs more than the list."""
    app.move(*app.centre(app.get("push button", None, "By the rules of .*")))
    time.sleep(1)
    start, before = time.perf_counter(), cpu(app)
    screen.click(1)
    until = quiet(app)
    print("  %-44s %8.0f ms, of the program's processor %.0f ms" % (
        "the list of findings opened", (until - start) * 1000, (cpu(app) - before) * 1000), flush=True)
    app.get("list", "Findings")


def measure(kind, program, source):
    folder = tempfile.mkdtemp()
    path = os.path.join(folder, kind + ".drybay")
    subprocess.run([sys.executable, os.path.join(source, "tests/ui/big-project.py"), kind, path], check=True)
    screen = display.Display()
    start = time.perf_counter()
    app = driver.App([program, path])
    until = quiet(app)
    print("  %-44s %8.0f ms, of the program's processor %.0f ms" % (
        "from the start until all is drawn", (until - start) * 1000, cpu(app) * 1000), flush=True)
    board = driver.Board(app)
    nodes = timed(app, "walk of the whole accessible tree", app.nodes)
    print("  %-44s %8d" % ("nodes in it", len(nodes)), flush=True)
    names = timed(app, "the objects of the board by name", board.names)
    area = app.box(board.node())
    app.click((area[0] + 6, area[1] + area[3] - 6))
    tabs(app, screen, area, min(40, len(names) - 1))
    for _ in range(60):  # on to a part, which is then looked at closely
        chosen = board.selected()
        if chosen and re.search("[Ss]pout|[Nn]iche", chosen.get_name()):
            break
        app.key("Tab")
    app.key("ctrl+period")
    time.sleep(1)
    drag(app, screen, app.box(board.selected()))
    open_ledger(app, screen)
    print("  %-44s %8.0f MB" % ("memory", memory(app)), flush=True)
    app.close()


def main():
    program, source = sys.argv[1:3]
    before = os.getloadavg()[0]
    for kind in sys.argv[3:] or ("room", "rooms"):
        measure(kind, program, source)
    print("load of the machine before and after: %.1f, %.1f (measure again on a quiet one when above 1)" % (
        before, os.getloadavg()[0]))


main()
