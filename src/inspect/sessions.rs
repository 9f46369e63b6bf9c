//! Where a day's work may end.

use super::Context;
use super::heat_work::is_hot;
use super::locker_work::{fastener, is_locker, is_wicking, material};
use super::sentences::Passage;
use super::spoken::Named;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};

/// The day ends on something that can't wait.
pub(super) static UNSAFE_SESSION_END: Rule = Rule {
    name: "unsafe-session-end",
    severity: Severity::Error,
    summary: "A place to stop for the day leaves something that can't wait.",
    explanation: Explanation {
        finds: "stop: while a thread locker is put on and its fastener not at its full value, a bead laid and its joint not tightened, or a part hot that nobody has let cool. As a warning, where no open item (leaves_open:) covers it: a fastener of role shaft-nut that is only run up by hand or at an early stage, where the same procedure does not go on with it the next day; a plug (role plug) that was taken out that day, is not in again, and for whose hole no plug or cap is in use (tool:); a sentence of the stop's step that leaves a load hanging on its hoist.",
        matters: "Overnight the locker sets on a nut that is only hand-tight, the bead cures open, somebody turns the shaft, pours the oil, or walks under the load.",
        may_be_wrong: "Where it is meant to stay so: write it under leaves_open:, then a tag is printed and nobody forgets it. Otherwise never: move the stop, or the act before it.",
        example: "[Locker on](apply:medium-locker@nut), [nut on by hand](start:nut). [Enough for today](stop:)",
        instead: "[Nut on by hand](start:nut). [Enough for today](stop:) … then take it off, clean, locker and torque in one go.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, stop) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Stop) {
            findings.extend(unsafe_end(walk, at, stop).or_else(|| left_unsaid(walk, at, stop)));
        }
    });
}

fn unsafe_end(walk: &Walk<'_>, at: usize, stop: &Moment<'_>) -> Option<Finding> {
    let today = walk.moments.iter().enumerate().take(at).filter(|(_, moment)| moment.session == stop.session);
    let mut waiting: Vec<(&Moment<'_>, String)> = Vec::new();
    for (index, moment) in today {
        let what = match moment.verb {
            Verb::Apply => wet_locker(walk, index, at, moment).or_else(|| open_bead(walk, index, at, moment)),
            Verb::Heat => still_hot(walk, index, at, moment),
            _ => None,
        };
        if let Some(what) = what.filter(|what| !waiting.iter().any(|(_, told)| told == what)) {
            waiting.push((moment, what));
        }
    }
    let what: Vec<&str> = waiting.iter().map(|(_, what)| what.as_str()).collect();
    let message = format!("the day ends here while {}", what.split_last().map(|(last, most)| if most.is_empty() { (*last).to_owned() } else { format!("{} and {last}", most.join(", ")) })?);
    let finding = Finding::new(&UNSAFE_SESSION_END, stop.act.place.clone(), message)
        .label("not a safe place to stop")
        .fix("finish before the stop what can't wait, or move it behind")
        .about(format!("{}#{}", stop.procedure.id, stop.step.id));
    Some(waiting.iter().fold(finding, |finding, (moment, what)| finding.related(moment.act.place.clone(), format!("{what} since {}", moment.words()))))
}

/// The moments between two.
fn between<'w, 'm>(walk: &'w Walk<'m>, from: usize, to: usize) -> &'w [Moment<'m>] {
    walk.moments.get(from + 1..to).unwrap_or_default()
}

fn wet_locker(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let (thing, entry) = fastener(walk, moment)?;
    let material = material(walk, moment).filter(|material| is_locker(&material.what) && !is_wicking(&material.what))?;
    let done = |other: &Moment<'_>| other.act.things.contains(thing) && (other.after.holds() || other.verb == Verb::Remove);
    (!between(walk, index, stop).iter().any(done)).then(|| format!("{} is wet on {}", material.name, entry.name))
}

fn open_bead(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.beads, moment.act.thing().filter(|thing| thing.kind == ListKind::Beads)?)?;
    let closing: Vec<ThingRef> = entry.what.between.iter().flat_map(|part| walk.fasteners_of(scope, &part.value)).collect();
    let closed = |other: &Moment<'_>| other.verb == Verb::Torque && other.act.things.iter().any(|thing| closing.contains(thing));
    (!closing.is_empty() && !between(walk, index, stop).iter().any(closed)).then(|| format!("{} is laid and its joint is open", entry.name))
}

fn still_hot(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let scope = walk.scope(moment.procedure);
    let thing = moment.act.thing()?;
    let entry = scope.thing(|lists| &lists.heats, thing).filter(|entry| is_hot(entry, &walk.combination))?;
    let cooled = between(walk, index, stop).iter().any(|other| other.verb == Verb::Cool && other.act.things.contains(thing));
    let part = entry.what.of.get(&walk.combination)?;
    let name = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, part)).and_then(|part| scope.head(&part)).map_or(part.as_str(), |head| head.name);
    (!cooled).then(|| format!("{name} is hot"))
}

/// What can wait, but must be known: told as a warning where no open item covers it.
fn left_unsaid(walk: &Walk<'_>, at: usize, stop: &Moment<'_>) -> Option<Finding> {
    let mut left: Vec<(&Moment<'_>, String)> = Vec::new();
    for (thing, changes) in walk.history.iter().filter(|(thing, _)| thing.kind == ListKind::Fasteners) {
        let (state, since) = walk.state_before(thing, at);
        let Some(since) = since.filter(|_| !changes.is_empty()) else { continue };
        let Some(moment) = walk.moments.get(since) else { continue };
        let Some((_, entry)) = fastener(walk, moment) else { continue };
        let is_unsaid = || !is_covered(walk, thing, at);
        match entry.what.role.get(&walk.combination).map(String::as_str) {
            Some("shaft-nut") if matches!(state, State::Started | State::Stage(_)) && !goes_on_with(walk, thing, at, stop) && is_unsaid() => left.push((moment, format!("{} is {}", entry.name, state.words()))),
            Some("plug") if state == State::Removed && moment.session == stop.session && !is_plugged(walk, since, at) && is_unsaid() => left.push((moment, format!("the hole of {} is open", entry.name))),
            _ => {}
        }
    }
    left.sort_by_key(|(moment, _)| moment.act.place.start);
    let hanging = hanging_load(walk, at, stop);
    let (place, what) = match (&hanging, left.as_slice()) {
        (Some(place), []) => (place.clone(), "a load hangs".to_owned()),
        (_, [(_, what), ..]) => {
            let more = left.iter().skip(1).map(|(_, what)| what.as_str()).chain(hanging.as_ref().map(|_| "a load hangs"));
            (stop.act.place.clone(), more.fold(what.clone(), |all, what| format!("{all}, {what}")))
        }
        (None, []) => return None,
    };
    let finding = Finding::new(&UNSAFE_SESSION_END, place, format!("the day ends here while {what}, and no open item says so"))
        .severity(Severity::Warning)
        .label(if left.is_empty() { "over night" } else { "who knows of it tomorrow?" })
        .fix(if left.is_empty() {
            "set it down before the stop; or name it under leaves_open:, with what it forbids"
        } else {
            "finish it before the stop, or name it under leaves_open: with finish_in: and what it forbids: that prints its tag"
        })
        .about(format!("{}#{}", stop.procedure.id, stop.step.id));
    let finding = left.iter().fold(finding, |finding, (moment, what)| finding.related(moment.act.place.clone(), format!("{what} since {}", moment.words())));
    Some(match hanging.filter(|_| !left.is_empty()) {
        Some(place) => finding.related(place, "a load hangs"),
        None => finding,
    })
}

/// Whether an open item is about a thing at a moment.
pub(super) fn is_covered(walk: &Walk<'_>, thing: &ThingRef, at: usize) -> bool {
    walk.machine.may_mean(&thing.id) || is_said_open(walk, thing, at)
}

/// Whether an open item on a thing is open at a moment: one that opens later says nothing yet.
fn is_said_open(walk: &Walk<'_>, thing: &ThingRef, at: usize) -> bool {
    walk.open.iter().any(|span| span.thing == *thing && span.opened <= at && span.closed.is_none_or(|closed| closed > at || closed < span.opened))
}

/// Whether the next day begins with this thing, in the same procedure: then nobody turns it before it is seen.
fn goes_on_with(walk: &Walk<'_>, thing: &ThingRef, at: usize, stop: &Moment<'_>) -> bool {
    let next = walk.moments.iter().skip(at + 1).find(|moment| moment.verb.ticks());
    next.is_some_and(|next| next.act.things.contains(thing) && next.procedure.id == stop.procedure.id)
}

/// Whether a plug or cap is in use between two moments, for a hole that was opened.
fn is_plugged(walk: &Walk<'_>, from: usize, to: usize) -> bool {
    between(walk, from, to).iter().filter(|moment| moment.verb == Verb::Tool).any(|moment| {
        moment.act.thing().and_then(|thing| walk.scope(moment.procedure).head(thing)).is_some_and(|head| stops_a_hole(head.name))
    })
}

/// Whether a tool is by its name's noun a stopper, or a tray or set of stoppers; a drain plug key is none.
fn stops_a_hole(name: &str) -> bool {
    let is_stopper = |noun: &str| matches!(noun, "plug" | "cap" | "bung" | "blank" | "cover" | "stopper");
    let noun = |name: &str| Named::of("", name).map(|named| named.noun);
    let Some(own) = noun(name) else { return false };
    if !matches!(own.as_str(), "tray" | "set" | "box" | "bag" | "kit" | "pack") {
        return is_stopper(&own) || (own == "plate" && name.to_lowercase().contains("blank"));
    }
    let held = match name.split_once(" of ") {
        Some((_, held)) => Some(held),
        None => name.trim_end().rsplit_once(' ').map(|(held, _)| held),
    };
    held.and_then(noun).is_some_and(|held| is_stopper(&held))
}

/// Where the words of a stop's step leave a load hanging: `hangs` and a hoist in one sentence.
fn hanging_load(walk: &Walk<'_>, at: usize, stop: &Moment<'_>) -> Option<Place> {
    // A step is read once, at its first stop.
    let first = stop.step.acts.iter().find(|act| act.verb == Some(Verb::Stop))?;
    let scope = walk.scope(stop.procedure);
    let covered = first.place != stop.act.place || stop.step.acts.iter().flat_map(|act| &act.things).any(|thing| is_said_open(walk, thing, at));
    if covered {
        return None;
    }
    let lifts = |thing: &ThingRef| scope.thing(|lists| &lists.tools, thing).is_some_and(|tool| tool.what.kind.as_deref() == Some("lifting"));
    Passage::all(stop.step).iter().flat_map(Passage::sentences).find_map(|sentence| {
        let hangs = (0..sentence.count()).find(|word| matches!(sentence.word(*word), "hangs" | "hanging" | "suspended"))?;
        let hoist = sentence.has(&["hoist", "crane", "hook", "sling", "slings"]) || sentence.acts().iter().any(|(act, _)| act.things.iter().any(lifts));
        let denied = sentence.has(&["not", "never", "nothing", "no", "until", "if"]);
        let place = sentence.place(&(hangs..hangs + 1));
        place.filter(|_| hoist && !denied)
    })
}
