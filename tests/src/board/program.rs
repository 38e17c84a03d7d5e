//! The built board programs: where they are and what room they take on the chip.

use std::{
    env, fs,
    path::{Path, PathBuf},
};

use object::{Object as _, ObjectSection as _, SectionFlags, elf};

use super::failure::{During as _, Failure};

/// The firmware of the emulated board.
///
/// # Errors
/// When `SEAMWRIGHT_LM3S6965_ELF` does not name a file.
pub fn lm3s6965_elf() -> Result<PathBuf, Failure> {
    from_environment("SEAMWRIGHT_LM3S6965_ELF")
}

/// The full gauge for the emulated board that has room for it.
///
/// # Errors
/// When `SEAMWRIGHT_MPS2_ELF` does not name a file.
pub fn mps2_elf() -> Result<PathBuf, Failure> {
    from_environment("SEAMWRIGHT_MPS2_ELF")
}

/// The firmware of the RP2040 board, which is built but runs on nothing here.
///
/// # Errors
/// When `SEAMWRIGHT_PICO_ELF` does not name a file.
pub fn pico_elf() -> Result<PathBuf, Failure> {
    from_environment("SEAMWRIGHT_PICO_ELF")
}

fn from_environment(name: &str) -> Result<PathBuf, Failure> {
    let path = env::var_os(name).map(PathBuf::from).ok_or_else(|| {
        Failure::new(format!(
            "{name} is not set: it names a board's program; run the tests by tests/all.sh, which builds the boards and sets it"
        ))
    })?;
    if !path.is_file() {
        return Err(Failure::new(format!(
            "{name} names {}, which is not a file",
            path.display()
        )));
    }
    Ok(path)
}

/// A section of a board's program that takes room on the chip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Its name, such as `.text`.
    pub name: String,
    /// Bytes of flash: the section itself, or its first contents.
    pub flash: u64,
    /// Bytes of RAM.
    pub ram: u64,
}

/// The sections of a program that the chip must hold, in address order as linked.
///
/// # Errors
/// When the file cannot be read as an ELF file.
pub fn sections(program: &Path) -> Result<Vec<Section>, Failure> {
    let bytes = fs::read(program).during(&format!("reading {}", program.display()))?;
    let file = object::File::parse(&*bytes)
        .during(&format!("reading {} as an ELF file", program.display()))?;
    let mut found = Vec::new();
    for section in file.sections() {
        let SectionFlags::Elf { sh_flags } = section.flags() else {
            continue;
        };
        if sh_flags & u64::from(elf::SHF_ALLOC) == 0 || section.size() == 0 {
            continue;
        }
        let size = section.size();
        // Initialised data lie in flash and are copied to RAM at start-up.
        let in_ram = sh_flags & u64::from(elf::SHF_WRITE) != 0;
        let stored = section.kind() != object::SectionKind::UninitializedData;
        found.push(Section {
            name: section
                .name()
                .during("reading a section's name")?
                .to_owned(),
            flash: if stored { size } else { 0 },
            ram: if in_ram { size } else { 0 },
        });
    }
    Ok(found)
}
