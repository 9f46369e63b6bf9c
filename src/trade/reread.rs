//! Unit slips: a torque that is implausible as written is read again in the other units a source may have meant.
//!
//! Source of the factors: exact definitions of the pound-force (4.4482216152605 N), the inch (25.4 mm) and the
//! kilogram-force (9.80665 N), as in NIST SP 811 (2008), App. B.8. That slips happen this way is common practice.

use super::guard::positive;
use super::screening::ScreenedJoint;

/// A unit of torque a table may have meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TorqueUnit {
    /// N·m.
    NewtonMetre,
    /// lbf·ft.
    PoundForceFoot,
    /// lbf·in.
    PoundForceInch,
    /// kgf·m.
    KilogramForceMetre,
    /// kgf·cm.
    KilogramForceCentimetre,
}

/// The number of a torque read in another unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The unit it is read in.
    pub unit: TorqueUnit,
    /// What that is, N·m.
    pub torque_nm: f64,
    /// The share of proof it makes, at the middle nut factor.
    pub share: f64,
}

impl TorqueUnit {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::NewtonMetre, Self::PoundForceFoot, Self::PoundForceInch, Self::KilogramForceMetre, Self::KilogramForceCentimetre];

    /// The unit of a symbol, in the one spelling we show.
    #[must_use]
    pub fn find(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// Its symbol.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::NewtonMetre => "N·m",
            Self::PoundForceFoot => "lbf·ft",
            Self::PoundForceInch => "lbf·in",
            Self::KilogramForceMetre => "kgf·m",
            Self::KilogramForceCentimetre => "kgf·cm",
        }
    }

    /// One of it in N·m.
    #[must_use]
    pub fn newton_metres(self) -> f64 {
        match self {
            Self::NewtonMetre => 1.0,
            Self::PoundForceFoot => 4.448_221_615_260_5 * 0.3048,
            Self::PoundForceInch => 4.448_221_615_260_5 * 0.0254,
            Self::KilogramForceMetre => 9.806_65,
            Self::KilogramForceCentimetre => 0.098_066_5,
        }
    }
}

/// The readings of a number that suit the joint's role, best first: the one whose share lies nearest to 0.7, or to the
/// nearest end of a band that does not reach it. The unit as written is left out.
#[must_use]
pub fn readings(number: f64, written: TorqueUnit, joint: &ScreenedJoint) -> Vec<Reading> {
    let (Some(number), Some(band)) = (positive(number), joint.role.band()) else { return Vec::new() };
    let target = 0.7_f64.min(band.high).max(band.low);
    let mut found: Vec<Reading> = TorqueUnit::ALL
        .into_iter()
        .filter(|unit| *unit != written)
        .filter_map(|unit| {
            let torque_nm = number * unit.newton_metres();
            let share = joint.share(torque_nm)?.mid;
            band.holds(share).then_some(Reading { unit, torque_nm, share })
        })
        .collect();
    found.sort_by(|a, b| (a.share - target).abs().total_cmp(&(b.share - target).abs()));
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::friction::ThreadCondition;
    use crate::trade::property::PropertyClass;
    use crate::trade::screening::Role;
    use crate::trade::thread::Thread;

    fn read_again(thread: &str, role: Role, number: f64, unit: TorqueUnit) -> Vec<String> {
        let class = PropertyClass::find("8.8").unwrap();
        let joint = ScreenedJoint::new(&Thread::parse(thread).unwrap(), class, ThreadCondition::Dry, role).unwrap();
        let shown = |r: &Reading| format!("{} {:.1} {:.0} %", r.unit.symbol(), r.torque_nm, r.share * 100.0);
        readings(number, unit, &joint).iter().map(shown).collect()
    }

    #[test]
    fn slips_are_read_again_best_first() {
        assert_eq!(read_again("M6x1.0", Role::Cover, 88.0, TorqueUnit::NewtonMetre), ["lbf·in 9.9 71 %", "kgf·cm 8.6 62 %"]);
        assert_eq!(read_again("M8x1.25", Role::Clamp, 2.4, TorqueUnit::NewtonMetre), ["kgf·m 23.5 69 %"]);
        assert_eq!(read_again("M8x1.25", Role::Clamp, 24.0, TorqueUnit::PoundForceFoot), ["N·m 24.0 71 %"]);
    }

    #[test]
    fn nothing_fits_what_is_absurd_or_not_screened() {
        for number in [f64::NAN, f64::INFINITY, 0.0, -24.0, 1e300] {
            assert!(read_again("M8x1.25", Role::Clamp, number, TorqueUnit::NewtonMetre).is_empty());
        }
        assert!(read_again("M8x1.25", Role::Soft, 2.4, TorqueUnit::NewtonMetre).is_empty());
    }

    #[test]
    fn symbols_read_back() {
        for unit in TorqueUnit::ALL {
            assert_eq!(TorqueUnit::find(unit.symbol()), Some(unit));
        }
    }
}
