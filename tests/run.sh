#!/bin/sh
# Installs what is missing (Debian 12 packages), builds, and runs every test: the tests themselves, style and static
# analysis, the tests again under the address and undefined-behaviour sanitizers, and a short fuzz of the reader.
#   sh tests/run.sh           all of it
#   sh tests/run.sh quick     the tests only
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
say() { echo "== $*"; }

./.ci/install-packages ui/packages.txt tests/packages.txt

say "building the program and its tests"
# As ui/run.sh builds it; a build folder that is there stays as it was set up.
[ -f build/CMakeCache.txt ] || as_units=-DCMAKE_UNITY_BUILD=ON
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DHALFSPLIT_TESTS=ON ${as_units:-} >build.log 2>&1 || { cat build.log; exit 1; }
cmake --build build >>build.log 2>&1 || { tail -n 60 build.log; exit 1; }
rm -f build.log

say "running the tests"
ctest --test-dir build --output-on-failure -j2
[ "${1:-all}" = quick ] && exit 0

say "style and static analysis"
sh tests/lint.sh

say "the tests under the sanitizers"
cmake --preset sanitize >build.log 2>&1 || { cat build.log; exit 1; }
cmake --build --preset sanitize >>build.log 2>&1 || { tail -n 60 build.log; exit 1; }
rm -f build.log
LSAN_OPTIONS="suppressions=$root/tests/leaks_of_others.txt:print_suppressions=0" ctest --test-dir build-sanitize --output-on-failure -j2

say "fuzzing, a minute each"
sh tests/fuzz/run.sh 60

say "all passed"
