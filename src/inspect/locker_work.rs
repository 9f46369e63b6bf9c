//! Thread lockers and lubricants at work: cleaned first, tightened while wet, cured before load; and the
//! thread in the condition its torque holds for.

use super::Context;
use super::barriers::UNSAFE_SESSION_END;
use super::walk::{Moment, Walk};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Fastener, ListKind, Material, ThingRef, Verb};
use crate::quantity::Quantity;

/// The working time of a thread locker that does not state one, in minutes: common practice.
const WORKING_MINUTES: f64 = 10.0;

/// Locker is put on and the fastener tightened too late.
pub(super) static LOCKER_WET_AT_DEFERRAL: Rule = Rule {
    name: "locker-wet-at-deferral",
    severity: Severity::Error,
    summary: "Thread locker is put on, and the fastener is tightened too late.",
    explanation: Explanation {
        finds: "A locker put on a fastener that is tightened only after a stop for the day, a wait, or more minutes of steps than the locker's working time (10 minutes where it states none: common practice).",
        matters: "The locker sets at hand tightness and is broken by the wrench: it holds nothing, and nobody sees it.",
        may_be_wrong: "Where the steps between take less time than they state.",
        example: "[Locker on](apply:medium-locker@nut), [nut on](start:nut). [Stop](stop:) … [tighten](torque:nut)",
        instead: "Run it up dry now; clean, locker and torque together in the later step.",
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
        finds: "fill: acts and tests of kind run or load that come, by the minutes of the steps and the waits between, sooner after a fastener was tightened than its locker's cure time.",
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
        finds: "Oil, grease, anti-seize or locker put on a fastener whose torque holds for another condition (threads:), another locker than the list's, and, as a warning, a fastener tightened without what its condition asks for.",
        matters: "The same wrench setting gives about a third more preload on an oiled thread than on a dry one (nut factor 0.15 against 0.20: common practice).",
        may_be_wrong: "Never: look up the torque for the thread as it is, or leave the thread as the torque wants it.",
        example: "cap-bolt: {threads: dry, torque: 24 N·m}\n[Anti-seize on the threads](apply:anti-seize@cap-bolt)",
        instead: "Leave the thread dry, or take the torque for lubricated threads with threads: anti-seize.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Apply => applied(walk, at, moment, findings),
                Verb::Torque => tightened(walk, at, moment, findings),
                Verb::Stop => findings.extend(wet_at_stop(walk, at, moment)),
                Verb::Fill | Verb::Test => findings.extend(cure_short(walk, at, moment)),
                _ => {}
            }
        }
    }
}

/// The fastener of a moment, with its entry.
fn fastener<'m>(walk: &Walk<'m>, moment: &Moment<'m>) -> Option<(&'m ThingRef, &'m Entry<Fastener>)> {
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Fasteners)?;
    walk.scope(moment.procedure).thing(|lists| &lists.fasteners, thing).map(|entry| (thing, entry))
}

/// The material of an `apply:`, with its entry.
fn material<'m>(walk: &Walk<'m>, moment: &Moment<'m>) -> Option<&'m Entry<Material>> {
    let material = moment.act.material.as_ref()?;
    walk.scope(moment.procedure).thing(|lists| &lists.materials, material)
}

fn is_locker(material: &Material) -> bool {
    material.kind.as_deref() == Some("thread-locker")
}

/// The thread condition that a material makes.
fn condition(material: &Material) -> Option<&'static str> {
    match material.kind.as_deref()? {
        "thread-locker" => Some("locker"),
        "oil" | "grease" => Some("oiled"),
        "anti-seize" => Some("anti-seize"),
        _ => None,
    }
}

fn applied(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let (Some((thing, entry)), Some(material)) = (fastener(walk, moment), material(walk, moment)) else { return };
    findings.extend(conflict(walk, moment, entry, material));
    if is_locker(&material.what) {
        findings.extend(not_cleaned(walk, at, moment, thing, entry));
        findings.extend(too_late(walk, at, moment, thing, entry, material));
    }
}

fn conflict(walk: &Walk<'_>, moment: &Moment<'_>, entry: &Entry<Fastener>, material: &Entry<Material>) -> Option<Finding> {
    let made = condition(&material.what)?;
    let wanted = entry.what.threads.case(&walk.combination)?;
    let locker = entry.what.locker.case(&walk.combination);
    let (message, figure, place) = match locker {
        Some(locker) if made == "locker" && locker.value != material.id => (
            format!("{} goes on {}, and its list says ‘{}’", material.name, entry.name, locker.value),
            None,
            locker.place.clone(),
        ),
        _ if wanted.value != made => {
            let figure = preload_shift(&wanted.value, made);
            (format!("{} goes on {}, whose torque is for {} threads", material.name, entry.name, wanted.value), figure, wanted.place.clone())
        }
        _ => return None,
    };
    Some(
        Finding::new(&THREAD_CONDITION_CONFLICT, moment.act.place.clone(), message)
            .label(format!("makes the thread {made}"))
            .related(place, format!("the torque is for {}", wanted.value))
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
                .related(oiled.act.place.clone(), oiled.words())
        }
        (None, _) => Finding::new(&LOCKER_WITHOUT_CLEANING, moment.act.place.clone(), format!("locker goes on {}, which no act of this procedure has cleaned", entry.name))
            .label("not cleaned before"),
        _ => return None,
    };
    Some(finding.fix(format!("clean it first: clean:{}", thing.id)).about(thing.id.clone()))
}

/// A `clean:`, or a solvent put on.
fn is_cleaning(walk: &Walk<'_>, moment: &Moment<'_>) -> bool {
    let solvent = || material(walk, moment).is_some_and(|material| material.what.kind.as_deref() == Some("solvent"));
    moment.verb == Verb::Clean || (moment.verb == Verb::Apply && solvent())
}

fn too_late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef, entry: &Entry<Fastener>, material: &Entry<Material>) -> Option<Finding> {
    let behind = walk.moments.get(at + 1..)?;
    let tightened = behind.iter().find(|other| other.verb == Verb::Torque && other.act.things.contains(thing))?;
    let working = minutes(material.what.working.as_ref()).unwrap_or(WORKING_MINUTES);
    let between = (tightened.minutes - moment.minutes - moment.step.minutes.unwrap_or(0.0)).max(0.0);
    let how = if tightened.session != moment.session {
        "after a stop for the day".to_owned()
    } else if tightened.waited > moment.waited {
        format!("after a wait of {}", time_words(tightened.waited - moment.waited))
    } else if between > working {
        format!("{} of steps later", time_words(between))
    } else {
        return None;
    };
    Some(
        Finding::new(&LOCKER_WET_AT_DEFERRAL, moment.act.place.clone(), format!("locker goes on {} here, and it is tightened {how}", entry.name))
            .label("would set at hand tightness")
            .related(tightened.act.place.clone(), format!("tightened in {}", tightened.words()))
            .figure(format!("{} can be tightened for {} after it is put on", material.name, time_words(working)))
            .fix("run it up dry here; clean, locker and torque together in the later step")
            .about(thing.id.clone()),
    )
}

fn tightened(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let Some((thing, entry)) = fastener(walk, moment) else { return };
    let Some(wanted) = entry.what.threads.case(&walk.combination) else { return };
    if !matches!(wanted.value.as_str(), "locker" | "oiled" | "anti-seize") {
        return;
    }
    let put_on = walk.moments.get(..at).unwrap_or_default().iter().any(|other| {
        other.verb == Verb::Apply && other.act.things.contains(thing) && material(walk, other).is_some_and(|m| condition(&m.what) == Some(wanted.value.as_str()))
    });
    let told = walk.moments.get(..at).unwrap_or_default().iter().any(|other| other.verb == Verb::Torque && other.act.things.contains(thing));
    if !put_on && !told {
        let what = if wanted.value == "locker" { "thread locker" } else { wanted.value.as_str() };
        findings.push(
            Finding::new(&THREAD_CONDITION_CONFLICT, moment.act.place.clone(), format!("{} is tightened, and nothing has been put on its thread", entry.name))
                .severity(Severity::Warning)
                .label(format!("the torque is for {}", wanted.value))
                .related(wanted.place.clone(), format!("threads: {}", wanted.value))
                .fix(format!("put it on before ([{what} on the thread](apply:MATERIAL@{})), or correct threads:", thing.id))
                .about(format!("{}.threads", entry.id)),
        );
    }
}

/// A stop with locker wet on a fastener, a bead laid on an open joint, or a part still hot.
fn wet_at_stop(walk: &Walk<'_>, at: usize, stop: &Moment<'_>) -> Option<Finding> {
    let before = walk.moments.get(..at)?;
    let wet = before.iter().enumerate().rev().find(|(index, moment)| {
        let Some((thing, _)) = fastener(walk, moment) else { return false };
        let locker = moment.verb == Verb::Apply && material(walk, moment).is_some_and(|m| is_locker(&m.what));
        let tightened = before.get(index + 1..).unwrap_or_default().iter().any(|o| o.verb == Verb::Torque && o.act.things.contains(thing));
        locker && !tightened && moment.session == stop.session
    });
    let hot = before.iter().enumerate().rev().find(|(index, moment)| {
        let Some(thing) = moment.act.thing() else { return false };
        let cooled = before.get(index + 1..).unwrap_or_default().iter().any(|o| o.verb == Verb::Cool && o.act.things.contains(thing));
        moment.verb == Verb::Heat && !cooled && moment.session == stop.session
    });
    let (moment, what) = match (wet, hot) {
        (Some((_, moment)), _) => (moment, "thread locker is wet"),
        (None, Some((_, moment))) => (moment, "a part is hot"),
        (None, None) => return None,
    };
    Some(
        Finding::new(&UNSAFE_SESSION_END, stop.act.place.clone(), format!("the day ends here while {what}"))
            .label("not a safe place to stop")
            .related(moment.act.place.clone(), moment.words())
            .fix("move the stop, or finish what can't wait before it")
            .about(format!("{}#{}", stop.procedure.id, stop.step.id)),
    )
}

fn cure_short(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    if moment.verb == Verb::Test {
        let test = scope.thing(|lists| &lists.tests, moment.act.thing()?)?;
        if !matches!(test.what.kind.get(&walk.combination).map(String::as_str), Some("run" | "load")) {
            return None;
        }
    }
    walk.moments.get(..at)?.iter().rev().find_map(|earlier| {
        let (thing, entry) = fastener(walk, earlier).filter(|_| earlier.verb == Verb::Torque)?;
        let locker = entry.what.locker.get(&walk.combination)?;
        let material = walk.scope(earlier.procedure).entry(|lists| &lists.materials, locker)?;
        let cure = minutes(material.what.cure.as_ref())?;
        let gone = moment.minutes + moment.waited - earlier.minutes - earlier.waited;
        (gone < cure).then(|| {
            Finding::new(&LOCKER_CURE_SHORT, moment.act.place.clone(), format!("the locker of {} has not cured here", entry.name))
                .label(format!("{} short", time_words(cure - gone)))
                .related(earlier.act.place.clone(), format!("tightened in {}", earlier.words()))
                .figure(format!("{} cures in {}; {} have gone by, waits counted, stops not", material.name, time_words(cure), time_words(gone)))
                .fix(format!("wait before this act: waits: {{…: {{time: ≥ {}, of: [{}]}}}}", time_words(cure), thing.id))
                .about(thing.id.clone())
        })
    })
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
