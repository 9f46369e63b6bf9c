//! What a test may expect under a name that tells what it is: `time:` is a time, `load:` a mass or a force.

use super::shape::Shape;
use crate::quantity::Dimension;

/// Names that authors choose and that leave no doubt, with what may stand there.
static KNOWN: &[(&[&str], Shape)] = &[
    (&["time", "hold", "duration", "wait"], Shape::Quantity(&[Dimension::Time])),
    (&["speed", "idle"], Shape::Quantity(&[Dimension::Rotation])),
    (&["pressure", "vacuum"], Shape::Quantity(&[Dimension::Pressure])),
    (&["temperature"], Shape::Quantity(&[Dimension::Temperature])),
    (&["load", "mass", "weight"], Shape::Quantity(&[Dimension::Mass, Dimension::Force])),
    (&["drift", "float", "gap", "runout", "travel"], Shape::Quantity(&[Dimension::Length, Dimension::Angle])),
    (&["advance", "angle"], Shape::Quantity(&[Dimension::Angle, Dimension::Length])),
    (&["drag", "torque", "pull"], Shape::Quantity(&[Dimension::Torque, Dimension::Force, Dimension::Mass])),
    (&["volume"], Shape::Quantity(&[Dimension::Volume])),
    (&["drop", "loss"], Shape::Quantity(&[Dimension::Pressure, Dimension::Length, Dimension::Rotation, Dimension::Temperature, Dimension::TemperatureRise, Dimension::Volume, Dimension::Percent])),
];

/// What may stand under a name; any quantity where the name tells nothing.
pub(super) fn under(name: &str) -> &'static Shape {
    KNOWN.iter().find(|(names, _)| names.contains(&name)).map_or(&Shape::AnyQuantity, |(_, shape)| shape)
}
