//! The files that `seamwright sheet` writes.

use std::io;
use std::path::{Path, PathBuf};

use seamwright_core::job::Tank;

use super::pattern::Fault;
use super::pieces::{Piece, pieces};
use super::{dxf, svg};
use crate::failure::Failure;
use crate::shots::write_whole;

/// Writes every file of a tank into a folder, which is made if it is not there, and tells their paths.
///
/// # Errors
/// What could not be written, or a piece past what a file can hold.
pub fn write(tank: &Tank, out: &Path) -> Result<Vec<PathBuf>, Failure> {
    let failed = |what: &Path, error: io::Error| {
        Failure::other(
            format!("{} cannot be written: {error}", what.display()),
            "name another folder with --out",
        )
    };
    let pieces = pieces(tank).map_err(|fault: Fault| {
        Failure::input(
            format!("a panel makes no pattern: {fault}"),
            "the tank is past what cut files can hold: make it larger or simpler".to_owned(),
        )
    })?;
    std::fs::create_dir_all(out).map_err(|error| failed(out, error))?;
    let mut written = Vec::new();
    for piece in &pieces {
        let Piece {
            pattern: Some(pattern),
            panel,
            ..
        } = piece
        else {
            continue;
        };
        for (ending, bytes) in [
            (
                "dxf",
                dxf::pattern(pattern).map_err(|error| failed(out, error))?,
            ),
            ("svg", svg::pattern(pattern).into_bytes()),
        ] {
            let path = out.join(format!("panel-{}.{ending}", panel.mark));
            write_whole(&path, |file| io::Write::write_all(file, &bytes))
                .map_err(|error| failed(&path, error))?;
            written.push(path);
        }
    }
    Ok(written)
}
