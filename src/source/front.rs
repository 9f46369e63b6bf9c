//! Where a procedure's front matter begins and ends.

use std::ops::Range;

/// What stands at the start of a procedure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Front {
    /// Front matter between two lines of `---`: its bytes, and where the body begins.
    Head { head: Range<usize>, body: usize },
    /// The first line is no `---`. Where one stands further down with nothing but empty lines above, its span.
    Missing { late: Option<Range<usize>> },
    /// Opened, never closed: the opening line, and the first line that looks like a step's heading.
    Unclosed { open: Range<usize>, step: Option<Range<usize>> },
}

/// Finds the front matter of a file's text. A byte order mark before it is passed over.
pub(super) fn find(text: &str) -> Front {
    let start = byte_order_mark(text);
    let mut lines = lines_from(text, start);
    let Some(first) = lines.next().filter(|line| is_fence(text, line)) else {
        let late = lines_from(text, start)
            .find(|line| !blank(text, line))
            .filter(|line| is_fence(text, line))
            .map(|line| trimmed(text, &line));
        return Front::Missing { late };
    };
    let open = trimmed(text, &first);
    let mut step = None;
    for line in lines {
        if is_fence(text, &line) {
            return Front::Head { head: first.end..line.start, body: line.end };
        }
        let words = text.get(line.clone()).unwrap_or("");
        if step.is_none() && words.starts_with("## ") && words.contains("{#") {
            step = Some(trimmed(text, &line));
        }
    }
    Front::Unclosed { open, step }
}

/// How many bytes a byte order mark at the start takes: 3 or none.
pub(super) fn byte_order_mark(text: &str) -> usize {
    if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 }
}

/// The spans of the lines from `start` on, line ends included.
pub(super) fn lines_from(text: &str, start: usize) -> impl Iterator<Item = Range<usize>> {
    let mut at = start;
    text.get(start..).unwrap_or("").split_inclusive('\n').map(move |line| {
        let span = at..at + line.len();
        at = span.end;
        span
    })
}

fn is_fence(text: &str, line: &Range<usize>) -> bool {
    text.get(line.clone()).is_some_and(|line| line.trim_end() == "---")
}

fn blank(text: &str, line: &Range<usize>) -> bool {
    text.get(line.clone()).is_some_and(|line| line.trim().is_empty())
}

fn trimmed(text: &str, line: &Range<usize>) -> Range<usize> {
    let length = text.get(line.clone()).unwrap_or("").trim_end().len();
    line.start..line.start + length
}

#[cfg(test)]
mod tests {
    use super::*;

    fn head(text: &str) -> Option<(&str, &str)> {
        match find(text) {
            Front::Head { head, body } => Some((&text[head], &text[body..])),
            Front::Missing { .. } | Front::Unclosed { .. } => None,
        }
    }

    #[test]
    fn reads() {
        assert_eq!(head("---\na: b\n---\ntext"), Some(("a: b\n", "text")));
        assert_eq!(head("---\r\na: b\r\n---\r\ntext"), Some(("a: b\r\n", "text")));
        assert_eq!(head("\u{feff}---\na: b\n---\n"), Some(("a: b\n", "")));
        assert_eq!(head("---\n---\n"), Some(("", "")));
        assert_eq!(head("--- \na: b\n---"), Some(("a: b\n", "")));
    }

    #[test]
    fn faults() {
        assert_eq!(find(""), Front::Missing { late: None });
        assert_eq!(find("text\n---\n"), Front::Missing { late: None });
        assert_eq!(find("\n---\na: b\n---\n"), Front::Missing { late: Some(1..4) });
        assert_eq!(find("----\na: b\n---\n"), Front::Missing { late: None });
        assert_eq!(find("---\na: b\n"), Front::Unclosed { open: 0..3, step: None });
        assert_eq!(find("---\na: b\n## S {#s}\n"), Front::Unclosed { open: 0..3, step: Some(9..18) });
    }
}
