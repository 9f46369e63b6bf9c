//! Volumes of a cylinder and its compression.
//!
//! Source: geometry, V = π/4·b²·s; compression ratio (Vs + Vc)/Vc.

use super::guard::{finite, positive};
use std::f64::consts::FRAC_PI_4;

/// Volume of a bore over a length (a stroke, or the gap above a piston), cm³.
#[must_use]
pub fn volume_cm3(bore_mm: f64, length_mm: f64) -> Option<f64> {
    finite(FRAC_PI_4 * positive(bore_mm)?.powi(2) * positive(length_mm)? / 1000.0)
}

/// Displacement of all cylinders, cm³.
#[must_use]
pub fn displacement_cm3(cylinders: u32, bore_mm: f64, stroke_mm: f64) -> Option<f64> {
    positive(f64::from(cylinders) * volume_cm3(bore_mm, stroke_mm)?)
}

/// Compression ratio of a swept and a clearance volume in the same unit.
#[must_use]
pub fn compression_ratio(swept: f64, clearance: f64) -> Option<f64> {
    let clearance = positive(clearance)?;
    finite((positive(swept)? + clearance) / clearance)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_cylinders_of_an_outboard() {
        assert!((displacement_cm3(2, 58.0, 66.0).unwrap() - 348.8).abs() < 0.1);
        assert_eq!(displacement_cm3(0, 58.0, 66.0), None);
    }

    #[test]
    fn no_bore_no_volume() {
        assert_eq!((volume_cm3(0.0, 66.0), volume_cm3(f64::MAX, 1.0), compression_ratio(500.0, 0.0)), (None, None, None));
    }
}
