# What the two commands of the README share: putting on a bare machine what they need.
# Read by `source`; nothing happens before a function is called.

set -euo pipefail
project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$project"

# Debian's packages, each only where it is missing.
packages() {
  local missing=()
  for package in "$@"; do
    dpkg -s "$package" >/dev/null 2>&1 || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  local as_root=()
  [ "$(id -u)" = 0 ] || as_root=(sudo)
  echo "Installing ${missing[*]} …"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# Rust, from wherever it is; this project can't fetch a toolchain by itself.
rust() {
  command -v cargo >/dev/null || export PATH="$HOME/.cargo/bin:$PATH"
  if ! command -v cargo >/dev/null; then
    echo "Rust 1.89 or later is needed, and there is no cargo on this machine: install Rust first." >&2
    exit 2
  fi
  # Some crates look for a linker.
  command -v cc >/dev/null || packages gcc libc6-dev
}

# Node.js 20.10 or later with npm, and the packages of the browser's tests.
node_packages() {
  command -v node >/dev/null && command -v npm >/dev/null || packages nodejs npm
  [ tests/browser/node_modules/.package-lock.json -nt tests/browser/package-lock.json ] 2>/dev/null && return 0
  (cd tests/browser && npm ci --no-audit --no-fund --loglevel=error)
}
