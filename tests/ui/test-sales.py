# SPDX-License-Identifier: GPL-3.0-or-later
"""What a salesperson does with a client at the screen: three ways shown within a minute, tile changed while the client
watches, why one costs more, people to compare with, a change recorded, papers with prices or without.
docs/walk-throughs.md says which line is which test.

Arguments: the program, the source folder."""
import os
import re
import subprocess
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import visit  # noqa: E402
from driver import Atspi, Tap, equal, pause, pictures_folder, true  # noqa: E402
from visit import differing, read_pdf  # noqa: E402

tap = Tap()


class Visit(visit.Visit):
    project = "data/demo/client-shower.drybay"

    # --- what the client sees ---

    def seen(self, role, pattern):
        """A node that is really on the screen: the shelf's buttons are still there under the client's picture."""
        return next((n for n in self.app.nodes() if n.get_role_name() == role and re.fullmatch(pattern, n.get_name() or "") and
                     n.get_state_set().contains(Atspi.StateType.SHOWING)), None)

    def show(self):
        self.app.key("F7")
        self.app.get("push button", "As planned")

    def try_tile(self, pattern):
        """Picks a tile in the menu; the shelf below, out of sight, has buttons of the same names."""
        def in_menu(node):
            while node and not node.get_name().startswith("GtkPopover"):
                node = node.get_parent()
            return node
        self.app.key("t")
        found = self.app.wait(lambda: next((n for n in self.app.nodes() if n.get_role_name() == "push button" and
                                            re.fullmatch(pattern, n.get_name() or "") and in_menu(n)), None), "the tile in the menu")
        pause(0.3)
        self.app.click(found)

    def cards(self):
        """Name of each card with all that is read aloud of it."""
        group = self.app.get("panel", "Ways to build it")
        return {c.get_name(): c.get_description() for c in (group.get_child_at_index(i) for i in range(group.get_child_count()))}

    def picture(self, name):
        """The picture's pixels, in a file of that name."""
        node = self.app.get("image", "Picture of the wet area.*")
        self.app.move(1, 1)
        pause(0.4)
        return self.look(name, self.app.box(node))

    def pdf(self, keys, name, chord_waits=1.0):
        """Exports by its keys; the text of what was written."""
        path = os.path.join(self.work.folder, name)
        self.app.key(keys)
        self.app.answer_dialog(path)
        self.app.wait(lambda: os.path.exists(path) and os.path.getsize(path) > 3000, name)
        pause(chord_waits)
        return read_pdf(path)


def differ(a, b):
    """How many pixels of two pictures are plainly of another color."""
    return differing(a, b, 6)


def price(text):
    return float(re.search(r"([\d,]+\.\d\d) USD", text).group(1).replace(",", ""))


sitting = Visit.sitting


@sitting()
def test_shows_options(v):
    """One key: the picture and all ways as cards, each with system, day and price; nothing of the workshop is left."""
    begun = time.monotonic()
    v.show()
    cards = v.app.wait(lambda: len(v.cards()) >= 3 and v.cards(), "three ways")
    true(time.monotonic() - begun < 60, "it took a minute")
    for name, text in cards.items():
        true("First shower" in text, "%s says no day: %s" % (name, text))
        true(price(text) > 0, "%s says no price: %s" % (name, text))
    v.app.wait(lambda: v.seen("list", "Board: plan and walls") is None, "the board to be out of sight")
    true(v.seen("push button", r".*sheets?,.*") is None, "the ledger is still there")
    v.app.key("Escape")
    v.app.get("list", "Board: plan and walls")


@sitting()
def test_keys_do_not_reach_the_board(v):
    """Nothing that nobody sees is deleted, moved or switched while the client looks on."""
    before = v.work.project()
    v.board.selected()
    v.show()
    v.app.key("Delete", "m", "1", "2", "b", "ctrl+1", "ctrl+r", "ctrl+x", "Insert", "ctrl+e")
    pause(0.5)
    v.app.get("push button", "As planned")
    v.app.key("Escape")
    v.app.get("list", "Board: plan and walls")
    v.app.key("Page_Down")
    equal(v.work.project(), before, "the project")


@sitting()
def test_changes_tile(v):
    """Sales 2: another tile, and the picture, the price and the words follow; undo brings all back."""
    v.show()
    before, then = price(v.cards()["As planned"]), v.picture("before")
    v.try_tile(".*4 x 12 in.*")
    v.app.get("label", "Changed since we began")
    v.app.wait(lambda: price(v.cards()["As planned"]) != before, "another price")
    pause(0.5)
    true(differ(then, v.picture("after")) > 500, "the picture shows the same tile")
    told = v.app.wait(lambda: next((n.get_name() for n in v.app.nodes() if n.get_role_name() == "label" and " instead of " in (n.get_name() or "")
                                    and n.get_name().startswith("Ceramic")), None), "the difference in words")
    true("USD" in told, "what it costs is not told: %s" % told)
    v.app.key("ctrl+z")
    v.app.wait(lambda: price(v.cards()["As planned"]) == before, "the old price")
    v.app.gone("label", "Changed since we began")


@sitting("data/demo/client-shower.drybay")
def test_floor_in_words(v):
    """Sales 3: no curb and a floor of mortar, kept beside the plan, are told with what they mean for the floor."""
    v.work.select(".*(pan|Pan|base).*")
    switch = v.app.wait(lambda: next((n for n in v.app.nodes() if n.get_name() == "Mortar floor made on site" and
                                      n.get_role_name() in ("switch", "check box", "toggle button")), None), "the switch for a floor of mortar")
    pause(0.6)
    switch.do_action(0)
    v.app.wait(lambda: v.work.room()["basin"].get("site_built"), "the floor of mortar in the file")
    v.app.key("Escape", "Escape")
    v.ledger.open("Alternates")
    v.work.menu_button("Keep what was changed as an alternate")
    v.app.click(v.app.get("push button", "_?Keep Keep|_?Keep"))
    row = v.app.get("list item", "Alternate 4.*|Alternate \\d.*")
    v.app.click(row)
    v.app.get("label", ".*floor of mortar made on site instead of a ready pan.*")
    v.app.get("label", ".*the mortar must set.*")
    v.app.get("label", r".*\d h of work more.*")
    v.app.get("label", ".*a low spot in the floor is found by the first water.*")


@sitting()
def test_why_it_costs_more(v):
    """Sales 5: the card that is looked at says what the difference in price is made of."""
    v.show()
    name = "Cement board and coats"
    true("labor" not in v.cards()[name], "the sum is taken apart before anybody asked")
    v.app.click(v.app.get("push button", name))
    text = v.app.wait(lambda: "labor" in v.cards()[name] and v.cards()[name], "why")
    parts = re.search(r"([\d.,]+) USD (more|less): (.*?)(?:\n|$)", text)
    true(parts, "no reason in %r" % text)
    total = 0.0
    for amount, way in re.findall(r"([\d,]+\.\d\d) (more|less)", parts.group(3)):
        total += float(amount.replace(",", "")) * (1 if way == "more" else -1)
    said = float(parts.group(1).replace(",", "")) * (1 if parts.group(2) == "more" else -1)
    true(abs(total - said) < 0.011, "the parts make %.2f, the whole is %.2f" % (total, said))


@sitting()
def test_people(v):
    """Sales 6: a short and a tall person stand in the shower, and go again."""
    v.show()
    empty = v.picture("empty")
    v.app.key("e")
    full = v.picture("full")
    true(differ(empty, full) > 3000, "nobody stands there")
    v.app.key("e")
    true(differ(empty, v.picture("again")) < 200, "somebody stayed")


@sitting()
def test_walks_cards_by_keys(v):
    """Arrows and Enter: each way is shown in turn."""
    v.show()
    first = v.picture("first")
    names = list(v.cards())
    v.app.key("Down", "Down", "Return")
    v.app.get("image", "Picture of the wet area: %s.*" % re.escape(names[1]))
    v.app.key("Up", "Return")
    v.app.get("image", "Picture of the wet area: %s.*" % re.escape(names[0]))
    pause(0.5)
    true(differ(first, v.picture("back")) < 200, "the first picture is another now")


@sitting()
def test_swings_doors(v):
    """Sales 7: the room to turn a wheelchair is not shown unless asked for: its key lays it over the plan, takes it off
    again, and the project is the same."""
    x, y, w, h = v.app.box(v.board.node())
    before = v.work.project()
    v.app.key("Escape", "Escape")
    v.app.move(x + 4, y + 4)

    def look(name):
        return v.look(name, (x, y, w, h - 90))

    def still(name):
        now = look(name)
        while True:
            pause(0.5)
            os.replace(now, now + ".before")
            now = look(name)
            if differ(now + ".before", now) == 0:
                return now
    pause(2)
    without = still("without")
    v.app.key("alt+7")
    v.app.wait(lambda: differ(without, look("now")) > 200, "the circle on the plan")
    shown = still("shown")
    if pictures_folder():
        subprocess.run(["cp", shown, os.path.join(pictures_folder(), "turning.png")], check=True)
    v.app.key("alt+7")
    v.app.wait(lambda: differ(without, look("now")) < 60, "the circle to go")
    equal(v.work.project(), before)


def amber(path):
    """How many pixels of a picture are of the warning color the circle has when it is too small."""
    answer = subprocess.run(["convert", path, "-fuzz", "12%", "-fill", "black", "+opaque", "#9a5500", "-fuzz", "0", "-fill", "white",
                             "+opaque", "black", "-format", "%[fx:mean*w*h]", "info:"], capture_output=True, text=True, check=True)
    return float(answer.stdout)


def test_swings_doors_only_when_asked():
    """Who chose layers before there was one for turning space does not get it unasked; who chose it since does."""
    settings = os.path.join(os.environ["XDG_CONFIG_HOME"], "glib-2.0", "settings", "keyfile")
    os.makedirs(os.path.dirname(settings), exist_ok=True)
    os.environ["GSETTINGS_BACKEND"] = "keyfile"
    looks = []
    try:
        for chosen in ("", "layers-known=uint32 16\n"):  # nothing hidden then; nothing hidden now
            with open(settings, "w") as file:
                file.write("[io/github/drybay/Drybay]\nlayers=uint32 0\n" + chosen)
            v = Visit()
            try:
                x, y, w, h = v.app.box(v.board.node())
                v.app.key("Escape", "Escape")
                v.app.move(x + 4, y + 4)

                counts = []
                for press in ([], ["alt+7"]):
                    v.app.key(*press)
                    pause(2)
                    counts.append(amber(v.look("look", (x, y, w, (h - 90) // 2))))
                looks.append(counts)
            finally:
                v.work.remove()
    finally:
        del os.environ["GSETTINGS_BACKEND"]
        os.remove(settings)
    true(looks[0][0] + 50 < looks[0][1], "shown unasked, or its key does nothing: %r" % looks)
    true(looks[1][0] > looks[1][1] + 50, "not kept, or its key does nothing: %r" % looks)


@sitting()
def test_prices_on_and_off(v):
    """One key hides every sum."""
    v.show()
    v.app.key("p")
    v.app.wait(lambda: not any("USD" in text for text in v.cards().values()), "the prices to go")
    true(not any("USD" in (n.get_name() or "") for n in v.app.nodes() if n.get_role_name() == "label"), "a sum is left")
    v.app.key("p")
    v.app.wait(lambda: all("USD" in text for text in v.cards().values()), "the prices")


@sitting()
def test_records_a_change(v):
    """Sales 9: what is changed after the project was agreed and saved becomes a change order with its sum and day."""
    v.work.project()
    v.show()
    before = price(v.cards()["As planned"])
    v.try_tile(".*4 x 12 in.*")
    after = v.app.wait(lambda: price(v.cards()["As planned"]) != before and price(v.cards()["As planned"]), "another price")
    v.app.key("Escape")
    v.app.get("list", "Board: plan and walls")
    text = v.pdf("ctrl+alt+c", "change.pdf")
    true("instead of" in text and "4 x 12" in text, "the tile is not told:\n%s" % text[:1500])
    sum_text = "%.2f" % abs(after - before)
    true(sum_text in text.replace(",", ""), "the difference %s is not in\n%s" % (sum_text, text[:2500]))


@sitting()
def test_client_sheet(v):
    """Sales 10: the proposal, with prices, and without a single one."""
    text = v.pdf("ctrl+alt+e", "with.pdf")
    true("USD" in text, "no price in the proposal")
    v.show()
    v.app.key("p")
    v.app.wait(lambda: not any("USD" in text for text in v.cards().values()), "the prices to go")
    v.app.key("Escape")
    v.app.get("list", "Board: plan and walls")
    text = v.pdf("ctrl+alt+e", "without.pdf")
    true("USD" not in text, "a price is left in the proposal")
    v.show()
    v.app.key("p")


tap.run_all(globals())
tap.end()
