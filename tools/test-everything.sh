#!/usr/bin/env bash
# Passes every test: lints, the Rust tests, then the published demo in a real browser.
# A test that lacks its tool fails; none is skipped.
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

rust
packages chromium default-jre-headless poppler-utils fonts-dejavu-core
node_packages

cargo clippy --quiet --locked --all-targets -- --deny warnings
cargo test --quiet --locked
cd tests/browser && npm test --silent
