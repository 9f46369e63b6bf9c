//! A left-hand thread that a step turns the wrong way in so many words.

use super::sentences::{Passage, Sentence};
use super::sides::{LEFT_HAND_UNMARKED, words_of};
use super::spoken::{Named, singular};
use crate::finding::Finding;
use crate::manual::{Act, ListKind, Procedure, Scope, Step, ThingRef, Verb};
use std::ops::Range;

const TIGHTENS: [&str; 5] = ["tighten", "tightens", "tightening", "tight", "torque"];
/// What else a sentence may turn, or read the way of.
pub(super) const OTHERS: [&str; 30] = [
    "shaft", "pointer", "crank", "crankshaft", "holder", "handle", "needle", "dial", "wheel", "flywheel", "rotor", "disc", "drum", "pulley", "gear", "hub", "blade",
    "propeller", "spindle", "axle", "lever", "arm", "bar", "knob", "key", "spanner", "wrench", "motor", "engine", "housing",
];
const SLACKENS: [&str; 12] = ["slacken", "slackens", "slackening", "loosen", "loosens", "loosening", "undo", "undoes", "undoing", "remove", "off", "out"];

/// A sentence of a step that tightens this left-hand fastener clockwise, or slackens it anticlockwise.
pub(super) fn find(scope: Scope<'_>, procedure: &Procedure, step: &Step, thing: &ThingRef) -> Option<Finding> {
    let entry = scope.thing(|lists| &lists.fasteners, thing)?;
    let left: Vec<_> = entry.what.thread.cases.iter().filter(|case| case.value.left_hand).collect();
    // Where one variant's thread is right-handed, the words may be for that.
    let thread = left.first().filter(|_| left.len() == entry.what.thread.cases.len())?;
    if !words_of(step).to_lowercase().contains("clockwise") {
        return None;
    }
    let named = Named::of(&entry.id, &entry.name)?;
    let passages = Passage::all(step);
    let (words, place, tightens) = passages.iter().flat_map(Passage::sentences).find_map(|sentence| {
        let ways = turned(&sentence, thing);
        let does = does(scope, step, &sentence, thing).filter(|_| !ways.is_empty())?;
        let (words, _) = ways.into_iter().find(|(words, tightens)| *tightens == does && !names_another(&sentence, words, thing, &named.noun))?;
        Some((sentence.text(&words).to_lowercase(), sentence.place(&words)?, does))
    })?;
    let (does, way) = if tightens { ("tightened", "anticlockwise") } else { ("slackened", "clockwise") };
    Some(
        Finding::new(&LEFT_HAND_UNMARKED, place, format!("{} has a left-hand thread, and is {does} {words} here", entry.name))
            .label("the wrong way")
            .related(thread.place.clone(), "left-hand")
            .fix(format!("a left-hand thread is {does} {way}: say so; where something else turns this way, name it"))
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

/// Whether a sentence names something else that may be what turns so: a shaft, and not the shaft nut. Where the way stands in
/// the words of an act on the fastener, only those words can name it.
fn names_another(sentence: &Sentence<'_, '_>, way: &Range<usize>, thing: &ThingRef, noun: &str) -> bool {
    let own = own_words(sentence, thing).into_iter().find(|words| words.start <= way.start && way.end <= words.end);
    own.unwrap_or(0..sentence.count()).any(|at| OTHERS.contains(&singular(sentence.word(at))) && singular(sentence.word(at + 1)) != noun && singular(sentence.word(at)) != noun)
}

/// The words of a sentence's acts on a fastener.
fn own_words(sentence: &Sentence<'_, '_>, thing: &ThingRef) -> Vec<Range<usize>> {
    sentence.acts().into_iter().filter(|(act, _)| act.thing() == Some(thing)).map(|(_, words)| words).collect()
}

/// The ways of turning that are the fastener's beyond doubt, each with whether it is the one that tightens a usual thread: one that
/// stands alone in its sentence, or in the words of an act on the fastener where the sentence knows no other way; or where
/// each of several stands in the words of an act of its own on the fastener.
fn turned(sentence: &Sentence<'_, '_>, thing: &ThingRef) -> Vec<(Range<usize>, bool)> {
    let mut found: Vec<(Range<usize>, bool)> = Vec::new();
    for at in 0..sentence.count() {
        let before = at.checked_sub(1).map_or("", |before| sentence.word(before));
        match sentence.word(at) {
            "clockwise" if matches!(before, "anti" | "counter") => found.push((at - 1..at + 1, false)),
            "clockwise" => found.push((at..at + 1, true)),
            "anticlockwise" | "counterclockwise" => found.push((at..at + 1, false)),
            _ => {}
        }
    }
    let own = own_words(sentence, thing);
    let ways_in = |own: &Range<usize>| found.iter().filter(|(words, _)| own.contains(&words.start)).count();
    let is_own = |words: &Range<usize>| own.iter().any(|own| own.contains(&words.start) && ways_in(own) == 1);
    let one_way = found.iter().all(|(_, way)| found.first().is_some_and(|(_, first)| first == way));
    if !one_way && !found.iter().all(|(words, _)| is_own(words)) {
        return Vec::new();
    }
    let is_alone = found.len() == 1;
    found.retain(|(words, _)| is_alone || own.iter().any(|own| own.contains(&words.start)));
    // What runs clockwise is a shaft; what must not be turned so is no order.
    let seen = sentence.has(&["seen", "viewed", "looking", "from", "not", "never", "instead", "unlike", "usual", "usually"]);
    found.retain(|(words, _)| {
        let before = words.start.checked_sub(1).map_or("", |before| sentence.word(before));
        let other = matches!(before, "turns" | "runs" | "rotates" | "spins" | "turning" | "running" | "rotating" | "not" | "never" | "nor" | "of" | "than");
        !other && !seen
    });
    found
}

/// Whether a sentence tightens the fastener (or slackens it: false); none where it does neither, or both, or where nobody
/// can tell what is turned.
fn does(scope: Scope<'_>, step: &Step, sentence: &Sentence<'_, '_>, thing: &ThingRef) -> Option<bool> {
    let acts = sentence.acts();
    let on_other = |act: &Act| act.verb.is_some_and(Verb::ticks) && act.thing().is_some_and(|other| other != thing && other.kind != ListKind::Waits);
    let on_it = acts.iter().any(|(act, _)| act.thing() == Some(thing));
    if acts.iter().any(|(act, _)| on_other(act)) || (!on_it && others_turned(scope, step, thing)) {
        return None;
    }
    let by_act = |verbs: &[Verb]| acts.iter().any(|(act, _)| act.thing() == Some(thing) && act.verb.is_some_and(|verb| verbs.contains(&verb)));
    let tightens = by_act(&[Verb::Torque, Verb::Start, Verb::Fit]) || sentence.has(&TIGHTENS);
    let slackens = by_act(&[Verb::Loosen, Verb::Remove]) || sentence.has(&SLACKENS);
    match (tightens, slackens) {
        (true, false) => Some(true),
        (false, true) => Some(false),
        // ‘Turn it clockwise’ is what the step does, where it does one of the two.
        (false, false) if acts.is_empty() && sentence.has(&["it", "nut", "bolt", "screw", "plug"]) => {
            let verbs: Vec<Verb> = step.acts.iter().filter(|act| act.thing() == Some(thing)).filter_map(|act| act.verb).collect();
            let tightened = verbs.iter().any(|verb| matches!(verb, Verb::Torque | Verb::Start | Verb::Fit));
            let slackened = verbs.iter().any(|verb| matches!(verb, Verb::Loosen | Verb::Remove));
            (tightened != slackened).then_some(tightened)
        }
        _ => None,
    }
}

/// Whether a step turns something else as well: another fastener, or a shaft.
fn others_turned(scope: Scope<'_>, step: &Step, thing: &ThingRef) -> bool {
    let right_hand = |other: &ThingRef| {
        other.kind == ListKind::Turns || (other != thing && other.kind == ListKind::Fasteners && scope.thing(|lists| &lists.fasteners, other).is_some())
    };
    step.acts.iter().filter(|act| act.verb != Some(Verb::Clean)).filter_map(Act::thing).any(right_hand)
}
