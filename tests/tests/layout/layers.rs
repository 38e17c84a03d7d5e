//! One way down: no module of a crate uses one further down the list in its `lib.rs`, and none use each other in a
//! circle, neither at the top nor within a folder.
//!
//! The list is the bullets of the crate's doc that begin with a module's name, ``- [`name`]: …`` or several such names;
//! the first is at the bottom and uses none of the others.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::tree::{Module, modules};

/// The modules that the doc of a crate lists, in order.
fn listed(lib: &str) -> Vec<String> {
    let mut all = Vec::new();
    for line in lib.lines() {
        let Some(mut rest) = line.strip_prefix("//! - ") else {
            continue;
        };
        loop {
            let linked = rest
                .strip_prefix("[`")
                .and_then(|name| name.split_once("`]"));
            let plain = || rest.strip_prefix('`').and_then(|name| name.split_once('`'));
            let Some((name, after)) = linked.or_else(plain) else {
                break;
            };
            if !name
                .chars()
                .all(|sign| sign.is_ascii_lowercase() || sign == '_')
            {
                break;
            }
            all.push(name.to_owned());
            let next = [", and ", " and ", ", "].iter();
            match next.filter_map(|sign| after.strip_prefix(sign)).next() {
                Some(after) => rest = after,
                None => break,
            }
        }
    }
    all
}

/// A module that uses another, and where.
struct Use {
    from: String,
    to: String,
    place: String,
}

/// Every use among the modules right below `parent`.
fn uses_below(all: &[Module], parent: &Module, show: &impl Fn(&Path) -> String) -> Vec<Use> {
    let deep = parent.path.len();
    let is_below = |path: &[String]| path.len() > deep && path[..deep] == parent.path[..];
    let handed_on = parent.handed_on();
    let mut uses = Vec::new();
    for module in all.iter().filter(|module| is_below(&module.path)) {
        let from = &module.path[deep];
        for named in module.named() {
            if !is_below(&named.path) {
                continue;
            }
            let first = &named.path[deep];
            let own = parent.children.iter().find(|child| *child == first);
            let Some(to) = own.or_else(|| handed_on.get(first)) else {
                continue;
            };
            if to != from {
                let (file, path) = (show(&module.file), named.path.join("::"));
                uses.push(Use {
                    from: from.clone(),
                    to: to.clone(),
                    place: format!("{file}:{}: `{from}` names `{path}`", named.line),
                });
            }
        }
    }
    uses
}

/// The circles among them: sets of modules of which each reaches each other, with a place of every use within.
fn circles(all: &[Use]) -> Vec<String> {
    // One place of each.
    let mut uses = BTreeMap::<(&String, &String), &String>::new();
    for one in all {
        uses.entry((&one.from, &one.to)).or_insert(&one.place);
    }
    let names: BTreeSet<&String> = uses.keys().flat_map(|(from, to)| [*from, *to]).collect();
    let reached = |from: &String| {
        let mut seen: BTreeSet<&String> = BTreeSet::new();
        let mut ahead = vec![from];
        while let Some(name) = ahead.pop() {
            for (_, to) in uses.keys().filter(|(from, _)| *from == name) {
                if seen.insert(to) {
                    ahead.push(to);
                }
            }
        }
        seen
    };
    let reach: BTreeMap<&String, BTreeSet<&String>> =
        names.iter().map(|name| (*name, reached(name))).collect();
    let mut told = BTreeSet::new();
    let mut circles = Vec::new();
    for name in &names {
        let circle: BTreeSet<&String> = reach[name]
            .iter()
            .copied()
            .filter(|other| reach[*other].contains(name))
            .collect();
        if circle.is_empty() || !told.insert(circle.clone()) {
            continue;
        }
        let members: Vec<&str> = circle.iter().map(|name| name.as_str()).collect();
        let mut text = format!("a circle of {}:", members.join(", "));
        for ((from, to), place) in &uses {
            if circle.contains(from) && circle.contains(to) {
                text.push_str(&format!("\n    {place}"));
            }
        }
        circles.push(text);
    }
    circles
}

/// All that is wrong with the order of a crate's modules. `show` says how a file is told.
pub(crate) fn faults(
    lib: &Path,
    read: &impl Fn(&Path) -> Option<String>,
    show: &impl Fn(&Path) -> String,
) -> Vec<String> {
    let all = modules(lib, read);
    let order = listed(&read(lib).unwrap());
    let place = |name: &String| order.iter().position(|other| other == name);
    let root = all.iter().find(|module| module.path.is_empty()).unwrap();
    let mut faults = Vec::new();
    for (n, name) in order.iter().enumerate() {
        if order[..n].contains(name) {
            faults.push(format!("{}: `{name}` is listed twice", show(lib)));
        }
        if !root.children.contains(name) && !root.for_tests.contains(name) {
            faults.push(format!(
                "{}: `{name}` is listed and is no module",
                show(lib)
            ));
        }
    }
    for name in &root.children {
        if place(name).is_none() {
            faults.push(format!("{}: `{name}` is not in the list", show(lib)));
        }
    }
    let uses = uses_below(&all, root, show);
    for one in &uses {
        if let (Some(own), Some(other)) = (place(&one.from), place(&one.to))
            && other > own
        {
            faults.push(format!("{}, which is further down the list", one.place));
        }
    }
    let told = circles(&uses).into_iter();
    faults.extend(told.map(|told| format!("{}: {told}", show(lib))));
    faults
}

/// Circles among the modules of each folder of a crate.
pub(crate) fn circles_within(
    lib: &Path,
    read: &impl Fn(&Path) -> Option<String>,
    show: &impl Fn(&Path) -> String,
) -> Vec<String> {
    let all = modules(lib, read);
    let mut faults = Vec::new();
    for parent in all.iter().filter(|module| !module.path.is_empty()) {
        let told = circles(&uses_below(&all, parent, show));
        let name = parent.path.join("::");
        faults.extend(
            told.into_iter()
                .map(|told| format!("within `{name}`: {told}")),
        );
    }
    faults
}

/// A made-up crate: `low` may be used by all, `middle` by `high`.
fn made_up<'a>(changed: &[(&'a str, &'a str)]) -> Vec<String> {
    let mut files: BTreeMap<&str, &str> = [
        (
            "lib.rs",
            "//! - [`low`], [`lower`]: at the bottom.\n//! - [`middle`]: uses them.\n//! - `high` (feature `x`): all.\n\
             pub mod high;\npub mod low;\npub mod lower;\nmod middle;\npub use high::Top;\n#[cfg(test)]\nmod checks;\n",
        ),
        ("low.rs", "// crate::high is only told of here\n/// As [`crate::high::Top`].\npub struct Low(&'static str);\n"),
        ("lower.rs", "use crate::low::Low;\n#[cfg(test)]\nmod tests { use crate::high::Top; }\n"),
        ("middle/mod.rs", "mod one;\nmod two;\nuse one::One;\npub use two::Two;\nuse crate::{low::Low, lower as l};\n"),
        ("middle/one.rs", "pub struct One;\n"),
        ("middle/two.rs", "use super::One;\npub struct Two(One);\n"),
        ("high.rs", "use super::middle::{self, Two};\npub struct Top(Two);\nmod own { use super::super::low::Low; }\n"),
    ]
    .into();
    files.extend(changed.iter().copied());
    let read = |path: &Path| files.get(path.to_str()?).map(|text| (*text).to_owned());
    let show = |path: &Path| path.display().to_string();
    let lib = Path::new("lib.rs");
    let mut told = faults(lib, &read, &show);
    told.extend(circles_within(lib, &read, &show));
    told
}

#[test]
fn a_crate_in_order_has_no_fault() {
    assert_eq!(made_up(&[]), [""; 0]);
}

#[test]
fn what_goes_up_is_told_with_its_place() {
    for (file, text, wanted) in [
        (
            "low.rs",
            "struct Low;\nuse crate::middle::Two;\n",
            "low.rs:2: `low` names `middle::Two`",
        ),
        (
            "low.rs",
            "fn f() -> u8 {\n\n    crate::high::top()\n}\n",
            "low.rs:3: `low` names `high::top`",
        ),
        (
            "low.rs",
            "use crate::{\n    lower::{A, B},\n};\n",
            "low.rs:2: `low` names `lower::A`",
        ),
        (
            "low.rs",
            "use super::high;\n",
            "low.rs:1: `low` names `high`",
        ),
        (
            "low.rs",
            "mod in_it {\n    use super::super::high::Top;\n}\n",
            "low.rs:2: `low` names `high::Top`",
        ),
        ("low.rs", "use crate::Top;\n", "low.rs:1: `low` names `Top`"),
        (
            "middle/one.rs",
            "use super::super::high::X;\n",
            "middle/one.rs:1: `middle` names `high::X`",
        ),
        (
            "lower.rs",
            "#[cfg(not(test))]\nuse crate::high::X;\n",
            "lower.rs:2: `lower` names `high::X`",
        ),
    ] {
        let told = made_up(&[(file, text)]);
        let down = told
            .iter()
            .filter(|fault| fault.ends_with("further down the list"));
        assert!(
            down.clone().any(|fault| fault.starts_with(wanted)),
            "{text}: {told:?}"
        );
    }
}

#[test]
fn circles_are_told() {
    // In order by the list alone, but for the one use that closes the circle.
    let told = made_up(&[("low.rs", "use crate::lower::L;\n")]);
    assert!(
        told.iter()
            .any(|fault| fault.starts_with("lib.rs: a circle of low, lower:")),
        "{told:?}"
    );
    // By the name that the parent hands on, and by the module's own.
    for text in [
        "use super::Two;\n",
        "use super::two::Two;\n",
        "use crate::middle::two;\n",
    ] {
        let told = made_up(&[("middle/one.rs", text)]);
        assert_eq!(told.len(), 1, "{text}: {told:?}");
        assert!(
            told[0].starts_with("within `middle`: a circle of one, two:"),
            "{told:?}"
        );
        assert!(told[0].contains("middle/one.rs:1") && told[0].contains("middle/two.rs:1"));
    }
}

#[test]
fn the_list_is_whole() {
    let told = made_up(&[(
        "lib.rs",
        "//! - `checks`: only with tests.\n//! - [`low`]: one.\n//! - [`gone`]: two.\n\
         #[cfg(test)]\nmod checks;\npub mod low;\npub mod lower;\n",
    )]);
    let wanted = [
        "`gone` is listed and is no module",
        "`lower` is not in the list",
    ];
    assert_eq!(told, wanted.map(|told| format!("lib.rs: {told}")));
}
