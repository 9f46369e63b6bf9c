//! Parts that are destroyed to get at others: first look whether the new one is there.

use super::prose::runs;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Procedure, Step, Verb};
use std::ops::Range;

/// Something is destroyed without a stop before it.
pub(super) static DESTRUCTIVE_HARVEST: Rule = Rule {
    name: "destructive-harvest",
    severity: Severity::Warning,
    summary: "A part is destroyed, and nobody looks first whether the new one is there and fits.",
    explanation: Explanation {
        finds: "Drilling, grinding or chiselling out, off or away of rivets, studs, bearings, rings and the like, or splitting a nut, in a step that has no hold point (hold:) and with none in the step before.",
        matters: "What is drilled out can't go back. The new basket that turns out to be the wrong one leaves the machine in pieces.",
        may_be_wrong: "Where what is destroyed is worth nothing, such as a seized screw with a new one beside it: let the hold point say so.",
        example: "Drill out the rivets of the basket.",
        instead: "[Editor has laid the new basket beside the old one](hold:editor) Drill out the rivets of the basket.",
    },
};

/// Words that take material away, each a command before one of [`AWAY`].
const DESTROYING: [&str; 5] = ["drill", "grind", "saw", "hacksaw", "chisel"];
const AWAY: [&str; 3] = ["off", "out", "away"];
/// What is taken off as a matter of course.
const NO_MATTER: [&str; 10] = ["burr", "burrs", "flash", "rust", "paint", "excess", "swarf", "chips", "gasket", "sealant"];
const VICTIMS: [&str; 28] = [
    "rivet", "rivets", "stud", "studs", "bolt", "bolts", "screw", "screws", "nut", "nuts", "pin", "pins", "weld", "welds", "cage", "ring", "rings", "head", "heads", "bearing",
    "bearings", "race", "races", "bush", "bushes", "sleeve", "collar", "basket",
];
const SPLITTING: [&str; 6] = ["split the nut", "split the old nut", "split the race", "split the ring", "saw through", "cut through"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, _) in every::procedures(context.manual) {
        let mut held = false;
        for step in &procedure.steps {
            // A word that could not be read may have been the hold point.
            let holds = step.acts.iter().any(|act| matches!(act.verb, Some(Verb::Hold) | None));
            if !holds && !held {
                findings.extend(destroyed(procedure, step));
            }
            held = holds;
        }
    }
}

fn destroyed(procedure: &Procedure, step: &Step) -> Option<Finding> {
    let hit = |text: &str| {
        let words = Words::of(text);
        by_force(&words).map(|hit| (words.text(&hit).to_owned(), hit))
    };
    let in_text = || runs(&step.blocks).iter().find_map(|run| hit(run.text()).and_then(|(words, at)| Some((words, run.place(at.start, at.end)?))));
    let in_act = || step.acts.iter().find_map(|act| hit(&act.words).map(|(words, _)| (words, act.place.clone())));
    let (words, place) = in_text().or_else(in_act)?;
    Some(
        Finding::new(&DESTRUCTIVE_HARVEST, place, format!("‘{words}’ destroys a part, and no hold point stands before it"))
            .label("is the new one there?")
            .fix("let somebody look first: [The new one lies beside the old one and is the same](hold:PERSON)")
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

/// A command to destroy with ‘out’, ‘off’ or ‘away’ behind it, and what is destroyed near it in the same sentence.
fn by_force(words: &Words<'_>) -> Option<Range<usize>> {
    let command = words.command(&DESTROYING, &AWAY, &NO_MATTER, 5).filter(|hit| {
        let verb = words.text(hit).split_whitespace().next().unwrap_or_default().to_lowercase();
        words.near(&[verb.as_str()], &VICTIMS, 6).is_some()
    });
    command.or_else(|| words.near(&SPLITTING, &VICTIMS, 6))
}
