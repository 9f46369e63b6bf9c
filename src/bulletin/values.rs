//! Which values changed, with the line that says why.

use super::entries::{Cases, Entry, Pair, pairs};
use super::sheets::Sheets;
use super::state::{SHOP, State, machine_of, thing};
use super::walls::Walls;
use super::{Bulletin, Change, ChangeLine, HomeChange, Subject, Weight};
use crate::inspect::same_value;
use crate::manual::{Change as ManualChange, Combination, History, ListKind, Manual};
use std::collections::BTreeMap;

/// Fills in what changed, and which front matters came and went.
pub(super) fn compare(old: &State, new: &State, (sheets, walls): (&Sheets, &Walls), bulletin: &mut Bulletin) {
    let mut homes: BTreeMap<&String, HomeChange> = BTreeMap::new();
    for (here, there, is_new) in [(new, old, true), (old, new, false)] {
        for home in here.ledger.homes.keys().filter(|home| *home != SHOP && !there.ledger.homes.contains_key(*home)) {
            homes.insert(home, HomeChange { home: home.clone(), is_new, values: 0 });
        }
    }
    let comparing = Comparing { old, new, sheets, walls };
    for pair in pairs(old, new) {
        // What a whole front matter brings or takes along is counted, not listed.
        let whole = match (&pair.old, &pair.new) {
            (None, Some(entry)) | (Some(entry), None) => homes.get_mut(&entry.home).map(|home| (home, entry.fields.len())),
            _ => None,
        };
        if let Some((home, count)) = whole {
            home.values += count;
            continue;
        }
        comparing.pair(&pair, &mut bulletin.changes);
    }
    bulletin.changes.sort_by(|a, b| a.order().cmp(&b.order()));
    bulletin.homes = homes.into_values().collect();
}

impl Change {
    fn order(&self) -> (Weight, Subject, &str, &str, &str, Option<&str>, &str) {
        (self.weight, self.subject, &self.home, &self.list, &self.id, self.field.as_deref(), &self.variant)
    }
}

struct Comparing<'a> {
    old: &'a State,
    new: &'a State,
    sheets: &'a Sheets,
    walls: &'a Walls,
}

impl Comparing<'_> {
    fn pair(&self, pair: &Pair, changes: &mut Vec<Change>) {
        match (&pair.old, &pair.new) {
            (Some(old), Some(new)) => {
                let nothing = Cases::new();
                let mut fields: Vec<&String> = old.fields.keys().chain(new.fields.keys()).collect();
                fields.sort();
                fields.dedup();
                for field in fields {
                    let (was, now) = (old.fields.get(field).unwrap_or(&nothing), new.fields.get(field).unwrap_or(&nothing));
                    for (when, was, now) in differences(was, now) {
                        changes.extend(self.change(pair, Some(field), &when, was, now));
                    }
                }
            }
            (old, new) => {
                let line = |entry: &Option<Entry>| entry.as_ref().map(Entry::in_one_line);
                changes.extend(self.change(pair, None, &Combination::default(), line(old), line(new)));
            }
        }
    }

    fn change(&self, pair: &Pair, field: Option<&String>, when: &Combination, was: Option<String>, now: Option<String>) -> Option<Change> {
        let here = pair.new.as_ref().or(pair.old.as_ref())?;
        let home = here.home.clone();
        let moved_from = pair.old.as_ref().map(|old| &old.home).filter(|was| **was != home).cloned();
        let before = pair.old.as_ref().and_then(|entry| thing(&entry.home, &pair.is.list, &pair.is.id));
        let after = pair.new.as_ref().and_then(|entry| thing(&entry.home, &pair.is.list, &pair.is.id));
        let machine = machine_of(&home);
        let name = after.as_ref().and_then(|thing| self.new.name_of(machine, thing)).or_else(|| before.as_ref().and_then(|thing| self.old.name_of(machine, thing)));
        let on = self.sheets.with(machine, before.as_ref(), after.as_ref(), when);
        let subject = subject(&pair.is.list);
        let critical = [&pair.old, &pair.new].into_iter().flatten().any(Entry::is_critical);
        let weight = match (critical, on.shown, self.sheets.are_known()) {
            (true, ..) => Weight::Critical,
            (_, true, _) => Weight::Work,
            // Where no sheet can be looked at, what is worked on is taken for work.
            (_, _, false) if !matches!(subject, Subject::Tool | Subject::Record) => Weight::Work,
            _ => Weight::Aside,
        };
        let lines = field.map_or_else(Vec::new, |field| self.lines(&home, moved_from.is_some(), &format!("{}.{field}", pair.is.id), when, (was.as_deref(), now.as_deref())));
        let untold = lines.is_empty() && was.is_some() && field.is_some() && self.new.manual().is_some();
        Some(Change {
            weight,
            subject,
            machine: machine.map(str::to_owned),
            moved_from,
            list: pair.is.list.clone(),
            id: pair.is.id.clone(),
            name: name.unwrap_or(&pair.is.id).to_owned(),
            field: field.cloned(),
            variant: when.words().replace(" · ", ", "),
            was,
            now,
            line: lines.last().cloned(),
            lines,
            untold,
            used_in: self.sheets.used_in(machine, before.as_ref(), after.as_ref()),
            sheets: on.out_of_date,
            wall_papers: self.walls.out_of_date_with(machine, before.as_ref(), after.as_ref()),
            home,
        })
    }

    /// The lines about a value that later revisions than the earlier state's have brought, oldest first.
    fn lines(&self, home: &str, moved: bool, of: &str, when: &Combination, (was, now): (Option<&str>, Option<&str>)) -> Vec<ChangeLine> {
        let Some(history) = self.new.manual().and_then(|manual| history(manual, home)) else { return Vec::new() };
        let lines = history.lines_on(of, when);
        let first = if moved {
            // The revision it had elsewhere says nothing here: what is told begins with the value it had.
            let from = |line: &&ManualChange| line.was_for(when).zip(was).is_some_and(|(told, was)| same_value(&told, was));
            lines.iter().position(from).unwrap_or(0)
        } else {
            let earlier = self.old.ledger.homes.get(home).and_then(|home| home.revision);
            lines.iter().position(|line| line.revision > earlier).unwrap_or(lines.len())
        };
        lines.into_iter().skip(first).map(|line| ChangeLine::of(line, history, when, now)).collect()
    }
}

impl ChangeLine {
    /// A line of a history, for machines of a condition whose value is now as given.
    pub(super) fn of(line: &ManualChange, history: &History, when: &Combination, now: Option<&str>) -> Self {
        Self {
            revision: line.revision,
            date: history.day_of(line),
            was: line.was_for(when),
            now: history.became(line, when, now),
            because: line.because.clone(),
            source: line.source.as_ref().map(|source| source.value.clone()),
        }
    }
}

fn history<'m>(manual: &'m Manual, home: &str) -> Option<&'m History> {
    match (home, home.split_once('/')) {
        (SHOP, _) => Some(&manual.shop_history),
        (_, Some((machine, procedure))) => Some(&manual.machine(machine)?.procedure(procedure)?.history),
        (machine, None) => Some(&manual.machine(machine)?.history),
    }
}

fn subject(list: &str) -> Subject {
    match ListKind::find(list) {
        Some(ListKind::Parts | ListKind::Kits | ListKind::Stacks | ListKind::Shafts) => Subject::Part,
        Some(ListKind::Materials) => Subject::Material,
        Some(ListKind::LeavesOpen | ListKind::Away) => Subject::OpenItem,
        Some(ListKind::Tools) => Subject::Tool,
        Some(ListKind::Sources | ListKind::People | ListKind::Terms | ListKind::Figures) | None => Subject::Record,
        Some(_) => Subject::Value,
    }
}

/// For which machines a field says something else. Cases of the same condition belong together; of those left, each with every
/// one that a machine can meet as well: `78 N·m` and `{early: 70 N·m, late: 78 N·m}` differ for early machines only.
fn differences(was: &Cases, now: &Cases) -> Vec<(Combination, Option<String>, Option<String>)> {
    let mut found = Vec::new();
    let twin = |cases: &Cases, when: &Combination| cases.iter().find(|(other, _)| other == when).map(|(_, text)| text.clone());
    for (when, text) in was {
        if let Some(other) = twin(now, when).filter(|other| !same_value(text, other)) {
            found.push((when.clone(), Some(text.clone()), Some(other)));
        }
    }
    let left = |here: &Cases, there: &Cases| -> Cases { here.iter().filter(|(when, _)| twin(there, when).is_none()).cloned().collect() };
    let (old, new) = (left(was, now), left(now, was));
    for (when, text) in &old {
        let mut met = false;
        for (other_when, other) in &new {
            let Some(both) = when.and(other_when) else { continue };
            met = true;
            if !same_value(text, other) {
                found.push((both.into_owned(), Some(text.clone()), Some(other.clone())));
            }
        }
        if !met {
            found.push((when.clone(), Some(text.clone()), None));
        }
    }
    for (when, text) in new {
        if !old.iter().any(|(other, _)| other.agrees_with(&when)) {
            found.push((when, None, Some(text)));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bulletin::state::combination;

    fn cases(all: &[(&str, &str)]) -> Cases {
        all.iter().map(|(when, text)| (combination(when), (*text).to_owned())).collect()
    }

    fn told(was: &[(&str, &str)], now: &[(&str, &str)]) -> Vec<String> {
        differences(&cases(was), &cases(now))
            .into_iter()
            .map(|(when, was, now)| format!("{}: {} > {}", when.words(), was.unwrap_or_default(), now.unwrap_or_default()))
            .collect()
    }

    #[test]
    fn a_value_that_splits_by_variant_changes_for_those_that_get_another() {
        assert_eq!(told(&[("", "70 N·m")], &[("serial early", "70.0 Nm"), ("serial late", "78 N·m")]), ["serial late: 70 N·m > 78 N·m"]);
        assert_eq!(told(&[("serial early", "70 N·m"), ("serial late", "78 N·m")], &[("", "78 N·m")]), ["serial early: 70 N·m > 78 N·m"]);
        assert_eq!(
            told(&[("serial early", "1 mm"), ("serial late", "2 mm")], &[("serial early", "1 mm"), ("serial late, shaft S", "2 mm"), ("serial late, shaft L", "3 mm")]),
            ["serial late · shaft L: 2 mm > 3 mm"]
        );
    }

    #[test]
    fn cases_of_one_condition_belong_together() {
        let both = [("serial late, shaft L", "1 mm"), ("serial late", "2 mm")];
        assert!(told(&both, &both).is_empty());
        assert_eq!(told(&[("", "dry")], &[]), [": dry > "]);
        assert_eq!(told(&[], &[("serial late", "oiled")]), ["serial late:  > oiled"]);
        assert_eq!(told(&[("serial early", "dry")], &[("serial late", "dry")]), ["serial early: dry > ", "serial late:  > dry"]);
    }
}
