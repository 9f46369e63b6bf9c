//! What a test may expect under a name that tells what it is: `time:` is a time, `load:` a mass or a force.

use super::shape::Shape;
use crate::quantity::Dimension;

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
