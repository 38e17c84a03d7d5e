//! Makes the lines of `tests/data/strength/large.txt`: what single plates and the walls of tanks bear when they deflect by
//! several thicknesses, by finite elements.
//!
//!     cargo run --release -p seamwright-tests --example large_strength -- plates
//!     cargo run --release -p seamwright-tests --example large_strength -- NODES FILE…
//!
//! What each took goes to the other stream.

#![allow(clippy::panic, clippy::expect_used)]

use std::time::Instant;

use seamwright::job_file::JobFile;
use seamwright_tests::plate_shell::large_table::{
    EDGES, LINEAR, PIECES, PRESSURES, RATIOS, plate, plate_written, tank, tank_written,
};

fn main() {
    let mut words = std::env::args().skip(1);
    let first = words.next().expect("`plates`, or how many nodes");
    if first == "plates" {
        for edges in EDGES {
            for ratio in RATIOS {
                let began = Instant::now();
                print!("{}", plate_written(&plate(ratio, edges, PIECES, &LINEAR)));
                eprintln!("{ratio} {edges:?}: {:.1} s", began.elapsed().as_secs_f64());
            }
        }
        return;
    }
    let nodes: f64 = first.parse().expect("how many nodes");
    for file in words {
        let began = Instant::now();
        let job = JobFile::open(&file).unwrap_or_else(|failure| panic!("{failure}"));
        let made = job
            .tank(|_| ())
            .unwrap_or_else(|failure| panic!("{failure}"));
        let name = file.rsplit('/').next().unwrap_or(&file);
        let name = name.strip_suffix(".toml").unwrap_or(name);
        for lines in tank(name, &made, nodes, &PRESSURES) {
            print!("{}", tank_written(&lines));
        }
        eprintln!("{name}: {:.1} s", began.elapsed().as_secs_f64());
    }
}
