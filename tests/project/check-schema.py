# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks every shipped project and case against data/schemas/project.schema.json, and that the
schema refuses what the reader refuses. Knows nothing of the C code."""
import copy
import json
import pathlib
import sys

try:
    from jsonschema import Draft202012Validator
except ImportError:
    print("python3-jsonschema is not installed")
    sys.exit(77)

root = pathlib.Path(sys.argv[1])
schema = json.loads((root / "data/schemas/project.schema.json").read_text("utf-8"))
Draft202012Validator.check_schema(schema)
validator = Draft202012Validator(schema)

failures = 0
files = sorted((root / "data/demo").glob("*.drybay")) + sorted((root / "tests/cases").glob("*.drybay"))
files += sorted((root / "tests/releases").glob("*/*.drybay"))
if len(files) < 9:
    print(f"only {len(files)} projects found")
    failures += 1
for path in files:
    for error in validator.iter_errors(json.loads(path.read_text("utf-8"))):
        print(f"{path}: {error.json_path}: {error.message}")
        failures += 1

good = json.loads((root / "data/demo/alcove-refit.drybay").read_text("utf-8"))


def refuse(what, change):
    """A file with this change must not pass."""
    global failures
    bad = copy.deepcopy(good)
    change(bad)
    if validator.is_valid(bad):
        print(f"the schema lets through: {what}")
        failures += 1


refuse("another format", lambda p: p.update(format="other"))
refuse("a newer version", lambda p: p.update(version=2))
refuse("a least reader above the version", lambda p: p.update(least_reader=2))
refuse("an unknown field", lambda p: p.update(colour="red"))
refuse("an unknown field of a part", lambda p: p["rooms"][0]["parts"][0].update(colour="red"))
refuse("no rooms", lambda p: p.update(rooms=[]))
refuse("a size of nothing", lambda p: p["rooms"][0]["parts"][0].update(width=0))
refuse("a text for a length", lambda p: p["rooms"][0].update(ceiling="8 ft"))
refuse("an unknown kind", lambda p: p["rooms"][0]["parts"][0].update(kind="mirror"))
refuse("two walls", lambda p: p["rooms"][0].update(walls=p["rooms"][0]["walls"][:2]))
refuse("a missing id", lambda p: p["rooms"][0]["walls"][0].pop("id"))

with_boards = copy.deepcopy(good)
with_boards["rooms"][0]["seams"] = [
    {"id": 9000, "wall": 2, "direction": "upright", "at": 812.8, "through": 1500}]
with_boards["rooms"][0]["on_hand"] = [{"width": 500, "height": 800.5, "count": 2, "note": "in the shed"}]
if not validator.is_valid(with_boards):
    print("the schema refuses a wished seam and boards on hand")
    failures += 1
refuse("a seam without a direction",
       lambda p: p["rooms"][0].update(seams=[{"id": 9000, "wall": 2, "at": 1, "through": 1}]))
refuse("no boards on hand", lambda p: p["rooms"][0].update(on_hand=[{"width": 5, "height": 5, "count": 0}]))
kept = copy.deepcopy(good)
kept["rooms"][0]["heated_floor"] = True
if not validator.is_valid(kept):
    print("the schema refuses a room's unknown field, which the reader keeps")
    failures += 1

sys.exit(1 if failures else 0)
