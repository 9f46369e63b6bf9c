//! Every calculation against a worked example from outside the project, turned round, and on rubbish.
//!
//! The source of each example stands beside it; where a calculation is plain geometry or arithmetic it says so and the
//! figure is reckoned by hand. A calculation without an example fails the first test.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use benchleaf::reckon::{Answer, Calculation, Figure, Kind, Need, Refusal, calculation, calculations, work};
use proptest::prelude::*;

/// What an example must give: a result's name, and a number in its base unit with a tolerance in per cent, or words in it.
enum Gives {
    Number(&'static str, f64, f64),
    Ends(&'static str, f64, f64),
    Says(&'static str, &'static str),
}
use Gives::{Ends, Number, Says};

struct Example {
    name: &'static str,
    typed: &'static [&'static str],
    gives: &'static [Gives],
    source: &'static str,
}

const LBF: f64 = 4.448_221_615_260_5;
const LBF_IN: f64 = 0.112_984_829_027_616_7;
const LBF_FT: f64 = 1.355_817_948_331_400_4;

/// NASA-STD-5020B, App. A.2, Tables 3, 5 and 6: preloads at 450 lbf·in on 3/8 in.
const NASA: &[&str] = &[
    "7760 lbf", "4010 lbf", "3587 lbf", "4635 lbf", "4920 lbf", "3797 lbf", "4462 lbf", "4940 lbf", "6220 lbf", "4780 lbf", "7229 lbf", "4310 lbf",
    "3900 lbf", "4322 lbf", "4475 lbf", "3812 lbf", "4132 lbf", "4219 lbf", "6100 lbf", "4685 lbf", "6080 lbf", "4291 lbf", "3054 lbf", "4804 lbf",
    "3910 lbf", "3303 lbf", "4090 lbf", "4550 lbf", "6062 lbf", "5180 lbf", "--torque", "450 lbf·in", "--thread", "3/8-24 UNF",
];

const EXAMPLES: &[Example] = &[
    Example { name: "convert", typed: &["65 lbf·ft", "N·m"], gives: &[Says("converted", "88 N·m")], source: "printed pair, TM 9-2320-362-14&P Table F-1" },
    Example { name: "convert", typed: &["300 °F", "°C"], gives: &[Says("converted", "149 °C")], source: "NIST SP 811, App. B.8: 148.889 °C" },
    Example {
        name: "reread",
        typed: &["--torque", "100 lbf·ft", "--thread", "1/4-28 UNF", "--class", "SAE 8", "--threads", "dry"],
        gives: &[Number("reading", 100.0 * LBF_IN, 1e-6)],
        source: "FAA AC 43.13-1B, Table 7-1: 1/4-28, 100 lbf·in",
    },
    Example {
        name: "thread",
        typed: &["M10x1.25"],
        gives: &[Number("stress-area", 61.2, 0.1), Number("pitch-diameter", 9.188, 0.01), Number("root-diameter", 8.466, 0.01), Number("tap-drill", 8.8, 0.0)],
        source: "ISO 724 and ISO 898-1 (as reprinted); tap drill as in bd-warehouse 0.4.0",
    },
    Example {
        name: "thread",
        typed: &["G1/4"],
        gives: &[Number("diameter", 13.157, 0.0), Number("pitch", 1.337, 0.02), Number("pitch-diameter", 12.301, 0.005), Number("minor-diameter", 11.445, 0.005)],
        source: "ISO 228-1, table of G 1/4 (from memory)",
    },
    Example { name: "class", typed: &["--thread", "M10x1.5", "--class", "8.8"], gives: &[Number("proof-load", 33_700.0, 0.5)], source: "ISO 898-1, proof loads (as reprinted)" },
    Example { name: "class", typed: &["--thread", "1/4-20 UNC", "--class", "SAE 8"], gives: &[Number("proof-load", 3816.0 * LBF, 0.2)], source: "NSTM ch. 075, worked line" },
    Example {
        name: "hexagon",
        typed: &["--thread", "M10x1.5", "--size", "14 mm"],
        gives: &[Number("across-flats", 16.0, 0.0), Number("older-across-flats", 17.0, 0.0), Number("nut-height", 8.4, 0.0), Says("occurs", "other heads")],
        source: "ISO 4014/4017/4032 (bd-warehouse 0.4.0); DIN 931",
    },
    Example { name: "running", typed: &["--thread", "3/8-24 UNF"], gives: &[Number("running", 80.0 * LBF_IN, 1e-6)], source: "MSFC-STD-486B Table XI" },
    Example {
        name: "running",
        typed: &["--thread", "7/16-20 UNF"],
        gives: &[Number("running", 100.0 * LBF_IN, 1e-6)],
        source: "MIL-DTL-45916 Table I and MSFC-STD-486B Table XI (this row from memory)",
    },
    Example {
        name: "torque",
        typed: &["--thread", "3/8-16 UNC", "--class", "SAE 5", "--share", "75 %"],
        gives: &[Number("torque", 31.0 * LBF_FT, 1.5), Number("preload", 4950.0 * LBF, 0.4)],
        source: "IFI Fastener Standards, 5th ed., N-12 (as reprinted)",
    },
    Example {
        name: "screen",
        typed: &["--torque", "106 lbf·ft", "--thread", "1/2-13 UNC", "--class", "SAE 8"],
        gives: &[Number("preload", 12_750.0 * LBF, 1.5), Number("share", 75.0, 1.5), Says("standing", "plausible")],
        source: "IFI Fastener Standards, 5th ed., N-12, IF-14 (as reprinted)",
    },
    Example {
        name: "preload",
        typed: &["--torque", "450 lbf·in", "--thread", "3/8-24 UNF", "--preload", "4720.63 lbf"],
        gives: &[Number("nut-factor", 0.254_20, 0.01)],
        source: "NASA-STD-5020B, App. A.2: K = 0.254",
    },
    Example { name: "nut-factors", typed: &["--threads", "oiled"], gives: &[Number("nut-factor", 0.15, 0.0), Says("published-nut-factor", "NASA")], source: "IFI N-12: lubricated 0.15" },
    Example {
        name: "scatter",
        typed: &["--torque", "35 ± 1 lbf·ft", "--thread", "3/8-24 UNF", "--nut-factor", "0.15", "--uncertainty", "25 %"],
        gives: &[Number("greatest", 9600.0 * LBF, 0.1), Number("least", 5440.0 * LBF, 0.1)],
        source: "NSTS 08307 Rev. A, 3.3 (formula), reckoned by hand",
    },
    Example { name: "tightening-factor", typed: &["--greatest", "41.9 kN", "--factor", "1.8"], gives: &[Number("least", 23_300.0, 0.25)], source: "VDI 2230-1, App. A8" },
    Example {
        name: "readings",
        typed: NASA,
        gives: &[
            Number("mean", 4721.0 * LBF, 0.011), Number("deviation", 1097.0 * LBF, 0.05), Number("above", 64.4, 0.1), Number("below", 35.3, 0.1),
            Number("nut-factor", 0.254, 0.2),
        ],
        source: "NASA-STD-5020B, App. A.2, Tables 3, 5 and 6",
    },
    Example { name: "friction-torque", typed: &["--preload", "28.82 kN", "--thread", "M10x1.5"], gives: &[Number("torque", 54.0, 1.0)], source: "VDI 2230, M10 8.8, μ 0.14 (as reprinted)" },
    Example {
        name: "handbook-torque",
        typed: &["--preload", "11707 lbf", "--thread", "1/2-13 UNC", "--friction", "0.12"],
        gives: &[Number("torque", 955.2 * LBF_IN, 0.1), Number("nut-factor", 0.1632, 0.15)],
        source: "MIL-HDBK-60 (1990), App. B",
    },
    Example {
        name: "power-screw",
        typed: &["--preload", "25000 lbf", "--thread", "3/4-16 UNF", "--thread-friction", "0.15", "--seat-friction", "0.15"],
        gives: &[Number("nut-factor", 0.189_38, 0.1), Number("torque", 3551.0 * LBF_IN, 0.1)],
        source: "Shigley, 9th ed., Example 8-3 (its printed torque from memory)",
    },
    Example {
        name: "yield-torque",
        typed: &["--thread", "M12x1.25", "--class", "8.8", "--thread-friction", "0.12", "--seat-friction", "0.12"],
        gives: &[Number("preload", 48_000.0, 0.4), Number("torque", 90.0, 1.2)],
        source: "VDI 2230:2001, fine threads (as reprinted)",
    },
    Example { name: "adapter", typed: &["--torque", "300 lbf·in", "--wrench", "10 in", "--offset", "4 in"], gives: &[Number("set", 214.0 * LBF_IN, 0.25)], source: "TM 1-1500-204-23-9, p. 143" },
    Example {
        name: "multiplier",
        typed: &["--torque", "480 N·m", "--ratio", "4:1", "--efficiency", "90 %"],
        gives: &[Number("set", 133.333_333, 1e-5)],
        source: "arithmetic of the gear, by hand: 480 / (4 × 0.9)",
    },
    Example {
        name: "adapter",
        typed: &["--torque", "100 lbf·in", "--wrench", "12 in", "--offset", "6 in", "--angle", "60°"],
        gives: &[Number("set", 80.0 * LBF_IN, 0.01)],
        source: "TM 9-254, p. 92 (formula), reckoned by hand",
    },
    Example {
        name: "wrench",
        typed: &["--torque", "50 N·m", "--range", "10–60 N·m", "--range", "20–200 N·m"],
        gives: &[Ends("delivers", 48.0, 52.0), Says("fit", "the one to take"), Ends("usable", 12.0, 60.0)],
        source: "ISO 6789:2003 (± 4 %); MSFC-STD-486B, 4.2 (a fifth of full scale)",
    },
    Example { name: "stages", typed: &["120 lbf·ft"], gives: &[Number("first-stage", 84.0 * LBF_FT, 1e-6), Number("pass", 36.0 * LBF_FT, 1e-6)], source: "TM 5-3805-291-23-2; piping texts: 30 %" },
    Example { name: "drag", typed: &["--pull", "20 N", "--radius", "30 mm"], gives: &[Number("torque", 0.6, 1e-9)], source: "definition of a moment of force, by hand" },
    Example { name: "order", typed: &["--rows", "9"], gives: &[Says("tighten", "5, 4, 6, 3, 7, 2, 8, 1, 9")], source: "figure of TM 5-3805-298-23-2 (0176), as its mirror image" },
    Example {
        name: "order",
        typed: &["--circle", "8", "--given", "1,2,5,3,7,6,4,8"],
        gives: &[Says("tighten", "1, 5, 3, 7, 2, 6, 4, 8"), Says("check", "2 follows its neighbour 1")],
        source: "ASME PCC-1, legacy pattern (from memory)",
    },
    Example {
        name: "engagement",
        typed: &["--thread", "M10x1.5", "--length", "35 mm", "--clamped", "20 mm", "--hole", "16 mm", "--into", "aluminium"],
        gives: &[Number("engagement", 15.0, 1e-9), Number("needed-handbook", 20.0, 1e-9), Number("bottoms-by", 0.5, 1e-6)],
        source: "US Army torque notes: 2 diameters in aluminium; lengths by hand",
    },
    Example {
        name: "strip",
        typed: &["--thread", "M10x1.5", "--into", "steel"],
        gives: &[Number("equal", 7.445, 0.2)],
        source: "FED-STD-H28/2B with ISO 965-1 (Kn,max 8.676, Es,min 8.862): 2·57.99/15.579, by hand",
    },
    Example { name: "room", typed: &["--height", "6.4 mm", "--room", "6 mm"], gives: &[Number("fouls-by", 0.4, 1e-6)], source: "arithmetic, by hand" },
    Example { name: "advance", typed: &["--thread", "M10x1.5", "--angle", "90°"], gives: &[Number("advance", 0.375, 1e-9)], source: "geometry of the thread, by hand" },
    Example {
        name: "stretch",
        typed: &["--preload", "30 kN", "--thread", "M10x1.5", "--length", "40 mm", "--area", "58"],
        gives: &[Number("angle", 24.1, 0.5)],
        source: "elastic bolt (MIL-HDBK-60, 6.2.1), by hand",
    },
    Example {
        name: "stretch",
        typed: &["--preload", "80000 lbf", "--thread", "M10x1.5", "--length", "4 in", "--area", "645.16", "--modulus", "30000000 psi"],
        gives: &[Number("stretch", 0.271, 0.1)],
        source: "MIL-HDBK-60, 6.2.1: 80 ksi over 4 in at 30 000 ksi",
    },
    Example { name: "flats", typed: &["--flats", "1"], gives: &[Number("angle", 60.0, 1e-9)], source: "geometry; TM 55-2840-231-23 uses 60° and 120°" },
    Example {
        name: "heat",
        typed: &["--diameter", "100 mm", "--interference", "0.02–0.06 mm", "--metal", "steel", "--gap", "0.05 mm"],
        gives: &[Number("rise", 91.67, 0.011), Number("heat", 111.67, 0.01)],
        source: "engineering reference, ΔT = δ/(α·d): 0.11/(12e-6·100)",
    },
    Example {
        name: "chill",
        typed: &["--diameter", "20.046 mm", "--interference", "0.046 mm", "--metal", "steel", "--gap", "0 mm"],
        gives: &[Number("fall", 191.2, 0.3)],
        source: "textbook problem: a rod of 2.0046 cm into a hole of 2.0000 cm",
    },
    Example {
        name: "gap",
        typed: &["--diameter", "62 mm", "--interference", "0.040 mm", "--outer", "aluminium", "--outer-at", "90 °C", "--inner", "bearing-steel"],
        gives: &[Number("gap", 23.1e-6 * 62.0 * 70.0 - 0.040, 1.0), Says("standing", "drops in")],
        source: "FreeCAD 0.20.2 material card: 23.1e-6/K",
    },
    Example { name: "growth", typed: &["--diameter", "100 mm", "--metal", "steel", "--rise", "100 K"], gives: &[Number("growth", 0.12, 1e-6)], source: "tecnocentro: 12e-6/K" },
    Example { name: "limits", typed: &["50 mm", "H7"], gives: &[Ends("limits", 50.0, 50.025)], source: "ISO 286-1, IT7 (as reprinted)" },
    Example { name: "limits", typed: &["34 mm", "IT11", "--deviation", "-120 µm"], gives: &[Ends("limits", 33.720, 33.880)], source: "Shigley, 9th ed., Example 7-7" },
    Example {
        name: "clearance",
        typed: &["--hole", "34.000–34.160 mm", "--part", "33.720–33.880 mm"],
        gives: &[Number("least", 0.120, 1e-6), Number("greatest", 0.440, 1e-6)],
        source: "Shigley, 9th ed., Example 7-7",
    },
    Example { name: "end-gap", typed: &["--bore", "4.030 in", "--change", "0.001 in"], gives: &[Number("change", 0.003_141_59 * 25.4, 1e-3)], source: "geometry; an engine trade magazine rounds it to 0.003" },
    Example { name: "journal", typed: &["--diameter", "2.375 in"], gives: &[Number("clearance", 0.004_375 * 25.4, 1e-6)], source: "MIL-HDBK-1164" },
    Example { name: "eccentricity", typed: &["--swing", "0.10 mm"], gives: &[Number("offset", 0.05, 1e-9)], source: "metrology (from memory)" },
    Example { name: "backlash", typed: &["--reading", "0.24 mm", "--gear-radius", "70 mm", "--dial-radius", "90 mm"], gives: &[Number("backlash", 0.186_667, 1e-3)], source: "geometry of the lever, by hand" },
    Example {
        name: "shim",
        typed: &["--old", "0.90 mm", "--reading", "0.71 mm", "--target", "0.64 mm", "--box", "0.90–1.10 mm", "--step", "0.05 mm", "--accept", "0.62–0.66 mm"],
        gives: &[Number("exact", 0.97, 1e-6), Number("take", 0.95, 1e-6), Number("gives", 0.66, 1e-6)],
        source: "arithmetic, by hand: 0.90 + 0.71 − 0.64; 0.90 + 0.71 − 0.95",
    },
    Example { name: "arc", typed: &["--arc", "307.876 mm", "--diameter", "98 mm"], gives: &[Number("angle", 360.0, 1e-4)], source: "geometry: once round is π·98 mm" },
    Example { name: "mix", typed: &["--fuel", "5 L", "--ratio", "50:1"], gives: &[Number("oil", 100.0, 1e-9)], source: "arithmetic, by hand" },
    Example { name: "bead", typed: &["--diameter", "100 mm", "--path", "1 mm"], gives: &[Number("volume", 7.854, 0.001)], source: "geometry: π/4·b²·h of 100 mm and 1 mm" },
    Example { name: "displacement", typed: &["--bore", "100 mm", "--stroke", "80 mm"], gives: &[Number("volume", 628.32, 0.001)], source: "geometry, π/4·b²·s" },
    Example { name: "compression", typed: &["--swept", "500 cm³", "--clearance", "50 cm³"], gives: &[Number("ratio", 11.0, 1e-9)], source: "definition" },
    Example {
        name: "locker",
        typed: &["medium", "--bench", "10 °C", "--thread", "M8x1.25"],
        gives: &[Number("cure", 72.0 * 3600.0, 1e-9), Number("strips", 1.0, 0.0)],
        source: "TM 5-3820-256-24-5, p. 129; TM 10-3930-643-20",
    },
    Example { name: "rubber", typed: &["NBR", "--temperature", "110 °C"], gives: &[Ends("range", -40.0, 100.0), Says("standing", "too hot")], source: "Neale, Tribology Handbook, p. 23.3" },
    Example {
        name: "seal-fit",
        typed: &["30x42x7 mm", "--shaft", "30 mm", "--bore", "40 mm", "--depth", "10 mm", "--vent", "12 mm"],
        gives: &[Says("shaft", "fits"), Number("bore", 2.0, 1e-6), Says("vent", "covered")],
        source: "by comparison, by hand",
    },
];

/// What is typed, as pairs of name and text.
fn pairs(calculation: &'static Calculation, typed: &[&'static str]) -> Vec<(&'static str, &'static str)> {
    let mut bare = calculation.inputs.iter().filter(|input| input.bare).peekable();
    let mut words = typed.iter();
    let mut pairs = Vec::new();
    while let Some(word) = words.next() {
        if let Some(name) = word.strip_prefix("--") {
            pairs.push((name, *words.next().unwrap()));
        } else {
            let input = *bare.peek().unwrap();
            pairs.push((input.name, *word));
            if !input.is_many() {
                bare.next();
            }
        }
    }
    pairs
}

fn worked(name: &str, typed: &[&'static str]) -> Answer {
    let calculation = calculation(name).unwrap_or_else(|| panic!("no calculation {name}"));
    work(calculation, &pairs(calculation, typed)).unwrap_or_else(|refusal| panic!("{name} {typed:?}: {}", refusal.message()))
}

#[test]
fn every_calculation_gives_what_is_published() {
    for example in EXAMPLES {
        let answer = worked(example.name, example.typed);
        let at = format!("{} {:?} ({})", example.name, example.typed, example.source);
        let named = |name: &str| answer.figures.iter().filter(|figure| figure.name == name).cloned().collect::<Vec<Figure>>();
        for gives in example.gives {
            match gives {
                Number(name, value, per_cent) => {
                    let found = named(name).first().and_then(Figure::ends).unwrap_or_else(|| panic!("{at}: no {name}")).0;
                    assert!((found - value).abs() <= value.abs() * per_cent / 100.0 + 1e-9, "{at}: {name} is {found}, not {value}");
                }
                Ends(name, low, high) => {
                    let found = named(name).first().and_then(Figure::ends).unwrap_or_else(|| panic!("{at}: no {name}"));
                    assert!((found.0 - low).abs() < 1e-6 && (found.1 - high).abs() < 1e-6, "{at}: {name} is {found:?}");
                }
                Says(name, words) => {
                    let found: Vec<String> = named(name).iter().map(|figure| format!("{} {}", figure.what, figure.shown(&answer.given))).collect();
                    assert!(found.iter().any(|text| text.contains(words)), "{at}: {name} says {found:?}");
                }
            }
        }
    }
    for calculation in calculations() {
        assert!(EXAMPLES.iter().any(|example| example.name == calculation.name && !example.source.is_empty()), "{} has no example", calculation.name);
    }
}

#[test]
fn every_calculation_says_what_it_is() {
    for calculation in calculations() {
        let name = calculation.name;
        for text in [calculation.about, calculation.source, calculation.caution, calculation.formula.first().copied().unwrap_or_default()] {
            assert!(!text.is_empty(), "{name}");
        }
        assert_eq!(calculations().iter().filter(|other| other.name == name).count(), 1, "{name} is there twice");
        worked(name, calculation.example);
        for input in calculation.inputs {
            assert_eq!(calculation.inputs.iter().filter(|other| other.name == input.name).count(), 1, "{name}: {} is there twice", input.name);
            let optional = matches!(input.need, Need::May | Need::Assume(_) | Need::Must | Need::Result);
            assert!(optional && !input.what.is_empty() && !input.example.is_empty(), "{name}: {}", input.name);
            if let Kind::Word(words) = input.kind {
                assert!(words().contains(&input.example), "{name}: {} is none of its words", input.example);
            }
        }
        let results = calculation.inputs.iter().filter(|input| input.need == Need::Result).count();
        assert_eq!(results, usize::from(calculation.turns.is_some()), "{name}");
        assert_eq!(calculation.turns.is_some(), !calculation.turnable().is_empty(), "{name}");
    }
}

/// A formula turned round gives back what was put in. The text keeps twelve digits, so the answer must keep six.
#[test]
fn every_formula_that_can_be_turned_comes_back() {
    let mut turned = 0;
    for calculation in calculations() {
        let Some(result) = calculation.turns else { continue };
        let given: Vec<(&str, &str)> = if pairs(calculation, calculation.example).iter().any(|(name, _)| *name == result) {
            // The example is turned already: begin with what is worked out from it.
            vec![("torque", "450 lbf·in"), ("thread", "3/8-24 UNF"), ("nut-factor", "0.2")]
        } else {
            pairs(calculation, calculation.example)
        };
        let forward = work(calculation, &given).unwrap();
        let figure = forward.figures.iter().find(|figure| figure.name == result).unwrap();
        let (value, _) = figure.ends().unwrap();
        // Fifteen digits are the most that is read as a quantity.
        let digits: String = format!("{value:.12}").chars().take(14).collect();
        let text = if result == "ratio" { format!("{digits}:1") } else { format!("{digits} {}", figure.base_unit()) };
        for input in calculation.turnable() {
            let Some((_, original)) = given.iter().find(|(name, _)| *name == input.name) else { continue };
            let mut back: Vec<(&str, &str)> = given.iter().filter(|(name, _)| *name != input.name).copied().collect();
            back.push((result, &text));
            let answer = work(calculation, &back).unwrap_or_else(|refusal| panic!("{} for {}: {}", calculation.name, input.name, refusal.message()));
            let found = answer.figures.first().and_then(Figure::ends).unwrap().0;
            let wanted = work(calculation, &given).unwrap().given.entries().iter().find(|entry| entry.input.name == input.name).and_then(|entry| entry.quantity().and_then(|q| q.nominal()));
            let wanted = wanted.unwrap_or_else(|| original.parse().unwrap());
            assert!((found - wanted).abs() <= wanted.abs() * 1e-6, "{}: {} comes back as {found}, not {wanted}", calculation.name, input.name);
            turned += 1;
        }
    }
    assert!(turned >= 20, "{turned} only");
}

/// What the table turns round by search agrees with what the trade's own functions turn round by algebra.
#[test]
fn the_search_agrees_with_the_algebra() {
    use benchleaf::trade::{arc, backlash, bead, drag, mix, preload, wrench};
    let first = |name: &str, typed: &[&'static str]| worked(name, typed).figures.first().and_then(Figure::ends).unwrap().0;
    let near = |found: f64, wanted: Option<f64>| assert!((found - wanted.unwrap()).abs() <= wanted.unwrap().abs() * 1e-9, "{found} {wanted:?}");
    near(first("adapter", &["--set", "60 N·m", "--wrench", "300 mm", "--offset", "45 mm"]), wrench::joint_torque_nm(60.0, 300.0, wrench::Adapter { length_mm: 45.0, angle_deg: 0.0 }));
    near(first("arc", &["--angle", "2.5°", "--diameter", "98 mm"]), arc::arc_mm(2.5, 98.0));
    near(first("bead", &["--volume", "2.6 mL", "--diameter", "2 mm"]), bead::path_mm(2.6, 2.0));
    near(first("drag", &["--torque", "0.9 N·m", "--radius", "30 mm"]), drag::pull_n(0.9, 30.0));
    near(first("mix", &["--fuel", "5 L", "--oil", "80 mL"]), mix::fuel_parts(5000.0, 80.0));
    near(first("preload", &["--preload", "12 kN", "--thread", "M8x1.25", "--nut-factor", "0.2"]), preload::torque_nm(12_000.0, 8.0, 0.2));
    let radii = backlash::BacklashRadii { gear_mm: 70.0, dial_mm: 90.0 };
    near(first("backlash", &["--backlash", "0.15 mm", "--gear-radius", "70 mm", "--dial-radius", "90 mm"]), radii.at_dial_mm(0.15));
}

/// A range that is carried through stays within the limits it came from, also in the other system of units.
#[test]
fn limits_are_carried_through_inward() {
    let answer = worked("backlash", &["--backlash", "0.12–0.22 mm", "--gear-radius", "70 mm", "--dial-radius", "90 mm"]);
    let reading = answer.figures.iter().find(|figure| figure.name == "reading").unwrap();
    assert_eq!(reading.shown(&answer.given), "0.155–0.282 mm (0.00608–0.01113 in)");
    let answer = worked("adapter", &["--torque", "70 ± 5 N·m", "--wrench", "300 mm", "--offset", "45 mm"]);
    let shown: Vec<String> = answer.figures.iter().map(|figure| figure.shown(&answer.given)).collect();
    // 65/1.15 = 56.52, 75/1.15 = 65.22.
    assert_eq!(shown, ["60.9 N·m (44.9 lbf·ft)", "56.6–65.2 N·m (41.7–48.1 lbf·ft)"]);
}

/// What a calculation says under a name, as it is shown; none where it says nothing.
fn said(name: &str, typed: &[&'static str], figure: &str) -> Option<String> {
    let answer = worked(name, typed);
    answer.figures.iter().find(|one| one.name == figure).map(|one| one.shown(&answer.given))
}

/// By hand, short form (Shigley, 9th ed., eq. 8-27) with the stress area and proof stress of ISO 898-1 (36.6 mm², 580 MPa: 21.2 kN): 20 N·m make
/// 20/(0.2·8 mm) = 12.5 kN, 59 % of the proof load; 45 N·m 132 %; 80 N·m 50 kN, 235 %. Rough and slippery threads (K 0.30 and 0.16) make 8.33 and 62.5 kN.
#[test]
fn both_ends_of_a_range_are_judged_and_the_value_aimed_at() {
    let screened = |torque, figure| said("screen", &["--torque", torque, "--thread", "M8x1.25", "--class", "8.8"], figure).unwrap();
    let (plausible, beyond) = ("plausible for clamp (usually 40 to 90 %)", "beyond the proof load for clamp (usually 40 to 90 %)");
    assert_eq!(screened("20–80 N·m", "standing"), format!("20 N·m: {plausible}; 80 N·m: {beyond}"));
    assert_eq!(screened("45 ± 25 N·m", "standing"), format!("20 N·m: {plausible}; 45 N·m and 70 N·m: {beyond}"));
    assert_eq!(screened("20.5–22.25 N·m", "standing"), plausible);
    assert_eq!(screened("20–80 N·m", "share"), "58.9–235 %");
    // A spread is not narrowed: what it may come to lies within what is shown.
    assert_eq!(screened("20–80 N·m", "preload-band"), "8.3–62.5 kN (1800–14100 lbf)");
    assert_eq!(screened("20–80 N·m", "preload"), "12.5–50.0 kN (2810–11250 lbf)");
    assert_eq!(said("preload", &["--torque", "20–80 N·m", "--thread", "M8x1.25", "--nut-factor", "0.3"], "preload").unwrap(), "8.33–33.34 kN (1870–7500 lbf)");
}

/// Primer or activator on aluminium, plating and stainless steel: engineering texts; titanium and magnesium, and that no metal of a plastic wakes an
/// anaerobic locker: common practice.
#[test]
fn what_a_locker_is_put_on_is_known_however_it_is_written() {
    for (onto, words) in [
        ("stainless-steel", "primer is advised"), ("Stainless steel", "primer is advised"), ("A2-70", "primer is advised"), ("zinc", "primer is advised"),
        ("zinc-plated steel", "primer is advised"), ("Galvanised", "primer is advised"), ("chrome", "primer is advised"), ("titanium", "primer is advised"),
        ("Aluminium", "primer is advised"), ("aluminium alloy", "primer is advised"), ("cast magnesium", "primer is advised"), ("nylon", "stays wet"),
        ("glass-filled PA66", "stays wet"), ("ABS", "craze"), ("steel", "nothing against it"), ("cast iron", "nothing against it"), ("bearing-steel", "nothing against it"),
        ("aluminium bronze", "nothing against it"), ("wibble", "not in the table"), ("painted steel", "not in the table"),
    ] {
        let told = said("locker", &["medium", "--onto", onto], "onto").unwrap();
        assert!(told.contains(words), "{onto}: {told}");
    }
    // A stainless bolt wakes no locker either, whatever it goes into (ISO 3506-1 names its classes).
    assert!(said("locker", &["medium", "--onto", "steel", "--class", "A2-70"], "onto").unwrap().contains("primer"));
}

/// TM 5-3820-256-24-5: 72 h for 24 h at 10 °C, primer below.
#[test]
fn a_cold_bench_lengthens_the_time_to_hold_or_leaves_it_open() {
    let holds = |bench| worked("locker", &["medium", "--bench", bench]).figures.iter().find(|one| one.name == "fixture").and_then(Figure::ends);
    assert_eq!((holds("20 °C"), holds("10 °C"), holds("9.9 °C")), (Some((1200.0, 1200.0)), Some((3600.0, 3600.0)), None));
}

/// What is over, is over by something: 624 s are 24 s more than ten minutes.
#[test]
fn nothing_is_over_by_nothing() {
    let over = |since| said("locker", &["medium", "--since-applied", since], "overrun").unwrap();
    assert!(over("624 s").starts_with("over by 1 min:") && over("25 min").starts_with("over by 15 min:"), "{} {}", over("624 s"), over("25 min"));
    assert!(said("locker", &["medium", "--service", "150.4 °C"], "service").unwrap().ends_with("by 1 K"));
}

/// Dry ice is −78.5 °C cold and liquid nitrogen −195.8 °C (handbooks of chemistry, from memory). Plain steel shrinks about 0.2 % from 20 °C to the cold of
/// nitrogen (cryogenic tables, from memory); 0.1 mm of 40 mm is 0.25 %, though the straight line has it at −189 °C.
#[test]
fn deep_cold_is_not_reckoned_with_as_if_metals_shrank_on() {
    let chill = |interference| ["--diameter", "40 mm", "--interference", interference, "--metal", "steel"];
    let look = said("chill", &chill("0.08 mm"), "limit").unwrap();
    assert!(look.contains("dry ice") && look.contains("straight line") && look.contains("heat the outer part"), "{look}");
    assert_eq!(said("chill", &chill("0.02 mm"), "limit"), None);
    let typed = chill("0.09 mm");
    let chill = calculation("chill").unwrap();
    let refused = work(chill, &pairs(chill, &typed)).expect_err("−209 °C");
    assert!(refused.message().contains("liquid nitrogen") && refused.message().contains("heat the outer part"), "{}", refused.message());
    let gap = |at| {
        let typed = ["--diameter", "62 mm", "--interference", "0.04 mm", "--outer", "aluminium", "--outer-at", "90 °C", "--inner", "steel", "--inner-at", at];
        said("gap", &typed, "limit")
    };
    assert!(gap("−180 °C").unwrap().contains("straight line"));
    assert_eq!(gap("−40 °C"), None);
}

#[test]
fn what_a_table_holds_is_told_size_by_size() {
    let refused = |name: &str, thread| work(calculation(name).unwrap(), &[("thread", thread)]).expect_err(name).message();
    let running = refused("running", "M22x1.5");
    assert!(running.ends_with("they hold M3, M4, M5, M6, M8, M10, M12, M14, M16, M18 and M20, and 1/4, 5/16, 3/8, 7/16, 1/2, 9/16, 5/8, 3/4, 7/8 and 1 in"), "{running}");
    let hexagon = refused("hexagon", "M18x2.5");
    assert!(hexagon.ends_with("the table holds M3, M4, M5, M6, M8, M10, M12, M14, M16, M20 and M24"), "{hexagon}");
}

#[test]
fn what_is_wrong_is_told_with_what_to_write() {
    let refused = |name: &str, given: &[(&str, &str)]| work(calculation(name).unwrap(), given).expect_err(name);
    let missing = refused("adapter", &[("torque", "70 N·m")]);
    assert_eq!(missing.message(), "--wrench and --offset are missing");
    assert!(missing.fixes().iter().any(|line| line.contains("--wrench \"300 mm\"")), "{:?}", missing.fixes());
    let wrong = refused("adapter", &[("torque", "9 lbs"), ("wrench", "300 mm"), ("offset", "45 mm")]);
    assert!(wrong.message().contains("mass or a force") && wrong.figures().len() >= 2, "{wrong:?}");
    let full = refused("adapter", &[("torque", "70 N·m"), ("wrench", "300 mm"), ("offset", "45 mm"), ("set", "60 N·m")]);
    assert!(matches!(full, Refusal::NothingLeftOut { .. }) && full.fixes()[0].contains("--torque or --wrench"), "{:?}", full.fixes());
    let back = refused("adapter", &[("torque", "70 N·m"), ("wrench", "300 mm"), ("offset", "300 mm"), ("angle", "180°")]);
    assert!(back.message().contains("pointing back"), "{}", back.message());
    let two = refused("backlash", &[("reading", "0.1–0.2 mm"), ("gear-radius", "70–71 mm"), ("dial-radius", "90 mm")]);
    assert!(two.message().contains("not one value"), "{}", two.message());
    let kind = refused("convert", &[("value", "24 N·m"), ("unit", "mm")]);
    assert!(kind.message().contains("the unit of a length") && kind.message().contains("lbf·ft"), "{}", kind.message());
    let meant = refused("convert", &[("value", "9lbs"), ("unit", "Nm")]);
    assert!(meant.message().contains("mass or a force") && meant.figures().iter().any(|line| line.contains("12.2 N·m")), "{meant:?}");
    let unknown = refused("convert", &[("value", "24 N·m"), ("unit", "lbbft")]);
    assert!(unknown.message().contains("did you mean"), "{}", unknown.message());
    let pitch = refused("thread", &[("thread", "M8")]);
    assert!(pitch.fixes()[0].contains("1.25"), "{:?}", pitch.fixes());
    let formula = refused("shim", &[("reading", "0.7 mm"), ("formula", "reading - preload"), ("box", "0.4–0.8 mm"), ("step", "0.05 mm")]);
    assert!(formula.message().contains("--with \"preload=0.05 mm\""), "{}", formula.message());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Nothing that is typed makes a calculation panic, and no result is a number beyond all numbers.
    #[test]
    fn no_input_makes_it_panic(at in 0usize..60, texts in proptest::collection::vec(odd_text(), 12)) {
        let all = calculations();
        let calculation = all[at % all.len()];
        let given: Vec<(&str, &str)> = calculation.inputs.iter().zip(&texts).filter(|(_, text)| !text.is_empty()).map(|(input, text)| (input.name, text.as_str())).collect();
        if let Ok(answer) = work(calculation, &given) {
            for figure in &answer.figures {
                prop_assert!(!figure.shown(&answer.given).contains("inf"));
            }
        }
    }
}

fn odd_text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        Just("M8x1.25".to_owned()),
        Just("1/4-20 UNC".to_owned()),
        Just("8.8".to_owned()),
        Just("steel".to_owned()),
        Just("reading - old".to_owned()),
        Just("0,0 1,1".to_owned()),
        "[a-zA-Z0-9 .,:=+-]{0,12}",
        (any::<u32>(), prop_oneof![Just("mm"), Just("N·m"), Just("kN"), Just("°C"), Just("K"), Just("°"), Just("mL"), Just("MPa"), Just("h"), Just(""), Just(":1"), Just("%")])
            .prop_map(|(number, unit)| format!("{} {unit}", number % 100_000)),
        (0u32..9999, 0u32..9999, prop_oneof![Just("mm"), Just("N·m"), Just("kN")]).prop_map(|(low, more, unit)| format!("{low}–{} {unit}", low + more + 1)),
    ]
}
