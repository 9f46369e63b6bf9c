//! Numbers as the language of the pages writes them: one pass over a finished page.
//!
//! Authors write the decimal point, and everything that machines read keeps it: data blocks, addresses, the index of the
//! search, feeds, fingerprints. Only what a person reads is changed, and only where a number is a value: the text between
//! tags and the attributes that are read aloud. Property classes (`8.8`, ISO 898-1 writes them with a point in every
//! language), numbers of steps (`2.1`), of parts and of revisions stay as they are.

use crate::quantity::Unit;
use memchr::{memchr, memchr2, memchr_iter};
use std::borrow::Cow;

/// Elements whose text is as it was written: scripts read it, or an author's source is shown.
const AS_WRITTEN: &[&[u8]] = &[b"script", b"style", b"pre", b"code"];
/// Attributes that a reader hears or is shown.
const READ_ALOUD: &[&str] = &["aria-label", "alt", "title", "label", "content"];
/// What joins the numbers of one value: `0.20–0.32 mm`, `22 ± 0.5 N·m`, `M8x1.25`.
const JOINTS: &[&str] = &["–", "—", "-", "−", "±", "×", "x", "to", "bis"];
/// What makes a number a value besides the units of quantities.
const MORE_UNITS: &[&str] = &["kN", "%", "°"];
/// No spelling of a unit is longer, in characters.
const LONGEST: usize = 28;

/// A page in which values have the decimal mark `mark`. Parts in another language (`lang="en"`), such as findings, keep theirs.
pub(super) fn localised(page: Vec<u8>, mark: char) -> Vec<u8> {
    if mark == '.' {
        return page;
    }
    match String::from_utf8(page) {
        Ok(html) => of_page(&html, mark).into_bytes(),
        Err(error) => error.into_bytes(),
    }
}

fn of_page(html: &str, mark: char) -> String {
    let mut out = String::with_capacity(html.len());
    let mut rest = html;
    while let Some(open) = rest.find('<') {
        let (text, from) = rest.split_at(open);
        out.push_str(&of_text(text, mark));
        let end = tag_end(from);
        let (tag, behind) = from.split_at(end);
        let name = name_of(tag.as_bytes());
        let foreign = tag.contains(" lang=\"") && name != b"html";
        if (foreign || AS_WRITTEN.contains(&name)) && !tag.ends_with("/>") && !name.is_empty() {
            let close = close_of(name, behind.as_bytes());
            let (inside, after) = behind.split_at(close);
            out.push_str(tag);
            out.push_str(inside);
            rest = after;
        } else {
            out.push_str(&of_tag(tag, mark));
            rest = behind;
        }
    }
    out.push_str(&of_text(rest, mark));
    out
}

/// Where a tag ends; `>` may stand in a quoted attribute.
fn tag_end(from: &str) -> usize {
    let rest = |at: usize| from.as_bytes().get(at..).unwrap_or_default();
    let mut at = 0;
    while let Some(sign) = memchr2(b'"', b'>', rest(at)).map(|found| at + found) {
        if rest(sign).starts_with(b">") {
            return sign + 1;
        }
        let Some(close) = memchr(b'"', rest(sign + 1)) else { break };
        at = sign + 1 + close + 1;
    }
    from.len()
}

/// The name of an opening tag; empty for a closing one.
pub(super) fn name_of(tag: &[u8]) -> &[u8] {
    let name = tag.get(1..).unwrap_or_default();
    let length = name.iter().take_while(|byte| byte.is_ascii_alphanumeric()).count();
    name.get(..length).unwrap_or_default()
}

/// Where the closing tag of an element stands, those of the same name within it passed over.
pub(super) fn close_of(name: &[u8], behind: &[u8]) -> usize {
    let nests = !AS_WRITTEN.contains(&name);
    let mut depth = 0_usize;
    for next in memchr_iter(b'<', behind) {
        let rest = behind.get(next + 1..).unwrap_or_default();
        if let Some(closing) = rest.strip_prefix(b"/") {
            if closing.strip_prefix(name).is_some_and(|end| end.starts_with(b">")) {
                if depth == 0 {
                    return next;
                }
                depth -= 1;
            }
        } else if nests && rest.strip_prefix(name).is_some_and(|end| !end.first().is_some_and(u8::is_ascii_alphanumeric)) {
            depth += 1;
        }
    }
    behind.len()
}

/// A tag with the attributes that are read aloud.
fn of_tag(tag: &str, mark: char) -> Cow<'_, str> {
    if !READ_ALOUD.iter().any(|name| tag.contains(name)) {
        return Cow::Borrowed(tag);
    }
    let mut out = String::with_capacity(tag.len());
    // Outside quotes stand names, inside values, in turn.
    for (index, part) in tag.split('"').enumerate() {
        let before = out.trim_end_matches('=').rsplit(' ').next().unwrap_or("").to_owned();
        if index > 0 {
            out.push('"');
        }
        if index % 2 == 1 && READ_ALOUD.contains(&before.as_str()) {
            out.push_str(&of_text(part, mark));
        } else {
            out.push_str(part);
        }
    }
    Cow::Owned(out)
}

/// A text in which the values have the decimal mark.
fn of_text(text: &str, mark: char) -> Cow<'_, str> {
    if !text.contains('.') {
        return Cow::Borrowed(text);
    }
    let points = points_of_values(text);
    if points.is_empty() {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut from = 0;
    for at in points {
        out.push_str(text.get(from..at).unwrap_or(""));
        out.push(mark);
        from = at + 1;
    }
    out.push_str(text.get(from..).unwrap_or(""));
    Cow::Owned(out)
}

/// Where the decimal points of values stand, in order.
fn points_of_values(text: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = text.get(at..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())).map(|next| at + next) {
        let chain = Chain::read(text, start);
        if chain.is_value {
            found.extend(chain.points);
        }
        at = chain.end.max(start + 1);
    }
    found
}

/// Numbers joined to one value.
struct Chain {
    points: Vec<usize>,
    end: usize,
    is_value: bool,
}

impl Chain {
    fn read(text: &str, start: usize) -> Self {
        let before = text.get(..start).unwrap_or("");
        let thread = is_thread(before, text.get(start..).unwrap_or(""));
        let tied = !thread && begins_inside(before);
        let mut chain = Self { points: Vec::new(), end: start, is_value: thread };
        let mut at = start;
        while let Some((point, end)) = number(text, at) {
            chain.points.extend(point);
            chain.end = end;
            let rest = text.get(end..).unwrap_or("");
            let unit = unit_length(rest, text.get(at..end).unwrap_or(""));
            chain.is_value = chain.is_value || unit.is_some();
            let after = end + unit.unwrap_or(0);
            chain.end = chain.end.max(after);
            // `M6x20-8.8`: the class is no part of the size.
            let Some(next) = joined(text, after, unit.is_some()).filter(|_| !(thread && text.get(after..).is_some_and(|rest| rest.starts_with('-')))) else { break };
            at = next;
        }
        // A date, a clock time, a number of three parts: no value, whatever follows.
        let tail = text.get(chain.end..).unwrap_or("").as_bytes();
        let runs_on = matches!(tail, [b'.' | b':', digit, ..] if digit.is_ascii_digit());
        chain.is_value = chain.is_value && !tied && !runs_on;
        chain
    }
}

/// A number at a place: its decimal point, if it has one, and its end.
fn number(text: &str, at: usize) -> Option<(Option<usize>, usize)> {
    let digits = |from: usize| text.get(from..).unwrap_or("").bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(at);
    let end = at + whole;
    if whole == 0 {
        return None;
    }
    let decimals = if text.get(end..).is_some_and(|rest| rest.starts_with('.')) { digits(end + 1) } else { 0 };
    Some(if decimals > 0 { (Some(end), end + 1 + decimals) } else { (None, end) })
}

/// Where the next number of a value begins: behind a joint, or in parentheses behind the unit (`79.7 lbf·in (75.3–84.0)`).
fn joined(text: &str, at: usize, behind_unit: bool) -> Option<usize> {
    let rest = text.get(at..)?;
    let trimmed = rest.trim_start();
    let joint = JOINTS.iter().find_map(|joint| trimmed.strip_prefix(joint));
    let next = joint.or_else(|| trimmed.strip_prefix('(').filter(|_| behind_unit))?.trim_start();
    next.starts_with(|sign: char| sign.is_ascii_digit()).then(|| text.len() - next.len())
}

/// `M8 × 1.25`, `M8x1.25`: a pitch follows the diameter, which DIN 13 writes as the language writes decimals.
fn is_thread(before: &str, from: &str) -> bool {
    let is_metric = before.strip_suffix('M').is_some_and(|lead| !lead.ends_with(char::is_alphanumeric));
    is_metric && {
        let behind = from.trim_start_matches(|sign: char| sign.is_ascii_digit() || sign == '.').trim_start();
        behind.starts_with(['x', '×'])
    }
}

/// `PB-9.5`, `v1.2`, `#1.5`: what stands before ties the number to something else. A sign of diameter does not.
fn begins_inside(before: &str) -> bool {
    let mut signs = before.chars().rev();
    match signs.next() {
        Some('-' | '/' | '.' | ':' | '_') => signs.next().is_some_and(char::is_alphanumeric),
        Some('#') => true,
        Some('Ø' | 'ø') => false,
        Some(sign) => sign.is_alphanumeric(),
        None => false,
    }
}

/// How many bytes, spaces and all, the unit behind a number takes.
fn unit_length(rest: &str, number: &str) -> Option<usize> {
    let spelled = rest.trim_start_matches([' ', '\u{a0}', '\u{202f}']);
    let gap = rest.len() - spelled.len();
    let more = MORE_UNITS.iter().filter(|unit| spelled.starts_with(**unit)).map(|unit| unit.len()).max();
    let ends = spelled.char_indices().map(|(at, sign)| at + sign.len_utf8()).take(LONGEST);
    let unit = ends.filter(|end| is_unit(spelled.get(..*end).unwrap_or(""), spelled.get(*end..).unwrap_or(""))).last();
    let length = unit.into_iter().chain(more).max()?;
    // `8.8 in Aluminium`: no inches, but where.
    let is_preposition = spelled.get(..length) == Some("in") && !ends_a_value(spelled.get(length..).unwrap_or(""));
    let is_class = spelled.get(..length) == Some("in") && matches!(number, "8.8" | "10.9" | "12.9");
    (!is_preposition && !is_class).then_some(gap + length)
}

fn is_unit(spelling: &str, rest: &str) -> bool {
    let whole = !spelling.ends_with([' ', '\u{a0}', '.', ',']) && !rest.starts_with(|sign: char| sign.is_alphanumeric() || matches!(sign, '·' | '/' | '²' | '³'));
    whole && Unit::find(spelling).is_some_and(|unit| !unit.symbol().is_empty())
}

fn ends_a_value(rest: &str) -> bool {
    let rest = rest.trim_start();
    rest.is_empty() || rest.starts_with(|sign: char| !sign.is_alphanumeric())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn german(text: &str) -> String {
        of_page(text, ',')
    }

    #[test]
    fn values_have_the_comma() {
        for (written, read) in [
            ("0.71 mm", "0,71 mm"),
            ("0.20–0.32\u{a0}mm", "0,20–0,32\u{a0}mm"),
            ("22 ± 0.5 N·m", "22 ± 0,5 N·m"),
            ("9 ± 0.5 Nm [79.7 lbf·in (75.3–84.0)]", "9 ± 0,5 Nm [79,7 lbf·in (75,3–84,0)]"),
            ("12.5 N·m (9.22 lbf·ft)", "12,5 N·m (9,22 lbf·ft)"),
            ("8 × M6 × 1.0 × 45 mm, Klasse 8.8", "8 × M6 × 1,0 × 45 mm, Klasse 8.8"),
            ("M12x1.25, 2.5 mm", "M12x1,25, 2,5 mm"),
            ("etwa 11.2 kN (9.4–13.8 kN)", "etwa 11,2 kN (9,4–13,8 kN)"),
            ("2.34°", "2,34°"),
            ("Ø 57.94 mm, Ø57.94 mm", "Ø 57,94 mm, Ø57,94 mm"),
            ("0.020 in.", "0,020 in."),
            ("0.90 mm + Messwert − 0.64 mm", "0,90 mm + Messwert − 0,64 mm"),
            ("30.5x42x7.5 mm", "30,5x42x7,5 mm"),
            ("± 4.5 %", "± 4,5 %"),
        ] {
            assert_eq!(german(written), read);
        }
    }

    #[test]
    fn what_is_no_value_keeps_the_point() {
        for text in [
            "Klasse 8.8", "M6x20-8.8", "8.8 in Aluminium", "Schritt 2.1", "Zeilen 2.1, 3.4", "Nr. 0714.5", "14.09.2026", "Ausgabe 1.2", "PB-9.5 mm", "v1.2 mm",
            "8.45 Uhr", "Satz. 5 mm", "192.168.0.1", "1.2.3 mm", "Seite 3.2", "benchleaf 0.9", "a.b", "5. mm",
        ] {
            assert_eq!(german(text), text);
        }
    }

    #[test]
    fn machines_read_the_point() {
        for html in [
            "<script type=\"application/json\">{\"text\":\"0.71 mm\"}</script>",
            "<pre>torque: 0.71 mm <b>0.5 mm</b></pre>",
            "<code>0.71 mm</code>",
            "<a href=\"0.71 mm\" data-value=\"0.71 mm\">",
            "<p lang=\"en\">write <span>0.71 mm</span><p>nested 0.5 mm</p></p>",
            "<svg viewBox=\"0 0 1.5 2.5\"><path d=\"M8.1 1.25 mm\"/></svg>",
        ] {
            assert_eq!(german(html), html);
        }
        assert_eq!(german("<p lang=\"en\">0.5 mm</p><b>0.5 mm</b>"), "<p lang=\"en\">0.5 mm</p><b>0,5 mm</b>");
        assert_eq!(german("<i aria-label=\"Soll 0.5 mm > 0.4 mm\" id=\"a0.5 mm\">"), "<i aria-label=\"Soll 0,5 mm > 0,4 mm\" id=\"a0.5 mm\">");
    }

    #[test]
    fn a_language_with_the_point_changes_nothing() {
        assert_eq!(localised(b"<p>0.71 mm \xff".to_vec(), '.'), b"<p>0.71 mm \xff");
        assert_eq!(localised(b"<p>0.71 mm \xff".to_vec(), ','), b"<p>0.71 mm \xff");
    }

    #[test]
    fn broken_markup_is_no_reason_to_stop() {
        for html in ["<", "<p", "<p \"", "<script>0.5 mm", "0.", "<p lang=\"en\"", "€0.5 mm", "M8x", "1.", "1.5", "1.5 ", "0.5 mm (", "<i alt=\"0.5"] {
            assert!(!german(html).is_empty());
        }
    }
}
