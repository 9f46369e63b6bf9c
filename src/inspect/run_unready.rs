//! What must be on and in before a machine runs: its covers, and what it runs in.

use super::Context;
use super::order::is_temporary;
use super::put_back::reuse;
use super::sessions::is_covered;
use super::sides::words_of;
use super::tried_loose::is_of_the_whole;
use super::tongue::{Tongue, Wanted};
use super::walk::{Moment, State, Walk, in_every};
use super::words::Words;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};
use std::collections::BTreeSet;

/// A machine runs with a cover off.
pub(super) static RUN_WITH_COVER_OFF: Rule = Rule {
    name: "run-with-cover-off",
    severity: Severity::Error,
    summary: "A machine is run or loaded while a cover that was taken off is not on again.",
    explanation: Explanation {
        finds: "test: of kind run or load while a part of kind cover is out, or at a vendor's, that an earlier act took out and a later one fits again, or that no later act fits on a machine that nobody signs off; part-not-put-back tells of those that are signed off without it. Temporary covers are silent, one in whose place another cover goes on, and what an open item (leaves_open:) covers at the test.",
        matters: "A coupling winds a sleeve in within half a turn. The guard that lies on the bench at the first run is the one that was made for it.",
        may_be_wrong: "Where it must be off for the test, so that something can be seen: write it under leaves_open: with its reason, and say in a notice what keeps hands away. An assembly that runs on the bench by itself is a test of kind function.",
        example: "parts: {coupling-guard: {kind: cover, reuse: inspect, …}}\n[Guard off](remove:coupling-guard) … [Run it](test:first-run). [Guard on](fit:coupling-guard)",
        instead: "[Guard on](fit:coupling-guard). [Run it](test:first-run)",
    },
};

/// A machine runs before a fluid is in it.
pub(super) static RUN_BEFORE_FILL: Rule = Rule {
    name: "run-before-fill",
    severity: Severity::Warning,
    summary: "A machine is run or loaded, and only later is a fluid poured in for the first time.",
    explanation: Explanation {
        finds: "test: of kind run or load, behind an act that puts something together (fit:, start:, torque:) in its procedure or in one that its after: names, where the first fill: of a material comes later in the build. Silent where something is taken out or slackened between, where the words from the test to the fill speak of draining, emptying, running in or topping up, where the fill is for storage, and where an open item (leaves_open:) is about the fill.",
        matters: "A gearbox that runs dry for a minute has scored its teeth; an engine without oil seizes before the lamp has been seen.",
        may_be_wrong: "Where the fluid is for storage, or the machine does not need it to run: say so under leaves_open:, with of: the fill. Where it is only topped up: say ‘top up’.",
        example: "[Run it](test:first-run). [Pour the oil in](fill:frame-oil)",
        instead: "[Pour the oil in](fill:frame-oil). [Run it](test:first-run)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        // What is off or not in yet is told once, at the first test that asks for it.
        let mut told: BTreeSet<usize> = BTreeSet::new();
        for (at, test) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Test && is_of_the_whole(walk, moment)) {
            findings.extend(uncovered(walk, at, test, &mut told));
            findings.extend(dry(walk, at, test, &mut told));
        }
    });
}

/// What is off: its name, the moment that took it off, and the one that puts it on again.
struct Off<'w, 'm> {
    id: &'w str,
    name: &'m str,
    since: usize,
    later: Option<&'w Moment<'m>>,
}

fn uncovered(walk: &Walk<'_>, at: usize, test: &Moment<'_>, told: &mut BTreeSet<usize>) -> Option<Finding> {
    let mut off: Vec<Off<'_, '_>> = walk.history.keys().filter_map(|thing| taken_off(walk, at, thing)).filter(|off| !told.contains(&off.since)).collect();
    off.sort_by_key(|off| off.since);
    told.extend(off.iter().map(|off| off.since));
    let first = off.first()?;
    let names: Vec<&str> = off.iter().map(|off| off.name).collect();
    let (are, on) = if off.len() == 1 { ("is", "it") } else { ("are", "them") };
    let finding = Finding::new(&RUN_WITH_COVER_OFF, test.act.place.clone(), format!("the machine is run here while {} {are} off", names.join(" and ")))
        .label("nothing keeps a hand out")
        .fix(format!("put {on} on before the test: fit:{}; where it must be off for it, write it under leaves_open: with its reason; where it never goes on again, write reuse: never", first.id))
        .about(format!("{}#{}", test.procedure.id, test.step.id));
    Some(off.iter().fold(finding, |finding, off| {
        let finding = match walk.moments.get(off.since) {
            Some(since) => finding.related(since.act.place.clone(), format!("{} comes off: {}", off.name, since.words())),
            None => finding,
        };
        match off.later {
            Some(later) => finding.related(later.act.place.clone(), format!("goes on only later: {}", later.words())),
            None => finding,
        }
    }))
}

fn taken_off<'w, 'm>(walk: &'w Walk<'m>, at: usize, thing: &'w ThingRef) -> Option<Off<'w, 'm>> {
    let (state, since) = walk.state_before(thing, at);
    let since = since.filter(|_| thing.kind == ListKind::Parts && matches!(state, State::Removed | State::Away))?;
    let scope = walk.scope(walk.moments.get(since)?.procedure);
    let lists = scope.lists_of(thing)?;
    let entry = lists.parts.get(&thing.id)?;
    let is_cover = entry.what.kind.get(&walk.combination).is_some_and(|kind| kind == "cover");
    if !is_cover || is_temporary(lists, thing) || is_covered(walk, thing, at) {
        return None;
    }
    let behind = walk.moments.get(at + 1..)?;
    // A guard of a new pattern goes on in the old one's place.
    let is_other_cover = |other: &Moment<'_>| {
        let fitted = other.act.thing().filter(|fitted| matches!(other.verb, Verb::Fit | Verb::DryFit) && *fitted != thing);
        let part = fitted.and_then(|fitted| walk.scope(other.procedure).thing(|lists| &lists.parts, fitted));
        part.and_then(|part| part.what.kind.get(&walk.combination)).is_some_and(|kind| kind == "cover") && other.before == State::Absent
    };
    let replaced = walk.moments.get(since..at)?.iter().any(is_other_cover);
    let later = walk.moments_of(thing).find(|(other, moment)| *other > at && matches!(moment.verb, Verb::Fit | Verb::DryFit)).map(|(_, moment)| moment);
    let again = reuse(lists, thing).and_then(|reuse| reuse.get(&walk.combination)).is_some_and(|reuse| reuse != "never");
    let signed = behind.iter().any(|moment| moment.verb == Verb::Sign);
    (later.is_some() || (again && !signed && !replaced)).then_some(Off { id: &thing.id, name: &entry.name, since, later })
}

/// The first pouring of a material, later than a run of what has been put together.
fn dry(walk: &Walk<'_>, at: usize, test: &Moment<'_>, told: &mut BTreeSet<usize>) -> Option<Finding> {
    let before = walk.moments.get(..at)?;
    let behind = walk.moments.get(at + 1..)?;
    let goes_on_from = |other: &Moment<'_>| other.procedure.id == test.procedure.id || test.procedure.after.iter().any(|after| after.value == other.procedure.id);
    let puts_together = |other: &&Moment<'_>| matches!(other.verb, Verb::Fit | Verb::Start | Verb::Torque) && goes_on_from(other);
    before.iter().rev().find(puts_together)?;
    // What is opened between lets run out what was in.
    let closed = behind.iter().take_while(|later| !matches!(later.verb, Verb::Remove | Verb::Loosen | Verb::Send));
    let (offset, fill) = closed.enumerate().find(|(offset, later)| later.verb == Verb::Fill && !told.contains(&(at + 1 + offset)) && is_first(walk, before, later))?;
    let thing = fill.act.thing()?;
    let name = walk.scope(fill.procedure).head(thing)?.name;
    // An item about what is poured only once opens and ends with that.
    let is_open = walk.open.iter().any(|span| span.thing == *thing);
    let laid_up = Words::of(&[thing.id.replace('-', " "), name.to_owned(), words_of(fill.step)].join(" ")).first(&LAID_UP).is_some();
    if is_open || laid_up || walk.machine.may_mean(&thing.id) || is_drained_or_topped_up(walk, at, at + 1 + offset) {
        return None;
    }
    told.insert(at + 1 + offset);
    Some(
        Finding::new(&RUN_BEFORE_FILL, test.act.place.clone(), format!("the machine is run here, and {name} is poured in only later"))
            .label("nothing in it yet?")
            .related(fill.act.place.clone(), format!("poured in here: {}", fill.words()))
            .fix(format!("pour it in before the test: fill:{0}; where it runs without, say so under leaves_open:, with of: {0}", thing.id))
            .about(format!("{}#{}", test.procedure.id, test.step.id)),
    )
}

/// Whether no act of some before pours in what a fill does.
fn is_first(walk: &Walk<'_>, before: &[Moment<'_>], fill: &Moment<'_>) -> bool {
    let Some(thing) = fill.act.thing() else { return false };
    let poured = |moment: &Moment<'_>| walk.scope(moment.procedure).thing(|lists| &lists.fills, moment.act.thing()?)?.what.of.get(&walk.combination).cloned();
    let material = poured(fill);
    material.is_some() && !before.iter().filter(|other| other.verb == Verb::Fill).any(|other| other.act.thing() == Some(thing) || poured(other) == material)
}

/// Words of a fluid that was in already.
const RENEWED: Wanted<'static> = Wanted { english: &[
    "drain", "drains", "drained", "draining", "top up", "top it up", "topped up", "topping up", "tops up", "let the oil out", "let it out", "suck", "sucked", "pump it out", "pumped out", "pump the oil out",
    "out through", "out of the filler", "empty it", "empty the oil", "emptied", "emptying", "siphon", "run out", "change the oil", "oil change", "change of oil", "running-in", "break-in", "run-in",
], german: &["ablass", "ablaß", "abgelassen", "ablaufen", "entleer", "auspump", "absaug", "abgesaugt", "nachfüll", "auffüll", "ölwechsel", "einlauföl"] };
/// Words of a fill that a machine is laid up with.
const LAID_UP: [&str; 9] = ["storage", "store", "stored", "fogging", "preserving", "preserve", "preservative", "laid up", "winter"];

/// Whether the words of the steps from a test to a fill speak of draining or topping up; a drain plug does not.
fn is_drained_or_topped_up(walk: &Walk<'_>, from: usize, to: usize) -> bool {
    let mut last = None;
    walk.moments.get(from..=to).unwrap_or_default().iter().any(|moment| {
        let place = Some(std::ptr::from_ref(moment.step));
        if last == place {
            return false;
        }
        last = place;
        let said = words_of(moment.step).to_lowercase().replace("drain plug", "").replace("drain screw", "");
        Tongue::of(walk.manual).may_say(&said, RENEWED)
    })
}
