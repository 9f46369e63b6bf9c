//! Words of an act against its list: a left-hand thread where the list has a right-hand one.

use super::against_list::{Job, WORDS_AGAINST_LIST};
use super::sentences::{Passage, Sentence};
use super::spoken::{Named, singular};
use super::wrong_way::OTHERS;
use crate::finding::Finding;
use crate::manual::{Act, Entry, Fastener, ListKind, Scope, Step, ThingRef, Verb};
use std::collections::BTreeSet;
use std::ops::Range;

/// A fastener that the list gives a right-hand thread, in every variant.
fn right_hand<'a>(scope: Scope<'a>, thing: &ThingRef) -> Option<&'a Entry<Fastener>> {
    let entry = scope.thing(|lists| &lists.fasteners, thing).filter(|_| thing.kind == ListKind::Fasteners)?;
    let cases = &entry.what.thread.cases;
    (!cases.is_empty() && cases.iter().all(|case| !case.value.left_hand)).then_some(entry)
}

fn is_turning(verb: Option<Verb>) -> bool {
    matches!(verb, Some(Verb::Fit | Verb::Start | Verb::Torque | Verb::Loosen | Verb::Remove))
}

/// `tighten it anticlockwise`, in the words of the act that tightens it.
pub(super) fn check(job: &Job<'_, '_, '_>) -> Option<Finding> {
    let thing = job.act.thing().filter(|_| job.act.verb == Some(Verb::Torque))?;
    let entry = right_hand(job.scope, thing)?;
    let sentence = job.sentence;
    let has = |words: &[&str]| job.words.clone().any(|at| words.contains(&sentence.word(at)));
    let way = job.words.clone().find_map(|at| match (sentence.word(at), sentence.word(at + 1)) {
        ("anticlockwise" | "counterclockwise", _) => Some(at..at + 1),
        ("anti" | "counter", "clockwise") => Some(at..at + 2),
        _ => None,
    })?;
    // ‘Tighten it, then a quarter turn anticlockwise’ backs it off again, and what is seen from behind turns the other way.
    let turned_back = has(&["then", "back", "off", "turn", "turns", "until", "till", "loosen", "slacken", "not", "never"]) || (way.len() == 1 && has(&["clockwise"]));
    let seen = sentence.has(&["seen", "viewed", "looking"]) || has(&["from"]);
    // The nut of a crank's sprocket is not the crank.
    let named = Named::of(&entry.id, &entry.name)?;
    let called = |at: usize| (at..sentence.count()).take_while(|at| named.words.contains(singular(sentence.word(*at)))).any(|at| singular(sentence.word(at)) == named.noun);
    let other_turns = job.words.clone().any(|at| OTHERS.contains(&singular(sentence.word(at))) && !called(at));
    let tightens = job.words.clone().take_while(|at| *at < way.start).any(|at| matches!(sentence.word(at), "tighten" | "torque"));
    if turned_back || seen || other_turns || !tightens || sentence.denies_before(way.start) {
        return None;
    }
    against(sentence, &way, entry)
}

/// Words of a step that call the thread left-hand, where the step turns one fastener alone.
pub(super) fn in_text(scope: Scope<'_>, step: &Step, passages: &[Passage<'_>]) -> Option<Finding> {
    let turned: BTreeSet<&ThingRef> = step.acts.iter().filter(|act| is_turning(act.verb)).filter_map(Act::thing).filter(|thing| thing.kind == ListKind::Fasteners).collect();
    let thing = turned.first().filter(|_| turned.len() == 1 && step.acts.iter().all(|act| act.verb.is_some()))?;
    let entry = right_hand(scope, thing)?;
    let named = Named::of(&entry.id, &entry.name)?;
    passages.iter().flat_map(Passage::sentences).find_map(|sentence| {
        let unsure = sentence.has(&["not", "never", "no", "don't", "don’t", "if", "unless", "instead", "unlike", "usually", "other", "others", "some"]);
        if unsure || sentence.answers || sentence.leads_elsewhere() {
            return None;
        }
        let own: Vec<Range<usize>> = sentence.acts().into_iter().filter(|(act, _)| act.thing() == Some(*thing)).map(|(_, words)| words).collect();
        let words = (0..sentence.count()).find_map(|at| said_at(&sentence, &named, &own, at))?;
        against(&sentence, &words, entry)
    })
}

/// `left-hand thread` in the words of an act on the fastener or before a colon, `the nut is left-hand`, `its thread is
/// left-hand`; a left-hand bolt may be the one on the left.
fn said_at(sentence: &Sentence<'_, '_>, named: &Named, own: &[Range<usize>], at: usize) -> Option<Range<usize>> {
    if (sentence.word(at), sentence.word(at + 1)) != ("left", "hand") {
        return None;
    }
    let is_last = |at: usize| at >= sentence.count() || sentence.parts_before(at);
    let of_thread = matches!(sentence.word(at + 2), "thread" | "threads") && (own.iter().any(|words| words.contains(&at)) || (at == 0 && is_last(3)));
    let called = || {
        let is = at.checked_sub(1).filter(|is| is_last(at + 2) && matches!(sentence.word(*is), "is" | "are"))?;
        let start = (0..is).rev().find(|at| sentence.parts_before(*at))?;
        let thread = matches!(sentence.word(start), "the" | "its" | "this") && sentence.word(start + 1) == "thread" && start + 2 == is;
        (thread || named.is_meant_by(sentence, &(start..is))).then_some(())
    };
    (of_thread || called().is_some()).then_some(at..at + 2)
}

fn against(sentence: &Sentence<'_, '_>, words: &Range<usize>, entry: &Entry<Fastener>) -> Option<Finding> {
    let case = entry.what.thread.cases.first()?;
    Some(
        Finding::new(&WORDS_AGAINST_LIST, sentence.place(words)?, format!("‘{}’, and {} has a right-hand thread in its list", sentence.text(words), entry.name))
            .label("a left-hand thread here")
            .related(case.place.clone(), "the thread in the list")
            .fix(format!("look at the thread, then mend the words, or write left-hand behind the thread of {}", entry.id))
            .about(format!("{}.thread", entry.id)),
    )
}
