//! Numbered balloons on pictures: one to a number, from 1, without a gap.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Balloon, Entry, Figure, ListKind, Lists};
use std::collections::BTreeMap;

/// Balloons and their rows don't match.
pub(super) static BALLOON_MISMATCH: Rule = Rule {
    name: "balloon-mismatch",
    severity: Severity::Error,
    summary: "The numbers on a picture are doubled, have a gap, or lie on one another.",
    explanation: Explanation {
        finds: "Balloons of a picture with a number twice, numbers that don't begin at 1 or leave one out, two balloons at one place, and one thing under two numbers.",
        matters: "The reader looks for number 3 on the picture, finds none, and takes 4.",
        may_be_wrong: "Where numbers shall stay the same over several pictures: number each picture from 1; the names beside the numbers say what is what.",
        example: "balloons: [{item: 1, …}, {item: 2, …}, {item: 4, …}]",
        instead: "balloons: [{item: 1, …}, {item: 2, …}, {item: 3, …}]",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        for figure in lists.figures.values().filter(|figure| !figure.what.balloons.is_empty() && is_whole(lists, figure)) {
            findings.extend(fault(figure));
        }
    }
}

/// Whether every balloon that is written could be read: else the gap has been reported.
fn is_whole(lists: &Lists, figure: &Entry<Figure>) -> bool {
    let written = lists.written.iter().filter(|w| w.kind == ListKind::Figures && w.id == figure.id && w.field == "balloons");
    let items: usize = written.map(|w| w.text.matches("item:").count()).sum();
    !lists.is_unreadable(ListKind::Figures, &figure.id, "balloons") && items == figure.what.balloons.len()
}

fn fault(figure: &Entry<Figure>) -> Option<Finding> {
    let mut numbers: BTreeMap<u64, &Balloon> = BTreeMap::new();
    for balloon in &figure.what.balloons {
        if let Some(first) = numbers.get(&balloon.item) {
            return Some(tell(figure, balloon, format!("number {} stands twice on the picture", balloon.item), "a second time").related(first.place.clone(), "the first"));
        }
        numbers.insert(balloon.item, balloon);
    }
    for (at, balloon) in figure.what.balloons.iter().enumerate() {
        let earlier = figure.what.balloons.get(..at).unwrap_or_default();
        if let Some(same) = earlier.iter().find(|other| touches(other, balloon)) {
            let message = format!("numbers {} and {} lie on one another", same.item, balloon.item);
            return Some(tell(figure, balloon, message, "the same place").related(same.place.clone(), "lies there too"));
        }
        let name = |balloon: &Balloon| balloon.of.as_ref().map(|of| of.value.clone());
        if let Some(same) = earlier.iter().find(|other| name(other).is_some() && name(other) == name(balloon)) {
            let message = format!("‘{}’ has two numbers, {} and {}", name(balloon).unwrap_or_default(), same.item, balloon.item);
            return Some(tell(figure, balloon, message, "a second number").related(same.place.clone(), "its first"));
        }
    }
    let mut expected = 1_u64;
    for (item, balloon) in &numbers {
        if *item != expected {
            let message = if expected == 1 { format!("the numbers on the picture begin at {item}") } else { format!("number {expected} is missing on the picture") };
            return Some(tell(figure, balloon, message, "numbers left out before this"));
        }
        expected = expected.saturating_add(1);
    }
    None
}

/// Whether two balloons lie within one per cent of the picture of one another.
fn touches(one: &Balloon, other: &Balloon) -> bool {
    (one.at.0 - other.at.0).abs() < 1.0 && (one.at.1 - other.at.1).abs() < 1.0
}

fn tell(figure: &Entry<Figure>, balloon: &Balloon, message: String, label: &str) -> Finding {
    let place: Place = balloon.place.clone();
    let items: Vec<String> = figure.what.balloons.iter().map(|balloon| balloon.item.to_string()).collect();
    Finding::new(&BALLOON_MISMATCH, place, message)
        .label(label)
        .figure(format!("{}: {}", figure.id, items.join(", ")))
        .fix("number the balloons from 1 on, each once, one to a thing")
        .about(figure.id.clone())
}
