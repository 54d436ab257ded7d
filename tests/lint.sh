#!/bin/sh
# Style (clang-format) and static analysis (clang-tidy) of all C++ files.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
find engine ui tests -name '*.h' -o -name '*.cpp' | xargs clang-format --dry-run --Werror

# Compile commands of their own: clang-tidy cannot read headers that g++ has precompiled.
cmake -S . -B build-lint -G Ninja -DHALFSPLIT_TESTS=OFF -DHALFSPLIT_PRECOMPILE=OFF >/dev/null
report=$(mktemp)
trap 'rm -f "$report"' EXIT
if ! find engine ui -name '*.cpp' | xargs -P 2 -n 1 clang-tidy --quiet -p build-lint >"$report" 2>&1; then
    grep -v 'warnings generated' "$report"
    exit 1
fi
