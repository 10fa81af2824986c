#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs a command under a Wayland compositor that is itself a window filling the virtual screen of session.sh, so that the
# pointer and keys of xdotool come through it: wayland.sh COMMAND... Each window of the command fills that window.
# session.sh is to be run with WM="openbox --config-file tests/ui/bare-openbox.xml".
set -u
command -v weston >/dev/null || { echo "1..0 # SKIP weston is not installed"; exit 77; }
read -r width height < <(xdpyinfo | sed -nE 's/.*dimensions: +([0-9]+)x([0-9]+) .*/\1 \2/p')
weston --backend=x11-backend.so --use-pixman --shell=kiosk-shell.so --no-config --idle-time=0 --socket=wayland-test \
  --width="$width" --height="$height" >/dev/null 2>&1 &
compositor=$!
trap 'kill $compositor 2>/dev/null; wait $compositor 2>/dev/null' EXIT
for _ in $(seq 200); do [ -S "$XDG_RUNTIME_DIR/wayland-test" ] && break; sleep 0.05; done
sleep 1
xdotool mousemove 3 300 # it reckons from where the pointer comes in
sleep 0.2
xdotool mousemove 300 300
export WAYLAND_DISPLAY=wayland-test GDK_BACKEND=wayland
"$@"
