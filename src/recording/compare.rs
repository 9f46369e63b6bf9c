//! A finished procedure beside its captions: said and not listed, listed and not said, said differently.
//!
//! A value said agrees with a listed one when one of its readings is that value, or one of its ends, in any unit. Where it
//! agrees with none of its step's, and the step has one of the same kind that nobody said, the two are set against each
//! other. What no machine can judge (the side of a seal, work put off) is laid side by side for a person.

use super::film::{Film, Listed, Window};
use super::heard::{Heard, HeardKind, heard};
use super::speech::Speech;
use crate::manual::{Faces, ListKind, Procedure, Step, ThingRef, Verb};
use crate::quantity::{Moment, Quantity};

/// Two values in different units agree where they differ by no more than this share: as a speaker rounds.
const ROUNDED: f64 = 0.01;
/// Seconds between what is said and the moment a correction states.
const CLOSE: u32 = 5;

/// What came of comparing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Comparison {
    /// How many things were heard in the procedure's part of the recording.
    pub heard: usize,
    /// How many of them agree with what is listed.
    pub agreed: usize,
    /// How many were heard in parts of the recording that belong to other procedures.
    pub elsewhere: usize,
    /// Said otherwise than listed.
    pub differently: Vec<Difference>,
    /// Said, and nothing like it is listed.
    pub not_listed: Vec<Said>,
    /// Listed in a step that is in the recording, and never said.
    pub not_said: Vec<NotSaid>,
    /// For a person to compare.
    pub by_eye: Vec<Difference>,
}

/// Something said.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// When.
    pub at: Option<Moment>,
    /// What it is about.
    pub kind: HeardKind,
    /// In which words.
    pub words: String,
    /// What it may mean.
    pub readings: Vec<String>,
    /// The step in whose part it is said.
    pub step: Option<String>,
}

/// Something said beside what is listed.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// What is said.
    pub said: Said,
    /// What is listed: `ID.field`, the name, the value.
    pub listed: Vec<ListedValue>,
    /// Whether `corrections:` of the recording says so already.
    pub corrected: bool,
}

/// A listed value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListedValue {
    /// `ID.field`.
    pub of: String,
    /// The thing's name.
    pub name: String,
    /// As it is written.
    pub value: String,
}

/// A listed value that is not said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotSaid {
    /// The step that works to it.
    pub step: String,
    /// When the step is shown.
    pub at: Option<Moment>,
    /// The value.
    pub listed: ListedValue,
}

impl Comparison {
    /// Whether something is said differently that no correction tells.
    #[must_use]
    pub fn differs(&self) -> bool {
        self.differently.iter().any(|difference| !difference.corrected)
    }
}

/// One value of one step, and whether somebody said it.
struct Candidate<'m> {
    step: &'m Step,
    listed: Listed<'m>,
    said: bool,
}

/// Compares the part of a recording that is a procedure's with its lists.
#[must_use]
pub fn compare(film: &Film<'_>, procedure: &Procedure, speech: &Speech) -> Comparison {
    let windows = film.windows();
    let mut comparison = Comparison::default();
    let Some(procedure) = film.procedures.iter().copied().find(|known| known.id == procedure.id) else { return comparison };
    let mut candidates: Vec<Candidate<'_>> = procedure
        .steps
        .iter()
        .flat_map(|step| film.values(procedure, step).into_iter().map(move |listed| Candidate { step, listed, said: false }))
        .collect();
    let all = heard(speech);
    let mut open: Vec<(&Heard, Option<&Step>)> = Vec::new();
    for heard in &all {
        let shown = shown_in(&windows, procedure, heard);
        if shown == Shown::Elsewhere {
            comparison.elsewhere += 1;
            continue;
        }
        let step = shown.step();
        comparison.heard += 1;
        match heard.kind {
            HeardKind::Quantity if agrees(heard, step, &mut candidates) => comparison.agreed += 1,
            HeardKind::Quantity => open.push((heard, step)),
            // The size of a tool is no value of the work.
            HeardKind::Size => comparison.agreed += 1,
            HeardKind::Locker => locker(film, procedure, step, heard, &mut comparison),
            HeardKind::SealSide | HeardKind::PutOff => beside(film, procedure, step, heard, &mut comparison),
        }
    }
    for (heard, step) in open {
        let against: Vec<usize> = step.map_or_else(Vec::new, |step| unsaid_of_its_kind(heard, step, &candidates));
        if against.is_empty() {
            comparison.not_listed.push(said(heard, step));
            continue;
        }
        let mut listed = Vec::new();
        for index in against {
            if let Some(candidate) = candidates.get_mut(index) {
                candidate.said = true;
                listed.push(value(&candidate.listed));
            }
        }
        listed.dedup();
        let corrected = listed.iter().any(|listed| is_corrected(film, heard, &listed.of));
        comparison.differently.push(Difference { said: said(heard, step), listed, corrected });
    }
    let mut silent: Vec<NotSaid> = Vec::new();
    for candidate in candidates.iter().filter(|candidate| !candidate.said && candidate.step.at.is_some() && is_worked_to(candidate)) {
        let not_said = NotSaid { step: candidate.step.id.clone(), at: candidate.step.at.as_ref().map(|at| at.value.start()), listed: value(&candidate.listed) };
        // A value said in one step need not be said again in the next.
        let said_elsewhere = candidates.iter().any(|other| other.said && other.listed.of == candidate.listed.of);
        if !said_elsewhere && !silent.iter().any(|known| known.listed == not_said.listed) {
            silent.push(not_said);
        }
    }
    comparison.not_said = silent;
    comparison.differently.sort_by_key(|difference| difference.said.at);
    comparison.not_listed.sort_by_key(|said| said.at);
    comparison
}

/// Whether a step works to a value: to a torque only where it tightens, not where it runs the fastener up or takes it out.
fn is_worked_to(candidate: &Candidate<'_>) -> bool {
    let of_this = |thing: &ThingRef| candidate.listed.of.strip_suffix(".torque") == Some(thing.id.as_str());
    candidate.listed.field != "torque" || candidate.step.acts.iter().any(|act| act.verb == Some(Verb::Torque) && act.things.iter().any(of_this))
}

/// In whose part of the recording something is said.
#[derive(Clone, Copy, Debug)]
enum Shown<'m> {
    In(&'m Step),
    /// In no step's part, or there are no times.
    Nowhere,
    Elsewhere,
}

impl PartialEq for Shown<'_> {
    fn eq(&self, other: &Self) -> bool {
        matches!((self, other), (Self::Elsewhere, Self::Elsewhere) | (Self::Nowhere, Self::Nowhere))
    }
}

impl<'m> Shown<'m> {
    fn step(self) -> Option<&'m Step> {
        match self {
            Self::In(step) => Some(step),
            Self::Nowhere | Self::Elsewhere => None,
        }
    }
}

fn shown_in<'m>(windows: &[Window<'m>], procedure: &Procedure, heard: &Heard) -> Shown<'m> {
    let Some(at) = heard.at.map(Moment::seconds) else { return Shown::Nowhere };
    let inside = |window: &&Window<'_>| window.from <= at && window.to.is_none_or(|to| at < to);
    let mut here = windows.iter().filter(inside);
    if let Some(own) = here.clone().find(|window| window.procedure.id == procedure.id) {
        return Shown::In(own.step);
    }
    // Before the first step of a shared recording is nobody's; what is another's is passed over.
    if here.next().is_some() { Shown::Elsewhere } else { Shown::Nowhere }
}

fn said(heard: &Heard, step: Option<&Step>) -> Said {
    Said { at: heard.at, kind: heard.kind, words: heard.said.clone(), readings: heard.readings.clone(), step: step.map(|step| step.id.clone()) }
}

fn value(listed: &Listed<'_>) -> ListedValue {
    ListedValue { of: listed.of.clone(), name: listed.name.to_owned(), value: listed.quantity.written().to_owned() }
}

fn readings(heard: &Heard) -> impl Iterator<Item = Quantity> {
    heard.readings.iter().filter_map(|text| Quantity::parse_free(text).ok())
}

/// Marks the values that something said agrees with: those of its step first, otherwise of the whole procedure.
fn agrees(heard: &Heard, step: Option<&Step>, candidates: &mut [Candidate<'_>]) -> bool {
    let readings: Vec<Quantity> = readings(heard).collect();
    let fits = |candidate: &Candidate<'_>| readings.iter().any(|reading| same(reading, candidate.listed.quantity));
    let in_step = |candidate: &Candidate<'_>| step.is_some_and(|step| step.id == candidate.step.id);
    let near = candidates.iter().any(|candidate| in_step(candidate) && fits(candidate));
    let mut any = false;
    for candidate in candidates.iter_mut() {
        if (!near || in_step(candidate)) && fits(candidate) {
            candidate.said = true;
            any = true;
        }
    }
    any
}

/// Whether a value said is a listed one: the same, its nominal, or one of its ends.
fn same(said: &Quantity, listed: &Quantity) -> bool {
    if said.dimension() != listed.dimension() {
        return false;
    }
    if said.same_value(listed) {
        return true;
    }
    let share = if said.unit() == listed.unit() { 1e-9 } else { ROUNDED };
    let close = |one: f64, other: f64| (one - other).abs() <= share * other.abs();
    let ((low, high), (from, to)) = (said.low_high(), listed.low_high());
    match (low, high) {
        // A single value: the nominal or an end of what is listed.
        (Some(low), Some(high)) if close(low, high) => [listed.nominal(), from, to].into_iter().flatten().any(|end| close(low, end)),
        (Some(low), Some(high)) => from.is_some_and(|from| close(low, from)) && to.is_some_and(|to| close(high, to)),
        (low, high) => low.or(high).zip(if low.is_some() { from } else { to }).is_some_and(|(said, listed)| close(said, listed)),
    }
}

/// The values of a step of a kind that something said may be, which nobody has said: the listed value it was said for.
fn unsaid_of_its_kind(heard: &Heard, step: &Step, candidates: &[Candidate<'_>]) -> Vec<usize> {
    let kinds: Vec<_> = readings(heard).map(|reading| reading.dimension()).collect();
    let fits = |candidate: &Candidate<'_>| candidate.step.id == step.id && !candidate.said && kinds.contains(&candidate.listed.quantity.dimension());
    candidates.iter().enumerate().filter(|(_, candidate)| fits(candidate)).map(|(index, _)| index).collect()
}

fn is_corrected(film: &Film<'_>, heard: &Heard, of: &str) -> bool {
    film.recording.corrections.iter().any(|correction| {
        let close = correction.at.zip(heard.at).is_some_and(|(at, said)| at.seconds().abs_diff(said.seconds()) <= CLOSE);
        close && correction.of.as_ref().is_some_and(|known| known.value == of)
    })
}

/// A locker: the strength said against that of the locker which the step puts on.
fn locker<'m>(film: &Film<'m>, procedure: &'m Procedure, step: Option<&Step>, heard: &Heard, comparison: &mut Comparison) {
    let all: Vec<&Step> = procedure.steps.iter().collect();
    let listed = lockers(film, procedure, &step.map_or_else(|| all.clone(), |step| vec![step]));
    // A sentence runs on into the next step's part, and who sums up says it once more.
    let begun = step.and_then(|step| step.at.as_ref()).zip(heard.at).is_some_and(|(from, said)| said.seconds().saturating_sub(from.value.start().seconds()) <= CLOSE);
    let is_said = |listed: &ListedValue| heard.readings.first().is_some_and(|strength| listed.value == *strength);
    if (listed.is_empty() || begun) && lockers(film, procedure, &all).iter().any(is_said) {
        comparison.agreed += 1;
        return;
    }
    match heard.readings.first() {
        _ if listed.is_empty() => comparison.not_listed.push(said(heard, step)),
        Some(strength) if !listed.iter().any(|listed| listed.value == *strength) => {
            let corrected = listed.iter().any(|listed| is_corrected(film, heard, &listed.of));
            comparison.differently.push(Difference { said: said(heard, step), listed, corrected });
        }
        _ => comparison.agreed += 1,
    }
}

/// The lockers that steps put on, with their strength.
fn lockers<'m>(film: &Film<'m>, procedure: &'m Procedure, steps: &[&Step]) -> Vec<ListedValue> {
    let scope = film.scope(procedure);
    let applied = steps.iter().flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Apply)).filter_map(|act| act.material.as_ref());
    let mut listed: Vec<ListedValue> = Vec::new();
    for material in applied {
        let Some(entry) = scope.thing(|lists| &lists.materials, material) else { continue };
        if matches!(entry.what.kind.as_deref(), Some("thread-locker" | "retaining-compound")) {
            let strength = entry.what.strength.as_ref().map_or("", |strength| strength.value.as_str());
            listed.push(ListedValue { of: format!("{}.strength", entry.id), name: entry.name.clone(), value: strength.to_owned() });
        }
    }
    listed.dedup();
    listed
}

/// The side of a seal beside the faces that are listed; work put off beside the open items.
fn beside<'m>(film: &Film<'m>, procedure: &'m Procedure, step: Option<&Step>, heard: &Heard, comparison: &mut Comparison) {
    let listed = if heard.kind == HeardKind::SealSide { faces(film, procedure, step) } else { open_items(procedure) };
    if listed.is_empty() {
        comparison.not_listed.push(said(heard, step));
    } else {
        comparison.by_eye.push(Difference { said: said(heard, step), listed, corrected: false });
    }
}

fn faces<'m>(film: &Film<'m>, procedure: &'m Procedure, step: Option<&Step>) -> Vec<ListedValue> {
    let scope = film.scope(procedure);
    let steps: Vec<&Step> = step.map_or_else(|| procedure.steps.iter().collect(), |step| vec![step]);
    let seals = steps.iter().flat_map(|step| &step.acts).flat_map(|act| &act.things).filter(|thing| thing.kind == ListKind::Seals);
    let mut listed: Vec<ListedValue> = Vec::new();
    for entry in seals.filter_map(|thing| scope.thing(|lists| &lists.seals, thing)) {
        for case in &entry.what.faces.cases {
            let value = match &case.value {
                Faces::Either => "either".to_owned(),
                Faces::Toward(toward) => toward.iter().map(|(feature, neighbour)| format!("{feature}: {}", neighbour.value)).collect::<Vec<_>>().join(", "),
            };
            let one = ListedValue { of: format!("{}.faces", entry.id), name: entry.name.clone(), value };
            if !listed.contains(&one) {
                listed.push(one);
            }
        }
    }
    listed
}

fn open_items(procedure: &Procedure) -> Vec<ListedValue> {
    let item = |entry: &crate::manual::Entry<crate::manual::OpenItem>| ListedValue {
        of: format!("{}.left", entry.id),
        name: entry.name.clone(),
        value: [entry.what.left.clone(), entry.what.finish_in.as_ref().map(|step| format!("finished in {}", step.value))].into_iter().flatten().collect::<Vec<_>>().join(", "),
    };
    procedure.lists.leaves_open.values().map(item).collect()
}
