//! Looks that nobody can fail: ‘check the plates for wear’, and no reading, no test, no condition.

use super::measures::MEASUREMENT_WITHOUT_SPEC;
use super::sentences::{Passage, Sentence};
use super::sides::words_of;
use super::spoken::Named;
use super::{Context, every};
use crate::finding::Finding;
use crate::manual::{Act, ListKind, Lists, Scope, Step, Verb};
use std::ops::Range;

const LOOKS: [&str; 4] = ["check", "inspect", "examine", "look"];
/// What can be read with an instrument.
const WEAR: [&str; 16] = [
    "wear", "play", "slack", "wobble", "looseness", "stretch", "runout", "distortion", "warping", "flatness", "straightness", "float", "clearance", "backlash", "scoring",
    "pitting",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, scope) in every::procedures(context.manual) {
        for step in procedure.steps.iter().filter(|step| !is_decided(step)) {
            // Few steps speak of a look: the others are not read.
            let said = words_of(step).to_ascii_lowercase();
            if !LOOKS.iter().any(|look| said.contains(look)) {
                continue;
            }
            for passage in Passage::all(step) {
                let found = passage.sentences().iter().find_map(|sentence| found(scope, sentence));
                findings.extend(found.map(|finding| finding.about(format!("{}#{}", procedure.id, step.id))));
            }
        }
    }
}

/// Whether a step has an act that decides: a reading, a test, an inspection on return; or one that is not understood.
fn is_decided(step: &Step) -> bool {
    step.acts.iter().any(|act| matches!(act.verb, None | Some(Verb::Measure | Verb::Test | Verb::Receive)) || Act::is_unresolved(act))
}

fn found(scope: Scope<'_>, sentence: &Sentence<'_, '_>) -> Option<Finding> {
    if sentence.leads_elsewhere() || sentence.has(&["not", "never", "don't", "don’t", "if", "unless", "until", "limit"]) {
        return None;
    }
    let opens = |at: &usize| LOOKS.contains(&sentence.word(*at)) && (sentence.parts_before(*at) || matches!(sentence.word(*at - 1), "and" | "then"));
    let verb = (0..sentence.count()).find(opens)?;
    let target = (verb + 2..(verb + 10).min(sentence.count())).take_while(|at| !sentence.parts_before(*at)).find(|at| sentence.word(*at) == "for")?;
    let last = (target + 1..(target + 4).min(sentence.count())).find(|at| WEAR.contains(&sentence.word(*at)))?;
    let from = verb + 1 + usize::from(matches!(sentence.word(verb + 1), "over" | "at"));
    if has_condition(scope, sentence, &(from..target)) {
        return None;
    }
    let (said, what) = (sentence.text(&(verb..last + 1)), sentence.word(last));
    Some(
        Finding::new(&MEASUREMENT_WITHOUT_SPEC, sentence.place(&(verb..last + 1))?, format!("‘{said}’ is a look, and nothing says how much {what} is too much"))
            .label("held against nothing")
            .fix("write the reading and its end: measures: {ID: {limit: …, with: …, otherwise: …}} and [read it](measure:ID); or the condition of the part: reuse: inspect, when: …"),
    )
}

/// Whether what is looked at says on what condition it is used again.
fn has_condition(scope: Scope<'_>, sentence: &Sentence<'_, '_>, object: &Range<usize>) -> bool {
    scope.homes().any(|(_, lists)| {
        ListKind::THINGS.iter().flat_map(|kind| lists.heads(*kind).into_iter().map(|head| (*kind, head))).any(|(kind, head)| {
            Named::of(head.id, head.name).is_some_and(|named| named.is_meant_by(sentence, object)) && condition(lists, kind, head.id)
        })
    })
}

fn condition(lists: &Lists, kind: ListKind, id: &str) -> bool {
    match kind {
        ListKind::Fasteners => lists.fasteners.get(id).is_some_and(|entry| entry.what.when.is_given()),
        ListKind::Seals => lists.seals.get(id).is_some_and(|entry| entry.what.when.is_given()),
        ListKind::Bearings => lists.bearings.get(id).is_some_and(|entry| entry.what.when.is_given()),
        ListKind::Parts => lists.parts.get(id).is_some_and(|entry| entry.what.when.is_given()),
        _ => false,
    }
}
