#!/bin/bash
# Every check, in the order in which a mistake shows soonest. Stops at the first that fails and prints its output.
# The screens come before cargo, because the window program has them inside; cargo is always asked for the whole
# workspace, because another selection of crates would build the large ones a second time.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_rust_tools
need_node
need compiler pkg-config webview webdriver screen browser venv exiftool pdf-tools unzip strace
export UNDERLATH_BROWSER=$(browser)
export UNDERLATH_TEST_PYTHON=$PWD/.venv/bin/python
# What is drawn at random is drawn alike: one tree, one verdict. `make torture` draws anew.
export PROPTEST_RNG_SEED=${PROPTEST_RNG_SEED:-20260827}

stage "Rust layout" cargo fmt --all --check
stage "Python for the outside checks" python_venv
stage "fetch what the screens are built with" ui_packages
stage "fetch photographs to test with" photograph_packages
stage "fetch the auditor of the screens" audit_packages
stage "screens: types" npm --prefix ui run --silent check
stage "screens: tests" npm --prefix ui run --silent test
stage "screens: build" npm --prefix ui run --silent build
stage "screens: looked at in a browser" npm --prefix ui run --silent look
stage "Rust lints" cargo clippy --locked --quiet --workspace --all-targets -- -D warnings
RUSTDOCFLAGS="-D warnings" stage "Rust documentation" \
  cargo doc --locked --quiet --workspace --no-deps --document-private-items
stage "Rust tests: build" cargo test --locked --quiet --workspace --no-run
stage "Rust tests: run" cargo test --locked --quiet --workspace
counted=$(count_tests "Rust tests: run")
# No test of the window's crate asks for its program.
stage "programs: build" cargo build --locked --quiet --workspace --bins

# The household's sheet in a browser, and the window over the records the demo makes.
built=$(target_dir)/debug
stage "the demo, for its records" "$built/underlath" demo --samples sample-surveys --into "$(target_dir)/demo-for-window"
stage "the household's sheet, filled in a browser" npm --prefix ui run --silent sheet -- "$built/underlath"
stage "the screens over loopback, in a browser" npm --prefix ui run --silent field -- "$built/underlath"
stage "the office over TLS, in a browser" npm --prefix ui run --silent office -- "$built/underlath" "$(target_dir)/demo-for-window"
stage "an hour in a house, by touch" npm --prefix ui run --silent hour -- "$built/underlath" "$PWD/sample-surveys"
stage "the window, opened" npm --prefix ui run --silent window -- "$built/underlath-app" "$(target_dir)/demo-for-window/device"
# Last, because it goes from house to house as a person would.
stage "the screens over loopback, audited" npm --prefix ui run --silent audit -- "$built/underlath" "$(target_dir)/demo-for-window/device"
stage_times
echo "$counted"
