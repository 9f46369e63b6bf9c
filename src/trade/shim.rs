//! Choosing a shim: what the formula asks for, what the box has, and what each would give.
//!
//! Source: arithmetic; that a shim may lie half a step off the formula is common practice. What a chosen shim gives is
//! the formula solved for its `target`.

use super::clearance::Span;
use super::formula::{Formula, ReckonError};
use super::guard::{finite, positive};

/// The id in a shim's formula for what is wanted.
pub const TARGET: &str = "target";

/// The id in a shim's formula for what is read.
pub const READING: &str = "reading";

/// What a shim's target is, of the reading and the shim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TargetIs {
    /// What the shim leaves of the reading: a clamped gap that the shims fill but for a play.
    ReadingLessShim,
    /// What the shim is more than the reading: a cover that the shims keep off by a play.
    ShimLessReading,
    /// Both together: a height that the shims bring up to a measure.
    ReadingAndShim,
    /// Something else: the formula has other values or numbers.
    Other,
}

/// The thicknesses there are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimSeries {
    /// Thinnest, mm.
    pub from_mm: f64,
    /// Thickest, mm.
    pub to_mm: f64,
    /// From one to the next, mm.
    pub step_mm: f64,
}

/// One shim of the series and what it would give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimOffer {
    /// Its thickness, mm.
    pub size_mm: f64,
    /// What it makes of the target, mm; `None` where the formula has no target.
    pub gives_mm: Option<f64>,
    /// Whether that is accepted: within what is accepted, or half a step off the formula where nothing is stated.
    pub accepted: bool,
}

/// What a reading asks for and what the series offers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimChoice {
    /// What the formula comes to, mm.
    pub exact_mm: f64,
    /// The thickest shim not above that.
    pub below: Option<ShimOffer>,
    /// The thinnest shim above it.
    pub above: Option<ShimOffer>,
}

impl ShimSeries {
    /// The series, if it is one.
    #[must_use]
    pub fn new(from_mm: f64, to_mm: f64, step_mm: f64) -> Option<Self> {
        let (from_mm, to_mm, step_mm) = (positive(from_mm)?, positive(to_mm)?, positive(step_mm)?);
        let steps = (to_mm - from_mm) / step_mm;
        // Above a million steps neighbours can no longer be told apart.
        (0.0..1e6).contains(&steps).then_some(Self { from_mm, to_mm, step_mm })
    }

    /// Whether a thickness is in the series.
    #[must_use]
    pub fn has(&self, size_mm: f64) -> bool {
        self.not_above(size_mm).is_some_and(|size| (size - size_mm).abs() < HAIR_MM)
    }

    /// The thickest in the series that is not above a thickness, mm.
    #[must_use]
    pub fn not_above(&self, size_mm: f64) -> Option<f64> {
        let steps = ((finite(size_mm)? - self.from_mm + HAIR_MM) / self.step_mm).floor();
        (steps >= 0.0).then(|| self.at(steps.min(self.last_step())))
    }

    /// The thinnest in the series above a thickness, mm.
    #[must_use]
    pub fn above(&self, size_mm: f64) -> Option<f64> {
        let steps = (((finite(size_mm)? - self.from_mm + HAIR_MM) / self.step_mm).floor() + 1.0).max(0.0);
        (steps <= self.last_step()).then(|| self.at(steps))
    }

    fn last_step(&self) -> f64 {
        ((self.to_mm - self.from_mm + HAIR_MM) / self.step_mm).floor()
    }

    /// The thickness so many steps up, without the crumbs of the sum.
    fn at(&self, steps: f64) -> f64 {
        ((self.from_mm + steps * self.step_mm) * 1e6).round() / 1e6
    }
}

impl ShimChoice {
    /// The shim to take: of the accepted neighbours the one nearest to the formula, the thinner one of equals; `None`
    /// where the series has none that is accepted.
    #[must_use]
    pub fn best(&self) -> Option<ShimOffer> {
        let off = |offer: &ShimOffer| (offer.size_mm - self.exact_mm).abs();
        let accepted = [self.below, self.above].into_iter().flatten().filter(|offer| offer.accepted);
        accepted.reduce(|thin, thick| if off(&thick) + HAIR_MM < off(&thin) { thick } else { thin })
    }
}

/// What a formula with its values asks for, and the neighbours the series has to either side.
///
/// # Errors
/// A [`ReckonError`] where the formula has no value.
pub fn choose(
    formula: &Formula,
    value: &dyn Fn(&str) -> Option<f64>,
    series: ShimSeries,
    accept: Option<Span>,
) -> Result<ShimChoice, ReckonError> {
    let exact_mm = formula.evaluate(value)?;
    let offer = |size_mm: f64| -> Result<ShimOffer, ReckonError> {
        let gives_mm = gives(formula, value, size_mm)?;
        let near = (size_mm - exact_mm).abs() <= series.step_mm / 2.0 + HAIR_MM;
        let accepted = accept.zip(gives_mm).map_or(near, |(accept, gives)| accept.holds(gives));
        Ok(ShimOffer { size_mm, gives_mm, accepted })
    };
    Ok(ShimChoice {
        exact_mm,
        below: series.not_above(exact_mm).map(offer).transpose()?,
        above: match series.above(exact_mm) {
            // A shim that meets the formula exactly needs no other beside it.
            Some(_) if series.has(exact_mm) => None,
            other => other.map(offer).transpose()?,
        },
    })
}

/// What a shim makes of the target, mm; `None` where the formula has no target.
///
/// # Errors
/// A [`ReckonError`] where the formula cannot be solved for it.
pub fn gives(formula: &Formula, value: &dyn Fn(&str) -> Option<f64>, size_mm: f64) -> Result<Option<f64>, ReckonError> {
    if formula.names().contains(&TARGET) { formula.solve_for(TARGET, size_mm, value).map(Some) } else { Ok(None) }
}

/// What a formula makes of its target.
#[must_use]
pub fn target_is(formula: &Formula) -> TargetIs {
    if formula.names().iter().any(|name| ![READING, TARGET].contains(name)) {
        return TargetIs::Other;
    }
    let at = |reading: f64, target: f64| {
        let value = |name: &str| Some(if name == READING { reading } else { target });
        formula.evaluate(&value).unwrap_or(f64::NAN)
    };
    let is = |reading_weight: f64, target_weight: f64| {
        // Two points tell a straight sum's weights, the third that it is one, the first that nothing is added.
        [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (2.0, 3.0)].into_iter().all(|(reading, target)| (at(reading, target) - (reading_weight * reading + target_weight * target)).abs() < HAIR_MM)
    };
    match () {
        () if is(1.0, -1.0) => TargetIs::ReadingLessShim,
        () if is(1.0, 1.0) => TargetIs::ShimLessReading,
        () if is(-1.0, 1.0) => TargetIs::ReadingAndShim,
        () => TargetIs::Other,
    }
}

/// By how much a chosen shim misses the formula, mm, where that is more than half a step; `None` otherwise.
#[must_use]
pub fn misses_by_mm(chosen_mm: f64, exact_mm: f64, step_mm: f64) -> Option<f64> {
    let off = finite(finite(chosen_mm)? - finite(exact_mm)?)?;
    (off.abs() > positive(step_mm)? / 2.0 + HAIR_MM).then_some(off)
}

/// Shims are measured to a micrometre: a nanometre is no difference.
const HAIR_MM: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    fn pinion(name: &str) -> Option<f64> {
        [("old", 0.90), ("reading", 0.71), ("target", 0.64)].iter().find(|(known, _)| *known == name).map(|(_, value)| *value)
    }

    // The worked example of the pinion: 0.90 + 0.71 − 0.64 = 0.97; 0.95 gives 0.66, 1.00 gives 0.61; 0.62–0.66 is accepted.
    #[test]
    fn the_pinion_shim_comes_out() {
        let formula = Formula::parse("old + reading - target").unwrap();
        let series = ShimSeries::new(0.90, 1.10, 0.05).unwrap();
        let choice = choose(&formula, &pinion, series, Span::new(0.62, 0.66)).unwrap();
        assert!((choice.exact_mm - 0.97).abs() < 1e-12);
        let (below, above) = (choice.below.unwrap(), choice.above.unwrap());
        assert!((below.size_mm - 0.95).abs() < 1e-12 && (below.gives_mm.unwrap() - 0.66).abs() < 1e-12 && below.accepted);
        assert!((above.size_mm - 1.00).abs() < 1e-12 && (above.gives_mm.unwrap() - 0.61).abs() < 1e-12 && !above.accepted);
        assert_eq!(choice.best(), Some(below));
    }

    #[test]
    fn a_valve_shim_beyond_half_a_step_is_a_mistake() {
        assert!((misses_by_mm(2.30, 2.40, 0.05).unwrap() + 0.10).abs() < 1e-12);
        assert_eq!(misses_by_mm(2.40, 2.41, 0.05), None);
        assert_eq!(misses_by_mm(f64::NAN, 2.41, 0.05), None);
    }

    #[test]
    fn the_ends_of_the_box() {
        let series = ShimSeries::new(0.90, 1.10, 0.05).unwrap();
        assert_eq!((series.not_above(0.80), series.above(0.80)), (None, Some(0.90)));
        assert_eq!((series.not_above(1.30), series.above(1.30)), (Some(1.10), None));
        assert_eq!((series.not_above(1.00), series.above(1.00)), (Some(1.00), Some(1.05)));
        assert!(series.has(0.95) && !series.has(0.97) && !series.has(f64::NAN));
    }

    #[test]
    fn a_formula_without_a_target_is_taken_to_half_a_step() {
        let formula = Formula::parse("reading - preload").unwrap();
        let value = |name: &str| [("reading", 0.62), ("preload", 0.04)].iter().find(|(known, _)| *known == name).map(|(_, value)| *value);
        let choice = choose(&formula, &value, ShimSeries::new(0.40, 0.80, 0.05).unwrap(), None).unwrap();
        assert!((choice.best().unwrap().size_mm - 0.60).abs() < 1e-12);
        assert_eq!(choice.best().unwrap().gives_mm, None);
    }

    // Arithmetic: shim = reading + target is target = shim − reading, and so on.
    #[test]
    fn a_target_is_what_the_formula_turned_round_says() {
        let told = |text: &str| target_is(&Formula::parse(text).unwrap());
        for text in ["reading - target", "(reading - target)", "reading - 1 × target", "2 × reading - target - reading"] {
            assert_eq!(told(text), TargetIs::ReadingLessShim, "{text}");
        }
        assert_eq!(told("reading + target"), TargetIs::ShimLessReading);
        assert_eq!(told("target + reading"), TargetIs::ShimLessReading);
        assert_eq!(told("target - reading"), TargetIs::ReadingAndShim);
        for text in ["reading", "old + reading - target", "reading - crush - target", "reading + 0.1 - target", "(reading - target) ÷ 2", "reading × target", "reading + target ÷ reading"] {
            assert_eq!(told(text), TargetIs::Other, "{text}");
        }
    }

    #[test]
    fn series_that_are_none() {
        for (from, to, step) in [(1.0, 0.9, 0.05), (0.9, 1.1, 0.0), (f64::NAN, 1.1, 0.05), (0.9, f64::INFINITY, 0.05), (0.9, 1e9, 1e-9)] {
            assert_eq!(ShimSeries::new(from, to, step), None, "{from} {to} {step}");
        }
    }
}
