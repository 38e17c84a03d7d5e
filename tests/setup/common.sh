# Shared by the scripts in tests/: messages, privileges, Debian packages. Sourced, not run.
# shellcheck shell=bash

# One line of progress that stands out among compiler output.
say() { printf '==> %s\n' "$*"; }

# Ends the run: a missing tool is a failure, never a skipped test.
die() {
  printf '\ntests: FAILED: %s\n' "$*" >&2
  exit 1
}

have() { command -v "$1" >/dev/null 2>&1; }

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif have sudo; then
    sudo "$@"
  else
    die "must install Debian packages, but this user is not root and there is no sudo. As root, run: $*"
  fi
}

# Refreshes the package list once a run, and only when something is to be installed.
APT_UPDATED=""
apt_install() {
  have apt-get || die "these are needed and there is no apt-get to install them with: $*"
  if [ -z "$APT_UPDATED" ]; then
    as_root apt-get update -q || die "apt-get update did not succeed"
    APT_UPDATED=1
  fi
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$@" ||
    die "Debian's packages could not be installed: $*"
}
