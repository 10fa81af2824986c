#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every warning of the trade list has its rules, every rule its test: docs/rules-coverage.md against the packs.

Reads the two tables of rules in the document, the packs in data/rules and the tests of rules; runs nothing.
Each rule a row names must be one of a pack, with that number, in the packs the row says; each test it names
must speak of the rule. A warning without a rule needs an argument, and no rule may be left out."""
import json
import pathlib
import re
import sys

WARNINGS = 86
PACKS = {"common-practice": "common", "us-residential": "US", "us-upc": "UPC", "us-accessible": "ADA", "canada": "CA",
         "australia": "AU", "germany": "DE", "united-kingdom": "GB", "new-zealand": "NZ"}
# "limits" is the sweep over every limit of every rule, which speaks of none by name.
TESTS = {"rule-limits": "test-rule-limits.c", "findings": "test-findings.c", "remedies": "remedy-rooms.c", "rules": "test-rules.c",
         "cases": "test-cases.c", "facts-code": "test-facts-code.c", "water": "test-water.c", "cautions": "test-cautions.c"}

root = pathlib.Path(sys.argv[1])
faults = []


def read_rules():
    """Rule id to its number and the short names of its packs; the options of choices count."""
    found = {}
    for path in sorted((root / "data/rules").glob("*.json")):
        pack = json.loads(path.read_text(encoding="utf-8"))
        rules = list(pack["rules"])
        for choice in pack.get("choices", []):
            for option in choice["options"]:
                rules += option["rules"]
        for rule in rules:
            if rule.get("off"):
                continue
            entry = found.setdefault(rule["id"], {"numbers": set(), "packs": set()})
            entry["numbers"].add(rule.get("number", 0))
            entry["packs"].add(PACKS[pack["id"]])
    return found


def read_table(text, heading):
    part = text.split("## " + heading + "\n", 1)[1].split("\n## ", 1)[0]
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in part.splitlines() if line.startswith("| ")]
    return rows[2:] if set("".join(rows[1])) <= set("- ") else rows[1:]


def read_sources():
    sources = {name: (root / "tests/plan" / file).read_text(encoding="utf-8") for name, file in TESTS.items()
               if (root / "tests/plan" / file).exists()}
    sources["cases"] += (root / "docs/cases.md").read_text(encoding="utf-8").replace("`", '"')
    return sources


def check_row(where, rules, number, cell, tests, sources, seen):
    named = re.findall(r"`([a-z0-9-]+)` \(([A-Za-z, ]+)\)", cell)
    listed = [t.strip() for t in tests.split(",") if t.strip() not in ("", "-")]
    for test in listed:
        if test != "limits" and test not in sources:
            faults.append(f"{where}: there is no test “{test}”")
        elif test != "limits" and not any(f'"{rule}"' in sources[test] for rule, _ in named):
            faults.append(f"{where}: “{test}” speaks of none of its rules")
    if named and not listed:
        faults.append(f"{where}: no test")
    for rule, packs in named:
        if rule not in rules:
            faults.append(f"{where}: no pack has a rule “{rule}”")
            continue
        seen.add(rule)
        if number not in rules[rule]["numbers"]:
            faults.append(f"{where}: “{rule}” has number {sorted(rules[rule]['numbers'])}")
        if {p.strip() for p in packs.split(",")} != rules[rule]["packs"]:
            faults.append(f"{where}: “{rule}” is in {sorted(rules[rule]['packs'])}")
    return named


def main():
    rules, sources, seen = read_rules(), read_sources(), set()
    text = (root / "docs/rules-coverage.md").read_text(encoding="utf-8")
    warnings = {int(row[0]): row for row in read_table(text, "Warnings")}
    for number in range(1, WARNINGS + 1):
        if number not in warnings:
            faults.append(f"warning {number} has no row")
            continue
        _, cell, tests, note = warnings[number]
        if not check_row(f"warning {number}", rules, number, cell, tests, sources, seen) and len(note) < 20:
            faults.append(f"warning {number} has neither rule nor argument")
    for number in set(warnings) - set(range(1, WARNINGS + 1)):
        faults.append(f"there is no warning {number}")
    for cell, tests in read_table(text, "Cautions and rules without a number"):
        check_row(cell, rules, 0, cell, tests, sources, seen)
    faults.extend(f"“{rule}” of {sorted(rules[rule]['packs'])} is in no row" for rule in sorted(set(rules) - seen))
    for row in read_table(text, "Check values"):
        for test in re.findall(r"test-[a-z-]+", row[2]):
            if not list((root / "tests").glob(f"*/{test}.c")):
                faults.append(f"check value {row[0]}: there is no {test}")
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"{len(warnings)} warnings, {len(rules)} rules, {len(faults)} faults")
    return 1 if faults else 0


sys.exit(main())
