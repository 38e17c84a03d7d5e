//! A taper.

use seamwright_core::input::{Sized, Taper};
use seamwright_core::units::Length;

use super::super::reader::{Reader, Section};
use super::{size, wanted};

const BASE: &str = "base = [\"400 mm\", \"300 mm\"]";
const TOP: &str = "top = [\"250 mm\", \"180 mm\"]";
const SHIFT: &str = "shift = [\"0 mm\", \"20 mm\"]";

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    sized: Option<Sized>,
) -> Option<Taper> {
    wanted(reader, section, "base", BASE);
    let base = reader.quantities(section, "base", BASE);
    wanted(reader, section, "top", TOP);
    let top = reader.quantities(section, "top", TOP);
    let height = size(reader, section, "height", "200 mm");
    let shift = if section.has("shift") {
        reader.quantities(section, "shift", SHIFT)
    } else {
        Some([Length::default(); 2])
    };
    Some(Taper {
        sized: sized?,
        base: base?,
        top: top?,
        height: height?,
        shift: shift?,
    })
}
