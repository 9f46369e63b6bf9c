//! Heat at work: what must not be in a part that is warmed, and what the heat must reach.

use super::Context;
use super::walk::{Moment, Walk};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Heat, ListKind, Lists, Verb};
use crate::trade::seal::continuous_limit;

/// A part is heated with a seal in it.
pub(super) static HEAT_AFTER_SEAL: Rule = Rule {
    name: "heat-after-seal",
    severity: Severity::Error,
    summary: "A part is heated with a seal or ring already in it.",
    explanation: Explanation {
        finds: "heat: of a part while a seal, O-ring or gasket that sits in it (in:) is fitted.",
        matters: "Rubber takes a set in the heat; it looks whole, and leaks when it is cold.",
        may_be_wrong: "Where the seal stands the temperature and its maker allows it: fit it later all the same, or waive with the reason.",
        example: "[Inner seal in](fit:carrier-inner) … [warm the carrier](heat:warm-carrier)",
        instead: "[Warm the carrier](heat:warm-carrier) … [let it cool](cool:warm-carrier) … [inner seal in](fit:carrier-inner)",
    },
};

/// A seal gets hotter than its rubber stands.
pub(super) static SEAL_OVER_TEMPERATURE: Rule = Rule {
    name: "seal-over-temperature",
    severity: Severity::Error,
    summary: "A seal gets hotter than its rubber stands.",
    explanation: Explanation {
        finds: "A seal fitted in a part that is heated beyond the continuous limit of the seal's rubber (common practice: NBR 100 °C, HNBR 140 °C, ACM 150 °C, silicone 180 °C, FKM 200 °C) or beyond the entry's own limit:.",
        matters: "The rubber hardens at once and cracks within the season.",
        may_be_wrong: "The limits are for screening. Where the seal's maker gives another, write it: limit: max 120 °C.",
        example: "carrier-inner: {material: NBR, in: carrier}   fitted, then the carrier warmed to 130 °C",
        instead: "Fit the seal after the heat, or choose a rubber that stands it.",
    },
};

/// A part gets hotter than it may.
pub(super) static HEAT_OVER_PART_LIMIT: Rule = Rule {
    name: "heat-over-part-limit",
    severity: Severity::Error,
    summary: "A part is heated beyond what it may be.",
    explanation: Explanation {
        finds: "heats: whose highest temperature lies above the limit: of the part they warm, or, for a bearing, above 120 °C (common practice).",
        matters: "Coatings let go, hardened steel goes soft, cages melt.",
        may_be_wrong: "Where the maker allows more: write the part's own limit:.",
        example: "heats: {warm-housing: {of: housing, to: 180 ± 5 °C}}   with housing: {limit: max 150 °C}",
        instead: "heats: {warm-housing: {of: housing, to: 115 ± 5 °C}}",
    },
};

/// The hottest a rolling bearing may be warmed, °C: common practice.
const BEARING_LIMIT: f64 = 120.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Heat) {
            heated(walk, at, moment, findings);
        }
    }
}

fn heated(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let scope = walk.scope(moment.procedure);
    let Some(heat) = moment.act.thing().and_then(|thing| scope.thing(|lists| &lists.heats, thing)) else { return };
    let Some(part) = heat.what.of.get(&walk.combination) else { return };
    let hottest = hottest(heat, walk);
    findings.extend(over_limit(walk, moment, heat, part, hottest));
    for (home, lists) in scope.homes() {
        for (kind, id, name) in soft_things_in(lists, part) {
            let thing = crate::manual::ThingRef { kind, home: home.clone(), id };
            let (state, since) = walk.state_before(&thing, at);
            if state.is_in_place() {
                let fitted = since.and_then(|since| walk.moments.get(since));
                tell(walk, moment, &name, fitted, hottest, lists, &thing.id, findings);
            }
        }
    }
}

fn hottest(heat: &Entry<Heat>, walk: &Walk<'_>) -> Option<f64> {
    let to = heat.what.to.get(&walk.combination)?;
    let (low, high) = to.low_high();
    high.or(low)
}

#[expect(clippy::too_many_arguments, reason = "both rules tell of the same seal at the same act")]
fn tell(walk: &Walk<'_>, moment: &Moment<'_>, name: &str, fitted: Option<&Moment<'_>>, hottest: Option<f64>, lists: &Lists, id: &str, findings: &mut Vec<Finding>) {
    let with = |finding: Finding| match fitted {
        Some(fitted) => finding.related(fitted.act.place.clone(), format!("{name} went in: {}", fitted.words())),
        None => finding,
    };
    findings.push(with(
        Finding::new(&HEAT_AFTER_SEAL, moment.act.place.clone(), format!("{name} is in the part that is heated here"))
            .label(format!("{name} is already in"))
            .fix("heat and cool first, then fit the seal")
            .about(id.to_owned()),
    ));
    let seal = lists.seals.get(id);
    let own = seal.and_then(|seal| seal.limit.get(&walk.combination)).and_then(|limit| limit.low_high().1);
    let rubber = seal.and_then(|seal| seal.what.material.get(&walk.combination));
    let common = rubber.and_then(|rubber| continuous_limit(rubber));
    let (Some(limit), Some(hottest)) = (own.or(common), hottest) else { return };
    if hottest > limit {
        let whose = if own.is_some() { "its own limit".to_owned() } else { format!("{} stands {limit:.0} °C (common practice)", rubber.map_or("its rubber", String::as_str)) };
        findings.push(with(
            Finding::new(&SEAL_OVER_TEMPERATURE, moment.act.place.clone(), format!("{name} would get {hottest:.0} °C, and stands {limit:.0} °C"))
                .label("too hot for it")
                .figure(format!("{hottest:.0} °C > {limit:.0} °C: {whose}"))
                .fix("fit it after the heat, or choose a rubber that stands it")
                .about(id.to_owned()),
        ));
    }
}

/// Seals, rings and gaskets that sit in a part.
fn soft_things_in(lists: &Lists, part: &str) -> Vec<(ListKind, String, String)> {
    let seals = lists.seals.values().filter(|seal| seal.what.within.cases.iter().any(|case| case.value == part));
    let soft = |kind: &String| matches!(kind.as_str(), "o-ring" | "gasket");
    let rings = lists.parts.values().filter(|ring| {
        ring.what.within.cases.iter().any(|case| case.value == part) && ring.what.kind.first().is_some_and(soft)
    });
    seals
        .map(|seal| (ListKind::Seals, seal.id.clone(), seal.name.clone()))
        .chain(rings.map(|ring| (ListKind::Parts, ring.id.clone(), ring.name.clone())))
        .collect()
}

fn over_limit(walk: &Walk<'_>, moment: &Moment<'_>, heat: &Entry<Heat>, part: &str, hottest: Option<f64>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let thing = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, part))?;
    let lists = scope.lists_of(&thing)?;
    let own = match thing.kind {
        ListKind::Parts => lists.parts.get(part).map(|entry| &entry.limit),
        ListKind::Bearings => lists.bearings.get(part).map(|entry| &entry.limit),
        ListKind::Seals => lists.seals.get(part).map(|entry| &entry.limit),
        _ => None,
    }
    .and_then(|limit| limit.get(&walk.combination))
    .and_then(|limit| limit.low_high().1);
    let common = (thing.kind == ListKind::Bearings).then_some(BEARING_LIMIT);
    let (limit, hottest) = (own.or(common)?, hottest?);
    let place = heat.what.to.case(&walk.combination)?.place.clone();
    let name = lists.head(thing.kind, part)?.name;
    let whose = if own.is_some() { "its limit:" } else { "common practice for bearings" };
    (hottest > limit).then(|| {
        Finding::new(&HEAT_OVER_PART_LIMIT, place, format!("{name} would get {hottest:.0} °C, and may get {limit:.0} °C"))
            .label(format!("{:.0} °C too hot", hottest - limit))
            .related(moment.act.place.clone(), "heated here")
            .figure(format!("{hottest:.0} °C > {limit:.0} °C ({whose})"))
            .fix("lower the temperature, or write the part's own limit:")
            .about(format!("{}.to", heat.id))
    })
}
