//! Retaining compounds and adhesives on parts and bearings: joined while they are wet, cured before anything pulls on them.

use super::Context;
use super::heat_work::sits_in;
use super::locker_work::{WORKING_MINUTES, material, minutes, time_words, too_late};
use super::walk::{Moment, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Material, ThingRef, Verb};
use std::collections::BTreeSet;

/// A compound is put on and its part goes in too late.
pub(super) static BOND_SET_TOO_EARLY: Rule = Rule {
    name: "bond-set-too-early",
    severity: Severity::Error,
    summary: "A retaining compound or adhesive is put on, and its part goes in too late.",
    explanation: Explanation {
        finds: "A material of kind retaining-compound or adhesive put on a part, bearing or seal that goes in (fit:), or on a part into which something that is listed in it goes, only after a stop for the day, or later than the material can be worked (working:; for a retaining compound that states none 10 minutes: common practice), by the minutes of the steps between and the waits. On a thread it is a locker, and told as one.",
        matters: "What has begun to set is scraped off as the part goes in: the ring sits on a dry seat, creeps, and nobody sees it.",
        may_be_wrong: "Where an adhesive is to dry before it is joined: leave working: out, and write the wait.",
        example: "[Compound on the ring](apply:retaining-compound@hub-bearing). [Stop](stop:) … [bearing in](fit:hub-bearing)",
        instead: "[Compound on the ring](apply:retaining-compound@hub-bearing) and at once [bearing in](fit:hub-bearing)",
    },
};

/// A machine is used before a bond has cured.
pub(super) static BOND_CURE_SHORT: Rule = Rule {
    name: "bond-cure-short",
    severity: Severity::Error,
    summary: "A machine is filled, run or loaded before a retaining compound or adhesive has cured.",
    explanation: Explanation {
        finds: "Tests of kind run or load, and for retaining compounds fill: acts too, that come, by the minutes of the steps and the waits between, sooner after a part or bearing was joined than the cure time (cure:) of what was put on it. Each part is told at the first such act. A warning for adhesives and for what is filled in.",
        matters: "A bush that turns once in its wet compound never holds again, and the oil carries the rest away.",
        may_be_wrong: "Where what comes neither wets nor loads the joint. Stops for the day don't count as time: write the wait.",
        example: "[Compound on](apply:retaining-compound@hub-bearing), [bearing in](fit:hub-bearing). [Run it](test:first-run)   with cure: 24 h",
        instead: "waits: {bond-cure: {time: ≥ 24 h, of: [hub-bearing]}}   and [the compound has cured](wait:bond-cure) before the test",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let bonds = bonds(walk);
        findings.extend(bonds.iter().filter_map(set_too_early));
        let mut told: BTreeSet<&ThingRef> = BTreeSet::new();
        for (at, moment) in walk.moments.iter().enumerate() {
            for bond in bonds.iter().filter(|bond| bond.joined_at() < at && strains(walk, moment, bond.material)) {
                if !told.contains(bond.thing)
                    && let Some(finding) = cure_short(walk, at, moment, bond)
                {
                    told.insert(bond.thing);
                    findings.push(finding);
                }
            }
        }
    });
}

/// A compound put on a thing, and the act that joins it.
struct Bond<'w, 'm> {
    thing: &'w ThingRef,
    name: &'m str,
    material: &'m Entry<Material>,
    put_on: (usize, &'w Moment<'m>),
    joined: Option<(usize, &'w Moment<'m>)>,
}

impl<'w, 'm> Bond<'w, 'm> {
    /// The moment from which it cures: where nothing shows when it is joined, that which puts it on.
    fn since(&self) -> (usize, &'w Moment<'m>) {
        self.joined.unwrap_or(self.put_on)
    }

    fn joined_at(&self) -> usize {
        self.since().0
    }
}

fn is_retaining(material: &Material) -> bool {
    material.kind.as_deref() == Some("retaining-compound")
}

fn bonds<'w, 'm>(walk: &'w Walk<'m>) -> Vec<Bond<'w, 'm>> {
    let put_on = walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Apply);
    put_on.flat_map(|(at, moment)| moment.act.things.iter().filter_map(move |thing| bond(walk, at, moment, thing))).collect()
}

fn bond<'w, 'm>(walk: &'w Walk<'m>, at: usize, moment: &'w Moment<'m>, thing: &'w ThingRef) -> Option<Bond<'w, 'm>> {
    let material = material(walk, moment).filter(|material| is_retaining(&material.what) || material.what.kind.as_deref() == Some("adhesive"))?;
    let scope = walk.scope(moment.procedure);
    let name = match thing.kind {
        ListKind::Parts => &scope.thing(|lists| &lists.parts, thing)?.name,
        ListKind::Bearings => &scope.thing(|lists| &lists.bearings, thing)?.name,
        ListKind::Seals => &scope.thing(|lists| &lists.seals, thing)?.name,
        _ => return None,
    };
    // An act that is not understood may join it.
    if walk.machine.may_mean(&thing.id) {
        return None;
    }
    let inside: BTreeSet<&str> = scope.homes().flat_map(|(_, lists)| sits_in(lists, &thing.id, &walk.combination)).map(|(_, id)| id).collect();
    let bears = |other: &Moment<'_>| other.act.things.iter().any(|other| other == thing || inside.contains(other.id.as_str()));
    let mut behind = walk.moments.iter().enumerate().skip(at + 1).filter(|(_, other)| bears(other));
    // Taken out or cleaned before it goes in, it has nothing on it; put on once more, that counts.
    let next = behind.find(|(_, other)| matches!(other.verb, Verb::Fit | Verb::Remove | Verb::Clean) || other.verb == Verb::Apply && other.act.material == moment.act.material);
    match next {
        Some((_, other)) if other.verb != Verb::Fit => None,
        joined => Some(Bond { thing, name, material, put_on: (at, moment), joined }),
    }
}

fn set_too_early(bond: &Bond<'_, '_>) -> Option<Finding> {
    let (_, put_on) = bond.put_on;
    let (_, joined) = bond.joined?;
    // An adhesive that does not say how long it can be worked may have to dry first.
    let unstated = if is_retaining(&bond.material.what) { WORKING_MINUTES } else { f64::INFINITY };
    let working = minutes(bond.material.what.working.as_ref()).unwrap_or(unstated);
    let how = too_late(put_on, joined, working)?;
    let finding = Finding::new(&BOND_SET_TOO_EARLY, put_on.act.place.clone(), format!("{} goes on {} here, and it is joined {how}", bond.material.name, bond.name))
        .label("sets before it is joined")
        .related(joined.act.place.clone(), format!("joined in {}", joined.words()))
        .fix("put it on directly before the part goes in; what has begun to set is cleaned off first")
        .about(bond.thing.id.clone());
    Some(if working.is_finite() { finding.figure(format!("{} can be worked for {}", bond.material.name, time_words(working))) } else { finding })
}

/// Whether an act wets or loads a joint of a material.
fn strains(walk: &Walk<'_>, moment: &Moment<'_>, material: &Entry<Material>) -> bool {
    match moment.verb {
        Verb::Fill => is_retaining(&material.what),
        Verb::Test => {
            let test = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.tests, thing));
            test.is_some_and(|test| matches!(test.what.kind.get(&walk.combination).map(String::as_str), Some("run" | "load")))
        }
        _ => false,
    }
}

fn cure_short(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, bond: &Bond<'_, '_>) -> Option<Finding> {
    let (from, joined) = bond.since();
    // Taken apart in between there is no joint to cure.
    let undone = |other: &Moment<'_>| matches!(other.verb, Verb::Remove | Verb::Clean) && other.act.things.contains(bond.thing);
    if walk.moments.get(from + 1..at)?.iter().any(undone) {
        return None;
    }
    let cure = minutes(bond.material.what.cure.as_ref())?;
    let gone = moment.minutes + moment.waited - joined.minutes - joined.waited;
    let left = (gone < cure).then_some(cure - gone)?;
    // A turn in its wet compound ruins a bush; a name plate or a filled system may not mind.
    let grade = if is_retaining(&bond.material.what) && moment.verb == Verb::Test { Severity::Error } else { Severity::Warning };
    Some(
        Finding::new(&BOND_CURE_SHORT, moment.act.place.clone(), format!("{} at {} has not cured here", bond.material.name, bond.name))
            .label(format!("{} short", time_words(left)))
            .related(joined.act.place.clone(), format!("joined in {}", joined.words()))
            .figure(format!("{} cures in {}; {} have gone by, waits counted, stops not", bond.material.name, time_words(cure), time_words(gone)))
            .fix(format!("wait before this act: waits: {{bond-cure: {{time: ≥ {}, of: [{}]}}}}", time_words(cure), bond.thing.id))
            .about(bond.thing.id.clone())
            .severity(grade),
    )
}
