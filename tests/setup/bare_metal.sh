# A bare-metal `core` for both boards, by whichever of two ways works here. Sourced, not run.
# shellcheck shell=bash
#
# Way `rustup`: rustup's own precompiled targets. Way `debian`: some closed networks refuse those, so
# Debian's newer compiler builds `core` from Debian's copy of its source, with rustup's cargo.
# SEAMWRIGHT_BARE_METAL=rustup|debian takes that way only; unset tries rustup, then debian.
#
# Sets BARE_METAL_WAY and BARE_METAL_TELL, and defines boards_cargo.

BOARD_TARGETS=(thumbv7m-none-eabi thumbv6m-none-eabi)
BARE_METAL_WAY=""
BARE_METAL_TELL=""

# The smallest program that needs `core` and a linker. $1 target, the rest the compiler and its options.
tiny_program_links() {
  local target=$1 dir result
  shift
  dir=$(mktemp -d) || return 1
  cat >"$dir/tiny.rs" <<'RUST'
#![no_std]
#![no_main]
#[panic_handler]
fn panic(_: &core::panic::PanicInfo) -> ! { loop {} }
#[unsafe(no_mangle)]
pub extern "C" fn _start(x: f64) -> u64 { core::hint::black_box(x * 1.5).to_bits() }
RUST
  "$@" --edition 2024 --target "$target" -C panic=abort -o "$dir/tiny" "$dir/tiny.rs" >"$dir/log" 2>&1
  result=$?
  [ $result -eq 0 ] || tail -n 5 "$dir/log" >&2
  rm -rf "$dir"
  return $result
}

rustup_targets_listed() {
  local installed target
  installed=$(rustup target list --installed 2>/dev/null) || return 1
  for target in "${BOARD_TARGETS[@]}"; do
    grep -qx "$target" <<<"$installed" || return 1
  done
}

try_rustup() {
  have rustup || { say "rustup is not on PATH"; return 1; }
  if ! rustup_targets_listed; then
    say "asking rustup for ${BOARD_TARGETS[*]}"
    # A closed network either refuses at once or never answers.
    timeout 300 rustup target add "${BOARD_TARGETS[@]}" || say "rustup target add ended with status $?"
  fi
  # What is really there counts, not what the command printed.
  rustup_targets_listed || { say "rustup does not list the targets"; return 1; }
  local target
  for target in "${BOARD_TARGETS[@]}"; do
    tiny_program_links "$target" rustc || { say "a tiny program for $target does not link"; return 1; }
  done
  BARE_METAL_WAY=rustup
  BARE_METAL_TELL="bare-metal core: rustup targets"
}

# Prints the path of rustc in Debian's package.
debian_rustc() {
  dpkg -L rustc-web 2>/dev/null | grep -m1 '/bin/rustc$'
}

try_debian() {
  if ! { [ -n "$(debian_rustc)" ] && dpkg -s rust-web-src lld >/dev/null 2>&1; }; then
    say "installing Debian's compiler and its library source: rustc-web rust-web-src lld"
    apt_install rustc-web rust-web-src lld
  fi
  DEBIAN_RUSTC=$(debian_rustc)
  [ -x "$DEBIAN_RUSTC" ] || { say "the package rustc-web holds no rustc"; return 1; }
  have ld.lld || { say "no ld.lld on PATH"; return 1; }
  local version
  version=$("$DEBIAN_RUSTC" --version | cut -d' ' -f2) || return 1
  BARE_METAL_WAY=debian
  BARE_METAL_TELL="bare-metal core: built from Debian's rust-web-src with rustc ${version%.*}"
}

setup_bare_metal() {
  case "${SEAMWRIGHT_BARE_METAL:-}" in
    rustup) try_rustup || die "SEAMWRIGHT_BARE_METAL=rustup, but that way does not work here" ;;
    debian) try_debian || die "SEAMWRIGHT_BARE_METAL=debian, but that way does not work here" ;;
    "") try_rustup || try_debian || die "neither way to a bare-metal core works here" ;;
    *) die "SEAMWRIGHT_BARE_METAL is '$SEAMWRIGHT_BARE_METAL'; it can be 'rustup' or 'debian'" ;;
  esac
  say "$BARE_METAL_TELL"
}

# cargo, in the boards' workspace, by the way chosen. Arguments as for cargo; give --target yourself.
# The ways keep separate target directories: their compilers differ, and each would rebuild all.
boards_cargo() {
  local dir="${SEAMWRIGHT_BOARDS_TARGET_DIR:-$ROOT/target/boards}-$BARE_METAL_WAY" verb=$1
  shift
  if [ "$BARE_METAL_WAY" = rustup ]; then
    (cd "$ROOT/firmware/boards" && CARGO_TARGET_DIR="$dir" cargo "$verb" "$@")
  else
    # RUSTC_BOOTSTRAP lets a stable cargo take -Zbuild-std; no other unstable feature is used.
    (cd "$ROOT/firmware/boards" &&
      CARGO_TARGET_DIR="$dir" RUSTC="$DEBIAN_RUSTC" RUSTDOC="${DEBIAN_RUSTC%rustc}rustdoc" RUSTC_BOOTSTRAP=1 \
        CARGO_TARGET_THUMBV7M_NONE_EABI_LINKER=ld.lld CARGO_TARGET_THUMBV6M_NONE_EABI_LINKER=ld.lld \
        cargo "$verb" -Zbuild-std=core "$@")
  fi
}

# clippy, in the boards' workspace, warnings denied. It must be of the very compiler that made `core`.
boards_clippy() {
  if [ "$BARE_METAL_WAY" = rustup ]; then
    boards_cargo clippy "$@" -- -D warnings
  else
    have_debian_clippy || apt_install rust-web-clippy
    have_debian_clippy || die "the package rust-web-clippy holds no clippy-driver"
    # What `cargo clippy` sets for its driver, which here is Debian's.
    RUSTC_WORKSPACE_WRAPPER=$(debian_clippy) CLIPPY_ARGS="-D__CLIPPY_HACKERY__warnings__CLIPPY_HACKERY__" \
      boards_cargo check "$@"
  fi
}

debian_clippy() {
  dpkg -L rust-web-clippy 2>/dev/null | grep -m1 '/bin/clippy-driver$'
}

have_debian_clippy() { [ -x "$(debian_clippy)" ]; }

# Prints the path of a built program: package, target, profile.
board_elf() {
  printf '%s\n' "${SEAMWRIGHT_BOARDS_TARGET_DIR:-$ROOT/target/boards}-$BARE_METAL_WAY/$2/$3/$1"
}
