//! Acts: from a link's address to a verb and the things it acts on.

use super::lists::{ListKind, Scope, ThingRef};
use super::model::{Act, Machine, Manual};
use super::rules;
use super::verb::{VERBS, Verb};
use crate::finding::{Finding, Place, Sought, nearest};
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
pub(super) fn resolve(manual: &Manual, machine: &Machine, findings: &mut Vec<Finding>) -> Vec<Vec<Vec<Act>>> {
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
    let acts = machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
    machine.doubtful = acts.filter_map(Act::doubtful_id).map(str::to_owned).collect();
}

struct Resolver<'a, 'f> {
    scope: Scope<'a>,
    findings: &'f mut Vec<Finding>,
}

/// A part of an act's address: its text and where in the address it begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Part<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Part<'t> {
    fn split_once(self, mark: char) -> Option<(Self, Self)> {
        let (before, after) = self.text.split_once(mark)?;
        let behind = self.at + before.len() + mark.len_utf8();
        Some((Self { text: before, at: self.at }, Self { text: after, at: behind }))
    }

    /// Its place, where the address stands in the file as it is read; otherwise that of the whole address.
    fn place(self, act: &Act) -> Place {
        let whole = &act.target_place;
        if whole.end - whole.start == act.address.len() { whole.part(self.at..self.at + self.text.len()) } else { whole.clone() }
    }
}

/// An address's target in its parts.
#[derive(Debug, PartialEq, Eq)]
struct Target<'t> {
    material: Option<Part<'t>>,
    id: Part<'t>,
    times: Option<Part<'t>>,
    stage: Option<Part<'t>>,
}

impl<'t> Target<'t> {
    /// `MATERIAL@THING`, `ID*4`, `ID/2`.
    fn parse(target: Part<'t>) -> Self {
        let (material, rest) = match target.split_once('@') {
            Some((material, rest)) => (Some(material), rest),
            None => (None, target),
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
        let whole = Part { text: &address, at: 0 };
        let (word, target) = whole.split_once(':').unwrap_or((whole, Part { text: "", at: address.len() }));
        let Some(verb) = act.verb else {
            self.unknown_verb(word.text, word.place(&act));
            return act;
        };
        match verb {
            // A space in an address has been found where it was read.
            _ if target.text.contains(char::is_whitespace) => {}
            Verb::Stop => self.stop(target.text, &act),
            Verb::Hold | Verb::Sign => self.people(target, verb, &mut act),
            _ => self.thing(target, verb, &mut act),
        }
        act
    }

    fn unknown_verb(&mut self, word: &str, place: Place) {
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
            |meant| format!("did you mean ‘{meant}:’ ({})?", Verb::find(meant).map_or("", |v| v.row().means)),
        );
        self.findings.push(
            Finding::new(&rules::UNKNOWN_VERB, place, format!("‘{word}:’ is no act")).label("not a verb of ours").fix(fix),
        );
    }

    fn stop(&mut self, target: &str, act: &Act) {
        if !target.is_empty() {
            self.unclear(act.target_place.clone(), "‘stop:’ takes no id", "says too much", "write [A safe place to stop](stop:)");
        }
    }

    fn people(&mut self, target: Part<'_>, verb: Verb, act: &mut Act) {
        if target.text.is_empty() {
            let fix = format!("name who looks and signs: {}:second-reader", verb.word());
            self.unclear(act.target_place.clone(), &format!("‘{}:’ does not say who", verb.word()), "who?", &fix);
            return;
        }
        let mut rest = Some(target);
        while let Some(names) = rest {
            let (id, more) = names.split_once(',').map_or((names, None), |(id, more)| (id, Some(more)));
            let found = self.look_up(verb.row().lists, id, verb, act);
            act.things.extend(found);
            rest = more;
        }
    }

    fn thing(&mut self, target: Part<'_>, verb: Verb, act: &mut Act) {
        let target = Target::parse(target);
        if target.id.text.is_empty() {
            let fix = format!("name what it acts on: {}:ID", verb.word());
            self.unclear(act.target_place.clone(), &format!("‘{}:’ does not say what", verb.word()), "what?", &fix);
            return;
        }
        let told = self.findings.len();
        act.times = target.times.and_then(|times| self.number(times, '*', COUNTED, verb, act));
        act.stage = target.stage.and_then(|stage| self.number(stage, '/', &[Verb::Torque], verb, act));
        if self.findings.len() > told {
            return;
        }
        match (verb, target.material) {
            (Verb::Apply, Some(material)) => {
                act.material = self.look_up(&[ListKind::Materials], material, verb, act);
                let thing = self.look_up(Verb::Fit.row().lists, target.id, verb, act);
                act.things.extend(thing);
            }
            (Verb::Apply, None) if self.scope.find(ListKind::Materials, target.id.text).is_some() => {
                let fix = format!("write apply:{}@THING", target.id.text);
                self.unclear(act.target_place.clone(), "‘apply:’ does not say on what", "on what?", &fix);
            }
            (_, Some(material)) => {
                let (word, id) = (verb.word(), target.id.text);
                let fix = format!("write {word}:{id}; a material is put on with apply:{}@{id}", material.text);
                self.unclear(material.place(act), &format!("‘{word}:’ takes no material"), "says too much", &fix);
            }
            (_, None) => {
                let thing = self.look_up(verb.row().lists, target.id, verb, act);
                act.things.extend(thing);
            }
        }
        self.stage_exists(&target, act);
    }

    /// The number behind `*` or `/`.
    fn number(&mut self, part: Part<'_>, mark: char, verbs: &[Verb], verb: Verb, act: &Act) -> Option<u64> {
        if !verbs.contains(&verb) {
            let message = format!("‘{}:’ takes no number behind ‘{mark}’", verb.word());
            self.unclear(part.place(act), &message, "says too much", &format!("take ‘{mark}{}’ out", part.text));
            return None;
        }
        let number = part.text.parse::<u64>().ok().filter(|n| (1..=10_000).contains(n));
        if number.is_none() {
            let place = if part.text.is_empty() { act.target_place.clone() } else { part.place(act) };
            let message = format!("‘{}’ behind ‘{mark}’ is no whole number from 1", part.text);
            self.unclear(place, &message, if mark == '*' { "how many?" } else { "which stage?" }, &format!("write it as ‘{mark}2’"));
        }
        number
    }

    fn stage_exists(&mut self, target: &Target<'_>, act: &Act) {
        let (Some(part), Some(stage), Some(thing)) = (target.stage, act.stage, act.thing()) else { return };
        let Some(entry) = self.scope.thing(|l| &l.fasteners, thing) else { return };
        let stages = entry.what.torque.cases.iter().map(|case| case.value.stages().len()).max().unwrap_or(0);
        if entry.what.torque.is_given() && usize::try_from(stage).unwrap_or(usize::MAX) > stages {
            let fix = match stages {
                0 | 1 => format!("it is tightened in one go: write torque:{}; or list its stages: torque: [20 N·m, 38 N·m]", thing.id),
                most => format!("it has {most} stages; name one of them, or list the new one under torque:"),
            };
            self.unclear(part.place(act), &format!("{} has no stage {stage}", entry.name), "no such stage", &fix);
        }
    }

    fn unclear(&mut self, place: Place, message: &str, label: &str, fix: &str) {
        self.findings.push(Finding::new(&rules::ACT_UNCLEAR, place, message).label(label).fix(fix));
    }

    fn look_up(&mut self, kinds: &[ListKind], id: Part<'_>, verb: Verb, act: &Act) -> Option<ThingRef> {
        // What one procedure sends away another may receive.
        let found = kinds.iter().find_map(|kind| match verb {
            Verb::Receive => self.scope.find_anywhere(*kind, id.text),
            _ => self.scope.find(*kind, id.text),
        });
        if found.is_none() && !self.scope.may_be_lost(kinds) {
            self.not_listed(kinds, id.text, verb, id.place(act));
        }
        found
    }

    fn not_listed(&mut self, kinds: &[ListKind], id: &str, verb: Verb, place: Place) {
        let wanted = either(kinds);
        let near = nearest(id, kinds.iter().flat_map(|kind| self.ids(*kind)));
        let elsewhere = ListKind::ALL.iter().find_map(|kind| self.scope.find(*kind, id));
        let finding = if let Some(other) = elsewhere {
            let message = format!("‘{id}’ is {}, and ‘{}:’ acts on {wanted}", other.kind.one(), verb.word());
            let otherwise = || format!("take another verb, or list it under {wanted}");
            Finding::new(&rules::USED_NOT_LISTED, place, message)
                .label("of another kind")
                .fix(near.map_or_else(otherwise, |near| format!("did you mean ‘{near}’?")))
        } else if let Some((title, other)) = self.scope.in_another_procedure(kinds, id) {
            Finding::new(&rules::USED_NOT_LISTED, place, format!("‘{id}’ stands in the lists of another procedure, ‘{title}’"))
                .label("not listed here")
                .related(other, "listed there")
                .fix("move it to machine.yaml, where both procedures find it")
        } else {
            let fix = near.map_or_else(
                || format!("list it under {wanted}"),
                |near| format!("did you mean ‘{near}’? Otherwise list it under {wanted}"),
            );
            Finding::new(&rules::USED_NOT_LISTED, place, format!("‘{id}’ stands in no list")).label("used here, listed nowhere").fix(fix).sought(Sought::Lists)
        };
        self.findings.push(finding.about(id.to_owned()));
    }

    fn ids(&self, kind: ListKind) -> Vec<&str> {
        self.scope.homes().flat_map(|(_, lists)| lists.heads(kind)).map(|head| head.id).collect()
    }
}

/// Verbs that may act on some of a thing's many: `fit:clips*4`.
const COUNTED: &[Verb] =
    &[Verb::Fit, Verb::DryFit, Verb::Remove, Verb::Start, Verb::Clean, Verb::Loosen, Verb::Torque];

/// The keys of some lists, the last joined by "or".
pub(super) fn either(kinds: &[ListKind]) -> String {
    let keys: Vec<&str> = kinds.iter().map(|kind| kind.key()).collect();
    match keys.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, most)) => format!("{} or {last}", most.join(", ")),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_come_apart() {
        let target = |text| {
            let t = Target::parse(Part { text, at: 0 });
            let place = |part: Part<'_>| assert_eq!(text.get(part.at..part.at + part.text.len()), Some(part.text));
            [t.material, Some(t.id), t.times, t.stage].into_iter().flatten().for_each(place);
            let shown = |part: Option<Part<'_>>| part.map(|part| part.text.to_owned());
            format!("{:?} {} {:?} {:?}", shown(t.material), t.id.text, shown(t.times), shown(t.stage))
        };
        assert_eq!(target("hub-nut"), "None hub-nut None None");
        assert_eq!(target("locker@hub-nut"), "Some(\"locker\") hub-nut None None");
        assert_eq!(target("clips*4"), "None clips Some(\"4\") None");
        assert_eq!(target("bolt/2"), "None bolt None Some(\"2\")");
        assert_eq!(target("bolt/2*3"), "None bolt Some(\"3\") Some(\"2\")");
        assert_eq!(target(""), "None  None None");
    }
}
