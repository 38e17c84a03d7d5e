//! Makes the lines of `tests/data/strength/large.txt`: what the walls of tanks bear as they stretch, by finite elements.
//!
//!     cargo run --release -p seamwright-tests --example large_strength -- NODES FILE…
//!
//! What each took goes to the other stream.

#![allow(clippy::panic)]

use seamwright::job_file::JobFile;
use seamwright_tests::plate_shell::large_table::{PRESSURES, written};
use seamwright_tests::plate_shell::tank::{bear_far, shell};

fn main() {
    let mut words = std::env::args().skip(1);
    let nodes = words.next().and_then(|word| word.parse::<f64>().ok());
    let nodes = nodes.unwrap_or_else(|| panic!("how many nodes?"));
    for file in words {
        let began = std::time::Instant::now();
        let job = JobFile::open(&file).unwrap_or_else(|failure| panic!("{failure}"));
        let tank = job
            .tank(|_| ())
            .unwrap_or_else(|failure| panic!("{failure}"));
        let name = file.rsplit('/').next().unwrap_or(&file);
        let name = name.strip_suffix(".toml").unwrap_or(name);
        let shell = shell(&tank, nodes);
        let found = bear_far(&tank, &shell, &PRESSURES, 1.5 * shell.width());
        print!("{}", written(name, &shell, &found));
        eprintln!("{name}: {:.1} s", began.elapsed().as_secs_f64());
    }
}
