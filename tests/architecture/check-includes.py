#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails on any include that reaches up a floor, on GTK below ui, on Cairo below draw, and on other breaches.

Run with --self-test it first proves on made-up trees that each kind of breach is caught.
"""
import pathlib
import re
import sys
import tempfile

FLOORS = ["base", "project", "catalog", "plan", "draw", "papers", "cli", "ui"]
# Below these floors the libraries must not be seen at all.
LIBRARIES = {
    r"(gtk|gdk|gsk|adwaita)": "ui",
    r"(cairo|pango)": "draw",
}
ONLY_IN = {
    r"cjson/": {"base/json.c", "base/json-writer.c"},
    r"geos_c\.h": {"base/region.c"},
}
# Functions that follow the locale, the clock or the environment have no place in the core.
BANNED = re.compile(r"\b(strtod|atof|setlocale|localeconv|g_get_real_time|g_date_time_new_now\w*|time|rand|random)\s*\(")
CORE = FLOORS[: FLOORS.index("papers") + 1]
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.M)
COMMENT = re.compile(r"/\*.*?\*/|//[^\n]*", re.S)
STRING = re.compile(r'"(?:\\.|[^"\\\n])*"')
MAX_LINES = 600


def rank(floor):
    # cli and ui stand side by side: neither may include the other.
    return FLOORS.index(floor)


def may_include(here, there):
    if {here, there} == {"cli", "ui"}:
        return False
    return rank(there) <= rank(here)


def check_file(path, floor, name):
    text = path.read_text(encoding="utf-8")
    if not text.startswith("/* SPDX-License-Identifier: GPL-3.0-or-later */"):
        yield f"{name}: does not begin with its SPDX line"
    if text.count("\n") > MAX_LINES:
        yield f"{name}: has {text.count(chr(10))} lines, more than {MAX_LINES}"
    for included in INCLUDE.findall(text):
        first = included.split("/")[0]
        if first in FLOORS and not may_include(floor, first):
            yield f"{name}: includes {included}, which lies above or beside {floor}"
        for pattern, lowest in LIBRARIES.items():
            if re.match(pattern, included) and rank(floor) < rank(lowest):
                yield f"{name}: includes {included} below {lowest}"
        for pattern, files in ONLY_IN.items():
            if re.match(pattern, included) and name not in files:
                yield f"{name}: includes {included}; only {', '.join(sorted(files))} may"
    if floor in CORE:
        code = STRING.sub('""', COMMENT.sub("", text))
        for match in BANNED.finditer(code):
            yield f"{name}: calls {match.group(1)}() in the core"


def check_tree(src):
    for floor in FLOORS:
        for path in sorted((src / floor).rglob("*.[ch]")):
            yield from check_file(path, floor, path.relative_to(src).as_posix())


def self_test():
    head = "/* SPDX-License-Identifier: GPL-3.0-or-later */\n"
    cases = {
        ("plan", "a.c", '#include "draw/scene.h"\n'): "above",
        ("plan", "b.c", "#include <gtk/gtk.h>\n"): "below ui",
        ("plan", "c.h", "#include <cairo.h>\n"): "below draw",
        ("cli", "d.c", '#include "ui/session.h"\n'): "beside",
        ("project", "e.c", "#include <cjson/cJSON.h>\n"): "only",
        ("plan", "f.c", "double f (void) { return atof (s); }\n"): "atof",
        ("base", "g.c", "int x;\n" * 700): "lines",
    }
    for (floor, file, body), expected in cases.items():
        with tempfile.TemporaryDirectory() as folder:
            src = pathlib.Path(folder)
            (src / floor).mkdir()
            (src / floor / file).write_text(head + body)
            found = list(check_tree(src))
            assert len(found) == 1 and expected in found[0], (floor, file, found)
    with tempfile.TemporaryDirectory() as folder:
        src = pathlib.Path(folder)
        (src / "ui").mkdir()
        (src / "ui" / "x.c").write_text(head + '#include <gtk/gtk.h>\n#include "plan/plan.h"\n')
        assert not list(check_tree(src))


def main():
    self_test()
    breaches = list(check_tree(pathlib.Path(sys.argv[1])))
    for breach in breaches:
        print(breach)
    return 1 if breaches else 0


sys.exit(main())
