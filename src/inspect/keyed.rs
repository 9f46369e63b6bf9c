//! Keys: what turns with its shaft through a key goes on over that key, and not before it.

use super::Context;
use super::sentences::words_of as spans_of;
use super::sides::words_of;
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Faces, Home, ListKind, Part, ThingRef, Verb};
use std::collections::{BTreeMap, BTreeSet};

/// A part goes on without its key.
pub(super) static KEY_LEFT_OUT: Rule = Rule {
    name: "key-left-out",
    severity: Severity::Error,
    summary: "A part that turns with its shaft through a key goes on without the key.",
    explanation: Explanation {
        finds: "fit: of a part while a part of kind key that belongs to it (in: or faces: names it, or it is called ‘Key of the flywheel’, ‘Flywheel key’) and that some act of the machine handles is not in. As a warning: fit: of a flywheel, sprocket, pulley, gear, wheel, pinion, hub, drum, clutch, coupling, rotor, fan, propeller or impeller whose name, note or when: says keyed, keyway or taper (and not splines), while no key that may be its own is in, and neither its entry nor a step of the procedure so far speaks of a key.",
        matters: "Without its key a flywheel holds by the taper alone: the first kick turns it, the timing goes with it, and the shaft is scored.",
        may_be_wrong: "Where the taper alone is to hold: write ‘no key’ into its note: or when:.",
        example: "[Flywheel on](fit:flywheel). [Key in](fit:flywheel-key)",
        instead: "[Seat the key in the shaft](fit:flywheel-key). [Flywheel on](fit:flywheel)",
    },
};

/// What is driven by its shaft, as its name says by its noun: a keyed washer is not.
const DRIVEN: [&str; 14] = [
    "flywheel", "sprocket", "pulley", "gear", "wheel", "hub", "coupling", "rotor", "propeller", "impeller", "pinion", "drum", "clutch", "fan",
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
struct Keys<'m> {
    all: Vec<Key<'m>>,
    /// By the id of the part: it sits in it, looks at it, or has its id.
    by_id: BTreeMap<&'m str, Vec<usize>>,
    /// By the name of the part, as [`plain`] gives it.
    by_name: BTreeMap<String, Vec<usize>>,
}

impl<'m> Keys<'m> {
    fn of(walk: &Walk<'m>) -> Self {
        let mut keys = Self { all: Vec::new(), by_id: BTreeMap::new(), by_name: BTreeMap::new() };
        let of_procedures = walk.machine.procedures.iter().map(|procedure| (Home::Procedure(procedure.id.clone()), &procedure.lists));
        for (home, lists) in of_procedures.chain([(Home::Machine, &walk.machine.lists)]) {
            for entry in lists.parts.values().filter(|entry| is_key(walk, entry)) {
                keys.add(walk, ThingRef { kind: ListKind::Parts, home: home.clone(), id: entry.id.clone() }, entry);
            }
        }
        keys
    }

    fn add(&mut self, walk: &Walk<'m>, thing: ThingRef, entry: &'m Entry<Part>) {
        let at = self.all.len();
        let within = entry.what.within.get(&walk.combination).map(String::as_str);
        let looked_at: Vec<&str> = match entry.what.faces.get(&walk.combination) {
            Some(Faces::Toward(features)) => features.iter().map(|(_, of)| of.value.as_str()).collect(),
            _ => Vec::new(),
        };
        for id in within.into_iter().chain(looked_at).chain(entry.id.strip_suffix("-key")) {
            self.by_id.entry(id).or_default().push(at);
        }
        let name = plain(&entry.name);
        let of = name.strip_prefix("key of the ").or_else(|| name.strip_prefix("key of ")).or_else(|| name.strip_suffix(" key"));
        if let Some(of) = of {
            self.by_name.entry(of.to_owned()).or_default().push(at);
        }
        self.all.push((thing, entry));
    }

    /// The keys that belong to a part.
    fn of_part(&self, part: &Entry<Part>) -> Vec<&Key<'m>> {
        // A shaft carries the key; it does not go on over it.
        if Words::of(&part.name).first(&CARRIES).is_some() && !is_driven(part) {
            return Vec::new();
        }
        let by_name = self.by_name.get(&plain(&part.name)).into_iter().flatten();
        let all = self.by_id.get(part.id.as_str()).into_iter().flatten().chain(by_name);
        all.filter_map(|at| self.all.get(*at)).collect()
    }
}

/// A key of the walk's variant that is in before its part goes on: not one that is driven in behind it, nor one for a lock.
fn is_key(walk: &Walk<'_>, entry: &Entry<Part>) -> bool {
    let kind = entry.what.kind.get(&walk.combination).is_some_and(|kind| kind == "key");
    kind && walk.combination.satisfies(&entry.only) && !speaks(entry, &["gib", "gib-head", "taper", "tapered", "wedge", "driven in", "drive key", "ignition"])
}

fn without_key(walk: &Walk<'_>, keys: &Keys<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts && !walk.machine.may_mean(&thing.id))?;
    let part = walk.scope(moment.procedure).thing(|lists| &lists.parts, thing)?;
    let kind = part.what.kind.first().map_or("", String::as_str);
    // A shaft goes in before the key that it carries.
    if matches!(kind, "key" | "shaft") || speaks(part, &["no key", "without key", "without a key", "keyless"]) {
        return None;
    }
    let own = keys.of_part(part);
    if own.is_empty() {
        return unlisted(walk, keys, at, moment, part);
    }
    if own.iter().any(|(key, _)| is_in(walk, key, at) || walk.machine.may_mean(&key.id)) {
        return None;
    }
    // A key that no act handles at all is told as listed and not used; it may have stayed in its slot.
    let (key, entry) = own.into_iter().find(|(key, _)| is_handled(walk, key))?;
    let finding = Finding::new(&KEY_LEFT_OUT, moment.act.place.clone(), format!("{} goes on here without ‘{}’", part.name, entry.name))
        .label("its key is not in")
        .related(entry.id_place.clone(), "its key");
    let later = walk.moments_of(key).find(|(other, later)| *other > at && matches!(later.verb, Verb::Fit | Verb::DryFit));
    let out = walk.state_before(key, at).1.and_then(|since| walk.moments.get(since));
    let finding = match (out, later) {
        (Some(out), _) => finding.related(out.act.place.clone(), format!("taken out: {}", out.words())),
        (None, Some((_, later))) => finding.related(later.act.place.clone(), format!("goes in only later: {}", later.words())),
        (None, None) => finding.figure(format!("no act puts it in{}", walk.variant_words())),
    };
    Some(finding.fix(format!("put the key in first: [Seat the key in the shaft](fit:{}); for a trial without it, dry-fit:{}", key.id, part.id)).about(part.id.clone()))
}

/// A part that speaks of a key or taper, for which no key is listed.
fn unlisted(walk: &Walk<'_>, keys: &Keys<'_>, at: usize, moment: &Moment<'_>, part: &Entry<Part>) -> Option<Finding> {
    let keyed = speaks(part, &["keyed", "keyway", "keyways", "key slot", "key groove"]);
    let taper = speaks(part, &["taper", "tapered"]) && !speaks(part, &["taper lock", "taper-lock", "bearing", "bearings", "collet"]);
    if !(keyed || taper) || !is_driven(part) || speaks(part, &["spline", "splines", "splined"]) {
        return None;
    }
    // A key of another part is none of its own.
    let lists = || walk.machine.procedures.iter().map(|procedure| &procedure.lists).chain([&walk.machine.lists]);
    let of_others: BTreeSet<&str> = lists().flat_map(|lists| lists.parts.values()).filter(|other| other.id != part.id).flat_map(|other| keys.of_part(other)).map(|(key, _)| key.id.as_str()).collect();
    let has_one = keys.all.iter().any(|(key, _)| (is_in(walk, key, at) || walk.machine.may_mean(&key.id)) && !of_others.contains(key.id.as_str()));
    if has_one || walk.machine.has_holes() || speaks(part, &OF_KEYS) || speaks_so_far(moment) {
        return None;
    }
    let says = if keyed { "is keyed to its shaft" } else { "sits on a taper" };
    Some(
        Finding::new(&KEY_LEFT_OUT, moment.act.place.clone(), format!("{} {says}, and no key goes in before it", part.name))
            .severity(Severity::Warning)
            .label("where is its key?")
            .related(part.id_place.clone(), "listed here")
            .fix(format!("list the key (kind: key, in: {}) and put it in before: [Seat the key](fit:KEY); or write ‘no key’ into its note:", part.id))
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

/// Whether some act of the machine puts a key in or takes it out.
fn is_handled(walk: &Walk<'_>, key: &ThingRef) -> bool {
    let acts = walk.machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
    acts.filter(|act| matches!(act.verb, Some(Verb::Fit | Verb::DryFit | Verb::Remove))).any(|act| act.things.contains(key))
}

fn is_driven(part: &Entry<Part>) -> bool {
    let name = part.name.to_lowercase();
    let noun = name.split(" of ").next().unwrap_or(&name);
    noun.split_whitespace().next_back().is_some_and(|last| DRIVEN.contains(&last))
}

/// Whether a part's name, condition or note says one of some phrases.
fn speaks(part: &Entry<Part>, phrases: &[&str]) -> bool {
    let texts = [Some(&part.name), part.note.as_ref()].into_iter().flatten().chain(part.what.when.cases.iter().map(|case| &case.value));
    texts.into_iter().any(|text| Words::of(text).first(phrases).is_some())
}

/// Whether the procedure, up to the step, speaks of a key in its words: then somebody has thought of it.
fn speaks_so_far(moment: &Moment<'_>) -> bool {
    let steps = moment.procedure.steps.iter().take_while(|step| step.number <= moment.step.number);
    steps.into_iter().any(|step| Words::of(&words_of(step)).first(&OF_KEYS).is_some())
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
