//! Hazards that no word of a step tells, and an entry does: a part's mass, a speed at which a test is read, a belt
//! over a shaft that is turned, an electric motor, a rotor's magnets.

use super::burdens::ALONE_KG;
use super::live::isolates;
use super::safety::{NOTICE_MISSING, is_about_injury};
use super::text::notices;
use super::{Context, every};
use crate::finding::{Finding, Place};
use crate::manual::{Act, Entry, Expect, ListKind, Part, Procedure, Scope, Step, Verb};
use crate::quantity::{Dimension, Quantity};

/// Nobody turns a shaft faster than this by hand, in r/min: common practice. What is read above it runs by itself.
const BY_HAND: f64 = 150.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, scope) in every::procedures(context.manual) {
        let mut before = Before::default();
        for step in &procedure.steps {
            findings.extend(unannounced(scope, procedure, step, &mut before));
        }
    }
}

/// A belt or chain, and the act that puts it on.
type Belt<'m> = Option<(&'m str, &'m Place)>;

/// What the acts up to one have done in their procedure.
#[derive(Clone, Copy, Debug, Default)]
struct Before<'m> {
    belt: Belt<'m>,
    /// The supply is locked off.
    isolated: bool,
}

/// The first quiet hazard of a step with no notice before it.
fn unannounced<'m>(scope: Scope<'m>, procedure: &Procedure, step: &'m Step, before: &mut Before<'m>) -> Option<Finding> {
    let notices: Vec<_> = notices(step).into_iter().filter(is_about_injury).collect();
    // A notice behind all the work of its step is told as such.
    let is_late = notices.iter().any(|notice| !step.acts.get(notice.acts_before..).unwrap_or_default().iter().any(|act| act.verb.is_some_and(Verb::ticks)));
    let first = notices.iter().map(|notice| notice.acts_before).min();
    let mut found = None;
    for (at, act) in step.acts.iter().enumerate() {
        put_on(scope, act, &mut before.belt);
        before.isolated |= act.verb == Some(Verb::Tool) && act.things.iter().filter_map(|thing| scope.thing(|lists| &lists.tools, thing)).any(|tool| isolates(&tool.what));
        if found.is_none() && !is_late && first.is_none_or(|before| before > at) {
            found = quiet(scope, step, act, *before).map(|hazard| told(procedure, step, act, hazard));
        }
    }
    found
}

fn told(procedure: &Procedure, step: &Step, act: &Act, (hazard, label, related): Hazard) -> Finding {
    let finding = Finding::new(&NOTICE_MISSING, act.place.clone(), format!("{hazard}, and no notice says so before"))
        .label(label)
        .fix("write a notice before the act: > **WARNING** what can happen, to whom, and how to avoid it")
        .about(format!("{}#{}", procedure.id, step.id));
    match related {
        Some((place, words)) => finding.related(place, words),
        None => finding,
    }
}

/// What is dangerous in words, what it does, and where an entry or act tells it.
type Hazard = (String, &'static str, Option<(Place, &'static str)>);

fn quiet(scope: Scope<'_>, step: &Step, act: &Act, before: Before<'_>) -> Option<Hazard> {
    let thing = act.thing()?;
    match act.verb? {
        Verb::Fit | Verb::DryFit | Verb::Remove if thing.kind == ListKind::Parts => handled(scope.thing(|lists| &lists.parts, thing)?, hangs(scope, step), before.isolated),
        Verb::Test => {
            let test = scope.thing(|lists| &lists.tests, thing)?;
            // What runs or pulls by its kind is told already.
            if test.what.kind.first().is_some_and(|kind| matches!(kind.as_str(), "run" | "load" | "pressure")) {
                return None;
            }
            let speed = test.what.expect.cases.iter().find_map(|case| match &case.value {
                Expect::Quantities(values) => values.iter().map(|(_, value)| value).find(|value| is_running(value)),
                Expect::Words(_) => None,
            })?;
            Some((format!("{} is read on a machine that runs at {}", test.name, speed.written()), "it turns, and takes hands with it", None))
        }
        Verb::Measure => {
            let measure = scope.thing(|lists| &lists.measures, thing)?;
            let speed = [measure.what.spec.first(), measure.what.limit.first()].into_iter().flatten().find(|value| is_running(value))?;
            Some((format!("{} is read on a machine that runs at {}", measure.name, speed.written()), "it turns, and takes hands with it", None))
        }
        Verb::Turn => {
            let (name, place) = before.belt?;
            Some((format!("a shaft is turned here with {name} on"), "fingers go in between", Some((place.clone(), "put on here"))))
        }
        _ => None,
    }
}

fn is_running(value: &Quantity) -> bool {
    let (low, high) = value.low_high();
    value.dimension() == Dimension::Rotation && high.or(low).is_some_and(|speed| speed > BY_HAND)
}

/// Whether something hangs on a hoist in a step.
fn hangs(scope: Scope<'_>, step: &Step) -> bool {
    let tools = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things);
    tools.filter_map(|thing| scope.thing(|lists| &lists.tools, thing)).any(|tool| tool.what.kind.as_deref() == Some("lifting"))
}

fn handled(part: &Entry<Part>, hangs: bool, isolated: bool) -> Option<Hazard> {
    let own = own_name(&part.name);
    if let Some(mass) = part.what.mass.cases.iter().filter(|_| hangs).find(|case| matches!(case.value.low_high(), (low, high) if high.or(low).is_some_and(|kilograms| kilograms > ALONE_KG))) {
        return Some((format!("{} hangs here and weighs {}", part.name, mass.value.written()), "it crushes what is under it", Some((mass.place.clone(), "its mass"))));
    }
    if own.ends_with("electric motor") && !isolated {
        return Some((format!("{} is handled here", part.name), "it can start, or give a shock", None));
    }
    let rotates = matches!(own.rsplit(' ').next(), Some("flywheel" | "rotor"));
    let told = [Some(part.name.as_str()), part.note.as_deref(), part.what.when.first().map(|when| when.as_str())];
    let magnetic = told.into_iter().flatten().any(tells_of_magnets);
    (magnetic && rotates).then(|| (format!("{} has magnets", part.name), "they snatch, and fingers are between", None))
}

/// Whether a text says that something has magnets: not that it has none, nor that it is picked up with one.
fn tells_of_magnets(text: &str) -> bool {
    let said = text.to_lowercase();
    said.split(['.', ',', ';', ':']).any(|clause| {
        let words: Vec<&str> = clause.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
        let has = |at: usize, word: &str| {
            let before = words.get(at.saturating_sub(4)..at).unwrap_or_default();
            let denied = before.iter().any(|word| matches!(*word, "no" | "not" | "never" | "without"));
            // A flywheel with magnets has them; with a magnet, something is done.
            let by_means = word == "magnet" && before.contains(&"with");
            word.contains("magnet") && !denied && !by_means
        };
        words.iter().enumerate().any(|(at, word)| has(at, word))
    })
}

/// A name in lower case, without what it belongs to or has: `guard of the belt` and `guard for the belt` are guards.
fn own_name(name: &str) -> String {
    let said = name.to_lowercase();
    let end = [" of ", " for ", " with ", " without ", ",", " ("].iter().filter_map(|sign| said.find(sign)).min();
    said.get(..end.unwrap_or(said.len())).unwrap_or(&said).trim().to_owned()
}

/// Keeps in mind which belt or chain is on.
fn put_on<'m>(scope: Scope<'m>, act: &'m Act, belt: &mut Belt<'m>) {
    let Some(part) = act.thing().filter(|thing| thing.kind == ListKind::Parts).and_then(|thing| scope.thing(|lists| &lists.parts, thing)) else { return };
    let own = own_name(&part.name);
    let mut nouns = own.rsplit(' ');
    let runs = nouns.next().is_some_and(|noun| matches!(noun, "belt" | "chain"));
    // A safety chain holds, and goes round nothing.
    if !runs || nouns.next().is_some_and(|what| matches!(what, "safety" | "seat" | "lap" | "lifting" | "lashing" | "anchor")) {
        return;
    }
    match act.verb {
        Some(Verb::Fit | Verb::DryFit) => *belt = Some((&part.name, &act.place)),
        Some(Verb::Remove) => *belt = None,
        _ => {}
    }
}
