//! The instruments of a record: what was tightened or read with one whose calibration had run out.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Entry, Instant, ListKind, Procedure, Spot, Tick, Tool, Verb, wrenches};

/// An instrument was used after its calibration had run out.
pub(in crate::inspect) static CALIBRATION_RUN_OUT: Rule = Rule {
    name: "calibration-run-out",
    severity: Severity::Warning,
    summary: "A recorded torque or reading was taken with a tool whose calibration had run out.",
    explanation: Explanation {
        finds: "Ticks of torque: and readings of measure: in a build record, later than the calibration of the tool holds: calibrated: and calibrate_every: after it. The day counts that the record has, no clock. The wrench is the one that the sheet names; where several may have been used, all of them must have run out. Each tool is told once in a record, at its first use. Silent before the day of calibrated:, for nobody knows the calibration before it, and where a deviation answers for tool, thing or step. Common practice (ISO 6789-1, from memory): a torque wrench is calibrated again after 12 months or 5,000 operations at the latest.",
        matters: "A wrench drifts and does not show it. Every bolt that it has pulled since is as uncertain as the wrench.",
        may_be_wrong: "Where it was calibrated again since and the list still has the old day: write the new day. Where another tool was used: write a deviation with its name and certificate.",
        example: "wrench: {kind: torque-wrench, calibrated: 2025-08-01, calibrate_every: 12 months}   and   torque:hub-bolt at 2026-09-15T10:00:00Z",
        instead: "Have it calibrated. Where it is found out of its tolerance, tighten again what it has pulled; otherwise write a deviation that says it was within.",
    },
};

/// One use of a tool.
struct Used<'a> {
    tool: &'a Entry<Tool>,
    at: &'a Spot<Instant>,
    message: String,
    uses: usize,
}

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    let mut found: Vec<Used<'_>> = Vec::new();
    for (work, procedure) in job.work() {
        let ticks = work.ticks.iter().map(|tick| (tick, tick.number)).chain(work.readings.iter().map(|tick| (tick, 1)));
        for (tick, number) in ticks {
            let Some(used) = run_out(job, procedure, tick, number) else { continue };
            match found.iter_mut().find(|known| std::ptr::eq(known.tool, used.tool)) {
                Some(known) if known.at.value <= used.at.value => known.uses += 1,
                Some(known) => *known = Used { uses: known.uses + 1, ..used },
                None => found.push(used),
            }
        }
    }
    findings.extend(found.into_iter().filter_map(|used| job.finding(used)));
}

/// A use with a tool that had run out; the first of them where several may have been used.
fn run_out<'a>(job: &Job<'a>, procedure: &'a Procedure, tick: &'a Tick, number: u64) -> Option<Used<'a>> {
    let (_, act) = recorded_act(procedure, tick, number)?;
    let at = tick.at.as_ref()?;
    let tools = tools(job, procedure, act);
    let day = at.value.day();
    let has_run_out = |tool: &Entry<Tool>| tool.what.calibrated.is_some_and(|since| since <= day) && tool.what.calibrated_until().is_some_and(|until| until < day);
    let first = *tools.first()?;
    let thing = act.thing()?;
    let answered = |of: &str| job.build.deviation(&procedure.id, &tick.step.value, Some(of)).is_some();
    if !tools.iter().all(|tool| has_run_out(tool)) || answered(&first.id) || answered(&thing.id) {
        return None;
    }
    let name = job.scope(procedure).head(thing).map_or(thing.id.as_str(), |head| head.name);
    let done = if act.verb == Some(Verb::Torque) { "was tightened" } else { "was read" };
    Some(Used { tool: first, at, message: format!("{}: {name} {done} with {}, whose calibration had run out", job.name(), first.name), uses: 1 })
}

/// The tools that may have been used for an act: those that the sheet names.
fn tools<'a>(job: &Job<'a>, procedure: &'a Procedure, act: &'a Act) -> Vec<&'a Entry<Tool>> {
    let scope = job.scope(procedure);
    let Some(thing) = act.thing() else { return Vec::new() };
    match (act.verb, thing.kind) {
        (Some(Verb::Torque), ListKind::Fasteners) => scope.thing(|lists| &lists.fasteners, thing).map(|entry| wrenches(scope, &entry.what, job.known, act.stage)).unwrap_or_default(),
        (Some(Verb::Measure), ListKind::Measures) => {
            let with = scope.thing(|lists| &lists.measures, thing).map(|entry| entry.what.with.cases_within(job.known));
            with.into_iter().flatten().filter_map(|case| scope.entry(|lists| &lists.tools, &case.value)).collect()
        }
        _ => Vec::new(),
    }
}

impl Job<'_> {
    fn finding(&self, used: Used<'_>) -> Option<Finding> {
        let (since, until) = (used.tool.what.calibrated?, used.tool.what.calibrated_until()?);
        let finding = Finding::new(&CALIBRATION_RUN_OUT, used.at.place.clone(), used.message)
            .label("too late")
            .related(used.tool.id_place.clone(), "the tool")
            .figure(format!("calibrated {since}, until {until}; used {}", used.at.value.day()))
            .fix("have it calibrated, and tighten or read again what it was out of tolerance for; or write a deviation with reason and person");
        let finding = if used.uses > 1 { finding.figure(format!("used {} times after that in this record", used.uses)) } else { finding };
        Some(self.about(finding))
    }
}
