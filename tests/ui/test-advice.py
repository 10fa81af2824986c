# SPDX-License-Identifier: GPL-3.0-or-later
"""A homeowner looks for a place for the niche: fitting bays, a stud hit, reach and spray, a tall bottle, an outside
wall, trim that does not fit; and the five best places by pointer and keyboard.

Arguments: the program, the source folder."""
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Tap, Work, equal, near, pause, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
tap = Tap()
NICHE = "Shampoo niche"
INCH = 25.4


def labels(work):
    return [n.get_name() or "" for n in work.app.nodes() if n.get_role_name() == "label"]


def panel(work):
    """All the words of the panel beside the board while something is in hand."""
    def probe():
        texts = labels(work)
        head = [t for t in texts if re.match("Score .* of 100|May not stand here", t)]
        return "\n".join(head + [t for t in texts if re.match("[✕−✓]|An inch left", t)]) if head else None
    return work.app.wait(probe, "the panel of the niche in hand")


def score(text):
    found = re.search(r"Score (\d+) of 100", text)
    return int(found.group(1)) if found else None


def in_hand(work, name, *keys):
    """Takes a part up by the keyboard, moves it, gives the panel's words and puts it back."""
    work.select(name)
    work.app.key("m")
    work.app.key(*keys)
    pause(0.4)
    text = panel(work)
    work.app.key("Escape")
    pause(0.2)
    return text


def ghosts(work):
    return [n for n in work.app.nodes() if re.match("Place [1-5] of ", n.get_name() or "")]


work = Work(program, source).ready()
app, board = work.app, work.board


def test_bays_and_studs():
    """1 and 2: it fits its bay where it is; 3 in to the left it meets a stud, at once, with what that costs."""
    here = in_hand(work, NICHE, "Up", "Down")
    there = in_hand(work, NICHE, *["shift+Left"] * 3)
    true(score(here) is not None, here)
    true("Cuts 1 stud at 16" in there and "header over it, sill under it" in there, there)
    true("off a joint" in there, there)
    true(score(there) < score(here) - 10, (here, there))
    near(work.part(NICHE)["u"], 24 * INCH, "Escape put it back")


def test_reach_and_spray():
    """3: raised, the figures of reach and spray follow."""
    here = in_hand(work, NICHE, "Up", "Down")
    high = in_hand(work, NICHE, *["shift+Up"] * 14)
    true('48" above the floor' in here, here)
    true('62" above the floor: 2" too high, 60" or less is asked for' in high, high)
    true("spray" in here.lower(), here)
    work.select(NICHE)
    # To the end wall across from the shower head, where its spray lands; there to the left, over the tub.
    app.key("m", "Tab", "Tab", "Tab", *["shift+Right"] * 22)
    pause(0.4)
    across = panel(work)
    app.key("Escape")
    true("The spray meets the wall" in across, across)


def test_tall_bottle():
    """4: a bottle taller than the shelf: no place will do, and the panel says why."""
    app.key("ctrl+comma")
    row = app.get("text", "Tallest bottle.*")
    app.click(app.centre(row))
    app.key("ctrl+a")
    app.type("24")
    app.key("Return")
    pause(0.3)
    app.key("Escape")
    pause(0.5)
    text = in_hand(work, NICHE, "Up", "Down")
    true("May not stand here" in text and 'the tallest bottle of 24" and an inch need 25"' in text, text)
    work.select(NICHE)
    app.key("b")
    app.get("label", "There is no place on the wet walls for this")
    app.key("ctrl+comma")
    app.click(app.centre(app.get("text", "Tallest bottle.*")))
    app.key("ctrl+a")
    app.type("0")
    app.key("Return")
    pause(0.3)
    app.key("Escape")
    pause(0.5)


def test_five_best_places():
    work.select(NICHE)
    before = work.part(NICHE)
    app.key("b")
    found = app.wait(lambda: len(ghosts(work)) >= 3 and ghosts(work), "the places")
    names = [g.get_name() for g in found]
    true(all(re.search(r"Score \d+ of 100", n) for n in names), names)
    scores = [int(re.search(r"Score (\d+)", n).group(1)) for n in names]
    equal(scores, sorted(scores, reverse=True), "best first")
    app.key("Tab")
    true("Score" in panel(work), "the panel tells of the place with the keyboard")
    app.key("Escape")
    app.wait(lambda: not ghosts(work), "the places to go")
    equal(work.part(NICHE), before, "nothing was moved")
    work.select(NICHE)
    app.key("b")
    app.wait(lambda: ghosts(work), "the places again")
    app.key("Tab", "Return")
    app.wait(lambda: not ghosts(work), "the places to go")
    after = work.part(NICHE)
    true((after["u"], after["z"], after["wall"]) != (before["u"], before["z"], before["wall"]), "it was put there")
    app.get("push button", "Undo: Put " + NICHE + " at the best place")
    work.undo()
    equal(work.part(NICHE), before, "one step to undo")
    work.select(NICHE)
    app.key("b")
    found = app.wait(lambda: ghosts(work), "the places for the pointer")
    app.click(app.centre(found[0]))
    app.wait(lambda: not ghosts(work), "the places to go")
    true(work.part(NICHE) != before, "a click takes the place")
    work.undo()


def test_drag_snaps_with_a_reason():
    x, y = app.centre(board.item(NICHE))
    seen = []
    app.drag((x, y), (x + 8, y + 3), hold=lambda: seen.append(panel(work)))
    true("Score" in seen[0] and "An inch left" in seen[0], seen)
    work.undo()


def test_menu_has_it():
    work.select(NICHE)
    app.key("Menu")
    work.menu_item("Show the Five Best Places")
    app.wait(lambda: ghosts(work), "the places by the menu")
    app.key("Escape")


def test_trim_bar():
    """6: trim for a thinner wall: the bar turns red, in words too, and a finding says so."""
    work.select("Mixing valve.*|.*valve.*")
    app.get("label", r".*of finished wall: within the .* the trim takes.*(.|\n)*")
    row = app.get("text", "To.*")
    app.click(app.centre(row))
    app.key("ctrl+a")
    app.type("5/8")
    app.key("Return")
    app.get("label", r".*of finished wall: too thick for the trim.*(.|\n)*")
    work.undo()


def test_outside_wall():
    """5: a niche too deep for what an outside wall must keep; the best places are in the inner walls."""
    work.quiet()
    work.remove()
    outside = Work(program, source, "tests/cases/11-bearing-outside.drybay").ready()
    try:
        name = next(n for n in outside.board.names() if "iche" in n)
        text = in_hand(outside, name, "Up", "Down")
        true("May not stand here" in text, text)
        true("of insulation can stay behind it" in text and "stud" in text, text)
        outside.quiet()
    finally:
        outside.remove()


tap.run_all(globals())
work.remove()
tap.end()
