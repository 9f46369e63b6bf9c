//! The screening of a torque: what share of the proof load it makes, as a band over the friction its thread condition
//! allows, and whether that suits the fastener's role.
//!
//! Common practice throughout: F = T/(K·d), u = F/(As·Sp). It tells an implausible torque, never a correct one.

use super::friction::{NutFactor, ThreadCondition};
use super::guard::{folded, positive};
use super::preload::{preload_n, torque_nm};
use super::property::{ClassError, PropertyClass};
use super::thread::Thread;

/// What a fastener does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Carries drive torque.
    Drive,
    /// Clamps a joint that bears load.
    Clamp,
    /// Holds a cover.
    Cover,
    /// A nut on a shaft, large for its torque.
    ShaftNut,
    /// A drain or level plug on a washer.
    Plug,
    /// Tightened by angle from a snug torque; the snug torque is what is screened.
    Angle,
    /// Clamps something soft.
    Soft,
    /// Sets, does not clamp.
    Adjuster,
}

/// A share of the proof load, or a torque, from low to high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
}

/// A value with what it may come to either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// With the roughest thread.
    pub low: f64,
    /// What the screening reckons with.
    pub mid: f64,
    /// With the slipperiest thread.
    pub high: f64,
}

/// A bolted joint as the screening sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScreenedJoint {
    /// Nominal diameter, mm.
    pub diameter_mm: f64,
    /// Stress area, mm².
    pub stress_area_mm2: f64,
    /// Proof stress of the bolt, `MPa`.
    pub proof_mpa: f64,
    /// Nut factor of its thread condition.
    pub nut_factor: NutFactor,
    /// What the fastener does.
    pub role: Role,
}

/// Where a share lies against the band of its role.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Below the band.
    Below,
    /// Inside.
    Inside,
    /// Above the band, within proof.
    Above,
    /// Above the proof load.
    OverProof,
}

impl Role {
    /// The roles as they are written.
    pub const WORDS: [(&'static str, Self); 8] = [
        ("drive", Self::Drive),
        ("clamp", Self::Clamp),
        ("cover", Self::Cover),
        ("shaft-nut", Self::ShaftNut),
        ("plug", Self::Plug),
        ("angle", Self::Angle),
        ("soft", Self::Soft),
        ("adjuster", Self::Adjuster),
    ];

    /// The role of a word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        let wanted = folded(word);
        Self::WORDS.iter().find(|(text, _)| folded(text) == wanted).map(|(_, role)| *role)
    }

    /// As it is written.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, role)| *role == self).map_or("", |(word, _)| word)
    }

    /// The usual share of the proof load (common practice); `None` for roles that are not screened.
    #[must_use]
    pub fn band(self) -> Option<Band> {
        let (low, high) = match self {
            Self::Drive => (0.50, 0.90),
            Self::Clamp => (0.40, 0.90),
            Self::Cover => (0.25, 0.80),
            Self::ShaftNut => (0.10, 0.75),
            Self::Plug => (0.04, 0.35),
            Self::Angle => (0.10, 0.60),
            Self::Soft | Self::Adjuster => return None,
        };
        Some(Band { low, high })
    }
}

impl Band {
    /// Whether a value lies in it, ends included.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}

impl ScreenedJoint {
    /// The joint of a thread, a class and a thread condition.
    ///
    /// # Errors
    /// [`ClassError`] where the class does not go with the thread.
    pub fn new(thread: &Thread, class: &PropertyClass, condition: ThreadCondition, role: Role) -> Result<Self, ClassError> {
        Ok(Self {
            diameter_mm: thread.diameter_mm(),
            stress_area_mm2: thread.form().stress_area_mm2,
            proof_mpa: class.strength(thread)?.proof_mpa,
            nut_factor: condition.nut_factor(),
            role,
        })
    }

    /// Proof load, N.
    #[must_use]
    pub fn proof_load_n(&self) -> Option<f64> {
        positive(positive(self.stress_area_mm2)? * positive(self.proof_mpa)?)
    }

    /// Preload a torque makes, N, over the band of the thread condition.
    #[must_use]
    pub fn preload_n(&self, torque_nm: f64) -> Option<Spread> {
        Some(Spread {
            low: preload_n(torque_nm, self.diameter_mm, self.nut_factor.high)?,
            mid: preload_n(torque_nm, self.diameter_mm, self.nut_factor.mid)?,
            high: preload_n(torque_nm, self.diameter_mm, self.nut_factor.low)?,
        })
    }

    /// Share of the proof load a torque makes (1 is all of it), over the band of the thread condition.
    #[must_use]
    pub fn share(&self, torque_nm: f64) -> Option<Spread> {
        let (force, proof) = (self.preload_n(torque_nm)?, self.proof_load_n()?);
        Some(Spread { low: force.low / proof, mid: force.mid / proof, high: force.high / proof })
    }

    /// Where a torque stands: its middle share against the role's band and against the proof load.
    ///
    /// The middle of the band decides: the slipperiest thread would put half of all published torques over proof.
    #[must_use]
    pub fn standing(&self, torque_nm: f64) -> Option<Standing> {
        let band = self.role.band()?;
        let share = self.share(torque_nm)?.mid;
        Some(if share > 1.0 {
            Standing::OverProof
        } else if share > band.high + HAIR {
            Standing::Above
        } else if share < band.low - HAIR {
            Standing::Below
        } else {
            Standing::Inside
        })
    }

    /// Torques that suit the role, N·m, at the middle nut factor.
    #[must_use]
    pub fn plausible_torque_nm(&self) -> Option<Band> {
        let band = self.role.band()?;
        Some(Band { low: self.torque_for_share_nm(band.low)?, high: self.torque_for_share_nm(band.high)? })
    }

    /// Torque that makes a share of the proof load, N·m, at the middle nut factor.
    #[must_use]
    pub fn torque_for_share_nm(&self, share: f64) -> Option<f64> {
        torque_nm(positive(share)? * self.proof_load_n()?, self.diameter_mm, self.nut_factor.mid)
    }
}

/// The band's ends are round numbers: a hair outside is inside.
const HAIR: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    fn joint(thread: &str, class: &str, condition: ThreadCondition, role: Role) -> ScreenedJoint {
        ScreenedJoint::new(&Thread::parse(thread).unwrap(), PropertyClass::find(class).unwrap(), condition, role).unwrap()
    }

    #[test]
    fn the_words_read_back_as_themselves() {
        for (word, role) in Role::WORDS {
            assert_eq!((Role::find(word), role.word()), (Some(role), word));
        }
        assert_eq!(Role::find("bolt"), None);
    }

    // The table of the screening model: K 0.20, class 8.8, shares 0.40, 0.75 and 1.00.
    #[test]
    fn the_reference_torques_come_out() {
        for (thread, low, usual, proof) in [
            ("M5x0.8", 3.3, 6.2, 8.2), ("M6x1.0", 5.6, 10.5, 14.0), ("M7x1.0", 9.4, 17.6, 23.4), ("M8x1.25", 13.6, 25.5, 34.0),
            ("M8x1.0", 14.5, 27.3, 36.3), ("M10x1.5", 26.9, 50.5, 67.3), ("M10x1.25", 28.4, 53.2, 71.0), ("M12x1.75", 46.9, 88.0, 117.0),
            ("M12x1.25", 51.3, 96.1, 128.0), ("M14x1.5", 80.9, 152.0, 202.0), ("M16x1.5", 124.0, 233.0, 310.0),
        ] {
            let joint = joint(thread, "8.8", ThreadCondition::Dry, Role::Clamp);
            for (share, torque) in [(0.40, low), (0.75, usual), (1.00, proof)] {
                let ours = joint.torque_for_share_nm(share).unwrap();
                assert!((ours / torque - 1.0).abs() < 0.008, "{thread} {share}: {ours} against {torque}");
            }
        }
    }

    #[test]
    fn shares_stand_where_the_bench_would_put_them() {
        let cover = joint("M6x1.0", "8.8", ThreadCondition::Dry, Role::Cover);
        assert_eq!(cover.standing(22.0), Some(Standing::OverProof));
        assert!((cover.share(22.0).unwrap().mid - 1.57).abs() < 0.005);
        assert_eq!(cover.standing(9.0), Some(Standing::Inside));
        let drive = joint("M6x1.0", "10.9", ThreadCondition::Dry, Role::Drive);
        assert_eq!(drive.standing(5.0), Some(Standing::Below));
        assert!((drive.share(5.0).unwrap().mid - 0.25).abs() < 0.005);
        let plug = joint("M18x1.5", "8.8", ThreadCondition::Dry, Role::Plug);
        assert_eq!(plug.standing(38.0), Some(Standing::Inside));
        assert_eq!(joint("M8x1.25", "8.8", ThreadCondition::Dry, Role::Soft).standing(5.0), None);
    }

    #[test]
    fn anti_seize_on_a_dry_value_lifts_the_share() {
        let dry = joint("M8x1.25", "8.8", ThreadCondition::Dry, Role::Clamp).share(24.0).unwrap();
        let paste = joint("M8x1.25", "8.8", ThreadCondition::AntiSeize, Role::Clamp).share(24.0).unwrap();
        assert!((dry.mid - 0.71).abs() < 0.005 && (paste.mid - 0.94).abs() < 0.005);
        assert!(dry.low < dry.mid && dry.mid < dry.high);
    }

    #[test]
    fn absurd_torques_have_no_share() {
        let joint = joint("M8x1.25", "8.8", ThreadCondition::Dry, Role::Clamp);
        for torque in [f64::NAN, f64::INFINITY, -1.0, f64::MAX] {
            assert_eq!(joint.standing(torque), None, "{torque}");
        }
        assert_eq!(joint.standing(1e300), Some(Standing::OverProof));
        assert_eq!(joint.standing(0.0), Some(Standing::Below));
    }
}
