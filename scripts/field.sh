#!/bin/bash
# The program with the screens inside, for `underlath field`. Its absolute path is the last line on standard output.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_node
need compiler
stage "fetch what the screens are built with" ui_packages
stage "build the screens" npm --prefix ui run --silent build
stage "build the program with the screens inside" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
printf '%s\n' "$(target_dir)/release/underlath"
