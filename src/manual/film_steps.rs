//! Which step a correction of a recording concerns: the one that is shown when it is said; otherwise the first that works to
//! the value.

use super::model::{Act, Machine, Procedure, Step};
use super::shop::Correction;
use super::verb::Verb;

/// A step with its moment in the recording.
#[derive(Clone, Copy)]
struct Shown<'m> {
    procedure: &'m Procedure,
    step: &'m Step,
    from: u32,
    /// The end it states itself.
    end: Option<u32>,
}

/// The step of a machine that a correction of a procedure's recording concerns, be it of another procedure in the same
/// recording. None where nothing tells.
#[must_use]
pub fn corrected_step<'m>(machine: &'m Machine, procedure: &'m Procedure, correction: &Correction) -> Option<(&'m Procedure, &'m Step)> {
    let address = procedure.recording.as_ref().and_then(|recording| recording.address.as_ref());
    let shares = |other: &&Procedure| {
        let theirs = other.recording.as_ref().and_then(|recording| recording.address.as_ref());
        other.id == procedure.id || (theirs.is_some() && theirs == address)
    };
    let steps: Vec<(&Procedure, &Step)> = machine.procedures.iter().filter(shares).flat_map(|procedure| procedure.steps.iter().map(move |step| (procedure, step))).collect();
    let of = correction.of.as_ref().map_or("", |of| of.value.as_str());
    let (thing, field) = of.split_once('.').unwrap_or((of, ""));
    let names = |act: &&Act| act.things.iter().chain(&act.material).any(|own| own.id == thing);
    let works_on = |step: &Step| step.acts.iter().any(|act| names(&act));
    // A bolt is taken out whatever its torque.
    let works_to = |step: &Step| step.acts.iter().filter(names).any(|act| if field == "torque" { act.verb == Some(Verb::Torque) } else { !matches!(act.verb, Some(Verb::Remove | Verb::Loosen)) });
    let moment = correction.at.map(|at| at.seconds());
    let shown = moment.map_or_else(Vec::new, |at| shown_at(&steps, at));
    shown
        .iter()
        .find(|shown| works_on(shown.step))
        .or(shown.first())
        .map(|shown| (shown.procedure, shown.step))
        .or_else(|| steps.iter().copied().find(|(_, step)| works_to(step)))
        .or_else(|| steps.iter().copied().find(|(_, step)| works_on(step)))
}

/// The steps that are shown at a second: the one begun last; several, where they are for different variants.
fn shown_at<'m>(steps: &[(&'m Procedure, &'m Step)], at: u32) -> Vec<Shown<'m>> {
    let all = steps.iter().filter_map(|(procedure, step)| {
        let span = step.at.as_ref()?.value;
        Some(Shown { procedure, step, from: span.start().seconds(), end: (!span.is_moment()).then(|| span.end().seconds()) })
    });
    let all: Vec<Shown<'m>> = all.collect();
    let Some(begun) = all.iter().map(|shown| shown.from).filter(|from| *from <= at).max() else { return Vec::new() };
    let another_follows = all.iter().any(|shown| shown.from > at);
    all.into_iter().filter(|shown| shown.from == begun && (another_follows || shown.end.is_none_or(|end| at <= end))).collect()
}
