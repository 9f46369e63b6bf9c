//! Pressures: against what they are read, and values that make sense only in another unit.

use super::measures::short;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, Expect, Lists, Measure, Test};
use crate::quantity::{Dimension, Quantity, Unit};

/// A vacuum does not say against what it is read.
pub(super) static GAUGE_OR_ABSOLUTE: Rule = Rule {
    name: "gauge-or-absolute",
    severity: Severity::Note,
    summary: "A vacuum does not say whether it counts from the air outside or from nothing.",
    explanation: Explanation {
        finds: "Pressures of measurements and tests whose names, note or kind speak of vacuum or suction, and that say neither gauge, absolute, ambient nor below the air outside. Pressures above the air are taken as gauge, as every shop gauge shows them.",
        matters: "50 kPa below the air outside and 50 kPa absolute happen to be one; 20 kPa and 80 kPa change places.",
        may_be_wrong: "Where the gauge that is named has one scale only: say which in note:.",
        example: "case-vacuum: {name: Vacuum test, kind: leak, expect: {vacuum: 20 kPa, hold: 5 min}}",
        instead: "case-vacuum: {name: Vacuum test, kind: leak, expect: {below-ambient: 20 kPa, hold: 5 min}}",
    },
};

/// A pressure makes sense only in another unit.
pub(super) static PRESSURE_SLIP: Rule = Rule {
    name: "pressure-slip",
    severity: Severity::Warning,
    summary: "A pressure makes no sense as written, and does in another unit.",
    explanation: Explanation {
        finds: "Pressures far outside what is usual which, with the same number in psi, bar, kPa or another unit, lie inside: air tests of gearcases, crankcases and seals (usual 0.1 to 1.5 bar), compressions (6 to 30 bar), oil pressures (0.5 to 7 bar). What is usual is common practice, with room on both sides; hydraulics, brakes and fuel are not looked at.",
        matters: "7 bar for 7 psi blows the seals out of a gearcase, and sometimes a plug at a person.",
        may_be_wrong: "A very unusual machine: check the source's unit, then waive it with the reason.",
        example: "case-test: {name: Air test of the gearcase, kind: leak, expect: {pressure: 7 bar}}",
        instead: "case-test: {name: Air test of the gearcase, kind: leak, expect: {pressure: 7 psi}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        for read in readings(lists) {
            findings.extend(basis(&read));
            findings.extend(slip(&read));
        }
    }
}

/// A pressure that is read or tried, with all that is said of it.
struct Reading<'a> {
    id: &'a str,
    name: &'a str,
    field: &'static str,
    /// What this one pressure is called, beside its entry.
    called: &'a str,
    said: String,
    quantity: &'a Quantity,
    place: &'a Place,
}

fn readings(lists: &Lists) -> Vec<Reading<'_>> {
    let measures = lists.measures.values().flat_map(|entry| measured(entry, "spec").chain(measured(entry, "limit")));
    measures.chain(lists.tests.values().flat_map(expected)).filter(|read| read.quantity.dimension() == Dimension::Pressure).collect()
}

fn measured<'a>(entry: &'a Entry<Measure>, field: &'static str) -> impl Iterator<Item = Reading<'a>> {
    let values = if field == "spec" { &entry.what.spec } else { &entry.what.limit };
    let texts = [&entry.what.kind, &entry.what.when].into_iter().flat_map(|varied| varied.cases.iter().map(|case| case.value.as_str()));
    let said = open(&[entry.id.as_str(), entry.name.as_str()].into_iter().chain(texts).chain(entry.note.as_deref()).collect::<Vec<_>>());
    values.cases.iter().map(move |case| Reading { id: &entry.id, name: &entry.name, field, called: "", said: said.clone(), quantity: &case.value, place: &case.place })
}

fn expected(entry: &Entry<Test>) -> impl Iterator<Item = Reading<'_>> {
    let own = [entry.id.as_str(), entry.name.as_str()].into_iter().chain(entry.note.as_deref());
    let own: Vec<&str> = own.collect();
    entry.what.expect.cases.iter().flat_map(move |case| {
        let named: &[(String, Quantity)] = if let Expect::Quantities(named) = &case.value { named } else { &[] };
        let own = own.clone();
        named.iter().map(move |(name, quantity)| {
            let said = open(&own.iter().copied().chain([name.as_str()]).collect::<Vec<_>>());
            Reading { id: &entry.id, name: &entry.name, field: "expect", called: name, said, quantity, place: &case.place }
        })
    })
}

/// Texts side by side, hyphens and underlines opened.
fn open(texts: &[&str]) -> String {
    texts.join(" ; ").replace(['-', '_'], " ")
}

fn basis(read: &Reading<'_>) -> Option<Finding> {
    let words = Words::of(&read.said);
    let vacuum = words.first(&["vacuum", "suction", "under pressure", "underpressure", "depression"]).is_some();
    let based = ["gauge", "gauged", "absolute", "ambient", "atmosphere", "atmospheric", "below the air", "below outside", "below the outside", "below air"];
    if !vacuum || words.first(&based).is_some() || is_change(read) {
        return None;
    }
    // Pressures are reckoned in kPa.
    let (low, high) = read.quantity.low_high();
    let left: Vec<f64> = [high, low].into_iter().flatten().map(|end| STANDARD_AIR_KPA - end).filter(|left| *left > 0.0).collect();
    let other = (!left.is_empty()).then(|| format!("counted down from the air outside, {} leaves {} kPa absolute", read.quantity.written(), ends(&left)));
    Some(
        Finding::new(&GAUGE_OR_ABSOLUTE, read.place.clone(), format!("‘{}’ of {} does not say from where it counts", read.quantity.written(), read.name))
            .label("below the air outside, or absolute?")
            .figures(other)
            .fix("say it in the name or in note: below ambient, or absolute")
            .about(format!("{}.{}", read.id, read.field)),
    )
}

/// The standard atmosphere, kPa (ISO 2533).
const STANDARD_AIR_KPA: f64 = 101.325;

/// How much a pressure may change is no pressure.
fn is_change(read: &Reading<'_>) -> bool {
    let called = open(&[read.called]);
    Words::of(&called).first(&["drop", "loss", "fall", "rise", "leak", "drift", "change", "difference"]).is_some()
}

/// What is usual, bar: a value outside `wide` is looked at, and one that `tight` holds in another unit is told.
struct Band {
    words: &'static [&'static str],
    not: &'static [&'static str],
    wide: (f64, f64),
    tight: (f64, f64),
    usual: &'static str,
}

/// Pressures of these are far from all bands, or in bands of their own.
const OTHERS: &[&str] = &["hydraulic", "hydraulics", "brake", "fuel", "injector", "injection", "tyre", "tire", "nitrogen", "accumulator", "hose", "burst", "boiler", "steam", "refrigerant"];

/// Common practice, all three.
const BANDS: [Band; 3] = [
    Band { words: &["compression"], not: OTHERS, wide: (3.0, 45.0), tight: (6.0, 30.0), usual: "compressions are 6 to 30 bar" },
    Band { words: &["oil pressure"], not: OTHERS, wide: (0.2, 12.0), tight: (0.5, 7.0), usual: "oil pressures are 0.5 to 7 bar" },
    Band {
        words: &["gearcase", "gearbox", "crankcase", "gear case", "crank case", "air test", "seal", "seals"],
        not: OTHERS,
        wide: (0.03, 2.5),
        tight: (0.1, 1.5),
        usual: "air tests of cases and seals are 0.1 to 1.5 bar",
    },
];

/// Units that stand side by side on gauges and in tables.
const COLUMNS: [&str; 4] = ["psi", "bar", "kPa", "kgf/cm²"];

fn slip(read: &Reading<'_>) -> Option<Finding> {
    let words = Words::of(&read.said);
    let vacuum = words.first(&["vacuum", "suction", "absolute"]).is_some();
    let band = BANDS.iter().find(|band| words.first(band.words).is_some()).filter(|band| words.first(band.not).is_none() && !vacuum && !is_change(read))?;
    let bar = Unit::find("bar")?.size();
    let (low, high) = read.quantity.form().ends();
    let numbers: Vec<f64> = low.into_iter().chain(high).map(|end| end.to_f64()).filter(|end| *end > 0.0).collect();
    let in_bar = |unit: &Unit| -> Vec<f64> { numbers.iter().map(|number| number * unit.size() / bar).collect() };
    let within = |ends: &[f64], (low, high): (f64, f64)| ends.iter().all(|end| (low..=high).contains(end));
    let written = in_bar(read.quantity.unit());
    if written.is_empty() || written.iter().any(|end| (band.wide.0..=band.wide.1).contains(end)) {
        return None;
    }
    let others = COLUMNS.into_iter().filter_map(Unit::find).filter(|unit| unit.symbol() != read.quantity.unit().symbol());
    let fits: Vec<String> = others.filter(|unit| within(&in_bar(unit), band.tight)).map(|unit| format!("in {} is {} bar", unit.symbol(), ends(&in_bar(unit)))).collect();
    (!fits.is_empty()).then(|| {
        Finding::new(&PRESSURE_SLIP, read.place.clone(), format!("‘{}’ of {} makes sense only in another unit", read.quantity.written(), read.name))
            .label("which unit?")
            .figure(format!("as written {} bar; the same number {}", ends(&written), fits.join(", ")))
            .figure(format!("{} (common practice)", band.usual))
            .fix("look up which unit the source has, and write that one")
            .about(format!("{}.{}", read.id, read.field))
    })
}

fn ends(values: &[f64]) -> String {
    let mut all: Vec<String> = values.iter().map(|value| short(*value)).collect();
    all.dedup();
    all.join("–")
}
