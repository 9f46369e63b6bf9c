//! The sheets of two states, by their fingerprints, and which things stand on them.

use super::state::State;
use super::{Fate, SheetChange, UsedIn};
use crate::inspect::used_by;
use crate::manual::{Combination, Fingerprint, Home, Manual, ThingRef, sheet_variants, things_on_sheet};
use std::collections::{BTreeMap, BTreeSet};

/// Machine, procedure and variant.
type Key = (String, String, Combination);

/// One sheet.
struct Sheet {
    fingerprint: Fingerprint,
    things: BTreeSet<ThingRef>,
}

/// The sheets and uses of two states.
pub(super) struct Sheets {
    /// Both states were read, so that both have sheets.
    both: bool,
    any: bool,
    old: BTreeMap<Key, Sheet>,
    new: BTreeMap<Key, Sheet>,
    uses_old: Uses,
    uses_new: Uses,
}

/// Where a thing stands.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Standing {
    /// On some sheet, of either state.
    pub(super) shown: bool,
    /// Sheets of the earlier state with it that are out of date.
    pub(super) out_of_date: usize,
}

impl Sheets {
    pub(super) fn of(old: &State, new: &State) -> Self {
        let (before, now) = (old.manual(), new.manual());
        Self {
            both: before.is_some() && now.is_some(),
            any: before.is_some() || now.is_some(),
            old: before.map(sheets).unwrap_or_default(),
            new: now.map(sheets).unwrap_or_default(),
            uses_old: before.map(uses).unwrap_or_default(),
            uses_new: now.map(uses).unwrap_or_default(),
        }
    }

    /// Whether the sheets of some state are known.
    pub(super) fn are_known(&self) -> bool {
        self.any
    }

    /// What became of every sheet.
    pub(super) fn changes(&self) -> Vec<SheetChange> {
        if !self.both {
            return Vec::new();
        }
        let keys: BTreeSet<&Key> = self.old.keys().chain(self.new.keys()).collect();
        let mut found: Vec<SheetChange> = keys.into_iter().map(|key| {
            let (machine, procedure, variant) = key;
            let text = |sheet: Option<&Sheet>| sheet.map(|sheet| sheet.fingerprint.to_string());
            SheetChange {
                fate: self.fate(key),
                machine: machine.clone(),
                procedure: procedure.clone(),
                variant: variant.words().replace(" · ", ", "),
                was: text(self.old.get(key)),
                now: text(self.new.get(key)),
            }
        }).collect();
        found.sort_by_key(|sheet| sheet.fate);
        found
    }

    fn fate(&self, key: &Key) -> Fate {
        Fate::of(self.old.get(key).map(|sheet| &sheet.fingerprint), self.new.get(key).map(|sheet| &sheet.fingerprint))
    }

    /// Where a thing stands for machines that meet `when`; `machine` is none for what all share.
    pub(super) fn with(&self, machine: Option<&str>, before: Option<&ThingRef>, after: Option<&ThingRef>, when: &Combination) -> Standing {
        let keys: BTreeSet<&Key> = self.old.keys().chain(self.new.keys()).collect();
        let mut found = Standing::default();
        for key in keys.into_iter().filter(|(of, _, known)| machine.is_none_or(|machine| machine == of) && known.agrees_with(when)) {
            let has = |sheets: &BTreeMap<Key, Sheet>, thing: Option<&ThingRef>| sheets.get(key).zip(thing).is_some_and(|(sheet, thing)| sheet.things.contains(thing));
            if has(&self.old, before) || has(&self.new, after) {
                found.shown = true;
                found.out_of_date += usize::from(self.both && matches!(self.fate(key), Fate::OutOfDate | Fate::Gone));
            }
        }
        found
    }

    /// The steps that use a thing, now; where it is gone, before.
    pub(super) fn used_in(&self, machine: Option<&str>, before: Option<&ThingRef>, after: Option<&ThingRef>) -> Vec<UsedIn> {
        let (uses, thing) = match (after, before) {
            (Some(after), _) if self.uses_new.is_known => (&self.uses_new, after),
            (_, Some(before)) => (&self.uses_old, before),
            _ => return Vec::new(),
        };
        let own = |of: &str| match (&thing.home, machine) {
            (Home::Shop, _) | (_, None) => true,
            (_, Some(machine)) => machine == of,
        };
        uses.of.get(thing).map_or_else(Vec::new, |found| found.iter().filter(|used| own(&used.machine)).cloned().collect())
    }
}

/// Every sheet of a manual.
pub(super) fn each_sheet(manual: &Manual, mut tell: impl FnMut(&str, &str, &Combination, Fingerprint)) {
    for machine in &manual.machines {
        for procedure in &machine.procedures {
            for known in sheet_variants(manual, machine, procedure) {
                let fingerprint = Fingerprint::of(manual, machine, procedure, &known);
                tell(&machine.id, &procedure.id, &known, fingerprint);
            }
        }
    }
}

fn sheets(manual: &Manual) -> BTreeMap<Key, Sheet> {
    let mut all = BTreeMap::new();
    each_sheet(manual, |machine, procedure, known, fingerprint| {
        let found = manual.machine(machine).and_then(|machine| Some((machine, machine.procedure(procedure)?)));
        let things = found.map(|(machine, procedure)| things_on_sheet(manual, machine, procedure, known)).unwrap_or_default();
        all.insert((machine.to_owned(), procedure.to_owned(), known.clone()), Sheet { fingerprint, things });
    });
    all
}

/// Which steps use what.
#[derive(Default)]
struct Uses {
    is_known: bool,
    of: BTreeMap<ThingRef, Vec<UsedIn>>,
}

fn uses(manual: &Manual) -> Uses {
    let mut of: BTreeMap<ThingRef, Vec<UsedIn>> = BTreeMap::new();
    for machine in &manual.machines {
        for procedure in &machine.procedures {
            let scope = manual.scope(machine, procedure);
            for step in &procedure.steps {
                for thing in step.acts.iter().flat_map(|act| used_by(scope, act, &step.only)) {
                    let list = of.entry(thing).or_default();
                    match list.last_mut().filter(|used| used.machine == machine.id && used.procedure == procedure.id) {
                        Some(used) if used.steps.last() == Some(&step.id) => {}
                        Some(used) => used.steps.push(step.id.clone()),
                        None => list.push(UsedIn { machine: machine.id.clone(), procedure: procedure.id.clone(), steps: vec![step.id.clone()] }),
                    }
                }
            }
        }
    }
    Uses { is_known: true, of }
}
