//! Ids in fields: each must name something, and each thing has one home.

mod told_values;

use super::acts;
use super::lists::{Home, ListKind, Lists, Scope};
use super::model::{Machine, Manual, Procedure};
use super::rules;
use super::things::{Entry, Faces, Fastener, Seal, Spot};
use super::varied::Varied;
use super::verb::Verb;
use crate::finding::{FileId, Finding, Place, Sought, is_slip_of, nearest};
use std::collections::BTreeSet;

/// Media that need no entry.
pub const MEDIA: [&str; 4] = ["water", "air", "fuel", "exhaust"];

/// Words that say a direction and no medium: they are told as such, not as an id that is not known.
pub const DIRECTIONS: [&str; 22] = [
    "in", "out", "inward", "inwards", "outward", "outwards", "inside", "outside", "up", "down", "upward", "upwards", "downward",
    "downwards", "top", "bottom", "left", "right", "front", "rear", "away", "me",
];

const THINGS: &[ListKind] = ListKind::THINGS;
/// What can wait: a bead cures too.
const WAITING: &[ListKind] = &[
    ListKind::Fasteners,
    ListKind::Seals,
    ListKind::Bearings,
    ListKind::Parts,
    ListKind::Shims,
    ListKind::Stacks,
    ListKind::Beads,
];
/// What can lie under a cover, or must be done before it goes on.
const COVERED: &[ListKind] = &[
    ListKind::Fasteners,
    ListKind::Measures,
    ListKind::Aligns,
    ListKind::LeavesOpen,
    ListKind::Tests,
    ListKind::Parts,
    ListKind::Seals,
    ListKind::Bearings,
];
/// More lists than these are not named one by one.
const MOST_NAMED: usize = 8;
const TOOLS: &[ListKind] = &[ListKind::Tools];
const PARTS: &[ListKind] = &[ListKind::Parts];
const MATERIALS: &[ListKind] = &[ListKind::Materials];
const SOURCES: &[ListKind] = &[ListKind::Sources];
const PEOPLE: &[ListKind] = &[ListKind::People];

/// Checks every id in every field of what all machines share.
pub(super) fn check_frame(manual: &Manual, findings: &mut Vec<Finding>) {
    let shop = Scope { shop: &manual.shop, machine: None, procedure: None };
    let mut checker = Checker { scope: shop, findings, told: BTreeSet::new() };
    checker.lists(&manual.shop);
    checker.history(&manual.shop_history);
    for waiver in &manual.waivers {
        checker.need(PEOPLE, &waiver.by);
    }
}

/// Checks every id in every field of a machine.
pub(super) fn check_machine(manual: &Manual, machine: &Machine, findings: &mut Vec<Finding>) {
    let mut checker = Checker { scope: manual.machine_scope(machine), findings, told: BTreeSet::new() };
    checker.lists(&machine.lists);
    checker.history(&machine.history);
    checker.one_home(&Home::Machine, &machine.lists);
    checker.one_thing(&Home::Machine, &machine.lists);
    machine.recordings.values().for_each(|recording| checker.recording(recording));
    for procedure in &machine.procedures {
        checker.scope = manual.scope(machine, procedure);
        procedure.recording.iter().for_each(|recording| checker.recording(recording));
        checker.lists(&procedure.lists);
        checker.history(&procedure.history);
        checker.one_home(&Home::Procedure(procedure.id.clone()), &procedure.lists);
        checker.one_thing(&Home::Procedure(procedure.id.clone()), &procedure.lists);
        checker.open_items(machine, procedure);
    }
}

struct Checker<'a, 'f> {
    scope: Scope<'a>,
    findings: &'f mut Vec<Finding>,
    /// Corrections of recordings that were looked at: several procedures may share a recording.
    told: BTreeSet<(FileId, usize)>,
}

impl Checker<'_, '_> {
    fn lists(&mut self, lists: &Lists) {
        self.sources(lists);
        for entry in lists.fasteners.values() {
            self.fastener(&entry.what);
        }
        for entry in lists.seals.values() {
            self.seal(&entry.what);
        }
        for entry in lists.bearings.values() {
            self.varied(PARTS, &entry.what.within);
            self.origin(&entry.what.from);
            self.condition(&entry.what.when);
            self.neighbours(&entry.id, &entry.what.faces);
        }
        for entry in lists.parts.values() {
            let part = &entry.what;
            self.varied(PARTS, &part.under);
            self.neighbours(&entry.id, &part.faces);
            self.varied(PARTS, &part.within);
            self.origin(&part.from);
            self.condition(&part.when);
            for covered in &part.covers {
                self.need_in_machine(COVERED, covered);
            }
        }
        self.smaller_lists(lists);
    }

    fn smaller_lists(&mut self, lists: &Lists) {
        for entry in lists.shafts.values() {
            for sits in &entry.what.sits {
                self.need_or_medium(&[ListKind::Seals, ListKind::Bearings, ListKind::Parts, ListKind::Materials], sits);
            }
        }
        for entry in lists.stacks.values() {
            entry.what.of.iter().for_each(|part| self.need(PARTS, part));
            self.varied(PARTS, &entry.what.begin);
            self.varied(PARTS, &entry.what.end);
        }
        for entry in lists.heats.values() {
            self.varied(THINGS, &entry.what.of);
            self.varied(TOOLS, &entry.what.check_with);
        }
        for entry in lists.beads.values() {
            self.varied(MATERIALS, &entry.what.of);
            entry.what.between.iter().for_each(|part| self.need(PARTS, part));
        }
        for entry in lists.measures.values() {
            self.varied(TOOLS, &entry.what.with);
            self.varied(&[ListKind::Shims], &entry.what.chooses);
            self.varied(THINGS, &entry.what.of);
        }
        for entry in lists.waits.values() {
            entry.what.of.iter().for_each(|thing| self.need(WAITING, thing));
            self.varied_medium(&entry.what.medium);
        }
        for entry in lists.fills.values() {
            self.varied_medium(&entry.what.of);
        }
        for entry in lists.aligns.values() {
            self.varied(TOOLS, &entry.what.check_with);
        }
        for entry in lists.kits.values() {
            for (held, _) in &entry.what.holds {
                self.need_in_machine(THINGS, held);
            }
        }
        for entry in lists.figures.values() {
            for named in entry.what.balloons.iter().filter_map(|balloon| balloon.of.as_ref()) {
                self.need(ListKind::ALL, named);
            }
        }
        for entry in lists.sources.values() {
            entry.what.by.iter().chain(&entry.what.read_by).for_each(|person| self.need(PEOPLE, person));
        }
    }

    fn fastener(&mut self, fastener: &Fastener) {
        fastener.holds.iter().for_each(|held| self.need(THINGS, held));
        self.varied(MATERIALS, &fastener.locker);
        self.varied(TOOLS, &fastener.tool);
        self.varied(TOOLS, &fastener.hold_with);
        self.condition(&fastener.when);
    }

    fn seal(&mut self, seal: &Seal) {
        self.varied(MATERIALS, &seal.lip);
        self.varied(PARTS, &seal.within);
        self.varied(&[ListKind::Tools, ListKind::Parts], &seal.sleeve);
        self.origin(&seal.from);
        self.condition(&seal.when);
        for case in &seal.faces.cases {
            if let Faces::Toward(features) = &case.value {
                for (_, medium) in features.iter().filter(|(_, medium)| !DIRECTIONS.contains(&medium.value.as_str())) {
                    self.need_or_medium(MATERIALS, medium);
                }
            }
        }
    }

    /// What a part or bearing looks at may be a neighbour that no list has; a name next to a listed one was misspelt.
    fn neighbours(&mut self, own: &str, faces: &Varied<Faces>) {
        let kinds: Vec<ListKind> = THINGS.iter().chain(MATERIALS).copied().collect();
        let named = faces.cases.iter().filter_map(|case| if let Faces::Toward(features) = &case.value { Some(features) } else { None });
        for (_, neighbour) in named.flatten() {
            let word = neighbour.value.as_str();
            let is_known = MEDIA.contains(&word) || DIRECTIONS.contains(&word) || kinds.iter().any(|kind| self.scope.find_anywhere(*kind, word).is_some());
            if is_known || self.scope.may_be_lost(&kinds) {
                continue;
            }
            let elsewhere = self.scope.machine.into_iter().flat_map(|machine| &machine.procedures).map(|procedure| &procedure.lists);
            let all = self.scope.homes().map(|(_, lists)| lists).chain(elsewhere);
            let ids = all.flat_map(|lists| kinds.iter().flat_map(|kind| lists.heads(*kind))).map(|head| head.id);
            if let Some(near) = nearest(word, ids.filter(|id| *id != own && is_slip_of(word, id))) {
                self.findings.push(
                    Finding::new(&rules::UNKNOWN_ID, neighbour.place.clone(), format!("‘{word}’ stands in no list"))
                        .label("points to nothing")
                        .fix(format!("did you mean ‘{near}’? What no list has may stand here, by a name that is no near one")),
                );
            }
        }
    }

    /// `source:` of every entry of every list.
    fn sources(&mut self, lists: &Lists) {
        let named: Vec<Spot<String>> = lists
            .written
            .iter()
            .filter(|written| written.field == "source")
            .map(|written| Spot { value: unquoted(&written.text), place: written.place.clone() })
            .collect();
        for source in named {
            self.need(SOURCES, &source);
        }
        for claims in &lists.claims {
            claims.said.iter().for_each(|claim| self.need(SOURCES, &claim.source));
            claims.decided.iter().for_each(|decided| self.need(SOURCES, &decided.source));
        }
    }

    fn open_items(&mut self, machine: &Machine, procedure: &Procedure) {
        for entry in procedure.lists.leaves_open.values() {
            let own = Spot { value: entry.id.clone(), place: entry.id_place.clone() };
            let kinds: Vec<ListKind> = ListKind::ALL.iter().copied().filter(|kind| *kind != ListKind::LeavesOpen).collect();
            self.need(&kinds, entry.what.of.as_ref().unwrap_or(&own));
            entry.what.finish_in.iter().for_each(|target| self.finish(machine, target));
            entry.what.forbids.iter().for_each(|forbidden| self.forbidden(forbidden));
        }
        for entry in procedure.lists.away.values() {
            let own = Spot { value: entry.id.clone(), place: entry.id_place.clone() };
            self.need(THINGS, &own);
            entry.what.finish_in.iter().for_each(|target| self.finish(machine, target));
        }
    }

    /// `PROCEDURE#STEP` of the same machine.
    fn finish(&mut self, machine: &Machine, target: &Spot<String>) {
        let (procedure, step) = target.value.split_once('#').unwrap_or((target.value.as_str(), ""));
        let found = machine.procedure(procedure);
        let (message, fix) = match found {
            None => {
                let near = nearest(procedure, machine.procedures.iter().map(|p| p.id.as_str()));
                (format!("{} has no procedure ‘{procedure}’", machine.name), near.map(|near| format!("did you mean ‘{near}’?")))
            }
            Some(_) if step.is_empty() => (format!("‘{}’ does not say which step", target.value), None),
            Some(found) if found.step(step).is_none() => {
                let near = nearest(step, found.steps.iter().map(|s| s.id.as_str()));
                (format!("{} has no step ‘{step}’", found.title), near.map(|near| format!("did you mean ‘{near}’?")))
            }
            Some(_) => return,
        };
        let finding = Finding::new(&rules::UNKNOWN_ID, target.place.clone(), message)
            .label("not there")
            .fix(fix.unwrap_or_else(|| "write PROCEDURE#STEP of the same machine".to_owned()));
        // The procedure is there, so it is the step that is not.
        self.findings.push(if found.is_some() { finding.sought(Sought::Steps(format!("{}/{procedure}", machine.id))) } else { finding });
    }

    /// `fill:gear-oil`, or a verb alone.
    fn forbidden(&mut self, forbidden: &Spot<String>) {
        let (word, id) = forbidden.value.split_once(':').unwrap_or((forbidden.value.as_str(), ""));
        match Verb::find(word) {
            None => {
                let near = nearest(word, super::verb::VERBS.iter().map(|row| row.word));
                self.findings.push(
                    Finding::new(&rules::UNKNOWN_VERB, forbidden.place.clone(), format!("‘{word}’ is no act"))
                        .label("not a verb of ours")
                        .fix(near.map_or_else(|| "write a verb, or a verb and an id: fill:gear-oil".to_owned(), |near| format!("did you mean ‘{near}’?"))),
                );
            }
            Some(verb) if !id.is_empty() => {
                let spot = Spot { value: id.to_owned(), place: forbidden.place.clone() };
                self.need_in_machine(verb.row().lists, &spot);
            }
            Some(_) => {}
        }
    }

    fn varied(&mut self, kinds: &[ListKind], value: &Varied<String>) {
        for case in &value.cases {
            self.need(kinds, &Spot { value: case.value.clone(), place: case.place.clone() });
        }
    }

    fn varied_medium(&mut self, value: &Varied<String>) {
        for case in &value.cases {
            self.need_or_medium(MATERIALS, &Spot { value: case.value.clone(), place: case.place.clone() });
        }
    }

    /// `from:` a kit, `order` or `stock`.
    fn origin(&mut self, value: &Varied<String>) {
        for case in value.cases.iter().filter(|case| !matches!(case.value.as_str(), "order" | "stock")) {
            self.need(&[ListKind::Kits], &Spot { value: case.value.clone(), place: case.place.clone() });
        }
    }

    /// `when:` is a measure's id where it looks like one; otherwise words.
    fn condition(&mut self, value: &Varied<String>) {
        for case in value.cases.iter().filter(|case| case.value.contains('-') && super::lower_lists::is_id(&case.value)) {
            self.need_in_machine(&[ListKind::Measures], &Spot { value: case.value.clone(), place: case.place.clone() });
        }
    }

    fn need(&mut self, kinds: &[ListKind], spot: &Spot<String>) {
        if !kinds.iter().any(|kind| self.scope.find(*kind, &spot.value).is_some()) && !self.scope.may_be_lost(kinds) {
            self.report_unknown(kinds, &[], spot);
        }
    }

    fn need_or_medium(&mut self, kinds: &[ListKind], spot: &Spot<String>) {
        let known = kinds.iter().any(|kind| self.scope.find(*kind, &spot.value).is_some());
        if !known && !MEDIA.contains(&spot.value.as_str()) && !self.scope.may_be_lost(kinds) {
            self.report_unknown(kinds, &MEDIA, spot);
        }
    }

    /// As [`Self::need`], but the lists of every procedure of the machine count.
    fn need_in_machine(&mut self, kinds: &[ListKind], spot: &Spot<String>) {
        let elsewhere = self.scope.machine.is_some_and(|machine| {
            machine.procedures.iter().any(|p| kinds.iter().any(|kind| p.lists.head(*kind, &spot.value).is_some()))
        });
        if !elsewhere {
            self.need(kinds, spot);
        }
    }

    /// `words` are no ids, but may stand in their place.
    fn report_unknown(&mut self, kinds: &[ListKind], words: &[&str], spot: &Spot<String>) {
        let heads = kinds.iter().flat_map(|kind| self.scope.homes().flat_map(|(_, lists)| lists.heads(*kind)));
        let near = nearest(&spot.value, heads.map(|head| head.id).chain(words.iter().copied()));
        let wanted = if kinds.len() > MOST_NAMED { "one of the lists".to_owned() } else { acts::either(kinds) };
        let unlisted = if words.is_empty() { String::new() } else { format!("; known without an entry: {}", words.join(", ")) };
        let fix = near.map_or_else(|| format!("list it under {wanted}{unlisted}"), |near| format!("did you mean ‘{near}’?"));
        // An open item or a part away goes by the id of its thing: it is not that thing.
        let things = ListKind::ALL.iter().filter(|kind| !matches!(kind, ListKind::LeavesOpen | ListKind::Away));
        let elsewhere = things.into_iter().find(|kind| self.scope.find(**kind, &spot.value).is_some());
        let place = spot.place.clone();
        let finding = if let Some(kind) = elsewhere {
            Finding::new(&rules::UNKNOWN_ID, place, format!("‘{}’ is {}, and that can't stand here", spot.value, kind.one()))
                .label("of another kind")
                .fix(fix)
        } else if let Some((title, other)) = self.scope.in_another_procedure(kinds, &spot.value) {
            Finding::new(&rules::UNKNOWN_ID, place, format!("‘{}’ stands in the lists of another procedure, ‘{title}’", spot.value))
                .label("not listed here")
                .related(other, "listed there")
                .fix("move it to machine.yaml, where both procedures find it")
        } else {
            Finding::new(&rules::UNKNOWN_ID, place, format!("‘{}’ stands in no list", spot.value)).label("points to nothing").fix(fix)
        };
        self.findings.push(finding);
    }

    /// An entry may not stand further out as well.
    fn one_home(&mut self, home: &Home, lists: &Lists) {
        for kind in ListKind::ALL.iter().filter(|kind| !matches!(kind, ListKind::Figures | ListKind::LeavesOpen | ListKind::Away)) {
            for head in lists.heads(*kind) {
                let outer = self.scope.homes().filter(|(other, _)| outside(home, other)).find_map(|(_, lists)| lists.head(*kind, head.id));
                if let Some(outer) = outer {
                    self.two_homes(*kind, head.id, head.place, outer.place);
                }
            }
        }
    }

    /// What can be fitted goes by one id: `fit:` could not tell a fastener from a part of the same.
    fn one_thing(&mut self, home: &Home, lists: &Lists) {
        for (at, kind) in THINGS.iter().enumerate() {
            for head in lists.heads(*kind) {
                let outer = |other: ListKind| {
                    self.scope.homes().filter(|(further, _)| outside(home, further)).find_map(|(_, lists)| lists.head(other, head.id))
                };
                let clash = THINGS.iter().enumerate().filter(|(index, _)| *index != at).find_map(|(index, other)| {
                    // Of two in one file the later list is told.
                    let own = lists.head(*other, head.id).filter(|_| index < at);
                    own.or_else(|| outer(*other)).map(|found| (*other, found.place.clone()))
                });
                let Some((other, first)) = clash else { continue };
                self.findings.push(
                    Finding::new(&rules::TWO_HOMES, head.place.clone(), format!("‘{}’ is {} and {}", head.id, other.one(), kind.one()))
                        .label("which of the two goes in?")
                        .related(first, "the other")
                        .fix("give one of them another id: ‘fit:’ can't tell them apart")
                        .about(head.id.to_owned()),
                );
            }
        }
    }

    fn two_homes(&mut self, kind: ListKind, id: &str, inner: &Place, outer: &Place) {
        let torques = (kind == ListKind::Fasteners).then(|| self.torques(id, inner, outer)).flatten();
        let rule = if torques.is_some() { &rules::TWO_VALUES_ONE_FASTENER } else { &rules::TWO_HOMES };
        let shared = self.scope.shop.head(kind, id).is_some_and(|head| head.place == outer);
        let fix = if shared { "keep one: what several machines share stands in shop.yaml" } else { "keep one: what several procedures share stands in machine.yaml" };
        let message = if torques.is_some() { format!("‘{id}’ has two homes and two torques") } else { format!("‘{id}’ is {} with two homes", kind.one()) };
        let finding = Finding::new(rule, inner.clone(), message)
            .label("the second")
            .related(outer.clone(), "the first")
            .fix(fix)
            .about(id.to_owned());
        self.findings.push(match torques {
            Some(figure) => finding.figure(figure),
            None => finding,
        });
    }

    /// Both torques of a fastener with two homes, where they differ.
    fn torques(&self, id: &str, inner: &Place, outer: &Place) -> Option<String> {
        let written = |place: &Place| {
            self.scope.homes().find_map(|(_, lists)| {
                let entry: &Entry<Fastener> = lists.fasteners.get(id).filter(|entry| entry.id_place == *place)?;
                let values: Vec<String> = entry
                    .what
                    .torque
                    .cases
                    .iter()
                    .flat_map(|case| case.value.stages().iter().map(|stage| stage.written().to_owned()))
                    .collect();
                (!values.is_empty()).then(|| values.join(", "))
            })
        };
        let (inner, outer) = (written(inner)?, written(outer)?);
        (inner != outer).then(|| format!("{inner} here, {outer} there"))
    }
}

fn outside(inner: &Home, other: &Home) -> bool {
    match inner {
        Home::Shop => false,
        Home::Machine => *other == Home::Shop,
        Home::Procedure(_) => matches!(other, Home::Shop | Home::Machine),
    }
}

fn unquoted(text: &str) -> String {
    text.trim_matches(|c| c == '\'' || c == '"').to_owned()
}
