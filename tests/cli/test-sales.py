#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What leaves a job as text for people: cost, schedule, alternates side by side, price books, papers at full size; each
must say what its JSON says. Speaks TAP.

Arguments: the program, the source folder."""
import json
import pathlib
import re
import tempfile

from command_line import ROOT, fails, main, ok, run, test

DEMO = ROOT / "data/demo/alcove-refit.drybay"
TWO = ROOT / "data/demo/two-bath-house.drybay"
BOOK = ROOT / "data/prices/sample-us.json"
QUICK = ("--search", "0")
WORK = tempfile.TemporaryDirectory()
FOLDER = pathlib.Path(WORK.name)


def changed(file, name, change):
    """The file as JSON, changed, under a new name."""
    value = json.loads(file.read_text())
    change(value)
    path = FOLDER / name
    path.write_text(json.dumps(value))
    return path


def money(hundredths):
    return f"{hundredths // 100}.{hundredths % 100:02}"


def is_pdf(path):
    return path.read_bytes().startswith(b"%PDF-")


# --- cost ---


@test
def cost_says_every_line_and_sum():
    answer = json.loads(ok("cost", DEMO, "--json", "--start", "2026-12-01", *QUICK))
    text = ok("cost", DEMO, "--start", "2026-12-01", *QUICK)
    assert text.startswith("Sample prices, US dollars, USD: invented samples, no quote\n"), text[:80]
    for line in answer["lines"]:
        if "cost" in line:
            assert re.search(rf"^  {re.escape(line['name'][:44])} +.* {money(line['cost'])} sample$", text, re.M), line
    for group, total in answer["sums"].items():
        assert (f"\n{group}\n" in text) == any(line["group"] == group for line in answer["lines"]), group
    assert f"\nTotal {money(answer['total'])} USD" in text
    assert "EXPIRED" not in text and "not valid on" not in text


@test
def cost_tells_gaps_and_expired_prices():
    def without(count):
        def change(book):
            book["prices"] = book["prices"][count:]
            for price in book["prices"][:count]:
                price["valid_to"] = "2026-01-31"
            book["invented"] = False
        return change

    said = set()
    for count in (1, 2, 40):
        book = changed(BOOK, f"own{count}.json", without(count))
        text = ok("cost", DEMO, "--start", "2026-12-01", "--book", book, *QUICK)
        answer = json.loads(ok("cost", DEMO, "--start", "2026-12-01", "--book", book, "--json", *QUICK))
        assert "invented samples, no quote" not in text
        assert len(re.findall(r"^  .* no price( sample)?( EXPIRED)?$", text, re.M)) == answer["gaps"], (count, text)
        lines = "line" if answer["gaps"] == 1 else "lines"
        assert (f", and {answer['gaps']} {lines} without a price, not counted" in text) == (answer["gaps"] > 0)
        expired = text.count(" EXPIRED\n")
        prices = "price" if expired == 1 else "prices"
        assert (f", {expired} {prices} not valid on the first day of work" in text) == (expired > 0), text[-300:]
        said |= {"gap"} if answer["gaps"] else set()
        said |= {"expired"} if expired else set()
    assert said == {"gap", "expired"}, said


@test
def cost_writes_files_and_says_what_it_cannot():
    proposal, order, book = FOLDER / "proposal.pdf", FOLDER / "order.pdf", FOLDER / "cost.xlsx"
    assert ok("cost", DEMO, "--proposal", proposal, "--order", order, "--xlsx", book, "--paper", "a4", *QUICK) == ""
    assert is_pdf(proposal) and is_pdf(order) and book.read_bytes().startswith(b"PK")
    fails("cost", DEMO, "--xlsx", "/no/such/folder/x.xlsx", *QUICK, says="/no/such/folder/x.xlsx")
    fails("cost", DEMO, "--proposal", "/no/such/folder/x.pdf", *QUICK, says="/no/such/folder/x.pdf")
    fails("cost", DEMO, "--order", "/no/such/folder/x.pdf", *QUICK, says="/no/such/folder/x.pdf")
    fails("cost", DEMO, "--paper", "a5", *QUICK, says="“a5” is no paper size")
    fails("cost", DEMO, "--decimal", "dot", *QUICK, says="point or comma")
    fails("cost", DEMO, "--start", "soon", *QUICK, says="soon")
    assert ";" in ok("cost", DEMO, "--csv", "--decimal", "comma", *QUICK).splitlines()[0]
    assert "," in ok("cost", DEMO, "--csv", "--decimal", "point", *QUICK).splitlines()[0]


# --- schedule ---


@test
def schedule_says_every_task():
    answer = json.loads(ok("schedule", DEMO, "--json", "--start", "2026-12-01", *QUICK))
    text = ok("schedule", DEMO, "--start", "2026-12-01", *QUICK)
    rows = re.findall(r"^([* ]) (\w{3} \S+ \S+) +\w{3} \S+ \S+ +(\S+) .* slack", text, re.M)
    assert [row[2] for row in rows] == [task["id"] for task in answer["tasks"]]
    assert [row[0] == "*" for row in rows] == [task["critical"] for task in answer["tasks"]]
    assert text.count("  HOLD\n") == sum(task["kind"] == "hold" for task in answer["tasks"])
    assert re.search(r"^Tiling can start +\w{3} 2026-12-", text, re.M)
    assert re.search(r"^      [0-9.]+ h after \S+: ", text, re.M)
    assert "Too cold" not in text


@test
def schedule_without_a_date_counts_days():
    text = ok("schedule", DEMO, *QUICK)
    assert "day 1, 0" in text and not re.search(r"20\d\d-", text)


@test
def schedule_warns_of_cold_and_says_what_is_not_known():
    def cold(project):
        project["job"]["temperature_celsius"] = 5

    def untiled(project):
        for room in project["rooms"]:
            room["finish"]["tiled"] = False

    text = ok("schedule", changed(DEMO, "cold.drybay", cold), "--start", "2026-12-01", *QUICK)
    assert "room at 5.0 C" in text and "Too cold: below 10 C" in text
    answer = json.loads(ok("schedule", changed(DEMO, "untiled.drybay", untiled), "--json", *QUICK))
    text = ok("schedule", FOLDER / "untiled.drybay", *QUICK)
    assert ("First shower not known: " in text) == bool(answer.get("missing")), answer.get("missing")


@test
def schedule_writes_files():
    calendar, pages = FOLDER / "a.ics", FOLDER / "schedule.pdf"
    assert ok("schedule", TWO, "--start", "2026-12-01", "--ics", calendar, "-o", pages, *QUICK) == ""
    assert calendar.read_text().startswith("BEGIN:VCALENDAR") and is_pdf(pages)
    fails("schedule", DEMO, "--ics", FOLDER / "b.ics", *QUICK, says="date|day")
    fails("schedule", DEMO, "--start", "2026-12-01", "--ics", "/no/such/folder/b.ics", *QUICK, says="/no/such/folder")
    fails("schedule", DEMO, "-o", FOLDER / "c.pdf", "--paper", "a5", *QUICK, says="a5")
    fails("schedule", DEMO, "--book", "none", *QUICK, says="it has: sample-us")
    fails("schedule", "--network", "/no/such/list.json", says="/no/such/list.json")


# --- alternates ---


def table(text):
    """The names of the rows, and the headings, of the table on top."""
    lines = text.split("\n\n")[0].split("\n")
    return lines[0].split(), [line.split("  ")[0] for line in lines[1:]]


@test
def compare_sets_systems_side_by_side():
    arguments = ("compare", DEMO, "--start", "2026-12-01", "--system", "mortar-bed", "--system", "cement-liquid", *QUICK)
    answer = json.loads(ok(*arguments, "--json"))
    text = ok(*arguments)
    headings, names = table(text)
    assert headings[:2] == ["cost", "hours"] and "skill" in headings
    assert names == [option["name"] for option in answer["options"]], names
    for option in answer["options"]:
        assert money(option["cost"]) in text
    for option in answer["options"][1:]:
        assert f"\n{option['name']}\n" in text
        for difference in option["differences"]:
            assert f"\n  {difference['text']}\n" in text, difference
            assert not difference.get("why") or f"\n      {difference['why']}\n" in text, difference
    assert "money in USD, invented samples" in text


@test
def compare_knows_every_system_and_tells_no_difference():
    text = ok("compare", DEMO, "--systems", "--start", "2026-12-01", *QUICK)
    listed = json.loads(ok("systems", "--json"))["systems"]
    assert len(table(text)[1]) == len(listed)
    own = json.loads(DEMO.read_text())["rooms"][0]["finish"]["system"]
    same = ok("compare", DEMO, "--system", own, "--start", "2026-12-01", *QUICK)
    assert "\n  no different\n" in same, same


@test
def compare_counts_gaps_of_an_own_book():
    def bare(book):
        book["prices"] = book["prices"][:1]
        book["invented"] = False

    text = ok("compare", DEMO, "--book", changed(BOOK, "bare.json", bare), "--system", "mortar-bed", *QUICK)
    assert " + gaps" in text and "invented samples" not in text


@test
def change_orders_need_one_alternate():
    one = ("compare", DEMO, "--system", "mortar-bed", *QUICK)
    two = (*one, "--system", "cement-liquid")
    path = FOLDER / "change.pdf"
    assert ok(*one, "--change-order", path) == "" and is_pdf(path)
    name = json.loads(ok(*two, "--json"))["options"][2]["name"]
    assert ok(*two, "--change-order", path, "--option", name) == ""
    fails(*two, "--change-order", path, says="Say with --option which alternate")
    fails(*two, "--change-order", path, "--option", "straw", says="“straw” is none")
    fails("compare", DEMO, *QUICK, "--change-order", path, says="Say with --option")
    fails(*one, "--change-order", path, "--paper", "a5", says="a5")
    fails(*one, "--change-order", "/no/such/folder/x.pdf", says="/no/such/folder")
    fails("compare", "/no/such.drybay", says="/no/such.drybay")
    fails("compare", DEMO, "--book", "none", *QUICK, says="it has: sample-us")
    fails("compare", DEMO, "--search", "-1", says="from 0 to 3600")
    fails("compare", DEMO, "--catalog", "/no/such/folder", says="/no/such/folder")


@test
def compare_takes_one_room_by_name_or_number():
    by_name = ok("compare", TWO, "--room", "Main bath", "--json", *QUICK)
    assert by_name == ok("compare", TWO, "--room", "2", "--json", *QUICK)
    assert by_name != ok("compare", TWO, "--room", "1", "--json", *QUICK)
    fails("compare", TWO, "--room", "cellar", *QUICK, says=r"the file holds 1 \(Hall bath\), 2 \(Main bath\)")
    fails("compare", TWO, "--room", "3", *QUICK, says="There is no room “3”")


# --- price books ---


@test
def prices_says_what_a_book_is():
    def dated(book):
        book.update(id="own", name="Own prices", invented=False, valid_from="2026-01-01", valid_to="2026-12-31")

    def undated(book):
        book.update(id="own", name="Own prices", invented=True)
        book.pop("valid_from", None)
        book.pop("valid_to", None)

    assert re.match(r"sample-us: Sample prices, US dollars, USD, invented samples; \d+ prices, \d+ tasks", ok("prices", "sample-us"))
    assert ok("prices", changed(BOOK, "dated.json", dated)).endswith(" tasks, valid from 2026-01-01 to 2026-12-31\n")
    text = ok("prices", changed(BOOK, "undated.json", undated))
    assert "invented samples" in text and "valid" not in text


@test
def prices_go_from_form_to_form():
    first = FOLDER / "a.json"
    assert ok("prices", "sample-us", "-o", first) == ""
    for ending, *decimal in (("csv",), ("csv", "--decimal", "comma"), ("csv", "--decimal", "point"), ("xlsx",)):
        other, back = FOLDER / f"b.{ending}", FOLDER / "c.json"
        assert ok("prices", first, "-o", other, *decimal) == ""
        assert ok("prices", other, "-o", back) == ""
        assert json.loads(back.read_text())["prices"] == json.loads(first.read_text())["prices"], ending
    fails("prices", "sample-us", "-o", FOLDER / "b.txt", says="ends in none of .json, .csv, .xlsx")
    fails("prices", "sample-us", "-o", "/no/such/folder/b.csv", says="/no/such/folder")
    fails("prices", "sample-us", "--decimal", "dot", says="point or comma")
    fails("prices", "sample-us", "--catalog", "/no/such/folder", says="/no/such/folder")
    (FOLDER / "bad.xlsx").write_text("no archive")
    fails("prices", FOLDER / "bad.xlsx", says="bad.xlsx: ")
    fails("cost", DEMO, "--book", FOLDER / "bad.xlsx", *QUICK, says="bad.xlsx: ")
    assert ok("cost", DEMO, "--book", FOLDER / "b.csv", *QUICK) == ok("cost", DEMO, "--book", first, *QUICK)


# --- full size ---


@test
def templates_and_story_poles():
    room = json.loads(DEMO.read_text())["rooms"][0]
    niche = next(part["id"] for part in room["parts"] if part["kind"] == "niche")
    valve = next(part["id"] for part in room["parts"] if part["kind"] == "valve")
    for what in (("--for", niche), ("--pole",)):
        path = FOLDER / "full.pdf"
        assert ok("template", DEMO, *what, "-o", path, "--paper", "letter", "--date", "2026-12-01", *QUICK) == ""
        assert is_pdf(path)
    second = json.loads(TWO.read_text())["rooms"][1]
    part = next(part["id"] for part in second["parts"] if part["kind"] == "niche")
    assert ok("template", TWO, "--for", part, "-o", FOLDER / "second.pdf", *QUICK) == ""
    target = ("-o", FOLDER / "none.pdf", *QUICK)
    for wrong in ((), ("--for", niche, "--pole")):
        fails("template", DEMO, *wrong, *target, says="--for ID or --pole")
    fails("template", DEMO, "--pole", says="-o OUT.pdf")
    fails("template", DEMO, "--for", "shelf", *target, says="“shelf” is no ID of a part")
    fails("template", DEMO, "--for", "99999", *target, says="there is no part 99999")
    fails("template", DEMO, "--for", valve, *target, says="niche")
    fails("template", DEMO, "--pole", "--paper", "a5", *target, says="a5")
    fails("template", "/no/such.drybay", "--pole", *target, says="/no/such.drybay")
    fails("template", DEMO, "--pole", "-o", "/no/such/folder/x.pdf", *QUICK, says="/no/such/folder")
    assert not (FOLDER / "none.pdf").exists()


# --- the program itself ---


@test
def the_program_says_what_it_is():
    overview = ok("--help")
    assert overview == ok("-h") == ok("help")
    alone = run()
    assert alone.returncode == 2 and alone.stdout.decode() == overview
    assert re.fullmatch(r"drybay-cli \d+\.\d+\.\d+\S*\n", ok("--version"))
    assert ok("check", "--", DEMO) == ok("check", DEMO)
    fails("check", "--", "-no-such.drybay", says="-no-such.drybay")


@test
def files_asked_for_must_be_named():
    fails("papers", DEMO, *QUICK, says="say where to with -o OUT.pdf")
    fails("drawing", DEMO, "--sheet", "plan", *QUICK, says="-o|--sheet")
    fails("drawing", DEMO, "-o", FOLDER / "x.svg", *QUICK, says="-o|--sheet")
    fails("drawing", DEMO, "--sheet", "plan", "-o", FOLDER / "x.svg", "--paper", "a5", *QUICK, says="a5")
    fails("drawing", "/no/such.drybay", "--sheet", "plan", "-o", FOLDER / "x.svg", says="/no/such.drybay")
    fails("papers", DEMO, "-o", "/no/such/folder/x.pdf", "--trade", "framer", *QUICK, says="/no/such/folder")
    fails("papers", DEMO, "-o", FOLDER / "x.pdf", "--trade", "roofer", *QUICK, says="“roofer” is no trade")
    for command in ("tile", "takeoff", "water"):
        fails(command, "/no/such.drybay", says="/no/such.drybay")
    fails("systems", "--catalog", "/no/such/folder", says="/no/such/folder")


@test
def one_sheet_a_drawing():
    """Every kind of drawing becomes a page that says which it is."""
    for name in ("board", "strip", "plan", "face:a", "face:B", "sheet:1", "section", "client", "room", "water"):
        path = FOLDER / "drawing.pdf"
        assert ok("drawing", DEMO, "--sheet", name, "-o", path, *QUICK) == "" and is_pdf(path), name
    fails("drawing", DEMO, "--sheet", "face:Z", "-o", FOLDER / "x.pdf", *QUICK, says="face:A")


main()
WORK.cleanup()
