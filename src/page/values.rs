//! How a value is shown: the author's unit first, then the other unit; by variant where it varies.

use crate::manual::{Combination, Varied};
use crate::quantity::{Dimension, Quantity, Unit, find_in_prose};
use serde::Serialize;
use std::cell::RefCell;
use std::collections::HashMap;

/// A line of a value: `early 70 N·m (51.6 lbf·ft)`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct Line {
    /// For which variant, or which of several values it is.
    pub label: Option<String>,
    /// The value to read first.
    pub main: String,
    /// The same value in another unit, in parentheses; in brackets, as drawings set a second dimension
    /// (ASME Y14.5), where it has parentheses of its own.
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
pub(super) fn cases<'v, T>(varied: &'v Varied<T>, known: &'v Combination) -> Vec<(Option<String>, &'v T)> {
    let mut found = Vec::new();
    for case in varied.cases_within(known) {
        if known.satisfies(&case.when) {
            found.push((None, &case.value));
            break;
        }
        found.push((Some(variant_label(&case.when, known)), &case.value));
    }
    found
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
    let parts: Vec<String> = cases(varied, known)
        .into_iter()
        .map(|(label, value)| match label {
            Some(label) => format!("{label} {}", show(value)),
            None => show(value),
        })
        .collect();
    (!parts.is_empty()).then(|| parts.join(" · "))
}

/// A quantity as written, and in the first of `units` that is not the author's own.
pub(super) fn quantity_line(quantity: &Quantity, units: &[&'static Unit]) -> Line {
    Line { label: None, main: glued(quantity.written()), other: other_unit(quantity, units) }
}

/// A quantity in the unit of the wrench in hand, as written beside it where that differs.
pub(super) fn wrench_line(quantity: &Quantity, wrench: Option<&'static Unit>, units: &[&'static Unit]) -> Line {
    let on_scale = wrench.and_then(|unit| in_unit(quantity, unit));
    match on_scale {
        Some(main) => Line { label: None, main, other: Some(enclosed(&glued(quantity.written()))) },
        None => quantity_line(quantity, units),
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

fn other_unit(quantity: &Quantity, units: &[&'static Unit]) -> Option<String> {
    // An author who wrote both units has said which ones matter.
    if quantity.second().is_some() {
        return None;
    }
    // Nothing is nothing in every unit that begins at nothing.
    if quantity.dimension() != Dimension::Temperature && quantity.exact_nominal().is_some_and(|value| value.is_zero()) {
        return None;
    }
    units.iter().find_map(|unit| in_unit(quantity, unit)).map(|other| enclosed(&other))
}

fn enclosed(text: &str) -> String {
    if text.contains('(') { format!("[{text}]") } else { format!("({text})") }
}

thread_local! {
    /// What was written in which unit, and how it reads in another: a value stands on its page, on each of its sheets and in
    /// the tables. What is written is all that a conversion hangs on.
    static CONVERTED: RefCell<HashMap<String, Vec<Converted>>> = RefCell::default();
}

/// The two units, and the text; none where they are of different kinds.
type Converted = (&'static Unit, &'static Unit, Option<String>);

/// So many are kept: as many as a large machine has.
const MOST_CONVERTED: usize = 4096;

/// The quantity in another unit; none where that is the author's own.
fn in_unit(quantity: &Quantity, unit: &'static Unit) -> Option<String> {
    let own = quantity.unit();
    if own == unit || quantity.dimension() != unit.dimension() {
        return None;
    }
    CONVERTED.with_borrow_mut(|known| {
        let found = known.get(quantity.written()).and_then(|all| all.iter().find(|(from, to, _)| *from == own && *to == unit));
        if let Some((.., text)) = found {
            return text.clone();
        }
        if known.len() >= MOST_CONVERTED {
            known.clear();
        }
        let text = quantity.convert(unit).map(|converted| glued(&converted.to_string()));
        known.entry(quantity.written().to_owned()).or_default().push((own, unit, text.clone()));
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
        let found = cases(&both, &anything);
        assert_eq!(found, [(Some("L".to_owned()), &"a"), (None, &"b")]);
    }

    #[test]
    fn a_name_keeps_its_numbers_with_their_units() {
        assert_eq!(values_glued("Torque wrench 5–25 N·m with a click"), "Torque wrench 5–25\u{a0}N·m with a click");
        assert_eq!(values_glued("Dial wrench 0.5–6 N·m"), "Dial wrench 0.5–6\u{a0}N·m");
        assert_eq!(values_glued("Old pinion nut"), "Old pinion nut");
    }

    #[test]
    fn the_other_unit_is_never_the_authors_own() {
        let units: Vec<&'static Unit> = ["N·m", "lbf·ft"].iter().filter_map(|symbol| Unit::find(symbol)).collect();
        let shown = |text: &str| quantity_text(&Quantity::parse(text, Dimension::Torque).unwrap(), &units).replace('\u{a0}', " ");
        assert_eq!(shown("78 N·m"), "78 N·m (57.5 lbf·ft)");
        assert_eq!(shown("9 ± 0.5 Nm"), "9 ± 0.5 Nm [79.7 lbf·in (75.3–84.0)]");
        assert_eq!(shown("15 lbf·ft"), "15 lbf·ft (20.3 N·m)");
        assert_eq!(shown("24 N·m (17.7 lbf·ft)"), "24 N·m (17.7 lbf·ft)");
    }
}
