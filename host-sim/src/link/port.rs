//! Where the gauge is plugged in.

use std::fmt;
use std::io::{self, Read, Write};
use std::os::unix::net::UnixStream;
use std::time::Duration;

use serial2::SerialPort;

use crate::failure::Failure;

/// Bits each second on a serial line; 8 data bits, no parity, 1 stop bit, no flow control.
pub const BAUD: u32 = 115_200;

/// What names a socket instead of a serial device.
const SOCKET: &str = "unix:";
/// How long a read waits for the first byte: short, so that whoever waits can look at the clock.
const READ_LIMIT: Duration = Duration::from_millis(20);
/// How long the other end may refuse to take a byte.
const WRITE_LIMIT: Duration = Duration::from_secs(2);

/// An open port. Reads come back soon, with `TimedOut` or `WouldBlock` where nothing came.
#[derive(Debug)]
pub enum Port {
    /// A serial device.
    Serial(SerialPort),
    /// A unix socket that carries the bytes of one.
    Socket(UnixStream),
}

impl Port {
    /// Opens `name`: `unix:PATH` connects to a socket, all else is the path of a serial device.
    ///
    /// # Errors
    /// [`PortError`] says why there is no gauge to be had there.
    pub fn open(name: &str) -> Result<Self, PortError> {
        let opened = match name.strip_prefix(SOCKET) {
            Some("") => return Err(PortError::Unnamed),
            None if name.is_empty() => return Err(PortError::Unnamed),
            Some(path) => socket(path).map(Self::Socket),
            None => serial(name).map(Self::Serial),
        };
        opened.map_err(|error| PortError::new(name, error))
    }
}

fn serial(name: &str) -> io::Result<SerialPort> {
    let mut port = SerialPort::open(name, BAUD)?;
    port.set_read_timeout(READ_LIMIT)?;
    port.set_write_timeout(WRITE_LIMIT)?;
    Ok(port)
}

fn socket(path: &str) -> io::Result<UnixStream> {
    let stream = UnixStream::connect(path)?;
    stream.set_read_timeout(Some(READ_LIMIT))?;
    stream.set_write_timeout(Some(WRITE_LIMIT))?;
    Ok(stream)
}

impl Read for Port {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        match self {
            Self::Serial(port) => port.read(buffer),
            Self::Socket(stream) => stream.read(buffer),
        }
    }
}

impl Write for Port {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self {
            Self::Serial(port) => port.write(bytes),
            Self::Socket(stream) => stream.write(bytes),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        match self {
            Self::Serial(port) => port.flush(),
            Self::Socket(stream) => stream.flush(),
        }
    }
}

/// Why a port could not be opened.
#[derive(Debug)]
pub enum PortError {
    /// The name is empty.
    Unnamed,
    /// Nothing is there under this name.
    Missing {
        /// The name asked for.
        port: String,
        /// The serial ports that are there.
        there: Vec<String>,
    },
    /// It is there, and this user may not use it.
    NotAllowed {
        /// The name asked for.
        port: String,
    },
    /// A socket is there that nobody listens to.
    NobodyListens {
        /// The name asked for.
        port: String,
    },
    /// It cannot be used as a port.
    Unusable {
        /// The name asked for.
        port: String,
        /// What the system says.
        error: io::Error,
    },
}

impl PortError {
    fn new(port: &str, error: io::Error) -> Self {
        let port = port.to_owned();
        match error.kind() {
            io::ErrorKind::NotFound => Self::Missing {
                port,
                there: serial_ports(),
            },
            io::ErrorKind::PermissionDenied => Self::NotAllowed { port },
            io::ErrorKind::ConnectionRefused => Self::NobodyListens { port },
            _ => Self::Unusable { port, error },
        }
    }

    fn help(&self) -> String {
        match self {
            Self::Unnamed => {
                "give a serial device, such as /dev/ttyUSB0, or unix:PATH for a socket".to_owned()
            }
            Self::Missing { port, .. } if port.starts_with(SOCKET) => {
                "check the path; it is taken from the directory that you are in".to_owned()
            }
            Self::Missing { there, .. } if there.is_empty() => {
                "no serial port is there: is the gauge plugged in and switched on?".to_owned()
            }
            Self::Missing { there, .. } => format!("the serial ports are {}", there.join(", ")),
            Self::NotAllowed { .. } => {
                "on Linux, join the group that owns the device (often dialout) and log in again"
                    .to_owned()
            }
            Self::NobodyListens { .. } => "start the program that serves the socket".to_owned(),
            Self::Unusable { .. } => "name the serial device of the gauge".to_owned(),
        }
    }
}

/// The serial ports of this machine; none where they cannot be listed.
fn serial_ports() -> Vec<String> {
    let mut ports: Vec<_> = SerialPort::available_ports()
        .unwrap_or_default()
        .into_iter()
        .map(|path| path.display().to_string())
        .collect();
    ports.sort();
    ports
}

impl fmt::Display for PortError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unnamed => f.write_str("the port has no name"),
            Self::Missing { port, .. } => write!(f, "there is no port `{port}`"),
            Self::NotAllowed { port } => write!(f, "`{port}` may not be used"),
            Self::NobodyListens { port } => write!(f, "nobody listens at `{port}`"),
            Self::Unusable { port, error } => {
                write!(f, "`{port}` cannot be used as a port: {error}")
            }
        }
    }
}

impl std::error::Error for PortError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Unusable { error, .. } => Some(error),
            _ => None,
        }
    }
}

impl From<PortError> for Failure {
    fn from(error: PortError) -> Self {
        Self::input(error.to_string(), error.help())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_port_is_told_apart() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).display().to_string();

        assert!(matches!(Port::open(""), Err(PortError::Unnamed)));
        assert!(matches!(Port::open("unix:"), Err(PortError::Unnamed)));
        for missing in [path("none"), format!("unix:{}", path("none"))] {
            let error = Port::open(&missing).unwrap_err();
            assert!(
                matches!(&error, PortError::Missing { port, .. } if *port == missing),
                "{error:?}"
            );
        }

        std::fs::write(path("file"), "").unwrap();
        let error = Port::open(&path("file")).unwrap_err();
        assert!(matches!(error, PortError::Unusable { .. }), "{error:?}");

        // The socket's file stays when its listener goes.
        drop(std::os::unix::net::UnixListener::bind(path("socket")).unwrap());
        let error = Port::open(&format!("unix:{}", path("socket"))).unwrap_err();
        assert!(
            matches!(error, PortError::NobodyListens { .. }),
            "{error:?}"
        );
    }

    #[test]
    fn a_wrong_port_is_bad_input_with_a_way_out() {
        for error in [
            PortError::Unnamed,
            PortError::Missing {
                port: "/dev/ttyUSB7".to_owned(),
                there: vec!["/dev/ttyACM0".to_owned()],
            },
            PortError::NotAllowed {
                port: "/dev/ttyUSB0".to_owned(),
            },
        ] {
            let help = error.help();
            let failure = Failure::from(error);
            assert_eq!(failure.exit_code(), 2);
            assert!(failure.to_string().contains(&help), "{failure}");
        }
    }
}
