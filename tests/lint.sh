#!/bin/sh
# Style (clang-format) and static analysis (clang-tidy) of all C++ files. Needs a configured build/ folder.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
find engine ui tests -name '*.h' -o -name '*.cpp' | xargs clang-format --dry-run --Werror
[ -f build/compile_commands.json ] || cmake -S . -B build -G Ninja >/dev/null
find engine ui -name '*.cpp' | xargs -P 2 -n 4 clang-tidy --quiet -p build 2>/dev/null
