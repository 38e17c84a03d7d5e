//! The modules of a crate as its sources declare them, without what only tests see, and the paths that each names.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::lexer::{Word, words};

/// A file's module, with the modules written within it.
#[derive(Debug)]
pub(crate) struct Module {
    /// From the root, which is empty.
    pub(crate) path: Vec<String>,
    pub(crate) file: PathBuf,
    pub(crate) words: Vec<Word>,
    /// What it declares as modules, whether files or written within it.
    pub(crate) children: Vec<String>,
    /// Files of its own that only tests see, which are not followed.
    pub(crate) for_tests: Vec<String>,
}

/// A path of modules as a source names it, from the root.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Named {
    pub(crate) path: Vec<String>,
    pub(crate) line: usize,
}

/// Every module below a root file; sources come from `read`.
pub(crate) fn modules(root: &Path, read: &impl Fn(&Path) -> Option<String>) -> Vec<Module> {
    let mut all = Vec::new();
    add(Vec::new(), root.to_owned(), read, &mut all);
    all
}

fn add(
    path: Vec<String>,
    file: PathBuf,
    read: &impl Fn(&Path) -> Option<String>,
    all: &mut Vec<Module>,
) {
    let text = read(&file).unwrap_or_else(|| panic!("{} is not there", file.display()));
    let all_words = words(&text);
    let words = untested(&all_words);
    let (outer, inline) = declared(&words);
    let (mut for_tests, _) = declared(&all_words);
    for_tests.retain(|name| !outer.contains(name));
    let own = file.file_stem().unwrap().to_str().unwrap();
    let folder = if matches!(own, "mod" | "lib" | "main") {
        file.with_file_name("")
    } else {
        file.with_extension("")
    };
    let children = outer.iter().chain(&inline).cloned().collect();
    all.push(Module {
        path: path.clone(),
        file,
        words,
        children,
        for_tests,
    });
    for name in outer {
        let mut below = path.clone();
        below.push(name.clone());
        let flat = folder.join(format!("{name}.rs"));
        let file = if read(&flat).is_some() {
            flat
        } else {
            folder.join(&name).join("mod.rs")
        };
        add(below, file, read, all);
    }
}

/// Modules that are declared as files of their own, and those written out; both at the top of a file only.
fn declared(words: &[Word]) -> (Vec<String>, Vec<String>) {
    let (mut outer, mut inline) = (Vec::new(), Vec::new());
    let mut deep = 0_u32;
    for (at, word) in words.iter().enumerate() {
        if word.is('{') {
            deep += 1;
        } else if word.is('}') {
            deep = deep.saturating_sub(1);
        } else if deep == 0 && word.is_name("mod") {
            let (Some(name), Some(end)) = (words.get(at + 1), words.get(at + 2)) else {
                break;
            };
            if end.is(';') {
                outer.push(name.text.clone());
            } else if end.is('{') {
                inline.push(name.text.clone());
            }
        }
    }
    (outer, inline)
}

/// The words without the items that only tests see.
fn untested(words: &[Word]) -> Vec<Word> {
    let mut kept = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let end = attribute_end(words, at);
        match end {
            Some(end) if is_for_tests(&words[at..end]) => at = item_end(words, end),
            _ => {
                kept.push(words[at].clone());
                at += 1;
            }
        }
    }
    kept
}

/// Where an attribute that begins here has ended.
fn attribute_end(words: &[Word], at: usize) -> Option<usize> {
    let begins = words[at].is('#') && words.get(at + 1)?.is('[');
    begins.then(|| closed(words, at + 1))
}

/// Behind the bracket that closes the one here.
fn closed(words: &[Word], at: usize) -> usize {
    let mut deep = 0_u32;
    for (n, word) in words.iter().enumerate().skip(at) {
        if word.is('(') || word.is('[') || word.is('{') {
            deep += 1;
        } else if word.is(')') || word.is(']') || word.is('}') {
            deep -= 1;
            if deep == 0 {
                return n + 1;
            }
        }
    }
    words.len()
}

/// `#[cfg(test)]`, `#[cfg(all(test, …))]` and `#[test]`.
fn is_for_tests(attribute: &[Word]) -> bool {
    let is = |n: usize, name: &str| attribute.get(n).is_some_and(|word| word.is_name(name));
    let has = |name: &str| attribute.iter().any(|word| word.is_name(name));
    is(2, "test") || is(2, "cfg") && has("test") && !has("not") && !has("any")
}

/// Behind the item that begins here, its other attributes included.
fn item_end(words: &[Word], mut at: usize) -> usize {
    while at < words.len() {
        let Some(end) = attribute_end(words, at) else {
            break;
        };
        at = end;
    }
    let mut is_use = false;
    while at < words.len() {
        let word = &words[at];
        if word.is(';') {
            return at + 1;
        }
        is_use |= word.is_name("use");
        if word.is('(') || word.is('[') || word.is('{') {
            let was_block = word.is('{');
            at = closed(words, at);
            if was_block && !is_use {
                return at;
            }
        } else {
            at += 1;
        }
    }
    at
}

impl Module {
    /// Every path that begins at the root, above or here (`crate`, `super`, `self`), from the root.
    pub(crate) fn named(&self) -> Vec<Named> {
        let mut found = Vec::new();
        self.each_path(|base, path, line, _| {
            if let Some(base) = base {
                let path = base.iter().chain(path).filter(|name| *name != "self");
                let path = path.cloned().collect();
                found.push(Named { path, line });
            }
        });
        found
    }

    /// What this module hands on of its children: under which name, from which child.
    pub(crate) fn handed_on(&self) -> BTreeMap<String, String> {
        let mut found = BTreeMap::new();
        self.each_path(|base, path, _, alias| {
            let own = match base {
                None => path,
                Some(base) if base == self.path => path,
                Some(_) => return,
            };
            if let [child, .., last] = own
                && self.children.contains(child)
            {
                let name = alias.unwrap_or(last);
                found.insert(name.clone(), child.clone());
            }
        });
        found
    }

    /// Goes through the paths. A path of a `use` that begins with a bare name has no base.
    fn each_path<'a>(
        &'a self,
        mut see: impl FnMut(Option<&[String]>, &[String], usize, Option<&'a String>),
    ) {
        // The modules written out that the word stands in, each with the depth of its braces.
        let mut within: Vec<(String, u32)> = Vec::new();
        let mut deep = 0_u32;
        let mut at = 0;
        while at < self.words.len() {
            let word = &self.words[at];
            let before = at.checked_sub(1).map(|n| &self.words[n]);
            let follows = |n: usize, sign: char| self.words.get(at + n).is_some_and(|w| w.is(sign));
            if word.is('{') {
                deep += 1;
            } else if word.is('}') {
                deep = deep.saturating_sub(1);
                while within.last().is_some_and(|(_, from)| *from > deep) {
                    within.pop();
                }
            } else if word.is_name("mod") && follows(2, '{') {
                within.push((self.words[at + 1].text.clone(), deep + 1));
            }
            let here = || {
                let own = within.iter().map(|(name, _)| name.clone());
                self.path.iter().cloned().chain(own).collect::<Vec<_>>()
            };
            // `pub(in crate::…)` names what it stands in.
            let is_visibility = before.is_some_and(|word| word.is_name("in"));
            let goes_on = follows(1, ':') && follows(2, ':');
            let mut base = None;
            let mut from = at;
            if word.is_name("use") {
                let next = self.words.get(at + 1);
                let rooted = ["crate", "super", "self"];
                if next.is_none_or(|next| rooted.iter().any(|root| next.is_name(root))) {
                    at += 1;
                    continue;
                }
                from = at + 1;
            } else if goes_on && !is_visibility && !before.is_some_and(|word| word.is(':')) {
                if word.is_name("crate") {
                    base = Some(Vec::new());
                    from = at + 3;
                } else if word.is_name("self") || word.is_name("super") {
                    let mut path = here();
                    while self.words.get(from).is_some_and(|w| w.is_name("super")) {
                        path.pop();
                        from += 3;
                    }
                    if self.words.get(from).is_some_and(|w| w.is_name("self")) {
                        from += 3;
                    }
                    base = Some(path);
                }
            }
            if from > at {
                self.tree(from, &mut Vec::new(), &mut |path, line, alias| {
                    see(base.as_deref(), path, line, alias);
                });
            }
            at += 1;
        }
    }

    /// A path from here on, or each of a group; where it ends.
    fn tree<'a>(
        &'a self,
        mut at: usize,
        path: &mut Vec<String>,
        see: &mut impl FnMut(&[String], usize, Option<&'a String>),
    ) -> usize {
        let depth = path.len();
        let word = |n: usize| self.words.get(n);
        let is = |n: usize, sign: char| word(n).is_some_and(|word| word.is(sign));
        let mut line = word(at).map_or(0, |word| word.line);
        loop {
            if is(at, '{') {
                at += 1;
                while word(at).is_some() && !is(at, '}') {
                    let next = self.tree(at, path, see);
                    at = next.max(at + 1);
                    if is(at, ',') {
                        at += 1;
                    }
                }
                path.truncate(depth);
                return at + 1;
            }
            let Some(name) = word(at).filter(|word| word.kind == super::lexer::Kind::Name) else {
                break;
            };
            line = name.line;
            path.push(name.text.clone());
            at += 1;
            if !(is(at, ':') && is(at + 1, ':')) {
                break;
            }
            at += 2;
        }
        let alias = word(at)
            .filter(|word| word.is_name("as"))
            .and_then(|_| word(at + 1))
            .map(|word| &word.text);
        if alias.is_some() {
            at += 2;
        }
        if path.len() > depth {
            see(path, line, alias);
        }
        path.truncate(depth);
        at
    }
}
