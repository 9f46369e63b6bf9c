//! The kinds of quantity. A torque is not an energy though both are N·m; a rise is not a temperature.

use super::unit::Unit;
use super::table;

/// The kind of a quantity: what may be compared with what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Tightening torque, reckoned in N·m. Never an energy.
    Torque,
    /// Force, reckoned in N.
    Force,
    /// Length, reckoned in mm.
    Length,
    /// Plane angle, reckoned in degrees.
    Angle,
    /// A temperature on a scale, reckoned in °C.
    Temperature,
    /// A temperature rise or fall, reckoned in K. Has no zero point.
    TemperatureRise,
    /// Volume, reckoned in mL.
    Volume,
    /// Pressure, reckoned in kPa. Gauge or absolute is not told by the unit.
    Pressure,
    /// Mass, reckoned in kg; a load in kg is a mass.
    Mass,
    /// Time, reckoned in s.
    Time,
    /// Speed of rotation, reckoned in r/min.
    Rotation,
    /// A whole number without a unit: a count or a serial number's bound.
    Count,
    /// A share, reckoned in %.
    Percent,
    /// A ratio such as `50:1`, reckoned as the quotient.
    Ratio,
}

impl Dimension {
    /// Every kind, in the order of the table of units.
    pub fn all() -> &'static [Self] {
        &[
            Self::Torque,
            Self::Force,
            Self::Length,
            Self::Angle,
            Self::Temperature,
            Self::TemperatureRise,
            Self::Volume,
            Self::Pressure,
            Self::Mass,
            Self::Time,
            Self::Rotation,
            Self::Count,
            Self::Percent,
            Self::Ratio,
        ]
    }

    /// The kind in words, with its article: `a torque`.
    pub fn spoken(self) -> &'static str {
        match self {
            Self::Torque => "a torque",
            Self::Force => "a force",
            Self::Length => "a length",
            Self::Angle => "an angle",
            Self::Temperature => "a temperature",
            Self::TemperatureRise => "a temperature rise",
            Self::Volume => "a volume",
            Self::Pressure => "a pressure",
            Self::Mass => "a mass",
            Self::Time => "a time",
            Self::Rotation => "a speed of rotation",
            Self::Count => "a count",
            Self::Percent => "a percentage",
            Self::Ratio => "a ratio",
        }
    }

    /// The unit its values are reckoned in: `low_high` and `nominal` speak in it.
    pub fn base(self) -> &'static Unit {
        table::base_of(self)
    }

    /// Whether a value below zero can mean something: a clearance may be an interference, an advance a
    /// retard, a gauge pressure a vacuum; a torque below nothing is a slip of the pen.
    pub(super) fn may_be_negative(self) -> bool {
        matches!(
            self,
            Self::Length | Self::Angle | Self::Temperature | Self::TemperatureRise | Self::Pressure | Self::Percent
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_its_base_unit_and_a_name() {
        for &kind in Dimension::all() {
            assert_eq!(kind.base().dimension(), kind);
            assert!(kind.spoken().starts_with('a'));
        }
    }
}
