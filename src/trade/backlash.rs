//! Backlash read on a dial that does not sit at the gear's radius.
//!
//! Source: geometry of the lever: backlash at the gear = reading · `r_gear/r_dial`.

use super::clearance::Span;
use super::guard::{finite, positive};

/// Where gear and dial sit, mm from the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BacklashRadii {
    /// Radius at which the backlash is specified, mm.
    pub gear_mm: f64,
    /// Radius at which the dial touches, mm.
    pub dial_mm: f64,
}

impl BacklashRadii {
    /// Backlash at the gear of a reading at the dial, mm.
    #[must_use]
    pub fn at_gear_mm(self, reading_mm: f64) -> Option<f64> {
        finite(finite(reading_mm)? * positive(self.gear_mm)? / positive(self.dial_mm)?)
    }

    /// Reading at the dial of a backlash at the gear, mm.
    #[must_use]
    pub fn at_dial_mm(self, backlash_mm: f64) -> Option<f64> {
        finite(finite(backlash_mm)? * positive(self.dial_mm)? / positive(self.gear_mm)?)
    }

    /// The limits of a backlash as the dial shows them, rounded inward to its resolution, so that no reading inside them
    /// lies outside the limits at the gear; `None` where nothing is left between them.
    #[must_use]
    pub fn limits_at_dial(self, limits: Span, resolution_mm: f64) -> Option<Span> {
        let step = positive(resolution_mm)?;
        let low = self.inward(limits, (self.at_dial_mm(limits.low_mm)? / step).ceil() - 1.0, step, 1.0)?;
        let high = self.inward(limits, (self.at_dial_mm(limits.high_mm)? / step).floor() + 1.0, step, -1.0)?;
        Span::new(low, high)
    }

    /// The first of three neighbouring steps that lies inside at the gear: the division may land a hair to either side.
    fn inward(self, limits: Span, from: f64, step: f64, direction: f64) -> Option<f64> {
        [0.0, 1.0, 2.0].into_iter().find_map(|further| {
            let reading = finite((from + direction * further) * step)?;
            let backlash = self.at_gear_mm(reading)?;
            let inside = limits.low_mm - HAIR_MM <= backlash && backlash <= limits.high_mm + HAIR_MM;
            inside.then_some(reading)
        })
    }
}

/// What rounding may add to a limit that is met exactly, mm: a millionth of a micrometre.
const HAIR_MM: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    const PINION: BacklashRadii = BacklashRadii { gear_mm: 70.0, dial_mm: 90.0 };

    #[test]
    fn a_reading_farther_out_is_larger_than_the_backlash() {
        assert!((PINION.at_gear_mm(0.24).unwrap() - 0.187).abs() < 0.0005);
        let limits = PINION.limits_at_dial(Span::new(0.12, 0.22).unwrap(), 0.001).unwrap();
        assert!((limits.low_mm - 0.155).abs() < 1e-9 && (limits.high_mm - 0.282).abs() < 1e-9);
    }

    #[test]
    fn limits_met_exactly_stay_as_they_are() {
        let same = BacklashRadii { gear_mm: 70.0, dial_mm: 70.0 };
        let limits = same.limits_at_dial(Span::new(0.12, 0.22).unwrap(), 0.01).unwrap();
        assert!((limits.low_mm - 0.12).abs() < 1e-9 && (limits.high_mm - 0.22).abs() < 1e-9);
    }

    #[test]
    fn a_dial_too_coarse_shows_nothing_between() {
        assert_eq!(PINION.limits_at_dial(Span::new(0.12, 0.13).unwrap(), 0.1), None);
        assert_eq!(PINION.limits_at_dial(Span::new(0.12, 0.22).unwrap(), 0.0), None);
        assert_eq!(BacklashRadii { gear_mm: f64::NAN, dial_mm: 90.0 }.at_gear_mm(0.2), None);
        assert_eq!(BacklashRadii { gear_mm: 70.0, dial_mm: 0.0 }.at_dial_mm(0.2), None);
    }
}
