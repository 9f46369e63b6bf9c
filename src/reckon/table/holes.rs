//! Bolts in their holes: engagement, bottoming, strip strength, room; angle and stretch.

use super::{
    Angle, Calculation, Figure, Force, Input, LARGE, Length, Number, Pressure, Refusal, Round, SMALL, Take, Word, Worked, class, hole_materials, of, possible, thread,
};
use crate::reckon::given::Given;
use crate::trade::engagement::{BoltedHole, EngagementStanding, InternalMaterial, fouls_by_mm};
use crate::trade::property::PropertyClass;
use crate::trade::stretch::{self, STEEL_MODULUS_MPA};
use crate::trade::strip;

const fn into() -> Input {
    Input::must("into", "", "what the hole is tapped in", Word(hole_materials), "aluminium")
}

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "engagement",
        about: "threads in engagement, whether that is enough, whether the bolt bottoms or stands out",
        inputs: &[
            thread(),
            of("length", "l", "length under the head", &[Length], "35 mm"),
            of("clamped", "c", "thickness of what is clamped", &[Length], "20 mm"),
            of("washer", "w", "thickness of all washers", &[Length], "1.6 mm").assume("0 mm"),
            of("hole", "h", "threaded depth of a blind hole", &[Length], "18 mm").may(),
            into().may(),
            of("nut", "m", "height of a nut instead of a hole", &[Length], "6.8 mm").may(),
        ],
        formula: &["reach = l − c − w   engagement = the lesser of reach and h", "bottoms where reach > h − P   stands out = reach − m"],
        letters: &[("P", "pitch")],
        source: "need: 1.0 d in steel, 1.2 d in cast iron, 1.5 d in aluminium, 2.0 d in magnesium (common practice); engineering notes and US Army torque notes ask for 1.5 d in cast iron and brass, 2 d in aluminium; standing out: FAA AC 43.13-1B, 7-37",
        caution: "Measure the hole with its thread, not its drill.",
        example: &["--thread", "M8x1.25", "--length", "30 mm", "--clamped", "20 mm", "--washer", "1.6 mm", "--nut", "6.8 mm"],
        turns: None,
        work: engagement,
    },
    Calculation {
        name: "strip",
        about: "the load at which threads strip, and the engagement a preload needs",
        inputs: &[
            thread(),
            into(),
            of("engagement", "Le", "threads in engagement", &[Length], "12 mm").may(),
            class().may(),
            of("preload", "F", "a preload the hole has to bear", &[Force], "17 kN").may(),
        ],
        formula: &["hole: F = AS·(Le − P)·τ   bolt: F = ASs·(Le − P)·0.6·Rm", "as strong as the bolt: Le = 2·As/ASs"],
        letters: &[
            ("AS", "shear area of the hole's thread for each mm"), ("ASs", "the bolt's"), ("P", "pitch"), ("τ", "shear strength of the hole"),
            ("Rm", "tensile strength of the bolt"), ("As", "stress area"),
        ],
        source: "FED-STD-H28/2B, least material; one pitch taken off (common practice; VDI 2230-1 takes 0.8); shear strengths: low ends, from memory",
        caution: "A screening with low ends of common materials, no design value.",
        example: &["--thread", "M10x1.5", "--into", "aluminium", "--engagement", "20 mm", "--class", "8.8"],
        turns: None,
        work: stripping,
    },
    Calculation {
        name: "room",
        about: "whether a head or an end fouls what moves past it",
        inputs: &[of("height", "k", "height of the head or end", &[Length], "5.3 mm"), of("room", "", "room to what moves", &[Length], "6 mm").take(Take::Least)],
        formula: &["fouls by = k − room"],
        letters: &[],
        source: "arithmetic",
        caution: "Turn the shaft by hand all the way round before a starter does.",
        example: &["--height", "6.4 mm", "--room", "6 mm"],
        turns: None,
        work: room,
    },
    Calculation {
        name: "advance",
        about: "how far a nut or screw moves when it is turned; turned round, the angle",
        inputs: &[
            thread(),
            of("angle", "θ", "the angle it is turned by", &[Angle], "90°").take(Take::Limits).sought(1e-3, 1e6),
            of("advance", "", "how far it moves, where the angle is left out", &[Length], "0.375 mm").result().take(Take::Limits),
        ],
        formula: &["advance = P·θ/360°"],
        letters: &[("P", "pitch")],
        source: "geometry of the thread",
        caution: "A nut that stretches its bolt moves less along the joint.",
        example: &["--thread", "M10x1.5", "--angle", "90°"],
        turns: Some("advance"),
        work: advance,
    },
    Calculation {
        name: "stretch",
        about: "stretch of a bolt and the angle that makes it; turned round, the preload",
        inputs: &[
            of("preload", "F", "the preload", &[Force], "30 kN").take(Take::Limits).sought(1e-2, 1e9),
            thread(),
            of("length", "L", "length that stretches: from head to first thread in engagement", &[Length], "40 mm"),
            Input::must("area", "A", "area of the shank in mm²; otherwise the stress area", Number, "58").may(),
            of("modulus", "E", "modulus of elasticity", &[Pressure], "206000 MPa").assume("206000 MPa"),
            of("stretch", "δ", "the stretch, where the preload is left out", &[Length], "0.10 mm").result().take(Take::Limits),
        ],
        formula: &["δ = F·L/(E·A)   θ = 360°·δ/P"],
        letters: &[("P", "pitch"), ("θ", "angle")],
        source: "elastic bolt, MIL-HDBK-60, 6.2.1; modulus of steel: handbooks",
        caution: "The joint gives too: a real joint needs more angle than this.",
        example: &["--preload", "30 kN", "--thread", "M10x1.5", "--length", "40 mm"],
        turns: Some("stretch"),
        work: stretching,
    },
    Calculation {
        name: "flats",
        about: "flats of a hexagon as an angle; turned round, the flats",
        inputs: &[
            Input::must("flats", "n", "flats turned by", Number, "1").sought(SMALL, LARGE),
            of("angle", "θ", "the angle, where the flats are left out", &[Angle], "90°").result(),
        ],
        formula: &["θ = 60°·n"],
        letters: &[],
        source: "geometry",
        caution: "Mark the flat before you turn.",
        example: &["--flats", "1"],
        turns: Some("angle"),
        work: flats,
    },
];

fn material(given: &Given) -> Option<InternalMaterial> {
    given.word("into").and_then(InternalMaterial::find)
}

fn engagement(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let bolt = BoltedHole {
        length_mm: given.number("length")?,
        clamped_mm: given.number("clamped")?,
        washer_mm: given.number("washer")?,
        hole_mm: given.maybe("hole"),
    };
    let why = "lengths are above nothing";
    let length = |name, what: &str, value| Figure::quantity(name, "", what, value, Length).shown_to_place(-2);
    let mut figures = vec![length("reach", "reach past what is clamped", possible(bolt.reach_mm(), why)?)];
    if let Some(nut) = given.maybe("nut") {
        let out = possible(bolt.protrusion_mm(nut), why)?;
        figures.push(length("protrusion", "stands out behind the nut", out));
        let words = if out + 1e-6 >= thread.pitch_mm() { "enough: at least one pitch stands out" } else { "too short: at least one pitch should stand out" };
        figures.push(Figure::words("protrusion-standing", "how that stands", words));
        return Ok(figures);
    }
    let engaged = possible(bolt.engagement_mm(), why)?;
    figures.push(length("engagement", "threads in engagement", engaged));
    figures.push(Figure::plain("diameters", "", "in diameters", engaged / thread.diameter_mm(), "d"));
    if let Some(material) = material(given) {
        let needed = material.needed_engagement();
        let words = match material.standing(engaged, thread.diameter_mm()) {
            Some(EngagementStanding::Enough) => "enough",
            Some(EngagementStanding::Short { .. }) => "short",
            Some(EngagementStanding::FarTooShort { .. }) => "far too short",
            None => "not to be told",
        };
        figures.push(Figure::words("standing", &format!("in {}", material.word()), words));
        figures.push(length("needed", "needed", needed.screening * thread.diameter_mm()).rounded(Round::Up));
        figures.extend(needed.handbook.map(|handbook| length("needed-handbook", "needed by handbooks", handbook * thread.diameter_mm()).rounded(Round::Up)));
    }
    if bolt.hole_mm.is_some() {
        match bolt.bottoms_by_mm(thread.pitch_mm()) {
            Some(by) => figures.push(length("bottoms-by", "bottoms: too long, with one pitch to spare, by", by).rounded(Round::Up)),
            None => figures.push(Figure::words("bottoms", "bottoms", "no: a pitch at least stays free")),
        }
    }
    Ok(figures)
}

fn stripping(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let into = material(given).unwrap_or(InternalMaterial::Steel);
    let class = given.class("class").unwrap_or_else(|| PropertyClass::assumed(thread));
    let strength = class.strength(thread).map_err(|error| Refusal::Impossible(error.message()))?;
    let mut figures = Vec::new();
    if let Some(engaged) = given.maybe("engagement") {
        let loads = possible(strip::strip_loads(thread, engaged, into, strength.tensile_mpa), "an engagement above nothing is wanted")?;
        figures.push(Figure::quantity("hole", "F", &format!("the hole's thread in {} strips at", into.word()), loads.internal_n, Force).with_digits(2));
        figures.push(Figure::quantity("bolt", "F", &format!("the thread of a bolt of class {} strips at", class.name()), loads.external_n, Force).with_digits(2));
    }
    let equal = possible(strip::equal_strength_engagement_mm(thread), "this thread has no shear area")?;
    figures.push(Figure::quantity("equal", "Le", "engagement over which a nut of the bolt's strength holds until the bolt breaks", equal, Length).with_digits(2).rounded(Round::Up));
    if let Some(preload) = given.maybe("preload") {
        let needed = possible(strip::engagement_for_preload_mm(thread, preload, into), "a preload above nothing is wanted")?;
        figures.push(Figure::quantity("needed", "Le", &format!("engagement that bears the preload in {}", into.word()), needed, Length).with_digits(2).rounded(Round::Up));
    }
    Ok(figures)
}

fn room(given: &Given) -> Worked {
    let (height, room) = (given.number("height")?, given.number("room")?);
    if height <= 0.0 || room < 0.0 {
        return Err(Refusal::Impossible("a height is above nothing, and room not below it".to_owned()));
    }
    let found = fouls_by_mm(height, room).map_or_else(
        || Figure::quantity("clears-by", "", "clears by", room - height, Length).shown_to_place(-2).rounded(Round::Down),
        |by| Figure::quantity("fouls-by", "", "fouls by", by, Length).shown_to_place(-2).rounded(Round::Up),
    );
    Ok(vec![found])
}

fn advance(given: &Given) -> Worked {
    let advance = stretch::advance_mm(given.thread("thread")?.pitch_mm(), given.number("angle")?);
    Ok(vec![Figure::quantity("advance", "", "moves by", possible(advance, "an angle above nothing is wanted")?, Length)])
}

fn stretching(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let area = given.maybe("area").unwrap_or_else(|| thread.form().stress_area_mm2);
    let modulus = given.maybe("modulus").map_or(STEEL_MODULUS_MPA, |kpa| kpa / 1000.0);
    let (force, length) = (given.number("preload")?, given.number("length")?);
    let why = "preload, length, area and modulus are above nothing";
    let angle = stretch::angle_for_preload_deg(force, length, area, thread.pitch_mm(), modulus);
    Ok(vec![
        Figure::quantity("stretch", "δ", "stretch", possible(stretch::stretch_mm(force, length, area, modulus), why)?, Length),
        Figure::quantity("angle", "θ", "angle for it, if the joint did not give", possible(angle, why)?, Angle),
    ])
}

fn flats(given: &Given) -> Worked {
    let angle = possible(stretch::flats_deg(given.number("flats")?), "flats are counted from nothing up")?;
    Ok(vec![Figure::quantity("angle", "θ", "angle", angle, Angle)])
}
