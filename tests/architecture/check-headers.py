#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Compiles each header alone, strictly: a header must include what it needs and nothing may warn."""
import concurrent.futures
import pathlib
import shlex
import subprocess
import sys


def flags(packages):
    answer = subprocess.run(["pkg-config", "--cflags", *packages], capture_output=True, text=True, check=True)
    return shlex.split(answer.stdout)


def compile_alone(job):
    compiler, src, header, cflags = job
    name = header.relative_to(src).as_posix()
    command = [*shlex.split(compiler), "-std=gnu11", "-Wall", "-Wextra", "-Werror", "-Wno-unused-parameter", "-fsyntax-only",
               f"-I{src}", *cflags, "-x", "c", "-"]
    answer = subprocess.run(command, input=f'#include "{name}"\n#include "{name}"\n', capture_output=True, text=True)
    return name, answer.returncode, answer.stderr


def main():
    src, compiler, with_ui = pathlib.Path(sys.argv[1]), sys.argv[2], sys.argv[3] == "true"
    core = flags(["gio-2.0", "cairo", "pangocairo"])
    jobs = []
    for header in sorted(src.rglob("*.h")):
        floor = header.relative_to(src).parts[0]
        if floor == "ui" and not with_ui:
            continue
        jobs.append((compiler, src, header, flags(["gtk4", "libadwaita-1"]) if floor == "ui" else core))
    failed = 0
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        for name, code, message in pool.map(compile_alone, jobs):
            if code:
                failed += 1
                print(f"{name} does not compile alone:\n{message}")
    print(f"{len(jobs)} headers")
    return 1 if failed or not jobs else 0


sys.exit(main())
