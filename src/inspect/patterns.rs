//! The order in which a group of fasteners is tightened.

use super::Context;
use super::torque::beside;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Fastener, Layout, Lists, Machine, Part};
use crate::trade::order::{self, OrderFault, check as check_order, propose};

/// A group of fasteners has no order.
pub(super) static PATTERN_MISSING: Rule = Rule {
    name: "pattern-missing",
    severity: Severity::Warning,
    summary: "Four or more bolts of one joint have no tightening order.",
    explanation: Explanation {
        finds: "Groups of four or more fasteners of role clamp, cover or angle that hold a part (holds:) and have neither order: nor layout:; an error where there are six or more and a gasket is held, or a bead lies on what they hold.",
        matters: "Bolts pulled down one after the other round a flange tilt it and leave a gap on the far side.",
        may_be_wrong: "Where each holds something of its own: give them their own ids.",
        example: "cover-bolt: {count: 12, role: cover, holds: [cover]}",
        instead: "cover-bolt: {count: 12, role: cover, holds: [cover], layout: {circle: 12}}   (the order is worked out)",
    },
};

/// An order is none.
pub(super) static PATTERN_INVALID: Rule = Rule {
    name: "pattern-invalid",
    severity: Severity::Error,
    summary: "A tightening order leaves a bolt out, names one twice, or goes round in turn.",
    explanation: Explanation {
        finds: "order: lists that are no permutation of the positions; and, where the layout: is known, neighbours in succession on a circle of five or more, and steps back towards the centre by more than 15 % of the greatest distance (common practice).",
        matters: "The bolt that is not in the list is not tightened.",
        may_be_wrong: "Where the maker's order goes against the layout, waive it with the page.",
        example: "cover-bolt: {count: 6, order: [1, 2, 3, 4, 5, 5]}",
        instead: "cover-bolt: {count: 6, order: [1, 4, 2, 5, 3, 6]}",
    },
};

/// The fewest fasteners that need an order.
const NEEDS_ORDER_FROM: u64 = 4;
/// The fewest that need one over a gasket or bead, whatever the joint.
const SEALED_NEEDS_ORDER_FROM: u64 = 6;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        for lists in machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]) {
            for entry in lists.fasteners.values() {
                findings.extend(missing(machine, lists, entry));
                for case in &entry.what.order.cases {
                    findings.extend(invalid(entry, case));
                }
            }
        }
    }
}

fn missing(machine: &Machine, lists: &Lists, entry: &Entry<Fastener>) -> Option<Finding> {
    let fastener = &entry.what;
    let count = fastener.count.cases.iter().map(|case| case.value).max()?;
    let flange = fastener.role.first().is_some_and(|role| matches!(role.as_str(), "clamp" | "cover" | "angle")) && !fastener.holds.is_empty();
    let unread = ["order", "layout"].iter().any(|field| lists.is_unreadable(crate::manual::ListKind::Fasteners, &entry.id, field));
    let given = fastener.order.is_given() || fastener.layout.is_given() || unread;
    (flange && count >= NEEDS_ORDER_FROM && !given).then(|| {
        let sealed = if count >= SEALED_NEEDS_ORDER_FROM { sealed_by(machine, entry) } else { None };
        let finding = Finding::new(&PATTERN_MISSING, entry.id_place.clone(), format!("{} has {count} pieces and no tightening order", entry.name));
        let finding = match sealed {
            Some(seal) => finding.severity(Severity::Error).figure(format!("{seal} lies in the joint: pulled down on one side first, it leaks on the other")),
            None => finding,
        };
        finding
            .label("in what order?")
            .fix(format!("say where they sit, and the order is worked out: layout: {{circle: {count}}}; or give the source's: order: […]"))
            .about(format!("{}.order", entry.id))
    })
}

/// The gasket or bead in a joint, by name.
fn sealed_by<'m>(machine: &'m Machine, entry: &Entry<Fastener>) -> Option<&'m str> {
    let lists = || machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
    let held = |id: &str| entry.what.holds.iter().any(|held| held.value == id);
    let is_gasket = |part: &&Entry<Part>| held(&part.id) && part.what.kind.first().is_some_and(|kind| kind == "gasket");
    let gasket = lists().flat_map(|lists| lists.parts.values()).find(is_gasket).map(|part| part.name.as_str());
    let bead = || lists().flat_map(|lists| lists.beads.values()).find(|bead| bead.what.between.iter().any(|face| held(&face.value))).map(|bead| bead.name.as_str());
    gasket.or_else(bead)
}

fn invalid(entry: &Entry<Fastener>, case: &Case<Vec<u64>>) -> Option<Finding> {
    let count = usize::try_from(*count_of(entry, &case.when)?).ok()?;
    let positions: Vec<usize> = case.value.iter().map(|position| usize::try_from(*position).unwrap_or(usize::MAX)).collect();
    let layout = beside(&entry.what.layout, &case.when).map(Layout::for_trade);
    // Without a layout only the list itself can be judged.
    let known = layout.is_some();
    let layout = layout.unwrap_or(order::Layout::Circle(count));
    let check = check_order(&layout, &positions).ok()?;
    let faults: Vec<String> = check
        .faults
        .iter()
        .filter(|fault| known || matches!(fault, OrderFault::Missing(_) | OrderFault::Repeated(_) | OrderFault::NoSuchPosition(_)))
        .map(ToString::to_string)
        .collect();
    if faults.is_empty() {
        return None;
    }
    let proposal: Vec<String> = propose(&layout).ok()?.iter().map(ToString::to_string).collect();
    Some(
        Finding::new(&PATTERN_INVALID, case.place.clone(), format!("the order of {} is none: {}", entry.name, faults.first().map_or("", String::as_str)))
            .label("no order of its positions")
            .figures(faults)
            .fix(format!("for example [{}], if they sit {}", proposal.join(", "), if known { "as the layout says" } else { "round a circle" }))
            .about(format!("{}.order", entry.id)),
    )
}

fn count_of<'e>(entry: &'e Entry<Fastener>, when: &Combination) -> Option<&'e u64> {
    beside(&entry.what.count, when)
}
