#!/usr/bin/env bash
# Installs what is missing, builds Slabside and opens its window on a sample (or on the file given).
# Without a display it writes the sample's build pack and says where.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
bash "$root/app/install.sh"
(cd "$root" && cmake --preset release) >"$root/build-configure.log" 2>&1 \
    || { cat "$root/build-configure.log" >&2; exit 2; }
mkdir -p "$root/build/release" && mv -f "$root/build-configure.log" "$root/build/release/configure.log"
cmake --build "$root/build/release" --target slabside
file=${1:-$root/samples/harbour-fire-boat.slabside.json}
program=$root/build/release/app/slabside
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$program" "$file"
fi
name=$(basename "$file" .slabside.json)
out=$root/out/$name
status=0
"$program" pack "$file" --to "$out" || status=$?
[ "$status" -le 1 ] || exit "$status"
echo "No display here, so the window stays closed. The build pack of \"$name\" is in $out"
