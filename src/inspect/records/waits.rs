//! The waits of a record: one that was ticked as over before its time had passed.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::inspect::locker_work::time_words;
use crate::manual::{Entry, Instant, Procedure, Spot, ThingRef, Tick, Verb, Wait};
use crate::quantity::{Dimension, Quantity};

/// A wait was ticked over too early.
pub(in crate::inspect) static WAIT_CUT_SHORT: Rule = Rule {
    name: "wait-cut-short",
    severity: Severity::Warning,
    summary: "A recorded wait was ticked as over before its time had passed.",
    explanation: Explanation {
        finds: "Ticks of wait: in a build record that come sooner after the tick of the same wait's begin: than its least time, by the value that stood on the page or, where none is recorded, by the list today; also in another procedure of the record. A minute is let pass. Silent where a deviation of the record answers for that wait or step.",
        matters: "Locker and sealant look the same after six hours as after a day, and hold far less. Who opens the machine next has to know.",
        may_be_wrong: "Where the begin was ticked long after it happened, or the clock of the device was wrong: write a deviation that says so.",
        example: "begin:case-cure at 2026-09-14T18:00:00Z, wait:case-cure at 2026-09-15T00:00:00Z, and the wait takes ≥ 24 h",
        instead: "Wait it out and tick it then; or \"deviations\": [{\"procedure\": \"close-case\", \"step\": \"cure\", \"of\": \"case-cure\", \"what\": \"oil in after 6 h\", \"because\": …, \"by\": …}]",
    },
};

/// A tick of a wait, with the procedure it was done in.
struct Ticked<'a> {
    procedure: &'a Procedure,
    tick: &'a Tick,
    verb: Verb,
    thing: &'a ThingRef,
    at: &'a Spot<Instant>,
}

/// Seconds that the clocks of two ticks may differ by.
const LET_PASS: i64 = 60;

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    let ticked = ticked(job);
    for over in ticked.iter().filter(|ticked| ticked.verb == Verb::Wait) {
        let begun = ticked.iter().filter(|begun| begun.verb == Verb::Begin && begun.thing == over.thing);
        // Begun again, it is the last beginning that counts.
        let before = begun.clone().filter(|begun| begun.at.value.seconds_until(&over.at.value) >= 0).min_by_key(|begun| begun.at.value.seconds_until(&over.at.value));
        let begun = before.or_else(|| begun.min_by_key(|begun| begun.at.value));
        findings.extend(begun.and_then(|begun| cut_short(job, begun, over)).map(|finding| job.about(finding)));
    }
}

fn ticked<'a>(job: &Job<'a>) -> Vec<Ticked<'a>> {
    let mut all = Vec::new();
    for (work, procedure) in job.work() {
        for tick in &work.ticks {
            let Some((_, act)) = recorded_act(procedure, tick, tick.number) else { continue };
            let (Some(verb @ (Verb::Begin | Verb::Wait)), Some(thing), Some(at)) = (act.verb, act.thing(), tick.at.as_ref()) else { continue };
            all.push(Ticked { procedure, tick, verb, thing, at });
        }
    }
    all
}

fn cut_short(job: &Job<'_>, begun: &Ticked<'_>, over: &Ticked<'_>) -> Option<Finding> {
    let entry = job.scope(over.procedure).thing(|lists| &lists.waits, over.thing)?;
    let (least, written) = least_time(job, entry, over.tick)?;
    let passed = begun.at.value.seconds_until(&over.at.value);
    let answered = job.build.deviation(&over.procedure.id, &over.tick.step.value, Some(&entry.id)).is_some();
    let short = least - passed as f64;
    if answered || short <= LET_PASS as f64 {
        return None;
    }
    let (message, gone) = if passed < 0 {
        (format!("{}: {} was ticked as over before it was begun", job.name(), entry.name), "nothing".to_owned())
    } else {
        let gone = time_words(passed as f64 / 60.0);
        (format!("{}: {} was ticked as over after {gone}, and takes {written}", job.name(), entry.name), gone)
    };
    Some(
        Finding::new(&WAIT_CUT_SHORT, over.at.place.clone(), message)
            .label("too early")
            .related(begun.at.place.clone(), "begun here")
            .related(entry.id_place.clone(), "the wait")
            .figure(format!("begun {}, over {}", begun.at.value, over.at.value))
            .figure(format!("{gone} of {}: {} short", time_words(least / 60.0), time_words(short / 60.0)))
            .fix("open the joint again, or let the rest of the time pass before it is filled, run or loaded; or write a deviation with reason and person"),
    )
}

/// The least time of a wait in seconds, and how it is written: as it stood on the page, otherwise as it is today.
fn least_time(job: &Job<'_>, entry: &Entry<Wait>, tick: &Tick) -> Option<(f64, String)> {
    let seconds = |quantity: &Quantity| quantity.low_high().0.filter(|low| low.is_finite() && *low > 0.0).map(|low| (low, quantity.written().to_owned()));
    let recorded = tick.value.as_ref().and_then(|value| Quantity::parse(&value.value, Dimension::Time).ok());
    let today = || entry.what.time.cases_within(job.known).filter_map(|case| seconds(&case.value)).min_by(|one, other| one.0.total_cmp(&other.0));
    recorded.as_ref().and_then(seconds).or_else(today)
}
