//! How a reading is taken: where the dial sits, in what state the machine is, what a cord's pull stands for.

use super::chains::half_digit;
use super::formula::spaced;
use super::measures::short;
use super::tongue::{Tongue, Wanted};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Lists, Measure, Scope, Tool};
use crate::quantity::{Dimension, Quantity};
use crate::trade::backlash::BacklashRadii;
use crate::trade::clearance::Span;
use crate::trade::drag::{pull_n, torque_nm};

/// A backlash does not say where the dial sits.
pub(super) static BACKLASH_RADIUS: Rule = Rule {
    name: "backlash-radius",
    severity: Severity::Warning,
    summary: "A backlash read on a dial does not say at which radius.",
    explanation: Explanation {
        finds: "Measurements of backlash (by kind: or name) with an instrument called a dial and without at:, where no word says that it touches the tooth, its flank or the pitch circle; radii in at: that differ ten times and more; and a dial so coarse that no division lies inside the spec where it sits.",
        matters: "A dial on an arm moves further than the tooth: 0.24 mm at 90 mm is 0.187 mm at 70 mm. A good gear is rejected, or a bad one let pass.",
        may_be_wrong: "Where the dial touches the tooth itself: say so in when:, or write the same radius twice.",
        example: "backlash: {kind: backlash, spec: 0.12–0.22 mm, with: dial-indicator}",
        instead: "backlash: {kind: backlash, spec: 0.12–0.22 mm, with: dial-indicator, at: {gear_radius: 70 mm, dial_radius: 90 mm}}",
    },
};

/// A reading depends on a state that is not given.
pub(super) static CONDITION_MISSING: Rule = Rule {
    name: "condition-missing",
    severity: Severity::Warning,
    summary: "A reading depends on heat, oil or seals, and nothing says on which.",
    explanation: Explanation {
        finds: "Measurements with a spec or limit whose when:, name or note does not say: for a valve gap and for a compression whether cold or warm; for an end float whatever it is (any when: will do; a note); for a drag or rolling torque whether oiled, dry, or with seals.",
        matters: "A valve set at 0.21 mm hot instead of cold stays open and burns.",
        may_be_wrong: "Where it makes no difference: say so in when:, for example ‘cold or warm’.",
        example: "valve-gap: {kind: valve-gap, spec: 0.18–0.24 mm, with: feeler-gauge}",
        instead: "valve-gap: {kind: valve-gap, spec: 0.18–0.24 mm, with: feeler-gauge, when: cold, 15 to 25 degrees}",
    },
};

/// A pull on a cord is not the drag it stands for.
pub(super) static DRAG_FORCE: Rule = Rule {
    name: "drag-force",
    severity: Severity::Error,
    summary: "The pull on a cord is not the drag it should stand for.",
    explanation: Explanation {
        finds: "Measurements with cord: {radius: …, torque: …} whose spec: is not the torque divided by the radius. Half of the last digit of each is left for rounding.",
        matters: "Bearings set up by a pull ten times too small run loose, ten times too large they run hot.",
        may_be_wrong: "Never: one of the three is wrong, or the radius is a diameter.",
        example: "cord-pull: {spec: 6–9 N, cord: {radius: 30 mm, torque: 0.6–0.9 N·m}}",
        instead: "cord-pull: {spec: 20–30 N, cord: {radius: 30 mm, torque: 0.6–0.9 N·m}}",
    },
};

/// A runout is given as half of itself.
pub(super) static RUNOUT_HALVED: Rule = Rule {
    name: "runout-halved",
    severity: Severity::Warning,
    summary: "A runout is named or worked out as an eccentricity, which is half of it.",
    explanation: Explanation {
        finds: "Measurements of kind: runout whose name or when: speaks of an eccentricity or of being off centre, or whose formula halves another reading.",
        matters: "Runout is the dial's full swing: what is 0.04 mm off centre swings 0.08 mm, and a limit of 0.06 mm is passed or failed by mixing the two.",
        may_be_wrong: "Where the limit really is for the eccentricity: write kind: eccentricity.",
        example: "shaft-runout: {name: Shaft off centre, kind: runout, limit: max 0.06 mm}",
        instead: "shaft-runout: {name: Full swing of the dial at the shaft, kind: runout, limit: max 0.06 mm}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.measures.values() {
            findings.extend(backlash(scope, lists, entry));
            findings.extend(condition(Tongue::of(context.manual), lists, entry));
            findings.extend(drag(lists, entry));
            findings.extend(halved(entry));
        }
    }
}

/// What an entry says of itself: its id, name, kind, conditions and note, hyphens opened.
fn said(entry: &Entry<Measure>) -> String {
    let texts = [&entry.what.kind, &entry.what.when].into_iter().flat_map(|varied| varied.cases.iter().map(|case| case.value.as_str()));
    let all: Vec<&str> = [entry.id.as_str(), entry.name.as_str()].into_iter().chain(texts).chain(entry.note.as_deref()).collect();
    all.join(" ; ").replace('-', " ")
}

fn judged(entry: &Entry<Measure>) -> bool {
    entry.what.spec.is_given() || entry.what.limit.is_given()
}

/// Words that say that a dial touches the gear where its backlash holds.
const AT_THE_TOOTH: [&str; 9] = ["tooth", "teeth", "flank", "pitch circle", "pitch line", "pitch diameter", "pitch radius", "radius", "tooth's"];
/// Radii that differ more are two units, not two places: one inch is 25.4 mm.
const FARTHEST: f64 = 10.0;

fn backlash(scope: Scope<'_>, lists: &Lists, entry: &Entry<Measure>) -> Option<Finding> {
    if ["at", "with", "spec"].into_iter().any(|field| lists.is_unreadable(ListKind::Measures, &entry.id, field)) {
        return None;
    }
    let text = said(entry);
    let words = Words::of(&text);
    let tool = entry.what.with.first().and_then(|id| scope.entry(|lists| &lists.tools, id));
    let Some(at) = entry.what.at.cases.first() else {
        let dial = tool.is_some_and(|tool| Words::of(&format!("{} {}", tool.id.replace('-', " "), tool.name)).first(&["dial"]).is_some());
        let about_it = words.first(&["backlash"]).is_some() && words.first(&AT_THE_TOOTH).is_none();
        return (dial && about_it && judged(entry)).then(|| {
            Finding::new(&BACKLASH_RADIUS, entry.id_place.clone(), format!("{} is read on a dial, and nothing says at which radius", entry.name))
                .label("where does the dial sit?")
                .figure("a dial at the radius r shows the backlash × r ÷ radius of the gear")
                .fix("add at: {gear_radius: …, dial_radius: …}; or say in when: that the dial touches the tooth")
                .about(format!("{}.at", entry.id))
        });
    };
    let (gear, dial) = (at.value.gear_radius.as_ref()?, at.value.dial_radius.as_ref()?);
    let radii = BacklashRadii { gear_mm: gear.nominal()?, dial_mm: dial.nominal()? };
    let times = radii.at_dial_mm(1.0)?;
    let finding = |message: String, label: &str| Finding::new(&BACKLASH_RADIUS, at.place.clone(), message).label(label).about(format!("{}.at", entry.id));
    if !(1.0 / FARTHEST..=FARTHEST).contains(&times) {
        return Some(
            finding(format!("the two radii of {} are {} times apart", entry.name, short(times.max(1.0 / times))), "two units?")
                .figure(format!("{} and {}: no arm is so long", gear.written(), dial.written()))
                .fix("measure both radii again, from the middle of the shaft, and write both in one unit"),
        );
    }
    no_division(radii, entry, tool, finding)
}

/// A dial with no division inside the spec where it sits.
fn no_division(radii: BacklashRadii, entry: &Entry<Measure>, tool: Option<&Entry<Tool>>, finding: impl Fn(String, &str) -> Finding) -> Option<Finding> {
    let spec = entry.what.spec.first()?;
    let resolution = tool?.what.resolution.as_ref()?;
    let (low, high) = spec.low_high();
    let limits = Span::new(low?, high?).filter(|limits| limits.high_mm > limits.low_mm)?;
    let step = resolution.nominal().filter(|step| *step > 0.0)?;
    radii.limits_at_dial(limits, step).is_none().then(|| {
        let (low, high) = (radii.at_dial_mm(limits.low_mm).map_or_else(String::new, short), radii.at_dial_mm(limits.high_mm).map_or_else(String::new, short));
        finding(format!("the dial has no division inside the spec of {} where it sits", entry.name), "too coarse here")
            .figure(format!("{} at the gear is {low}–{high} mm on the dial, which reads {}", spec.written(), resolution.written()))
            .fix("name a finer dial, or set it further out")
    })
}

const HEAT: Wanted<'static> = Wanted { english: &[
    "cold", "warm", "hot", "cool", "temperature", "operating temperature", "ambient", "degrees", "°c", "°f", "warmed", "cooled", "heat", "warmth", "run warm", "overnight",
], german: &["kalt", "warm", "heiß", "heiss", "kühl", "temperatur", "grad", "wärme", "über nacht"] };
const SMEAR: Wanted<'static> = Wanted { english: &[
    "oiled", "oil", "dry", "greased", "grease", "lubricated", "unlubricated", "seal", "seals", "sealed", "wet", "packed", "clean", "bare", "assembled",
], german: &["geölt", " öl", "öl ", "trocken", " fett", "fett ", "gefett", "geschmiert", "ungeschmiert", "dichtung", "dichtring", "nass", "sauber", "blank", "montiert", "eingebaut"] };

/// What is asked of an end float.
const FLOAT: &str = "in what state?";

fn condition(tongue: Tongue, lists: &Lists, entry: &Entry<Measure>) -> Option<Finding> {
    if !judged(entry) || ["when", "kind"].into_iter().any(|field| lists.is_unreadable(ListKind::Measures, &entry.id, field)) {
        return None;
    }
    let text = said(entry);
    let words = Words::of(&text);
    let has = |phrases: &[&str]| words.first(phrases).is_some();
    let told = |wanted: Wanted<'_>| tongue.may_say(&text, wanted);
    let dimension = entry.what.spec.first().or_else(|| entry.what.limit.first()).map(Quantity::dimension)?;
    let length = dimension == Dimension::Length;
    let drags = matches!(dimension, Dimension::Force | Dimension::Torque);
    let (missing, question, matters, fix) = if length && has(&["valve gap", "valve clearance", "valve lash", "tappet gap", "tappet clearance"]) {
        (!told(HEAT), "cold or hot?", "parts grow with heat, and the gap with them", "add when: cold, or when: hot, as the source says")
    } else if dimension == Dimension::Pressure && has(&["compression"]) {
        (!told(HEAT), "cold or warm?", "a cold engine reads lower than a warm one", "add when: warm, throttle open, all plugs out; as the source says")
    } else if length && has(&["end float", "end play"]) {
        (!entry.what.when.is_given() && !told(HEAT), FLOAT, "heat and oil change an end float", "add when: cold and dry, or as the source says")
    } else if drags && has(&["drag", "rolling torque", "turning torque", "rolling drag"]) {
        (!told(SMEAR), "oiled? with seals?", "oil and a seal's lip change a drag more than the bearings do", "add when: oiled, seals out; as the source says")
    } else {
        return None;
    };
    missing.then(|| {
        let finding = Finding::new(&CONDITION_MISSING, entry.id_place.clone(), format!("nothing says in what state {} is read", entry.name))
            .label(question)
            .figure(format!("{matters} (common practice)"))
            .fix(fix)
            .about(format!("{}.when", entry.id));
        // A float changes little with heat: worth a word, not worth stopping for.
        if question == FLOAT { finding.severity(Severity::Note) } else { finding }
    })
}

fn drag(lists: &Lists, entry: &Entry<Measure>) -> Option<Finding> {
    if ["cord", "spec"].into_iter().any(|field| lists.is_unreadable(ListKind::Measures, &entry.id, field)) {
        return None;
    }
    entry.what.cord.cases.iter().find_map(|cord| {
        let (radius, torque) = (cord.value.radius.as_ref()?, cord.value.torque.as_ref()?);
        let spec = entry.what.spec.cases.iter().find(|spec| spec.when.agrees_with(&cord.when) && spec.value.dimension() == Dimension::Force)?;
        let radius_mm = radius.nominal().filter(|radius| *radius > 0.0)?;
        // Relative room for what each of the three may have been rounded by.
        let room = |quantity: &Quantity, of: f64| half_digit(quantity).to_f64() / of.abs().max(f64::MIN_POSITIVE);
        let off = |stated: Option<f64>, turning: Option<f64>| {
            let (stated, turning) = (stated?, turning?);
            let worked = pull_n(turning, radius_mm)?;
            let slack = worked * (room(torque, turning) + room(radius, radius_mm)) + half_digit(&spec.value).to_f64();
            Some((stated - worked).abs() > slack * 1.000_001)
        };
        let ((low, high), (least, most)) = (spec.value.low_high(), torque.low_high());
        let wrong = [off(low, least), off(high, most)].into_iter().flatten().any(|wrong| wrong);
        wrong.then(|| {
            let ends = |low: Option<f64>, high: Option<f64>| {
                let mut ends: Vec<String> = low.into_iter().chain(high).map(short).collect();
                ends.dedup();
                ends.join("–")
            };
            let pull = |turning: Option<f64>| turning.and_then(|turning| pull_n(turning, radius_mm));
            let stands_for = |force: Option<f64>| force.and_then(|force| torque_nm(force, radius_mm));
            Finding::new(&DRAG_FORCE, spec.place.clone(), format!("the pull of {} is not the drag it stands for", entry.name))
                .label("another pull")
                .related(cord.place.clone(), "the drag and its radius")
                .figure(format!("{} on a radius of {} is a pull of {} N", torque.written(), radius.written(), ends(pull(least), pull(most))))
                .figure(format!("{} on that radius is {} N·m", spec.value.written(), ends(stands_for(low), stands_for(high))))
                .fix("look up which of the three the source gives, and work the others out from it")
                .about(format!("{}.spec", entry.id))
        })
    })
}

fn halved(entry: &Entry<Measure>) -> Option<Finding> {
    let kind = entry.what.kind.first().map_or("", String::as_str);
    if !matches!(kind, "runout" | "run-out") {
        return None;
    }
    let when = entry.what.when.first().map_or("", String::as_str);
    let text = format!("{} ; {when}", entry.name).replace('-', " ");
    let words = Words::of(&text);
    let named = words.first(&["off centre", "off center", "out of centre", "eccentric", "eccentricity"]).map(|hit| words.text(&hit).to_owned());
    let halves = entry.what.formula.cases.iter().find(|case| spaced(&case.value).is_some_and(|formula| formula.ends_with("÷ 2") || formula.ends_with("× 0.5")));
    let (place, message) = match (named, halves) {
        (_, Some(formula)) => (formula.place.clone(), format!("{} is a runout, and its formula halves the dial's swing", entry.name)),
        (Some(named), None) => (entry.id_place.clone(), format!("{} is a runout, and ‘{named}’ is half of one", entry.name)),
        _ => return None,
    };
    let bound = entry.what.limit.first().or_else(|| entry.what.spec.first());
    let half = bound.and_then(|bound| bound.low_high().1.map(|high| format!("{} of runout is {} mm off centre; {} off centre swings the dial by {} mm", bound.written(), short(high / 2.0), bound.written(), short(high * 2.0))));
    Some(
        Finding::new(&RUNOUT_HALVED, place, message)
            .label("the full swing, or half of it?")
            .figures(half)
            .fix("look up which of the two the source limits; for the runout take the dial's full swing, for the other write kind: eccentricity")
            .about(entry.id.clone()),
    )
}
