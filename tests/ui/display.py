# SPDX-License-Identifier: GPL-3.0-or-later
"""The X display by its own library, for timings: pointer and keys by the XTEST extension, pixels as they are on the screen.

Used by the window's benchmarks, where starting a program for every event would cost more than what is measured. Knows
no widget and no name."""
import ctypes
import time

xlib = ctypes.CDLL("libX11.so.6")
xtst = ctypes.CDLL("libXtst.so.6")
ALL_PLANES, Z_PIXMAP = 0xFFFFFFFF, 2


class Image(ctypes.Structure):
    _fields_ = [("width", ctypes.c_int), ("height", ctypes.c_int), ("xoffset", ctypes.c_int), ("format", ctypes.c_int),
                ("data", ctypes.POINTER(ctypes.c_char)), ("byte_order", ctypes.c_int), ("bitmap_unit", ctypes.c_int),
                ("bitmap_bit_order", ctypes.c_int), ("bitmap_pad", ctypes.c_int), ("depth", ctypes.c_int),
                ("bytes_per_line", ctypes.c_int), ("bits_per_pixel", ctypes.c_int), ("red", ctypes.c_ulong),
                ("green", ctypes.c_ulong), ("blue", ctypes.c_ulong), ("obdata", ctypes.c_void_p),
                ("create", ctypes.c_void_p), ("destroy", ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p))]


for library, name, result, arguments in (
        (xlib, "XOpenDisplay", ctypes.c_void_p, [ctypes.c_char_p]),
        (xlib, "XDefaultRootWindow", ctypes.c_ulong, [ctypes.c_void_p]),
        (xlib, "XFlush", ctypes.c_int, [ctypes.c_void_p]),
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

    def until_changed(self, box, act, longest=1.0):
        """Milliseconds from the act's event until a pixel in the box is another; None when none is."""
        before = self.pixels(box)
        start = time.perf_counter()
        act()
        while time.perf_counter() - start < longest:
            if self.pixels(box) != before:
                return (time.perf_counter() - start) * 1000
            time.sleep(0.0003)  # the display has other work than answering this
        return None
