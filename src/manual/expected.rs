//! What a test should show, and what may stand under a name that tells what it is: `time:` is a time, `load:` a mass or a force.

use super::shape::Shape;
use crate::quantity::{Dimension, Quantity};

/// What a test should show.
#[derive(Clone, Debug, PartialEq)]
pub enum Expect {
    /// In words.
    Words(String),
    /// Named quantities: `{hold: 10 min, drift: max 5 mm}`.
    Quantities(Vec<(String, Quantity)>),
}

impl Expect {
    /// How many values are to be seen; words are one.
    #[must_use]
    pub fn values(&self) -> usize {
        match self {
            Self::Words(_) => 1,
            Self::Quantities(values) => values.len(),
        }
    }

    /// The values that the test shows, in their order: a person reads and writes down each. A value alone, a range and a time
    /// are what it is run at; what has a tolerance or one limit is what it shows.
    pub fn shown(&self) -> impl Iterator<Item = &(String, Quantity)> {
        let quantities: &[(String, Quantity)] = match self {
            Self::Quantities(quantities) => quantities,
            Self::Words(_) => &[],
        };
        let is_shown = |quantity: &Quantity| match quantity.low_high() {
            (Some(low), Some(high)) => low < high && quantity.nominal().is_some(),
            _ => true,
        };
        quantities.iter().filter(move |(_, quantity)| quantity.dimension() != Dimension::Time && is_shown(quantity))
    }
}

/// Names that authors choose and that leave no doubt, with what may stand there.
static KNOWN: &[(&[&str], Shape)] = &[
    (&["time", "duration", "wait"], Shape::Quantity(&[Dimension::Time])),
    // What is held is a time or what holds: a load, a torque, a pressure.
    (&["hold"], Shape::Quantity(&[Dimension::Time, Dimension::Mass, Dimension::Force, Dimension::Torque, Dimension::Pressure])),
    (&["speed"], Shape::Quantity(&[Dimension::Rotation])),
    (&["pressure", "vacuum"], Shape::Quantity(&[Dimension::Pressure])),
    (&["temperature"], Shape::Quantity(&[Dimension::Temperature, Dimension::TemperatureRise])),
    (&["load", "mass", "weight"], Shape::Quantity(&[Dimension::Mass, Dimension::Force, Dimension::Torque])),
    (&["drift", "float", "gap", "runout"], Shape::Quantity(&[Dimension::Length, Dimension::Angle])),
    (&["advance", "angle"], Shape::Quantity(&[Dimension::Angle, Dimension::Length])),
    (&["drag", "torque", "pull"], Shape::Quantity(&[Dimension::Torque, Dimension::Force, Dimension::Mass])),
    (&["volume"], Shape::Quantity(&[Dimension::Volume])),
];

/// What may stand under a name; any quantity where the name tells nothing.
pub(super) fn under(name: &str) -> &'static Shape {
    KNOWN.iter().find(|(names, _)| names.contains(&name)).map_or(&Shape::AnyQuantity, |(_, shape)| shape)
}
