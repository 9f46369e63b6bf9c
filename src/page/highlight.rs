//! Blocks of code, coloured by class so that the stylesheet has the say.

use super::markup::Markup;
use std::sync::LazyLock;
use syntect::html::{ClassStyle, ClassedHTMLGenerator};
use syntect::parsing::SyntaxSet;
use syntect::util::LinesWithEndings;

/// The class prefix of coloured words.
const STYLE: ClassStyle = ClassStyle::SpacedPrefixed { prefix: "code-" };

/// Loading takes milliseconds, so it waits for the first block that names a language.
static SYNTAXES: LazyLock<SyntaxSet> = LazyLock::new(SyntaxSet::load_defaults_newlines);

/// A block of code as HTML; plain where its language is not known.
pub(super) fn code_block(language: &str, text: &str) -> Markup {
    let mut out = Markup::default();
    out.push_tag("<pre class=\"code\" tabindex=\"0\"><code>");
    match coloured(language, text) {
        Some(html) => out.push(&html),
        None => out.push_text(text),
    }
    out.push_tag("</code></pre>\n");
    out
}

fn coloured(language: &str, text: &str) -> Option<Markup> {
    let token = language.split([' ', ',', '{']).next().filter(|t| !t.is_empty() && *t != "text")?;
    let syntax = SYNTAXES.find_syntax_by_token(token)?;
    let mut generator = ClassedHTMLGenerator::new_with_class_style(syntax, &SYNTAXES, STYLE);
    for line in LinesWithEndings::from(text) {
        generator.parse_html_for_line_which_includes_newline(line).ok()?;
    }
    Some(Markup::rendered(generator.finalize()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_language_is_plain_and_escaped() {
        let html = code_block("no-such-language", "a < b\n");
        assert_eq!(html.as_str(), "<pre class=\"code\" tabindex=\"0\"><code>a &lt; b\n</code></pre>\n");
    }

    #[test]
    fn a_known_language_is_coloured_by_class_and_escaped() {
        let html = code_block("rust", "let a = \"<b>\"; // c\n");
        assert!(html.as_str().contains("class=\"code-comment"), "{}", html.as_str());
        assert!(html.as_str().contains("&lt;b&gt;") && !html.as_str().contains("style="));
    }
}
