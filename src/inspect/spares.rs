//! Small springy things that fly: one more than is needed.

use super::kits::kits;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Home, ListKind, Lists, Machine, Part, Scope, ThingRef, Verb};

/// A clip that flies has no spare.
pub(super) static SPARE_MISSING: Rule = Rule {
    name: "spare-missing",
    severity: Severity::Note,
    summary: "Small springy parts that are used once have no spare.",
    explanation: Explanation {
        finds: "Clips and circlips with reuse: never that a step fits and of which no spare is at hand: spare: is missing or nought, no more are listed new: than count:, and no kit holds more than are fitted.",
        matters: "They fly off the pliers into the dark under the bench, and the engine stands open until the post comes.",
        may_be_wrong: "Where the shop keeps a box of them: write spare: with the number in the box.",
        example: "pin-clip: {kind: clip, count: 2, reuse: never}",
        instead: "pin-clip: {kind: clip, count: 2, reuse: never, spare: 1}",
    },
};

/// Kinds of part that spring out of the hand.
const SPRINGY: [&str; 2] = ["clip", "circlip"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let fitted = every::first_acts(machine, &[Verb::Fit]);
        let homes = machine.procedures.iter().map(|procedure| (Home::Procedure(procedure.id.clone()), context.manual.scope(machine, procedure), &procedure.lists));
        for (home, scope, lists) in homes.chain([(Home::Machine, context.manual.machine_scope(machine), &machine.lists)]) {
            for entry in lists.parts.values() {
                let thing = ThingRef { kind: ListKind::Parts, home: home.clone(), id: entry.id.clone() };
                if let Some(act) = fitted.get(&thing).filter(|_| is_short(context, machine, scope, lists, entry)) {
                    findings.push(
                        Finding::new(&SPARE_MISSING, entry.id_place.clone(), format!("{} is used once, flies easily, and has no spare", entry.name))
                            .label("none on top")
                            .related(act.place.clone(), "goes in here")
                            .fix("add spare: 1, or the number that is kept in the shop")
                            .about(entry.id.clone()),
                    );
                }
            }
        }
    }
}

fn is_short(context: &Context<'_>, machine: &Machine, scope: Scope<'_>, lists: &Lists, entry: &Entry<Part>) -> bool {
    let part = &entry.what;
    let lost = ["kind", "reuse", "count", "new", "spare"].into_iter().any(|field| lists.is_unreadable(ListKind::Parts, &entry.id, field));
    if lost || scope.may_be_lost(&[ListKind::Kits]) || !part.kind.first().is_some_and(|kind| SPRINGY.contains(&kind.as_str())) {
        return false;
    }
    let conditions = [&part.count, &part.new, &part.spare].into_iter().flat_map(|number| number.cases.iter().map(|case| &case.when));
    let made = every::made(scope, &entry.only, conditions.chain(part.reuse.cases.iter().map(|case| &case.when)));
    let held: u64 = kits(context.manual, machine).iter().flat_map(|kit| &kit.what.holds).filter(|(held, _)| held.value == entry.id).fold(0, |sum, (_, count)| sum.saturating_add(*count));
    made.iter().any(|made| {
        let count = part.count.get(made).copied().unwrap_or(1);
        let new = part.new.get(made).copied().unwrap_or(count);
        let spare = part.spare.get(made).copied().unwrap_or(0);
        part.reuse.get(made).is_some_and(|reuse| reuse == "never") && spare == 0 && new <= count && held <= count
    })
}
