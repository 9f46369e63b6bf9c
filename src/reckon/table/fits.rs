//! Heat and cold for fits, growth, limits of plain diameters.

use super::{Calculation, Figure, Input, Length, Refusal, Round, Take, Temperature, TemperatureRise, Text, Word, Worked, metals, of, possible};
use crate::reckon::given::Given;
use crate::trade::fit::{self, AGED_ALUMINIUM_LIMIT_C, BEARING_LIMIT_C, DRY_ICE_C, Interference, LIQUID_NITROGEN_C, Metal, Warmed};
use crate::trade::iso_limits::{self, Grade};

const EXPANSION: &str = "growth δ = α·D·ΔT (engineering reference); coefficients: handbook values for screening; gap of 0.02 mm: common practice";

const fn diameter() -> Input {
    of("diameter", "D", "diameter of the fit", &[Length], "62 mm")
}

const fn interference() -> Input {
    of("interference", "δ", "interference; of a range the greatest counts", &[Length], "max 0.040 mm").take(Take::Greatest)
}

const fn metal(what: &'static str) -> Input {
    Input::must("metal", "α", what, Word(metals), "aluminium")
}

const fn gap() -> Input {
    of("gap", "c", "gap wanted for dropping in", &[Length], "0.02 mm").assume("0.02 mm")
}

const fn bench() -> Input {
    of("bench", "t0", "temperature of the bench", &[Temperature], "20 °C").assume("20 °C")
}

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "heat",
        about: "how hot a housing or ring has to be so that the part drops in",
        inputs: &[diameter(), interference(), metal("metal of the outer part"), gap(), bench()],
        formula: &["t = t0 + (δ + c)/(α·D)"],
        letters: &[("t", "temperature of the outer part"), ("α", "its coefficient of expansion")],
        source: EXPANSION,
        caution: "A rolling bearing stays below 120 °C, heat-treated aluminium below 175 °C, a seal below what its rubber stands (common practice). Measure the part, not the oven. Gloves, and no flame.",
        example: &["--diameter", "100 mm", "--interference", "0.06 mm", "--metal", "steel", "--gap", "0.05 mm"],
        turns: None,
        work: heat,
    },
    Calculation {
        name: "chill",
        about: "how cold a shaft or ring has to be so that it drops in",
        inputs: &[diameter(), interference(), metal("metal of the inner part"), gap(), bench()],
        formula: &["t = t0 − (δ + c)/(α·D)"],
        letters: &[("t", "temperature of the inner part"), ("α", "its coefficient of expansion")],
        source: EXPANSION,
        caution: "Metals shrink less the colder they get: leave a margin. Cold burns; frost becomes water in the fit.",
        example: &["--diameter", "12.363 in", "--interference", "0.005 in", "--metal", "steel", "--gap", "0.010 in", "--bench", "80 °F"],
        turns: None,
        work: chill,
    },
    Calculation {
        name: "gap",
        about: "the gap there is when outer and inner part have their temperatures",
        inputs: &[
            diameter(),
            interference(),
            Input::must("outer", "αo", "metal of the outer part", Word(metals), "aluminium"),
            of("outer-at", "to", "its temperature", &[Temperature], "90 °C"),
            Input::must("inner", "αi", "metal of the inner part", Word(metals), "bearing-steel"),
            of("inner-at", "ti", "its temperature", &[Temperature], "-18 °C").assume("20 °C"),
            bench(),
        ],
        formula: &["gap = αo·D·(to − t0) − αi·D·(ti − t0) − δ"],
        letters: &[("αo, αi", "coefficients of expansion")],
        source: EXPANSION,
        caution: "Below nothing it is still tight. The part warms up in the hand: be quick.",
        example: &["--diameter", "62 mm", "--interference", "0.040 mm", "--outer", "aluminium", "--outer-at", "90 °C", "--inner", "bearing-steel"],
        turns: None,
        work: opened,
    },
    Calculation {
        name: "growth",
        about: "how much a diameter grows with heat; turned round, the rise",
        inputs: &[
            diameter(),
            metal("its metal"),
            of("rise", "ΔT", "rise of temperature", &[TemperatureRise], "100 K").take(Take::Limits).sought(-2000.0, 5000.0),
            of("growth", "δ", "growth, where the rise is left out", &[Length], "0.12 mm").result().take(Take::Limits),
        ],
        formula: &["δ = α·D·ΔT"],
        letters: &[("α", "coefficient of expansion")],
        source: EXPANSION,
        caution: "A rise is not a temperature: 100 K of rise is 180 Δ°F, not 212 °F.",
        example: &["--diameter", "100 mm", "--metal", "steel", "--rise", "100 K"],
        turns: Some("growth"),
        work: growing,
    },
    Calculation {
        name: "limits",
        about: "limits of a plain diameter: hole H, shaft h, or a shaft with its deviation",
        inputs: &[
            of("diameter", "D", "nominal diameter", &[Length], "50 mm").bare(),
            Input::must("tolerance", "", "letter and grade: H7, h11; or IT7 with --deviation", Text, "H7").bare(),
            of("deviation", "es", "upper deviation of a shaft of another letter", &[Length], "-120 µm").may(),
        ],
        formula: &["hole H: D to D + IT   shaft: D + es − IT to D + es (h: es = 0)"],
        letters: &[("IT", "standard tolerance of the grade")],
        source: "ISO 286-1:2010, Table 1 (IT6 to IT8 and IT11 compared with reprints, the rest from memory)",
        caution: "A drawing's own limits go before these.",
        example: &["50 mm", "H7"],
        turns: None,
        work: iso,
    },
];

fn expansion(given: &Given, name: &str) -> Result<f64, Refusal> {
    possible(given.word(name).and_then(Metal::find).map(Metal::expansion_per_k), "this metal has no coefficient here")
}

fn interference_of(given: &Given) -> Result<Interference, Refusal> {
    let gap_mm = given.maybe("gap").unwrap_or_default();
    Ok(Interference { diameter_mm: given.number("diameter")?, greatest_mm: given.number("interference")?, gap_mm })
}

const SIZES: &str = "a diameter is above nothing, interference and gap not below it, and nothing is colder than −273.15 °C";

fn coefficient(expansion: f64) -> Figure {
    Figure::plain("expansion", "α", "coefficient of expansion", expansion * 1e6, "millionths for each K")
}

fn heat(given: &Given) -> Worked {
    let (fit, expansion) = (interference_of(given)?, expansion(given, "metal")?);
    let heat = possible(fit.heat_to_c(given.number("bench")?, expansion), SIZES)?;
    let rise = possible(fit.needed_change_k(expansion), SIZES)?;
    let mut figures = vec![
        Figure::quantity("heat", "t", "heat the outer part to at least", heat, Temperature).shown_to_place(0).rounded(Round::Up),
        Figure::quantity("rise", "ΔT", "that is a rise of", rise, TemperatureRise),
        coefficient(expansion),
    ];
    let over = [(AGED_ALUMINIUM_LIMIT_C, "above 175 °C: too hot for heat-treated aluminium"), (BEARING_LIMIT_C, "above 120 °C: too hot for a rolling bearing, and for most seals")];
    if let Some((_, words)) = over.iter().find(|(limit, _)| heat > *limit) {
        figures.push(Figure::words("limit", "look", format!("{words}; chill the inner part as well")));
    }
    Ok(figures)
}

fn chill(given: &Given) -> Worked {
    let (fit, expansion) = (interference_of(given)?, expansion(given, "metal")?);
    let fall = possible(fit.needed_change_k(expansion), SIZES)?;
    let chill = possible(fit.chill_to_c(given.number("bench")?, expansion), "no cold is enough: heat the outer part as well")?;
    if chill < LIQUID_NITROGEN_C {
        let cold = format!("{:.0}", chill.abs().ceil());
        return Err(Refusal::Impossible(format!("no cold at hand is enough: it asks for −{cold} °C, and liquid nitrogen has −196 °C; heat the outer part as well")));
    }
    let mut figures = vec![
        Figure::quantity("chill", "t", "chill the inner part to at most", chill, Temperature).shown_to_place(0).rounded(Round::Down),
        Figure::quantity("fall", "ΔT", "that is a fall of", fall, TemperatureRise),
        coefficient(expansion),
    ];
    figures.extend(deep_cold(chill));
    Ok(figures)
}

/// What is said of a part colder than dry ice.
fn deep_cold(at_c: f64) -> Option<Figure> {
    let words = "colder than dry ice (−78.5 °C): the straight line no longer holds, the part stays larger than reckoned; heat the outer part as well";
    (at_c < DRY_ICE_C).then(|| Figure::words("limit", "look", words))
}

fn opened(given: &Given) -> Worked {
    let bench = given.number("bench")?;
    let part = |metal: &str, at: &str| Ok(Warmed { expansion_per_k: expansion(given, metal)?, from_c: bench, to_c: given.number(at)? });
    let gap = interference_of(given)?.gap_at_mm(part("outer", "outer-at")?, part("inner", "inner-at")?);
    let gap = possible(gap, SIZES)?;
    let words = if gap >= fit::DROP_IN_GAP_MM { "it drops in" } else if gap >= 0.0 { "it only just goes: have a press at hand" } else { "still tight" };
    let mut figures = vec![Figure::quantity("gap", "", "gap", gap, Length).shown_to_place(-3).rounded(Round::Down), Figure::words("standing", "how that stands", words)];
    figures.extend(deep_cold(given.number("inner-at")?));
    Ok(figures)
}

fn growing(given: &Given) -> Worked {
    let growth = fit::growth_mm(given.number("diameter")?, expansion(given, "metal")?, given.number("rise")?);
    Ok(vec![Figure::quantity("growth", "δ", "growth", possible(growth, SIZES)?, Length)])
}

fn iso(given: &Given) -> Worked {
    let nominal = given.number("diameter")?;
    let text = given.texts("tolerance").first().map(|text| text.trim().to_owned()).unwrap_or_default();
    let split = text.find(|c: char| c.is_ascii_digit()).unwrap_or(text.len());
    let (letter, number) = text.split_at(split);
    let why = format!("‘{text}’ is no tolerance reckoned here: write H7 for a hole, h6 for a shaft, or IT11 with --deviation; grades 5 to 11, to 500 mm");
    let grade = possible(number.parse().ok().and_then(Grade::find), &why)?;
    let deviation = given.maybe("deviation").map(|mm| mm * 1000.0);
    let span = match (letter, deviation) {
        ("H", None) => iso_limits::hole_h(nominal, grade),
        ("h", None) => iso_limits::shaft(nominal, 0.0, grade),
        (_, Some(deviation)) => iso_limits::shaft(nominal, deviation, grade),
        _ => None,
    };
    let tolerance = possible(grade.tolerance_um(nominal), &why)?;
    let mut figures = vec![Figure::quantity("tolerance", "IT", "tolerance", tolerance / 1000.0, Length).shown_to_place(-3)];
    if letter == "IT" && deviation.is_none() {
        return Ok(figures);
    }
    let span = possible(span, &why)?;
    figures.push(Figure::span("limits", "", if letter == "H" { "hole" } else { "shaft" }, (span.low_mm, span.high_mm), Length).shown_to_place(-3));
    Ok(figures)
}
