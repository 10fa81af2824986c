# SPDX-License-Identifier: GPL-3.0-or-later
"""What people come for, from the first hand on the mouse to what is in the file and in the ledger: the office that
plans from a survey, the homeowner who looks for a place for a niche, the client who is shown how it is built.
docs/walk-throughs.md says which is which.

Arguments: the program, the source folder."""
import json
import os
import re
import shutil
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import visit  # noqa: E402
from driver import App, Board, Ledger, Tap, equal, near, pause, true  # noqa: E402
from visit import differing, read_pdf  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
tap = Tap()
NICHE = "Shampoo niche"
INCH = 25.4


class Visit(visit.Visit):
    def distance(self, side, text):
        """Types a distance of what is selected to what is beside it."""
        self.app.key("d")
        self.board.until_side(side)
        self.app.key("ctrl+a")
        self.app.type(text)
        self.app.key("Return")
        pause(0.4)


sitting = Visit.sitting


# --- the first minutes ---

def test_first_minutes():
    """From the start page: a tub alcove, a niche, a system of one's own choice and its sheets, in five actions."""
    folder = tempfile.mkdtemp(prefix="drybay-first-")
    app = App([program])
    try:
        board, ledger, niche = Board(app), Ledger(app), "Niche built on site, 12 x 20 in"
        app.click(app.get("push button", "_?New Project.*"))  # 1
        board.item("Back wall|Wall 2")
        true(any("tub" in name.lower() for name in board.names()), "no tub stands in the alcove: %s" % board.names())
        pause(0.6)
        place = board.shelf(niche)  # 2: looks for a niche
        app.drag(place, app.centre(board.item("Back wall|Wall 2")), steps=25)  # 3
        board.item("Niche.*")
        app.key("Escape")  # 4
        system = app.get("list item", "Foam board with sealant joints")
        before = ledger.total(r".*sheets?,.*")
        app.click(system)  # 5
        # What is chosen says no longer what would change; its sheets are told in the line at the foot.
        app.wait(lambda: "\n" not in app.find("list item", "Foam board with sealant joints").get_description().split(". ")[0],
                 "the system to be the present one")
        sheets = app.wait(lambda: re.match(r"(\d+) sheets?, ", ledger.total(r".*sheets?,.*")), "a count of sheets")
        true(int(sheets.group(1)) >= 2, "an alcove takes at least two sheets: %s, before %s" % (sheets.group(0), before))
        name = os.path.join(folder, "first.drybay")
        app.key("ctrl+s")
        app.answer_dialog(name)
        app.wait(lambda: os.path.exists(name), "the file")
        with open(name, encoding="utf-8") as f:
            room = json.load(f)["rooms"][0]
        equal(room["basin"]["kind"], "tub")
        equal([p["kind"] for p in room["parts"]], ["niche"])
        equal(room["finish"]["system"], "foam-sealant")
    finally:
        app.end()
        shutil.rmtree(folder, ignore_errors=True)


# --- the office ---

@sitting()
def test_office_drops_tub(v):
    """A tub set into a bare alcove brings the gap above its lip into the order of work; a lip that stands proud of the
    studs asks for furring."""
    v.work.select("Tub.*")
    v.app.key("Delete")
    v.app.wait(lambda: not any(name.startswith("Tub") for name in v.board.names()), "the tub to be gone")
    true("basin" not in v.work.room(), "the tub is still in the file")
    v.ledger.open("Order of work")
    v.app.wait(lambda: not any("Close the gap" in step for step in v.ledger.rows("Order of work")), "no gap to close")
    v.app.key("ctrl+l")
    tub = v.app.get("push button", "Alcove tub, 60 x 30 in")
    v.app.click(tub)
    v.app.key("Return")
    v.board.item("Tub.*|Alcove tub.*")
    v.ledger.open("Order of work")
    v.app.wait(lambda: any("Close the gap" in step for step in v.ledger.rows("Order of work")), "the gap above the lip in the order of work")
    equal(v.work.room()["basin"]["kind"], "tub")
    v.app.key("ctrl+l")
    v.work.select("Tub.*|Alcove tub.*")
    entry = v.app.get("text", "Flange proud of studs.*")
    v.app.click(v.app.centre(entry))
    v.app.key("ctrl+a")
    v.app.type("3/16")
    v.app.key("Return")
    v.ledger.wait_finding("^Flange stands proud of the studs")
    near(v.work.room()["basin"]["flange_thickness"], 3 / 16 * INCH, "the lip's thickness")
    v.ledger.open("Findings")
    v.app.click(v.app.get("list item", "Flange stands proud of the studs.*"))
    pause(0.6)
    v.app.click(v.app.get("push button", "Fur the studs out.*"))
    v.ledger.wait_finding("^Flange stands proud of the studs", there=False)


@sitting()
def test_office_swaps_system(v):
    """Another system: the price moves by what the list promised, the joints change, the room stays."""
    before, room = v.ledger.money(), v.work.room()
    waits = v.ledger.total(".*tiling.*")
    v.app.key("Escape", "Escape")
    name = "Cement board with sheet membrane"
    said = v.app.wait(lambda: re.search(r"([\d,]+\.\d\d) (cheaper|dearer)", v.app.find("list item", name).get_description()), "what would change")
    by = float(said.group(1).replace(",", "")) * (-1 if said.group(2) == "cheaper" else 1)
    v.app.click(v.app.get("list item", name))
    v.app.wait(lambda: abs(v.ledger.money() - (before + by)) < 0.005, "the price to move by %.2f from %.2f" % (by, before))
    days = re.search(r"(\d+ \w+( \d+ \w+)?) (later|sooner)", said.string)
    true(days, "the list says nothing of time: %r" % said.string)
    true(v.ledger.total(".*tiling.*") != waits, "tiling can start as before: %s" % waits)
    v.ledger.open("Take-off")
    v.app.wait(lambda: any("Cement board" in title for title in v.ledger.rows("Take-off")), "cement board in the take-off")
    true(not any("Waterproof band, 5 in" in title for title in v.ledger.rows("Take-off")), "bands of the old system are still bought")
    after = v.work.room()
    true(after["finish"]["system"] != room["finish"]["system"], "the system in the file stayed")
    equal((after["walls"], after["parts"], after["basin"]), (room["walls"], room["parts"], room["basin"]), "only the system changes")
    v.app.key("ctrl+l")


@sitting()
def test_office_finds_pipe(v):
    """A vent found behind the niche: told at once; the niche moved to the next bay, and it is well again."""
    x, y, w, h = v.app.box(v.board.item(NICHE))
    v.app.drag(v.board.shelf("Vent pipe, 2 in"), (x + w // 2, y + h // 2), steps=25)
    v.app.wait(lambda: len(v.work.parts("vent")) == 1, "the vent in the file")
    v.ledger.wait_finding("(?i)vent|pipe|in the way|bay")
    found = v.ledger.findings()
    v.app.key("ctrl+l")
    x, y, w, h = v.app.box(v.board.item(NICHE))
    v.app.click((x + 6, y + h // 4))  # beside the vent
    v.app.wait(lambda: v.board.selected() and v.board.selected().get_name() == NICHE, "the niche to be selected")
    v.distance("Right, to the wall.*", "14")
    v.ledger.open("Findings")
    v.app.wait(lambda: not set(found) <= set(v.ledger.rows("Findings")), "the finding to go with the niche")
    near(v.work.part(NICHE)["u"], (60 - 14 - 6) * INCH, "the niche in the next bay")
    v.app.key("ctrl+l")
    v.app.key("ctrl+e")
    paper = os.path.join(v.work.folder, "revised.pdf")
    v.app.answer_dialog(paper)
    v.app.wait(lambda: os.path.exists(paper) and os.path.getsize(paper) > 5000, "the revised papers")


# --- the homeowner ---

@sitting()
def test_home_odd_bays(v):
    """Studs as found put one behind the niche; the niche moved into the odd bay clears them."""
    v.work.select_wall()
    v.app.key("s")
    v.distance("Left, to .*", "20")
    near(v.work.wall(0)["found_studs"][0], 20 * INCH, "first stud as found")
    v.ledger.wait_finding("^Niche cuts a stud")
    v.app.key("ctrl+l", "Escape")
    v.work.select(NICHE)
    v.distance("Left, to the wall.*", "34")
    v.ledger.wait_finding("^Niche cuts a stud", there=False)
    v.app.key("ctrl+l")


@sitting()
def test_home_niche_hits_stud(v):
    """Three inches to the left, by three strokes of a key: the stud that is hit and the wood it takes, at once."""

    def framing_hours():
        labels = next(labels for title, labels in v.ledger.rows("Order of work").items() if "added framing" in title)
        return float(next(text for text in labels if re.fullmatch(r"[\d.]+ h", text)).split()[0])
    v.ledger.open("Order of work")
    usual = v.app.wait(framing_hours, "the hours of framing")
    v.app.key("ctrl+l")
    v.work.select(NICHE)
    v.app.key("shift+Left", "shift+Left", "shift+Left")
    v.ledger.wait_finding(r"^Niche cuts a stud \(studs cut: 1")
    v.ledger.open("Order of work")
    v.app.wait(lambda: framing_hours() > usual, "the wood it takes in the hours of framing")
    near(v.work.part(NICHE)["u"], 21 * INCH, "three inches further left")
    # The remedy stands first in the unfolded finding: one click mends it, one undo takes that back.
    v.ledger.open("Findings")
    v.app.click(v.app.get("list item", "Niche cuts a stud.*"))
    pause(0.6)
    v.app.click(v.app.get("push button", "Move the niche between the studs"))
    v.ledger.wait_finding("^Niche cuts a stud", there=False)
    v.app.key("ctrl+z")
    v.ledger.wait_finding("^Niche cuts a stud")
    for _ in range(3):
        v.app.key("ctrl+z")
    v.ledger.wait_finding("^Niche cuts a stud", there=False)


@sitting()
def test_home_exterior_wall(v):
    """The wall behind the niche is said to be an outside wall: what is cold then is told."""
    v.work.select_wall()
    switch = v.app.wait(lambda: next((n for n in v.app.nodes() if n.get_name() == "Exterior" and n.get_role_name() in ("switch", "check box", "toggle button")), None), "the switch")
    switch.do_action(0)
    v.ledger.wait_finding("outside wall")
    true(v.work.wall(0)["exterior"], "the file does not know it")
    v.app.key("ctrl+l")


@sitting()
def test_home_shopping_list(v):
    """Whole packs only, and together what the line says they cost."""
    v.ledger.open("Take-off")
    v.app.wait(lambda: len(v.ledger.rows("Take-off")) > 10, "the rows of the take-off")
    rows = v.ledger.rows("Take-off")
    true(len(rows) > 10, "only %d rows" % len(rows))
    priced = 0.0
    for title, labels in rows.items():
        pack = next((text for text in labels if re.match(r"\d+ × ", text)), None)
        true(pack, "%s is in no whole packs: %s" % (title, labels))
        price = next((text for text in labels if re.fullmatch(r"[\d,]+\.\d\d", text)), None)
        true(price or "no price" in labels, "%s has neither price nor says so" % title)
        priced += float(price.replace(",", "")) if price else 0
    near(priced, v.ledger.money(), "the rows' prices together", by=0.005)
    v.app.key("ctrl+l")


def pdf_text(path):
    return read_pdf(path)


@sitting()
def test_home_template(v):
    """The niche's template and the story pole, at full size, written by the window and offered to the printer."""
    app, folder = v.app, v.work.folder
    template, pole = os.path.join(folder, "niche.pdf"), os.path.join(folder, "pole.pdf")
    for key, path in (("ctrl+alt+t", template), ("ctrl+alt+s", pole)):
        app.key(key)
        app.answer_dialog(path)
        app.wait(lambda: os.path.exists(path) and os.path.getsize(path) > 0, path)
        app.get("label", os.path.basename(path) + " exported")
    if shutil.which("pdftotext"):
        text = pdf_text(template)
        pages = text.count("\f")
        true(pages >= 4, "%d pages hold no niche of 12 by 20 in" % pages)
        equal((text.count("100 mm"), text.count("4 in")), (pages, pages))
        true("Cut here: rough opening" in text and "Level line" in text and "Full size, 1:1" in text, text)
        text = pdf_text(pole)
        true("Heights of the courses" in text and "niche, bottom" in text.lower(), text)
    for key in ("ctrl+shift+t", "ctrl+alt+p"):
        app.key(key)
        app.wait(lambda: len(app.windows()) > 1, "the print dialog")
        pause(0.5)
        app.key("Escape")
        app.wait(lambda: len(app.windows()) == 1, "the print dialog to close")


# --- showing it to a client ---

@sitting("data/demo/client-shower.drybay")
def test_sales_shows_cuts(v):
    """Every sheet that is bought is drawn with its cuts."""
    total = v.app.get("push button", r".*sheets?,.*")
    sheets = re.search(r"pieces on (\d+) sheets", total.get_description()).group(1)
    v.ledger.open("Cut sheets")

    def drawn():
        return {n.get_name() for n in v.app.nodes() if re.match(r"Cut sheet \d+", n.get_name() or "")}
    v.app.wait(lambda: len(drawn()) == int(sheets), "%s sheets to be drawn" % sheets)


@sitting()  # its sheets are known to be the fewest: nothing is searched for behind the drawing
def test_sales_peels_layers(v):
    """Key by key the drawing loses studs, boards, fasteners, joints, wet area, tile and dimensions, and gets them back."""
    x, y, w, h = v.app.box(v.board.node())
    v.app.key("Escape", "Escape")
    v.app.move(x + 4, y + 4)  # nothing under the pointer

    looks = []

    def look():
        looks.append(v.look("look-%d" % len(looks), (x, y, w, h - 90)))
        return looks[-1]

    def alike(a, b):
        return differing(a, b, 3) == 0

    def still():
        """Two looks alike, half a second apart."""
        now = look()
        while True:
            pause(0.5)
            now, before = look(), now
            if alike(now, before):
                return now
    v.app.get("push button", ".*fewest possible.*")
    pause(2)
    whole = before = still()
    for key in "1234567":
        v.app.key(key)
        now = still()
        true(not alike(now, before), "the key %s changes nothing" % key)
        before = now
    for key in "7654321":
        v.app.key(key)
    # But for a shade: where thin lines cross, Cairo blends them a little otherwise when it paints one square alone.
    again = still()
    left = differing(again, whole, 3), differing(again, whole, 30)
    true(left[0] < 60 and left[1] == 0, "with every layer back the drawing is another: %d pixels, %d of them clearly" % left)


@sitting()
def test_sales_shows_water(v):
    """The water's way is not shown unless asked for: its key lays it over the drawing, and takes it off again."""
    x, y, w, h = v.app.box(v.board.node())
    v.app.key("Escape", "Escape")
    v.app.move(x + 4, y + 4)

    def look(name):
        pause(2)
        return v.look(name, (x, y, w, h - 90))

    v.app.get("push button", ".*fewest possible.*")
    dry = look("dry")
    v.app.key("0")
    wet = look("wet")
    v.app.key("0")
    again = look("again")
    shown, left = differing(dry, wet, 10), differing(dry, again, 10)
    true(shown > 200, "the key 0 shows no water: %d pixels differ" % shown)
    true(left < shown / 20, "%d of %d pixels of the water's way stay" % (left, shown))


tap.run_all(globals())
tap.end()
