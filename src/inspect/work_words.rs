//! Work that is written as plain words: no box on the sheet, no value beside it, no check behind it.

use super::sentences::{Passage, Sentence};
use super::spoken::{Named, is_filler, singular};
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, Lists, Procedure, Scope, Step, Verb};
use std::collections::BTreeMap;
use std::ops::Range;

/// Work is told in words, and is no act.
pub(super) static WORK_WITHOUT_ACT: Rule = Rule {
    name: "work-without-act",
    severity: Severity::Warning,
    summary: "A sentence tells work on a thing, and no act stands in it.",
    explanation: Explanation {
        finds: "Sentences of a step that open with a verb of work (tighten, fit, remove, press, pour, fill, grease, clean; put … on, take … off …), go on with a thing or material of the lists by its own noun, and hold no act; and those that tighten, loosen, fit or remove a bolt, screw, nut, stud, washer, circlip, gasket, seal, O-ring or bearing where no list has one (not the screw of a vice, a puller or another tool, nor what comes from its bag). Silent in notices and questions, in sentences with not, never, if, when, once and the like or with a link to another step, and where the step does that work by an act.",
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

/// A listed thing as sentences may speak of it.
struct Listed<'a> {
    kind: ListKind,
    id: &'a str,
    name: &'a str,
    named: Named,
}

/// The things of some lists by their noun: read once, not for every sentence.
struct Nouns<'a> {
    lists: &'a Lists,
    things: BTreeMap<String, Vec<Listed<'a>>>,
}

impl<'a> Nouns<'a> {
    fn of(lists: &'a Lists) -> Self {
        let mut things: BTreeMap<String, Vec<Listed<'a>>> = BTreeMap::new();
        for kind in ListKind::ALL {
            for head in lists.heads(*kind) {
                if let Some(named) = Named::of(head.id, head.name) {
                    things.entry(named.noun.clone()).or_default().push(Listed { kind: *kind, id: head.id, name: head.name, named });
                }
            }
        }
        Self { lists, things }
    }

    /// The things whose noun a word is, in singular or plural.
    fn with(&self, word: &str) -> &[Listed<'a>] {
        self.things.get(singular(word)).map_or(&[], Vec::as_slice)
    }
}

/// Those of the machine and of the shop stay while their lists are the same.
fn renew<'a>(kept: &mut Option<Nouns<'a>>, lists: &'a Lists) {
    if !kept.as_ref().is_some_and(|nouns| std::ptr::eq(nouns.lists, lists)) {
        *kept = Some(Nouns::of(lists));
    }
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let (mut of_machine, mut of_shop) = (None, None);
    for (machine, procedure, scope) in every::procedures(context.manual) {
        renew(&mut of_machine, &machine.lists);
        renew(&mut of_shop, scope.shop);
        let own = Nouns::of(&procedure.lists);
        let nouns: Vec<&Nouns<'_>> = [Some(&own), of_machine.as_ref(), of_shop.as_ref()].into_iter().flatten().collect();
        for step in &procedure.steps {
            // An act that is not understood may be the one that is missed here.
            if step.acts.iter().any(|act| act.verb.is_none() || act.is_unresolved()) {
                continue;
            }
            for passage in Passage::all(step) {
                findings.extend(passage.sentences().iter().filter_map(|sentence| untold(&nouns, procedure, scope, step, sentence)));
            }
        }
    }
}

fn untold(nouns: &[&Nouns<'_>], procedure: &Procedure, scope: Scope<'_>, step: &Step, sentence: &Sentence<'_, '_>) -> Option<Finding> {
    let start = usize::from(matches!(sentence.word(0), "now" | "then" | "first" | "next" | "finally" | "carefully"));
    let acts = sentence.acts().iter().any(|(act, _)| act.verb.is_some_and(Verb::ticks));
    if acts || sentence.answers || sentence.leads_elsewhere() || sentence.has(&UNSURE) || is_a_trial(sentence) {
        return None;
    }
    let (works, object, end) = object(sentence, start)?;
    // A motor is run in and a piston pushed back for a trial; only a thread is so put in.
    let threaded = matches!((sentence.word(start), sentence.word(end - 1)), ("push", "back")) || sentence.word(start) == "run";
    let found = works.iter().copied().filter(|work| !is_elsewhere(nouns, *work, sentence, object.end)).find_map(|work| {
        let listed = meant(nouns, work, sentence, &object)?;
        (!threaded || listed.kind == ListKind::Fasteners).then_some((work, listed))
    });
    let Some((work, Listed { kind, id, name, .. })) = found else {
        return unlisted(nouns, step, sentence, &works, &object).and_then(|noun| listless(procedure, step, sentence, &(start..end), noun));
    };
    let (kind, id, name) = (*kind, *id, *name);
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

/// What goes into a machine or holds it together, by the nouns that mean nothing else.
const GOODS: [&str; 11] = ["bolt", "screw", "nut", "stud", "washer", "circlip", "gasket", "seal", "o-ring", "bearing", "capscrew"];

/// Tools that have screws and nuts of their own.
const TOOLS: [&str; 6] = ["vice", "puller", "chuck", "clamp", "gauge", "stand"];

/// The noun of an object that is of those goods, and that no list has.
fn unlisted(nouns: &[&Nouns<'_>], step: &Step, sentence: &Sentence<'_, '_>, works: &[Work], object: &Range<usize>) -> Option<&'static str> {
    let work = works.iter().find(|work| matches!(work, Work::Tighten | Work::Loosen | Work::Fit | Work::Remove))?;
    let last = singular(sentence.word(object.end.checked_sub(1)?));
    let noun = GOODS.iter().find(|noun| **noun == last)?;
    // A locknut is a nut, too.
    let known = |nouns: &&Nouns<'_>| nouns.things.values().flatten().any(|listed| listed.named.noun.ends_with(noun) || listed.named.words.contains(*noun));
    // The screw of a vice or a puller belongs to the tool; a circlip from its bag is only at hand so far.
    let before = object.end.checked_sub(2).filter(|before| *before >= object.start).map_or("", |before| sentence.word(before));
    let of_a_tool = TOOLS.contains(&singular(before)) || nouns.iter().any(|nouns| nouns.with(before).iter().any(|listed| listed.kind == ListKind::Tools));
    let fetched = sentence.word(object.end) == "from" && matches!(sentence.word(object.end + 1), "its" | "the") && KEPT_IN.contains(&sentence.word(object.end + 2));
    if of_a_tool || fetched {
        return None;
    }
    // An act of the step that does such work may mean it by another name; and what belongs to something else is another's.
    let done = step.acts.iter().any(|act| act.verb.is_some_and(|verb| work.verbs().contains(&verb)));
    (!done && sentence.word(object.end) != "of" && !nouns.iter().any(known)).then_some(*noun)
}

/// Work on what stands in no list.
fn listless(procedure: &Procedure, step: &Step, sentence: &Sentence<'_, '_>, said: &Range<usize>, noun: &str) -> Option<Finding> {
    Some(
        Finding::new(&WORK_WITHOUT_ACT, sentence.place(said)?, format!("‘{}’ is work, and no list has a {noun}", sentence.text(said)))
            .label("no size, no value, no box")
            .fix("list it (fasteners:, parts:, seals: or bearings:) with what it measures and how many there are, and write the work as an act on it")
            .about(format!("{}#{}", procedure.id, step.id)),
    )
}

/// Whether a sentence tries something, and leaves it as it was: `with a thumb to feel it`.
fn is_a_trial(sentence: &Sentence<'_, '_>) -> bool {
    (0..sentence.count()).any(|at| sentence.word(at) == "to" && matches!(sentence.word(at + 1), "feel" | "see" | "hear" | "try" | "check" | "measure"))
}

/// Whether a material goes elsewhere: is brushed off, or poured into what no list knows.
fn is_elsewhere(nouns: &[&Nouns<'_>], work: Work, sentence: &Sentence<'_, '_>, end: usize) -> bool {
    let word = sentence.word(end);
    match work {
        Work::Spread => matches!(word, "off" | "away" | "out" | "from"),
        Work::Pour if matches!(word, "off" | "away" | "out") => true,
        Work::Pour if matches!(word, "in" | "into") && !closes(sentence, end + 1) => {
            let to = (end + 1..sentence.count()).find(|at| sentence.parts_before(*at) || ENDS.contains(&sentence.word(*at))).unwrap_or_else(|| sentence.count());
            let told_how = (end + 1..to).all(|at| sentence.word(at).ends_with("ly"));
            let known = |word: &str| nouns.iter().any(|nouns| nouns.lists.heads(ListKind::Fills).into_iter().any(|head| Named::of(head.id, head.name).is_some_and(|named| named.words.contains(singular(word)))));
            let is_part = |word: &str| nouns.iter().any(|nouns| nouns.with(word).iter().any(|listed| listed.kind == ListKind::Parts));
            let filled = (end + 1..to).map(|at| sentence.word(at)).filter(|word| !is_filler(word)).any(|word| known(word) || is_part(word));
            !told_how && !filled
        }
        _ => false,
    }
}

/// What goods lie in until they are taken.
const KEPT_IN: [&str; 9] = ["bag", "box", "tray", "packet", "pack", "shelf", "kit", "tin", "tub"];

/// Words that end an object.
const ENDS: [&str; 38] = [
    "away",
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
fn meant<'n, 'a>(nouns: &[&'n Nouns<'a>], work: Work, sentence: &Sentence<'_, '_>, object: &Range<usize>) -> Option<&'n Listed<'a>> {
    let last = sentence.word(object.end.checked_sub(1)?);
    nouns.iter().find_map(|nouns| {
        let listed = nouns.with(last);
        work.lists().iter().find_map(|kind| {
            listed.iter().filter(|listed| listed.kind == *kind).find(|listed| {
                let wet = *kind != ListKind::Materials || is_spread(nouns.lists, listed.id, work);
                wet && listed.named.is_meant_by(sentence, object) && is_its_own(sentence, object.end, &listed.named)
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
