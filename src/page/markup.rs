//! HTML that may be trusted: everything in it was escaped or written here.

use serde::{Serialize, Serializer};

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
        let json = serde_json::to_string(value).unwrap_or_default();
        let mut out = String::with_capacity(json.len());
        for character in json.chars() {
            match character {
                '<' => out.push_str("\\u003c"),
                '>' => out.push_str("\\u003e"),
                '&' => out.push_str("\\u0026"),
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
}
