//! What keeps people whole: protection where there is heat, spring, pressure, solvent; a second pair of eyes.

use super::Context;
use super::hazards::{Hazard, hazard};
use super::holds::finished_before_load;
use super::text::notices;
use super::walk::is_full;
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, Entry, Fastener, ListKind, Procedure, Scope, Step, ThingRef, Verb};
use crate::source::Notice;
use crate::trade::signal::SignalWord;
use std::collections::BTreeSet;

/// A hazard has no protection named.
pub(super) static HAZARD_WITHOUT_PPE: Rule = Rule {
    name: "hazard-without-ppe",
    severity: Severity::Error,
    summary: "Work with heat, pressure, load, springs, chips or solvent names no protection.",
    explanation: Explanation {
        finds: "heat:, tests of kind pressure, run or load, springs and circlips put in or taken out, nuts staked, and solvents put on, in a step before or in which no tool of kind protection against that hazard is in use (tool:, also inside a notice). As a warning, clips of gudgeon pins put in or taken out, pullers, presses and spring compressors in use (tools of kind press-tool, by their name), and sentences that order to grind, saw, drill, chisel, wire-brush, blast, weld or braze, or to open a radiator or header cap of which none says that it is cold, that work with an angle grinder, a cutting disc, compressed air, acid or paint stripper, where nothing up to that step speaks of eyes, a shield, goggles, gloves or the like; what a sentence forbids is silent, and what a link shows elsewhere.",
        matters: "Whoever reads the step reaches for what it names, and for nothing else.",
        may_be_wrong: "Where the part is a spring too weak to hurt: list it as kind: other.",
        example: "[Warm the carrier on the plate](heat:warm-carrier)",
        instead: "> **WARNING** The carrier burns through a wet glove. Wear [heat gloves and eye shield](tool:heat-gloves).\n\n[Warm the carrier on the plate](heat:warm-carrier)",
    },
};

/// A dangerous act has no notice before it.
pub(super) static NOTICE_MISSING: Rule = Rule {
    name: "notice-missing",
    severity: Severity::Warning,
    summary: "Heat, pressure, a run, a load, a hanging part or a belt that turns comes without a safety notice before it.",
    explanation: Explanation {
        finds: "heat: above what skin stands, and tests of kind pressure, run or load, in a step with no DANGER, WARNING or CAUTION before the act. So are hazards that only an entry tells: a part of more than 25 kg on a hoist (a tool of kind lifting in use in the step), an electric motor (unless a protection against electric is in use in the procedure before), or a flywheel or rotor with magnets (by its name, note or when:) put on or taken off; tests and measurements read at more than 150 r/min (common practice: no hand turns so fast); and turn: behind a belt or chain that the same procedure has put on.",
        matters: "The step is read alone, at the bench, often by somebody who has not read the page.",
        may_be_wrong: "Where the test puts nobody at risk: give it kind: function.",
        example: "[Let the brake hold the load](test:load-test)",
        instead: "> **DANGER** A load that breaks away kills. Close the [barrier](tool:slip-barrier) …\n\n[Let the brake hold the load](test:load-test)",
    },
};

/// A shaft is tightened that nobody holds.
pub(super) static COUNTERHOLD_MISSING: Rule = Rule {
    name: "counterhold-missing",
    severity: Severity::Warning,
    summary: "A fastener that turns with its shaft is tightened, and nothing holds the shaft.",
    explanation: Explanation {
        finds: "Fasteners of role shaft-nut without hold_with:, those of role drive that hold a flywheel, sprocket, pulley, propeller or rotor (by the part's name) without it, a temporary nut with the thread of a shaft nut, and fasteners with hold_with: tightened or slackened in a step where that tool is not in use (tool:, in the step or an earlier one of the procedure).",
        matters: "The wrench turns the shaft instead of the nut, or somebody holds it by what must not be held.",
        may_be_wrong: "Where the shaft can't turn for another reason: say which, in hold_with: of a tool of kind holding-tool.",
        example: "pinion-nut: {role: shaft-nut, torque: 78 N·m}",
        instead: "pinion-nut: {role: shaft-nut, torque: 78 N·m, hold_with: shaft-holder}   and [holder](tool:shaft-holder) in the step",
    },
};

/// A critical fastener or part has fewer than two signatures.
pub(super) static CRITICAL_SINGLE_SIGNATURE: Rule = Rule {
    name: "critical-single-signature",
    severity: Severity::Warning,
    summary: "A critical fastener or part is finished with fewer than two signatures after it.",
    explanation: Explanation {
        finds: "Fasteners with critical: true whose last act in a procedure brings them to their value, and parts whose last act fits them, with fewer than two different people signing (hold:, sign:) behind it in that procedure. What the procedure leaves open is silent, and what is run or loaded unsigned (load-before-signoff).",
        matters: "Brake, steering, lifting and propeller joints are looked at by a second person, because the first one sees what he meant to do.",
        may_be_wrong: "Where the second look comes in a later procedure: sign here as well.",
        example: "[Tighten the hub nut](torque:hub-nut). [Editor has watched](hold:editor)",
        instead: "[Tighten the hub nut](torque:hub-nut). [Editor has watched](hold:editor) [Warden has looked at the paint](hold:winch-warden)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let loaded = finished_before_load(context);
    for machine in &context.manual.machines {
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            unprotected(scope, procedure, findings);
            procedure.steps.iter().for_each(|step| unannounced(scope, step, findings));
            not_held(scope, procedure, findings);
            single_signatures(scope, procedure, &loaded, findings);
        }
    }
}

/// The acts of a procedure in order, with all tools in use up to the end of their step.
fn with_tools(procedure: &Procedure) -> Vec<(&Act, BTreeSet<&str>)> {
    let mut tools: BTreeSet<&str> = BTreeSet::new();
    let mut all = Vec::new();
    for step in &procedure.steps {
        let named = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things);
        tools.extend(named.map(|thing| thing.id.as_str()));
        all.extend(step.acts.iter().map(|act| (act, tools.clone())));
    }
    all
}

fn unprotected(scope: Scope<'_>, procedure: &Procedure, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<&[&str]> = BTreeSet::new();
    for (act, tools) in with_tools(procedure) {
        let Some(Hazard { against: hazards, grade }) = hazard(scope, act) else { continue };
        let hazard = words(hazards);
        if !protects(scope, &tools, hazards) && told.insert(hazards) {
            let known = known_protections(scope, hazards);
            let fix = if known.is_empty() {
                format!("list one (kind: protection, against: [{}]) and name it in a notice before this act", hazards.join(", "))
            } else {
                format!("name it in a notice before this act: {}", known.join(" or "))
            };
            findings.push(
                Finding::new(&HAZARD_WITHOUT_PPE, act.place.clone(), format!("{hazard} here, and no protection is named"))
                    .severity(grade)
                    .label(format!("no protection against {hazard}"))
                    .fix(fix)
                    .about(procedure.id.clone()),
            );
        }
    }
}

/// Whether one of some tools in use protects against one of some hazards.
pub(super) fn protects(scope: Scope<'_>, tools: &BTreeSet<&str>, hazards: &[&str]) -> bool {
    tools.iter().filter_map(|id| scope.entry(|lists| &lists.tools, id)).any(|tool| {
        tool.what.kind.as_deref() == Some("protection") && tool.what.against.iter().any(|against| hazards.contains(&against.as_str()))
    })
}

/// What the lists have against one of some hazards, each as it is named in a text.
pub(super) fn known_protections(scope: Scope<'_>, hazards: &[&str]) -> Vec<String> {
    let tools = scope.homes().flat_map(|(_, lists)| lists.tools.values());
    tools.filter(|tool| tool.what.against.iter().any(|against| hazards.contains(&against.as_str()))).map(|tool| format!("[{}](tool:{})", tool.name, tool.id)).collect()
}

/// Acts whose hazard needs a notice in their own step, before them.
fn unannounced(scope: Scope<'_>, step: &Step, findings: &mut Vec<Finding>) {
    // A notice behind all the work of its step is told as such.
    let is_late = |notice: &&Notice| {
        let behind = step.acts.get(notice.acts_before..).unwrap_or_default();
        !behind.iter().any(|act| act.verb.is_some_and(Verb::ticks))
    };
    if notices(step).into_iter().filter(is_about_injury).any(|notice| is_late(&notice)) {
        return;
    }
    let first = notices(step)
        .into_iter()
        .filter(is_about_injury)
        .map(|notice| notice.acts_before)
        .min();
    for (at, act) in step.acts.iter().enumerate() {
        let grave = matches!(act.verb, Some(Verb::Heat | Verb::Test));
        let Some(hazard) = hazard(scope, act).filter(|_| grave && first.is_none_or(|before| before > at)) else { continue };
        findings.push(
            Finding::new(&NOTICE_MISSING, act.place.clone(), format!("{} here, and no notice says so before", words(hazard.against)))
                .label("no DANGER, WARNING or CAUTION before this")
                .fix("write a notice before the act: > **WARNING** what can happen, to whom, and how to avoid it")
                .about(step.id.clone()),
        );
        return;
    }
}

/// Whether a notice is about injury: not about the machine only (NOTICE).
pub(super) fn is_about_injury(notice: &&Notice) -> bool {
    SignalWord::find(&notice.word).is_some_and(|word| word != SignalWord::Notice)
}

/// Hazards in words, as before "here".
fn words(hazards: &[&str]) -> String {
    let one = |hazard: &&str| match *hazard {
        "spring" => "a spring under tension".to_owned(),
        "chips" => "flying chips".to_owned(),
        "load" => "a load".to_owned(),
        "rotation" => "rotation".to_owned(),
        other => other.to_owned(),
    };
    hazards.iter().map(one).collect::<Vec<_>>().join(" or ")
}

/// Whether a field of a fastener is there and could not be read, which has been reported.
fn is_unreadable(scope: Scope<'_>, thing: &ThingRef, field: &'static str) -> bool {
    scope.lists_of(thing).is_some_and(|lists| lists.is_unreadable(ListKind::Fasteners, &thing.id, field))
}

fn not_held(scope: Scope<'_>, procedure: &Procedure, findings: &mut Vec<Finding>) {
    let mut told = BTreeSet::new();
    for (act, tools) in with_tools(procedure) {
        let turns = matches!(act.verb, Some(Verb::Torque | Verb::Loosen));
        let Some(thing) = act.thing().filter(|thing| turns && thing.kind == ListKind::Fasteners) else { continue };
        let Some(entry) = scope.thing(|lists| &lists.fasteners, thing) else { continue };
        let holder = entry.what.hold_with.first();
        let finding = match holder {
            // A holder that is in no list is reported already.
            Some(holder) if scope.find_anywhere(ListKind::Tools, holder).is_none() => continue,
            Some(holder) if !tools.contains(holder.as_str()) => {
                let name = scope.entry(|lists| &lists.tools, holder).map_or(holder.as_str(), |tool| tool.name.as_str());
                Finding::new(&COUNTERHOLD_MISSING, act.place.clone(), format!("{} is turned here, and its holder is not in use", entry.name))
                    .label("what holds the shaft?")
                    .fix(format!("put the holder on in this step: [{name}](tool:{holder})"))
            }
            None if !is_unreadable(scope, thing, "hold_with") => {
                let Some(turns) = turns_with(scope, entry) else { continue };
                Finding::new(&COUNTERHOLD_MISSING, entry.id_place.clone(), format!("{} turns with {turns}, and nothing holds it", entry.name))
                    .label("no hold_with")
                    .related(act.place.clone(), "turned here")
                    .fix("name the holding tool: hold_with: …, and use it in the step (tool:…)")
            }
            _ => continue,
        };
        if told.insert(thing.clone()) {
            findings.push(finding.about(thing.id.clone()));
        }
    }
}

/// Parts that turn with their shaft whatever it is called.
const ON_A_SHAFT: [&str; 5] = ["flywheel", "sprocket", "pulley", "propeller", "rotor"];

/// What a fastener turns with, where that must be held against the wrench.
fn turns_with(scope: Scope<'_>, entry: &Entry<Fastener>) -> Option<String> {
    let fastener = &entry.what;
    match fastener.role.first()?.as_str() {
        "shaft-nut" => Some("its shaft".to_owned()),
        "drive" => fastener.holds.iter().find_map(|held| {
            let part = scope.entry(|lists| &lists.parts, &held.value)?;
            let said = part.name.to_lowercase();
            // By its own name: a screw of the ‘guard of the flywheel’ turns with nothing.
            let noun = said.split(" of ").next().unwrap_or(&said);
            ON_A_SHAFT.iter().any(|word| noun.split_whitespace().any(|own| own == *word)).then(|| part.name.clone())
        }),
        _ if fastener.temporary => stands_for(scope, entry).map(|nut| format!("the shaft of {nut}")),
        _ => None,
    }
}

/// The shaft nut that a nut stands for while something is tried: one with its thread, on whose shaft it can only sit.
fn stands_for(scope: Scope<'_>, entry: &Entry<Fastener>) -> Option<String> {
    let is_nut = |entry: &Entry<Fastener>| entry.name.to_lowercase().split(" of ").next().is_some_and(|own| own.ends_with("nut"));
    let thread = entry.what.thread.first().filter(|_| is_nut(entry))?;
    let mut nuts = scope.homes().flat_map(|(_, lists)| lists.fasteners.values()).filter(|other| is_nut(other) && other.what.hold_with.is_given());
    nuts.find(|nut| nut.id != entry.id && nut.what.role.first().is_some_and(|role| role == "shaft-nut") && nut.what.thread.first() == Some(thread)).map(|nut| nut.name.clone())
}

fn single_signatures(scope: Scope<'_>, procedure: &Procedure, loaded: &BTreeSet<Place>, findings: &mut Vec<Finding>) {
    let acts: Vec<&Act> = procedure.steps.iter().flat_map(|step| &step.acts).collect();
    let mut told = BTreeSet::new();
    // The last act of each critical thing decides: it is looked at when it is finished.
    for (at, act) in acts.iter().enumerate().rev() {
        let Some((thing, name)) = critical(scope, act) else { continue };
        let left_open = procedure.lists.leaves_open.values().any(|item| item.what.of.as_ref().map_or(&item.id, |of| &of.value) == &thing.id);
        if !told.insert(thing) || left_open || !is_finished(scope, act) || loaded.contains(&act.place) {
            continue;
        }
        let signers: BTreeSet<&str> = acts
            .iter()
            .skip(at)
            .filter(|act| matches!(act.verb, Some(Verb::Hold | Verb::Sign)))
            .flat_map(|act| act.things.iter().map(|thing| thing.id.as_str()))
            .collect();
        if signers.len() < 2 {
            let who = if signers.is_empty() { "nobody signs" } else { "one person signs" };
            findings.push(
                Finding::new(&CRITICAL_SINGLE_SIGNATURE, act.place.clone(), format!("{name} is critical, and {who} after this"))
                    .label("two signatures needed")
                    .figures(signers.iter().map(|signer| format!("signs: {signer}")))
                    .fix("let two different people look and sign after it: hold:ONE,ANOTHER")
                    .about(thing.id.clone()),
            );
        }
    }
}

/// The critical fastener or part of an act that changes how it stands, and its name.
fn critical<'a>(scope: Scope<'a>, act: &'a Act) -> Option<(&'a ThingRef, &'a str)> {
    let thing = act.thing()?;
    let (critical, name) = match (thing.kind, act.verb?) {
        (ListKind::Fasteners, Verb::Torque | Verb::Start | Verb::Fit | Verb::Loosen | Verb::Remove) => {
            let entry = scope.thing(|lists| &lists.fasteners, thing)?;
            (entry.what.critical, &entry.name)
        }
        (ListKind::Parts, Verb::Fit | Verb::DryFit | Verb::Remove) => {
            let entry = scope.thing(|lists| &lists.parts, thing)?;
            (entry.what.critical, &entry.name)
        }
        _ => return None,
    };
    critical.then_some((thing, name))
}

/// Whether an act brings its thing to its final state: a fastener at its full value, a part in for good.
fn is_finished(scope: Scope<'_>, act: &Act) -> bool {
    match (act.verb, act.thing()) {
        (Some(Verb::Torque), Some(thing)) => is_full(scope, thing, act.stage),
        (Some(Verb::Fit), Some(thing)) => thing.kind == ListKind::Parts,
        _ => false,
    }
}
