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
        for character in json.chars() {
            match character {
                '<' => out.push_str("\\u003c"),
                '>' => out.push_str("\\u003e"),
                '&' => out.push_str("\\u0026"),
                // Lines end here for some readers of scripts.
                '\u{2028}' => out.push_str("\\u2028"),
                '\u{2029}' => out.push_str("\\u2029"),
                // Scripts show these texts as they stand.
                c if c.is_control() || is_unfit(c) => out.push_str("\\ufffd"),
                c => out.push(c),
            }
        }
        Self(out)
    }

    /// Adds text, escaped.
    pub(super) fn push_text(&mut self, text: &str) {
        for character in text.chars() {
            match character {
                '&' => self.0.push_str("&amp;"),
                '<' => self.0.push_str("&lt;"),
                '>' => self.0.push_str("&gt;"),
                '"' => self.0.push_str("&quot;"),
                '\'' => self.0.push_str("&#39;"),
                // HTML allows no control characters but these.
                c if c.is_control() && !matches!(c, '\n' | '\t') => {}
                c if is_unfit(c) => self.0.push(char::REPLACEMENT_CHARACTER),
                c => self.0.push(c),
            }
        }
    }

    /// Adds a tag of ours. Only literal text may come here.
    pub(super) fn push_tag(&mut self, tag: &'static str) {
        self.0.push_str(tag);
    }

    /// Adds trusted HTML.
    pub(super) fn push(&mut self, other: &Self) {
        self.0.push_str(&other.0);
    }

    /// The HTML.
    pub(super) fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether there is nothing to read in it.
    pub(super) fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

/// Prints a text of a view in a template: the same escaping as everywhere.
pub(super) fn escape(text: &str, out: &mut dyn Write) -> io::Result<()> {
    let plain = |c: char| !matches!(c, '&' | '<' | '>' | '"' | '\'') && !c.is_control() && !is_unfit(c);
    if text.chars().all(plain) { out.write_all(text.as_bytes()) } else { out.write_all(Markup::text(text).0.as_bytes()) }
}

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
