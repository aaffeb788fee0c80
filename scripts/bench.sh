#!/bin/bash
# The speeds that are told, measured on this machine with the optimised program, each with what it is compared with in
# the same run. BENCH_COLD=1 also times a cold `make demo` in a clean copy of the repository (long: it builds all once).
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_node
need compiler venv # python3 comes with venv
need pkg-config webview webdriver screen browser
stage "fetch what the screens are built with" ui_packages
stage "build the screens" npm --prefix ui run --silent build
# Both as they are handed out, pages included: a packet is sealed with its pages.
stage "build the optimised programs" \
  cargo build --locked --quiet --release -p cli -p shell --features shell/custom-protocol --bins
say "From outside, the start of the program included:"
python3 scripts/bench.py "$(target_dir)/release/underlath"
stage "build the measuring program" cargo bench --locked --quiet -p house-tests -p cli --bench speed --no-run
say "Inside one process, as a tablet has it:"
UNDERLATH_BENCH_DIR=$(target_dir) cargo bench --locked --quiet -p house-tests -p cli --bench speed

# The engine alone, then beside general-purpose libraries on the same evidence sets, taking turns.
stage "build the measuring program of the engine" cargo bench --locked --quiet -p inference --bench engine --no-run
say "The engine, on the network of a sample house:"
cargo bench --locked --quiet -p inference --bench engine
engine=$(cargo bench --locked --quiet -p inference --bench engine --no-run --message-format=json |
  grep -o '"executable":"[^"]*"' | tail -1 | cut -d'"' -f4)
peers=$(target_dir)/bench-venv
[ -x "$peers/bin/python" ] || stage "the libraries it is compared with" python3 -m venv "$peers"
"$peers/bin/python" -m pip install --quiet --disable-pip-version-check pyagrum
say "The engine beside pyAgrum:"
"$peers/bin/python" benches/peers/pyagrum_posterior.py "$engine" tests/vectors/inference --sets "${BENCH_SETS:-40}"

# The screens in the tests' browser and in the window: over the sample houses, over as many as years bring, over one house
# with 200 photographs. The last two are only read: they lie in memory where there is room, because making them flushes each
# answer to the disk.
export UNDERLATH_BROWSER=$(browser)
underlath=$(target_dir)/release/underlath
made=$(mktemp -d -p "$([ -w /dev/shm ] && echo /dev/shm || echo "$(target_dir)")")
trap 'rm -rf "$made"' EXIT
stage "the sample houses" "$underlath" demo --samples sample-surveys --into "$(target_dir)/bench-samples"
# Demolition was declared in the samples, and a walk that is over takes no answer.
"$underlath" demolition "Alder Street kitchen" --home "$(target_dir)/bench-samples/device" --office "$made/none" \
  --by "R. Ames" --withdraw "to time the screens" >/dev/null
stage "${BENCH_HOUSES:-500} invented houses, 40 photographs each" \
  "$underlath" simulate --houses "${BENCH_HOUSES:-500}" --photographs 40 --into "$made/loaded"
stage "one house with 200 photographs" "$underlath" simulate --houses 1 --photographs 200 --into "$made/wall"
say "The screens:"
npm --prefix ui run --silent speed -- "$underlath" "$(target_dir)/bench-samples/device" "$made"/{loaded,wall}/device \
  "$(target_dir)/release/underlath-app"

# Photographs of 12 megapixels, cut from real ones that npm packages bring, beside vipsthumbnail and sha256sum.
need vips
stage "fetch photographs to cut from" photograph_packages
stage "build the measuring program of the previews" cargo bench --locked --quiet -p photo --bench previews --no-run
previews=$(cargo bench --locked --quiet -p photo --bench previews --no-run --message-format=json |
  grep -o '"executable":"[^"]*"' | tail -1 | cut -d'"' -f4)
photographs=$(target_dir)/bench-photographs
[ -d "$photographs" ] || stage "cut photographs" "$previews" make tests/photographs/node_modules "$photographs" 30
say "Previews of photographs:"
python3 benches/peers/photographs.py "$previews" "$photographs"

if [ -n "${BENCH_COLD:-}" ]; then
  clean=$(mktemp -d)
  stage "a clean copy" git clone --quiet --no-hardlinks . "$clean/underlath"
  CARGO_TARGET_DIR=$clean/target stage "cold: make demo" make -C "$clean/underlath" demo
  rm -rf "$clean"
fi
