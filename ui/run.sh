#!/bin/sh
# Installs what is missing (Debian 12 packages), builds, and runs Halfsplit.
#   sh ui/run.sh              opens the window with a job to practise on; in text where there is no display
#   sh ui/run.sh ARGUMENTS    runs: halfsplit ARGUMENTS
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
build="$root/build"

"$root/.ci/install-packages" "$root/ui/packages.txt"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if [ ! -x "$build/ui/halfsplit" ]; then echo "Building Halfsplit in $build (the first time takes some minutes) ..." >&2; fi
if ! { { [ -f "$build/build.ninja" ] || cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_UNITY_BUILD=ON -DHALFSPLIT_TESTS=OFF; } &&
       cmake --build "$build" --target halfsplit; } >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    echo "The build failed (above: the end of what it said)." >&2
    exit 1
fi
rm -f "$log"
trap - EXIT
if [ $# -gt 0 ]; then exec "$build/ui/halfsplit" "$@"; fi
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$build/ui/halfsplit" window "$root/scenarios/horn-silent.scenario.xml"
fi
exec sh "$root/ui/demo.sh" "$build/ui/halfsplit" "$root"
