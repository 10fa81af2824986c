#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs drybay-cli as a user or a script would: every command, exit codes, bad input, the man page against --help.

Speaks TAP. Arguments: the program, the source folder.
"""
import csv
import io
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.dom.minidom

from command_line import CLI, ROOT, fails, main, ok, run, test

DEMO = ROOT / "data/demo/alcove-refit.drybay"
COMMANDS = ["plan", "findings", "takeoff", "tile", "papers", "drawing", "check", "systems", "nest", "places", "remedy", "water", "cost", "schedule", "compare", "prices", "template"]


@test
def help_of_every_command():
    overview = ok("--help")
    for command in COMMANDS:
        assert re.search(rf"^  {command} ", overview, re.M), command
        assert "Usage:" in ok(command, "--help")


@test
def man_page_tells_the_same_options():
    man = (ROOT / "docs/man/drybay-cli.1").read_text().replace("\\-", "-").replace("\\fI", "")
    for command in COMMANDS:
        assert re.search(rf"^\.(BI|B) {command}\b", man, re.M), f"{command} is not in the man page"
        for option in re.findall(r"--([a-z]+)", ok(command, "--help")):
            if option not in ("help", "version"):
                assert f"--{option}" in man, f"--{option} of {command} is not in the man page"
    known = set(re.findall(r"--([a-z]+)", "".join(ok(c, "--help") for c in COMMANDS) + ok("--help")))
    for option in re.findall(r"--([a-z]+)", man):
        assert option in known, f"the man page tells of --{option}, which no command has"


@test
def plan_is_json_and_the_same_twice_and_in_any_locale():
    first = ok("plan", DEMO)
    plan = json.loads(first)
    assert plan["format"] == "drybay-plan" and len(plan["rooms"]) == 1
    assert ok("plan", DEMO) == first
    assert ok("plan", DEMO, LC_ALL="de_DE.UTF-8", LANG="de_DE.UTF-8") == first


@test
def every_demo_and_case_passes_check_and_plan():
    files = sorted((ROOT / "data/demo").glob("*.drybay")) + sorted((ROOT / "tests/cases").glob("*.drybay"))
    assert len(files) >= 8
    for file in files:
        assert "well formed" in ok("check", file)
        json.loads(ok("plan", file))


@test
def texts_are_utf8_in_the_plainest_locale():
    answer = run("check", DEMO, LC_ALL="C", LANG="C")
    assert "“Alcove refit”" in answer.stdout.decode(), answer.stdout
    answer = run("plan", DEMO, "--room", "cellar", LC_ALL="C", LANG="C")
    assert "“cellar”" in answer.stderr.decode(), answer.stderr


@test
def findings_status_and_json():
    answer = run("findings", ROOT / "tests/cases/02-old-house.drybay", "--json")
    rooms = json.loads(answer.stdout)["rooms"]
    numbers = {f["number"] for room in rooms for f in room["findings"]}
    assert answer.returncode == 1 and {19, 30, 40, 62} <= numbers, numbers
    for room in rooms:
        for finding in room["findings"]:
            assert finding["source"] and finding["remedies"] and finding["where"], finding
    text = run("findings", ROOT / "tests/cases/02-old-house.drybay")
    assert text.returncode == 1 and b"remedy:" in text.stdout


@test
def findings_under_several_packs():
    rooms = json.loads(run("findings", ROOT / "tests/cases/13-ex-tub.drybay", "--json", "--rules",
                           "us-residential,us-upc,australia").stdout)["rooms"]
    assert [room["rules"] for room in rooms] == ["us-residential", "us-upc", "australia"], rooms
    by_pack = [{f["rule"]: f for f in room["findings"]} for room in rooms]
    assert by_pack[0]["pan-drain"]["severity"] == "advice"
    assert by_pack[1]["pan-drain"]["severity"] == "stop", by_pack[1].keys()
    assert by_pack[1]["pan-drain"]["answer"] == "pack"
    assert "pan-drain" not in by_pack[2]
    wrong = run("findings", DEMO, "--rules", "atlantis")
    assert wrong.returncode == 2 and "atlantis" in wrong.stderr.decode(), wrong.stderr


HEAD = {"format": "drybay-rules", "version": 1, "id": "our-firm", "name": "Our firm", "jurisdiction": "US",
        "edition": "house rules", "language": "en", "extends": "us-residential"}
RULE = {"id": "niche-height", "number": 83, "topic": "use", "subject": "niche", "severity": "fix",
        "title": "Niche not at our usual height", "why": "Clients expect it there.",
        "require": [{"measure": "bottom", "is": ">=", "mm": 2000}], "remedies": [{"text": "Move it"}],
        "source": "house rule of the firm", "certainty": "common practice"}


def pack_file(folder, text, name="ours.json"):
    path = pathlib.Path(folder) / name
    path.write_bytes(text if isinstance(text, bytes) else json.dumps(text).encode())
    return path


@test
def findings_under_a_firms_own_pack():
    """Named by its file, alone or beside shipped ones; the same pack in a folder given with --catalog by its id."""
    with tempfile.TemporaryDirectory() as folder:
        path = pack_file(folder, {**HEAD, "rules": [RULE, {"id": "fan", "off": True}]})
        rooms = json.loads(run("findings", DEMO, "--json", "--rules", "%s,us-residential" % path).stdout)["rooms"]
        assert [room["rules"] for room in rooms] == ["our-firm", "us-residential"], rooms
        ours = [f for f in rooms[0]["findings"] if f["rule"] == "niche-height"]
        assert ours and ours[0]["answer"] == "pack" and "Our firm" in ours[0]["answered_by"], ours
        assert ours[0]["source"] == "house rule of the firm", ours
        assert not [f for f in rooms[1]["findings"] if f["rule"] == "niche-height"]
        os.makedirs(os.path.join(folder, "mine", "rules"))
        pack_file(os.path.join(folder, "mine", "rules"), path.read_bytes())
        again = json.loads(run("findings", DEMO, "--json", "--rules", "our-firm", "--catalog",
                               os.path.join(folder, "mine")).stdout)["rooms"]
        assert again[0]["findings"] == rooms[0]["findings"]


@test
def hostile_packs():
    """Each is refused with its file and what is wrong in it; nothing crashes, nothing is used."""
    def with_rule(**change):
        return {**HEAD, "rules": [{**RULE, **change}]}

    def with_require(**condition):
        return with_rule(require=[condition])
    deep = b"[" * 100000
    packs = [
        (b"", ""), (b"\x00\x01\x02", ""), (b"{", ""), (deep, ""), (b"null", ""), (b"[]", ""), (b'"rules"', ""),
        (b"\xff\xfe{}", ""), (json.dumps({**HEAD, "rules": []}).encode()[:-1], ""),
        ({**HEAD, "rules": None}, "rules"), ({**HEAD, "rules": {}}, "rules"), ({**HEAD, "rules": [None]}, "rules[0]"),
        ({**HEAD, "rules": [], "surprise": 1}, "surprise"), ({**HEAD, "rules": [], "format": "drybay-items"}, "format"),
        ({**HEAD, "rules": [], "version": 99}, "version"), ({**HEAD, "rules": [], "id": "Our Firm"}, "id"),
        ({**HEAD, "rules": [], "extends": "atlantis"}, "atlantis"), ({**HEAD, "rules": [], "extends": "our-firm"}, "circle"),
        ({**HEAD, "rules": [{"id": "no-such-rule", "off": True}]}, "no-such-rule"),
        ({**HEAD, "rules": [RULE, RULE]}, "already"), ({**HEAD, "rules": [RULE] * 6000}, "rules"),
        (with_rule(severity="deadly"), "severity"), (with_rule(title=""), "title"), (with_rule(title="x" * 100000), "too long"),
        (with_rule(remedies=[]), "remedies"), (with_rule(certainty="sure"), "certainty"), (with_rule(number=-1), "number"),
        (with_rule(require=[]), "require"), (with_rule(subject="nich"), "no subject “nich”"),
        (with_require(measure="bottom", **{"is": "=>", "mm": 1}), "“=>” is none of"),
        (with_require(measure="bottom", **{"is": ">=", "mm": "tall"}), "require[0].mm"),
        (with_require(measure="bottom", **{"is": ">=", "mm": 1e300}), "require[0].mm"),
        (with_require(measure="bottom", **{"is": ">=", "value": 1}), "“bottom” is a length"),
        (with_require(measure="bottum", **{"is": ">=", "mm": 1}), "no measure “bottum”"),
        (with_require(measure="bottom", **{"is": ">=", "other": "top-of-the-world"}), "top-of-the-world"),
        (with_require(measure="bottom", **{"is": ">=", "mm": 1, "yes": True}), "exactly one"),
        (with_rule(remedies=[{"text": "Move it", "edit": "niche.to-the-moon"}]), "no edit “niche.to-the-moon”"),
    ]
    with tempfile.TemporaryDirectory() as folder:
        for number, (text, says) in enumerate(packs):
            path = pack_file(folder, text, "pack-%d.json" % number)
            answer = run("findings", DEMO, "--rules", path)
            message = answer.stderr.decode()
            assert answer.returncode == 2 and not answer.stdout, (number, answer.returncode, message)
            assert path.name in message and says in message and len(message) < 2000, (number, says, message)
        missing = run("findings", DEMO, "--rules", os.path.join(folder, "not-there.json"))
        assert missing.returncode == 2 and "not-there.json" in missing.stderr.decode()
        directory = run("findings", DEMO, "--rules", folder + "/")
        assert directory.returncode == 2, directory.stderr


@test
def remedy_weighs_and_applies():
    case = ROOT / "tests/cases/20-vent-bay.drybay"
    weighed = ok("remedy", case, "hidden-in-niche-bay/7")
    assert "niche.to-clear-bay" in weighed, weighed
    with tempfile.TemporaryDirectory() as folder:
        better = pathlib.Path(folder) / "better.drybay"
        ok("remedy", case, "hidden-in-niche-bay/7", "-o", better)
        after = run("findings", better, "--json")
        assert b"hidden-in-niche-bay" not in after.stdout
        unknown = run("remedy", case, "nothing/1", "-o", better)
        assert unknown.returncode == 2 and "nothing/1" in unknown.stderr.decode()


@test
def water_tells_breaks():
    closed = run("water", ROOT / "tests/cases/01-alcove.drybay", "--json")
    room = json.loads(closed.stdout)["rooms"][0]
    assert closed.returncode == 0 and room["closed"] and room["paths"], room
    assert all(path["end"] != "stopped" for path in room["paths"])
    open_ = run("water", ROOT / "tests/cases/03-window-wall.drybay", "--json")
    room = json.loads(open_.stdout)["rooms"][0]
    assert open_.returncode == 1 and [b["rule"] for b in room["breaks"]] == ["window-sill-flat"], room
    text = run("water", ROOT / "tests/cases/03-window-wall.drybay").stdout.decode()
    assert "stands on the window's sill" in text, text


@test
def a_missing_price_is_left_out_everywhere():
    lines = json.loads(ok("plan", DEMO))["rooms"][0]["takeoff"]["lines"]
    assert lines == json.loads(ok("takeoff", DEMO, "--json"))["rooms"][0]["lines"]
    assert any("price" not in line for line in lines), "the demo has tile, which no system prices"
    for line in lines:
        assert ("price" in line) == ("cost" in line) and line.get("price", 1) > 0, line


def as_file(value):
    handle = tempfile.NamedTemporaryFile("w", suffix=".json", delete=False)
    json.dump(value, handle)
    handle.close()
    return handle.name


@test
def network_of_a_bare_list():
    # Hendrickson and Au, Project Management for Construction, ch. 10
    table = {"A": (4, ""), "B": (3, ""), "C": (8, "A"), "D": (7, "A"), "E": (9, "BC"), "F": (12, "BC"), "G": (2, "DE"),
             "H": (5, "DE"), "I": (6, "FG")}
    path = as_file([{"id": name, "duration": time, "after": list(after)} for name, (time, after) in table.items()])
    answer = json.loads(ok("schedule", "--network", path))
    assert answer["length"] == 30 and answer["critical_path"] == ["A", "C", "F", "I"]
    assert {a["id"]: a["slack"] for a in answer["activities"]} == dict(zip("ABCDEFGHI", (0, 9, 0, 11, 1, 0, 1, 4, 0)))
    waited = json.loads(ok("schedule", "--network", as_file(
        [{"id": "coat", "duration": 2.5, "wait": 24}, {"id": "test", "duration": 1, "after": ["coat"]}])))
    assert waited["length"] == 27.5, waited
    assert json.loads(ok("schedule", "--network", as_file([])))["length"] == 0
    fails("schedule", "--network", as_file([{"id": "a", "duration": 1, "after": ["b"]}]), says="“b”, which is not there")
    fails("schedule", "--network", as_file([{"id": "a", "duration": 1, "after": ["b"]},
                                            {"id": "b", "duration": 1, "after": ["a"]}]), says="a ring: ")
    fails("schedule", "--network", as_file([{"id": "a", "duration": -1}]), says=r"\[0\]\.duration")
    fails("schedule", "--network", as_file([{"id": "a", "duration": 1}, {"id": "a", "duration": 1}]), says="two activities")
    fails("schedule", "--network", as_file([{"id": "a", "duration": 1, "before": []}]), says="not a known field")


@test
def cost_and_schedule_and_comparison_agree():
    cost = json.loads(ok("cost", DEMO, "--json", "--start", "2026-12-01"))
    assert cost["total"] == sum(cost["sums"].values()) == sum(line.get("cost", 0) for line in cost["lines"])
    assert cost["gaps"] == sum("cost" not in line for line in cost["lines"])
    assert all(line["working"]["formula"] and line["working"]["source"] for line in cost["lines"])
    schedule = json.loads(ok("schedule", DEMO, "--json", "--start", "2026-12-01"))
    assert abs(sum(line["amount"] for line in cost["lines"] if line["group"] == "labor") - schedule["hours"]) < 1e-6
    options = json.loads(ok("compare", DEMO, "--json", "--start", "2026-12-01", "--system", "mortar-bed"))["options"]
    assert options[0]["cost"] == cost["total"] and options[0]["hours"] == schedule["hours"]
    assert options[1]["name"].startswith("Mortar bed") and options[1]["differences"]
    assert options[0]["differences"] == []
    fails("schedule", DEMO, "--start", "tomorrow", says="“tomorrow”")
    fails("cost", DEMO, "--book", "no-such", says="it has: sample-us")
    fails("cost", DEMO, "--csv", "--json", says="not both")
    fails("compare", DEMO, "--system", "straw", says="“straw”")
    fails("prices", "no-such", says="no-such")


@test
def takeoff_in_three_forms_agrees():
    lines = json.loads(ok("takeoff", DEMO, "--json"))["rooms"][0]["lines"]
    rows = list(csv.DictReader(io.StringIO(ok("takeoff", DEMO, "--csv"))))
    assert len(lines) == len(rows) > 5
    text = ok("takeoff", DEMO)
    for line in lines:
        assert line["working"]["formula"], line["id"]
        assert line["working"]["source"], line["id"]
        assert line["name"] in text
        assert line["packs"] * line["pack"] >= line["amount"] - 1e-9
    fails("takeoff", DEMO, "--csv", "--json", says="not both")


LENGTH = r"-?(?:\d+ \d+/\d+|\d+/\d+|\d+)\""


def millimeters(text):
    parts = text.rstrip('"').lstrip("-").split()
    value = sum(int(p.split("/")[0]) / int(p.split("/")[1]) if "/" in p else int(p) for p in parts) * 25.4
    return -value if text.startswith("-") else value


def trade_table(trade, folder, file):
    """Every point of the trade's table that stands on one line: (wall, what): (from left corner, above floor)."""
    pdf = pathlib.Path(folder) / f"{trade}.pdf"
    ok("papers", file, "--trade", trade, "--paper", "tabloid", "-o", pdf)
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout
    assert text.count("Heights from the finished floor. Widths from the left") == 1, text
    wall, points = None, {}
    for line in text.split("Heights and widths", 1)[1].split("Cautions", 1)[0].splitlines():
        group = re.fullmatch(r"\s*([A-Z]\w* – .*\S)\s*", line)
        row = re.match(rf"\s*(\S.*?\S)\s{{2,}}({LENGTH})\s{{2,}}({LENGTH})(?=\s|$)", line)
        if group:
            wall = group[1]
        elif row and wall:
            points[wall, row[1], row[2]] = row[3]
    return points


@test
def trades_measure_from_one_datum():
    with tempfile.TemporaryDirectory() as folder:
        tables = {trade: trade_table(trade, folder, DEMO) for trade in ("framer", "plumber", "electrician", "hanger", "waterproofer", "setter")}
        assert all(len(table) >= 5 for table in tables.values()), tables
        assert tables["plumber"] == tables["electrician"]
        heights = {}
        for table in tables.values():
            for place, height in table.items():
                heights.setdefault(place, set()).add(height)
        assert all(len(height) == 1 for height in heights.values()), heights
        shared = [place for place in heights if sum(place in table for table in tables.values()) == len(tables)]
        assert len(shared) >= 3, heights  # rim, valve, head
        room = json.loads(ok("plan", DEMO))["rooms"][0]
        planned = [(hole["centre"][0], hole["centre"][1], "middle") for face in room["faces"] for hole in face["holes"]]
        planned += [(cut["rough"][0], cut["rough"][1], "rough opening, lower left") for face in room["faces"] for cut in face["cutouts"]]
        assert planned
        for u, z, word in planned:
            assert any(abs(millimeters(place[2]) - u) < 1 and abs(millimeters(height) - z) < 1 for place, height in tables["plumber"].items()
                       if word in place[1]), (u, z, word, tables["plumber"])
        everything = pathlib.Path(folder) / "all.pdf"
        ok("papers", DEMO, "--trade=all", "-o", everything)
        text = subprocess.run(["pdftotext", "-layout", everything, "-"], capture_output=True, text=True, check=True).stdout
        assert text.count("The datum, the same for every trade") == 5
        fails("papers", DEMO, "--trade=roofer", "-o", everything, says="roofer.*no trade")


@test
def papers_and_drawings():
    with tempfile.TemporaryDirectory() as folder:
        pdf = pathlib.Path(folder) / "crew.pdf"
        ok("papers", DEMO, "-o", pdf, "--paper", "a4", "--date", "2026-11-25")
        assert pdf.read_bytes().startswith(b"%PDF-")
        info = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
        assert "595" in info and "841" in info, info
        text = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout
        assert "silica" in text.lower() and "Back wall" in text
        letter = pathlib.Path(folder) / "letter.pdf"
        ok("papers", DEMO, "-o", letter, LC_ALL="en_US.UTF-8")
        assert "612 x 792" in subprocess.run(["pdfinfo", letter], capture_output=True, text=True).stdout or \
               "792 x 612" in subprocess.run(["pdfinfo", letter], capture_output=True, text=True).stdout
        for name in ("plan", "strip", "board", "section", "client", "room", "face:A", "sheet:1"):
            svg = pathlib.Path(folder) / "drawing.svg"
            ok("drawing", DEMO, "--sheet", name, "-o", svg)
            xml.dom.minidom.parse(str(svg))
        png = pathlib.Path(folder) / "drawing.png"
        ok("drawing", DEMO, "--sheet", "face:B", "-o", png)
        assert png.read_bytes().startswith(b"\x89PNG")
        board = pathlib.Path(folder) / "board.pdf"  # room to turn is shown on the screen, to those who ask
        ok("drawing", DEMO, "--sheet", "board", "-o", board)
        text = subprocess.run(["pdftotext", "-layout", board, "-"], capture_output=True, text=True, check=True).stdout
        assert "Back wall" in text and "vanity" not in text, text
        fails("drawing", DEMO, "--sheet", "attic", "-o", svg, says="plan")
        fails("drawing", DEMO, "--sheet", "plan", "-o", pathlib.Path(folder) / "x.bmp", says="svg")
        fails("papers", DEMO, "-o", pathlib.Path(folder) / "no/such/folder.pdf", says="folder")
        fails("papers", DEMO, "-o", pdf, "--paper", "napkin", says="napkin")


@test
def systems_lists_all_seven():
    listed = json.loads(ok("systems", "--json"))
    ids = {s["id"] for s in listed["systems"]}
    assert ids >= {"cement-liquid", "cement-sheet", "foam-bands", "foam-sealant", "glass-mat-liquid", "fibre-cement",
                   "mortar-bed"}, ids
    assert listed["items"] and listed["rule_packs"]
    text = ok("systems")
    assert all(i in text for i in ids)


@test
def rooms_can_be_chosen():
    both = ROOT / "data/demo/two-bath-house.drybay"
    assert len(json.loads(ok("plan", both))["rooms"]) == 2
    assert len(json.loads(ok("plan", both, "--room", "2"))["rooms"]) == 1
    fails("plan", both, "--room", "cellar", says="cellar")


@test
def wrong_use():
    assert run().returncode == 2
    fails("dance", says="dance")
    fails("plan", says="missing")
    fails("plan", DEMO, DEMO, says="too many")
    fails("plan", "/no/such/file.drybay", says="/no/such/file.drybay")
    fails("plan", ROOT, says=".")
    fails("plan", DEMO, "--frobnicate", says="frobnicate")
    fails("plan", DEMO, "--catalog", "/no/such/folder", says="/no/such/folder")


def variants():
    text = DEMO.read_text()
    value = json.loads(text)
    yield "empty", "", "too early"
    yield "cut off", text[: len(text) // 2], ":"
    yield "garbage after", text + "x", "follows the end"
    yield "other format", text.replace("drybay-project", "something-else"), "format|something-else"
    newer = dict(value, version=99)
    yield "newer version", json.dumps(newer), "99|newer|version"
    yield "not an object", "[]", "object"
    yield "double key", text.replace('"version"', '"version": 1, "version"', 1), "twice"
    wrong = json.loads(text)
    wrong["rooms"][0]["walls"] = "four"
    yield "wrong type", json.dumps(wrong), r"walls"
    endless = json.loads(text)
    endless["rooms"][0]["ceiling"] = 1e300
    yield "no length", json.dumps(endless), "ceiling"
    unknown = json.loads(text)
    unknown["rooms"][0]["finish"]["system"] = "straw-and-hope"
    yield "unknown system", json.dumps(unknown), "straw-and-hope"
    many = json.loads(text)
    many["rooms"][0]["walls"] = many["rooms"][0]["walls"] * 25000
    yield "100,000 walls", json.dumps(many), "."


@test
def bad_files_get_clear_errors():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "bad.drybay"
        for name, text, says in variants():
            path.write_text(text)
            before = path.read_bytes()
            for command in ("check", "plan", "findings"):
                answer = run(command, path)
                message = answer.stderr.decode()
                assert answer.returncode == 2, (name, command, answer.returncode, message)
                assert re.search(says, message), (name, message)
                assert "CRITICAL" not in message and len(message) < 1000, (name, message)
            assert path.read_bytes() == before


NEST = {"kerf": 3.175, "rotate": True,
        "sheets": [{"id": "4x8", "width": 1219.2, "height": 2438.4, "count": None, "price": 1900}],
        "pieces": [{"id": "back", "width": 1500, "height": 900.5, "count": 3},
                   {"id": "end", "width": 800, "height": 1200, "count": 4, "rotate": False},
                   {"id": "strip", "width": 85.725, "height": 504.825, "count": 5}]}


def nest(value, *options, status=0, says=None):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "list.json"
        path.write_text(value if isinstance(value, str) else json.dumps(value))
        if says:
            return fails("nest", path, *options, says=says)
        return json.loads(ok("nest", path, *options, status=status))


def leaves(part, kerf, depth=0):
    """The leaves of a tree of cuts, each part checked to lie in its own place beside the one before."""
    if "parts" not in part:
        return [part]
    along, size = ("x", "width") if part["cuts"] == "vertical" else ("y", "height")
    across, other = ("y", "height") if along == "x" else ("x", "width")
    at, found = part[along], []
    for child in part["parts"]:
        assert abs(child[along] - at) < 1e-9 and child[across] == part[across] and child[other] == part[other], child
        at = child[along] + child[size] + kerf
        found += leaves(child, kerf, depth + 1)
    end = part[along] + part[size]
    assert end - 1e-9 <= at <= end + kerf + 1e-9, part
    return found


@test
def nest_places_every_piece_by_its_tree_of_cuts():
    answer = nest(NEST, "--seconds", "0.05", "--threads", "2")
    assert answer["used"] == len(answer["sheets"]) == answer["bought"] and answer["unplaced"] == []
    assert answer["cost"] == 1900 * answer["used"] and answer["lower_bound"] <= answer["used"]
    assert answer["proven"] == (answer["used"] == answer["lower_bound"]) and answer["seconds"] >= 0
    count = {}
    for sheet in answer["sheets"]:
        cut = {(leaf["x"], leaf["y"], leaf["width"], leaf["height"], leaf["piece"], leaf["number"])
               for leaf in leaves(sheet["tree"], NEST["kerf"]) if "piece" in leaf}
        assert cut == {(p["x"], p["y"], p["width"], p["height"], p["id"], p["number"]) for p in sheet["pieces"]}
        for piece in sheet["pieces"]:
            row = next(p for p in NEST["pieces"] if p["id"] == piece["id"])
            size = (row["width"], row["height"])
            assert (piece["width"], piece["height"]) == (size[::-1] if piece["rotated"] else size), piece
            assert not piece["rotated"] or row.get("rotate", True), piece
            assert piece["x"] + piece["width"] <= sheet["width"] and piece["y"] + piece["height"] <= sheet["height"]
            count.setdefault(piece["id"], set()).add(piece["number"])
    assert {k: len(v) for k, v in count.items()} == {"back": 3, "end": 4, "strip": 5}


@test
def nest_gives_the_same_answer_twice():
    first, second = (nest(NEST, "--seconds", "0.1", "--threads", "2") for _ in range(2))
    assert {**first, "seconds": 0} == {**second, "seconds": 0}


@test
def nest_uses_offcuts_on_hand_first_and_tells_when_sheets_run_out():
    value = json.loads(json.dumps(NEST))
    value["pieces"] = [{"id": "a", "width": 600, "height": 900, "count": 2}]
    value["sheets"].append({"id": "offcut", "width": 700, "height": 1000, "count": 2, "price": 0})
    answer = nest(value)
    assert (answer["used"], answer["bought"], answer["cost"], answer["proven"]) == (2, 0, 0, True), answer
    value["sheets"] = [{"id": "offcut", "width": 700, "height": 1000, "count": 1}]
    answer = nest(value, "--seconds", "0.01", status=1)
    assert len(answer["unplaced"]) == 1 and answer["cost"] is None and not answer["proven"], answer
    value["pieces"] = []
    answer = nest(value)
    assert answer["used"] == 0 and answer["proven"], answer


@test
def nest_refuses_bad_lists_clearly():
    def without(key):
        return {k: v for k, v in NEST.items() if k != key}

    def piece(**fields):
        return {**NEST, "pieces": [{**NEST["pieces"][0], **fields}]}

    def sheet(**fields):
        return {**NEST, "sheets": [{**NEST["sheets"][0], **fields}]}

    for value, says in (
            ("", "early"), ("[]", "object"), (json.dumps(NEST)[:-9], ":"), (without("kerf"), "kerf"),
            (without("rotate"), "rotate"), (without("sheets"), "sheets"), (without("pieces"), "pieces"),
            ({**NEST, "kerf": -1}, "kerf"), ({**NEST, "rotate": 1}, "rotate"), ({**NEST, "blade": 3}, "blade"),
            ({**NEST, "sheets": []}, "at least one"), (sheet(width=0), "width"), (sheet(height="8"), "height"),
            (sheet(count=-1), "count"), (sheet(count=1.5), "count"), (sheet(price=-1), "price"), (sheet(id=""), "empty"),
            ({**NEST, "sheets": NEST["sheets"] * 2}, "another row"), (piece(width=3000), "fits no sheet"),
            (piece(width=1500, height=900, rotate=False), "may not be rotated"), (piece(count=2001), "2000"),
            (piece(width=1e300), "width"), (piece(colour=1), "colour"), ({**NEST, "pieces": NEST["pieces"] * 2}, "another row"),
            ({**NEST, "sheets": [{**NEST["sheets"][0], "id": str(i)} for i in range(33)]}, "32")):
        nest(value, says=says)
    nest(NEST, "--seconds", "-1", says="seconds")
    nest(NEST, "--seconds", "nan", says="seconds")
    nest(NEST, "--threads", "0", says="threads")
    fails("nest", "/nowhere/list.json", says="list.json")


def places(case, *arguments):
    return json.loads(ok("places", ROOT / "tests/cases" / case, "--for", "7", *arguments))


@test
def places_tells_bands_best_places_and_changes():
    answer = places("01-alcove.drybay")
    assert answer["kind"] == "niche" and answer["now"]["legal"], answer["now"]
    assert len(answer["places"]) == 5 and all(p["legal"] for p in answer["places"])
    assert [p["points"] for p in answer["places"]] == sorted(p["points"] for p in answer["places"])
    assert all(r["working"]["source"] for p in answer["places"] for r in p["reasons"])
    for face in answer["faces"]:
        for u0, z0, u1, z1 in face["legal"] + face["best"]:
            assert u0 <= u1 and z0 <= z1
    best = answer["places"][0]
    face = next(f for f in answer["faces"] if f["wall"] == best["wall"])
    assert any(u0 <= best["u"] <= u1 and z0 <= best["z"] <= z1 for u0, z0, u1, z1 in face["legal"])
    assert places("01-alcove.drybay") == answer
    assert len(places("01-alcove.drybay", "--top", "2")["places"]) == 2
    rated = places("12-steel-rated.drybay")
    assert not rated["now"]["legal"] and rated["changes"][0]["id"] == "wall", rated["changes"]
    deep = answer["now"]["depth"]
    assert abs(deep - 76.2) < 1e-6, deep
    tiles = [c["place"].get("tile") for c in answer["changes"] if c["id"] == "tile"]
    assert tiles and all(tiles) and all("tile" not in p for p in answer["places"])
    bearing = places("11-bearing-outside.drybay")
    shallower = next(c for c in bearing["changes"] if "shallower" in c["text"])
    assert shallower["place"]["depth"] < bearing["now"]["depth"], shallower
    assert places("01-alcove.drybay", "--bottle", "24")["places"] == []
    text = ok("places", ROOT / "tests/cases/20-vent-bay.drybay", "--for", "7", "--text")
    assert "In the way is the 3 in vent" in text and "Smallest changes:" in text, text


@test
def places_refuses_bad_questions_clearly():
    case = ROOT / "tests/cases/01-alcove.drybay"
    fails("places", case, says="--for ID")
    fails("places", case, "--for", "99", says="no part 99")
    fails("places", case, "--for", "seven", says="--for ID")
    fails("places", case, "--for", "7", "--bottle", "tall", says="--bottle")
    fails("places", case, "--for", "7", "--must", "wings", says="there is no “wings”")
    fails("places", "/nowhere/bath.drybay", "--for", "7", says="bath.drybay")


@test
def a_full_disk_is_noticed():
    if not os.path.exists("/dev/full"):
        return
    with open("/dev/full", "w") as full:
        answer = subprocess.run([CLI, "plan", str(DEMO)], stdout=full, stderr=subprocess.PIPE)
    assert answer.returncode == 2, answer.returncode


main()
