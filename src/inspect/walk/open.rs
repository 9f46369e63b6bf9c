//! Open items in a walk: what is left on purpose, from the act that leaves it to the act that finishes it.

use super::{Moment, Walk};
use crate::finding::Place;
use crate::manual::{Entry, ListKind, OpenItem, Procedure, Scope, ThingRef, Torque, Verb};

/// An open item in one walk.
#[derive(Clone, Debug)]
pub struct OpenSpan<'m> {
    /// The procedure that leaves it open.
    pub procedure: &'m Procedure,
    /// The item.
    pub item: &'m Entry<OpenItem>,
    /// What it is about.
    pub thing: ThingRef,
    /// Index of the moment that opens it.
    pub opened: usize,
    /// Index of the moment that closes it, if any does.
    pub closed: Option<usize>,
}

impl<'m> OpenSpan<'m> {
    /// Where the item says that it forbids what is done at a moment; none where it does not. Signing with
    /// something open is wrong without being forbidden, and is left out.
    #[must_use]
    pub fn forbids(&self, moment: &Moment<'_>) -> Option<&'m Place> {
        let forbidden = self.item.what.forbids.iter().find(|forbidden| {
            let (word, id) = forbidden.value.split_once(':').unwrap_or((forbidden.value.as_str(), ""));
            moment.verb.word() == word && (id.is_empty() || moment.act.things.iter().any(|thing| thing.id == id))
        });
        forbidden.filter(|_| moment.verb != Verb::Sign).map(|forbidden| &forbidden.place)
    }

    /// How the item is left, as after "is".
    #[must_use]
    pub fn left(&self) -> &'m str {
        self.item.what.left.as_deref().unwrap_or("open")
    }
}

/// Every open item of a walk. An item opens at the last act on its thing in its procedure, or at the
/// procedure's first where there is none; it is closed by the last act its final state needs, in the
/// step that `finish_in` names.
pub(super) fn spans<'m>(walk: &Walk<'m>) -> Vec<OpenSpan<'m>> {
    let mut spans = Vec::new();
    for procedure in &walk.machine.procedures {
        let scope = walk.scope(procedure);
        for item in procedure.lists.leaves_open.values().filter(|item| walk.combination.satisfies(&item.only)) {
            let Some(thing) = thing_of(scope, item) else { continue };
            let here = |moment: &Moment<'_>| std::ptr::eq(moment.procedure, procedure);
            let closed = closing_moment(walk, scope, item, &thing);
            let last = |until: usize| walk.moments_of(&thing).rev().find(|(at, moment)| *at < until && here(moment)).map(|(at, _)| at);
            // Where the procedure itself finishes the thing, the item opens at the last act before that.
            let before = closed.filter(|closed| walk.moments.get(*closed).is_some_and(here)).and_then(last);
            let Some(opened) = before.or_else(|| last(walk.moments.len())).or_else(|| walk.moments.iter().position(here)) else { continue };
            spans.push(OpenSpan { procedure, item, thing, opened, closed });
        }
    }
    spans
}

/// What an item is about.
pub(in super::super) fn thing_of(scope: Scope<'_>, item: &Entry<OpenItem>) -> Option<ThingRef> {
    let id = item.what.of.as_ref().map_or(item.id.as_str(), |of| of.value.as_str());
    ListKind::ALL.iter().filter(|kind| **kind != ListKind::LeavesOpen).find_map(|kind| scope.find(*kind, id))
}

fn closing_moment(walk: &Walk<'_>, scope: Scope<'_>, item: &Entry<OpenItem>, thing: &ThingRef) -> Option<usize> {
    let (procedure, step) = item.what.finish_in.as_ref()?.value.split_once('#')?;
    let in_step = |moment: &Moment<'_>| moment.procedure.id == procedure && moment.step.id == step;
    let done = |verb: Verb| {
        let does = |moment: &Moment<'_>| moment.verb == verb && (verb != Verb::Torque || is_full(scope, thing, moment.act.stage));
        walk.moments_of(thing).rev().find(|(_, moment)| in_step(moment) && does(moment)).map(|(at, _)| at)
    };
    let all: Option<Vec<usize>> = closing_verbs(scope, thing).into_iter().map(done).collect();
    all.and_then(|moments| moments.into_iter().max())
}

/// Whether tightening to this stage is tightening to the full value.
pub(in super::super) fn is_full(scope: Scope<'_>, thing: &ThingRef, stage: Option<u64>) -> bool {
    let stages = scope
        .thing(|lists| &lists.fasteners, thing)
        .and_then(|entry| entry.what.torque.first().map(|torque| Torque::stages(torque).len()))
        .unwrap_or(1);
    stage.is_none_or(|stage| usize::try_from(stage).is_ok_and(|stage| stage >= stages))
}

/// Whether a lock of this kind asks for an act of its own after the tightening.
pub(in super::super) fn is_locked_by_hand(lock: &str) -> bool {
    matches!(lock, "staked" | "tab-washer" | "lock-wire" | "cotter")
}

/// The verbs that bring a thing to its final state.
pub(in super::super) fn closing_verbs(scope: Scope<'_>, thing: &ThingRef) -> Vec<Verb> {
    let fastener = scope.thing(|lists| &lists.fasteners, thing).filter(|_| thing.kind == ListKind::Fasteners);
    let part = scope.thing(|lists| &lists.parts, thing).filter(|_| thing.kind == ListKind::Parts);
    if fastener.is_some_and(|entry| entry.what.temporary) || part.is_some_and(|entry| entry.what.temporary) {
        return vec![Verb::Remove];
    }
    match thing.kind {
        ListKind::Fasteners => {
            let lock = fastener.and_then(|entry| entry.what.lock.first().cloned());
            if lock.is_some_and(|lock| is_locked_by_hand(&lock)) { vec![Verb::Torque, Verb::Lock] } else { vec![Verb::Torque] }
        }
        ListKind::Aligns => vec![Verb::Align],
        ListKind::Measures => vec![Verb::Measure],
        ListKind::Tests => vec![Verb::Test],
        ListKind::Waits => vec![Verb::Wait],
        ListKind::Beads => vec![Verb::Apply],
        ListKind::Fills => vec![Verb::Fill],
        ListKind::Heats => vec![Verb::Cool],
        ListKind::Turns => vec![Verb::Turn],
        _ => vec![Verb::Fit],
    }
}
