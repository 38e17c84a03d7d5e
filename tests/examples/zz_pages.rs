use seamwright::job_file::JobFile;
use seamwright_tests::board::HeatBoard;
fn main() {
    let mut board = HeatBoard::start_pages().unwrap();
    for e in ["header-tank", "log-splitter-reservoir", "rinse-tank"] {
        let job = JobFile::open(&format!("host-sim/examples/{e}.toml"))
            .unwrap()
            .draft;
        println!(
            "{e}: {:?}",
            board.pages(job).map(|p| p
                .figures
                .iter()
                .map(|(n, v)| format!("{n}={:.2}M", v.parse::<f64>().unwrap() * 80e-6))
                .collect::<Vec<_>>())
        );
    }
}
