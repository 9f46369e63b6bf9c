//! The values of the papers that hang at the bench: a machine's torque card, and a board of bolts.
//!
//! Their fingerprints are made as a sheet's is, over a canonical text of their own:
//!
//! ```text
//! benchleaf-card/1
//! card tarn-18
//! tarn-18/hub fasteners/hub-bolt serial=late
//! tarn-18/hub fasteners/hub-bolt.count 6
//! tarn-18/hub fasteners/hub-bolt.torque 78 N·m
//! shop materials/medium-locker.strength medium
//! ```
//!
//! - the version; the machine, or on a board (`benchleaf-board/1`, `board tarn-18/hub hub-bolt`) procedure and fastener;
//! - a line for each fastener on the paper with the variants it is for (`-` for all): on a card every one with a torque,
//!   those of the machine first, then those of each procedure, by their ids;
//! - behind it a line for each of its values that the paper shows or reckons with, in the order of their keys, by variant where
//!   they differ: a value that the paper does not show leaves it current;
//! - on a card the strength of its lockers, and the scales of its wrenches. Where no `tool:` says which wrench, it is chosen
//!   among all, and all of them count.
//!
//! Words of prose, titles, names and sources don't count, as on a sheet.

use super::board_room::board_places;
use super::fingerprint::{Fingerprint, SheetValues, condition, value_lines};
use super::lists::{Home, ListKind, Scope, ThingRef};
use super::model::{Machine, Manual, Procedure};
use super::things::{Entry, Fastener};
use super::varied::{Combination, Varied};
use super::verb::Verb;
use std::collections::BTreeSet;

/// The first lines of the canonical texts.
const CARD_VERSION: &str = "benchleaf-card/1";
const BOARD_VERSION: &str = "benchleaf-board/1";

/// What a card shows of a fastener. An order that is not given is worked out from the layout.
const ON_CARD: [&str; 15] = [
    "adapter", "class", "count", "critical", "drive", "layout", "length", "lock", "locker", "order", "reuse", "thread", "threads", "tool", "torque",
];
/// What it shows of a locker.
const OF_LOCKER: [&str; 1] = ["strength"];
/// What decides which wrench it is, how finely it is read, and what is set on it with an adapter.
const OF_WRENCH: [&str; 5] = ["kind", "length", "range", "scale", "step"];
/// What a board shows of a fastener.
const ON_BOARD: [&str; 6] = ["class", "count", "layout", "length", "order", "thread"];

impl SheetValues {
    /// The values on a machine's torque card.
    #[must_use]
    pub fn of_card(manual: &Manual, machine: &Machine) -> Self {
        card(manual, machine).values()
    }

    /// The values on the board of a procedure for a group of fasteners.
    #[must_use]
    pub fn of_board(manual: &Manual, machine: &Machine, procedure: &Procedure, fasteners: &ThingRef) -> Self {
        board(manual, machine, procedure, fasteners).values()
    }
}

/// The canonical text of the values on a torque card.
#[must_use]
pub fn card_text(manual: &Manual, machine: &Machine) -> String {
    card(manual, machine).text
}

/// The canonical text of the values on a board.
#[must_use]
pub fn board_text(manual: &Manual, machine: &Machine, procedure: &Procedure, fasteners: &ThingRef) -> String {
    board(manual, machine, procedure, fasteners).text
}

/// The fasteners of a procedure that have a board: tightened in it, with a layout in millimetres that fits the paper.
#[must_use]
pub fn placed_fasteners(scope: Scope<'_>, procedure: &Procedure) -> Vec<ThingRef> {
    let mut found: Vec<ThingRef> = Vec::new();
    for act in procedure.steps.iter().flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Torque)) {
        for thing in act.things.iter().filter(|thing| thing.kind == ListKind::Fasteners) {
            let entry = scope.thing(|l| &l.fasteners, thing);
            let placed = entry.is_some_and(|entry| entry.what.layout.cases.iter().any(|case| board_places(&case.value).is_some()));
            if placed && !found.contains(thing) {
                found.push(thing.clone());
            }
        }
    }
    found
}

fn card(manual: &Manual, machine: &Machine) -> Paper {
    let mut paper = Paper::begun(CARD_VERSION, &format!("card {}", machine.id), &machine.id);
    paper.fasteners(manual.machine_scope(machine), &Home::Machine);
    let mut procedures: Vec<&Procedure> = machine.procedures.iter().collect();
    procedures.sort_by(|one, other| one.id.cmp(&other.id));
    for procedure in procedures {
        paper.fasteners(manual.scope(machine, procedure), &Home::Procedure(procedure.id.clone()));
    }
    paper
}

fn board(manual: &Manual, machine: &Machine, procedure: &Procedure, fasteners: &ThingRef) -> Paper {
    let mut paper = Paper::begun(BOARD_VERSION, &format!("board {}/{} {}", machine.id, procedure.id, fasteners.id), &machine.id);
    let scope = manual.scope(machine, procedure);
    if let Some(entry) = scope.thing(|l| &l.fasteners, fasteners) {
        paper.fastener(scope, fasteners, entry, &ON_BOARD);
    }
    paper
}

/// A paper's canonical text as it grows, and the things met.
struct Paper {
    machine: String,
    text: String,
    things: BTreeSet<ThingRef>,
}

impl Paper {
    fn begun(version: &str, title: &str, machine: &str) -> Self {
        Self { machine: machine.to_owned(), text: format!("{version}\n{title}\n"), things: BTreeSet::new() }
    }

    fn values(self) -> SheetValues {
        SheetValues { fingerprint: Fingerprint::of_text(&self.text), things: self.things }
    }

    /// The fasteners of one front matter that have a torque, with what the card shows of their lockers and wrenches.
    fn fasteners(&mut self, scope: Scope<'_>, home: &Home) {
        let Some((_, lists)) = scope.homes().find(|(other, _)| other == home) else { return };
        let mut entries: Vec<&Entry<Fastener>> = lists.fasteners.values().filter(|entry| entry.what.torque.is_given()).collect();
        entries.sort_by(|one, other| one.id.cmp(&other.id));
        for entry in entries {
            let thing = ThingRef { kind: ListKind::Fasteners, home: home.clone(), id: entry.id.clone() };
            self.fastener(scope, &thing, entry, &ON_CARD);
            for locker in named(scope, ListKind::Materials, &entry.what.locker, &entry.only) {
                self.thing(scope, &locker, &Combination::default(), &OF_LOCKER);
            }
            for wrench in wrenches(scope, entry) {
                self.thing(scope, &wrench, &Combination::default(), &OF_WRENCH);
            }
        }
    }

    fn fastener(&mut self, scope: Scope<'_>, thing: &ThingRef, entry: &Entry<Fastener>, shown: &[&str]) {
        let line = format!("{} {}/{} {}\n", self.home(&thing.home), thing.kind.key(), thing.id, condition(&entry.only));
        self.text.push_str(&line);
        self.thing(scope, thing, &entry.only, shown);
    }

    fn thing(&mut self, scope: Scope<'_>, thing: &ThingRef, known: &Combination, shown: &[&str]) {
        if !self.things.insert(thing.clone()) {
            return;
        }
        let Some(lists) = scope.lists_of(thing) else { return };
        let lines = value_lines(lists, thing, known, &self.home(&thing.home), |field| shown.contains(&field));
        self.text.push_str(&lines);
    }

    /// A front matter as it is named everywhere: `shop`, `tarn-18`, `tarn-18/hub`.
    fn home(&self, home: &Home) -> String {
        match home {
            Home::Shop => "shop".to_owned(),
            Home::Machine => self.machine.clone(),
            Home::Procedure(id) => format!("{}/{id}", self.machine),
        }
    }
}

fn named(scope: Scope<'_>, kind: ListKind, ids: &Varied<String>, known: &Combination) -> Vec<ThingRef> {
    ids.cases_within(known).filter_map(|case| scope.find(kind, &case.value)).collect()
}

/// The wrenches that `tool:` names; where it leaves a machine without one, every torque wrench there is.
fn wrenches(scope: Scope<'_>, entry: &Entry<Fastener>) -> Vec<ThingRef> {
    let mut found = named(scope, ListKind::Tools, &entry.what.tool, &entry.only);
    let settled = entry.what.tool.cases_within(&entry.only).any(|case| entry.only.satisfies(&case.when) && scope.find(ListKind::Tools, &case.value).is_some());
    if !settled {
        let all = scope.homes().flat_map(|(_, lists)| lists.tools.values());
        let of_torque = all.filter(|tool| tool.what.kind.as_deref() == Some("torque-wrench"));
        found.extend(of_torque.filter_map(|tool| scope.find(ListKind::Tools, &tool.id)));
    }
    found.sort();
    found.dedup();
    found
}
