//! The colours of a procedure's source: front matter, notices, headings, acts, by a grammar of our own for syntect.
//!
//! The library's grammars for Markdown and YAML know much that no procedure holds, and mark up each sign of it; this one
//! knows what an author looks for, and keeps the pages small enough for a phone's copy.

use super::markup::Markup;
use foldhash::HashMap;
use std::sync::{LazyLock, RwLock};
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

/// Where the grammar stands between two lines.
type State = (ParseState, ScopeStack);

/// Lines that were coloured before. Procedures of one club have many lines in common, such as empty ones and the beginnings of
/// lists, and the grammar's expressions take longer than all else of a source's page.
#[derive(Default)]
struct Known {
    /// Each state that a line has begun in: there are as many as the grammar has contexts, or little more.
    states: Vec<State>,
    /// By the number of the state that it begins in, a line with its colours and the state behind it.
    lines: HashMap<(usize, String), (Markup, usize)>,
    bytes: usize,
}

static KNOWN: LazyLock<RwLock<Known>> = LazyLock::new(RwLock::default);

/// So many bytes of lines are remembered; then it begins anew.
const MOST_KNOWN: usize = 4_000_000;
/// A grammar that is in so many states is followed no further.
const MOST_STATES: usize = 100;

impl Known {
    fn number_of(&mut self, state: State) -> Option<usize> {
        let known = self.states.iter().position(|known| *known == state);
        known.or_else(|| {
            let number = self.states.len();
            (number < MOST_STATES).then(|| self.states.push(state)).map(|()| number)
        })
    }

    fn remember(&mut self, line: (usize, String), coloured: Markup, behind: usize) {
        self.bytes += line.1.len() + coloured.as_str().len();
        if self.bytes > MOST_KNOWN {
            self.lines.clear();
            self.bytes = 0;
        }
        self.lines.insert(line, (coloured, behind));
    }
}

/// Colours a source line by line, in its order.
pub(super) struct Painter {
    /// The number of the state before the next line; none where the grammar has given up.
    state: Option<usize>,
}

impl Painter {
    pub(super) fn new() -> Self {
        let started = SYNTAX.as_ref().and_then(|grammar| {
            let syntax = grammar.set.find_syntax_by_name("Procedure")?;
            KNOWN.write().ok()?.number_of((ParseState::new(syntax), ScopeStack::new()))
        });
        Self { state: started }
    }

    /// The next line as HTML, without its end. Plain where the grammar gives up.
    pub(super) fn line(&mut self, line: &str) -> Markup {
        let coloured = self.state.and_then(|state| known(state, line).or_else(|| found(state, line)));
        self.state = coloured.as_ref().map(|(_, behind)| *behind);
        coloured.map_or_else(|| Markup::text(without_end(line)), |(html, _)| html)
    }
}

fn known(state: usize, line: &str) -> Option<(Markup, usize)> {
    KNOWN.read().ok()?.lines.get(&(state, line.to_owned())).cloned()
}

fn found(number: usize, line: &str) -> Option<(Markup, usize)> {
    let mut state = KNOWN.read().ok()?.states.get(number)?.clone();
    let html = paint(&mut state, line)?;
    let mut known = KNOWN.write().ok()?;
    let behind = known.number_of(state)?;
    known.remember((number, line.to_owned()), html.clone(), behind);
    Some((html, behind))
}

fn without_end(line: &str) -> &str {
    line.trim_end_matches(['\n', '\r'])
}

fn paint((state, stack): &mut State, line: &str) -> Option<Markup> {
    let grammar = SYNTAX.as_ref()?;
    let steps = state.parse_line(line, &grammar.set).ok()?;
    let mut out = Markup::default();
    let mut left = without_end(line).len();
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
    Some(out)
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
    fn a_line_looks_as_it_did_before_and_as_its_place_asks() {
        let source = "---\ntitle: x # y\n---\n\ntitle: x # y\n# Next\n";
        let first = shown(source);
        assert_eq!(&first[1], "‹K title›: x ‹C # y›");
        assert_eq!(&first[4], "title: x # y");
        assert_eq!(shown(source), first);
        let mut fresh = SYNTAX.as_ref().map(|grammar| (ParseState::new(grammar.set.find_syntax_by_name("Procedure").unwrap()), ScopeStack::new())).unwrap();
        let mut painter = Painter::new();
        for line in source.split_inclusive('\n') {
            assert_eq!(painter.line(line), paint(&mut fresh, line).unwrap(), "{line}");
        }
    }

    #[test]
    fn what_is_remembered_is_bounded() {
        let mut known = Known::default();
        for number in 0..100 {
            known.remember((0, "x".repeat(MOST_KNOWN / 20) + &number.to_string()), Markup::default(), 0);
            assert!(known.lines.keys().map(|(_, line)| line.len()).sum::<usize>() <= MOST_KNOWN + MOST_KNOWN / 10);
        }
        assert!(!known.lines.is_empty());
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
