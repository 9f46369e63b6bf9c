//! The colours of a procedure's source: front matter, notices, headings, acts, by a grammar of our own for syntect.
//!
//! The library's grammars for Markdown and YAML know much that no procedure holds, and mark up each sign of it; this one
//! knows what an author looks for, and keeps the pages small enough for a phone's copy.

use super::markup::Markup;
use std::sync::LazyLock;
use syntect::easy::ScopeRegionIterator;
use syntect::parsing::{ParseState, Scope, ScopeStack, SyntaxDefinition, SyntaxSet, SyntaxSetBuilder};

/// Keys and headings are keywords, comments comments, addresses of acts and quoted words strings, the words of notices support.
const GRAMMAR: &str = include_str!("procedure_syntax.yaml");

/// The tag that a scope is shown by.
const TAGS: [(&str, &str); 4] = [
    ("comment", "<span class=\"code-comment\">"),
    ("keyword", "<span class=\"code-keyword\">"),
    ("string", "<span class=\"code-string\">"),
    ("support", "<span class=\"code-support\">"),
];

struct Grammar {
    set: SyntaxSet,
    shown: Vec<(Scope, &'static str)>,
}

static SYNTAX: LazyLock<Option<Grammar>> = LazyLock::new(|| {
    let definition = SyntaxDefinition::load_from_str(GRAMMAR, true, None).ok()?;
    let shown = TAGS.iter().filter_map(|(scope, tag)| Some((Scope::new(scope).ok()?, *tag))).collect();
    let mut set = SyntaxSetBuilder::new();
    set.add(definition);
    Some(Grammar { set: set.build(), shown })
});

/// Colours a source line by line, in its order.
pub(super) struct Painter {
    state: Option<(&'static Grammar, ParseState, ScopeStack)>,
}

impl Painter {
    pub(super) fn new() -> Self {
        let started = SYNTAX.as_ref().and_then(|grammar| {
            let syntax = grammar.set.find_syntax_by_name("Procedure")?;
            Some((grammar, ParseState::new(syntax), ScopeStack::new()))
        });
        Self { state: started }
    }

    /// The next line as HTML, without its end. Plain where the grammar gives up.
    pub(super) fn line(&mut self, line: &str) -> Markup {
        let mut out = Markup::default();
        let text = line.trim_end_matches(['\n', '\r']);
        if self.paint(line, text, &mut out).is_none() {
            self.state = None;
            out = Markup::text(text);
        }
        out
    }

    fn paint(&mut self, line: &str, text: &str, out: &mut Markup) -> Option<()> {
        let (grammar, state, stack) = self.state.as_mut()?;
        let steps = state.parse_line(line, &grammar.set).ok()?;
        let mut left = text.len();
        for (piece, step) in ScopeRegionIterator::new(&steps, line) {
            stack.apply(step).ok()?;
            let piece = piece.get(..piece.len().min(left))?;
            left -= piece.len();
            if piece.is_empty() {
                continue;
            }
            let tag = stack.scopes.last().and_then(|scope| grammar.shown.iter().find(|(shown, _)| shown.is_prefix_of(*scope)));
            match tag {
                Some((_, tag)) => {
                    out.push_tag(tag);
                    out.push_text(piece);
                    out.push_tag("</span>");
                }
                None => out.push_text(piece),
            }
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `K`, `S`, `C`, `W` in angle brackets round what is shown as a keyword, string, comment or the word of a notice.
    fn shown(source: &str) -> Vec<String> {
        let mut painter = Painter::new();
        let lines = source.split_inclusive('\n').map(|line| painter.line(line).as_str().to_owned());
        lines
            .map(|html| {
                let html = html.replace("<span class=\"code-keyword\">", "‹K ").replace("<span class=\"code-string\">", "‹S ");
                html.replace("<span class=\"code-comment\">", "‹C ").replace("<span class=\"code-support\">", "‹W ").replace("</span>", "›")
            })
            .collect()
    }

    #[test]
    fn what_an_author_looks_for_is_marked() {
        let source = "---\ntitle: Fit it  # soon\nfasteners:\n  hub-nut: {torque: 70 N·m, note: 'a: b'}\n  - a: the maker's b's\n---\n## Fit {#fit}\n\n> **WARNING** Hot. See [a](fit:b) and [c](turn:d).\ntitle: no key here\n";
        assert_eq!(
            shown(source),
            [
                "---", "‹K title›: Fit it  ‹C # soon›", "‹K fasteners›:", "  ‹K hub-nut›: {‹K torque›: 70 N·m, ‹K note›: ‹S &#39;a: b&#39;›}", "  - ‹K a›: the maker&#39;s b&#39;s", "---",
                "‹K ## Fit {#fit}›", "", "‹W &gt; **WARNING**› Hot. See [a](‹S fit:b›) and [c](‹S turn:d›).", "title: no key here",
            ]
        );
        assert_eq!(shown("# No front matter\ntitle: x\n"), ["‹K # No front matter›", "title: x"]);
        assert_eq!(shown("\u{feff}---\r\na: b\r\n"), ["\u{feff}---", "‹K a›: b"]);
    }

    #[test]
    fn nothing_an_author_writes_is_markup_and_nothing_is_lost() {
        for line in ["<script>: x", "# <b>", "[<i>](<u>) <script>", "](", "a](b", ": é", "- : x", " #", "\"", "'", "{a:{b:", "&lt;"] {
            for before in ["", "---\n", "---\n---\n"] {
                let html = shown(&format!("{before}{line}\n")).pop().unwrap();
                let text = html.replace("‹K ", "").replace("‹S ", "").replace("‹C ", "").replace("‹W ", "").replace('›', "");
                assert!(!text.contains('<'), "{line}: {html}");
                assert_eq!(text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'").replace("&amp;", "&"), line);
            }
        }
    }
}
