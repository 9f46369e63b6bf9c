//! What differs by variant, told in as few rows as it takes.

use crate::manual::{Combination, Machine, combinations};
use std::collections::BTreeSet;

/// How many combinations a row is told apart for.
const MOST_COMBINATIONS: usize = 256;

/// What a value comes to in each variant that matters to it and is not known: one row where they all agree.
pub(super) fn told_apart<'c, T: PartialEq>(
    machine: &Machine,
    known: &Combination,
    conditions: impl Iterator<Item = &'c Combination>,
    value: impl Fn(&Combination) -> Option<T>,
) -> Vec<(Combination, T)> {
    let mut named: BTreeSet<String> = conditions.flat_map(|when| when.0.keys().cloned()).filter(|axis| !known.0.contains_key(axis)).collect();
    let all = combinations(&machine.axes, &[], &named, MOST_COMBINATIONS).unwrap_or_default();
    let made = |full: &Combination| !machine.not_made.iter().any(|never| !never.is_always() && full.satisfies(never));
    let mut rows: Vec<(Combination, Option<T>)> =
        all.into_iter().filter_map(|when| known.and(&when).filter(|full| made(full)).map(|full| value(&full)).map(|value| (when, value))).collect();
    for axis in named.clone() {
        let without = |when: &Combination| Combination(when.0.iter().filter(|(name, _)| **name != axis).map(|(name, value)| (name.clone(), value.clone())).collect());
        let agrees = rows.iter().all(|(a, first)| rows.iter().all(|(b, second)| without(a) != without(b) || first == second));
        if agrees {
            named.remove(&axis);
            let mut fewer: Vec<(Combination, Option<T>)> = Vec::new();
            for (when, value) in rows {
                let when = without(&when);
                if !fewer.iter().any(|(known, _)| *known == when) {
                    fewer.push((when, value));
                }
            }
            rows = fewer;
        }
    }
    rows.into_iter().filter_map(|(when, value)| value.map(|value| (when, value))).collect()
}

/// What a condition says beside what is known.
pub(super) fn beside(when: &Combination, known: &Combination) -> Combination {
    Combination(when.0.iter().filter(|(axis, _)| !known.0.contains_key(*axis)).map(|(axis, value)| (axis.clone(), value.clone())).collect())
}
