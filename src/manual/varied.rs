//! Values that differ by variant: axes, combinations, conditions, cases.

use crate::finding::Place;
use crate::quantity::{Dimension, Quantity};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

/// One way in which machines of a type differ: `serial`, with `early` and `late`.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The axis's name.
    pub name: String,
    /// Its values in the order written.
    pub values: Vec<AxisValue>,
    /// Where its name stands.
    pub place: Place,
}

/// One value of an axis and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct AxisValue {
    /// The value: `early`, `L`.
    pub name: String,
    /// What it means, as written: `≤ 4199`, `508 mm`, `recoil`.
    pub meaning: String,
    /// The meaning as a quantity or bound, where it is one.
    pub quantity: Option<Quantity>,
    /// Where the meaning stands.
    pub place: Place,
}

impl AxisValue {
    /// The lowest and the highest number it means, where it means whole numbers: serial numbers ≤ 4199.
    #[must_use]
    pub fn numbers(&self) -> Option<(Option<f64>, Option<f64>)> {
        self.quantity.as_ref().filter(|quantity| quantity.dimension() == Dimension::Count).map(Quantity::low_high)
    }

    /// Whether a serial number, where it is one of digits alone, is among those that it means.
    #[must_use]
    pub fn holds(&self, serial: &str) -> bool {
        let number = Some(serial.trim()).filter(|text| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())).and_then(|text| text.parse::<f64>().ok());
        let within = |number: f64, (low, high): (Option<f64>, Option<f64>)| low.is_none_or(|low| number >= low) && high.is_none_or(|high| number <= high);
        number.zip(self.numbers()).is_some_and(|(number, numbers)| within(number, numbers))
    }
}

/// One value for some of the axes: for all of them it is a machine as built, for a few a condition.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Combination(pub BTreeMap<String, String>);

impl Combination {
    /// Whether every axis value asked for by `condition` is the one here.
    #[must_use]
    pub fn satisfies(&self, condition: &Self) -> bool {
        condition.0.iter().all(|(axis, value)| self.0.get(axis) == Some(value))
    }

    /// Whether some machine can meet both.
    #[must_use]
    pub fn agrees_with(&self, other: &Self) -> bool {
        self.0.iter().all(|(axis, value)| other.0.get(axis).is_none_or(|v| v == value))
    }

    /// Both conditions at once, which mostly is one of the two; none where they exclude each other.
    #[must_use]
    pub fn and<'c>(&'c self, other: &'c Self) -> Option<Cow<'c, Self>> {
        if self.satisfies(other) {
            return Some(Cow::Borrowed(self));
        }
        if other.satisfies(self) {
            return Some(Cow::Borrowed(other));
        }
        self.agrees_with(other).then(|| {
            let mut both = self.clone();
            both.0.extend(other.0.iter().map(|(a, v)| (a.clone(), v.clone())));
            Cow::Owned(both)
        })
    }

    /// Whether it says nothing, and so holds for every machine.
    #[must_use]
    pub fn is_always(&self) -> bool {
        self.0.is_empty()
    }

    /// `shaft L · serial late`; empty for every machine.
    #[must_use]
    pub fn words(&self) -> String {
        let parts: Vec<String> = self.0.iter().map(|(axis, value)| format!("{axis} {value}")).collect();
        parts.join(" · ")
    }
}

/// A value that may differ by variant. Without a case it is not given.
#[derive(Clone, Debug, PartialEq)]
pub struct Varied<T> {
    /// The cases in the order written.
    pub cases: Vec<Case<T>>,
}

/// One value and the condition under which it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Case<T> {
    /// When it holds; always, for a value that does not vary.
    pub when: Combination,
    /// The value.
    pub value: T,
    /// Where it stands.
    pub place: Place,
}

impl<T> Default for Varied<T> {
    fn default() -> Self {
        Self { cases: Vec::new() }
    }
}

impl<T> Varied<T> {
    /// The case for a combination: the first whose condition it satisfies.
    #[must_use]
    pub fn case(&self, combination: &Combination) -> Option<&Case<T>> {
        self.cases.iter().find(|case| combination.satisfies(&case.when))
    }

    /// The value for a combination.
    #[must_use]
    pub fn get(&self, combination: &Combination) -> Option<&T> {
        self.case(combination).map(|case| &case.value)
    }

    /// The value where it does not vary, or the first of several.
    #[must_use]
    pub fn first(&self) -> Option<&T> {
        self.cases.first().map(|case| &case.value)
    }

    /// The value where a case of another field holds; one that can hold there, where none does for certain.
    #[must_use]
    pub fn beside(&self, when: &Combination) -> Option<&T> {
        self.get(when).or_else(|| self.cases_within(when).next().map(|case| &case.value))
    }

    /// The values it may have where this is known; one where that decides it.
    #[must_use]
    pub fn within(&self, known: &Combination) -> Vec<&T> {
        let mut found = Vec::new();
        for case in self.cases_within(known) {
            found.push(&case.value);
            if known.satisfies(&case.when) {
                break;
            }
        }
        found
    }

    /// Whether it was written at all.
    #[must_use]
    pub fn is_given(&self) -> bool {
        !self.cases.is_empty()
    }

    /// Whether it differs by variant.
    #[must_use]
    pub fn varies(&self) -> bool {
        self.cases.iter().any(|case| !case.when.is_always())
    }

    /// The same cases with other values; those that give none are left out.
    pub fn filter_map<U>(&self, mut change: impl FnMut(&T) -> Option<U>) -> Varied<U> {
        // Most values have one case, and a vector that grows makes room for four.
        let mut cases = Vec::with_capacity(self.cases.len());
        cases.extend(self.cases.iter().filter_map(|case| {
            change(&case.value).map(|value| Case { when: case.when.clone(), value, place: case.place.clone() })
        }));
        Varied { cases }
    }

    /// Every case that can hold for a machine that meets `condition`.
    pub fn cases_within<'a, 'c>(&'a self, condition: &'c Combination) -> impl Iterator<Item = &'a Case<T>> + use<'a, 'c, T> {
        self.cases.iter().filter(move |case| case.when.agrees_with(condition))
    }
}

/// Every combination of the named axes that is made, in the order the axes and values are written.
/// `None` where there are more than `most`: nobody could read them, and checking them has no end.
#[must_use]
pub fn combinations(axes: &[Axis], not_made: &[Combination], named: &BTreeSet<String>, most: usize) -> Option<Vec<Combination>> {
    let mut all = vec![Combination::default()];
    for axis in axes.iter().filter(|axis| named.contains(&axis.name) && !axis.values.is_empty()) {
        if all.len().checked_mul(axis.values.len()).is_none_or(|count| count > most) {
            return None;
        }
        all = all
            .iter()
            .flat_map(|base| {
                axis.values.iter().map(move |value| {
                    let mut longer = base.clone();
                    longer.0.insert(axis.name.clone(), value.name.clone());
                    longer
                })
            })
            .collect();
    }
    all.retain(|combination| !not_made.iter().any(|missing| !missing.is_always() && combination.satisfies(missing)));
    Some(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::FileTable;

    fn axis(name: &str, values: &[&str]) -> Axis {
        let place = Place::whole_file(FileTable::default().add("m", ""));
        let value = |v: &&str| AxisValue { name: (*v).to_owned(), meaning: String::new(), quantity: None, place: place.clone() };
        Axis { name: name.to_owned(), values: values.iter().map(value).collect(), place: place.clone() }
    }

    fn when(pairs: &[(&str, &str)]) -> Combination {
        Combination(pairs.iter().map(|(a, v)| ((*a).to_owned(), (*v).to_owned())).collect())
    }

    #[test]
    fn combinations_leave_out_what_is_not_made_and_axes_not_named() {
        let axes = [axis("shaft", &["S", "L"]), axis("start", &["R", "E"]), axis("serial", &["early", "late"])];
        let named: BTreeSet<String> = ["shaft", "start"].iter().map(|s| (*s).to_owned()).collect();
        let words = |not_made: &[Combination], most| {
            combinations(&axes, not_made, &named, most).map(|all| all.iter().map(Combination::words).collect::<Vec<_>>())
        };
        assert_eq!(words(&[], 4).unwrap(), ["shaft S · start R", "shaft S · start E", "shaft L · start R", "shaft L · start E"]);
        assert_eq!(words(&[when(&[("start", "E"), ("shaft", "S")])], 4).unwrap().len(), 3);
        assert_eq!(words(&[when(&[("start", "E"), ("serial", "late")])], 4).unwrap().len(), 4);
        assert_eq!(words(&[], 3), None);
    }

    #[test]
    fn conditions_meet_or_exclude_each_other() {
        let late = when(&[("serial", "late")]);
        let both = when(&[("serial", "late"), ("shaft", "L")]);
        assert!(both.satisfies(&late) && !late.satisfies(&both) && late.agrees_with(&both));
        assert_eq!(late.and(&when(&[("serial", "early")])), None);
        assert!(matches!(late.and(&both), Some(Cow::Borrowed(said)) if *said == both));
        assert!(matches!(both.and(&late), Some(Cow::Borrowed(said)) if *said == both));
        assert_eq!(late.and(&when(&[("shaft", "L")])), Some(Cow::Owned(both)));
    }
}
