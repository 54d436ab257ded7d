#!/bin/sh
# Builds the fuzz targets (of the circuit reader, of charts read and run, of fault tables read and planned, of filled sheets) and runs each:
#   tests/fuzz/run.sh SECONDS [libFuzzer options]
# What they find is left in build-fuzz/found/; new inputs go to the folders *corpus/ in build-fuzz/, the seeds stay as
# they are.
set -eu
seconds=${1:?usage: tests/fuzz/run.sh SECONDS}
shift
cd "$(dirname "$0")/../.."
cmake --preset fuzz >/dev/null
cmake --build build-fuzz --target read_circuit_fuzz --target read_chart_fuzz --target fault_table_fuzz \
  --target readings_fuzz
mkdir -p build-fuzz/corpus build-fuzz/chart-corpus build-fuzz/fault-table-corpus build-fuzz/readings-corpus \
  build-fuzz/found
fuzz() {
  target=$1 dictionary=$2 corpus=$3
  shift 3
  "build-fuzz/tests/$target" -max_total_time="$seconds" -timeout=5 -rss_limit_mb=2048 -max_len=16384 \
    -dict="tests/fuzz/$dictionary" -artifact_prefix=build-fuzz/found/ -print_final_stats=1 "$@" \
    "build-fuzz/$corpus" "tests/fuzz/$corpus"
}
fuzz read_circuit_fuzz circuit.dict corpus "$@"
fuzz read_chart_fuzz chart.dict chart-corpus "$@"
fuzz fault_table_fuzz fault-table.dict fault-table-corpus "$@"
fuzz readings_fuzz readings.dict readings-corpus "$@"
