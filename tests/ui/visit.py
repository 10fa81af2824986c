# SPDX-License-Identifier: GPL-3.0-or-later
"""One person's sitting at the window, for the walk-throughs: a project of their own open, the ledger at hand, pictures
of what is on the screen. Knows the first two arguments of the test (program, source folder) and no act."""
import os
import subprocess
import sys

from driver import Ledger, Work, pictures_folder


def differing(a, b, shade):
    """How many pixels of two pictures differ by more than so many percent."""
    answer = subprocess.run(["compare", "-metric", "AE", "-fuzz", "%d%%" % shade, a, b, "null:"], capture_output=True, text=True)
    return float(answer.stderr.split()[0])


def read_pdf(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True).stdout


class Visit:
    project = "data/demo/alcove-refit.drybay"

    def __init__(self, project=None):
        self.work = Work(sys.argv[1], sys.argv[2], project or self.project)
        self.app, self.board = self.work.app, self.work.board
        self.ledger = Ledger(self.app)
        self.work.ready()
        self.app.get("push button", r".*sheets?,.*")

    def look(self, name, place):
        """A picture of that place of the screen (x, y, width, height), as it is now, in a file of that name."""
        x, y, w, h = place
        path = os.path.join(self.work.folder, name + ".png")
        subprocess.run(["import", "-window", "root", "-crop", "%dx%d+%d+%d" % (w, h, x, y), "+repage", path], check=True)
        return path

    @classmethod
    def sitting(cls, project=None):
        """A test that is one sitting: a program of its own, closed at the end, without a warning in its log. One
        program runs at a time: a second would hand its file to the first."""
        def wrap(function):
            def run():
                v = cls(project)
                try:
                    function(v)
                    v.work.quiet()
                except Exception:
                    folder = pictures_folder() or v.work.folder
                    v.app.screenshot(os.path.join(folder, function.__name__ + ".png"))
                    raise
                finally:
                    v.work.remove()
            return run
        return wrap
