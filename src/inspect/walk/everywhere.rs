//! One fault, one finding, in however many variants it shows.

use super::Walk;
use crate::finding::Finding;
use crate::manual::Combination;
use std::collections::{BTreeMap, BTreeSet};

/// Looks at every walk with `look`, and tells each fault once: without a word about variants where it is in
/// all of a machine's walks, otherwise with those that have it.
pub(in super::super) fn in_every(walks: &[Walk<'_>], findings: &mut Vec<Finding>, look: impl Fn(&Walk<'_>, &mut Vec<Finding>)) {
    // A machine's walks stand together.
    for of_machine in walks.chunk_by(|one, other| std::ptr::eq(one.machine, other.machine)) {
        gather(of_machine, findings, &look);
    }
}

fn gather(walks: &[Walk<'_>], findings: &mut Vec<Finding>, look: &impl Fn(&Walk<'_>, &mut Vec<Finding>)) {
    let mut told: Vec<(Finding, BTreeSet<usize>)> = Vec::new();
    for (at, walk) in walks.iter().enumerate() {
        let mut found = Vec::new();
        look(walk, &mut found);
        for finding in found {
            let same = |other: &Finding| {
                other.rule().name == finding.rule().name && other.place() == finding.place() && other.message() == finding.message()
            };
            match told.iter_mut().find(|(other, _)| same(other)) {
                Some((_, variants)) => {
                    variants.insert(at);
                }
                None => told.push((finding, BTreeSet::from([at]))),
            }
        }
    }
    let all: Vec<&Combination> = walks.iter().map(|walk| &walk.combination).collect();
    findings.extend(told.into_iter().map(|(finding, variants)| match variant_words(&all, &variants) {
        Some(words) => finding.figure(format!("only for {words}")),
        None => finding,
    }));
}

/// Some of all combinations in the fewest words: `shaft L`, `shaft S or M`, `shaft S · start E`. Nothing where
/// they are all of them.
fn variant_words(all: &[&Combination], some: &BTreeSet<usize>) -> Option<String> {
    if some.len() == all.len() {
        return None;
    }
    let axes: BTreeSet<&String> = all.iter().flat_map(|combination| combination.0.keys()).collect();
    for axis in axes {
        let mut inside: BTreeMap<&String, bool> = BTreeMap::new();
        let mut splits = true;
        for (at, combination) in all.iter().enumerate() {
            let Some(value) = combination.0.get(axis) else { continue };
            splits &= *inside.entry(value).or_insert(some.contains(&at)) == some.contains(&at);
        }
        if splits {
            let values: Vec<&str> = inside.iter().filter(|(_, inside)| **inside).map(|(value, _)| value.as_str()).collect();
            return Some(format!("{axis} {}", values.join(" or ")));
        }
    }
    let mut words: Vec<String> = some.iter().filter_map(|at| all.get(*at)).map(|combination| combination.words()).collect();
    if words.len() > 3 {
        let more = words.len() - 3;
        words.truncate(3);
        words.push(format!("{more} more"));
    }
    Some(words.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn combination(pairs: &[(&str, &str)]) -> Combination {
        Combination(pairs.iter().map(|(axis, value)| ((*axis).to_owned(), (*value).to_owned())).collect())
    }

    #[test]
    fn variants_are_told_in_the_fewest_words() {
        let all: Vec<Combination> = [("S", "R"), ("S", "E"), ("L", "R"), ("L", "E"), ("M", "R")]
            .iter()
            .map(|(shaft, start)| combination(&[("shaft", shaft), ("start", start)]))
            .collect();
        let all: Vec<&Combination> = all.iter().collect();
        let words = |some: &[usize]| variant_words(&all, &some.iter().copied().collect());
        assert_eq!(words(&[0, 1, 2, 3, 4]), None);
        assert_eq!(words(&[0, 1]).unwrap(), "shaft S");
        assert_eq!(words(&[2, 3, 4]).unwrap(), "shaft L or M");
        assert_eq!(words(&[1, 3]).unwrap(), "start E");
        assert_eq!(words(&[0, 3]).unwrap(), "shaft S · start R; shaft L · start E");
        assert_eq!(words(&[0, 2, 1, 3]).unwrap(), "shaft L or S");
    }
}
