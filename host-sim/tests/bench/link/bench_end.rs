//! The gauge's end of a line: the firmware's own link and gauge behind whatever reads and writes.

use std::io::{BufReader, Read, Write};
use std::os::unix::net::UnixListener;
use std::sync::{Arc, Mutex};
use std::thread;

use seamwright::job_file::JobFile;
use seamwright_core::input::Draft;
use seamwright_core::wire::Status;
use seamwright_firmware::gauge::{Gauge, MOST_JOBS};
use seamwright_firmware::link::Link;

/// A gauge that several talks share, one after the other.
#[derive(Clone)]
pub(crate) struct Gauges(Arc<Mutex<(Gauge, Link)>>);

impl Default for Gauges {
    fn default() -> Self {
        Self(Arc::new(Mutex::new((
            Gauge::new(),
            Link::new("test bench"),
        ))))
    }
}

impl Gauges {
    /// Serves everyone who connects.
    pub(crate) fn serve_each(&self, listener: UnixListener) {
        let gauges = self.clone();
        thread::spawn(move || {
            while let Ok((stream, _)) = listener.accept() {
                gauges.serve(&mut &stream, &mut &stream);
            }
        });
    }

    /// Serves one line for as long as it lasts.
    pub(crate) fn serve_in_background(
        &self,
        mut from: impl Read + Send + 'static,
        mut to: impl Write + Send + 'static,
    ) {
        let gauges = self.clone();
        thread::spawn(move || gauges.serve(&mut from, &mut to));
    }

    fn serve(&self, from: &mut dyn Read, to: &mut dyn Write) {
        let mut take = |byte| {
            let (gauge, link) = &mut *self.0.lock().unwrap();
            link.take(byte, gauge, &Status::default())?;
            Some(link.frame().to_vec())
        };
        serve(from, to, &mut take, usize::MAX);
    }

    /// Puts as many jobs on the shelf as it takes.
    pub(crate) fn fill_up(&self, job: &str) {
        let draft = JobFile::open(job).unwrap().draft;
        for n in 0..MOST_JOBS {
            let name = format!("job {n}").as_str().try_into().unwrap();
            let draft = Draft {
                name,
                ..draft.clone()
            };
            self.0.lock().unwrap().0.keep(&draft).unwrap();
        }
    }

    /// The jobs on the shelf.
    pub(crate) fn names(&self) -> Vec<String> {
        let kept = self.0.lock().unwrap();
        kept.0.names().map(str::to_owned).collect()
    }
}

/// Hands up to `most` bytes to `take` and sends what it answers, until the line ends.
pub(crate) fn serve(
    from: &mut dyn Read,
    to: &mut dyn Write,
    take: &mut dyn FnMut(u8) -> Option<Vec<u8>>,
    most: usize,
) {
    for byte in BufReader::new(from).bytes().take(most) {
        let Ok(byte) = byte else { return };
        if let Some(frame) = take(byte)
            && to.write_all(&frame).and_then(|()| to.flush()).is_err()
        {
            return;
        }
    }
}
