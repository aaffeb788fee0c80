#!/bin/bash
# The long tests, kept out of `make test`: many more kills, a full disk, every bit of a packet flipped, laws over other
# cases, previews of HEIC; and the fuzz targets of photographs and packets, FUZZ_SECONDS each (300), where cargo-fuzz and
# a nightly compiler are installed.
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
# Every law over drawn cases, twenty times as many as in `make test` where a test does not set its own, and other ones.
export PROPTEST_RNG_SEED=${PROPTEST_RNG_SEED:-$RANDOM$RANDOM}
say "  drawn with PROPTEST_RNG_SEED=$PROPTEST_RNG_SEED"
stage "the laws, over other cases" env PROPTEST_CASES=5120 cargo test --locked --quiet --workspace --lib --tests -- \
  --skip stories:: --skip outside:: --skip house_rules::
stage "the long tests" cargo test --locked --quiet --workspace --test torture -- --ignored
# The same input gives the same assessment whatever the build profile.
stage "build the optimised program" cargo build --locked --quiet --release -p cli --no-default-features --bin underlath
UNDERLATH_OTHER_BUILD=$(target_dir)/release/underlath stage "the optimised program says the same" \
  cargo test --locked --quiet --workspace --test house -- --include-ignored same_bytes
stage "photographs with previews of HEIC" \
  env CARGO_TARGET_DIR="$(target_dir)/photo" cargo test --locked --quiet -p photo --features heic

# What is found stays in fuzz/artifacts; mended, the case goes to fuzz/corpus, from which `make test` bends on.
fuzz() {
  local grown
  grown=$(target_dir)/fuzz-grown/$1
  mkdir -p "$grown"
  cargo +nightly fuzz run "$1" "$grown" "fuzz/corpus/$1" -- -max_total_time="${FUZZ_SECONDS:-300}" -max_len=70000 \
    -rss_limit_mb=2048 -print_final_stats=1
}
if cargo +nightly fuzz --version >/dev/null 2>&1; then
  stage "fuzz EXIF" fuzz exif
  stage "fuzz photographs" fuzz intake
  stage "fuzz packets" fuzz opening
  stage "fuzz the texts of packets" fuzz resealed
else
  say "cargo-fuzz or the nightly compiler is not here: the fuzz targets in fuzz/ were left out"
fi
stage_times
