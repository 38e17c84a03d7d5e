//! What the emulated display shows, pixel by pixel.

use std::fmt;

use seamwright_firmware::frame::{Frame, HEIGHT, WIDTH};

use super::failure::Failure;

/// QEMU draws each pixel of this display as a block of so many dots a side.
const BLOCK: usize = 4;
/// Grey level g (0 to 15) is drawn as 17 g of 255.
const STEP: u8 = 17;

const COLUMNS: usize = WIDTH as usize;
const ROWS: usize = HEIGHT as usize;

/// 128 x 64 grey levels, 0 (dark) to 15, rows top to bottom.
#[derive(Clone, PartialEq, Eq)]
pub struct Screen {
    levels: Vec<u8>,
}

impl Screen {
    /// Reads QEMU's screen dump (binary PPM, 512 x 256), insisting that each pixel is one block of a
    /// grey that the display has.
    ///
    /// # Errors
    /// When the file is of another shape, or a block is not of one such grey.
    pub fn from_ppm(ppm: &[u8]) -> Result<Self, Failure> {
        let header = format!("P6\n{} {}\n255\n", COLUMNS * BLOCK, ROWS * BLOCK);
        let dots = ppm.strip_prefix(header.as_bytes()).ok_or_else(|| {
            let start = String::from_utf8_lossy(ppm.get(..16).unwrap_or(ppm)).into_owned();
            Failure::new(format!(
                "the screen dump starts with {start:?}, not with {header:?}"
            ))
        })?;
        let stride = COLUMNS * BLOCK * 3;
        if dots.len() != stride * ROWS * BLOCK {
            return Err(Failure::new(format!(
                "the screen dump holds {} bytes of picture",
                dots.len()
            )));
        }
        let mut levels = Vec::with_capacity(COLUMNS * ROWS);
        for y in 0..ROWS {
            for x in 0..COLUMNS {
                let mut block = (0..BLOCK).flat_map(|row| {
                    let start = (y * BLOCK + row) * stride + x * BLOCK * 3;
                    dots.iter().skip(start).take(BLOCK * 3).copied()
                });
                let grey = block.next().unwrap_or_default();
                if grey % STEP != 0 || block.any(|other| other != grey) {
                    return Err(Failure::new(format!(
                        "pixel ({x}, {y}) is not one block of one of 16 greys"
                    )));
                }
                levels.push(grey / STEP);
            }
        }
        Ok(Self { levels })
    }

    /// The picture that a frame would make.
    #[must_use]
    pub fn from_frame(frame: &Frame) -> Self {
        Self::from_packed(frame.rows().iter().flatten().copied())
    }

    /// The picture in a display's memory, two pixels a byte, the left one higher.
    pub(super) fn from_packed(bytes: impl Iterator<Item = u8>) -> Self {
        let levels = bytes.flat_map(|byte| [byte >> 4, byte & 0xF]).collect();
        Self { levels }
    }

    /// The grey of a pixel; `None` outside the display.
    #[must_use]
    pub fn level(&self, x: usize, y: usize) -> Option<u8> {
        if x < COLUMNS {
            self.levels.get(y * COLUMNS + x).copied()
        } else {
            None
        }
    }

    /// Compares with what was expected.
    ///
    /// # Errors
    /// When any pixel differs: how many, the first of them, and both pictures.
    pub fn expect(&self, expected: &Self) -> Result<(), Failure> {
        let differing = || {
            self.levels
                .iter()
                .zip(&expected.levels)
                .enumerate()
                .filter(|(_, (a, b))| a != b)
        };
        let Some((at, (is, should))) = differing().next() else {
            return Ok(());
        };
        let (x, y) = (at % COLUMNS, at / COLUMNS);
        let count = differing().count();
        Err(Failure::new(format!(
            "{count} pixels differ; the first, ({x}, {y}), is {is} and should be {should}"
        ))
        .with_context(&format!(
            "the display shows:\n{self:?}\nexpected:\n{expected:?}"
        )))
    }
}

impl fmt::Debug for Screen {
    /// One character a pixel, blank for dark and the hexadecimal level otherwise.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for row in self.levels.chunks(COLUMNS) {
            let text: String = row
                .iter()
                .map(|&level| {
                    if level == 0 {
                        ' '
                    } else {
                        char::from_digit(level.into(), 16).unwrap_or('?')
                    }
                })
                .collect();
            writeln!(f, "|{text}|")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dump(change: impl Fn(usize, usize) -> u8) -> Vec<u8> {
        let mut ppm = b"P6\n512 256\n255\n".to_vec();
        for y in 0..256 {
            for x in 0..512 {
                ppm.extend([change(x, y); 3]);
            }
        }
        ppm
    }

    #[test]
    fn blocks_become_levels() {
        let screen = Screen::from_ppm(&dump(|x, y| 17 * ((x / 4 + y / 4) % 16) as u8)).unwrap();
        assert_eq!(screen.level(3, 2), Some(5));
        assert_eq!(screen.level(127, 63), Some(14));
        assert_eq!(screen.level(128, 0), None);
        assert_eq!(screen.level(0, 64), None);
    }

    #[test]
    fn a_smeared_block_or_a_strange_grey_is_refused() {
        assert!(Screen::from_ppm(&dump(|x, y| if (x, y) == (7, 9) { 17 } else { 0 })).is_err());
        assert!(Screen::from_ppm(&dump(|_, _| 18)).is_err());
        assert!(Screen::from_ppm(b"P6\n2 2\n255\n").is_err());
    }

    #[test]
    fn a_difference_is_told_with_its_place() {
        let dark = Screen::from_ppm(&dump(|_, _| 0)).unwrap();
        let lit =
            Screen::from_ppm(&dump(|x, y| if x / 4 == 5 && y / 4 == 6 { 255 } else { 0 })).unwrap();
        assert!(dark.expect(&dark).is_ok());
        let told = lit.expect(&dark).unwrap_err().to_string();
        assert!(
            told.starts_with("1 pixels differ; the first, (5, 6), is 15 and should be 0"),
            "{told}"
        );
    }
}
