//! What can start by itself under somebody's hands: a battery or spark connected while a shaft is turned.

use super::Context;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Part, ThingRef, Tool, Verb};

/// A shaft is turned by hand with a battery or spark connected.
pub(super) static IGNITION_LIVE: Rule = Rule {
    name: "ignition-live",
    severity: Severity::Error,
    summary: "A shaft is turned by hand, or a propeller, fan or blade handled, while something is connected that can start the machine.",
    explanation: Explanation {
        finds: "turn:, and fit:, dry-fit: or remove: of a propeller, fan, blade, cutter or auger (by the part's name; not of a wiper or hand saw), while a part marked live: true (a battery lead, a spark lead, a motor's plug) is in place: fitted in an earlier act, or there before the work began and taken out only later. Silent where a tool of kind protection against electric (a padlocked isolator, a lead earthed) is in use in the procedure before the act.",
        matters: "An engine turned past a charged cylinder with its spark on fires; a motor with its plug in starts. A hand that moves a propeller turns the shaft as well.",
        may_be_wrong: "Where the shaft is uncoupled from what could drive it: take the lead off all the same.",
        example: "parts: {spark-lead: {name: Spark lead, kind: other, live: true}}\n[Spark lead on](fit:spark-lead). [Turn the crank twice](turn:crank-twice).",
        instead: "[Turn the crank twice](turn:crank-twice). [Spark lead on](fit:spark-lead).",
    },
};

/// A part that makes a machine live goes on and never came off.
pub(super) static LIVE_NEVER_OFF: Rule = Rule {
    name: "live-never-off",
    severity: Severity::Warning,
    summary: "A part that makes the machine live is put on, and no act has taken it off before the machine is taken apart.",
    explanation: Explanation {
        finds: "Parts marked live: true whose first act in the whole build is fit: or dry-fit:, behind an act that slackens or takes out something that was there before the work began (loosen:, remove:). Silent where a tool of kind protection against electric is in use before that act, where the part is new each time (reuse: never), and where nothing is taken apart: a machine built from its parts has none on.",
        matters: "Whoever opens the machine with its plug in has a hand where it starts.",
        may_be_wrong: "Where the machine comes to the bench with it off: write the look as an act, [see that the plug is out](remove:motor-plug).",
        example: "parts: {motor-plug: {live: true, …}}\n[Take the guard off](remove:coupling-guard) … [put the plug in](fit:motor-plug)   and no remove:motor-plug",
        instead: "[Pull the motor's plug](remove:motor-plug). [Take the guard off](remove:coupling-guard) … [put the plug in](fit:motor-plug)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let live = live_parts(walk);
        if live.is_empty() {
            return;
        }
        findings.extend(live.iter().filter_map(|(thing, entry)| never_off(walk, thing, entry)));
        for (at, moment) in walk.moments.iter().enumerate() {
            let Some(turned) = turned(walk, moment).filter(|_| !is_isolated(walk, at, moment)) else { continue };
            findings.extend(live.iter().find_map(|(thing, entry)| connected(walk, at, moment, &turned, thing, entry)));
        }
    });
}

/// Parts that are moved by hand and cut what they meet.
const SHARP: [&str; 8] = ["propeller", "fan", "blade", "blades", "cutter", "auger", "flail", "flails"];

/// What is turned by hand at a moment, in words: a shaft, or what turns with one as it is put on or taken off.
fn turned(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<String> {
    match moment.verb {
        Verb::Turn => Some("a shaft is turned by hand here".to_owned()),
        Verb::Fit | Verb::DryFit | Verb::Remove => {
            let part = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.parts, thing))?;
            let said = part.name.to_lowercase();
            let own = said.split(" of ").next().unwrap_or(&said);
            let mut nouns = own.split_whitespace().rev();
            let noun = nouns.next().filter(|noun| SHARP.contains(noun))?;
            // The blade of a wiper or a hand saw is turned by no shaft.
            if matches!(noun, "blade" | "blades") && nouns.next().is_some_and(|of| matches!(of, "wiper" | "hacksaw" | "handsaw")) {
                return None;
            }
            Some(format!("{} is handled here", part.name))
        }
        _ => None,
    }
}

/// The parts marked live that a walk works on.
fn live_parts<'w, 'm>(walk: &'w Walk<'m>) -> Vec<(&'w ThingRef, &'m Entry<Part>)> {
    let entry = |thing: &ThingRef| {
        let (_, moment) = walk.moments_of(thing).next()?;
        walk.scope(moment.procedure).thing(|lists| &lists.parts, thing)
    };
    let parts = walk.history.keys().filter(|thing| thing.kind == ListKind::Parts);
    parts.filter_map(|thing| Some((thing, entry(thing)?))).filter(|(thing, entry)| entry.what.live && !walk.machine.may_mean(&thing.id)).collect()
}

/// Whether a protection against electric shock and starting is in use in the procedure before a moment.
fn is_isolated(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> bool {
    let before = walk.moments.get(..at).unwrap_or_default().iter().filter(|other| other.procedure.id == moment.procedure.id && other.verb == Verb::Tool);
    before.filter_map(|other| walk.scope(other.procedure).thing(|lists| &lists.tools, other.act.thing()?)).any(|tool| isolates(&tool.what))
}

/// Whether a tool keeps a machine from starting: a protection against electric.
pub(super) fn isolates(tool: &Tool) -> bool {
    tool.kind.as_deref() == Some("protection") && tool.against.iter().any(|against| against == "electric")
}

fn connected(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, turned: &str, thing: &ThingRef, entry: &Entry<Part>) -> Option<Finding> {
    let (state, since) = walk.state_before(thing, at);
    let (place, since) = match since.and_then(|since| walk.moments.get(since)) {
        Some(fitted) if state.is_in_place() => (fitted.act.place.clone(), format!("connected since {}", fitted.words())),
        Some(_) => return None,
        None => {
            // Untouched so far: it was on before the work began where the first act on it takes it off.
            let (_, first) = walk.moments_of(thing).next().filter(|(_, first)| first.verb == Verb::Remove && first.before == State::Absent)?;
            (first.act.place.clone(), format!("taken off only later: {}", first.words()))
        }
    };
    Some(
        Finding::new(&IGNITION_LIVE, moment.act.place.clone(), format!("{turned}, and {} is connected", entry.name))
            .label("it can start under the hand")
            .related(place, since)
            .fix(format!("take it off before this act (remove:{}), and put it on behind; or lock the supply off with a protection against electric", thing.id))
            .about(thing.id.clone()),
    )
}

/// A live part that goes on first of all, on a machine that was taken apart before.
fn never_off(walk: &Walk<'_>, thing: &ThingRef, entry: &Entry<Part>) -> Option<Finding> {
    let (fitted, moment) = walk.moments_of(thing).next().filter(|(_, first)| matches!(first.verb, Verb::Fit | Verb::DryFit))?;
    let is_live = |other: &Moment<'_>| other.act.thing().and_then(|thing| walk.scope(other.procedure).thing(|lists| &lists.parts, thing)).is_some_and(|part| part.what.live);
    let was_there = |other: &Moment<'_>| matches!(other.verb, Verb::Remove | Verb::Loosen) && other.before == State::Absent && !is_live(other);
    let (opened, opens) = walk.moments.get(..fitted)?.iter().enumerate().find(|(_, other)| was_there(other))?;
    let new = entry.what.reuse.get(&walk.combination).is_some_and(|reuse| reuse == "never");
    let tools = walk.moments.get(..opened)?.iter().filter(|other| other.verb == Verb::Tool);
    let isolated = tools.filter_map(|other| walk.scope(other.procedure).thing(|lists| &lists.tools, other.act.thing()?)).any(|tool| isolates(&tool.what));
    if new || isolated || walk.open.iter().any(|span| span.thing == *thing) {
        return None;
    }
    Some(
        Finding::new(&LIVE_NEVER_OFF, moment.act.place.clone(), format!("{} goes on here, and no act has taken it off", entry.name))
            .label("was it off before?")
            .related(opens.act.place.clone(), format!("the machine is taken apart from here on: {}", opens.words()))
            .fix(format!("write where it comes off, before that act: remove:{}", thing.id))
            .about(thing.id.clone()),
    )
}
