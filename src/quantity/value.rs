//! A quantity: the author's numbers, their unit and their spelling, kept apart.

use super::dimension::Dimension;
use super::dual;
use super::error::LOWER_CASE_NEWTON_METRE;
use super::exact::Exact;
use super::fault::QuantityError;
use super::number::Number;
use super::parse;
use super::unit::Unit;
use std::fmt;

/// How a value is bounded. Numbers are in the quantity's unit.
#[derive(Clone, Debug)]
pub enum Form {
    /// One number: `75 N·m`.
    Single(Number),
    /// From a low end to a high end, low below high: `70–80 N·m`.
    Range {
        /// The low end.
        low: Number,
        /// The high end.
        high: Number,
    },
    /// A nominal value and how far it may be off, more than nothing: `75 ± 5 N·m`.
    Tolerance {
        /// The value aimed at.
        nominal: Number,
        /// How far it may be off to either side.
        off_by: Number,
    },
    /// No less than: `min 0.10 mm`, `≥ 12 h`.
    AtLeast(Number),
    /// No more than: `max 150 °C`, `≤ 4199`.
    AtMost(Number),
}

/// A value with its unit, as an author wrote it. Two are equal when they mean the same value (`same_value`).
#[derive(Clone, Debug)]
pub struct Quantity {
    pub(super) written: String,
    pub(super) form: Form,
    pub(super) unit: &'static Unit,
    pub(super) second: Option<Second>,
    pub(super) lower_case: bool,
}

/// The same value in the author's second unit: `17.7 lbf·ft` of `24 N·m (17.7 lbf·ft)`.
#[derive(Clone, Debug)]
pub struct Second {
    pub(super) form: Form,
    pub(super) unit: &'static Unit,
    pub(super) to_the_digit: bool,
}

impl Form {
    /// The low and the high end; a single value is both of its ends, a bound has one.
    pub fn ends(&self) -> (Option<Exact>, Option<Exact>) {
        match self {
            Self::Single(number) => (Some(number.value().clone()), Some(number.value().clone())),
            Self::Range { low, high } => (Some(low.value().clone()), Some(high.value().clone())),
            Self::Tolerance { nominal, off_by } => (
                Some(nominal.value().clone() - off_by.value().clone()),
                Some(nominal.value().clone() + off_by.value().clone()),
            ),
            Self::AtLeast(number) => (Some(number.value().clone()), None),
            Self::AtMost(number) => (None, Some(number.value().clone())),
        }
    }

    /// The value aimed at: of a single value and of a tolerance only.
    pub fn nominal(&self) -> Option<&Number> {
        match self {
            Self::Single(number) | Self::Tolerance { nominal: number, .. } => Some(number),
            Self::Range { .. } | Self::AtLeast(_) | Self::AtMost(_) => None,
        }
    }

    /// So many times all its numbers.
    pub(super) fn times(&self, factor: i64) -> Self {
        match self {
            Self::Single(number) => Self::Single(number.times(factor)),
            Self::Range { low, high } => Self::Range { low: low.times(factor), high: high.times(factor) },
            Self::Tolerance { nominal, off_by } => Self::Tolerance { nominal: nominal.times(factor), off_by: off_by.times(factor) },
            Self::AtLeast(number) => Self::AtLeast(number.times(factor)),
            Self::AtMost(number) => Self::AtMost(number.times(factor)),
        }
    }

    /// The finest place any of its numbers is written to.
    pub(super) fn place(&self) -> i32 {
        match self {
            Self::Single(number) | Self::AtLeast(number) | Self::AtMost(number) => number.place(),
            Self::Range { low: a, high: b } | Self::Tolerance { nominal: a, off_by: b } => a.place().min(b.place()),
        }
    }

    /// The coarsest half digit of its numbers: what the author left open.
    pub(super) fn half_digit(&self) -> Exact {
        match self {
            Self::Single(number) | Self::AtLeast(number) | Self::AtMost(number) => number.half_digit(),
            Self::Range { low: a, high: b } | Self::Tolerance { nominal: a, off_by: b } => a.half_digit().max(b.half_digit()),
        }
    }

    /// Its numbers with signs between and a unit behind, in our spelling.
    pub(super) fn with_unit(&self, unit: &Unit) -> String {
        match self {
            Self::Single(number) => unit.after(&number.to_string()),
            Self::Range { low, high } => unit.after(&joined_ends(&low.to_string(), &high.to_string())),
            Self::Tolerance { nominal, off_by } => unit.after(&format!("{nominal} ± {off_by}")),
            Self::AtLeast(number) => format!("min {}", unit.after(&number.to_string())),
            Self::AtMost(number) => format!("max {}", unit.after(&number.to_string())),
        }
    }
}

/// `70–80`, but `−55 to 150`: a dash and a minus sign side by side are misread.
pub(super) fn joined_ends(low: &str, high: &str) -> String {
    if low.contains(['−', ' ']) || high.contains(['−', ' ']) { format!("{low} to {high}") } else { format!("{low}–{high}") }
}

impl Quantity {
    /// Reads a text as a quantity of one kind. See the module's grammar.
    pub fn parse(text: &str, wanted: Dimension) -> Result<Self, QuantityError> {
        parse::quantity(text, &[wanted])
    }

    /// Reads a text as a quantity of one of several kinds; its unit decides (none means a count, a colon a ratio).
    /// The first kind is the field's own: faults are named and likely meanings worked out for it.
    pub fn parse_any(text: &str, wanted: &[Dimension]) -> Result<Self, QuantityError> {
        parse::quantity(text, wanted)
    }

    /// Reads a text as a quantity of whatever kind its unit has.
    pub fn parse_free(text: &str) -> Result<Self, QuantityError> {
        parse::quantity(text, &[])
    }

    /// The author's own spelling, without spaces around it: what is shown first.
    pub fn written(&self) -> &str {
        &self.written
    }

    /// Its kind.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// How it is bounded, in the author's unit.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// The author's unit (the first, where there are two).
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// The second unit's value of a value written in two units.
    pub fn second(&self) -> Option<&Second> {
        self.second.as_ref()
    }

    /// Something the author should know though it was read.
    pub fn note(&self) -> Option<&'static str> {
        self.lower_case.then_some(LOWER_CASE_NEWTON_METRE)
    }

    /// Low and high end in the base unit of its kind (`Dimension::base`), exactly. A single value is both of its ends.
    pub fn exact_low_high(&self) -> (Option<Exact>, Option<Exact>) {
        let (low, high) = self.form.ends();
        (low.map(|end| self.unit.to_base(&end)), high.map(|end| self.unit.to_base(&end)))
    }

    /// Low and high end in the base unit of its kind (N·m, N, mm, °, °C, K, mL, kPa, kg, s, r/min), as nearest doubles.
    pub fn low_high(&self) -> (Option<f64>, Option<f64>) {
        let (low, high) = self.exact_low_high();
        (low.map(|end| end.to_f64()), high.map(|end| end.to_f64()))
    }

    /// The value aimed at, in the base unit, exactly; `None` for a range and a bound.
    pub fn exact_nominal(&self) -> Option<Exact> {
        self.form.nominal().map(|number| self.unit.to_base(number.value()))
    }

    /// The value aimed at, in the base unit; `None` for a range and a bound.
    pub fn nominal(&self) -> Option<f64> {
        self.exact_nominal().map(|value| value.to_f64())
    }

    /// Low and high end in another unit of the same kind, unrounded; `None` for a unit of another kind.
    pub fn in_unit(&self, unit: &Unit) -> Option<(Option<f64>, Option<f64>)> {
        let (low, high) = self.exact_low_high();
        let there = |end: Exact| unit.from_base(&end).to_f64();
        (unit.dimension() == self.dimension()).then(|| (low.map(there), high.map(there)))
    }

    /// The nominal time in seconds (of a bound or a range: its low end); `None` for other kinds.
    pub fn seconds(&self) -> Option<f64> {
        if self.dimension() != Dimension::Time {
            return None;
        }
        self.nominal().or_else(|| {
            let (low, high) = self.low_high();
            low.or(high)
        })
    }

    /// Whether both mean the same value: same kind, same ends, same nominal, exactly. Spelling and unit may differ:
    /// `9 N·m` and `9.0 Nm` are the same, `70–80 N·m` and `75 ± 5 N·m` are not.
    pub fn same_value(&self, other: &Self) -> bool {
        self.dimension() == other.dimension()
            && self.exact_low_high() == other.exact_low_high()
            && self.exact_nominal() == other.exact_nominal()
    }

    /// Whether both say the same, be it in two units: `24 N·m` and `17.7 lbf·ft`. In one unit they must be the same exactly; in
    /// two, as near as the digits of both tell, as where one value is written in two units.
    pub fn says_the_same(&self, other: &Self) -> bool {
        let two_units = self.dimension() == other.dimension() && !std::ptr::eq(self.unit, other.unit);
        self.same_value(other) || (two_units && dual::compare((&self.form, self.unit), (&other.form, other.unit)).agrees)
    }

    /// Whether all of it lies within the other's limits, ends included; `None` for different kinds.
    /// What has no end on a side lies within nothing that has one there.
    pub fn lies_within(&self, limits: &Self) -> Option<bool> {
        let ((low, high), (lowest, highest)) = (self.exact_low_high(), limits.exact_low_high());
        let above = lowest.is_none_or(|lowest| low.is_some_and(|low| low >= lowest));
        let below = highest.is_none_or(|highest| high.is_some_and(|high| high <= highest));
        (self.dimension() == limits.dimension()).then_some(above && below)
    }

    /// The quantity in words, for reading aloud.
    pub fn spoken(&self) -> String {
        let words = |number: &Number| number.to_string().replace('−', "minus ").replace(':', " to ");
        let plural = self.form.nominal().is_none_or(|number| !number.value().abs().is_one())
            || matches!(self.form, Form::Tolerance { .. });
        let numbers = match &self.form {
            Form::Single(number) => words(number),
            Form::Range { low, high } => format!("{} to {}", words(low), words(high)),
            Form::Tolerance { nominal, off_by } => format!("{} plus or minus {}", words(nominal), words(off_by)),
            Form::AtLeast(number) => format!("at least {}", words(number)),
            Form::AtMost(number) => format!("at most {}", words(number)),
        };
        format!("{numbers} {}", self.unit.spoken(plural)).trim_end().to_owned()
    }
}

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        self.same_value(other)
    }
}

impl Eq for Quantity {}

/// The quantity in our spelling: the author's digits, the unit's own sign, a raised dot, an en dash.
impl fmt::Display for Quantity {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.form.with_unit(self.unit))?;
        match &self.second {
            Some(second) => write!(out, " ({second})"),
            None => Ok(()),
        }
    }
}

impl Second {
    /// How it is bounded, in its own unit.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// Its unit.
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// Whether it is the first value converted and correctly rounded to its last digit: stricter than the
    /// agreement a quantity must have to be read at all.
    pub fn agrees_to_the_digit(&self) -> bool {
        self.to_the_digit
    }
}

impl fmt::Display for Second {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.form.with_unit(self.unit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn free(text: &str) -> Quantity {
        Quantity::parse_free(text).unwrap()
    }

    #[test]
    fn equal_means_the_same_value() {
        for (a, b, same) in [
            ("9 N·m", "9.0 Nm", true), ("12 lbf·in", "1 lbf·ft", true), ("70–80 N·m", "70 to 80 N·m", true), ("70–80 N·m", "75 ± 5 N·m", false),
            ("1 in", "25.4 mm", true), ("25.4 mm", "1 inch", true), ("100 K", "180 Δ°F", true), ("≥ 12 h", "min 720 min", true),
            ("≥ 12 h", "12 h", false), ("1 turn", "360°", true), ("0.1 mm", "0.10 mm", true), ("1 g", "1 mL", false), ("212 °F", "100 °C", true),
        ] {
            assert_eq!(free(a) == free(b), same, "{a} and {b}");
        }
    }

    #[test]
    fn ends_and_nominal_are_in_the_base_unit() {
        for (text, low, high, nominal) in [
            ("75 N·m", Some(75.0), Some(75.0), Some(75.0)), ("70–80 N·m", Some(70.0), Some(80.0), None),
            ("75 ± 5 N·m", Some(70.0), Some(80.0), Some(75.0)), ("min 0.10 mm", Some(0.1), None, None), ("max 302 °F", None, Some(150.0), None),
            ("2 turn", Some(720.0), Some(720.0), Some(720.0)), ("1 L", Some(1000.0), Some(1000.0), Some(1000.0)), ("50:1", Some(50.0), Some(50.0), Some(50.0)),
        ] {
            let quantity = free(text);
            assert_eq!((quantity.low_high(), quantity.nominal()), ((low, high), nominal), "{text}");
        }
    }

    #[test]
    fn values_are_compared_exactly() {
        for (text, limits, within) in [
            ("0.3 mm", "0.1–0.3 mm", Some(true)), ("0.31 mm", "max 0.3 mm", Some(false)), ("20–80 N·m", "15–108.5 N·m", Some(true)),
            ("max 100 °C", "max 302 °F", Some(true)), ("min 5 mm", "max 9 mm", Some(false)), ("5 mm", "5 N", None),
        ] {
            assert_eq!(free(text).lies_within(&free(limits)), within, "{text} in {limits}");
        }
    }

    #[test]
    fn quantities_are_spoken() {
        for (text, words) in [
            ("9 N·m", "9 newton metres"), ("1 turn", "1 turn"), ("75 ± 5 N·m", "75 plus or minus 5 newton metres"),
            ("-55 to 150 °C", "minus 55 to 150 degrees Celsius"), ("≥ 12 h", "at least 12 hours"), ("max 4199", "at most 4199"), ("50:1", "50 to 1"),
            ("1/4 in", "1/4 inches"),
        ] {
            assert_eq!(free(text).spoken(), words);
        }
    }

    #[test]
    fn our_spelling_keeps_the_digits() {
        for (text, shown) in [
            ("70-80 Nm", "70–80 N·m"), ("75+/-5 N.m", "75 ± 5 N·m"), ("-55 to 150 degC", "−55 to 150 °C"), (">= 12 hrs", "min 12 h"),
            ("24 Nm (17.7 ft-lb)", "24 N·m (17.7 lbf·ft)"), ("0.20 mm", "0.20 mm"), ("90 deg", "90°"), ("1¼ in", "1 1/4 in"), ("4", "4"),
        ] {
            let quantity = free(text);
            assert_eq!(quantity.to_string(), shown);
            assert_eq!(quantity.written(), text);
        }
    }

    #[test]
    fn a_time_has_seconds() {
        assert_eq!(free("≥ 12 h").seconds(), Some(43_200.0));
        assert_eq!(free("10 min").seconds(), Some(600.0));
        assert_eq!(free("10 mm").seconds(), None);
    }
}
