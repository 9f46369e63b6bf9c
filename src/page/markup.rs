//! HTML that may be trusted: everything in it was escaped or written here.

use serde::{Serialize, Serializer};
use std::io::{self, Write};

/// Trusted HTML. A template prints it as it is and escapes every other text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Markup(String);

impl Markup {
    /// Text, escaped for an element's content or a quoted attribute.
    pub(super) fn text(text: &str) -> Self {
        let mut markup = Self::default();
        markup.push_text(text);
        markup
    }

    /// HTML that a template of ours has made.
    pub(super) fn rendered(html: String) -> Self {
        Self(html)
    }

    /// JSON for a data block of a page. Nothing in it can end the block or begin a comment: what HTML reads as markup
    /// is written as `\u003c` and the like, which JSON reads as the same text.
    pub(super) fn json(value: &impl Serialize) -> Self {
        Self::of_json(&serde_json::to_string(value).unwrap_or_default())
    }

    /// The same of JSON as it was written.
    pub(super) fn of_json(json: &str) -> Self {
        let mut out = String::with_capacity(json.len());
        let as_read = |character: char| match character {
            '<' => Some("\\u003c"),
            '>' => Some("\\u003e"),
            '&' => Some("\\u0026"),
            // Lines end here for some readers of scripts.
            '\u{2028}' => Some("\\u2028"),
            '\u{2029}' => Some("\\u2029"),
            // Scripts show these texts as they stand.
            c if c.is_control() || is_unfit(c) => Some("\\ufffd"),
            _ => None,
        };
        replaced(json, &mut out, as_read);
        Self(out)
    }

    /// One JSON object with the members of two, of which neither is empty.
    pub(super) fn with_members_of(mut self, other: &Self) -> Self {
        if let Some(members) = other.0.strip_prefix('{').filter(|_| self.0.ends_with('}')) {
            self.0.pop();
            self.0.push(',');
            self.0.push_str(members);
        }
        self
    }

    /// Adds text, escaped.
    pub(super) fn push_text(&mut self, text: &str) {
        replaced(text, &mut self.0, as_html);
    }

    /// Adds a tag of ours. Only literal text may come here.
    pub(super) fn push_tag(&mut self, tag: &'static str) {
        self.0.push_str(tag);
    }

    /// Adds trusted HTML.
    pub(super) fn push(&mut self, other: &Self) {
        self.0.push_str(&other.0);
    }

    /// The HTML, taken out.
    pub(super) fn into_string(self) -> String {
        self.0
    }

    /// The HTML.
    pub(super) fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether there is nothing to read in it.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether only white space stands in it.
    pub(super) fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

/// Prints a text of a view in a template: the same escaping as everywhere.
pub(super) fn escape(text: &str, out: &mut dyn Write) -> io::Result<()> {
    let mut from = 0;
    for (at, character) in doubtful(text) {
        if let Some(other) = as_html(character) {
            out.write_all(text.get(from..at).unwrap_or("").as_bytes())?;
            out.write_all(other.as_bytes())?;
            from = at + character.len_utf8();
        }
    }
    out.write_all(text.get(from..).unwrap_or("").as_bytes())
}

/// What HTML has in place of a character that can't stand in a text or in a quoted attribute.
fn as_html(character: char) -> Option<&'static str> {
    match character {
        '&' => Some("&amp;"),
        '<' => Some("&lt;"),
        '>' => Some("&gt;"),
        '"' => Some("&quot;"),
        '\'' => Some("&#39;"),
        // HTML allows no control characters but these.
        c if c.is_control() && !matches!(c, '\n' | '\t') => Some(""),
        c if is_unfit(c) => Some("\u{fffd}"),
        _ => None,
    }
}

/// Adds a text in which some of the doubtful characters are replaced.
fn replaced(text: &str, out: &mut String, other: impl Fn(char) -> Option<&'static str>) {
    out.reserve(text.len());
    let mut from = 0;
    for (at, character) in doubtful(text) {
        if let Some(other) = other(character) {
            out.push_str(text.get(from..at).unwrap_or(""));
            out.push_str(other);
            from = at + character.len_utf8();
        }
    }
    out.push_str(text.get(from..).unwrap_or(""));
}

/// The characters of a text that have to be looked at, each with its place: all others stand in any page as they are. Pages
/// are megabytes of letters with a sign among them now and then, so it is told by the first byte of a character.
fn doubtful(text: &str) -> impl Iterator<Item = (usize, char)> {
    let mut looked = 0;
    std::iter::from_fn(move || {
        let rest = text.as_bytes().get(looked..)?;
        let at = looked + rest.iter().position(|byte| DOUBTFUL.get(usize::from(*byte)).is_some_and(|doubtful| *doubtful))?;
        let character = text.get(at..)?.chars().next()?;
        looked = at + character.len_utf8();
        Some((at, character))
    })
}

/// Bytes that begin a character which may have to be replaced: signs of markup, control characters (to U+009F, behind C2),
/// and what leads to [`is_unfit`] (U+2028 to U+2069 behind E2, U+FDD0 to U+FFFF behind EF, all beyond behind F0 to F4).
static DOUBTFUL: [bool; 256] = {
    let mut doubtful = [false; 256];
    let mut byte = 0;
    while byte < doubtful.len() {
        doubtful[byte] = byte < 0x20 || matches!(byte, 0x22 | 0x26 | 0x27 | 0x3c | 0x3e | 0x7f | 0xc2 | 0xe2 | 0xef | 0xf0..=0xf4);
        byte += 1;
    }
    doubtful
};

/// Whether a character has no place in a page: those that are no characters (HTML Standard, 13.2.3.5 "noncharacters"), and
/// those that turn the text behind them (Unicode Standard Annex 9, explicit formatting characters), which could show a value
/// beside an author's words as another one. They stand as � on the page.
fn is_unfit(c: char) -> bool {
    matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{fdd0}'..='\u{fdef}') || u32::from(c) & 0xfffe == 0xfffe
}

impl Serialize for Markup {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        tera::Value::safe_string(&self.0).serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_json_can_end_its_block() {
        let json = Markup::json(&["</script><!-- & \"x\""]);
        assert_eq!(json.as_str(), r#"["\u003c/script\u003e\u003c!-- \u0026 \"x\""]"#);
        assert_eq!(serde_json::from_str::<Vec<String>>(json.as_str()).unwrap(), ["</script><!-- & \"x\""]);
    }

    #[test]
    fn text_is_escaped_and_trusted_html_is_not() {
        #[derive(Serialize)]
        struct View {
            trusted: Markup,
            author: String,
        }
        let mut trusted = Markup::text("<a> & \"b\"");
        trusted.push_tag("<br>");
        let context = tera::Context::from_serialize(&View { trusted, author: "<i>".to_owned() }).unwrap();
        let html = tera::Tera::one_off("{{ trusted }}|{{ author }}", &context, true).unwrap();
        assert_eq!(html, "&lt;a&gt; &amp; &quot;b&quot;<br>|&lt;i&gt;");
    }

    #[test]
    fn every_character_that_is_replaced_is_looked_at() {
        for character in ('\0'..=char::MAX).filter(|c| as_html(*c).is_some() || c.is_control() || is_unfit(*c)) {
            assert_eq!(doubtful(&format!("a{character}b")).next(), Some((1, character)), "U+{:04X}", u32::from(character));
        }
    }

    #[test]
    fn two_objects_become_one() {
        let one = Markup::json(&std::collections::BTreeMap::from([("a", "{<}")]));
        let two = Markup::json(&std::collections::BTreeMap::from([("b", "}")]));
        assert_eq!(one.with_members_of(&two).as_str(), r#"{"a":"{\u003c}","b":"}"}"#);
    }

    #[test]
    fn control_characters_that_html_forbids_are_left_out() {
        assert_eq!(Markup::text("a\u{0}b\u{b}c\nd\u{85}e").as_str(), "abc\nde");
    }

    #[test]
    fn what_turns_a_text_or_is_no_character_is_shown_as_such() {
        assert_eq!(Markup::text("25\u{202e}–30 \u{2067}N·m\u{fffe}\u{1fffF}\u{fdd0}").as_str(), "25�–30 �N·m���");
        let mut printed = Vec::new();
        escape("a\u{0}<\u{202e}", &mut printed).unwrap();
        escape("25 N·m", &mut printed).unwrap();
        assert_eq!(String::from_utf8(printed).unwrap(), "a&lt;�25 N·m");
        assert_eq!(Markup::json(&"a\u{7f}\u{202e}").as_str(), "\"a\\ufffd\\ufffd\"");
    }
}
