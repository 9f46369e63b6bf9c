//! Waits: each that begins is sat out, none begins too early, a soak says in what.

use super::walk::{Moment, Walk};
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Lists, Verb, Wait};
use std::collections::BTreeSet;

/// A soak has no medium.
pub(super) static SOAK_MEDIUM_MISSING: Rule = Rule {
    name: "soak-medium-missing",
    severity: Severity::Warning,
    summary: "Something soaks, and nobody says in what, or how deep.",
    explanation: Explanation {
        finds: "Waits whose id or name speaks of soaking and that have no in:, or in: without covered: true.",
        matters: "Plates that stand half out of the oil soak by half, and grab on the dry half.",
        may_be_wrong: "Where half covered is meant: call it something else than a soak.",
        example: "plate-soak: {name: Plates soak, time: ≥ 12 h, of: [friction-plate]}",
        instead: "plate-soak: {name: Plates soak, time: ≥ 12 h, of: [friction-plate], in: winch-oil, covered: true}",
    },
};

/// A wait is begun and not sat out, or begun before what it waits on.
pub(super) static WAIT_SKIPPED: Rule = Rule {
    name: "wait-skipped",
    severity: Severity::Error,
    summary: "A wait begins and nobody waits for its end, or it begins before what it needs.",
    explanation: Explanation {
        finds: "begin: with no wait: for the same thing behind it, in the whole build and for each variant; and waits that begin before the act which their needs: names, where that act comes later in the build.",
        matters: "The hour is written on the tag, and nobody reads the tag.",
        may_be_wrong: "Where the machine waits for its owner: write the wait: in the step that hands it over.",
        example: "[Write the hour on the tag](begin:locker-cure)   and no wait:locker-cure",
        instead: "[Write the hour on the tag](begin:locker-cure) … [the locker has cured](wait:locker-cure)",
    },
};

/// A wait could have been running for a long time already.
pub(super) static WAIT_COULD_START_EARLIER: Rule = Rule {
    name: "wait-could-start-earlier",
    severity: Severity::Note,
    summary: "A long wait could begin earlier, and save an evening.",
    explanation: Explanation {
        finds: "Waits of two hours and more that begin an hour of work or more after they could: after the start of their procedure (needs: nothing), or after the act that needs: names.",
        matters: "A soak begun with the first step is over when the plates are wanted.",
        may_be_wrong: "Where the tray, the oil or the part is not free before.",
        example: "plate-soak: {time: ≥ 12 h, needs: nothing}   begun in the ninth step",
        instead: "Begin it in the first step.",
    },
};

/// Minutes of a wait and of work before it from which a note is worth its ink.
const LONG_WAIT: f64 = 120.0;
const LATE: f64 = 60.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        findings.extend(lists.waits.values().filter_map(|entry| soak(lists, entry)));
    }
    let mut told: BTreeSet<(&str, &str, &str)> = BTreeSet::new();
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate() {
            let Some(thing) = moment.act.thing().filter(|_| matches!(moment.verb, Verb::Begin | Verb::Wait)) else { continue };
            let Some(entry) = walk.scope(moment.procedure).thing(|lists| &lists.waits, thing) else { continue };
            let begins = moment.verb == Verb::Begin || !walk.moments_of(thing).any(|(other, begun)| other < at && begun.verb == Verb::Begin);
            let found = [
                (moment.verb == Verb::Begin).then(|| never_over(walk, at, moment, entry)).flatten(),
                begins.then(|| too_early(walk, at, moment, entry)).flatten(),
                begins.then(|| late(walk, at, moment, entry)).flatten(),
            ];
            for finding in found.into_iter().flatten() {
                // One walk for each variant finds the same: it is told once.
                if told.insert((&walk.machine.id, &entry.id, finding.rule().name)) {
                    findings.push(finding);
                }
            }
        }
    }
}

fn soak(lists: &Lists, entry: &Entry<Wait>) -> Option<Finding> {
    let speaks = entry.id.contains("soak") || entry.name.to_lowercase().contains("soak");
    let unreadable = |field| lists.is_unreadable(ListKind::Waits, &entry.id, field);
    if !speaks || unreadable("in") || unreadable("covered") {
        return None;
    }
    let (place, what, label) = match entry.what.medium.cases.first() {
        None => (entry.id_place.clone(), "in what", "no medium"),
        Some(medium) if !entry.what.covered => (medium.place.clone(), "how deep", "fully covered?"),
        Some(_) => return None,
    };
    Some(
        Finding::new(&SOAK_MEDIUM_MISSING, place, format!("{} is a soak, and nobody says {what}", entry.name))
            .label(label)
            .fix("write in: with the id of the material, and covered: true")
            .about(entry.id.clone()),
    )
}

fn never_over(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let over = walk.moments_of(thing).any(|(other, moment)| other > at && moment.verb == Verb::Wait);
    (!over && !walk.machine.may_mean(&entry.id)).then(|| {
        Finding::new(&WAIT_SKIPPED, moment.act.place.clone(), format!("{} begins here, and nobody waits for its end{}", entry.name, walk.variant_words()))
            .label("begun, never over")
            .figures(entry.what.time.get(&walk.combination).map(|time| format!("it takes {}", time.written())))
            .fix(format!("write where it must be over: [It is over](wait:{})", entry.id))
            .about(entry.id.clone())
    })
}

/// The moment of the act that a wait needs, anywhere in the build.
fn needed<'w, 'm>(walk: &'w Walk<'m>, entry: &Entry<Wait>) -> Vec<(usize, &'w Moment<'m>)> {
    let Some(act) = entry.what.needs.get(&walk.combination) else { return Vec::new() };
    let same = |moment: &Moment<'_>| moment.act.address == *act || moment.act.address.split(['*', '/']).next() == Some(act.as_str());
    walk.moments.iter().enumerate().filter(|(_, moment)| same(moment)).collect()
}

fn too_early(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let needed = needed(walk, entry);
    let (first, act) = needed.first()?;
    (*first > at).then(|| {
        Finding::new(&WAIT_SKIPPED, moment.act.place.clone(), format!("{} begins before what it needs{}", entry.name, walk.variant_words()))
            .label("too early")
            .related(act.act.place.clone(), format!("needed first: {}", act.words()))
            .fix(format!("begin it after {}", act.act.address))
            .about(entry.id.clone())
    })
}

fn late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let needs = entry.what.needs.get(&walk.combination)?;
    let (from, what) = if needs == "nothing" {
        let first = walk.moments.iter().find(|other| other.procedure.id == moment.procedure.id)?;
        (first.minutes, "the procedure begins")
    } else {
        let last = needed(walk, entry).into_iter().rfind(|(other, _)| *other < at)?.1;
        (last.minutes + last.step.minutes.unwrap_or(0.0), "what it needs is done")
    };
    let (low, high) = entry.what.time.get(&walk.combination)?.low_high();
    let takes = low.or(high)? / 60.0;
    let gone = moment.minutes - from;
    (takes >= LONG_WAIT && gone >= LATE).then(|| {
        Finding::new(&WAIT_COULD_START_EARLIER, moment.act.place.clone(), format!("{} could begin earlier", entry.name))
            .label(format!("{} min of work after it could", gone.round()))
            .figure(format!("{what} {} min of work before; beginning then saves up to {} min of waiting", gone.round(), gone.min(takes).round()))
            .fix(if needs == "nothing" { "begin it in the first step".to_owned() } else { format!("begin it right after {needs}") })
            .about(entry.id.clone())
    })
}
