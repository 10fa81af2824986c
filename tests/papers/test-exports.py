#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads back what leaves the house with other programs' readers: workbooks with openpyxl, calendars with icalendar,
tables with the csv module in two locales, pages with pdftotext; all sums must agree with the JSON to the hundredth.

Speaks TAP. Arguments: drybay-cli, the source folder.
"""
import csv
import datetime
import io
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

CLI, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])
DEMO = ROOT / "data/demo/client-shower.drybay"
UNDATED = ROOT / "data/demo/alcove-refit.drybay"
TWO = ROOT / "data/demo/two-bath-house.drybay"
WORK = pathlib.Path(tempfile.mkdtemp())
TESTS = []


class Skip(Exception):
    pass


def test(function):
    TESTS.append(function)
    return function


def ok(*arguments):
    answer = subprocess.run([CLI, *map(str, arguments)], capture_output=True, timeout=120)
    assert answer.returncode == 0, (arguments, answer.stderr.decode())
    return answer.stdout.decode()


def cost(file, *more):
    return json.loads(ok("cost", file, "--start", "2026-12-01", "--search", "0", "--json", *more))


def hundredths(text):
    digits = re.sub(r"[^0-9-]", "", text)
    return int(digits)


@test
def workbook_is_read_by_another_program():
    try:
        import openpyxl
    except ImportError:
        raise Skip("python3-openpyxl is not installed")
    path = WORK / "cost.xlsx"
    ok("cost", DEMO, "--start", "2026-12-01", "--search", "0", "--xlsx", path)
    book = openpyxl.load_workbook(path)
    rows = list(book.active.iter_rows(values_only=True))
    known = cost(DEMO)
    heads = {name: i for i, name in enumerate(rows[0])}
    lines = [row for row in rows[1:] if row[heads["Id"]]]
    assert len(lines) == len(known["lines"]) > 10
    for row, line in zip(lines, known["lines"]):
        assert row[heads["Item"]] == line["name"]
        got = row[heads["Cost"]]
        assert round(got * 100) == line["cost"] if "cost" in line else got == "no price", (row, line)
    total = [row for row in rows if row[0] == "total"][0][heads["Cost"]]
    assert round(total * 100) == known["total"]
    assert all(cell.data_type != "f" for row in book.active.iter_rows() for cell in row), "a formula"


@test
def price_book_comes_back_from_a_workbook_another_program_saved():
    try:
        import openpyxl
    except ImportError:
        raise Skip("python3-openpyxl is not installed")
    first, second, back = WORK / "book.xlsx", WORK / "saved.xlsx", WORK / "back.json"
    ok("prices", "sample-us", "-o", first)
    openpyxl.load_workbook(first).save(second)  # shared strings, other styles, numbers as floats
    ok("prices", second, "-o", back)
    assert json.loads(back.read_text()) == json.loads((ROOT / "data/prices/sample-us.json").read_text())


@test
def price_book_comes_back_from_tables_in_two_locales():
    shipped = json.loads((ROOT / "data/prices/sample-us.json").read_text())
    for mark in ("point", "comma"):
        table, back = WORK / f"book-{mark}.csv", WORK / f"back-{mark}.json"
        ok("prices", "sample-us", "-o", table, "--decimal", mark)
        ok("prices", table, "-o", back)
        assert json.loads(back.read_text()) == shipped, mark


@test
def tables_in_two_locales_have_equal_totals():
    known = cost(TWO)
    for mark, separator in (("point", ","), ("comma", ";")):
        text = ok("cost", TWO, "--start", "2026-12-01", "--search", "0", "--csv", "--decimal", mark)
        rows = list(csv.DictReader(io.StringIO(text), delimiter=separator))
        total = [row for row in rows if row["Group"] == "total"][0]["Cost"]
        assert ("," in total) == (mark == "comma")
        assert hundredths(total) == known["total"], (total, known["total"])
        lines = [row for row in rows if row["Id"]]
        assert sum(hundredths(row["Cost"]) for row in lines if row["Cost"] != "no price") == known["total"]
        for row in rows:
            for name, cell in row.items():
                assert not cell or name in ("Amount", "Packs", "Price", "Cost") or cell[0] not in "=+-@", cell


@test
def calendar_is_read_by_another_program():
    try:
        import icalendar
    except ImportError:
        raise Skip("python3-icalendar is not installed")
    path = WORK / "work.ics"
    ok("schedule", TWO, "--start", "2026-12-01", "--search", "0", "--ics", path)
    raw = path.read_bytes()
    assert raw.endswith(b"END:VCALENDAR\r\n") and b"\n" not in raw.replace(b"\r\n", b"")
    assert max(len(line) for line in raw.split(b"\r\n")) <= 75
    calendar = icalendar.Calendar.from_ical(raw)
    events = calendar.walk("VEVENT")
    schedule = json.loads(ok("schedule", TWO, "--start", "2026-12-01", "--search", "0", "--json"))
    uids = [str(event["UID"]) for event in events]
    assert len(set(uids)) == len(uids) > len(schedule["tasks"]) / 2
    when = lambda text: datetime.datetime.strptime(text, "%Y-%m-%dT%H:%M")
    starts = {event.decoded("DTSTART") for event in events}
    for task in schedule["tasks"]:
        assert when(task["start"]) in starts, task["id"]
    ends = [event.decoded("DTEND") for event in events if "DTEND" in event]
    assert max(ends) <= when(schedule["finish"])
    worked = sum((event.decoded("DTEND") - event.decoded("DTSTART")).total_seconds() / 3600
                 for event in events if str(event["TRANSP"]) == "OPAQUE")
    assert worked >= schedule["hours"], (worked, schedule["hours"])
    texts = [str(event["SUMMARY"]) for event in events]
    assert any("HOLD" in text for text in texts) and any("," in text for text in texts)
    assert all("DTSTAMP" in event for event in events)


@test
def calendar_needs_dates():
    answer = subprocess.run([CLI, "schedule", UNDATED, "--ics", WORK / "no.ics", "--search", "0"], capture_output=True)
    assert answer.returncode == 2 and b"no first day of work" in answer.stderr, answer.stderr
    assert not (WORK / "no.ics").exists()


def pages(*arguments):
    if not shutil.which("pdftotext"):
        raise Skip("pdftotext is not installed")
    path = WORK / "pages.pdf"
    ok(*[path if a == "OUT" else a for a in arguments])
    return subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True).stdout.decode()


@test
def tables_break_no_heading_within_a_word_and_no_length_before_its_unit():
    headings = set()
    for source in (ROOT / "src/papers").glob("*.c"):
        for heading in re.findall(r'\{"([^"]+)", 0?\.\d+, DRY_ALIGN', source.read_text()):
            headings |= {word.strip("()") for word in heading.split() if len(word) > 4}
    assert {"Board", "Fasteners", "opening"} <= headings, headings
    for demo in (DEMO, UNDATED, TWO):
        for number, page in enumerate(pages("papers", demo, "--search", "0", "-o", "OUT").split("\f"), 1):
            words = set(page.split())
            broken = [word for word in headings for n in range(2, len(word) - 1)
                      if {word[:n], word[n:]} <= words and word not in words]
            assert not broken, (demo.name, number, broken)
            alone = [line for line in page.splitlines() if re.search(r"(^|   )mm(   |$)", line.rstrip())]
            assert not alone, (demo.name, number, alone)


def money(value):
    return f"{value / 100:,.2f}"


@test
def proposal_says_the_same_total():
    known = cost(DEMO)
    text = pages("cost", DEMO, "--start", "2026-12-01", "--search", "0", "--proposal", "OUT")
    assert f"{money(known['total'])} USD" in text
    for name, value in known["sums"].items():
        assert not value or money(value) in text, name
    for word in ("signature", "Not included", "Cautions", "First shower", "Tile cuts you will see", "invented samples"):
        assert word in text, word
    bare = pages("cost", DEMO, "--start", "2026-12-01", "--search", "0", "--proposal", "OUT", "--without-prices")
    assert money(known["total"]) not in bare and "USD" not in bare and "signature" in bare
    for word in ("screw", "stud", "mesh"):
        assert word not in bare.split("Cautions")[0].lower(), word


@test
def order_list_adds_up():
    known = cost(TWO)
    text = pages("cost", TWO, "--start", "2026-12-01", "--search", "0", "--order", "OUT")
    assert money(known["sums"]["material"]) in text
    sums = re.findall(r"^\s+sum\s+([0-9,.]+)\s*$", text, re.M)
    assert sums and sum(hundredths(s) for s in sums) == known["sums"]["material"], sums


@test
def plan_says_the_same_as_cost_and_schedule():
    plan = json.loads(ok("plan", DEMO, "--search", "0"))
    assert plan["cost"] == json.loads(ok("cost", DEMO, "--search", "0", "--json"))
    assert plan["schedule"] == json.loads(ok("schedule", DEMO, "--search", "0", "--json"))
    assert plan["cost"]["total"] > 0 and plan["schedule"]["dated"]


@test
def alternates_of_the_demo():
    options = json.loads(ok("compare", DEMO, "--search", "0", "--json"))["options"]
    assert [option["name"] for option in options] == ["As planned", "One niche", "Cement board and coats", "Small tile"]
    niche = " / ".join(difference["text"] for difference in options[1]["differences"])
    assert "without the Niche, right" in niche and " less" in niche, niche
    text = pages("compare", DEMO, "--search", "0", "--option", "One niche", "--change-order", "OUT")
    assert "One bay less to frame." in text and money(options[1]["cost"]) in text


@test
def change_order_says_both_totals():
    compared = json.loads(ok("compare", DEMO, "--system", "cement-liquid", "--start", "2026-12-01", "--search", "0",
                             "--json"))["options"]
    text = pages("compare", DEMO, "--system", "cement-liquid", "--start", "2026-12-01", "--search", "0",
                 "--change-order", "OUT", "--option", compared[-1]["name"])
    was, now = compared[0]["cost"], compared[-1]["cost"]
    assert money(was) in text and money(now) in text and money(abs(now - was)) in text
    flat = " ".join(text.split())
    for difference in compared[-1]["differences"]:
        assert " ".join(difference["text"].split()) in flat, difference
    assert cost(DEMO)["total"] == was


@test
def schedule_pages_say_the_days():
    schedule = json.loads(ok("schedule", DEMO, "--start", "2026-12-01", "--search", "0", "--json"))
    text = pages("schedule", DEMO, "--start", "2026-12-01", "--search", "0", "-o", "OUT")
    assert schedule["first_shower"].replace("T", " ") in text
    assert text.count("HOLD") >= sum(task["kind"] == "hold" for task in schedule["tasks"])


@test
def same_bytes_twice():
    for arguments in (("cost", DEMO, "--proposal"), ("schedule", DEMO, "--start", "2026-12-01", "-o"),
                      ("cost", DEMO, "--xlsx"), ("schedule", DEMO, "--start", "2026-12-01", "--ics")):
        one, two = WORK / "one.bin", WORK / "two.bin"
        ok(*arguments, one, "--search", "0")
        ok(*arguments, two, "--search", "0")
        assert one.read_bytes() == two.read_bytes(), arguments


def main():
    print(f"1..{len(TESTS)}")
    failed = 0
    for number, function in enumerate(TESTS, 1):
        name = function.__name__.replace("_", " ")
        try:
            function()
            print(f"ok {number} - {name}")
        except Skip as reason:
            print(f"ok {number} - {name} # SKIP {reason}")
        except Exception as problem:
            failed += 1
            print(f"not ok {number} - {name}")
            for line in repr(problem).splitlines()[:20]:
                print("#", line)
    shutil.rmtree(WORK)
    return 1 if failed else 0


sys.exit(main())
