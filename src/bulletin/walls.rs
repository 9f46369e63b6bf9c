//! The torque cards and boards of two states, by their fingerprints: what hangs at the bench is out of date as a sheet is.

use super::paper::{SheetMatch, wall_papers};
use super::state::State;
use super::{Fate, WallPaperChange};
use crate::manual::{Fingerprint, ThingRef};
use std::collections::{BTreeMap, BTreeSet};

/// Kind, machine, procedure, fasteners.
type Key = (super::PaperKind, String, String, Option<String>);

/// One card or board of one state.
struct Paper {
    is: SheetMatch,
    fingerprint: Fingerprint,
    things: BTreeSet<ThingRef>,
}

/// The cards and boards of two states. Without both there is nothing to compare.
#[derive(Default)]
pub(super) struct Walls {
    old: BTreeMap<Key, Paper>,
    new: BTreeMap<Key, Paper>,
}

impl Walls {
    pub(super) fn of(old: &State, new: &State) -> Self {
        let (Some(before), Some(now)) = (old.manual(), new.manual()) else { return Self::default() };
        let papers = |manual| {
            // A machine without a torque has an empty card, and nobody hangs it up.
            let filled = wall_papers(manual).into_iter().filter(|(values, _)| !values.things.is_empty());
            filled.map(|(values, is)| ((is.paper, is.machine.clone(), is.procedure.clone(), is.fasteners.clone()), Paper { is, fingerprint: values.fingerprint, things: values.things })).collect()
        };
        Self { old: papers(before), new: papers(now) }
    }

    /// What became of every card and board.
    pub(super) fn changes(&self) -> Vec<WallPaperChange> {
        let keys: BTreeSet<&Key> = self.old.keys().chain(self.new.keys()).collect();
        let mut found: Vec<WallPaperChange> = keys.into_iter().filter_map(|key| {
            let (was, now) = (self.old.get(key), self.new.get(key));
            let is = &now.or(was)?.is;
            let text = |paper: Option<&Paper>| paper.map(|paper| paper.fingerprint.to_string());
            Some(WallPaperChange {
                fate: self.fate(key),
                paper: is.paper,
                machine: is.machine.clone(),
                procedure: is.procedure.clone(),
                fasteners: is.fasteners.clone(),
                title: is.title.clone(),
                was: text(was),
                now: text(now),
            })
        }).collect();
        found.sort_by_key(|paper| paper.fate);
        found
    }

    fn fate(&self, key: &Key) -> Fate {
        Fate::of(self.old.get(key).map(|paper| &paper.fingerprint), self.new.get(key).map(|paper| &paper.fingerprint))
    }

    /// How many cards and boards of the earlier state with a thing are out of date; `machine` is none for what all share.
    pub(super) fn out_of_date_with(&self, machine: Option<&str>, before: Option<&ThingRef>, after: Option<&ThingRef>) -> usize {
        let has = |papers: &BTreeMap<Key, Paper>, key: &Key, thing: Option<&ThingRef>| papers.get(key).zip(thing).is_some_and(|(paper, thing)| paper.things.contains(thing));
        let of_machine = self.old.keys().filter(|(_, of, ..)| machine.is_none_or(|machine| machine == of));
        of_machine.filter(|key| matches!(self.fate(key), Fate::OutOfDate | Fate::Gone) && (has(&self.old, key, before) || has(&self.new, key, after))).count()
    }
}
