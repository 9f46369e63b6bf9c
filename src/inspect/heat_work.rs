//! Heat at work: what must not be in a part that is warmed, and what the heat must reach.

use super::Context;
use super::walk::{Moment, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Combination, Entry, Heat, ListKind, Lists, ThingRef, Varied, Verb};
use crate::trade::fit::{AGED_ALUMINIUM_LIMIT_C, BEARING_LIMIT_C};
use crate::trade::seal::continuous_limit;

/// A part is heated with a seal in it.
pub(super) static HEAT_AFTER_SEAL: Rule = Rule {
    name: "heat-after-seal",
    severity: Severity::Error,
    summary: "A part is heated with a seal or ring already in it.",
    explanation: Explanation {
        finds: "heat: of a part, above hand warmth, while a seal, O-ring or gasket that sits in it (in:) is fitted.",
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
        finds: "heats: whose highest temperature lies above the limit: of the part they warm, or of a bearing or part that already sits in it (in:); for a bearing without a limit: above 120 °C (common practice). A bearing that goes in cold is silent. As a warning: above what a locker or sealant stands (service:) that has been used on a fastener holding the part, or in a bead on it, before the heat; one that is heated to come undone (loosen:, remove: next) is silent.",
        matters: "Coatings let go, hardened steel goes soft, cages melt.",
        may_be_wrong: "Where the maker allows more: write the part's own limit:.",
        example: "heats: {warm-housing: {of: housing, to: 180 ± 5 °C}}   with housing: {limit: max 150 °C}",
        instead: "heats: {warm-housing: {of: housing, to: 115 ± 5 °C}}",
    },
};

/// Skin burns on bare metal above about this, °C (ISO 13732-1, from memory); below it no part is hot.
const HOT: f64 = 43.0;

/// Whether a heat makes a part hot: a chill does not, nor hand warmth. One whose temperature is not known does.
pub(super) fn is_hot(heat: &Entry<Heat>, variant: &Combination) -> bool {
    hottest(heat, variant).is_none_or(|hottest| hottest > HOT)
}

pub(super) fn hottest(heat: &Entry<Heat>, variant: &Combination) -> Option<f64> {
    let (low, high) = heat.what.to.get(variant)?.low_high();
    high.or(low)
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Heat) {
            heated(walk, at, moment, findings);
        }
    });
}

fn heated(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let scope = walk.scope(moment.procedure);
    let Some(heat) = moment.act.thing().and_then(|thing| scope.thing(|lists| &lists.heats, thing)) else { return };
    let Some(part) = heat.what.of.get(&walk.combination) else { return };
    if !is_hot(heat, &walk.combination) {
        return;
    }
    let work = Heating { walk, moment, heat, hottest: hottest(heat, &walk.combination) };
    let part_thing = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, part));
    findings.extend(part_thing.and_then(|thing| work.over_limit(&thing, None)));
    for (home, lists) in scope.homes() {
        for (kind, id) in sits_in(lists, part, &walk.combination) {
            let thing = ThingRef { kind, home: home.clone(), id: id.to_owned() };
            let (state, since) = walk.state_before(&thing, at);
            let Some(fitted) = since.and_then(|since| walk.moments.get(since)).filter(|_| state.is_in_place()) else { continue };
            if is_soft(lists, &thing) {
                findings.push(work.with_seal(&thing, fitted));
                findings.extend(work.seal_too_hot(lists, &thing, fitted));
            } else {
                findings.extend(work.over_limit(&thing, Some(fitted)));
            }
        }
    }
}

/// Seals, bearings and parts that sit in a part (in:).
pub(super) fn sits_in<'a>(lists: &'a Lists, part: &str, variant: &Combination) -> Vec<(ListKind, &'a str)> {
    let here = |within: &Varied<String>| within.get(variant).is_some_and(|within| within == part);
    let seals = lists.seals.values().filter(|entry| here(&entry.what.within)).map(|entry| (ListKind::Seals, entry.id.as_str()));
    let bearings = lists.bearings.values().filter(|entry| here(&entry.what.within)).map(|entry| (ListKind::Bearings, entry.id.as_str()));
    let parts = lists.parts.values().filter(|entry| here(&entry.what.within)).map(|entry| (ListKind::Parts, entry.id.as_str()));
    seals.chain(bearings).chain(parts).collect()
}

/// Whether a thing is of rubber or paper: a seal, an O-ring, a gasket.
pub(super) fn is_soft(lists: &Lists, thing: &ThingRef) -> bool {
    let kind = lists.parts.get(&thing.id).filter(|_| thing.kind == ListKind::Parts).and_then(|entry| entry.what.kind.first());
    thing.kind == ListKind::Seals || kind.is_some_and(|kind| matches!(kind.as_str(), "o-ring" | "gasket"))
}

/// A part that is warmed at a moment of a walk.
struct Heating<'w, 'm> {
    walk: &'w Walk<'m>,
    moment: &'w Moment<'m>,
    heat: &'m Entry<Heat>,
    hottest: Option<f64>,
}

impl Heating<'_, '_> {
    fn name_of(&self, thing: &ThingRef) -> String {
        self.walk.scope(self.moment.procedure).head(thing).map_or_else(|| thing.id.clone(), |head| head.name.to_owned())
    }

    fn with_seal(&self, thing: &ThingRef, fitted: &Moment<'_>) -> Finding {
        let name = self.name_of(thing);
        Finding::new(&HEAT_AFTER_SEAL, self.moment.act.place.clone(), format!("{name} is in the part that is heated here"))
            .label(format!("{name} is already in"))
            .related(fitted.act.place.clone(), format!("{name} goes in: {}", fitted.words()))
            .fix(format!("heat, let it cool, and then put {name} in"))
            .about(thing.id.clone())
    }

    fn seal_too_hot(&self, lists: &Lists, thing: &ThingRef, fitted: &Moment<'_>) -> Option<Finding> {
        let seal = lists.seals.get(&thing.id).filter(|_| thing.kind == ListKind::Seals);
        let rubber = seal.and_then(|seal| seal.what.material.get(&self.walk.combination));
        let common = rubber.and_then(|rubber| continuous_limit(rubber));
        let (own, name) = (own_limit(lists, thing, &self.walk.combination), self.name_of(thing));
        let (limit, hottest) = (own.or(common)?, self.hottest?);
        let whose = match (own, rubber) {
            (None, Some(rubber)) => format!("{rubber} stands {limit:.0} °C for long (common practice)"),
            _ => format!("limit: max {limit:.0} °C, in its list"),
        };
        (hottest > limit).then(|| {
            Finding::new(&SEAL_OVER_TEMPERATURE, self.moment.act.place.clone(), format!("{name} gets {hottest:.0} °C, and stands {limit:.0} °C"))
                .label(format!("{:.0} °C too hot for it", hottest - limit))
                .related(fitted.act.place.clone(), format!("{name} goes in: {}", fitted.words()))
                .figure(whose)
                .fix(format!("put {name} in after the heat, or choose a rubber that stands it"))
                .about(thing.id.clone())
        })
    }

    /// The warmed part itself, or, with the moment it went in, something that sits in it.
    fn over_limit(&self, thing: &ThingRef, fitted: Option<&Moment<'_>>) -> Option<Finding> {
        let scope = self.walk.scope(self.moment.procedure);
        let own = own_limit(scope.lists_of(thing)?, thing, &self.walk.combination);
        let common = match thing.kind {
            ListKind::Bearings => Some((BEARING_LIMIT_C, "a rolling bearing")),
            ListKind::Parts => {
                let material = scope.thing(|lists| &lists.parts, thing)?.what.material.get(&self.walk.combination);
                material.filter(|material| *material == "aluminium").map(|_| (AGED_ALUMINIUM_LIMIT_C, "heat-treated aluminium"))
            }
            _ => None,
        };
        let (limit, hottest) = (own.or(common.map(|(limit, _)| limit))?, self.hottest?);
        let to = self.heat.what.to.case(&self.walk.combination)?;
        let name = self.name_of(thing);
        let whose = if own.is_some() { format!("limit: max {limit:.0} °C, in its list") } else { format!("{} stands {limit:.0} °C (common practice)", common.map_or("it", |(_, what)| what)) };
        (hottest > limit).then(|| {
            let finding = Finding::new(&HEAT_OVER_PART_LIMIT, to.place.clone(), format!("{name} gets {hottest:.0} °C, and may get {limit:.0} °C"))
                .label(format!("{:.0} °C too hot", hottest - limit))
                .related(self.moment.act.place.clone(), format!("heated here: {}", self.moment.words()))
                .figure(whose)
                .fix("lower the temperature; or, where its maker allows more, write that as its limit:")
                .about(format!("{}.to", self.heat.id));
            match fitted {
                Some(fitted) => finding.related(fitted.act.place.clone(), format!("{name} goes in: {}", fitted.words())),
                None => finding,
            }
        })
    }
}

/// The highest temperature that an entry's own limit: allows, °C.
pub(super) fn own_limit(lists: &Lists, thing: &ThingRef, variant: &Combination) -> Option<f64> {
    let limit = match thing.kind {
        ListKind::Parts => lists.parts.get(&thing.id).map(|entry| &entry.limit),
        ListKind::Bearings => lists.bearings.get(&thing.id).map(|entry| &entry.limit),
        ListKind::Seals => lists.seals.get(&thing.id).map(|entry| &entry.limit),
        _ => None,
    };
    limit?.get(variant)?.low_high().1
}
