# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of kills and failing calls share: counting a program's system calls with strace, and stopping it at one.

Knows nothing of what the program does. Tests that use it are skipped (77) where processes cannot be traced.
"""
import collections
import os
import re
import shutil
import subprocess
import sys
import tempfile

CALL = re.compile(r"^(?:\[pid +\d+\] |\d+ +)?(\w+)\((.*)")
# Nothing of a file hangs on these; failing them is the C library's business, not ours.
MEMORY = {"mmap", "munmap", "mprotect", "brk", "futex", "madvise", "rt_sigprocmask", "rt_sigaction", "sched_yield", "exit_group",
          "exit", "set_robust_list", "rseq", "clone3", "clone", "getrandom", "prlimit64", "gettid", "getpid", "tgkill", "mremap",
          "set_tid_address", "arch_prctl", "sched_getaffinity", "restart_syscall", "rt_sigreturn"}


# Warnings of libraries about fonts they cannot read shall not end the program under test.
os.environ.pop("G_DEBUG", None)


def some(hits, most=40):
    """All of them when DRYBAY_FAULTS=all, else so many spread evenly: what every run of the tests can bear."""
    if os.environ.get("DRYBAY_FAULTS") == "all" or len(hits) <= most:
        return hits
    return [hits[i * len(hits) // most] for i in range(most)]


def need_strace():
    if shutil.which("strace") is None:
        print("1..0 # SKIP no strace here")
        sys.exit(77)
    if subprocess.run(["strace", "-o", "/dev/null", "-e", "inject=getppid:error=EIO:when=1", "true"], capture_output=True).returncode:
        print("1..0 # SKIP processes cannot be traced here")
        sys.exit(77)


def trace(command, **options):
    """The calls of a whole run, in order: (name, arguments). Threads included."""
    with tempfile.NamedTemporaryFile("r", suffix=".trace") as log:
        answer = subprocess.run(["strace", "-f", "-qq", "-s", "300", "-o", log.name, *command], capture_output=True, timeout=120, **options)
        lines = log.read().splitlines()
    calls = [(match[1], match[2]) for match in map(CALL.match, lines) if match]
    return answer, calls


def between_marks(calls):
    """How often each call came before the first mark, and up to the second: what lies between can be hit exactly."""
    before, until, seen, ended = collections.Counter(), collections.Counter(), False, False
    for name, arguments in calls:
        if "/drybay-begin" in arguments:
            seen = True
            before[name] += 1
            until[name] += 1
            continue
        if "/drybay-end" in arguments:
            ended = True
        if ended:
            continue
        until[name] += 1
        if not seen:
            before[name] += 1
    assert seen and ended, "the marks were not found"
    return {name: (before[name] + 1, until[name]) for name in until if until[name] > before[name]}


def hit(command, name, number, what, **options):
    """Runs the command with its `number`-th call `name` killed (signal=KILL) or failed (error=EIO)."""
    return subprocess.run(["strace", "-f", "-qq", "-o", os.devnull, "-e", f"trace={name}", "-e", f"inject={name}:{what}:when={number}", *command],
                          capture_output=True, timeout=120, **options)


class Tap:
    """Counts and prints results."""

    def __init__(self):
        self.number, self.bad = 0, 0

    def check(self, name, problems):
        self.number += 1
        print(f"{'not ok' if problems else 'ok'} {self.number} {name}", flush=True)
        for problem in problems[:20]:
            print("# " + " | ".join(str(problem).splitlines()))
        self.bad += bool(problems)

    def end(self):
        print(f"1..{self.number}")
        sys.exit(1 if self.bad else 0)
