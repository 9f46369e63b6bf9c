//! Shafts that words turn to a mark, without a word on which way.

use super::sentences::{Passage, Sentence};
use super::sides::words_of;
use super::spoken::is_filler;
use super::turning::ROTATION_SENSE_MISSING;
use super::words::Words;
use super::{Context, every};
use crate::finding::Finding;
use crate::manual::{Act, Step, Verb};
use std::ops::Range;

/// What an engine is turned by: the way matters to its belt, its pump and its starter.
const SHAFTS: [&str; 5] = ["crank", "crankshaft", "camshaft", "flywheel", "engine"];
/// What it is turned to.
const MARKS: [&str; 8] = ["mark", "marks", "notch", "notches", "tdc", "bdc", "pointer", "dead"];
/// Words that tell the way, or that it does not matter, or that the reader finds it.
const WAYS: [&str; 25] = [
    "clockwise", "anticlockwise", "counterclockwise", "counter-clockwise", "anti-clockwise", "backwards", "forwards", "direction", "either way", "way it runs", "running way",
    "way round", "back and forth", "to and fro", "whichever", "which way", "to the right", "to the left", "rotation", "forward", "ccw", "cw", "arrow", "starter", "rope",
];
/// Words that make a sentence no plain order.
const UNSURE: [&str; 15] = ["not", "never", "no", "don't", "don’t", "without", "if", "unless", "until", "instead", "cannot", "can't", "can’t", "avoid", "nobody"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, _) in every::procedures(context.manual) {
        for step in procedure.steps.iter().filter(|step| !is_told(step)) {
            let said = words_of(step);
            let folded = said.to_ascii_lowercase();
            // Few steps turn anything: the others are not read.
            if !(folded.contains("turn ") || folded.contains("rotate ")) || Words::of(&said).first(&WAYS).is_some() {
                continue;
            }
            let found = Passage::all(step).iter().find_map(|passage| passage.sentences().iter().find_map(to_a_mark));
            findings.extend(found.map(|finding| finding.about(format!("{}#{}", procedure.id, step.id))));
        }
    }
}

/// Whether a step turns something by an act, which has its own sense, or has one that is not understood.
fn is_told(step: &Step) -> bool {
    step.acts.iter().any(|act| matches!(act.verb, None | Some(Verb::Turn)) || Act::is_unresolved(act))
}

fn to_a_mark(sentence: &Sentence<'_, '_>) -> Option<Finding> {
    let verb = (0..sentence.count()).find(|at| matches!(sentence.word(*at), "turn" | "rotate") && begins(sentence, *at))?;
    let end = (verb + 1..sentence.count()).find(|at| sentence.parts_before(*at)).unwrap_or_else(|| sentence.count());
    let shaft = (verb + 1..end).find(|at| !is_filler(sentence.word(*at)) && sentence.word(*at) != "over")?;
    // An engine is turned on its stand, too.
    let on_a_stand = sentence.word(shaft) == "engine" && !(verb..shaft + 2).any(|at| sentence.word(at) == "over");
    if !SHAFTS.contains(&sentence.word(shaft)) || on_a_stand || is_part_of_a_name(sentence, shaft, end) || sentence.leads_elsewhere() {
        return None;
    }
    let to = (shaft + 1..end).find(|at| matches!(sentence.word(*at), "to" | "until" | "till"))?;
    let denied = (0..sentence.count()).any(|at| at != to && UNSURE.contains(&sentence.word(at)));
    let mark = (to + 1..end).find(|at| MARKS.contains(&sentence.word(*at)))?;
    let named = usize::from(matches!(sentence.word(mark + 1), "centre" | "center"));
    let words: Range<usize> = verb..mark + 1 + named;
    let place = sentence.place(&words).filter(|_| !denied)?;
    Some(
        Finding::new(&ROTATION_SENSE_MISSING, place, format!("‘{}’: nobody says which way, seen from where", sentence.text(&words)))
            .label("which way?")
            .fix("list it under turns: with sense: and viewed_from:, and write the act [Turn the crank](turn:ID); or say clockwise or anticlockwise, seen from which end"),
    )
}

/// Whether an order begins at a word.
fn begins(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    sentence.parts_before(at) || matches!(sentence.word(at - 1), "and" | "then" | "now" | "slowly" | "first" | "next")
}

/// A flywheel nut is no flywheel.
fn is_part_of_a_name(sentence: &Sentence<'_, '_>, at: usize, end: usize) -> bool {
    let next = sentence.word(at + 1);
    at + 1 < end && !matches!(next, "to" | "until" | "till" | "over" | "by" | "with" | "slowly" | "round" | "once" | "a" | "on" | "back" | "gently" | "carefully" | "again")
}
