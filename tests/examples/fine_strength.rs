//! Makes the lines of `tests/data/strength/fine.txt`: what the walls of each tank of `tests/data/strength/tanks` bear, by
//! finite elements.
//!
//!     cargo run --release -p seamwright-tests --example fine_strength -- FILE…
//!
//! What each took goes to the other stream.

#![allow(clippy::panic)]

use seamwright::job_file::JobFile;
use seamwright_tests::plate_shell::table::{NODES, entries, written};

fn main() {
    for file in std::env::args().skip(1) {
        let began = std::time::Instant::now();
        let job = JobFile::open(&file).unwrap_or_else(|failure| panic!("{failure}"));
        let tank = job
            .tank(|_| ())
            .unwrap_or_else(|failure| panic!("{failure}"));
        let name = file.rsplit('/').next().unwrap_or(&file);
        let name = name.strip_suffix(".toml").unwrap_or(name);
        for entry in entries(name, &tank, NODES) {
            print!("{}", written(&entry));
        }
        eprintln!("{name}: {:.1} s", began.elapsed().as_secs_f64());
    }
}
