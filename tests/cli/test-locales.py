#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Everything that leaves the program is the same bytes in every locale: JSON, CSV, workbook, calendar, SVG and PDF of
every demonstration and case, under a decimal comma (de_DE), Arabic (ar_EG) and the Turkish i (tr_TR) as under C.

Locales that are not installed are built by localedef into a folder of the test's own. Arguments: drybay-cli, the source
folder. Speaks TAP."""
import os
import pathlib
import subprocess
import sys
import tempfile

cli, root = sys.argv[1], pathlib.Path(sys.argv[2])
LOCALES = ["de_DE", "ar_EG", "tr_TR"]
# What is asked of every project; OUT is a file to compare. A search of nothing keeps it quick.
ASKED = [["plan", "--search=0"], ["findings", "--json", "--search=0"], ["takeoff", "--csv", "--search=0"],
         ["takeoff", "--json", "--search=0"], ["cost", "--csv", "--search=0"],
         ["papers", "--search=0", "-p", "a4", "-d", "2026-01-02", "-o", "OUT.pdf"]]
# And of the demonstrations.
MORE = [["tile", "--search=0"], ["findings", "--search=0"], ["takeoff", "--search=0"], ["water", "--json", "--search=0"],
        ["cost", "--json", "--search=0"], ["cost", "--csv", "--decimal=comma", "--search=0"],
        ["cost", "--search=0", "-d", "2026-01-02", "-p", "letter", "--proposal=OUT.pdf"],
        ["cost", "--search=0", "--xlsx=OUT.xlsx"], ["schedule", "--search=0", "-s", "2026-01-05", "--json"],
        ["schedule", "--search=0", "-s", "2026-01-05", "--ics=OUT.ics"], ["compare", "--json", "--search=0"],
        ["drawing", "--search=0", "-s", "board", "-p", "a4", "-o", "OUT.svg"],
        ["drawing", "--search=0", "-s", "plan", "-p", "a4", "-o", "OUT.pdf"]]


def build(folder):
    """LOCPATH with the three locales, as ar_EG.UTF-8; those that could be had."""
    had = []
    for name in LOCALES:
        made = subprocess.run(["localedef", "-i", name, "-f", "UTF-8", str(folder / f"{name}.UTF-8")], capture_output=True)
        if made.returncode in (0, 1) and (folder / f"{name}.UTF-8" / "LC_NUMERIC").exists():
            had.append(name)
    return had


def ask(project, command, locale, locpath, scratch):
    """(status, printed, file) under the locale."""
    out = None
    arguments = []
    for word in command:
        if "OUT." in word:
            out = scratch / ("out." + word.rsplit(".", 1)[1])
            out.unlink(missing_ok=True)
            word = word[:word.index("OUT.")] + str(out)
        arguments.append(word)
    env = {**os.environ, "LC_ALL": locale, "LANG": locale, "LOCPATH": str(locpath), "TZ": "UTC"}
    env.pop("LANGUAGE", None)
    if locale == "C.UTF-8":
        env.pop("LOCPATH")
    done = subprocess.run([cli, *arguments, str(project)], capture_output=True, env=env, timeout=120)
    return done.returncode, done.stdout, out.read_bytes() if out is not None and out.exists() else None


def main():
    number = bad = 0
    with tempfile.TemporaryDirectory(prefix="drybay-locales-") as name:
        scratch = pathlib.Path(name)
        locpath = scratch / "locales"
        locpath.mkdir()
        had = build(locpath)
        demos, cases = sorted((root / "data/demo").glob("*.drybay")), sorted((root / "tests/cases").glob("*.drybay"))
        reference = {}
        for project in demos + cases:
            for command in ASKED + (MORE if project in demos else []):
                reference[project, tuple(command)] = ask(project, command, "C.UTF-8", locpath, scratch)
        empty = [key for key, (status, printed, file) in reference.items() if status not in (0, 1) or not (printed or file)]
        number += 1
        print(f"{'not ok' if empty else 'ok'} {number} {len(reference)} outputs of {len(demos)} demonstrations and {len(cases)} cases")
        for project, command in empty[:10]:
            print(f"# {project.name} {' '.join(command)}: {reference[project, command][0]}")
        bad += bool(empty)
        for locale in LOCALES:
            number += 1
            if locale not in had:
                print(f"ok {number} {locale} # SKIP it cannot be built here")
                continue
            # That the locale is one: date(1) says the month in its language.
            env = {**os.environ, "LC_ALL": f"{locale}.UTF-8", "LOCPATH": str(locpath)}
            month = subprocess.run(["date", "-d", "2026-05-01", "+%B"], capture_output=True, env=env).stdout.strip()
            other = [key for key, answer in reference.items()
                     if ask(key[0], list(key[1]), f"{locale}.UTF-8", locpath, scratch) != answer]
            fine = not other and month != b"May"
            print(f"{'ok' if fine else 'not ok'} {number} {locale}: {len(other)} of {len(reference)} outputs differ")
            for project, command in other[:10]:
                print(f"# {project.name} {' '.join(command)}")
            if month == b"May":
                print("# the locale is not used")
            bad += not fine
    print(f"1..{number}")
    sys.exit(1 if bad else 0)


main()
