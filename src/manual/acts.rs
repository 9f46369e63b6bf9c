//! Acts: from a link's address to a verb and the things it acts on.

use super::lists::{ListKind, Scope, ThingRef};
use super::model::{Act, Machine, Manual};
use super::rules;
use super::verb::{VERBS, Verb};
use crate::finding::{Finding, Place, nearest};
use crate::source::ActText;

/// An act whose ids have not been looked up yet.
pub(super) fn unresolved(text: &ActText) -> Act {
    Act {
        verb: Verb::find(&text.verb),
        things: Vec::new(),
        material: None,
        times: None,
        stage: None,
        words: text.words.clone(),
        address: format!("{}:{}", text.verb, text.target),
        place: text.place.clone(),
        target_place: text.target_place.clone(),
        block: text.block,
    }
}

/// The acts of every step of every procedure of a machine, resolved.
pub(super) fn resolve(manual: &Manual, machine: usize, findings: &mut Vec<Finding>) -> Vec<Vec<Vec<Act>>> {
    let Some(machine) = manual.machines.get(machine) else { return Vec::new() };
    let mut procedures = Vec::new();
    for procedure in &machine.procedures {
        let mut resolver = Resolver { scope: manual.scope(machine, procedure), findings };
        let steps = procedure.steps.iter().map(|step| step.acts.iter().map(|act| resolver.act(act)).collect()).collect();
        procedures.push(steps);
    }
    procedures
}

/// Puts resolved acts in their steps.
pub(super) fn install(machine: &mut Machine, acts: Vec<Vec<Vec<Act>>>) {
    for (procedure, steps) in machine.procedures.iter_mut().zip(acts) {
        for (step, acts) in procedure.steps.iter_mut().zip(steps) {
            step.acts = acts;
        }
    }
}

struct Resolver<'a, 'f> {
    scope: Scope<'a>,
    findings: &'f mut Vec<Finding>,
}

/// An address's target in its parts.
#[derive(Debug, PartialEq, Eq)]
struct Target<'t> {
    material: Option<&'t str>,
    id: &'t str,
    times: Option<&'t str>,
    stage: Option<&'t str>,
}

impl<'t> Target<'t> {
    /// `MATERIAL@THING`, `ID*4`, `ID/2`.
    fn parse(text: &'t str) -> Self {
        let (material, rest) = match text.split_once('@') {
            Some((material, rest)) => (Some(material), rest),
            None => (None, text),
        };
        let (rest, times) = match rest.split_once('*') {
            Some((rest, times)) => (rest, Some(times)),
            None => (rest, None),
        };
        let (id, stage) = match rest.split_once('/') {
            Some((id, stage)) => (id, Some(stage)),
            None => (rest, None),
        };
        Self { material, id, times, stage }
    }
}

impl Resolver<'_, '_> {
    fn act(&mut self, act: &Act) -> Act {
        let mut act = act.clone();
        let address = act.address.clone();
        let (word, target) = address.split_once(':').unwrap_or((address.as_str(), ""));
        let Some(verb) = act.verb else {
            self.unknown_verb(word, &act.target_place);
            return act;
        };
        match verb {
            Verb::Stop => self.stop(target, &act),
            Verb::Hold | Verb::Sign => self.people(target, verb, &mut act),
            _ => self.thing(target, verb, &mut act),
        }
        act
    }

    fn unknown_verb(&mut self, word: &str, place: &Place) {
        let meant = match word {
            "tighten" => Some("torque"),
            "check" => Some("measure"),
            "install" | "mount" => Some("fit"),
            "undo" => Some("loosen"),
            _ => nearest(word, VERBS.iter().map(|row| row.word)),
        };
        let all: Vec<&str> = VERBS.iter().map(|row| row.word).collect();
        let fix = meant.map_or_else(
            || format!("verbs: {}; a web address begins with https://", all.join(", ")),
            |meant| format!("did you mean ‘{meant}:’? {}", Verb::find(meant).map_or("", |v| v.row().means)),
        );
        self.findings.push(
            Finding::new(&rules::UNKNOWN_VERB, place.clone(), format!("‘{word}:’ is no act")).label("not a verb of ours").fix(fix),
        );
    }

    fn stop(&mut self, target: &str, act: &Act) {
        if !target.is_empty() {
            self.unclear(act, "‘stop:’ takes no id", "write [A safe place to stop](stop:)");
        }
    }

    fn people(&mut self, target: &str, verb: Verb, act: &mut Act) {
        if target.is_empty() {
            self.unclear(act, &format!("‘{}:’ does not say who", verb.word()), "name who looks and signs: hold:second-reader");
            return;
        }
        for id in target.split(',') {
            if let Some(thing) = self.look_up(verb.row().lists, id, verb, &act.target_place) {
                act.things.push(thing);
            }
        }
    }

    fn thing(&mut self, target: &str, verb: Verb, act: &mut Act) {
        let target = Target::parse(target);
        if target.id.is_empty() {
            self.unclear(act, &format!("‘{}:’ does not say what", verb.word()), &format!("name what it acts on: {}:ID", verb.word()));
            return;
        }
        match (verb, target.material) {
            (Verb::Apply, Some(material)) => {
                act.material = self.look_up(&[ListKind::Materials], material, verb, &act.target_place);
                act.things.extend(self.look_up(Verb::Fit.row().lists, target.id, verb, &act.target_place));
            }
            (Verb::Apply, None) if self.scope.find(ListKind::Materials, target.id).is_some() => {
                self.unclear(act, "‘apply:’ does not say on what", &format!("write apply:{}@THING", target.id));
            }
            (_, Some(_)) => self.unclear(act, &format!("‘{}:’ takes no @", verb.word()), "only apply: has a material before its thing"),
            (_, None) => act.things.extend(self.look_up(verb.row().lists, target.id, verb, &act.target_place)),
        }
        act.times = self.number(target.times, '*', &[Verb::Fit, Verb::DryFit, Verb::Remove, Verb::Start, Verb::Clean, Verb::Loosen, Verb::Torque], verb, act);
        act.stage = self.number(target.stage, '/', &[Verb::Torque], verb, act);
        self.stage_exists(act);
    }

    fn number(&mut self, text: Option<&str>, mark: char, verbs: &[Verb], verb: Verb, act: &Act) -> Option<u64> {
        let text = text?;
        if !verbs.contains(&verb) {
            self.unclear(act, &format!("‘{}:’ takes no {mark}", verb.word()), "take it out");
            return None;
        }
        let number = text.parse::<u64>().ok().filter(|n| (1..=10_000).contains(n));
        if number.is_none() {
            self.unclear(act, &format!("‘{text}’ behind {mark} is no number"), &format!("write a whole number from 1: {mark}2"));
        }
        number
    }

    fn stage_exists(&mut self, act: &Act) {
        let (Some(stage), Some(thing)) = (act.stage, act.thing()) else { return };
        let Some(entry) = self.scope.thing(|l| &l.fasteners, thing) else { return };
        let stages = entry.what.torque.cases.iter().map(|case| case.value.stages().len()).max().unwrap_or(0);
        if entry.what.torque.is_given() && usize::try_from(stage).unwrap_or(usize::MAX) > stages {
            self.unclear(act, &format!("{} has no stage {stage}", entry.name), &format!("it has {stages}: list the stage under torque:, or name another"));
        }
    }

    fn unclear(&mut self, act: &Act, message: &str, fix: &str) {
        self.findings.push(Finding::new(&rules::ACT_UNCLEAR, act.target_place.clone(), message).label("not clear").fix(fix));
    }

    fn look_up(&mut self, kinds: &[ListKind], id: &str, verb: Verb, place: &Place) -> Option<ThingRef> {
        let found = kinds.iter().find_map(|kind| self.scope.find(*kind, id));
        if found.is_none() && !self.scope.may_be_lost(kinds) {
            self.not_listed(kinds, id, verb, place);
        }
        found
    }

    fn not_listed(&mut self, kinds: &[ListKind], id: &str, verb: Verb, place: &Place) {
        let elsewhere = ListKind::ALL.iter().find_map(|kind| self.scope.find(*kind, id));
        let known: Vec<&str> = kinds.iter().flat_map(|kind| self.ids(*kind)).collect();
        let wanted: Vec<&str> = kinds.iter().map(|kind| kind.key()).collect();
        let (message, fix) = if let Some(other) = elsewhere {
            (
                format!("‘{id}’ is {}, and ‘{}’ acts on {}", other.kind.one(), verb.word(), wanted.join(", ")),
                nearest(id, known).map_or_else(|| format!("list it under {}, or take another verb", wanted.join(" or ")), |near| format!("did you mean ‘{near}’?")),
            )
        } else {
            let near = nearest(id, known);
            (
                format!("‘{id}’ stands in no list"),
                near.map_or_else(|| format!("list it under {}", wanted.join(" or ")), |near| format!("did you mean ‘{near}’? Otherwise list it under {}", wanted.join(" or "))),
            )
        };
        self.findings.push(
            Finding::new(&rules::USED_NOT_LISTED, place.clone(), message).label("used here, listed nowhere").fix(fix).about(id.to_owned()),
        );
    }

    fn ids(&self, kind: ListKind) -> Vec<&str> {
        self.scope.homes().flat_map(|(_, lists)| lists.heads(kind)).map(|head| head.id).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_come_apart() {
        let target = |text| {
            let t = Target::parse(text);
            format!("{:?} {} {:?} {:?}", t.material, t.id, t.times, t.stage)
        };
        assert_eq!(target("hub-nut"), "None hub-nut None None");
        assert_eq!(target("locker@hub-nut"), "Some(\"locker\") hub-nut None None");
        assert_eq!(target("clips*4"), "None clips Some(\"4\") None");
        assert_eq!(target("bolt/2"), "None bolt None Some(\"2\")");
        assert_eq!(target("bolt/2*3"), "None bolt Some(\"3\") Some(\"2\")");
        assert_eq!(target(""), "None  None None");
    }
}
