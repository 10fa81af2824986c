#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Walks the accessible tree with every panel open: names, roles, values, size of targets; then right to left,
200 % text and longer texts without anything running out of the window; contrast of the style sheet's own colours.

Arguments: the odd window's program (tests/ui/odd-window.c), the source folder."""
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Atspi, Failure, Tap, equal, extents, is_named, path_to, pause, true, walk_open  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
FAULTY = os.path.join(source, "tests/cases/02-old-house.drybay")
ALCOVE = os.path.join(source, "data/demo/alcove-refit.drybay")
STATES = Atspi.StateType
LEAST_TARGET = 24
PADDING = 2  # GTK 4.8 reports places without their padding: a switch of 48 by 26 as 44 by 22
TARGETS = {"push button", "toggle button", "switch", "check box", "combo box", "spin button", "page tab", "radio button"}
tap = Tap()


def open_nodes(app):
    return list(walk_open(app.root))


def check_tree(app):
    """Everything that takes the focus has a name of its own and a target large enough to hit."""
    unnamed, small, n = [], [], 0
    for node in open_nodes(app):
        states = node.get_state_set()
        if not states.contains(STATES.FOCUSABLE) or not states.contains(STATES.VISIBLE):
            continue
        place = extents(node)
        if not place:
            continue
        n += 1
        role = node.get_role_name()
        if not is_named(node) and role not in ("frame", "dialog", "scroll pane", "label", "panel"):
            unnamed.append(path_to(node))
        if role in TARGETS and min(place.width, place.height) < LEAST_TARGET - PADDING:
            small.append("%dx%d %s" % (place.width, place.height, path_to(node)))
    true(n > 3, "only %d objects take the focus" % n)
    true(not unnamed, "without a name:\n" + "\n".join(sorted(set(unnamed))[:12]))
    true(not small, "smaller than %d px:\n" % LEAST_TARGET + "\n".join(sorted(set(small))[:12]))


def check_inside(app):
    """No focusable object is drawn beyond the window, nor narrower than nothing."""
    frame = next(node for node in app.nodes() if node.get_role_name() == "frame")
    window = extents(frame)
    beyond = []
    for node in open_nodes(app):
        states = node.get_state_set()
        place = extents(node)
        if not place or not states.contains(STATES.FOCUSABLE) or not states.contains(STATES.VISIBLE):
            continue
        if place.x + place.width > window.width + 1 or place.x < -1:
            beyond.append("%d..%d of %d: %s" % (place.x, place.x + place.width, window.width, path_to(node)))
    true(not beyond, "beyond the window:\n" + "\n".join(beyond[:12]))


def start(file=ALCOVE, size="1280x800", **environment):
    os.environ.update(environment)
    try:
        app = App([program, "--size", size] + ([file] if file else []))
    finally:
        for name in environment:
            del os.environ[name]
    if file:
        app.get("push button", ".*(finding|advice).*")
        app.get("push button", "Alcove tub, 60 x 30 in.*")
    pause(0.6)
    return app


def with_app(check, *arguments, **keywords):
    app = start(*arguments, **keywords)
    try:
        check(app)
    finally:
        app.end()


# --- checks ---

def test_desk(app):
    check_tree(app)
    for node in app.nodes():
        if node.get_role_name() == "list item" and re.match("Cement board with liquid", node.get_name() or ""):
            true("lb/ft" in node.get_description(), "a system says no figures: %r" % node.get_description())
            return
    raise Failure("no system in the inspector")


def test_ledger(app):
    app.key("ctrl+l")
    for page in ("Findings", "Take-off", "Cut sheets", "Order of work"):
        app.get("page tab", page).do_action(0)
        pause(0.5)
        check_tree(app)
    total = app.get("push button", ".*sheets?,.*")
    true("pieces" in (total.get_description() or ""), "a total does not say its working: %r" % total.get_description())


def test_every_object(app):
    objects = [node for node in app.nodes() if node.get_role_name() == "list item" and re.search(r"above the floor|high$", node.get_description() or "")]
    true(len(objects) > 5, "the board has %d objects" % len(objects))
    kinds = set()
    for node in objects:
        kind = re.sub(r"[\d\s\"×/.]+", "", node.get_name())
        if kind in kinds:
            continue
        kinds.add(kind)
        node.do_action(0) if node.get_n_actions() else app.click(node)
        pause(0.3)
        check_tree(app)


def test_values(app):
    """What has a value says it: switches are on or off, lengths can be read."""
    app.click(app.get("list item", "Shampoo niche"))
    pause(0.4)
    readable = [n for n in app.nodes() if n.get_name() in ("Width", "Width Width") and "Text" in n.get_interfaces() and "EditableText" in n.get_interfaces()]
    true(readable, "the width cannot be read: %s" % [(n.get_role_name(), n.get_interfaces()) for n in app.nodes() if n.get_name() == "Width"])
    switches = [n for n in app.nodes() if n.get_name() == "Built on site" and n.get_role_name() in ("switch", "check box", "toggle button")]
    true(switches, "the switch has no name")
    switch = switches[0]
    true(switch.get_state_set().contains(STATES.CHECKED), "the niche is built on site, the switch does not say so")


def test_preferences(app):
    app.key("ctrl+comma")
    app.get(None, "Smallest fraction.*")
    check_tree(app)


def test_shortcuts(app):
    app.key("ctrl+question")
    app.get(None, "Search Shortcuts")
    others = [n.get_name() for n in app.nodes() if re.match("Search Shortcuts.+", n.get_name() or "")]
    equal(others, [], "other buttons named as the search")


def test_mirrored(app):
    check_inside(app)
    shelf, inspector = app.get(None, "Shelf of parts"), app.get(None, "Inspector")
    true(extents(shelf).x > extents(inspector).x, "the shelf is still at the left")


def test_big_text(app):
    check_tree(app)
    check_inside(app)


def test_long_text(app):
    check_tree(app)
    check_inside(app)
    app.key("ctrl+l")
    pause(0.6)
    check_inside(app)


def luminance(colour):
    channels = [int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a, b):
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def blend(top, under, alpha):
    mixed = [round(int(top[i:i + 2], 16) * alpha + int(under[i:i + 2], 16) * (1 - alpha)) for i in (1, 3, 5)]
    return "#%02x%02x%02x" % tuple(mixed)


def test_contrast():
    """The style sheet names no colour outright, only libadwaita's; where it washes one over another, text still reads."""
    css = open(os.path.join(source, "src/ui/style.css"), encoding="utf-8").read()
    css = re.sub(r"/\*.*?\*/", "", css, flags=re.S)
    equal(re.findall(r"#[0-9a-fA-F]{3,8}\b", css), [], "colours fixed in the style sheet")
    for paper, ink in (("#ffffff", "#323232"), ("#383838", "#ffffff")):
        for accent, alpha in re.findall(r"background-color:\s*alpha\((@accent_bg_color),\s*([\d.]+)\)", css):
            chosen = blend("#3584e4", paper, float(alpha))
            true(contrast(ink, chosen) >= 4.5, "text on a chosen row: %.1f" % contrast(ink, chosen))
            dim = blend(ink, chosen, 0.55)
            true(contrast(dim, chosen) >= 3, "captions on a chosen row: %.1f" % contrast(dim, chosen))


tap.run("start page", with_app, check_tree, None)
tap.run("desk", with_app, test_desk)
tap.run("ledger", with_app, test_ledger, FAULTY)
tap.run("every kind of object", with_app, test_every_object)
tap.run("values", with_app, test_values)
tap.run("preferences", with_app, test_preferences)
tap.run("shortcuts", with_app, test_shortcuts)
tap.run("right to left", lambda: with_app(test_mirrored, DRYBAY_ODD="right-to-left"))
tap.run("text at 200 %", lambda: with_app(test_big_text, DRYBAY_ODD="big", size="1400x960"))
tap.run("texts 40 % longer", lambda: with_app(test_long_text, size="1024x768", DRYBAY_ODD="long"))
tap.run("contrast of the style sheet", test_contrast)
tap.end()
