//! The shims of a record: the one that was fitted against what the readings asked for.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::inspect::chains::half_digit;
use crate::inspect::formula::spaced;
use crate::inspect::measures::short;
use crate::manual::{Act, Build, BuildWork, Combination, Entry, ListKind, Measure, Procedure, Scope, Shim, ThingRef, Tick, Varied, Verb};
use crate::quantity::{Dimension, Quantity, median};
use crate::trade::clearance::Span;
use crate::trade::formula::Formula;
use crate::trade::shim::{ShimOffer, ShimSeries, TARGET, choose, gives, misses_by_mm};

/// Another shim was fitted than the readings asked for.
pub(in crate::inspect) static SHIM_AGAINST_READING: Rule = Rule {
    name: "shim-against-reading",
    severity: Severity::Warning,
    summary: "A record has another shim fitted than its own readings ask for.",
    explanation: Explanation {
        finds: "Ticks of fit: a shim in a build record whose value: is a thickness that, by the shim's formula and the median of the record's readings, does not leave what is accepted (accept:), or, where nothing is stated, lies more than half a step off the formula. Only readings that stand before the fitting count for that; where the same measure is read again behind it, that reading is held against accept: and decides. The old shim is the one that a dry-fit: before the reading was ticked with, otherwise old:. Silent where a deviation of the record answers for that shim or step.",
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
    /// How many readings that is of.
    pub count: usize,
    /// The readings that decide: those behind the fitting, where they are held against what is accepted.
    pub readings: Vec<&'a Tick>,
    /// What the formula comes to: `0.97 mm`.
    pub asked: String,
    /// The shim of the series that the formula asks for: `0.95 mm`; none where no series is known, or none of it will do.
    pub offer: Option<String>,
    /// What that shim makes of what is wanted.
    pub offer_gives: Option<String>,
    /// The median of what was read with the shim in place, behind the fitting, where that is held against what is accepted.
    pub checked: Option<Quantity>,
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
    let of = if shim.count == 1 { "the reading".to_owned() } else { format!("the median of {} readings", shim.count) };
    let read = shim.readings.last().and_then(|reading| reading.value.as_ref()).map(|value| value.place.clone());
    let fitted = format!("{}: {} of {} was fitted", job.name(), shim.entry.name, shim.chosen.written());
    let message = match (&shim.checked, &shim.offer) {
        (Some(checked), _) => format!("{fitted}, and with it {} reads {checked}", shim.measure.name),
        (None, Some(offer)) => format!("{fitted}, and the readings ask for {offer}"),
        (None, None) => format!("{fitted}, and the sum of the readings is {}", shim.asked),
    };
    let offered = shim.offer.as_ref().filter(|offer| **offer != shim.asked).map(|offer| {
        let leaves = shim.offer_gives.as_ref().map(|gives| format!(", which leaves {gives}")).unwrap_or_default();
        format!("the sum is {}: of the series {offer}{leaves}", shim.asked)
    });
    let finding = Finding::new(&SHIM_AGAINST_READING, place, message)
        .label("fitted")
        .figure(format!("{of} of {} is {}", shim.measure.name, shim.reading))
        .figure(format!("{} = {}", shim.reckoned, shim.asked))
        .figures(offered)
        .figures(shim.gives.as_ref().map(|gives| format!("{} makes it {gives}{accept}", shim.chosen.written())))
        .figures(shim.checked.as_ref().map(|checked| format!("read behind the fitting: {checked}")))
        .related(shim.entry.id_place.clone(), "how it is chosen");
    let finding = read.into_iter().fold(finding, |finding, place| finding.related(place, "what was read"));
    let fix = match (&shim.checked, &shim.offer) {
        (None, Some(offer)) => format!("open it again and fit the shim of {offer}; or write a deviation with reason and person"),
        _ => "open it again, read it again and choose anew; or write a deviation with reason and person".to_owned(),
    };
    Some(finding.fix(fix))
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
            let trials = thicknesses(procedure, work, known, Verb::DryFit).into_iter().filter(|(other, ..)| other == thing);
            let trials: Vec<(Stand, Quantity)> = trials.filter_map(|(_, tick, trial)| Some((Stand::of_tick(procedure, tick)?, trial))).collect();
            shims.extend(recorded(scope, build, work, known, (*thing, *tick, chosen), &trials));
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

fn recorded<'a>(scope: Scope<'a>, build: &'a Build, work: &'a BuildWork, known: &Combination, fitted: (&ThingRef, &'a Tick, &Quantity), trials: &[(Stand, Quantity)]) -> Option<RecordedShim<'a>> {
    let (thing, tick, chosen) = fitted;
    let entry = scope.thing(|lists| &lists.shims, thing)?;
    let shim = &entry.what;
    let text = spaced(shim.formula.get(known)?)?;
    let formula = Formula::parse(&text).ok()?;
    let measures = scope.homes().flat_map(|(_, lists)| lists.measures.values());
    let mut choosing = measures.filter(|measure| measure.what.chooses.get(known) == Some(&thing.id));
    let fitting = Stand::of_tick(scope.procedure?, tick)?;
    let stand = |reading: &Tick| scope.procedure.and_then(|procedure| Stand::of_reading(procedure, reading));
    // A reading of a step that is no more there counts as taken before.
    let before = |reading: &Tick| stand(reading).is_none_or(|stand| stand < fitting);
    let (measure, readings) = choosing.find_map(|measure| Some((measure, readings_of(work, &measure.id, &before)?)))?;
    let (reading, count) = (middle(&readings)?, readings.len());
    let mm = |varied: &Varied<Quantity>| varied.get(known).and_then(Quantity::nominal);
    // Of several trials the last before the reading lay in place.
    let read_at = readings.first().copied().and_then(stand);
    let trial = trials.iter().filter(|(laid, _)| read_at.is_none_or(|read| *laid < read)).max_by_key(|(laid, _)| *laid);
    let old = trial.and_then(|(_, trial)| trial.nominal()).or_else(|| mm(&shim.old));
    let elsewhere = |id: &str| build.work.iter().find_map(|work| middle(&readings_of(work, id, &|_| true)?)?.nominal());
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
    // A value in another unit than the limits was rounded: half its last digit is left.
    let holds = |(low, high): (f64, f64), value: &Quantity, mm: f64| {
        let same = accept.is_some_and(|accept| accept.unit() == value.unit());
        let slack = if same { 0.0 } else { half_digit(value).to_f64() };
        Span::new(low - slack, high + slack).map(|span| span.holds(mm))
    };
    let again = readings_of(work, &measure.id, &|reading| !before(reading));
    let checked = again.as_deref().and_then(middle).filter(|_| limits.is_some());
    let accepted = match (limits, checked.as_ref(), gives_mm) {
        (Some(limits), Some(checked), _) => holds(limits, checked, checked.nominal()?)?,
        (Some(limits), None, Some(gives)) => holds(limits, chosen, gives)?,
        _ => misses_by_mm(chosen_mm, exact_mm, mm(&shim.step).unwrap_or_else(|| 2.0 * half_digit(chosen).to_f64())).is_none(),
    };
    let offer = offered(shim, known, &formula, &value, limits);
    let reckoned = text.split(' ').map(|word| value(word).map_or_else(|| word.to_owned(), short)).collect::<Vec<_>>().join(" ");
    let shown = |mm: f64| format!("{} mm", short(mm));
    let readings = again.filter(|_| checked.is_some()).unwrap_or(readings);
    Some(RecordedShim {
        entry,
        measure,
        tick,
        chosen: chosen.clone(),
        reading,
        count,
        readings,
        asked: shown(exact_mm),
        offer: offer.map(|offer| shown(offer.size_mm)),
        offer_gives: offer.and_then(|offer| offer.gives_mm).map(shown),
        checked,
        gives: gives_mm.map(shown),
        accepted,
        reckoned,
    })
}

/// The shim of the series that the readings ask for.
fn offered(shim: &Shim, known: &Combination, formula: &Formula, value: &dyn Fn(&str) -> Option<f64>, limits: Option<(f64, f64)>) -> Option<ShimOffer> {
    let (low, high) = shim.from.get(known)?.low_high();
    let series = ShimSeries::new(low?, high?, shim.step.get(known)?.nominal()?)?;
    choose(formula, value, series, limits.and_then(|(low, high)| Span::new(low, high))).ok()?.best()
}

/// Where an act stands in its procedure: its step, and its place there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Stand(usize, usize);

impl Stand {
    fn of_tick(procedure: &Procedure, tick: &Tick) -> Option<Self> {
        let (step, act) = recorded_act(procedure, tick, tick.number)?;
        Self::find(procedure, &step.id, |other| std::ptr::eq(other, act))
    }

    /// Of a reading its number counts readings, not acts: the first act of the step that takes it.
    fn of_reading(procedure: &Procedure, reading: &Tick) -> Option<Self> {
        Self::find(procedure, &reading.step.value, |act| act.address == reading.act.value)
    }

    fn find(procedure: &Procedure, step: &str, is_it: impl Fn(&Act) -> bool) -> Option<Self> {
        let at = procedure.steps.iter().position(|other| other.id == step)?;
        Some(Self(at, procedure.steps.get(at)?.acts.iter().position(is_it)?))
    }
}

/// Some readings of a measure in one procedure: those of the step in which it was read last, of each number the last.
fn readings_of<'a>(work: &'a BuildWork, measure: &str, counts: &dyn Fn(&Tick) -> bool) -> Option<Vec<&'a Tick>> {
    let of_it = |tick: &&Tick| tick.act.value.strip_prefix("measure:") == Some(measure) && counts(tick);
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
