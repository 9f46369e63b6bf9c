//! Beads of sealant: how much a joint takes.
//!
//! Source: geometry, V = π/4·d²·L.

use super::guard::{finite, positive};
use std::f64::consts::FRAC_PI_4;

/// Volume of a round bead, mL.
#[must_use]
pub fn volume_ml(diameter_mm: f64, path_mm: f64) -> Option<f64> {
    finite(FRAC_PI_4 * positive(diameter_mm)?.powi(2) * positive(path_mm)? / 1000.0)
}

/// Path a tube reaches for, mm.
#[must_use]
pub fn path_mm(volume_ml: f64, diameter_mm: f64) -> Option<f64> {
    finite(positive(volume_ml)? * 1000.0 / (FRAC_PI_4 * positive(positive(diameter_mm)?.powi(2))?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crankcase_joint() {
        assert!((volume_ml(2.0, 820.0).unwrap() - 2.576).abs() < 0.001);
        assert!((path_mm(volume_ml(2.0, 820.0).unwrap(), 2.0).unwrap() - 820.0).abs() < 1e-9);
    }

    #[test]
    fn no_bead_no_volume() {
        assert_eq!((volume_ml(0.0, 820.0), volume_ml(2.0, f64::INFINITY), path_mm(1.0, 1e-200)), (None, None, None));
    }
}
