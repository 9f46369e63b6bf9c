//! Temporary things that are still in when a part goes on over them for good.

use super::Context;
use super::order::{TEMPORARY_LEFT_IN, is_temporary, unfinished};
use super::walk::{Moment, Walk, in_every};
use crate::finding::{Finding, Place, Severity};
use crate::manual::{ListKind, Lists, ThingRef, Verb};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let temporary: Vec<&ThingRef> = walk.ends().filter(|(thing, _, at)| lists_of(walk, thing, *at).is_some_and(|lists| is_temporary(lists, thing))).map(|(thing, ..)| thing).collect();
        if temporary.is_empty() {
            return;
        }
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Fit) {
            findings.extend(over(walk, &temporary, at, moment));
        }
    });
}

/// The lists of a thing, seen from a moment that acts on it.
fn lists_of<'m>(walk: &Walk<'m>, thing: &ThingRef, at: usize) -> Option<&'m Lists> {
    walk.moments.get(at).and_then(|moment| walk.scope(moment.procedure).lists_of(thing))
}

/// A cover that goes on over a temporary thing which comes out only later. One that never comes out is told as that, and a
/// cover that goes on for a trial says so (dry-fit:).
fn over(walk: &Walk<'_>, temporary: &[&ThingRef], at: usize, moment: &Moment<'_>) -> Vec<Finding> {
    let Some(cover) = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts) else { return Vec::new() };
    let Some(entry) = walk.scope(moment.procedure).thing(|lists| &lists.parts, cover) else { return Vec::new() };
    // What is not even finished under a cover is told as that.
    let covered = |id: &str| entry.what.covers.iter().find(|covered| covered.value == id && unfinished(walk, id, at).is_none()).map(|covered| covered.place.clone());
    let still_in = temporary.iter().filter(|thing| **thing != cover).filter_map(|thing| {
        let (state, since) = walk.state_before(thing, at);
        let put_in = walk.moments.get(since?).filter(|_| state.is_in_place())?;
        let lists = lists_of(walk, thing, since?)?;
        let place = under(walk, lists, thing, &cover.id, &covered)?;
        let out = walk.moments_of(thing).find(|(other, later)| *other > at && later.verb == Verb::Remove)?.1;
        if walk.open.iter().any(|span| span.thing == **thing) || walk.machine.may_mean(&thing.id) {
            return None;
        }
        let name = lists.head(thing.kind, &thing.id)?.name;
        Some(
            Finding::new(&TEMPORARY_LEFT_IN, moment.act.place.clone(), format!("{} goes on over {name}, which is temporary and still in", entry.name))
                .severity(Severity::Warning)
                .label("covers it")
                .related(put_in.act.place.clone(), format!("in since {}", put_in.words()))
                .related(out.act.place.clone(), format!("comes out only later: {}", out.words()))
                .related(place, "so it lies under it")
                .fix(format!("take it out first: remove:{}; or put the part on for a trial only: dry-fit:{}", thing.id, cover.id))
                .about(thing.id.clone()),
        )
    });
    still_in.collect()
}

/// Where it is said that a thing lies under a cover: in the cover's covers:, for the thing or for what it sits in (in:), or
/// in its own under:.
fn under(walk: &Walk<'_>, lists: &Lists, thing: &ThingRef, cover: &str, covered: &dyn Fn(&str) -> Option<Place>) -> Option<Place> {
    let part = lists.parts.get(&thing.id).filter(|_| thing.kind == ListKind::Parts);
    let by_under = || part?.what.under.case(&walk.combination).filter(|under| under.value == cover).map(|under| under.place.clone());
    let by_within = || covered(&part?.what.within.case(&walk.combination)?.value);
    covered(&thing.id).or_else(by_under).or_else(by_within)
}
