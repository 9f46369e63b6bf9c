//! Lines that a merge of two states of a file has left behind. The first of the two sides is read, so that what lies around a
//! region stays in its place; bytes keep their numbers.

use super::front::lines_from;
use super::report::{Report, Slice};
use super::rules::MERGE_UNFINISHED;
use crate::finding::Finding;
use std::borrow::Cow;
use std::ops::Range;

/// How often the sign of a marker stands in it.
const SIGNS: usize = 7;

/// The text with blanks for each marker and for the second of its two sides; each marker is told.
pub(super) fn settled<'a>(slice: &Slice<'a>, report: &mut Report) -> Cow<'a, str> {
    let markers = markers(slice.text);
    if markers.is_empty() {
        return Cow::Borrowed(slice.text);
    }
    for marker in &markers {
        report.add(
            Finding::new(&MERGE_UNFINISHED, slice.place(marker.line.clone()), "a merge was not finished here")
                .label(marker.part.says())
                .fix("keep one of the two sides, or what is right of both, and take the three marker lines out"),
        );
    }
    let mut text = slice.text.as_bytes().to_vec();
    for blanked in not_kept(&markers) {
        for byte in text.get_mut(blanked).unwrap_or_default().iter_mut().filter(|byte| !matches!(byte, b'\n' | b'\r')) {
            *byte = b' ';
        }
    }
    // Whole lines were blanked, byte by byte: what is left is text still.
    String::from_utf8(text).map_or(Cow::Borrowed(slice.text), Cow::Owned)
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Opens,
    Before,
    Parts,
    Closes,
}

impl Part {
    fn says(self) -> &'static str {
        match self {
            Self::Opens => "one side begins here",
            Self::Before => "what stood there before both begins here",
            Self::Parts => "the other side begins here",
            Self::Closes => "the other side ends here",
        }
    }
}

#[derive(Clone, Debug)]
struct Marker {
    part: Part,
    /// Without its line end.
    line: Range<usize>,
}

/// The markers of a text. A line of equals signs alone underlines words, and upright ones begin a table: they count only where a
/// side was opened, or, for the equals signs, where no words stand above.
fn markers(text: &str) -> Vec<Marker> {
    let mut found: Vec<Marker> = Vec::new();
    let mut words_above = false;
    for span in lines_from(text, 0) {
        let line = text.get(span.clone()).unwrap_or("").trim_end();
        let open = found.last().is_some_and(|marker| matches!(marker.part, Part::Opens | Part::Before));
        let part = [('<', Part::Opens), ('>', Part::Closes), ('|', Part::Before), ('=', Part::Parts)].into_iter().find(|(sign, _)| is_marker(line, *sign));
        let part = part.map(|(_, part)| part).filter(|part| match part {
            Part::Opens | Part::Closes => true,
            Part::Before => open,
            Part::Parts => line.len() == SIGNS && (open || !words_above),
        });
        words_above = !line.trim_start().is_empty();
        found.extend(part.map(|part| Marker { part, line: span.start..span.start + line.len() }));
    }
    found
}

/// Whether a line begins with a sign seven times, and a name behind it or nothing.
fn is_marker(line: &str, sign: char) -> bool {
    let rest = line.trim_start_matches(sign);
    line.len() - rest.len() == SIGNS && (rest.is_empty() || rest.starts_with(' '))
}

/// What is not read: each marker, and of a region that is whole what is not its first side.
fn not_kept(markers: &[Marker]) -> Vec<Range<usize>> {
    let mut spans: Vec<Range<usize>> = markers.iter().map(|marker| marker.line.clone()).collect();
    let mut second: Option<usize> = None;
    for marker in markers {
        match marker.part {
            Part::Opens => second = None,
            Part::Before | Part::Parts => second = second.or(Some(marker.line.start)),
            Part::Closes => spans.extend(second.take().map(|start| start..marker.line.end)),
        }
    }
    spans
}

#[cfg(test)]
mod tests {
    use super::super::report::{Report, Slice};
    use super::settled;
    use crate::finding::FileTable;

    fn read(text: &str) -> (String, usize) {
        let mut files = FileTable::default();
        let file = files.add("trial.md", text);
        let mut report = Report::default();
        let kept = settled(&Slice::whole(file, text), &mut report).into_owned();
        assert_eq!(kept.len(), text.len(), "places stay what they are");
        (kept.lines().map(str::trim_end).filter(|line| !line.is_empty()).collect::<Vec<_>>().join("/"), report.into_findings().len())
    }

    // The three markers and the fourth of a merge that shows the common state: as every tool for merging writes them (from memory).
    #[test]
    fn the_first_side_is_kept_and_each_marker_told() {
        assert_eq!(read("a\n<<<<<<< HEAD\nb\n=======\nc\n>>>>>>> bob\nd\n"), ("a/b/d".into(), 3));
        assert_eq!(read("a\r\n<<<<<<< HEAD\r\nb\r\n||||||| 1a2b\r\no\r\n=======\r\nç\r\n>>>>>>> bob\r\nd"), ("a/b/d".into(), 4));
        assert_eq!(read("<<<<<<<\nb\n\n=======\n\nc\n>>>>>>>\nd\n<<<<<<< x\ne\n=======\nf\n>>>>>>> y\n"), ("b/d/e".into(), 6));
    }

    #[test]
    fn of_a_region_that_is_not_whole_only_the_markers_go() {
        assert_eq!(read("a\n\n=======\n\nb\n"), ("a/b".into(), 1));
        assert_eq!(read("a\n>>>>>>> bob\nb\n"), ("a/b".into(), 1));
        assert_eq!(read("<<<<<<< HEAD\na\n=======\nb\n"), ("a/b".into(), 2));
    }

    #[test]
    fn what_only_looks_like_a_marker_stays() {
        for text in ["Words\n=======\n", "||||||| |\n", "<<<<<<<< a\n", "<<<<<<<a\n", " <<<<<<< a\n", "a <<<<<<< b\n", "> > quoted\n", "\n========\n"] {
            assert_eq!(read(text).1, 0, "{text}");
        }
    }
}
