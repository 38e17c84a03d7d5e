//! The `seamwright` program.

fn main() -> std::process::ExitCode {
    seamwright::cli::main()
}
