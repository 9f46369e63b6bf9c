//! Mixtures, beads of sealant, cylinders.

use super::{Calculation, Count, Figure, Input, LARGE, Length, Ratio, SMALL, Take, Volume, Worked, of, possible};
use crate::reckon::given::Given;
use crate::trade::{bead, cylinder, mix};

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "mix",
        about: "oil for an amount of fuel; turned round, the fuel or the ratio",
        inputs: &[
            of("fuel", "V", "the fuel", &[Volume], "5 L").take(Take::Limits).sought(SMALL, 1e9),
            Input::must("ratio", "n", "fuel to oil", Ratio, "50:1").sought(1.0, 1e4),
            of("oil", "v", "the oil, where another value is left out", &[Volume], "100 mL").result().take(Take::Limits),
        ],
        formula: &["v = V/n"],
        letters: &[],
        source: "arithmetic of the ratio as it is written on two-stroke machines",
        caution: "Too little oil seizes the engine: take the ratio on the machine, not a rule.",
        example: &["--fuel", "5 L", "--ratio", "50:1"],
        turns: Some("oil"),
        work: mixing,
    },
    Calculation {
        name: "bead",
        about: "how much sealant a round bead takes; turned round, its length or thickness",
        inputs: &[
            of("diameter", "d", "thickness of the bead", &[Length], "2 mm").sought(1e-2, 1e3),
            of("path", "L", "length of the bead", &[Length], "820 mm").sought(1e-2, 1e8),
            of("volume", "V", "the sealant, where another value is left out", &[Volume], "2.6 mL").result(),
        ],
        formula: &["V = π/4·d²·L"],
        letters: &[],
        source: "geometry",
        caution: "More than asked for ends up in the oil way. Some stays in the tube.",
        example: &["--diameter", "2 mm", "--path", "820 mm"],
        turns: Some("volume"),
        work: beading,
    },
    Calculation {
        name: "displacement",
        about: "swept volume of an engine's cylinders, or of a gap above one piston",
        inputs: &[
            of("bore", "b", "the bore", &[Length], "100 mm").sought(SMALL, LARGE),
            of("stroke", "s", "the stroke, or the gap", &[Length], "80 mm").sought(SMALL, LARGE),
            Input::must("cylinders", "z", "how many", Count, "2").assume("1"),
            of("volume", "V", "the volume, where bore or stroke is left out", &[Volume], "628 cm³").result(),
        ],
        formula: &["V = z·π/4·b²·s"],
        letters: &[],
        source: "geometry",
        caution: "The gap at top dead centre is measured with the gasket pressed.",
        example: &["--bore", "100 mm", "--stroke", "80 mm"],
        turns: Some("volume"),
        work: swept,
    },
    Calculation {
        name: "compression",
        about: "compression ratio from swept and clearance volume; turned round, a volume",
        inputs: &[
            of("swept", "Vs", "swept volume of one cylinder", &[Volume], "500 cm³").sought(SMALL, 1e9),
            of("clearance", "Vc", "all that is left above the piston at top dead centre", &[Volume], "50 cm³").sought(SMALL, 1e9),
            Input::must("ratio", "ε", "the ratio, where a volume is left out", Ratio, "11:1").result(),
        ],
        formula: &["ε = (Vs + Vc)/Vc"],
        letters: &[],
        source: "definition",
        caution: "The geometric ratio says nothing of ports and valves that close late.",
        example: &["--swept", "500 cm³", "--clearance", "50 cm³"],
        turns: Some("ratio"),
        work: ratio,
    },
];

fn mixing(given: &Given) -> Worked {
    let oil = mix::oil_ml(given.number("fuel")?, given.number("ratio")?, 1.0);
    Ok(vec![Figure::quantity("oil", "v", "oil", possible(oil, "fuel and ratio are above nothing")?, Volume)])
}

fn beading(given: &Given) -> Worked {
    let volume = bead::volume_ml(given.number("diameter")?, given.number("path")?);
    Ok(vec![Figure::quantity("volume", "V", "sealant", possible(volume, "thickness and length are above nothing")?, Volume)])
}

fn swept(given: &Given) -> Worked {
    let volume = cylinder::displacement_cm3(given.count("cylinders")?, given.number("bore")?, given.number("stroke")?);
    let volume = possible(volume, "cylinders, bore and stroke are above nothing")?;
    Ok(vec![Figure::quantity("volume", "V", "volume", volume, Volume).in_unit("cm³").with_digits(4)])
}

fn ratio(given: &Given) -> Worked {
    let ratio = cylinder::compression_ratio(given.number("swept")?, given.number("clearance")?);
    Ok(vec![Figure::plain("ratio", "ε", "compression ratio", possible(ratio, "both volumes are above nothing")?, ": 1")])
}
