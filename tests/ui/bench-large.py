#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A project of 1,000 objects, in one room and in many: opening it, walking its objects by Tab, dragging, the accessible
tree, the ledger's lists, memory.

Arguments: the program, the source folder. Prints figures; a person compares, nothing is asserted on seconds.
"""
import os
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import display  # noqa: E402
import driver  # noqa: E402


def spread(name, times):
    if None in times or not times:
        sys.exit("%s: nothing changed on the screen" % name)
    times = sorted(times)
    print("  %-44s median %6.1f ms, p95 %6.1f ms, longest %6.1f ms" % (
        name, statistics.median(times), times[max(int(len(times) * 0.95) - 1, 0)], times[-1]), flush=True)


def timed(name, act):
    start = time.perf_counter()
    found = act()
    print("  %-44s %8.0f ms" % (name, (time.perf_counter() - start) * 1000), flush=True)
    return found


def memory(app):
    for line in open("/proc/%d/status" % app.process.pid, encoding="ascii"):
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1024
    return 0


def cpu(app):
    """Seconds of the processor the program used so far, all threads."""
    fields = open("/proc/%d/stat" % app.process.pid, encoding="ascii").read().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def tabs(app, screen, area, count=40):
    strip = (area[0], area[1], area[2], area[3])
    times = []
    before = cpu(app)
    for _ in range(count):
        screen.settle(strip, 0.06)
        times.append(screen.until_changed(strip, lambda: screen.press("Tab"), 3))
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
    app.click(app.get("push button", ".*finding.*"))
    app.get("list", "Findings")


def measure(kind, program, source, thing):
    folder = tempfile.mkdtemp()
    path = os.path.join(folder, kind + ".drybay")
    subprocess.run([sys.executable, os.path.join(source, "tests/ui/big-project.py"), kind, path], check=True)
    screen = display.Display()
    app = driver.App([program, path])
    board = driver.Board(app)
    start = time.perf_counter()
    found = board.item(thing)
    app.wait(lambda: app.box(found)[2] > 6, "a place on the board")
    print("  %-44s %8.0f ms" % ("from the window to a thing's place", (time.perf_counter() - start) * 1000), flush=True)
    time.sleep(2)
    nodes = timed("walk of the whole accessible tree", app.nodes)
    print("  %-44s %8d" % ("nodes in it", len(nodes)), flush=True)
    timed("the objects of the board by name", board.names)
    area = app.box(board.node())
    where = app.box(found)
    app.click((area[0] + 6, area[1] + area[3] - 6))
    tabs(app, screen, area)
    drag(app, screen, where)
    timed("the list of findings opened", lambda: open_ledger(app, screen))
    print("  %-44s %8.0f MB" % ("memory", memory(app)), flush=True)
    app.close()


def main():
    program, source = sys.argv[1:3]
    before = os.getloadavg()[0]
    for kind, thing in (("room", "Tub spout.*|.*[Ss]pout.*"), ("rooms", ".*[Nn]iche.*")):
        if len(sys.argv) < 4 or kind in sys.argv[3:]:
            measure(kind, program, source, thing)
    print("load of the machine before and after: %.1f, %.1f (measure again on a quiet one when above 1)" % (
        before, os.getloadavg()[0]))


main()
