//! Drag of a bearing, measured by a cord round its shaft.
//!
//! Source: F = T/r.

use super::guard::{finite, not_negative, positive};

/// Pull on a cord at a radius that a torque makes, N.
#[must_use]
pub fn pull_n(torque_nm: f64, radius_mm: f64) -> Option<f64> {
    finite(not_negative(torque_nm)? * 1000.0 / positive(radius_mm)?)
}

/// Torque a pull on a cord at a radius makes, N·m.
#[must_use]
pub fn torque_nm(pull_n: f64, radius_mm: f64) -> Option<f64> {
    finite(not_negative(pull_n)? * positive(radius_mm)? / 1000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_worm_shaft_of_sixty_millimetres() {
        assert_eq!((pull_n(0.6, 30.0), pull_n(0.9, 30.0)), (Some(20.0), Some(30.0)));
        assert!((torque_nm(20.0, 30.0).unwrap() - 0.6).abs() < 1e-12);
    }

    #[test]
    fn no_radius_no_pull() {
        assert_eq!((pull_n(0.6, 0.0), pull_n(f64::NAN, 30.0), torque_nm(-1.0, 30.0)), (None, None, None));
    }
}
