//! Chains of clearance: what lies between a hole and a part, over all their limits.
//!
//! Sources: arithmetic of limits (ISO 286-1, definitions); rules of thumb are marked where they stand.

use super::guard::{finite, positive};

/// Limits of a length or of a clearance, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Least, mm.
    pub low_mm: f64,
    /// Greatest, mm.
    pub high_mm: f64,
}

impl Span {
    /// The span, if its ends are numbers and the right way round.
    #[must_use]
    pub fn new(low_mm: f64, high_mm: f64) -> Option<Self> {
        (low_mm.is_finite() && high_mm.is_finite() && low_mm <= high_mm).then_some(Self { low_mm, high_mm })
    }

    /// Everything this plus that can come to.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        Self::new(self.low_mm + other.low_mm, self.high_mm + other.high_mm)
    }

    /// Everything this less that can come to.
    #[must_use]
    pub fn less(self, other: Self) -> Option<Self> {
        Self::new(self.low_mm - other.high_mm, self.high_mm - other.low_mm)
    }

    /// So many of it on top of each other.
    #[must_use]
    pub fn times(self, count: u32) -> Option<Self> {
        Self::new(self.low_mm * f64::from(count), self.high_mm * f64::from(count))
    }

    /// Whether a value lies in it, ends included; a nanometre outside is inside.
    #[must_use]
    pub fn holds(self, value_mm: f64) -> bool {
        self.low_mm - HAIR_MM <= value_mm && value_mm <= self.high_mm + HAIR_MM
    }

    /// Whether both ends agree with another span to half a step of what is stated.
    #[must_use]
    pub fn agrees_with(self, stated: Self, step_mm: f64) -> bool {
        let half = positive(step_mm).map_or(0.0, |step| step / 2.0) + HAIR_MM;
        (self.low_mm - stated.low_mm).abs() <= half && (self.high_mm - stated.high_mm).abs() <= half
    }
}

/// Clearance of a part in its hole: least hole less greatest part, to greatest hole less least part. Below zero it is
/// interference.
#[must_use]
pub fn clearance(hole: Span, part: Span) -> Option<Span> {
    positive(hole.low_mm)?;
    positive(part.low_mm)?;
    hole.less(part)
}

/// Usual end gap of a piston ring, mm: 0.0035 to 0.0055 of the bore (common practice).
#[must_use]
pub fn usual_end_gap(bore_mm: f64) -> Option<Span> {
    let bore = positive(bore_mm)?;
    Span::new(0.0035 * bore, 0.0055 * bore)
}

/// How much an end gap changes with the bore, mm: π times the change of the diameter (geometry).
#[must_use]
pub fn end_gap_change_mm(bore_change_mm: f64) -> Option<f64> {
    finite(std::f64::consts::PI * finite(bore_change_mm)?)
}

/// Clearance of a plain journal by the machinery rule, mm: 0.002 in and 0.001 in for each inch of diameter
/// (MIL-HDBK-1164); engines run closer.
#[must_use]
pub fn machinery_journal_clearance_mm(diameter_mm: f64) -> Option<f64> {
    finite(0.002 * 25.4 + 0.001 * positive(diameter_mm)?)
}

/// Offset of a centre whose full dial swing is known, mm: half of it (metrology; from memory).
#[must_use]
pub fn eccentricity_mm(total_swing_mm: f64) -> Option<f64> {
    finite(total_swing_mm).filter(|swing| *swing >= 0.0).map(|swing| swing / 2.0)
}

/// Lengths are written to a hundredth or a thousandth: a nanometre is no difference.
const HAIR_MM: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piston_in_its_bore() {
        let bore = Span::new(58.000, 58.015).unwrap();
        let piston = Span::new(57.955, 57.970).unwrap();
        let found = clearance(bore, piston).unwrap();
        assert!(found.agrees_with(Span::new(0.030, 0.060).unwrap(), 0.001));
        assert!(!found.agrees_with(Span::new(0.020, 0.050).unwrap(), 0.001));
    }

    #[test]
    fn end_gaps_of_a_small_bore() {
        let usual = usual_end_gap(58.0).unwrap();
        assert!(usual.agrees_with(Span::new(0.20, 0.32).unwrap(), 0.01));
        assert!(usual.holds(0.25) && !usual.holds(5.08));
    }

    #[test]
    fn a_stack_of_plates() {
        let one = |thickness| Span::new(thickness, thickness).unwrap();
        let stack = one(3.0).times(7).unwrap().plus(one(2.0).times(6).unwrap()).unwrap();
        assert!(stack.holds(33.0) && !stack.holds(32.0));
    }

    #[test]
    fn spans_that_are_none() {
        assert_eq!(Span::new(2.0, 1.0), None);
        assert_eq!(Span::new(f64::NAN, 1.0), None);
        let huge = Span::new(0.0, f64::MAX).unwrap();
        assert_eq!(huge.plus(huge), None);
        assert_eq!(clearance(Span { low_mm: 0.0, high_mm: 1.0 }, Span { low_mm: 0.5, high_mm: 0.6 }), None);
        assert_eq!(usual_end_gap(-58.0), None);
    }
}
