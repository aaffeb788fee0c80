#!/bin/bash
# The speeds that are told, measured on this machine, each with what it is compared with in the same run.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need compiler pkg-config webview
stage "build, optimised" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
stage "build the measuring program" cargo bench --locked --quiet -p house-tests --bench speed --no-run
UNDERLATH_BENCH_DIR=$(target_dir) cargo bench --locked --quiet -p house-tests --bench speed
