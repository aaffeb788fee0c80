#!/bin/bash
# The long tests, kept out of `make test`: many more kills, a full disk, every bit of a packet flipped.
# The same selection of crates as `make test`, so that nothing is built twice.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_node
need compiler pkg-config webview venv strace
stage "fetch what the screens are built with" ui_packages
stage "build the screens" npm --prefix ui run --silent build
stage "Python for the outside checks" python_venv
export UNDERLATH_TEST_PYTHON=$PWD/.venv/bin/python
stage "the long tests" cargo test --locked --quiet --workspace --test torture -- --ignored
# The same input gives the same assessment whatever the build profile.
stage "build the optimised program" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
UNDERLATH_OTHER_BUILD=$(target_dir)/release/underlath stage "the optimised program says the same" \
  cargo test --locked --quiet --workspace --test house -- --include-ignored same_bytes
stage_times
