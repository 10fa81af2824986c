# SPDX-License-Identifier: GPL-3.0-or-later
"""Random pointer and key input on the real window: it must neither end nor warn (G_DEBUG=fatal-warnings), and what it
holds must not grow from document to document.

    monkey.py PROGRAM SOURCE          in a session of tests/ui/session.sh with WM="openbox --config-file
                                      tests/ui/bare-openbox.xml", which takes no input for itself
    DRYBAY_MONKEY=SECONDS             how long (20); DRYBAY_MONKEY_SEED (1) for the same input again
    DRYBAY_MONKEY_PACE=MILLISECONDS   at least between two acts (17, one frame: no hand is faster; 0: as fast as they go out)

Events go out by XTEST, an act when what the one before changed is on the screen. After each round a fresh document is opened and the old window
closed, without saving. File choosers are only ever dismissed: what they could do to files is not wanted. Memory is
looked at when a fresh document has been opened and nothing moves any more, so that each look finds the same
window, of one of three documents in turn. A second window, put away, keeps the program going when the monkey closes
the first."""
import ctypes
import ctypes.util
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import heap_reader  # noqa: E402

program, source = sys.argv[1], sys.argv[2]
seconds = float(os.environ.get("DRYBAY_MONKEY", "20"))
seed = int(os.environ.get("DRYBAY_MONKEY_SEED", "1"))
PACE = float(os.environ.get("DRYBAY_MONKEY_PACE", "17")) / 1000
ROUND = 1000 if seconds > 120 else 600  # events of one document
DEMOS = ["alcove-refit", "client-shower", "two-bath-house"]
CHOOSERS = re.compile(rb"^(Open|Save|Export|Import|Choose|Select|Print|Keep)\b")

X = ctypes.CDLL(ctypes.util.find_library("X11") or "libX11.so.6")
T = ctypes.CDLL(ctypes.util.find_library("Xtst") or "libXtst.so.6")
X.XOpenDisplay.restype = ctypes.c_void_p
X.XStringToKeysym.restype = ctypes.c_ulong
for function in (X.XSync, X.XFlush, X.XKeysymToKeycode, X.XGetInputFocus, X.XFetchName, X.XQueryTree, X.XFree,
                 T.XTestFakeMotionEvent, T.XTestFakeButtonEvent, T.XTestFakeKeyEvent):
    function.argtypes = None
os.environ["GSETTINGS_BACKEND"] = "keyfile"  # one that another process can write to
display = ctypes.c_void_p(X.XOpenDisplay(None))
if not display:
    print("1..0 # SKIP no display")
    sys.exit(0)
# A window may be gone by the time it is asked about.
HANDLER = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p)
ignore = HANDLER(lambda _display, _event: 0)
X.XSetErrorHandler(ignore)
screen = X.XDefaultScreen(display)
WIDTH, HEIGHT = X.XDisplayWidth(display, screen), X.XDisplayHeight(display, screen)

KEYS = ("Left Right Up Down Left Right Up Down Tab Tab Return Escape Escape Delete BackSpace space Home End Page_Up "
        "Page_Down F2 F8 F9 F10 Menu plus minus period comma a b d e m r s w x z 0 1 2 3 4 5 6 7 8 9 slash").split()
CONTROLLED = "z z z y d c x v l f h period 0 plus minus a".split()
DIALOGS = ("Control_L o", "Control_L Shift_L s", "Control_L p", "Control_L comma", "Control_L Shift_L slash", "Control_L h",
           "F1", "Shift_L F1")
SHIFTED = "Left Right Up Down Tab F10 z".split()


def code(name):
    return X.XKeysymToKeycode(display, ctypes.c_ulong(X.XStringToKeysym(name.encode())))


def press(name, down=True):
    T.XTestFakeKeyEvent(display, code(name), int(down), ctypes.c_ulong(0))


def tap(*names):
    for name in names:
        press(name)
    for name in reversed(names):
        press(name, False)
    X.XSync(display, 0)


def move(x, y):
    T.XTestFakeMotionEvent(display, screen, int(x), int(y), ctypes.c_ulong(0))


def button(number, down):
    T.XTestFakeButtonEvent(display, number, int(down), ctypes.c_ulong(0))


def focused_title():
    """Of the window with the keyboard or the nearest above it that has a title."""
    window, revert = ctypes.c_ulong(), ctypes.c_int()
    X.XGetInputFocus(display, ctypes.byref(window), ctypes.byref(revert))
    for _ in range(6):
        name = ctypes.c_char_p()
        if window.value <= 1:
            return b""
        if X.XFetchName(display, window, ctypes.byref(name)) and name.value:
            return name.value
        root, parent, children, n = ctypes.c_ulong(), ctypes.c_ulong(), ctypes.c_void_p(), ctypes.c_uint()
        if not X.XQueryTree(display, window, ctypes.byref(root), ctypes.byref(parent), ctypes.byref(children), ctypes.byref(n)):
            return b""
        if children.value:
            X.XFree(children)
        window = parent
    return b""


class Monkey:
    def __init__(self):
        self.folder = tempfile.mkdtemp(prefix="drybay-monkey-")
        self.errors = open(os.path.join(self.folder, "errors"), "w+")
        self.random = random.Random(seed)
        self.events = self.rounds = self.restarts = self.dismissed = self.closed = 0
        self.leftover = []  # names of windows that would not close
        self.memory = []  # with each fresh document
        self.process = self.window = None
        self.kept = []

    def log(self):
        self.errors.flush()
        self.errors.seek(0)
        return self.errors.read()[-4000:]

    # --- the program ---

    def wait_quiet(self, most=2.0):
        """Until the main thread sleeps at three looks in a row."""
        end, quiet = time.monotonic() + most, 0
        while time.monotonic() < end and quiet < 3:
            try:
                with open("/proc/%d/stat" % self.process.pid) as f:
                    quiet = quiet + 1 if f.read().rsplit(")", 1)[1].split()[0] == "S" else 0
            except OSError:
                return
            time.sleep(0.004)

    def wait_idle(self, most=180):
        """Until it used hardly any processor for three seconds, by when it has given back what it does not need."""
        def used():
            try:
                with open("/proc/%d/stat" % self.process.pid) as f:
                    return sum(int(n) for n in f.read().rsplit(")", 1)[1].split()[11:13])
            except OSError:
                return 0
        end, quiet = time.monotonic() + most, 0
        while time.monotonic() < end and quiet < 4:
            before = used()
            time.sleep(1)
            quiet = quiet + 1 if used() - before <= 2 else 0

    def put_one_away(self):
        path = os.path.join(self.folder, "kept.drybay")
        shutil.copy(os.path.join(source, "data/demo", DEMOS[0] + ".drybay"), path)
        self.process = subprocess.Popen([program, path], stderr=self.errors, env={**os.environ, "G_DEBUG": "fatal-warnings", "GTK_A11Y": "none"})
        for _ in range(200):
            windows = self.find_windows()
            if windows:
                break
            time.sleep(0.05)
        self.wait_quiet()
        time.sleep(1)
        self.kept = windows
        for window in windows:
            self.xdo("windowminimize", window)

    def find_put_away(self):
        """Windows the monkey put away itself, by the button or the menu of their heads."""
        said = subprocess.run(["xprop", "-root", "_NET_CLIENT_LIST"], capture_output=True, text=True).stdout
        managed = [str(int(w, 16)) for w in re.findall(r"0x[0-9a-f]+", said)]
        seen = self.find_windows()
        return [w for w in managed if w not in seen and w not in self.kept]

    def find_windows(self):
        """Those of some size, not what is dragged."""
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(self.process.pid)], capture_output=True,
                               text=True).stdout.split()
        return sorted((w for w in found if self.is_large(w)), key=int)

    def is_large(self, window):
        said = subprocess.run(["xdotool", "getwindowgeometry", "--shell", window], capture_output=True, text=True).stdout
        size = re.search(r"WIDTH=(\d+)\nHEIGHT=(\d+)", said)
        return size is not None and int(size[1]) > 100 and int(size[2]) > 100

    def forget_choices(self):
        """Panels, layers and style as at the very first start, so that each look at memory finds the same window."""
        subprocess.run(["gsettings", "reset-recursively", "io.github.drybay.Drybay"], stderr=self.errors, check=True)
        time.sleep(0.3)

    def open_document(self):
        path = os.path.join(self.folder, "round-%d.drybay" % self.rounds)
        shutil.copy(os.path.join(source, "data/demo", DEMOS[self.rounds % len(DEMOS)] + ".drybay"), path)
        if self.process is None or self.process.poll() is not None:
            self.put_one_away()
        self.forget_choices()
        before = self.find_windows()
        subprocess.run([program, path], stderr=self.errors, timeout=60, env={**os.environ, "GTK_A11Y": "none"})
        for _ in range(200):
            new = [w for w in self.find_windows() if w not in before]
            if new or self.process.poll() is not None:
                self.window = new[-1] if new else None
                break
            time.sleep(0.05)
        time.sleep(0.5)
        self.wait_quiet()
        return path

    def close(self, window):
        """Popovers first, and without saving. A dialog that asks comes to the front and has the keyboard by itself."""
        for _ in range(4):
            self.raise_window(window)
            self.wait_quiet()
            for _ in range(3):
                tap("Escape")
                time.sleep(0.1)
                if window not in self.find_windows():
                    return
            tap("Control_L", "w")
            for _ in range(6):
                time.sleep(0.3)
                if self.process.poll() is not None or window not in self.find_windows():
                    return
                tap("Alt_L", "d")

    def close_others(self):
        """Every window but the newest document's, dialogs and popovers first, discarding what is not saved."""
        for window in self.find_put_away():
            self.raise_window(window)
        self.wait_quiet()
        for _ in range(3):
            for window in reversed(self.others()):
                if window in self.others():
                    self.close(window)
                if self.process.poll() is not None:
                    return
        self.leftover += [self.name(window) for window in self.others()]

    def others(self):
        return [w for w in self.find_windows() if w != self.window]

    def name(self, window):
        return subprocess.run(["xdotool", "getwindowname", window], capture_output=True, text=True).stdout.strip()

    def raise_window(self, window):
        self.xdo("windowactivate", window)

    def xdo(self, *arguments):
        """A window may go away while it is asked to do something."""
        try:
            subprocess.run(["xdotool", *arguments], timeout=10, capture_output=True)
        except subprocess.TimeoutExpired:
            pass

    def fill_screen(self):
        if self.window is not None:
            self.raise_window(self.window)
            self.xdo("windowmove", self.window, "0", "0", "windowsize", self.window, str(WIDTH), str(HEIGHT))

    def resident(self):
        """kB, of all that is there; of what is the program's own: the machine may take pages of files (libraries,
        fonts) from memory at any time, and does when nobody looked at them for a while; and of what is in use of that,
        in all and without pictures as large as frames (0 where that cannot be read)."""
        with open("/proc/%d/status" % self.process.pid) as f:
            kept = dict(re.findall(r"(VmRSS|RssAnon|VmSwap):\s*(\d+)", f.read()))
        in_use = heap_reader.measure(self.process.pid) or (0, 0)
        return int(kept["VmRSS"]), int(kept["RssAnon"]) + int(kept["VmSwap"]), in_use[0], in_use[1]

    def alive(self):
        if self.process.poll() is None:
            return True
        if self.process.returncode != 0:
            raise SystemExit("not ok 1 monkey\n# seed %d, event %d: ended with %s\n# %s\n1..1" % (
                seed, self.events, self.process.returncode, self.log().replace("\n", "\n# ")))
        return False  # its last window was closed, as a person may

    # --- input ---

    def place(self):
        return self.random.randrange(2, WIDTH - 2), self.random.randrange(48, HEIGHT - 2)

    def place_to_press(self):
        """The head of the window too, but for its buttons that close it and put it away."""
        if self.random.random() < 0.08:
            return self.random.randrange(8, WIDTH - 200), self.random.randrange(10, 44)
        return self.place()

    def act(self):
        dice = self.random.random()
        if dice < 0.40:
            move(*self.place())
        elif dice < 0.60:
            move(*self.place_to_press())
            number = self.random.choice((1, 1, 1, 1, 3))
            for _ in range(self.random.choice((1, 1, 1, 2))):
                button(number, True)
                button(number, False)
        elif dice < 0.74:
            x, y = self.place()
            move(x, y)
            button(1, True)
            for _ in range(self.random.randrange(2, 9)):
                x, y = x + self.random.randrange(-60, 61), y + self.random.randrange(-60, 61)
                move(min(max(x, 2), WIDTH - 2), min(max(y, 48), HEIGHT - 2))
                X.XSync(display, 0)
                time.sleep(0.002)
            if self.random.random() < 0.1:
                tap("Escape")
            button(1, False)
        elif dice < 0.82:
            number = self.random.choice((4, 5))
            with_control = self.random.random() < 0.3
            if with_control:
                press("Control_L")
            for _ in range(self.random.randrange(1, 5)):
                button(number, True)
                button(number, False)
            if with_control:
                press("Control_L", False)
        elif dice < 0.93:
            tap(self.random.choice(KEYS))
        elif dice < 0.98:
            tap("Control_L", self.random.choice(CONTROLLED))
        else:
            tap("Shift_L", self.random.choice(SHIFTED))
        X.XSync(display, 0)
        self.events += 1

    def open_dialogs(self):
        """Each once: what is loaded for good for the first of its kind (printers, icons of files: 4 MB) is else found at
        whichever look comes after."""
        for keys in DIALOGS:
            tap(*keys.split())
            time.sleep(2)
            self.wait_quiet()
            tap("Escape")
            self.wait_quiet()
            self.fill_screen()

    def run_round(self, end):
        path = self.open_document()
        self.close_others()
        self.fill_screen()
        if self.rounds == 0 and seconds > 120:
            self.open_dialogs()
        move(WIDTH // 2, 20)
        self.wait_idle()
        if self.alive():
            self.memory.append(self.resident())
            if seconds > 120:  # a run stopped by hand has its figures, too
                print("# look %d after %d events, kB: %d %d %d %d" % (len(self.memory), self.events, *self.memory[-1]), flush=True)
        for n in range(ROUND):
            if time.monotonic() > end or not self.alive():
                break
            if CHOOSERS.match(focused_title()):
                tap("Escape")
                self.dismissed += 1
                self.wait_quiet(0.5)
                continue
            self.act()
            if PACE:
                time.sleep(PACE)
                self.wait_quiet(1)
            if n % 10 == 9:
                self.wait_quiet()
                if not focused_title():  # nobody has the keyboard: a dialog or a menu went away
                    if self.window not in self.find_windows():
                        self.closed += 1  # as a person may
                        break
                    self.fill_screen()
            if n % 200 == 199 and self.alive():
                self.fill_screen()
        self.rounds += 1
        if self.alive():
            self.wait_quiet()
        else:
            self.restarts += 1
            self.memory.clear()  # another process begins anew
        os.remove(path)

    def tell_memory(self):
        """The first third is left out: what is kept for good is loaded in it, letters of each size among it. What is
        left is halved, each half with as many looks at each document."""
        n = len(DEMOS)
        warm = (len(self.memory) // 3 + n - 1) // n * n
        rest = self.memory[warm:]
        half = len(rest) // (2 * n) * n
        print("# windows of earlier documents that stayed open: %s" % (", ".join(self.leftover) or "none"))
        for which, what in enumerate(("resident", "of that its own", "in use", "of that in small things")):
            print("# %s with each fresh document, kB: %s" % (what, " ".join("%d" % look[which] for look in self.memory)))
            if half > 0 and self.memory[-1][which] > 0:
                first, last = (sum(look[which] for look in part) / half for part in (rest[:half], rest[-half:]))
                print("# the first %d left out: %.0f kB in the first half, %.0f kB in the second: %+.2f %%" % (
                    warm, first, last, 100 * (last - first) / first))

    def run(self):
        start = time.monotonic()
        while time.monotonic() < start + seconds:
            self.run_round(start + seconds)
            if self.rounds % 4 == 0:
                print("# %d events, %d documents, %d windows, %s kB" % (
                    self.events, self.rounds, len(self.find_windows()), self.memory[-1:]), flush=True)
        took = time.monotonic() - start
        print("ok 1 monkey")
        print("# seed %d: %d events in %.0f s, %d documents, %d closed by the monkey, %d choosers dismissed, "
              "the program ended %d times" % (seed, self.events, took, self.rounds, self.closed, self.dismissed, self.restarts))
        self.tell_memory()
        print("1..1")
        text = self.log()
        self.process.terminate()
        self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)
        if re.search(r"WARNING|CRITICAL", text):
            print("# " + text.replace("\n", "\n# "))


Monkey().run()
