# SPDX-License-Identifier: GPL-3.0-or-later
"""A small window that offers files to whoever takes them, as a file manager does: its whole area is a drag source
of text/uri-list. Knows nothing of the program that takes them.

Arguments: the paths of the files. Prints "ready" once it can be dragged from, and how each drag ended."""
import sys

import gi

gi.require_version("Gtk", "4.0")
gi.require_version("Gdk", "4.0")
from gi.repository import Gdk, GLib, Gtk  # noqa: E402

uris = "".join(GLib.filename_to_uri(path, None) + "\r\n" for path in sys.argv[1:])


def activate(application):
    window = Gtk.ApplicationWindow(application=application, title="Files to drag", default_width=160, default_height=90)
    label = Gtk.Label(label="Drag me")
    source = Gtk.DragSource(actions=Gdk.DragAction.COPY)
    source.connect("prepare", lambda *_: Gdk.ContentProvider.new_for_bytes("text/uri-list", GLib.Bytes.new(uris.encode())))
    source.connect("drag-end", lambda *_: print("dropped", flush=True))
    source.connect("drag-cancel", lambda *_: print("refused", flush=True))
    label.add_controller(source)
    window.set_child(label)
    window.connect("map", lambda *_: print("ready", flush=True))
    window.present()


application = Gtk.Application()
application.connect("activate", activate)
application.run([])
