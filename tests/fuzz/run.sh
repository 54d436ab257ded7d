#!/bin/sh
# Builds the fuzz targets (of the circuit reader, of charts read and run, of fault tables read and planned, of filled sheets, of
# scenarios and what is done in practice) and runs each:
#   tests/fuzz/run.sh SECONDS [libFuzzer options]
# What they find is left in build-sanitize/found/; new inputs go to the folders *corpus/ in build-sanitize/, the seeds stay as
# they are.
set -eu
seconds=${1:?usage: tests/fuzz/run.sh SECONDS}
shift
cd "$(dirname "$0")/../.."
cmake --preset sanitize >/dev/null
cmake --build build-sanitize --target read_circuit_fuzz --target read_chart_fuzz --target fault_table_fuzz \
  --target readings_fuzz --target practice_fuzz
mkdir -p build-sanitize/corpus build-sanitize/chart-corpus build-sanitize/fault-table-corpus build-sanitize/readings-corpus \
  build-sanitize/practice-corpus build-sanitize/found
fuzz() {
  target=$1 dictionary=$2 corpus=$3
  shift 3
  "build-sanitize/tests/$target" -max_total_time="$seconds" -timeout=5 -rss_limit_mb=2048 -max_len=16384 \
    -dict="tests/fuzz/$dictionary" -artifact_prefix=build-sanitize/found/ -print_final_stats=1 "$@" \
    "build-sanitize/$corpus" "tests/fuzz/$corpus"
}
# Two at a time.
fuzz read_circuit_fuzz circuit.dict corpus "$@" &
other=$!
fuzz read_chart_fuzz chart.dict chart-corpus "$@"
wait "$other"
fuzz fault_table_fuzz fault-table.dict fault-table-corpus "$@" &
other=$!
fuzz readings_fuzz readings.dict readings-corpus "$@"
wait "$other"
fuzz practice_fuzz practice.dict practice-corpus "$@"
