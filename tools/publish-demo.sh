#!/usr/bin/env bash
# Publishes the demo of `procedures/` into `site/`: builds the program, inspects, binds.
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

rust
cargo run --quiet --release --locked -- bind procedures --into site "$@"
echo "Open site/index.html in a browser."
