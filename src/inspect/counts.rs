//! How many: pieces put in against pieces listed, and new ones where a thing is used once.

use super::Context;
use super::walk::{Moment, Walk};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Combination, Layout, ListKind, Lists, ThingRef, Varied, Verb};

/// Something used once goes in a second time.
pub(super) static ONE_TIME_REUSED: Rule = Rule {
    name: "one-time-reused",
    severity: Severity::Error,
    summary: "Something that is used once goes in a second time.",
    explanation: Explanation {
        finds: "Things with reuse: never of which more are put in for good, over the whole build, than new ones and spares are listed.",
        matters: "A stretched bolt, a squashed ring or an opened circlip holds once.",
        may_be_wrong: "Where it goes in for a trial only: dry-fit:. Where there are more new ones in hand: new: or spare:.",
        example: "clip: {reuse: never, count: 1}\n[Clip on](fit:clip) … [clip off](remove:clip) … [clip on again](fit:clip)",
        instead: "clip: {reuse: never, count: 1, new: 2}   or a dry-fit the first time",
    },
};

/// A gasket used once goes in a second time.
pub(super) static GASKET_REUSED: Rule = Rule {
    name: "gasket-reused",
    severity: Severity::Error,
    summary: "A gasket or ring that is used once goes in a second time.",
    explanation: Explanation {
        finds: "Gaskets, O-rings and sealing washers with reuse: never of which more are put in for good than new ones and spares are listed.",
        matters: "Once it has been squeezed it has taken the shape of the first joint.",
        may_be_wrong: "Where it goes in for a trial only: dry-fit:.",
        example: "hatch-gasket: {kind: gasket, reuse: never, count: 1}\n[Gasket on](fit:hatch-gasket) … [gasket off](remove:hatch-gasket) … [gasket on](fit:hatch-gasket)",
        instead: "Try the cover without its gasket (dry-fit:), or list a second gasket: new: 2.",
    },
};

/// Fasteners put in, listed and ordered don't agree in number.
pub(super) static COUNT_MISMATCH: Rule = Rule {
    name: "count-mismatch",
    severity: Severity::Error,
    summary: "Fasteners listed, put in and put in order don't agree in number.",
    explanation: Explanation {
        finds: "Fasteners of which the acts put in more or fewer than count: says, and whose order: or layout: has another number of positions.",
        matters: "One bolt of twelve is missing, and nobody knows which.",
        may_be_wrong: "Where only some of them go in for a trial: take them out again (remove:), then the count begins anew.",
        example: "cover-bolt: {count: 12}\n[Eleven bolts in](start:cover-bolt*11), [tighten them](torque:cover-bolt)",
        instead: "[Twelve bolts in](start:cover-bolt*12), [tighten them](torque:cover-bolt)",
    },
};

/// Parts put in and parts listed don't agree in number.
pub(super) static QUANTITY_MISMATCH: Rule = Rule {
    name: "quantity-mismatch",
    severity: Severity::Error,
    summary: "Parts put in and parts listed don't agree in number.",
    explanation: Explanation {
        finds: "Parts, seals and bearings of which the acts put in more than count: says, or fewer where they are counted (fit:clip*3).",
        matters: "The fifth clip is missing when four are in hand.",
        may_be_wrong: "Where the rest goes in by another act: write it.",
        example: "clip: {count: 4}\n[Five clips on](fit:clip*5)",
        instead: "clip: {count: 5}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for thing in walk.history.keys().filter(|thing| ListKind::THINGS.contains(&thing.kind) && thing.kind != ListKind::Stacks) {
            pieces(walk, thing, findings);
        }
    }
    for machine in &context.manual.machines {
        positions(&machine.lists, findings);
        machine.procedures.iter().for_each(|procedure| positions(&procedure.lists, findings));
    }
}

/// What an entry says of its number.
struct Numbers {
    name: String,
    place: Place,
    count: Option<u64>,
    new: u64,
    once: bool,
    gasket: bool,
}

fn numbers(lists: &Lists, thing: &ThingRef, variant: &Combination) -> Option<Numbers> {
    let get = |value: &Varied<u64>| value.get(variant).copied();
    let make = |count: &Varied<u64>, new: &Varied<u64>, spare: &Varied<u64>, reuse: &Varied<String>, gasket: bool| {
        let head = lists.head(thing.kind, &thing.id)?;
        Some(Numbers {
            name: head.name.to_owned(),
            place: head.place.clone(),
            count: get(count),
            new: get(new).or_else(|| get(count)).unwrap_or(1).saturating_add(get(spare).unwrap_or(0)),
            once: reuse.get(variant).is_some_and(|reuse| reuse == "never"),
            gasket,
        })
    };
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Seals => lists.seals.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Bearings => lists.bearings.get(&thing.id).and_then(|e| make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, false)),
        ListKind::Parts => lists.parts.get(&thing.id).and_then(|e| {
            let gasket = e.what.kind.get(variant).is_some_and(|kind| matches!(kind.as_str(), "gasket" | "o-ring" | "sealing-washer"));
            make(&e.what.count, &e.what.new, &e.what.spare, &e.what.reuse, gasket)
        }),
        _ => None,
    }
}

/// Counts the pieces of a thing through a walk.
fn pieces(walk: &Walk<'_>, thing: &ThingRef, findings: &mut Vec<Finding>) {
    let Some(first) = walk.moments_of(thing).next().map(|(_, moment)| moment.procedure) else { return };
    let Some(numbers) = walk.scope(first).lists_of(thing).and_then(|lists| numbers(lists, thing, &walk.combination)) else { return };
    let count = numbers.count.unwrap_or(1);
    let (mut inside, mut used) = (0_u64, 0_u64);
    for (at, moment) in walk.moments_of(thing) {
        // A fastener set free by its part's removal is out, whatever was counted.
        if walk.state_before(thing, at).0 == super::walk::State::Absent {
            inside = 0;
        }
        match moment.verb {
            Verb::Remove => inside = moment.act.times.map_or(0, |times| inside.saturating_sub(times)),
            Verb::Fit | Verb::Start | Verb::DryFit => {
                let more = moment.act.times.unwrap_or_else(|| count.saturating_sub(inside));
                inside += more;
                if inside > count {
                    findings.push(too_many(&numbers, thing, moment, inside, count));
                    return;
                }
                if moment.verb != Verb::DryFit {
                    used += more;
                }
            }
            Verb::Torque if inside < count && inside > 0 && moment.act.times.is_none() => {
                findings.push(too_few(&numbers, thing, moment, inside, count));
                return;
            }
            Verb::Torque if inside == 0 => {
                inside = count;
                used += count;
            }
            _ => {}
        }
        if numbers.once && used > numbers.new {
            findings.push(again(&numbers, thing, moment, used));
            return;
        }
    }
    if let Some((_, last)) = walk.moments_of(thing).last().filter(|_| inside > 0 && inside < count && thing.kind != ListKind::Fasteners) {
        findings.push(too_few(&numbers, thing, last, inside, count));
    }
}

fn rule_of(thing: &ThingRef) -> &'static Rule {
    if thing.kind == ListKind::Fasteners { &COUNT_MISMATCH } else { &QUANTITY_MISMATCH }
}

fn too_many(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, inside: u64, count: u64) -> Finding {
    Finding::new(rule_of(thing), moment.act.place.clone(), format!("{inside} of {} would be in, and {count} are listed", numbers.name))
        .label(format!("{} too many", inside - count))
        .related(numbers.place.clone(), format!("count: {count}"))
        .fix("correct the number here (*4) or count: in the list")
        .about(thing.id.clone())
}

fn too_few(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, inside: u64, count: u64) -> Finding {
    Finding::new(rule_of(thing), moment.act.place.clone(), format!("{inside} of {} are in, and {count} are listed", numbers.name))
        .label(format!("{} missing", count - inside))
        .related(numbers.place.clone(), format!("count: {count}"))
        .fix("put the rest in before, or correct count: in the list")
        .about(thing.id.clone())
}

fn again(numbers: &Numbers, thing: &ThingRef, moment: &Moment<'_>, used: u64) -> Finding {
    let rule = if numbers.gasket { &GASKET_REUSED } else { &ONE_TIME_REUSED };
    Finding::new(rule, moment.act.place.clone(), format!("{} goes in again, and is used once only", numbers.name))
        .label("a used one")
        .related(numbers.place.clone(), "reuse: never")
        .figure(format!("{used} go in over the whole build, {} new are listed", numbers.new))
        .fix("put it in for a trial the first time (dry-fit:), or list more new ones (new:)")
        .about(thing.id.clone())
}

/// Positions of an order or layout against the count.
fn positions(lists: &Lists, findings: &mut Vec<Finding>) {
    for entry in lists.fasteners.values() {
        let Some(count) = entry.what.count.first().copied().filter(|_| !entry.what.count.varies()) else { continue };
        for case in &entry.what.layout.cases {
            let places = match &case.value {
                Layout::Circle(places) => *places,
                Layout::Rows(rows) => rows.iter().sum(),
                Layout::At(at) => u64::try_from(at.len()).unwrap_or(u64::MAX),
            };
            if places != count {
                findings.push(
                    Finding::new(&COUNT_MISMATCH, case.place.clone(), format!("the layout of {} has {places} places, and {count} are listed", entry.name))
                        .label(format!("{places} places"))
                        .fix("correct the layout or count:")
                        .about(format!("{}.layout", entry.id)),
                );
            }
        }
    }
}
