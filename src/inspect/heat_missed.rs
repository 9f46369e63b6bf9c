//! Bearings that need heat or cold to go in, and go in before it or after it is over.

use super::Context;
use super::walk::{Moment, State, Walk, in_every};
use super::words::Words;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Heat, ListKind, ThingRef, Verb};

/// A tight bearing goes in outside its heat.
pub(super) static HEAT_MISSED: Rule = Rule {
    name: "heat-missed",
    severity: Severity::Error,
    summary: "A bearing with a tight fit goes in before its heat, or after it is over.",
    explanation: Explanation {
        finds: "fit: of a bearing with fit: {interference: …} while no heat (or chill) of it or of the part it sits in (in:) is on, where such a heat stands before it or behind it with nothing that is put in, taken out or slackened between its heat: and its cool:. Silent where its words speak of pressing, driving or cold and the heat is that of the housing, where the tight fit is on the shaft and the heat is that of the housing, where the heat is a bake, a cure or a drying, and where it lets a bearing come out.",
        matters: "A ring that is driven on cold takes the blows through its balls, and one that is warmed in its place is only robbed of its grease.",
        may_be_wrong: "Where the heat dries or cures something: give it another of:, as the part that needs it.",
        example: "[Drop the bearing on](fit:drive-bearing), [warm it](heat:bearing-heat), [let it cool](cool:bearing-heat)",
        instead: "[Warm the bearing](heat:bearing-heat), [drop it on](fit:drive-bearing), [let it cool](cool:bearing-heat)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Fit) {
            findings.extend(missed(walk, at, moment));
        }
    });
}

/// A heat from its beginning to where it is over.
struct Span<'w, 'm> {
    entry: &'m Entry<Heat>,
    from: usize,
    to: usize,
    begins: &'w Moment<'m>,
}

fn missed(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Bearings && !walk.machine.may_mean(&thing.id))?;
    let bearing = walk.scope(moment.procedure).thing(|lists| &lists.bearings, thing)?;
    let fit = bearing.what.fit.get(&walk.combination)?;
    fit.interference.as_ref()?;
    // One that is tight on its shaft alone lies loose in what it sits in, and what is pressed in needs no warm seat.
    let by_force = Words::of(&moment.act.words).first(&BY_FORCE).is_some();
    let within = bearing.what.within.get(&walk.combination).filter(|_| fit.shaft.is_none() && !by_force);
    let warms = |of: &String| *of == bearing.id || Some(of) == within;
    let heats: Vec<&ThingRef> = walk.history.keys().filter(|thing| thing.kind == ListKind::Heats).collect();
    let spans: Vec<Span<'_, '_>> = heats.iter().flat_map(|heat| spans(walk, heat)).filter(|span| span.entry.what.of.get(&walk.combination).is_some_and(warms)).collect();
    if spans.iter().any(|span| (span.from..span.to).contains(&at)) || heats.iter().any(|heat| walk.machine.may_mean(&heat.id)) {
        return None;
    }
    // Only a heat in which nothing is done was meant for this; the nearest one, in the same procedure.
    let idle = spans.iter().filter(|span| span.begins.procedure.id == moment.procedure.id && is_idle(walk, span));
    let span = idle.min_by_key(|span| if span.from > at { span.from - at } else { at - span.to })?;
    // A bearing that came out since, or comes out before, was warmed for something else.
    let (first, last) = if span.from > at { (at + 1, span.from) } else { (span.to, at) };
    if walk.moments_of(thing).any(|(other, moment)| (first..last).contains(&other) && matches!(moment.verb, Verb::Fit | Verb::Remove)) {
        return None;
    }
    let (message, label) = if span.from > at {
        (format!("{} goes in here, and {} comes only later", bearing.name, span.entry.name), "goes in cold")
    } else {
        (format!("{} goes in here, and {} is over", bearing.name, span.entry.name), "goes in too late")
    };
    let finding = Finding::new(&HEAT_MISSED, moment.act.place.clone(), message)
        .label(label)
        .related(span.begins.act.place.clone(), format!("begun here: {}", span.begins.words()))
        .fix(format!("write it between heat:{0} and cool:{0}", span.entry.id))
        .about(thing.id.clone());
    Some(match walk.moments.get(span.to).filter(|over| over.verb == Verb::Cool) {
        Some(over) => finding.related(over.act.place.clone(), format!("over here: {}", over.words())),
        None => finding,
    })
}

/// The times in which a heat is on. One that is nowhere over is on to the end.
fn spans<'w, 'm>(walk: &'w Walk<'m>, heat: &ThingRef) -> Vec<Span<'w, 'm>> {
    let changes = walk.history.get(heat).map(Vec::as_slice).unwrap_or_default();
    let begun = changes.iter().filter(|(_, state)| *state == State::Begun);
    let span = |from: usize| {
        let begins = walk.moments.get(from)?;
        let entry = walk.scope(begins.procedure).thing(|lists| &lists.heats, heat)?;
        let to = changes.iter().find(|(other, _)| *other > from).map_or(walk.moments.len(), |(to, _)| *to);
        Some(Span { entry, from, to, begins })
    };
    begun.filter_map(|(from, _)| span(*from)).collect()
}

/// Words of an act that puts a bearing in by force.
const BY_FORCE: [&str; 10] = ["press", "pressed", "presses", "pressing", "cold", "drift", "taps", "tapped", "driven", "hydraulic"];
/// Words of a heat that is for something else.
const FOR_SOMETHING_ELSE: [&str; 13] = ["bake", "baking", "baked", "cure", "curing", "cured", "dry", "drying", "dried", "paint", "coat", "coating", "stress"];

/// Whether a heat is not for something else, and nothing is put in, taken out, slackened or put on while a heat is on.
fn is_idle(walk: &Walk<'_>, span: &Span<'_, '_>) -> bool {
    let words = [span.entry.id.replace('-', " "), span.entry.name.clone()].join(" ");
    if Words::of(&words).first(&FOR_SOMETHING_ELSE).is_some() {
        return false;
    }
    let within = walk.moments.get(span.from..span.to).unwrap_or_default();
    !within.iter().any(|moment| matches!(moment.verb, Verb::Fit | Verb::DryFit | Verb::Remove | Verb::Loosen | Verb::Start | Verb::Torque | Verb::Apply | Verb::Begin))
}
