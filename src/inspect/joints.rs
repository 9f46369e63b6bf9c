//! Joints: gaskets that are squeezed once, beads that set, and fluids that wait for them.

use super::Context;
use super::locker_work::{minutes, time_words, too_late};
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Part, Scope, ThingRef, Verb};

/// A gasket is squeezed and its cover comes off again.
pub(super) static GASKET_CRUSHED_EARLY: Rule = Rule {
    name: "gasket-crushed-early",
    severity: Severity::Error,
    summary: "A gasket goes in, and its cover comes off again.",
    explanation: Explanation {
        finds: "A gasket, O-ring or sealing washer used once (reuse: never) that is fitted under a cover (under:, or held by the same fasteners: holds:) which is fitted for good and which a later step takes off again.",
        matters: "The gasket is squeezed for a joint that is not the last one.",
        may_be_wrong: "Where the gasket may be used again: reuse: inspect, with when:. Where a second one goes in later: list it, new: 2.",
        example: "[Gasket on](fit:hatch-gasket), [hatch on](fit:hatch) … [hatch off, read the pattern](remove:hatch)",
        instead: "[Hatch on without its gasket](dry-fit:hatch), read the pattern, then gasket and hatch for good.",
    },
};

/// A fluid comes before a bead has cured.
pub(super) static CURE_BEFORE_FLUID: Rule = Rule {
    name: "cure-before-fluid",
    severity: Severity::Error,
    summary: "A fluid is poured, or a machine run, before a sealant has cured.",
    explanation: Explanation {
        finds: "fill: acts and tests of kind leak, pressure, run or load that come, by the minutes of the steps and the waits between, sooner after a bead's joint was closed than its sealant's cure time.",
        matters: "Oil washes out what has not set, and the joint weeps for good.",
        may_be_wrong: "Where the fluid does not reach the joint. Stops for the day don't count as time: write the wait.",
        example: "[Lay the bead](apply:case-bead), [close the case](torque:case-bolt), [pour in the oil](fill:oil)",
        instead: "waits: {case-cure: {time: ≥ 24 h, of: [case-bead]}}   and [the sealant has cured](wait:case-cure) before the oil",
    },
};

/// A joint is closed after its sealant's open time.
pub(super) static SEALANT_OPEN_TIME: Rule = Rule {
    name: "sealant-open-time",
    severity: Severity::Warning,
    summary: "A joint is closed after its sealant has begun to set.",
    explanation: Explanation {
        finds: "Beads whose joint is tightened after a stop for the day, or later than the sealant can be worked (working:), by the minutes of the steps between and the waits. The bead's own step and the closing one are not counted: nobody knows how much of them lies between.",
        matters: "A skin that has formed does not wet the other face: the joint leaks where it looks best.",
        may_be_wrong: "Where two people work, or the steps take less time than they state.",
        example: "[Lay the bead](apply:case-bead) … a step of 20 min … [close the case](torque:case-bolt)   with working: 10 min",
        instead: "Lay out the bolts first, work in pairs, or take a slower sealant.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Fit => findings.extend(crushed(walk, at, moment)),
                Verb::Apply => bead(walk, at, moment, findings),
                _ => {}
            }
        }
    });
}

/// Whether a part of this kind is squeezed in a joint and seals it.
pub(super) fn is_gasket(kind: &str) -> bool {
    matches!(kind, "gasket" | "o-ring" | "sealing-washer")
}

/// The gaskets, used once, that lie under a cover: they say so (under:), or the same fasteners hold both.
pub(super) fn gaskets_under<'m>(walk: &Walk<'m>, scope: Scope<'m>, cover: &str) -> Vec<(ThingRef, &'m Entry<Part>)> {
    let held_with = |gasket: &str| {
        walk.fasteners_of(scope, gasket).iter().filter_map(|fastener| scope.thing(|lists| &lists.fasteners, fastener)).any(|entry| {
            entry.what.holds.iter().any(|held| held.value == cover)
        })
    };
    let mut found = Vec::new();
    for (home, lists) in scope.homes() {
        for entry in lists.parts.values().filter(|entry| entry.id != cover) {
            let kind = entry.what.kind.get(&walk.combination).is_some_and(|kind| is_gasket(kind));
            let once = entry.what.reuse.get(&walk.combination).is_some_and(|reuse| reuse == "never");
            let lies_under = match entry.what.under.get(&walk.combination) {
                Some(under) => under == cover,
                None => kind && once && held_with(&entry.id),
            };
            if kind && once && lies_under {
                found.push((ThingRef { kind: ListKind::Parts, home: home.clone(), id: entry.id.clone() }, entry));
            }
        }
    }
    found
}

/// Whether an act takes this part off after it was fitted for good.
pub(super) fn is_taken_off(moment: &Moment<'_>, part: &str) -> bool {
    moment.verb == Verb::Remove && moment.before == State::Fitted && moment.act.things.iter().any(|thing| thing.id == part)
}

/// Whether a cover that goes on here squeezes a gasket under it, and comes off again.
pub(super) fn crushes_a_gasket(walk: &Walk<'_>, at: usize, cover: &str) -> bool {
    let Some(moment) = walk.moments.get(at) else { return false };
    let comes_off = walk.moments.iter().skip(at + 1).any(|later| is_taken_off(later, cover));
    comes_off && gaskets_under(walk, walk.scope(moment.procedure), cover).iter().any(|(gasket, _)| walk.state_before(gasket, at).0 == State::Fitted)
}

fn crushed(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let gasket = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts)?;
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.parts, gasket)?;
    if !entry.what.kind.get(&walk.combination).is_some_and(|kind| is_gasket(kind)) {
        return None;
    }
    let (later, opened) = walk.moments.iter().enumerate().skip(at + 1).find(|(later, opened)| {
        let cover = opened.act.thing().filter(|cover| is_taken_off(opened, &cover.id) && cover.id != gasket.id);
        let still_in = || walk.state_before(gasket, *later).1 == Some(at);
        cover.is_some_and(|cover| still_in() && gaskets_under(walk, scope, &cover.id).iter().any(|(under, _)| under == gasket))
    })?;
    // With a second one listed and put in, the first was meant for a trial under load.
    let fits = walk.moments_of(gasket).filter(|(_, moment)| moment.verb == Verb::Fit).count();
    let new = entry.what.new.get(&walk.combination).copied().unwrap_or(1).saturating_add(entry.what.spare.get(&walk.combination).copied().unwrap_or(0));
    let again_later = walk.moments_of(gasket).any(|(other, moment)| other > later && moment.verb == Verb::Fit);
    if again_later && u64::try_from(fits).unwrap_or(u64::MAX) <= new {
        return None;
    }
    let cover = opened.act.thing()?;
    let name = scope.head(cover).map_or(cover.id.as_str(), |head| head.name);
    Some(
        Finding::new(&GASKET_CRUSHED_EARLY, moment.act.place.clone(), format!("{} goes in here, and {name} comes off again", entry.name))
            .label("squeezed too early")
            .related(opened.act.place.clone(), format!("{name} comes off: {}", opened.words()))
            .fix(format!("try {name} on without it first (dry-fit:{}), and put it in when {name} goes on for good", cover.id))
            .about(gasket.id.clone()),
    )
}

fn bead(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let scope = walk.scope(moment.procedure);
    let Some(bead) = moment.act.thing().filter(|thing| thing.kind == ListKind::Beads) else { return };
    let Some(entry) = scope.thing(|lists| &lists.beads, bead) else { return };
    let Some(material) = entry.what.of.get(&walk.combination).and_then(|id| scope.entry(|lists| &lists.materials, id)) else { return };
    let closing: Vec<ThingRef> = entry.what.between.iter().flat_map(|part| walk.fasteners_of(scope, &part.value)).collect();
    let closes = |moment: &&Moment<'_>| moment.verb == Verb::Torque && moment.act.things.iter().any(|thing| closing.contains(thing));
    let behind = walk.moments.get(at + 1..).unwrap_or_default();
    let first = behind.iter().find(closes);
    if let (Some(working), Some(first)) = (minutes(material.what.working.as_ref()), first) {
        findings.extend(open_too_long(moment, first, &entry.name, working, &bead.id));
    }
    if let Some(cure) = minutes(material.what.cure.as_ref()) {
        findings.extend(not_cured(walk, at, moment, &closing, &entry.name, cure, &bead.id));
    }
}

fn open_too_long(bead: &Moment<'_>, first: &Moment<'_>, name: &str, working: f64, id: &str) -> Option<Finding> {
    let how = too_late(bead, first, working)?;
    Some(
        Finding::new(&SEALANT_OPEN_TIME, bead.act.place.clone(), format!("{name} is laid here, and its joint is tightened {how}"))
            .label("sets before the joint is closed")
            .related(first.act.place.clone(), format!("tightened in {}", first.words()))
            .figure(format!("the sealant can be worked for {}", time_words(working)))
            .fix("close the joint in the next step, or take a slower sealant")
            .about(id.to_owned()),
    )
}

fn not_cured(walk: &Walk<'_>, at: usize, bead: &Moment<'_>, closing: &[ThingRef], name: &str, cure: f64, id: &str) -> Option<Finding> {
    let wets = |moment: &Moment<'_>| match moment.verb {
        Verb::Fill => true,
        Verb::Test => {
            let test = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.tests, thing));
            let kind = test.and_then(|test| test.what.kind.get(&walk.combination)).map(String::as_str);
            matches!(kind, Some("leak" | "pressure" | "run" | "load"))
        }
        _ => false,
    };
    let (wet_at, wet) = walk.moments.iter().enumerate().skip(at + 1).find(|(_, moment)| wets(moment))?;
    let between = walk.moments.get(at..wet_at).unwrap_or_default();
    let closed = between.iter().rev().find(|moment| moment.verb == Verb::Torque && moment.act.things.iter().any(|thing| closing.contains(thing)));
    let from = closed.unwrap_or(bead);
    let gone = wet.minutes + wet.waited - from.minutes - from.waited;
    (gone < cure).then(|| {
        Finding::new(&CURE_BEFORE_FLUID, wet.act.place.clone(), format!("{name} has not cured here"))
            .label(format!("{} short", time_words(cure - gone)))
            .related(from.act.place.clone(), format!("closed in {}", from.words()))
            .figure(format!("the sealant cures in {}; {} have gone by, waits counted, stops not", time_words(cure), time_words(gone)))
            .fix(format!("wait before this act: waits: {{{id}-cure: {{time: ≥ {}, of: [{id}]}}}}", time_words(cure)))
            .about(id.to_owned())
    })
}

/// A part is used while it is away.
pub(super) static PART_AWAY: Rule = Rule {
    name: "part-away",
    severity: Severity::Error,
    summary: "A part is needed while it is away at a vendor, or never comes back.",
    explanation: Explanation {
        finds: "Acts between send: and receive: that need the part: on it, on a seal or bearing that sits in it, on a fastener that holds it, measuring or warming it. Also a send: without a receive: behind it.",
        matters: "The step can't be done, and whoever plans the evening finds out at the bench.",
        may_be_wrong: "Never: receive the part first, or move the step.",
        example: "[Block to the plater](send:block) … [block on the stand](fit:block)",
        instead: "[Block back and measured](receive:block), [block on the stand](fit:block)",
    },
};

/// Acts on things that are away, and things that never come back.
pub(super) fn check_away(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, sent) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Send) {
            findings.extend(sent.act.thing().and_then(|away| used_or_lost(walk, at, sent, away)));
        }
    });
}

fn used_or_lost(walk: &Walk<'_>, at: usize, sent: &Moment<'_>, away: &ThingRef) -> Option<Finding> {
    if walk.machine.may_mean(&away.id) {
        return None;
    }
    let scope = walk.scope(sent.procedure);
    let name = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, &away.id)).and_then(|part| scope.head(&part)).map_or(away.id.as_str(), |head| head.name);
    let received = |moment: &Moment<'_>| moment.verb == Verb::Receive && moment.act.things.contains(away);
    let behind = walk.moments.get(at + 1..)?;
    let back = behind.iter().position(received);
    let meanwhile = behind.get(..back.unwrap_or(behind.len()))?;
    // The part itself first: what sits in it or holds it follows from that.
    let on_it = |moment: &&Moment<'_>| moment.act.things.iter().any(|thing| thing.id == away.id && ListKind::THINGS.contains(&thing.kind));
    if let Some(used) = meanwhile.iter().find(on_it).or_else(|| meanwhile.iter().find(|moment| needs(walk, moment, &away.id))) {
        return Some(
            Finding::new(&PART_AWAY, used.act.place.clone(), format!("{name} is needed here, and is away"))
                .label(format!("{name} is not here"))
                .related(sent.act.place.clone(), format!("sent away: {}", sent.words()))
                .figures(back.and_then(|back| behind.get(back)).map(|back| format!("it comes back in {}", back.words())))
                .fix(format!("receive it first: receive:{}", away.id))
                .about(away.id.clone()),
        );
    }
    back.is_none().then(|| {
        Finding::new(&PART_AWAY, sent.act.place.clone(), format!("{name} is sent away and never comes back"))
            .label("no receive: behind it")
            .fix(format!("write the step in which it is back and inspected: receive:{}", away.id))
            .about(away.id.clone())
    })
}

/// Whether an act can't be done without a part: it acts on it, on what sits in it or holds it, measures or
/// warms it.
fn needs(walk: &Walk<'_>, moment: &Moment<'_>, part: &str) -> bool {
    let scope = walk.scope(moment.procedure);
    let variant = &walk.combination;
    moment.act.things.iter().any(|thing| {
        let is = |id: Option<&String>| id.is_some_and(|id| id == part);
        match thing.kind {
            ListKind::Fasteners if moment.verb != Verb::Clean => {
                scope.thing(|lists| &lists.fasteners, thing).is_some_and(|entry| thing.id == part || entry.what.holds.iter().any(|held| held.value == part))
            }
            ListKind::Seals if moment.verb == Verb::Fit => is(scope.thing(|lists| &lists.seals, thing).and_then(|entry| entry.what.within.get(variant))),
            ListKind::Bearings if moment.verb == Verb::Fit => is(scope.thing(|lists| &lists.bearings, thing).and_then(|entry| entry.what.within.get(variant))),
            ListKind::Measures => is(scope.thing(|lists| &lists.measures, thing).and_then(|entry| entry.what.of.get(variant))),
            ListKind::Heats => is(scope.thing(|lists| &lists.heats, thing).and_then(|entry| entry.what.of.get(variant))),
            kind => ListKind::THINGS.contains(&kind) && thing.id == part,
        }
    })
}
