//! Which unit is meant by what stands in the text, or which fault it is.

use super::cursor::Cursor;
use super::dimension::Dimension;
use super::fault::{Fault, QuantityError, Unreadable};
use super::likely;
use super::number::shorten;
use super::parse::{RawUnit, RawValue, UnitSort, no_unit, unreadable};
use super::spelling::{self, Meaning};
use super::table::VagueSort;
use super::unit::Unit;
use super::value::Form;

type Read<T> = Result<T, QuantityError>;

/// The unit of a value, one of a wanted kind (any, when none is named).
pub(super) fn unit(cursor: &Cursor<'_>, value: &RawValue, wanted: &[Dimension]) -> Read<&'static Unit> {
    let wants = |kind: Dimension| wanted.is_empty() || wanted.contains(&kind);
    match value.unit.sort {
        UnitSort::Colon => Ok(no_unit(Dimension::Ratio)),
        UnitSort::Missing if wanted.contains(&Dimension::Count) || (wanted.is_empty() && value.form.place() >= 0) => {
            Ok(no_unit(Dimension::Count))
        }
        UnitSort::Missing => Err(missing(cursor, value, wanted)),
        UnitSort::Known(Meaning::Unit(unit)) => match misread(unit, wanted) {
            _ if wants(unit.dimension()) => Ok(unit),
            Some(kind) => Err(vague(cursor, value, kind, likely::for_misread(&value.form, unit, kind))),
            None => Err(another_kind(cursor, value, unit.dimension(), wanted, likely::for_another_kind(&value.form, unit, wanted))),
        },
        UnitSort::Known(Meaning::Vague(row)) => match row.sort {
            VagueSort::Volume(bare) if wants(Dimension::Volume) => {
                Err(vague(cursor, value, Dimension::Volume, likely::for_volume(&value.form, bare)))
            }
            VagueSort::Volume(_) => Err(another_kind(cursor, value, Dimension::Volume, wanted, Vec::new())),
            VagueSort::Scale(sign) if wants(Dimension::Temperature) => {
                Err(vague(cursor, value, Dimension::Temperature, likely::in_units(&value.form, &[sign])))
            }
            VagueSort::Scale(sign) if wants(Dimension::TemperatureRise) => {
                let rise = if sign == "°C" { "Δ°C" } else { "Δ°F" };
                Err(vague(cursor, value, Dimension::TemperatureRise, likely::in_units(&value.form, &[rise])))
            }
            VagueSort::Torque(units) if wanted.contains(&Dimension::Torque) => {
                Err(vague(cursor, value, Dimension::Torque, likely::in_units(&value.form, units)))
            }
            VagueSort::Scale(_) | VagueSort::Torque(_) => Err(unknown(cursor, value, wanted)),
        },
        UnitSort::Unknown => Err(unknown(cursor, value, wanted)),
    }
}

/// The one unit of a range or tolerance, which may stand after its first number, its second, or both.
pub(super) fn common_unit(cursor: &Cursor<'_>, form: &Form, first: RawUnit, second: RawUnit) -> Read<RawUnit> {
    if matches!(first.sort, UnitSort::Missing) {
        return Ok(second);
    }
    let (one, other) = (known(&first), known(&second));
    let (Some(one), Some(other)) = (one, other) else {
        // The first of the two that is no clear unit is the one to put right; a value must not end without its unit.
        return Ok(if one.is_some() { second } else { first });
    };
    let steps_of_a_scale = matches!(form, Form::Tolerance { .. })
        && one.dimension() == Dimension::Temperature
        && other.dimension() == Dimension::TemperatureRise
        && one.exact_size() == other.exact_size();
    if one == other || steps_of_a_scale {
        return Ok(first);
    }
    let span = first.span.start..second.span.end;
    if matches!(form, Form::Tolerance { .. }) && other.dimension() == Dimension::Percent {
        let readings = likely::for_percent(form, one);
        let seen = shorten(cursor.between(span.clone()));
        return Err(QuantityError::new(span, Fault::Unreadable { seen, reason: Unreadable::PercentTolerance, readings }));
    }
    let readings = likely::for_two_units(form, one, other);
    let (first, second) = (cursor.between(first.span).to_owned(), cursor.between(second.span).to_owned());
    Err(QuantityError::new(span, Fault::EndsDiffer { first, second, readings }))
}

fn known(raw: &RawUnit) -> Option<&'static Unit> {
    match raw.sort {
        UnitSort::Known(Meaning::Unit(unit)) => Some(unit),
        _ => None,
    }
}

/// The kind a unit is so often miswritten for that its readings are worked out: `9 lbs` for a torque, `12 oz`
/// for a volume, `90°` for a temperature.
fn misread(unit: &Unit, wanted: &[Dimension]) -> Option<Dimension> {
    match (unit.dimension(), wanted) {
        (Dimension::Mass, [Dimension::Torque, ..]) if matches!(unit.symbol(), "kg" | "lb") => Some(Dimension::Torque),
        (Dimension::Mass, [Dimension::Volume, ..]) if unit.symbol() == "oz" => Some(Dimension::Volume),
        (Dimension::Angle, [Dimension::Temperature, ..]) if unit.symbol() == "°" => Some(Dimension::Temperature),
        _ => None,
    }
}

fn missing(cursor: &Cursor<'_>, value: &RawValue, wanted: &[Dimension]) -> QuantityError {
    let seen = shorten(cursor.between(value.numbers.clone()).trim());
    let readings = likely::for_missing(&value.form, wanted);
    QuantityError::new(value.numbers.clone(), Fault::UnitMissing { seen, wanted: wanted.to_vec(), readings })
}

fn unknown(cursor: &Cursor<'_>, value: &RawValue, wanted: &[Dimension]) -> QuantityError {
    let text = cursor.between(value.unit.span.clone());
    if wanted == [Dimension::Count] {
        return unreadable(cursor, value.unit.span.clone(), Unreadable::Trailing);
    }
    let nearest = match spelling::elsewhere(text, wanted) {
        Some((factor, unit)) => vec![value.form.times(factor).with_unit(unit)],
        None => spelling::nearest(text, wanted).into_iter().map(|unit| value.form.with_unit(unit)).collect(),
    };
    QuantityError::new(value.unit.span.clone(), Fault::UnitUnknown { seen: shorten(text), wanted: wanted.to_vec(), nearest })
}

fn vague(cursor: &Cursor<'_>, value: &RawValue, wanted: Dimension, readings: Vec<String>) -> QuantityError {
    let seen = cursor.between(value.unit.span.clone()).to_owned();
    QuantityError::new(value.unit.span.clone(), Fault::UnitVague { seen, wanted, readings })
}

fn another_kind(cursor: &Cursor<'_>, value: &RawValue, is: Dimension, wanted: &[Dimension], readings: Vec<String>) -> QuantityError {
    let seen = cursor.between(value.unit.span.clone()).to_owned();
    QuantityError::new(value.unit.span.clone(), Fault::OtherKind { seen, is, wanted: wanted.to_vec(), readings })
}
