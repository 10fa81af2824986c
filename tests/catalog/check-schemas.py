#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the shipped catalogue against its JSON Schemas, and the schemas against broken copies of it.
It knows the files only; that the program's reader agrees is what the C tests beside it show."""
import copy
import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    print("1..0 # SKIP the Python module jsonschema is missing")
    sys.exit(77)

PARTS = {"systems": "system", "items": "items", "rules": "rules", "prices": "prices"}
MAX_BROKEN = 120  # of one file; spread evenly over all that could be made


def objects(value, path=""):
    """Every object in the document, with its path."""
    if isinstance(value, dict):
        yield path, value
        for key, child in value.items():
            yield from objects(child, f"{path}.{key}")
    elif isinstance(value, list):
        for index, child in enumerate(value):
            yield from objects(child, f"{path}[{index}]")


def at(document, index):
    return list(objects(document))[index][1]


def broken_copies(document):
    """Copies with one thing wrong each: an unknown key, a source left out, a certainty made up."""
    count = sum(1 for _ in objects(document))
    step = max(1, count * 3 // MAX_BROKEN)
    for index in range(0, count, step):
        path, original = list(objects(document))[index]
        one = copy.deepcopy(document)
        at(one, index)["no-such-key"] = 1
        yield f"unknown key at {path}", one
        if "source" in original:
            two = copy.deepcopy(document)
            del at(two, index)["source"]
            yield f"no source at {path}", two
            three = copy.deepcopy(document)
            at(three, index)["certainty"] = "sure"
            yield f"made-up certainty at {path}", three
    newer = copy.deepcopy(document)
    newer["version"] = 2
    yield "newer version", newer


def check_prices(document, name, problems):
    """A file with a price in it says that prices are invented."""
    if any(value.get("price") for _, value in objects(document)):
        if "invented" not in document.get("note", ""):
            problems.append(f"{name}: has prices, and its note does not say they are invented")


def main():
    data = pathlib.Path(sys.argv[1])
    problems, files, broken = [], 0, 0
    for part, schema_name in PARTS.items():
        schema = json.loads((data / "schemas" / f"{schema_name}.schema.json").read_text("utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        validator = jsonschema.Draft202012Validator(schema)
        for path in sorted((data / part).glob("*.json")):
            document = json.loads(path.read_text("utf-8"))
            files += 1
            for error in validator.iter_errors(document):
                where = ".".join(str(step) for step in error.absolute_path)
                problems.append(f"{part}/{path.name}: {where}: {error.message[:300]}")
            check_prices(document, f"{part}/{path.name}", problems)
            for what, bad in broken_copies(document):
                broken += 1
                if validator.is_valid(bad):
                    problems.append(f"{part}/{path.name}: schema lets pass: {what}")
    if files < 8:
        problems.append(f"only {files} catalogue files found in {data}")
    print("1..1")
    for problem in problems:
        print("#", problem)
    print("not ok" if problems else "ok", f"1 - {files} files valid, {broken} broken copies refused")
    return 1 if problems else 0


sys.exit(main())
