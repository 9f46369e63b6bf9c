//! Torque wrenches: what range can be trusted, which of several to take, and what to set with an adapter on it.
//!
//! Sources: usable from 20 % of full scale (ISO 6789 calibrates from there; TM 1-1500-204-23-9 Table 8-1; MSFC-STD-486B,
//! 4.2), most accurate in the middle of the scale (TM 9-2350-311-20-2: 25 to 75 %); setting with an extension
//! T·L/(L + E·cos θ): FAA AC 43.13-1B, ch. 7; TM 9-254; permissible deviation: ISO 6789:2003, type II class A.

use super::guard::{finite, not_negative, positive};

/// A torque wrench with a scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wrench {
    /// Where the scale begins, N·m.
    pub low_nm: f64,
    /// Full scale, N·m.
    pub high_nm: f64,
    /// Step of the scale, N·m, where it is known.
    pub step_nm: Option<f64>,
}

/// An extension or crowfoot between wrench and fastener.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adapter {
    /// From the drive of the wrench to the fastener's axis, mm.
    pub length_mm: f64,
    /// Angle to the wrench: 0° in line and lengthening, 90° square, 180° turned back.
    pub angle_deg: f64,
}

/// What a wrench can make of a torque.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WrenchFit {
    /// It can be trusted there.
    Usable,
    /// Below what it can be trusted from.
    BelowRange {
        /// Usable from, N·m.
        from_nm: f64,
    },
    /// Above full scale.
    AboveRange {
        /// Full scale, N·m.
        to_nm: f64,
    },
}

/// Torques from low to high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TorqueSpan {
    /// Least, N·m.
    pub low_nm: f64,
    /// Greatest, N·m.
    pub high_nm: f64,
}

/// Share of full scale a wrench can be trusted from (common practice; see the sources above).
pub const USABLE_FROM_SHARE: f64 = 0.20;

/// Full scale up to which a wrench counts as a small one, N·m (ISO 6789:2003).
pub const SMALL_TO_NM: f64 = 10.0;

/// Permissible deviation, ± as a share of the reading, of a small wrench (ISO 6789:2003, type II class A).
pub const DEVIATION_SMALL: f64 = 0.06;

/// The same of a larger one.
pub const DEVIATION: f64 = 0.04;

impl Wrench {
    /// The wrench, if its scale is one.
    #[must_use]
    pub fn new(low_nm: f64, high_nm: f64, step_nm: Option<f64>) -> Option<Self> {
        let wrench = Self { low_nm, high_nm, step_nm };
        wrench.is_sound().then_some(wrench)
    }

    /// Torque it can be trusted from, N·m: where the scale begins, or 20 % of full scale.
    #[must_use]
    pub fn usable_from_nm(&self) -> Option<f64> {
        self.is_sound().then(|| self.low_nm.max(USABLE_FROM_SHARE * self.high_nm))
    }

    /// What it can make of a torque set on its scale.
    #[must_use]
    pub fn fit(&self, set_nm: f64) -> Option<WrenchFit> {
        let (set_nm, from_nm) = (positive(set_nm)?, self.usable_from_nm()?);
        Some(if set_nm > self.high_nm * (1.0 + HAIR) {
            WrenchFit::AboveRange { to_nm: self.high_nm }
        } else if set_nm < from_nm * (1.0 - HAIR) {
            WrenchFit::BelowRange { from_nm }
        } else {
            WrenchFit::Usable
        })
    }

    /// Permissible deviation, ± as a share of the reading: 4 %, and 6 % for a wrench up to 10 N·m (ISO 6789:2003).
    #[must_use]
    pub fn permissible_deviation(&self) -> Option<f64> {
        self.is_sound().then_some(if self.high_nm > SMALL_TO_NM { DEVIATION } else { DEVIATION_SMALL })
    }

    /// What it delivers when it is set to a torque and keeps its permissible deviation.
    #[must_use]
    pub fn delivers(&self, set_nm: f64) -> Option<TorqueSpan> {
        let (set_nm, share) = (positive(set_nm)?, self.permissible_deviation()?);
        Some(TorqueSpan { low_nm: set_nm * (1.0 - share), high_nm: finite(set_nm * (1.0 + share))? })
    }

    /// Where it is most accurate: 25 to 75 % of full scale (TM 9-2350-311-20-2).
    #[must_use]
    pub fn most_accurate(&self) -> Option<TorqueSpan> {
        self.is_sound().then_some(TorqueSpan { low_nm: 0.25 * self.high_nm, high_nm: 0.75 * self.high_nm })
    }

    /// The nearest value its scale has to a torque, N·m; the torque itself where no step is known.
    #[must_use]
    pub fn nearest_setting_nm(&self, set_nm: f64) -> Option<f64> {
        let set_nm = positive(set_nm)?;
        match self.step_nm {
            Some(step) if self.is_sound() => finite((set_nm / step).round() * step),
            _ => self.is_sound().then_some(set_nm),
        }
    }

    fn is_sound(&self) -> bool {
        let scale = self.low_nm.is_finite() && self.high_nm.is_finite() && self.low_nm >= 0.0 && self.high_nm > self.low_nm;
        scale && self.step_nm.is_none_or(|step| positive(step).is_some())
    }

    /// Whether a torque lies where the wrench is most accurate.
    fn reads_best(&self, set_nm: f64) -> bool {
        self.most_accurate().is_some_and(|span| span.low_nm <= set_nm && set_nm <= span.high_nm)
    }

    /// Whether the scale shows the torque, or cannot be told.
    fn shows(&self, set_nm: f64) -> bool {
        let nearest = self.nearest_setting_nm(set_nm).unwrap_or(set_nm);
        (nearest - set_nm).abs() <= set_nm * 0.005
    }
}

/// Which of several wrenches to take for a torque: one usable there, before others one whose scale shows it (to half a
/// per cent), then one that is most accurate there (25 to 75 % of full scale), then the smallest; of equals the first.
/// `None` where none is usable.
#[must_use]
pub fn best(wrenches: &[Wrench], set_nm: f64) -> Option<usize> {
    let usable = wrenches.iter().enumerate().filter(|(_, wrench)| wrench.fit(set_nm) == Some(WrenchFit::Usable));
    usable
        .min_by(|(_, a), (_, b)| {
            let shown = b.shows(set_nm).cmp(&a.shows(set_nm));
            let accurate = b.reads_best(set_nm).cmp(&a.reads_best(set_nm));
            shown.then(accurate).then(a.high_nm.total_cmp(&b.high_nm))
        })
        .map(|(at, _)| at)
}

/// What to set on a wrench of a length (grip to drive, mm) so that the joint gets a torque through an adapter, N·m:
/// T·L/(L + E·cos θ).
#[must_use]
pub fn set_value_nm(torque_nm: f64, wrench_length_mm: f64, adapter: Adapter) -> Option<f64> {
    finite(positive(torque_nm)? / lengthening(wrench_length_mm, adapter)?)
}

/// What the joint gets when a wrench with an adapter is set to a torque, N·m.
#[must_use]
pub fn joint_torque_nm(set_nm: f64, wrench_length_mm: f64, adapter: Adapter) -> Option<f64> {
    finite(positive(set_nm)? * lengthening(wrench_length_mm, adapter)?)
}

/// A setting that comes out a hair beyond the scale is on it.
const HAIR: f64 = 1e-9;

/// By how much the adapter lengthens the wrench, as a factor; `None` where nothing is left of it.
fn lengthening(wrench_length_mm: f64, adapter: Adapter) -> Option<f64> {
    let length = positive(wrench_length_mm)?;
    let offset = not_negative(adapter.length_mm)? * cosine_deg(adapter.angle_deg)?;
    positive(positive(length + offset)? / length)
}

/// Cosine of an angle in degrees, exactly nothing at right angles.
fn cosine_deg(angle_deg: f64) -> Option<f64> {
    let cosine = finite(angle_deg)?.to_radians().cos();
    Some(if cosine.abs() < 1e-12 { 0.0 } else { cosine })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wrench(low_nm: f64, high_nm: f64) -> Wrench {
        Wrench::new(low_nm, high_nm, None).unwrap()
    }

    #[test]
    fn a_wrench_is_usable_from_a_fifth_of_its_scale() {
        assert_eq!(wrench(10.0, 60.0).usable_from_nm(), Some(12.0));
        assert_eq!(wrench(10.0, 60.0).fit(5.5), Some(WrenchFit::BelowRange { from_nm: 12.0 }));
        assert_eq!(wrench(5.0, 25.0).usable_from_nm(), Some(5.0));
        assert_eq!(wrench(20.0, 110.0).fit(320.0), Some(WrenchFit::AboveRange { to_nm: 110.0 }));
        assert_eq!(wrench(0.5, 6.0).fit(5.5), Some(WrenchFit::Usable));
        assert_eq!(wrench(70.0, 350.0).fit(70.0), Some(WrenchFit::Usable));
    }

    #[test]
    fn the_best_wrench_shows_the_value_and_reads_in_its_middle() {
        let shop = [wrench(0.5, 6.0), wrench(5.0, 25.0), wrench(20.3, 108.5), wrench(70.0, 350.0)];
        for (torque, expected) in [(5.5, Some(0)), (11.0, Some(1)), (24.0, Some(1)), (48.0, Some(2)), (105.0, Some(3)), (320.0, Some(3)), (0.4, None)] {
            assert_eq!(best(&shop, torque), expected, "{torque}");
        }
        let coarse = Wrench::new(10.0, 50.0, Some(5.0)).unwrap();
        let fine = Wrench::new(10.0, 100.0, Some(0.5)).unwrap();
        assert_eq!(best(&[coarse, fine], 24.0), Some(1));
        assert_eq!(best(&[coarse, fine], 25.0), Some(0));
    }

    #[test]
    fn a_crowfoot_is_reckoned_in() {
        let adapter = Adapter { length_mm: 45.0, angle_deg: 0.0 };
        assert!((set_value_nm(70.0, 300.0, adapter).unwrap() - 60.87).abs() < 0.005);
        assert!((joint_torque_nm(70.0, 300.0, adapter).unwrap() - 80.5).abs() < 1e-9);
        let square = Adapter { length_mm: 45.0, angle_deg: 90.0 };
        assert_eq!(set_value_nm(70.0, 300.0, square), Some(70.0));
    }

    #[test]
    fn what_is_no_wrench_has_no_range() {
        assert_eq!(Wrench::new(25.0, 5.0, None), None);
        assert_eq!(Wrench::new(0.0, f64::NAN, None), None);
        assert_eq!(Wrench::new(5.0, 25.0, Some(0.0)), None);
        let broken = Wrench { low_nm: 5.0, high_nm: f64::INFINITY, step_nm: None };
        assert_eq!((broken.fit(10.0), broken.delivers(10.0), best(&[broken], 10.0)), (None, None, None));
        let back = Adapter { length_mm: 300.0, angle_deg: 180.0 };
        assert_eq!(set_value_nm(70.0, 300.0, back), None);
        assert_eq!(set_value_nm(70.0, 300.0, Adapter { length_mm: 45.0, angle_deg: f64::NAN }), None);
    }
}
