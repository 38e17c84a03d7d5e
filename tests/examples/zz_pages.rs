use seamwright::job_file::JobFile;
use seamwright_tests::board::HeatBoard;
fn main() {
    for e in ["header-tank", "log-splitter-reservoir", "rinse-tank"] {
        let job = JobFile::open(&format!("host-sim/examples/{e}.toml"))
            .unwrap()
            .draft;
        let mut board = HeatBoard::start().unwrap();
        match board.plan(job) {
            Ok(plan) => println!(
                "{e}: {:?}",
                plan.figures
                    .iter()
                    .filter(|(n, _)| n.starts_with("pages"))
                    .map(|(n, v)| (n.clone(), v.parse::<u64>().unwrap() * 80))
                    .collect::<Vec<_>>()
            ),
            Err(error) => println!("{e}: {error:?}"),
        }
    }
}
