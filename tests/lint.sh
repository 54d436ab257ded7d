#!/bin/sh
# Style (clang-format) and static analysis (clang-tidy) of all C++ files.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
find engine ui tests -name '*.h' -o -name '*.cpp' | xargs clang-format --dry-run --Werror

# A folder's files are analysed as one (CMAKE_UNITY_BUILD): most of the time goes into headers, which each would read
# anew. Compile commands of their own: clang-tidy cannot read headers that g++ has precompiled.
cmake -S . -B build-lint -G Ninja -DHALFSPLIT_TESTS=OFF -DHALFSPLIT_PRECOMPILE=OFF -DCMAKE_UNITY_BUILD=ON >/dev/null
report=$(mktemp)
trap 'rm -f "$report"' EXIT
if ! sed -n 's/^ *"file": "\(.*\.c[px][px]\)",\{0,1\}$/\1/p' build-lint/compile_commands.json |
    xargs -P 2 -n 1 clang-tidy --quiet --checks=-bugprone-suspicious-include -p build-lint >"$report" 2>&1; then
    grep -v 'warnings generated' "$report"
    exit 1
fi
