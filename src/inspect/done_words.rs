//! ‘The gearcase is done’, written in a procedure that leaves something open.

use super::barriers::FINISHED_WITH_OPEN_ITEMS;
use super::sentences::{Passage, Sentence, words_of as spans_of};
use super::sides::words_of;
use super::spoken::singular;
use super::walk::{OpenSpan, Walk, in_every};
use super::Context;
use crate::finding::{Finding, Severity};
use crate::manual::{Procedure, Step};
use std::collections::BTreeSet;
use std::ops::Range;

/// How a sentence ends that says nothing is left.
const ENDS: [&str; 5] = ["done", "finished", "complete", "completed", "ready"];
/// What is finished as a whole.
const WHOLES: [&str; 15] = [
    "work", "job", "build", "rebuild", "overhaul", "assembly", "machine", "motor", "engine", "unit", "gearcase", "gearbox", "crankcase", "powerhead", "transmission",
];
/// Words that take it back.
const BUT: [&str; 19] = [
    "not", "never", "no", "nearly", "almost", "until", "when", "once", "if", "before", "after", "but", "except", "only", "half", "unless", "because", "far", "today",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        // The open items of a procedure stand together.
        for of_procedure in walk.open.chunk_by(|one, other| std::ptr::eq(one.procedure, other.procedure)) {
            let open: Vec<&OpenSpan<'_>> = of_procedure.iter().filter(|span| stays_open(walk, span)).collect();
            let Some(procedure) = open.first().map(|span| span.procedure) else { continue };
            let wholes = wholes(procedure);
            for step in procedure.steps.iter().filter(|step| walk.combination.satisfies(&step.only)) {
                let said = words_of(step).to_ascii_lowercase();
                if !ENDS.iter().any(|end| said.contains(end)) {
                    continue;
                }
                let passages = Passage::all(step);
                let mut sentences = passages.iter().flat_map(Passage::sentences);
                findings.extend(sentences.find_map(|sentence| said_done(walk, procedure, step, &sentence, &wholes, &open)));
            }
        }
    });
}

/// Whether no step of the procedure that leaves an item open finishes it.
fn stays_open(walk: &Walk<'_>, span: &OpenSpan<'_>) -> bool {
    let closes_here = span.closed.and_then(|closed| walk.moments.get(closed)).is_some_and(|moment| std::ptr::eq(moment.procedure, span.procedure));
    !closes_here
}

/// What a procedure would call finished: the whole, and what its title names.
fn wholes(procedure: &Procedure) -> BTreeSet<String> {
    let title = procedure.title.to_lowercase();
    let noun = spans_of(&title).into_iter().next_back().and_then(|span| title.get(span)).map(|word| singular(word).to_owned());
    WHOLES.iter().map(|word| (*word).to_owned()).chain(noun).collect()
}

/// `The gearcase is done`, and nothing beside it.
fn said_done(walk: &Walk<'_>, procedure: &Procedure, step: &Step, sentence: &Sentence<'_, '_>, wholes: &BTreeSet<String>, open: &[&OpenSpan<'_>]) -> Option<Finding> {
    let last = sentence.count().checked_sub(1).filter(|last| (2..=7).contains(last))?;
    let begins = matches!(sentence.word(0), "the" | "this" | "that" | "your");
    let noun = (1..last).find(|at| matches!(sentence.word(*at), "is" | "are")).filter(|is| *is > 1)? - 1;
    // `The overhaul of the engine` is all of it, `the oil of the engine` is not.
    let head = (2..noun).find(|at| matches!(sentence.word(*at), "of" | "for" | "in" | "on" | "from" | "to" | "at" | "with" | "inside")).map_or(noun, |at| at - 1);
    let says = begins && wholes.contains(singular(sentence.word(head))) && ENDS.contains(&sentence.word(last)) && wholes.contains(singular(sentence.word(noun)));
    if !says || sentence.has(&BUT) || sentence.leads_elsewhere() || !sentence.acts().is_empty() {
        return None;
    }
    let words: Range<usize> = 0..last + 1;
    // What is opened in a later step of the same procedure is not open yet.
    let left: Vec<&&OpenSpan<'_>> = open.iter().filter(|span| walk.moments.get(span.opened).is_some_and(|moment| moment.step.number <= step.number)).collect();
    let first = left.first()?;
    let figures = left
        .iter()
        .map(|span| format!("‘{}’ is {}{}", span.item.id, span.left(), span.item.what.finish_in.as_ref().map_or_else(String::new, |at| format!(" until {}", at.value))))
        .collect::<Vec<String>>();
    Some(
        Finding::new(&FINISHED_WITH_OPEN_ITEMS, sentence.place(&words)?, format!("‘{}’, and this procedure leaves something open", sentence.text(&words)))
            .severity(Severity::Warning)
            .label("not all of it")
            .related(first.item.id_place.clone(), "left open")
            .figures(figures)
            .fix("say what is finished and what stays open; or finish it here, and take it out of leaves_open:")
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}
