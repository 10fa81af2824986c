#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes large projects for benchmarks: everything in them is invented, and the same arguments give the same bytes.

big-project.py tiles FILE   one alcove with about 5,000 small tiles in an offset pattern
big-project.py rooms FILE   a building: 1,000 objects in many rooms of one kind
big-project.py room FILE    one room with 1,000 objects: a long gallery with many corners, half walls, windows, parts
Knows the file format and nothing of the program.
"""
import json
import sys

INCH = 25.4
STUDS = {"stud_width": 1.5 * INCH, "stud_depth": 3.5 * INCH, "stud_spacing": 16 * INCH, "first_stud": 16 * INCH,
         "lining": 0.5 * INCH}
TILE = {"system": "cement-liquid", "tiled": True, "tile": "tile-3x6", "tile_width": 6 * INCH, "tile_height": 3 * INCH,
        "tile_thickness": 7.9375, "joint": 3.175, "mortar": 3.175, "pattern": "offset", "offset": 0.5}
SIZES = {"valve": (6.5, 6.5, 3, 3), "spout": (2.5, 2.5, 6, 1), "shower-head": (2.5, 2.5, 7, 1),
         "grab-bar": (24, 1.25, 2.75, None), "niche": (12, 20, 3, None)}
ITEMS = {"valve": "valve-mixer", "spout": "spout-tub", "shower-head": "head-shower", "grab-bar": "bar-24",
         "niche": "niche-built-12x20"}


class Ids:
    def __init__(self):
        self.last = 0

    def next(self):
        self.last += 1
        return self.last


def part(ids, kind, wall, u, z):
    width, height, depth, hole = SIZES[kind]
    made = {"id": ids.next(), "kind": kind, "item": ITEMS[kind], "wall": wall, "u": round(u * INCH, 4),
            "z": round(z * INCH, 4), "width": width * INCH, "height": height * INCH, "depth": depth * INCH}
    if hole:
        made["hole"] = hole * INCH
    if kind == "niche":
        made.update(site_built=True, pitch=0.020833)
    return made


def outline(ids, corners, **more):
    return [{"id": ids.next(), "start": [round(x * INCH, 4), round(y * INCH, 4)], **STUDS, **more} for x, y in corners]


def alcove(ids, name, finish=TILE):
    """A tub between three walls with a niche, the fittings, a bar, and a door: 12 objects and the room."""
    room = {"id": ids.next(), "name": name, "ceiling": 96 * INCH}
    walls = outline(ids, [(0, 96), (60, 96), (60, 0), (0, 0)])
    walls[1]["plumbing"] = True
    back, wet, front = walls[0]["id"], walls[1]["id"], walls[2]["id"]
    room["walls"] = walls
    room["openings"] = [{"id": ids.next(), "kind": "door", "wall": front, "u": 16 * INCH, "z": 0, "width": 30 * INCH,
                         "height": 80 * INCH}]
    room["basin"] = {"id": ids.next(), "kind": "tub", "item": "tub-60x30", "wall": back, "along": 0, "away": 0,
                     "length": 60 * INCH, "width": 30 * INCH, "height": 15 * INCH, "flange": INCH, "drain": "right",
                     "drain_diameter": 1.5 * INCH}
    room["wet"] = {"past": 2 * INCH, "leg": True}
    room["finish"] = finish
    room["parts"] = [part(ids, "niche", back, 24, 48), part(ids, "grab-bar", back, 12, 35),
                     part(ids, "valve", wet, 15, 40), part(ids, "spout", wet, 15, 21),
                     part(ids, "shower-head", wet, 15, 80)]
    return room


def rooms(ids):
    return [alcove(ids, "Unit %d" % (i + 1)) for i in range(91)]


def tiles(ids):
    small = dict(TILE, tile_width=1.5 * INCH, tile_height=1.25 * INCH, joint=1.5875)
    return [alcove(ids, "Small tiles", small)]


def gallery(ids):
    """A long room whose upper side is a row of bays, 60 in wide and 12 in apart in depth; half walls stand between them,
    and every bay holds windows, niches, bars and fittings."""
    bays, width = 40, 60
    corners = [(0, 0)]
    for i in range(bays):
        y = 120 + (12 if i % 2 else 0)
        corners += [(i * width, y), ((i + 1) * width, y)]
    corners.append((bays * width, 0))
    room = {"id": ids.next(), "name": "Gallery", "ceiling": 96 * INCH}
    room["walls"] = walls = outline(ids, corners)
    backs = [walls[1 + 2 * i]["id"] for i in range(bays)]
    room["added_walls"] = [
        {"id": ids.next(), "start": [(i * width + 30) * INCH, 60 * INCH], "end": [(i * width + 30) * INCH, 24 * INCH],
         "height": 42 * INCH, **STUDS} for i in range(bays)]
    room["openings"] = [
        {"id": ids.next(), "kind": "window", "wall": wall, "u": u * INCH, "z": 66 * INCH, "width": 10 * INCH,
         "height": 20 * INCH, "safety_glass": True, "sloped_sill": True} for wall in backs for u in (4, 24, 45)]
    room["basin"] = {"id": ids.next(), "kind": "pan", "item": "pan-60x32", "wall": backs[0], "along": 0, "away": 0,
                     "length": 60 * INCH, "width": 32 * INCH, "height": 4 * INCH, "flange": INCH, "drain": "centre",
                     "drain_diameter": 2 * INCH}
    room["wet"] = {"past": 2 * INCH, "leg": True}
    room["finish"] = TILE
    room["parts"] = parts = []
    count = len(walls) + len(room["added_walls"]) + len(room["openings"]) + 1
    while count + len(parts) < 1000:
        n = len(parts)
        wall, row, column = backs[n // 20 % bays], n % 20 // 4, n % 4
        kind = ("valve", "spout", "shower-head", "spout")[column]
        parts.append(part(ids, kind, wall, 5 + column * 13, 14 + row * 9 + (n // (20 * bays)) * 4))
    return [room]


def main():
    kind, path = sys.argv[1:3]
    ids = Ids()
    made = {"tiles": tiles, "rooms": rooms, "room": gallery}[kind](ids)
    project = {"format": "drybay-project", "version": 1, "next_id": ids.last + 1,
               "job": {"title": "Large: " + kind, "note": "For benchmarks; all of it is invented.",
                       "rule_pack": "us-residential", "year_built": 1990, "temperature_celsius": 21, "units": "inches",
                       "denominator": 16},
               "rooms": made}
    with open(path, "w", encoding="utf-8") as file:
        json.dump(project, file, indent=1)
    objects = sum(len(r["walls"]) + len(r.get("added_walls", [])) + len(r["openings"]) + len(r["parts"]) + 1 for r in made)
    print("%s: %d rooms, %d objects" % (kind, len(made), objects))


main()
