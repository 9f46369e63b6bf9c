#!/usr/bin/env bash
# Passes every test: lints, the Rust tests, then the published demo in a real browser and on paper.
# A test that lacks its tool fails; none is skipped. The last line counts them all.
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

rust
browser_tools
node_packages

report=$(mktemp)
trap 'rm -f "$report"' EXIT
stage_failures=0

# Runs one stage, shows what it says, and goes on to the next even where it fails.
stage() {
  echo "== $*"
  "$@" 2>&1 | tee -a "$report" || stage_failures=$((stage_failures + 1))
}

# Adds up the numbers that stand in the lines of a pattern.
sum() {
  sed -nE "s/$1/\\1/p" "$report" | awk '{ total += $1 } END { print total + 0 }'
}

stage cargo clippy --quiet --locked --all-targets -- --deny warnings
stage cargo test --quiet --locked --no-fail-fast
stage npm test --silent --prefix tests/browser

passed=$(($(sum '^test result: .* ([0-9]+) passed;.*') + $(sum '^ℹ pass ([0-9]+)$')))
failed=$(($(sum '^test result: .* ([0-9]+) failed;.*') + $(sum '^ℹ fail ([0-9]+)$')))
# A stage that failed without a failed test (a lint, a build) counts as one.
[ "$failed" -gt 0 ] || failed=$stage_failures
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
