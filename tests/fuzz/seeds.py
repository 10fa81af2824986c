#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Lays out the seeds each fuzz target starts from: shipped files, test cases, and a few made here.

Arguments: the source folder, the folder to write to (one folder a target comes to stand in it). Knows no reader.
"""
import io
import json
import pathlib
import shutil
import sys
import zipfile

ROOT, OUT = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])

LENGTHS = ["5' 1 1/2\"", "5ft 3.5in", "61-1/2", "61.5\"", "63½", "1562 mm", "1,6 m", "-3/4", "1600", "0", "5′ 3″", "1 in 1/64",
           "156.2 cm", "12'", "1e3", "1,600.5", "3/0", "99999999 m", "−4", "7/8\"", "0.000001 mm",
           "1/4 in/ft", "1/4\" per foot", "2,08 %", "1:48", "1/4 in : 12 in", "20 mm per m", "1.2°"]
NESTS = [{"kerf": 3.2, "rotate": True, "sheets": [{"id": "4x8", "width": 1219.2, "height": 2438.4, "count": None, "price": 1900}],
          "pieces": [{"id": "back", "width": 1500, "height": 900, "count": 2, "rotate": False}]},
         {"kerf": 0, "rotate": False, "sheets": [{"id": "a", "width": 1, "height": 1}], "pieces": []}]
TABLE = "kind,id,name,unit,pack,price\nprice,board,Board,pc,1,19.00\ntask,hang,,,,\n\"a \"\"b\"\"\",'=1+1,,,,\n"


def workbook():
    out = io.BytesIO()
    sheet = ('<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">'
             '<c r="A1" t="inlineStr"><is><t>kind</t></is></c><c r="B1" t="s"><v>0</v></c><c r="C1"><v>1.5</v></c></row></sheetData></worksheet>')
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        archive.writestr("xl/workbook.xml", '<workbook><sheets><sheet name="s" sheetId="1" r:id="rId1"/></sheets></workbook>')
        archive.writestr("xl/_rels/workbook.xml.rels", '<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>')
        archive.writestr("xl/sharedStrings.xml", "<sst><si><t>id</t></si></sst>")
        archive.writestr("xl/worksheets/sheet1.xml", sheet)
    return out.getvalue()


def journal(text):
    """Payloads of a journal; the target adds heads and checksums."""
    changed = text.replace(b'"title": "', b'"title": "Other ', 1)
    front = next(i for i in range(len(text)) if text[i] != changed[i])
    back = len(text) - front
    payloads = [b'{"kind":"base","path":"/a/b.drybay","title":"t","front":0,"back":0}\0' + text,
                b'{"kind":"step","name":"Edit","key":"k","front":%d,"back":%d}\0' % (front, back) + changed[front:len(changed) - back],
                b'{"kind":"undo"}\0', b'{"kind":"redo"}\0', b'{"kind":"saved","path":"/a/%FF.drybay"}\0',
                b'{"kind":"step","name":"Again","merged":true,"front":%d,"back":0}\0' % len(changed)]
    return b"drybay-records\n" + b"\x1e".join(payloads)


def put(target, name, data):
    folder = OUT / target
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data)


def main():
    projects = [*ROOT.glob("data/demo/*.drybay"), *ROOT.glob("tests/cases/*.drybay")]
    for file in projects:
        put("project", file.name, file.read_bytes())
    smallest = min(projects, key=lambda file: file.stat().st_size).read_bytes()
    put("journal", "steps", journal(smallest))
    put("journal", "torn", b"drybay-journal 1\nrecord 12 0123456789abcdef\n{}\n")
    for target, folder in {"items": "items", "system": "systems", "rules": "rules", "prices": "prices"}.items():
        for file in (ROOT / "data" / folder).glob("*.json"):
            put(target, file.name, file.read_bytes())
    for number, text in enumerate(LENGTHS):
        put("length", f"{number:02}", text.encode())
    for number, value in enumerate(NESTS):
        put("nest", f"{number:02}", json.dumps(value).encode())
    put("sheet", "table.csv", TABLE.encode())
    put("sheet", "semicolons.csv", TABLE.replace(",", ";").encode())
    put("sheet", "book.xlsx", workbook())
    put("json", "values", b'{"a": [1, -0.5, 1e9, true, false, null, "\\u00e9\\ud83d\\ude00\\n"], "b": {"c": {}}, "d": []}')
    put("json", "project", smallest)
    for target in OUT.iterdir():
        kept = ROOT / "tests/fuzz/corpus" / target.name
        if kept.is_dir() and kept.resolve() != target.resolve():
            for file in kept.iterdir():
                shutil.copy(file, target / file.name)


main()
