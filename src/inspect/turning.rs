//! Turning shafts and timing them: which way, seen from where, and looked at again after two turns.

use super::walk::Walk;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Align, Entry, ListKind, Lists, Turn, Verb};
use std::collections::BTreeSet;

/// A turn has no sense.
pub(super) static ROTATION_SENSE_MISSING: Rule = Rule {
    name: "rotation-sense-missing",
    severity: Severity::Warning,
    summary: "A shaft is turned, and nobody says which way, seen from where.",
    explanation: Explanation {
        finds: "Turns that a step makes (turn:) and that have no sense:, or a sense without viewed_from:; and sentences that turn a crank, camshaft or flywheel, or an engine over, to a mark, notch, pointer or dead centre, in a step without turn: that says neither clockwise nor anticlockwise nor otherwise which way.",
        matters: "Clockwise from the flywheel is anticlockwise from the other end; a pump's vanes turned back break, a belt jumps.",
        may_be_wrong: "Where the way does not matter: say clockwise all the same, so that nobody wonders.",
        example: "crank-twice: {of: crank, amount: 2 turn}",
        instead: "crank-twice: {of: crank, amount: 2 turn, sense: clockwise, viewed_from: flywheel end}",
    },
};

/// A timing is set and never looked at again.
pub(super) static TIMING_NOT_RECHECKED: Rule = Rule {
    name: "timing-not-rechecked",
    severity: Severity::Warning,
    summary: "A belt, chain or gear train is timed, and not looked at again after a turn.",
    explanation: Explanation {
        finds: "Alignments whose id, name or marks speak of a belt, chain, sprocket, camshaft or timing gear, that a step sets (align:) and after which no shaft is turned (turn:) and the marks set or measured again.",
        matters: "A belt finds its slack on the first turn: a tooth out shows then, and not before.",
        may_be_wrong: "Gears with a mark on each tooth pair can't jump; turn them through all the same.",
        example: "[Belt on, marks in line](align:belt-marks). [Cover on](fit:belt-cover)",
        instead: "[Belt on, marks in line](align:belt-marks). [Two turns](turn:crank-twice). [Marks in line again](align:belt-marks). [Cover on](fit:belt-cover)",
    },
};

/// Words that tell of a drive that can jump.
const JUMPS: [&str; 7] = ["belt", "chain", "sprocket", "camshaft", "cam wheel", "timing gear", "timing wheel"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for (machine, procedure, scope) in every::procedures(context.manual) {
        for act in procedure.steps.iter().flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Turn)) {
            let Some((lists, entry)) = act.thing().and_then(|thing| scope.lists_of(thing)).and_then(|lists| Some((lists, lists.turns.get(&act.thing()?.id)?))) else { continue };
            if let Some(finding) = senseless(lists, entry).filter(|_| told.insert((&machine.id, &entry.id))) {
                findings.push(finding.related(act.place.clone(), "turned here"));
            }
        }
    }
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for walk in &context.walks {
        for at in 0..walk.moments.len() {
            if let Some((id, finding)) = not_rechecked(walk, at)
                && told.insert((&walk.machine.id, id))
            {
                findings.push(finding);
            }
        }
    }
}

fn senseless(lists: &Lists, entry: &Entry<Turn>) -> Option<Finding> {
    let given = entry.what.sense.is_given() || lists.is_unreadable(ListKind::Turns, &entry.id, "sense");
    let viewed = entry.what.viewed_from.is_given() || lists.is_unreadable(ListKind::Turns, &entry.id, "viewed_from");
    let (what, label, fix) = match (given, viewed) {
        (true, true) => return None,
        (false, _) => ("which way", "no sense", "add sense: clockwise or anticlockwise, and viewed_from:"),
        (true, false) => ("seen from where", "no viewed_from", "add viewed_from: the end one looks at the shaft from"),
    };
    Some(
        Finding::new(&ROTATION_SENSE_MISSING, entry.id_place.clone(), format!("‘{}’ is turned, and nobody says {what}", entry.name))
            .label(label)
            .fix(fix)
            .about(entry.id.clone()),
    )
}

fn jumps(entry: &Entry<Align>) -> bool {
    let said = format!("{} {} {}", entry.id.replace('-', " "), entry.name, entry.what.marks.join(" ")).to_lowercase();
    let words: Vec<&str> = said.split(|c: char| !c.is_alphanumeric()).collect();
    JUMPS.iter().any(|jump| {
        let wanted: Vec<&str> = jump.split(' ').collect();
        words.windows(wanted.len()).any(|window| window == wanted.as_slice())
    })
}

fn not_rechecked<'m>(walk: &Walk<'m>, at: usize) -> Option<(&'m str, Finding)> {
    let moment = walk.moments.get(at)?;
    let thing = moment.act.thing().filter(|_| moment.verb == Verb::Align)?;
    let entry = walk.scope(moment.procedure).thing(|lists| &lists.aligns, thing)?;
    let before = walk.moments.get(..at)?.iter().any(|earlier| earlier.verb == Verb::Align && earlier.act.things.contains(thing));
    if before || !jumps(entry) || walk.machine.may_mean(&entry.id) {
        return None;
    }
    let after = walk.moments.get(at + 1..).unwrap_or_default();
    let turned = after.iter().position(|later| later.verb == Verb::Turn);
    let again = turned.and_then(|turned| after.get(turned..)).is_some_and(|rest| rest.iter().any(|later| later.verb == Verb::Align && later.act.things.contains(thing)));
    (!again).then(|| {
        let turn = turned.and_then(|turned| after.get(turned));
        let label = if turned.is_some() { "turned after it, and not looked at again" } else { "nothing is turned after it" };
        let finding = Finding::new(&TIMING_NOT_RECHECKED, moment.act.place.clone(), format!("{} is set, and not looked at again after a turn", entry.name))
            .label(label)
            .related(entry.id_place.clone(), "listed here")
            .fix(format!("turn the shaft the way it runs (turn:…), and look at the marks again: align:{}", entry.id))
            .about(entry.id.clone());
        let finding = match turn {
            Some(turn) => finding.related(turn.act.place.clone(), format!("turned in {}", turn.words())),
            None => finding,
        };
        (entry.id.as_str(), finding)
    })
}
