//! Bolts in their holes: long enough to hold, short enough not to bottom, and what another bolt in their place must be.

use super::Context;
use super::torque::beside;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Case, Entry, Fastener, Varied};
use crate::quantity::Quantity;
use crate::trade::engagement::{BoltedHole, EngagementStanding, InternalMaterial, fouls_by_mm};
use crate::trade::property::PropertyClass;
use crate::trade::thread::Thread;

/// Too few threads hold a bolt.
pub(super) static ENGAGEMENT_SHORT: Rule = Rule {
    name: "engagement-short",
    severity: Severity::Warning,
    summary: "Too few threads hold a bolt.",
    explanation: Explanation {
        finds: "Bolts whose length less what is clamped and the washer leaves fewer threads engaged than the material asks for (common practice: 1.0 d in steel, 1.2 d in cast iron and brass, 1.5 d in aluminium, 2.0 d in magnesium); an error below 70 % of that. Pipe threads are silent.",
        matters: "The thread in the soft part strips, often only when it is loaded.",
        may_be_wrong: "Threads with an insert hold as steel does: into: steel.",
        example: "cap-bolt: {thread: M8x1.25, length: 20 mm, clamped: 12 mm, into: aluminium}",
        instead: "cap-bolt: {thread: M8x1.25, length: 25 mm, clamped: 12 mm, into: aluminium}",
    },
};

/// A bolt is longer than its hole.
pub(super) static BOLT_BOTTOMS: Rule = Rule {
    name: "bolt-bottoms",
    severity: Severity::Error,
    summary: "A bolt reaches the bottom of its hole before it clamps.",
    explanation: Explanation {
        finds: "Bolts that reach deeper than the threaded depth of their hole less one pitch.",
        matters: "The wrench clicks on the bottom of the hole, the joint stays loose, and the boss may crack.",
        may_be_wrong: "Through holes: leave hole: out.",
        example: "stator-screw: {thread: M5x0.8, length: 25 mm, clamped: 8 mm, hole: 14 mm}",
        instead: "stator-screw: {thread: M5x0.8, length: 20 mm, clamped: 8 mm, hole: 14 mm}",
    },
};

/// A head is higher than the room there is.
pub(super) static FOULS_MOVING_PART: Rule = Rule {
    name: "fouls-moving-part",
    severity: Severity::Error,
    summary: "A bolt's head is higher than the room to what moves past it.",
    explanation: Explanation {
        finds: "Fasteners whose head: is higher than their room:.",
        matters: "The rotor takes the head with it at the first turn.",
        may_be_wrong: "Never: measure again.",
        example: "stator-screw: {head: 5.5 mm, room: 4.0 mm}",
        instead: "stator-screw: {head: 3.0 mm, room: 4.0 mm}",
    },
};

/// A substitution does not say enough.
pub(super) static SUBSTITUTION_INCOMPLETE: Rule = Rule {
    name: "substitution-incomplete",
    severity: Severity::Warning,
    summary: "Another bolt stands in, and not all that matters about it is said.",
    explanation: Explanation {
        finds: "Fasteners with instead_of: that lack thread, length or class of the new one, or of the old one, or whether it is permanent (until:); an error where the fastener is critical or carries drive torque.",
        matters: "The same thread alone is not the same bolt: too long it bottoms, too soft it stretches, too high a head fouls.",
        may_be_wrong: "Never: measure both bolts.",
        example: "stator-screw: {thread: M5x0.8, length: 25 mm, instead_of: {thread: M5x0.8}}",
        instead: "stator-screw: {thread: M5x0.8, length: 20 mm, class: 8.8, instead_of: {thread: M5x0.8, length: 20 mm, class: 8.8, until: permanent}}",
    },
};

/// The bolt that stands in bears less.
pub(super) static CLASS_DOWNGRADE: Rule = Rule {
    name: "class-downgrade",
    severity: Severity::Error,
    summary: "The bolt that stands in bears less than the maker's.",
    explanation: Explanation {
        finds: "Fasteners whose proof load (stress area times proof stress: ISO 898-1, ISO 3506-1, SAE J429) is below that of the bolt they stand in for.",
        matters: "At the same torque it is nearer to its end, and under load beyond it.",
        may_be_wrong: "Where the torque was lowered on purpose and the joint bears it, waive it with the reason.",
        example: "cam-bolt: {thread: M8x1.25, class: 8.8, instead_of: {thread: M8x1.25, class: 10.9}}",
        instead: "Find a bolt of the maker's class.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        for lists in machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]) {
            for entry in lists.fasteners.values() {
                for case in &entry.what.length.cases {
                    findings.extend(hole(entry, case));
                }
                findings.extend(fouls(entry));
                findings.extend(substituted(entry));
                findings.extend(downgraded(entry));
            }
        }
    }
}

/// A length in mm.
fn mm(quantity: Option<&Quantity>) -> Option<f64> {
    quantity.and_then(Quantity::nominal)
}

fn hole(entry: &Entry<Fastener>, case: &Case<Quantity>) -> Option<Finding> {
    let fastener = &entry.what;
    let of = |value: &Varied<Quantity>| mm(beside(value, &case.when));
    let thread = beside(&fastener.thread, &case.when)?;
    let hole = BoltedHole {
        length_mm: case.value.nominal()?,
        clamped_mm: of(&fastener.clamped)?,
        washer_mm: of(&fastener.washer).unwrap_or(0.0),
        hole_mm: of(&fastener.hole),
    };
    if let Some(excess) = hole.bottoms_by_mm(thread.pitch_mm()) {
        let reach = hole.reach_mm()?;
        return Some(
            Finding::new(&BOLT_BOTTOMS, case.place.clone(), format!("{} is too long for its hole", entry.name))
                .label(format!("{excess:.1} mm too long"))
                .figure(format!(
                    "{} − {} clamped − {} washer = {reach:.1} mm into a hole of {} mm, of which one pitch ({:.2} mm) stays free",
                    hole.length_mm,
                    hole.clamped_mm,
                    hole.washer_mm,
                    hole.hole_mm.unwrap_or_default(),
                    thread.pitch_mm()
                ))
                .fix("take a shorter bolt, or measure the hole again")
                .about(format!("{}.length", entry.id)),
        );
    }
    // What closes a pipe bears no preload: few threads are enough for it.
    if thread.pipe().is_some() { None } else { engaged(entry, case, thread, &hole) }
}

fn engaged(entry: &Entry<Fastener>, case: &Case<Quantity>, thread: &Thread, hole: &BoltedHole) -> Option<Finding> {
    let into = InternalMaterial::find(beside(&entry.what.into, &case.when)?)?;
    let engagement = hole.engagement_mm()?;
    let (needed, severity) = match into.standing(engagement, thread.diameter_mm())? {
        EngagementStanding::Enough => return None,
        EngagementStanding::Short { needed_mm } => (needed_mm, Severity::Warning),
        EngagementStanding::FarTooShort { needed_mm } => (needed_mm, Severity::Error),
    };
    Some(
        Finding::new(&ENGAGEMENT_SHORT, case.place.clone(), format!("{} has {engagement:.1} mm of thread in {}, and needs {needed:.1} mm", entry.name, into.word()))
            .severity(severity)
            .label("too short")
            .figure(format!(
                "{} − {} clamped − {} washer = {engagement:.1} mm; {:.1} d in {} = {needed:.1} mm (common practice)",
                hole.length_mm,
                hole.clamped_mm,
                hole.washer_mm,
                into.needed_engagement().screening,
                into.word()
            ))
            .fix("take a longer bolt, as far as the hole allows")
            .about(format!("{}.length", entry.id)),
    )
}

fn fouls(entry: &Entry<Fastener>) -> Option<Finding> {
    let head = entry.what.head.cases.first()?;
    let room = mm(beside(&entry.what.room, &head.when))?;
    let height = head.value.nominal()?;
    let by = fouls_by_mm(height, room)?;
    Some(
        Finding::new(&FOULS_MOVING_PART, head.place.clone(), format!("the head of {} reaches {by:.1} mm into what moves past it", entry.name))
            .label(format!("{by:.1} mm too high"))
            .figure(format!("head {height} mm, room {room} mm"))
            .fix("take a bolt with a lower head")
            .about(format!("{}.head", entry.id)),
    )
}

fn substituted(entry: &Entry<Fastener>) -> Option<Finding> {
    let case = entry.what.instead_of.cases.first()?;
    let (new, old) = (&entry.what, &case.value);
    // No standard gives pipe threads a property class.
    let is_pipe = new.thread.first().is_some_and(|thread| thread.pipe().is_some());
    let missing: Vec<&str> = [
        (new.thread.is_given(), "its thread"),
        (new.length.is_given(), "its length"),
        (is_pipe || new.class.is_given(), "its class"),
        (old.thread.is_some(), "the thread of the maker's"),
        (old.length.is_some(), "the length of the maker's"),
        (is_pipe || old.class.is_some(), "the class of the maker's"),
        (old.until.is_some(), "until when it stays"),
    ]
    .into_iter()
    .filter_map(|(given, what)| (!given).then_some(what))
    .collect();
    if missing.is_empty() {
        return None;
    }
    let grave = new.critical || new.role.first().is_some_and(|role| matches!(role.as_str(), "drive" | "shaft-nut"));
    Some(
        Finding::new(&SUBSTITUTION_INCOMPLETE, case.place.clone(), format!("{} stands in for another, and this is not said: {}", entry.name, missing.join(", ")))
            .severity(if grave { Severity::Error } else { Severity::Warning })
            .label("not enough said")
            .fix("measure both bolts: thread, length, class; and say until: permanent, or until when")
            .about(format!("{}.instead_of", entry.id)),
    )
}

fn downgraded(entry: &Entry<Fastener>) -> Option<Finding> {
    let case = entry.what.instead_of.cases.first()?;
    let new_thread = beside(&entry.what.thread, &case.when)?;
    let old_thread = match &case.value.thread {
        Some(text) => Thread::parse(&text.replace(" × ", "x")).ok()?,
        None => new_thread.clone(),
    };
    let new = PropertyClass::find(beside(&entry.what.class, &case.when)?)?.proof_load_n(new_thread).ok()?;
    let old = PropertyClass::find(case.value.class.as_ref()?)?.proof_load_n(&old_thread).ok()?;
    (new < old * 0.999).then(|| {
        Finding::new(&CLASS_DOWNGRADE, case.place.clone(), format!("{} bears less than the bolt it stands in for", entry.name))
            .label("the maker's bears more")
            .figure(format!("proof load {:.1} kN instead of {:.1} kN", new / 1000.0, old / 1000.0))
            .fix("find a bolt of the maker's class")
            .about(format!("{}.class", entry.id))
    })
}
