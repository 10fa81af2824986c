#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes every system call of loading, saving, keeping versions, the journal and exporting fail in turn.

Whatever fails: a message and an exit status that says so, no damaged file, nothing left lying about, no crash. Speaks TAP.
Arguments: the program of program.c, drybay-cli, a project file.
"""
import os
import pathlib
import shutil
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import faults

PROGRAM, CLI, SAMPLE = sys.argv[1:4]
ERRORS = ["EIO", "ENOSPC", "EACCES"]
# What cannot be undone when the undoing itself fails.
TIDYING = {"unlink", "unlinkat"}


def run(mode, where, title):
    return [PROGRAM, mode, SAMPLE, str(where), title]


def fresh(base):
    shutil.rmtree(base, ignore_errors=True)
    base.mkdir()


def files_in(base):
    return sorted(str(path.relative_to(base)) for path in base.rglob("*") if not path.is_dir())


def hits_of(command, threads=False):
    answer, calls = faults.trace(command)
    assert answer.returncode == 0, answer.stderr
    ranges = faults.between_marks(calls)
    return [(name, number) for name, (first, last) in sorted(ranges.items()) if name not in faults.MEMORY
            for number in range(1 if threads else first, last + 1)]


def fail_saves(tap, base, existing):
    file, problems, refused = base / "job.drybay", [], 0

    def prepare():
        fresh(base)
        if existing:
            file.write_bytes(old)

    fresh(base)
    faults.subprocess.run(run("save", file, "New"), check=True)
    new = file.read_bytes()
    faults.subprocess.run(run("save", file, "Old"), check=True)
    old = file.read_bytes()
    prepare()
    hits = hits_of(run("save", file, "New"))
    for name, number in hits:
        for error in ERRORS:
            prepare()
            answer = faults.hit(run("save", file, "New"), name, number, f"error={error}")
            message = answer.stderr.decode()
            stands = file.read_bytes() if file.exists() else None
            at = f"{name} {number} {error}"
            if answer.returncode not in (0, 1):
                problems.append(f"{at}: exit status {answer.returncode}: {message}")
            elif answer.returncode == 0 and stands != new:
                problems.append(f"{at}: said it saved and did not")
            elif answer.returncode == 1:
                refused += 1
                if "job.drybay" not in message or len(message.strip().split(":")) < 3:
                    problems.append(f"{at}: the message says too little: {message!r}")
                if stands != (new if "saved, but" in message else old if existing else None):
                    problems.append(f"{at}: the file is another")
            left = [path for path in files_in(base) if path != "job.drybay"]
            if left and name not in TIDYING:
                problems.append(f"{at}: {left} lies about")
            faults.subprocess.run(run("save", file, "New"), check=True)
            if files_in(base) != ["job.drybay"]:
                problems.append(f"{at}: {files_in(base)} after the next save")
    if refused == 0:
        problems.append("nothing failed at all")
    tap.check(f"save {'over an old file' if existing else 'a new file'}: {len(hits)} calls by {len(ERRORS)} errors, {refused} refused", problems)


def fail_versions(tap, base):
    problems, refused = [], 0
    fresh(base)
    hits = hits_of(run("version", base, "2026-01"))
    good = {title: None for title in ("2026-01", "2026-02")}
    for title in good:
        faults.subprocess.run(run("save", base / "x.drybay", title), check=True)
        good[title] = (base / "x.drybay").read_bytes()
    for name, number in hits:
        for error in ERRORS:
            fresh(base)
            faults.subprocess.run(run("version", base, "2026-01"), check=True)
            answer = faults.hit(run("version", base, "2026-02"), name, number, f"error={error}")
            at = f"{name} {number} {error}"
            if answer.returncode not in (0, 1) or (answer.returncode == 1 and not answer.stderr.strip()):
                problems.append(f"{at}: exit status {answer.returncode}: {answer.stderr!r}")
            refused += answer.returncode == 1
            names = [pathlib.Path(path).stem for path in files_in(base) if path.endswith(".drybay")]
            if "2026-01" not in names or any(file.read_bytes() != good[file.stem] for file in base.rglob("*.drybay")):
                problems.append(f"{at}: a version is gone or damaged: {files_in(base)}")
            if len(names) != len(files_in(base)) and name not in TIDYING:
                problems.append(f"{at}: {files_in(base)} lies about")
    if refused == 0:
        problems.append("nothing failed at all")
    tap.check(f"versions: {len(hits)} calls by {len(ERRORS)} errors, {refused} refused", problems)


def fail_journal(tap, base):
    """A journal that cannot be begun says so; one that cannot go on tells its trouble and keeps what it has."""
    problems, refused, troubled = [], 0, 0
    fresh(base)
    hits = [hit for hit in hits_of(run("journal", base, "Step 0"), threads=True) if hit[0] != "write"]  # its own talk
    for name, number in hits:
        for error in ERRORS:
            fresh(base)
            answer = faults.hit(run("journal", base, "Step 0"), name, number, f"error={error}")
            said, at = answer.stdout.decode(), f"{name} {number} {error}"
            if answer.returncode not in (0, 1, 127):  # 127: not even its libraries could be loaded
                problems.append(f"{at}: exit status {answer.returncode}: {answer.stderr!r}")
            if answer.returncode == 1 and not answer.stderr.strip():
                problems.append(f"{at}: no message")
            refused += answer.returncode == 1
            troubled += "trouble" in said
            found = faults.subprocess.run(run("list", base, "x"), capture_output=True)
            titles = found.stdout.decode().split("\n")[:-1]
            if answer.returncode == 0 and "trouble" not in said and titles != ["Step 3"]:
                problems.append(f"{at}: all well, and {titles} came back")
            if found.returncode != 0 or files_in(base):
                problems.append(f"{at}: {found.stderr.decode()} {files_in(base)}")
    if refused == 0:
        problems.append("no journal was refused")
    tap.check(f"journal: {len(hits)} calls by {len(ERRORS)} errors, {refused} refused, {troubled} told of trouble at the end", problems)


def own_calls(command, base):
    """The calls of a run of drybay-cli that have to do with files that are ours, by name and number of each."""
    answer, calls = faults.trace(command)
    assert answer.returncode == 0, answer.stderr
    counts, hits, reading, writing = faults.collections.Counter(), [], False, False
    for name, arguments in calls:
        counts[name] += 1
        # From where the project is opened to where it is closed, and from where the output is first named. In between,
        # others look for fonts, and do without one they cannot have.
        reading = reading or (name == "openat" and SAMPLE in arguments)
        writing = writing or (name != "execve" and str(base) in arguments)
        if (reading or writing) and name not in faults.MEMORY:
            hits.append((name, counts[name]))
        if name == "close":
            reading = False
    return hits


def fail_exports(tap, base, label, arguments, out):
    command = [CLI, *arguments]
    file, problems, refused = base / out, [], 0
    fresh(base)
    command = [argument.replace("OUT", str(file)) for argument in command]
    hits = faults.some(own_calls(command, base))
    whole = file.read_bytes()
    for index, (name, number) in enumerate(hits):
        fresh(base)
        file.write_bytes(b"old")
        answer = faults.hit(command, name, number, f"error={ERRORS[index % len(ERRORS)]}")
        at = f"{name} {number} {ERRORS[index % len(ERRORS)]}"
        message, stands = answer.stderr.decode(), file.read_bytes() if file.exists() else None
        if answer.returncode not in (0, 1, 2):
            problems.append(f"{at}: exit status {answer.returncode}: {message}")
        elif answer.returncode == 2:
            refused += 1
            if not message.startswith("drybay-cli"):
                problems.append(f"{at}: no message of ours: {message!r}")
        # A font that cannot be read is replaced by another: other bytes, but a whole file.
        other = stands is not None and stands[:4] == whole[:4] and stands[-6:] == whole[-6:] and "Pango-WARNING" in message
        if not other and (stands not in (b"old", whole) or (answer.returncode == 0 and stands != whole)):
            problems.append(f"{at}: status {answer.returncode}, the file is {len(stands or b'')} bytes, not {len(whole)}")
        if files_in(base) != [out] and name not in TIDYING:
            problems.append(f"{at}: {files_in(base)} lies about")
    if refused == 0:
        problems.append("nothing failed at all")
    tap.check(f"{label}: {len(hits)} calls, {refused} refused", problems)


def fail_printing(tap, label, arguments):
    """Standard output that cannot be written: said, and no success."""
    answer, calls = faults.trace([CLI, *arguments])
    n, problems = sum(name == "write" for name, _ in calls), []
    for number in faults.some(range(1, n + 1), 10):
        for error in ERRORS + ["EPIPE"]:
            answer = faults.hit([CLI, *arguments], "write", number, f"error={error}")
            if answer.returncode != 2 or not answer.stderr:
                problems.append(f"write {number} {error}: status {answer.returncode}, {answer.stderr!r}")
    tap.check(f"{label}: {n} writes", problems if n else ["it writes nothing"])


def main():
    faults.need_strace()
    tap = faults.Tap()
    with tempfile.TemporaryDirectory(prefix="drybay-calls-") as name:
        folder = pathlib.Path(name)
        fail_saves(tap, folder / "new", False)
        fail_saves(tap, folder / "old", True)
        fail_versions(tap, folder / "versions")
        fail_journal(tap, folder / "journal")
        fail_exports(tap, folder / "papers", "papers", ["papers", SAMPLE, "-o", "OUT"], "out.pdf")
        fail_exports(tap, folder / "drawing", "drawing", ["drawing", SAMPLE, "--sheet", "plan", "-o", "OUT"], "out.svg")
        fail_exports(tap, folder / "prices", "price list as CSV", ["prices", "sample-us", "-o", "OUT"], "out.csv")
        fail_printing(tap, "take-off", ["takeoff", SAMPLE])
        fail_printing(tap, "plan as JSON", ["plan", SAMPLE])
    tap.end()


main()
