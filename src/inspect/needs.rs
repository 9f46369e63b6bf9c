//! What a procedure needs, in the order in which it comes up: goods, materials, tools, waits. Pages, sheets and the kit list
//! are made from this one list.

use super::needed::{GOODS, used_by, within};
use crate::manual::{Act, Combination, ListKind, Procedure, Scope, Step, ThingRef, Varied, Verb};
use crate::quantity::Quantity;

/// One thing that is needed.
#[derive(Clone, Debug)]
pub struct Need<'a> {
    /// What. A material appears as often as it is used, anything else once.
    pub thing: ThingRef,
    /// The first step that needs it, or the step that uses the material.
    pub step: &'a Step,
    /// What is known of the machine there.
    pub known: Combination,
    /// What for.
    pub want: Want<'a>,
}

/// What something is needed for.
#[derive(Clone, Copy, Debug)]
pub enum Want<'a> {
    /// It goes in: a fastener, seal, bearing, part or shim.
    Goods,
    /// It is used up, as much as is poured where that is said.
    Material(Option<&'a Varied<Quantity>>),
    /// It is used and kept.
    Tool,
    /// It has to be waited for.
    Wait {
        /// Whether it needs nothing and so can be begun at once.
        at_once: bool,
        /// Whether an act here begins it; otherwise it runs from the work before it, or was begun elsewhere.
        begun: bool,
    },
}

/// The acts of a procedure that are done where `known` is known, in the order of work, each with its number in its step.
#[must_use]
pub fn acts_done<'a>(scope: Scope<'a>, procedure: &'a Procedure, known: &Combination) -> Vec<(&'a Step, usize, &'a Act)> {
    let steps = procedure.steps.iter().filter(|step| step.only.agrees_with(known));
    let acts = steps.flat_map(|step| step.acts.iter().enumerate().map(move |(index, act)| (step, index, act)));
    acts.filter(|(_, _, act)| act.thing().and_then(|thing| scope.head(thing)).is_none_or(|head| head.only.agrees_with(known))).collect()
}

/// What a procedure needs where `known` is known.
#[must_use]
pub fn needs<'a>(scope: Scope<'a>, procedure: &'a Procedure, known: &Combination) -> Vec<Need<'a>> {
    let mut gathered = Gathered { scope, known, seen: Vec::new(), needs: Vec::new() };
    for (step, _, act) in acts_done(scope, procedure, known) {
        let Some(here) = known.and(&step.only) else { continue };
        gathered.act(step, act, &here);
    }
    gathered.needs
}

struct Gathered<'a, 'k> {
    scope: Scope<'a>,
    known: &'k Combination,
    seen: Vec<ThingRef>,
    needs: Vec<Need<'a>>,
}

impl<'a> Gathered<'a, '_> {
    fn act(&mut self, step: &'a Step, act: &'a Act, here: &Combination) {
        let used = used_by(self.scope, act, here);
        if matches!(act.verb, Some(Verb::Fit | Verb::DryFit | Verb::Start | Verb::Torque | Verb::Begin)) {
            for thing in used.iter().filter(|thing| GOODS.contains(&thing.kind)) {
                self.once(thing, step, here, Want::Goods);
            }
        }
        for thing in &used {
            match thing.kind {
                ListKind::Fills => self.fill(thing, step, here),
                ListKind::Materials => self.add(thing, step, here, Want::Material(None)),
                ListKind::Tools => self.once(thing, step, here, Want::Tool),
                ListKind::Waits if matches!(act.verb, Some(Verb::Begin | Verb::Wait)) => {
                    let Some(entry) = self.scope.thing(|l| &l.waits, thing) else { continue };
                    let before = within(&entry.what.needs, self.known);
                    let begun = act.verb == Some(Verb::Begin);
                    let at_once = begun && !before.is_empty() && before.iter().all(|needs| *needs == "nothing");
                    self.once(thing, step, here, Want::Wait { at_once, begun });
                }
                _ => {}
            }
        }
    }

    fn fill(&mut self, thing: &ThingRef, step: &'a Step, here: &Combination) {
        let Some(entry) = self.scope.thing(|l| &l.fills, thing) else { return };
        let materials: Vec<ThingRef> =
            within(&entry.what.of, self.known).into_iter().filter_map(|id| self.scope.find(ListKind::Materials, id)).collect();
        for material in materials {
            self.add(&material, step, here, Want::Material(Some(&entry.what.amount)));
        }
    }

    fn once(&mut self, thing: &ThingRef, step: &'a Step, here: &Combination, want: Want<'a>) {
        if !self.seen.contains(thing) {
            self.seen.push(thing.clone());
            self.add(thing, step, here, want);
        }
    }

    fn add(&mut self, thing: &ThingRef, step: &'a Step, here: &Combination, want: Want<'a>) {
        self.needs.push(Need { thing: thing.clone(), step, known: here.clone(), want });
    }
}
