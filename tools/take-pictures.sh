#!/usr/bin/env bash
# Takes the pictures of the README anew, from the demo as published in `site/`.
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

browser_tools
node_packages
node tools/take-pictures.mjs
