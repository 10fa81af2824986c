# SPDX-License-Identifier: GPL-3.0-or-later
"""Rule packs of one's own: a bad one does not keep the window from starting and is told in it and in the preferences;
a good one is added in the preferences and can be chosen from the next start.

Arguments: the program, the source folder."""
import json
import os
import shutil
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import App, Tap, equal, put_away, true  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
folder = tempfile.mkdtemp(prefix="drybay-packs-")
own = os.path.join(os.environ["XDG_DATA_HOME"], "drybay", "catalog", "rules")
demo = os.path.join(source, "data/demo/alcove-refit.drybay")
tap = Tap()
app = None

LEFT_OUT = "Your rule pack ours.json is left out.*rules\\[0\\].require\\[0\\].is.*"


def pack(pack_id, name, compare="<="):
    rule = {"id": "our-niche", "topic": "niche", "subject": "niche", "severity": "advice", "title": "Niche high",
            "why": "Ours.", "require": [{"measure": "bottom", "is": compare, "mm": 1200}],
            "remedies": [{"text": "Lower it"}], "source": "our own custom", "certainty": "memory"}
    return json.dumps({"format": "drybay-rules", "version": 1, "id": pack_id, "name": name, "jurisdiction": "none",
                       "edition": "ours", "language": "en", "extends": "us-residential", "rules": [rule]})


def write(path, text):
    with open(path, "w") as f:
        f.write(text)


def start():
    global app
    app = App([program, demo])


def end():
    equal(app.close(), 0, "exit status")


def close_preferences():
    """The first key after a dialog of this desktop goes nowhere; the window itself has no use for Escape."""
    app.wait(lambda: len(app.windows()) == 1 or app.key("Escape"), "the preferences to close", 10)


def press(name):
    app.get("push button", name).do_action(0)


def pick(name):
    press("_?Add….*")
    app.answer_dialog(os.path.join(folder, name))


def test_bad_pack_is_told():
    os.makedirs(own)
    write(os.path.join(own, "ours.json"), pack("ours", "Our rules", "=>"))
    start()
    app.get("label", LEFT_OUT)
    press("_?Preferences.*")
    app.get("label", "ours.json is left out")
    app.get("label", "rules\\[0\\].require\\[0\\].is: “=>” is none of: <, <=.*")  # and no markup
    app.key("Escape")


def test_bar_is_closed():
    app.wait(lambda: len(app.windows()) == 1, "one window")
    press("_?Dismiss.*")
    app.gone("label", LEFT_OUT)
    end()


def test_add():
    shutil.rmtree(own)
    write(os.path.join(folder, "bad.json"), pack("ours", "Our rules", "=>"))
    write(os.path.join(folder, "good.json"), pack("ours", "Our rules"))
    write(os.path.join(folder, "newer.json"), pack("ours", "Our newer rules"))
    start()
    app.key("ctrl+comma")
    app.get("label", "Rule packs of your own")
    pick("bad.json")
    app.get("label", "The Rule Pack Was Not Added")
    true(app.get("label", ".*bad.json: rules\\[0\\].require\\[0\\].is.*"), "no reason")
    app.key("Escape")
    app.gone("label", "The Rule Pack Was Not Added")
    true(not os.path.exists(own), "a bad pack was copied")
    pick("good.json")
    app.get("label", ".*Our rules.* is added.*")
    equal(os.listdir(own), ["ours.json"])


def test_replacing_is_asked():
    pick("newer.json")
    app.get("label", "Replace the Rule Pack\\?")
    press("_?Cancel.*")
    with open(os.path.join(own, "ours.json")) as f:
        equal(json.load(f)["name"], "Our rules")
    pick("newer.json")
    app.get("label", "Replace the Rule Pack\\?")
    press("_?Replace.*")
    app.get("label", ".*Our newer rules.* is added.*")
    with open(os.path.join(own, "ours.json")) as f:
        equal(json.load(f)["name"], "Our newer rules")
    equal(os.listdir(own), ["ours.json"])
    app.key("Escape")  # once, though the toast is still up
    app.wait(lambda: len(app.windows()) == 1, "the preferences to close")
    end()


def test_can_be_chosen():
    start()
    true(not app.find("label", ".*left out.*"), "a good pack is left out")
    app.key("ctrl+comma")
    app.click(app.get("label", "Rules"))
    app.wait(lambda: any(n.get_name() == "Our newer rules" for n in app.nodes()), "the pack in the list")
    app.key("Escape")
    close_preferences()
    end()


try:
    tap.run_all(globals())
finally:
    put_away(app, folder)
tap.end()
