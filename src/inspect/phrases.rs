//! Phrases that leave the reader alone: promises, colours, steps that only point at a film.

use super::mentions::{is_no_promise, nearby_behind};
use super::prose::{Run, runs};
use super::sides::words_of;
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{ListKind, Lists, Procedure, Scope, Step, Verb};
use crate::source::{Inline, each_inline};
use std::ops::Range;

/// Something is promised and not written down as open.
pub(super) static PROMISE_PHRASE: Rule = Rule {
    name: "promise-phrase",
    severity: Severity::Warning,
    summary: "Something is put off in words, and no open item keeps it.",
    explanation: Explanation {
        finds: "Phrases that put work off (for now, for the time being, another day, later at the end of a clause) in steps with no link to where it is done, of procedures without an open item (leaves_open:) about a thing of that step.",
        matters: "What is put off in words is put off for ever.",
        may_be_wrong: "Where nothing is left undone: say it without ‘later’. ‘Later serials’, ‘an hour later’ and ‘not even for now’ are silent.",
        example: "Leave the other one for now.",
        instead: "leaves_open: {other-bolt: {left: hand-tight, because: …, finish_in: close-gearcase#bolts}}",
    },
};

/// A locker goes by its colour.
pub(super) static LOCKER_BY_COLOUR_OR_NAME: Rule = Rule {
    name: "locker-by-colour-or-name",
    severity: Severity::Warning,
    summary: "A thread locker goes by its colour.",
    explanation: Explanation {
        finds: "A colour before the word locker (or retaining compound) in the text, in an act's words and in a material's name; and ‘the green one’ in a step that puts a locker on. An error where a drive fastener or shaft nut is in the step.",
        matters: "The same colour is low strength with one maker and high with the next.",
        may_be_wrong: "Never: say the strength; keep the product in note:.",
        example: "Put a drop of blue locker on it.",
        instead: "[Put locker on its thread](apply:medium-locker@impeller-nut)",
    },
};

/// A step says nothing.
pub(super) static STEP_WITHOUT_INSTRUCTION: Rule = Rule {
    name: "step-without-instruction",
    severity: Severity::Warning,
    summary: "A step has no act and says nothing, or only points at the film.",
    explanation: Explanation {
        finds: "Steps without an act whose text has fewer than three words, or is no more than a sentence that sends the reader to a video.",
        matters: "A printed sheet can't be watched.",
        may_be_wrong: "Where the heading says it all: write it once more as an act, so that it can be ticked.",
        example: "## Fit the ring {#ring}\n\nSee the video.",
        instead: "## Fit the ring {#ring}\n\n[Seat the ring in its groove](fit:snap-ring).",
    },
};

pub(crate) const PUTTING_OFF: [&str; 24] = [
    "for now", "for the moment", "for the time being", "next time", "another day", "another time", "some other time", "some other day", "at a later date", "later on",
    "in due course", "until later", "till later", "do that later", "do it later", "do this later", "goes in later", "go in later", "comes later", "come back to",
    "leave it for later", "leave that for later", "finish it later", "get to that later",
];
/// Words before `later` that make it a time: an hour later.
const TIMES: [&str; 14] =
    ["hour", "hours", "minute", "minutes", "day", "days", "week", "weeks", "month", "months", "year", "no", "not", "or"];
const COLOURS: [&str; 10] = ["red", "blue", "green", "purple", "orange", "yellow", "pink", "violet", "white", "black"];
const LOCKERS: [&str; 5] = ["locker", "lock", "locking", "compound", "adhesive"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        named_by_colour(lists, findings);
    }
    for (_, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            let about = format!("{}#{}", procedure.id, step.id);
            let runs = runs(&step.blocks);
            let said: Vec<Said<'_>> = runs.iter().map(|run| (run, Words::of(run.text()))).collect();
            findings.extend(promise(procedure, step, &said).map(|finding| finding.about(about.clone())));
            findings.extend(colour(scope, step, &said).map(|finding| finding.about(about.clone())));
            findings.extend(empty(step).map(|finding| finding.about(about.clone())));
        }
    }
}

/// A running text of a step, and its words.
type Said<'a> = (&'a Run<'a>, Words<'a>);

fn promise(procedure: &Procedure, step: &Step, said: &[Said<'_>]) -> Option<Finding> {
    let mut linked = false;
    each_inline(&step.blocks, &mut |inline| linked |= matches!(inline, Inline::See(..)));
    let open = procedure.lists.leaves_open.values().any(|item| {
        let of = item.what.of.as_ref().map_or(item.id.as_str(), |of| of.value.as_str());
        step.acts.iter().any(|act| act.things.iter().any(|thing| thing.id == of)) || names(step, of) || names(step, &item.id)
    });
    if linked || open || procedure.lists.holes.contains(&ListKind::LeavesOpen) {
        return None;
    }
    said.iter().find_map(|(run, words)| {
        let mut found = words.every(&PUTTING_OFF).into_iter();
        let hit = found.find(|hit| !is_no_promise(words, hit)).or_else(|| bare_later(words).filter(|hit| !is_no_promise(words, hit)))?;
        Some(
            Finding::new(&PROMISE_PHRASE, run.place(hit.start, hit.end)?, format!("‘{}’ puts something off, and no open item keeps it", words.text(&hit)))
                .label("until when?")
                .fix("write it under leaves_open: with finish_in: PROCEDURE#STEP, or link the step that does it"),
        )
    })
}

/// Whether a step speaks of a thing by the words of its id.
fn names(step: &Step, id: &str) -> bool {
    let said = words_of(step);
    let words = Words::of(&said);
    id.rsplit('-').next().is_some_and(|last| words.first(&[last]).is_some())
}

/// `later` at the end of a clause, with no time before it.
fn bare_later(words: &Words<'_>) -> Option<Range<usize>> {
    words.every(&["later"]).into_iter().find(|hit| {
        let ends = words.behind(hit).trim_start().chars().next().is_none_or(|sign| matches!(sign, '.' | ',' | ';' | ':' | '!' | ')'));
        // Only the word before it is read: a text may say `later` ten thousand times.
        let before = words.text(&(0..hit.start)).trim_end();
        let last = before.rsplit(|sign: char| !sign.is_alphanumeric() && !matches!(sign, '-' | '\'' | '’')).next().unwrap_or("");
        ends && !TIMES.iter().any(|time| last.eq_ignore_ascii_case(time))
    })
}

fn named_by_colour(lists: &Lists, findings: &mut Vec<Finding>) {
    for entry in lists.materials.values().filter(|entry| matches!(entry.what.kind.as_deref(), Some("thread-locker" | "retaining-compound"))) {
        let words = Words::of(&entry.name);
        let Some(hit) = words.first(&COLOURS) else { continue };
        // A colour in the place of the strength is told where the strength is looked at.
        let graded = entry.what.strength.as_ref().is_some_and(|strength| matches!(strength.value.as_str(), "low" | "medium" | "high" | "wicking"));
        if graded {
            findings.push(coloured(entry.id_place.clone(), words.text(&hit)).about(entry.id.clone()));
        }
    }
}

fn coloured(place: Place, colour: &str) -> Finding {
    Finding::new(&LOCKER_BY_COLOUR_OR_NAME, place, format!("‘{colour}’ is no strength of a thread locker"))
        .label("which strength?")
        .fix("say low, medium or high strength; a colour or product goes in note:")
}

fn colour(scope: Scope<'_>, step: &Step, said: &[Said<'_>]) -> Option<Finding> {
    let applies = step.acts.iter().any(|act| {
        let kind = act.material.as_ref().and_then(|material| scope.thing(|lists| &lists.materials, material)).and_then(|material| material.what.kind.as_deref());
        act.verb == Some(Verb::Apply) && matches!(kind, Some("thread-locker" | "retaining-compound"))
    });
    let in_text = said.iter().find_map(|(run, words)| {
        let hit = by_colour(words, applies)?;
        Some(coloured(run.place(hit.start, hit.end)?, words.text(&hit)))
    });
    let finding = in_text.or_else(|| {
        step.acts.iter().find_map(|act| {
            let words = Words::of(&act.words);
            by_colour(&words, applies).map(|hit| coloured(act.place.clone(), words.text(&hit)))
        })
    })?;
    let heavy = step.acts.iter().filter_map(|act| act.thing()).any(|thing| {
        let role = scope.thing(|lists| &lists.fasteners, thing).filter(|_| thing.kind == ListKind::Fasteners).and_then(|entry| entry.what.role.first());
        role.is_some_and(|role| matches!(role.as_str(), "drive" | "shaft-nut"))
    });
    Some(if heavy { finding.severity(Severity::Error) } else { finding })
}

/// A colour just before a word for a locker, where only what stands near it is read; or ‘the green one’, where a locker is put on.
fn by_colour(words: &Words<'_>, applies: bool) -> Option<Range<usize>> {
    words.every(&COLOURS).into_iter().find(|hit| {
        let behind = nearby_behind(words, hit);
        let next = Words::of(behind);
        let first = |known: &[&str], within: usize| next.first(known).is_some_and(|found| Words::of(behind.get(..found.start).unwrap_or("")).count() <= within);
        let clause = behind.split(['.', ',', ';', ':']).next().unwrap_or("");
        let locks = first(&["locker", "threadlocker", "threadlock"], 2) || (first(&["thread", "retaining"], 0) && Words::of(clause).first(&LOCKERS).is_some());
        (locks && !clause.is_empty()) || (applies && first(&["one", "stuff"], 0))
    })
}

fn empty(step: &Step) -> Option<Finding> {
    if !step.acts.is_empty() {
        return None;
    }
    let (mut words, mut film, mut shows) = (0, false, false);
    for run in runs(&step.blocks) {
        let said = Words::of(run.text());
        words += said.count();
        film |= said.first(&["video", "film", "recording", "watch", "clip"]).is_some();
    }
    each_inline(&step.blocks, &mut |inline| shows |= matches!(inline, Inline::Picture(_) | Inline::Code(..)));
    let has_code = step.blocks.iter().any(|block| matches!(block, crate::source::Block::Code(..)));
    let silent = (words < 3 && !shows && !has_code) || (film && words <= 8);
    silent.then(|| {
        let message = if film { format!("step {} only points at the film", step.number) } else { format!("step {} says nothing", step.number) };
        Finding::new(&STEP_WITHOUT_INSTRUCTION, step.place.clone(), message)
            .label("what is to be done?")
            .fix("write what is done, as acts: [Seat the ring in its groove](fit:snap-ring)")
    })
}
