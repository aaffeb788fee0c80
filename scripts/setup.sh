# What a machine must have, by purpose. Sourced after lib.sh; calls of `need_*` check and install only what is missing.
# A machine that has everything is not touched: no package manager is called and no network is used.

rust_least=1.90
node_least=20

# not_older HAVE LEAST: both written as numbers with dots.
not_older() { [ "$(printf '%s\n%s\n' "$2" "$1" | sort -V | head -n 1)" = "$2" ]; }

need_rust() {
  [ -d "${CARGO_HOME:-$HOME/.cargo}/bin" ] && PATH=$PATH:${CARGO_HOME:-$HOME/.cargo}/bin
  command -v cargo >/dev/null && command -v rustc >/dev/null ||
    complain "no Rust toolchain found (cargo and rustc on PATH)." \
      "Install Rust $rust_least or newer with rustup, as the Rust project's install page describes, and open a new shell."
  local have
  have=$(rustc --version | sed -n 's/^rustc \([0-9.]*\).*/\1/p')
  not_older "$have" "$rust_least" ||
    complain "rustc $have is too old; $rust_least is the least this is built with ($(command -v rustc))." \
      "With rustup: rustup update stable. A distribution's own package is often older than that."
}

# The two tools of `make test` that a minimal toolchain leaves out.
need_rust_tools() {
  local tool missing=
  for tool in clippy fmt; do cargo "$tool" --version >/dev/null 2>&1 || missing="$missing $tool"; done
  [ -z "$missing" ] || complain "the Rust toolchain lacks:$missing." \
    "With rustup: rustup component add clippy rustfmt"
}

need_node() {
  command -v node >/dev/null && command -v npm >/dev/null ||
    complain "no Node found (node and npm on PATH); the screens are built with it." \
      "Install Node $node_least or newer. 'make demo' and 'make underlath' need no Node."
  local have
  have=$(node --version | tr -d v)
  not_older "$have" "$node_least" ||
    complain "Node $have is too old; the screens need $node_least or newer ($(command -v node))." \
      "Install a newer Node. 'make demo' and 'make underlath' need no Node."
}

# The browser the screens are looked at with; UNDERLATH_BROWSER names another of the Chromium family.
browser() {
  local name
  for name in ${UNDERLATH_BROWSER:-} chromium chromium-browser google-chrome google-chrome-stable; do
    command -v "$name" 2>/dev/null && return 0
  done
  return 1
}

# has THING: is it here? Looked for by what is used, so that a machine without dpkg can answer too.
has() {
  case $1 in
    compiler) command -v cc >/dev/null && printf 'int main(void){return 0;}' | cc -x c - -o /dev/null 2>/dev/null ;;
    pkg-config) command -v pkg-config >/dev/null ;;
    webview) pkg-config --exists webkit2gtk-4.1 2>/dev/null ;;
    webdriver) command -v WebKitWebDriver >/dev/null ;;
    screen) command -v xvfb-run >/dev/null && command -v Xvfb >/dev/null && command -v xauth >/dev/null ;;
    browser) browser >/dev/null ;;
    venv) python3 -c 'import venv, ensurepip' 2>/dev/null ;;
    exiftool) command -v exiftool >/dev/null ;;
    unzip) command -v unzip >/dev/null ;;
    pdf-tools) command -v pdftotext >/dev/null && command -v pdfinfo >/dev/null ;;
    strace) command -v strace >/dev/null ;;
    vips) command -v vipsthumbnail >/dev/null ;;
    *) complain "setup: nothing is known about '$1'." ;;
  esac
}

# The packages of Debian and Ubuntu that bring a thing.
packages_of() {
  case $1 in
    compiler) echo build-essential ;;
    pkg-config) echo pkg-config ;;
    webview) echo libwebkit2gtk-4.1-dev ;;
    webdriver) echo webkit2gtk-driver ;;
    screen) echo xvfb xauth ;;
    browser) if grep -qs '^ID=ubuntu' /etc/os-release; then echo chromium-browser; else echo chromium; fi ;;
    venv) echo python3 python3-venv ;;
    exiftool) echo libimage-exiftool-perl ;;
    unzip) echo unzip ;;
    pdf-tools) echo poppler-utils ;;
    strace) echo strace ;;
    vips) echo libvips-tools ;;
  esac
}

apt_install() {
  export DEBIAN_FRONTEND=noninteractive
  local root=()
  [ "$(id -u)" -eq 0 ] || root=(sudo --preserve-env=DEBIAN_FRONTEND)
  "${root[@]}" apt-get -o DPkg::Lock::Timeout=600 update
  "${root[@]}" apt-get -o DPkg::Lock::Timeout=600 install -y --no-install-recommends "$@"
}

# may_install: root, or sudo that does not ask, or sudo with a person at the keyboard to answer it.
may_install() {
  [ "$(id -u)" -eq 0 ] || { command -v sudo >/dev/null && { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }; }; }
}

# need THING...: installs what is missing with apt, or prints the line to type and stops.
need() {
  local thing missing=() packages=()
  for thing in "$@"; do has "$thing" || missing+=("$thing"); done
  [ ${#missing[@]} -gt 0 ] || return 0
  for thing in "${missing[@]}"; do read -ra more <<<"$(packages_of "$thing")"; packages+=("${more[@]}"); done
  local line="apt-get update && apt-get install -y --no-install-recommends ${packages[*]}"
  command -v apt-get >/dev/null ||
    complain "missing here: ${missing[*]}. This machine has no apt, so install them your machine's way." \
      "On Debian and Ubuntu they come with: $line"
  may_install || complain "missing here: ${missing[*]}. Installing needs the administrator; run this, then try again:" \
    "sudo sh -c '$line'"
  stage "install: ${packages[*]}" apt_install "${packages[@]}"
  for thing in "${missing[@]}"; do
    has "$thing" || complain "'$thing' is still missing after installing: $(packages_of "$thing")." \
      "$([ "$thing" = browser ] && echo 'Install a browser of the Chromium family and name it in UNDERLATH_BROWSER.')"
  done
}

# The Python of the outside checks, with exactly the packages tests/requirements.txt pins.
python_venv() {
  local stamp=.venv/underlath-requirements
  cmp -s tests/requirements.txt "$stamp" && .venv/bin/python -c '' && return 0
  python3 -m venv --clear .venv
  .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r tests/requirements.txt
  cp tests/requirements.txt "$stamp"
}

# What a folder's package-lock.json says, exactly, fetched once for each state of it.
npm_packages() {
  local folder=$1 stamp=$1/node_modules/.underlath-lock
  shift
  cmp -s "$folder/package-lock.json" "$stamp" && return 0
  npm --prefix "$folder" ci "$@" --no-audit --no-fund --loglevel=error
  cp "$folder/package-lock.json" "$stamp"
}

# What the screens are built with.
ui_packages() { npm_packages ui; }

# Packages that bring real photographs for the tests of crates/photo; their code is never run.
photograph_packages() { npm_packages tests/photographs --ignore-scripts; }

# The auditor of ui/e2e/audit.mjs.
audit_packages() { npm_packages tests/lighthouse --ignore-scripts; }
