//! Temperatures told and taken: a rise that is read as a temperature, a heat nobody reads, a chill that leaves water.

use super::heat_work::is_hot;
use super::prose::runs;
use super::sides::words_of;
use super::tongue::{Tongue, Wanted};
use super::walk::{Moment, Walk, in_every};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, Entry, Expect, Heat, ListKind, Lists, Procedure, Scope, Tool, Verb};
use crate::quantity::{Dimension, Quantity, find_in_prose};
use crate::trade::fit::Metal;
use std::collections::BTreeSet;

/// A rise is converted as if it were a temperature.
pub(super) static DELTA_VERSUS_ABSOLUTE: Rule = Rule {
    name: "delta-versus-absolute",
    severity: Severity::Error,
    summary: "A rise of temperature is written, or converted, as a temperature.",
    explanation: Explanation {
        finds: "In the text and in the words of a list: ‘by 60 °C (140 °F)’, ‘60 °C (140 °F) above ambient’ and the like, where the second value is the first one converted with its 32 degrees. In lists: a measure or an expected value whose name or kind is a rise, increase or difference, written in °C or °F instead of K, Δ°C or Δ°F.",
        matters: "A rise of 60 °C is a rise of 108 °F. Who heats by 140 °F goes eighteen degrees too far; who reads a rise of 40 °C as 104 °F lets a bearing burn.",
        may_be_wrong: "Where it is a temperature after all: name it so.",
        example: "bearing-rise: {name: Rise of the bearing's temperature, limit: max 40 °C}",
        instead: "bearing-rise: {name: Rise of the bearing's temperature, limit: max 40 K}",
    },
};

/// A heat is not read.
pub(super) static NO_TEMPERATURE_CHECK: Rule = Rule {
    name: "no-temperature-check",
    severity: Severity::Note,
    summary: "A part is heated, and nobody reads how warm it is; or it is read with what bare metal fools.",
    explanation: Explanation {
        finds: "heat: above hand warmth without check_with:, with no thermometer in use (tool:) in the procedure up to that step and no crayon, probe or thermometer in the step's words; and an infrared instrument on a part of bare metal, with no dull mark, tape or paint in the step's words.",
        matters: "A hot plate's knob says nothing of the part on it. Bare metal shines back the room and reads far too low.",
        may_be_wrong: "Where an oven or heater holds the temperature by itself: list its thermostat as a tool of kind thermometer.",
        example: "warm-carrier: {of: carrier, to: 85 ± 5 °C}",
        instead: "warm-carrier: {of: carrier, to: 85 ± 5 °C, check_with: contact-probe}",
    },
};

/// A chilled part keeps its frost.
pub(super) static CHILL_MOISTURE: Rule = Rule {
    name: "chill-moisture",
    severity: Severity::Note,
    summary: "A part is chilled below freezing, and nobody dries or oils it.",
    explanation: Explanation {
        finds: "heat: to below 0 °C with no clean: of the part, and nothing put on it (apply:), behind it in the procedure, and no word of drying, oiling or frost in the step, or in the step in which the part goes in.",
        matters: "Frost turns to water as the part warms, and the water to rust behind it.",
        may_be_wrong: "Where the part can't rust and sits in the open.",
        example: "[Chill the outer ring](heat:chill-ring). [Drop it in](fit:ring)",
        instead: "[Chill the outer ring](heat:chill-ring). [Drop it in](fit:ring), [oil it at once](apply:gear-oil@ring)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        rises(lists, findings);
        let texts = lists.written.iter().filter(|written| matches!(written.field, "note" | "otherwise" | "because" | "when" | "expect"));
        findings.extend(texts.filter_map(|written| converted(&written.text, |_, _| Some(written.place.clone()))));
    }
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for blocks in procedure.texts() {
            for run in runs(blocks) {
                findings.extend(converted(run.text(), |start, end| run.place(start, end)));
            }
        }
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            findings.extend(converted(&act.words, |_, _| Some(act.place.clone())));
            let thing = act.thing().filter(|_| act.verb == Some(Verb::Heat));
            let Some((thing, heat)) = thing.and_then(|thing| Some((thing, scope.thing(|lists| &lists.heats, thing)?))) else { continue };
            if let Some(finding) = unread(Tongue::of(context.manual), scope, procedure, act, heat).filter(|_| !told.contains(&(machine.id.as_str(), thing.id.as_str()))) {
                told.insert((&machine.id, &thing.id));
                findings.push(finding);
            }
        }
    }
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Heat) {
            findings.extend(frosted(walk, at, moment));
        }
    });
}

/// Two temperatures in a row that are one, converted with its zero, where a rise is spoken of.
fn converted(text: &str, place: impl Fn(usize, usize) -> Option<Place>) -> Option<Finding> {
    let spans = find_in_prose(text);
    let pairs = spans.iter().enumerate().find_map(|(at, span)| {
        let one = Quantity::parse(text.get(span.clone())?, Dimension::Temperature).ok()?;
        let (end, other) = match (one.second(), spans.get(at + 1)) {
            (Some(_), _) => (span.end, None),
            (None, Some(next)) => {
                let between = text.get(span.end..next.start)?.trim();
                let other = Quantity::parse(text.get(next.clone())?, Dimension::Temperature).ok()?;
                matches!(between, "(" | "/" | "or" | "=" | ",").then_some((next.end, Some(other)))?
            }
            (None, None) => return None,
        };
        let other_unit = other.as_ref().map_or_else(|| one.second().map(|second| second.unit().symbol()), |other| Some(other.unit().symbol()))?;
        let same = match &other {
            // Within a degree Fahrenheit of each other on the one scale.
            Some(other) => (one.nominal()? - other.nominal()?).abs() < 0.6,
            None => true,
        };
        let is_rise = tells_a_rise(text.get(..span.start)?, text.get(end..)?);
        (same && one.unit().symbol() != other_unit && is_rise).then_some((one, span.start, end))
    });
    let (one, start, end) = pairs?;
    let end = if text.get(end..)?.starts_with(')') { end + 1 } else { end };
    let written = text.get(start..end)?;
    let kelvin = rise_k(&one)?;
    Some(
        Finding::new(&DELTA_VERSUS_ABSOLUTE, place(start, end)?, format!("‘{written}’ is meant as a rise, and is converted as a temperature"))
            .label("converted with its 32 degrees")
            .figure(format!("a rise of {kelvin:.0} °C is a rise of {:.0} °F (rise × 1.8, nothing added)", kelvin * 1.8))
            .fix(format!("write it in K in a list, and the tool converts it: {kelvin:.0} K; or leave the second value out")),
    )
}

/// Its number as a rise, in K.
fn rise_k(value: &Quantity) -> Option<f64> {
    let celsius = value.nominal().or_else(|| value.low_high().1)?;
    let number = if value.unit().symbol() == "°F" { (celsius * 1.8 + 32.0) / 1.8 } else { celsius };
    Some(number)
}

/// Whether the words around a temperature make it a rise.
fn tells_a_rise(before: &str, behind: &str) -> bool {
    let before = before.trim_end();
    let ends = ["by", "by about", "rise of", "rise by", "increase of", "difference of", "drop of", "fall of"];
    let folded = before.to_lowercase();
    let said_before = ends.iter().any(|end| folded.strip_suffix(end).is_some_and(|rest| rest.is_empty() || rest.ends_with(|sign: char| !sign.is_alphanumeric())));
    let behind = behind.trim_start_matches([')', ' ']).to_lowercase();
    let begins = ["above ambient", "above the bench", "above the room", "above room", "over ambient", "below ambient", "warmer", "hotter", "cooler", "colder"];
    said_before || begins.iter().any(|begin| behind.starts_with(begin))
}

/// Words for a change of temperature.
const RISE: [&str; 8] = ["rise", "rises", "increase", "difference", "above ambient", "over ambient", "warmer by", "drop of temperature"];

/// Values of lists that are rises by name and temperatures by unit.
fn rises(lists: &Lists, findings: &mut Vec<Finding>) {
    let is_rise = |text: &str| Words::of(text).first(&RISE).is_some();
    for entry in lists.measures.values() {
        if is_rise(&entry.name) || entry.what.kind.cases.iter().any(|kind| is_rise(&kind.value)) {
            for (field, case) in entry.what.spec.cases.iter().map(|case| ("spec", case)).chain(entry.what.limit.cases.iter().map(|case| ("limit", case))) {
                findings.extend(as_temperature(&entry.name, &case.value, &case.place).map(|finding| finding.about(format!("{}.{field}", entry.id))));
            }
        }
    }
    for entry in lists.tests.values() {
        for case in &entry.what.expect.cases {
            let Expect::Quantities(named) = &case.value else { continue };
            for (name, value) in named.iter().filter(|(name, _)| is_rise(&name.replace(['-', '_'], " "))) {
                findings.extend(as_temperature(&format!("‘{name}’ in {}", entry.name), value, &case.place).map(|finding| finding.about(format!("{}.expect", entry.id))));
            }
        }
    }
}

fn as_temperature(name: &str, value: &Quantity, place: &Place) -> Option<Finding> {
    if value.dimension() != Dimension::Temperature {
        return None;
    }
    let celsius = value.low_high().1.or(value.low_high().0)?;
    let kelvin = if value.unit().symbol() == "°F" { (celsius * 1.8 + 32.0) / 1.8 } else { celsius };
    let figure = if value.unit().symbol() == "°F" {
        format!("as a temperature it is {celsius:.0} °C; a rise of {:.0} °F is a rise of {kelvin:.0} °C", kelvin * 1.8)
    } else {
        format!("as a temperature it is {:.0} °F; a rise of {kelvin:.0} °C is a rise of {:.0} °F", celsius * 1.8 + 32.0, kelvin * 1.8)
    };
    Some(
        Finding::new(&DELTA_VERSUS_ABSOLUTE, place.clone(), format!("{name} is a rise, and ‘{}’ is a temperature", value.written()))
            .label("would be converted with its 32 degrees")
            .figure(figure)
            .fix("write it as a rise: K, Δ°C or Δ°F"),
    )
}

fn unread(tongue: Tongue, scope: Scope<'_>, procedure: &Procedure, act: &Act, heat: &Entry<Heat>) -> Option<Finding> {
    let hot = heat.what.to.cases.iter().any(|case| is_hot(heat, &case.when));
    let lost = scope.homes().any(|(_, lists)| lists.is_unreadable(ListKind::Heats, &heat.id, "check_with"));
    if !hot || lost {
        return None;
    }
    let at = procedure.steps.iter().position(|step| step.acts.iter().any(|other| std::ptr::eq(other, act)))?;
    let step = procedure.steps.get(at)?;
    let said = words_of(step);
    let used = procedure.steps.iter().take(at + 1).flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things);
    let thermometers: Vec<&Entry<Tool>> =
        used.filter_map(|thing| scope.thing(|lists| &lists.tools, thing)).filter(|tool| tool.what.kind.as_deref() == Some("thermometer")).collect();
    let chosen = heat.what.check_with.cases.first().and_then(|case| scope.entry(|lists| &lists.tools, &case.value));
    let by_words = tongue.may_say(&said, Wanted {
        english: &["crayon", "crayons", "probe", "thermometer", "thermocouple", "pyrometer", "thermostat"],
        german: &["thermo", "temperaturkreide", "farbstift", "messstift", "fühler", "pyrometer"],
    });
    if !heat.what.check_with.is_given() && thermometers.is_empty() && !by_words {
        return Some(
            Finding::new(&NO_TEMPERATURE_CHECK, heat.id_place.clone(), format!("{}: nobody reads how warm it is", heat.name))
                .label("no check_with")
                .related(act.place.clone(), "heated here")
                .fix("name what reads it: check_with: (a tool of kind thermometer)")
                .about(format!("{}.check_with", heat.id)),
        );
    }
    let infrared = chosen.into_iter().chain(thermometers).find(|tool| Words::of(&tool.name).first(&["infrared", "infra-red", "ir"]).is_some())?;
    let dull = tongue.may_say(&said, Wanted {
        english: &["dull", "matt", "matte", "tape", "paint", "painted", "marker", "black"],
        german: &["matt", "klebeband", "lack", "farbe", "schwarz", "filzstift"],
    });
    let metal = bare_metal(scope, heat.what.of.first()?)?;
    (!dull).then(|| {
        Finding::new(&NO_TEMPERATURE_CHECK, act.place.clone(), format!("{} reads bare {metal} too low", infrared.name))
            .label("shiny metal")
            .related(infrared.id_place.clone(), "the instrument")
            .fix("read it with a contact probe or a crayon; or give it a dull mark and say so in the step")
            .about(format!("{}.check_with", heat.id))
    })
}

/// The metal of a warmed part, where it is bare.
fn bare_metal(scope: Scope<'_>, id: &str) -> Option<String> {
    if scope.find(ListKind::Bearings, id).is_some() {
        return Some("steel".to_owned());
    }
    scope.entry(|lists| &lists.parts, id)?.what.material.first().filter(|material| Metal::find(material).is_some()).cloned()
}

fn frosted(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let chill = scope.thing(|lists| &lists.heats, moment.act.thing()?)?;
    let to = chill.what.to.case(&walk.combination)?;
    let part = chill.what.of.get(&walk.combination)?;
    let (low, high) = to.value.low_high();
    if high.or(low).is_none_or(|warmest| warmest >= 0.0) {
        return None;
    }
    let same = |other: &&Moment<'_>| std::ptr::eq(other.procedure, moment.procedure);
    let on_it = |other: &Moment<'_>| other.act.things.iter().any(|thing| thing.id == *part);
    let behind: Vec<&Moment<'_>> = walk.moments.iter().skip(at + 1).filter(same).collect();
    let done = behind.iter().any(|other| matches!(other.verb, Verb::Clean | Verb::Apply) && on_it(other));
    let dry = ["dry", "dried", "wipe", "wiped", "oil", "oiled", "grease", "greased", "frost", "dew"];
    let says = |other: &Moment<'_>| Words::of(&words_of(other.step)).first(&dry).is_some();
    let goes_in = behind.iter().find(|other| other.verb == Verb::Fit && on_it(other));
    if done || says(moment) || goes_in.is_some_and(|other| says(other)) {
        return None;
    }
    let name = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, part)).and_then(|thing| scope.head(&thing)).map_or(part.as_str(), |head| head.name);
    let finding = Finding::new(&CHILL_MOISTURE, moment.act.place.clone(), format!("{name} comes out of the cold wet, and nobody dries or oils it"))
        .label(format!("chilled to {}", to.value.written()))
        .fix(format!("wipe it dry and oil it as soon as it is in: clean:{part}, apply:MATERIAL@{part}"))
        .about(chill.id.clone());
    Some(match goes_in {
        Some(other) => finding.related(other.act.place.clone(), format!("goes in: {}", other.words())),
        None => finding,
    })
}
