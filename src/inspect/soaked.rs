//! Parts that are laid in something before they go in, and go in too soon.

use super::Context;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Home, ListKind, Lists, Scope, ThingRef, Verb, Wait};

/// A part goes in before its soak is over, or has begun.
pub(super) static FITTED_UNSOAKED: Rule = Rule {
    name: "fitted-unsoaked",
    severity: Severity::Error,
    summary: "A part that is laid in something first goes in before that is over.",
    explanation: Explanation {
        finds: "fit: of a seal, bearing, part, shim or stack that a wait names in of:, where the wait has a medium (in:), or speaks of soaking in its id or name: between its begin: and its wait:, and, where its id or name says soak, before either where the soak comes only later. Silent where the part comes out again before it goes in another time, where needs: names an act that puts something in, pours or tightens, and where the medium is poured in (fill:) between: then it soaks in place.",
        matters: "Plates and packing that go in dry burn in the first minute, and nobody sees it until they are out again.",
        may_be_wrong: "Where it soaks in its place: name the act that begins it in needs:, as needs: fill:winch-oil.",
        example: "waits: {plate-soak: {time: ≥ 12 h, of: [friction-plate], in: winch-oil, covered: true}}\n[Lay the plates under oil](begin:plate-soak). [Stack them](fit:friction-plate). [They have soaked](wait:plate-soak)",
        instead: "[Lay the plates under oil](begin:plate-soak) … [they have soaked](wait:plate-soak). [Stack them](fit:friction-plate)",
    },
};

/// What can be laid in something and goes in then.
const FITTED: [ListKind; 5] = [ListKind::Parts, ListKind::Seals, ListKind::Bearings, ListKind::Shims, ListKind::Stacks];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (home, lists, scope) in homes(walk) {
            for entry in lists.waits.values().filter(|entry| is_soak(walk, lists, entry)) {
                let soak = Soak::of(walk, &ThingRef { kind: ListKind::Waits, home: home.clone(), id: entry.id.clone() }, entry);
                let parts = entry.what.of.iter().filter_map(|of| FITTED.iter().find_map(|kind| scope.find_anywhere(*kind, &of.value)));
                findings.extend(parts.filter_map(|part| soak.too_soon(scope, &part)));
            }
        }
    });
}

/// The lists of a machine and of its procedures.
fn homes<'m>(walk: &Walk<'m>) -> Vec<(Home, &'m Lists, Scope<'m>)> {
    let own = (Home::Machine, &walk.machine.lists, walk.manual.machine_scope(walk.machine));
    let of_procedures = walk.machine.procedures.iter().map(|procedure| (Home::Procedure(procedure.id.clone()), &procedure.lists, walk.scope(procedure)));
    std::iter::once(own).chain(of_procedures).collect()
}

/// Whether a wait lays something in a medium before it goes in, as far as its entry tells.
fn is_soak(walk: &Walk<'_>, lists: &Lists, entry: &Entry<Wait>) -> bool {
    let speaks = speaks_of_soaking(entry);
    let in_place = entry.what.needs.get(&walk.combination).is_some_and(|needs| {
        let verb = needs.split(':').next().and_then(Verb::find);
        needs != "nothing" && !matches!(verb, Some(Verb::Clean | Verb::Remove | Verb::Receive | Verb::Measure))
    });
    let unreadable = ["of", "in", "needs"].into_iter().any(|field| lists.is_unreadable(ListKind::Waits, &entry.id, field));
    (speaks || entry.what.medium.get(&walk.combination).is_some()) && !in_place && !unreadable && !walk.machine.may_mean(&entry.id)
}

fn speaks_of_soaking(entry: &Entry<Wait>) -> bool {
    entry.id.contains("soak") || entry.name.to_lowercase().contains("soak")
}

/// A soak in a walk: the moments that begin it, and those at which it is over.
struct Soak<'w, 'm> {
    walk: &'w Walk<'m>,
    entry: &'m Entry<Wait>,
    begun: Vec<usize>,
    over: Vec<usize>,
}

impl<'w, 'm> Soak<'w, 'm> {
    fn of(walk: &'w Walk<'m>, thing: &ThingRef, entry: &'m Entry<Wait>) -> Self {
        let at = |verb: Verb| walk.moments_of(thing).filter(|(_, moment)| moment.verb == verb).map(|(at, _)| at).collect();
        Self { walk, entry, begun: at(Verb::Begin), over: at(Verb::Wait) }
    }

    /// The first time that a part goes in and has not soaked, where it soaks only later.
    fn too_soon(&self, scope: Scope<'_>, part: &ThingRef) -> Option<Finding> {
        if self.walk.machine.may_mean(&part.id) {
            return None;
        }
        let name = scope.head(part)?.name;
        let changes = self.walk.history.get(part)?;
        let fitted = changes.iter().filter(|(_, state)| *state == State::Fitted).map(|(at, _)| *at);
        fitted.into_iter().find_map(|at| {
            let begun = self.begun.iter().rev().find(|begun| **begun < at);
            let over = self.over.iter().find(|over| **over > at);
            let later = self.begun.iter().find(|begun| **begun > at).into_iter().chain(over).min()?;
            // One that is begun and nowhere over is told as that.
            let wanted = if begun.is_some() { *over? } else { *later };
            // What comes out before it goes in again soaks for that; of a pair, the new one lies in oil while the old one is still in.
            let next = changes.iter().find(|(other, state)| *other > at && matches!(state, State::Fitted | State::Removed | State::Away));
            let comes_out = next.is_some_and(|(other, state)| *state != State::Fitted && (begun.is_none() || *other < wanted));
            // What lies in something where it is may be watched there for bubbles.
            let watched = begun.is_none() && !speaks_of_soaking(self.entry);
            if self.over.iter().any(|over| *over < at) || comes_out || watched || (begun.is_none() && self.is_poured(at, wanted)) {
                return None;
            }
            let (moment, wanted) = (self.walk.moments.get(at)?, self.walk.moments.get(wanted)?);
            let (message, label, related) = match begun {
                Some(_) => (format!("{name} goes in here, and ‘{}’ is not over yet", self.entry.name), "too soon", "it is over only here"),
                None => (format!("{name} goes in here, and ‘{}’ comes only later", self.entry.name), "goes in without it", "it comes here"),
            };
            let finding = Finding::new(&FITTED_UNSOAKED, moment.act.place.clone(), message)
                .label(label)
                .figures(self.entry.what.time.get(&self.walk.combination).map(|time| format!("it takes {}", time.written())))
                .fix(format!("write it behind [it has soaked](wait:{}); where it soaks in its place, name the act that begins it in needs:", self.entry.id))
                .about(part.id.clone());
            let finding = match begun.and_then(|begun| self.walk.moments.get(*begun)) {
                Some(begun) => finding.related(begun.act.place.clone(), format!("begun: {}", begun.words())),
                None => finding,
            };
            Some(finding.related(wanted.act.place.clone(), format!("{related}: {}", wanted.words())))
        })
    }

    /// Whether its medium is poured in between two moments: then the part soaks where it is.
    fn is_poured(&self, from: usize, to: usize) -> bool {
        let Some(medium) = self.entry.what.medium.get(&self.walk.combination) else { return false };
        let pours = |moment: &Moment<'_>| {
            let fill = moment.act.thing().and_then(|thing| self.walk.scope(moment.procedure).thing(|lists| &lists.fills, thing));
            fill.and_then(|fill| fill.what.of.get(&self.walk.combination)).is_some_and(|of| of == medium)
        };
        self.walk.moments.get(from..to).unwrap_or_default().iter().any(pours)
    }
}
