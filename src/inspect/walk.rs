//! The walk: through every procedure of a machine in build order, for each combination of the variants
//! that change the work, keeping the state of every thing.

use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Combination, ListKind, Machine, Manual, Procedure, Step, ThingRef, Torque, Verb, combinations};
use std::collections::{BTreeMap, BTreeSet};

/// The most combinations of variants walked for one machine.
const MOST_COMBINATIONS: usize = 256;

/// How a thing stands at a moment of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Not in place, and never was.
    Absent,
    /// A fastener put in and run up by hand.
    Started,
    /// A fastener brought to this stage of several.
    Stage(u64),
    /// A fastener at its full value (or by hand, where that is its value).
    Tight,
    /// A fastener staked, wired or tabbed.
    Locked,
    /// A fastener slackened after it was tight.
    Loosened,
    /// In for a trial.
    DryFitted,
    /// In for good.
    Fitted,
    /// Was in place and is out again.
    Removed,
}

/// One act at its place in the walk, and what it changed.
#[derive(Clone, Debug)]
pub struct Moment<'m> {
    /// The procedure.
    pub procedure: &'m Procedure,
    /// The step.
    pub step: &'m Step,
    /// The act.
    pub act: &'m Act,
    /// How its thing stood before.
    pub before: State,
    /// How it stands after.
    pub after: State,
}

/// One walk through the whole build of one machine in one combination of variants.
#[derive(Clone, Debug)]
pub struct Walk<'m> {
    /// The machine.
    pub machine: &'m Machine,
    /// The variants that matter.
    pub combination: Combination,
    /// Every act that is done in this combination, in the order of work.
    pub moments: Vec<Moment<'m>>,
    /// How each thing stands at the end, and the moment that left it so.
    pub end: BTreeMap<ThingRef, (State, usize)>,
}

/// A machine varies in more ways than can be walked.
pub(super) static VARIANTS_TOO_MANY: Rule = Rule {
    name: "variants-too-many",
    severity: Severity::Warning,
    summary: "A machine has more combinations of variants than can be checked.",
    explanation: Explanation {
        finds: "Machines whose steps and things depend on so many axes that more than 256 combinations are made. Only the first of each axis is walked then.",
        matters: "A fault that shows in one combination only may be missed.",
        may_be_wrong: "Where most combinations are not made: name them under not_made:.",
        example: "variants: {a: {…}, b: {…}, c: {…}, …} with a step for each",
        instead: "Split the machine into two, or say under not_made: which combinations don't exist.",
    },
};

/// The walks through every machine of a manual.
pub fn walks<'m>(manual: &'m Manual, findings: &mut Vec<Finding>) -> Vec<Walk<'m>> {
    let mut all = Vec::new();
    for machine in &manual.machines {
        let named = axes_that_change_the_work(machine);
        let made = combinations(&machine.axes, &machine.not_made, &named, MOST_COMBINATIONS).unwrap_or_else(|| {
            findings.push(too_many(machine, named.len()));
            vec![first_of_each(machine, &named)]
        });
        all.extend(made.into_iter().map(|combination| walk(manual, machine, combination)));
    }
    all
}

fn too_many(machine: &Machine, axes: usize) -> Finding {
    let place = machine.axes.first().map_or_else(|| crate::finding::Place::whole_file(machine.file), |axis| axis.place.clone());
    Finding::new(&VARIANTS_TOO_MANY, place, format!("{} has more combinations of variants than can be checked", machine.name))
        .label("too many together")
        .figure(format!("{axes} axes change the work, together more than {MOST_COMBINATIONS} combinations"))
        .fix("name the combinations that don't exist under not_made:, or split the machine")
}

fn first_of_each(machine: &Machine, named: &BTreeSet<String>) -> Combination {
    let first = |axis: &crate::manual::Axis| axis.values.first().map(|value| (axis.name.clone(), value.name.clone()));
    Combination(machine.axes.iter().filter(|axis| named.contains(&axis.name)).filter_map(first).collect())
}

/// The axes named by a step's or an entry's condition: the others change values, not the work.
fn axes_that_change_the_work(machine: &Machine) -> BTreeSet<String> {
    let mut named = BTreeSet::new();
    let mut note = |condition: &Combination| named.extend(condition.0.keys().cloned());
    let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
    for lists in lists {
        for kind in ListKind::ALL {
            lists.heads(*kind).iter().for_each(|head| note(head.only));
        }
    }
    for step in machine.procedures.iter().flat_map(|procedure| &procedure.steps) {
        note(&step.only);
    }
    named
}

fn walk<'m>(manual: &'m Manual, machine: &'m Machine, combination: Combination) -> Walk<'m> {
    let mut walk = Walk { machine, combination, moments: Vec::new(), end: BTreeMap::new() };
    for procedure in &machine.procedures {
        for step in &procedure.steps {
            if walk.combination.satisfies(&step.only) {
                step.acts.iter().for_each(|act| walk.act(manual, procedure, step, act));
            }
        }
    }
    walk
}

impl<'m> Walk<'m> {
    fn act(&mut self, manual: &'m Manual, procedure: &'m Procedure, step: &'m Step, act: &'m Act) {
        let Some(verb) = act.verb else { return };
        let scope = manual.scope(self.machine, procedure);
        let Some(thing) = act.thing() else {
            self.moments.push(Moment { procedure, step, act, before: State::Absent, after: State::Absent });
            return;
        };
        if scope.head(thing).is_some_and(|head| !self.combination.satisfies(head.only)) {
            return;
        }
        let before = self.end.get(thing).map_or(State::Absent, |(state, _)| *state);
        let torque = scope.thing(|lists| &lists.fasteners, thing).and_then(|entry| {
            let exact = entry.what.torque.get(&self.combination);
            exact.or_else(|| entry.what.torque.first())
        });
        let after = after(thing.kind, before, verb, act.stage, torque);
        if after != before || changes(thing.kind, verb) {
            self.end.insert(thing.clone(), (after, self.moments.len()));
        }
        if thing.kind == ListKind::Stacks && after != before {
            self.stack(manual, procedure, thing, after);
        }
        self.moments.push(Moment { procedure, step, act, before, after });
    }

    /// A stack takes its plates with it.
    fn stack(&mut self, manual: &'m Manual, procedure: &'m Procedure, stack: &ThingRef, after: State) {
        let scope = manual.scope(self.machine, procedure);
        let Some(entry) = scope.thing(|lists| &lists.stacks, stack) else { return };
        for plate in entry.what.of.iter().filter_map(|plate| scope.find(ListKind::Parts, &plate.value)) {
            self.end.insert(plate, (after, self.moments.len()));
        }
    }
}

/// Whether a verb changes a thing of this kind at all.
fn changes(kind: ListKind, verb: Verb) -> bool {
    match kind {
        ListKind::Fasteners => matches!(verb, Verb::Fit | Verb::DryFit | Verb::Remove | Verb::Start | Verb::Torque | Verb::Loosen | Verb::Lock),
        _ => matches!(verb, Verb::Fit | Verb::DryFit | Verb::Remove),
    }
}

/// The table of states: how a thing stands after an act.
fn after(kind: ListKind, before: State, verb: Verb, stage: Option<u64>, torque: Option<&Torque>) -> State {
    let by_hand = matches!(torque, Some(Torque::Hand));
    match (kind, verb) {
        (ListKind::Fasteners, Verb::Fit | Verb::Start) if by_hand => State::Tight,
        (ListKind::Fasteners, Verb::Fit | Verb::Start | Verb::DryFit) => match before {
            State::Stage(_) | State::Tight | State::Locked => before,
            _ => State::Started,
        },
        (ListKind::Fasteners, Verb::Torque) => match stage {
            Some(stage) if !is_last_stage(stage, torque) => State::Stage(stage),
            _ => State::Tight,
        },
        (ListKind::Fasteners, Verb::Lock) => State::Locked,
        (ListKind::Fasteners, Verb::Loosen) => State::Loosened,
        (ListKind::Fasteners, Verb::Remove) => State::Removed,
        (ListKind::Fasteners, _) => before,
        (_, Verb::Fit) => State::Fitted,
        (_, Verb::DryFit) => State::DryFitted,
        (_, Verb::Remove) => State::Removed,
        _ => before,
    }
}

fn is_last_stage(stage: u64, torque: Option<&Torque>) -> bool {
    let stages = torque.map_or(0, |torque| torque.stages().len());
    usize::try_from(stage).is_ok_and(|stage| stage >= stages)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fastener(before: State, verb: Verb) -> State {
        after(ListKind::Fasteners, before, verb, None, None)
    }

    #[test]
    fn a_fastener_goes_from_hand_to_tight_to_locked() {
        assert_eq!(fastener(State::Absent, Verb::Start), State::Started);
        assert_eq!(fastener(State::Started, Verb::Torque), State::Tight);
        assert_eq!(fastener(State::Absent, Verb::Torque), State::Tight);
        assert_eq!(fastener(State::Tight, Verb::Lock), State::Locked);
        assert_eq!(fastener(State::Tight, Verb::Start), State::Tight);
        assert_eq!(fastener(State::Tight, Verb::Loosen), State::Loosened);
        assert_eq!(fastener(State::Loosened, Verb::Torque), State::Tight);
        assert_eq!(fastener(State::Locked, Verb::Remove), State::Removed);
        assert_eq!(fastener(State::Removed, Verb::Start), State::Started);
        assert_eq!(fastener(State::Tight, Verb::Clean), State::Tight);
        assert_eq!(fastener(State::Tight, Verb::Mark), State::Tight);
    }

    #[test]
    fn by_hand_is_final_where_the_list_says_so() {
        assert_eq!(after(ListKind::Fasteners, State::Absent, Verb::Start, None, Some(&Torque::Hand)), State::Tight);
    }

    #[test]
    fn a_part_is_out_tried_or_in() {
        let part = |before, verb| after(ListKind::Parts, before, verb, None, None);
        assert_eq!(part(State::Absent, Verb::DryFit), State::DryFitted);
        assert_eq!(part(State::DryFitted, Verb::Remove), State::Removed);
        assert_eq!(part(State::Removed, Verb::Fit), State::Fitted);
        assert_eq!(part(State::Fitted, Verb::Clean), State::Fitted);
    }
}
