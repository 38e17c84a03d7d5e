#!/usr/bin/env bash
# Sets up what the tests need, builds the boards, proves core free of panics, runs every test, prints
# what the boards weigh and take.
#
# For a fresh Debian 12 machine with rustup's stable Rust, as root or with sudo. A second run finds all
# in place and needs no network. Anything missing is a failure; no test is skipped.
#
#   tests/all.sh              everything
#   tests/all.sh setup        the tools only
#   tests/all.sh boards       the tools, the boards and the panic proof
#   tests/all.sh lint         the tools, then clippy and rustfmt on the boards
#   tests/all.sh test ARGS    everything; ARGS go to `cargo test --workspace`
#
# SEAMWRIGHT_BARE_METAL=rustup|debian   force one way to a bare-metal core (see tests/setup/bare_metal.sh)
# CARGO_TARGET_DIR                      where the host builds go, as usual
set -euo pipefail

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
for part in common host bare_metal boards; do
  # shellcheck source=/dev/null
  . "$ROOT/tests/setup/$part.sh"
done

main() {
  local what=${1:-test}
  [ $# -eq 0 ] || shift
  case "$what" in
    setup | boards | lint | test) ;;
    *) die "unknown step '$what'; known: setup, boards, lint, test" ;;
  esac

  setup_rust
  setup_linker
  setup_emulator
  setup_bare_metal
  case "$what" in
    setup) return 0 ;;
    lint)
      lint_boards
      return 0
      ;;
  esac

  build_boards
  try_template
  prove_panic_free
  [ "$what" = test ] || return 0

  say "running every test"
  cd "$ROOT"
  # Built by the very command below before it runs the first test.
  export SEAMWRIGHT_BIN="${CARGO_TARGET_DIR:-$ROOT/target}/debug/seamwright"
  # The same random cases each time: by hand, each run makes new ones.
  export PROPTEST_RNG_SEED=${PROPTEST_RNG_SEED:-20261125}
  cargo test --locked --workspace "$@" || die "tests failed"
  measure_boards
  say "all passed ($BARE_METAL_TELL; $(qemu-system-arm --version | head -n 1))"
}

main "$@"
