# SPDX-License-Identifier: GPL-3.0-or-later
"""The X display by its own library, for timings: pointer and keys by the XTEST extension, pixels as they are on the screen.

Used by the window's benchmarks, where starting a program for every event would cost more than what is measured. Waits
for a pixel by the DAMAGE extension: asking for pixels again and again would take the server, which has to draw them, one
of two processors. Knows no widget and no name."""
import ctypes
import select
import time

xlib = ctypes.CDLL("libX11.so.6")
xtst = ctypes.CDLL("libXtst.so.6")
xdamage = ctypes.CDLL("libXdamage.so.1")
ALL_PLANES, Z_PIXMAP, RAW_RECTANGLES = 0xFFFFFFFF, 2, 0


class Image(ctypes.Structure):
    _fields_ = [("width", ctypes.c_int), ("height", ctypes.c_int), ("xoffset", ctypes.c_int), ("format", ctypes.c_int),
                ("data", ctypes.POINTER(ctypes.c_char)), ("byte_order", ctypes.c_int), ("bitmap_unit", ctypes.c_int),
                ("bitmap_bit_order", ctypes.c_int), ("bitmap_pad", ctypes.c_int), ("depth", ctypes.c_int),
                ("bytes_per_line", ctypes.c_int), ("bits_per_pixel", ctypes.c_int), ("red", ctypes.c_ulong),
                ("green", ctypes.c_ulong), ("blue", ctypes.c_ulong), ("obdata", ctypes.c_void_p),
                ("create", ctypes.c_void_p), ("destroy", ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p))]


class Rectangle(ctypes.Structure):
    _fields_ = [("x", ctypes.c_short), ("y", ctypes.c_short), ("width", ctypes.c_ushort), ("height", ctypes.c_ushort)]


class DamageEvent(ctypes.Structure):
    _fields_ = [("type", ctypes.c_int), ("serial", ctypes.c_ulong), ("send_event", ctypes.c_int),
                ("display", ctypes.c_void_p), ("drawable", ctypes.c_ulong), ("damage", ctypes.c_ulong),
                ("level", ctypes.c_int), ("more", ctypes.c_int), ("timestamp", ctypes.c_ulong), ("area", Rectangle),
                ("geometry", Rectangle)]


class Event(ctypes.Union):
    _fields_ = [("type", ctypes.c_int), ("damage", DamageEvent), ("room", ctypes.c_long * 24)]


for library, name, result, arguments in (
        (xlib, "XOpenDisplay", ctypes.c_void_p, [ctypes.c_char_p]),
        (xlib, "XDefaultRootWindow", ctypes.c_ulong, [ctypes.c_void_p]),
        (xlib, "XFlush", ctypes.c_int, [ctypes.c_void_p]),
        (xlib, "XSync", ctypes.c_int, [ctypes.c_void_p, ctypes.c_int]),
        (xlib, "XPending", ctypes.c_int, [ctypes.c_void_p]),
        (xlib, "XNextEvent", ctypes.c_int, [ctypes.c_void_p, ctypes.POINTER(Event)]),
        (xlib, "XConnectionNumber", ctypes.c_int, [ctypes.c_void_p]),
        (xdamage, "XDamageQueryExtension", ctypes.c_int, [ctypes.c_void_p, ctypes.POINTER(ctypes.c_int),
                                                          ctypes.POINTER(ctypes.c_int)]),
        (xdamage, "XDamageCreate", ctypes.c_ulong, [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int]),
        (xlib, "XStringToKeysym", ctypes.c_ulong, [ctypes.c_char_p]),
        (xlib, "XKeysymToKeycode", ctypes.c_ubyte, [ctypes.c_void_p, ctypes.c_ulong]),
        (xlib, "XGetImage", ctypes.POINTER(Image), [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int, ctypes.c_int,
                                                    ctypes.c_uint, ctypes.c_uint, ctypes.c_ulong, ctypes.c_int]),
        (xtst, "XTestFakeMotionEvent", ctypes.c_int, [ctypes.c_void_p, ctypes.c_int, ctypes.c_int, ctypes.c_int,
                                                      ctypes.c_ulong]),
        (xtst, "XTestFakeButtonEvent", ctypes.c_int, [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong]),
        (xtst, "XTestFakeKeyEvent", ctypes.c_int, [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong])):
    function = getattr(library, name)
    function.restype, function.argtypes = result, arguments


class Display:
    def __init__(self):
        self.display = xlib.XOpenDisplay(None)
        self.root = xlib.XDefaultRootWindow(self.display)
        first, error = ctypes.c_int(), ctypes.c_int()
        if not xdamage.XDamageQueryExtension(self.display, ctypes.byref(first), ctypes.byref(error)):
            raise RuntimeError("the display has no DAMAGE extension")
        self.damaged = first.value
        xdamage.XDamageCreate(self.display, self.root, RAW_RECTANGLES)
        xlib.XSync(self.display, 0)  # all there is counts as drawn once
        self.drawn()

    def move(self, x, y):
        xtst.XTestFakeMotionEvent(self.display, -1, int(x), int(y), 0)
        xlib.XFlush(self.display)

    def button(self, button, down):
        xtst.XTestFakeButtonEvent(self.display, button, down, 0)
        xlib.XFlush(self.display)

    def click(self, button):
        self.button(button, True)
        self.button(button, False)

    def key(self, name, down):
        code = xlib.XKeysymToKeycode(self.display, xlib.XStringToKeysym(name.encode()))
        xtst.XTestFakeKeyEvent(self.display, code, down, 0)
        xlib.XFlush(self.display)

    def press(self, name):
        self.key(name, True)
        self.key(name, False)

    def pixels(self, box):
        x, y, width, height = box
        image = xlib.XGetImage(self.display, self.root, x, y, width, height, ALL_PLANES, Z_PIXMAP)
        found = ctypes.string_at(image.contents.data, image.contents.bytes_per_line * height)
        image.contents.destroy(ctypes.cast(image, ctypes.c_void_p))
        return found

    def settle(self, box, quiet=0.08, longest=3.0):
        """Waits until these pixels have stayed the same for a while."""
        last, since, end = self.pixels(box), time.monotonic(), time.monotonic() + longest
        while time.monotonic() < end and time.monotonic() - since < quiet:
            time.sleep(0.01)
            now = self.pixels(box)
            if now != last:
                last, since = now, time.monotonic()

    def drawn(self):
        """Boxes drawn since the last call."""
        event, boxes = Event(), []
        while xlib.XPending(self.display):
            xlib.XNextEvent(self.display, ctypes.byref(event))
            if event.type == self.damaged:
                area = event.damage.area
                boxes.append((area.x, area.y, area.width, area.height))
        return boxes

    def drawn_in(self, box):
        x, y, width, height = box
        return any(x0 < x + width and x < x0 + w and y0 < y + height and y < y0 + h for x0, y0, w, h in self.drawn())

    def until_changed(self, box, act, longest=1.0):
        """Milliseconds from the act's event until a pixel in the box is drawn that is another; None when none is."""
        before = self.pixels(box)
        self.drawn_in(box)
        start = time.perf_counter()
        act()
        while True:
            left = start + longest - time.perf_counter()
            if left <= 0 or not select.select([xlib.XConnectionNumber(self.display)], [], [], left)[0]:
                return None
            if self.drawn_in(box):
                drawn = time.perf_counter()
                if self.pixels(box) != before:  # what was drawn may be what was there
                    return (drawn - start) * 1000
