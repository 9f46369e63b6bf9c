//! Values that follow from other values: clearances from their two parts, a stack from its plates, an arc and its angle.

use super::formula::{Formula, Span};
use super::measures::short;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Align, Case, Combination, Entry, ListKind, Lists, Measure, Part, Scope, Stack, Varied};
use crate::quantity::{Dimension, Exact, Form, Quantity};
use std::borrow::Cow;
use std::collections::BTreeSet;

/// A clearance does not follow from its parts.
pub(super) static CLEARANCE_CHAIN: Rule = Rule {
    name: "clearance-chain",
    severity: Severity::Error,
    summary: "A spec does not follow from the specs it is worked out from.",
    explanation: Explanation {
        finds: "Measurements with a formula (is: bore - piston) whose spec: differs from what the specs of bore and piston give: least from least bore and thickest piston, most from widest bore and thinnest piston. Half of the last digit is left for rounding.",
        matters: "Of bore, piston and clearance one is wrong, and two of the three are measured by nobody.",
        may_be_wrong: "Where parts are graded and paired, so that the clearance is narrower than the two specs give: write the grades as variants, or as measurements of their own.",
        example: "bore: {spec: 58.000–58.015 mm}, piston: {spec: 57.955–57.970 mm}\nclearance: {is: bore - piston, spec: 0.020–0.050 mm}",
        instead: "clearance: {is: bore - piston, spec: 0.030–0.060 mm}",
    },
};

/// A formula can't be worked out.
pub(super) static FORMULA_UNREADABLE: Rule = Rule {
    name: "formula-unreadable",
    severity: Severity::Error,
    summary: "A formula can't be worked out.",
    explanation: Explanation {
        finds: "is: with other signs than + - × ÷ ( ), with ids that are no measurement (in a shim: none of reading, old, target either), with a bare number added to a length, or that leads back to itself.",
        matters: "A length without its unit in the middle of a formula is the slip of inch and millimetre that nobody finds.",
        may_be_wrong: "Never: give the number as a measurement or target of its own, with its unit.",
        example: "shim: {is: reading - 0.64}",
        instead: "shim: {is: reading - target, target: 0.64 mm}",
    },
};

/// A stack's height does not follow from its plates.
pub(super) static STACK_HEIGHT: Rule = Rule {
    name: "stack-height",
    severity: Severity::Error,
    summary: "The height of a stack does not follow from its plates.",
    explanation: Explanation {
        finds: "Measurements of: a stack whose spec: does not meet the sum of count: × thickness: of the stack's parts. Half of the last digit is left for rounding.",
        matters: "One plate too many or too few changes the travel of the brake; the height is how one finds out.",
        may_be_wrong: "Where something else lies in the stack: list it under of:.",
        example: "7 plates of 3.00 mm, 6 of 2.00 mm, and pack-height: {of: brake-pack, spec: 32.0 mm}",
        instead: "pack-height: {of: brake-pack, spec: 33.0 mm}",
    },
};

/// An arc and an angle disagree.
pub(super) static ARC_TO_DEGREES: Rule = Rule {
    name: "arc-to-degrees",
    severity: Severity::Error,
    summary: "An offset is given as an angle and as an arc, and they disagree.",
    explanation: Explanation {
        finds: "Alignments with offset:, arc: and diameter: of which the arc is not the offset on that diameter: θ = 360° × arc ÷ (π × diameter). Half of the last digit of each is left for rounding, and one per cent. An arc without its diameter is found too.",
        matters: "Two marks two millimetres apart are two degrees on one flywheel and four on another.",
        may_be_wrong: "Never: one of the three is wrong, or the diameter is another than the one the arc lies on.",
        example: "timing: {offset: 3.5°, arc: 2 mm, diameter: 98 mm}",
        instead: "timing: {offset: 2.34°, arc: 2 mm, diameter: 98 mm}",
    },
};

/// The most combinations of cases one formula is worked out for.
const MOST_CASES: usize = 64;
/// Ids that only a shim's formula knows.
const OF_A_SHIM: [&str; 3] = ["reading", "old", "target"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.measures.values() {
            formulas(scope, &entry.id, &entry.what.formula, &[], findings);
            clearance(scope, entry, findings);
            findings.extend(stack_height(scope, entry));
        }
        for entry in lists.shims.values() {
            formulas(scope, &entry.id, &entry.what.formula, &OF_A_SHIM, findings);
        }
        findings.extend(lists.aligns.values().filter_map(arc));
    }
}

fn formulas(scope: Scope<'_>, id: &str, written: &Varied<String>, own: &[&str], findings: &mut Vec<Finding>) {
    for case in &written.cases {
        let fault = match Formula::parse(&case.value) {
            Err(fault) => Some(fault),
            Ok(formula) => {
                let known = |id: &str| own.contains(&id) || measure(scope, id).is_some() || scope.may_be_lost(&[ListKind::Measures]);
                let stranger = formula.ids().into_iter().find(|id| !known(id));
                match stranger {
                    Some(stranger) => Some(format!("‘{stranger}’ is no measurement")),
                    None if formula.degree() != Some(1) => Some("a bare number is added to a length, or the result is no length".to_owned()),
                    None => leads_to(scope, &formula, id).then(|| format!("it leads back to ‘{id}’")),
                }
            }
        };
        findings.extend(fault.map(|fault| {
            Finding::new(&FORMULA_UNREADABLE, case.place.clone(), format!("the formula of ‘{id}’ can't be worked out: {fault}"))
                .label("no formula")
                .fix("write ids and signs with spaces between: bore - piston; a length gets an entry of its own, with its unit")
                .about(format!("{id}.is"))
        }));
    }
}

/// A measurement anywhere in the machine at hand, or in the shop.
fn measure<'a>(scope: Scope<'a>, id: &str) -> Option<&'a Entry<Measure>> {
    scope.entry(|lists| &lists.measures, id)
}

/// Whether a formula names an id, itself or through other formulas.
fn leads_to(scope: Scope<'_>, formula: &Formula, id: &str) -> bool {
    let mut seen: BTreeSet<String> = BTreeSet::new();
    let mut open: Vec<String> = formula.ids().into_iter().map(str::to_owned).collect();
    while let Some(next) = open.pop() {
        if next == id {
            return true;
        }
        if !seen.insert(next.clone()) {
            continue;
        }
        let inner = measure(scope, &next).into_iter().flat_map(|entry| &entry.what.formula.cases);
        open.extend(inner.filter_map(|case| Formula::parse(&case.value).ok()).flat_map(|inner| inner.ids().into_iter().map(str::to_owned).collect::<Vec<_>>()));
    }
    false
}

fn clearance(scope: Scope<'_>, entry: &Entry<Measure>, findings: &mut Vec<Finding>) {
    for written in &entry.what.formula.cases {
        let Ok(formula) = Formula::parse(&written.value) else { continue };
        if formula.degree() != Some(1) || leads_to(scope, &formula, &entry.id) {
            continue;
        }
        let ids: BTreeSet<&str> = formula.ids().into_iter().collect();
        for spec in entry.what.spec.cases.iter().filter(|spec| spec.when.agrees_with(&written.when)) {
            let Some(when) = spec.when.and(&written.when) else { continue };
            let found = conditions(scope, &ids, &when).iter().find_map(|when| disagreement(scope, entry, &formula, spec, when));
            if let Some(finding) = found {
                findings.push(finding);
                return;
            }
        }
    }
}

/// Every condition under which each value has one spec.
fn conditions(scope: Scope<'_>, ids: &BTreeSet<&str>, start: &Combination) -> Vec<Combination> {
    let mut all = vec![start.clone()];
    for id in ids {
        let cases = measure(scope, id).map(|entry| entry.what.spec.cases.as_slice()).unwrap_or_default();
        let longer: Vec<Combination> = all.iter().flat_map(|when| cases.iter().filter_map(|case| when.and(&case.when))).map(Cow::into_owned).collect();
        all = longer.into_iter().take(MOST_CASES).collect();
    }
    all
}

fn disagreement(scope: Scope<'_>, entry: &Entry<Measure>, formula: &Formula, spec: &Case<Quantity>, when: &Combination) -> Option<Finding> {
    let used = |id: &str| {
        let cases = &measure(scope, id)?.what.spec;
        cases.case(when).filter(|case| case.value.dimension() == Dimension::Length)
    };
    let value = |id: &str| -> Option<Span> {
        let (low, high) = used(id)?.value.exact_low_high();
        Some((low?, high?))
    };
    let (low, high) = formula.span(&value)?;
    let (stated_low, stated_high) = spec.value.exact_low_high();
    let slack = half_digit(&spec.value);
    let off = |stated: &Option<Exact>, worked: &Exact| stated.as_ref().is_some_and(|stated| (stated.clone() - worked.clone()).abs() > slack);
    if spec.value.dimension() != Dimension::Length || !(off(&stated_low, &low) || off(&stated_high, &high)) {
        return None;
    }
    let ids: BTreeSet<&str> = formula.ids().into_iter().collect();
    let parts: Vec<String> = ids.iter().filter_map(|id| used(id).map(|case| format!("{id} {}", case.value.written()))).collect();
    let figure = format!("{} with {} gives {}–{} mm", entry.what.formula.get(when).map_or("the formula", String::as_str), parts.join(" and "), short(low.to_f64()), short(high.to_f64()));
    let finding = Finding::new(&CLEARANCE_CHAIN, spec.place.clone(), format!("the spec of {} does not follow from its parts", entry.name))
        .label("another than worked out")
        .figure(figure)
        .fix("look all of them up again in one source; one of them is wrong")
        .about(format!("{}.spec", entry.id));
    Some(ids.iter().filter_map(|id| used(id).map(|case| (case.place.clone(), (*id).to_owned()))).fold(finding, |finding, (place, id)| finding.related(place, id)))
}

/// Half of the last digit that the author wrote, in the base unit.
pub(super) fn half_digit(quantity: &Quantity) -> Exact {
    let numbers = match quantity.form() {
        Form::Single(number) | Form::AtLeast(number) | Form::AtMost(number) => vec![number],
        Form::Range { low, high } => vec![low, high],
        Form::Tolerance { nominal, off_by } => vec![nominal, off_by],
    };
    let largest = numbers.into_iter().map(|number| number.half_digit()).max().unwrap_or_else(Exact::zero);
    largest * quantity.unit().exact_size()
}

fn stack_height(scope: Scope<'_>, entry: &Entry<Measure>) -> Option<Finding> {
    let stack = scope.entry(|lists| &lists.stacks, entry.what.of.first()?)?;
    entry.what.spec.cases.iter().find_map(|spec| height(scope, entry, stack, spec))
}

fn height(scope: Scope<'_>, entry: &Entry<Measure>, stack: &Entry<Stack>, spec: &Case<Quantity>) -> Option<Finding> {
    let mut sum = (Exact::zero(), Exact::zero());
    let mut terms: Vec<String> = Vec::new();
    let mut places: Vec<(Place, String)> = Vec::new();
    let parts: Option<Vec<&Entry<Part>>> = stack.what.of.iter().map(|of| scope.entry(|lists| &lists.parts, &of.value)).collect();
    for part in parts?.into_iter().filter(|part| spec.when.agrees_with(&part.only)) {
        let thickness = holding(&part.what.thickness, &spec.when)?;
        let count = holding(&part.what.count, &spec.when).map_or(1, |case| case.value);
        let (low, high) = thickness.value.exact_low_high();
        let times = Exact::whole(i64::try_from(count).ok()?);
        sum = (sum.0 + times.clone() * low?, sum.1 + times * high?);
        terms.push(format!("{count} × {}", thickness.value.written()));
        places.push((thickness.place.clone(), part.name.clone()));
    }
    let (low, high) = spec.value.exact_low_high();
    let slack = half_digit(&spec.value);
    let below = high.is_some_and(|high| high + slack.clone() < sum.0);
    let above = low.is_some_and(|low| low > sum.1.clone() + slack);
    if terms.is_empty() || spec.value.dimension() != Dimension::Length || !(below || above) {
        return None;
    }
    let worked = if sum.0 == sum.1 { short(sum.0.to_f64()) } else { format!("{}–{}", short(sum.0.to_f64()), short(sum.1.to_f64())) };
    let finding = Finding::new(&STACK_HEIGHT, spec.place.clone(), format!("{} is not the sum of its plates", entry.name))
        .label("another than worked out")
        .figure(format!("{} = {worked} mm", terms.join(" + ")))
        .fix("count the plates and measure one of each; then correct the count, the thickness or the spec")
        .about(format!("{}.spec", entry.id));
    Some(places.into_iter().fold(finding, |finding, (place, name)| finding.related(place, name)))
}

/// The one case that holds under a condition; none where several may.
fn holding<'a, T: PartialEq>(value: &'a Varied<T>, when: &'a Combination) -> Option<&'a Case<T>> {
    let mut cases = value.cases_within(when);
    let first = cases.next()?;
    cases.all(|other| other.value == first.value).then_some(first)
}

fn arc(entry: &Entry<Align>) -> Option<Finding> {
    let arc = entry.what.arc.cases.first()?;
    let Some(diameter) = entry.what.diameter.cases.iter().find(|case| case.when.agrees_with(&arc.when)) else {
        return (!entry.what.diameter.is_given()).then(|| {
            Finding::new(&ARC_TO_DEGREES, arc.place.clone(), format!("the arc of {} has no diameter", entry.name))
                .label("on which diameter?")
                .fix("add diameter: the one the arc is measured on")
                .about(format!("{}.arc", entry.id))
        });
    };
    let offset = entry.what.offset.cases.iter().find(|case| case.when.agrees_with(&arc.when) && case.when.agrees_with(&diameter.when))?;
    let degrees = |arc: f64, diameter: f64| 360.0 * arc / (std::f64::consts::PI * diameter);
    let (length, across, stated) = (arc.value.nominal()?, diameter.value.nominal()?, offset.value.nominal()?);
    if across <= 0.0 {
        return None;
    }
    let worked = degrees(length, across);
    let slack = half_digit(&offset.value).to_f64() + degrees(half_digit(&arc.value).to_f64().min(length.abs() * 0.05), across) + worked.abs() * 0.01;
    ((worked - stated).abs() > slack).then(|| {
        Finding::new(&ARC_TO_DEGREES, offset.place.clone(), format!("offset and arc of {} disagree", entry.name))
            .label("another angle")
            .related(arc.place.clone(), "the arc")
            .related(diameter.place.clone(), "its diameter")
            .figure(format!("{} on a diameter of {} is {}°, not {}", arc.value.written(), diameter.value.written(), short(worked), offset.value.written()))
            .fix("look up which of the three the source gives, and work the others out from it")
            .about(format!("{}.offset", entry.id))
    })
}

/// Plates that can't take turns.
pub(super) static PLATES_OUT_OF_TURN: Rule = Rule {
    name: "plates-out-of-turn",
    severity: Severity::Error,
    summary: "The plates of a stack can't take turns in the numbers listed.",
    explanation: Explanation {
        finds: "Stacks of two kinds of plate whose counts don't fit begin: and end:. Beginning and ending with the same kind takes one more of it; beginning with one and ending with the other takes equal numbers.",
        matters: "Two plates of a kind end up side by side, and the brake drags or slips.",
        may_be_wrong: "Where a stack really has two of a kind together: list the pair as one part with its own thickness.",
        example: "brake-pack: {of: [friction-plate, steel-plate], begin: friction-plate, end: friction-plate}   with 7 and 7",
        instead: "7 friction plates and 6 steel plates",
    },
};

/// Stacks whose plates must take turns.
pub(super) fn check_turns(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        findings.extend(lists.stacks.values().filter_map(|stack| out_of_turn(scope, lists, stack)));
    }
}

fn out_of_turn(scope: Scope<'_>, lists: &Lists, stack: &Entry<Stack>) -> Option<Finding> {
    let [one, other] = stack.what.of.as_slice() else { return None };
    let count = |id: &str| {
        let part = scope.entry(|lists| &lists.parts, id)?;
        (!part.what.count.varies()).then(|| part.what.count.first().copied().unwrap_or(1))
    };
    let (begin, end) = (stack.what.begin.first()?, stack.what.end.first()?);
    if stack.what.begin.varies() || stack.what.end.varies() || lists.is_unreadable(ListKind::Stacks, &stack.id, "of") {
        return None;
    }
    let (one, other) = if *begin == other.value { (other, one) } else { (one, other) };
    let (first, second) = (count(&one.value)?, count(&other.value)?);
    let (fits, rule) = if begin == end { (second.checked_add(1) == Some(first), "one more of them than of the others") } else { (first == second, "as many of one as of the other") };
    (!fits && *begin == one.value).then(|| {
        Finding::new(&PLATES_OUT_OF_TURN, stack.id_place.clone(), format!("the plates of {} can't take turns", stack.name))
            .label(format!("{first} × {}, {second} × {}", one.value, other.value))
            .figure(format!("beginning with {begin} and ending with {end} takes {rule}"))
            .fix("correct the counts, begin: or end:")
            .about(stack.id.clone())
    })
}
