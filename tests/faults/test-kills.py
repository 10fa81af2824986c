#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Kills a program at every system call of a save, of keeping a version and of a journal, one after the other.

Whatever the call: the old document or the new one stands there whole, and what lies about is gone after the next save.
Speaks TAP. Arguments: the program of program.c, a project file.
"""
import os
import pathlib
import shutil
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import faults

PROGRAM, SAMPLE = sys.argv[1], sys.argv[2]


def run(mode, where, title):
    return [PROGRAM, mode, SAMPLE, str(where), title]


def texts(folder, mode):
    """What a finished run writes, by title: the only documents that may ever stand there."""
    result = {}
    for title in ("2026-01", "2026-02", "2026-03"):
        file = folder / f"{title}.drybay"
        faults.subprocess.run(run("save", file, title), check=True)
        result[title] = file.read_bytes()
        file.unlink()
    return result


def every_call(command, threads=False):
    """strace counts each thread's calls for itself: with threads, a call's number may be any up to the whole count."""
    answer, calls = faults.trace(command)
    assert answer.returncode == 0, answer.stderr
    ranges = faults.between_marks(calls)
    return [(name, number) for name, (first, last) in sorted(ranges.items()) for number in range(1 if threads else first, last + 1)]


def fresh(base):
    shutil.rmtree(base, ignore_errors=True)
    base.mkdir()


def kill_saves(tap, base, wanted, link, existing):
    file, problems, killed = base / "job.drybay", [], 0

    def prepare():
        fresh(base)
        if link:
            (base / "real").mkdir()
            os.symlink("real/that.drybay", file)
        if existing:
            file.write_bytes(wanted["2026-01"])
            os.chmod(file, 0o640)

    prepare()
    hits = every_call(run("save", file, "2026-02"))
    for name, number in hits:
        prepare()
        answer = faults.hit(run("save", file, "2026-02"), name, number, "signal=KILL")
        killed += answer.returncode != 0
        stands = file.read_bytes() if file.exists() else None
        allowed = [wanted["2026-02"], wanted["2026-01"] if existing else None]
        if stands not in allowed:
            problems.append(f"killed at {name} {number}: neither the old file nor the new one")
        if answer.returncode == 0 and stands != wanted["2026-02"]:
            problems.append(f"{name} {number}: said it saved and did not")
        if existing and file.exists() and file.stat().st_mode & 0o777 != 0o640:
            problems.append(f"killed at {name} {number}: the mode is another")
        faults.subprocess.run(run("save", file, "2026-03"), check=True)
        left = sorted(str(path.relative_to(base)) for path in base.rglob("*") if not path.is_dir())
        if left != (["job.drybay", "real/that.drybay"] if link else ["job.drybay"]) or file.read_bytes() != wanted["2026-03"]:
            problems.append(f"killed at {name} {number}: after the next save there is {left}")
    if killed < len(hits) * 3 // 4:
        problems.append(f"only {killed} of {len(hits)} runs were killed")
    tap.check(f"save, {'link' if link else 'file'}, {'over an old one' if existing else 'new'}: {killed} kills at {len(hits)} calls", problems)


def kill_versions(tap, base, wanted):
    problems, killed = [], 0

    def prepare():
        fresh(base)
        faults.subprocess.run(run("version", base, "2026-01"), check=True)

    prepare()
    hits = every_call(run("version", base, "2026-02"))
    for name, number in hits:
        prepare()
        answer = faults.hit(run("version", base, "2026-02"), name, number, "signal=KILL")
        killed += answer.returncode != 0
        for file in base.rglob("*.drybay"):
            if file.read_bytes() != wanted[file.stem]:
                problems.append(f"killed at {name} {number}: {file.name} is damaged")
        faults.subprocess.run(run("version", base, "2026-03"), check=True)
        left = sorted(path.name for path in base.rglob("*") if not path.is_dir())
        if left not in (["2026-01.drybay", "2026-03.drybay"], ["2026-01.drybay", "2026-02.drybay", "2026-03.drybay"]):
            problems.append(f"killed at {name} {number}: after the next one there is {left}")
    tap.check(f"versions: {killed} kills at {len(hits)} calls", problems)


def kill_journal(tap, base):
    problems, killed, most = [], 0, 0
    fresh(base)
    hits = every_call(run("journal", base, "Step 0"), threads=True)
    for name, number in hits:
        fresh(base)
        answer = faults.hit(run("journal", base, "Step 0"), name, number, "signal=KILL")
        killed += answer.returncode != 0
        told = answer.stdout.decode().count("told ")
        found = faults.subprocess.run(run("list", base, "x"), capture_output=True)
        titles = found.stdout.decode().split("\n")[:-1]
        if found.returncode != 0:
            problems.append(f"killed at {name} {number}: {found.stderr.decode()}")
        if len(titles) > 1 or (told > 0 and not titles):
            problems.append(f"killed at {name} {number} after {told} steps were told: {titles}")
        elif titles and not told <= int(titles[0].split()[-1]) <= told + 1:
            problems.append(f"killed at {name} {number} after {told} steps were told: {titles[0]} came back")
        left = [path.name for path in base.rglob("*")]
        if left:
            problems.append(f"killed at {name} {number}: {left} lies about")
        most = max(most, told)
    if most < 3:
        problems.append("no run told all its steps")
    tap.check(f"journal: {killed} kills at {len(hits)} calls", problems)


def main():
    faults.need_strace()
    tap = faults.Tap()
    with tempfile.TemporaryDirectory(prefix="drybay-kills-") as name:
        folder = pathlib.Path(name)
        wanted = texts(folder, "save")
        kill_saves(tap, folder / "new", wanted, False, False)
        kill_saves(tap, folder / "old", wanted, False, True)
        kill_saves(tap, folder / "link", wanted, True, True)
        kill_versions(tap, folder / "versions", wanted)
        kill_journal(tap, folder / "journal")
    tap.end()


main()
