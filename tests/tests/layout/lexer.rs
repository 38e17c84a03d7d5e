//! Rust's sources as words: comments left out, strings whole.

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A name, a keyword or a number.
    Name,
    /// The inside of a string of any sort.
    Text,
    /// A single sign.
    Sign,
}

/// A word of a source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Word {
    pub(crate) kind: Kind,
    pub(crate) text: String,
    /// Counted from 1.
    pub(crate) line: usize,
}

impl Word {
    pub(crate) fn is(&self, sign: char) -> bool {
        self.kind == Kind::Sign && self.text.starts_with(sign)
    }

    pub(crate) fn is_name(&self, name: &str) -> bool {
        self.kind == Kind::Name && self.text == name
    }
}

/// The words of a source, in order.
pub(crate) fn words(source: &str) -> Vec<Word> {
    let mut reader = Reader {
        signs: source.chars().collect(),
        at: 0,
        line: 1,
        words: Vec::new(),
    };
    while reader.at < reader.signs.len() {
        reader.step();
    }
    reader.words
}

struct Reader {
    signs: Vec<char>,
    at: usize,
    line: usize,
    words: Vec<Word>,
}

impl Reader {
    fn look(&self, ahead: usize) -> char {
        self.signs.get(self.at + ahead).copied().unwrap_or('\0')
    }

    fn take(&mut self) -> char {
        let sign = self.look(0);
        self.at += 1;
        if sign == '\n' {
            self.line += 1;
        }
        sign
    }

    fn push(&mut self, kind: Kind, text: String, line: usize) {
        self.words.push(Word { kind, text, line });
    }

    fn step(&mut self) {
        let line = self.line;
        match (self.look(0), self.look(1)) {
            ('/', '/') => {
                while !matches!(self.look(0), '\n' | '\0') {
                    self.take();
                }
            }
            ('/', '*') => self.comment(),
            ('"', _) => self.string(line),
            ('\'', next) => {
                // A lifetime has a name and no closing quote; a label is one.
                let is_lifetime = (next.is_alphabetic() || next == '_') && self.look(2) != '\'';
                self.take();
                if !is_lifetime {
                    self.quoted('\'');
                }
            }
            (sign, _) if sign.is_alphanumeric() || sign == '_' => self.name(line),
            (sign, _) => {
                self.take();
                if !sign.is_whitespace() {
                    self.push(Kind::Sign, sign.into(), line);
                }
            }
        }
    }

    /// Comments nest.
    fn comment(&mut self) {
        let mut deep = 0;
        while self.at < self.signs.len() {
            match (self.look(0), self.look(1)) {
                ('/', '*') => deep += 1,
                ('*', '/') => deep -= 1,
                _ => {
                    self.take();
                    continue;
                }
            }
            self.take();
            self.take();
            if deep == 0 {
                return;
            }
        }
    }

    fn string(&mut self, line: usize) {
        self.take();
        let text = self.quoted('"');
        self.push(Kind::Text, text, line);
    }

    /// Up to a closing quote that no backslash stands before.
    fn quoted(&mut self, quote: char) -> String {
        let mut text = String::new();
        while self.at < self.signs.len() {
            match self.take() {
                '\\' => {
                    text.push('\\');
                    text.push(self.take());
                }
                sign if sign == quote => break,
                sign => text.push(sign),
            }
        }
        text
    }

    fn name(&mut self, line: usize) {
        let mut text = String::new();
        while self.look(0).is_alphanumeric() || self.look(0) == '_' {
            text.push(self.take());
        }
        match (text.as_str(), self.look(0)) {
            ("b" | "c", '"') => self.string(line),
            ("b", '\'') => {
                self.take();
                self.quoted('\'');
            }
            ("r" | "br" | "cr", '"' | '#') => self.raw(line),
            _ => self.push(Kind::Name, text, line),
        }
    }

    /// A raw string, or a raw name.
    fn raw(&mut self, line: usize) {
        let mut hashes = 0;
        while self.look(0) == '#' {
            self.take();
            hashes += 1;
        }
        if self.look(0) != '"' {
            return self.name(line);
        }
        self.take();
        let mut text = String::new();
        while self.at < self.signs.len() {
            let sign = self.take();
            if sign == '"' && (0..hashes).all(|n| self.look(n) == '#') {
                self.at += hashes;
                break;
            }
            text.push(sign);
        }
        self.push(Kind::Text, text, line);
    }
}

#[test]
fn comments_and_strings_are_told_apart() {
    let source = r##"/* "no" /* nor */ this */ let a = 'x' as u8; // "nor this"
        f::<'a>("yes // in it", r#"and "this""#, '"', b"bytes \" too");"##;
    let found = words(source);
    let texts: Vec<&str> = found
        .iter()
        .filter(|word| word.kind == Kind::Text)
        .map(|word| word.text.as_str())
        .collect();
    assert_eq!(
        texts,
        ["yes // in it", "and \"this\"", "bytes \\\" too"],
        "{found:?}"
    );
    assert!(found[0].is_name("let") && found[0].line == 1);
    assert!(found.last().unwrap().is(';') && found.last().unwrap().line == 2);
}
