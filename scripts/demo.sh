#!/bin/bash
# The whole job on the three sample houses: build the command line, then walk, assess, seal, receive, find, compare.
# Needs a Rust toolchain and a C compiler (for SQLite); no web view, no Node.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need compiler
stage "build the command line" cargo build --locked --quiet -p cli --bin underlath
exec "$(target_dir)/debug/underlath" demo --samples sample-surveys --into demo-made
