//! The shims of a record: the one that was fitted against what the readings asked for.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::inspect::chains::half_digit;
use crate::inspect::formula::spaced;
use crate::inspect::measures::short;
use crate::manual::{Build, BuildWork, Combination, Entry, ListKind, Measure, Procedure, Scope, Shim, ThingRef, Tick, Varied, Verb};
use crate::quantity::{Dimension, Quantity, median};
use crate::trade::clearance::Span;
use crate::trade::formula::Formula;
use crate::trade::shim::{TARGET, gives, misses_by_mm};

/// Another shim was fitted than the readings asked for.
pub(in crate::inspect) static SHIM_AGAINST_READING: Rule = Rule {
    name: "shim-against-reading",
    severity: Severity::Warning,
    summary: "A record has another shim fitted than its own readings ask for.",
    explanation: Explanation {
        finds: "Ticks of fit: a shim in a build record whose value: is a thickness that, by the shim's formula and the median of the record's readings, leaves what is accepted (accept:), or, where nothing is stated, lies more than half a step off the formula. The old shim is the one that a dry-fit: before the reading was ticked with, otherwise old:. Silent where a deviation of the record answers for that shim or step.",
        matters: "The right reading with the wrong shim out of the box gives a gear that howls, or one that breaks its teeth; and the record says that all was well.",
        may_be_wrong: "When the reading that counted was taken again and not written down: write it down, or a deviation that says so.",
        example: "readings of 0.71 mm, \"act\": \"fit:pinion-shim\", \"value\": \"1.05 mm\"; old + reading - target comes to 0.97 mm",
        instead: "\"act\": \"fit:pinion-shim\", \"value\": \"0.95 mm\"",
    },
};

/// A shim that was fitted, and what the readings before it ask for.
#[derive(Clone, Debug)]
pub struct RecordedShim<'a> {
    /// The shim.
    pub entry: &'a Entry<Shim>,
    /// The measure that chooses it.
    pub measure: &'a Entry<Measure>,
    /// The tick it was fitted with.
    pub tick: &'a Tick,
    /// Its thickness.
    pub chosen: Quantity,
    /// The median of the readings.
    pub reading: Quantity,
    /// The readings.
    pub readings: Vec<&'a Tick>,
    /// What the formula comes to: `0.97 mm`.
    pub asked: String,
    /// What the shim makes of what is wanted; none where the formula has no target.
    pub gives: Option<String>,
    /// Whether that is accepted.
    pub accepted: bool,
    /// The formula with its values put in: `0.9 + 0.71 - 0.64`.
    pub reckoned: String,
}

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    for (work, procedure) in job.work() {
        for shim in recorded_shims(job.scope(procedure), job.build, work, job.known) {
            let step = &shim.tick.step.value;
            if !shim.accepted && job.build.deviation(&procedure.id, step, Some(&shim.entry.id)).is_none() {
                findings.extend(against(job, &shim).map(|finding| job.about(finding)));
            }
        }
    }
}

fn against(job: &Job<'_>, shim: &RecordedShim<'_>) -> Option<Finding> {
    let place = shim.tick.value.as_ref()?.place.clone();
    let accept = shim.entry.what.accept.get(job.known).map(|accept| format!("; {} is accepted", accept.written())).unwrap_or_default();
    let count = shim.readings.len();
    let of = if count == 1 { "the reading".to_owned() } else { format!("the median of {count} readings") };
    let read = shim.readings.last().and_then(|reading| reading.value.as_ref()).map(|value| value.place.clone());
    let message = format!("{}: {} of {} was fitted, and the readings ask for {}", job.name(), shim.entry.name, shim.chosen.written(), shim.asked);
    let finding = Finding::new(&SHIM_AGAINST_READING, place, message)
        .label("fitted")
        .figure(format!("{of} of {} is {}", shim.measure.name, shim.reading))
        .figure(format!("{} = {}", shim.reckoned, shim.asked))
        .figures(shim.gives.as_ref().map(|gives| format!("{} makes it {gives}{accept}", shim.chosen.written())))
        .related(shim.entry.id_place.clone(), "how it is chosen");
    let finding = read.into_iter().fold(finding, |finding, place| finding.related(place, "what was read"));
    Some(finding.fix("open it again and fit the shim that the readings ask for; or write a deviation with reason and person"))
}

/// The shims that a record has fitted in one procedure with their thickness, where what was read chooses them.
#[must_use]
pub fn recorded_shims<'a>(scope: Scope<'a>, build: &'a Build, work: &'a BuildWork, known: &Combination) -> Vec<RecordedShim<'a>> {
    let Some(procedure) = scope.procedure else { return Vec::new() };
    let ticks = thicknesses(procedure, work, known, Verb::Fit);
    // Fitted twice, the last one is in the machine.
    let last = |thing: &ThingRef| ticks.iter().rev().find(|(other, ..)| *other == thing);
    let mut told: Vec<&ThingRef> = Vec::new();
    let mut shims = Vec::new();
    for (thing, ..) in &ticks {
        if let Some((thing, tick, chosen)) = last(thing).filter(|(thing, ..)| !told.contains(thing)) {
            told.push(thing);
            let trial = thicknesses(procedure, work, known, Verb::DryFit).into_iter().find(|(other, ..)| other == thing).map(|(.., trial)| trial);
            shims.extend(recorded(scope, build, work, known, (*thing, *tick, chosen), trial.as_ref()));
        }
    }
    shims
}

/// The ticks of acts on shims that tell a thickness.
fn thicknesses<'a>(procedure: &'a Procedure, work: &'a BuildWork, known: &Combination, verb: Verb) -> Vec<(&'a ThingRef, &'a Tick, Quantity)> {
    let of = |tick: &'a Tick| {
        let (_, act) = recorded_act(procedure, tick, tick.number).filter(|(step, _)| step.only.agrees_with(known))?;
        let thing = act.thing().filter(|thing| act.verb == Some(verb) && thing.kind == ListKind::Shims)?;
        let thickness = Quantity::parse(&tick.value.as_ref()?.value, Dimension::Length).ok()?;
        thickness.nominal().is_some().then_some((thing, tick, thickness))
    };
    work.ticks.iter().filter_map(of).collect()
}

fn recorded<'a>(scope: Scope<'a>, build: &'a Build, work: &'a BuildWork, known: &Combination, fitted: (&ThingRef, &'a Tick, &Quantity), trial: Option<&Quantity>) -> Option<RecordedShim<'a>> {
    let (thing, tick, chosen) = fitted;
    let entry = scope.thing(|lists| &lists.shims, thing)?;
    let shim = &entry.what;
    let text = spaced(shim.formula.get(known)?)?;
    let formula = Formula::parse(&text).ok()?;
    let measures = scope.homes().flat_map(|(_, lists)| lists.measures.values());
    let mut choosing = measures.filter(|measure| measure.what.chooses.get(known) == Some(&thing.id));
    let (measure, readings) = choosing.find_map(|measure| Some((measure, readings_of(work, &measure.id)?)))?;
    let reading = middle(&readings)?;
    let mm = |varied: &Varied<Quantity>| varied.get(known).and_then(Quantity::nominal);
    let old = trial.and_then(Quantity::nominal).or_else(|| mm(&shim.old));
    let elsewhere = |id: &str| build.work.iter().find_map(|work| middle(&readings_of(work, id)?)?.nominal());
    let value = |id: &str| match id {
        "reading" => reading.nominal(),
        "old" => old,
        TARGET => mm(&shim.target),
        measure => elsewhere(measure),
    };
    let exact_mm = formula.evaluate(&value).ok()?;
    let chosen_mm = chosen.nominal()?;
    let gives_mm = gives(&formula, &value, chosen_mm).ok().flatten();
    let accept = shim.accept.get(known);
    let limits = accept.map(Quantity::low_high).and_then(|ends| Some((ends.0?, ends.1?)));
    let accepted = match limits.zip(gives_mm) {
        Some(((low, high), gives)) => {
            // A thickness in another unit than the limits was rounded: half its last digit is left.
            let same = accept.is_some_and(|accept| accept.unit() == chosen.unit());
            let slack = if same { 0.0 } else { half_digit(chosen).to_f64() };
            Span::new(low - slack, high + slack)?.holds(gives)
        }
        None => misses_by_mm(chosen_mm, exact_mm, mm(&shim.step).unwrap_or_else(|| 2.0 * half_digit(chosen).to_f64())).is_none(),
    };
    let reckoned = text.split(' ').map(|word| value(word).map_or_else(|| word.to_owned(), short)).collect::<Vec<_>>().join(" ");
    let shown = |mm: f64| format!("{} mm", short(mm));
    Some(RecordedShim { entry, measure, tick, chosen: chosen.clone(), reading, readings, asked: shown(exact_mm), gives: gives_mm.map(shown), accepted, reckoned })
}

/// The readings of a measure in one procedure: those of the step in which it was read last, of each number the last.
fn readings_of<'a>(work: &'a BuildWork, measure: &str) -> Option<Vec<&'a Tick>> {
    let of_it = |tick: &&Tick| tick.act.value.strip_prefix("measure:") == Some(measure);
    let step = &work.readings.iter().rfind(of_it)?.step.value;
    let mut readings: Vec<&Tick> = Vec::new();
    for tick in work.readings.iter().filter(of_it).filter(|tick| tick.step.value == *step) {
        readings.retain(|earlier| earlier.number != tick.number);
        readings.push(tick);
    }
    Some(readings)
}

/// The middle of some readings; none where one can't be read.
fn middle(readings: &[&Tick]) -> Option<Quantity> {
    let read = |tick: &&Tick| Quantity::parse(&tick.value.as_ref()?.value, Dimension::Length).ok();
    let read = readings.iter().map(read).collect::<Option<Vec<Quantity>>>()?;
    median(&read.iter().collect::<Vec<_>>())
}
