//! Arc and angle: a mark so many millimetres along a rim.
//!
//! Source: geometry, θ = 360°·s/(π·D).

use super::guard::{finite, positive};
use std::f64::consts::PI;

/// Angle of an arc on a diameter, degrees.
#[must_use]
pub fn degrees(arc_mm: f64, diameter_mm: f64) -> Option<f64> {
    finite(360.0 * finite(arc_mm)? / (PI * positive(diameter_mm)?))
}

/// Arc of an angle on a diameter, mm.
#[must_use]
pub fn arc_mm(angle_deg: f64, diameter_mm: f64) -> Option<f64> {
    finite(PI * positive(diameter_mm)? * finite(angle_deg)? / 360.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_millimetres_on_a_flywheel() {
        assert!((degrees(2.0, 98.0).unwrap() - 2.34).abs() < 0.005);
        assert!((arc_mm(360.0, 98.0).unwrap() - 98.0 * PI).abs() < 1e-9);
    }

    #[test]
    fn no_rim_no_angle() {
        assert_eq!((degrees(2.0, 0.0), degrees(f64::NAN, 98.0), arc_mm(1.0, -98.0)), (None, None, None));
        assert_eq!(degrees(f64::MAX, 1e-300), None);
    }
}
