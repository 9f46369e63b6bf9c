//! A result: what it is, its letter, its value, and how it is shown in both systems of units.

use super::given::{Given, is_inch};
use crate::quantity::{Dimension, Exact, Rounding, Unit};

/// One result of a calculation.
#[derive(Clone, Debug)]
pub struct Figure {
    /// Its name for scripts.
    pub name: &'static str,
    /// Its letter in the formula; empty where it has none.
    pub letter: &'static str,
    /// What it is.
    pub what: String,
    /// What it comes to.
    pub worth: Worth,
}

/// What a result comes to.
#[derive(Clone, Debug)]
pub enum Worth {
    /// A quantity, from low to high (the same where it is one value), in the base unit of its kind.
    Quantity {
        /// Low end.
        low: f64,
        /// High end.
        high: f64,
        /// Its kind.
        dimension: Dimension,
        /// The metric unit it is shown in, where that is not the usual one.
        unit: Option<&'static str>,
        /// How finely.
        digits: Digits,
        /// Which way its ends are rounded.
        round: Round,
    },
    /// A number of no kind that has units here.
    Plain {
        /// Low end.
        low: f64,
        /// High end.
        high: f64,
        /// What stands behind it: nothing, `mm²`, `1/K`.
        unit: &'static str,
        /// How many digits that count.
        digits: i32,
    },
    /// Words.
    Words(String),
}

/// How finely a result is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Digits {
    /// So many that count.
    Significant(i32),
    /// To this power of ten of the base unit: −2 for hundredths of a millimetre.
    Place(i32),
}

/// Which way a result is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Round {
    /// To the nearest step.
    Nearest,
    /// So that both ends lie within.
    Inward,
    /// So that what it may come to lies within both ends; one value to the nearest step.
    Outward,
    /// Up: at least so much is needed.
    Up,
    /// Down: no more than so much is allowed.
    Down,
}

impl Figure {
    pub(super) fn new(name: &'static str, letter: &'static str, what: &str, worth: Worth) -> Self {
        Self { name, letter, what: what.to_owned(), worth }
    }

    /// A quantity in the base unit of its kind, with three digits.
    pub(super) fn quantity(name: &'static str, letter: &'static str, what: &str, value: f64, dimension: Dimension) -> Self {
        Self::new(name, letter, what, Worth::one(value, dimension))
    }

    /// A quantity from low to high.
    pub(super) fn span(name: &'static str, letter: &'static str, what: &str, ends: (f64, f64), dimension: Dimension) -> Self {
        let worth = Worth::Quantity { low: ends.0, high: ends.1, dimension, unit: None, digits: Digits::Significant(3), round: Round::Nearest };
        Self::new(name, letter, what, worth)
    }

    /// A bare number with three digits.
    pub(super) fn plain(name: &'static str, letter: &'static str, what: &str, value: f64, unit: &'static str) -> Self {
        Self::new(name, letter, what, Worth::Plain { low: value, high: value, unit, digits: 3 })
    }

    /// Words.
    pub(super) fn words(name: &'static str, what: &str, words: impl Into<String>) -> Self {
        Self::new(name, "", what, Worth::Words(words.into()))
    }

    /// The same, shown to a place.
    pub(super) fn shown_to_place(mut self, place: i32) -> Self {
        if let Worth::Quantity { digits, .. } = &mut self.worth {
            *digits = Digits::Place(place);
        }
        self
    }

    /// The same, with so many digits.
    pub(super) fn with_digits(mut self, count: i32) -> Self {
        match &mut self.worth {
            Worth::Quantity { digits, .. } => *digits = Digits::Significant(count),
            Worth::Plain { digits, .. } => *digits = count,
            Worth::Words(_) => {}
        }
        self
    }

    /// The same, rounded one way.
    pub(super) fn rounded(mut self, to: Round) -> Self {
        if let Worth::Quantity { round, .. } = &mut self.worth {
            *round = to;
        }
        self
    }

    /// The same, in this metric unit.
    pub(super) fn in_unit(mut self, symbol: &'static str) -> Self {
        if let Worth::Quantity { unit, .. } = &mut self.worth {
            *unit = Some(symbol);
        }
        self
    }

    /// Both ends in the base unit; `None` for words.
    #[must_use]
    pub fn ends(&self) -> Option<(f64, f64)> {
        match self.worth {
            Worth::Quantity { low, high, .. } | Worth::Plain { low, high, .. } => Some((low, high)),
            Worth::Words(_) => None,
        }
    }

    /// The unit its ends are in; empty for words and bare numbers.
    #[must_use]
    pub fn base_unit(&self) -> &'static str {
        match &self.worth {
            Worth::Quantity { dimension, .. } => dimension.base().symbol(),
            Worth::Plain { unit, .. } => unit,
            Worth::Words(_) => "",
        }
    }

    /// As it is shown: in the system of units of what was given, and in the other.
    #[must_use]
    pub fn shown(&self, given: &Given) -> String {
        match &self.worth {
            Worth::Words(words) => words.clone(),
            Worth::Plain { low, high, unit, digits } => {
                let number = |value: f64| Exact::from_f64(value).map_or_else(|| "–".to_owned(), |exact| exact.significant(*digits, Rounding::Nearest));
                let joined = join(&number(*low), &number(*high));
                if unit.is_empty() { joined } else { format!("{joined} {unit}") }
            }
            Worth::Quantity { low, high, dimension, unit, digits, round } => {
                let (first, second) = units(*dimension, *unit, low.abs().max(high.abs()), given);
                let shown = |unit: &'static Unit| ends_in(unit, (*low, *high), *digits, *round);
                second.map_or_else(|| shown(first), |second| format!("{} ({})", shown(first), shown(second)))
            }
        }
    }
}

impl Worth {
    /// One value with three digits.
    pub(super) fn one(value: f64, dimension: Dimension) -> Self {
        Self::Quantity { low: value, high: value, dimension, unit: None, digits: Digits::Significant(3), round: Round::Nearest }
    }
}

fn join(low: &str, high: &str) -> String {
    if low == high {
        low.to_owned()
    } else if low.contains('−') || high.contains('−') {
        format!("{low} to {high}")
    } else {
        format!("{low}–{high}")
    }
}

/// The usual unit of the other system; `None` where there is no other.
pub(super) fn counterpart(unit: &'static Unit, base: f64) -> Option<&'static Unit> {
    if !is_of_a_system(unit) {
        return None;
    }
    if is_inch(unit) {
        return Some(metric_unit(unit.dimension(), base).and_then(Unit::find).unwrap_or_else(|| unit.dimension().base()));
    }
    inch_unit(unit.dimension(), base).and_then(Unit::find)
}

/// Both ends in a unit, each rounded its way.
fn ends_in(unit: &'static Unit, (low, high): (f64, f64), digits: Digits, round: Round) -> String {
    let single = (high - low).abs() <= f64::EPSILON * high.abs().max(low.abs());
    let (down, up) = match round {
        Round::Nearest => (Rounding::Nearest, Rounding::Nearest),
        Round::Inward | Round::Outward if single => (Rounding::Nearest, Rounding::Nearest),
        Round::Inward => (Rounding::Up, Rounding::Down),
        Round::Outward => (Rounding::Down, Rounding::Up),
        Round::Up => (Rounding::Up, Rounding::Up),
        Round::Down => (Rounding::Down, Rounding::Down),
    };
    let finest = step(unit, low, digits).min(step(unit, high, digits));
    // A digit is added until the two ends can be told apart.
    for added in 0..6 {
        let (low_text, high_text) = (one_in(unit, low, finest - added, down), one_in(unit, high, finest - added, up));
        let reversed = Exact::from_f64(high).zip(Exact::from_f64(low)).is_some_and(|(high, low)| {
            low.rounded(finest - added, down) > high.rounded(finest - added, up)
        });
        if single || (low_text != high_text && !reversed) {
            return with_unit(unit, &join(&low_text, &high_text));
        }
    }
    with_unit(unit, &join(&one_in(unit, low, finest - 6, Rounding::Nearest), &one_in(unit, high, finest - 6, Rounding::Nearest)))
}

fn one_in(unit: &'static Unit, base: f64, step: i32, rounding: Rounding) -> String {
    let Some(value) = Exact::from_f64(base).map(|base| unit.from_base(&base)) else { return "–".to_owned() };
    // A hair left by binary fractions is no reason to go a whole step up.
    let clean = value.magnitude().map_or_else(Exact::zero, |magnitude| value.rounded(magnitude - 11, Rounding::Nearest));
    let rounded = clean.rounded(step, rounding);
    if rounded.is_zero() { "0".to_owned() } else { rounded.digits(step) }
}

/// A value in a unit with no more digits than it has, nine at most: 20 N·m.
pub(super) fn written_in(unit: &'static Unit, base: f64) -> String {
    let Some(value) = Exact::from_f64(base).map(|base| unit.from_base(&base)) else { return "–".to_owned() };
    let finest = value.magnitude().map_or(0, |magnitude| magnitude - 8).min(0);
    // A hair left by binary fractions is no digit.
    let clean = value.rounded(finest, Rounding::Nearest);
    let step = (finest..=0).rev().find(|step| clean.rounded(*step, Rounding::Nearest) == clean).unwrap_or(finest);
    with_unit(unit, &clean.digits(step))
}

/// The place of the last digit shown in a unit.
fn step(unit: &'static Unit, base: f64, digits: Digits) -> i32 {
    let Some(value) = Exact::from_f64(base) else { return 0 };
    let there = unit.from_base(&value).magnitude().unwrap_or(0);
    let here = value.magnitude().unwrap_or(0);
    match digits {
        Digits::Significant(count) => there + 1 - count,
        Digits::Place(place) if unit.exact_size().is_one() || unit.dimension() == Dimension::Temperature => place,
        // As many digits as in the base unit, and three at least.
        Digits::Place(place) => there + 1 - (here - place + 1).max(3),
    }
}

fn with_unit(unit: &Unit, digits: &str) -> String {
    match unit.symbol() {
        "" => digits.to_owned(),
        "°" => format!("{digits}°"),
        symbol => format!("{digits} {symbol}"),
    }
}

/// The unit a result is shown in first, and the one of the other system.
fn units(dimension: Dimension, metric: Option<&'static str>, base: f64, given: &Given) -> (&'static Unit, Option<&'static Unit>) {
    let given_units = given.entries().iter().filter(|entry| !entry.assumed).filter_map(|entry| entry.quantity()).map(crate::quantity::Quantity::unit);
    let own = given_units.clone().find(|unit| unit.dimension() == dimension);
    let inch_thread = given.entries().iter().filter_map(|entry| entry.thread()).any(|thread| !thread.is_metric() && thread.pipe().is_none());
    let inch_first = given_units.clone().find(|unit| is_of_a_system(unit)).map_or(inch_thread, is_inch);
    let metric_unit = metric.or_else(|| metric_unit(dimension, base)).and_then(Unit::find).unwrap_or_else(|| dimension.base());
    let inch_unit = inch_unit(dimension, base).and_then(Unit::find);
    match (own, inch_unit) {
        (Some(own), Some(_)) if is_inch(own) => (own, Some(metric_unit)),
        (Some(own), inch) if metric.is_none() && dimension != Dimension::Time => (own, inch.filter(|_| is_of_a_system(own))),
        (_, Some(inch)) if inch_first => (inch, Some(metric_unit)),
        (_, inch) => (metric_unit, inch),
    }
}

/// Whether a unit tells metric from inch.
fn is_of_a_system(unit: &Unit) -> bool {
    !matches!(unit.dimension(), Dimension::Angle | Dimension::Time | Dimension::Rotation | Dimension::Count | Dimension::Percent | Dimension::Ratio)
}

fn metric_unit(dimension: Dimension, base: f64) -> Option<&'static str> {
    Some(match dimension {
        Dimension::Force if base >= 1000.0 => "kN",
        Dimension::Volume if base >= 1000.0 => "L",
        Dimension::Time if base >= 172_800.0 => "d",
        Dimension::Time if base >= 7200.0 => "h",
        Dimension::Time if base >= 120.0 => "min",
        _ => return None,
    })
}

fn inch_unit(dimension: Dimension, base: f64) -> Option<&'static str> {
    Some(match dimension {
        // Wrenches graduated in lbf·ft begin about ten of it.
        Dimension::Torque if base < 13.558 => "lbf·in",
        Dimension::Torque => "lbf·ft",
        Dimension::Force => "lbf",
        Dimension::Length => "in",
        Dimension::Temperature => "°F",
        Dimension::TemperatureRise => "Δ°F",
        Dimension::Volume => "fl oz (US)",
        Dimension::Pressure => "psi",
        Dimension::Mass => "lb",
        _ => return None,
    })
}
