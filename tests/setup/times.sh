# How long each step takes, told at the end. Sourced, not run.
# shellcheck shell=bash

STEPS=()
STEP_NOW=""
STEP_BEGAN=0

milliseconds() {
  local now=${EPOCHREALTIME/[.,]/}
  printf '%s\n' "$((now / 1000))"
}

# Ends the step before, if there is one, and begins another.
begin_step() {
  end_step
  STEP_NOW=$1
  STEP_BEGAN=$(milliseconds)
}

end_step() {
  [ -n "$STEP_NOW" ] || return 0
  STEPS+=("$(printf '%-44s %9s' "$STEP_NOW" "$(seconds $(($(milliseconds) - STEP_BEGAN)))")")
  STEP_NOW=""
}

# Milliseconds as seconds with one decimal.
seconds() { printf '%d.%d s' "$(($1 / 1000))" "$(($1 % 1000 / 100))"; }

# A row of its own under the step before.
note_step() { STEPS+=("$1"); }

tell_steps() {
  end_step
  [ ${#STEPS[@]} -gt 0 ] || return 0
  printf '\n==> what each step took\n'
  printf '%s\n' "${STEPS[@]}"
}

# From what `cargo test` printed: a row for each program of tests, with how many it ran and for how long.
tell_programs() {
  awk '
    function told() { if (name != "") printf "  %-34s %7d %7.1f s\n", name, tests, took; name = "" }
    /^ *Running / {
      told()
      name = $NF; gsub(/^.*\/|-[0-9a-f]+\)$/, "", name)
      if ($2 == "unittests") name = name ", " $3
      tests = took = 0
    }
    /^ *Doc-tests / { told(); name = $2 ", examples in the docs"; tests = took = 0 }
    /^test result: / {
      tests += $4
      if (match($0, /finished in [0-9.]+/)) took += substr($0, RSTART + 12, RLENGTH - 12)
    }
    END { told() }
  ' "$1"
}
