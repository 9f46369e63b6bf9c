//! Limits of size of screw threads: ISO metric 6g and 6H, Unified 2A and 2B.
//!
//! Sources: ISO 965-1 (tables of the fundamental deviation es of position g and of the tolerances of grade 6; from
//! memory, compared row by row with the limits in the thread data of `FreeCAD` 0.20.2), ASME B1.1 (formulas of the
//! allowance and the tolerances of classes 2A and 2B, length of engagement one diameter; from memory, compared likewise).

use super::thread::{Thread, ThreadSize};
use super::thread_form::{external_shear, internal_shear};

/// The largest and smallest a diameter may be, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DiameterLimits {
    /// Smallest, mm.
    pub low_mm: f64,
    /// Largest, mm.
    pub high_mm: f64,
}

/// Limits of a bolt's thread before coating (6g, 2A).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExternalLimits {
    /// Over the crests.
    pub major: DiameterLimits,
    /// On the flanks.
    pub pitch_diameter: DiameterLimits,
}

/// Limits of a nut's or hole's thread (6H, 2B).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InternalLimits {
    /// The bore that is tapped.
    pub minor: DiameterLimits,
    /// On the flanks.
    pub pitch_diameter: DiameterLimits,
}

/// What shears when a thread strips, mm² for each mm of engagement, with both threads at their least material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShearAreas {
    /// The bolt's thread.
    pub external_mm2_per_mm: f64,
    /// The nut's or hole's thread.
    pub internal_mm2_per_mm: f64,
}

impl Thread {
    /// Limits of the bolt's thread; `None` for a pitch the table does not hold (below M3 as a rule) and for pipe threads.
    #[must_use]
    pub fn external_limits(&self) -> Option<ExternalLimits> {
        match self.size {
            ThreadSize::Metric { diameter, pitch } => metric_external(self, diameter, pitch),
            ThreadSize::Unified { diameter, per_inch, .. } => Some(unified_external(diameter, per_inch)),
            ThreadSize::Pipe { .. } => None,
        }
    }

    /// Limits of the nut's thread; `None` as for [`Thread::external_limits`].
    #[must_use]
    pub fn internal_limits(&self) -> Option<InternalLimits> {
        match self.size {
            ThreadSize::Metric { diameter, pitch } => metric_internal(self, diameter, pitch),
            ThreadSize::Unified { diameter, per_inch, .. } => Some(unified_internal(diameter, per_inch)),
            ThreadSize::Pipe { .. } => None,
        }
    }

    /// The shear areas with the least material the limits allow, and at basic sizes where no limits are known.
    ///
    /// Source: FED-STD-H28/2B, AS = π·Kn,max·(1/2 + n·tan 30°·(Es,min − Kn,max)) for the bolt and
    /// π·Ds,min·(1/2 + n·tan 30°·(Ds,min − En,max)) for the nut, each times the length of engagement.
    #[must_use]
    pub fn shear_areas(&self) -> ShearAreas {
        let form = self.form();
        match (self.external_limits(), self.internal_limits()) {
            (Some(bolt), Some(nut)) => ShearAreas {
                external_mm2_per_mm: external_shear(form.pitch_mm, bolt.pitch_diameter.low_mm, nut.minor.high_mm),
                internal_mm2_per_mm: internal_shear(form.pitch_mm, bolt.major.low_mm, nut.pitch_diameter.high_mm),
            },
            _ => ShearAreas {
                external_mm2_per_mm: form.external_shear_mm2_per_mm(),
                internal_mm2_per_mm: form.internal_shear_mm2_per_mm(),
            },
        }
    }
}

fn below(high_mm: f64, tolerance_mm: f64) -> DiameterLimits {
    DiameterLimits { low_mm: high_mm - tolerance_mm, high_mm }
}

fn above(low_mm: f64, tolerance_mm: f64) -> DiameterLimits {
    DiameterLimits { low_mm, high_mm: low_mm + tolerance_mm }
}

fn metric_external(thread: &Thread, diameter: f64, pitch: f64) -> Option<ExternalLimits> {
    let row = METRIC_CRESTS.iter().find(|row| same(row.pitch_mm, pitch))?;
    let flanks = metric_flanks(diameter, pitch)?;
    let shift_mm = row.deviation_um / 1000.0;
    Some(ExternalLimits {
        major: below(diameter - shift_mm, row.major_um / 1000.0),
        pitch_diameter: below(thread.form().pitch_diameter_mm - shift_mm, flanks.bolt_um / 1000.0),
    })
}

fn metric_internal(thread: &Thread, diameter: f64, pitch: f64) -> Option<InternalLimits> {
    let row = METRIC_CRESTS.iter().find(|row| same(row.pitch_mm, pitch))?;
    let flanks = metric_flanks(diameter, pitch)?;
    let form = thread.form();
    Some(InternalLimits {
        minor: above(form.internal_minor_mm, row.minor_um / 1000.0),
        pitch_diameter: above(form.pitch_diameter_mm, flanks.nut_um / 1000.0),
    })
}

fn metric_flanks(diameter: f64, pitch: f64) -> Option<&'static FlankRow> {
    METRIC_FLANKS.iter().find(|row| diameter <= row.up_to_mm && same(row.pitch_mm, pitch))
}

/// Tolerance of the pitch diameter of class 2A, in.
fn unified_flank_tolerance(diameter_in: f64, pitch_in: f64) -> f64 {
    0.0015 * diameter_in.cbrt() + 0.0015 * diameter_in.sqrt() + 0.015 * pitch_in.cbrt().powi(2)
}

fn unified_external(diameter_in: f64, per_inch: u32) -> ExternalLimits {
    let pitch_in = 1.0 / f64::from(per_inch);
    let tolerance_in = unified_flank_tolerance(diameter_in, pitch_in);
    let allowance_in = 0.3 * tolerance_in;
    let flank_in = diameter_in - UNIFIED_FLANK * pitch_in - allowance_in;
    ExternalLimits {
        major: below((diameter_in - allowance_in) * 25.4, 0.06 * pitch_in.cbrt().powi(2) * 25.4),
        pitch_diameter: below(flank_in * 25.4, tolerance_in * 25.4),
    }
}

fn unified_internal(diameter_in: f64, per_inch: u32) -> InternalLimits {
    let pitch_in = 1.0 / f64::from(per_inch);
    let minor_tolerance_in = if diameter_in < 0.25 {
        (0.05 * pitch_in.cbrt().powi(2) + 0.03 * pitch_in / diameter_in - 0.002).min(0.394 * pitch_in)
    } else {
        0.25 * pitch_in - 0.4 * pitch_in * pitch_in
    };
    InternalLimits {
        minor: above((diameter_in - UNIFIED_MINOR * pitch_in) * 25.4, minor_tolerance_in * 25.4),
        pitch_diameter: above(
            (diameter_in - UNIFIED_FLANK * pitch_in) * 25.4,
            1.3 * unified_flank_tolerance(diameter_in, pitch_in) * 25.4,
        ),
    }
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

/// 3/8·√3: from the major to the pitch diameter, in pitches.
const UNIFIED_FLANK: f64 = 0.649_519_052_838_329;
/// 5/8·√3: from the major to the minor diameter of the nut, in pitches.
const UNIFIED_MINOR: f64 = 1.082_531_754_730_548_3;

/// Deviation and crest tolerances of one pitch.
struct CrestRow {
    pitch_mm: f64,
    deviation_um: f64,
    major_um: f64,
    minor_um: f64,
}

/// Flank tolerances of one pitch, up to a diameter (the rows of a pitch rise).
struct FlankRow {
    up_to_mm: f64,
    pitch_mm: f64,
    bolt_um: f64,
    nut_um: f64,
}

const fn crest(pitch_mm: f64, deviation_um: f64, major_um: f64, minor_um: f64) -> CrestRow {
    CrestRow { pitch_mm, deviation_um, major_um, minor_um }
}

const fn flank(up_to_mm: f64, pitch_mm: f64, bolt_um: f64, nut_um: f64) -> FlankRow {
    FlankRow { up_to_mm, pitch_mm, bolt_um, nut_um }
}

/// Pitch, −es of position g, tolerance of the major diameter (6), tolerance of the minor diameter of the nut (6).
static METRIC_CRESTS: &[CrestRow] = &[
    crest(0.5, 20.0, 106.0, 140.0), crest(0.6, 21.0, 125.0, 160.0), crest(0.7, 22.0, 140.0, 180.0),
    crest(0.75, 22.0, 140.0, 190.0), crest(0.8, 24.0, 150.0, 200.0), crest(1.0, 26.0, 180.0, 236.0),
    crest(1.25, 28.0, 212.0, 265.0), crest(1.5, 32.0, 236.0, 300.0), crest(1.75, 34.0, 265.0, 335.0),
    crest(2.0, 38.0, 280.0, 375.0), crest(2.5, 42.0, 335.0, 450.0), crest(3.0, 48.0, 375.0, 500.0),
    crest(3.5, 53.0, 425.0, 560.0), crest(4.0, 60.0, 475.0, 600.0), crest(4.5, 63.0, 500.0, 670.0),
    crest(5.0, 71.0, 530.0, 710.0), crest(5.5, 75.0, 560.0, 750.0), crest(6.0, 80.0, 600.0, 800.0),
];

/// Upper end of the diameter range, pitch, tolerance of the pitch diameter of the bolt and of the nut (both grade 6).
static METRIC_FLANKS: &[FlankRow] = &[
    flank(5.6, 0.5, 75.0, 100.0), flank(5.6, 0.6, 85.0, 112.0), flank(5.6, 0.7, 90.0, 118.0),
    flank(5.6, 0.75, 90.0, 118.0), flank(5.6, 0.8, 95.0, 125.0),
    flank(11.2, 0.75, 100.0, 132.0), flank(11.2, 1.0, 112.0, 150.0), flank(11.2, 1.25, 118.0, 160.0),
    flank(11.2, 1.5, 132.0, 180.0),
    flank(22.4, 1.0, 118.0, 160.0), flank(22.4, 1.25, 132.0, 180.0), flank(22.4, 1.5, 140.0, 190.0),
    flank(22.4, 1.75, 150.0, 200.0), flank(22.4, 2.0, 160.0, 212.0), flank(22.4, 2.5, 170.0, 224.0),
    flank(45.0, 1.0, 125.0, 170.0), flank(45.0, 1.5, 150.0, 200.0), flank(45.0, 2.0, 170.0, 224.0),
    flank(45.0, 3.0, 200.0, 265.0), flank(45.0, 3.5, 212.0, 280.0), flank(45.0, 4.0, 224.0, 300.0),
    flank(45.0, 4.5, 236.0, 315.0),
    flank(90.0, 1.5, 160.0, 212.0), flank(90.0, 2.0, 180.0, 236.0), flank(90.0, 3.0, 212.0, 280.0),
    flank(90.0, 4.0, 236.0, 315.0), flank(90.0, 5.0, 250.0, 335.0), flank(90.0, 5.5, 265.0, 355.0),
    flank(90.0, 6.0, 280.0, 375.0),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn least_material_shears_before_basic_material() {
        for designation in ["M6x1.0", "M8x1.25", "M12x1.25", "M24x3.0", "1/4-20 UNC", "#10-32 UNF", "1-8 UNC"] {
            let thread = Thread::parse(designation).unwrap();
            let (form, least) = (thread.form(), thread.shear_areas());
            assert!(least.external_mm2_per_mm < form.external_shear_mm2_per_mm(), "{designation}");
            assert!(least.internal_mm2_per_mm < form.internal_shear_mm2_per_mm(), "{designation}");
            assert!(least.external_mm2_per_mm > 0.6 * form.external_shear_mm2_per_mm(), "{designation}");
        }
    }

    #[test]
    fn small_threads_have_no_limits_and_basic_areas() {
        let thread = Thread::parse("M2x0.4").unwrap();
        assert_eq!((thread.external_limits(), thread.internal_limits()), (None, None));
        assert!(thread.shear_areas().internal_mm2_per_mm > 0.0);
    }
}
