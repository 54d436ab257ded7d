#!/bin/sh
# Builds the fuzz targets (of the circuit reader, and of charts read and run) and runs each:
#   tests/fuzz/run.sh SECONDS [libFuzzer options]
# What they find is left in build-fuzz/found/; new inputs go to build-fuzz/corpus/ and build-fuzz/chart-corpus/, the seeds
# stay as they are.
set -eu
seconds=${1:?usage: tests/fuzz/run.sh SECONDS}
shift
cd "$(dirname "$0")/../.."
cmake --preset fuzz >/dev/null
cmake --build build-fuzz --target read_circuit_fuzz --target read_chart_fuzz
mkdir -p build-fuzz/corpus build-fuzz/chart-corpus build-fuzz/found
fuzz() {
  target=$1 dictionary=$2 corpus=$3
  shift 3
  "build-fuzz/tests/$target" -max_total_time="$seconds" -timeout=5 -rss_limit_mb=2048 -max_len=16384 \
    -dict="tests/fuzz/$dictionary" -artifact_prefix=build-fuzz/found/ -print_final_stats=1 "$@" \
    "build-fuzz/$corpus" "tests/fuzz/$corpus"
}
fuzz read_circuit_fuzz circuit.dict corpus "$@"
fuzz read_chart_fuzz chart.dict chart-corpus "$@"
