//! How a value is shown: the author's unit first, then the other unit; by variant where it varies.

use crate::manual::{Combination, Varied};
use crate::quantity::{Dimension, Exact, Quantity, Unit, find_in_prose};
use foldhash::HashMap;
use serde::Serialize;
use std::cell::RefCell;

/// A line of a value: `early 70 N·m (51.6 lbf·ft)`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct Line {
    /// For which variant, or which of several values it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The value to read first.
    pub main: String,
    /// The same value in another unit, in parentheses; in brackets, as drawings set a second dimension
    /// (ASME Y14.5), where it has parentheses of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other: Option<String>,
}

impl Line {
    /// A line that says one thing.
    pub(super) fn of(main: impl Into<String>) -> Self {
        Self { label: None, main: main.into(), other: None }
    }

    /// The line with a label; labels that are there already stand after it.
    pub(super) fn labelled(mut self, label: Option<&str>) -> Self {
        self.label = match (label, self.label.take()) {
            (Some(outer), Some(inner)) => Some(format!("{outer} · {inner}")),
            (outer, inner) => inner.or_else(|| outer.map(str::to_owned)),
        };
        self
    }
}

/// The cases of a value that can hold where `known` is known, each with the variant values that are not
/// known yet. A case that holds in any event ends the list.
pub(super) fn cases<'v, T>(varied: &'v Varied<T>, known: &'v Combination) -> impl Iterator<Item = (Option<String>, &'v T)> {
    let mut decided = false;
    varied.cases_within(known).map_while(move |case| {
        if decided {
            return None;
        }
        decided = known.satisfies(&case.when);
        let label = (!decided).then(|| variant_label(&case.when, known));
        Some((label, &case.value))
    })
}

/// The values of a condition that are not known yet: `L · late`. Values are unique across axes, so the
/// axis need not be named.
pub(super) fn variant_label(when: &Combination, known: &Combination) -> String {
    let values: Vec<&str> =
        when.0.iter().filter(|(axis, _)| !known.0.contains_key(*axis)).map(|(_, value)| value.as_str()).collect();
    values.join(" · ")
}

/// A value in words, by variant: `early 70 N·m · late 78 N·m`. None where it is not given.
pub(super) fn varied_text<T>(varied: &Varied<T>, known: &Combination, show: impl Fn(&T) -> String) -> Option<String> {
    let mut parts = cases(varied, known).map(|(label, value)| match label {
        Some(label) => format!("{label} {}", show(value)),
        None => show(value),
    });
    let mut text = parts.next()?;
    for part in parts {
        text.push_str(" · ");
        text.push_str(&part);
    }
    Some(text)
}

/// A quantity as written, and in the first of `units` that is not the author's own.
pub(super) fn quantity_line(quantity: &Quantity, units: &[&'static Unit]) -> Line {
    Line { label: None, main: as_written(quantity), other: other_unit(quantity, units, Rounding::Told) }
}

/// The scale of a wrench in hand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale<'s> {
    /// Its unit.
    pub unit: &'static Unit,
    /// From mark to mark, where that is known.
    pub step: Option<&'s Quantity>,
}

/// A torque as it is set on the wrench in hand, as written beside it where that differs; without a wrench as written, and
/// in the first of `units` that is not the author's own. No narrow band leaves the unit that is asked for.
pub(super) fn torque_line(quantity: &Quantity, wrench: Option<Scale<'_>>, units: &[&'static Unit]) -> Line {
    let on_scale = wrench.filter(|scale| scale.unit != quantity.unit()).and_then(|scale| quantity.on_scale(scale.unit, scale.step));
    match on_scale {
        Some(main) => Line { label: None, main: glued(&main.to_string()), other: Some(enclosed(&glued(quantity.written()))) },
        None => Line { label: None, main: as_written(quantity), other: other_unit(quantity, units, Rounding::Kept) },
    }
}

/// A torque as its author wrote it, and beside it what a sheet sets on the wrench in hand: page and sheet call a torque by
/// the same two figures, each with its own first. Where the wrench reads in no unit of `units`, as converted.
pub(super) fn torque_beside(quantity: &Quantity, wrench: Option<Scale<'_>>, units: &[&'static Unit]) -> Line {
    let plain = torque_line(quantity, None, units);
    let shown = || units.iter().find(|unit| unit.dimension() == quantity.dimension() && !says_the_same(quantity.unit(), unit));
    let scale = wrench.filter(|scale| plain.other.is_some() && shown().is_some_and(|unit| **unit == *scale.unit));
    match scale.and_then(|scale| quantity.on_scale(scale.unit, scale.step)) {
        Some(mark) => Line { other: Some(enclosed(&glued(&mark.to_string()))), ..plain },
        None => plain,
    }
}

/// A quantity in one text: `78 N·m (57.5 lbf·ft)`.
pub(super) fn quantity_text(quantity: &Quantity, units: &[&'static Unit]) -> String {
    let line = quantity_line(quantity, units);
    match line.other {
        Some(other) => format!("{} {other}", line.main),
        None => line.main,
    }
}

/// Words in which no number parts from its unit: `Torque wrench 5–25 N·m` may break before the number only.
pub(super) fn values_glued(words: &str) -> String {
    // Most names have no number, and those that have one stand on many pages.
    if !words.bytes().any(|byte| byte.is_ascii_digit() || !byte.is_ascii()) {
        return words.to_owned();
    }
    if words.len() > LONGEST_GLUED {
        return found_and_glued(words);
    }
    GLUED.with_borrow_mut(|known| {
        if let Some(glued) = known.get(words) {
            return glued.clone();
        }
        if known.len() >= MOST_KNOWN {
            known.clear();
        }
        let glued = found_and_glued(words);
        known.insert(words.to_owned(), glued.clone());
        glued
    })
}

fn found_and_glued(words: &str) -> String {
    let mut shown = String::with_capacity(words.len());
    let mut from = 0;
    for span in find_in_prose(words) {
        shown.push_str(words.get(from..span.start).unwrap_or(""));
        shown.push_str(&glued(words.get(span.clone()).unwrap_or("")));
        from = span.end;
    }
    shown.push_str(words.get(from..).unwrap_or(""));
    shown
}

/// Text whose parts never stand on two lines.
pub(super) fn glued(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

fn other_unit(quantity: &Quantity, units: &[&'static Unit], rounding: Rounding) -> Option<String> {
    // An author who wrote both units has said which ones matter.
    if quantity.second().is_some() {
        return None;
    }
    // Nothing is nothing in every unit that begins at nothing.
    if quantity.dimension() != Dimension::Temperature && quantity.exact_nominal().is_some_and(|value| value.is_zero()) {
        return None;
    }
    let other = units.iter().find_map(|unit| in_unit(quantity, unit, rounding))?;
    Some(enclosed(&other))
}

/// The value in its author's words. A second unit with parentheses of its own stands in brackets, as one that was converted does.
fn as_written(quantity: &Quantity) -> String {
    let written = quantity.written();
    let parts = written.strip_suffix("))").and_then(|rest| rest.split_once(" (")).filter(|_| quantity.second().is_some());
    glued(&parts.map_or_else(|| written.to_owned(), |(first, second)| format!("{first} [{second})]")))
}

/// Whether one unit is the other, or the other with the point moved, as L and mL are: beside it, it tells nobody anything.
fn says_the_same(unit: &Unit, other: &Unit) -> bool {
    // Most units are of another kind or the same: only the others are worth a quotient.
    let is_moved = || {
        let ratio = other.exact_size().over(&unit.exact_size());
        ratio.is_some_and(|ratio| ratio.magnitude().is_some_and(|power| Exact::ten_to(power) == ratio))
    };
    unit == other || (unit.dimension() == other.dimension() && is_moved())
}

fn enclosed(text: &str) -> String {
    if text.contains('(') { format!("[{text}]") } else { format!("({text})") }
}

thread_local! {
    /// What was written in which unit, and how it reads in another: a value stands on its page, on each of its sheets and in
    /// the tables. What is written is all that a conversion hangs on.
    static KNOWN: RefCell<HashMap<String, Vec<Known>>> = RefCell::default();

    /// Names of at most so many bytes, with what is glued in them.
    static GLUED: RefCell<HashMap<String, String>> = RefCell::default();
}

/// The two units, how it is rounded, and the text; none where it tells nothing.
type Known = (&'static Unit, &'static Unit, Rounding, Option<String>);

/// So many are kept: as many as a large machine has.
const MOST_KNOWN: usize = 4096;

/// Longer words are no name.
const LONGEST_GLUED: usize = 160;

/// How the second unit of a value is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Rounding {
    /// In the unit asked for, or a smaller one where a narrow band needs it.
    Told,
    /// Always in the unit asked for, as all stages of a fastener are.
    Kept,
}

/// The quantity in another unit; none where the two are of different kinds or say the same.
fn in_unit(quantity: &Quantity, unit: &'static Unit, rounding: Rounding) -> Option<String> {
    let own = quantity.unit();
    if quantity.dimension() != unit.dimension() {
        return None;
    }
    KNOWN.with_borrow_mut(|known| {
        let found = known.get(quantity.written()).and_then(|all| all.iter().find(|(from, to, by, _)| *from == own && *to == unit && *by == rounding));
        if let Some((.., text)) = found {
            return text.clone();
        }
        if known.len() >= MOST_KNOWN {
            known.clear();
        }
        let converted = match rounding {
            _ if says_the_same(own, unit) => None,
            Rounding::Told => quantity.convert(unit),
            Rounding::Kept => quantity.convert_into(unit),
        };
        let text = converted.map(|converted| glued(&converted.to_string()));
        known.entry(quantity.written().to_owned()).or_default().push((own, unit, rounding, text.clone()));
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{FileTable, Place};
    use crate::manual::Case;

    fn when(pairs: &[(&str, &str)]) -> Combination {
        Combination(pairs.iter().map(|(a, v)| ((*a).to_owned(), (*v).to_owned())).collect())
    }

    fn varied(cases: &[(&[(&str, &str)], &'static str)]) -> Varied<&'static str> {
        let file = FileTable::default().add("a", "");
        let place = Place::whole_file(file);
        Varied { cases: cases.iter().map(|(c, value)| Case { when: when(c), value: *value, place: place.clone() }).collect() }
    }

    #[test]
    fn a_known_variant_leaves_one_case_without_a_label() {
        let torque = varied(&[(&[("serial", "early")], "70 N·m"), (&[("serial", "late")], "78 N·m")]);
        assert_eq!(varied_text(&torque, &when(&[]), |v| (*v).to_owned()).as_deref(), Some("early 70 N·m · late 78 N·m"));
        assert_eq!(varied_text(&torque, &when(&[("serial", "late")]), |v| (*v).to_owned()).as_deref(), Some("78 N·m"));
    }

    #[test]
    fn a_case_that_always_holds_ends_the_list() {
        let both = varied(&[(&[("shaft", "L")], "a"), (&[], "b"), (&[("shaft", "S")], "c")]);
        let anything = when(&[]);
        let found: Vec<_> = cases(&both, &anything).collect();
        assert_eq!(found, [(Some("L".to_owned()), &"a"), (None, &"b")]);
    }

    #[test]
    fn a_name_keeps_its_numbers_with_their_units() {
        assert_eq!(values_glued("Torque wrench 5–25 N·m with a click"), "Torque wrench 5–25\u{a0}N·m with a click");
        assert_eq!(values_glued("Dial wrench 0.5–6 N·m"), "Dial wrench 0.5–6\u{a0}N·m");
        assert_eq!(values_glued("Old pinion nut"), "Old pinion nut");
    }

    #[test]
    fn a_unit_with_the_point_moved_tells_nothing() {
        let units: Vec<&'static Unit> = ["mL", "L", "mm", "µm", "in"].iter().filter_map(|symbol| Unit::find(symbol)).collect();
        let shown = |text: &str, dimension| quantity_text(&Quantity::parse(text, dimension).unwrap(), &units).replace('\u{a0}', " ");
        assert_eq!(shown("0.25 L", Dimension::Volume), "0.25 L");
        assert_eq!(shown("250 mL", Dimension::Volume), "250 mL");
        assert_eq!(shown("0.25 mm", Dimension::Length), "0.25 mm (0.0098 in)");
        // Parentheses within parentheses are hard to read, whoever wrote the second unit.
        assert_eq!(shown("1.2 L (2.5 pt (US))", Dimension::Volume), "1.2 L [2.5 pt (US)]");
        assert_eq!(shown("24 N·m (17.7 lbf·ft)", Dimension::Torque), "24 N·m (17.7 lbf·ft)");
    }

    #[test]
    fn the_other_unit_is_never_the_authors_own() {
        let units: Vec<&'static Unit> = ["N·m", "lbf·ft"].iter().filter_map(|symbol| Unit::find(symbol)).collect();
        let shown = |text: &str| quantity_text(&Quantity::parse(text, Dimension::Torque).unwrap(), &units).replace('\u{a0}', " ");
        assert_eq!(shown("78 N·m"), "78 N·m (57.5 lbf·ft)");
        assert_eq!(shown("9 ± 0.5 Nm"), "9 ± 0.5 Nm [79.7 lbf·in (75.3–84.0)]");
        assert_eq!(shown("15 lbf·ft"), "15 lbf·ft (20.3 N·m)");
        assert_eq!(shown("24 N·m (17.7 lbf·ft)"), "24 N·m (17.7 lbf·ft)");
        let torque = |text: &str| Quantity::parse(text, Dimension::Torque).unwrap();
        let told = |line: Line| format!("{} {}", line.main, line.other.unwrap_or_default()).replace('\u{a0}', " ");
        assert_eq!(told(torque_line(&torque("9 ± 0.5 N·m"), None, &units)), "9 ± 0.5 N·m [6.64 lbf·ft (6.27–7.00)]");
        let (unit, step) = (Unit::find("lbf·ft").unwrap(), torque("0.5 lbf·ft"));
        assert_eq!(told(torque_line(&torque("70 ± 4 N·m"), Some(Scale { unit, step: Some(&step) }), &units)), "51.5 lbf·ft (48.7–54.5) (70 ± 4 N·m)");
        assert_eq!(told(torque_line(&torque("15 lbf·ft"), Some(Scale { unit, step: Some(&step) }), &units)), "15 lbf·ft (20.3 N·m)");
        // 50 N·m is 36.88 lbf·ft (1 lbf·ft = 1.3558 N·m, NIST SP 811, B.8), and 37 is the nearest mark of half a pound-foot.
        let half = Some(Scale { unit, step: Some(&step) });
        assert_eq!(told(torque_line(&torque("50 N·m"), half, &units)), "37 lbf·ft (50 N·m)");
        assert_eq!(told(torque_beside(&torque("50 N·m"), half, &units)), "50 N·m (37 lbf·ft)");
        assert_eq!(told(torque_beside(&torque("70 ± 4 N·m"), half, &units)), "70 ± 4 N·m [51.5 lbf·ft (48.7–54.5)]");
        assert_eq!(told(torque_beside(&torque("50 N·m"), None, &units)), "50 N·m (36.9 lbf·ft)");
        assert_eq!(told(torque_beside(&torque("50 N·m (37 lbf·ft)"), half, &units)).trim_end(), "50 N·m (37 lbf·ft)");
        let other = Some(Scale { unit: Unit::find("N·m").unwrap(), step: None });
        assert_eq!(told(torque_beside(&torque("50 N·m"), other, &units)), "50 N·m (36.9 lbf·ft)");
    }
}
