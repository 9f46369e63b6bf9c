//! Converting a value with its limits, and reading a torque in the units it may have been meant in.

use super::{Calculation, Figure, Input, Quantity, Refusal, Take, Text, Torque, Word, Worked, class, conditions, of, roles, thread};
use crate::finding::nearest;
use crate::quantity::{Dimension, Unit};
use crate::reckon::given::{Given, doubtful_as};
use crate::trade::friction::ThreadCondition;
use crate::trade::property::PropertyClass;
use crate::trade::reread::{TorqueUnit, readings};
use crate::trade::screening::{Role, ScreenedJoint};

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "convert",
        about: "a value into another unit, with its tolerance and limits",
        inputs: &[
            Input::must("value", "", "the value as its source writes it, with range, tolerance, min or max", Quantity(&[]), "22 ±2 N·m").take(Take::Whole).bare(),
            Input::must("unit", "", "the unit wanted; without it, all of that kind", Text, "lbf·ft").may().bare(),
        ],
        formula: &["value in its base unit = value × size of its unit (°F: (t − 32) × 5/9), and back"],
        letters: &[],
        source: "exact definitions as in NIST SP 811 (2008), App. B.8; digits after NIST SP 811, B.7.1",
        caution: "A converted limit never lies outside its source's. Write the source's own value into a manual, not this one.",
        example: &["22 ±2 N·m", "lbf·ft"],
        turns: None,
        work: convert,
    },
    Calculation {
        name: "reread",
        about: "a torque that looks wrong, read in the units its source may have meant",
        inputs: &[
            of("torque", "T", "the torque as it is written", &[Torque], "110 N·m"),
            thread(),
            class().may(),
            Input::must("threads", "", "what is on the threads", Word(conditions), "dry").assume("dry"),
            Input::must("role", "", "what the fastener does", Word(roles), "clamp").assume("clamp"),
        ],
        formula: &["u = T/(K·d·As·Sp) for the number in each unit; those whose u suits the role are shown"],
        letters: &[("u", "share of the proof load"), ("K", "nut factor of the threads' condition"), ("As", "stress area"), ("Sp", "proof stress")],
        source: "factors: NIST SP 811 (2008), App. B.8; that slips happen this way: common practice",
        caution: "A reading that suits is a suspicion, no value: look in the source.",
        example: &["--torque", "80 N·m", "--thread", "1/4-28 UNF", "--class", "SAE 5", "--threads", "oiled"],
        turns: None,
        work: reread,
    },
];

fn convert(given: &Given) -> Worked {
    let value = given.quantity("value")?;
    let wanted = given.texts("unit").first().map(|text| text.trim());
    let units: Vec<&'static Unit> = match wanted {
        Some(text) => vec![target(text, value.dimension()).map_err(|refusal| wanted_kind(given, text).unwrap_or(refusal))?],
        None => Unit::all().iter().filter(|unit| unit.dimension() == value.dimension() && *unit != value.unit()).collect(),
    };
    let shown = |unit: &'static Unit| {
        let converted = value.convert(unit)?;
        let what = format!("in {}", unit.spoken(true));
        Some(Figure::words("converted", &what, converted.to_string()))
    };
    let figures: Vec<Figure> = units.into_iter().filter_map(shown).collect();
    if figures.is_empty() {
        return Err(Refusal::Impossible(format!("{} has one unit only", value.dimension().spoken())));
    }
    Ok(figures)
}

/// Where the unit wanted is of another kind, and the value may be meant for that kind: `9 lbs` in N·m.
fn wanted_kind(given: &Given, unit: &str) -> Option<Refusal> {
    doubtful_as(given, "value", Unit::find(unit)?.dimension())
}

/// The unit wanted, of the value's own kind; where it is none, all that are.
fn target(text: &str, dimension: Dimension) -> Result<&'static Unit, Refusal> {
    let of_kind = || Unit::all().iter().filter(|unit| unit.dimension() == dimension);
    let all: Vec<&str> = of_kind().map(Unit::symbol).collect();
    match Unit::find(text) {
        Some(unit) if unit.dimension() == dimension => Ok(unit),
        Some(unit) => Err(Refusal::Impossible(format!(
            "‘{text}’ is the unit of {}, and the value is {}: it converts into {}",
            unit.dimension().spoken(),
            dimension.spoken(),
            all.join(", ")
        ))),
        None => {
            let near = nearest(text, of_kind().flat_map(|unit| std::iter::once(unit.symbol()).chain(unit.other_spellings().iter().copied())));
            let hint = near.map_or_else(String::new, |near| format!(" (did you mean ‘{near}’?)"));
            Err(Refusal::Impossible(format!("‘{text}’ is not a unit known here{hint}: {} converts into {}", dimension.spoken(), all.join(", "))))
        }
    }
}

fn reread(given: &Given) -> Worked {
    let (torque, thread) = (given.quantity("torque")?, given.thread("thread")?);
    let class = given.class("class").unwrap_or_else(|| PropertyClass::assumed(thread));
    let condition = given.word("threads").and_then(ThreadCondition::find).unwrap_or(ThreadCondition::Dry);
    let role = given.word("role").and_then(Role::find).unwrap_or(Role::Clamp);
    let joint = ScreenedJoint::new(thread, class, condition, role).map_err(|error| Refusal::Impossible(error.message()))?;
    let written = TorqueUnit::find(torque.unit().symbol());
    let number = torque.in_unit(torque.unit()).and_then(|(low, _)| low).unwrap_or_default();
    let own = torque.nominal().or_else(|| torque.low_high().0).unwrap_or_default();
    let mut figures = vec![Figure::plain("share", "u", "share of the proof load as written", joint.share(own).map_or(f64::NAN, |share| share.mid * 100.0), "%")];
    let others = written.map_or_else(Vec::new, |written| readings(number, written, &joint));
    if others.is_empty() {
        figures.push(Figure::words("readings", "other units", "none suits the role better"));
    }
    for reading in others {
        let what = format!("read as {number} {}", reading.unit.symbol());
        figures.push(Figure::quantity("reading", "T", &what, reading.torque_nm, Torque));
        figures.push(Figure::plain("reading-share", "u", "its share of the proof load", reading.share * 100.0, "%"));
    }
    Ok(figures)
}

