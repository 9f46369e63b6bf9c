//! Marks along a rim.

use super::{Angle, Calculation, Figure, Length, Take, Worked, of, possible};
use crate::reckon::given::Given;
use crate::trade::arc;

pub(super) static TABLE: &[Calculation] = &[Calculation {
    name: "arc",
    about: "a mark so far along a rim as an angle; turned round, arc or diameter",
    inputs: &[
        of("arc", "s", "along the rim", &[Length], "2 mm").take(Take::Limits).sought(1e-6, 1e6),
        of("diameter", "D", "diameter of the rim", &[Length], "98 mm").sought(1e-2, 1e6),
        of("angle", "θ", "the angle, where another value is left out", &[Angle], "2.34°").result().take(Take::Limits),
    ],
    formula: &["θ = 360°·s/(π·D)"],
    letters: &[],
    source: "geometry",
    caution: "Measure along the rim with a tape, not across it with a rule.",
    example: &["--arc", "2 mm", "--diameter", "98 mm"],
    turns: Some("angle"),
    work: degrees,
}];

fn degrees(given: &Given) -> Worked {
    let angle = arc::degrees(given.number("arc")?, given.number("diameter")?);
    Ok(vec![Figure::quantity("angle", "θ", "angle", possible(angle, "a diameter above nothing is wanted")?, Angle)])
}
