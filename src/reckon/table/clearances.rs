//! Clearances: a part in its hole, end gaps, journals, eccentricity, backlash.

use super::{Calculation, Figure, LARGE, Length, Round, SMALL, Take, Worked, of, possible};
use crate::reckon::given::Given;
use crate::trade::backlash::BacklashRadii;
use crate::trade::clearance;

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "clearance",
        about: "least and greatest clearance of a part in its hole, from the limits of both",
        inputs: &[
            of("hole", "D", "the hole, from least to greatest", &[Length], "58.000–58.015 mm").take(Take::Span),
            of("part", "d", "the part, from least to greatest", &[Length], "57.955–57.970 mm").take(Take::Span),
        ],
        formula: &["least = Dmin − dmax   greatest = Dmax − dmin"],
        letters: &[],
        source: "ISO 286-1, definitions",
        caution: "Below nothing it is interference. Both have to be at one temperature.",
        example: &["--hole", "34.000–34.160 mm", "--part", "33.720–33.880 mm"],
        turns: None,
        work: between,
    },
    Calculation {
        name: "end-gap",
        about: "the usual end gap of a piston ring, and its change with the bore",
        inputs: &[of("bore", "b", "the bore", &[Length], "58 mm"), of("change", "Δb", "by how much the bore differs", &[Length], "0.03 mm").may()],
        formula: &["usual gap = 0.0035·b to 0.0055·b   change of the gap = π·Δb"],
        letters: &[],
        source: "usual gap: common practice; its change: geometry",
        caution: "The ring maker's gap goes before this. Too small a gap breaks the ring and scores the bore.",
        example: &["--bore", "4.030 in", "--change", "0.001 in"],
        turns: None,
        work: end_gap,
    },
    Calculation {
        name: "journal",
        about: "clearance of a plain journal by the machinery rule; turned round, the diameter",
        inputs: &[
            of("diameter", "d", "diameter of the journal", &[Length], "2.375 in").sought(0.1, 1e5),
            of("clearance", "c", "the clearance, where the diameter is left out", &[Length], "0.0044 in").result(),
        ],
        formula: &["c = 0.002 in + 0.001·d"],
        letters: &[],
        source: "MIL-HDBK-1164",
        caution: "The rule is for machinery; engines run closer. The maker's clearance decides.",
        example: &["--diameter", "2.375 in"],
        turns: Some("clearance"),
        work: journal,
    },
    Calculation {
        name: "eccentricity",
        about: "how far a centre is off, from the full swing of a dial; turned round, the swing",
        inputs: &[
            of("swing", "", "full swing of the dial in one turn", &[Length], "0.10 mm").take(Take::Limits).sought(1e-6, 1e4),
            of("offset", "e", "offset of the centre, where the swing is left out", &[Length], "0.05 mm").result().take(Take::Limits),
        ],
        formula: &["e = swing/2"],
        letters: &[],
        source: "metrology (from memory)",
        caution: "It holds for a round shaft that runs out; an oval one swings twice in a turn.",
        example: &["--swing", "0.10 mm"],
        turns: Some("offset"),
        work: offset,
    },
    Calculation {
        name: "backlash",
        about: "backlash at the gear from a dial at another radius; turned round, the dial's reading",
        inputs: &[
            of("reading", "", "reading of the dial", &[Length], "0.24 mm").take(Take::Limits).sought(1e-6, 1e4),
            of("gear-radius", "rg", "radius the backlash is stated at", &[Length], "70 mm").sought(SMALL, LARGE),
            of("dial-radius", "rd", "radius the dial touches at", &[Length], "90 mm").sought(SMALL, LARGE),
            of("backlash", "j", "backlash at the gear, where another value is left out; with its limits, those of the dial", &[Length], "0.12–0.22 mm").result().take(Take::Limits),
        ],
        formula: &["j = reading·rg/rd"],
        letters: &[],
        source: "geometry of the lever",
        caution: "Hold the other gear still, and take the least of several places.",
        example: &["--reading", "0.24 mm", "--gear-radius", "70 mm", "--dial-radius", "90 mm"],
        turns: Some("backlash"),
        work: at_gear,
    },
];

fn between(given: &Given) -> Worked {
    let found = possible(clearance::clearance(given.span("hole")?, given.span("part")?), "sizes are above nothing")?;
    let words = if found.low_mm > 0.0 {
        "it always clears"
    } else if found.high_mm < 0.0 {
        "it is always tight"
    } else {
        "it clears or is tight, as the parts come"
    };
    Ok(vec![
        Figure::quantity("least", "", "least clearance", found.low_mm, Length).shown_to_place(-3),
        Figure::quantity("greatest", "", "greatest clearance", found.high_mm, Length).shown_to_place(-3),
        Figure::words("standing", "that is", words),
    ])
}

fn end_gap(given: &Given) -> Worked {
    let usual = possible(clearance::usual_end_gap(given.number("bore")?), "a bore above nothing is wanted")?;
    let mut figures = vec![Figure::span("gap", "", "usual end gap", (usual.low_mm, usual.high_mm), Length).shown_to_place(-2).rounded(Round::Inward)];
    if let Some(change) = given.maybe("change") {
        let by = possible(clearance::end_gap_change_mm(change), "a change that is a length is wanted")?;
        figures.push(Figure::quantity("change", "", "the gap changes by", by, Length));
    }
    Ok(figures)
}

fn journal(given: &Given) -> Worked {
    let clearance = clearance::machinery_journal_clearance_mm(given.number("diameter")?);
    Ok(vec![Figure::quantity("clearance", "c", "clearance", possible(clearance, "a diameter above nothing is wanted")?, Length)])
}

fn offset(given: &Given) -> Worked {
    let offset = clearance::eccentricity_mm(given.number("swing")?);
    Ok(vec![Figure::quantity("offset", "e", "offset of the centre", possible(offset, "a swing is not below nothing")?, Length)])
}

fn at_gear(given: &Given) -> Worked {
    let radii = BacklashRadii { gear_mm: given.number("gear-radius")?, dial_mm: given.number("dial-radius")? };
    let backlash = radii.at_gear_mm(given.number("reading")?);
    Ok(vec![Figure::quantity("backlash", "j", "backlash at the gear", possible(backlash, "radii are above nothing")?, Length)])
}
