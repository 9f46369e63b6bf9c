//! Torques against what the thread, its class and its condition can bear: plausible or not, never correct.

use super::Context;
use super::stages::stage_place;
use crate::finding::{Explanation, FileTable, Finding, Place, Rule, Severity};
use crate::manual::{Case, Combination, Entry, Fastener, Lists, Torque, Varied, middle};
use crate::quantity::{Dimension, Quantity};
use crate::trade::friction::ThreadCondition;
use crate::trade::property::PropertyClass;
use crate::trade::reread::{TorqueUnit, readings};
use crate::trade::screening::{Band, Role, ScreenedJoint, Standing};

/// A torque would stretch the bolt beyond its proof load.
pub(super) static PRELOAD_OVER_PROOF: Rule = Rule {
    name: "preload-over-proof",
    severity: Severity::Error,
    summary: "A torque would stretch the bolt beyond its proof load.",
    explanation: Explanation {
        finds: "Torques that, by F = T/(K·d) with the nut factor of the thread condition, give more preload than stress area times proof stress (ISO 898-1, ISO 3506-1, SAE J429). Nut factors are common practice.",
        matters: "The bolt stays long, lets go of its joint, or breaks under the wrench.",
        may_be_wrong: "Screening only: waisted bolts and special steels bear other loads. The class of a nut stands for the bolt that goes with it; where no class is written, 8.8 (SAE 5) is taken. What only sets or clamps something soft, and a set screw of a hardness class (45H), is held against the strongest bolt there is, 12.9 (SAE 8).",
        example: "end-cover-screw: {thread: M6x1.0, class: 8.8, role: cover, threads: dry, torque: 22 N·m}",
        instead: "Look at the source again: the unit, the row, the thread.",
    },
};

/// A torque is unusual for what the fastener does.
pub(super) static TORQUE_OUTSIDE_BAND: Rule = Rule {
    name: "torque-outside-band",
    severity: Severity::Warning,
    summary: "A torque is unusual for its thread, class and role.",
    explanation: Explanation {
        finds: "Torques whose share of the proof load lies outside what is usual for the role (common practice: drive 50–90 %, clamp 40–90, cover 25–80, shaft-nut 10–75, plug 4–35, snug stage of an angle 10–60).",
        matters: "Too low works loose, too high leaves nothing for the load.",
        may_be_wrong: "The bands are for screening. Soft joints: role: soft, with because:. A value that its source really gives can be waived.",
        example: "hub-bolt: {thread: M6x1.0, class: 10.9, role: drive, torque: 5 N·m}",
        instead: "Cite the page, correct the value, or name the role the fastener really has.",
    },
};

/// A torque fits much better in another unit.
pub(super) static UNIT_SLIP_SUSPECTED: Rule = Rule {
    name: "unit-slip-suspected",
    severity: Severity::Warning,
    summary: "A torque is implausible as written, and plausible in another unit.",
    explanation: Explanation {
        finds: "Torques outside the band of their role whose number, read as N·m, lbf·ft, lbf·in, kgf·m or kgf·cm, falls inside it. An error below half of the band; beyond proof it is told there (preload-over-proof).",
        matters: "The commonest slip of all: the neighbouring column of the table.",
        may_be_wrong: "Where the value is right and only unusual: see torque-outside-band.",
        example: "cap-bolt: {thread: M8x1.25, class: 8.8, role: clamp, torque: 2.4 N·m}",
        instead: "cap-bolt: {thread: M8x1.25, class: 8.8, role: clamp, torque: 2.4 kgf·m}",
    },
};

/// Nobody says whether a torque is for dry or oiled threads.
pub(super) static THREAD_CONDITION_MISSING: Rule = Rule {
    name: "thread-condition-missing",
    severity: Severity::Warning,
    summary: "A torque does not say for what thread condition it holds.",
    explanation: Explanation {
        finds: "Fasteners of role drive, clamp, shaft-nut or angle with a torque and no threads:.",
        matters: "The same wrench setting gives about a third more preload when oiled (nut factor 0.15 instead of 0.20: common practice).",
        may_be_wrong: "Where the source says nothing: threads: as-supplied, and say so in note:.",
        example: "head-bolt: {thread: M10x1.25, role: angle, torque: [20 N·m, 38 N·m, 90°]}",
        instead: "head-bolt: {thread: M10x1.25, role: angle, threads: oiled, torque: [20 N·m, 38 N·m, 90°]}",
    },
};

/// A property class that does not go with its thread.
pub(super) static CLASS_THREAD_MISMATCH: Rule = Rule {
    name: "class-thread-mismatch",
    severity: Severity::Error,
    summary: "A property class is not known, or does not go with its thread.",
    explanation: Explanation {
        finds: "Classes that are in none of ISO 898-1, ISO 898-2, ISO 3506-1 and SAE J429, nor hardness classes of set screws (14H to 45H, ISO 898-5), metric classes on inch threads and the reverse, and classes that the standard does not have in that size.",
        matters: "Without the class nobody can say what the bolt bears, or buy the next one.",
        may_be_wrong: "Special bolts: leave class: out and describe the bolt in note:.",
        example: "cap-bolt: {thread: M8x1.25, class: SAE 5}",
        instead: "cap-bolt: {thread: M8x1.25, class: 8.8}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
        for lists in lists {
            for entry in lists.fasteners.values() {
                fastener(&context.sources.files, lists, entry, findings);
            }
        }
    }
}

fn fastener(files: &FileTable, lists: &Lists, entry: &Entry<Fastener>, findings: &mut Vec<Finding>) {
    let told = findings.len();
    for case in &entry.what.class.cases {
        findings.extend(class_fault(entry, case));
    }
    findings.extend(condition_missing(lists, entry));
    if findings.len() > told {
        return;
    }
    for case in &entry.what.torque.cases {
        match joint(&entry.what, &case.when).filter(|joint| joint.role.band().is_some()) {
            Some(joint) => findings.extend(screened(files, entry, case, &joint)),
            None => findings.extend(beyond_every_class(files, entry, case)),
        }
    }
}

/// Whether a torque is reported as more than its bolt bears.
pub(super) fn is_told_over_proof(lists: &Lists, entry: &Entry<Fastener>, case: &Case<Torque>) -> bool {
    let is_screened = entry.what.class.cases.iter().all(|class| class_fault(entry, class).is_none()) && condition_missing(lists, entry).is_none();
    let torque = last_torque(&case.value).and_then(middle);
    let standing = joint(&entry.what, &case.when).zip(torque).and_then(|(joint, torque)| joint.standing(torque));
    is_screened && standing == Some(Standing::OverProof)
}

/// The value of a field where a case of another field holds.
pub(super) fn beside<'v, T>(value: &'v Varied<T>, when: &Combination) -> Option<&'v T> {
    value.beside(when)
}

fn class_fault(entry: &Entry<Fastener>, case: &Case<String>) -> Option<Finding> {
    let thread = beside(&entry.what.thread, &case.when);
    let fault = match (PropertyClass::find(&case.value), thread) {
        (None, Some(thread)) if PropertyClass::is_of_hardness(&case.value) && thread.is_metric() => return None,
        (None, None) if PropertyClass::is_of_hardness(&case.value) => return None,
        (None, _) => format!("‘{}’ is no property class that we know", case.value),
        (Some(class), Some(thread)) => class.strength(thread).err()?.message(),
        (Some(_), None) => return None,
    };
    let fix = match thread.and_then(|thread| thread.pipe()) {
        Some(_) => "leave class: out: what closes a pipe has none, and its torque is the maker's".to_owned(),
        None => format!("read the mark on the head; known: {}; of set screws 14H, 22H, 33H, 45H; without a mark leave class: out", PropertyClass::names().join(", ")),
    };
    Some(
        Finding::new(&CLASS_THREAD_MISMATCH, case.place.clone(), fault)
            .label("does not go with its thread")
            .figures(thread.map(|thread| format!("{} is {thread}", entry.name)))
            .fix(fix)
            .about(format!("{}.class", entry.id)),
    )
}

fn condition_missing(lists: &Lists, entry: &Entry<Fastener>) -> Option<Finding> {
    let fastener = &entry.what;
    let role = fastener.role.first()?;
    let matters = matches!(role.as_str(), "drive" | "clamp" | "shaft-nut" | "angle");
    let stages = fastener.torque.first().map_or(0, |torque| torque.stages().len());
    let silent = fastener.threads.is_given() || lists.is_unreadable(crate::manual::ListKind::Fasteners, &entry.id, "threads");
    (matters && stages > 0 && !silent).then(|| {
        Finding::new(&THREAD_CONDITION_MISSING, entry.id_place.clone(), format!("{}: is its torque for dry or for oiled threads?", entry.name))
            .label("no threads:")
            .figure("oiled threads give about 33 % more preload at the same setting (nut factor 0.15 instead of 0.20; common practice)")
            .fix("write threads: dry, oiled, locker, anti-seize, moly or as-supplied, as the source has it")
            .about(format!("{}.threads", entry.id))
    })
}

/// A joint as it is screened, and what of it nobody wrote.
pub(super) struct Reckoned {
    pub joint: ScreenedJoint,
    pub class: &'static PropertyClass,
    pub class_assumed: bool,
    pub condition: ThreadCondition,
    pub condition_assumed: bool,
}

/// The joint as it is screened under a condition of variants; none where thread, class or role give nothing to reckon with.
pub(super) fn reckoned(fastener: &Fastener, when: &Combination) -> Option<Reckoned> {
    let thread = beside(&fastener.thread, when)?;
    let written = beside(&fastener.class, when);
    let class = match written {
        Some(class) => PropertyClass::find(class)?,
        None => PropertyClass::assumed(thread),
    };
    let known = beside(&fastener.threads, when).and_then(|word| ThreadCondition::find(word));
    let condition = known.unwrap_or(ThreadCondition::Dry);
    let role = beside(&fastener.role, when).and_then(|word| Role::find(word))?;
    let joint = ScreenedJoint::new(thread, class, condition, role).ok()?;
    Some(Reckoned { joint, class, class_assumed: written.is_none(), condition, condition_assumed: known.is_none() })
}

/// The joint alone.
pub(super) fn joint(fastener: &Fastener, when: &Combination) -> Option<ScreenedJoint> {
    reckoned(fastener, when).map(|reckoned| reckoned.joint)
}

/// The torque that is screened: the last stage that is one (the snug stage, where an angle follows).
pub(super) fn last_torque(torque: &Torque) -> Option<&Quantity> {
    torque.stages().iter().rev().find(|stage| stage.dimension() == Dimension::Torque)
}

fn screened(files: &FileTable, entry: &Entry<Fastener>, case: &Case<Torque>, joint: &ScreenedJoint) -> Option<Finding> {
    let stage = last_torque(&case.value)?;
    let torque = middle(stage)?;
    let (standing, share, plausible) = (joint.standing(torque)?, joint.share(torque)?.mid, joint.plausible_torque_nm()?);
    let told = Told { place: stage_place(files, case, stage), stage, share, plausible, usual: usual_readings(stage, torque, joint) };
    match standing {
        Standing::Inside => None,
        Standing::OverProof => Some(over_proof(entry, &told, joint)),
        Standing::Below | Standing::Above => unusual(entry, &told, joint),
    }
}

/// A torque that is out of its band, and what it may have been meant as.
struct Told<'a> {
    place: Place,
    stage: &'a Quantity,
    share: f64,
    plausible: Band,
    usual: Vec<Usual>,
}

/// A reading of the same digits that would be usual.
struct Usual {
    /// `kgf·cm`, `9 N·m`.
    as_what: String,
    /// `read as kgf·cm: 8.8 N·m, 62 % of proof`.
    figure: String,
    /// Whether the unit is another.
    other_unit: bool,
}

/// The readings of a torque in other units, and with the decimal point one place off.
fn usual_readings(stage: &Quantity, torque: f64, joint: &ScreenedJoint) -> Vec<Usual> {
    let Some(unit) = TorqueUnit::find(stage.unit().symbol()) else { return Vec::new() };
    let number = torque / unit.newton_metres();
    let of_unit = readings(number, unit, joint).into_iter().map(|slip| Usual {
        as_what: slip.unit.symbol().to_owned(),
        figure: format!("read as {}: {} N·m, {}", slip.unit.symbol(), short(slip.torque_nm), percent(slip.share)),
        other_unit: true,
    });
    let of_point = [(0.1, "left"), (10.0, "right")].into_iter().filter_map(|(factor, side)| {
        let share = joint.share(torque * factor)?.mid;
        let as_what = format!("{} {}", (number * factor * 1000.0).round() / 1000.0, unit.symbol());
        joint.role.band()?.holds(share).then(|| Usual { figure: format!("with its decimal point one place to the {side}: {as_what}, {}", percent(share)), as_what, other_unit: false })
    });
    of_unit.chain(of_point).collect()
}

/// `; as kgf·cm, or as 9 N·m, it would be usual`.
fn hint(usual: &[Usual]) -> String {
    let mut named: Vec<&str> = Vec::new();
    named.extend(usual.iter().find(|one| one.other_unit).map(|one| one.as_what.as_str()));
    named.extend(usual.iter().find(|one| !one.other_unit).map(|one| one.as_what.as_str()));
    match named.as_slice() {
        [] => String::new(),
        [one] => format!("; as {one} it would be usual"),
        several => format!("; as {} it would be usual", several.join(" or as ")),
    }
}

/// A torque that no bolt of this thread bears, on a fastener that nothing is known of to screen it by: one that sets, or clamps
/// something soft, or a set screw. The slipperiest thread is not reckoned with: the roughest must be beyond proof, too.
fn beyond_every_class(files: &FileTable, entry: &Entry<Fastener>, case: &Case<Torque>) -> Option<Finding> {
    let fastener = &entry.what;
    let written = beside(&fastener.class, &case.when);
    if written.is_some_and(|class| PropertyClass::find(class).is_none() && !PropertyClass::is_of_hardness(class)) {
        return None;
    }
    let thread = beside(&fastener.thread, &case.when)?;
    let condition = beside(&fastener.threads, &case.when).and_then(|word| ThreadCondition::find(word)).unwrap_or(ThreadCondition::Dry);
    let strongest = PropertyClass::strongest(thread);
    let joint = ScreenedJoint::new(thread, strongest, condition, Role::Adjuster).ok()?;
    let stage = last_torque(&case.value)?;
    let share = joint.share(middle(stage)?)?.low;
    (share > 1.0).then(|| {
        let most = joint.torque_for_share_nm(1.0).map(|torque| format!("{} N·m would stretch it to its proof load", short(torque)));
        Finding::new(&PRELOAD_OVER_PROOF, stage_place(files, case, stage), format!("{} on {} is more than any bolt of this thread bears", stage.written(), entry.name))
            .label(format!("beyond {}", strongest.name()))
            .figure(format!("{thread} of the strongest class, {} ({}): {}", strongest.name(), strongest.standard().name(), percent(share)))
            .figures(most)
            .fix("look at the source again: the unit, the row, the thread; a digit may have slipped")
            .about(format!("{}.torque", entry.id))
    })
}

fn percent(share: f64) -> String {
    format!("{:.0} % of proof", share * 100.0)
}

fn preload_words(joint: &ScreenedJoint, share: f64) -> String {
    let newtons = joint.proof_load_n().unwrap_or(0.0) * share;
    format!("{:.1} kN", newtons / 1000.0)
}

fn band_words(entry: &Entry<Fastener>, band: Band) -> String {
    let role = entry.what.role.first().map_or("fastener", String::as_str);
    format!("plausible for this thread, class and condition as {role}: {}–{} N·m", short(band.low), short(band.high))
}

/// Two or three significant digits.
fn short(value: f64) -> String {
    if value < 10.0 { format!("{value:.1}") } else { format!("{value:.0}") }
}

fn over_proof(entry: &Entry<Fastener>, told: &Told<'_>, joint: &ScreenedJoint) -> Finding {
    let Told { place, stage, share, plausible, usual } = told;
    Finding::new(&PRELOAD_OVER_PROOF, place.clone(), format!("{} on {} is {}{}", stage.written(), entry.name, percent(*share), hint(usual)))
        .label(percent(*share))
        .figure(format!("about {} of preload, nut factor {:.2} (common practice)", preload_words(joint, *share), joint.nut_factor.mid))
        .figures(usual.iter().map(|one| one.figure.clone()))
        .figure(band_words(entry, *plausible))
        .fix(if usual.is_empty() { "look at the source again: the unit, the row, the thread" } else { "look at the source again: the unit, the decimal point, the row, the thread" })
        .about(format!("{}.torque", entry.id))
}

fn unusual(entry: &Entry<Fastener>, told: &Told<'_>, joint: &ScreenedJoint) -> Option<Finding> {
    let Told { place, stage, share, plausible, usual } = told;
    let about = format!("{}.torque", entry.id);
    let figures = usual.iter().map(|one| one.figure.clone());
    if usual.iter().any(|one| one.other_unit) {
        let band = joint.role.band()?;
        return Some(
            Finding::new(&UNIT_SLIP_SUSPECTED, place.clone(), format!("{} on {} is {}{}", stage.written(), entry.name, percent(*share), hint(usual)))
                .severity(if *share < band.low / 2.0 { Severity::Error } else { Severity::Warning })
                .label("another unit?")
                .figures(figures)
                .figure(band_words(entry, *plausible))
                .fix("look at the unit in the source, and at the decimal point, and write what stands there")
                .about(about),
        );
    }
    Some(
        Finding::new(&TORQUE_OUTSIDE_BAND, place.clone(), format!("{} on {} is {}, which is unusual", stage.written(), entry.name, percent(*share)))
            .label(percent(*share))
            .figures(figures)
            .figure(band_words(entry, *plausible))
            .fix("cite the page and waive it, correct it, or name the role the fastener really has")
            .about(about),
    )
}
