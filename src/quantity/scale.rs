//! A quantity on a scale with marks, such as a torque wrench has: what can be set is a mark, if one lies within what was asked
//! for. What a page prints in the unit of the scale and what it says to set are the same number.

use super::convert::{Converted, honest_digits};
use super::exact::{Exact, Rounding};
use super::unit::Unit;
use super::value::{Form, Quantity};

/// A single value has no band: a mark this many per cent from it still counts as it, as a rounded conversion does.
const PER_CENT: i64 = 1;
/// Decimals of a mark at most; a scale has no finer ones.
const FINEST: i32 = 2;

impl Quantity {
    /// The quantity in the unit of a scale, aimed at the mark that [`Self::setting`] gives; without a step, or with no mark
    /// within what was asked for, as [`Self::convert_into`] rounds. `None` for a unit of another kind.
    pub fn on_scale(&self, unit: &'static Unit, step: Option<&Self>) -> Option<Converted> {
        let shown = self.convert_into(unit)?;
        Some(match self.mark(unit, step, &Exact::whole(1)) {
            Some((mark, place)) => shown.aimed_at(mark, place),
            None => shown,
        })
    }

    /// What to set on a scale, with its unit: the value aimed at, the middle of a range, a bound itself, each taken `share`
    /// times (less than once where an adapter lengthens a wrench). It is the nearest mark within the author's ends, for a
    /// single value within one per cent of it; where there is none, the number itself, to be set between two marks.
    pub fn setting(&self, unit: &'static Unit, step: Option<&Self>, share: &Exact) -> Option<String> {
        if unit.dimension() != self.dimension() {
            return None;
        }
        let printed = || self.convert_into(unit).filter(|_| share.is_one()).and_then(|shown| shown.nominal_digits());
        let digits = match self.mark(unit, step, share).map(|(mark, place)| mark.digits(place)).or_else(printed) {
            Some(digits) => digits,
            None => {
                let aim = self.aim()?;
                honest_digits(&self.unit().from_base(&aim), self.form().place(), &unit.from_base(&(aim * share.clone())))
            }
        };
        Some(unit.after(&digits))
    }

    /// What one aims at, in the base unit.
    fn aim(&self) -> Option<Exact> {
        self.exact_nominal().or_else(|| match self.exact_low_high() {
            (Some(low), Some(high)) => Exact::fraction(1, 2).map(|half| (low + high) * half),
            (low, high) => low.or(high),
        })
    }

    /// A mark of the scale, and its last decimal place.
    fn mark(&self, unit: &'static Unit, step: Option<&Self>, share: &Exact) -> Option<(Exact, i32)> {
        let step = step.filter(|step| step.dimension() == unit.dimension() && !unit.has_scale())?;
        let step = unit.from_base(&step.exact_nominal()?);
        if step.is_zero() || step.is_negative() || unit.dimension() != self.dimension() {
            return None;
        }
        let there = |value: Exact| unit.from_base(&(value * share.clone()));
        let aim = there(self.aim()?);
        let (low, high) = match self.form() {
            Form::Single(_) => {
                let off_by = aim.abs() * Exact::fraction(PER_CENT.into(), 100)?;
                (Some(aim.clone() - off_by.clone()), Some(aim.clone() + off_by))
            }
            _ => {
                let (low, high) = self.exact_low_high();
                (low.map(there), high.map(there))
            }
        };
        let inside = |mark: &Exact| low.as_ref().is_none_or(|low| low <= mark) && high.as_ref().is_none_or(|high| mark <= high);
        let steps = aim.over(&step)?;
        // The first mostly does.
        let mut marks = [Rounding::Nearest, Rounding::Up, Rounding::Down].into_iter().map(|way| (steps.rounded(0, way) * step.clone()).rounded(-FINEST, Rounding::Nearest));
        let mark = marks.find(|mark| inside(mark) && !mark.is_zero())?;
        let place = (0..=FINEST).find(|places| mark.rounded(-places, Rounding::Nearest) == mark).unwrap_or(FINEST);
        Some((mark, -place))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Dimension;

    fn torque(text: &str) -> Quantity {
        Quantity::parse(text, Dimension::Torque).unwrap()
    }

    #[test]
    fn a_mark_within_what_is_asked_for_is_set_and_printed() {
        for (text, unit, step, set, shown) in [
            ("70 ± 4 N·m", "lbf·ft", Some("0.5 lbf·ft"), "51.5 lbf·ft", "51.5 lbf·ft (48.7–54.5)"),
            ("70 ± 4 N·m", "lbf·ft", None, "51.6 lbf·ft", "51.6 lbf·ft (48.7–54.5)"),
            ("38 N·m", "lbf·ft", Some("0.5 lbf·ft"), "28 lbf·ft", "28 lbf·ft"),
            ("105 N·m", "lbf·ft", Some("0.5 lbf·ft"), "77.5 lbf·ft", "77.5 lbf·ft"),
            // Five per cent away is another torque: between two marks.
            ("70 N·m", "lbf·ft", Some("5 lbf·ft"), "51.6 lbf·ft", "51.6 lbf·ft"),
            ("70 ± 1 N·m", "lbf·ft", Some("5 lbf·ft"), "51.6 lbf·ft", "51.6 lbf·ft (50.9–52.3)"),
            // A narrow band stays in the unit that the scale has.
            ("10 ± 1 N·m", "lbf·ft", Some("0.5 lbf·ft"), "7.5 lbf·ft", "7.5 lbf·ft (6.7–8.1)"),
            ("70–80 N·m", "lbf·ft", Some("0.5 lbf·ft"), "55.5 lbf·ft", "51.7–59.0 lbf·ft"),
            ("108 ± 5 N·m", "N·m", Some("5 N·m"), "110 N·m", "110 N·m (103–113)"),
            ("min 71 N·m", "N·m", Some("5 N·m"), "75 N·m", "min 71 N·m"),
        ] {
            let step = step.map(torque);
            let (quantity, unit) = (torque(text), Unit::find(unit).unwrap());
            assert_eq!(quantity.setting(unit, step.as_ref(), &Exact::whole(1)).as_deref(), Some(set), "{text}");
            assert_eq!(quantity.on_scale(unit, step.as_ref()).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn an_adapter_takes_its_share() {
        let share = Exact::from_f64(300.0 / 345.0).unwrap();
        let unit = Unit::find("N·m").unwrap();
        assert_eq!(torque("70 N·m").setting(unit, None, &share).as_deref(), Some("60.9 N·m"));
        assert_eq!(torque("70 ± 4 N·m").setting(unit, Some(&torque("0.5 N·m")), &share).as_deref(), Some("61 N·m"));
    }

    #[test]
    fn what_is_no_scale_has_no_mark() {
        let unit = Unit::find("N·m").unwrap();
        assert_eq!(torque("70 N·m").setting(unit, Some(&torque("0 N·m")), &Exact::whole(1)).as_deref(), Some("70 N·m"));
        assert_eq!(torque("70 N·m").setting(Unit::find("mm").unwrap(), None, &Exact::whole(1)), None);
        assert!(torque("70 N·m").on_scale(Unit::find("mm").unwrap(), None).is_none());
    }
}
