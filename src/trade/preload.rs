//! Torque and preload: the short form T = K·d·F, and the long form with the friction of thread and seat.
//!
//! Sources: short form: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-27. Long form: Motosh; Kellermann and
//! Klein; VDI 2230-1 (MA = FM·(P/2π + d2·μG/(2·cos 30°) + Dkm/2·μK), there with the rounded factors 0.16 and 0.58) and
//! MIL-HDBK-60 (1990), App. B, 100.5 (the same with thread angle and seat diameters). Power-screw form: Shigley, eq. 8-26.
//! Preload at a share of yield under combined stress: VDI 2230-1.

use super::guard::{finite, not_negative, positive};
use super::thread_form::{TAN_FLANK, ThreadForm};
use std::f64::consts::PI;

/// Coefficients of friction of a bolted joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointFriction {
    /// In the thread, μG.
    pub thread: f64,
    /// Under head or nut, μK.
    pub seat: f64,
}

/// The ring a head or nut bears on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Outside diameter of the bearing face dw, mm.
    pub outside_mm: f64,
    /// Diameter of the clearance hole dh, mm.
    pub hole_mm: f64,
}

impl Seat {
    /// Mean diameter at which the friction of the seat acts, Dkm = (dw + dh)/2, mm; `None` where it is no ring.
    #[must_use]
    pub fn mean_diameter_mm(self) -> Option<f64> {
        let (outside, hole) = (positive(self.outside_mm)?, not_negative(self.hole_mm)?);
        (outside > hole).then_some(f64::midpoint(outside, hole))
    }
}

/// Preload F = T/(K·d), N.
#[must_use]
pub fn preload_n(torque_nm: f64, diameter_mm: f64, nut_factor: f64) -> Option<f64> {
    finite(not_negative(torque_nm)? * 1000.0 / (positive(nut_factor)? * positive(diameter_mm)?))
}

/// Torque T = K·d·F, N·m.
#[must_use]
pub fn torque_nm(preload_n: f64, diameter_mm: f64, nut_factor: f64) -> Option<f64> {
    finite(positive(nut_factor)? * positive(diameter_mm)? * not_negative(preload_n)? / 1000.0)
}

/// Nut factor K = T/(d·F), for example from a measured preload.
#[must_use]
pub fn nut_factor(torque_nm: f64, diameter_mm: f64, preload_n: f64) -> Option<f64> {
    positive(positive(torque_nm)? * 1000.0 / (positive(diameter_mm)? * positive(preload_n)?))
}

/// Torque that makes a preload against the friction of thread and seat, N·m.
#[must_use]
pub fn long_torque_nm(form: &ThreadForm, seat: Seat, friction: JointFriction, preload_n: f64) -> Option<f64> {
    finite(lever_mm(form, seat, friction)? * not_negative(preload_n)? / 1000.0)
}

/// Preload a torque makes against the friction of thread and seat, N.
#[must_use]
pub fn long_preload_n(form: &ThreadForm, seat: Seat, friction: JointFriction, torque_nm: f64) -> Option<f64> {
    finite(not_negative(torque_nm)? * 1000.0 / lever_mm(form, seat, friction)?)
}

/// The nut factor the long form amounts to.
#[must_use]
pub fn long_nut_factor(form: &ThreadForm, seat: Seat, friction: JointFriction) -> Option<f64> {
    positive(lever_mm(form, seat, friction)? / positive(form.major_mm)?)
}

/// The handbook's form for equal friction and a standard hexagon head: T = F·(0.159·P + 1.156·μ·d), N·m.
#[must_use]
pub fn handbook_torque_nm(preload_n: f64, diameter_mm: f64, pitch_mm: f64, friction: f64) -> Option<f64> {
    let lever_mm = 0.159 * positive(pitch_mm)? + 1.156 * not_negative(friction)? * positive(diameter_mm)?;
    finite(lever_mm * not_negative(preload_n)? / 1000.0)
}

/// Nut factor of the power-screw form with a seat whose friction acts at 1.25·d across (a regular hexagon head).
#[must_use]
pub fn power_screw_nut_factor(form: &ThreadForm, friction: JointFriction) -> Option<f64> {
    let (thread, seat) = (not_negative(friction.thread)?, not_negative(friction.seat)?);
    let (major, mean) = (positive(form.major_mm)?, positive(form.pitch_diameter_mm)?);
    let lead = positive(form.pitch_mm)? / (PI * mean);
    let rough = thread * COS_FLANK.recip();
    let screw = mean / (2.0 * major) * (lead + rough) / positive(1.0 - lead * rough)?;
    positive(screw + 0.625 * seat)
}

/// Preload that brings the bolt's core to a share of its yield stress while it is tightened, N: tension and the torsion
/// of the thread's friction together (VDI 2230-1, FM,zul; the usual share is 0.9).
#[must_use]
pub fn preload_at_yield_n(form: &ThreadForm, yield_mpa: f64, share: f64, thread_friction: f64) -> Option<f64> {
    let mean = positive(form.pitch_diameter_mm)?;
    let core = f64::midpoint(mean, positive(form.root_mm)?);
    let slope = positive(form.pitch_mm)? / (PI * mean) + 2.0 * TAN_FLANK * not_negative(thread_friction)?;
    let torsion = 1.5 * (mean / core) * slope;
    let stress = positive(share)? * positive(yield_mpa)? / (1.0 + 3.0 * torsion * torsion).sqrt();
    finite(positive(form.stress_area_mm2)? * stress)
}

/// cos 30°.
const COS_FLANK: f64 = 0.866_025_403_784_438_6;

/// Torque for each newton of preload, N·mm/N.
fn lever_mm(form: &ThreadForm, seat: Seat, friction: JointFriction) -> Option<f64> {
    let (thread, under_head) = (not_negative(friction.thread)?, not_negative(friction.seat)?);
    let climb = positive(form.pitch_mm)? / (2.0 * PI);
    let flanks = positive(form.pitch_diameter_mm)? * thread / (2.0 * COS_FLANK);
    positive(climb + flanks + seat.mean_diameter_mm()? / 2.0 * under_head)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::thread_form::metric_form;

    const SEAT_M10: Seat = Seat { outside_mm: 14.63, hole_mm: 11.0 };

    // Of the torque on a plain bolt about a tenth makes preload, four tenths go into the thread, half under the head
    // (textbooks; from memory).
    #[test]
    fn most_of_the_torque_goes_into_friction() {
        let form = metric_form(10.0, 1.5).unwrap();
        let all = long_nut_factor(&form, SEAT_M10, JointFriction { thread: 0.15, seat: 0.15 }).unwrap();
        let none = long_nut_factor(&form, SEAT_M10, JointFriction { thread: 0.0, seat: 0.0 }).unwrap();
        let thread = long_nut_factor(&form, SEAT_M10, JointFriction { thread: 0.15, seat: 0.0 }).unwrap();
        assert!((none / all - 0.12).abs() < 0.03);
        assert!(((thread - none) / all - 0.40).abs() < 0.03);
        assert!(((all - thread) / all - 0.50).abs() < 0.03);
    }

    #[test]
    fn what_is_no_joint_has_no_preload() {
        let form = metric_form(10.0, 1.5).unwrap();
        let friction = JointFriction { thread: 0.12, seat: 0.12 };
        assert_eq!(preload_n(25.0, 8.0, 0.0), None);
        assert_eq!(preload_n(-25.0, 8.0, 0.2), None);
        assert_eq!(preload_n(f64::MAX, 1e-300, 0.2), None);
        assert_eq!(torque_nm(f64::NAN, 8.0, 0.2), None);
        assert_eq!(long_torque_nm(&form, Seat { outside_mm: 10.0, hole_mm: 11.0 }, friction, 1e4), None);
        assert_eq!(long_preload_n(&form, SEAT_M10, JointFriction { thread: -0.1, seat: 0.1 }, 50.0), None);
        assert_eq!(power_screw_nut_factor(&form, JointFriction { thread: 1e9, seat: 0.1 }), None);
        assert_eq!(preload_at_yield_n(&form, 640.0, f64::INFINITY, 0.1), None);
    }
}
