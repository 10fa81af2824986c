#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Walks the window with the Tab key and compares pixels: what has the focus looks different from when it has not. Then
opens every menu and window there is and looks for things without a name.

Arguments: the odd window's program (tests/ui/odd-window.c), the source folder."""
import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import display  # noqa: E402
from driver import App, Atspi, Tap, extents, is_named, is_open, pause, true, walk, walk_with_paths  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
ALCOVE = os.path.join(source, "data/demo/alcove-refit.drybay")
STATES = Atspi.StateType
NEAR, FAR = 8, 34  # a ring stands a little outside; GTK 4.8 reports places without their padding
tap = Tap()


def focused(app):
    """The innermost node that has the focus."""
    found = None
    for node in walk(app.root):
        states = node.get_state_set()
        if states.contains(STATES.FOCUSED) and states.contains(STATES.VISIBLE) and extents(node):
            if node.get_role_name() not in ("frame", "application"):
                found = node
    return found


def name_of(node):
    return "%s %r" % (node.get_role_name(), node.get_name())


def shown_at(app, node, screen, around):
    x, y, w, h = app.box(node)
    width, height = screen
    x0, y0 = max(x - around, 0), max(y - around, 0)
    x1, y1 = min(x + w + around, width), min(y + h + around, height)
    return (x0, y0, x1 - x0, y1 - y0) if x1 > x0 and y1 > y0 else None


def walk_with_tab(file, size, steps, least, around=NEAR, **environment):
    """Presses Tab again and again; each thing's place is looked at with the focus and after it has moved on."""
    os.environ.update(environment)
    try:
        app = App([program, "--size", size] + ([file] if file else []))
    finally:
        for name in environment:
            del os.environ[name]
    try:
        if file:
            app.get("push button", ".*(finding|advice).*")
        pause(1.0)
        looks = display.Display()
        screen = tuple(map(int, size.split("x")))
        seen, unseen, last = set(), [], None
        for _ in range(steps):
            app.key("Tab")
            pause(0.35)
            node = focused(app)
            if last:
                box, before, what = last
                if looks.pixels(box) == before:
                    unseen.append(what)
            last = None
            if not node:
                continue
            seen.add(name_of(node))
            box = shown_at(app, node, screen, around)
            if box:
                last = (box, looks.pixels(box), name_of(node))
        true(len(seen) >= least, "Tab came to %d things only: %s" % (len(seen), sorted(seen)))
        true(not unseen, "looks the same with the focus: %s" % unseen)
    finally:
        app.end()


# --- menus and windows ---

def check_names(app, what, known):
    """What has come up since `known` was gathered and takes the focus has a name."""
    fresh, unnamed = 0, []
    for node, path in walk_with_paths(app.root, is_open):
        states = node.get_state_set()
        if not states.contains(STATES.VISIBLE) or not states.contains(STATES.FOCUSABLE) or not extents(node):
            continue
        if path in known:
            continue
        role = node.get_role_name()
        fresh += 1
        if not is_named(node) and role not in ("frame", "dialog", "scroll pane", "label", "panel", "list", "popup menu"):
            unnamed.append(path)
    true(not unnamed, "%s, without a name:\n%s" % (what, "\n".join(sorted(set(unnamed))[:12])))
    return fresh


def paths(app):
    return {path for node, path in walk_with_paths(app.root) if node.get_state_set().contains(STATES.VISIBLE)}


def test_menus():
    app = App([program, "--size", "1400x900", ALCOVE])
    try:
        app.get("push button", ".*(finding|advice).*")
        pause(0.8)
        known = paths(app)
        for name in ("Room", "Papers", "Main Menu", "Layers"):
            button = app.get(None, ".*%s.*" % name) if name != "Main Menu" else app.get(None, "(Main )?[Mm]enu")

            def come_up():
                """The click that closes the menu before opens none."""
                if check_names(app, name, known) <= 2:
                    app.click(button)
                    pause(0.6)
                return check_names(app, name, known) > 2
            app.wait(come_up, "a menu at %s" % name)
            app.key("Escape")
            pause(0.3)
        app.click(app.get("list item", "Shampoo niche"))
        pause(0.4)
        app.key("Menu")
        app.wait(lambda: check_names(app, "the object's menu", known) > 2, "the object's menu")
        app.key("Escape")
    finally:
        app.end()


def test_windows():
    for keys, title in (("ctrl+comma", "Smallest fraction.*"), ("ctrl+question", ".*"), ("F1", ".*")):
        app = App([program, "--size", "1400x900", ALCOVE])
        try:
            app.get("push button", ".*(finding|advice).*")
            pause(0.8)
            known = paths(app)
            app.key(keys)
            pause(1.2)
            if title != ".*":
                app.get(None, title)
            check_names(app, keys, known)
        finally:
            app.end()


tap.run("focus on the start page", walk_with_tab, None, "1280x800", 14, 5, FAR)
tap.run("focus on the desk", walk_with_tab, ALCOVE, "1280x800", 70, 30)
tap.run("focus in high contrast", lambda: walk_with_tab(ALCOVE, "1280x800", 26, 14, ADW_DEBUG_HIGH_CONTRAST="1"))
tap.run("focus in the dark", lambda: walk_with_tab(ALCOVE, "1280x800", 26, 14, ADW_DEBUG_COLOR_SCHEME="prefer-dark"))
tap.run("names in menus", test_menus)
tap.run("names in windows", test_windows)
tap.end()
