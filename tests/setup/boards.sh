# The board programs: built, proved free of panics, weighed. Sourced, not run.
# shellcheck shell=bash

build_boards() {
  say "building the boards (release)"
  boards_cargo build --locked --release -p seamwright-lm3s6965 --target thumbv7m-none-eabi || die "the lm3s6965 board does not build"
  boards_cargo build --locked --release -p seamwright-heat --target thumbv7m-none-eabi || die "the planner for the lm3s6965 does not build"
  boards_cargo build --locked --release -p seamwright-mps2 --target thumbv7m-none-eabi || die "the full gauge for the mps2 board does not build"
  boards_cargo build --locked --release -p seamwright-bare-metal --target thumbv7m-none-eabi || die "core's example without an operating system does not build"
  boards_cargo build --locked --release -p seamwright-pico --target thumbv6m-none-eabi || die "the pico board does not build"
  SEAMWRIGHT_LM3S6965_ELF=$(board_elf seamwright-lm3s6965 thumbv7m-none-eabi release)
  SEAMWRIGHT_PICO_ELF=$(board_elf seamwright-pico thumbv6m-none-eabi release)
  SEAMWRIGHT_HEAT_ELF=$(board_elf seamwright-heat thumbv7m-none-eabi release)
  SEAMWRIGHT_PAGES_ELF=$(board_elf seamwright-pages thumbv7m-none-eabi release)
  SEAMWRIGHT_DOUBLES_ELF=$(board_elf seamwright-doubles thumbv7m-none-eabi release)
  SEAMWRIGHT_MPS2_ELF=$(board_elf seamwright-mps2 thumbv7m-none-eabi release)
  export SEAMWRIGHT_LM3S6965_ELF SEAMWRIGHT_PICO_ELF SEAMWRIGHT_HEAT_ELF SEAMWRIGHT_PAGES_ELF SEAMWRIGHT_DOUBLES_ELF SEAMWRIGHT_MPS2_ELF
}

# Core's example without an operating system, on the emulated chip with 64 KiB: it must come to an end of its own and
# say the same of the tank as the example on this machine does.
run_bare_metal() {
  say "running core's example without an operating system"
  local elf said
  elf=$(board_elf seamwright-bare-metal thumbv7m-none-eabi release)
  said=$(timeout 120 qemu-system-arm -M lm3s6965evb -display none -monitor none -serial none \
    -semihosting-config enable=on,target=native -kernel "$elf" 2>&1) || die "core's example without an operating system fails: $said"
  printf '%s\n' "$said"
  local wanted
  for wanted in 'brim 8.27 L' '80 mm deep, leaning 3.45 L' ' stitches in '; do
    grep -qF -- "$wanted" <<<"$said" || die "core's example without an operating system does not say '$wanted'"
  done
}

# The board to copy, on this machine: its own display, buttons and line are simulated.
try_template() {
  say "running the template of a board on this machine"
  (cd "$ROOT/firmware/boards" &&
    CARGO_TARGET_DIR="${SEAMWRIGHT_BOARDS_TARGET_DIR:-$ROOT/target/boards}-host" cargo test --locked --quiet -p seamwright-template) ||
    die "the template of a board does not do what it shows"
}

# The probe holds core's calculations and a panic handler that calls a symbol nobody defines, so it
# links only if the optimiser found every panic unreachable. With `can-panic` one panic is reachable
# on purpose: that the link then fails, and for that reason, shows that the proof can fail.
prove_panic_free() {
  say "proving core's calculations free of panics"
  boards_cargo build --locked --profile proof -p seamwright-probe --target thumbv7m-none-eabi ||
    die "the probe does not link: core holds a reachable panic (or does not build)"
  local log
  log=$(mktemp)
  if boards_cargo build --locked --profile proof -p seamwright-probe --target thumbv7m-none-eabi --features can-panic >"$log" 2>&1; then
    rm -f "$log"
    die "the probe links even with a deliberate panic: the proof proves nothing"
  fi
  if ! grep -q 'error(panic-never)' "$log"; then
    cat "$log" >&2
    rm -f "$log"
    die "the probe with a deliberate panic failed for another reason than the panic"
  fi
  rm -f "$log"
  say "panic-free: the probe links, and does not link with a deliberate panic"
}

# Format, lints and documentation of the boards' workspace, warnings denied.
lint_boards() {
  say "checking the boards: rustfmt, clippy, rustdoc"
  local tool
  for tool in fmt clippy; do
    cargo "$tool" --version >/dev/null 2>&1 || rustup component add "${tool/fmt/rustfmt}" || die "cargo $tool is not to be had"
  done
  # By name: --all would take in core and firmware, which are not of this workspace.
  (cd "$ROOT/firmware/boards" && cargo fmt --check -p seamwright-bare-metal -p seamwright-double -p seamwright-heat -p seamwright-lm3s6965 -p seamwright-mps2 -p seamwright-pico -p seamwright-probe -p seamwright-runner -p seamwright-template) ||
    die "the boards are not formatted"
  lint_target thumbv7m-none-eabi seamwright-bare-metal seamwright-double seamwright-heat seamwright-lm3s6965 seamwright-mps2 seamwright-runner seamwright-probe seamwright-template
  lint_target thumbv6m-none-eabi seamwright-pico seamwright-runner
}

# $1 target, the rest packages.
lint_target() {
  local target=$1 package packages=()
  shift
  for package in "$@"; do packages+=(-p "$package"); done
  boards_clippy --locked --target "$target" "${packages[@]}" || die "clippy found fault with a board ($target)"
  RUSTDOCFLAGS="-D warnings" boards_cargo doc --locked --no-deps --document-private-items --target "$target" "${packages[@]}" ||
    die "rustdoc found fault with a board ($target)"
}

# Flash and RAM by section, instructions, bytes to the display, stack: tests/examples/board_measures.rs.
measure_boards() {
  say "measuring the boards"
  # For the whole workspace, as the tests were: for a package alone its libraries would be built anew, with other features.
  (cd "$ROOT" && cargo build --locked --quiet --workspace --example board_measures) || die "the measures do not build"
  (cd "$ROOT" && "${CARGO_TARGET_DIR:-target}/debug/examples/board_measures") || die "the boards could not be measured"
}
