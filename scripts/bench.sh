#!/bin/bash
# The speeds that are published, measured on this machine with the optimised program, printed as a table.
# BENCH_COLD=1 also times a cold `make demo` in a clean copy of the repository (long: it builds everything once).
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need compiler venv # python3 comes with venv
stage "build the optimised program" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
python3 scripts/bench.py "$(target_dir)/release/underlath"

if [ -n "${BENCH_COLD:-}" ]; then
  clean=$(mktemp -d)
  stage "a clean copy" git clone --quiet --no-hardlinks . "$clean/underlath"
  CARGO_TARGET_DIR=$clean/target stage "cold: make demo" make -C "$clean/underlath" demo
  rm -rf "$clean"
fi
