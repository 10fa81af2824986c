#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails when a file with texts to translate is not in po/POTFILES, when POTFILES names a file that is gone or has none,
or when a translation is faulty. Texts that a translation lacks show in English: they are counted, and a fault with
--complete (before a release)."""
import pathlib
import re
import subprocess
import sys
import tempfile

MARKED = {
    ".c": re.compile(r"\b(?:_|N_|C_|NC_|ngettext)\s*\(\s*\"|\bngettext\s*\("),
    ".h": re.compile(r"\b(?:_|N_|C_|NC_|ngettext)\s*\(\s*\""),
    ".ui": re.compile(r'translatable="(?:yes|true)"'),
    ".in": re.compile(r"^(?:Name|Comment|GenericName|Keywords)=|<(?:summary|p|name)>", re.M),
}


def has_texts(path):
    return bool(MARKED[path.suffix].search(path.read_text(encoding="utf-8")))


def compare_lists(root):
    candidates = [*(root / "src/ui").glob("*.[ch]"), *(root / "src/ui").glob("*.ui"), *(root / "data").glob("*.in")]
    found = {str(p.relative_to(root)) for p in candidates if has_texts(p)}
    lines = (root / "po/POTFILES").read_text(encoding="utf-8").splitlines()
    listed = [line.strip() for line in lines if line.strip() and not line.startswith("#")]
    bad = [f"po/POTFILES does not list {name}" for name in sorted(found - set(listed))]
    bad += [f"po/POTFILES lists {name}, which has no texts or is gone" for name in sorted(set(listed) - found)]
    if listed != sorted(listed) or len(set(listed)) != len(listed):
        bad.append("po/POTFILES is not sorted or names a file twice")
    return listed, bad


def check_language(root, pot, language, scratch, complete):
    po = root / "po" / f"{language}.po"
    if not po.is_file():
        return [f"po/LINGUAS names {language}, but there is no po/{language}.po"]
    checked = subprocess.run(["msgfmt", "--check", "--output-file", str(scratch / "out.mo"), str(po)],
                             capture_output=True, text=True)
    if checked.returncode:
        return [f"po/{language}.po: {line}" for line in checked.stderr.splitlines()]
    compared = subprocess.run(["msgcmp", "--no-fuzzy-matching", str(po), str(pot)], capture_output=True, text=True)
    lacking = [line for line in compared.stderr.splitlines() if line.startswith(str(pot)) or line.startswith(str(po))]
    if complete:
        return lacking
    print(f"po/{language}.po: {len(lacking)} texts still to be translated")
    return []


def main():
    root = pathlib.Path(sys.argv[1])
    complete = "--complete" in sys.argv[2:]
    listed, bad = compare_lists(root)
    languages = (root / "po/LINGUAS").read_text(encoding="utf-8").split()
    with tempfile.TemporaryDirectory() as folder:
        scratch = pathlib.Path(folder)
        pot = scratch / "drybay.pot"
        made = subprocess.run(["xgettext", "--from-code=UTF-8", "--add-comments", "--keyword=_", "--keyword=N_",
                               "--keyword=C_:1c,2", "--keyword=NC_:1c,2", "--output", str(pot), *listed],
                              cwd=root, capture_output=True, text=True)
        if made.returncode:
            bad.append(made.stderr.strip())
        else:
            for language in languages:
                bad += check_language(root, pot, language, scratch, complete)
    for line in bad:
        print(line)
    return 1 if bad else 0


sys.exit(main())
