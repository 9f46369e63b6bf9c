//! Strip strength: what load shears the thread of a hole or of the bolt.
//!
//! Sources: shear areas of FED-STD-H28/2B at least material (see `thread_limits`); shear strength of a material as a share
//! of its tensile strength, about 0.6 (handbooks; from memory); strengths of the materials as the low end of what is
//! cast and rolled for machines (from memory: a screening, no design value).

use super::engagement::InternalMaterial;
use super::guard::{finite, not_negative, positive};
use super::thread::Thread;

/// Shear strength as a share of tensile strength (handbooks; from memory).
pub const SHEAR_SHARE: f64 = 0.6;

/// Loads at which a joint's threads strip, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripLoads {
    /// The hole's or nut's thread.
    pub internal_n: f64,
    /// The bolt's thread.
    pub external_n: f64,
}

impl StripLoads {
    /// The load at which the weaker of the two goes.
    #[must_use]
    pub fn weaker_n(self) -> f64 {
        self.internal_n.min(self.external_n)
    }
}

impl InternalMaterial {
    /// Shear strength for screening, `MPa`: mild steel of 400 `MPa`, grey iron of 250 (where shear is near tension), cast
    /// aluminium of 200, cast magnesium of 160, brass of 350 `MPa` tensile strength. From memory; low ends.
    #[must_use]
    pub fn shear_mpa(self) -> f64 {
        match self {
            Self::Steel => 400.0 * SHEAR_SHARE,
            Self::CastIron => 220.0,
            Self::Aluminium => 200.0 * SHEAR_SHARE,
            Self::Magnesium => 160.0 * SHEAR_SHARE,
            Self::Brass => 350.0 * SHEAR_SHARE,
        }
    }
}

/// Loads at which the threads strip over a length of engagement. One pitch of it is taken off: the first and last turns
/// bear little (common practice; VDI 2230-1 takes off 0.8).
#[must_use]
pub fn strip_loads(thread: &Thread, engagement_mm: f64, into: InternalMaterial, bolt_tensile_mpa: f64) -> Option<StripLoads> {
    let bearing_mm = not_negative((positive(engagement_mm)? - thread.pitch_mm()).max(0.0))?;
    let areas = thread.shear_areas();
    Some(StripLoads {
        internal_n: finite(areas.internal_mm2_per_mm * bearing_mm * into.shear_mpa())?,
        external_n: finite(areas.external_mm2_per_mm * bearing_mm * SHEAR_SHARE * positive(bolt_tensile_mpa)?)?,
    })
}

/// Engagement over which a thread shears no sooner than the bolt breaks, where nut and bolt are of one strength, mm:
/// twice the stress area in shear (FED-STD-H28/2B).
#[must_use]
pub fn equal_strength_engagement_mm(thread: &Thread) -> Option<f64> {
    positive(2.0 * thread.form().stress_area_mm2 / thread.shear_areas().external_mm2_per_mm)
}

/// Engagement a hole needs so that a preload does not strip it, mm, with the pitch that bears little added.
#[must_use]
pub fn engagement_for_preload_mm(thread: &Thread, preload_n: f64, into: InternalMaterial) -> Option<f64> {
    let per_mm = thread.shear_areas().internal_mm2_per_mm * into.shear_mpa();
    finite(not_negative(preload_n)? / positive(per_mm)? + thread.pitch_mm())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thread(text: &str) -> Thread {
        Thread::parse(text).unwrap()
    }

    #[test]
    fn soft_holes_strip_first_and_hard_bolts_last() {
        for into in [InternalMaterial::Steel, InternalMaterial::CastIron, InternalMaterial::Aluminium, InternalMaterial::Magnesium] {
            let loads = strip_loads(&thread("M8x1.25"), 12.0, into, 800.0).unwrap();
            assert!(loads.internal_n < loads.external_n);
            assert!((loads.weaker_n() - loads.internal_n).abs() < 1e-9);
        }
    }

    // A class 8.8 bolt at full proof load holds in aluminium over the 1.5 diameters the screening asks for, and does not
    // over half of that.
    #[test]
    fn the_needed_engagement_bears_the_proof_load() {
        for (size, proof) in [("M6x1.0", 580.0), ("M8x1.25", 580.0), ("M10x1.5", 580.0)] {
            let thread = thread(size);
            let proof_load = thread.form().stress_area_mm2 * proof;
            let needed = 1.5 * thread.diameter_mm();
            assert!(strip_loads(&thread, needed, InternalMaterial::Aluminium, 800.0).unwrap().weaker_n() > proof_load, "{size}");
            assert!(strip_loads(&thread, needed / 2.0, InternalMaterial::Aluminium, 800.0).unwrap().weaker_n() < proof_load, "{size}");
        }
    }

    #[test]
    fn the_inverse_is_the_inverse() {
        let thread = thread("M8x1.25");
        let needed = engagement_for_preload_mm(&thread, 15_000.0, InternalMaterial::Aluminium).unwrap();
        let load = strip_loads(&thread, needed, InternalMaterial::Aluminium, 800.0).unwrap().internal_n;
        assert!((load - 15_000.0).abs() < 1e-6);
    }

    #[test]
    fn no_engagement_bears_nothing() {
        let thread = thread("M8x1.25");
        assert_eq!(strip_loads(&thread, 1.0, InternalMaterial::Steel, 800.0).map(StripLoads::weaker_n), Some(0.0));
        assert_eq!(strip_loads(&thread, f64::NAN, InternalMaterial::Steel, 800.0), None);
        assert_eq!(engagement_for_preload_mm(&thread, -1.0, InternalMaterial::Steel), None);
    }
}
