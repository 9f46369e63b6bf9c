//! Whether a thread locker suits its joint: its strength, its size of thread, what it touches.

use super::Context;
use super::locker_work::{fastener, is_locker, material};
use super::torque::beside;
use super::walk::{Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, Fastener, ListKind, Material, Scope, ThingRef, Verb};
use crate::quantity::Quantity;
use crate::trade::locker::{LockerStrength, ThreadRange, crazes, is_inactive};
use crate::trade::seal::continuous_limit;

/// High strength where a fastener has to come undone again.
pub(super) static HIGH_STRENGTH_WHERE_SERVICED: Rule = Rule {
    name: "high-strength-where-serviced",
    severity: Severity::Warning,
    summary: "High-strength locker is on a fastener that has to come undone again.",
    explanation: Explanation {
        finds: "High-strength lockers (named by locker:, or put on) on threads below M6, on fasteners of role adjuster, and on fasteners used again (reuse: inspect or yes) where a seal, O-ring or bearing in a part they hold does not stand the heat that lets the locker go (release:; 250 °C where it states none: common practice).",
        matters: "A small screw shears before the locker lets go; and the heat that frees a larger one ruins the seal beside it.",
        may_be_wrong: "Where the maker asks for it: waive it with the page. Heat can be kept small with a soldering iron on the head.",
        example: "level-screw: {thread: M5x0.8, locker: high-locker}",
        instead: "level-screw: {thread: M5x0.8, locker: low-locker}   or medium strength, which comes undone with hand tools",
    },
};

/// A locker is used outside the threads it is meant for.
pub(super) static LOCKER_THREAD_RANGE: Rule = Rule {
    name: "locker-thread-range",
    severity: Severity::Warning,
    summary: "A locker is used on a thread smaller or larger than it is meant for.",
    explanation: Explanation {
        finds: "Lockers whose threads: (M6–M20, or 1/4–3/4 in) does not hold the thread of a fastener that names them or that they are put on. A range that is written otherwise is not judged.",
        matters: "Too thin a locker does not fill a large thread; too thick a one never gets into a small one, and there it holds more than the screw does.",
        may_be_wrong: "Where the data card gives a wider range: write that.",
        example: "medium-locker: {threads: M6–M20, …}   level-screw: {thread: M5x0.8, locker: medium-locker}",
        instead: "A locker meant for small threads, by its own data card.",
    },
};

/// A locker touches plastic that it cracks.
pub(super) static LOCKER_ON_PLASTIC: Rule = Rule {
    name: "locker-on-plastic",
    severity: Severity::Error,
    summary: "Thread locker comes on a plastic that it may crack.",
    explanation: Explanation {
        finds: "Lockers on fasteners that hold a part whose material: is one that anaerobic lockers craze, and lockers put on such a part itself: ABS, polycarbonate, acrylic, polystyrene, polysulfone and their like (common practice).",
        matters: "What runs out of the thread draws fine cracks into the plastic under stress; the part breaks weeks later.",
        may_be_wrong: "Where the plastic's maker allows it, or a sleeve keeps the locker away: waive it with the source.",
        example: "impeller: {material: polycarbonate}   impeller-nut: {holds: [impeller], locker: medium-locker}",
        instead: "Lock it by a part: a prevailing nut, a tab washer, a pin.",
    },
};

/// A locker between two metals on which it hardly sets.
pub(super) static INACTIVE_SURFACE: Rule = Rule {
    name: "inactive-surface",
    severity: Severity::Note,
    summary: "Thread locker sets slowly between these two metals, and no primer is put on.",
    explanation: Explanation {
        finds: "Stainless fasteners (classes A1 to A5 of ISO 3506) in aluminium or magnesium with a locker, where no act puts a material of kind primer on them and the locker's cure: is below 72 h. What steel or brass touches sets as stated.",
        matters: "Anaerobic locker needs iron or copper to set. Between stainless steel and aluminium it may still be wet the next day.",
        may_be_wrong: "Where the data card's cure time holds for passive metals: give that time.",
        example: "carrier-bolt: {class: A4-80, into: aluminium, locker: medium-locker}",
        instead: "[Primer on both threads, left to dry](apply:primer@carrier-bolt) before the locker, or the longer cure of its data card.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for joint in locked(walk) {
            findings.extend(high_strength(&joint));
            findings.extend(thread_range(&joint));
            findings.extend(on_plastic(&joint));
            findings.extend(inactive(&joint));
        }
        findings.extend(walk.moments.iter().enumerate().filter_map(|(at, _)| put_on_plastic(walk, at)));
    });
}

/// A fastener and the locker on it, with the place that brings them together.
struct LockedJoint<'w, 'm> {
    walk: &'w Walk<'m>,
    scope: Scope<'m>,
    thing: &'m ThingRef,
    entry: &'m Entry<Fastener>,
    locker: &'m Entry<Material>,
    place: &'m Place,
}

/// Each fastener that is worked on with each locker that its list names or an act puts on it, once.
fn locked<'w, 'm>(walk: &'w Walk<'m>) -> Vec<LockedJoint<'w, 'm>> {
    let mut joints: Vec<LockedJoint<'w, 'm>> = Vec::new();
    for moment in &walk.moments {
        let Some((thing, entry)) = fastener(walk, moment) else { continue };
        let scope = walk.scope(moment.procedure);
        let case = entry.what.locker.case(&walk.combination);
        let listed = case.and_then(|case| Some((scope.entry(|lists| &lists.materials, &case.value)?, &case.place)));
        let put_on = material(walk, moment).filter(|_| moment.verb == Verb::Apply).map(|material| (material, &moment.act.place));
        for (locker, place) in listed.into_iter().chain(put_on).filter(|(locker, _)| is_locker(&locker.what)) {
            if !joints.iter().any(|joint| joint.thing == thing && std::ptr::eq(joint.locker, locker)) {
                joints.push(LockedJoint { walk, scope, thing, entry, locker, place });
            }
        }
    }
    joints
}

fn high_strength(joint: &LockedJoint<'_, '_>) -> Option<Finding> {
    let strength = joint.locker.what.strength.as_ref().and_then(|strength| LockerStrength::find(&strength.value))?;
    if strength != LockerStrength::High {
        return None;
    }
    let (fastener, variant) = (&joint.entry.what, &joint.walk.combination);
    let release = joint.locker.what.release.as_ref().and_then(least).or(strength.defaults().release_c)?;
    let cooked = cooked(joint, release);
    let small = beside(&fastener.thread, variant).filter(|thread| strength.too_strong_for(thread.diameter_mm()));
    let adjuster = fastener.role.get(variant).is_some_and(|role| role == "adjuster");
    let again = fastener.reuse.get(variant).is_some_and(|reuse| reuse != "never");
    let (why, label) = match (small, adjuster, &cooked) {
        (Some(thread), _, _) => (format!("is {thread}"), "shears before it lets go"),
        (None, true, _) => ("is an adjuster".to_owned(), "has to move again"),
        (None, false, Some(cooked)) if again => (format!("comes undone again beside {}", cooked.name), "needs heat to come undone"),
        _ => return None,
    };
    let own = joint.locker.what.release.is_some();
    Some(
        Finding::new(&HIGH_STRENGTH_WHERE_SERVICED, joint.place.clone(), format!("high-strength locker is on {}, which {why}", joint.entry.name))
            .label(label)
            .figure(format!("{} lets go at about {release:.0} °C{}", joint.locker.name, if own { "" } else { " (common practice)" }))
            .figures(cooked.map(|cooked| format!("{} sits in a part it holds, and stands {:.0} °C", cooked.name, cooked.limit)))
            .fix("take a low- or medium-strength locker, which comes undone with hand tools; or cite the page that asks for high")
            .about(format!("{}.locker", joint.entry.id)),
    )
}

/// The least temperature of a quantity, °C.
fn least(temperature: &Quantity) -> Option<f64> {
    let (low, high) = temperature.low_high();
    low.or(high)
}

/// Something that does not stand a temperature.
struct Cooked<'m> {
    name: &'m str,
    limit: f64,
}

/// What sits in a part that a fastener holds and stands this heat worst.
fn cooked<'m>(joint: &LockedJoint<'_, 'm>, heat: f64) -> Option<Cooked<'m>> {
    let variant = &joint.walk.combination;
    let held = |within: Option<&String>| within.is_some_and(|within| joint.holds(within));
    let most = |limit: Option<&Quantity>| limit.and_then(|limit| limit.low_high().1);
    let rubber = |material: Option<&String>| material.and_then(|material| continuous_limit(material));
    let mut all: Vec<Cooked<'m>> = Vec::new();
    for (_, lists) in joint.scope.homes() {
        let seals = lists.seals.values().filter(|entry| variant.satisfies(&entry.only) && held(entry.what.within.get(variant)));
        let seals = seals.map(|entry| (entry.name.as_str(), most(entry.limit.get(variant)).or_else(|| rubber(entry.what.material.get(variant)))));
        let bearings = lists.bearings.values().filter(|entry| variant.satisfies(&entry.only) && held(entry.what.within.get(variant)));
        let bearings = bearings.map(|entry| (entry.name.as_str(), most(entry.limit.get(variant))));
        let parts = lists.parts.values().filter(|entry| variant.satisfies(&entry.only) && held(entry.what.within.get(variant)));
        let parts = parts.map(|entry| (entry.name.as_str(), most(entry.limit.get(variant)).or_else(|| rubber(entry.what.material.get(variant)))));
        all.extend(seals.chain(bearings).chain(parts).filter_map(|(name, limit)| limit.map(|limit| Cooked { name, limit })));
    }
    all.into_iter().filter(|one| one.limit < heat).min_by(|a, b| a.limit.total_cmp(&b.limit))
}

impl LockedJoint<'_, '_> {
    fn holds(&self, part: &str) -> bool {
        self.entry.what.holds.iter().any(|held| held.value == part)
    }
}

fn thread_range(joint: &LockedJoint<'_, '_>) -> Option<Finding> {
    let written = joint.locker.what.threads.as_deref()?;
    let range = ThreadRange::parse(written)?;
    let thread = joint.entry.what.thread.get(&joint.walk.combination)?;
    (!range.holds(thread)).then(|| {
        let too = if thread.diameter_mm() < range.low_mm { "small" } else { "large" };
        Finding::new(&LOCKER_THREAD_RANGE, joint.place.clone(), format!("{} is too {too} for {}", joint.entry.name, joint.locker.name))
            .label("not the locker for this thread")
            .related(joint.locker.id_place.clone(), format!("meant for {written}"))
            .figure(format!("{} is {thread}; the locker is meant for {written}", joint.entry.name))
            .fix("take a locker that is meant for this thread; or, where its data card says more, write that range")
            .about(format!("{}.locker", joint.entry.id))
    })
}

fn on_plastic(joint: &LockedJoint<'_, '_>) -> Option<Finding> {
    let variant = &joint.walk.combination;
    joint.entry.what.holds.iter().find_map(|held| {
        let part = joint.scope.entry(|lists| &lists.parts, &held.value)?;
        let material = part.what.material.case(variant).filter(|material| crazes(&material.value))?;
        Some(plastic(joint.place, &joint.entry.name, &part.name, (&material.value, &material.place), &joint.entry.id))
    })
}

fn plastic(place: &Place, on: &str, part: &str, (material, material_place): (&str, &Place), about: &str) -> Finding {
    let touches = if on == part { format!("{part} is of {material}") } else { format!("{on} holds {part} of {material}") };
    Finding::new(&LOCKER_ON_PLASTIC, place.clone(), format!("{touches}, which thread locker may crack"))
        .label("cracks the plastic")
        .related(material_place.clone(), format!("{part} is of {material}"))
        .fix("lock it by a part (a prevailing nut, a tab washer, a pin); or cite who allows locker on this plastic")
        .about(about.to_owned())
}

/// Locker put on a plastic part itself.
fn put_on_plastic(walk: &Walk<'_>, at: usize) -> Option<Finding> {
    let moment = walk.moments.get(at).filter(|moment| moment.verb == Verb::Apply)?;
    material(walk, moment).filter(|material| is_locker(&material.what))?;
    let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts)?;
    let part = walk.scope(moment.procedure).thing(|lists| &lists.parts, thing)?;
    let material = part.what.material.case(&walk.combination).filter(|material| crazes(&material.value))?;
    Some(plastic(&moment.act.place, &part.name, &part.name, (&material.value, &material.place), &part.id))
}

/// The cure at which even passive metals are thought of, in seconds: three times the usual day.
const PASSIVE_CURE_S: f64 = 72.0 * 3600.0;

fn inactive(joint: &LockedJoint<'_, '_>) -> Option<Finding> {
    let variant = &joint.walk.combination;
    let class = joint.entry.what.class.case(variant)?;
    let into = joint.entry.what.into.get(variant)?;
    let cure = joint.locker.what.cure.as_ref().and_then(least);
    if !is_inactive(&class.value, into) || cure.is_some_and(|cure| cure >= PASSIVE_CURE_S) {
        return None;
    }
    let primed = joint.walk.moments_of(joint.thing).any(|(_, moment)| material(joint.walk, moment).is_some_and(|m| m.what.kind.as_deref() == Some("primer")));
    (!primed).then(|| {
        Finding::new(&INACTIVE_SURFACE, joint.place.clone(), format!("locker sets slowly on {}: {} in {into}", joint.entry.name, class.value))
            .label("no iron, no copper")
            .related(class.place.clone(), "stainless steel")
            .fix(format!("put a primer on first (kind: primer, apply:PRIMER@{}), or write as the locker's cure: what its data card gives for such metals", joint.thing.id))
            .about(format!("{}.locker", joint.entry.id))
    })
}
