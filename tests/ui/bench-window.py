#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Start to first frame beside an empty libadwaita window in the same run, and frames a second during a drag.

Arguments: the bench program, a project file. Prints figures; a person compares, nothing is asserted on seconds.
"""
import statistics
import subprocess
import sys
import time

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


def main():
    program, project = sys.argv[1:3]
    kinds = {"empty window": ["empty"], "start page": ["open"], "a project": ["open", project]}
    runs = {kind: [] for kind in kinds}
    run(program, "empty")  # files into memory
    for _ in range(ROUNDS):  # in turn, so that a busy moment falls on all three
        for kind, arguments in kinds.items():
            runs[kind].append(run(program, *arguments))
    for what in ("ms", "cpu-ms", "rss-mb"):
        medians = {kind: statistics.median(f[what] for f in figures) for kind, figures in runs.items()}
        a = medians["empty window"]
        print(f"first frame, {what}: " + ", ".join(f"{kind} {b:.1f} ({b / a:.2f})" for kind, b in medians.items()))
    if "--start" in sys.argv:
        return
    drag = run(program, "drag", project)
    print(f"drag: {drag['drag-frames']:.1f} frames a second (aim 60), {drag['drag-plans']:.1f} plans a second, "
          f"{drag['drag-late']:.0f} frames over 25 ms, longest {drag['drag-longest-ms']:.1f} ms, rss {drag['rss-mb']:.1f} MB")


main()
