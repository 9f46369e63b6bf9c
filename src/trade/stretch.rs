//! Angle, advance and stretch of a bolt.
//!
//! Source: elastic bolt, δ = F·L/(E·A) (MIL-HDBK-60, 6.2.1, δ = f·L/E); geometry of the thread.

use super::guard::{finite, not_negative, positive};

/// Modulus of elasticity of steel, `MPa` (handbooks; 206 000 to 210 000 are in use).
pub const STEEL_MODULUS_MPA: f64 = 206_000.0;

/// How far a nut moves along its bolt when it is turned, mm.
#[must_use]
pub fn advance_mm(pitch_mm: f64, angle_deg: f64) -> Option<f64> {
    finite(positive(pitch_mm)? * not_negative(angle_deg)? / 360.0)
}

/// Stretch of a bolt, mm.
#[must_use]
pub fn stretch_mm(preload_n: f64, length_mm: f64, area_mm2: f64, modulus_mpa: f64) -> Option<f64> {
    finite(not_negative(preload_n)? * positive(length_mm)? / (positive(modulus_mpa)? * positive(area_mm2)?))
}

/// Angle that stretches a bolt to a preload where the joint itself does not give, degrees: less than any real joint needs.
#[must_use]
pub fn angle_for_preload_deg(preload_n: f64, length_mm: f64, area_mm2: f64, pitch_mm: f64, modulus_mpa: f64) -> Option<f64> {
    finite(360.0 * stretch_mm(preload_n, length_mm, area_mm2, modulus_mpa)? / positive(pitch_mm)?)
}

/// Angle of a number of flats of a hexagon, degrees.
#[must_use]
pub fn flats_deg(flats: f64) -> Option<f64> {
    finite(60.0 * not_negative(flats)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angle_and_advance_undo_each_other() {
        let angle = angle_for_preload_deg(20_000.0, 35.0, 36.6, 1.25, STEEL_MODULUS_MPA).unwrap();
        let stretch = stretch_mm(20_000.0, 35.0, 36.6, STEEL_MODULUS_MPA).unwrap();
        assert!((advance_mm(1.25, angle).unwrap() - stretch).abs() < 1e-12);
    }

    #[test]
    fn absurd_bolts_do_not_stretch() {
        assert_eq!(stretch_mm(1e4, 0.0, 36.6, STEEL_MODULUS_MPA), None);
        assert_eq!(stretch_mm(f64::NAN, 30.0, 36.6, STEEL_MODULUS_MPA), None);
        assert_eq!(advance_mm(1.25, f64::INFINITY), None);
        assert_eq!(flats_deg(-1.0), None);
    }
}
