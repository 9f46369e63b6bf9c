//! Work that is written as plain words: no box on the sheet, no value beside it, no check behind it.

use super::sentences::{Passage, Sentence};
use super::spoken::{Named, is_filler, singular};
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, Lists, Machine, Procedure, Scope, Step, Verb};
use std::ops::Range;

/// Work is told in words, and is no act.
pub(super) static WORK_WITHOUT_ACT: Rule = Rule {
    name: "work-without-act",
    severity: Severity::Warning,
    summary: "A sentence tells work on a listed thing, and no act stands in it.",
    explanation: Explanation {
        finds: "Sentences of a step that open with a verb of work (tighten, fit, remove, press, pour, fill, grease, clean; put … on, take … off …), go on with a thing or material of the lists by its own noun, and hold no act. Silent in notices and questions, in sentences with not, never, if, when, once and the like or with a link to another step, and where the step does that work by an act.",
        matters: "What is no act has no box to tick, no value beside it and is not looked at by any rule: the sheet prints it as a remark.",
        may_be_wrong: "Where something else of the same name is meant: call it by its full name. Where the sentence only announces what the next ones do: take it out, or make it the heading.",
        example: "Tighten the six screws.",
        instead: "[Tighten the six screws](torque:cover-screw).",
    },
};

/// What a verb of work does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Work {
    Tighten,
    Loosen,
    Fit,
    Remove,
    Pour,
    Apply,
    /// A material is put on: the material is the object.
    Spread,
    Clean,
}

impl Work {
    /// What a verb does whatever follows.
    fn of(verb: &str) -> Option<Self> {
        match verb {
            "tighten" | "torque" | "retighten" => Some(Self::Tighten),
            "loosen" | "slacken" | "undo" => Some(Self::Loosen),
            "fit" | "refit" | "install" | "reinstall" | "press" => Some(Self::Fit),
            "remove" => Some(Self::Remove),
            "pour" | "fill" => Some(Self::Pour),
            "grease" | "oil" | "coat" | "lubricate" => Some(Self::Apply),
            "apply" | "smear" | "brush" | "spread" => Some(Self::Spread),
            "clean" | "degrease" => Some(Self::Clean),
            _ => None,
        }
    }

    /// What a verb does with a word behind its object: `put … on`, `take … off`.
    fn by_particle(verb: &str, particle: &str) -> Option<Self> {
        match (verb, particle) {
            ("put" | "slide" | "push" | "lower" | "drop" | "run" | "screw" | "lay" | "set" | "hang", "on" | "in" | "home" | "back") | ("run" | "screw", "up") => Some(Self::Fit),
            ("take" | "lift" | "draw" | "pull" | "unscrew" | "screw" | "push", "off" | "out") => Some(Self::Remove),
            _ => None,
        }
    }

    /// The acts that do it.
    fn verbs(self) -> &'static [Verb] {
        match self {
            Self::Tighten => &[Verb::Torque],
            Self::Loosen => &[Verb::Loosen, Verb::Remove],
            Self::Fit => &[Verb::Fit, Verb::DryFit, Verb::Start, Verb::Torque],
            Self::Remove => &[Verb::Remove],
            Self::Pour => &[Verb::Fill],
            Self::Apply | Self::Spread => &[Verb::Apply],
            Self::Clean => &[Verb::Clean],
        }
    }

    /// The lists its object stands in.
    fn lists(self) -> &'static [ListKind] {
        match self {
            Self::Tighten | Self::Loosen => &[ListKind::Fasteners],
            Self::Pour => &[ListKind::Fills, ListKind::Materials],
            Self::Spread => &[ListKind::Materials],
            Self::Fit | Self::Remove | Self::Apply | Self::Clean => ListKind::THINGS,
        }
    }

    /// The address of the act that is wanted.
    fn address(self, kind: ListKind, id: &str) -> String {
        match self {
            Self::Tighten => format!("torque:{id}"),
            Self::Loosen => format!("loosen:{id}"),
            Self::Fit => format!("fit:{id}"),
            Self::Remove => format!("remove:{id}"),
            Self::Pour if kind == ListKind::Fills => format!("fill:{id}"),
            Self::Pour => "fill:ID".to_owned(),
            Self::Apply => format!("apply:MATERIAL@{id}"),
            Self::Spread => format!("apply:{id}@THING"),
            Self::Clean => format!("clean:{id}"),
        }
    }
}

/// Words that make a sentence no plain order.
const UNSURE: [&str; 28] = [
    "not", "never", "no", "none", "nobody", "nothing", "don't", "don’t", "if", "unless", "when", "where", "once", "whether", "should", "would", "may", "might",
    "can", "could", "later", "instead", "otherwise", "only", "as", "because", "while", "must",
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for step in &procedure.steps {
            // An act that is not understood may be the one that is missed here.
            if step.acts.iter().any(|act| act.verb.is_none() || act.is_unresolved()) {
                continue;
            }
            for passage in Passage::all(step) {
                findings.extend(passage.sentences().iter().filter_map(|sentence| untold(machine, procedure, scope, step, sentence)));
            }
        }
    }
}

fn untold(machine: &Machine, procedure: &Procedure, scope: Scope<'_>, step: &Step, sentence: &Sentence<'_, '_>) -> Option<Finding> {
    let start = usize::from(matches!(sentence.word(0), "now" | "then" | "first" | "next" | "finally" | "carefully"));
    let acts = sentence.acts().iter().any(|(act, _)| act.verb.is_some_and(Verb::ticks));
    if acts || sentence.answers || sentence.leads_elsewhere() || sentence.has(&UNSURE) {
        return None;
    }
    let (works, object, end) = object(sentence, start)?;
    let (work, kind, id, name) = works.into_iter().find_map(|work| meant(machine, procedure, scope, work, sentence, &object).map(|(kind, id, name)| (work, kind, id, name)))?;
    let done = step.acts.iter().any(|act| {
        let verb = act.verb.is_some_and(|verb| work.verbs().contains(&verb));
        let things = act.things.iter().chain(&act.material);
        verb && things.into_iter().any(|thing| thing.kind == kind && same_noun(scope, thing.kind, &thing.id, name))
    });
    if done {
        return None;
    }
    let said = sentence.text(&(start..end));
    Some(
        Finding::new(&WORK_WITHOUT_ACT, sentence.place(&(start..end))?, format!("‘{said}’ is work, and no act stands in the sentence"))
            .label("no box, no value, no check")
            .figure(format!("{name} stands in the lists as {id}"))
            .fix(format!("write it as an act: [{said}]({})", work.address(kind, id)))
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

/// Words that end an object.
const ENDS: [&str; 37] = [
    "and", "or", "to", "on", "in", "into", "onto", "with", "by", "from", "of", "at", "over", "under", "up", "down", "off", "out", "home", "back", "so", "that", "dry",
    "crosswise", "evenly", "through", "along", "against", "towards", "for", "before", "after", "then", "square", "firmly", "between", "around",
];

/// What a sentence may order at a word, the words of its object, and where the order ends.
fn object(sentence: &Sentence<'_, '_>, start: usize) -> Option<(Vec<Work>, Range<usize>, usize)> {
    let verb = sentence.word(start);
    let particle = |at: usize| matches!(sentence.word(at), "in" | "on" | "off" | "out" | "up").then(|| sentence.word(at));
    let early = particle(start + 1);
    let mut from = start + 1 + usize::from(early.is_some());
    // Fill the housing with oil: what is poured comes behind.
    let poured = (verb == "fill").then(|| (start..sentence.count()).find(|at| sentence.word(*at) == "with")).flatten();
    from = poured.map_or(from, |with| with + 1);
    // Some put a material on something: `put locker on the screws`. Its noun needs no article.
    let spreads = matches!(Work::of(verb), Some(Work::Spread | Work::Pour)) || verb == "put";
    let determined = is_filler(sentence.word(from)) || spreads;
    let end = (from..sentence.count()).find(|at| (*at > from && sentence.parts_before(*at)) || ends(sentence, *at, from)).unwrap_or_else(|| sentence.count());
    if !determined || end <= from || end - from > 6 {
        return None;
    }
    let closing = particle(end).or_else(|| matches!(sentence.word(end), "home" | "back").then(|| sentence.word(end))).filter(|_| closes(sentence, end + 1));
    // A cover pressed down is held, not fitted.
    let held = verb == "press" && end < sentence.count() && !sentence.parts_before(end) && !matches!(sentence.word(end), "in" | "into" | "on" | "onto" | "home" | "back");
    let named = Work::of(verb).filter(|_| !held).or_else(|| Work::by_particle(verb, early.or(closing)?));
    let works: Vec<Work> = named.into_iter().chain((verb == "put").then_some(Work::Spread)).collect();
    Some((works, from..end, end + usize::from(early.is_none() && closing.is_some())))
}

/// Whether an object is over at a word.
fn ends(sentence: &Sentence<'_, '_>, at: usize, from: usize) -> bool {
    at > from && ENDS.contains(&sentence.word(at))
}

/// Whether a clause is over at a word, or only tells how: `on dry`, `in by hand`.
fn closes(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    at >= sentence.count() || sentence.parts_before(at) || matches!(sentence.word(at), "dry" | "by" | "again" | "and" | "evenly" | "crosswise" | "first" | "last")
}

/// The listed thing that an object means: of the procedure before the machine.
fn meant<'a>(machine: &'a Machine, procedure: &'a Procedure, scope: Scope<'a>, work: Work, sentence: &Sentence<'_, '_>, object: &Range<usize>) -> Option<(ListKind, &'a str, &'a str)> {
    let shop: &Lists = scope.shop;
    let lists = [&procedure.lists, &machine.lists, shop];
    lists.into_iter().find_map(|lists| {
        work.lists().iter().find_map(|kind| {
            lists.heads(*kind).into_iter().find_map(|head| {
                let named = Named::of(head.id, head.name)?;
                let wet = *kind != ListKind::Materials || is_spread(lists, head.id, work);
                (wet && named.is_meant_by(sentence, object) && is_its_own(sentence, object.end, &named)).then_some((*kind, head.id, head.name))
            })
        })
    })
}

/// Whether what follows with ‘of’ is in the thing's own name: the bolts of the cap, and not those of another.
fn is_its_own(sentence: &Sentence<'_, '_>, at: usize, named: &Named) -> bool {
    let end = (at + 1..sentence.count()).find(|at| sentence.parts_before(*at) || ENDS.contains(&sentence.word(*at))).unwrap_or_else(|| sentence.count());
    sentence.word(at) != "of" || (at + 1..end).all(|at| is_filler(sentence.word(at)) || named.words.contains(singular(sentence.word(at))))
}

/// Whether a material is one that is so put on or poured.
fn is_spread(lists: &Lists, id: &str, work: Work) -> bool {
    let kind = lists.materials.get(id).and_then(|entry| entry.what.kind.as_deref());
    match work {
        Work::Pour => matches!(kind, Some("oil" | "coolant" | "fuel")),
        _ => matches!(kind, Some("thread-locker" | "retaining-compound" | "sealant" | "grease" | "anti-seize" | "adhesive" | "oil")),
    }
}

fn same_noun(scope: Scope<'_>, kind: ListKind, id: &str, name: &str) -> bool {
    let other = scope.find(kind, id).and_then(|thing| scope.head(&thing)).and_then(|head| Named::of(head.id, head.name));
    let one = Named::of("", name);
    one.zip(other).is_some_and(|(one, other)| one.noun == other.noun)
}
