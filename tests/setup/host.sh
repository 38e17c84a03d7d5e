# What the host side needs: rustup's Rust, a C linker, the emulator. Sourced, not run.
# shellcheck shell=bash

setup_rust() {
  have cargo && have rustc || die "no cargo or rustc on PATH: install stable Rust with rustup (https://rustup.rs)"
  # A target, when it is to be had from rustup, must be the one of the compiler that will be used.
  say "host Rust: $(rustc --version)"
}

# A real link, since a `cc` that finds no libc start files is as good as none.
linker_works() {
  local dir
  have cc || return 1
  dir=$(mktemp -d) || return 1
  printf 'int main(void) { return 0; }\n' >"$dir/a.c"
  cc -o "$dir/a" "$dir/a.c" 2>/dev/null && "$dir/a"
  local result=$?
  rm -rf "$dir"
  return $result
}

setup_linker() {
  if ! linker_works; then
    say "installing a C linker: gcc libc6-dev"
    apt_install gcc libc6-dev
    linker_works || die "gcc and libc6-dev are installed, yet a one-line C program does not link"
  fi
  say "C linker: $(cc --version | head -n 1)"
}

setup_emulator() {
  if ! have qemu-system-arm; then
    say "installing the emulator: qemu-system-arm"
    apt_install qemu-system-arm
  fi
  # Listing machines to a variable: `grep -q` on a pipe would end QEMU early and fail under pipefail.
  local machines
  machines=$(qemu-system-arm -machine help) || die "qemu-system-arm does not start"
  grep -q '^lm3s6965evb ' <<<"$machines" || die "qemu-system-arm knows no machine lm3s6965evb"
  say "emulator: $(qemu-system-arm --version | head -n 1)"
}
