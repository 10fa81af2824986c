#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# A desktop of one's own on a virtual screen: session.sh WIDTHxHEIGHT COMMAND...
# Own home, bus, window manager and accessibility bus; nothing of the user's session is read or written.
# Environment: WM (openbox), GSK_RENDERER (cairo), GTKFONT (Cantarell 11), GTK_SETTINGS (more lines of settings.ini).
set -u

# libatspi 2.46 of a test itself, not of the program, may fall over what it remembers of the tree. Such a run counts for
# nothing: what it printed is thrown away, and the test is run once more on a new desktop, with nothing of the first there.
if [ -z "${DRYBAY_DESKTOP:-}" ] && case "$*" in *python3\ */test-*.py\ *) true ;; *) false ;; esac; then
  printed=$(mktemp)
  trap 'cat "$printed"; rm -f "$printed"' EXIT
  DRYBAY_DESKTOP=first bash "$0" "$@" >"$printed"
  result=$?
  [ $result = 139 ] || exit $result
  echo "# the test fell in libatspi and is run once more" >"$printed"
  DRYBAY_DESKTOP=second bash "$0" "$@" >>"$printed"
  exit
fi
geometry=$1
shift
home=$(mktemp -d)
export HOME=$home/home XDG_RUNTIME_DIR=$home/run XDG_CACHE_HOME=$home/cache XDG_CONFIG_HOME=$home/home/.config
export XDG_DATA_HOME=$home/home/.local/share XDG_STATE_HOME=$home/home/.local/state
mkdir -pm700 "$HOME" "$XDG_RUNTIME_DIR" "$XDG_CACHE_HOME" "$XDG_CONFIG_HOME/gtk-4.0" "$XDG_DATA_HOME"
printf '[Settings]\ngtk-font-name=%s\n%b' "${GTKFONT:-Cantarell 11}" "${GTK_SETTINGS:-}" >"$XDG_CONFIG_HOME/gtk-4.0/settings.ini"
export GDK_BACKEND=x11 GSK_RENDERER=${GSK_RENDERER:-cairo} LC_ALL=${LC_ALL:-C.UTF-8} NO_AT_BRIDGE=0
unset WAYLAND_DISPLAY

# Without -noreset the server starts anew when its first client leaves, and takes the window manager with it.
Xvfb -displayfd 4 -screen 0 "${geometry}x24" -nolisten tcp -noreset -dpi 96 4>"$home/display" >/dev/null 2>&1 &
server=$!
trap 'kill $server 2>/dev/null; wait $server 2>/dev/null; rm -rf "$home"' EXIT
for _ in $(seq 200); do [ -s "$home/display" ] && break; sleep 0.05; done
[ -s "$home/display" ] || { echo "session.sh: no virtual screen" >&2; exit 1; }
DISPLAY=:$(cat "$home/display")
export DISPLAY DRYBAY_SCREEN_SERVER=$server

dbus-run-session -- bash -c '
  ${WM:-openbox} >/dev/null 2>&1 & manager=$!
  bus=/usr/libexec/at-spi-bus-launcher; [ -x $bus ] || bus=/usr/lib/at-spi2-core/at-spi-bus-launcher
  [ -x $bus ] && { $bus --launch-immediately >/dev/null 2>&1 & launcher=$!; }
  for _ in $(seq 100); do
    xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q "window id" && break; sleep 0.05
  done
  "$@"; result=$?
  kill $manager ${launcher:-} 2>/dev/null
  exit $result' _ "$@" 2> >(grep -v -e "org.freedesktop.portal" -e "max file descriptor" -e "dbus-daemon" >&2)
