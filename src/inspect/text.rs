//! What the words say: values that stand twice, notices that come too late.

use super::Context;
use super::against_list::WORDS_AGAINST_LIST;
use super::prose::runs;
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::rules::TWO_VALUES_ONE_FASTENER;
use crate::manual::{Act, ListKind, Procedure, Scope, Step, Torque, Verb};
use crate::quantity::{Dimension, Quantity, find_in_prose};
use crate::source::{Block, Inline, Notice, each_inline, plain_text};
use crate::trade::signal::SignalWord;

/// A number with a unit stands in the text instead of a pointer.
pub(super) static NAKED_VALUE: Rule = Rule {
    name: "naked-value",
    severity: Severity::Warning,
    summary: "A number with a unit stands in the text instead of a pointer to the list.",
    explanation: Explanation {
        finds: "Numbers with units in the running text, in notices, tables, headings and in the words of acts. Code blocks are left alone.",
        matters: "A value in the text is not converted, not checked and not changed when the list changes. One value, one home.",
        may_be_wrong: "Where the number is no value of the work (the size of a workshop, the length of a film): say it in words.",
        example: "Tighten it to 26 N·m.",
        instead: "[Tighten the cap bolts](torque:cap-bolt), with the torque in the list",
    },
};

/// A safety notice stands behind the act it guards.
pub(super) static WARNING_AFTER_STEP: Rule = Rule {
    name: "warning-after-step",
    severity: Severity::Error,
    summary: "A safety notice stands behind the last act of its step.",
    explanation: Explanation {
        finds: "DANGER, WARNING and CAUTION notices with no act behind them in their step.",
        matters: "A hand is burnt before the eye has reached the warning.",
        may_be_wrong: "A notice about what follows in the next step belongs into that step.",
        example: "[Warm the carrier](heat:warm-carrier)\n\n> **WARNING** The carrier is hot …",
        instead: "> **WARNING** The carrier is hot …\n\n[Warm the carrier](heat:warm-carrier)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            naked_values(procedure, scope, findings);
            for step in &procedure.steps {
                act_words(step, scope, findings);
                late_notices(step, findings);
            }
        }
    }
}

fn naked_values(procedure: &Procedure, scope: Scope<'_>, findings: &mut Vec<Finding>) {
    for blocks in procedure.texts() {
        for run in runs(blocks) {
            for span in find_in_prose(run.text()) {
                let Some(value) = run.text().get(span.clone()) else { continue };
                if let Some(place) = run.place(span.start, span.end) {
                    findings.push(naked(value, place, scope));
                }
            }
        }
    }
    for step in &procedure.steps {
        for span in find_in_prose(&step.title) {
            if let Some(value) = step.title.get(span) {
                findings.push(naked(value, step.place.clone(), scope));
            }
        }
    }
}

fn naked(value: &str, place: Place, scope: Scope<'_>) -> Finding {
    let finding = Finding::new(&NAKED_VALUE, place, format!("‘{value}’ stands in the text instead of in a list"))
        .label("not a pointer")
        .fix("put the value in the front matter and point to it with an act; or say it in words");
    finding.figures(same_value(value, scope))
}

/// The fasteners that have this torque: probably the one meant.
fn same_value(value: &str, scope: Scope<'_>) -> Vec<String> {
    let Ok(wanted) = Quantity::parse(value, Dimension::Torque) else { return Vec::new() };
    let fasteners = scope.homes().flat_map(|(_, lists)| lists.fasteners.values());
    fasteners
        .filter(|entry| entry.what.torque.cases.iter().flat_map(|case| Torque::stages(&case.value)).any(|stage| stage.same_value(&wanted)))
        .map(|entry| format!("{} has {value} in its list: [Tighten it](torque:{})", entry.name, entry.id))
        .collect()
}

/// A value in an act's words: another torque than the list's is a contradiction, any other a copy.
fn act_words(step: &Step, scope: Scope<'_>, findings: &mut Vec<Finding>) {
    each_inline(&step.blocks, &mut |inline| {
        let Inline::Act(index, inlines) = inline else { return };
        let Some(act) = step.acts.get(*index) else { return };
        let words = plain_text(inlines);
        for span in find_in_prose(&words) {
            let Some(value) = words.get(span) else { continue };
            let place = place_in(inlines, value).unwrap_or_else(|| act.place.clone());
            findings.push(contradiction(act, value, &place, scope).or_else(|| against_work(act, &words, value, &place, scope)).unwrap_or_else(|| naked(value, place, scope)));
        }
    });
}

/// Where a value stands in an act's words.
fn place_in(words: &[Inline], value: &str) -> Option<Place> {
    words.iter().find_map(|inline| match inline {
        // An entity or escape is longer in the file than in the text.
        Inline::Text(text, place) if place.end - place.start == text.len() => text.find(value).map(|at| place.part(at..at + value.len())),
        Inline::Emphasis(inner) | Inline::Strong(inner) => place_in(inner, value),
        _ => None,
    })
}

/// Work whose values an act's words may repeat, with the fields that say what is to be done.
const OF_WORK: [(Verb, &[&str]); 7] = [
    (Verb::Heat, &["from", "to"]),
    (Verb::Cool, &["cool"]),
    (Verb::Fill, &["amount"]),
    (Verb::Begin, &["time"]),
    (Verb::Wait, &["time"]),
    (Verb::Measure, &["spec", "limit"]),
    (Verb::Turn, &["amount"]),
];
/// Words of an act that tell of a part of the work, of a turn among others, or of how to do it: `200 mL now`, `90° at a time`, `every
/// 10 min`, `for about 15 minutes`.
const OF_A_PART: [&str; 16] = ["every", "each", "time", "now", "first", "then", "rest", "more", "again", "about", "for", "after", "until", "dial", "steps", "step"];

/// A value in the words of work that lies outside everything of its kind in the list, where the words speak of nothing else.
fn against_work(act: &Act, words: &str, value: &str, place: &Place, scope: Scope<'_>) -> Option<Finding> {
    let thing = act.thing()?;
    let (_, fields) = OF_WORK.iter().find(|(verb, _)| act.verb == Some(*verb))?;
    let words = format!(" {}", words.to_lowercase());
    // What an article stands before is a thing of that size: ‘a 0.01 mm dial’.
    let of_a_thing = [" a ", " an ", " the "].iter().any(|article| words.contains(&format!("{article}{}", value.to_lowercase())));
    if of_a_thing || words.split(|sign: char| !sign.is_alphabetic()).any(|word| OF_A_PART.contains(&word)) {
        return None;
    }
    let head = scope.head(thing)?;
    let said = Quantity::parse_free(value).ok()?;
    let written = scope.lists_of(thing)?.written.iter().filter(|written| written.kind == thing.kind && written.id == thing.id && fields.contains(&written.field));
    let listed: Vec<_> = written.filter_map(|written| Some((written, Quantity::parse_free(&written.text).ok()?))).filter(|(_, listed)| listed.dimension() == said.dimension()).collect();
    let agrees = |listed: &Quantity| listed.says_the_same(&said) || said.lies_within(listed) == Some(true) || said.nominal().is_some_and(|said| [listed.nominal(), listed.low_high().0, listed.low_high().1].contains(&Some(said)));
    let (last, _) = listed.last().filter(|_| !listed.iter().any(|(_, listed)| agrees(listed)))?;
    let list = listed.iter().map(|(written, _)| format!("{} ({}:)", written.text, written.field)).collect::<Vec<_>>().join(", ");
    Some(
        Finding::new(&WORDS_AGAINST_LIST, place.clone(), format!("‘{value}’, and the list of {} has {list}", head.name))
            .label("another value")
            .related(last.place.clone(), "the list")
            .fix("take the value out of the words: the page shows the list's where the act stands")
            .about(format!("{}.{}", thing.id, last.field)),
    )
}

fn contradiction(act: &Act, value: &str, here: &Place, scope: Scope<'_>) -> Option<Finding> {
    let thing = act.thing().filter(|thing| act.verb == Some(Verb::Torque) && thing.kind == ListKind::Fasteners)?;
    let entry = scope.thing(|lists| &lists.fasteners, thing)?;
    let said = Quantity::parse(value, Dimension::Torque).ok()?;
    let meant = |case: &Torque| -> Vec<Quantity> {
        let stages = case.stages();
        let one = act.stage.and_then(|stage| usize::try_from(stage).ok()).and_then(|stage| stages.get(stage.saturating_sub(1)));
        one.map_or_else(|| stages.to_vec(), |stage| vec![stage.clone()])
    };
    let listed: Vec<Vec<Quantity>> = entry.what.torque.cases.iter().map(|case| meant(&case.value)).collect();
    if listed.iter().all(Vec::is_empty) || listed.iter().flatten().any(|stage| stage.same_value(&said)) {
        return None;
    }
    let in_turn = |stages: &Vec<Quantity>| stages.iter().map(Quantity::written).collect::<Vec<_>>().join(" then ");
    let list = listed.iter().map(in_turn).collect::<Vec<_>>().join(" or ");
    let place = entry.what.torque.cases.first().map(|case| case.place.clone())?;
    Some(
        Finding::new(&TWO_VALUES_ONE_FASTENER, here.clone(), format!("{} has two values: {value} here, {list} in its list", entry.name))
            .label(format!("{value} here"))
            .related(place, format!("{list} in the list"))
            .fix("take the value out of the words: the page shows the list's where the act stands")
            .about(format!("{}.torque", entry.id)),
    )
}

fn late_notices(step: &Step, findings: &mut Vec<Finding>) {
    for notice in notices(step) {
        let about_injury = SignalWord::find(&notice.word).is_some_and(|word| word != SignalWord::Notice);
        let works = |acts: &[Act]| acts.iter().any(|act| act.verb.is_some_and(Verb::ticks));
        let (before, behind) = step.acts.split_at(notice.acts_before.min(step.acts.len()));
        // The notice's own tool: marks do not count: they are inside it.
        if about_injury && works(before) && !works(behind) {
            let last = before.iter().rev().find(|act| act.verb.is_some_and(Verb::ticks));
            let finding = Finding::new(&WARNING_AFTER_STEP, notice.place.clone(), format!("this {} comes after the work it warns of", notice.word))
                .label("too late here")
                .fix("move it above the act it guards")
                .about(step.id.clone());
            findings.push(match last {
                Some(act) => finding.related(act.place.clone(), "the last act of the step"),
                None => finding,
            });
        }
    }
}

/// The safety notices of a step, in reading order.
pub(super) fn notices(step: &Step) -> Vec<&Notice> {
    let mut notices = Vec::new();
    gather_notices(&step.blocks, &mut notices);
    notices
}

fn gather_notices<'a>(blocks: &'a [Block], notices: &mut Vec<&'a Notice>) {
    for block in blocks {
        match block {
            Block::Notice(notice) => notices.push(notice),
            Block::Quote(inner) => gather_notices(inner, notices),
            Block::List(_, items) => items.iter().for_each(|item| gather_notices(item, notices)),
            Block::Paragraph(_) | Block::Heading(..) | Block::Table(_) | Block::Code(..) | Block::Rule => {}
        }
    }
}
