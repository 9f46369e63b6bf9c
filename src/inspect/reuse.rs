//! What is used again says on what condition; part numbers look like part numbers.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Combination, ListKind, Lists, Machine, Manual, Varied, Verb};
use std::collections::{BTreeMap, BTreeSet};

/// Something is used again without a condition.
pub(super) static REUSE_WITHOUT_CONDITION: Rule = Rule {
    name: "reuse-without-condition",
    severity: Severity::Warning,
    summary: "Something is used again, and nothing says on what condition.",
    explanation: Explanation {
        finds: "reuse: inspect without when:; when: that names a measurement which no step takes; and reuse: yes on gaskets, O-rings, sealing washers, lock washers and shaft seals.",
        matters: "‘If it looks good’ is judged by who wants to go home.",
        may_be_wrong: "Metal gaskets that a maker allows twice: write reuse: inspect and the condition.",
        example: "hub: {kind: other, reuse: inspect}",
        instead: "hub: {kind: other, reuse: inspect, when: spline-wear}   with spline-wear: {limit: max 0.10 mm, …}",
    },
};

/// A part number has lost something.
pub(super) static PART_NUMBER_SHAPE: Rule = Rule {
    name: "part-number-shape",
    severity: Severity::Warning,
    summary: "A part number looks as if a program had changed it.",
    explanation: Explanation {
        finds: "Part numbers written like a date or a power of ten, and numbers of digits alone that are shorter than every other one of the machine while those begin with a nought.",
        matters: "A number that lost its nought is another part, or none, and the counter sends it.",
        may_be_wrong: "Where a supplier really numbers his parts by date.",
        example: "gear: {number: '714'}, shaft: {number: '0711'}",
        instead: "gear: {number: '0714'}, shaft: {number: '0711'}",
    },
};

/// Kinds that are squeezed or bent once.
const SQUEEZED: [&str; 4] = ["gasket", "o-ring", "sealing-washer", "lock-washer"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let machines: Vec<Measured<'_>> = context.manual.machines.iter().map(Measured::of).collect();
    for (scope, lists) in every::lists(context.manual) {
        let measured = scope.machine.and_then(|machine| machines.iter().find(|measured| measured.machine.id == machine.id));
        conditions(measured, lists, findings);
    }
    numbers(context.manual, findings);
}

/// The measurements of a machine, and those that some step takes.
struct Measured<'m> {
    machine: &'m Machine,
    listed: BTreeMap<&'m str, (&'m str, &'m Place)>,
    taken: BTreeSet<&'m str>,
}

impl<'m> Measured<'m> {
    fn of(machine: &'m Machine) -> Self {
        let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
        // What is worked out by a formula need not be taken.
        let read = lists.flat_map(|lists| lists.measures.values()).filter(|entry| !entry.what.formula.is_given());
        let listed = read.map(|entry| (entry.id.as_str(), (entry.name.as_str(), &entry.id_place))).collect();
        let acts = machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
        let taken = acts.filter(|act| act.verb == Some(Verb::Measure)).flat_map(|act| act.things.iter().map(|thing| thing.id.as_str())).collect();
        Self { machine, listed, taken }
    }
}

/// What an entry says of its reuse.
struct Reuse<'a> {
    id: &'a str,
    name: &'a str,
    only: &'a Combination,
    reuse: &'a Varied<String>,
    when: &'a Varied<String>,
    squeezed: bool,
}

fn conditions(measured: Option<&Measured<'_>>, lists: &Lists, findings: &mut Vec<Finding>) {
    let squeezed = |kind: Option<&String>| kind.is_some_and(|kind| SQUEEZED.contains(&kind.as_str()));
    let fasteners = lists.fasteners.values().map(|e| (ListKind::Fasteners, Reuse { id: &e.id, name: &e.name, only: &e.only, reuse: &e.what.reuse, when: &e.what.when, squeezed: false }));
    let seals = lists.seals.values().map(|e| (ListKind::Seals, Reuse { id: &e.id, name: &e.name, only: &e.only, reuse: &e.what.reuse, when: &e.what.when, squeezed: true }));
    let bearings = lists.bearings.values().map(|e| (ListKind::Bearings, Reuse { id: &e.id, name: &e.name, only: &e.only, reuse: &e.what.reuse, when: &e.what.when, squeezed: false }));
    let parts = lists.parts.values().map(|e| (ListKind::Parts, Reuse { id: &e.id, name: &e.name, only: &e.only, reuse: &e.what.reuse, when: &e.what.when, squeezed: squeezed(e.what.kind.first()) }));
    for (kind, reuse) in fasteners.chain(seals).chain(bearings).chain(parts) {
        if !lists.is_unreadable(kind, reuse.id, "reuse") && !lists.is_unreadable(kind, reuse.id, "when") {
            findings.extend(unconditional(&reuse).or_else(|| never_measured(measured, &reuse)));
        }
    }
}

fn unconditional(reuse: &Reuse<'_>) -> Option<Finding> {
    reuse.reuse.cases.iter().filter(|case| case.when.agrees_with(reuse.only)).find_map(|case| {
        let conditional = reuse.when.cases_within(&case.when).next().is_some();
        let (message, fix) = match case.value.as_str() {
            "inspect" if !conditional => (
                format!("{} is used again after a look, and nothing says what to look for", reuse.name),
                "add when: with the id of a measurement that has a limit, or words: when: no step on the tooth",
            ),
            "yes" if reuse.squeezed => (
                format!("{} is used again, whatever it looks like", reuse.name),
                "write reuse: never; or, where the source allows it, reuse: inspect with when:",
            ),
            _ => return None,
        };
        Some(Finding::new(&REUSE_WITHOUT_CONDITION, case.place.clone(), message).label("on what condition?").fix(fix).about(format!("{}.reuse", reuse.id)))
    })
}

/// A condition that names a measurement nobody takes.
fn never_measured(measured: Option<&Measured<'_>>, reuse: &Reuse<'_>) -> Option<Finding> {
    let measured = measured?;
    reuse.when.cases.iter().find_map(|case| {
        let (name, place) = measured.listed.get(case.value.as_str())?;
        (!measured.taken.contains(case.value.as_str()) && !measured.machine.may_mean(&case.value)).then(|| {
            Finding::new(&REUSE_WITHOUT_CONDITION, case.place.clone(), format!("{} is used again by {name}, which no step takes", reuse.name))
                .label("never measured")
                .related((*place).clone(), "listed here")
                .fix(format!("take it before the part goes in: [Read it](measure:{})", case.value))
                .about(format!("{}.when", reuse.id))
        })
    })
}

fn numbers(manual: &Manual, findings: &mut Vec<Finding>) {
    for machine in &manual.machines {
        let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
        let all: Vec<(&str, &str, &Place)> = lists.flat_map(numbers_of).collect();
        let (lost, others) = without_nought(&all);
        for (id, number, place) in &all {
            let lost = lost == Some(*number);
            let label = if lost {
                "a nought lost?"
            } else if is_like_a_date(number) {
                "a date?"
            } else if is_like_a_power(number) {
                "a power of ten?"
            } else {
                continue;
            };
            findings.push(
                Finding::new(&PART_NUMBER_SHAPE, (*place).clone(), format!("part number ‘{number}’ of ‘{id}’ looks as if a program had changed it"))
                    .label(label)
                    .figures(lost.then(|| format!("other numbers of the machine: {}", others.join(", "))))
                    .fix("copy it from the label again, and keep it in quotes")
                    .about(format!("{id}.number")),
            );
        }
    }
}

/// The one number of digits that is shorter than every other and has no nought before it, where all others have;
/// and some of the others.
fn without_nought<'a>(all: &[(&'a str, &'a str, &'a Place)]) -> (Option<&'a str>, Vec<&'a str>) {
    let digits: BTreeSet<&str> = all.iter().map(|(_, number, _)| *number).filter(|number| is_digits(number)).collect();
    let (noughts, rest): (Vec<&str>, Vec<&str>) = digits.into_iter().partition(|number| number.starts_with('0'));
    let lost = match rest.as_slice() {
        [one] if !noughts.is_empty() && noughts.iter().all(|other| other.len() > one.len()) => Some(*one),
        _ => None,
    };
    (lost, noughts.into_iter().take(5).collect())
}

fn numbers_of(lists: &Lists) -> impl Iterator<Item = (&str, &str, &Place)> {
    let seals = lists.seals.values().map(|entry| (entry.id.as_str(), &entry.what.number));
    let bearings = lists.bearings.values().map(|entry| (entry.id.as_str(), &entry.what.number));
    let parts = lists.parts.values().map(|entry| (entry.id.as_str(), &entry.what.number));
    let kits = lists.kits.values().map(|entry| (entry.id.as_str(), &entry.what.number));
    seals.chain(bearings).chain(parts).chain(kits).flat_map(|(id, number)| number.cases.iter().map(move |case| (id, case.value.as_str(), &case.place)))
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// `2026-09-14`, `14.09.2026`, `12/10`, `1-Mar`.
fn is_like_a_date(text: &str) -> bool {
    const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let fields: Vec<&str> = text.split(['-', '/', '.']).collect();
    let number = |field: &str| field.parse::<u32>().ok().filter(|_| is_digits(field));
    match fields.as_slice() {
        [one, middle, last] => {
            let (Some(a), Some(b), Some(c)) = (number(one), number(middle), number(last)) else { return false };
            let year = |n: u32| (1950..2100).contains(&n);
            (1..=12).contains(&b) && ((year(a) && (1..=31).contains(&c)) || (year(c) && (1..=31).contains(&a)))
        }
        [one, other] => {
            let month = |field: &str| MONTHS.contains(&field.to_ascii_lowercase().as_str());
            (number(one).is_some() && month(other)) || (month(one) && number(other).is_some())
        }
        _ => false,
    }
}

/// `1E+05`, `2.5e3`.
fn is_like_a_power(text: &str) -> bool {
    let Some((digits, power)) = text.split_once(['E', 'e']) else { return false };
    let signed = power.strip_prefix(['+', '-']);
    let pointed = digits.contains('.') && digits.split('.').all(is_digits);
    is_digits(signed.unwrap_or(power)) && (signed.is_some() && is_digits(digits) || pointed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn part_numbers_are_not_taken_for_dates() {
        for number in ["2026-09-14", "14.09.2026", "1-Mar", "Mar-01"] {
            assert!(is_like_a_date(number), "{number}");
        }
        for number in ["0714", "PB-9", "63V-45-12", "6E5-45113-00", "12-10", "1234-56-78"] {
            assert!(!is_like_a_date(number), "{number}");
        }
        assert!(is_like_a_power("1E+05") && is_like_a_power("2.5e3"));
        assert!(!is_like_a_power("6E5") && !is_like_a_power("6E5-45") && !is_like_a_power("E5"));
    }
}
