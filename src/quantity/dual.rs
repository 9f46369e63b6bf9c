//! One value written in two units: whether both say the same.

use super::exact::{Exact, Rounding};
use super::fault::Fault;
use super::likely;
use super::unit::Unit;
use super::value::Form;

/// How well two spellings of one value agree.
pub(super) struct Agreement {
    /// Within half the last digit of each and one per cent.
    pub(super) agrees: bool,
    /// The second is the first converted and rounded to its last digit.
    pub(super) to_the_digit: bool,
}

type Written<'a> = (&'a Form, &'static Unit);

/// Compares end by end: each end of the second must lie within half the last digit of the first (converted), half its
/// own last digit, and one per cent of the first. The per cent covers tables made with a rounded factor; on a
/// temperature scale, where it means nothing, it is left out.
pub(super) fn compare(first: Written<'_>, second: Written<'_>) -> Agreement {
    let (ends, others) = (ends(first), ends(second));
    let half_first = first.0.half_digit() * first.1.exact_size();
    let half_second = second.0.half_digit() * second.1.exact_size();
    let mut agreement = Agreement { agrees: true, to_the_digit: true };
    for (end, other) in ends.into_iter().zip(others) {
        let (Some(end), Some(other)) = (&end, &other) else {
            let both_open = end.is_none() && other.is_none();
            agreement.agrees &= both_open;
            agreement.to_the_digit &= both_open;
            continue;
        };
        let apart = (end.clone() - other.clone()).abs();
        let percent = if first.1.has_scale() { Exact::zero() } else { end.abs() * Exact::ten_to(-2) };
        agreement.agrees &= apart <= half_first.clone() + half_second.clone() + percent;
        agreement.to_the_digit &= apart <= half_second;
    }
    agreement
}

/// The fault of two that disagree, each converted to the other's unit.
pub(super) fn mismatch(first: Written<'_>, second: Written<'_>) -> Fault {
    Fault::DualMismatch {
        first: first.0.with_unit(first.1),
        second: second.0.with_unit(second.1),
        readings: vec![equation(second, first.1), equation(first, second.1)],
    }
}

fn equation((form, unit): Written<'_>, to: &'static Unit) -> String {
    format!("{} = {}", form.with_unit(unit), likely::converted(form, unit, to, Rounding::Nearest))
}

fn ends((form, unit): Written<'_>) -> [Option<Exact>; 2] {
    let (low, high) = form.ends();
    [low.map(|end| unit.to_base(&end)), high.map(|end| unit.to_base(&end))]
}

#[cfg(test)]
mod tests {
    use crate::quantity::{Dimension, Quantity};

    #[test]
    fn two_units_must_say_the_same() {
        for (text, kind) in [
            ("24 N·m (17.7 lbf·ft)", Dimension::Torque), ("70–80 N·m (52–59 lbf·ft)", Dimension::Torque), ("1/4 in (6.35 mm)", Dimension::Length),
            ("150 °C (302 °F)", Dimension::Temperature), ("75 ± 5 N·m (55 ± 4 ft-lb)", Dimension::Torque), ("12 fl oz (US) (355 mL)", Dimension::Volume),
            ("min 0.10 mm (min 0.004 in)", Dimension::Length), ("75 ± 5 N·m (52–59 lbf·ft)", Dimension::Torque), ("-18 °C (0 °F)", Dimension::Temperature),
        ] {
            let quantity = Quantity::parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(quantity.second().is_some(), "{text}");
        }
        for (text, kind) in [
            ("24 N·m (28 lbf·ft)", Dimension::Torque), ("70–80 N·m (52 lbf·ft)", Dimension::Torque), ("max 0.10 mm (min 0.004 in)", Dimension::Length),
            ("150 °C (150 °F)", Dimension::Temperature), ("60 K (140 Δ°F)", Dimension::TemperatureRise), ("100 °C (215 °F)", Dimension::Temperature),
        ] {
            assert_eq!(Quantity::parse(text, kind).map_err(|error| error.name()), Err("dual-unit-mismatch"), "{text}");
        }
    }

    #[test]
    fn a_mismatch_is_worked_out_both_ways() {
        let error = Quantity::parse("24 N·m (28 ft·lb)", Dimension::Torque).unwrap_err();
        assert_eq!(error.figures(), ["28 lbf·ft = 38.0 N·m", "24 N·m = 17.7 lbf·ft"]);
    }
}
