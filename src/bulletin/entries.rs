//! The entries of two states side by side: the same thing is one, even where it moved to another front matter.

use super::state::{State, combination, machine_of};
use crate::manual::Combination;
use std::collections::BTreeMap;

/// The values of one field, by the condition under which each holds.
pub(super) type Cases = Vec<(Combination, String)>;

/// One entry of one front matter.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    pub(super) home: String,
    pub(super) fields: BTreeMap<String, Cases>,
}

/// Machine, list and id: what makes two entries one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Identity {
    pub(super) machine: Option<String>,
    pub(super) list: String,
    pub(super) id: String,
}

/// One thing, before and now; one of them may be missing.
#[derive(Clone, Debug)]
pub(super) struct Pair {
    pub(super) is: Identity,
    pub(super) old: Option<Entry>,
    pub(super) new: Option<Entry>,
}

/// Every thing of two states, in the order of machines, lists and ids.
pub(super) fn pairs(old: &State, new: &State) -> Vec<Pair> {
    let (mut before, mut now) = (entries(old), entries(new));
    let mut identities: Vec<Identity> = before.keys().chain(now.keys()).cloned().collect();
    identities.sort();
    identities.dedup();
    let mut found = Vec::new();
    for is in identities {
        let (mut olds, mut news) = (before.remove(&is).unwrap_or_default(), now.remove(&is).unwrap_or_default());
        // In the same front matter first.
        let mut at = 0;
        while let Some(home) = olds.get(at).map(|old| old.home.clone()) {
            match news.iter().position(|new| new.home == home) {
                Some(same) => found.push(Pair { is: is.clone(), old: Some(olds.remove(at)), new: Some(news.remove(same)) }),
                None => at += 1,
            }
        }
        // One left on either side: it moved.
        if olds.len() == 1 && news.len() == 1 {
            found.push(Pair { is: is.clone(), old: olds.pop(), new: news.pop() });
        }
        found.extend(olds.into_iter().map(|old| Pair { is: is.clone(), old: Some(old), new: None }));
        found.extend(news.into_iter().map(|new| Pair { is: is.clone(), old: None, new: Some(new) }));
    }
    found
}

fn entries(state: &State) -> BTreeMap<Identity, Vec<Entry>> {
    let mut all: BTreeMap<Identity, Vec<Entry>> = BTreeMap::new();
    for (home, values) in &state.ledger.homes {
        for (key, cases) in &values.values {
            // A picture's id is a path with a point in it; no field has one.
            let Some((list, (id, field))) = key.split_once('/').and_then(|(list, rest)| Some((list, rest.rsplit_once('.')?))) else { continue };
            let is = Identity { machine: machine_of(home).map(str::to_owned), list: list.to_owned(), id: id.to_owned() };
            let own = all.entry(is).or_default();
            if own.last().is_none_or(|entry| entry.home != *home) {
                own.push(Entry { home: home.clone(), fields: BTreeMap::new() });
            }
            let cases = cases.iter().map(|(when, text)| (combination(when), text.clone())).collect();
            if let Some(entry) = own.last_mut() {
                entry.fields.insert(field.to_owned(), cases);
            }
        }
    }
    all
}

impl Entry {
    /// Whether two signatures are asked for.
    pub(super) fn is_critical(&self) -> bool {
        self.fields.get("critical").is_some_and(|cases| cases.iter().any(|(_, text)| text == "true"))
    }

    /// Its values in one line: `torque 78 N·m; thread M12x1.25`.
    pub(super) fn in_one_line(&self) -> String {
        let mut parts = Vec::new();
        for (field, cases) in &self.fields {
            for (when, text) in cases {
                let only = if when.is_always() { String::new() } else { format!(" ({})", when.words()) };
                parts.push(format!("{field} {text}{only}"));
            }
        }
        parts.join("; ")
    }
}
