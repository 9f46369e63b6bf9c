//! Before you start: the state it begins in, what must be at hand, what to set going now.

use super::link;
use super::names::Detail;
use super::open::{self, OpenView};
use super::site::Scene;
use super::usage::used_by;
use super::values::{cases, varied_text};
use super::words::Arg;
use crate::manual::{Act, Combination, ListKind, Step, ThingRef, Varied, Verb};
use serde::Serialize;

/// What a procedure needs.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Before {
    /// Procedures that must be complete.
    pub needs: Vec<Detail>,
    /// What was left open before.
    pub inherited: Vec<OpenView>,
    /// Parts that go in new.
    pub new_parts: Vec<Item>,
    /// Parts that go back in on a condition.
    pub inspected: Vec<Item>,
    /// Other parts.
    pub parts: Vec<Item>,
    /// Oils, lockers and the like.
    pub materials: Vec<Item>,
    /// Torque wrenches and angle gauges.
    pub wrenches: Vec<Item>,
    /// Other tools.
    pub tools: Vec<Item>,
    /// Gloves, shields.
    pub protection: Vec<Item>,
    /// Waits that need nothing and so can begin now.
    pub waits: Vec<Item>,
    /// Who has to sign.
    pub signers: Vec<Detail>,
    /// Words of the manual that stand in the work.
    pub terms: Vec<Detail>,
    /// How long it takes.
    pub time: Option<String>,
}

/// Something to have at hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct Item {
    /// How many.
    pub count: Option<String>,
    /// What.
    pub name: Detail,
    /// What one must know to pick the right one.
    pub details: Vec<String>,
}

/// The acts of a procedure that are done where `known` is known, in the order of work.
pub(super) fn acts<'s>(scene: &Scene<'s>) -> Vec<(&'s Step, usize, &'s Act)> {
    let steps = scene.procedure.map_or(&[][..], |p| &p.steps);
    steps
        .iter()
        .filter(|step| step.only.agrees_with(scene.known))
        .flat_map(|step| step.acts.iter().enumerate().map(move |(index, act)| (step, index, act)))
        .filter(|(_, _, act)| act.thing().and_then(|t| scene.scope().head(t)).is_none_or(|head| head.only.agrees_with(scene.known)))
        .collect()
}

impl Scene<'_> {
    /// What the scene's procedure needs. `index` is its place in the build order.
    pub(super) fn before(&self, index: usize) -> Before {
        let Some(procedure) = self.procedure else { return Before::default() };
        let items = open::all(self.machine);
        let mut before = Before {
            needs: procedure
                .after
                .iter()
                .filter_map(|id| self.machine.procedures.iter().position(|p| p.id == id.value))
                .filter_map(|index| self.step_detail(index, None))
                .collect(),
            inherited: open::possible(&items, self.known)
                .iter()
                .filter(|item| item.inherited_by(self.machine, index))
                .map(|item| item.view(self, Some(index)))
                .collect(),
            terms: self.terms_of(procedure),
            time: procedure.minutes().map(|minutes| self.minutes_text(minutes)),
            ..Before::default()
        };
        let mut seen: Vec<ThingRef> = Vec::new();
        for (step, _, act) in acts(self) {
            let Some(known) = self.known.and(&step.only) else { continue };
            let scene = Scene { known: &known, ..*self };
            for person in scene.signers(act) {
                if !before.signers.contains(&person) {
                    before.signers.push(person);
                }
            }
            scene.note_goods(act, &mut seen, &mut before);
            for thing in used_by(scene.scope(), act, &known) {
                self.note_use(act, step, thing, &mut seen, &mut before);
            }
        }
        before
    }

    fn note_goods(&self, act: &Act, seen: &mut Vec<ThingRef>, before: &mut Before) {
        if !matches!(act.verb, Some(Verb::Fit | Verb::DryFit | Verb::Start | Verb::Torque)) {
            return;
        }
        for thing in used_by(self.scope(), act, self.known) {
            let wanted = matches!(thing.kind, ListKind::Fasteners | ListKind::Seals | ListKind::Bearings | ListKind::Parts | ListKind::Shims);
            if !wanted || seen.contains(&thing) {
                continue;
            }
            if let Some((reuse, item)) = self.goods(&thing) {
                let any = |word: &str| reuse.iter().any(|r| r == word);
                if any("never") {
                    before.new_parts.push(item);
                } else if any("inspect") {
                    before.inspected.push(item);
                } else {
                    before.parts.push(item);
                }
            }
            seen.push(thing);
        }
    }

    /// A part as it is laid out on the bench, and how it may be used again.
    fn goods(&self, thing: &ThingRef) -> Option<(Vec<String>, Item)> {
        let head = self.scope().head(thing)?;
        let only = head.only.clone();
        let known = self.known.and(&only)?;
        let inner = Scene { known: &known, ..*self };
        let lists = self.scope().lists_of(thing)?;
        let id = thing.id.as_str();
        let (count, new, spare, reuse, when, from) = match thing.kind {
            ListKind::Fasteners => lists.fasteners.get(id).map(|e| &e.what).map(|f| (&f.count, &f.new, &f.spare, &f.reuse, &f.when, &f.from))?,
            ListKind::Seals => lists.seals.get(id).map(|e| &e.what).map(|s| (&s.count, &s.new, &s.spare, &s.reuse, &s.when, &s.from))?,
            ListKind::Bearings => lists.bearings.get(id).map(|e| &e.what).map(|b| (&b.count, &b.new, &b.spare, &b.reuse, &b.when, &b.from))?,
            ListKind::Parts => lists.parts.get(id).map(|e| &e.what).map(|p| (&p.count, &p.new, &p.spare, &p.reuse, &p.when, &p.from))?,
            _ => {
                let shim = lists.shims.get(id)?;
                let item = Item { count: None, name: self.item_name(thing), details: inner.shim_text(&shim.what).into_iter().collect() };
                return Some((Vec::new(), item));
            }
        };
        let reuses: Vec<String> = cases(reuse, &known).into_iter().map(|(_, r)| r.clone()).collect();
        let mut details: Vec<String> = inner.only_here(&only).into_iter().collect();
        details.extend(inner.size_of_goods(thing));
        if reuses.iter().any(|r| r == "never") {
            details.extend(varied_text(spare, &known, |n| self.say("spare", &[("count", Arg::Count(*n))])));
            details.extend(inner.origin_text(from));
            if reuses.iter().any(|r| r != "never") {
                details.extend(Scene { at_bench: false, ..inner }.reuse_text(reuse, when));
            }
        } else if reuses.iter().any(|r| r == "inspect") {
            details.extend(inner.condition_text(when));
        }
        let how_many = if new.is_given() { new } else { count };
        Some((reuses, Item { count: inner.number(how_many), name: self.item_name(thing), details }))
    }

    fn only_here(&self, only: &Combination) -> Option<String> {
        // What the sheet knows already need not be said.
        let label = super::values::variant_label(only, self.known);
        (!label.is_empty()).then(|| self.say("only", &[("variant", Arg::Text(&label))]))
    }

    fn size_of_goods(&self, thing: &ThingRef) -> Option<String> {
        match thing.kind {
            // The count stands in a column of its own.
            ListKind::Fasteners => {
                let entry = self.scope().thing(|l| &l.fasteners, thing)?;
                let without = crate::manual::Fastener { count: Varied::default(), ..entry.what.clone() };
                self.fastener_text(&without, None)
            }
            ListKind::Seals => {
                let entry = self.scope().thing(|l| &l.seals, thing)?;
                let without = crate::manual::Seal { count: Varied::default(), ..entry.what.clone() };
                self.seal_text(&without, None)
            }
            _ => self.short_text(thing),
        }
    }

    fn number(&self, count: &Varied<u64>) -> Option<String> {
        varied_text(count, self.known, |n| self.say("count", &[("count", Arg::Count(*n))]))
    }

    fn item_name(&self, thing: &ThingRef) -> Detail {
        Detail { text: self.name(thing), href: Some(self.row_link(thing)) }
    }

    fn note_use(&self, act: &Act, step: &Step, thing: ThingRef, seen: &mut Vec<ThingRef>, before: &mut Before) {
        match thing.kind {
            ListKind::Fills => {
                let Some(entry) = self.scope().thing(|l| &l.fills, &thing) else { return };
                let amount = self.quantities(&entry.what.amount);
                for (_, id) in cases(&entry.what.of, self.known) {
                    if let Some(material) = self.scope().find(ListKind::Materials, id) {
                        self.note_material(&material, amount.clone(), seen, before);
                    }
                }
            }
            ListKind::Materials => self.note_material(&thing, None, seen, before),
            ListKind::Tools => self.note_tool(&thing, seen, before),
            ListKind::Waits if act.verb == Some(Verb::Begin) && !seen.contains(&thing) => {
                let Some(entry) = self.scope().thing(|l| &l.waits, &thing) else { return };
                if varied_text(&entry.what.needs, self.known, Clone::clone).as_deref() == Some("nothing") {
                    let number = super::rows::count(step.number);
                    let item = Item {
                        count: None,
                        name: Detail { text: entry.name.clone(), href: Some(format!("#{}", link::anchor_part(&step.id))) },
                        details: self
                            .quantities(&entry.what.time)
                            .into_iter()
                            .chain([self.say("in-step", &[("number", Arg::Count(number))])])
                            .collect(),
                    };
                    before.waits.push(item);
                }
                seen.push(thing);
            }
            _ => {}
        }
    }

    fn note_material(&self, thing: &ThingRef, amount: Option<String>, seen: &mut Vec<ThingRef>, before: &mut Before) {
        let Some(entry) = self.scope().thing(|l| &l.materials, thing) else { return };
        let name = Detail { text: self.material_name(entry), href: Some(self.row_link(thing)) };
        if seen.contains(thing) {
            if let (Some(amount), Some(item)) = (amount, before.materials.iter_mut().find(|item| item.name == name)) {
                item.details.push(amount);
            }
            return;
        }
        let details = entry.what.grade.clone().into_iter().chain(amount).collect();
        before.materials.push(Item { count: None, name, details });
        seen.push(thing.clone());
    }

    fn note_tool(&self, thing: &ThingRef, seen: &mut Vec<ThingRef>, before: &mut Before) {
        if seen.contains(thing) {
            return;
        }
        let Some(entry) = self.scope().thing(|l| &l.tools, thing) else { return };
        let tool = &entry.what;
        // A range that the name tells already is not told twice.
        let range = tool.range.as_ref().filter(|range| !entry.name.contains(range.written()));
        let item = Item { count: None, name: self.item_name(thing), details: range.map(|q| self.quantity(q)).into_iter().collect() };
        match tool.kind.as_deref() {
            Some("torque-wrench" | "angle-gauge") => before.wrenches.push(item),
            Some("protection") => before.protection.push(item),
            _ => before.tools.push(item),
        }
        seen.push(thing.clone());
    }

    /// `1 h 40 min`.
    pub(super) fn minutes_text(&self, minutes: f64) -> String {
        let whole = format!("{:.0}", minutes.clamp(0.0, 1e9)).parse::<u64>().unwrap_or(0);
        let (hours, rest) = (whole / 60, whole % 60);
        let args = [("hours", Arg::Count(hours)), ("minutes", Arg::Count(rest))];
        match (hours, rest) {
            (0, _) => self.say("time-minutes", &args),
            (_, 0) => self.say("time-hours", &args),
            _ => self.say("time-both", &args),
        }
    }
}
