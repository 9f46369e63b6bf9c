//! The lines on one value in the order of their revisions: each tells what it led from, and the next one what it led to.

use super::lists::{Home, Lists, ThingRef};
use super::model::{Change, History, Machine, Manual};
use super::shop::Date;
use super::varied::{Case, Combination, Varied};
use crate::finding::Place;
use std::collections::BTreeSet;

/// The day of the newest change that things of a machine rest on: the newest date of the front matters that have changed one of
/// them, or hold one and are as they were first written. A front matter keeps the day of its newest revision only; for a change
/// of an earlier one that day is the latest it can be.
#[must_use]
pub fn newest_change(manual: &Manual, machine: &Machine, things: &BTreeSet<ThingRef>) -> Option<Date> {
    let of_home = |home: &Home| match home {
        Home::Shop => Some(&manual.shop_history),
        Home::Machine => Some(&machine.history),
        Home::Procedure(id) => machine.procedure(id).map(|procedure| &procedure.history),
    };
    let is_first = |history: &History| history.changes.is_empty() && history.revision.is_none_or(|revision| revision <= 1);
    let bears = |history: &History, thing: &ThingRef| is_first(history) || history.changes.iter().any(|change| change.of.value.split('.').next() == Some(&thing.id));
    things.iter().filter_map(|thing| of_home(&thing.home).filter(|history| bears(history, thing))?.date).max()
}

impl History {
    /// The lines on a value (`pinion-nut.torque`) that bear on machines of a condition, oldest first.
    #[must_use]
    pub fn lines_on(&self, of: &str, when: &Combination) -> Vec<&Change> {
        let mut lines: Vec<&Change> = self.changes.iter().filter(|change| change.of.value == of && change.bears_on(when)).collect();
        lines.sort_by_key(|change| change.revision);
        lines
    }

    /// The day of a line, where the front matter still tells it: that of its newest revision.
    #[must_use]
    pub fn day_of(&self, change: &Change) -> Option<String> {
        let newest = change.revision.is_some() && change.revision == self.revision;
        self.date.as_ref().filter(|_| newest).map(ToString::to_string)
    }

    /// What a value was after a line: what the next line says was there, otherwise what it is now. None where it was gone.
    #[must_use]
    pub fn became(&self, change: &Change, when: &Combination, now: Option<&str>) -> Option<String> {
        let lines = self.lines_on(&change.of.value, when);
        let next = lines.iter().position(|line| std::ptr::eq(*line, change)).and_then(|at| lines.get(at + 1));
        next.map_or_else(|| now.map(str::to_owned), |next| next.was_for(when))
    }

    /// What a value was after a line, for each of the machines that the line tells of; `now` gives what it is today. What was one
    /// value then may be several now: where they differ, each is told with its own of the `conditions` of today.
    pub fn became_by_variant(&self, change: &Change, known: &Combination, conditions: &[&Combination], now: impl Fn(&Combination) -> Option<String>) -> Varied<String> {
        let always = Combination::default();
        let told: Vec<(&Combination, _)> = match change.was.cases.as_slice() {
            [] => vec![(&always, change.of.place.clone())],
            cases => cases.iter().map(|case| (&case.when, case.place.clone())).collect(),
        };
        let case = |when: Combination, place: &Place| {
            let both = when.and(known)?;
            let value = self.became(change, &both, now(&both).as_deref())?;
            Some(Case { when, value, place: place.clone() })
        };
        let cases = told.into_iter().flat_map(|(when, place)| {
            let apart: Vec<Case<String>> = conditions.iter().filter_map(|today| case(when.and(today)?.into_owned(), &place)).collect();
            match apart.as_slice() {
                [first, others @ ..] if others.iter().any(|other| other.value != first.value) => apart,
                _ => case(when.clone(), &place).into_iter().collect(),
            }
        });
        Varied { cases: cases.collect() }
    }
}

impl Lists {
    /// For which machines a value is written today (`pinion-nut.torque`), in the order written.
    #[must_use]
    pub fn conditions_now(&self, of: &str) -> Vec<&Combination> {
        let Some((id, field)) = of.rsplit_once('.') else { return Vec::new() };
        self.written.iter().filter(|written| written.id == id && written.field == field).map(|written| &written.when).collect()
    }

    /// A value as written today (`pinion-nut.torque`), for machines of a condition: where several hold, the first.
    #[must_use]
    pub fn value_now(&self, of: &str, when: &Combination) -> Option<&str> {
        let (id, field) = of.rsplit_once('.')?;
        let own = || self.written.iter().filter(|written| written.id == id && written.field == field);
        own().find(|written| when.satisfies(&written.when)).or_else(|| own().find(|written| written.when.agrees_with(when))).map(|written| written.text.as_str())
    }
}

impl Change {
    /// Whether some machine of a condition has another value by this line.
    #[must_use]
    pub fn bears_on(&self, when: &Combination) -> bool {
        self.was.cases.is_empty() || self.was.cases_within(when).next().is_some()
    }

    /// What it says was there, for machines of a condition; none where nothing was.
    #[must_use]
    pub fn was_for(&self, when: &Combination) -> Option<String> {
        let mut was: Vec<&str> = self.was.cases_within(when).map(|case| case.value.as_str()).collect();
        was.dedup();
        (!was.is_empty()).then(|| was.join(" or "))
    }
}
