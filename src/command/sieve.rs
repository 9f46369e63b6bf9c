//! What goes to a terminal or a file: no word of an author commands the terminal, hides, or turns the words around it.
//!
//! Findings are shown harmlessly where they are made, as their columns depend on it. This stands behind everything
//! that is said, so that a title, a name or an error with a path in it can't forge a report either.

use super::arguments::{Command, Format, PlainFormat, TableFormat};
use super::arguments_draft::RecordingWhat;
use crate::finding::{harmless, is_harmless};
use std::fmt::Write as _;
use std::io::{self, Write};

/// What stands for a character that is not let through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Manner {
    /// Words for people: a picture of the character, or its number.
    Words,
    /// Words for people with the colours of a report in them.
    Coloured,
    /// JSON: the escape that means the same character; structure has none of them.
    Json,
    /// A file's content that goes on to another program: all is let through.
    Content,
}

impl Manner {
    /// How a command speaks. A content is sieved as well where a person reads along.
    pub(super) fn of(command: &Command, colour: bool, terminal: bool) -> Self {
        let content = if terminal { Self::Words } else { Self::Content };
        let plain = |format| if format == PlainFormat::Json { Self::Json } else { Self::Words };
        let table = |format| match format {
            TableFormat::Text => Self::Words,
            TableFormat::Json => Self::Json,
            TableFormat::Csv => content,
        };
        let report = |format| match format {
            Format::Text if colour => Self::Coloured,
            Format::Text => Self::Words,
            Format::Json | Format::Sarif => Self::Json,
        };
        match command {
            Command::Inspect(options) => report(options.format),
            Command::Bind(options) => report(options.format),
            Command::Kit(options) => table(options.format),
            Command::Values(options) => table(options.format),
            Command::Bulletin(options) => plain(options.format),
            Command::Paper(options) => plain(options.format),
            Command::Recording(options) => match &options.what {
                RecordingWhat::Compare(options) => plain(options.format),
                RecordingWhat::Gaps(options) => plain(options.format),
                _ => content,
            },
            Command::Schema(_) => Self::Json,
            Command::Draft(_) => content,
            Command::Man(_) | Command::Completions(_) => Self::Content,
            Command::Proof(_) | Command::Explain(_) | Command::Reckon(_) => Self::Words,
        }
    }
}

impl Manner {
    /// How a command says what kept it from running; one of them tells findings there.
    pub(super) fn of_errors(command: &Command, colour: bool) -> Self {
        if colour && matches!(command, Command::Paper(_)) { Self::Coloured } else { Self::Words }
    }
}

/// Lets through what is harmless.
pub(super) struct Sieve<'a> {
    to: &'a mut dyn Write,
    manner: Manner,
}

impl<'a> Sieve<'a> {
    /// A sieve in front of `to`.
    pub(super) fn new(to: &'a mut dyn Write, manner: Manner) -> Self {
        Self { to, manner }
    }
}

impl Write for Sieve<'_> {
    /// Takes whole pieces of text: those of the formatting macros and of `write_all` are.
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.manner == Manner::Content {
            self.to.write_all(bytes)?;
        } else {
            self.to.write_all(sifted(&String::from_utf8_lossy(bytes), self.manner).as_bytes())?;
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

fn sifted(text: &str, manner: Manner) -> String {
    let mut seen = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| !is_harmless(c) && c != '\n') {
        let (before, after) = rest.split_at(at);
        seen.push_str(before);
        let colour = if manner == Manner::Coloured { colour_code(after) } else { 0 };
        if let Some(code) = after.get(..colour).filter(|code| !code.is_empty()) {
            seen.push_str(code);
            rest = after.get(colour..).unwrap_or_default();
            continue;
        }
        let mut signs = after.chars();
        if let Some(sign) = signs.next() {
            match (manner, sign) {
                (_, '\t') => seen.push('\t'),
                (_, '\r') if signs.as_str().starts_with('\n') => seen.push('\r'),
                (Manner::Json, sign) => sign.encode_utf16(&mut [0; 2]).iter().for_each(|unit| {
                    // Writing to a string can't fail.
                    let _ = write!(seen, "\\u{unit:04x}");
                }),
                (_, sign) => seen.push_str(&harmless(sign)),
            }
        }
        rest = signs.as_str();
    }
    seen.push_str(rest);
    seen
}

/// How long a code of a report's colours at the beginning of a text is (ECMA-48, select graphic rendition); 0 where none is.
fn colour_code(text: &str) -> usize {
    let Some(rest) = text.strip_prefix("\x1b[") else { return 0 };
    let digits = rest.bytes().take_while(|byte| byte.is_ascii_digit() || *byte == b';').count();
    if digits <= 5 && rest.as_bytes().get(digits) == Some(&b'm') { digits + 3 } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::{Manner, sifted};

    #[test]
    fn words_show_what_would_command_or_hide() {
        let words = "a\x1b[2Jb\u{9b}31mc\u{202e}d\re\x07\n\tf";
        assert_eq!(sifted(words, Manner::Words), "a␛[2Jb<U+009B>31mc<U+202E>d␍e␇\n\tf");
        assert_eq!(sifted("\x1b[1;31mError\x1b[0m \x1b[2J", Manner::Coloured), "\x1b[1;31mError\x1b[0m ␛[2J");
        assert_eq!(sifted("\x1b[31m", Manner::Words), "␛[31m");
    }

    #[test]
    fn json_means_the_same() {
        let text = serde_json::to_string("a\u{9b}\u{202e}\u{e0041}\u{7f}\u{feff}é").unwrap_or_default();
        let sifted = sifted(&text, Manner::Json);
        assert!(sifted.is_ascii() || !sifted.contains(['\u{9b}', '\u{202e}', '\u{7f}', '\u{feff}']), "{sifted}");
        assert_eq!(serde_json::from_str::<String>(&sifted).ok().as_deref(), Some("a\u{9b}\u{202e}\u{e0041}\u{7f}\u{feff}é"));
    }
}
