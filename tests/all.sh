#!/usr/bin/env bash
# Sets up what the tests need, builds the boards, proves core free of panics, runs every test, prints
# what the boards weigh and take, and how long each step of this took.
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
for part in common times host bare_metal boards; do
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

  begin_step "set-up"
  setup_rust
  setup_linker
  setup_emulator
  setup_bare_metal
  case "$what" in
    setup) return 0 ;;
    lint)
      begin_step "boards: format, lints, documentation"
      lint_boards
      tell_steps
      return 0
      ;;
  esac

  begin_step "boards"
  build_boards
  run_bare_metal
  try_template
  begin_step "proof that core cannot panic"
  prove_panic_free
  if [ "$what" = boards ]; then
    tell_steps
    return 0
  fi
  run_tests "$@"
  begin_step "measures of the boards"
  measure_boards
  tell_steps
  say "all passed ($BARE_METAL_TELL; $(qemu-system-arm --version | head -n 1))"
}

# Builds every test once, then runs them; what each program of them took goes into the table at the end.
run_tests() {
  cd "$ROOT"
  # Built by the very command below before the first test runs.
  export SEAMWRIGHT_BIN="${CARGO_TARGET_DIR:-$ROOT/target}/debug/seamwright"
  # The same random cases each time: by hand, each run makes new ones.
  export PROPTEST_RNG_SEED=${PROPTEST_RNG_SEED:-20261125}
  say "building every test"
  begin_step "building the tests"
  cargo test --locked --workspace --no-run "$@" || die "the tests do not build"
  say "running every test"
  begin_step "running the tests"
  local log
  log=$(mktemp)
  if ! cargo test --locked --workspace "$@" 2>&1 | tee "$log"; then
    rm -f "$log"
    die "tests failed"
  fi
  end_step
  note_step "$(tell_programs "$log")"
  rm -f "$log"
  begin_step "core's examples"
  run_examples
}

# Built with the tests; each must end well and say something.
run_examples() {
  local example
  for example in tank weld_plan leak_test; do
    say "example $example"
    "${CARGO_TARGET_DIR:-$ROOT/target}/debug/examples/$example" | grep . || die "core's example $example fails or says nothing"
  done
}

main "$@"
