//! Rings: procedures that wait for one another through what is left open, needed or forbidden.
//!
//! A procedure is worked as a whole, so what must come first is kept between procedures. In any ring at least
//! one edge runs against the order of the walk: only from such an edge a ring is looked for.

use super::Context;
use super::walk::{Moment, OpenSpan, Walk, in_every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Procedure, Verb};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Procedures wait for one another, and not by after: alone.
pub(super) static DEFERRAL_CYCLE: Rule = Rule {
    name: "deferral-cycle",
    severity: Severity::Error,
    summary: "What is left open, needed or forbidden makes procedures wait for each other in a ring.",
    explanation: Explanation {
        finds: "Rings of procedures each of which must come before the next: one leaves open what the other finishes (finish_in:), an act that an open item forbids comes after what finishes the item, a wait comes after the act it needs (needs:), and after:. A ring of after: alone is after-ring; one item finished before it is opened is closed-before-opened.",
        matters: "No order of work is right: whichever procedure is begun, it stops halfway and waits for the other.",
        may_be_wrong: "Where the act that closes the ring can be done earlier as well: write it there.",
        example: "a.md: leaves_open: {seal: {…, finish_in: b#seal}}\nb.md: leaves_open: {nut: {…, finish_in: a#nut}}",
        instead: "Move one of the steps into a procedure of its own that comes after both, and name that in finish_in:.",
    },
};

/// Why one procedure must come before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Why {
    After,
    Finish,
    Forbids,
    Needs,
}

impl Why {
    fn words(self) -> &'static str {
        match self {
            Self::After => "comes after it",
            Self::Finish => "finishes what it leaves open",
            Self::Forbids => "forbidden until then",
            Self::Needs => "needs it first",
        }
    }
}

/// One procedure that must come before another.
#[derive(Clone, Debug)]
struct Edge<'m> {
    from: &'m str,
    to: &'m str,
    why: Why,
    /// Where the author says so.
    place: &'m Place,
    /// The edge in words: the later waits for the earlier.
    words: String,
}

/// The rings of a walk, each as its edges in order.
pub(super) struct Rings<'m>(Vec<Vec<Edge<'m>>>);

impl Rings<'_> {
    /// Whether what the author says at a place is part of a ring: then the ring is told, and no more.
    pub(super) fn tell(&self, place: &Place) -> bool {
        self.0.iter().flatten().any(|edge| edge.place == place)
    }
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        findings.extend(rings(walk).0.iter().filter_map(|ring| told(ring)));
    });
}

/// The most edges of a ring that are printed.
const MOST_PRINTED: usize = 8;

fn told(ring: &[Edge<'_>]) -> Option<Finding> {
    let at = ring.first()?;
    let round: Vec<&str> = ring.iter().map(|edge| edge.from).chain([at.from]).collect();
    let left_out = ring.len().saturating_sub(MOST_PRINTED);
    let others = ring.iter().skip(1).take(MOST_PRINTED);
    Some(
        others.fold(
            Finding::new(&DEFERRAL_CYCLE, at.place.clone(), "these procedures wait for each other")
                .label("closes the ring")
                .figure(if round.len() > MOST_PRINTED { format!("a ring of {} procedures", ring.len()) } else { round.join(" → ") })
                .figures(ring.iter().take(MOST_PRINTED).map(|edge| edge.words.clone()))
                .figures((left_out > 0).then(|| format!("… and {left_out} more")))
                .fix("move one of these steps to a procedure that comes after both, and name it in finish_in:; or do without one of the conditions")
                .about(at.from.to_owned()),
            |finding, edge| finding.related(edge.place.clone(), edge.why.words()),
        ),
    )
}

/// The rings of a walk that can't be told as one item closed too early or one wait begun too early.
pub(super) fn rings<'m>(walk: &Walk<'m>) -> Rings<'m> {
    let finishes: Vec<(Edge<'m>, bool)> = walk.open.iter().filter_map(|span| finish(walk, span)).collect();
    let needs = needed(walk);
    let is_backward = |edges: &[(Edge<'m>, bool)]| edges.iter().any(|(_, backward)| *backward);
    if !is_backward(&finishes) && !is_backward(&needs) && forbidden(walk, true).is_empty() {
        return Rings(Vec::new());
    }
    let mut graph = Graph::of(walk.machine.procedures.iter());
    finishes.iter().chain(&needs).for_each(|(edge, _)| graph.add(edge.clone()));
    // An act may also come before its item is opened, unless the opener must come first.
    let mut crossings = forbidden(walk, false);
    crossings.retain(|crossing| graph.path(crossing.opener, crossing.edge.to).is_some());
    crossings.iter().for_each(|crossing| graph.add(crossing.edge.clone()));
    let backward = finishes.into_iter().chain(needs).filter(|(_, backward)| *backward).map(|(edge, _)| edge);
    let mut found: Vec<Vec<Edge<'m>>> = Vec::new();
    let mut seen: BTreeSet<BTreeSet<&Place>> = BTreeSet::new();
    for edge in backward.chain(crossings.into_iter().filter(|crossing| crossing.backward).map(|crossing| crossing.edge)) {
        let Some(path) = graph.path(edge.to, edge.from) else { continue };
        let ring: Vec<Edge<'m>> = [edge].into_iter().chain(path).collect();
        let said: Vec<&Edge<'m>> = ring.iter().filter(|edge| edge.why != Why::After).collect();
        let is_told = matches!(said.as_slice(), [only] if only.why != Why::Forbids);
        if !is_told && seen.insert(said.iter().map(|edge| edge.place).collect()) {
            found.push(ring);
        }
    }
    Rings(found)
}

/// Which procedure must come before which.
struct Graph<'m> {
    out: BTreeMap<&'m str, Vec<Edge<'m>>>,
}

impl<'m> Graph<'m> {
    fn of(procedures: impl Iterator<Item = &'m Procedure>) -> Self {
        let mut graph = Self { out: BTreeMap::new() };
        let mut done: BTreeSet<&str> = BTreeSet::new();
        for procedure in procedures {
            // In a ring of after: alone (reported) the procedures stand as they come; what runs back is left out.
            for after in procedure.after.iter().filter(|after| done.contains(after.value.as_str())) {
                let words = format!("{} comes after {} (after:)", procedure.id, after.value);
                graph.add(Edge { from: &after.value, to: &procedure.id, why: Why::After, place: &after.place, words });
            }
            done.insert(&procedure.id);
        }
        graph
    }

    fn add(&mut self, edge: Edge<'m>) {
        self.out.entry(edge.from).or_default().push(edge);
    }

    /// The shortest way from one procedure to another; none where there is none.
    fn path(&self, from: &'m str, to: &'m str) -> Option<Vec<Edge<'m>>> {
        let mut came: BTreeMap<&str, &Edge<'m>> = BTreeMap::new();
        let mut next: VecDeque<&str> = VecDeque::from([from]);
        while let Some(here) = next.pop_front().filter(|_| !came.contains_key(to)) {
            for edge in self.out.get(here).map(Vec::as_slice).unwrap_or_default() {
                if edge.to != from && !came.contains_key(edge.to) {
                    came.insert(edge.to, edge);
                    next.push_back(edge.to);
                }
            }
        }
        let mut way = Vec::new();
        let mut at = to;
        while at != from {
            let edge = came.get(at)?;
            way.push((*edge).clone());
            at = edge.from;
        }
        way.reverse();
        Some(way)
    }
}

/// What one procedure leaves open and another finishes; and whether the other comes first in the walk.
fn finish<'m>(walk: &Walk<'m>, span: &OpenSpan<'m>) -> Option<(Edge<'m>, bool)> {
    let (opening, closing) = (walk.moments.get(span.opened)?, walk.moments.get(span.closed?)?);
    let place = &span.item.what.finish_in.as_ref()?.place;
    let words = format!("{} finishes ‘{}’, which is left open in {}", closing.words(), span.item.id, opening.words());
    between(opening, closing, Why::Finish, place, words).map(|edge| (edge, span.closed < Some(span.opened)))
}

fn between<'m>(first: &Moment<'m>, then: &Moment<'m>, why: Why, place: &'m Place, words: String) -> Option<Edge<'m>> {
    (first.procedure.id != then.procedure.id).then(|| Edge { from: &first.procedure.id, to: &then.procedure.id, why, place, words })
}

/// An act of a third procedure that may not come before an item is finished.
struct Crossing<'m> {
    edge: Edge<'m>,
    opener: &'m str,
    backward: bool,
}

/// What open items forbid, in the procedures that do it: all of it, or only what is done too early.
fn forbidden<'m>(walk: &Walk<'m>, too_early: bool) -> Vec<Crossing<'m>> {
    let mut found = Vec::new();
    for span in walk.open.iter().filter(|span| !span.item.what.forbids.is_empty()) {
        let Some((closed, closing)) = span.closed.and_then(|closed| Some((closed, walk.moments.get(closed)?))) else { continue };
        let end = if too_early { closed } else { walk.moments.len() };
        let mut told: BTreeSet<&str> = BTreeSet::new();
        for (at, moment) in walk.moments.iter().enumerate().take(end).skip(span.opened + 1) {
            let Some(place) = span.forbids(moment).filter(|_| moment.procedure.id != span.procedure.id) else { continue };
            let words = format!("{} does {}, forbidden until ‘{}’ is finished in {}", moment.words(), moment.act.address, span.item.id, closing.words());
            if let Some(edge) = between(closing, moment, Why::Forbids, place, words).filter(|edge| told.insert(edge.to)) {
                found.push(Crossing { edge, opener: &span.procedure.id, backward: at < closed });
            }
        }
    }
    found
}

/// Waits that need an act of another procedure; and whether that comes later in the walk.
fn needed<'m>(walk: &Walk<'m>) -> Vec<(Edge<'m>, bool)> {
    let mut found = Vec::new();
    for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| matches!(moment.verb, Verb::Begin | Verb::Wait)) {
        let entry = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.waits, thing));
        let Some((entry, case)) = entry.and_then(|entry| Some((entry, entry.what.needs.case(&walk.combination)?))) else { continue };
        let Some((done, act)) = walk.moments_at(case.value.split(['*', '/']).next().unwrap_or_default()).next() else { continue };
        let words = format!("{} begins ‘{}’, which needs {} of {}", moment.words(), entry.id, case.value, act.words());
        found.extend(between(act, moment, Why::Needs, &case.place, words).map(|edge| (edge, done > at)));
    }
    found
}
