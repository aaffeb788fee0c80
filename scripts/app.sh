#!/bin/bash
# The window program: the screens, then the shell that holds them. Its absolute path is the last line on standard output.
source "$(dirname "$0")/lib.sh"
source scripts/setup.sh

need_rust
need_node
need compiler pkg-config webview
stage "fetch what the screens are built with" ui_packages
stage "build the screens" npm --prefix ui run --silent build
stage "build the window program" cargo build --locked --quiet --release -p shell --features custom-protocol
printf '%s\n' "$(target_dir)/release/underlath-app"
