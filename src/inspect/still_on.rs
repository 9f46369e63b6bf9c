//! Gaskets and springs that go in under a part that is still in its place.

use super::Context;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, Verb};

/// A gasket goes in under a cover that is on.
pub(super) static COVER_STILL_ON: Rule = Rule {
    name: "cover-still-on",
    severity: Severity::Error,
    summary: "A gasket goes in under a part that is not off, and that nobody puts on afterwards.",
    explanation: Explanation {
        finds: "fit: and dry-fit: of a part with under:, while the part it lies under has not been taken off (remove:), is not away, and is not fitted (fit:, dry-fit:) later in the build.",
        matters: "Taking the cover off and putting it on have no line on the sheet: nobody looks at its face, and what it covers is closed without a look.",
        may_be_wrong: "Never: what lies under a part goes in while the part is off. Say both, even where they take a second.",
        example: "[Take the screws out](remove:hatch-screw), [lay the gasket on](fit:hatch-gasket), [tighten the screws](torque:hatch-screw)   and hatch-gasket: {under: hatch}",
        instead: "[Take the screws out](remove:hatch-screw), [lift the hatch off](remove:hatch), [lay the gasket on](fit:hatch-gasket), [put the hatch on](fit:hatch), [tighten the screws](torque:hatch-screw)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| matches!(moment.verb, Verb::Fit | Verb::DryFit)) {
            findings.extend(under_closed(walk, at, moment));
        }
    });
}

fn under_closed(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let gasket = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts)?;
    let entry = scope.thing(|lists| &lists.parts, gasket)?;
    let under = entry.what.under.case(&walk.combination)?;
    let cover = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, &under.value))?;
    let head = scope.head(&cover).filter(|head| walk.combination.satisfies(head.only))?;
    let (state, since) = walk.state_before(&cover, at);
    let away = scope.find_anywhere(ListKind::Away, &cover.id).is_some_and(|away| walk.state_before(&away, at).0 == State::Away);
    let fitted_later = walk.moments_of(&cover).any(|(other, later)| other > at && matches!(later.verb, Verb::Fit | Verb::DryFit));
    if state == State::Removed || away || fitted_later || walk.machine.may_mean(&cover.id) {
        return None;
    }
    let name = head.name;
    let finding = Finding::new(&COVER_STILL_ON, moment.act.place.clone(), format!("{} goes in under {name}, which is still on", entry.name))
        .label("under what is on")
        .related(under.place.clone(), format!("it lies under {}", cover.id));
    let last = since.and_then(|since| walk.moments.get(since));
    Some(
        match last {
            Some(last) => finding.related(last.act.place.clone(), format!("{name} went on: {}", last.words())),
            None => finding.figure(format!("no act takes {name} off before, and none puts it on behind")),
        }
        .fix(format!("take it off first, [{name} off](remove:{0}), and put it on behind the gasket: [{name} on](fit:{0})", cover.id))
        .about(gasket.id.clone()),
    )
}
