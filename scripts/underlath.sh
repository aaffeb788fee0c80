#!/bin/bash
# The optimised program without PDF pages. Its absolute path is the last line on standard output.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need compiler
stage "build the optimised program" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
printf '%s\n' "$(target_dir)/release/underlath"
