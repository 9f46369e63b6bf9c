//! Inch read as millimetre, or the other way round: values that make no sense as written and do by 25.4.
//!
//! The bands here are wide on purpose, and common practice: a slip is a factor of 25.4, a band of a factor of ten or
//! more tells it from a bold value. One inch is 25.4 mm exactly (ISO 31-1, annex A; international yard of 1959).

use super::measures::short;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Bearing, Entry, Fastener, Measure, Seal, Shim, Varied};
use crate::quantity::{Dimension, Quantity, Size};

/// A length makes sense only in the other unit.
pub(super) static INCH_MM_SLIP: Rule = Rule {
    name: "inch-mm-slip",
    severity: Severity::Error,
    summary: "A length makes no sense as written, and does in the other unit.",
    explanation: Explanation {
        finds: "Lengths far outside what is usual for their kind which, multiplied or divided by 25.4, lie inside: end gaps of rings (usual 0.0035 to 0.0055 of the bore), backlash, float and clearance, limits against their specs, shims, seal depths, bolt lengths against the thread, the bore and shaft of a fit against the bearing's size, beads. What is usual is common practice, with room on both sides.",
        matters: "0.20 in for 0.20 mm is a ring with a gap of five millimetres.",
        may_be_wrong: "A very unusual machine: check the source's unit, then waive it with the reason.",
        example: "ring-gap: {kind: end-gap, bore: 58 mm, spec: 0.20–0.32 in}",
        instead: "ring-gap: {kind: end-gap, bore: 58 mm, spec: 0.20–0.32 mm}",
    },
};

/// What is usual: a value outside `wide` is looked at, and one that `tight` holds after the change of unit is told.
struct Usual {
    wide: (f64, f64),
    tight: (f64, f64),
    words: String,
}

/// Millimetres in an inch, exactly.
const INCH: f64 = 25.4;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        findings.extend(lists.measures.values().filter_map(measure));
        findings.extend(lists.shims.values().filter_map(shim));
        findings.extend(lists.seals.values().filter_map(seal));
        findings.extend(lists.bearings.values().filter_map(bearing));
        findings.extend(lists.fasteners.values().filter_map(fastener));
        let bead = usual((0.2, 25.0), (0.5, 10.0), "beads are 0.5 to 10 mm thick");
        findings.extend(lists.beads.values().filter_map(|entry| varied(&entry.what.diameter, &bead, &entry.name, &format!("{}.diameter", entry.id))));
    }
}

fn usual(wide: (f64, f64), tight: (f64, f64), words: impl Into<String>) -> Usual {
    Usual { wide, tight, words: words.into() }
}

/// The ends of a length that are there and not zero, in mm.
fn ends(quantity: &Quantity) -> Vec<f64> {
    let (low, high) = quantity.low_high();
    let known = low.into_iter().chain(high).filter(|end| *end > 0.0);
    if quantity.dimension() == Dimension::Length { known.collect() } else { Vec::new() }
}

fn varied(values: &Varied<Quantity>, usual: &Usual, name: &str, about: &str) -> Option<Finding> {
    values.cases.iter().find_map(|case| slip(&case.value, &case.place, usual, name, about))
}

fn slip(value: &Quantity, place: &Place, usual: &Usual, name: &str, about: &str) -> Option<Finding> {
    let ends = ends(value);
    let inside = |(low, high): (f64, f64), factor: f64| ends.iter().all(|end| (low..=high).contains(&(end * factor)));
    if ends.is_empty() || ends.iter().any(|end| (usual.wide.0..=usual.wide.1).contains(end)) {
        return None;
    }
    let (factor, meant) = if inside(usual.tight, 1.0 / INCH) {
        (1.0 / INCH, "divided")
    } else if inside(usual.tight, INCH) {
        (INCH, "multiplied")
    } else {
        return None;
    };
    let list = |factor: f64| ends.iter().map(|end| short(end * factor)).fold(Vec::new(), |mut all: Vec<String>, end| {
        if !all.contains(&end) {
            all.push(end);
        }
        all
    });
    Some(
        Finding::new(&INCH_MM_SLIP, place.clone(), format!("‘{}’ of {name} makes sense only in the other unit", value.written()))
            .label("inch or millimetre?")
            .figure(format!("as written {} mm; {meant} by 25.4, {} mm", list(1.0).join(" to "), list(factor).join(" to ")))
            .figure(format!("{} (common practice)", usual.words))
            .fix("look up which unit the source has, and write that one")
            .about(about.to_owned()),
    )
}

fn measure(entry: &Entry<Measure>) -> Option<Finding> {
    let about = format!("{}.spec", entry.id);
    let kind = entry.what.kind.first().map_or("", String::as_str);
    if let Some(bore) = entry.what.bore.first().and_then(Quantity::nominal).filter(|bore| kind == "end-gap" && *bore > 0.0) {
        let words = format!("end gaps are 0.0035 to 0.0055 of the bore, here {} to {} mm", short(bore * 0.0035), short(bore * 0.0055));
        let gap = usual((bore * 0.001, bore * 0.025), (bore * 0.0025, bore * 0.009), words);
        if let Some(finding) = varied(&entry.what.spec, &gap, &entry.name, &about) {
            return Some(finding);
        }
    } else if entry.what.at.is_given() || matches!(kind, "end-gap" | "backlash" | "end-float" | "float" | "runout" | "clearance" | "valve-gap") {
        let play = usual((0.002, 3.0), (0.01, 2.0), "gaps, floats and clearances are 0.01 to 2 mm");
        if let Some(finding) = varied(&entry.what.spec, &play, &entry.name, &about) {
            return Some(finding);
        }
    }
    limit(entry)
}

/// A limit in another unit than its spec, more than fifteen times away.
fn limit(entry: &Entry<Measure>) -> Option<Finding> {
    let (spec, limit) = (entry.what.spec.cases.first()?, entry.what.limit.cases.first()?);
    if spec.value.unit().symbol() == limit.value.unit().symbol() {
        return None;
    }
    let specs = ends(&spec.value);
    let (least, most) = (specs.iter().copied().reduce(f64::min)?, specs.iter().copied().reduce(f64::max)?);
    let near = usual((least / 15.0, most * 15.0), (least / 5.0, most * 5.0), format!("the spec is {}", spec.value.written()));
    slip(&limit.value, &limit.place, &near, &entry.name, &format!("{}.limit", entry.id)).map(|finding| finding.related(spec.place.clone(), "its spec"))
}

fn shim(entry: &Entry<Shim>) -> Option<Finding> {
    let thickness = usual((0.01, 12.0), (0.05, 6.0), "shims are 0.05 to 6 mm thick");
    let step = usual((0.002, 2.0), (0.01, 0.5), "shims step by 0.01 to 0.5 mm");
    [("from", &entry.what.from, &thickness), ("old", &entry.what.old, &thickness), ("step", &entry.what.step, &step)]
        .into_iter()
        .find_map(|(field, values, usual)| varied(values, usual, &entry.name, &format!("{}.{field}", entry.id)))
}

fn seal(entry: &Entry<Seal>) -> Option<Finding> {
    let width = entry.what.size.first().and_then(|size| size.millimetres().last().copied()).filter(|width| *width > 0.0)?;
    let words = format!("the seal is {} mm wide", short(width));
    let depth = usual((width / 200.0, width * 10.0), (width / 20.0, width * 4.0), words);
    varied(&entry.what.depth, &depth, &entry.name, &format!("{}.depth", entry.id))
}

fn bearing(entry: &Entry<Bearing>) -> Option<Finding> {
    let size: Vec<f64> = entry.what.size.first().map(Size::millimetres)?;
    entry.what.fit.cases.iter().find_map(|case| {
        let pairs = [(case.value.bore.as_ref(), size.get(1), "outside diameter"), (case.value.shaft.as_ref(), size.first(), "bore")];
        pairs.into_iter().find_map(|(written, of, what)| {
            let of = *of?;
            let same = usual((of / 5.0, of * 5.0), (of * 0.99, of * 1.01), format!("the bearing's {what} is {} mm", short(of)));
            slip(written?, &case.place, &same, &entry.name, &format!("{}.fit", entry.id))
        })
    })
}

fn fastener(entry: &Entry<Fastener>) -> Option<Finding> {
    let across = entry.what.thread.first()?.diameter_mm();
    let words = format!("the thread is {} mm across; bolts are 1 to 25 times as long", short(across));
    let long = usual((across * 0.25, across * 60.0), (across * 0.8, across * 25.0), words);
    let fields = [("length", &entry.what.length), ("hole", &entry.what.hole)];
    fields.into_iter().find_map(|(field, values)| varied(values, &long, &entry.name, &format!("{}.{field}", entry.id)))
}
