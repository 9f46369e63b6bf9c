//! Values that stay on one line: a pass over a finished page.
//!
//! A browser may begin a new line behind the dash of `5–25 N·m`, of `1-4-2-5` and of `10W-30`, and at each space of
//! `M6 × 1.0 × 25 mm`. Read at a glance, half a range is a value, and a wrong one: what is broken there is put in an
//! element that never is (`bdi`, in `ground.css`), which also keeps its figures in their order beside text from right to left.

use super::numerals::{close_of, name_of};
use memchr::{memchr, memmem};

/// A longer row of numbers is broken after one of its dashes: it would not fit in a column.
const LONGEST: usize = 30;
/// So many numbers of such a row stay together.
const TOGETHER: usize = 5;

/// A page whose values are not broken. What has no value to be kept whole, most of a page, is copied in long pieces.
pub(super) fn unbroken(page: Vec<u8>) -> Vec<u8> {
    let mut out = Vec::new();
    // How much of the page `out` holds, and how much has been looked at.
    let (mut copied, mut at) = (0, memmem::find(&page, b"<body").unwrap_or(0));
    while let Some(rest) = page.get(at..) {
        let (length, may_break) = text_length(rest);
        let changed = if may_break { rest.get(..length).and_then(of_text) } else { None };
        if let Some(changed) = changed {
            if copied == 0 {
                out.reserve(page.len() + page.len() / 32);
            }
            out.extend_from_slice(page.get(copied..at).unwrap_or_default());
            out.extend_from_slice(changed.as_bytes());
            copied = at + length;
        }
        let Some(from) = rest.get(length..).filter(|from| !from.is_empty()) else { break };
        at += length + left_alone(from);
    }
    if copied == 0 {
        return page;
    }
    out.extend_from_slice(page.get(copied..).unwrap_or_default());
    out
}

/// The length of the text before the next tag, and whether it has a figure and one of the signs at which a value could be
/// broken. Most texts are a few bytes, so they are looked at once, a byte after another.
fn text_length(rest: &[u8]) -> (usize, bool) {
    let mut seen = 0;
    let length = rest.iter().position(|byte| {
        let kind = KINDS.get(usize::from(*byte)).copied().unwrap_or(0);
        seen |= kind;
        kind == TAG
    });
    (length.unwrap_or(rest.len()), seen & (FIGURE | SIGN) == FIGURE | SIGN)
}

const TAG: u8 = 1;
const FIGURE: u8 = 2;
const SIGN: u8 = 4;

/// What a byte of a text may be. Of `–`, `×` and `±` the last will do.
static KINDS: [u8; 256] = {
    let mut kinds = [0; 256];
    let mut byte = 0;
    while byte < kinds.len() {
        kinds[byte] = match byte {
            0x3c => TAG,
            0x30..=0x39 => FIGURE,
            0x2d | 0x93 | 0x97 | 0xb1 => SIGN,
            _ => 0,
        };
        byte += 1;
    }
    kinds
};

/// How much of what a tag begins is left as it is: the tag, or its whole element. `>` may stand in a quoted attribute.
fn left_alone(from: &[u8]) -> usize {
    let name = name_of(from);
    let mut whole = holds_no_values(name);
    let mut at = 1 + name.len();
    while let Some(rest) = from.get(at..) {
        let Some(length) = rest.iter().position(|byte| matches!(byte, b'"' | b'>')) else { break };
        let (before, sign) = rest.split_at(length);
        if sign.starts_with(b">") {
            at += length + 1;
            let element = whole && !before.ends_with(b"/");
            return at + if element { close_of(name, from.get(at..).unwrap_or_default()) } else { 0 };
        }
        let value = sign.get(1..).unwrap_or_default();
        let Some(close) = memchr(b'"', value) else { break };
        whole |= before.ends_with(b" class=") && value.get(..close).is_some_and(is_whole);
        at += length + close + 2;
    }
    from.len()
}

/// Elements whose text is as it was written, or holds no elements.
fn holds_no_values(name: &[u8]) -> bool {
    matches!(name, b"script" | b"style" | b"pre" | b"code" | b"title" | b"option" | b"textarea" | b"svg" | b"bdi" | b"time")
}

/// Classes of what is never broken anyway, and of what may be: groups of a fingerprint are no value.
fn is_whole(class: &[u8]) -> bool {
    matches!(class, b"figure" | b"other" | b"fingerprint")
}

/// A text between tags, where it is another one. Apart from the loop that finds such texts: it goes over every byte of a page,
/// and has too few registers with this in it.
#[inline(never)]
fn of_text(text: &[u8]) -> Option<String> {
    // A line can end behind the dash before a figure (`–` ends with 0x93), or at the space behind `×` (0x97) and `±` (0xb1).
    let ends = |pair: &[u8]| matches!(pair, [b'-' | 0x93, b'0'..=b'9'] | [0x97 | 0xb1, b' ']);
    if !text.windows(2).any(ends) {
        return None;
    }
    let text = std::str::from_utf8(text).ok()?;
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut changed = false;
    while let Some(start) = rest.find(|sign: char| !is_break(sign)) {
        let (gap, from) = rest.split_at(start);
        out.push_str(gap);
        let (value, behind) = from.split_at(value_end(from));
        rest = behind;
        if breaks(value) {
            wrap(value, &mut out);
            changed = true;
        } else {
            out.push_str(value);
        }
    }
    out.push_str(rest);
    changed.then_some(out)
}

/// Spaces at which a line may end.
fn is_break(sign: char) -> bool {
    matches!(sign, ' ' | '\n' | '\t' | '\r')
}

/// Where a word ends; one joined to the next by a sign between two numbers goes on, and so does a count with its thing.
fn value_end(from: &str) -> usize {
    let mut end = word_end(from);
    loop {
        let rest = from.get(end..).unwrap_or("");
        let joined = ["×", "±"].into_iter().find_map(|sign| {
            let behind = rest.strip_prefix(' ')?.strip_prefix(sign)?.strip_prefix(' ')?;
            let before = from.get(..end).unwrap_or("").trim_end_matches(|sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ','));
            let (counts, number) = (end > before.len(), behind.starts_with(|first: char| first.is_ascii_digit()));
            let thread = behind.strip_prefix('M').is_some_and(|size| size.starts_with(|first: char| first.is_ascii_digit()));
            // A count stands with its thing, unless that is so long that it needs a line of its own.
            let thing = sign == "×" && before.is_empty() && (1..=LONGEST).contains(&word_end(behind));
            (counts && (number || thread || thing)).then(|| from.len() - behind.len())
        });
        let Some(next) = joined else { return end };
        end = next + word_end(from.get(next..).unwrap_or(""));
    }
}

fn word_end(from: &str) -> usize {
    from.find(is_break).unwrap_or(from.len())
}

/// Whether a line could end within: at a space, or behind a dash that a number follows and one stands before.
fn breaks(value: &str) -> bool {
    value.contains(is_break) || {
        let mut numbers = false;
        let mut dash = false;
        value.chars().any(|sign| {
            let found = dash && sign.is_ascii_digit();
            dash = numbers && matches!(sign, '–' | '-');
            numbers = numbers || sign.is_ascii_digit();
            found
        })
    }
}

fn wrap(value: &str, out: &mut String) {
    // What closes a sentence, or stands round the value, is not part of it.
    let lead = value.len() - value.trim_start_matches(['(', '[']).len();
    // The sign at the end of `&quot;` closes no sentence.
    let tail = if value.contains('&') { value.len() } else { value.trim_end_matches([',', ';', ':', '.', ')', ']']).len() };
    let (Some(before), Some(inside), Some(after)) = (value.get(..lead), value.get(lead..tail), value.get(tail..)) else {
        out.push_str(value);
        return;
    };
    out.push_str(before);
    if inside.chars().count() <= LONGEST || inside.contains(is_break) {
        out.push_str("<bdi>");
        out.push_str(inside);
        out.push_str("</bdi>");
    } else {
        let numbers: Vec<&str> = inside.split_inclusive(['-', '–']).collect();
        for group in numbers.chunks(TOGETHER) {
            out.push_str("<bdi>");
            out.extend(group.iter().copied());
            out.push_str("</bdi>");
        }
    }
    out.push_str(after);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of_page(html: &str) -> String {
        String::from_utf8(unbroken(html.as_bytes().to_vec())).unwrap()
    }

    #[test]
    fn ranges_orders_and_sizes_stay_on_one_line() {
        for (written, kept) in [
            ("Click torque wrench 5–25\u{a0}N·m, 1/2 in", "Click torque wrench <bdi>5–25\u{a0}N·m</bdi>, 1/2 in"),
            ("order 1-4-2-5-3-6, by their places", "order <bdi>1-4-2-5-3-6</bdi>, by their places"),
            ("(from 2.00–3.00\u{a0}mm)", "(from <bdi>2.00–3.00\u{a0}mm</bdi>)"),
            ("four-stroke oil 10W-30", "four-stroke oil <bdi>10W-30</bdi>"),
            ("6 × M6 × 1.0 × 25\u{a0}mm, class A2-70", "<bdi>6 × M6 × 1.0 × 25\u{a0}mm</bdi>, class <bdi>A2-70</bdi>"),
            ("2 × Head dowel (round)", "<bdi>2 × Head</bdi> dowel (round)"),
            ("22 ± 0.5\u{a0}N·m", "<bdi>22 ± 0.5\u{a0}N·m</bdi>"),
            ("6:10–6:50", "<bdi>6:10–6:50</bdi>"),
            ("&quot;5–25&quot;", "<bdi>&quot;5–25&quot;</bdi>"),
        ] {
            assert_eq!(of_page(written), kept);
        }
    }

    #[test]
    fn a_long_order_breaks_after_a_dash_only() {
        let order = (1..=14).map(|turn| turn.to_string()).collect::<Vec<_>>().join("-");
        assert_eq!(of_page(&order), "<bdi>1-2-3-4-5-</bdi><bdi>6-7-8-9-10-</bdi><bdi>11-12-13-14</bdi>");
    }

    #[test]
    fn other_text_is_left_as_it_is() {
        for html in [
            "left-hand thread – slowly", "HB-2", "tarn-18/first-start", "a – b", "a × b", "-18\u{a0}°C", "5 mm",
            "<b class=\"figure\">5–25\u{a0}N·m</b> <span class=\"other\">(3.7–18)</span>",
            "<b class=\"fingerprint\">R26S-7KC1</b>", "<script>5–25</script>", "<svg><text>1-2</text></svg>", "<pre>1-2</pre>", "<a href=\"x-1-2\" title=\"1–2\">x</a>", "<time>2026-11-09</time>",
            "<title>1-2</title><body>x", "<", "<p", "1 ", " × ", "5 ×", "5 × ", "–",
        ] {
            assert_eq!(of_page(html), html);
        }
        assert_eq!(unbroken(b"1-2 \xff".to_vec()), b"1-2 \xff");
    }
}
