//! Unfinished business: what a procedure finds open, what it leaves open, and where each is finished.

use super::link;
use super::names::Detail;
use super::site::Scene;
use super::values::values_glued;
use super::words::Arg;
use crate::manual::{Act, Combination, Home, ListKind, Machine, Spot, ThingRef, Verb};
use serde::Serialize;

/// An open item of a machine.
#[derive(Clone, Copy)]
pub(super) struct Open<'a> {
    /// Index of the procedure that opens it.
    pub opened_in: usize,
    /// Its id.
    pub id: &'a str,
    /// Which list it stands in: open items or parts away.
    pub kind: ListKind,
    /// In which variants it exists.
    pub only: &'a Combination,
    /// Its own name, where it is not just the id.
    name: &'a str,
    /// Id of its thing.
    pub of: &'a str,
    left: Option<&'a str>,
    because: Option<&'a str>,
    finish_in: Option<&'a str>,
    forbids: &'a [Spot<String>],
}

/// An open item as a page prints it.
#[derive(Clone, Debug, Serialize)]
pub(super) struct OpenView {
    /// What is open.
    pub thing: Detail,
    /// In which variants.
    pub only: Option<String>,
    /// In what state it was left.
    pub left: String,
    /// Why.
    pub because: Option<String>,
    /// What may not be done before it is finished.
    pub forbids: Vec<String>,
    /// Where it was opened.
    #[serde(skip)]
    pub opened: Detail,
    /// Where it is finished.
    pub finish: Option<Detail>,
    /// Whether that is in the procedure at hand.
    pub finished_here: bool,
}

impl OpenView {
    /// The same where nothing can be followed.
    pub(super) fn on_paper(mut self) -> Self {
        self.thing.href = None;
        if let Some(finish) = &mut self.finish {
            finish.href = None;
        }
        self
    }
}

/// Every open item of a machine, in build order.
pub(super) fn all(machine: &Machine) -> Vec<Open<'_>> {
    let mut found = Vec::new();
    for (opened_in, procedure) in machine.procedures.iter().enumerate() {
        found.extend(procedure.lists.leaves_open.values().map(|entry| Open {
            opened_in,
            id: &entry.id,
            kind: ListKind::LeavesOpen,
            only: &entry.only,
            name: &entry.name,
            of: entry.what.of.as_ref().map_or(&entry.id, |of| &of.value),
            left: entry.what.left.as_deref(),
            because: entry.what.because.as_deref(),
            finish_in: entry.what.finish_in.as_ref().map(|spot| spot.value.as_str()),
            forbids: &entry.what.forbids,
        }));
        found.extend(procedure.lists.away.values().map(|entry| Open {
            opened_in,
            id: &entry.id,
            kind: ListKind::Away,
            only: &entry.only,
            name: &entry.name,
            of: &entry.id,
            left: Some("away"),
            because: entry.what.because.as_deref(),
            finish_in: entry.what.finish_in.as_ref().map(|spot| spot.value.as_str()),
            forbids: &[],
        }));
    }
    found
}

impl<'a> Open<'a> {
    /// Index of the procedure that finishes it, and the step's id.
    pub(super) fn finished_in(&self, machine: &'a Machine) -> Option<(usize, Option<&'a str>)> {
        let (procedure, step) = match self.finish_in?.split_once('#') {
            Some((procedure, step)) => (procedure, Some(step)),
            None => (self.finish_in?, None),
        };
        machine.procedures.iter().position(|p| p.id == procedure).map(|index| (index, step))
    }

    /// Whether a procedure leaves it open: opens it, and does not finish it itself.
    pub(super) fn left_by(&self, machine: &'a Machine, procedure: usize) -> bool {
        self.opened_in == procedure && self.finished_in(machine).is_none_or(|(finish, _)| finish != procedure)
    }

    /// Whether it is open when a procedure begins.
    pub(super) fn inherited_by(&self, machine: &'a Machine, procedure: usize) -> bool {
        self.opened_in < procedure && self.finished_in(machine).is_none_or(|(finish, _)| finish >= procedure)
    }

    /// Whether it bars an act: by its verb and id, or by its verb alone.
    pub(super) fn forbids_act(&self, act: &Act) -> bool {
        self.forbids.iter().any(|barred| {
            let (word, id) = barred.value.split_once(':').unwrap_or((&barred.value, ""));
            act.verb.is_some() && act.verb == Verb::find(word) && (id.is_empty() || act.things.iter().any(|thing| thing.id == id))
        })
    }

    /// The thing's row.
    pub(super) fn thing(&self, machine: &Machine) -> Option<ThingRef> {
        let home = Home::Procedure(machine.procedures.get(self.opened_in)?.id.clone());
        Some(ThingRef { kind: self.kind, home, id: self.id.to_owned() })
    }

    /// The state it is left in, in the format's own word.
    pub(super) fn left_as(&self) -> Option<&'a str> {
        self.left
    }

    /// As a page prints it.
    pub(super) fn view(&self, scene: &Scene<'_>, here: Option<usize>) -> OpenView {
        let machine = scene.machine;
        let opener = machine.procedures.get(self.opened_in);
        let inside = opener.map_or(*scene, |p| Scene { procedure: machine.procedure(&p.id), ..*scene });
        let name = if self.name == self.id { inside.named(self.of) } else { self.name.to_owned() };
        let finish = self.finished_in(machine);
        OpenView {
            thing: Detail { text: name, href: self.thing(machine).map(|thing| scene.row_link(&thing)) },
            only: (!self.only.is_always()).then(|| super::values::variant_label(self.only, scene.known)).filter(|l| !l.is_empty()),
            left: self.left.map(|left| scene.site.words.of("left", left)).unwrap_or_default(),
            because: self.because.map(values_glued),
            forbids: self.forbids.iter().map(|act| inside.forbidden(&act.value)).collect(),
            opened: opener.map_or_else(Detail::default, |p| Detail {
                text: p.title.clone(),
                href: Some(scene.link(&link::procedure_path(&machine.id, &p.id))),
            }),
            finish: finish.and_then(|(index, step)| {
                let detail = scene.step_detail(index, step)?;
                // Whoever holds the sheet need not be told its title.
                let own = machine.procedures.get(index).filter(|_| here == Some(index)).and_then(|own| own.step(step?));
                let number = own.map(|step| scene.say("in-step", &[("number", Arg::Count(super::rows::count(step.number)))]));
                Some(match number {
                    Some(text) => Detail { text, ..detail },
                    None => detail,
                })
            }),
            finished_here: here.is_some() && finish.map(|(index, _)| index) == here,
        }
    }
}

impl Scene<'_> {
    /// A procedure's title, or one of its steps, with its address.
    pub(super) fn step_detail(&self, procedure: usize, step: Option<&str>) -> Option<Detail> {
        let procedure = self.machine.procedures.get(procedure)?;
        let path = link::procedure_path(&self.machine.id, &procedure.id);
        let detail = match step.and_then(|id| procedure.step(id)) {
            Some(step) => Detail {
                text: self.say(
                    "step-of",
                    &[("procedure", Arg::Text(&procedure.title)), ("number", Arg::Count(super::rows::count(step.number)))],
                ),
                href: Some(self.link(&format!("{path}#{}", link::anchor_part(&step.id)))),
            },
            None => Detail { text: procedure.title.clone(), href: Some(self.link(&path)) },
        };
        Some(detail)
    }

    /// `no filling: Gear oil` of `fill:gear-oil`; a verb alone means all its acts.
    fn forbidden(&self, act: &str) -> String {
        let (word, id) = act.split_once(':').unwrap_or((act, ""));
        let Some(verb) = Verb::find(word) else { return act.to_owned() };
        let doing = self.site.words.of("doing", verb.word());
        if id.is_empty() {
            return self.say("forbid-all", &[("doing", Arg::Text(&doing))]);
        }
        let named = verb.row().lists.iter().find_map(|kind| self.scope().find(*kind, id));
        let thing = named.map_or_else(|| id.to_owned(), |thing| self.name(&thing));
        self.say("forbid", &[("doing", Arg::Text(&doing)), ("thing", Arg::Text(&thing))])
    }
}

/// The open items that stand in an entry's variants at all.
pub(super) fn possible<'a>(items: &[Open<'a>], known: &Combination) -> Vec<Open<'a>> {
    items.iter().filter(|open| open.only.agrees_with(known)).copied().collect()
}

