//! The crates of this repository, held to what this program can tell of sources.

use std::path::{Path, PathBuf};

use super::{layers, types};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn read(path: &Path) -> Option<String> {
    std::fs::read_to_string(path).ok()
}

fn show(path: &Path) -> String {
    path.strip_prefix(root()).unwrap().display().to_string()
}

fn insist(faults: &[String]) {
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

#[test]
fn core_goes_one_way_down() {
    insist(&layers::faults(
        &root().join("core/src/lib.rs"),
        &read,
        &show,
    ));
}

#[test]
fn firmware_goes_one_way_down() {
    insist(&layers::faults(
        &root().join("firmware/src/lib.rs"),
        &read,
        &show,
    ));
}

#[test]
fn no_folder_of_core_has_a_circle() {
    insist(&layers::circles_within(
        &root().join("core/src/lib.rs"),
        &read,
        &show,
    ));
}

#[test]
fn no_folder_of_firmware_has_a_circle() {
    insist(&layers::circles_within(
        &root().join("firmware/src/lib.rs"),
        &read,
        &show,
    ));
}

/// One meaning a name.
#[test]
fn no_two_public_types_of_core_are_called_alike() {
    insist(&types::twice(&root().join("core/src/lib.rs"), &read, &show));
}
