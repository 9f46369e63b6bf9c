//! What an act needs to find: a heat to cool from, something in place to take out, an act that came before.

use super::Context;
use super::walk::{Misstep, Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity, nearest};
use crate::manual::{ListKind, ThingRef, Verb};

/// An act needs a state that nothing before it has left.
pub(super) static START_STATE_MISSING: Rule = Rule {
    name: "start-state-missing",
    severity: Severity::Error,
    summary: "An act needs a state that no earlier act has left.",
    explanation: Explanation {
        finds: "Tools in use before the act they need (needs:) or after it was undone, waits whose needs: names an act that no step does, cool: of what nobody has warmed, remove: of what is out already, receive: of what was never sent, and send: of what is away.",
        matters: "Whoever stands there with the tool in hand can't go on, or locks the crank by what must not be touched.",
        may_be_wrong: "Where the machine comes to the bench in that state: take the needs: out, or write the act that looks.",
        example: "tools: {piston-stop: {kind: holding-tool, needs: fit:piston}}\nLock the crank with the [stop](tool:piston-stop).   and the piston goes in later",
        instead: "Fit the piston first; or lock the crank by a tool that needs nothing.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            findings.extend(match moment.verb {
                Verb::Tool => tool(walk, at, moment),
                Verb::Begin | Verb::Wait => wait(walk, moment),
                _ => misstep(walk, at, moment),
            });
        }
    });
}

/// An act that something needs, as written: `fit:piston`.
struct Needed<'m> {
    verb: Verb,
    id: &'m str,
    whole: &'m str,
}

impl<'m> Needed<'m> {
    fn of(written: &'m str) -> Option<Self> {
        let whole = written.split(['*', '/']).next()?;
        let (word, target) = whole.split_once(':')?;
        Some(Self { verb: Verb::find(word)?, id: target.rsplit('@').next()?, whole })
    }
}

fn tool(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let entry = walk.scope(moment.procedure).thing(|lists| &lists.tools, thing)?;
    let needs = entry.what.needs.as_ref()?;
    let message = format!("{} is in use here, and needs {} first", entry.name, needs.value);
    let Some(needed) = Needed::of(&needs.value) else { return Some(no_act(&needs.place, &needs.value, &entry.id)) };
    if walk.machine.may_mean(needed.id) {
        return None;
    }
    let done = walk.moments_at(needed.whole).rev().find(|(other, _)| *other < at).map(|(_, moment)| moment);
    let finding = Finding::new(&START_STATE_MISSING, moment.act.place.clone(), message).related(needs.place.clone(), "what it needs").about(entry.id.clone());
    let Some(done) = done else {
        let later = walk.moments_at(needed.whole).find(|(other, _)| *other > at).map(|(_, moment)| moment);
        return Some(match later {
            Some(later) => finding
                .label("not done yet")
                .related(later.act.place.clone(), format!("done only later: {}", later.words()))
                .fix(format!("do {} before this act, or take another tool", needs.value)),
            None => finding.label("done nowhere before this").fix(format!("write the act that does it ({}), or take another tool", needs.value)),
        });
    };
    // What was put in must still be in.
    let put_in = matches!(needed.verb, Verb::Fit | Verb::DryFit | Verb::Start | Verb::Torque);
    let (state, since) = walk.state_before(done.act.thing().filter(|_| put_in)?, at);
    let undone = since.and_then(|since| walk.moments.get(since)).filter(|_| !state.is_in_place())?;
    Some(
        finding
            .label(format!("{} is {}", needed.id, state.words()))
            .related(undone.act.place.clone(), format!("{} since {}", state.words(), undone.words()))
            .fix(format!("do {} again before this act, or take another tool", needs.value)),
    )
}

fn no_act(place: &Place, written: &str, about: &str) -> Finding {
    Finding::new(&START_STATE_MISSING, place.clone(), format!("‘{written}’ is no act, so nobody can have done it before"))
        .label("not a verb and an id")
        .fix("write the act as a link's address has it: torque:pinion-nut")
        .about(about.to_owned())
}

fn wait(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<Finding> {
    let entry = walk.scope(moment.procedure).thing(|lists| &lists.waits, moment.act.thing()?)?;
    let needs = entry.what.needs.case(&walk.combination).filter(|needs| needs.value != "nothing")?;
    let Some(needed) = Needed::of(&needs.value) else { return Some(no_act(&needs.place, &needs.value, &entry.id)) };
    let done = walk.moments_at(needed.whole).next().is_some();
    if done || walk.machine.may_mean(needed.id) {
        return None;
    }
    let known = nearest(needed.whole, walk.moments.iter().map(Moment::whole_address));
    Some(
        Finding::new(&START_STATE_MISSING, moment.act.place.clone(), format!("{} begins here, and needs {}, which no step does", entry.name, needs.value))
            .label("nothing to begin from")
            .related(needs.place.clone(), "what it needs")
            .fix(known.map_or_else(|| "write the step that does it; or needs: nothing".to_owned(), |known| format!("did you mean ‘{known}’? Otherwise write the step that does it")))
            .about(entry.id.clone()),
    )
}

fn misstep(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let scope = walk.scope(moment.procedure);
    // A part that is away goes by the name of the part.
    let part = Some(thing).filter(|thing| thing.kind == ListKind::Away).and_then(|away| ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, &away.id)));
    let name = scope.head(part.as_ref().unwrap_or(thing))?.name;
    if walk.machine.may_mean(&thing.id) {
        return None;
    }
    let earlier = walk.state_before(thing, at).1.and_then(|since| walk.moments.get(since));
    let (message, label, fix) = match (moment.misstep?, moment.verb) {
        (Misstep::NeverBegun, _) if moment.before == State::Done => {
            (format!("{name}: it has cooled already"), "cold since then", format!("take this act out, or warm it again before: heat:{}", thing.id))
        }
        (Misstep::NeverBegun, _) => (format!("{name}: nobody has warmed it before this"), "nothing to cool", format!("write the act that warms it: heat:{}", thing.id)),
        (Misstep::NothingToRemove, _) if is_whole(walk, thing, at) => {
            (format!("{name} is taken out here, and is out already"), "out already", format!("take this act out; or put it in before: fit:{}", thing.id))
        }
        (Misstep::NotThere, Verb::Send) => (format!("{name} is sent away here, and is away already"), "away already", format!("receive it first: receive:{}", thing.id)),
        (Misstep::NotThere, _) => (format!("{name} comes back here, and is not away"), "never sent", format!("write the act that sends it: send:{}", thing.id)),
        _ => return None,
    };
    let finding = Finding::new(&START_STATE_MISSING, moment.act.place.clone(), message).label(label).fix(fix).about(thing.id.clone());
    Some(match earlier {
        Some(earlier) => finding.related(earlier.act.place.clone(), format!("{} since {}", moment.before.words(), earlier.words())),
        None => finding,
    })
}

/// Whether a thing was taken out as a whole, by an act on itself: of a group some may still be in, and plates
/// go with their stack.
fn is_whole(walk: &Walk<'_>, thing: &ThingRef, at: usize) -> bool {
    let out = walk.state_before(thing, at).1.and_then(|since| walk.moments.get(since));
    thing.kind != ListKind::Stacks && out.is_some_and(|out| out.act.times.is_none() && out.act.things.contains(thing))
}
