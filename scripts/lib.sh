# Shared by the scripts beside it: stages with their times, and plain complaints. Sourced, never run.
# Stage lines go to standard error, so that standard output carries only what a script is asked for.

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

# Cargo says nothing unless something fails, and never asks anything.
export CARGO_TERM_COLOR=${CARGO_TERM_COLOR:-never}
export CARGO_TERM_PROGRESS_WHEN=never

stage_names=()
stage_seconds=()
logs=

say() { printf '%s\n' "$*" >&2; }

# complain WHAT [HOW TO MEND IT]: one paragraph, then stop.
complain() {
  say ""
  say "underlath: $1"
  [ $# -lt 2 ] || say "  $2"
  exit 1
}

# Where cargo puts what it builds; a setting of the user may have moved it.
target_dir() {
  local made
  made=$(cargo metadata --no-deps --locked --format-version 1 2>/dev/null |
    sed -n 's/.*"target_directory":"\([^"]*\)".*/\1/p')
  printf '%s\n' "${made:-$PWD/target}"
}

# stage NAME COMMAND...: runs it with its output kept aside; one line with the time, the output only when it fails.
stage() {
  local name=$1 started=$SECONDS code=0 log
  shift
  [ -n "$logs" ] || { logs=$(mktemp -d); trap 'rm -rf "$logs"' EXIT; }
  log=$logs/$((${#stage_names[@]} + 1)).log
  printf '  %-46s' "$name" >&2
  "$@" >"$log" 2>&1 </dev/null || code=$?
  local took=$((SECONDS - started))
  if [ "$code" -ne 0 ]; then
    say "failed after ${took} s"
    say ""
    tail -n 400 "$log" >&2
    say ""
    say "underlath: \"$name\" failed (exit $code). The command was:"
    say "  $*"
    exit "$code"
  fi
  printf '%5d s\n' "$took" >&2
  stage_names+=("$name")
  stage_seconds+=("$took")
}

# How many tests the named stage ran, as its log tells. A run that counted none proves nothing, so it fails.
count_tests() {
  local i
  for i in "${!stage_names[@]}"; do
    [ "${stage_names[$i]}" = "$1" ] || continue
    awk -v stage="$1" '/^test result:/ { passed += $4; failed += $6; ignored += $8 }
         END { if (!passed) { printf "underlath: \"%s\" counted no test.\n", stage > "/dev/stderr"; exit 1 }
               printf "%d passed, %d failed, %d skipped\n", passed, failed, ignored }' "$logs/$((i + 1)).log"
    return
  done
  say "underlath: no stage is called \"$1\"."
  return 1
}

# The times again, together, at the end of a long run.
stage_times() {
  local i total=0
  say ""
  say "Stages, in seconds:"
  for i in "${!stage_names[@]}"; do
    printf '%7d  %s\n' "${stage_seconds[$i]}" "${stage_names[$i]}" >&2
    total=$((total + stage_seconds[i]))
  done
  printf '%7d  %s\n' "$total" "together" >&2
}
