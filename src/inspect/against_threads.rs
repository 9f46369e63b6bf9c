//! Words of an act against its list: how strong a thread locker is, and whether a thread is dry, oiled or locked.

use super::against_list::{Job, WORDS_AGAINST_LIST};
use super::sentences::{Passage, Sentence};
use super::spoken::{Named, singular};
use crate::finding::Finding;
use crate::manual::{Act, Entry, Fastener, ListKind, Material, Scope, Spot, Step, ThingRef, Verb};
use crate::trade::friction::ThreadCondition;
use std::collections::BTreeSet;
use std::ops::Range;

/// What is wrong with an act's words about its thread.
pub(super) fn check(job: &Job<'_, '_, '_>) -> Option<Finding> {
    strength(job).or_else(|| condition(job))
}

fn is_locker(material: &Material) -> bool {
    matches!(material.kind.as_deref(), Some("thread-locker" | "retaining-compound"))
}

/// The material of an act that puts a locker on.
fn locker_put_on<'a>(scope: Scope<'a>, act: &Act) -> Option<&'a Entry<Material>> {
    let material = act.material.as_ref().filter(|_| act.verb == Some(Verb::Apply))?;
    scope.thing(|lists| &lists.materials, material).filter(|entry| is_locker(&entry.what))
}

fn strength(job: &Job<'_, '_, '_>) -> Option<Finding> {
    let applied = locker_put_on(job.scope, job.act);
    let listed = || {
        let thing = job.act.thing().filter(|thing| thing.kind == ListKind::Fasteners && matches!(job.act.verb, Some(Verb::Torque | Verb::Start)))?;
        let entry = job.scope.thing(|lists| &lists.fasteners, thing)?;
        // By variant there may be two.
        let [case] = entry.what.locker.cases.as_slice() else { return None };
        job.scope.entry(|lists| &lists.materials, &case.value).filter(|entry| is_locker(&entry.what))
    };
    let material = applied.or_else(listed)?;
    let strength = material.what.strength.as_ref()?;
    // Around the act the words may speak of another locker, where the sentence puts on two.
    let only_one = applied.is_some() && job.sentence.acts().iter().filter(|(act, _)| locker_put_on(job.scope, act).is_some()).count() == 1;
    let window = if only_one { 0..job.sentence.count() } else { job.words.clone() };
    let words = window.clone().find_map(|at| strength_at(job.sentence, at, &window))?;
    let said = job.sentence.word(words.start);
    (said != strength.value).then(|| other_strength(job, material, strength, &words)).flatten()
}

/// `high-strength`, `medium locker`: the words, where they do not say what it is not.
fn strength_at(sentence: &Sentence<'_, '_>, at: usize, window: &Range<usize>) -> Option<Range<usize>> {
    let negated = sentence.denies_before(at) || (at > 0 && matches!(sentence.word(at - 1), "than" | "or"));
    let graded = matches!(sentence.word(at), "low" | "medium" | "high" | "wicking");
    let behind = matches!((sentence.word(at + 1), sentence.word(at + 2)), ("strength" | "locker" | "threadlocker", _) | ("thread" | "grade", "locker"));
    (graded && behind && !negated && at + 1 < window.end).then_some(at..at + 2)
}

fn other_strength(job: &Job<'_, '_, '_>, material: &Entry<Material>, strength: &Spot<String>, words: &Range<usize>) -> Option<Finding> {
    Some(
        Finding::new(&WORDS_AGAINST_LIST, job.sentence.place(words)?, format!("‘{}’, and {} is of {} strength", job.sentence.text(words), material.name, strength.value))
            .label("another strength")
            .related(strength.place.clone(), "the strength in the list")
            .fix(format!("say {}, or put on the locker that is meant: apply:ID@{}", strength.value, job.act.thing().map_or("THING", |thing| thing.id.as_str())))
            .about(material.id.clone()),
    )
}

/// The thread conditions that words can contradict.
const CONDITIONS: [&str; 5] = ["dry", "oiled", "locker", "anti-seize", "moly"];

/// The one condition that a fastener's torque holds for; none where it varies, or where words can't be held against it.
fn listed<'a>(scope: Scope<'a>, thing: &ThingRef) -> Option<(&'a Entry<Fastener>, &'a str)> {
    let entry = scope.thing(|lists| &lists.fasteners, thing).filter(|_| thing.kind == ListKind::Fasteners)?;
    let all: BTreeSet<&str> = entry.what.threads.cases.iter().map(|case| case.value.as_str()).collect();
    let condition = all.first().copied().filter(|_| all.len() == 1)?;
    CONDITIONS.contains(&condition).then_some((entry, condition))
}

/// The condition that the words of a tightening ask for.
fn condition(job: &Job<'_, '_, '_>) -> Option<Finding> {
    let thing = job.act.thing().filter(|_| job.act.verb == Some(Verb::Torque))?;
    let (entry, wanted) = listed(job.scope, thing)?;
    let named = Named::of(&entry.id, &entry.name)?;
    let denied = |at: usize| job.sentence.denies_before(at) || (at > 0 && matches!(job.sentence.word(at - 1), "wipe" | "wiped" | "clean"));
    let (words, said) = job.words.clone().filter(|at| !denied(*at)).find_map(|at| asked_at(job, &named, at))?;
    if said == wanted || suits(wanted, said) {
        return None;
    }
    other_condition(job.sentence, &words, said, entry, wanted)
}

fn asked_at(job: &Job<'_, '_, '_>, named: &Named, at: usize) -> Option<(Range<usize>, &'static str)> {
    let sentence = job.sentence;
    // ‘With a dry socket’ says nothing about the thread.
    let of_thread = |next: usize| {
        let own = |at: usize| matches!(sentence.word(at), "thread" | "threads") || named.words.contains(singular(sentence.word(at)));
        next >= job.words.end || sentence.parts_before(next) || matches!(sentence.word(next), "and" | "to") || own(next)
    };
    match (sentence.word(at), sentence.word(at + 1)) {
        ("dry", _) if of_thread(at + 1) => Some((at..at + 1, "dry")),
        ("oiled", _) if of_thread(at + 1) => Some((at..at + 1, "oiled")),
        ("with" | "in", "oil") => Some((at..at + 2, "oiled")),
        ("with" | "in", "locker") => Some((at..at + 2, "locker")),
        ("anti", "seize") => Some((at..at + 2, "anti-seize")),
        ("moly", _) => Some((at..at + 1, "moly")),
        _ => None,
    }
}

/// Whether words may stand beside a condition: what is in a moly paste, its name does not say, and a joint that gets locker is
/// first tried dry.
fn suits(wanted: &str, made: &str) -> bool {
    matches!((wanted, made), ("moly", "oiled" | "anti-seize") | ("locker", "dry"))
}

fn other_condition(sentence: &Sentence<'_, '_>, words: &Range<usize>, said: &str, entry: &Entry<Fastener>, wanted: &str) -> Option<Finding> {
    let case = entry.what.threads.cases.first()?;
    let how = |condition: &str| match condition {
        "dry" | "oiled" => format!("{condition} threads"),
        "locker" => "threads with locker".to_owned(),
        other => format!("threads with {other}"),
    };
    Some(
        Finding::new(&WORDS_AGAINST_LIST, sentence.place(words)?, format!("‘{}’, and the value of {} holds for {}", sentence.text(words), entry.name, how(wanted)))
            .label(format!("{} here", how(said)))
            .related(case.place.clone(), "what its torque holds for")
            .figures(other_preload(wanted, said))
            .fix(format!("look up what the value holds for, then mend the words or threads: of {}; what is put on is an act: apply:MATERIAL@{}", entry.id, entry.id))
            .about(format!("{}.threads", entry.id)),
    )
}

/// How the preload of the same torque differs in a thread of another condition: as the nut factors do (F = T/(K·d),
/// common practice).
fn other_preload(wanted: &str, said: &str) -> Option<String> {
    let factor = |word: &str| ThreadCondition::find(word).map(|condition| condition.nut_factor().mid);
    let (listed, here) = (factor(wanted)?, factor(said)?);
    let share = ((listed / here - 1.0) * 100.0).round();
    let more = if share < 0.0 { "less" } else { "more" };
    (share.abs() >= 1.0).then(|| format!("the same torque makes some {:.0} % {more} preload: nut factor {here:.2} against {listed:.2}, common practice", share.abs()))
}

/// Words of a step that treat a thread, outside its acts, where the step tightens one fastener alone.
pub(super) fn in_text(scope: Scope<'_>, step: &Step, passages: &[Passage<'_>]) -> Option<Finding> {
    let tightened: BTreeSet<&ThingRef> = step.acts.iter().filter(|act| act.verb == Some(Verb::Torque)).filter_map(Act::thing).collect();
    let thing = tightened.first().filter(|_| tightened.len() == 1)?;
    let (entry, wanted) = listed(scope, thing)?;
    let named = Named::of(&entry.id, &entry.name)?;
    passages.iter().flat_map(Passage::sentences).find_map(|sentence| {
        let unsure = sentence.has(&["not", "never", "no", "don't", "don’t", "if", "unless", "when", "instead", "without", "old", "later"]);
        let acts = sentence.acts();
        if unsure || sentence.answers || sentence.leads_elsewhere() || !acts.is_empty() {
            return None;
        }
        let (words, said) = treated(&sentence, &named)?;
        let suits = said == wanted || suits(wanted, said);
        (!suits).then(|| other_condition(&sentence, &words, said, entry, wanted)).flatten()
    })
}

/// `Oil the threads`, `Coat the threads with anti-seize`: the words, and the condition they make.
fn treated(sentence: &Sentence<'_, '_>, named: &Named) -> Option<(Range<usize>, &'static str)> {
    let start = usize::from(matches!(sentence.word(0), "now" | "then" | "first" | "next"));
    let verb = sentence.word(start);
    let end = (start + 1..sentence.count()).find(|at| sentence.parts_before(*at)).unwrap_or_else(|| sentence.count());
    let clause = start..end;
    let has = |words: &[&str]| clause.clone().any(|at| words.contains(&sentence.word(at)));
    let on_thread = has(&["thread", "threads"]) || clause.clone().any(|at| singular(sentence.word(at)) == named.noun);
    let made = match verb {
        "oil" | "lubricate" | "grease" => "oiled",
        "coat" | "brush" | "smear" | "put" | "spread" | "dab" | "apply" | "wet" => [("oil", "oiled"), ("grease", "oiled"), ("seize", "anti-seize"), ("locker", "locker")].into_iter().find(|(word, _)| has(&[word]))?.1,
        _ => return None,
    };
    on_thread.then_some((clause, made))
}
