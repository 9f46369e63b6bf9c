//! A line of a file as a terminal may show it: harmless, cut to the room there is, and with the columns
//! that a run of carets marks.
//!
//! Invariant: what comes out holds no character that moves the cursor, changes colours or hides itself.
//! Such characters stand there as a picture (`␛`) or by number (`<U+202E>`).

use std::ops::Range;
use unicode_width::UnicodeWidthStr;

/// A tab goes to the next column that is a multiple of this.
const TAB: usize = 4;

/// The most bytes one cell may hold: enough for a family of joined emoji, not for a tower of accents.
const CELL: usize = 32;

/// How far to either side of a fault a line is looked at, in bytes: wider than any terminal.
const REACH: usize = 1024;

/// A line made fit to be shown, and where the carets go under it. Columns are columns of a terminal.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Excerpt {
    /// The line, perhaps cut, with `…` where something is left out.
    pub(super) line: String,
    /// Columns before the first caret.
    pub(super) indent: usize,
    /// How many carets; at least one.
    pub(super) carets: usize,
}

/// The part of `line` around `span` (bytes of the line) that has room in `room` columns.
pub(super) fn excerpt(line: &str, span: &Range<usize>, room: usize) -> Excerpt {
    let (line, span, longer_before, longer_after) = near(line, span);
    let cells = cells(line);
    let first = cells.iter().position(|cell| cell.end > span.start).unwrap_or(cells.len());
    let after = cells.iter().position(|cell| cell.start >= span.end).unwrap_or(cells.len()).max(first);
    let seen = window(&cells, first..after, room);
    let (cut_before, cut_after) = (longer_before || seen.start > 0, longer_after || seen.end < cells.len());
    let mut shown = String::new();
    if cut_before {
        shown.push('…');
    }
    for cell in cells.get(seen.clone()).unwrap_or_default() {
        shown.push_str(&cell.shown);
    }
    if cut_after {
        shown.push('…');
    }
    Excerpt {
        line: shown,
        indent: usize::from(cut_before) + width(&cells, seen.start..first),
        carets: width(&cells, first..after.min(seen.end)).max(1),
    }
}

/// The part of a very long line that could be shown at all, and whether more stands before and after it: a
/// line of megabytes is not taken apart for the hundred columns that are seen.
fn near<'l>(line: &'l str, span: &Range<usize>) -> (&'l str, Range<usize>, bool, bool) {
    if line.len() <= 4 * REACH {
        return (line, span.clone(), false, false);
    }
    let mut from = span.start.min(line.len()).saturating_sub(REACH);
    let mut to = span.end.clamp(span.start, span.start.saturating_add(REACH)).saturating_add(REACH).min(line.len());
    while !line.is_char_boundary(from) {
        from -= 1;
    }
    while !line.is_char_boundary(to) {
        to += 1;
    }
    let shifted = span.start.saturating_sub(from)..span.end.min(to).saturating_sub(from);
    (line.get(from..to).unwrap_or(""), shifted, from > 0, to < line.len())
}

/// Words made fit for a terminal, on one line.
pub(crate) fn visible(words: &str) -> String {
    words.chars().map(|c| if c == '\t' { " ".to_owned() } else { harmless(c) }).collect()
}

/// A character with the marks that sit on it, as shown.
struct Cell {
    start: usize,
    end: usize,
    shown: String,
    width: usize,
}

fn cells(line: &str) -> Vec<Cell> {
    let mut cells: Vec<Cell> = Vec::new();
    let mut column = 0;
    let mut joining = false;
    for (start, c) in line.char_indices() {
        let end = start + c.len_utf8();
        let mut shown = if c == '\t' { " ".repeat(TAB - column % TAB) } else { harmless(c) };
        let sits_on_last = shown.width() == 0 || (joining && shown.width() == 2);
        joining = c == '\u{200d}';
        if sits_on_last && let Some(last) = cells.last_mut() {
            if last.shown.len() + shown.len() <= CELL {
                column -= last.width;
                last.shown.push_str(&shown);
                last.width = last.shown.width();
                last.end = end;
                column += last.width;
                continue;
            }
            shown = numbered(c);
        }
        let width = shown.width();
        column += width;
        cells.push(Cell { start, end, shown, width });
    }
    cells
}

fn width(cells: &[Cell], range: Range<usize>) -> usize {
    cells.get(range).unwrap_or_default().iter().map(|cell| cell.width).sum()
}

/// The cells to show: all where they have room, else as much of the marked ones as has room and then what
/// stands to their left and right in turn.
fn window(cells: &[Cell], marked: Range<usize>, room: usize) -> Range<usize> {
    let caret_past_the_end = usize::from(marked.start == cells.len());
    if width(cells, 0..cells.len()) + caret_past_the_end <= room {
        return 0..cells.len();
    }
    // Two columns for the signs of omission.
    let mut left = room.saturating_sub(2 + caret_past_the_end);
    let mut seen = marked.start..marked.start;
    let mut take = |at: Option<usize>| match at.and_then(|at| cells.get(at)) {
        Some(cell) if cell.width <= left => {
            left -= cell.width;
            true
        }
        Some(_) | None => false,
    };
    while seen.end < marked.end && take(Some(seen.end)) {
        seen.end += 1;
    }
    loop {
        let back = take(seen.start.checked_sub(1));
        seen.start -= usize::from(back);
        let on = take(Some(seen.end));
        seen.end += usize::from(on);
        if !back && !on {
            return seen;
        }
    }
}

/// Whether a character neither drives a terminal nor hides or turns what a reader sees.
pub(crate) fn is_harmless(c: char) -> bool {
    !hides(c)
}

/// A character as it is, or what stands for it where it would drive the terminal or hide.
pub(crate) fn harmless(c: char) -> String {
    match c {
        // Unicode's pictures of the control characters stand in the order of the characters.
        '\0'..='\x1f' => char::from_u32(0x2400 + u32::from(c)).unwrap_or('\u{fffd}').to_string(),
        '\x7f' => '\u{2421}'.to_string(),
        _ if hides(c) => numbered(c),
        _ => c.to_string(),
    }
}

fn numbered(c: char) -> String {
    format!("<U+{:04X}>", u32::from(c))
}

/// Characters that a reader can't see and that change what is read: controls, direction marks, separators,
/// blanks without width, tags. Joiners stay, as several scripts need them.
fn hides(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::{Excerpt, excerpt, visible};

    /// The line with the carets under it.
    fn drawn(line: &str, marked: &str, room: usize) -> [String; 2] {
        let start = line.find(marked).unwrap();
        let Excerpt { line, indent, carets } = excerpt(line, &(start..start + marked.len()), room);
        [line, format!("{}{}", " ".repeat(indent), "^".repeat(carets))]
    }

    #[test]
    fn a_line_of_megabytes_is_cut_on_both_sides() {
        let line = format!("{}24 N·m{}", "ü ".repeat(600_000), " x".repeat(600_000));
        let at = line.find("24").unwrap();
        let shown = excerpt(&line, &(at..at + 7), 40);
        assert!(shown.line.starts_with('…') && shown.line.ends_with('…') && shown.line.contains("24 N·m"), "{}", shown.line);
        let carets: String = shown.line.chars().skip(shown.indent).take(shown.carets).collect();
        assert_eq!(carets, "24 N·m");
    }

    #[test]
    fn a_character_of_two_columns_moves_the_caret_by_two() {
        assert_eq!(drawn("軸受 25 Nm", "25", 40), ["軸受 25 Nm", "     ^^"]);
        assert_eq!(drawn("軸受 25 Nm", "受", 40), ["軸受 25 Nm", "  ^^"]);
    }

    #[test]
    fn a_combining_mark_takes_no_column() {
        assert_eq!(drawn("e\u{301}tau 25", "25", 40), ["e\u{301}tau 25", "     ^^"]);
        assert_eq!(drawn("e\u{301}tau 25", "\u{301}", 40), ["e\u{301}tau 25", "^"], "a mark is shown under its letter");
    }

    #[test]
    fn joined_emoji_take_two_columns() {
        let crew = "\u{1f468}\u{200d}\u{1f527} 25";
        assert_eq!(drawn(crew, "25", 40), [crew.to_owned(), "   ^^".to_owned()]);
    }

    #[test]
    fn a_tower_of_accents_comes_down() {
        let shown = excerpt(&format!("e{}", "\u{301}".repeat(200)), &(0..1), 4000).line;
        assert!(shown.starts_with("e\u{301}\u{301}"), "{shown}");
        assert!(shown.split(|c| c != '\u{301}').all(|tower| tower.chars().count() < 17), "{shown}");
    }

    #[test]
    fn tabs_go_to_the_next_stop() {
        assert_eq!(drawn("\ta\tb", "b", 40), ["    a   b", "        ^"]);
        assert_eq!(drawn("\ta\tb", "\tb", 40), ["    a   b", "     ^^^^"]);
    }

    #[test]
    fn a_long_line_is_cut_around_the_carets() {
        let line = format!("{}HERE{}", "a".repeat(100), "b".repeat(100));
        assert_eq!(drawn(&line, "HERE", 16), ["…aaaaaHEREbbbbb…", "      ^^^^"]);
        assert_eq!(drawn(&format!("HERE{line}"), "HERE", 10), ["HEREaaaa…", "^^^^"]);
        assert_eq!(drawn(&line, "b", 10), ["…HEREbbbb…", "     ^"]);
        let marked = "a".repeat(100);
        assert_eq!(drawn(&line, &marked, 10), ["aaaaaaaa…", "^^^^^^^^"], "a span longer than the room");
    }

    #[test]
    fn nothing_that_drives_a_terminal_comes_through() {
        assert_eq!(visible("\x1b[31mred\x07"), "␛[31mred␇");
        assert_eq!(visible("\u{9b}31m"), "<U+009B>31m");
        assert_eq!(visible("25\u{202e}mN\u{200b}"), "25<U+202E>mN<U+200B>");
        assert_eq!(visible("a\nb\tc\r"), "a␊b c␍");
        assert_eq!(visible("\u{7f}"), "␡");
    }
}
