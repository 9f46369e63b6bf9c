//! What turns the fasteners of some work: the sizes of spanners, sockets and keys, as `drive:` names them.

use super::needed::within;
use super::needs::acts_done;
use crate::manual::{Combination, ListKind, Procedure, Scope, Step, Verb};
use std::collections::BTreeMap;

/// A size, and the fasteners it turns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drive<'a> {
    /// As written: `13 mm hex`.
    pub size: &'a str,
    /// Their names, in the order of work.
    pub fasteners: Vec<&'a str>,
}

/// What turns the fasteners that a procedure handles where `known` is known, small sizes first.
#[must_use]
pub fn drives<'a>(scope: Scope<'a>, procedure: &'a Procedure, known: &Combination) -> Vec<Drive<'a>> {
    gathered(scope, procedure, known, |_| 0).remove(&0).unwrap_or_default()
}

/// What turns the fasteners of each step, by the step's number, small sizes first.
#[must_use]
pub fn drives_by_step<'a>(scope: Scope<'a>, procedure: &'a Procedure, known: &Combination) -> BTreeMap<usize, Vec<Drive<'a>>> {
    gathered(scope, procedure, known, |step| step.number)
}

/// In one go over the acts: a procedure may have thousands of steps.
fn gathered<'a>(scope: Scope<'a>, procedure: &'a Procedure, known: &Combination, group: impl Fn(&Step) -> usize) -> BTreeMap<usize, Vec<Drive<'a>>> {
    let mut found: BTreeMap<usize, Vec<Drive<'a>>> = BTreeMap::new();
    for (step, _, act) in acts_done(scope, procedure, known) {
        let turns = matches!(act.verb, Some(Verb::Start | Verb::Fit | Verb::DryFit | Verb::Torque | Verb::Loosen | Verb::Remove));
        let Some(here) = known.and(&step.only).filter(|_| turns) else { continue };
        for thing in act.things.iter().filter(|thing| thing.kind == ListKind::Fasteners) {
            let Some(entry) = scope.thing(|l| &l.fasteners, thing) else { continue };
            let Some(here) = here.and(&entry.only) else { continue };
            for size in within(&entry.what.drive, &here) {
                add(found.entry(group(step)).or_default(), size.trim(), &entry.name);
            }
        }
    }
    for drives in found.values_mut() {
        drives.sort_by(|a, b| by_size(a.size, b.size));
    }
    found
}

/// Puts a fastener to its size.
fn add<'a>(found: &mut Vec<Drive<'a>>, size: &'a str, fastener: &'a str) {
    match found.iter_mut().find(|known| known.size == size) {
        Some(known) if known.fasteners.contains(&fastener) => {}
        Some(known) => known.fasteners.push(fastener),
        None if size.is_empty() => {}
        None => found.push(Drive { size, fasteners: vec![fastener] }),
    }
}

/// What is of one kind stands together, and 8 mm before 10 mm.
pub(crate) fn by_size(a: &str, b: &str) -> std::cmp::Ordering {
    let ((left, of), (right, other)) = (parted(a), parted(b));
    let number = |text: &str| text.parse::<f64>().unwrap_or(f64::INFINITY);
    of.cmp(other).then(number(left).total_cmp(&number(right))).then(left.cmp(right))
}

/// `13` and `mm hex` of `13 mm hex`; no number where it begins with none, or with one that is no plain decimal.
fn parted(size: &str) -> (&str, &str) {
    match size.split_once(' ') {
        Some((number, of)) if number.parse::<f64>().is_ok_and(f64::is_finite) => (number, of.trim_start()),
        _ => ("", size),
    }
}

/// Sizes in few words, those of one kind together: `5, 13 mm hex`, `30 mm hook spanner`.
#[must_use]
pub fn in_few_words<'d>(sizes: impl Iterator<Item = &'d str>) -> Vec<String> {
    let mut kinds: Vec<(&str, Vec<&str>)> = Vec::new();
    for size in sizes {
        let (number, of) = parted(size);
        match kinds.iter_mut().find(|(known, _)| *known == of) {
            Some((_, numbers)) => numbers.push(number),
            None => kinds.push((of, vec![number])),
        }
    }
    kinds.into_iter().map(|(of, numbers)| format!("{} {of}", numbers.join(", ")).trim_start().to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_of_one_kind_stand_together_small_ones_first() {
        let mut sizes = vec!["13 mm hex", "hook spanner", "8 mm hex", "10 mm hex", "7/16 in hex", "T30", "4.5 mm hex"];
        sizes.sort_by(|a, b| by_size(a, b));
        assert_eq!(sizes, ["7/16 in hex", "T30", "hook spanner", "4.5 mm hex", "8 mm hex", "10 mm hex", "13 mm hex"]);
        assert_eq!(in_few_words(sizes.into_iter()), ["7/16 in hex", "T30", "hook spanner", "4.5, 8, 10, 13 mm hex"]);
    }

    #[test]
    fn a_size_stands_once_with_all_it_turns() {
        let mut found = Vec::new();
        for (size, fastener) in [("13 mm hex", "Cap bolt"), ("", "Stud"), ("13 mm hex", "Cover bolt"), ("13 mm hex", "Cap bolt")] {
            add(&mut found, size, fastener);
        }
        assert_eq!(found, [Drive { size: "13 mm hex", fasteners: vec!["Cap bolt", "Cover bolt"] }]);
    }
}
