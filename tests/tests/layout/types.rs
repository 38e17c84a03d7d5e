//! One meaning a name: no two public types of a crate are called alike.

use std::collections::BTreeMap;
use std::path::Path;

use super::lexer::Kind;
use super::tree::{Module, modules};

/// What begins a type.
const KINDS: [&str; 5] = ["struct", "enum", "union", "trait", "type"];

/// Names that more than one public type of a crate has, each with its places. `show` says how a file is told.
pub(crate) fn twice(
    lib: &Path,
    read: &impl Fn(&Path) -> Option<String>,
    show: &impl Fn(&Path) -> String,
) -> Vec<String> {
    let mut places = BTreeMap::<String, Vec<String>>::new();
    for module in modules(lib, read) {
        for (kind, name, line) in types(&module) {
            let place = format!("{}:{line} ({kind})", show(&module.file));
            places.entry(name).or_default().push(place);
        }
    }
    places.retain(|_, places| places.len() > 1);
    let told = places.into_iter();
    told.map(|(name, places)| format!("{name}: {}", places.join(", ")))
        .collect()
}

/// Public types: what they are, their names and their lines.
fn types(module: &Module) -> Vec<(&str, String, usize)> {
    let mut found = Vec::new();
    for three in module.words.windows(3) {
        let [public, kind, name] = three else {
            continue;
        };
        if public.is_name("pub")
            && KINDS.iter().any(|word| kind.is_name(word))
            && name.kind == Kind::Name
        {
            found.push((kind.text.as_str(), name.text.clone(), name.line));
        }
    }
    found
}

#[test]
fn a_name_of_two_types_is_told() {
    let files: BTreeMap<&str, &str> = [
        ("lib.rs", "pub mod one;\nmod two;\n#[cfg(test)]\nmod seen { pub struct Plan; }\n"),
        ("one.rs", "pub struct Plan;\npub enum Rule {}\npub(crate) struct Field;\nmacro_rules! m { () => { pub enum $name {} } }\n"),
        ("two.rs", "// pub struct Rule;\npub trait Field {}\n\npub type Plan = u8;\nimpl Field for X { type Rule = u8; }\n"),
    ]
    .into();
    let read = |path: &Path| files.get(path.to_str()?).map(|text| (*text).to_owned());
    let told = twice(Path::new("lib.rs"), &read, &|path| {
        path.display().to_string()
    });
    assert_eq!(told, ["Plan: one.rs:1 (struct), two.rs:4 (type)"]);
}
