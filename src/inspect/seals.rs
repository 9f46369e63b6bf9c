//! Seals: which side looks at which medium.

use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Faces, ListKind, Seal, Verb};
use std::collections::BTreeSet;

/// A seal goes in and nobody says which way round.
pub(super) static SEAL_ORIENTATION_MISSING: Rule = Rule {
    name: "seal-orientation-missing",
    severity: Severity::Error,
    summary: "A seal goes in and nobody says which way round.",
    explanation: Explanation {
        finds: "Shaft seals that a step fits and whose entry has no faces:, or faces without the spring side. O-rings and seals with faces: either are silent.",
        matters: "A lip seal turned round holds nothing: it lets out what it should keep in.",
        may_be_wrong: "Seals without a spring: name the lip instead (faces: {lip: gear-oil}), or write faces: either where it does not matter.",
        example: "seals: {drum-seal: {size: 45x62x8 mm}}\n[Press the seal in](fit:drum-seal)",
        instead: "seals: {drum-seal: {size: 45x62x8 mm, faces: {spring: gear-oil, back: air}}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let mut told = BTreeSet::new();
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            for act in procedure.steps.iter().flat_map(|step| &step.acts) {
                let goes_in = matches!(act.verb, Some(Verb::Fit | Verb::DryFit));
                let Some(thing) = act.thing().filter(|thing| goes_in && thing.kind == ListKind::Seals) else { continue };
                let Some(entry) = scope.thing(|lists| &lists.seals, thing) else { continue };
                if scope.lists_of(thing).is_some_and(|lists| lists.is_unreadable(thing.kind, &thing.id, "faces")) {
                    continue;
                }
                if let Some(finding) = orientation(entry).filter(|_| told.insert(thing.clone())) {
                    findings.push(finding.related(act.place.clone(), "goes in here"));
                }
            }
        }
    }
}

fn orientation(entry: &Entry<Seal>) -> Option<Finding> {
    let kind = entry.what.kind.first().map_or("", String::as_str);
    if matches!(kind, "o-ring" | "x-ring" | "square-ring") {
        return None;
    }
    let (place, label) = if entry.what.faces.is_given() {
        let silent = entry.what.faces.cases.iter().find(|case| !names_the_sealing_side(&case.value))?;
        (silent.place.clone(), "no spring side")
    } else {
        (entry.id_place.clone(), "no faces")
    };
    Some(
        Finding::new(&SEAL_ORIENTATION_MISSING, place, format!("{} goes in, and nobody says which way round", entry.name))
            .label(label)
            .fix("say which medium the spring faces: faces: {spring: gear-oil, back: grease}; or faces: either")
            .about(format!("{}.faces", entry.id)),
    )
}

fn names_the_sealing_side(faces: &Faces) -> bool {
    match faces {
        Faces::Either => true,
        Faces::Toward(features) => features.iter().any(|(feature, _)| feature == "spring" || feature == "lip"),
    }
}
