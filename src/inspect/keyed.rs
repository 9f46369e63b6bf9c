//! Keys: what turns with its shaft through a key goes on over that key, and not before it.

use super::Context;
use super::sentences::words_of as spans_of;
use super::sides::words_of;
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Faces, Home, ListKind, Part, Step, ThingRef, Verb};
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

/// A part goes on without its key.
pub(super) static KEY_LEFT_OUT: Rule = Rule {
    name: "key-left-out",
    severity: Severity::Error,
    summary: "A part that turns with its shaft through a key goes on without the key.",
    explanation: Explanation {
        finds: "fit: of a part while a part of kind key that belongs to it and that some act of the machine handles is not in. A key belongs to the part that it is called after (‘Key of the flywheel’, ‘Flywheel key’), else to the one its id names (flywheel-key), and to what its faces: names. As a warning: where only in: tells of a part, unless the key goes in behind that part and something driven goes on over it; and fit: of a flywheel, sprocket, pulley, gear, wheel, pinion, hub, drum, clutch, coupling, rotor, fan, propeller or impeller whose name, note or when: says keyed or keyway (and not splines, serrations, a clamping ring, a taper pin or dogs), while no key that may be its own is in, and neither its entry nor a step of the procedure so far speaks of a key. A taper alone tells of no key.",
        matters: "Without its key a flywheel holds by the taper alone: the first kick turns it, the timing goes with it, and the shaft is scored.",
        may_be_wrong: "Where the taper alone is to hold: write ‘no key’ into its note: or when:. Where the part only carries the key: call the key after what it drives.",
        example: "[Flywheel on](fit:flywheel). [Key in](fit:flywheel-key)",
        instead: "[Seat the key in the shaft](fit:flywheel-key). [Flywheel on](fit:flywheel)",
    },
};

/// What is driven by its shaft, as its name says by its noun: a keyed washer is not.
const DRIVEN: [&str; 14] = [
    "flywheel", "sprocket", "pulley", "gear", "wheel", "hub", "coupling", "rotor", "propeller", "impeller", "pinion", "drum", "clutch", "fan",
];
/// What may go on over a key beside these.
const GOES_OVER: [&str; 8] = ["flange", "sheave", "cam", "disc", "collar", "lever", "worm", "cone"];
/// What says that a part has a key.
const KEYED: [&str; 4] = ["keyed", "keyway", "key slot", "key groove"];
/// What says that a part sits on a taper; that alone tells of no key, since many hold by friction, serrations or a ring.
const SEATS: [&str; 8] = ["on a taper", "on the taper", "on its taper", "tapered bore", "taper bore", "taper of the shaft", "taper of its shaft", "tapered shaft"];
/// What says that a part is driven by something else than a key.
const OTHERWISE_DRIVEN: [&str; 11] = [
    "spline", "splines", "splined", "serration", "serrations", "serrated", "clamping ring", "square taper", "taper pin", "shifting dog", "dogs",
];
/// What speaks of a key, whatever it says of it.
const OF_KEYS: [&str; 6] = ["key", "keys", "keyless", "woodruff key", "drive pin", "shear pin"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let keys = Keys::of(walk);
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Fit) {
            findings.extend(without_key(walk, &keys, at, moment));
        }
    });
}

/// A key, as a thing and by its entry.
type Key<'m> = (ThingRef, &'m Entry<Part>);

/// The keys of a machine, and what they belong to: gathered once for a walk.
#[derive(Default)]
struct Keys<'m> {
    all: Vec<Key<'m>>,
    /// By the id of the part that the name or id of the key names, or that it looks at.
    by_id: BTreeMap<&'m str, Vec<usize>>,
    /// By the id of the part it lies in, where nothing else tells what it drives: that part may only carry it.
    lies_in: BTreeMap<&'m str, Vec<usize>>,
    /// The parts that each key belongs to for certain.
    owners: Vec<BTreeSet<&'m str>>,
    /// The first step of each procedure that speaks of a key; read when it is first asked for.
    spoken_in: OnceCell<BTreeMap<&'m str, usize>>,
    /// What some act of the machine puts in or takes out; read when it is first asked for.
    handled: OnceCell<BTreeSet<&'m ThingRef>>,
}

/// The parts of a machine that may be driven, by id and by name as [`plain`] gives it.
#[derive(Default)]
struct Parts<'m> {
    ids: BTreeSet<&'m str>,
    by_name: BTreeMap<String, BTreeSet<&'m str>>,
}

impl<'m> Parts<'m> {
    fn add(&mut self, entry: &'m Entry<Part>) {
        self.ids.insert(&entry.id);
        self.by_name.entry(plain(&entry.name)).or_default().insert(&entry.id);
    }

    /// The parts that the name of a key names; where it names none, the part that its id names.
    fn named_by(&self, key: &Entry<Part>) -> BTreeSet<&'m str> {
        let name = plain(&key.name);
        let of = name.strip_prefix("key of the ").or_else(|| name.strip_prefix("key of ")).or_else(|| name.strip_suffix(" key"));
        let by_name = of.and_then(|of| self.by_name.get(of));
        let by_id = || key.id.strip_suffix("-key").and_then(|id| self.ids.get(id)).into_iter().copied().collect();
        by_name.cloned().unwrap_or_else(by_id)
    }
}

impl<'m> Keys<'m> {
    fn of(walk: &Walk<'m>) -> Self {
        let mut keys = Self::default();
        let mut parts = Parts::default();
        let of_procedures = walk.machine.procedures.iter().map(|procedure| (Some(procedure), &procedure.lists));
        for (procedure, lists) in of_procedures.chain([(None, &walk.machine.lists)]) {
            for entry in lists.parts.values() {
                if is_key(walk, entry) {
                    let home = procedure.map_or(Home::Machine, |procedure| Home::Procedure(procedure.id.clone()));
                    keys.all.push((ThingRef { kind: ListKind::Parts, home, id: entry.id.clone() }, entry));
                } else if !only_carries(entry) {
                    parts.add(entry);
                }
            }
        }
        for at in 0..keys.all.len() {
            keys.join(walk, &parts, at);
        }
        keys
    }

    /// Finds out what a key belongs to.
    fn join(&mut self, walk: &Walk<'m>, parts: &Parts<'m>, at: usize) {
        let Some((_, entry)) = self.all.get(at) else { return };
        let entry: &'m Entry<Part> = entry;
        let mut owners = parts.named_by(entry);
        if let Some(Faces::Toward(features)) = entry.what.faces.get(&walk.combination) {
            owners.extend(features.iter().filter_map(|(_, of)| parts.ids.get(of.value.as_str())));
        }
        for id in &owners {
            self.by_id.entry(id).or_default().push(at);
        }
        let within = entry.what.within.get(&walk.combination).and_then(|within| parts.ids.get(within.as_str()));
        if let Some(id) = within.filter(|_| owners.is_empty()) {
            self.lies_in.entry(id).or_default().push(at);
        }
        self.owners.push(owners);
    }

    /// The keys that belong to a part for certain.
    fn of_part(&self, part: &Entry<Part>) -> Vec<&Key<'m>> {
        self.at(self.by_id.get(part.id.as_str()))
    }

    /// The keys that lie in a part, of which nothing tells what they drive.
    fn in_part(&self, part: &Entry<Part>) -> Vec<&Key<'m>> {
        self.at(self.lies_in.get(part.id.as_str()))
    }

    fn at(&self, numbers: Option<&Vec<usize>>) -> Vec<&Key<'m>> {
        numbers.into_iter().flatten().filter_map(|at| self.all.get(*at)).collect()
    }

    /// The keys that no other part has for its own.
    fn free_for<'k>(&'k self, part: &'k Entry<Part>) -> impl Iterator<Item = &'k Key<'m>> {
        let keys = self.all.iter().zip(&self.owners);
        keys.filter(|(_, owners)| owners.iter().all(|owner| *owner == part.id)).map(|(key, _)| key)
    }

    /// Whether the procedure, up to the step, speaks of a key in its words: then somebody has thought of it.
    fn spoken_by(&self, walk: &Walk<'m>, moment: &Moment<'m>) -> bool {
        let first = self.spoken_in.get_or_init(|| {
            let speaks = |step: &Step| Words::of(&words_of(step)).first(&OF_KEYS).is_some();
            let procedures = walk.machine.procedures.iter();
            procedures.filter_map(|procedure| Some((procedure.id.as_str(), procedure.steps.iter().position(speaks)?))).collect()
        });
        let at = moment.procedure.steps.iter().position(|step| std::ptr::eq(step, moment.step));
        first.get(moment.procedure.id.as_str()).zip(at).is_some_and(|(first, at)| *first <= at)
    }

    /// Whether some act of the machine puts a key in or takes it out.
    fn is_handled(&self, walk: &Walk<'m>, key: &ThingRef) -> bool {
        let handled = self.handled.get_or_init(|| {
            let acts = walk.machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
            acts.filter(|act| matches!(act.verb, Some(Verb::Fit | Verb::DryFit | Verb::Remove))).flat_map(|act| &act.things).collect()
        });
        handled.contains(key)
    }
}

/// Whether a part is a shaft by its name: it carries the key and does not go on over it.
fn only_carries(part: &Entry<Part>) -> bool {
    Words::of(&part.name).first(&CARRIES).is_some() && !is_driven(part)
}

/// A key of the walk's variant that is in before its part goes on: not one that is driven in behind it, nor one for a lock.
fn is_key(walk: &Walk<'_>, entry: &Entry<Part>) -> bool {
    let kind = entry.what.kind.get(&walk.combination).is_some_and(|kind| kind == "key");
    kind && walk.combination.satisfies(&entry.only) && !speaks(entry, &["gib", "gib-head", "taper", "tapered", "wedge", "driven in", "drive key", "ignition"])
}

fn without_key<'m>(walk: &Walk<'m>, keys: &Keys<'m>, at: usize, moment: &Moment<'m>) -> Option<Finding> {
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts && !walk.machine.may_mean(&thing.id))?;
    let part = walk.scope(moment.procedure).thing(|lists| &lists.parts, thing)?;
    let kind = part.what.kind.first().map_or("", String::as_str);
    // A shaft goes in before the key that it carries.
    if matches!(kind, "key" | "shaft") || speaks(part, &["no key", "without key", "without a key", "keyless"]) {
        return None;
    }
    let (own, inside) = (keys.of_part(part), keys.in_part(part));
    if own.is_empty() && inside.is_empty() {
        return unlisted(walk, keys, at, moment, part);
    }
    if own.iter().chain(&inside).any(|(key, _)| is_in(walk, key, at) || walk.machine.may_mean(&key.id)) {
        return None;
    }
    // A key that no act handles at all is told as listed and not used; it may have stayed in its slot.
    let missing = own.into_iter().find(|(key, _)| keys.is_handled(walk, key)).map(|key| (key, Severity::Error));
    let carried = || inside.into_iter().find(|(key, _)| keys.is_handled(walk, key) && !drives_another(walk, part, key, at)).map(|key| (key, Severity::Warning));
    let ((key, entry), severity) = missing.or_else(carried)?;
    let finding = Finding::new(&KEY_LEFT_OUT, moment.act.place.clone(), format!("{} goes on here without ‘{}’", part.name, entry.name))
        .severity(severity)
        .label("its key is not in")
        .related(entry.id_place.clone(), "its key");
    let later = walk.moments_of(key).find(|(other, later)| *other > at && matches!(later.verb, Verb::Fit | Verb::DryFit));
    let out = walk.state_before(key, at).1.and_then(|since| walk.moments.get(since));
    let finding = match (out, later) {
        (Some(out), _) => finding.related(out.act.place.clone(), format!("taken out: {}", out.words())),
        (None, Some((_, later))) => finding.related(later.act.place.clone(), format!("goes in only later: {}", later.words())),
        (None, None) => finding.figure(format!("no act puts it in{}", walk.variant_words())),
    };
    let other = if severity == Severity::Warning { format!("; where {} only carries it, name the key after what it drives: Key of the …", part.name) } else { String::new() };
    Some(finding.fix(format!("put the key in first: [Seat the key in the shaft](fit:{}); for a trial without it, dry-fit:{}{other}", key.id, part.id)).about(part.id.clone()))
}

/// Whether a key goes into a part that is in already, and something else goes on over it behind that: the part carries it.
fn drives_another(walk: &Walk<'_>, part: &Entry<Part>, key: &ThingRef, at: usize) -> bool {
    let seated = walk.moments_of(key).find(|(other, seated)| *other > at && seated.verb == Verb::Fit).map(|(other, _)| other);
    let Some(seated) = seated else { return false };
    let over = walk.moments.iter().skip(seated + 1).filter(|moment| matches!(moment.verb, Verb::Fit | Verb::DryFit));
    let parts = over.filter_map(|moment| walk.scope(moment.procedure).thing(|lists| &lists.parts, moment.act.thing()?));
    parts.filter(|other| other.id != part.id).any(|other| is_driven(other) || ends_in(other, &GOES_OVER))
}

/// A part that speaks of a key, for which no key is listed.
fn unlisted<'m>(walk: &Walk<'m>, keys: &Keys<'m>, at: usize, moment: &Moment<'m>, part: &Entry<Part>) -> Option<Finding> {
    if !is_driven(part) || !speaks(part, &KEYED) || speaks(part, &OTHERWISE_DRIVEN) {
        return None;
    }
    // A key of another part is none of its own.
    let has_one = || keys.free_for(part).any(|(key, _)| is_in(walk, key, at) || walk.machine.may_mean(&key.id));
    if speaks(part, &OF_KEYS) || walk.machine.has_holes() || keys.spoken_by(walk, moment) || has_one() {
        return None;
    }
    let says = if speaks_beside(part, &SEATS, &KEYED) { "sits keyed on a taper" } else { "is keyed to its shaft" };
    Some(
        Finding::new(&KEY_LEFT_OUT, moment.act.place.clone(), format!("{} {says}, and no key goes in before it", part.name))
            .severity(Severity::Warning)
            .label("where is its key?")
            .related(part.id_place.clone(), "listed here")
            .fix("list the key (kind: key, name: Key of the …) and put it in before: [Seat the key](fit:KEY); or write ‘no key’ into its note:")
            .about(part.id.clone()),
    )
}

/// Whether a key is in before a moment. One whose first act takes it out was in before the work began.
fn is_in(walk: &Walk<'_>, key: &ThingRef, at: usize) -> bool {
    let (state, since) = walk.state_before(key, at);
    let was_there = || walk.moments_of(key).next().is_some_and(|(_, first)| first.verb == Verb::Remove);
    state.is_in_place() || (since.is_none() && was_there())
}

/// Words for what carries a key before anything goes on over it.
const CARRIES: [&str; 9] = ["shaft", "crank", "crankshaft", "camshaft", "driveshaft", "spindle", "axle", "arbor", "stub"];

/// A name in lower case, with single spaces and no signs: `Key 10×8 of the wheel` loses its figures.
fn plain(name: &str) -> String {
    let folded = name.to_lowercase();
    let words = spans_of(&folded).into_iter().filter_map(|span| folded.get(span));
    words.filter(|word| !word.starts_with(|sign: char| sign.is_ascii_digit())).collect::<Vec<_>>().join(" ")
}

fn is_driven(part: &Entry<Part>) -> bool {
    ends_in(part, &DRIVEN)
}

/// Whether the noun of a part's name is one of some.
fn ends_in(part: &Entry<Part>, nouns: &[&str]) -> bool {
    let name = part.name.to_lowercase();
    let noun = name.split(" of ").next().unwrap_or(&name);
    noun.split_whitespace().next_back().is_some_and(|last| nouns.contains(&last))
}

/// Whether a part's name, condition or note says one of some phrases.
fn speaks(part: &Entry<Part>, phrases: &[&str]) -> bool {
    texts_of(part).any(|text| Words::of(text).first(phrases).is_some())
}

/// Whether one text of a part says one of some phrases and one of others.
fn speaks_beside(part: &Entry<Part>, phrases: &[&str], others: &[&str]) -> bool {
    texts_of(part).map(Words::of).any(|words| words.first(phrases).is_some() && words.first(others).is_some())
}

fn texts_of(part: &Entry<Part>) -> impl Iterator<Item = &str> {
    [Some(&part.name), part.note.as_ref()].into_iter().flatten().chain(part.what.when.cases.iter().map(|case| &case.value)).map(String::as_str)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_without_figures_and_signs() {
        assert_eq!(plain("Key 10×8×36 of the worm wheel"), "key of the worm wheel");
        assert_eq!(plain("Half-moon key"), "half moon key");
        assert_eq!(plain("–"), "");
    }
}
