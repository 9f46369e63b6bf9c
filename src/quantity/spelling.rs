//! Spellings of units: which text stands for which unit, and which is nearest to an unknown one.

use super::table::{UNITS, VAGUE, Vague};
use super::unit::Unit;
use super::Dimension;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// What a spelling stands for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Meaning {
    Unit(&'static Unit),
    Vague(&'static Vague),
}

static MEANINGS: LazyLock<BTreeMap<String, Meaning>> = LazyLock::new(|| {
    let units = UNITS.iter().flat_map(|unit| {
        let all = std::iter::once(unit.symbol).chain(unit.others.iter().copied());
        all.map(move |text| (normal(text), Meaning::Unit(unit)))
    });
    let vague = VAGUE.iter().flat_map(|row| row.spellings.iter().map(move |text| (normal(text), Meaning::Vague(row))));
    units.chain(vague).filter(|(text, _)| !text.is_empty()).collect()
});

/// No spelling is longer than this many characters, spaces included.
const LONGEST: usize = 28;

/// The unit a whole spelling stands for.
pub(super) fn find(text: &str) -> Option<&'static Unit> {
    match MEANINGS.get(&normal(text)) {
        Some(Meaning::Unit(unit)) => Some(unit),
        _ => None,
    }
}

/// The longest spelling at the beginning of `text` that ends where a word ends, and its length in bytes.
pub(super) fn leading(text: &str) -> Option<(usize, Meaning)> {
    if text.chars().next().is_none_or(is_joiner) {
        return None;
    }
    let ends: Vec<usize> =
        text.char_indices().map(|(at, sign)| at + sign.len_utf8()).take(LONGEST).collect();
    ends.into_iter().rev().find_map(|end| {
        let (spelling, rest) = text.split_at_checked(end)?;
        let whole = ends_a_word(spelling) && !rest.chars().next().is_some_and(continues_a_unit);
        let meaning = whole.then(|| MEANINGS.get(&normal(spelling))).flatten()?;
        Some((end, *meaning))
    })
}

fn ends_a_word(spelling: &str) -> bool {
    spelling.chars().next_back().is_some_and(|sign| !sign.is_whitespace() && (sign == '.' || !is_joiner(sign)))
}

/// A sign that, standing after a unit, makes it another unit: `m/s`, `N·m·rad`, `mm²`.
pub(super) fn continues_a_unit(sign: char) -> bool {
    sign.is_alphanumeric() || matches!(sign, '·' | '⋅' | '/' | '²' | '³' | '^' | '°' | '%' | '\'' | '’')
}

/// Signs that may stand between the parts of a unit and are all read as the raised dot.
fn is_joiner(sign: char) -> bool {
    sign.is_whitespace() || matches!(sign, '·' | '⋅' | '•' | '∙' | '*' | '.' | '-' | '‐' | '‑')
}

/// One spelling for all that count as the same.
fn normal(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.trim().chars() {
        match sign {
            '\u{3bc}' => out.push('µ'),
            '℃' => out.push_str("°C"),
            '℉' => out.push_str("°F"),
            'º' | '˚' => out.push('°'),
            '∆' => out.push('Δ'),
            '^' => {}
            '(' => {
                drop_joiner(&mut out);
                out.push('(');
            }
            sign if is_joiner(sign) => {
                let after_sign = out.is_empty() || out.ends_with(['·', '°', 'Δ', '(']);
                if !after_sign {
                    out.push('·');
                }
            }
            sign => out.push(sign),
        }
    }
    drop_joiner(&mut out);
    if out.ends_with(['2', '3']) && out.chars().count() > 1 {
        let raised = if out.ends_with('2') { '²' } else { '³' };
        out.pop();
        out.push(raised);
    }
    out
}

fn drop_joiner(out: &mut String) {
    while out.ends_with('·') {
        out.pop();
    }
}

/// Spellings not accepted but understood: how many of which unit one of them is.
const ELSEWHERE: &[(&str, i64, &str)] = &[
    ("\"", 1, "in"),
    ("″", 1, "in"),
    ("”", 1, "in"),
    ("''", 1, "in"),
    ("ft", 12, "in"),
    ("foot", 12, "in"),
    ("feet", 12, "in"),
    ("'", 12, "in"),
    ("J", 1, "N·m"),
    ("week", 7, "d"),
    ("weeks", 7, "d"),
    ("#", 1, "lb"),
    ("dL", 100, "mL"),
];

/// What an unaccepted spelling is in a unit of a wanted kind (of any, when none is named).
pub(super) fn elsewhere(text: &str, wanted: &[Dimension]) -> Option<(i64, &'static Unit)> {
    let (_, factor, symbol) = ELSEWHERE.iter().find(|(spelling, ..)| *spelling == text)?;
    find(symbol).filter(|unit| wanted.is_empty() || wanted.contains(&unit.dimension())).map(|unit| (*factor, unit))
}

/// The units whose spelling is nearest to an unknown one, of the wanted kinds only (of all, when none is named).
/// At most three, nearest first.
pub(super) fn nearest(text: &str, wanted: &[Dimension]) -> Vec<&'static Unit> {
    let seen: Vec<char> = normal(text).to_lowercase().chars().take(LONGEST).collect();
    let allowed = (seen.len() / 3).max(1);
    let mut found: Vec<(usize, &'static str, &'static Unit)> = Vec::new();
    for (spelling, meaning) in MEANINGS.iter() {
        let Meaning::Unit(unit) = meaning else { continue };
        let distance = edits(&seen, &spelling.to_lowercase().chars().collect::<Vec<_>>());
        let fits = wanted.is_empty() || wanted.contains(&unit.dimension());
        if fits && distance <= allowed && distance < seen.len() {
            found.push((distance, unit.symbol, unit));
        }
    }
    found.sort_by_key(|(distance, symbol, _)| (*distance, *symbol));
    let mut units: Vec<&'static Unit> = Vec::new();
    for (_, _, unit) in found {
        if !units.contains(&unit) {
            units.push(unit);
        }
    }
    units.truncate(3);
    units
}

/// Single-letter edits that turn one spelling into the other.
fn edits(from: &[char], to: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (line, a) in from.iter().enumerate() {
        let mut next = vec![line + 1];
        for ((b, above), diagonal) in to.iter().zip(row.iter().skip(1)).zip(row.iter()) {
            let left = next.last().copied().unwrap_or(0);
            next.push((above + 1).min(left + 1).min(diagonal + usize::from(a != b)));
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_are_found() {
        for (text, symbol) in [
            ("N·m", "N·m"), ("N.m", "N·m"), ("Nm", "N·m"), ("N m", "N·m"), ("N*m", "N·m"), ("N-m", "N·m"), ("N⋅m", "N·m"),
            ("nm", "N·m"), ("ft-lb", "lbf·ft"), ("lb-ft", "lbf·ft"), ("ft·lb", "lbf·ft"), ("lb·ft", "lbf·ft"),
            ("ft-lbf", "lbf·ft"), ("lbf-ft", "lbf·ft"), ("ft·lbf", "lbf·ft"), ("ftlbf", "lbf·ft"), ("ft lb", "lbf·ft"),
            ("ft.lbs.", "lbf·ft"), ("in-lb", "lbf·in"), ("in.lb", "lbf·in"), ("kg-m", "kgf·m"), ("um", "µm"), ("μm", "µm"),
            ("in.", "in"), ("mil", "thou"), ("degC", "°C"), ("° C", "°C"), ("℃", "°C"), ("Δ °C", "Δ°C"), ("∆°F", "Δ°F"),
            ("fl. oz. (US)", "fl oz (US)"), ("fl oz(US)", "fl oz (US)"), ("US pt", "pt (US)"), ("cm^3", "cm³"), ("cc", "cm³"),
            ("rpm", "r/min"), ("kg/cm2", "kgf/cm²"), ("l", "L"), ("lbs", "lb"), ("º", "°"),
        ] {
            assert_eq!(find(text).map(Unit::symbol), Some(symbol), "{text}");
        }
    }

    #[test]
    fn other_texts_are_no_unit() {
        for text in ["", " ", "C", "F", "pt", "fl oz", "gal", "mN", "k", "NM", "mpa", "\"", "bolts", "·", "x"] {
            assert_eq!(find(text), None, "{text}");
        }
    }

    #[test]
    fn no_spelling_stands_for_two_units() {
        let mut seen = BTreeMap::new();
        for unit in UNITS.iter().filter(|unit| !unit.symbol.is_empty()) {
            for text in std::iter::once(&unit.symbol).chain(unit.others) {
                assert!(text.chars().count() <= LONGEST, "{text}");
                let before = seen.insert(normal(text), unit);
                assert!(before.is_none_or(|other| other == unit), "{text} is {unit} and {before:?}");
            }
        }
        for text in VAGUE.iter().flat_map(|row| row.spellings) {
            assert!(!seen.contains_key(&normal(text)), "{text}");
        }
    }

    #[test]
    fn the_longest_spelling_wins() {
        let lead = |text| match leading(text) {
            Some((length, Meaning::Unit(unit))) => Some((length, unit.symbol)),
            _ => None,
        };
        assert_eq!(lead("in-lb"), Some((5, "lbf·in")));
        assert_eq!(lead("in - 6 in"), Some((2, "in")));
        assert_eq!(lead("fl oz (US) more"), Some((10, "fl oz (US)")));
        assert_eq!(lead("m/s"), None);
        assert_eq!(lead("mm²"), None);
        assert_eq!(lead("minor"), None);
    }

    #[test]
    fn the_nearest_spelling_is_offered() {
        for (text, kind, offered) in [
            ("NM", Dimension::Torque, "N·m"), ("N/m", Dimension::Torque, "N·m"), ("fl-lb", Dimension::Torque, "lbf·ft"),
            ("MM", Dimension::Length, "mm"), ("Psi", Dimension::Pressure, "psi"),
            ("Bar", Dimension::Pressure, "bar"), ("houres", Dimension::Time, "h"), ("ML", Dimension::Volume, "mL"),
        ] {
            assert_eq!(nearest(text, &[kind]).first().map(|unit| unit.symbol()), Some(offered), "{text}");
        }
        assert_eq!(elsewhere("ft", &[Dimension::Length]).map(|(factor, unit)| (factor, unit.symbol)), Some((12, "in")));
        assert!(elsewhere("ft", &[Dimension::Torque]).is_none());
        assert!(nearest("zzzzzz", &[]).is_empty());
    }
}
