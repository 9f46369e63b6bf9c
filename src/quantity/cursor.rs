//! A place in a text being read, always on a character's edge.

use std::ops::Range;

/// Reads a text from front to back.
#[derive(Clone, Debug)]
pub(super) struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    /// At the first sign that is not a space; spaces at the end are left out too.
    pub(super) fn new(text: &'a str) -> Self {
        let mut cursor = Self { text: text.trim_end(), at: 0 };
        cursor.skip_spaces();
        cursor
    }

    /// The byte it stands at.
    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// Back (or on) to a byte taken from [`Self::at`].
    pub(super) fn go_to(&mut self, at: usize) {
        self.at = at;
    }

    /// What has not been read.
    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    /// What stands between two places.
    pub(super) fn between(&self, span: Range<usize>) -> &'a str {
        self.text.get(span).unwrap_or("")
    }

    /// The byte after the last sign.
    pub(super) fn end(&self) -> usize {
        self.text.len()
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Steps over `bytes` bytes, at most to the end.
    pub(super) fn skip(&mut self, bytes: usize) {
        self.at = (self.at + bytes).min(self.text.len());
    }

    pub(super) fn skip_spaces(&mut self) {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start().len();
    }

    /// Steps over one sign if it is among these.
    pub(super) fn eat_any(&mut self, signs: &[char]) -> Option<char> {
        let sign = self.peek().filter(|sign| signs.contains(sign))?;
        self.skip(sign.len_utf8());
        Some(sign)
    }

    /// Steps over a text that stands here.
    pub(super) fn eat(&mut self, text: &str) -> bool {
        let here = self.rest().starts_with(text);
        if here {
            self.skip(text.len());
        }
        here
    }

    /// Steps over ASCII digits and hands them back.
    pub(super) fn eat_digits(&mut self) -> &'a str {
        let rest = self.rest();
        let length = rest.bytes().take_while(u8::is_ascii_digit).count();
        self.skip(length);
        rest.get(..length).unwrap_or("")
    }
}
