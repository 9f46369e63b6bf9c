//! Tightening in stages: torques that rise, angles that start from a torque and end where they should.

use super::measures::short;
use super::{Context, every};
use crate::finding::{Explanation, FileTable, Finding, Place, Rule, Severity};
use crate::manual::{Case, Entry, Fastener, ListKind, Lists, Scope, Torque};
use crate::quantity::{Dimension, Quantity};

/// A stage is below the one before.
pub(super) static STAGES_NOT_RISING: Rule = Rule {
    name: "stages-not-rising",
    severity: Severity::Error,
    summary: "A tightening stage is below the one before it.",
    explanation: Explanation {
        finds: "Lists of torques in which one is lower than the torque before it, and, as a warning, a torque behind an angle. Two equal ones are a second pass, and may stand.",
        matters: "The wrench clicks at once and nothing moves: what was meant as the last stage is never done.",
        may_be_wrong: "Where the source has the joint slackened in between: slacken it in the steps (loosen:), and list the second series as another fastener entry. A torque behind an angle is a check in a few sources: give it as a measure of its own.",
        example: "case-bolt: {torque: [10 N·m, 25 N·m, 18 N·m]}",
        instead: "case-bolt: {torque: [10 N·m, 18 N·m, 25 N·m]}",
    },
};

/// Tightening by angle lacks something.
pub(super) static ANGLE_INCOMPLETE: Rule = Rule {
    name: "angle-incomplete",
    severity: Severity::Error,
    summary: "Tightening by angle lacks its torque, its sum, its gauge or a word on reuse.",
    explanation: Explanation {
        finds: "Angle stages with no torque stage before them; an angle_total: that is not the sum of the angle stages; angle stages of a fastener without reuse:; angle stages where the shop has no tool of kind angle-gauge; and role: angle without an angle stage.",
        matters: "An angle counts from where the joint is drawn together. From anywhere else it gives any preload at all; and a bolt turned past its yield once may not stand it twice.",
        may_be_wrong: "Where bolts are turned by marks on their heads: list the marks as a tool of kind angle-gauge.",
        example: "head-bolt: {torque: [20 N·m, 90°, 90°], angle_total: 90°}",
        instead: "head-bolt: {torque: [20 N·m, 90°, 90°], angle_total: 180°, reuse: never}   and an angle gauge under tools:",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let files = &context.sources.files;
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.fasteners.values() {
            let unreadable = |field| lists.is_unreadable(ListKind::Fasteners, &entry.id, field);
            if !unreadable("torque") {
                findings.extend(entry.what.torque.cases.iter().find_map(|case| falling(files, entry, case).or_else(|| behind_an_angle(files, entry, case))));
                findings.extend(angle_fault(scope, lists, entry));
            }
        }
    }
}

/// The value aimed at, or the middle of a range.
fn aimed_at(stage: &Quantity) -> Option<f64> {
    let (low, high) = stage.low_high();
    stage.nominal().or_else(|| low.zip(high).map(|(low, high)| f64::midpoint(low, high))).or(low).or(high)
}

/// Where a stage stands within the list of them; the whole value, where it is no list in brackets.
pub(super) fn stage_place(files: &FileTable, case: &Case<Torque>, stage: &Quantity) -> Place {
    let place = &case.place;
    let text = files.text(place.file).get(place.start..place.end).unwrap_or("");
    let at = case.value.stages().iter().position(|other| std::ptr::eq(other, stage));
    let span = at.and_then(|at| {
        let inner = text.strip_prefix('[')?.strip_suffix(']')?;
        let mut from = 1;
        let spans: Vec<_> = inner
            .split(',')
            .map(|part| {
                let start = from + part.len() - part.trim_start().len();
                from += part.len() + 1;
                start..start + part.trim().len()
            })
            .collect();
        // Anything else than a stage between each two commas, and they can't be told apart here.
        spans.get(at).filter(|_| spans.len() == case.value.stages().len()).cloned()
    });
    span.map_or_else(|| place.clone(), |span| place.part(span))
}

fn falling(files: &FileTable, entry: &Entry<Fastener>, case: &Case<Torque>) -> Option<Finding> {
    let torques: Vec<(usize, &Quantity)> = case.value.stages().iter().enumerate().filter(|(_, stage)| stage.dimension() == Dimension::Torque).collect();
    torques.windows(2).find_map(|pair| {
        let [(_, before), (at, stage)] = pair else { return None };
        let (high, low) = (aimed_at(before)?, aimed_at(stage)?);
        (low < high).then(|| {
            Finding::new(&STAGES_NOT_RISING, stage_place(files, case, stage), format!("stage {} of {} is below the stage before it", at + 1, entry.name))
                .label("does not rise")
                .figure(format!("{} after {}: the wrench clicks at once, and nothing moves", stage.written(), before.written()))
                .fix("put the stages in rising order; the last one is the final torque")
                .about(format!("{}.torque", entry.id))
        })
    })
}

/// A torque behind an angle: nobody knows what torque the angle has led to.
fn behind_an_angle(files: &FileTable, entry: &Entry<Fastener>, case: &Case<Torque>) -> Option<Finding> {
    let stages = case.value.stages();
    let at = stages.windows(2).position(|pair| matches!(pair, [before, stage] if before.dimension() == Dimension::Angle && stage.dimension() == Dimension::Torque))?;
    let (angle, torque) = (stages.get(at)?, stages.get(at + 1)?);
    Some(
        Finding::new(&STAGES_NOT_RISING, stage_place(files, case, torque), format!("stage {} of {} is a torque behind an angle", at + 2, entry.name))
            .severity(Severity::Warning)
            .label("torque after the angle")
            .figure(format!("{} behind {}: the angle has led past an unknown torque; the wrench clicks at once, or turns on", torque.written(), angle.written()))
            .fix("look up the order in the source: torques first, then angles")
            .about(format!("{}.torque", entry.id)),
    )
}

fn angle_fault(scope: Scope<'_>, lists: &Lists, entry: &Entry<Fastener>) -> Option<Finding> {
    let about = format!("{}.torque", entry.id);
    let angles = |case: &&Case<Torque>| case.value.stages().iter().any(|stage| stage.dimension() == Dimension::Angle);
    let Some(case) = entry.what.torque.cases.iter().find(angles) else {
        let role = entry.what.role.cases.iter().find(|case| case.value == "angle")?;
        return entry.what.torque.is_given().then(|| {
            fault(role.place.clone(), format!("{} is tightened by angle, and no stage is an angle", entry.name), "where is the angle?")
                .fix("add the angle as a stage, [20 N·m, 90°], or give it another role")
                .about(about)
        });
    };
    let stages = case.value.stages();
    if stages.first().is_some_and(|stage| stage.dimension() == Dimension::Angle) {
        return Some(
            fault(case.place.clone(), format!("the angle of {} starts from no torque", entry.name), "from where?")
                .fix("put the torque that draws the joint together first: [20 N·m, 90°]")
                .about(about),
        );
    }
    let unreadable = |field| lists.is_unreadable(ListKind::Fasteners, &entry.id, field);
    if let Some(finding) = wrong_total(entry, case) {
        return Some(finding);
    }
    if !entry.what.reuse.is_given() && !unreadable("reuse") {
        return Some(
            fault(entry.id_place.clone(), format!("{} is tightened by angle, and nothing says whether it may be used again", entry.name), "no reuse")
                .related(case.place.clone(), "turned by an angle")
                .fix("write reuse: never, or reuse: inspect with its condition when:, as the source has it")
                .about(format!("{}.reuse", entry.id)),
        );
    }
    let gauge = scope.homes().flat_map(|(_, lists)| lists.tools.values()).any(|tool| tool.what.kind.as_deref() == Some("angle-gauge"));
    (!gauge && !scope.may_be_lost(&[ListKind::Tools])).then(|| {
        fault(case.place.clone(), format!("{} is tightened by angle, and the shop has no angle gauge", entry.name), "measured with what?")
            .fix("list one under tools: {name: Angle gauge, kind: angle-gauge}")
            .about(about)
    })
}

fn wrong_total(entry: &Entry<Fastener>, case: &Case<Torque>) -> Option<Finding> {
    let total = entry.what.angle_total.cases.iter().find(|total| total.when.agrees_with(&case.when))?;
    let angles: Vec<&Quantity> = case.value.stages().iter().filter(|stage| stage.dimension() == Dimension::Angle).collect();
    let sum: f64 = angles.iter().map(|angle| aimed_at(angle)).sum::<Option<f64>>()?;
    let stated = aimed_at(&total.value)?;
    let terms: Vec<&str> = angles.iter().map(|angle| angle.written()).collect();
    ((sum - stated).abs() > 1e-6).then(|| {
        fault(total.place.clone(), format!("the angle stages of {} don't add up to its total", entry.name), "another sum")
            .related(case.place.clone(), "the stages")
            .figure(format!("{} = {}°, not {}", terms.join(" + "), short(sum), total.value.written()))
            .fix("look up which of them the source gives; correct a stage or the total")
            .about(format!("{}.angle_total", entry.id))
    })
}

fn fault(place: Place, message: String, label: &str) -> Finding {
    Finding::new(&ANGLE_INCOMPLETE, place, message).label(label)
}
