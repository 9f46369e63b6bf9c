//! The wording of every fault a quantity or a moment can have, in the reader's words.

use super::dimension::Dimension;
use super::fault::{Fault, QuantityError, Unreadable};
use super::moment::{MomentError, MomentFault};
use super::table::UNITS;
use std::fmt;

/// Said beside a value whose unit was written `nm`.
pub(super) const LOWER_CASE_NEWTON_METRE: &str = "‘nm’ is the sign of the nanometre; it was read as N·m";

impl QuantityError {
    /// The name of the rule that is broken.
    pub fn name(&self) -> &'static str {
        match self.fault() {
            Fault::Empty { .. } | Fault::NumberMissing { .. } | Fault::Unreadable { .. } => "number-unreadable",
            Fault::Separator { .. } => "decimal-comma-or-thousand",
            Fault::UnitMissing { wanted, .. } => match wanted.as_slice() {
                [Dimension::Torque, ..] => "torque-unit-missing",
                [Dimension::Temperature, ..] => "temperature-unit-missing",
                _ => "unit-missing",
            },
            Fault::UnitVague { wanted, .. } => match wanted {
                Dimension::Torque => "torque-unit-ambiguous",
                Dimension::Volume => "volume-unit-ambiguous",
                Dimension::Temperature => "temperature-unit-missing",
                _ => "unit-ambiguous",
            },
            Fault::EndsDiffer { .. } => "unit-ambiguous",
            Fault::UnitUnknown { .. } => "unit-unknown",
            Fault::OtherKind { .. } => "unit-of-another-kind",
            Fault::DualMismatch { .. } => "dual-unit-mismatch",
            Fault::RangeReversed { .. } => "range-reversed",
        }
    }

    /// The fault in one phrase.
    pub fn message(&self) -> String {
        match self.fault() {
            Fault::Empty { wanted } => format!("nothing is written where {} belongs", list(wanted)),
            Fault::NumberMissing { seen, wanted } => format!("‘{seen}’ holds no number where {} belongs", list(wanted)),
            Fault::Unreadable { seen, reason, .. } => unreadable(seen, *reason),
            Fault::Separator { seen, .. } => {
                format!("‘{seen}’ has a decimal comma or a thousands separator, which is read differently from reader to reader")
            }
            Fault::UnitMissing { seen, wanted, .. } if *wanted == [Dimension::Ratio] => {
                format!("‘{seen}’ is one number where a ratio belongs")
            }
            Fault::UnitMissing { seen, .. } => format!("‘{seen}’ has no unit"),
            Fault::UnitVague { seen, wanted, .. } => vague(seen, *wanted),
            Fault::EndsDiffer { first, second, .. } => format!("one value is written in two units, ‘{first}’ and ‘{second}’"),
            Fault::UnitUnknown { seen, .. } => format!("‘{seen}’ is not a unit known here"),
            Fault::OtherKind { seen, is, wanted, .. } => {
                format!("‘{seen}’ is the unit of {}, and {} belongs here", is.spoken(), list(wanted))
            }
            Fault::DualMismatch { first, second, .. } => format!("{first} and {second} are not the same value"),
            Fault::RangeReversed { low, equal: true, .. } => format!("both ends of the range are {low}"),
            Fault::RangeReversed { low, high, .. } => format!("the range runs backwards, from {low} to {high}"),
        }
    }

    /// What it may mean, worked out, one reading a line. Empty where nothing can be guessed.
    pub fn figures(&self) -> Vec<String> {
        match self.fault() {
            Fault::Empty { .. } | Fault::NumberMissing { .. } => Vec::new(),
            Fault::UnitUnknown { nearest, .. } => nearest.clone(),
            Fault::Unreadable { readings, .. }
            | Fault::Separator { readings, .. }
            | Fault::UnitMissing { readings, .. }
            | Fault::UnitVague { readings, .. }
            | Fault::EndsDiffer { readings, .. }
            | Fault::OtherKind { readings, .. }
            | Fault::DualMismatch { readings, .. }
            | Fault::RangeReversed { readings, .. } => readings.clone(),
        }
    }

    /// What to write instead.
    pub fn fix(&self) -> String {
        match self.fault() {
            Fault::Empty { wanted } | Fault::NumberMissing { wanted, .. } => {
                format!("write a number and its unit, for example {}", example(wanted))
            }
            Fault::Unreadable { reason, readings, .. } => unreadable_fix(*reason, readings),
            Fault::Separator { readings, .. } => match readings.as_slice() {
                [only] => format!("write ‘{only}’: a point for the decimals, nothing between the thousands"),
                _ => "write a point for the decimals and nothing between the thousands".to_owned(),
            },
            Fault::UnitMissing { wanted, .. } if *wanted == [Dimension::Ratio] => "write both sides with a colon, as 50:1".to_owned(),
            Fault::UnitMissing { wanted, .. } => {
                format!("write the unit of your source after the number, for example {}", example(wanted))
            }
            Fault::UnitVague { wanted, .. } => vague_fix(*wanted),
            Fault::EndsDiffer { .. } => "write both ends in one unit, the one of your source".to_owned(),
            Fault::UnitUnknown { wanted, nearest, .. } => match nearest.first() {
                Some(unit) => format!("write {unit} if that is meant"),
                None => format!("write one of {}", units(wanted)),
            },
            Fault::OtherKind { is, wanted, .. } => other_kind_fix(*is, wanted),
            Fault::DualMismatch { .. } => {
                "look the value up again and write the one in your source; the other is worked out from it".to_owned()
            }
            Fault::RangeReversed { equal: true, .. } => "write the single value, or the end that is missing".to_owned(),
            Fault::RangeReversed { .. } => {
                "look in your source: the ends are swapped, or a digit is wrong; write the low end first".to_owned()
            }
        }
    }
}

fn unreadable(seen: &str, reason: Unreadable) -> String {
    match reason {
        Unreadable::SeveralPoints => format!("‘{seen}’ has more points or commas than a number can have"),
        Unreadable::Scientific => format!("‘{seen}’ is written with a power of ten, which a bench sheet cannot show"),
        Unreadable::TooManyDigits => format!("‘{seen}’ has more digits than any instrument shows"),
        Unreadable::OddFraction => format!("‘{seen}’ is not a fraction found on a rule or a socket"),
        Unreadable::BelowZero => format!("‘{seen}’ is below zero, which means nothing here"),
        Unreadable::BelowAbsoluteZero => format!("‘{seen}’ is colder than absolute zero"),
        Unreadable::NotWhole => format!("‘{seen}’ is a count and must be a whole number"),
        Unreadable::StrictSign => format!("‘{seen}’ leaves the limit itself out"),
        Unreadable::Approximate => format!("‘{seen}’ sets no limit"),
        Unreadable::BoundWithRange => format!("‘{seen}’ is a bound and a range at once"),
        Unreadable::BoundBehind => format!("‘{seen}’ stands behind the value, where it can be taken for minutes or overlooked"),
        Unreadable::Trailing => format!("‘{seen}’ stands behind the value and is no part of it"),
        Unreadable::Stages => format!("‘{seen}’ is a further stage, and stands behind the first"),
        Unreadable::TwoUnitsLoose => format!("‘{seen}’ stands behind the value without brackets"),
        Unreadable::EmptyTolerance => format!("‘{seen}’ is no tolerance"),
        Unreadable::TwoTolerances => format!("‘{seen}’ gives the two sides different tolerances"),
        Unreadable::PercentTolerance => format!("‘{seen}’ gives the tolerance in per cent"),
        Unreadable::OpenBracket => format!("the bracket in ‘{seen}’ is not closed"),
        Unreadable::Size => format!("‘{seen}’ is a size of several lengths where one value belongs"),
        Unreadable::Colon => format!("‘{seen}’ reads as a ratio or a moment, and neither belongs here"),
        Unreadable::NotASize => format!("‘{seen}’ is not a size of two or three lengths"),
    }
}

fn unreadable_fix(reason: Unreadable, readings: &[String]) -> String {
    if let ([stages], Unreadable::Stages) = (readings, reason) {
        let sum = if stages.contains('°') { ", and angle_total: where the source gives the sum of its angles" } else { "" };
        return format!("write the stages in turn as a list, {stages}{sum}");
    }
    if let [only] = readings {
        return format!("write ‘{only}’ if that is meant");
    }
    match reason {
        Unreadable::Scientific | Unreadable::TooManyDigits => "write the digits out, as many as the source gives",
        Unreadable::OddFraction => "write a decimal, or a fraction in halves, thirds, quarters, sixths, eighths, 16ths, 32nds or 64ths",
        Unreadable::BelowZero | Unreadable::BelowAbsoluteZero | Unreadable::SeveralPoints => "look the number up again",
        Unreadable::NotWhole => "write a whole number",
        Unreadable::StrictSign => "write ≤ or ≥, or max or min",
        Unreadable::Approximate => "write a range, a tolerance, min or max",
        Unreadable::BoundWithRange => "write the range alone, or min or max with one number",
        Unreadable::BoundBehind => "write min or max in front of the number",
        Unreadable::Trailing | Unreadable::Stages => "leave the value alone in its field and put words in a note",
        Unreadable::TwoUnitsLoose => "write the second unit's value in round brackets after the first",
        Unreadable::EmptyTolerance => "write how far it may be off, as in 75 ± 5 N·m, or the value alone",
        Unreadable::TwoTolerances => "write the range from its low end to its high end",
        Unreadable::PercentTolerance => "write the tolerance in the value's own unit",
        Unreadable::OpenBracket => "close the bracket, or leave it out",
        Unreadable::Size => "write the one length that is asked for",
        Unreadable::Colon => "write a number and its unit",
        Unreadable::NotASize => "write it as 30x42x7 mm, in the order your source has",
    }
    .to_owned()
}

fn vague(seen: &str, wanted: Dimension) -> String {
    match wanted {
        Dimension::Torque => format!("‘{seen}’ is a mass or a force, and a torque belongs here"),
        Dimension::Volume => format!("‘{seen}’ differs between the US and Britain"),
        Dimension::Temperature => format!("‘{seen}’ does not say whether °C or °F is meant"),
        _ => format!("‘{seen}’ can mean several units"),
    }
}

fn vague_fix(wanted: Dimension) -> String {
    match wanted {
        Dimension::Torque => "write the unit printed in your source in full, such as N·m, lbf·ft or lbf·in".to_owned(),
        Dimension::Volume => "add (US) or (imp) after the unit".to_owned(),
        Dimension::Temperature => "write °C or °F".to_owned(),
        Dimension::TemperatureRise => "write K, Δ°C or Δ°F for a rise".to_owned(),
        _ => format!("write one of {}", units(&[wanted])),
    }
}

fn other_kind_fix(is: Dimension, wanted: &[Dimension]) -> String {
    match (is, wanted) {
        (Dimension::Temperature, [Dimension::TemperatureRise, ..]) => "write K, Δ°C or Δ°F for a rise".to_owned(),
        (Dimension::TemperatureRise, [Dimension::Temperature, ..]) => "write °C or °F for a temperature".to_owned(),
        (Dimension::Time, _) => {
            format!("write one of {}; for a least value write min before the number", units(wanted))
        }
        (_, [Dimension::Count]) => "write the number alone".to_owned(),
        (_, [Dimension::Ratio]) => "write the ratio with a colon, as 50:1".to_owned(),
        _ => format!("write one of {}", units(wanted)),
    }
}

fn list(wanted: &[Dimension]) -> String {
    if wanted.is_empty() {
        return "a quantity".to_owned();
    }
    joined(&wanted.iter().map(|kind| kind.spoken()).collect::<Vec<_>>())
}

/// The usual units of the kinds wanted, a few of each.
fn units(wanted: &[Dimension]) -> String {
    let each = if wanted.len() < 2 { 5 } else { 2 };
    let all = if wanted.is_empty() { Dimension::all() } else { wanted };
    let symbols: Vec<&str> = all
        .iter()
        .flat_map(|kind| UNITS.iter().filter(move |unit| unit.dimension() == *kind && usual(unit.symbol())).take(each))
        .map(super::unit::Unit::symbol)
        .collect();
    joined(&symbols)
}

/// Units that are read but not proposed.
fn usual(symbol: &str) -> bool {
    !matches!(symbol, "" | "mN·m" | "cN·m" | "N·mm" | "daN·m" | "ozf·in" | "Pa" | "hPa" | "mg" | "cL" | "in³" | "kgf")
}

fn joined(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

fn example(wanted: &[Dimension]) -> &'static str {
    match wanted.first() {
        Some(Dimension::Force) => "25 N",
        Some(Dimension::Length) => "0.20 mm",
        Some(Dimension::Angle) => "90°",
        Some(Dimension::Temperature) => "85 ± 5 °C",
        Some(Dimension::TemperatureRise) => "60 K",
        Some(Dimension::Volume) => "260 mL",
        Some(Dimension::Pressure) => "0.35–0.50 bar",
        Some(Dimension::Mass) => "34 kg",
        Some(Dimension::Time) => "≥ 12 h",
        Some(Dimension::Rotation) => "900 r/min",
        Some(Dimension::Count) => "4",
        Some(Dimension::Percent) => "60 %",
        Some(Dimension::Ratio) => "50:1",
        Some(Dimension::Torque) | None => "24 N·m",
    }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.message())?;
        for figure in self.figures() {
            write!(out, "; {figure}")?;
        }
        write!(out, ": {}", self.fix())
    }
}

impl std::error::Error for QuantityError {}

impl MomentError {
    /// The name of the rule that is broken.
    pub fn name(&self) -> &'static str {
        match self.fault() {
            MomentFault::Reversed => "range-reversed",
            _ => "number-unreadable",
        }
    }

    /// The fault in one phrase.
    pub fn message(&self) -> String {
        let seen = self.seen();
        match self.fault() {
            MomentFault::Unreadable => format!("‘{seen}’ is not a moment in a recording"),
            MomentFault::SixtyOrMore => format!("‘{seen}’ has 60 or more where minutes or seconds stand"),
            MomentFault::NoSpan => format!("‘{seen}’ is not a span from one moment to another"),
            MomentFault::Reversed => format!("‘{seen}’ ends before it begins"),
        }
    }

    /// What to write instead.
    pub fn fix(&self) -> String {
        match self.fault() {
            MomentFault::Unreadable | MomentFault::SixtyOrMore => "write minutes:seconds or hours:minutes:seconds, as 8:20 or 1:24:30",
            MomentFault::NoSpan => "write both ends with a dash between, as 8:20–9:05",
            MomentFault::Reversed => "write the earlier moment first",
        }
        .to_owned()
    }
}

impl fmt::Display for MomentError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}", self.message(), self.fix())
    }
}

impl std::error::Error for MomentError {}
