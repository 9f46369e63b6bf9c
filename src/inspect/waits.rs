//! Waits: each that begins is sat out, none begins too early, a soak says in what, and all say how long.

use super::prose::runs;
use super::rings::rings;
use super::walk::{Moment, Walk};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Lists, Procedure, Step, Verb, Wait};
use std::collections::{BTreeMap, BTreeSet};

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

/// A wait has no least time.
pub(super) static WAIT_VAGUE: Rule = Rule {
    name: "wait-vague",
    severity: Severity::Warning,
    summary: "Something waits, and nothing says how long at least.",
    explanation: Explanation {
        finds: "Waits that a step begins or sits out and whose time: is missing or has an upper end alone; and words such as ‘overnight’, ‘a while’, ‘until dry’ beside leaving, soaking, drying and the like in a step that has no act for it (begin:, wait:, cool:).",
        matters: "Overnight is six hours in summer and sixteen before a holiday. The planner and the sheet need a number.",
        may_be_wrong: "Where the end is seen and not timed: write what is to be seen as a test or measurement.",
        example: "Let the plates soak overnight.",
        instead: "[Let the plates soak](begin:plate-soak)   with plate-soak: {time: ≥ 12 h, …}",
    },
};

/// Words for a time that nobody can count.
const VAGUE_TIMES: [&str; 26] = [
    "overnight", "over night", "all night", "for a while", "a good while", "a little while", "a while", "for some time", "some time", "a few hours", "a few minutes",
    "a couple of hours", "a couple of minutes", "several hours", "until dry", "until it is dry", "until they are dry", "until it's dry", "until it has dried",
    "until it dries", "until cured", "until it has cured", "until it cures", "until it has set", "until it sets", "until cool",
];
/// Words of waiting.
const WAITING: [&str; 21] = [
    "leave", "leaves", "left", "let", "soak", "soaks", "soaking", "stand", "stands", "standing", "wait", "waits", "rest", "rests", "sit", "sits", "drying", "hang", "harden",
    "settle", "chill",
];

/// Minutes of a wait and of work before it from which a note is worth its ink.
const LONG_WAIT: f64 = 120.0;
const LATE: f64 = 60.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        findings.extend(lists.waits.values().filter_map(|entry| soak(lists, entry)));
    }
    for (_, procedure, _) in every::procedures(context.manual) {
        findings.extend(procedure.steps.iter().filter_map(|step| in_words(procedure, step)));
    }
    let mut told: BTreeSet<(&str, &str, &str)> = BTreeSet::new();
    for walk in &context.walks {
        let (log, rings) = (Log::of(walk), rings(walk));
        for (at, moment) in walk.moments.iter().enumerate() {
            let Some(thing) = moment.act.thing().filter(|_| matches!(moment.verb, Verb::Begin | Verb::Wait)) else { continue };
            let Some(entry) = walk.scope(moment.procedure).thing(|lists| &lists.waits, thing) else { continue };
            let begins = moment.verb == Verb::Begin || !log.acts("begin", &thing.id).any(|(other, begun)| other < at && begun.act.things.contains(thing));
            let in_ring = entry.what.needs.case(&walk.combination).is_some_and(|needs| rings.tell(&needs.place));
            let found = [
                without_time(walk, moment, entry),
                (moment.verb == Verb::Begin).then(|| never_over(&log, at, moment, entry)).flatten(),
                begins.then(|| too_early(&log, at, moment, entry)).flatten().filter(|_| !in_ring),
                begins.then(|| late(&log, at, moment, entry)).flatten(),
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

/// A wait of words alone, in a step without any that is counted.
fn in_words(procedure: &Procedure, step: &Step) -> Option<Finding> {
    if step.acts.iter().any(|act| matches!(act.verb, Some(Verb::Begin | Verb::Wait | Verb::Cool)) || act.verb.is_none()) {
        return None;
    }
    let hit = |text: &str| {
        let words = Words::of(text);
        words.near(&VAGUE_TIMES, &WAITING, 8).map(|hit| (words.text(&hit).to_owned(), hit))
    };
    let in_text = || runs(&step.blocks).iter().find_map(|run| hit(run.text()).and_then(|(words, at)| Some((words, run.place(at.start, at.end)?))));
    let in_act = || step.acts.iter().find_map(|act| hit(&act.words).map(|(words, _)| (words, act.place.clone())));
    let (words, place) = in_text().or_else(in_act)?;
    Some(
        Finding::new(&WAIT_VAGUE, place, format!("‘{words}’ is no time that can be counted"))
            .label("how long at least?")
            .fix("list the wait with its least time (time: ≥ 12 h) and write [Let it soak](begin:ID), and [it has soaked](wait:ID) where it must be over")
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

fn without_time(walk: &Walk<'_>, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let lists = walk.scope(moment.procedure).lists_of(moment.act.thing()?)?;
    if lists.is_unreadable(ListKind::Waits, &entry.id, "time") {
        return None;
    }
    let (place, message, label) = match entry.what.time.case(&walk.combination) {
        None if !entry.what.time.is_given() => (entry.id_place.clone(), format!("nothing says how long {} takes", entry.name), "how long at least?"),
        Some(case) if case.value.low_high().0.is_none() => (case.place.clone(), format!("{} has a longest time and no least", entry.name), "at most, and at least?"),
        _ => return None,
    };
    Some(
        Finding::new(&WAIT_VAGUE, place, message)
            .label(label)
            .related(moment.act.place.clone(), "waited for here")
            .fix("give the least time: time: ≥ 12 h, or both ends: time: 12–24 h")
            .about(format!("{}.time", entry.id)),
    )
}

fn never_over(log: &Log<'_, '_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let walk = log.walk;
    let over = log.acts("wait", &thing.id).any(|(other, moment)| other > at && moment.act.things.contains(thing));
    (!over && !walk.machine.may_mean(&entry.id)).then(|| {
        Finding::new(&WAIT_SKIPPED, moment.act.place.clone(), format!("{} begins here, and nobody waits for its end{}", entry.name, walk.variant_words()))
            .label("begun, never over")
            .figures(entry.what.time.get(&walk.combination).map(|time| format!("it takes {}", time.written())))
            .fix(format!("write where it must be over: [It is over](wait:{})", entry.id))
            .about(entry.id.clone())
    })
}

/// A walk, and where its procedures begin: a long build is looked through once.
struct Log<'w, 'm> {
    walk: &'w Walk<'m>,
    /// The first moment of each procedure.
    begins: BTreeMap<&'m str, usize>,
}

impl<'w, 'm> Log<'w, 'm> {
    fn of(walk: &'w Walk<'m>) -> Self {
        let mut log = Self { walk, begins: BTreeMap::new() };
        for (at, moment) in walk.moments.iter().enumerate() {
            log.begins.entry(&moment.procedure.id).or_insert(at);
        }
        log
    }

    fn acts(&self, verb: &str, id: &str) -> impl Iterator<Item = (usize, &'w Moment<'m>)> + use<'w, 'm> {
        self.walk.moments_at(&format!("{verb}:{id}"))
    }

    /// The moments of the act that a wait needs, anywhere in the build. A stage (`torque:bolt/2`) counts as the act.
    fn needed(&self, entry: &Entry<Wait>) -> Vec<(usize, &'w Moment<'m>)> {
        let Some(act) = entry.what.needs.get(&self.walk.combination) else { return Vec::new() };
        let whole = act.split(['*', '/']).next().unwrap_or(act);
        self.walk.moments_at(whole).filter(|(_, moment)| whole == act || moment.act.address == *act).collect()
    }
}

fn too_early(log: &Log<'_, '_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let walk = log.walk;
    let needed = log.needed(entry);
    let (first, act) = needed.first()?;
    (*first > at).then(|| {
        Finding::new(&WAIT_SKIPPED, moment.act.place.clone(), format!("{} begins before what it needs{}", entry.name, walk.variant_words()))
            .label("too early")
            .related(act.act.place.clone(), format!("needed first: {}", act.words()))
            .fix(format!("begin it after {}", act.act.address))
            .about(entry.id.clone())
    })
}

fn late(log: &Log<'_, '_>, at: usize, moment: &Moment<'_>, entry: &Entry<Wait>) -> Option<Finding> {
    let walk = log.walk;
    let needs = entry.what.needs.get(&walk.combination)?;
    let (from, what) = if needs == "nothing" {
        let first = log.begins.get(moment.procedure.id.as_str()).and_then(|at| walk.moments.get(*at))?;
        (first.minutes, "the procedure begins")
    } else {
        let last = log.needed(entry).into_iter().rfind(|(other, _)| *other < at)?.1;
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
