#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes allocations of saving, keeping versions, the journal, loading and exporting fail in turn, one a run.

GLib ends the program when it gets no memory, on purpose: nothing can be told then. (When nothing at all is left, not even
for the message, it falls over that; so one allocation fails, not all after it.) What must hold is that files are the
old or the new ones, whole; that work told to be in the journal comes back; that the program ends by its own abort or with
a message, never by touching what it does not have, and never says it did what it did not. Speaks TAP.
Arguments: the program of program.c, drybay-cli, the library of alloc.c, a project file. DRYBAY_FAULTS=all: every one of saving,
versions and journal, and of the others the first on every path of ten calls that leads to an allocation; else some of these.
"""
import concurrent.futures
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import faults

PROGRAM, CLI, LIBRARY, SAMPLE = sys.argv[1:5]
# GLib 2.74 waits for itself when its own first-time set-up gets no memory (g_once_init_enter() within g_log()): killed.
STOOD_STILL, PATIENCE = -signal.SIGKILL, 10
TYPESETTERS = ("libfontconfig", "libpango", "libcairo", "libharfbuzz", "libfreetype", "libpixman", "libfribidi", "libexpat")
ENDS = {-signal.SIGABRT, -signal.SIGTRAP}


DEPTH = 10  # callers by which the paths to allocations are told apart
# A path is the same in two runs only when programs are put at the same addresses.
SAME_PLACE = ["setarch", "-R"] if shutil.which("setarch") and subprocess.run(["setarch", "-R", "true"], capture_output=True).returncode == 0 else []


def call(command, number, mark=True, **more):
    """Runs the command with its `number`-th allocation failing; 0 counts them: (answer, how many there were)."""
    with tempfile.NamedTemporaryFile("r") as report:
        env = {**os.environ, "LD_PRELOAD": LIBRARY, "DRYBAY_ALLOC": str(number), "DRYBAY_ALLOC_MARK": str(int(mark)), "DRYBAY_ALLOC_REPORT": report.name, "G_SLICE": "always-malloc", **more}
        try:
            answer = subprocess.run(command, capture_output=True, timeout=60 if number == 0 else PATIENCE, env=env)
        except subprocess.TimeoutExpired as late:
            answer = subprocess.CompletedProcess(command, STOOD_STILL, late.stdout or b"", late.stderr or b"")
        lines = [line.split() for line in report.read().splitlines()]
    answer.reached = not lines or lines[-1][1] != "0"  # who ends by a signal reports nothing, and got that far
    if "DRYBAY_ALLOC_DEPTH" in more and number == 0:
        return answer, [(int(at), path) for at, path in lines[:-1]], int(lines[-1][0])
    return answer, int(lines[-1][0]) if lines else 0


def each_path(command, most):
    """What to fail in a run of the command: some of the paths to an allocation, (number, environment), and how many allocations and
    paths there are. Without the same addresses in each run, some of all numbers."""
    if not SAME_PLACE:
        _, total = call(command, 0, mark=False)
        return [(number, {}) for number in faults.some(range(1, total + 1), most)], f"{total} allocations"
    _, paths, total = call(SAME_PLACE + command, 0, mark=False, DRYBAY_ALLOC_DEPTH=str(DEPTH))
    return ([(number, {"DRYBAY_ALLOC_DEPTH": str(DEPTH), "DRYBAY_ALLOC_PATH": path}) for number, path in faults.some(paths, most)],
            f"{total} allocations on {len(paths)} paths")


def in_turn(tries, one):
    """`one(number, environment)` for each, as many at a time as there are processors."""
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        list(pool.map(lambda what: one(*what), tries))


class Count:
    def __init__(self):
        self.ended = self.refused = self.went_on = self.stood = self.fonts = self.missed = 0

    def take(self, answer, at, problems):
        """FALSE when how it ended is a fault of its own."""
        if answer.returncode in ENDS:
            self.ended += 1
        elif answer.returncode == STOOD_STILL:
            self.stood += 1
        elif answer.returncode == 0:
            self.went_on += answer.reached
            self.missed += not answer.reached
        elif answer.returncode in (1, 2) and answer.stderr.strip():
            self.refused += 1
        elif answer.returncode == 127 and b"loading shared libraries" in answer.stderr:
            self.refused += 1  # not even its libraries
        else:
            problems.append(f"{at}: status {answer.returncode}: {answer.stderr[-300:]!r}")

    def __str__(self):
        return (f"{self.ended} ended the program, {self.refused} were told, {self.went_on} did no harm, {self.stood} stood still, "
                f"{self.fonts} fell in libraries that set text, {self.missed} were not come by again")


def fell_elsewhere(answer):
    """The library in which a run touched what it does not have, when it is none of ours: several that set text do not look
    whether they got memory. The frames are told by alloc.c; those of the C library say nothing."""
    if answer.returncode != -signal.SIGSEGV:
        return None
    frames = [line for line in answer.stderr.decode(errors="replace").splitlines() if "(" in line and "[0x" in line]
    for frame in frames:
        name = os.path.basename(frame.split("(")[0])
        if name.startswith(("fault-memory", "libc.so", "libm.so")):
            continue
        return name if name.startswith(TYPESETTERS) else None
    return None


def fresh(base):
    shutil.rmtree(base, ignore_errors=True)
    base.mkdir()


def program(mode, where, title):
    return [PROGRAM, mode, SAMPLE, str(where), title]


def files_in(base):
    return sorted(path.name for path in base.rglob("*") if not path.is_dir())


def fail_saves(tap, base):
    file, problems, count = base / "job.drybay", [], Count()
    fresh(base)
    subprocess.run(program("save", file, "New"), check=True)
    new = file.read_bytes()
    subprocess.run(program("save", file, "Old"), check=True)
    old = file.read_bytes()
    _, total = call(program("save", file, "Old"), 0)
    for number in faults.some(range(1, total + 1), 150):
        fresh(base)
        file.write_bytes(old)
        answer, _ = call(program("save", file, "New"), number)
        at = f"allocation {number}"
        count.take(answer, at, problems)
        stands = file.read_bytes() if file.exists() else None
        if stands not in (old, new):
            problems.append(f"{at}: neither the old file nor the new one")
        if answer.returncode == 0 and stands != new:
            problems.append(f"{at}: said it saved and did not")
        subprocess.run(program("save", file, "New"), check=True)
        if files_in(base) != ["job.drybay"] or file.read_bytes() != new:
            problems.append(f"{at}: {files_in(base)} after the next save")
    tap.check(f"save: {total} allocations: {count}", problems if total > 100 else ["nothing was counted"])


def fail_versions(tap, base):
    problems, count, good = [], Count(), {}
    fresh(base)
    for title in ("2026-01", "2026-02"):
        subprocess.run(program("save", base / "x.drybay", title), check=True)
        good[title] = (base / "x.drybay").read_bytes()
    fresh(base)
    _, total = call(program("version", base, "2026-01"), 0)
    for number in faults.some(range(1, total + 1), 60):
        fresh(base)
        subprocess.run(program("version", base, "2026-01"), check=True)
        answer, _ = call(program("version", base, "2026-02"), number)
        at = f"allocation {number}"
        count.take(answer, at, problems)
        found = {path.stem: path.read_bytes() for path in base.rglob("*.drybay") if not path.name.startswith(".")}
        if "2026-01" not in found or any(good.get(title) != text for title, text in found.items()):
            problems.append(f"{at}: a version is gone or damaged: {files_in(base)}")
    tap.check(f"versions: {total} allocations: {count}", problems if total > 50 else ["nothing was counted"])


def fail_journal(tap, base):
    problems, count = [], Count()
    fresh(base)
    _, total = call(program("journal", base, "Step 0"), 0)
    for number in faults.some(range(1, total + 1), 150):
        fresh(base)
        answer, _ = call(program("journal", base, "Step 0"), number)
        at = f"allocation {number}"
        count.take(answer, at, problems)
        told = [int(line.split()[1]) for line in answer.stdout.decode().splitlines() if line.startswith("told")]
        found = subprocess.run(program("list", base, "x"), capture_output=True)
        titles = found.stdout.decode().split("\n")[:-1]
        last = max(told, default=0)
        # What was told is there, or the step after it; with trouble told it may be less.
        fine = [[f"Step {n}"] for n in (last, last + 1) if n > 0] + ([[]] if last == 0 else [])
        if found.returncode != 0 or (titles not in fine and b"trouble" not in answer.stdout):
            problems.append(f"{at}: told {last}, {titles} came back: {found.stderr.decode()}")
    tap.check(f"journal: {total} allocations: {count}", problems if total > 100 else ["nothing was counted"])


def fail_exports(tap, base, label, arguments, out, most):
    problems, count = [], Count()
    fresh(base)

    def command(folder):
        return [argument.replace("OUT", str(folder / out)) for argument in [CLI, *arguments]]

    subprocess.run(command(base), check=True, capture_output=True)
    whole = (base / out).read_bytes()
    tries, there_are = each_path(command(base), most)

    def one(number, environment):
        folder = pathlib.Path(tempfile.mkdtemp(dir=base))
        file = folder / out
        file.write_bytes(b"old")
        answer, _ = call(SAME_PLACE + command(folder), number, mark=False, **environment)
        at = f"allocation {number} {environment.get('DRYBAY_ALLOC_PATH', '')}"
        if fell_elsewhere(answer):
            count.fonts += 1
        else:
            count.take(answer, at, problems)
        stands = file.read_bytes() if file.exists() else None
        # A library that gets no memory for a font may do without: other bytes, but a whole file.
        other = stands is not None and stands[:4] == whole[:4] and stands[-6:] == whole[-6:]
        if stands != b"old" and not other:
            problems.append(f"{at}: the file is {len(stands or b'')} bytes, not {len(whole)}")
        if answer.returncode == 0 and not other:
            problems.append(f"{at}: said it exported and did not")
        shutil.rmtree(folder)

    in_turn(tries, one)
    tap.check(f"{label}: {there_are}, {len(tries)} tried: {count}", problems if len(tries) > 30 else ["nothing was counted"])


def fail_reading(tap, label, arguments, most):
    """Only looks: must print the whole answer or say no."""
    command, problems, count = [CLI, *arguments], [], Count()
    whole = subprocess.run(command, check=True, capture_output=True).stdout
    tries, there_are = each_path(command, most)

    def one(number, environment):
        answer, _ = call(SAME_PLACE + command, number, mark=False, **environment)
        at = f"allocation {number} {environment.get('DRYBAY_ALLOC_PATH', '')}"
        count.take(answer, at, problems)
        if answer.returncode == 0 and answer.stdout != whole:
            problems.append(f"{at}: another answer")

    in_turn(tries, one)
    tap.check(f"{label}: {there_are}, {len(tries)} tried: {count}", problems if len(tries) > 30 else ["nothing was counted"])


def main():
    tap = faults.Tap()
    with tempfile.TemporaryDirectory() as scratch:
        base = pathlib.Path(scratch) / "files"
        fail_saves(tap, base)
        fail_versions(tap, base)
        fail_journal(tap, base)
        fail_reading(tap, "takeoff", ["takeoff", SAMPLE], 80)
        fail_exports(tap, base, "papers", ["papers", SAMPLE, "-o", "OUT"], "papers.pdf", 80)
        fail_exports(tap, base, "drawing", ["drawing", SAMPLE, "--sheet", "plan", "-o", "OUT"], "board.svg", 60)
    tap.end()


main()
