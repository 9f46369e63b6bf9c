//! Threads that lack, at their fastener's last tightening, what its torque is for.

use super::locker_place::is_too_late;
use super::locker_work::{THREAD_CONDITION_CONFLICT, condition, fastener, is_cleaning, material, suits, threads_words, wanted};
use super::walk::{Moment, State, Walk};
use super::words::Words;
use crate::finding::{Finding, Severity};
use crate::manual::{Material, Verb};

/// A fastener's last tightening, where nothing has been put on its thread and its torque is for something on it.
pub(super) fn tightened_bare(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let (thing, entry) = fastener(walk, moment)?;
    let (wanted, place) = wanted(walk, entry).filter(|(wanted, _)| matches!(*wanted, "locker" | "oiled" | "anti-seize" | "moly"))?;
    // An earlier tightening may have been a trial; then it is slackened or taken out again.
    let is_last = moment.after.holds() && !walk.moments.get(at + 1..)?.iter().any(|other| other.verb == Verb::Torque && other.act.things.contains(thing));
    let locker = entry.what.locker.get(&walk.combination);
    // An act that is not understood may have put it on.
    if !is_last || walk.machine.may_mean(&thing.id) || locker.is_some_and(|locker| walk.machine.may_mean(locker)) {
        return None;
    }
    // A locker that goes on afterwards is told at its own act.
    if walk.moments_of(thing).any(|(other, later)| other > at && is_too_late(walk, other, later)) {
        return None;
    }
    let before = walk.moments.get(..at)?;
    let last = |does: &dyn Fn(&Moment<'_>) -> bool| before.iter().rposition(|other| other.act.things.contains(thing) && does(other));
    let undone = last(&|other| matches!(other.verb, Verb::Loosen | Verb::Remove));
    let put_on = last(&|other| other.verb == Verb::Apply && material(walk, other).is_none_or(|material| may_make(&material.what, wanted)));
    // What makes another condition has been told where it was put on.
    let told_there = || undone.is_none() && last(&|other| material(walk, other).is_some_and(|material| condition(&material.what).is_some())).is_some();
    let washed_off = last(&|other| washes_off(walk, other));
    let lost = match (put_on, undone) {
        // Locker that has been torn off holds nothing; oil stays where it is.
        (Some(put_on), Some(undone)) if wanted == "locker" && put_on < undone => Lost::TornOff(walk.moments.get(undone)?),
        (Some(put_on), _) => Lost::Washed(walk.moments.get(washed_off.filter(|washed| put_on < *washed)?)?),
        (None, _) if !told_there() => Lost::NeverOn,
        _ => return None,
    };
    let what = match wanted {
        "locker" => "locker",
        "oiled" => "oil",
        "moly" => "moly paste",
        other => other,
    };
    let message = match &lost {
        Lost::TornOff(_) => format!("{} is tightened again, and no fresh locker has been put on", entry.name),
        Lost::Washed(_) => format!("{} is tightened, and its {what} has been washed off", entry.name),
        Lost::NeverOn => format!("{} is tightened, and no {what} has been put on its thread", entry.name),
    };
    let id = if wanted == "locker" { locker.map_or("LOCKER", String::as_str) } else { "MATERIAL" };
    let fix = match &lost {
        Lost::Washed(_) => format!("clean it before, and put the {what} on behind the cleaning: apply:{id}@{}", thing.id),
        _ => format!("put it on before: apply:{id}@{}; or correct threads:", thing.id),
    };
    let finding = Finding::new(&THREAD_CONDITION_CONFLICT, moment.act.place.clone(), message)
        .severity(Severity::Warning)
        .label(format!("the torque is for {}", threads_words(wanted)))
        .related(place.clone(), "what the torque is for")
        .fix(fix)
        .about(format!("{}.threads", entry.id));
    Some(match lost {
        Lost::TornOff(undone) => finding.related(undone.act.place.clone(), format!("undone in {}", undone.words())),
        Lost::Washed(cleaning) => finding.related(cleaning.act.place.clone(), format!("washed off in {}", cleaning.words())),
        Lost::NeverOn => finding,
    })
}

/// Why a thread has nothing on it when it is tightened.
enum Lost<'w, 'm> {
    /// Nothing was put on.
    NeverOn,
    /// Its fastener was slackened or taken out since.
    TornOff(&'w Moment<'m>),
    /// A solvent was put on since.
    Washed(&'w Moment<'m>),
}

/// Whether a material may be what a torque holds for: one that makes the condition, or one of which nobody knows what it
/// makes. Neither a solvent nor a primer is any.
fn may_make(material: &Material, wanted: &str) -> bool {
    match condition(material) {
        Some(made) => suits(wanted, made),
        None => !matches!(material.kind.as_deref(), Some("solvent" | "primer" | "coolant" | "fuel")),
    }
}

/// Words of an act that wipes off what has come out, and leaves the thread as it is.
const EXCESS: [&str; 7] = ["excess", "ooze", "oozes", "oozed", "squeezed out", "comes out", "around the head"];

/// Whether an act takes off a thread what was put on it: a solvent on all of them, while the thread is open. What is wiped (clean:)
/// may be the excess alone.
fn washes_off(walk: &Walk<'_>, moment: &Moment<'_>) -> bool {
    let open = matches!(moment.before, State::Absent | State::Removed | State::Loosened);
    open && moment.act.times.is_none() && moment.verb == Verb::Apply && is_cleaning(walk, moment) && Words::of(&moment.act.words).first(&EXCESS).is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_makes_the_condition_counts_and_what_nobody_knows() {
        let may = |kind: &str, wanted: &str| may_make(&Material { kind: Some(kind.to_owned()), ..Material::default() }, wanted);
        assert!(may("thread-locker", "locker") && may("retaining-compound", "locker") && may("oil", "oiled") && may("grease", "moly"));
        assert!(!may("oil", "locker") && !may("thread-locker", "oiled"));
        for kind in ["solvent", "primer", "coolant", "fuel"] {
            assert!(!may(kind, "locker") && !may(kind, "oiled") && !may(kind, "moly"), "{kind}");
        }
        assert!(may("other", "moly") && may("other", "locker"));
    }
}
