# The Debian packages each command needs, named once. Sourced by start and check.
run_packages="build-essential pkg-config meson ninja-build gettext
  libmicrohttpd-dev libgnutls28-dev libjansson-dev libsqlite3-dev libyaml-dev
  libcairo2-dev libpango1.0-dev fonts-dejavu-core libzint-dev libsodium-dev
  coinor-libcbc-dev tzdata"
check_packages="$run_packages git nodejs poppler-utils zbar-tools mandoc sqlite3"
bench_packages="$run_packages nodejs npm ca-certificates chromium
  libsundials-dev"
long_packages="$check_packages clang-14 clang-tidy-14 llvm-14 libclang-rt-14-dev
  cppcheck lld-14 wasi-libc libclang-rt-14-dev-wasm32 libsundials-dev chromium
  npm ca-certificates iproute2 libnss3-tools r-base-core r-cran-forecast"

# Install what of "$@" is missing. Asks nothing; without the right to install
# it prints the exact line and gives up.
need_packages() {
  local missing=() name line
  for name in "$@"; do
    case "$name" in
      nodejs) command -v node >/dev/null && continue ;;
      npm) command -v npm >/dev/null && continue ;;
    esac
    dpkg-query -W -f='${Status}' "$name" 2>/dev/null |
      grep -q 'install ok installed' || missing+=("$name")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  line="apt-get install -y --no-install-recommends ${missing[*]}"
  local as=()
  if [ "$(id -u)" -ne 0 ]; then
    if ! sudo -n true 2>/dev/null; then
      echo "Some packages are missing. Run this line, then start again:"
      echo "  sudo $line"
      return 1
    fi
    as=(sudo -n)
  fi
  echo "Installing: ${missing[*]}"
  "${as[@]}" apt-get update -qq &&
    "${as[@]}" env DEBIAN_FRONTEND=noninteractive $line >/dev/null
}

# What the tests take from npm, which trusts whom this machine trusts, as apt
# does.
npm_packages() {
  NODE_OPTIONS=--use-openssl-ca npm --prefix tests ci --no-audit --no-fund
}
