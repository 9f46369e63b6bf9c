//! Thread lockers and lubricants at work: cleaned first, tightened while wet, cured before load; and the
//! thread in the condition its torque holds for.

use super::locker_place::is_too_late;
use super::walk::{Moment, Walk, in_every};
use super::{Context, bare_threads};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, Fastener, ListKind, Material, ThingRef, Verb};
use crate::quantity::Quantity;
use std::collections::BTreeSet;

/// The working time of a thread locker that does not state one, in minutes: common practice.
pub(super) const WORKING_MINUTES: f64 = 10.0;

/// Locker is put on and the fastener tightened too late.
pub(super) static LOCKER_WET_AT_DEFERRAL: Rule = Rule {
    name: "locker-wet-at-deferral",
    severity: Severity::Error,
    summary: "Thread locker is put on, and the fastener is tightened too late.",
    explanation: Explanation {
        finds: "A locker put on a fastener that comes to its full value only after a stop for the day, or later than the locker can be worked (working:; 10 minutes where it states none: common practice), by the minutes of the steps between and the waits. A wicking locker, which is put on after the tightening, is left out.",
        matters: "The locker sets at hand tightness and is broken by the wrench: it holds nothing, and nobody sees it.",
        may_be_wrong: "Where the steps between take less time than they state.",
        example: "[Locker on](apply:medium-locker@nut), [nut on](start:nut). [Stop](stop:) … [tighten](torque:nut)",
        instead: "Run it up dry now; take it out, clean, locker and torque together in the later step.",
    },
};

/// Locker is put on a thread that nobody has cleaned.
pub(super) static LOCKER_WITHOUT_CLEANING: Rule = Rule {
    name: "locker-without-cleaning",
    severity: Severity::Warning,
    summary: "Thread locker is put on a thread that no step has cleaned.",
    explanation: Explanation {
        finds: "A locker put on a fastener that was not cleaned before in the same procedure; an error where it was oiled or greased after it was cleaned.",
        matters: "Locker does not set on oil, and old locker in the thread takes up part of the torque.",
        may_be_wrong: "Where the fastener is new and coated with locker by its maker: then its threads are as-supplied and nothing is put on.",
        example: "[Medium locker on the thread](apply:medium-locker@cap-bolt)",
        instead: "[Degrease bolt and hole](clean:cap-bolt). [Medium locker on the thread](apply:medium-locker@cap-bolt)",
    },
};

/// A joint is loaded before its locker has cured.
pub(super) static LOCKER_CURE_SHORT: Rule = Rule {
    name: "locker-cure-short",
    severity: Severity::Error,
    summary: "A machine is filled, run or loaded before a thread locker has cured.",
    explanation: Explanation {
        finds: "fill: acts and tests of kind run or load that come, by the minutes of the steps and the waits between, sooner after a fastener was tightened than its locker's cure time. Each fastener is told at the first such act.",
        matters: "Half-cured locker creeps under load, and oil washes it out.",
        may_be_wrong: "Where the joint is neither wetted nor loaded by what comes. Stops for the day don't count as time: write the wait.",
        example: "[Tighten the hub nut](torque:hub-nut) … [load test](test:load-test)   with a cure of 24 h and no wait between",
        instead: "waits: {cure: {time: ≥ 24 h, of: [hub-nut]}}   and [the locker has cured](wait:cure) before the test",
    },
};

/// A thread is in another condition than its torque holds for.
pub(super) static THREAD_CONDITION_CONFLICT: Rule = Rule {
    name: "thread-condition-conflict",
    severity: Severity::Error,
    summary: "A thread is treated otherwise than its torque assumes.",
    explanation: Explanation {
        finds: "Oil, grease, anti-seize or locker put on a fastener whose torque holds for another condition (threads:, or locker: alone), another locker than the list's, and, as a warning, a fastener whose last tightening comes without what its condition asks for (a solvent or primer is none), after a solvent that took it off again, or without fresh locker after it was slackened or taken out.",
        matters: "The same wrench setting gives about a third more preload on an oiled thread than on a dry one (nut factor 0.15 against 0.20: common practice).",
        may_be_wrong: "Never: look up the torque for the thread as it is, or leave the thread as the torque wants it.",
        example: "cap-bolt: {threads: dry, torque: 24 N·m}\n[Anti-seize on the threads](apply:anti-seize@cap-bolt)",
        instead: "Leave the thread dry, or take the torque for lubricated threads with threads: anti-seize.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let mut uncured: BTreeSet<&ThingRef> = BTreeSet::new();
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Apply => applied(walk, at, moment, findings),
                Verb::Torque => findings.extend(bare_threads::tightened_bare(walk, at, moment)),
                Verb::Fill | Verb::Test => findings.extend(cure_short(walk, at, moment, &mut uncured)),
                _ => {}
            }
        }
    });
}

pub(super) fn fastener<'m>(walk: &Walk<'m>, moment: &Moment<'m>) -> Option<(&'m ThingRef, &'m Entry<Fastener>)> {
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Fasteners)?;
    walk.scope(moment.procedure).thing(|lists| &lists.fasteners, thing).map(|entry| (thing, entry))
}

/// The material of an `apply:`, with its entry.
pub(super) fn material<'m>(walk: &Walk<'m>, moment: &Moment<'m>) -> Option<&'m Entry<Material>> {
    let material = moment.act.material.as_ref()?;
    walk.scope(moment.procedure).thing(|lists| &lists.materials, material)
}

/// Whether a material locks a thread that it is put on: a retaining compound does it as a locker does.
pub(super) fn is_locker(material: &Material) -> bool {
    matches!(material.kind.as_deref(), Some("thread-locker" | "retaining-compound"))
}

/// The thread condition that a material makes.
pub(super) fn condition(material: &Material) -> Option<&'static str> {
    match material.kind.as_deref()? {
        "thread-locker" | "retaining-compound" => Some("locker"),
        "oil" | "grease" => Some("oiled"),
        "anti-seize" => Some("anti-seize"),
        _ => None,
    }
}

fn applied(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let (Some((thing, entry)), Some(material)) = (fastener(walk, moment), material(walk, moment)) else { return };
    // A wicking locker is drawn into a thread that is tight already, whatever its torque was for.
    if is_wicking(&material.what) && moment.before.holds() {
        return;
    }
    // What is put on too late is told as that.
    if is_too_late(walk, at, moment) {
        return;
    }
    if !comes_off_again(walk, at, thing) {
        findings.extend(conflict(walk, moment, entry, material));
    }
    if is_locker(&material.what) && !is_wicking(&material.what) {
        findings.extend(not_cleaned(walk, at, moment, thing, entry));
        findings.extend(set_too_early(walk, at, moment, thing, entry, material));
    }
}

/// Whether what is put on a thread is cleaned off, or told at the locker that goes on over it, before the
/// fastener is tightened.
fn comes_off_again(walk: &Walk<'_>, at: usize, thing: &ThingRef) -> bool {
    let behind = walk.moments.get(at + 1..).unwrap_or_default().iter().filter(|other| other.act.things.contains(thing));
    let locker = |other: &Moment<'_>| other.verb == Verb::Apply && material(walk, other).is_some_and(|material| is_locker(&material.what));
    behind.take_while(|other| other.verb != Verb::Torque).any(|other| is_cleaning(walk, other) || locker(other))
}

/// Whether a locker is drawn into the thread after the fastener is tight.
pub(super) fn is_wicking(material: &Material) -> bool {
    material.strength.as_ref().is_some_and(|strength| strength.value == "wicking")
}

/// The thread condition that a fastener's torque holds for, and where it says so: threads:, or its locker.
pub(super) fn wanted<'m>(walk: &Walk<'_>, entry: &'m Entry<Fastener>) -> Option<(&'m str, &'m Place)> {
    let threads = entry.what.threads.case(&walk.combination).map(|case| (case.value.as_str(), &case.place));
    threads.or_else(|| entry.what.locker.case(&walk.combination).map(|case| ("locker", &case.place)))
}

/// Whether a thread so treated is as the torque wants it. What is in a moly paste, its name does not say.
pub(super) fn suits(wanted: &str, made: &str) -> bool {
    wanted == made || (wanted == "moly" && matches!(made, "oiled" | "anti-seize"))
}

/// A thread condition in words: what the torque is for.
pub(super) fn threads_words(condition: &str) -> &str {
    match condition {
        "locker" => "a thread with locker on it",
        "oiled" => "an oiled thread",
        "anti-seize" => "a thread with anti-seize on it",
        "moly" => "a thread with moly paste on it",
        "as-supplied" => "the thread as supplied",
        _ => "a dry thread",
    }
}

fn conflict(walk: &Walk<'_>, moment: &Moment<'_>, entry: &Entry<Fastener>, material: &Entry<Material>) -> Option<Finding> {
    let made = condition(&material.what)?;
    let (wanted, place) = wanted(walk, entry)?;
    let locker = entry.what.locker.case(&walk.combination).filter(|locker| made == "locker" && locker.value != material.id);
    let (message, label, figure, place, why) = match locker {
        Some(locker) if wanted == "locker" => {
            // A locker that stands in no list has been reported.
            let listed = walk.scope(moment.procedure).entry(|lists| &lists.materials, &locker.value)?;
            (format!("{} goes on {}, and its list says {}", material.name, entry.name, listed.name), "another locker", None, &locker.place, "the locker of its list")
        }
        _ if !suits(wanted, made) => (
            format!("{} goes on {}, and its torque is for {}", material.name, entry.name, threads_words(wanted)),
            "not what the torque is for",
            preload_shift(wanted, made),
            place,
            "what the torque is for",
        ),
        _ => return None,
    };
    Some(
        Finding::new(&THREAD_CONDITION_CONFLICT, moment.act.place.clone(), message)
            .label(label)
            .related(place.clone(), why)
            .figures(figure)
            .fix("leave the thread as its torque wants it, or take the torque for the thread as it is")
            .about(format!("{}.threads", entry.id)),
    )
}

/// Nut factors by thread condition: common practice, for screening.
fn nut_factor(condition: &str) -> Option<f64> {
    match condition {
        "dry" => Some(0.20),
        "locker" => Some(0.18),
        "oiled" | "anti-seize" => Some(0.15),
        "moly" => Some(0.12),
        _ => None,
    }
}

fn preload_shift(wanted: &str, made: &str) -> Option<String> {
    let (from, to) = (nut_factor(wanted)?, nut_factor(made)?);
    let percent = (from / to - 1.0) * 100.0;
    let word = if percent >= 0.0 { "more" } else { "less" };
    Some(format!("the same torque gives about {:.0} % {word} preload (nut factor {to:.2} instead of {from:.2}; common practice)", percent.abs()))
}

fn not_cleaned(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef, entry: &Entry<Fastener>) -> Option<Finding> {
    let before = walk.moments.get(..at)?;
    let here = |other: &Moment<'_>| other.procedure.id == moment.procedure.id && other.act.things.contains(thing);
    let cleaned = before.iter().rposition(|other| here(other) && is_cleaning(walk, other));
    let greasy = before.iter().rposition(|other| {
        other.act.things.contains(thing)
            && other.verb == Verb::Apply
            && material(walk, other).is_some_and(|m| matches!(condition(&m.what), Some("oiled" | "anti-seize")))
    });
    let finding = match (cleaned, greasy) {
        (cleaned, Some(greasy)) if cleaned.is_none_or(|cleaned| cleaned < greasy) => {
            let oiled = before.get(greasy)?;
            Finding::new(&LOCKER_WITHOUT_CLEANING, moment.act.place.clone(), format!("locker goes on {}, which was oiled", entry.name))
                .severity(Severity::Error)
                .label("does not set on oil")
                .related(oiled.act.place.clone(), format!("oiled in {}", oiled.words()))
        }
        (None, _) => Finding::new(&LOCKER_WITHOUT_CLEANING, moment.act.place.clone(), format!("locker goes on {}, which no act of this procedure has cleaned", entry.name))
            .label("not cleaned before"),
        _ => return None,
    };
    Some(finding.fix(format!("clean it first: clean:{}", thing.id)).about(thing.id.clone()))
}

/// A `clean:`, or a solvent put on.
pub(super) fn is_cleaning(walk: &Walk<'_>, moment: &Moment<'_>) -> bool {
    let solvent = || material(walk, moment).is_some_and(|material| material.what.kind.as_deref() == Some("solvent"));
    moment.verb == Verb::Clean || (moment.verb == Verb::Apply && solvent())
}

fn set_too_early(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef, entry: &Entry<Fastener>, material: &Entry<Material>) -> Option<Finding> {
    let behind = walk.moments.get(at + 1..)?;
    let tightened = behind.iter().find(|other| other.act.things.contains(thing) && (other.after.holds() || other.verb == Verb::Remove))?;
    let working = minutes(material.what.working.as_ref()).unwrap_or(WORKING_MINUTES);
    let how = too_late(moment, tightened, working).filter(|_| tightened.verb != Verb::Remove)?;
    Some(
        Finding::new(&LOCKER_WET_AT_DEFERRAL, moment.act.place.clone(), format!("locker goes on {} here, and it is tightened {how}", entry.name))
            .label("sets before it is tight")
            .related(tightened.act.place.clone(), format!("tightened in {}", tightened.words()))
            .figure(format!("{} can be worked for {}", material.name, time_words(working)))
            .fix("run it up dry here; take it out, clean, locker and torque together in the later step")
            .about(thing.id.clone()),
    )
}

/// How something that can be worked for so many minutes comes too late, in words; none where it is in time.
/// Neither the step it is put on in nor the later one is counted: nobody knows how much of them lies between.
pub(super) fn too_late(put_on: &Moment<'_>, later: &Moment<'_>, working: f64) -> Option<String> {
    let own = if std::ptr::eq(put_on.step, later.step) { 0.0 } else { put_on.step.minutes.unwrap_or(0.0) };
    let steps = (later.minutes - put_on.minutes - own).max(0.0);
    let waits = (later.waited - put_on.waited).max(0.0);
    if later.session != put_on.session {
        Some("after a stop for the day".to_owned())
    } else if steps + waits <= working {
        None
    } else if waits > steps {
        Some(format!("after a wait of {}", time_words(waits)))
    } else {
        Some(format!("{} of work later", time_words(steps)))
    }
}

/// The fastener whose locker has longest to go where a machine is filled, run or loaded; each is told once.
fn cure_short<'w>(walk: &'w Walk<'_>, at: usize, moment: &Moment<'_>, told: &mut BTreeSet<&'w ThingRef>) -> Option<Finding> {
    if moment.verb == Verb::Test {
        let test = walk.scope(moment.procedure).thing(|lists| &lists.tests, moment.act.thing()?)?;
        if !matches!(test.what.kind.get(&walk.combination).map(String::as_str), Some("run" | "load")) {
            return None;
        }
    }
    let mut short: Vec<Uncured<'w, '_>> = Vec::new();
    for (index, earlier) in walk.moments.get(..at)?.iter().enumerate().rev() {
        let Some(uncured) = uncured(walk, index, earlier, moment) else { continue };
        if !short.iter().any(|other| other.thing == uncured.thing) && !told.contains(uncured.thing) {
            short.push(uncured);
        }
    }
    told.extend(short.iter().map(|uncured| uncured.thing));
    short.sort_by(|a, b| a.left().total_cmp(&b.left()));
    let worst = short.pop()?;
    let more: Vec<String> = short.iter().rev().map(|uncured| format!("{} has {} to go as well", uncured.name, time_words(uncured.left()))).collect();
    Some(
        Finding::new(&LOCKER_CURE_SHORT, moment.act.place.clone(), format!("the locker of {} has not cured here", worst.name))
            .label(format!("{} short", time_words(worst.left())))
            .related(worst.tightened.act.place.clone(), format!("tightened in {}", worst.tightened.words()))
            .figure(format!("{} cures in {}; {} have gone by, waits counted, stops not", worst.locker, time_words(worst.cure), time_words(worst.gone)))
            .figures(more)
            .fix(later_wait(walk, at, &worst).unwrap_or_else(|| format!("wait before this act: waits: {{locker-cure: {{time: ≥ {}, of: [{}]}}}}", time_words(worst.cure), worst.thing.id)))
            .about(worst.thing.id.clone()),
    )
}

/// What to do where the wait for it is written, only too late.
fn later_wait(walk: &Walk<'_>, at: usize, uncured: &Uncured<'_, '_>) -> Option<String> {
    walk.moments.iter().skip(at + 1).filter(|later| later.verb == Verb::Wait).find_map(|later| {
        let thing = later.act.thing()?;
        let wait = walk.scope(later.procedure).thing(|lists| &lists.waits, thing)?;
        let covers = wait.what.of.iter().any(|waiting| waiting.value == uncured.thing.id);
        covers.then(|| format!("the wait for it comes only in {}: move wait:{} before this act", later.words(), thing.id))
    })
}

/// A tightened fastener whose locker has not cured yet.
struct Uncured<'w, 'm> {
    thing: &'w ThingRef,
    name: &'m str,
    locker: &'m str,
    tightened: &'w Moment<'m>,
    cure: f64,
    gone: f64,
}

impl Uncured<'_, '_> {
    fn left(&self) -> f64 {
        self.cure - self.gone
    }
}

fn uncured<'w, 'm>(walk: &'w Walk<'m>, at: usize, earlier: &'w Moment<'m>, now: &Moment<'_>) -> Option<Uncured<'w, 'm>> {
    let (thing, entry) = fastener(walk, earlier).filter(|_| earlier.verb == Verb::Torque && earlier.after.holds())?;
    let put_on = walk.moments.get(..at)?.iter().rev().filter(|other| other.verb == Verb::Apply && other.act.things.contains(thing));
    let locker = put_on.filter_map(|other| material(walk, other)).find(|material| is_locker(&material.what)).or_else(|| {
        let id = entry.what.locker.get(&walk.combination)?;
        walk.scope(earlier.procedure).entry(|lists| &lists.materials, id)
    })?;
    let cure = minutes(locker.what.cure.as_ref())?;
    let gone = now.minutes + now.waited - earlier.minutes - earlier.waited;
    (gone < cure).then_some(Uncured { thing, name: &entry.name, locker: &locker.name, tightened: earlier, cure, gone })
}

/// The least a time lasts, in minutes.
pub(super) fn minutes(time: Option<&Quantity>) -> Option<f64> {
    let (low, high) = time?.low_high();
    low.or(high).map(|seconds| seconds / 60.0)
}

/// `24 h`, `1 h 30 min`, `40 min`.
pub(super) fn time_words(minutes: f64) -> String {
    let whole = minutes.round().max(0.0);
    let (hours, rest) = ((whole / 60.0).floor(), whole % 60.0);
    match (hours > 0.0, rest > 0.0) {
        (true, true) => format!("{hours:.0} h {rest:.0} min"),
        (true, false) => format!("{hours:.0} h"),
        _ => format!("{rest:.0} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_read_as_a_clock_tells_them() {
        assert_eq!(time_words(1440.0), "24 h");
        assert_eq!(time_words(90.0), "1 h 30 min");
        assert_eq!(time_words(40.2), "40 min");
        assert_eq!(time_words(0.0), "0 min");
    }

    // Common practice: the same setting gives about a third more on oiled threads (0.20 / 0.15).
    #[test]
    fn oil_gives_a_third_more() {
        assert!(preload_shift("dry", "oiled").unwrap().starts_with("the same torque gives about 33 % more preload"));
        assert!(preload_shift("oiled", "dry").unwrap().starts_with("the same torque gives about 25 % less preload"));
        assert_eq!(preload_shift("as-supplied", "dry"), None);
    }
}
