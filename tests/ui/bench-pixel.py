#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""From an event to the pixel it changes, with about 5,000 tiles and every layer shown.

Arguments: the program, the source folder. Sends events by XTEST and watches the screen; prints median, 95th percentile and
longest. The aim is a 95th percentile under 8 ms; a person compares, nothing is asserted on seconds.
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

ROUNDS = 60


def report(name, times, aim=8):
    times = [t for t in times if t is not None]
    if len(times) < ROUNDS / 2:
        sys.exit("%s: only %d of %d events changed anything" % (name, len(times), ROUNDS))
    times.sort()
    p95 = times[int(len(times) * 0.95) - 1]
    print("%-28s median %5.1f ms, p95 %5.1f ms, longest %5.1f ms%s" % (
        name, statistics.median(times), p95, times[-1], "  (aim p95 %d)" % aim if aim else ""), flush=True)


class Bench:
    def __init__(self, program, source):
        self.folder = tempfile.mkdtemp()
        path = os.path.join(self.folder, "tiles.drybay")
        subprocess.run([sys.executable, os.path.join(source, "tests/ui/big-project.py"), "tiles", path], check=True)
        self.screen = display.Display()
        self.app = driver.App([program, path])
        self.board = driver.Board(self.app)
        self.niche = self.board.item(".*[Nn]iche.*")
        self.app.wait(lambda: self.app.box(self.niche)[2] > 20, "the niche's place")
        time.sleep(2)  # panels filled, pictures drawn
        self.area = self.app.box(self.board.node())
        self.where = self.app.box(self.niche)

    def around(self, margin):
        """A narrow strip across the niche: large pictures of the screen would cost the display more than the drawing."""
        x, y, w, h = self.where
        return x - margin, y + h // 2 - 2, w + 2 * margin, 4

    def alternate(self, acts, box, rounds=ROUNDS):
        times = []
        for i in range(rounds):
            self.screen.settle(box)
            times.append(self.screen.until_changed(box, acts[i % len(acts)]))
        return times

    def hover(self):
        x, y, w, h = self.where
        inside, outside = (x + w // 2, y + h // 2), (self.area[0] + 6, self.area[1] + 6)
        self.screen.move(*outside)
        report("pointer over a thing", self.alternate(
            [lambda: self.screen.move(*inside), lambda: self.screen.move(*outside)], self.around(4)))

    def select(self):
        x, y, w, h = self.where
        inside, outside = (x + w // 2, y + h // 2), (self.area[0] + 6, self.area[1] + 6)
        times = []
        for i in range(ROUNDS):
            self.screen.move(*(outside if i % 2 else inside))
            self.screen.settle(self.around(4))
            time.sleep(0.5)  # the inspector has unfolded: nobody clicks faster from thing to thing
            times.append(self.screen.until_changed(self.around(4), lambda: self.screen.button(1, True)))
            self.screen.button(1, False)
        report("selection by a press", times)

    def drag(self):
        """One step of the pointer until the thing in hand has moved; the plan follows on its own."""
        x, y, w, h = self.where
        at = [x + w // 2, y + h // 2]
        times = []
        self.screen.move(*at)
        time.sleep(0.2)
        self.screen.button(1, True)
        for i in range(8):
            at[0] += 2
            self.screen.move(*at)
            time.sleep(0.05)
        box = self.around(60)
        for i in range(ROUNDS):
            at[0] += 7 if i % 12 < 6 else -7
            self.screen.settle(box)
            times.append(self.screen.until_changed(box, lambda: self.screen.move(*at)))
        self.screen.press("Escape")
        self.screen.button(1, False)
        report("a step of a drag", times)

    def pan_and_zoom(self):
        x, y, w, h = self.area
        box = (x + w // 4, y + h // 2, w // 2, 4)
        self.screen.move(x + w // 2, y + h // 2)
        time.sleep(0.3)
        self.screen.key("Shift_L", True)
        pan = self.alternate([lambda: self.screen.click(4), lambda: self.screen.click(5)], box)
        self.screen.key("Shift_L", False)
        report("a step of panning", pan, 0)
        report("a step of zooming", self.alternate([lambda: self.screen.click(4), lambda: self.screen.click(5)], box), 0)


def main():
    bench = Bench(*sys.argv[1:3])
    load = os.getloadavg()[0]
    for act in (bench.hover, bench.select, bench.drag, bench.pan_and_zoom):
        act()
    bench.app.close()
    print("load of the machine before and after: %.1f, %.1f (measure again on a quiet one when above 1)" % (
        load, os.getloadavg()[0]))


main()
