# SPDX-License-Identifier: GPL-3.0-or-later
"""What the office settles about tile, cold and days, and what the homeowner asks of versions and of the schedule, in
the real window. docs/walk-throughs.md says which line is which test.

Arguments: the program, the source folder."""
import os
import re
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import visit  # noqa: E402
from driver import Atspi, Tap, near, pause, true, walk  # noqa: E402
from visit import differing, read_pdf  # noqa: E402

tap = Tap()


class Visit(visit.Visit):
    def named(self, role, name):
        return self.app.wait(lambda: next((n for n in self.app.nodes() if n.get_role_name() == role and n.get_name() == name), None),
                             "%s %r" % (role, name))

    def unfold(self, title):
        """A foldable section of the inspector."""
        row = self.app.wait(lambda: next((n for n in self.app.nodes() if n.get_role_name() == "list item" and n.get_name() == title), None), title)
        x, y = self.app.box(row)[:2]
        self.app.move(x + 100, 400)
        self.app.click((x + 100, 400), button=5, repeat=30)  # the sections are below the systems
        pause(0.4)
        self.app.click(row)
        pause(0.6)

    def note(self):
        """What stands above the schedule."""
        return next((n.get_name() for n in self.app.nodes() if n.get_role_name() == "label" and
                     re.match("Tiling can start|Too cold", n.get_name() or "")), "")

    def row(self, page, pattern):
        return next((n for n in self.app.nodes() if n.get_role_name() == "list item" and re.match(pattern, n.get_name() or "")), None)


sitting = Visit.sitting


@sitting("tests/cases/19-large-tile.drybay")
def test_changes_tile(v):
    """Office 6: tile too long for the saw and too large for the wall is told; with a small one both are well."""
    v.ledger.wait_finding("(?i)saw")
    v.ledger.wait_finding("(?i)flat|plane")
    v.app.key("ctrl+l")
    v.app.click(v.board.shelf("Ceramic tile, 4 x 4 in"))
    x, y, w, h = v.app.box(v.board.item("Back wall"))
    v.app.click((x + w // 2, y + h // 3))
    v.app.wait(lambda: v.work.room()["finish"]["tile_width"] < 110, "small tile in the file")
    v.ledger.wait_finding("(?i)saw", there=False)


@sitting()
def test_cold_room(v):
    """Office 7: at 12 °C everything is later than at 21; at 48 °F, which is 8.9 °C, nothing may be set at all."""
    v.unfold("Days, crew and prices")
    entry = v.app.wait(lambda: next((n for n in v.app.nodes() if n.get_role_name() in ("text", "entry") and n.get_name() == "First day of work"), None), "the first day's entry")
    v.app.click(entry)
    v.app.type("2026-12-01")
    v.app.key("Return")
    v.app.wait(lambda: v.work.project()["job"].get("start") == "2026-12-01", "the first day in the file")
    v.ledger.open("Schedule")
    warm = v.app.wait(v.note, "when tiling can start")
    true("First shower" in warm, "no day in %r" % warm)
    v.app.key("ctrl+l")
    v.unfold("Job")
    spin = v.named("spin button", "Room temperature")
    spin.set_current_value(12)
    v.app.wait(lambda: v.work.project()["job"]["temperature_celsius"] == 12, "the temperature in the file")
    v.ledger.open("Schedule")
    cool = v.app.wait(lambda: v.note() != warm and v.note(), "later days")

    def days(text):
        return [(int(y), int(m), int(d)) for m, d, y in re.findall(r"(\d\d)/(\d\d)/(\d\d)", text)]
    true(days(cool)[-1] > days(warm)[-1], "the first shower is no later: %s, before %s" % (cool, warm))
    v.app.click(v.named("spin button", "Room temperature"))
    v.app.key("ctrl+a")
    v.app.type("48 F")
    v.app.key("Return")
    v.app.wait(lambda: abs(v.work.project()["job"]["temperature_celsius"] - 80 / 9) < 1e-9, "48 °F in the file")
    v.app.wait(lambda: v.note().startswith("Too cold"), "that it is too cold")


@sitting()
def test_wrong_day_is_told(v):
    """A first day that is none is told under its row, and the file stays as it is."""
    v.unfold("Days, crew and prices")
    entry = v.app.wait(lambda: next((n for n in v.app.nodes() if n.get_role_name() in ("text", "entry") and n.get_name() == "First day of work"), None), "the first day's entry")
    v.app.click(entry)
    v.app.type("next week")
    v.app.key("Return")
    v.app.get("label", ".*next week.*is no date.*")
    true("start" not in v.work.project()["job"], "it is in the file")


@sitting()
def test_compares_versions(v):
    """Homeowner 7: what was changed since a kept version, in words."""
    v.work.project()
    v.app.click(v.board.shelf("Ceramic tile, 4 x 4 in"))
    x, y, w, h = v.app.box(v.board.item("Back wall"))
    v.app.click((x + w // 2, y + h // 3))
    v.app.wait(lambda: v.work.room()["finish"]["tile_width"] < 110, "small tile in the file")
    v.app.key("ctrl+h")
    buttons = v.app.wait(lambda: [n for n in v.app.nodes() if n.get_role_name() == "push button" and (n.get_name() or "").startswith("Compare with ") and
                                  n.get_state_set().contains(Atspi.StateType.SENSITIVE)], "versions to compare with")
    buttons[-1].do_action(0)
    v.app.get("label", r"(?s).*Ceramic tile, 4 x 4 in instead of.*")


@sitting()
def test_cannot_tick_tile_before_cure(v):
    """Homeowner 9: tile cannot be ticked off before what it stands on is done, and that not all at once."""
    v.ledger.open("Schedule")
    tile = v.app.wait(lambda: v.row("Schedule", "Set (the )?tile.*"), "the tile in the schedule")
    v.app.click(tile)
    v.app.get("label", "First: .*")
    tile = v.row("Schedule", "Set (the )?tile.*")
    done = [n for n in walk(tile) if n.get_role_name() == "push button" and n.get_name() == "Done"]
    true(done and not any(n.get_state_set().contains(Atspi.StateType.SENSITIVE) for n in done), "tile can be ticked off")
    v.app.click(v.app.wait(lambda: v.row("Schedule", "Set (the )?tile.*"), "the tile again"))
    first = list(v.ledger.rows("Schedule"))[0]
    v.app.click(v.app.wait(lambda: v.row("Schedule", re.escape(first)), "the first task"))
    pause(0.5)
    v.app.click(v.app.wait(lambda: next((n for n in walk(v.row("Schedule", re.escape(first))) if n.get_role_name() == "push button" and
                                         n.get_name() == "Done"), None), "the first task's button"))
    v.app.wait(lambda: "done" in v.work.room(), "what is done in the file")
    v.app.get("push button", "Not Done After All")


@sitting()
def test_prints_trade_sheets(v):
    """Office 8: the framer's sheets by the menu, all trades by their key, which must work after it; one datum on every cover."""
    def text_of(path):
        v.app.wait(lambda: os.path.exists(path) and os.path.getsize(path) > 0, path)
        v.app.get("label", os.path.basename(path) + " exported")
        return read_pdf(path)

    datum = "Heights from the finished floor. Widths from the left"
    trades, framer = (os.path.join(v.work.folder, name) for name in ("trades.pdf", "framer.pdf"))
    v.work.menu_button("Papers")
    v.work.menu_item("Trade Sheets.*")
    v.work.menu_item("Framer.*")
    v.app.answer_dialog(framer)
    text = text_of(framer)
    true(text.count(datum) == 1 and "rough opening" in text and "Cut sheet" not in text, text)
    v.app.key("ctrl+alt+r")
    v.app.answer_dialog(trades)
    text = text_of(trades)
    true(text.count(datum) == 5, "%d covers" % text.count(datum))
    for name in ("Framer", "Plumber and electrician", "Board hanger", "Waterproofer", "Tile setter"):
        true(name in text, "no sheets of the " + name)


@sitting()
def test_clicks_a_quantity(v):
    """Office 9: the screws of a line are lit up on the board, a screw's line not where boards are; Escape puts them out."""
    v.ledger.open("Take-off")
    pause(1.0)
    x, y, w, h = v.app.box(v.board.node())
    v.app.move(x + 4, y + h - 8)

    def look(name):
        pause(1.0)
        return v.look(name, (x, y, w, h))

    plain = look("plain")
    v.app.click(v.row("Take-off", ".*board screw.*"))
    v.app.move(x + 4, y + h - 8)
    screws = look("screws")
    true(differing(plain, screws, 10) > 300, "no screw is lit: %d pixels" % differing(plain, screws, 10))
    v.app.click(v.row("Take-off", "1/2.* board.*"))
    v.app.move(x + 4, y + h - 8)
    boards = look("boards")
    true(differing(screws, boards, 10) > 1000, "boards light up like screws")
    left, top, _, _ = v.app.box(v.row("Take-off", "1/2.* board.*"))
    v.app.click((left + 100, top + 20))  # its own line, above what it unfolded: out
    v.app.move(x + 4, y + h - 8)
    true(differing(plain, look("out"), 10) < 60, "the boards stay lit")


@sitting()
def test_types_three_widths(v):
    """Office 1: three widths typed behind the tub: the side walls taper, the tightest governs and its finding says which."""
    v.work.select_wall()

    def give(name, text):
        entry = v.app.get("text", name + ".*")
        v.app.click(v.app.centre(entry))
        v.app.key("ctrl+a")
        v.app.type(text)
        v.app.key("Return")
        pause(0.4)

    def walls():
        return v.work.room()["walls"]
    before = walls()
    give("Width at the back", "60 1/4")
    give("Width at the front", "60 1/16")
    give("Width in the middle", "59 3/4")
    v.ledger.wait_finding("Basin does not go between its walls")
    back, right, front, left = walls()
    near(right["start"][0] - back["start"][0], 60.25 * 25.4, "width at the back")
    slope = (front["start"][0] - right["start"][0]) / (right["start"][1] - front["start"][1])
    lean = (left["start"][0] - back["start"][0]) / (back["start"][1] - left["start"][1])
    near(60.25 * 25.4 + (slope - lean) * 30 * 25.4, 60.0625 * 25.4, "width 30 in out, at the front of the tub")
    true(slope < 0 < lean, "the side walls do not both taper: %s and %s" % (lean, slope))
    near(back["width_bow"], (59.75 - (60.25 + 60.0625) / 2) * 25.4, "bow in the middle")
    row = v.row("Findings", "Basin does not go between its walls.*")
    v.app.click(row)
    v.app.get("label", "(?s).*in the middle, governs.*")
    v.app.key("ctrl+l")
    v.work.select_wall()
    give("Width in the middle", "60 1/8")
    v.ledger.wait_finding("Basin does not go between its walls", there=False)
    v.app.key("ctrl+l")
    pause(0.5)
    v.work.select_wall()  # away from the entry, which undoes its own typing
    v.work.undo(4)
    true(walls() == before, "four undo steps do not lead back: %s" % walls())


tap.run_all(globals())
tap.end()
