//! Puts the chip's memory map where the linker looks for it.

use std::{env, fs, io, path::PathBuf};

fn main() -> io::Result<()> {
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?);
    fs::write(out.join("memory.x"), include_bytes!("memory.x"))?;
    println!("cargo::rustc-link-search={}", out.display());
    println!("cargo::rerun-if-changed=memory.x");
    Ok(())
}
