# What the two commands of the README share: putting on a bare machine what they need.
# Read by `source`; nothing happens before a function is called. Everything is looked for before it is installed, so a second
# run is quick, and a machine without a network but with the tools is enough.

set -euo pipefail
project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$project"
exec </dev/null

least_rust=1.89.0
least_node=20.10.0

stop() {
  printf '%s\n' "$@" >&2
  exit 2
}

# Whether the first version is at least the second.
at_least() {
  [ "$(printf '%s\n%s\n' "$2" "$1" | sort -V | head -n 1)" = "$2" ]
}

# Debian's packages, each only where it is missing.
packages() {
  local missing=() as_root=()
  command -v dpkg-query >/dev/null || stop "This is no Debian machine: install $* by hand, or what they are called here."
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  [ "$(id -u)" = 0 ] || as_root=(sudo)
  echo "Installing ${missing[*]} …"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# Rust, from wherever it is: Debian's own where it is new enough. No toolchain is fetched from elsewhere.
rust() {
  command -v cargo >/dev/null || export PATH="$PATH:$HOME/.cargo/bin"
  if ! command -v cargo >/dev/null && at_least "$(debians rustc)" "$least_rust"; then packages cargo; fi
  command -v cargo >/dev/null || stop \
    "Rust $least_rust or later is needed, and there is no cargo on this machine." \
    "Debian offers rustc $(debians rustc). Install a newer Rust, then run this again."
  local found
  found=$(rustc --version | cut -d ' ' -f 2)
  at_least "${found%%-*}" "$least_rust" || stop "Rust $least_rust or later is needed; this machine has $found."
  # Rust calls the linker of a C compiler.
  command -v cc >/dev/null || packages gcc libc6-dev
}

# The version of a package that Debian would install, or 0.
debians() {
  LC_ALL=C apt-cache policy "$1" 2>/dev/null | sed -n 's/^ *Candidate: \([0-9][0-9.]*\).*/\1/p' | grep . || echo 0
}

# Node.js with npm, and the packages of the browser's tests. Their install scripts stay off: one would fetch a second Java.
node_packages() {
  command -v node >/dev/null && command -v npm >/dev/null || packages nodejs npm
  local found
  found=$(node --version)
  at_least "${found#v}" "$least_node" || stop "Node.js $least_node or later is needed; this machine has $found."
  local installed=tests/browser/node_modules/.package-lock.json
  [ "$installed" -nt tests/browser/package-lock.json ] || npm ci --prefix tests/browser --ignore-scripts --no-audit --no-fund --loglevel=error
}

# A browser, a Java for the HTML checker, readers of PDF, of photographs and of square codes, and the fonts that a plain desktop has. What is
# there under another package's name is taken as it is.
browser_tools() {
  local wanted=()
  command -v chromium >/dev/null || wanted+=(chromium)
  command -v java >/dev/null || wanted+=(default-jre-headless)
  command -v pdftotext >/dev/null && command -v pdftoppm >/dev/null || wanted+=(poppler-utils)
  command -v vips >/dev/null || wanted+=(libvips-tools)
  command -v zbarimg >/dev/null || wanted+=(zbar-tools)
  command -v exiftool >/dev/null || wanted+=(libimage-exiftool-perl)
  ls /usr/share/fonts/truetype/dejavu/DejaVuSans.ttf >/dev/null 2>&1 || wanted+=(fonts-dejavu-core)
  [ ${#wanted[@]} -eq 0 ] || packages "${wanted[@]}"
}
