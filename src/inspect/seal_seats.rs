//! What a seal sits on and in: its size against the shaft and the bore, and against what sits beside it on the shaft.

use super::measures::short;
use super::seal_fit::{SEAL_SIZE_MISMATCH, runs_on_a_shaft};
use super::seal_sides::{is_liquid, is_medium};
use super::{Context, every};
use crate::finding::{Finding, Severity};
use crate::manual::{Entry, ListKind, Lists, Scope, Seal, Shaft, Spot, Varied};
use crate::quantity::Quantity;
use crate::trade::seal::{bore_mismatch_mm, shaft_mismatch_mm};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        // Rings of other forms are stretched on, squeezed in, or measured at another place.
        for entry in lists.seals.values().filter(|entry| runs_on_a_shaft(&entry.what)) {
            findings.extend(off_its_seat(entry, &entry.what.shaft, 0, "shaft", "inside diameter", shaft_mismatch_mm));
            findings.extend(off_its_seat(entry, &entry.what.bore, 1, "bore", "outside diameter", bore_mismatch_mm));
        }
        for row in lists.shafts.values() {
            findings.extend(unnamed_steps(scope, row));
        }
    }
}

/// A seal whose size is not that of what it sits on or in. The size of a rotary lip seal is shaft × bore × width
/// (ISO 6194-1).
fn off_its_seat(entry: &Entry<Seal>, seat: &Varied<Quantity>, at: usize, what: &str, own: &str, off: fn(f64, f64) -> Option<f64>) -> Option<Finding> {
    seat.cases.iter().find_map(|case| {
        let (size, of) = entry.what.size.cases_within(&case.when).find_map(|size| {
            let lengths = size.value.millimetres();
            lengths.get(at).copied().filter(|_| lengths.len() == 3).map(|of| (size, of))
        })?;
        let (low, high) = case.value.low_high();
        // Of a range, as h11 gives it, the end that lies nearest.
        let nearest = of.max(low.unwrap_or(of)).min(high.unwrap_or(of));
        let miss = off(of, nearest)?;
        let how = if miss > 0.0 { "larger" } else { "smaller" };
        Some(
            Finding::new(&SEAL_SIZE_MISMATCH, case.place.clone(), format!("{} does not have the size of its {what}", entry.name))
                .label(format!("{what} {}", case.value.written()))
                .related(size.place.clone(), "its size: shaft × bore × width")
                .figure(format!("the seal's {own} is {} mm, {} mm {how} than the {what}", short(of), short(miss.abs())))
                .fix(format!("measure the {what} again, and correct it or the size of the seal"))
                .about(format!("{}.{what}", entry.id)),
        )
    })
}

/// A seal or bearing as it sits in a row.
struct Seated<'a> {
    spot: &'a Spot<String>,
    name: &'a str,
    inside: f64,
    is_seal: bool,
    /// Whether its list names the diameter of the shaft under it.
    named: bool,
}

/// Neighbours on one shaft with different inside diameters, of which none names what it runs on. What lies between two rooms,
/// or behind a part, may sit on another diameter without a word.
fn unnamed_steps(scope: Scope<'_>, row: &Entry<Shaft>) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut before: Option<Seated<'_>> = None;
    for spot in &row.what.sits {
        if is_medium(scope, &spot.value) {
            before = before.filter(|_| !is_liquid(scope, &spot.value));
            continue;
        }
        let Some(seated) = seated(scope, spot) else {
            before = None;
            continue;
        };
        findings.extend(before.as_ref().and_then(|before| step(before, &seated)));
        before = Some(seated);
    }
    findings
}

fn step(one: &Seated<'_>, other: &Seated<'_>) -> Option<Finding> {
    let differ = shaft_mismatch_mm(one.inside, other.inside).is_some();
    (differ && (one.is_seal || other.is_seal) && !one.named && !other.named).then(|| {
        Finding::new(&SEAL_SIZE_MISMATCH, other.spot.place.clone(), format!("{} sits beside {}, and is of another size inside", other.name, one.name))
            .severity(Severity::Note)
            .label(format!("{} mm here", short(other.inside)))
            .related(one.spot.place.clone(), format!("{} mm here", short(one.inside)))
            .fix("measure the shaft under both; where it has a step there, say so: shaft: … at the seal")
            .about(other.spot.value.clone())
    })
}

/// A seal or bearing of the machine with one size of three lengths; none of what else sits on a shaft.
fn seated<'a>(scope: Scope<'a>, spot: &'a Spot<String>) -> Option<Seated<'a>> {
    let lists = || scope.homes().map(|(_, lists)| lists).chain(scope.machine.into_iter().flat_map(|machine| &machine.procedures).map(|procedure| &procedure.lists));
    let inside = |lengths: Vec<f64>| (lengths.len() == 3).then(|| lengths.first().copied()).flatten();
    lists().find_map(|lists: &'a Lists| {
        if let Some(seal) = lists.seals.get(&spot.value) {
            let [size] = seal.what.size.cases.as_slice() else { return None };
            let named = seal.what.shaft.is_given() || lists.is_unreadable(ListKind::Seals, &seal.id, "shaft");
            return Some(Seated { spot, name: &seal.name, inside: inside(size.value.millimetres())?, is_seal: true, named });
        }
        let bearing = lists.bearings.get(&spot.value)?;
        let [size] = bearing.what.size.cases.as_slice() else { return None };
        let named = bearing.what.fit.cases.iter().any(|fit| fit.value.shaft.is_some());
        Some(Seated { spot, name: &bearing.name, inside: inside(size.value.millimetres())?, is_seal: false, named })
    })
}
