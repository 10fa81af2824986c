#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Adds up meson's test logs and prints the closing line "N passed, N failed".

A program that speaks TAP counts once for each of its tests, any other once. A missing log or a failing
status with no failed test in the logs counts as one failure, so that nothing broken can look green.
What failed is printed once more just before it, with the end of what it said: a machine that keeps only the
end of a long run keeps the reason too.
"""
import json
import re
import sys


def count(record):
    passed = len(re.findall(r"^ok \d+(?!.*# SKIP)", record.get("stdout") or "", re.M | re.I))
    failed = len(re.findall(r"^not ok \d+", record.get("stdout") or "", re.M))
    skipped = len(re.findall(r"^ok \d+.*# SKIP", record.get("stdout") or "", re.M | re.I))
    result = record["result"]
    if result in ("SKIP",) and not passed:
        return 0, 0, max(skipped, 1)
    if result in ("OK", "EXPECTEDFAIL", "SKIP"):
        return (passed, 0, skipped) if passed + skipped else (1, 0, 0)
    return passed, max(failed, 1), skipped


def tell(record, lines=40):
    said = ((record.get("stdout") or "") + (record.get("stderr") or "")).splitlines()
    wrong = [line for line in said if re.match(r"not ok|Bail out|.*(CRITICAL|WARNING|Error)", line)]
    print(f"== {record['name']}: {record['result']}")
    print("\n".join(wrong[:lines] + ["-- its last lines"] + said[-lines:] if wrong else said[-lines:]))


def main():
    status, logs = int(sys.argv[1]), sys.argv[2:]
    passed = failed = skipped = 0
    for log in logs:
        try:
            with open(log, encoding="utf-8", errors="replace") as lines:
                for line in lines:
                    record = json.loads(line)
                    p, f, s = count(record)
                    if f:
                        tell(record)
                    passed, failed, skipped = passed + p, failed + f, skipped + s
        except OSError as error:
            print(f"count-results: {error}", file=sys.stderr)
            failed += 1
    if status and not failed:
        failed = 1
    print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
    return 1 if failed or not passed else 0


sys.exit(main())
