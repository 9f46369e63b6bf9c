//! Locker and sealant in a part that is warmed: what has cured there lets go above what it stands.

use super::Context;
use super::heat_work::{HEAT_OVER_PART_LIMIT, hottest, is_hot};
use super::locker_work::{is_locker, material};
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Finding, Place, Severity};
use crate::manual::{Entry, Heat, ListKind, Material, ThingRef, Verb};
use crate::quantity::Quantity;
use std::collections::BTreeSet;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Heat) {
            findings.extend(Warming::of(walk, at, moment).into_iter().flat_map(|warming| warming.bonds()));
        }
    });
}

/// A part that is warmed at a moment.
struct Warming<'w, 'm> {
    walk: &'w Walk<'m>,
    at: usize,
    moment: &'w Moment<'m>,
    heat: &'m Entry<Heat>,
    /// Where its temperature stands.
    to: &'m Place,
    part: &'m str,
    hottest: f64,
}

impl<'w, 'm> Warming<'w, 'm> {
    fn of(walk: &'w Walk<'m>, at: usize, moment: &'w Moment<'m>) -> Option<Self> {
        let heat = walk.scope(moment.procedure).thing(|lists| &lists.heats, moment.act.thing()?)?;
        let part = heat.what.of.get(&walk.combination)?;
        let to = heat.what.to.case(&walk.combination)?;
        let hottest = hottest(heat, &walk.combination).filter(|_| is_hot(heat, &walk.combination))?;
        Some(Self { walk, at, moment, heat, to: &to.place, part, hottest })
    }

    fn bonds(&self) -> Vec<Finding> {
        let mut told: BTreeSet<&str> = BTreeSet::new();
        let scope = self.walk.scope(self.moment.procedure);
        let lockers = self.walk.fasteners_of(scope, self.part).into_iter().filter_map(|fastener| self.locker(&fastener));
        let beads = scope.homes().flat_map(|(home, lists)| {
            let beads = lists.beads.values().map(|bead| ThingRef { kind: ListKind::Beads, home: home.clone(), id: bead.id.clone() });
            beads.collect::<Vec<_>>()
        });
        let bonds = lockers.chain(beads.filter_map(|bead| self.bead(&bead)));
        bonds.filter(|(bond, ..)| told.insert(bond.id.as_str())).filter_map(|(bond, name, put_on)| self.too_hot(bond, &name, put_on)).collect()
    }

    /// The locker on a fastener that is tight in the part and is not heated to come undone.
    fn locker(&self, fastener: &ThingRef) -> Option<(&'m Entry<Material>, String, &'w Moment<'m>)> {
        let (state, _) = self.walk.state_before(fastener, self.at);
        let next = self.walk.moments_of(fastener).find(|(other, _)| *other > self.at);
        let undone = next.is_some_and(|(_, next)| matches!(next.verb, Verb::Loosen | Verb::Remove)) || self.walk.machine.may_mean(&fastener.id);
        if !state.holds() || undone {
            return None;
        }
        let before = || self.walk.moments_of(fastener).filter(|(other, _)| *other < self.at).map(|(_, moment)| moment);
        let tightened = before().rfind(|moment| moment.verb == Verb::Torque)?;
        let scope = self.walk.scope(tightened.procedure);
        let entry = scope.thing(|lists| &lists.fasteners, fastener)?;
        let put_on = before().filter(|moment| moment.verb == Verb::Apply).filter_map(|moment| material(self.walk, moment)).rfind(|material| is_locker(&material.what));
        let listed = || entry.what.locker.get(&self.walk.combination).and_then(|id| scope.entry(|lists| &lists.materials, id));
        Some((put_on.or_else(listed)?, entry.name.clone(), tightened))
    }

    /// The sealant of a bead that lies on the part, and is not taken apart next.
    fn bead(&self, bead: &ThingRef) -> Option<(&'m Entry<Material>, String, &'w Moment<'m>)> {
        let laid = self.walk.moments_of(bead).rfind(|(other, moment)| *other < self.at && moment.verb == Verb::Apply)?;
        let scope = self.walk.scope(laid.1.procedure);
        let entry = scope.thing(|lists| &lists.beads, bead)?;
        let faces: Vec<&str> = entry.what.between.iter().map(|face| face.value.as_str()).collect();
        let apart = |moment: &Moment<'_>| moment.verb == Verb::Remove && moment.act.things.iter().any(|thing| faces.contains(&thing.id.as_str()));
        let taken_apart = self.walk.moments.iter().skip(laid.0).any(apart);
        // What no act puts in lay on the bench before the work began.
        let lies_there = |face: ThingRef| {
            let (state, since) = self.walk.state_before(&face, self.at);
            state == State::Fitted || since.is_none()
        };
        let closed = faces.iter().all(|face| *face == self.part || scope.find(ListKind::Parts, face).is_none_or(lies_there));
        if !faces.contains(&self.part) || taken_apart || !closed {
            return None;
        }
        let of = entry.what.of.get(&self.walk.combination)?;
        Some((scope.entry(|lists| &lists.materials, of)?, entry.name.clone(), laid.1))
    }

    fn too_hot(&self, bond: &Entry<Material>, joint: &str, put_on: &Moment<'_>) -> Option<Finding> {
        let limit = bond.what.service.as_ref().map(Quantity::low_high).and_then(|(_, high)| high)?;
        (self.hottest > limit).then(|| {
            let (hottest, part) = (self.hottest, self.part);
            Finding::new(&HEAT_OVER_PART_LIMIT, self.to.clone(), format!("{} at {joint} gets {hottest:.0} °C, and stands {limit:.0} °C", bond.name))
                .severity(Severity::Warning)
                .label(format!("{:.0} °C too hot for it", hottest - limit))
                .related(self.moment.act.place.clone(), format!("{part} is heated here: {}", self.moment.words()))
                .related(put_on.act.place.clone(), format!("made before: {}", put_on.words()))
                .figure(format!("service: to {limit:.0} °C, in the list of {}", bond.id))
                .fix(format!("heat before the joint is made, or make it anew afterwards; or lower the heat to {limit:.0} °C"))
                .about(format!("{}.to", self.heat.id))
        })
    }
}
