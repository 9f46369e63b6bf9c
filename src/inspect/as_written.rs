//! Values as an author writes them: when two say the same, and how one is written into a change line.

use super::changes::combination;
use crate::quantity::Quantity;

/// Whether two texts say the same, as quantities where they are. Lists and maps are compared piece by piece, and quotes are no value.
#[must_use]
pub fn same_value(one: &str, other: &str) -> bool {
    alike(one, other, |one, other| one.same_value(other))
}

/// Whether both say the same, be it in two units.
pub(super) fn says_the_same(one: &str, other: &str) -> bool {
    alike(one, other, Quantity::says_the_same)
}

fn alike(one: &str, other: &str, same: impl Fn(&Quantity, &Quantity) -> bool) -> bool {
    if one == other {
        return true;
    }
    let (one, other) = (pieces(one), pieces(other));
    let piece = |one: &str, other: &str| one == other || matches!((Quantity::parse_free(one), Quantity::parse_free(other)), (Ok(one), Ok(other)) if same(&one, &other));
    one.len() == other.len() && one.iter().zip(&other).all(|(one, other)| piece(one, other))
}

/// A text's brackets and what stands between them and commas, without quotes; of a text that is neither list nor map its words alone.
fn pieces(text: &str) -> Vec<String> {
    let text = unquoted(text);
    if !text.starts_with(['[', '{']) {
        return vec![text];
    }
    let mut pieces = Vec::new();
    let mut rest = text.as_str();
    while let Some(at) = rest.find(['[', ']', '{', '}', ',']) {
        let (piece, sign) = (rest.get(..at).unwrap_or(""), rest.get(at..at + 1).unwrap_or(""));
        pieces.extend(leaf(piece));
        pieces.extend((sign != ",").then(|| sign.to_owned()));
        rest = rest.get(at + 1..).unwrap_or("");
    }
    pieces.extend(leaf(rest));
    pieces
}

/// `spigot: 'frame'` as its key and its value.
fn leaf(text: &str) -> Vec<String> {
    let parts = text.split_once(": ").map_or_else(|| vec![text], |(key, value)| vec![key, value]);
    parts.into_iter().map(str::trim).filter(|part| !part.is_empty()).map(|part| unquoted(part).trim_end_matches(':').to_owned()).collect()
}

/// A text without the quotes that YAML needs, and with what they make of its own quotes undone.
fn unquoted(text: &str) -> String {
    let within = |mark: char| text.strip_prefix(mark)?.strip_suffix(mark);
    if let Some(inner) = within('\'') {
        return inner.replace("''", "'");
    }
    within('"').map_or_else(|| text.to_owned(), |inner| inner.replace("\\\"", "\"").replace("\\\\", "\\"))
}

/// A value as it can stand within a map's braces: what is plain only on a line of its own is quoted.
pub(super) fn in_braces(text: &str) -> String {
    let (first, last) = (text.chars().next(), text.chars().last());
    let closed = [('[', ']'), ('{', '}'), ('\'', '\''), ('"', '"')].into_iter().any(|(open, close)| first == Some(open) && last == Some(close) && text.len() > 1);
    let of_block = text.contains([',', '[', ']', '{', '}', '#', '"', '\'']) || text.contains(": ") || text.ends_with(':');
    let begins_oddly = text.starts_with(['-', '&', '*', '!', '|', '>', '%', '@', '`', '?']) || text.is_empty();
    if closed || !(of_block || begins_oddly) { text.to_owned() } else { format!("'{}'", text.replace('\'', "''")) }
}

/// What a change line says behind `was:` of a value that holds under a condition of the ledger, `serial late, shaft L`.
pub(super) fn was(when: &str, text: &str) -> String {
    let value = in_braces(text);
    let condition = combination(when);
    match condition.0.iter().collect::<Vec<_>>().as_slice() {
        [] => value,
        [(_, variant)] => format!("{{{variant}: {value}}}"),
        several => {
            let axes: Vec<String> = several.iter().map(|(axis, variant)| format!("{axis}: {variant}")).collect();
            format!("[{{for: {{{}}}, is: {value}}}]", axes.join(", "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{in_braces, same_value as same, was};

    #[test]
    fn two_spellings_of_a_value_are_no_change() {
        assert!(same("78 N·m", "78.0 Nm") && same("70–80 N·m", "70 to 80 N.m") && same("dry", "dry"));
        assert!(!same("78 N·m", "70 N·m") && !same("78 N·m", "78 lbf·ft") && !same("dry", "oiled"));
    }

    #[test]
    fn lists_maps_and_quoted_words_are_compared_by_what_they_hold() {
        for (one, other) in [
            ("[20 lbf·ft, 40 lbf·ft]", "[ 20.0 lbf·ft,40 ft·lbf ]"),
            ("{spigot: frame}", "{ spigot: 'frame' }"),
            ("'no drop, ten minutes'", "no drop, ten minutes"),
            ("'it''s dry'", "\"it's dry\""),
            ("'0714'", "0714"),
            ("[{source: a, says: 9 N·m}]", "[{source: a, says: 9.0 N·m}]"),
        ] {
            assert!(same(one, other) && same(other, one), "{one} {other}");
        }
        for (one, other) in [("[20 N·m, 40 N·m]", "[25 N·m, 40 N·m]"), ("[20 N·m, 40 N·m]", "20 N·m, 40 N·m"), ("{a: b}", "{a: c}"), ("[[1, 2]]", "[1, 2]"), ("[a, b]", "{a, b}")] {
            assert!(!same(one, other), "{one} {other}");
        }
    }

    #[test]
    fn what_is_written_into_a_line_reads_as_it_was() {
        for (text, written) in [
            ("70 N·m", "70 N·m"),
            ("[20 N·m, 90°]", "[20 N·m, 90°]"),
            ("'ten minutes, at 4 bar'", "'ten minutes, at 4 bar'"),
            ("ten minutes, at 4 bar", "'ten minutes, at 4 bar'"),
            ("it's: dry", "'it''s: dry'"),
            ("- 20 N·m - 40 N·m", "'- 20 N·m - 40 N·m'"),
            ("spigot: frame nose: air", "'spigot: frame nose: air'"),
        ] {
            assert_eq!(in_braces(text), written);
            assert!(same(text, written), "{text}");
        }
        assert_eq!(was("", "70 N·m"), "70 N·m");
        assert_eq!(was("serial late", "[20 N·m, 90°]"), "{late: [20 N·m, 90°]}");
        assert_eq!(was("serial late, shaft L", "70 N·m"), "[{for: {serial: late, shaft: L}, is: 70 N·m}]");
    }
}
