//! Torques against the wrenches there are.

use super::Context;
use super::stages::stage_place;
use super::torque::{beside, is_told_over_proof};
use crate::finding::{Explanation, FileTable, Finding, Rule, Severity};
use crate::manual::{Case, Entry, Fastener, ListKind, Lists, Scope, Tool, Torque, adapter, length_mm, set_on, wrench};
use crate::quantity::Dimension;
use crate::trade::wrench::{Wrench, WrenchFit};

/// No wrench reaches down to a torque.
pub(super) static BELOW_WRENCH_RANGE: Rule = Rule {
    name: "below-wrench-range",
    severity: Severity::Error,
    summary: "A torque is below what any listed wrench can be trusted for.",
    explanation: Explanation {
        finds: "Torques below the usable range of every listed torque wrench, or of the one that tool: names: from the beginning of its scale or 20 % of full scale, whichever is more (ISO 6789; common practice).",
        matters: "At the bottom of its scale a wrench clicks early, late or not at all.",
        may_be_wrong: "Where a smaller wrench is at hand and not listed: list it.",
        example: "stator-screw: {torque: 5.5 N·m}   with a wrench 10–60 N·m",
        instead: "tools: {dial-wrench: {kind: torque-wrench, range: 0.5–6 N·m}}",
    },
};

/// No wrench reaches up to a torque.
pub(super) static ABOVE_WRENCH_RANGE: Rule = Rule {
    name: "above-wrench-range",
    severity: Severity::Error,
    summary: "A torque is above every listed wrench.",
    explanation: Explanation {
        finds: "Torques above full scale of every listed torque wrench, or of the one that tool: names; with an adapter, the value to be set.",
        matters: "A wrench that has clicked at its end tells nothing of the rest.",
        may_be_wrong: "Where a larger wrench is at hand and not listed: list it. Where a torque multiplier goes between: list the pair as one wrench, with the range it gives at the nut (benchleaf reckon multiplier works out what is set).",
        example: "hub-nut: {torque: 320 N·m}   with wrenches up to 210 N·m",
        instead: "tools: {long-wrench: {kind: torque-wrench, range: 70–350 N·m}}",
    },
};

/// Nobody can say what to set with an adapter.
pub(super) static CROWFOOT_UNCORRECTED: Rule = Rule {
    name: "crowfoot-uncorrected",
    severity: Severity::Warning,
    summary: "An adapter changes the torque, and the wrench's length is not known.",
    explanation: Explanation {
        finds: "Fasteners with an adapter: out of square to the wrench, where the wrench has no length:. With the length, the value to set is T·L/(L + E·cosθ) (FAA AC 43.13-1B, chapter 7).",
        matters: "A crowfoot 45 mm long in line with a wrench of 300 mm gives 15 % more than the scale shows.",
        may_be_wrong: "At 90° nothing changes: write angle: 90°.",
        example: "cap-bolt: {tool: click-wrench, adapter: {length: 45 mm, angle: 0°}}   and no length: of click-wrench",
        instead: "click-wrench: {kind: torque-wrench, range: 5–25 N·m, length: 270 mm}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let files = &context.sources.files;
    for machine in &context.manual.machines {
        // Where a list of tools could not be read nobody knows what wrenches there are.
        let scope = context.manual.machine_scope(machine);
        if scope.may_be_lost(&[ListKind::Tools]) {
            continue;
        }
        fasteners(files, scope, &machine.lists, findings);
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            fasteners(files, scope, &procedure.lists, findings);
        }
    }
}

/// Those whose wrench is named and can't be read (reported) are passed over: which one is meant is not known.
fn fasteners(files: &FileTable, scope: Scope<'_>, lists: &Lists, findings: &mut Vec<Finding>) {
    let known = |entry: &&Entry<Fastener>| !lists.is_unreadable(ListKind::Fasteners, &entry.id, "tool");
    lists.fasteners.values().filter(known).for_each(|entry| fastener(files, scope, lists, entry, findings));
}

fn fastener(files: &FileTable, scope: Scope<'_>, lists: &Lists, entry: &Entry<Fastener>, findings: &mut Vec<Finding>) {
    for case in &entry.what.torque.cases {
        // A wrench that is named and in no list is reported already.
        if beside(&entry.what.tool, &case.when).is_some_and(|named| scope.find_anywhere(ListKind::Tools, named).is_none()) {
            continue;
        }
        let wrenches = wrenches(scope, entry, case);
        findings.extend(not_corrected(entry, case, &wrenches));
        // Nobody should buy a wrench for a torque that breaks the bolt.
        let out = out_of_range(files, entry, case, &wrenches);
        findings.extend(out.filter(|out| out.rule().name != ABOVE_WRENCH_RANGE.name || !is_told_over_proof(lists, entry, case)));
    }
}

/// The torque wrenches in reach: the one named, or all.
fn wrenches<'a>(scope: Scope<'a>, entry: &Entry<Fastener>, case: &Case<Torque>) -> Vec<(&'a Entry<Tool>, Wrench)> {
    let named = beside(&entry.what.tool, &case.when);
    let tools = scope.homes().flat_map(|(_, lists)| lists.tools.values());
    tools.filter(|tool| named.is_none_or(|id| tool.id == *id)).filter_map(|tool| Some((tool, wrench(&tool.what)?))).collect()
}

fn not_corrected(entry: &Entry<Fastener>, case: &Case<Torque>, wrenches: &[(&Entry<Tool>, Wrench)]) -> Option<Finding> {
    let adapter = adapter(&entry.what, &case.when).filter(|adapter| (adapter.angle_deg - 90.0).abs() > 0.5)?;
    let (tool, _) = wrenches.iter().find(|(tool, _)| length_mm(&tool.what).is_none())?;
    let place = entry.what.adapter.cases.first()?.place.clone();
    Some(
        Finding::new(&CROWFOOT_UNCORRECTED, place, format!("what to set on {} for {} can't be worked out", tool.name, entry.name))
            .label("changes the torque")
            .related(tool.id_place.clone(), "no length:")
            .figure(format!("set = torque × L / (L + {} mm × cos {}°), and L is not known", adapter.length_mm, adapter.angle_deg))
            .fix(format!("measure from the square to the middle of the grip: {}: {{…, length: 270 mm}}", tool.id))
            .about(format!("{}.adapter", entry.id)),
    )
}

fn out_of_range(files: &FileTable, entry: &Entry<Fastener>, case: &Case<Torque>, wrenches: &[(&Entry<Tool>, Wrench)]) -> Option<Finding> {
    let stages = case.value.stages().iter().filter(|stage| stage.dimension() == Dimension::Torque);
    stages.into_iter().find_map(|stage| {
        let (low, high) = stage.low_high();
        let torque = stage.nominal().or(low).or(high)?;
        let adapter = adapter(&entry.what, &case.when);
        let fits: Vec<(&Entry<Tool>, WrenchFit)> = wrenches.iter().filter_map(|(tool, wrench)| Some((*tool, wrench.fit(set_on(&tool.what, torque, adapter)?)?))).collect();
        if fits.iter().any(|(_, fit)| *fit == WrenchFit::Usable) {
            return None;
        }
        let below = fits.iter().any(|(_, fit)| matches!(fit, WrenchFit::BelowRange { .. }));
        let rule = if below || fits.is_empty() { &BELOW_WRENCH_RANGE } else { &ABOVE_WRENCH_RANGE };
        let message = match (fits.is_empty(), below) {
            (true, _) => format!("{} on {}: no torque wrench is listed", stage.written(), entry.name),
            (false, true) => format!("{} on {} is too little for the wrenches there are", stage.written(), entry.name),
            (false, false) => format!("{} on {} is more than any wrench there is", stage.written(), entry.name),
        };
        Some(
            Finding::new(rule, stage_place(files, case, stage), message)
                .label("no wrench for it")
                .figures(fits.iter().map(|(tool, fit)| range_words(tool, *fit)))
                .fix("list a wrench whose usable range holds it (tools: {…: {kind: torque-wrench, range: …}}); don't feel it")
                .about(format!("{}.torque", entry.id)),
        )
    })
}

fn range_words(tool: &Entry<Tool>, fit: WrenchFit) -> String {
    match fit {
        WrenchFit::BelowRange { from_nm } => format!("{} is usable from {} N·m", tool.name, short(from_nm)),
        WrenchFit::AboveRange { to_nm } => format!("{} ends at {} N·m", tool.name, short(to_nm)),
        WrenchFit::Usable => tool.name.clone(),
    }
}

fn short(value: f64) -> String {
    if value < 100.0 { format!("{}", (value * 10.0).round() / 10.0) } else { format!("{value:.0}") }
}
