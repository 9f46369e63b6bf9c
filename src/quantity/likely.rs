//! Likely meanings of a value that cannot be read as it stands, worked out so that the author can recognise the right
//! one. Three significant digits, rounded to nearest: these are hints, never values to work by.

use super::dimension::Dimension;
use super::exact::{Exact, Rounding};
use super::number::Number;
use super::table;
use super::unit::Unit;
use super::value::{Form, joined_ends};

const SHOWN_DIGITS: i32 = 3;

/// A bare number in the usual units of the wanted kinds.
pub(super) fn for_missing(form: &Form, wanted: &[Dimension]) -> Vec<String> {
    wanted.iter().flat_map(|kind| in_units(form, usual(*kind))).collect()
}

/// A number in each of these units, worked out in the unit readers compare by.
pub(super) fn in_units(form: &Form, symbols: &[&str]) -> Vec<String> {
    symbols.iter().filter_map(|symbol| table::row(symbol)).map(|unit| equation(form, unit)).collect()
}

/// A bare measure of volume, in its US and its imperial size.
pub(super) fn for_volume(form: &Form, bare: &str) -> Vec<String> {
    in_units(form, &[&format!("{bare} (US)"), &format!("{bare} (imp)")])
}

/// `9 lbs` or `3 kg` as a torque, `12 oz` as a volume, `90°` as a temperature.
pub(super) fn for_misread(form: &Form, unit: &Unit, wanted: Dimension) -> Vec<String> {
    match (unit.symbol(), wanted) {
        ("lb", Dimension::Torque) => in_units(form, &["lbf·ft", "lbf·in"]),
        ("kg", Dimension::Torque) => in_units(form, &["kgf·m", "kgf·cm"]),
        ("oz", Dimension::Volume) => for_volume(form, "fl oz"),
        ("°", Dimension::Temperature) => in_units(form, &["°C", "°F"]),
        _ => Vec::new(),
    }
}

/// A unit of another kind that is often written for one of the wanted kind.
pub(super) fn for_another_kind(form: &Form, unit: &Unit, wanted: &[Dimension]) -> Vec<String> {
    let meant: &[&str] = match (unit.symbol(), wanted) {
        ("lbf", [Dimension::Torque, ..]) => &["lbf·ft", "lbf·in"],
        ("kgf", [Dimension::Torque, ..]) => &["kgf·m", "kgf·cm"],
        ("N", [Dimension::Torque, ..]) => &["N·m"],
        ("lb", [Dimension::Force, ..]) => &["lbf"],
        ("kg", [Dimension::Force, ..]) => &["kgf"],
        ("lb", [Dimension::Pressure, ..]) => &["psi"],
        ("kg", [Dimension::Pressure, ..]) => &["kgf/cm²"],
        ("°C", [Dimension::TemperatureRise, ..]) => &["Δ°C"],
        ("°F", [Dimension::TemperatureRise, ..]) => &["Δ°F"],
        ("K" | "Δ°C", [Dimension::Temperature, ..]) => &["°C"],
        ("Δ°F", [Dimension::Temperature, ..]) => &["°F"],
        _ => &[],
    };
    in_units(form, meant)
}

/// A tolerance in per cent, worked out in the value's own unit.
pub(super) fn for_percent(form: &Form, unit: &Unit) -> Vec<String> {
    let Form::Tolerance { nominal, off_by } = form else {
        return Vec::new();
    };
    let off = nominal.value().clone() * off_by.value().clone() * Exact::ten_to(-2);
    let place = off.magnitude().map_or(0, |magnitude| magnitude + 1 - SHOWN_DIGITS).max(nominal.place() - 2);
    let off_by = Number::worked_out(off.rounded(place, Rounding::Down), place);
    vec![Form::Tolerance { nominal: nominal.clone(), off_by }.with_unit(unit)]
}

/// A range whose ends have two units, with each unit for both.
pub(super) fn for_two_units(form: &Form, first: &'static Unit, second: &'static Unit) -> Vec<String> {
    let Form::Range { low, high } = form else {
        return Vec::new();
    };
    if first.dimension() != second.dimension() {
        return Vec::new();
    }
    let there = |number: &Number, from: &Unit, to: &Unit| digits(&to.from_base(&from.to_base(number.value())));
    vec![
        first.after(&joined_ends(&low.to_string(), &there(high, second, first))),
        second.after(&joined_ends(&there(low, first, second), &high.to_string())),
    ]
}

/// A form in another unit, each number to three digits.
pub(super) fn converted(form: &Form, from: &Unit, to: &Unit, rounding: Rounding) -> String {
    let there = |value: Exact| to.from_base(&from.to_base(&value)).significant(SHOWN_DIGITS, rounding);
    match (form, form.ends()) {
        (Form::AtLeast(_), (Some(end), _)) => format!("min {}", to.after(&there(end))),
        (Form::AtMost(_), (_, Some(end))) => format!("max {}", to.after(&there(end))),
        (Form::Single(_), (Some(end), _)) => to.after(&there(end)),
        (_, (Some(low), Some(high))) => to.after(&joined_ends(&there(low), &there(high))),
        _ => String::new(),
    }
}

/// `9 lbf·ft = 12.2 N·m`; without the second half where it would repeat the first.
fn equation(form: &Form, unit: &Unit) -> String {
    let to = compared_in(form, unit);
    let left = form.with_unit(unit);
    if to == unit { left } else { format!("{left} = {}", converted(form, unit, to, Rounding::Nearest)) }
}

/// The unit readers compare by: the base unit, but litres from one litre on, grams below one kilogram.
fn compared_in(form: &Form, unit: &Unit) -> &'static Unit {
    let base = unit.dimension().base();
    let size = match form.ends() {
        (Some(end), _) | (None, Some(end)) => unit.to_base(&end),
        (None, None) => Exact::zero(),
    };
    let other = match unit.dimension() {
        Dimension::Volume if size >= Exact::whole(1000) => table::row("L"),
        Dimension::Mass if size < Exact::whole(1) => table::row("g"),
        _ => None,
    };
    if unit == base { base } else { other.unwrap_or(base) }
}

fn digits(value: &Exact) -> String {
    value.significant(SHOWN_DIGITS, Rounding::Nearest)
}

/// The units a bare number of a kind may have been meant in.
fn usual(kind: Dimension) -> &'static [&'static str] {
    match kind {
        Dimension::Torque => &["N·m", "lbf·ft", "lbf·in", "kgf·m"],
        Dimension::Force => &["N", "lbf", "kgf"],
        Dimension::Length => &["mm", "in"],
        Dimension::Angle => &["°", "turn"],
        Dimension::Temperature => &["°C", "°F"],
        Dimension::TemperatureRise => &["K", "Δ°F"],
        Dimension::Volume => &["mL", "L", "fl oz (US)"],
        Dimension::Pressure => &["kPa", "bar", "psi"],
        Dimension::Mass => &["kg", "g", "lb"],
        Dimension::Time => &["min", "h"],
        Dimension::Rotation => &["r/min"],
        Dimension::Percent => &["%"],
        Dimension::Count | Dimension::Ratio => &[],
    }
}
