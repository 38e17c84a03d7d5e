//! Getting at the text of a job file.

use std::fs::File;
use std::io::{self, Read};

use crate::diagnostics::{Problem, Report, Source};
use crate::failure::Failure;

/// No job file is longer; one that is, is something else given by mistake.
pub const MAX_BYTES: u64 = 1 << 20;

/// Reads the file at `path`, or standard input if it is `-`.
///
/// # Errors
/// A path that cannot be opened, is a directory or too long, or text that is not UTF-8: bad input.
/// A read that fails half-way: anything else.
pub fn read(path: &str) -> Result<Source, Failure> {
    if path == "-" {
        return decode(
            "standard input",
            bytes(io::stdin().lock(), "standard input")?,
        );
    }
    let file = File::open(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => Failure::input(
            format!("there is no file `{path}`"),
            "check the path; it is taken from the directory that you are in",
        ),
        io::ErrorKind::PermissionDenied => Failure::input(
            format!("`{path}` may not be read"),
            "change its permissions, or ask its owner",
        ),
        _ => Failure::input(
            format!("`{path}` cannot be opened: {error}"),
            "give the path of a job file",
        ),
    })?;
    if file.metadata().is_ok_and(|about| about.is_dir()) {
        return Err(Failure::input(
            format!("`{path}` is a directory"),
            "give the path of one job file in it",
        ));
    }
    decode(path, bytes(file, path)?)
}

fn bytes(from: impl Read, name: &str) -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    from.take(MAX_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| {
            Failure::other(
                format!("reading {name} failed: {error}"),
                "try again, or copy the file elsewhere first",
            )
        })?;
    if bytes.len() as u64 > MAX_BYTES {
        return Err(Failure::input(
            format!("{name} is longer than {MAX_BYTES} bytes"),
            "a job file is a page or two of text; is this the right file?",
        ));
    }
    Ok(bytes)
}

/// Text from bytes; bytes that are no text are pointed at.
fn decode(name: &str, bytes: Vec<u8>) -> Result<Source, Failure> {
    let error = match String::from_utf8(bytes) {
        Ok(text) => {
            return Ok(Source {
                name: name.to_owned(),
                text,
            });
        }
        Err(error) => error,
    };
    let start = error.utf8_error().valid_up_to();
    let byte = error.as_bytes().get(start).copied().unwrap_or_default();
    let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
    let problem = Problem::new(
        start..start + char::REPLACEMENT_CHARACTER.len_utf8(),
        "the file is not UTF-8 text",
    )
    .label(format!("byte 0x{byte:02x} is no part of a character"))
    .help(
        "save the file as UTF-8; degree signs and fractions from another encoding look like this",
    );
    Err(Report::new(
        Source {
            name: name.to_owned(),
            text,
        },
        vec![problem],
    )
    .into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_that_are_no_text_are_pointed_at() {
        let failure = decode("tank.toml", b"a = 1\nb = \"\xB0C\"\n".to_vec()).unwrap_err();
        let text = failure.to_string();
        assert!(
            text.contains("tank.toml:2:6") && text.contains("0xb0"),
            "{text}"
        );
        assert_eq!(failure.exit_code(), 2);
    }

    #[test]
    fn an_endless_file_is_refused() {
        let failure = bytes(io::repeat(b'x'), "x").unwrap_err();
        assert_eq!(failure.exit_code(), 2);
    }
}
