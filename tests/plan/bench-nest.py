#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs drybay-cli nest on the published bin packing lists and on wall lists, and prints sheets used, lower bound,
proven share and seconds, beside the best published totals for edge-to-edge cuts with rotation.

The lists are not part of the project: their folder is given by --packing or DRYBAY_PACKING, else ../shared/packing.
Without them the benchmark is skipped (exit status 77). Every layout is checked here, from the answer alone.
"""
import argparse
import collections
import concurrent.futures
import csv
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("cli", help="the program drybay-cli")
    parser.add_argument("--packing", default=os.environ.get("DRYBAY_PACKING", ROOT.parent / "shared/packing"),
                        type=pathlib.Path)
    parser.add_argument("--seconds", default="1")
    parser.add_argument("--threads", default="1")
    parser.add_argument("--jobs", type=int, default=1, help="lists at the same time")
    parser.add_argument("--classes", default="1-10", help="as 3 or 1-10")
    parser.add_argument("--walls-only", action="store_true")
    return parser.parse_args()


def read_classes(path):
    """Yields (class, pieces, list) in the order of the file: ten lists of each size, five sizes a class."""
    lines = [line.split() for line in path.read_text().splitlines() if line and not line.startswith("#")]
    for index, fields in enumerate(lines):
        width, height, n = map(int, fields[1:4])
        sides = list(map(int, fields[4:]))
        assert len(sides) == 2 * n, fields[0]
        pieces = [{"id": str(i), "width": sides[2 * i], "height": sides[2 * i + 1], "count": 1} for i in range(n)]
        yield index // 50 + 1, n, {"kerf": 0, "rotate": True, "pieces": pieces,
                                   "sheets": [{"id": "sheet", "width": width, "height": height, "count": None}]}


def leaves(part, kerf):
    """What the cuts free; each part lies beside the one before, a kerf between, and they fill the whole."""
    if "parts" not in part:
        return [part]
    along, size = ("x", "width") if part["cuts"] == "vertical" else ("y", "height")
    across, other = ("y", "height") if along == "x" else ("x", "width")
    at, found = part[along], []
    for child in part["parts"]:
        assert abs(child[along] - at) < 1e-6, "a part does not begin where the cut ends"
        assert child[across] == part[across] and child[other] == part[other], "a cut is not edge to edge"
        at = child[along] + child[size] + kerf
        found += leaves(child, kerf)
    assert part[along] + part[size] - 1e-6 <= at <= part[along] + part[size] + kerf + 1e-6, "parts do not fill the whole"
    return found


def check(value, answer):
    kinds = {sheet["id"]: sheet for sheet in value["sheets"]}
    rows = {piece["id"]: piece for piece in value["pieces"]}
    seen, used = collections.Counter(), collections.Counter()
    for sheet in answer["sheets"]:
        kind = kinds[sheet["sheet"]]
        used[kind["id"]] += 1
        tree = sheet["tree"]
        assert (tree["x"], tree["y"], tree["width"], tree["height"]) == (0, 0, kind["width"], kind["height"])
        found = [leaf for leaf in leaves(tree, value["kerf"]) if "piece" in leaf]
        assert len(found) == len(sheet["pieces"]), "pieces listed are not the pieces cut"
        for leaf in found:
            row = rows[leaf["piece"]]
            straight = (leaf["width"], leaf["height"]) == (row["width"], row["height"])
            turned = (leaf["height"], leaf["width"]) == (row["width"], row["height"])
            assert straight or (turned and row.get("rotate", value["rotate"])), "a piece of the wrong size"
            seen[leaf["piece"], leaf["number"]] += 1
    wanted = {(row["id"], number) for row in value["pieces"] for number in range(1, row["count"] + 1)}
    assert set(seen) == wanted and max(seen.values(), default=1) == 1, "a piece is lost or there twice"
    for kind in kinds.values():
        assert kind.get("count") is None or used[kind["id"]] <= kind["count"], "more sheets than there are"
    assert answer["bought"] >= answer["lower_bound"] and answer["proven"] == (answer["bought"] == answer["lower_bound"])


def run(options, value):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(value, file)
        file.flush()
        done = subprocess.run(["nice", "-n", "10", options.cli, "nest", file.name, "--seconds", options.seconds,
                               "--threads", options.threads], capture_output=True, check=False)
    if done.returncode != 0:
        raise RuntimeError(done.stderr.decode())
    answer = json.loads(done.stdout)
    check(value, answer)
    return answer["bought"], answer["lower_bound"], answer["proven"], answer["seconds"]


def bench_classes(options, pool):
    first, _, last = options.classes.partition("-")
    wanted = range(int(first), int(last or first) + 1)
    lists = [entry for entry in read_classes(options.packing / "classes.txt") if entry[0] in wanted]
    with open(options.packing / "published.csv") as file:
        published = {(row["class"], row["pieces"]): row for row in csv.DictReader(file)}
    names = [name for name in next(iter(published.values())) if name not in ("class", "pieces", "lower_bound")]
    groups = collections.OrderedDict()
    for (number, n, _), result in zip(lists, pool.map(lambda entry: run(options, entry[2]), lists)):
        groups.setdefault((number, n), []).append(result)
    print("| class | pieces | sheets | bound | proven | s mean | s most | best published | GDRR |")
    print("|-|-|-|-|-|-|-|-|-|")
    total = [0, 0, 0, 0, 0, 0.0]
    for (number, n), results in groups.items():
        row = published[str(number), str(n)]
        best = min(int(row[name]) for name in names)
        used, bound, proven, seconds = zip(*results)
        print(f"| {number} | {n} | {sum(used)} | {sum(bound)} | {sum(proven)} of {len(used)} | "
              f"{statistics.mean(seconds):.2f} | {max(seconds):.2f} | {best} | {row['GDRR']} |", flush=True)
        for i, more in enumerate((sum(used), sum(bound), sum(proven), best, int(row["GDRR"]), sum(seconds))):
            total[i] += more
    print(f"| all | {len(lists)} lists | {total[0]} | {total[1]} | {total[2]} of {len(lists)} | "
          f"{total[5] / max(1, len(lists)):.2f} | | {total[3]} | {total[4]} |")


def bench_walls(options, pool):
    lists = [json.loads(path.read_text()) for path in sorted((options.packing / "walls").glob("*.json"))]
    results = list(pool.map(lambda value: run(options, value), lists))
    used, bound, proven, seconds = zip(*results)
    near = sum(u - b <= 1 for u, b in zip(used, bound))
    print(f"\n{len(lists)} wall lists: {sum(used)} sheets, bound {sum(bound)}; {sum(proven)} proven, {near} proven or within "
          f"one sheet; median {1000 * statistics.median(seconds):.1f} ms, most {1000 * max(seconds):.0f} ms")
    return near == len(lists) and sum(proven) >= 0.95 * len(lists)


def main():
    options = arguments()
    if not (options.packing / "classes.txt").exists():
        print(f"no lists in {options.packing}: skipped")
        return 77
    start = time.monotonic()
    with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
        if not options.walls_only:
            bench_classes(options, pool)
        good = bench_walls(options, pool)
    print(f"{time.monotonic() - start:.0f} s in all")
    return 0 if good else 1


sys.exit(main())
