//! Words that can't be measured: feel instead of a torque, ‘a little’ instead of degrees.

use super::Context;
use super::every;
use super::mentions::is_no_measure;
use super::prose::runs;
use super::spoken::{number, singular};
use super::words::Words;
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{ListKind, Procedure, Scope, Step, Verb};
use std::ops::Range;

/// A fastener is tightened by feel.
pub(super) static VAGUE_TIGHTNESS: Rule = Rule {
    name: "vague-tightness",
    severity: Severity::Error,
    summary: "A fastener is tightened by feel.",
    explanation: Explanation {
        finds: "Words of feel (snug, nip up, good and tight, a bit more, don't go mad …) within eight words of a fastener or of tightening, in the text and in the words of acts; and orders to nip or pinch a fastener (or it, them …) up, or to tighten one well, hard, lightly, securely, until it stops, as far as it goes. A warning where the step also tightens to a value, or where only covers, plugs and soft joints are in it: then two instructions compete. Words that are denied, explained or quoted as words (never by feel; ‘snug’ means …) are silent.",
        matters: "Feel differs from hand to hand by half, and a long wrench feels light.",
        may_be_wrong: "Where something else than a fastener is meant: take another word.",
        example: "Do the hub nut up good and firm.",
        instead: "[Tighten the hub nut](torque:hub-nut), with its torque in the list",
    },
};

/// An adjustment has no measure.
pub(super) static VAGUE_ADJUSTMENT: Rule = Rule {
    name: "vague-adjustment",
    severity: Severity::Error,
    summary: "An adjustment is given in words that can't be measured.",
    explanation: Explanation {
        finds: "‘A little’, ‘slightly’, ‘a touch’, ‘about there’ within four words of advancing, retarding, adjusting or aligning.",
        matters: "A little is one degree to one and five to another, and five is a hole in a piston.",
        may_be_wrong: "Where a measurement follows that decides: say which reading is wanted, and leave the word out.",
        example: "Advance it slightly.",
        instead: "[Set the two lines in line](align:timing), with offset: or arc: in the list",
    },
};

/// Words of feel.
const FEEL: [&str; 47] = [
    "snug", "snugly", "snug it", "nip up", "nip it up", "nip them up", "nipped up", "good and tight", "good and firm", "nice and tight", "nice and firm",
    "nice and snug", "fairly tight", "pretty tight", "really tight", "very tight", "just tight", "tight enough", "wrist tight", "firmly", "firm", "a bit more",
    "a little more", "a touch more", "a bit tighter", "don't go mad", "don't go crazy", "don't overdo it", "by feel", "feels tight", "feels right",
    "as tight as you can", "a good pull", "gorilla tight", "dead tight", "bone tight", "for luck", "lean on the wrench", "lean on the spanner", "lean on the bar", "leaning on the wrench", "swing on the bar",
    "to the usual torque", "to the normal torque", "a moderate torque", "good bit of force", "lightly tightened",
];
/// Verbs that are feel themselves where `up` follows: ‘nip the bolt up’, ‘pinch it up’.
const NIPPING: [&str; 2] = ["nip", "pinch"];
/// What makes an order to tighten one of feel: ‘tighten the bolts securely’, ‘tighten it as far as it goes’.
const TIGHT_HOW: [&str; 17] = [
    "securely", "well", "hard", "lightly", "properly", "adequately", "sufficiently", "moderately", "until tight", "till tight", "until it stops", "till it stops",
    "as far as it goes", "as far as it will go", "as far as they go", "as far as they will go", "to taste",
];
/// Words beside these that make them something else: ‘as well’, ‘well before’, ‘until it stops, then back’.
const NOT_HOW: [&str; 15] =
    ["as", "before", "behind", "below", "above", "ahead", "clear", "away", "under", "into", "against", "back", "inside", "hat", "wearing"];
/// What is tightened to a torque, by the last word of its name: a strap or a chuck is none. Common practice.
const FASTENERS: [&str; 10] = ["bolt", "nut", "screw", "stud", "plug", "union", "clip", "fastener", "fixing", "fitting"];
/// Words that stand for things named before.
const PRONOUNS: [&str; 13] = ["it", "them", "all", "both", "each", "these", "those", "this", "that", "everything", "others", "rest", "ones"];
/// Words that end an object: `the drill in its chuck` is a drill.
const OBJECT_ENDS: [&str; 26] = [
    "of", "in", "on", "at", "with", "to", "from", "under", "over", "by", "for", "that", "which", "until", "till", "before", "after", "as", "through", "inside",
    "into", "against", "around", "between", "so", "then",
];
/// Words of tightening and of fasteners.
const TIGHTENING: [&str; 31] = [
    "bolt", "bolts", "screw", "screws", "nut", "nuts", "stud", "studs", "plug", "plugs", "capscrew", "capscrews", "tighten", "tightens", "tightening",
    "tightened", "torque", "torqued", "spanner", "wrench", "ratchet", "socket", "nip", "nipped", "do up", "done up", "do them up", "do it up", "run up", "wind in",
    "snug it",
];
const VAGUE: [&str; 12] =
    ["a little", "a little bit", "slightly", "a touch", "a bit", "a tad", "a hair", "about there", "somewhat", "a fraction", "roughly", "more or less"];
const ADJUSTING: [&str; 22] = [
    "advance", "advances", "advanced", "advancing", "retard", "retards", "retarded", "retarding", "adjust", "adjusts", "adjusted", "adjusting", "readjust",
    "align", "aligns", "aligned", "aligning", "realign", "timing", "re-time", "ignition", "adjuster",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            let about = format!("{}#{}", procedure.id, step.id);
            let mut look = |text: &str, place: &dyn Fn(Range<usize>) -> Option<Place>| {
                let words = Words::of(text);
                findings.extend(tightness(scope, step, &words, place).map(|finding| finding.about(about.clone())));
                findings.extend(adjustment(&words, place).map(|finding| finding.about(about.clone())));
            };
            for run in runs(&step.blocks) {
                look(run.text(), &|span| run.place(span.start, span.end));
            }
            for act in &step.acts {
                look(&act.words, &|_| Some(act.place.clone()));
            }
        }
        introduction(procedure, findings);
    }
}

/// Before the first step there is no act: a fastener must be named beside the word.
fn introduction(procedure: &Procedure, findings: &mut Vec<Finding>) {
    for run in runs(&procedure.introduction) {
        let words = Words::of(run.text());
        let Some(hit) = feel(&words) else { continue };
        let Some(place) = run.place(hit.start, hit.end) else { continue };
        findings.push(felt(place, words.text(&hit)).severity(Severity::Warning).about(procedure.id.clone()));
    }
}

/// Words of feel near those of tightening that are used, not only spoken of; or an order that is one of feel.
fn feel(words: &Words<'_>) -> Option<Range<usize>> {
    let near = words.every_near(&FEEL, &TIGHTENING, 8).into_iter().find(|hit| !is_no_measure(words, hit));
    near.or_else(|| order(words).filter(|hit| !is_no_measure(words, hit)))
}

/// ‘Nip the four bolts up’, ‘tighten the nut securely’.
fn order(words: &Words<'_>) -> Option<Range<usize>> {
    // A pinch bolt is a thing: what is pinched stands behind its article.
    let pinched = |hit: &Range<usize>| {
        let object = words.text(hit).split_whitespace().nth(1).unwrap_or("");
        ["the", "it", "them", "each", "every", "all", "both", "this", "that", "these", "those", "its", "up"].iter().any(|known| object.eq_ignore_ascii_case(known))
    };
    let fastened = |hit: &Range<usize>, between: &str| is_fastener(between, words.behind(hit));
    let joined = |between: &str| between.split_whitespace().any(|word| word.eq_ignore_ascii_case("and"));
    let mut nips = words.commands(&NIPPING, &["up"], &["against", "between"], 5).into_iter();
    let nip = nips.find(|(hit, between)| pinched(hit) && !joined(between) && fastened(hit, between));
    let tightens = || words.commands(&["tighten"], &TIGHT_HOW, &NOT_HOW, 5).into_iter();
    nip.or_else(|| tightens().find(|(hit, between)| fastened(hit, between) && !is_a_stop(words, hit))).map(|(hit, _)| hit)
}

/// Whether what is tightened is a fastener, or a word that may mean one. It stands before the word of feel; else behind
/// it: ‘tighten securely the two bolts’.
fn is_fastener(between: &str, behind: &str) -> bool {
    let early = !between.trim().is_empty();
    let object = if early { between } else { behind.split(['.', ',', ';', ':', '!', '?']).next().unwrap_or("") }.to_lowercase();
    let all: Vec<&str> = object.split(|sign: char| sign.is_whitespace() || sign == '-').map(|word| word.trim_matches(|sign: char| !sign.is_alphanumeric())).filter(|word| !word.is_empty()).collect();
    let means = |part: &[&str]| {
        let end = part.iter().position(|word| OBJECT_ENDS.contains(word)).filter(|end| *end > 0).unwrap_or(part.len());
        let tells_how = |word: &str| word.ends_with("ly") || matches!(word, "crosswise" | "down" | "up" | "again" | "now" | "home" | "back");
        let noun = part.get(..end).unwrap_or_default().iter().rev().find(|word| !tells_how(word));
        noun.is_some_and(|noun| PRONOUNS.contains(noun) || number(noun).is_some() || FASTENERS.iter().any(|known| singular(noun).ends_with(known)))
    };
    // Where nothing is named, what is meant stands in a sentence before.
    let unnamed = all.first().is_none_or(|first| !early && (OBJECT_ENDS.contains(first) || matches!(*first, "and" | "or")));
    unnamed || all.split(|word| matches!(*word, "and" | "or")).any(means)
}

/// Whether ‘until it stops’ tells where to begin or what ends: ‘until it stops dripping’, ‘until it stops, then turn it
/// back’.
fn is_a_stop(words: &Words<'_>, hit: &Range<usize>) -> bool {
    let behind = words.behind(hit).split(['.', '!', '?']).next().unwrap_or("").to_lowercase();
    let goes_on = behind.split_whitespace().next().is_some_and(|word| word.trim_end_matches(|sign: char| !sign.is_alphanumeric()).ends_with("ing"));
    let returns = behind.split(|sign: char| !sign.is_alphanumeric()).any(|word| matches!(word, "back" | "slacken" | "loosen" | "undo"));
    words.text(hit).to_lowercase().ends_with("it stops") && (goes_on || returns)
}

fn tightness(scope: Scope<'_>, step: &Step, words: &Words<'_>, place: &dyn Fn(Range<usize>) -> Option<Place>) -> Option<Finding> {
    let hit = feel(words)?;
    let at = place(hit.clone())?;
    let fasteners: Vec<_> = step.acts.iter().filter_map(|act| act.thing()).filter(|thing| thing.kind == ListKind::Fasteners).collect();
    let valued = step.acts.iter().any(|act| act.verb == Some(Verb::Torque));
    let light = !fasteners.is_empty()
        && fasteners.iter().all(|thing| {
            let role = scope.thing(|lists| &lists.fasteners, thing).and_then(|entry| entry.what.role.first());
            role.is_some_and(|role| matches!(role.as_str(), "cover" | "plug" | "soft" | "adjuster"))
        });
    let finding = felt(at, words.text(&hit));
    Some(if valued || light { finding.severity(Severity::Warning) } else { finding })
}

fn felt(place: Place, words: &str) -> Finding {
    Finding::new(&VAGUE_TIGHTNESS, place, format!("‘{words}’ can't be repeated by another hand"))
        .label("how tight?")
        .fix("take the words out and point to the fastener: [Tighten it](torque:ID), with its torque in the list")
}

fn adjustment(words: &Words<'_>, place: &dyn Fn(Range<usize>) -> Option<Place>) -> Option<Finding> {
    let hit = words.near(&VAGUE, &ADJUSTING, 4)?;
    Some(
        Finding::new(&VAGUE_ADJUSTMENT, place(hit.clone())?, format!("‘{}’ is no measure for an adjustment", words.text(&hit)))
            .label("how much?")
            .fix("give degrees, or an arc on a diameter, under aligns: and point to it with align:; or the reading that is wanted, with measure:"),
    )
}
