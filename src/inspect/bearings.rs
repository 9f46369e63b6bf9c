//! Bearings and what lies beside them: pressed by the right ring, not mixed up, either way only where it is said.

use super::sides::words_of;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Bearing, Entry, ListKind, Procedure, Scope, Step, ThingRef, Verb};
use std::collections::BTreeSet;

/// A bearing is pressed by the ring that is loose.
pub(super) static PRESS_THROUGH_ROLLING_ELEMENTS: Rule = Rule {
    name: "press-through-rolling-elements",
    severity: Severity::Warning,
    summary: "A bearing is pushed by the ring that is not tight, through its balls.",
    explanation: Explanation {
        finds: "Steps that fit a bearing whose fit: names the bore alone (tight outer ring) and that push, press, drive or tap it by (on, at, against) the inner ring, in words, or with a tool of kind press-tool named after that ring; and the other way round for a fit: that names the shaft alone. Sentences that say never, not or no, or that name the right ring too, are silent.",
        matters: "The force goes through the balls and dents the track. The bearing is noisy within the month.",
        may_be_wrong: "Where both rings are tight: give both, bore: and shaft:, and push on both at once.",
        example: "fit: {bore: 62 mm, …}   and: Drive it home by the inner ring",
        instead: "Drive it home by the outer ring alone",
    },
};

/// Two bearings look the same and are not.
pub(super) static LOOK_ALIKE_BEARINGS: Rule = Rule {
    name: "look-alike-bearings",
    severity: Severity::Warning,
    summary: "Two bearings of one size differ in what can't be seen, and nobody marks them.",
    explanation: Explanation {
        finds: "Two bearings of equal size that one procedure fits, that exist in the same machine, and that differ in their number:, or in clearance (C2, C3 …), shields or seals in their name or note, with no word of marking, tagging or bagging in the procedure's steps.",
        matters: "On the bench they can't be told apart. The one with the wrong clearance runs hot or rattles, and is found after a season.",
        may_be_wrong: "Where they are equal after all: give both the same number:.",
        example: "front: {name: Front bearing C3, size: 25x52x15 mm}, rear: {name: Rear bearing, size: 25x52x15 mm}",
        instead: "Mark the bag of the C3 bearing before either is opened.",
    },
};

/// A part could go in either way, and nobody says so.
pub(super) static EITHER_WAY_NOT_DECLARED: Rule = Rule {
    name: "either-way-not-declared",
    severity: Severity::Note,
    summary: "A gear, spacer or plate goes in, and nobody says whether it matters which way round.",
    explanation: Explanation {
        finds: "Parts of kind gear, spacer or plate that a step fits (alone or in a stack) with neither faces: nor side:, and that stand in no shaft's row, where it is an error of its own.",
        matters: "Somebody stops, turns the part over and over, and wonders. Or does not stop.",
        may_be_wrong: "Never: one word answers it.",
        example: "spacer: {kind: spacer}",
        instead: "spacer: {kind: spacer, faces: either}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<(&str, ThingRef)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        let mut fitted: Vec<(&ThingRef, &Entry<Bearing>, &Act)> = Vec::new();
        for step in &procedure.steps {
            for act in step.acts.iter().filter(|act| matches!(act.verb, Some(Verb::Fit | Verb::DryFit))) {
                let Some(thing) = act.thing() else { continue };
                if let Some(bearing) = scope.thing(|lists| &lists.bearings, thing).filter(|_| thing.kind == ListKind::Bearings) {
                    findings.extend(through_the_balls(scope, step, act, bearing));
                    if !fitted.iter().any(|(other, ..)| *other == thing) {
                        fitted.push((thing, bearing, act));
                    }
                }
                for part in parts_of(scope, thing) {
                    let wanting = undeclared(scope, &part).filter(|_| !told.contains(&(machine.id.as_str(), part.clone())));
                    if let Some(finding) = wanting {
                        told.insert((&machine.id, part));
                        findings.push(finding.related(act.place.clone(), "goes in here"));
                    }
                }
            }
        }
        look_alikes(procedure, &fitted, findings);
    }
}

/// The ring a bearing is tight at, and the other one.
fn rings(bearing: &Entry<Bearing>) -> Option<(&'static str, &'static str)> {
    let fits: BTreeSet<(bool, bool)> = bearing.what.fit.cases.iter().map(|case| (case.value.bore.is_some(), case.value.shaft.is_some())).collect();
    match fits.into_iter().collect::<Vec<_>>().as_slice() {
        [(true, false)] => Some(("outer", "inner")),
        [(false, true)] => Some(("inner", "outer")),
        _ => None,
    }
}

const PUSHES: [&str; 16] = [
    "push", "pushed", "pushing", "press", "pressed", "pressing", "drive", "driven", "driving", "tap", "tapped", "tapping", "knock", "knocked", "drift", "hammer",
];

/// Whether a sentence has something pushed by a ring: a shaft that is driven through it does not count.
fn pushed_by(words: &Words<'_>, ring: &str) -> bool {
    let by_it = ["by", "on", "at", "against", "via"].into_iter().any(|by| {
        ["the ", "its ", ""].into_iter().any(|whose| ["ring", "race"].into_iter().any(|what| words.first(&[&format!("{by} {whose}{ring} {what}")]).is_some()))
    });
    by_it && words.first(&PUSHES).is_some()
}

fn through_the_balls(scope: Scope<'_>, step: &Step, act: &Act, bearing: &Entry<Bearing>) -> Option<Finding> {
    let (tight, loose) = rings(bearing)?;
    let named = |text: &str, ring: &str| Words::of(text).first(&[&format!("{ring} ring"), &format!("{ring} race"), &format!("{ring} rings"), &format!("{ring} races")]).is_some();
    let said = words_of(step);
    let in_words = said.split(['.', ';', '!', '?']).any(|sentence| {
        let words = Words::of(sentence);
        let forbids = words.first(&["never", "not", "no", "don't", "without", "nor"]).is_some();
        pushed_by(&words, loose) && !named(sentence, tight) && !forbids
    });
    let tool = step.acts.iter().filter(|act| act.verb == Some(Verb::Tool)).flat_map(|act| &act.things).find_map(|thing| {
        let tool = scope.thing(|lists| &lists.tools, thing).filter(|tool| tool.what.kind.as_deref() == Some("press-tool"))?;
        (named(&tool.name, loose) && !named(&tool.name, tight)).then_some(tool)
    });
    if !in_words && tool.is_none() {
        return None;
    }
    let fit = bearing.what.fit.cases.first()?;
    let finding = Finding::new(&PRESS_THROUGH_ROLLING_ELEMENTS, act.place.clone(), format!("{} is tight at its {tight} ring, and is pushed by its {loose} ring", bearing.name))
        .label("through the balls")
        .related(fit.place.clone(), format!("tight at the {tight} ring"))
        .fix(format!("push on the {tight} ring alone, and say so"))
        .about(bearing.id.clone());
    Some(match tool {
        Some(tool) => finding.related(tool.id_place.clone(), "the tool"),
        None => finding,
    })
}

/// The parts an act puts in: itself, or those of a stack.
fn parts_of(scope: Scope<'_>, thing: &ThingRef) -> Vec<ThingRef> {
    match thing.kind {
        ListKind::Parts => vec![thing.clone()],
        ListKind::Stacks => {
            let of = scope.thing(|lists| &lists.stacks, thing).map(|stack| stack.what.of.as_slice()).unwrap_or_default();
            of.iter().filter_map(|part| scope.find(ListKind::Parts, &part.value)).collect()
        }
        _ => Vec::new(),
    }
}

fn undeclared(scope: Scope<'_>, thing: &ThingRef) -> Option<Finding> {
    let lists = scope.lists_of(thing)?;
    let entry = lists.parts.get(&thing.id)?;
    let kind = entry.what.kind.first().filter(|kind| matches!(kind.as_str(), "gear" | "spacer" | "plate"))?;
    let unreadable = ["faces", "side", "kind"].into_iter().any(|field| lists.is_unreadable(thing.kind, &thing.id, field));
    let in_a_row = scope.homes().flat_map(|(_, lists)| lists.shafts.values()).any(|shaft| shaft.what.sits.iter().any(|spot| spot.value == thing.id));
    if entry.what.faces.is_given() || entry.what.side.is_given() || unreadable || (in_a_row && kind != "plate") {
        return None;
    }
    Some(
        Finding::new(&EITHER_WAY_NOT_DECLARED, entry.id_place.clone(), format!("{}: nobody says whether it matters which way round", entry.name))
            .label("no faces, no side")
            .fix("write faces: either; or what one of its sides looks at: faces: {boss: …}")
            .about(format!("{}.faces", entry.id)),
    )
}

/// Words for what can't be seen in a bearing's size, in lower case.
const HIDDEN: [&str; 16] =
    ["c1", "c2", "c3", "c4", "c5", "cn", "shield", "shields", "shielded", "sealed", "open", "full complement", "steel cage", "brass cage", "snap ring", "2rs"];

fn look_alikes(procedure: &Procedure, fitted: &[(&ThingRef, &Entry<Bearing>, &Act)], findings: &mut Vec<Finding>) {
    // One alone looks like nothing else: most procedures need not be read.
    if fitted.len() < 2 {
        return;
    }
    let marked = procedure.steps.iter().any(|step| {
        let marks = ["mark", "marked", "tag", "tagged", "label", "labelled", "labels", "bag", "bags", "apart", "mix up", "mixed up", "told apart"];
        Words::of(&words_of(step)).first(&marks).is_some()
    });
    if marked {
        return;
    }
    for (at, (_, one, _)) in fitted.iter().enumerate() {
        for (_, other, act) in fitted.iter().skip(at + 1) {
            let (Some(size), Some(same)) = (one.what.size.first(), other.what.size.first()) else { continue };
            let equal = size.millimetres() == same.millimetres() && one.only.agrees_with(&other.only);
            let Some(how) = differ(one, other).filter(|_| equal) else { continue };
            findings.push(
                Finding::new(&LOOK_ALIKE_BEARINGS, other.id_place.clone(), format!("{} and {} look the same and are not", one.name, other.name))
                    .label("of one size")
                    .related(one.id_place.clone(), "the other one")
                    .related(act.place.clone(), "goes in here")
                    .figure(how)
                    .fix("say in a step that their bags are marked before either is opened")
                    .about(other.id.clone()),
            );
        }
    }
}

/// In what two bearings of one size differ.
fn differ(one: &Entry<Bearing>, other: &Entry<Bearing>) -> Option<String> {
    if let (Some(number), Some(second)) = (one.what.number.first(), other.what.number.first()) {
        return (number != second).then(|| format!("numbers {number} and {second}"));
    }
    let hidden = |entry: &Entry<Bearing>| -> BTreeSet<&str> {
        let said = format!("{} {}", entry.name, entry.note.as_deref().unwrap_or(""));
        let words = Words::of(&said);
        HIDDEN.into_iter().filter(|word| words.first(&[word]).is_some()).collect()
    };
    let (one, other) = (hidden(one), hidden(other));
    let word = one.symmetric_difference(&other).next()?;
    let word = if word.len() == 2 { word.to_uppercase() } else { (*word).to_owned() };
    Some(format!("‘{word}’ is said of one of them alone"))
}
