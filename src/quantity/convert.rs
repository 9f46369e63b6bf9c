//! Converting a quantity to another unit without claiming more than its author did.
//!
//! **Size**: exact, from definitions, always from the author's own value.
//!
//! **Digits** (NIST SP 811, B.7.1): as many significant digits as the author wrote, and one more where the converted
//! digits begin lower than the author's (24 N·m is 17.7 lbf·ft, 30 N·m is 22.1, 20 lbf·ft is 27 N·m). Three things bend it:
//! a number of three digits or more, or one that is exact already, gets none added (320 N·m is 236 lbf·ft); the zeros that end a whole number count
//! to the third digit only (1500 kg is 3310 lb); and a digit is added as long as rounding would move a value by more
//! than one per cent, a limit by more than two (1 in is 25.4 mm, not 25). In a range or tolerance all numbers count as
//! written to the finest place in it; a fraction counts as three digits. Temperatures have no lowest digit to compare
//! with: they keep the author's place (85 °C is 185 °F, 37.5 °C is 99.5 °F).
//!
//! **Direction**: a single value and a nominal go to the nearest step, a half away from zero. A low limit goes up and a
//! high limit down, so that a converted limit never lies outside the author's.
//!
//! **Bands** (ranges and tolerances): where both ends are of like size they share the finer step. A digit is added until
//! the low end is below the high end, the nominal strictly between, and three quarters of the band are left. A band that
//! lies wholly below the unit's `narrow` mark is shown in the smaller unit: 10 ± 1 N·m is 89 lbf·in (80–97).

use super::exact::{Exact, Rounding};
use super::unit::Unit;
use super::value::{Form, Quantity, joined_ends};
use std::fmt;

/// A quantity shown in another unit, rounded. Displays as `57.5 lbf·ft`, `51.7–59.0 lbf·ft`, `89 lbf·in (80–97)`,
/// `max 302 °F`.
#[derive(Clone, Debug)]
pub struct Converted {
    unit: &'static Unit,
    shape: Shape,
}

#[derive(Clone, Debug)]
enum Shape {
    Single(Rounded),
    Range(Rounded, Rounded),
    Tolerance { nominal: Rounded, low: Rounded, high: Rounded },
    AtLeast(Rounded),
    AtMost(Rounded),
}

#[derive(Clone, Debug)]
struct Rounded {
    value: Exact,
    step: i32,
}

/// Rounding may move a value by this many per cent, a limit by twice as many: what two written units may differ by.
const PER_CENT: i64 = 1;
/// A number with this many digits gets none added for beginning lower.
const ENOUGH_DIGITS: i32 = 3;
/// Digits added at most. Six would do for any value that can be written in fifteen digits; the rest is a stop.
const MOST_ADDED: i32 = 40;

impl Quantity {
    /// The quantity in another unit of its kind, rounded by the rules above; `None` for a unit of another kind.
    /// The unit of the answer is the one asked for, or its smaller sister for a narrow band: ask [`Converted::unit`].
    pub fn convert(&self, to: &'static Unit) -> Option<Converted> {
        self.convert_into(sister(self, to))
    }

    /// The same in that very unit, however narrow the band: for a value that stands in a list with others, or on a scale.
    pub fn convert_into(&self, to: &'static Unit) -> Option<Converted> {
        if to.dimension() != self.dimension() {
            return None;
        }
        let step = Step { form: &self.form, from: self.unit, to };
        let shape = match (&self.form, self.form.ends()) {
            (Form::AtLeast(_), (Some(low), _)) => Shape::AtLeast(step.limit(&low, Rounding::Up)),
            (Form::AtMost(_), (_, Some(high))) => Shape::AtMost(step.limit(&high, Rounding::Down)),
            (_, (Some(low), Some(high))) => match &self.form {
                Form::Range { .. } => step.band(&low, &high, None),
                Form::Tolerance { nominal, .. } => step.band(&low, &high, Some(nominal.value())),
                _ => Shape::Single(step.single(&low)),
            },
            _ => return None,
        };
        Some(Converted { unit: step.to, shape })
    }
}

/// The unit that several quantities which stand together are shown in: the one asked for, or its smaller sister where the
/// largest of them would be shown in that. Those of another kind are passed over.
pub fn shared_unit<'q>(of: impl IntoIterator<Item = &'q Quantity>, to: &'static Unit) -> &'static Unit {
    // Most units have no sister, whatever stands in them.
    if to.narrow.is_none() {
        return to;
    }
    let of_its_kind = of.into_iter().filter(|quantity| quantity.dimension() == to.dimension());
    let high = |quantity: &Quantity| match quantity.exact_low_high() {
        (_, Some(high)) => Some(high),
        (low, None) => low,
    };
    let largest = of_its_kind.max_by(|a, b| high(a).cmp(&high(b)));
    largest.map_or(to, |largest| sister(largest, to))
}

impl Converted {
    /// The unit it is shown in.
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// Low and high end as shown, in [`Self::unit`], exactly.
    pub fn exact_low_high(&self) -> (Option<Exact>, Option<Exact>) {
        let value = |rounded: &Rounded| Some(rounded.value.clone());
        match &self.shape {
            Shape::Single(only) => (value(only), value(only)),
            Shape::Range(low, high) | Shape::Tolerance { low, high, .. } => (value(low), value(high)),
            Shape::AtLeast(low) => (value(low), None),
            Shape::AtMost(high) => (None, value(high)),
        }
    }

    /// Low and high end as shown, in [`Self::unit`].
    pub fn low_high(&self) -> (Option<f64>, Option<f64>) {
        let (low, high) = self.exact_low_high();
        (low.map(|end| end.to_f64()), high.map(|end| end.to_f64()))
    }

    /// The value aimed at as shown, exactly; `None` for a range and a bound.
    pub fn exact_nominal(&self) -> Option<Exact> {
        match &self.shape {
            Shape::Single(nominal) | Shape::Tolerance { nominal, .. } => Some(nominal.value.clone()),
            Shape::Range(..) | Shape::AtLeast(_) | Shape::AtMost(_) => None,
        }
    }

    /// The digits of the value aimed at as shown; `None` for a range and a bound.
    pub(super) fn nominal_digits(&self) -> Option<String> {
        match &self.shape {
            Shape::Single(nominal) | Shape::Tolerance { nominal, .. } => Some(nominal.digits()),
            Shape::Range(..) | Shape::AtLeast(_) | Shape::AtMost(_) => None,
        }
    }

    /// The same with another value to aim at, to a decimal place; of a range and a bound nothing changes.
    pub(super) fn aimed_at(mut self, value: Exact, step: i32) -> Self {
        if let Shape::Single(nominal) | Shape::Tolerance { nominal, .. } = &mut self.shape {
            *nominal = Rounded { value, step };
        }
        self
    }

    /// The value aimed at as shown; `None` for a range and a bound.
    pub fn nominal(&self) -> Option<f64> {
        self.exact_nominal().map(|value| value.to_f64())
    }
}

impl fmt::Display for Converted {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ends = |low: &Rounded, high: &Rounded| joined_ends(&low.digits(), &high.digits());
        match &self.shape {
            Shape::Single(only) => out.write_str(&self.unit.after(&only.digits())),
            Shape::Range(low, high) => out.write_str(&self.unit.after(&ends(low, high))),
            Shape::Tolerance { nominal, low, high } => {
                write!(out, "{} ({})", self.unit.after(&nominal.digits()), ends(low, high))
            }
            Shape::AtLeast(low) => write!(out, "min {}", self.unit.after(&low.digits())),
            Shape::AtMost(high) => write!(out, "max {}", self.unit.after(&high.digits())),
        }
    }
}

impl Rounded {
    fn digits(&self) -> String {
        if self.value.is_zero() { "0".to_owned() } else { self.value.digits(self.step) }
    }
}

/// The smaller unit, for a band too narrow for the marks of the larger one.
fn sister(quantity: &Quantity, to: &'static Unit) -> &'static Unit {
    let band = matches!(quantity.form, Form::Range { .. } | Form::Tolerance { .. });
    let narrow = to.narrow.filter(|_| band && to != quantity.unit);
    let sister = narrow.filter(|(below, _)| quantity.exact_low_high().1.is_some_and(|high| to.from_base(&high) < Exact::whole(*below)));
    sister.and_then(|(_, smaller)| Unit::find(smaller)).unwrap_or(to)
}

/// Works out how finely each number of a quantity is shown.
struct Step<'a> {
    form: &'a Form,
    from: &'static Unit,
    to: &'static Unit,
}

impl Step<'_> {
    fn there(&self, value: &Exact) -> Exact {
        self.to.from_base(&self.from.to_base(value))
    }

    fn single(&self, value: &Exact) -> Rounded {
        self.fine_enough(value, Rounding::Nearest, PER_CENT)
    }

    fn limit(&self, value: &Exact, inward: Rounding) -> Rounded {
        self.fine_enough(value, inward, 2 * PER_CENT)
    }

    fn fine_enough(&self, value: &Exact, rounding: Rounding, per_cent: i64) -> Rounded {
        let exact = self.there(value);
        if self.from.has_scale() {
            let step = self.form.place();
            return Rounded { value: exact.rounded(step, rounding), step };
        }
        nearest_honest(value, self.form.place(), &exact, rounding, per_cent)
    }

    fn band(&self, low: &Exact, high: &Exact, nominal: Option<&Exact>) -> Shape {
        let (low_exact, high_exact) = (self.there(low), self.there(high));
        let mut low_step = self.limit(low, Rounding::Up).step;
        let mut high_step = self.limit(high, Rounding::Down).step;
        let mut middle_step = nominal.map(|nominal| self.single(nominal).step);
        if of_like_size(&low_exact, &high_exact) {
            low_step = low_step.min(high_step);
            high_step = low_step;
            middle_step = middle_step.map(|step| step.min(low_step));
        }
        let mut shape = Shape::Single(Rounded { value: Exact::zero(), step: 0 });
        for added in 0..MOST_ADDED {
            let at = |value: &Exact, step: i32, rounding| Rounded { value: value.rounded(step - added, rounding), step: step - added };
            let low = at(&low_exact, low_step, Rounding::Up);
            let high = at(&high_exact, high_step, Rounding::Down);
            let middle = nominal.zip(middle_step).map(|(value, step)| at(&self.there(value), step, Rounding::Nearest));
            let good = keeps_the_band((&low_exact, &high_exact), (&low.value, &high.value), middle.as_ref().map(|middle| &middle.value));
            shape = match middle {
                Some(nominal) => Shape::Tolerance { nominal, low, high },
                None => Shape::Range(low, high),
            };
            if good {
                break;
            }
        }
        shape
    }
}

/// A converted number rounded to the author's digits. `author` is the number as written, its last digit at `place`.
fn nearest_honest(author: &Exact, place: i32, exact: &Exact, rounding: Rounding, per_cent: i64) -> Rounded {
    let mut step = honest_step(author, place, exact);
    for _ in 0..MOST_ADDED {
        let moved = (exact.rounded(step, rounding) - exact.clone()).abs() * Exact::whole(100);
        if moved <= exact.abs() * Exact::whole(per_cent) {
            break;
        }
        step -= 1;
    }
    Rounded { value: exact.rounded(step, rounding), step }
}

/// A single number rounded to the author's digits, as text.
pub(super) fn honest_digits(author: &Exact, place: i32, exact: &Exact) -> String {
    nearest_honest(author, place, exact, Rounding::Nearest, PER_CENT).digits()
}

/// The place of the last digit by SP 811, B.7.1.
fn honest_step(author: &Exact, place: i32, exact: &Exact) -> i32 {
    let (Some(magnitude), Some(new_magnitude)) = (author.magnitude(), exact.magnitude()) else {
        return place;
    };
    let mut digits = (magnitude - place + 1).max(1);
    while place >= 0 && digits > ENOUGH_DIGITS && author.rounded(magnitude + 2 - digits, Rounding::Down) == *author {
        digits -= 1;
    }
    let leading = |value: &Exact, magnitude: i32| value.abs() * Exact::ten_to(-magnitude);
    let exact_already = exact.rounded(new_magnitude + 1 - digits, Rounding::Nearest) == *exact;
    if leading(exact, new_magnitude) < leading(author, magnitude) && digits < ENOUGH_DIGITS && !exact_already {
        digits += 1;
    }
    new_magnitude + 1 - digits
}

/// Whether the larger is less than ten times the smaller, on the same side of zero.
fn of_like_size(low: &Exact, high: &Exact) -> bool {
    let ten = Exact::whole(10);
    low.is_negative() == high.is_negative() && low.abs() < high.abs() * ten.clone() && high.abs() < low.abs() * ten
}

fn keeps_the_band(exact: (&Exact, &Exact), shown: (&Exact, &Exact), nominal: Option<&Exact>) -> bool {
    let width = |(low, high): (&Exact, &Exact)| high.clone() - low.clone();
    let inside = nominal.is_none_or(|nominal| shown.0 < nominal && nominal < shown.1);
    inside && shown.0 < shown.1 && width(shown) * Exact::whole(4) >= width(exact) * Exact::whole(3)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str, unit: &str) -> String {
        let quantity = Quantity::parse_free(text).unwrap();
        quantity.convert(Unit::find(unit).unwrap()).unwrap().to_string()
    }

    #[test]
    fn single_values_keep_the_authors_digits() {
        for (text, unit, expected) in [
            ("78 N·m", "lbf·ft", "57.5 lbf·ft"), ("24 N·m", "lbf·ft", "17.7 lbf·ft"), ("320 N·m", "lbf·ft", "236 lbf·ft"), ("105 N·m", "lbf·ft", "77.4 lbf·ft"),
            ("9 N·m", "lbf·ft", "6.6 lbf·ft"), ("9 lbf·ft", "N·m", "12.2 N·m"), ("20 lbf·ft", "N·m", "27 N·m"), ("5.5 N·m", "lbf·in", "48.7 lbf·in"),
            ("1500 kg", "lb", "3310 lb"), ("1 L", "fl oz (US)", "34 fl oz (US)"), ("260 mL", "fl oz (US)", "8.79 fl oz (US)"), ("1 in", "mm", "25.4 mm"),
            ("1/4 in", "mm", "6.35 mm"), ("381 mm", "in", "15.0 in"), ("12 mm", "in", "0.47 in"), ("0.05 mm", "thou", "1.97 thou"), ("8 mm", "in", "0.315 in"),
            ("5 mm", "cm", "0.5 cm"), ("260 mL", "L", "0.260 L"), ("7 d", "h", "168 h"), ("24 h", "min", "1440 min"), ("1 turn", "deg", "360°"), ("90°", "turn", "0.25 turn"),
            ("0 mm", "in", "0 in"), ("-0.5 mm", "in", "−0.0197 in"), ("7 psi", "bar", "0.48 bar"), ("0.35 bar", "kPa", "35 kPa"), ("24 N·m", "N·m", "24 N·m"),
        ] {
            assert_eq!(shown(text, unit), expected, "{text}");
        }
    }

    #[test]
    fn temperatures_keep_the_authors_place_and_rises_have_no_zero() {
        for (text, unit, expected) in [
            ("85 °C", "°F", "185 °F"), ("-18 °C", "°F", "0 °F"), ("37.5 °C", "°F", "99.5 °F"), ("85 ± 5 °C", "°F", "185 °F (176–194)"),
            ("max 150 °C", "°F", "max 302 °F"), ("max 300 °F", "°C", "max 148 °C"), ("min 300 °F", "°C", "min 149 °C"), ("-55 to 150 °C", "°F", "−67 to 302 °F"),
            ("20–21 °C", "°F", "68.0–69.8 °F"), ("100 K", "Δ°F", "180 Δ°F"), ("60 Δ°C", "Δ°F", "108 Δ°F"),
        ] {
            assert_eq!(shown(text, unit), expected, "{text}");
        }
    }

    #[test]
    fn limits_are_rounded_inward() {
        for (text, unit, expected) in [
            ("70–80 N·m", "lbf·ft", "51.7–59.0 lbf·ft"), ("22 ± 2 N·m", "lbf·ft", "16.2 lbf·ft (14.8–17.7)"), ("10 ± 1 N·m", "lbf·ft", "89 lbf·in (80–97)"),
            ("5–25 N·m", "lbf·ft", "3.7–18.4 lbf·ft"), ("0.5–6 N·m", "lbf·ft", "4.5–53.1 lbf·in"), ("5–350 N·m", "lbf·ft", "3.7–258 lbf·ft"),
            ("min 0.10 mm", "in", "min 0.0040 in"), ("max 0.040 mm", "in", "max 0.00157 in"), ("max 5 mm", "in", "max 0.196 in"), ("≥ 12 h", "min", "min 720 min"),
            ("0.20–0.32 mm", "in", "0.0079–0.0125 in"), ("0.04–0.05 mm", "in", "0.00158–0.00196 in"), ("70–72 N·m", "lbf·ft", "51.7–53.1 lbf·ft"),
            ("0.35–0.50 bar", "psi", "5.1–7.2 psi"), ("0–5 mm", "in", "0–0.196 in"), ("2.0 ± 0.1 kgf·m", "N·m", "19.6 N·m (18.7–20.5)"),
        ] {
            assert_eq!(shown(text, unit), expected, "{text}");
        }
    }

    #[test]
    fn what_stands_together_has_one_unit() {
        let feet = Unit::find("lbf·ft").unwrap();
        for (texts, expected) in [
            (&["5 ± 0.5 N·m", "108 ± 5 N·m"][..], "lbf·ft"), (&["5 ± 0.5 N·m", "9 ± 0.5 N·m"], "lbf·in"), (&["5 ± 0.5 N·m", "90°"], "lbf·in"),
            (&["90°"], "lbf·ft"), (&[], "lbf·ft"), (&["108 N·m", "5 ± 0.5 N·m"], "lbf·ft"),
        ] {
            let all: Vec<Quantity> = texts.iter().map(|text| Quantity::parse_free(text).unwrap()).collect();
            assert_eq!(shared_unit(&all, feet).symbol(), expected, "{texts:?}");
        }
        let low = Quantity::parse_free("5 ± 0.5 N·m").unwrap();
        assert_eq!(low.convert_into(feet).unwrap().to_string(), "3.69 lbf·ft (3.32–4.05)");
    }

    #[test]
    fn a_unit_of_another_kind_gives_nothing() {
        let rise = Quantity::parse_free("60 K").unwrap();
        assert!(rise.convert(Unit::find("°F").unwrap()).is_none());
    }
}
