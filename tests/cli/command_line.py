# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs drybay-cli for the tests of its commands, and their functions as a list of TAP. Knows no command.

The program and the source folder are the script's arguments."""
import os
import pathlib
import re
import subprocess
import sys

CLI, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])
TESTS = []


def test(function):
    TESTS.append(function)
    return function


def run(*arguments, **environment):
    env = dict(os.environ, **environment)
    return subprocess.run([CLI, *map(str, arguments)], capture_output=True, timeout=60, env=env)


def ok(*arguments, status=0, **environment):
    answer = run(*arguments, **environment)
    assert answer.returncode == status, (arguments, answer.returncode, answer.stderr.decode())
    return answer.stdout.decode()


def fails(*arguments, says):
    answer = run(*arguments)
    message = answer.stderr.decode()
    assert answer.returncode == 2, (arguments, answer.returncode, message)
    assert re.search(says, message), (arguments, message)


def main():
    print(f"1..{len(TESTS)}")
    for number, function in enumerate(TESTS, 1):
        try:
            function()
            print(f"ok {number} {function.__name__}")
        except Exception as error:  # noqa: BLE001 - a test's failure is a result, not an accident
            print(f"not ok {number} {function.__name__}")
            print("\n".join("# " + line for line in f"{type(error).__name__}: {error}".splitlines()))
        sys.stdout.flush()
