#!/bin/sh
# Builds the fuzz target of the circuit reader and runs it: tests/fuzz/run.sh SECONDS [libFuzzer options].
# What it finds is left in build-fuzz/found/; new inputs go to build-fuzz/corpus/, the seeds stay as they are.
set -eu
seconds=${1:?usage: tests/fuzz/run.sh SECONDS}
shift
cd "$(dirname "$0")/../.."
cmake --preset fuzz >/dev/null
cmake --build build-fuzz --target read_circuit_fuzz
mkdir -p build-fuzz/corpus build-fuzz/found
exec build-fuzz/tests/read_circuit_fuzz -max_total_time="$seconds" -timeout=5 -rss_limit_mb=2048 -max_len=16384 \
  -dict=tests/fuzz/circuit.dict -artifact_prefix=build-fuzz/found/ -print_final_stats=1 "$@" \
  build-fuzz/corpus tests/fuzz/corpus
