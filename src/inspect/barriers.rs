//! Open items and what they forbid: opened before closed, nothing done that they bar, nothing open at the end.

use super::Context;
use super::order::is_temporary;
use super::rings::{Rings, rings};
use super::walk::{Moment, OpenSpan, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ThingRef, Verb};

/// An open item is closed before it is opened.
pub(super) static CLOSED_BEFORE_OPENED: Rule = Rule {
    name: "closed-before-opened",
    severity: Severity::Error,
    summary: "An open item is finished before it is left open.",
    explanation: Explanation {
        finds: "Items under leaves_open: whose finish_in: step comes, in build order, before the act that leaves them open.",
        matters: "The reader comes to the step that should finish the thing and finds it not begun; later it stays open for good.",
        may_be_wrong: "Where the build order is wrong: correct after:.",
        example: "a.md: leaves_open: {nut: {…, finish_in: z#nut}}   and z comes before a",
        instead: "Name a step of a later procedure, or add after: to that procedure.",
    },
};

/// An act is done that an open item forbids.
pub(super) static BARRIER_CROSSED: Rule = Rule {
    name: "barrier-crossed",
    severity: Severity::Error,
    summary: "Something is done that an open item forbids.",
    explanation: Explanation {
        finds: "Acts named under forbids: of an open item that come, in build order, after it is left open and before it is finished.",
        matters: "Oil poured into a case whose carrier is only tried in runs out again, over everything that must be clean.",
        may_be_wrong: "Where the act does no harm: take it out of forbids:.",
        example: "leaves_open: {carrier: {…, forbids: [fill:gear-oil]}}\nand [pour in the oil](fill:gear-oil) before the carrier is fitted",
        instead: "Finish the item first, then do what it forbids.",
    },
};

/// The machine is signed off with something open.
pub(super) static FINISHED_WITH_OPEN_ITEMS: Rule = Rule {
    name: "finished-with-open-items",
    severity: Severity::Error,
    summary: "The machine is signed off while something is open.",
    explanation: Explanation {
        finds: "sign: acts before which an open item has been left and not yet finished, or a fastener is not yet tight, a thing in for a trial or a temporary one in place that a later act finishes. As a warning: a sentence that says no more than that the work, the machine, a case or what the procedure's title names is done, finished, complete or ready, in a procedure that leaves something open.",
        matters: "A signature says that nothing is left to do.",
        may_be_wrong: "Never: hold: is for stopping and looking, sign: for nothing open.",
        example: "[Signed off](sign:editor)   while the brake adjuster is provisional",
        instead: "Finish the item before the signature.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let rings = rings(walk);
        for span in &walk.open {
            findings.extend(reversed(walk, span).filter(|finding| !rings.tell(finding.place())));
            findings.extend(crossed(walk, span, &rings));
        }
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Sign) {
            findings.extend(signed_open(walk, at, moment));
        }
    });
}

fn reversed(walk: &Walk<'_>, span: &OpenSpan<'_>) -> Option<Finding> {
    let closed = span.closed.filter(|closed| *closed < span.opened)?;
    let target = span.item.what.finish_in.as_ref()?;
    let (opening, closing) = (walk.moments.get(span.opened)?, walk.moments.get(closed)?);
    Some(
        Finding::new(&CLOSED_BEFORE_OPENED, target.place.clone(), format!("‘{}’ is finished before it is left open", span.item.id))
            .label("comes earlier in the build")
            .related(closing.act.place.clone(), format!("finished here: {}", closing.words()))
            .related(opening.act.place.clone(), format!("left {} here: {}", span.left(), opening.words()))
            .fix("name a later step, or put the procedures in order with after:")
            .about(span.item.id.clone()),
    )
}

fn crossed(walk: &Walk<'_>, span: &OpenSpan<'_>, rings: &Rings<'_>) -> Option<Finding> {
    let end = span.closed.unwrap_or(walk.moments.len());
    let barred = |moment: &&Moment<'_>| span.forbids(moment).is_some_and(|place| !rings.tell(place));
    let moment = walk.moments.get(span.opened + 1..end)?.iter().find(barred)?;
    let (opening, item) = (walk.moments.get(span.opened)?, &span.item.id);
    let finish = match (span.closed.and_then(|at| walk.moments.get(at)), &span.item.what.finish_in) {
        (Some(closing), _) => format!("‘{item}’ is finished in {}, which comes later", closing.words()),
        (None, Some(target)) => format!("‘{item}’ should be finished in {}, and is not", target.value),
        (None, None) => format!("‘{item}’ is finished nowhere"),
    };
    Some(
        Finding::new(&BARRIER_CROSSED, moment.act.place.clone(), format!("{} is done while ‘{item}’ is still {}", moment.act.address, span.left()))
            .label(format!("forbidden until ‘{item}’ is finished"))
            .related(opening.act.place.clone(), format!("left {} here: {}", span.left(), opening.words()))
            .figure(finish)
            .fix("finish the item first; or take the act out of its forbids: if it does no harm")
            .about(item.clone()),
    )
}

fn signed_open(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let is_open = |span: &&OpenSpan<'_>| span.opened < at && span.closed.is_none_or(|closed| closed > at || closed < span.opened);
    let items: Vec<&OpenSpan<'_>> = walk.open.iter().filter(is_open).collect();
    let mut open: Vec<(usize, String)> =
        items.iter().map(|span| (span.opened, format!("‘{}’ is {} since {}", span.item.id, span.left(), where_of(walk, span.opened)))).collect();
    for thing in walk.history.keys().filter(|thing| !items.iter().any(|span| span.thing == **thing)) {
        open.extend(finished_later(walk, thing, at));
    }
    open.sort();
    let first = walk.moments.get(open.first()?.0)?;
    let count = if open.len() == 1 { "one thing".to_owned() } else { format!("{} things", open.len()) };
    Some(
        Finding::new(&FINISHED_WITH_OPEN_ITEMS, moment.act.place.clone(), format!("signed off with {count} not finished"))
            .label("not finished yet")
            .related(first.act.place.clone(), format!("left open here: {}", first.words()))
            .figures(open.into_iter().map(|(_, words)| words))
            .fix("finish what is open before the signature; or make it a hold point (hold:) where the work goes on")
            .about(format!("{}#{}", moment.procedure.id, moment.step.id)),
    )
}

fn where_of(walk: &Walk<'_>, at: usize) -> String {
    walk.moments.get(at).map(Moment::words).unwrap_or_default()
}

/// A thing that is not finished at a signature and is finished behind it. What is never finished is told by
/// rules of its own.
fn finished_later(walk: &Walk<'_>, thing: &ThingRef, at: usize) -> Option<(usize, String)> {
    let (state, since) = walk.state_before(thing, at);
    let since = since?;
    let moment = walk.moments.get(since)?;
    let scope = walk.scope(moment.procedure);
    let temporary = scope.lists_of(thing).is_some_and(|lists| is_temporary(lists, thing));
    let open = match state {
        State::Started | State::Stage(_) | State::Loosened | State::DryFitted | State::Away => true,
        state => temporary && state.is_in_place(),
    };
    (open && walk.state(thing) != state).then(|| {
        let name = scope.head(thing).map_or(thing.id.as_str(), |head| head.name);
        let how = if temporary { "in and temporary".to_owned() } else { state.words() };
        (since, format!("{name} is {how} since {}", moment.words()))
    })
}
