//! Makes `tests/data/heat/fine.txt`: welds each tank of `tests/data/heat/tanks` by its own plan in a fine model, and
//! takes down how warm the metal along each stitch is there before its arc.
//!
//!     cargo run --release -p seamwright-tests --example fine_heat -- WIDTH LONGEST FILE… > tests/data/heat/fine.txt
//!
//! WIDTH is that of the triangles in mm, LONGEST the longest step of time in s. What each took goes to the other stream.

#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use seamwright::job_file::{Extras, JobFile};
use seamwright::welding;
use seamwright_tests::fine_shell::table::{Entry, written};
use seamwright_tests::fine_shell::{FineShell, Weld};

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let number = |n: usize| args[n].parse::<f64>().expect("a number");
    let (width, longest) = (1e-3 * number(0), number(1));
    for file in &args[2..] {
        let began = std::time::Instant::now();
        let job = JobFile::open(file).unwrap_or_else(|failure| panic!("{failure}"));
        let tank = job
            .tank(|_| ())
            .unwrap_or_else(|failure| panic!("{failure}"));
        let plan = welding::plan(&tank, &Extras::default()).expect("a plan");
        let power = tank.arc().power().si() * tank.job().welding().uptake.si();
        let welds: Vec<Weld> = plan
            .stitches(&tank)
            .map(|stitch| Weld {
                seam: stitch.seam_place,
                stage: stitch.stage,
                from: stitch.from.si(),
                to: stitch.to.si(),
                start: stitch.start.si(),
                burns: stitch.arc.si(),
                power,
            })
            .collect();
        let fine = FineShell::new(&tank, width);
        let (warmth, balance) = fine.weld(&welds, longest);
        let name = file
            .rsplit('/')
            .next()
            .and_then(|name| name.strip_suffix(".toml"));
        let entry = Entry {
            tank: name.expect("a name").into(),
            welds,
            warmth,
        };
        print!("{}", written(&entry));
        eprintln!(
            "{}: {} nodes, balance {:.1e}, {:.0} s",
            entry.tank,
            fine.nodes(),
            (balance.kept + balance.lost) / balance.put_in - 1.0,
            began.elapsed().as_secs_f64()
        );
    }
}
