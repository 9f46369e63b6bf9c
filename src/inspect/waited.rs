//! How long a procedure keeps its mechanic waiting: soaks, cures and the cooling of heated parts, less what runs while work
//! goes on.

use super::needs::acts_done;
use crate::manual::{Combination, Machine, Procedure, Scope, Step, ThingRef, Verb};
use crate::quantity::Quantity;
use std::collections::BTreeMap;

/// The minutes a procedure has to be waited for where `known` is known, beside its work. None where nothing is waited for.
///
/// Nobody parts a step's time, so a wait begins with the end of the step that begins it and has to be over with the beginning
/// of the step that wants it: told is rather a little too much. Work between the two, and other waits, run in its time and
/// are not counted again. One that an earlier procedure began has the work since then behind it.
#[must_use]
pub fn waited(scope: Scope<'_>, procedure: &Procedure, known: &Combination) -> Option<f64> {
    let mut clock = Clock::default();
    let mut current: Option<&Step> = None;
    for (step, _, act) in acts_done(scope, procedure, known) {
        if current.is_none_or(|before| before.number != step.number) {
            let past = procedure.steps.iter().filter(|other| other.number < step.number && other.only.agrees_with(known));
            clock.worked = past.filter_map(|other| other.minutes).sum();
            current = Some(step);
        }
        let Some(thing) = act.thing() else { continue };
        match act.verb {
            Some(Verb::Begin) => {
                clock.begun.insert(thing, clock.now() + step.minutes.unwrap_or(0.0));
            }
            Some(Verb::Wait) => {
                let least = scope.thing(|lists| &lists.waits, thing).and_then(|entry| longest(entry.what.time.cases_within(known).map(|case| &case.value)));
                let Some(least) = least else { continue };
                let gone = match clock.begun.remove(thing) {
                    Some(begun) => (clock.now() - begun).max(0.0),
                    None => scope.machine.and_then(|machine| since(machine, procedure, thing, known)).map_or(0.0, |minutes| minutes + clock.now()),
                };
                clock.sat_out(least - gone);
            }
            Some(Verb::Cool) => {
                let cools = scope.thing(|lists| &lists.heats, thing).and_then(|entry| longest(entry.what.cool.cases_within(known).map(|case| &case.value)));
                clock.sat_out(cools.unwrap_or(0.0));
            }
            _ => {}
        }
    }
    (clock.waited > 0.0).then_some(clock.waited)
}

/// Minutes gone by.
#[derive(Default)]
struct Clock<'a> {
    worked: f64,
    waited: f64,
    /// When each running wait began.
    begun: BTreeMap<&'a ThingRef, f64>,
}

impl Clock<'_> {
    fn now(&self) -> f64 {
        self.worked + self.waited
    }

    fn sat_out(&mut self, minutes: f64) {
        self.waited += minutes.max(0.0);
    }
}

/// The longest of some least times, in minutes: where a variant decides and is not known, the wait may be that long.
fn longest<'q>(times: impl Iterator<Item = &'q Quantity>) -> Option<f64> {
    let least = |time: &Quantity| time.low_high().0.or_else(|| time.seconds());
    times.filter_map(least).map(|seconds| seconds / 60.0).reduce(f64::max)
}

/// Minutes of work since an earlier procedure began a wait; none where none did.
fn since(machine: &Machine, procedure: &Procedure, thing: &ThingRef, known: &Combination) -> Option<f64> {
    let index = machine.procedures.iter().position(|other| other.id == procedure.id)?;
    let mut minutes = 0.0;
    for step in machine.procedures.iter().take(index).rev().flat_map(|earlier| earlier.steps.iter().rev()).filter(|step| step.only.agrees_with(known)) {
        if step.acts.iter().any(|act| act.verb == Some(Verb::Begin) && act.things.contains(thing)) {
            return Some(minutes);
        }
        minutes += step.minutes.unwrap_or(0.0);
    }
    None
}
