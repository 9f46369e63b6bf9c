//! Open items and what they forbid: opened before closed, nothing done that they bar, nothing open at the end.

use super::Context;
use super::walk::{Moment, OpenSpan, Walk};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::Verb;

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
        finds: "sign: acts before which an open item has been left and not yet finished.",
        matters: "A signature says that nothing is left to do.",
        may_be_wrong: "Never: hold: is for stopping and looking, sign: for nothing open.",
        example: "[Signed off](sign:editor)   while the brake adjuster is provisional",
        instead: "Finish the item before the signature.",
    },
};

/// The day ends on something that can't wait.
pub(super) static UNSAFE_SESSION_END: Rule = Rule {
    name: "unsafe-session-end",
    severity: Severity::Error,
    summary: "A place to stop for the day leaves something that can't wait.",
    explanation: Explanation {
        finds: "stop: while a thread locker is put on and its fastener not tightened, a bead laid and its joint not closed, or a part hot that nobody has let cool.",
        matters: "Overnight the locker sets on a nut that is only hand-tight, and the bead cures open.",
        may_be_wrong: "Never: move the stop, or the act before it.",
        example: "[Locker on](apply:medium-locker@nut), [nut on by hand](start:nut). [Enough for today](stop:)",
        instead: "[Nut on by hand](start:nut). [Enough for today](stop:) … then clean, locker and torque in one go.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for span in &walk.open {
            findings.extend(reversed(walk, span));
            findings.extend(crossed(walk, span));
        }
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Sign) {
            findings.extend(signed_open(walk, at, moment));
        }
    }
}

fn reversed(walk: &Walk<'_>, span: &OpenSpan<'_>) -> Option<Finding> {
    let closed = span.closed.filter(|closed| *closed < span.opened)?;
    let target = span.item.what.finish_in.as_ref()?;
    let (opening, closing) = (walk.moments.get(span.opened)?, walk.moments.get(closed)?);
    Some(
        Finding::new(&CLOSED_BEFORE_OPENED, target.place.clone(), format!("‘{}’ is finished before it is left open", span.item.id))
            .label("comes earlier in the build")
            .related(closing.act.place.clone(), "finished here")
            .related(opening.act.place.clone(), "left open here")
            .figure(format!("{} comes before {}", closing.words(), opening.words()))
            .fix("name a later step, or put the procedures in order with after:")
            .about(span.item.id.clone()),
    )
}

fn crossed(walk: &Walk<'_>, span: &OpenSpan<'_>) -> Option<Finding> {
    let end = span.closed.unwrap_or(walk.moments.len());
    let barred = |moment: &&Moment<'_>| {
        span.item.what.forbids.iter().any(|forbidden| {
            let (word, id) = forbidden.value.split_once(':').unwrap_or((forbidden.value.as_str(), ""));
            moment.verb.word() == word && (id.is_empty() || moment.act.things.iter().any(|thing| thing.id == id))
        })
    };
    let moment = walk.moments.get(span.opened + 1..end)?.iter().find(barred)?;
    // Signing is told by its own rule.
    if moment.verb == Verb::Sign {
        return None;
    }
    let opening = walk.moments.get(span.opened)?;
    let finish = span.item.what.finish_in.as_ref().map_or("", |target| target.value.as_str());
    Some(
        Finding::new(&BARRIER_CROSSED, moment.act.place.clone(), format!("this may not be done while ‘{}’ is open", span.item.id))
            .label(format!("forbidden while ‘{}’ is open", span.item.id))
            .related(opening.act.place.clone(), format!("left {} here", span.item.what.left.as_deref().unwrap_or("open")))
            .figure(format!("‘{}’ is finished in {finish}, which comes later", span.item.id))
            .fix("finish the item first, or take the act out of its forbids:")
            .about(span.item.id.clone()),
    )
}

fn signed_open(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let open: Vec<&OpenSpan<'_>> =
        walk.open.iter().filter(|span| span.opened < at && span.closed.is_none_or(|closed| closed > at || closed < span.opened)).collect();
    let first = open.first()?;
    let names: Vec<String> = open.iter().map(|span| format!("‘{}’ (left {} in {})", span.item.id, span.item.what.left.as_deref().unwrap_or("open"), span.procedure.title)).collect();
    let opening = walk.moments.get(first.opened)?;
    Some(
        Finding::new(&FINISHED_WITH_OPEN_ITEMS, moment.act.place.clone(), format!("signed off with {} open{}", if open.len() == 1 { "one item".to_owned() } else { format!("{} items", open.len()) }, walk.variant_words()))
            .label("not finished yet")
            .related(opening.act.place.clone(), format!("‘{}’ was left open here", first.item.id))
            .figures(names)
            .fix("finish what is open before the signature, or make it a hold:")
            .about(format!("{}#{}", moment.procedure.id, moment.step.id)),
    )
}
