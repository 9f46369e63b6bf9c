//! Words of an act against its list: how many, and which stage. Sides, threads and their hand have files of their own.

use super::sentences::{Passage, Sentence};
use super::spoken::{Named, number, number_word, ordinal, singular};
use super::{Context, against_hand, against_sides, against_threads, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Entry, Fastener, ListKind, Machine, Scope, ThingRef, Torque, Varied, Verb};
use std::collections::BTreeSet;
use std::ops::Range;

/// An act's words contradict its list.
pub(super) static WORDS_AGAINST_LIST: Rule = Rule {
    name: "words-against-list",
    severity: Severity::Error,
    summary: "An act's words say something else than the list it points to.",
    explanation: Explanation {
        finds: "In an act's words and the sentence around it: a number with the thing's own noun that is neither count: nor a number the acts on it take (start:ID*4); a side with a medium or neighbour that faces: gives to another side or not at all; a stage (second pass) that is not the one behind the stroke; a strength of thread locker that its material has not; dry, oiled, locker or anti-seize where threads: says otherwise, also in the text of a step that tightens only that fastener; tighten … anticlockwise, and, in a step that turns only that fastener, a left-hand thread, where thread: is right-hand; in the words of heating, filling, waiting, measuring or turning a value that lies outside what the list has.",
        matters: "The sheet prints both: the words, and the list's figure beside them. Half of those who read it follow the wrong one.",
        may_be_wrong: "Where the words speak of something else that has the same name: give it its full name. Some of many (two of the six, the last two) is silent.",
        example: "[Run the eight cap bolts in](start:cap-bolt)   and cap-bolt: {count: 6}",
        instead: "[Run the six cap bolts in](start:cap-bolt)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            let passages = Passage::all(step);
            let hand = against_hand::in_text(scope, step, &passages);
            for sentence in passages.iter().flat_map(Passage::sentences) {
                for (act, words) in sentence.acts() {
                    let job = Job { machine, scope, sentence: &sentence, act, words };
                    findings.extend(job.count().into_iter().chain(job.stage()).chain(against_sides::check(&job)).chain(against_threads::check(&job)));
                    // What the step says of the thread is told once.
                    findings.extend(hand.is_none().then(|| against_hand::check(&job)).flatten());
                }
            }
            findings.extend(against_threads::in_text(scope, step, &passages));
            findings.extend(hand);
        }
    }
}

/// An act in its sentence.
pub(super) struct Job<'s, 'p, 'a> {
    pub(super) machine: &'a Machine,
    pub(super) scope: Scope<'a>,
    pub(super) sentence: &'s Sentence<'p, 'a>,
    pub(super) act: &'a Act,
    /// Which words of the sentence are the act's.
    pub(super) words: Range<usize>,
}

/// Words before a number that make it a part of the thing's many, or none at all.
const PART: [&str; 18] = [
    "first", "last", "other", "next", "another", "remaining", "every", "only", "least", "most", "but", "except", "about", "these", "those", "outer", "inner", "no",
];

/// Words before a number that is a name or a size, and counts nothing.
const NO_COUNT: [&str; 12] = ["x", "m", "grade", "class", "size", "sizes", "number", "nr", "no", "type", "part", "stage"];

impl<'a> Job<'_, '_, 'a> {
    fn count(&self) -> Option<Finding> {
        let thing = self.act.thing()?;
        let counted = count_of(self.scope, thing)?;
        // Most sentences have no number in them.
        (0..self.sentence.count()).find(|at| self.number_word_at(*at).is_some())?;
        let named = Named::of(&thing.id, self.scope.head(thing)?.name)?;
        let (number, words) = (0..self.sentence.count()).find_map(|at| self.number_at(at, &named))?;
        if self.known_numbers(thing, counted).contains(&number) {
            return None;
        }
        let case = counted.cases.first()?;
        let listed = counted.cases.iter().map(|case| number_word(case.value)).collect::<Vec<_>>().join(" or ");
        let text = self.sentence.text(&words);
        Some(
            Finding::new(&WORDS_AGAINST_LIST, self.sentence.place(&words)?, format!("‘{text}’, and the list has {listed}"))
                .label(format!("{} here", number_word(number)))
                .related(case.place.clone(), "the count in the list")
                .fix(format!("say {listed}, or mend count: of {}; some of them are told by a number behind the id: {}:{}*{number}", thing.id, self.act.verb?.word(), thing.id))
                .about(format!("{}.count", thing.id)),
        )
    }

    fn number_word_at(&self, at: usize) -> Option<u64> {
        match self.sentence.word(at) {
            "both" => Some(2),
            word => number(word).filter(|number| *number > 1),
        }
    }

    /// A number of the thing that is said at a word, and the words from it to the noun.
    fn number_at(&self, at: usize, named: &Named) -> Option<(u64, Range<usize>)> {
        let sentence = self.sentence;
        let number = self.number_word_at(at)?;
        let before = at.checked_sub(1).map_or("", |before| sentence.word(before));
        let own = self.words.contains(&at);
        // Around the act's words only ‘the six bolts’ and ‘all six bolts’ clearly mean all there are.
        let clear = own || (matches!(before, "the" | "all") && sentence.word(at) != "both" && !self.is_shared(named));
        if !clear || PART.contains(&before) || NO_COUNT.contains(&before) || !sentence.stands_free(at) {
            return None;
        }
        let noun = (at + 1..(at + 5).min(sentence.count())).take_while(|next| !sentence.parts_before(*next)).find(|next| {
            let words = at + 1..*next + 1;
            sentence.word(*next) != singular(sentence.word(*next)) && !sentence.word(*next).contains(['\'', '’']) && named.is_meant_by(sentence, &words)
        })?;
        // ‘Two 8 bolts’: one of the numbers is a size, and which one is not known.
        let behind_another = at.checked_sub(1).is_some_and(|before| self.number_word_at(before).is_some());
        let sized = behind_another || (at + 1..noun).any(|at| sentence.word(at).starts_with(|sign: char| sign.is_ascii_digit()) || self.number_word_at(at).is_some());
        let one_of_two = sentence.word(at) == "both" && (self.is_shared(named) || self.has_namesake(named));
        if sized || one_of_two {
            return None;
        }
        // ‘The four bolts of the other side’ may be any four.
        let of_another = !own && matches!(sentence.word(noun + 1), "of" | "on" | "in" | "at" | "that");
        (!of_another && !self.is_by_each(noun)).then_some((number, at..noun + 1))
    }

    /// Whether another act of the sentence is on a thing with the same noun: then words around the acts may mean either.
    fn is_shared(&self, named: &Named) -> bool {
        let thing = self.act.thing();
        self.sentence.acts().iter().filter_map(|(act, _)| act.thing()).filter(|other| Some(*other) != thing).any(|other| {
            self.scope.head(other).and_then(|head| Named::of(head.id, head.name)).is_some_and(|other| other.noun == named.noun)
        })
    }

    /// Whether the lists have another thing with the same noun: `both shells` may be a front and a rear one.
    fn has_namesake(&self, named: &Named) -> bool {
        let own = self.act.thing().map(|thing| thing.id.as_str());
        let heads = self.scope.homes().flat_map(|(_, lists)| ListKind::THINGS.iter().flat_map(|kind| lists.heads(*kind)));
        heads.into_iter().filter(|head| Some(head.id) != own).filter_map(|head| Named::of(head.id, head.name)).any(|other| other.noun == named.noun)
    }

    /// Whether a number is one for each of something: `two bolts at a time`, `two bolts a cap`, `cap by cap`.
    fn is_by_each(&self, noun: usize) -> bool {
        let sentence = self.sentence;
        let each = (0..sentence.count()).any(|at| match sentence.word(at) {
            "each" | "every" => sentence.word(at + 1) != "of" || at > noun,
            "per" | "apiece" | "pairs" => true,
            "by" => at > 0 && sentence.word(at - 1) == sentence.word(at + 1),
            _ => false,
        });
        let of_some = sentence.word(noun + 1) == "of" && (noun + 2..noun + 4).any(|at| number(sentence.word(at)).is_some());
        each || of_some || matches!((sentence.word(noun + 1), sentence.word(noun + 2)), ("at", "a" | "once") | ("a" | "an", _))
    }

    /// Every number of the thing that makes sense: its count, the numbers that acts on it take, and what they leave.
    fn known_numbers(&self, thing: &ThingRef, counted: &Varied<u64>) -> BTreeSet<u64> {
        let counts: Vec<u64> = counted.cases.iter().map(|case| case.value).collect();
        let acts = self.machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
        let taken: BTreeSet<u64> = acts.filter(|act| act.thing() == Some(thing)).filter_map(|act| act.times).collect();
        let sum: u64 = taken.iter().fold(0, |sum, times| sum.saturating_add(*times));
        let left = |count: &u64| taken.iter().chain([&sum]).map(|times| count.saturating_sub(*times)).collect::<Vec<_>>();
        counts.iter().flat_map(left).chain(counts.iter().copied()).chain(taken.iter().copied()).chain([sum]).collect()
    }

    fn stage(&self) -> Option<Finding> {
        let thing = self.act.thing().filter(|thing| self.act.verb == Some(Verb::Torque) && thing.kind == ListKind::Fasteners)?;
        let entry = self.scope.thing(|lists| &lists.fasteners, thing)?;
        let stages = entry.what.torque.cases.iter().map(|case| Torque::stages(&case.value).len()).max().and_then(|most| u64::try_from(most).ok())?;
        let said: Vec<(u64, Range<usize>)> = self.words.clone().filter_map(|at| self.stage_at(at, stages)).collect();
        let [(said, words)] = said.as_slice() else { return None };
        let meant = self.act.stage.unwrap_or(stages);
        if stages < 2 || *said == meant {
            return None;
        }
        self.other_stage(entry, *said, words, meant)
    }

    fn other_stage(&self, entry: &Entry<Fastener>, said: u64, words: &Range<usize>, meant: u64) -> Option<Finding> {
        let does = match self.act.stage {
            Some(stage) => format!("the act is stage {stage}"),
            None => "the act goes through all stages".to_owned(),
        };
        let case = entry.what.torque.cases.first()?;
        let value = |stage: u64| usize::try_from(stage).ok().and_then(|at| Torque::stages(&case.value).get(at.checked_sub(1)?)).map(|value| format!("stage {stage}: {}", value.written()));
        Some(
            Finding::new(&WORDS_AGAINST_LIST, self.sentence.place(words)?, format!("‘{}’, and {does}", self.sentence.text(words)))
                .label(format!("stage {said} here"))
                .related(case.place.clone(), "the stages in the list")
                .figures(value(said))
                .figures(value(meant))
                .fix(format!("write torque:{}/{said}, or say the stage that is meant", entry.id))
                .about(format!("{}.torque", entry.id)),
        )
    }

    /// A stage that is said at a word: `second stage`, `stage 2`, `final pass`.
    fn stage_at(&self, at: usize, stages: u64) -> Option<(u64, Range<usize>)> {
        let is_stage = |at: usize| matches!(self.sentence.word(at), "stage" | "pass");
        let word = self.sentence.word(at);
        let before = matches!(word, "last" | "final").then_some(stages).or_else(|| ordinal(word)).filter(|_| is_stage(at + 1) && self.words.contains(&(at + 1)));
        let behind = || number(self.sentence.word(at + 1)).filter(|stage| is_stage(at) && (1..=stages.max(8)).contains(stage) && self.words.contains(&(at + 1)));
        before.or_else(behind).map(|stage| (stage, at..at + 2))
    }
}

/// How many of a thing are in place when the work is done.
fn count_of<'a>(scope: Scope<'a>, thing: &ThingRef) -> Option<&'a Varied<u64>> {
    let count = match thing.kind {
        ListKind::Fasteners => &scope.thing(|lists| &lists.fasteners, thing)?.what.count,
        ListKind::Seals => &scope.thing(|lists| &lists.seals, thing)?.what.count,
        ListKind::Bearings => &scope.thing(|lists| &lists.bearings, thing)?.what.count,
        ListKind::Parts => &scope.thing(|lists| &lists.parts, thing)?.what.count,
        _ => return None,
    };
    count.is_given().then_some(count)
}
