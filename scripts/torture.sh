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
stage_times
