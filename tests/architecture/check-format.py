#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails when a C file is not as clang-format (major version 14, Debian 12's) would write it; other versions skip."""
import pathlib
import re
import subprocess
import sys


def main():
    root = pathlib.Path(sys.argv[1])
    version = subprocess.run(["clang-format", "--version"], capture_output=True, text=True).stdout
    if not re.search(r"version 14\.", version):
        print(f"not the version the style was settled with: {version.strip()}")
        return 77
    files = [str(p) for top in ("src", "tests") for p in sorted((root / top).rglob("*.[ch]"))]
    answer = subprocess.run(["clang-format", "--dry-run", "--Werror", *files], capture_output=True, text=True)
    bad = sorted(set(re.findall(r"^(\S+?):\d+:\d+: error", answer.stderr, re.M)))
    for name in bad:
        print(f"{name} is not formatted; run clang-format -i on it")
    return 1 if bad else 0


sys.exit(main())
