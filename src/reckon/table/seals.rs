//! Seals: what their rubber stands, whether they fit.

use super::{Calculation, Figure, Input, Length, Size, Temperature, Word, Worked, of, possible};
use crate::reckon::given::Given;
use crate::trade::seal::{self, Medium, Rubber, Verdict};

fn rubbers() -> Vec<&'static str> {
    Rubber::ALL.iter().map(|rubber| rubber.word()).collect()
}

/// The media as they are written here.
const MEDIA: [(&str, Medium); 10] = [
    ("oil", Medium::MineralOil), ("grease", Medium::MineralGrease), ("silicone-grease", Medium::SiliconeGrease), ("water", Medium::Water),
    ("coolant", Medium::Coolant), ("fuel", Medium::Fuel), ("brake-fluid", Medium::BrakeFluid), ("air", Medium::Air), ("exhaust", Medium::Exhaust),
    ("solvent", Medium::Solvent),
];

fn media() -> Vec<&'static str> {
    MEDIA.iter().map(|(word, _)| *word).collect()
}

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "rubber",
        about: "how hot a seal's rubber may stay, and what it stands",
        inputs: &[
            Input::must("rubber", "", "the rubber", Word(rubbers), "NBR").bare(),
            Input::must("medium", "", "what it touches; without it, all of them", Word(media), "oil").may(),
            of("temperature", "t", "how hot it gets", &[Temperature], "110 °C").may(),
        ],
        formula: &["by table"],
        letters: &[],
        source: "ranges: Neale, Tribology Handbook, p. 23.3; continuous limits and media: common practice (from memory)",
        caution: "Grades differ: the seal maker's own data go before this.",
        example: &["NBR", "--temperature", "110 °C"],
        turns: None,
        work: rubber,
    },
    Calculation {
        name: "seal-fit",
        about: "whether a shaft seal fits its shaft and bore, and covers a vent",
        inputs: &[
            Input::must("size", "", "bore, outside and width of the seal", Size, "30x42x7 mm").bare(),
            of("shaft", "d", "the shaft", &[Length], "30 mm").may(),
            of("bore", "D", "the bore it sits in", &[Length], "42 mm").may(),
            of("depth", "", "how deep it is pressed, from the face", &[Length], "10 mm").may(),
            of("vent", "", "a vent or drain, from the face", &[Length], "12 mm").may(),
        ],
        formula: &["by comparison"],
        letters: &[],
        source: "shaft h11, bore H8 (ISO 6194-1); 0.3 mm on the shaft: common practice",
        caution: "A worn track is smaller than the shaft: measure there.",
        example: &["30x42x7 mm", "--shaft", "30 mm", "--bore", "40 mm"],
        turns: None,
        work: fitting,
    },
];

fn rubber(given: &Given) -> Worked {
    let rubber = possible(given.word("rubber").and_then(Rubber::find), "a rubber is wanted")?;
    let limit = rubber.continuous_limit_c();
    let mut figures = vec![Figure::quantity("limit", "", "stands for good, up to", limit, Temperature).shown_to_place(0)];
    if let Some(range) = rubber.handbook_range() {
        figures.push(Figure::span("range", "", "range by the handbook", (range.low_c, range.high_c), Temperature).shown_to_place(0));
    }
    if let Some(temperature) = given.maybe("temperature") {
        let words = if temperature > limit { "too hot" } else { "within its limit" };
        figures.push(Figure::words("standing", "at this temperature", words));
    }
    let wanted = given.word("medium");
    for (word, medium) in MEDIA.iter().filter(|(word, _)| wanted.is_none_or(|wanted| wanted == *word)) {
        let verdict = match rubber.against(*medium) {
            Verdict::Good => "stands it",
            Verdict::Limited => "for a time, or cold, or by grade: ask its maker",
            Verdict::Unfit => "swells, hardens or falls apart",
        };
        figures.push(Figure::words("medium", word, verdict));
    }
    Ok(figures)
}

fn fitting(given: &Given) -> Worked {
    let lengths = given.size("size").map(crate::quantity::Size::millimetres).unwrap_or_default();
    let [inside, outside, width] = lengths.as_slice() else {
        return Err(crate::reckon::Refusal::Impossible("a shaft seal has three lengths: bore, outside and width, as 30x42x7 mm".to_owned()));
    };
    let mut figures = Vec::new();
    let mut compared = |name, what: &str, off: Option<f64>| match off {
        Some(off) => figures.push(Figure::quantity(name, "", &format!("{what} does not fit; the seal is larger by"), off, Length).shown_to_place(-2)),
        None => figures.push(Figure::words(name, what, "fits")),
    };
    if let Some(shaft) = given.maybe("shaft") {
        compared("shaft", "the shaft", seal::shaft_mismatch_mm(*inside, shaft));
    }
    if let Some(bore) = given.maybe("bore") {
        compared("bore", "the bore", seal::bore_mismatch_mm(*outside, bore));
    }
    if let Some((depth, vent)) = given.maybe("depth").zip(given.maybe("vent")) {
        let words = if seal::covers_vent(depth, *width, vent) { "covered by the seal" } else { "free" };
        figures.push(Figure::words("vent", "the vent", words));
    }
    if figures.is_empty() {
        return Err(crate::reckon::Refusal::Impossible("give --shaft, --bore, or --depth and --vent to compare the seal with".to_owned()));
    }
    Ok(figures)
}
