//! Wrenches: what to set with an adapter or a multiplier, which wrench, what it delivers, stages.

use super::{Angle, Calculation, Dimension, Figure, Force, Input, Length, Ratio, Round, Take, Torque, Worked, of, possible};
use crate::reckon::given::Given;
use crate::trade::drag;
use crate::trade::multiplier;
use crate::trade::stages;
use crate::trade::wrench::{self, Adapter, Wrench, WrenchFit};

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "adapter",
        about: "what to set on a torque wrench with an adapter; turned round, what the bolt gets",
        inputs: &[
            of("torque", "T", "the torque the bolt is to get", &[Torque], "70 N·m").take(Take::Limits).sought(1e-4, 1e6),
            of("wrench", "L", "the wrench, from the middle of its grip to its square", &[Length], "300 mm").sought(1.0, 1e5),
            of("offset", "E", "the adapter, from the square to the middle of the bolt", &[Length], "45 mm"),
            of("angle", "θ", "between wrench and adapter: 0° straight on, 90° square, 180° back", &[Angle], "0°").assume("0°"),
            of("set", "S", "what the wrench is set to, where another value is left out", &[Torque], "61 N·m").result().take(Take::Limits),
        ],
        formula: &["S = T·L/(L + E·cos θ)"],
        letters: &[],
        source: "TM 1-1500-204-23-9, TM 9-254, p. 92, TM 55-1945-205",
        caution: "Hold the wrench in the middle of its grip, or L is another. At 90° nothing is to be corrected.",
        example: &["--torque", "300 lbf·in", "--wrench", "10 in", "--offset", "4 in"],
        turns: Some("set"),
        work: adapter,
    },
    Calculation {
        name: "multiplier",
        about: "what to set on a torque wrench behind a torque multiplier; turned round, what the nut gets",
        inputs: &[
            of("torque", "T", "the torque the nut is to get", &[Torque], "480 N·m").take(Take::Limits).sought(1e-4, 1e7),
            Input::must("ratio", "i", "the gear by its teeth", Ratio, "4:1"),
            of("efficiency", "η", "what comes out of it, as its plate says", &[Dimension::Percent], "90 %"),
            of("set", "S", "what the wrench is set to, where another value is left out", &[Torque], "133 N·m").result().take(Take::Limits),
        ],
        formula: &["S = T/(i·η)"],
        letters: &[],
        source: "mechanics; that a planetary gear loses some 10 % is common practice",
        caution: "Ratio and efficiency are those on the multiplier's own plate. Its reaction arm swings with the torque of the nut: it stands against something that does not give way, and no hand is between. Where the torque is critical, the multiplier is calibrated together with its wrench.",
        example: &["--torque", "480 N·m", "--ratio", "4:1", "--efficiency", "90 %"],
        turns: Some("set"),
        work: geared,
    },
    Calculation {
        name: "wrench",
        about: "which of several wrenches for a torque, and what it delivers",
        inputs: &[
            of("torque", "S", "the torque to be set", &[Torque], "50 N·m"),
            of("range", "", "range of a wrench; several", &[Torque], "10–60 N·m").take(Take::Many),
            of("step", "", "step of the scale of all of them", &[Torque], "0.5 N·m").may(),
        ],
        formula: &["usable from 20 % of full scale (or its lowest mark) to full scale; delivers S ± 4 % (± 6 % up to 10 N·m)"],
        letters: &[],
        source: "MSFC-STD-486B, 4.2 and TM 1-1500-204-23-9 (from a fifth of full scale); TM 9-2350-311-20-2 (best from 25 to 75 %); ISO 6789:2003 (deviation, as restated in a tool handbook)",
        caution: "The deviation holds for a wrench calibrated within the year.",
        example: &["--torque", "50 N·m", "--range", "10–60 N·m"],
        turns: None,
        work: which,
    },
    Calculation {
        name: "stages",
        about: "the torques of tightening in passes",
        inputs: &[of("torque", "T", "the final torque", &[Torque], "120 lbf·ft").bare()],
        formula: &["crosswise: 30 %, 60 %, 100 %, and once round", "above 30 lbf·ft: 70 % first, then all"],
        letters: &[],
        source: "after ASME PCC-1, as in piping texts (common practice); US Army general torque notes, TM 5-3805-291-23-2",
        caution: "Stages the source gives go before these.",
        example: &["120 lbf·ft"],
        turns: None,
        work: passes,
    },
    Calculation {
        name: "drag",
        about: "drag of a bearing from the pull on a cord round its shaft; turned round, the pull",
        inputs: &[
            of("pull", "F", "the pull on the cord, turning steadily", &[Force], "20 N").take(Take::Limits).sought(1e-4, 1e6),
            of("radius", "r", "radius the cord runs on: half the diameter, and half the cord", &[Length], "30 mm").sought(1e-2, 1e5),
            of("torque", "T", "the drag, where another value is left out", &[Torque], "0.6 N·m").result().take(Take::Limits),
        ],
        formula: &["T = F·r"],
        letters: &[],
        source: "mechanics",
        caution: "Read the pull while it turns, not as it starts; seals drag too.",
        example: &["--pull", "20 N", "--radius", "30 mm"],
        turns: Some("torque"),
        work: cord,
    },
];

fn adapter(given: &Given) -> Worked {
    let adapter = Adapter { length_mm: given.number("offset")?, angle_deg: given.number("angle")? };
    let set = wrench::set_value_nm(given.number("torque")?, given.number("wrench")?, adapter);
    let set = possible(set, "with these lengths nothing is left of the wrench: torque and wrench are above nothing, and an adapter pointing back is shorter than the wrench")?;
    Ok(vec![Figure::quantity("set", "S", "set on the wrench", set, Torque)])
}

fn geared(given: &Given) -> Worked {
    let set = multiplier::set_nm(given.number("torque")?, given.number("ratio")?, given.number("efficiency")? / 100.0);
    let set = possible(set, "the ratio is 1:1 or more (4:1 is written 4:1, not 1:4), and no gear gives more than its teeth: the efficiency lies above 0 % and up to 100 %")?;
    Ok(vec![Figure::quantity("set", "S", "set on the wrench", set, Torque)])
}

fn which(given: &Given) -> Worked {
    let (torque, step) = (given.number("torque")?, given.maybe("step"));
    let why = "a wrench has a range from a low to a higher torque, and a step above nothing";
    let ranges = given.quantities("range");
    let wrenches: Vec<Wrench> = ranges
        .iter()
        .map(|range| {
            let (low, high) = range.low_high();
            possible(low.zip(high).and_then(|(low, high)| Wrench::new(low, high, step)), why)
        })
        .collect::<Result<_, _>>()?;
    let best = wrench::best(&wrenches, torque);
    let mut figures = Vec::new();
    for (at, (range, wrench)) in ranges.iter().zip(&wrenches).enumerate() {
        let words = match wrench.fit(torque) {
            Some(WrenchFit::Usable) if Some(at) == best && wrenches.len() > 1 => "usable, and the one to take",
            Some(WrenchFit::Usable) => "usable",
            Some(WrenchFit::AboveRange { .. }) => "too small: the torque is above its range",
            Some(WrenchFit::BelowRange { .. }) => "too large: the torque is below where it can be trusted",
            None => "no torque above nothing",
        };
        figures.push(Figure::words("fit", range.written(), words));
        if wrench.fit(torque) == Some(WrenchFit::Usable) {
            let delivers = possible(wrench.delivers(torque), why)?;
            figures.push(Figure::span("delivers", "", "delivers", (delivers.low_nm, delivers.high_nm), Torque));
            if step.is_some() {
                let nearest = possible(wrench.nearest_setting_nm(torque), why)?;
                figures.push(Figure::quantity("nearest", "S", "nearest mark", nearest, Torque).with_digits(4));
            }
        }
        let from = possible(wrench.usable_from_nm(), why)?;
        figures.push(Figure::span("usable", "", "can be trusted", (from, wrench.high_nm), Torque).rounded(Round::Inward));
        let most = possible(wrench.most_accurate(), why)?;
        figures.push(Figure::span("most-accurate", "", "most accurate", (most.low_nm, most.high_nm), Torque));
    }
    Ok(figures)
}

fn passes(given: &Given) -> Worked {
    let torque = given.number("torque")?;
    let crosswise = possible(stages::crosswise_nm(torque), "a torque above nothing is wanted")?;
    let names = ["first pass, crosswise", "second pass, crosswise", "third pass, and once round"];
    let mut figures: Vec<Figure> = names.iter().zip(crosswise).map(|(what, torque)| Figure::quantity("pass", "T", what, torque, Torque)).collect();
    match stages::first_stage_nm(torque) {
        Some(first) => figures.push(Figure::quantity("first-stage", "T", "by the 70 % rule: first", first, Torque)),
        None => figures.push(Figure::words("first-stage", "by the 70 % rule", "in one stage: it begins above 30 lbf·ft (40.7 N·m)")),
    }
    Ok(figures)
}

fn cord(given: &Given) -> Worked {
    let torque = drag::torque_nm(given.number("pull")?, given.number("radius")?);
    Ok(vec![Figure::quantity("torque", "T", "drag", possible(torque, "pull and radius are above nothing")?, Torque)])
}

