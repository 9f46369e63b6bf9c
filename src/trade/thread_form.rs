//! The basic form of a screw thread: its diameters, its stress area, the areas that shear when it strips.
//!
//! Sources: ISO 68-1 (basic profile, H = √3/2·P), ISO 724 (d2 = d − 3/4·H, D1 = d − 5/4·H), ISO 898-1:2013, 9.1.6.1
//! (d3 = d1 − H/6, stress area π/4·((d2 + d3)/2)²), ASME B1.1 and FED-STD-H28/2B (Unified stress area
//! π/4·(D − 0.9743/n)²; shear areas of external and internal threads), ISO 228-1 (pipe threads: d2 = d − h,
//! D1 = d − 2·h, h = 0.640327·P; from memory), ASME B1.20.1 (NPT: h = 0.8·P; from memory).

use super::guard::{finite, positive};
use super::thread::{Thread, ThreadSize};
use super::thread_pipe::{AMERICAN_DEPTH, PipeForm, WHITWORTH_DEPTH, WHITWORTH_HEIGHT};
use std::f64::consts::{FRAC_PI_4, PI};

/// Half of √3: the height of the fundamental triangle for a pitch of 1.
const HALF_ROOT_THREE: f64 = 0.866_025_403_784_438_6;
/// 1/√3: the tangent of the flank angle of 30°.
pub(super) const TAN_FLANK: f64 = 0.577_350_269_189_625_8;

/// The basic sizes of a thread: with a 60° profile, of a pipe thread of ISO with one of 55°, of a taper one in its gauge plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadForm {
    /// Nominal diameter d, mm.
    pub major_mm: f64,
    /// Pitch P, mm.
    pub pitch_mm: f64,
    /// Height of the fundamental triangle H, mm.
    pub height_mm: f64,
    /// Pitch diameter d2 = D2, mm.
    pub pitch_diameter_mm: f64,
    /// Minor diameter of the nut D1 (and of the basic profile d1), mm.
    pub internal_minor_mm: f64,
    /// Minor diameter at the root of the bolt d3, mm.
    pub root_mm: f64,
    /// Stress area As, mm².
    pub stress_area_mm2: f64,
}

impl Thread {
    /// The basic form of the thread.
    #[must_use]
    pub fn form(&self) -> ThreadForm {
        let form = profile(self.diameter_mm(), self.pitch_mm());
        match self.size {
            ThreadSize::Metric { .. } => form,
            ThreadSize::Unified { diameter, per_inch, .. } => {
                let mean_in = diameter - 0.9743 / f64::from(per_inch);
                ThreadForm { stress_area_mm2: FRAC_PI_4 * (mean_in * 25.4).powi(2), ..form }
            }
            ThreadSize::Pipe { form: PipeForm::Npt, .. } => american(self.diameter_mm(), self.pitch_mm()),
            ThreadSize::Pipe { .. } => whitworth(self.diameter_mm(), self.pitch_mm()),
        }
    }

    /// Diameter of the drill for tapping, mm: d − P to the nearest 0.1 mm (0.05 mm below 3 mm), but for the metric sizes where the standard goes
    /// below that.
    ///
    /// Source: drill list of ISO 2306 for metric threads (also DIN 336), from memory; other threads: d − P, common practice.
    #[must_use]
    pub fn tap_drill_mm(&self) -> f64 {
        if self.is_metric()
            && let Some((.., drill)) = FINER_DRILLS.iter().find(|(diameter, pitch, _)| (*diameter, *pitch) == (self.diameter_mm(), self.pitch_mm()))
        {
            return *drill;
        }
        let step_per_mm = if self.diameter_mm() < 3.0 { 20.0 } else { 10.0 };
        // The small addition takes a half step up as written, though the subtraction may land a hair below.
        ((self.diameter_mm() - self.pitch_mm()) * step_per_mm + 0.5 + 1e-6).floor() / step_per_mm
    }
}

/// Diameter, pitch, tap drill, mm: where ISO 2306 is not d − P to the nearest step (from memory; each lies within the limits of 6H).
static FINER_DRILLS: &[(f64, f64, f64)] = &[
    (3.0, 0.35, 2.65),
    (3.5, 0.35, 3.15),
    (6.0, 0.75, 5.2),
    (7.0, 0.75, 6.2),
    (8.0, 0.75, 7.2),
    (9.0, 0.75, 8.2),
    (10.0, 0.75, 9.2),
    (11.0, 0.75, 10.2),
    (12.0, 1.75, 10.2),
];

/// The form of an ISO metric thread, also of one outside the series of ISO 261.
///
/// `None` where the sizes are no lengths, or the pitch leaves no core.
#[must_use]
pub fn metric_form(diameter_mm: f64, pitch_mm: f64) -> Option<ThreadForm> {
    let form = profile(positive(diameter_mm)?, positive(pitch_mm)?);
    positive(form.root_mm)?;
    finite(form.stress_area_mm2)?;
    Some(form)
}

impl ThreadForm {
    /// Area that shears when the bolt's thread strips, mm² for each mm of engagement, at basic sizes.
    ///
    /// Source: FED-STD-H28/2B, π·Kn·(1/2 + n·tan 30°·(Es − Kn)) with basic diameters.
    #[must_use]
    pub fn external_shear_mm2_per_mm(&self) -> f64 {
        external_shear(self.pitch_mm, self.pitch_diameter_mm, self.internal_minor_mm)
    }

    /// Area that shears when the nut's or hole's thread strips, mm² for each mm of engagement, at basic sizes.
    ///
    /// Source: FED-STD-H28/2B, π·Ds·(1/2 + n·tan 30°·(Ds − En)) with basic diameters.
    #[must_use]
    pub fn internal_shear_mm2_per_mm(&self) -> f64 {
        internal_shear(self.pitch_mm, self.major_mm, self.pitch_diameter_mm)
    }
}

/// Shear area of external threads per length, from the bolt's pitch diameter and the nut's minor diameter.
pub(super) fn external_shear(pitch: f64, bolt_pitch_diameter: f64, nut_minor: f64) -> f64 {
    PI * nut_minor * (0.5 + TAN_FLANK * (bolt_pitch_diameter - nut_minor) / pitch)
}

/// Shear area of internal threads per length, from the bolt's major diameter and the nut's pitch diameter.
pub(super) fn internal_shear(pitch: f64, bolt_major: f64, nut_pitch_diameter: f64) -> f64 {
    PI * bolt_major * (0.5 + TAN_FLANK * (bolt_major - nut_pitch_diameter) / pitch)
}

/// A Whitworth form. No standard gives it a stress area: a fitting is bored through. What stands there is the area over
/// the mean of pitch and root diameter, of a plug that is not.
fn whitworth(major_mm: f64, pitch_mm: f64) -> ThreadForm {
    // The tables of the standards reckon with the depth rounded to a micrometre.
    let depth_mm = (WHITWORTH_DEPTH * pitch_mm * 1e3).round() / 1e3;
    of_pipe(major_mm, pitch_mm, depth_mm, WHITWORTH_HEIGHT * pitch_mm)
}

/// The form of an American taper pipe thread in its hand-tight plane.
fn american(major_mm: f64, pitch_mm: f64) -> ThreadForm {
    of_pipe(major_mm, pitch_mm, AMERICAN_DEPTH * pitch_mm, HALF_ROOT_THREE * pitch_mm)
}

fn of_pipe(major_mm: f64, pitch_mm: f64, depth_mm: f64, height_mm: f64) -> ThreadForm {
    let pitch_diameter_mm = major_mm - depth_mm;
    let minor_mm = major_mm - 2.0 * depth_mm;
    ThreadForm {
        major_mm,
        pitch_mm,
        height_mm,
        pitch_diameter_mm,
        internal_minor_mm: minor_mm,
        root_mm: minor_mm,
        stress_area_mm2: FRAC_PI_4 * f64::midpoint(pitch_diameter_mm, minor_mm).powi(2),
    }
}

fn profile(major_mm: f64, pitch_mm: f64) -> ThreadForm {
    let height_mm = HALF_ROOT_THREE * pitch_mm;
    let pitch_diameter_mm = major_mm - 0.75 * height_mm;
    let internal_minor_mm = major_mm - 1.25 * height_mm;
    let root_mm = internal_minor_mm - height_mm / 6.0;
    let stress_area_mm2 = FRAC_PI_4 * f64::midpoint(pitch_diameter_mm, root_mm).powi(2);
    ThreadForm { major_mm, pitch_mm, height_mm, pitch_diameter_mm, internal_minor_mm, root_mm, stress_area_mm2 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_thread_has_no_form() {
        for (diameter, pitch) in [(0.0, 1.0), (8.0, 0.0), (-8.0, 1.0), (8.0, 7.0), (f64::NAN, 1.0), (8.0, f64::INFINITY), (1e300, 1.0)] {
            assert_eq!(metric_form(diameter, pitch), None, "{diameter} × {pitch}");
        }
    }

    #[test]
    fn a_fine_thread_is_stronger_and_engages_less_deep() {
        let (coarse, fine) = (metric_form(12.0, 1.75).unwrap(), metric_form(12.0, 1.25).unwrap());
        assert!(fine.stress_area_mm2 > coarse.stress_area_mm2);
        assert!(fine.height_mm < coarse.height_mm);
    }

    // On the basic profile the two areas are 3/4·π·D1 and 7/8·π·d for each mm: half the pitch, and what the flanks add.
    #[test]
    fn the_shear_areas_are_the_shares_of_the_basic_profile() {
        let form = metric_form(10.0, 1.5).unwrap();
        assert!((form.external_shear_mm2_per_mm() - 0.75 * PI * form.internal_minor_mm).abs() < 1e-9);
        assert!((form.internal_shear_mm2_per_mm() - 0.875 * PI * 10.0).abs() < 1e-9);
    }
}
