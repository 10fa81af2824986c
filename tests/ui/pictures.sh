#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Pictures of the window in every state worth looking at, taken on a virtual screen.
#
#   pictures.sh PROGRAM FOLDER [NAME...]    takes them (names or parts of names; none: all)
#   pictures.sh PROGRAM compare             takes the golden ones and compares them, as the test does
#   DRYBAY_ACCEPT=1 pictures.sh PROGRAM compare    takes new golden pictures, and docs/pictures/window.png
#
# A picture may differ from its golden one in a few pixels: letters move by a fraction, a colour by a shade.
set -u
here=$(cd "$(dirname "$0")" && pwd)
source=$(cd "$here/../.." && pwd)
golden=$here/golden
program=$(readlink -f "$1")
out=$2
shift 2
# Settings in memory: what one picture opens is closed again for the next.
export GSETTINGS_BACKEND=memory DRYBAY_DATA=${DRYBAY_DATA:-$source/data} G_DEBUG=${G_DEBUG:-fatal-warnings}
take() { bash "$here/session.sh" 2600x1700 /usr/bin/python3 "$here/pictures.py" "$program" "$source" "$@" 2> >(grep -v -e dbind-WARNING -e '^$' >&2); }

if [ "$out" != compare ]; then
  take "$out" "$@"
  exit
fi

for tool in import compare convert; do
  command -v $tool >/dev/null || { echo "pictures.sh: ImageMagick is not installed"; exit 77; }
done
taken=$(mktemp -d)
trap 'rm -rf "$taken"' EXIT
take "$taken" "$@" || { echo "not every picture could be taken"; exit 1; }

if [ -n "${DRYBAY_ACCEPT:-}" ]; then
  mkdir -p "$golden"
  for picture in "$taken"/*.png; do
    convert "$picture" +dither -colors 128 -define png:exclude-chunk=date,time "PNG8:$golden/$(basename "$picture")"
  done
  [ -e "$taken/alcove.png" ] && convert "$taken/alcove.png" -define png:exclude-chunk=date,time "$source/docs/pictures/window.png"
  du -sh "$golden"
  exit
fi

failed=0
pictures=${DRYBAY_TEST_PICTURES:-/tmp/drybay-pictures}
for picture in "$taken"/*.png; do
  name=$(basename "$picture")
  [ -e "$golden/$name" ] || { echo "$name: no golden picture; take it with DRYBAY_ACCEPT=1"; failed=1; continue; }
  size=$(identify -format '%w %h' "$picture")
  [ "$size" = "$(identify -format '%w %h' "$golden/$name")" ] || { echo "$name: another size: $size"; failed=1; continue; }
  differing=$(compare -metric AE -fuzz 12% "$golden/$name" "$picture" null: 2>&1)
  read -r width height <<<"$size"
  share=$(awk -v n="$differing" -v w="$width" -v h="$height" 'BEGIN { printf "%.2f", 100 * n / (w * h) }')
  if awk -v s="$share" 'BEGIN { exit !(s > 1.0) }'; then
    mkdir -p "$pictures"
    cp "$picture" "$pictures/$name"
    compare -fuzz 12% "$golden/$name" "$picture" "$pictures/${name%.png}-difference.png" 2>/dev/null
    echo "$name: $share % of the pixels differ; see $pictures/${name%.png}-difference.png"
    failed=1
  else
    echo "$name: $share % of the pixels differ, up to 1.0 % may"
  fi
done
exit $failed
