//! QEMU's machine protocol: JSON objects, one a line, over a unix socket.

use std::{
    io::{BufRead as _, BufReader, Write as _},
    os::unix::net::UnixStream,
    time::Duration,
};

use serde_json::{Value, json};

use super::failure::{During as _, Failure, is_timeout};

/// The longest that QEMU may take to answer. It answers nothing while the machine's program sends to
/// a serial port that nobody reads.
const ANSWER_LIMIT: Duration = Duration::from_secs(30);

/// A connection that has introduced itself and takes commands.
#[derive(Debug)]
pub(super) struct Qmp {
    stream: BufReader<UnixStream>,
}

impl Qmp {
    /// Exchanges greetings.
    pub(super) fn open(stream: UnixStream) -> Result<Self, Failure> {
        stream
            .set_read_timeout(Some(ANSWER_LIMIT))
            .during("setting the machine protocol's time limit")?;
        let mut qmp = Self {
            stream: BufReader::new(stream),
        };
        let greeting = qmp.read("the greeting")?;
        if greeting.get("QMP").is_none() {
            return Err(Failure::new(format!(
                "not a machine protocol's greeting: {greeting}"
            )));
        }
        qmp.execute("qmp_capabilities", &json!({}))?;
        Ok(qmp)
    }

    /// Runs a command and returns its answer.
    pub(super) fn execute(&mut self, command: &str, arguments: &Value) -> Result<Value, Failure> {
        let line = format!(
            "{}\n",
            json!({ "execute": command, "arguments": arguments })
        );
        self.stream
            .get_mut()
            .write_all(line.as_bytes())
            .during(command)?;
        loop {
            let mut message = self.read(command)?;
            if let Some(value) = message.get_mut("return") {
                return Ok(value.take());
            }
            if let Some(error) = message.get("error") {
                return Err(Failure::new(format!(
                    "{command} {arguments} was refused: {error}"
                )));
            }
            // Anything else is an event, told in between.
        }
    }

    fn read(&mut self, what: &str) -> Result<Value, Failure> {
        let mut line = String::new();
        match self.stream.read_line(&mut line) {
            Ok(0) => Err(Failure::new(format!(
                "{what}: the emulator closed its machine protocol"
            ))),
            Ok(_) => serde_json::from_str(&line).during(what),
            Err(error) if is_timeout(&error) => Err(Failure::new(format!(
                "{what}: no answer from the emulator within {ANSWER_LIMIT:?}"
            ))),
            Err(error) => Err(error).during(what),
        }
    }
}
