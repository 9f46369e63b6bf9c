//! Before you start: the state it begins in, what must be at hand, what to set going now.

use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::open::{self, OpenView};
use super::site::Scene;
use super::sources::date_text;
use super::values::{cases, glued, varied_text};
use super::words::Arg;
use crate::inspect::{Need, Want, acts_done, needs};
use crate::manual::{Combination, ListKind, Procedure, ThingRef, Varied, Verb};
use crate::quantity::{Dimension, Form, Quantity};
use crate::trade::wrench::{DEVIATION, DEVIATION_SMALL, SMALL_TO_NM};
use serde::{Serialize, Serializer};

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
    /// What a torque without a tolerance means; none where each has one.
    pub tolerance: Option<String>,
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
    /// How long it takes: work, and what has to be waited for.
    pub time: Option<String>,
    /// What has to be waited for alone.
    pub waited: Option<String>,
}

/// Something to have at hand. A template is handed it as it is printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Item {
    /// How many.
    pub count: Option<String>,
    /// What.
    pub name: Detail,
    /// What one must know to pick the right one.
    pub details: Vec<String>,
}

impl Serialize for Item {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut page = Markup::default();
        if let Some(count) = self.count.as_deref().filter(|count| !count.is_empty()) {
            page.push_tag("<b>");
            page.push_text(count);
            page.push_tag("</b> ");
        }
        self.name.push_to(&mut page);
        if !self.details.is_empty() {
            page.push_tag(" <small>");
            page.push_text(&self.details.join(", "));
            page.push_tag("</small>");
        }
        page.serialize(serializer)
    }
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
            // What only a page tells is not looked for at the bench.
            terms: if self.at_bench { Vec::new() } else { self.terms_of(procedure) },
            time: if self.at_bench { None } else { self.time_text(procedure) },
            waited: self.waited(procedure).map(|(least, most)| self.wait_text(least, most)),
            ..Before::default()
        };
        let signed = if self.at_bench { Vec::new() } else { acts_done(self.scope(), procedure, self.known) };
        for (step, _, act) in signed {
            let Some(known) = self.known.and(&step.only) else { continue };
            for person in (Scene { known: &known, ..*self }).signers(act) {
                if !before.signers.contains(&person) {
                    before.signers.push(person);
                }
            }
        }
        let mut seen: Vec<ThingRef> = Vec::new();
        for need in needs(self.scope(), procedure, self.known) {
            match need.want {
                Want::Goods => (Scene { known: &need.known, ..*self }).note_goods(&need.thing, &mut before),
                Want::Material(amount) => {
                    let amount = amount.and_then(|amount| self.quantities(amount));
                    self.note_material(&need.thing, amount, &mut seen, &mut before);
                }
                Want::Tool => self.note_tool(&need.thing, &mut before),
                Want::Wait { at_once, .. } => before.waits.extend(at_once.then(|| self.wait_item(&need)).flatten()),
            }
        }
        before.tolerance = if before.wrenches.is_empty() { None } else { self.tolerance_text(procedure) };
        before
    }

    /// Most data sheets give a torque as one number. It is what the wrench is set to, and what comes of it is out by what its
    /// class of wrench may be: told once, instead of a mark at each value.
    fn tolerance_text(&self, procedure: &Procedure) -> Option<String> {
        let is_bare = |stage: &Quantity| stage.dimension() == Dimension::Torque && matches!(stage.form(), Form::Single(_));
        let mut tightened = acts_done(self.scope(), procedure, self.known).into_iter().map(|(_, _, act)| act).filter(|act| act.verb == Some(Verb::Torque));
        let bare = tightened.any(|act| {
            let fasteners = act.things.iter().filter_map(|thing| self.scope().thing(|l| &l.fasteners, thing));
            fasteners.flat_map(|entry| entry.what.torque.cases_within(self.known)).any(|case| case.value.stages().iter().any(is_bare))
        });
        let percent = |share: f64| glued(&format!("± {:.0} %", share * 100.0));
        let full = glued(&format!("{SMALL_TO_NM:.0} N·m"));
        bare.then(|| self.say("tolerance-none", &[("most", Arg::Text(&percent(DEVIATION))), ("full", Arg::Text(&full)), ("small", Arg::Text(&percent(DEVIATION_SMALL)))]))
    }

    fn note_goods(&self, thing: &ThingRef, before: &mut Before) {
        let Some((reuse, item)) = self.goods(thing) else { return };
        let any = |word: &str| reuse.iter().any(|r| r == word);
        if any("never") {
            before.new_parts.push(item);
        } else if any("inspect") {
            before.inspected.push(item);
        } else {
            before.parts.push(item);
        }
    }

    fn wait_item(&self, need: &Need<'_>) -> Option<Item> {
        let entry = self.scope().thing(|l| &l.waits, &need.thing)?;
        let number = super::rows::count(need.step.number);
        let when = self.say("in-step", &[("number", Arg::Count(number))]);
        Some(Item {
            count: None,
            name: Detail { text: entry.name.clone(), href: Some(format!("#{}", link::anchor_part(&need.step.id))) },
            details: self.quantities(&entry.what.time).into_iter().chain([when]).collect(),
        })
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
                let count = inner.at_bench.then(|| inner.number(&shim.what.count)).flatten();
                let item = Item { count, name: self.item_name(thing), details: inner.shim_text(&shim.what).into_iter().collect() };
                return Some((Vec::new(), item));
            }
        };
        let reuses: Vec<String> = cases(reuse, &known).map(|(_, r)| r.clone()).collect();
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

    /// `2 ×`. On a sheet, what has no count is one as well: all that is laid out is counted the same way.
    fn number(&self, count: &Varied<u64>) -> Option<String> {
        let say = |n: u64| self.say("count", &[("count", Arg::Count(n))]);
        varied_text(count, self.known, |n| say(*n)).or_else(|| self.at_bench.then(|| say(1)))
    }

    fn item_name(&self, thing: &ThingRef) -> Detail {
        Detail { text: self.name(thing), href: Some(self.row_link(thing)) }
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

    fn note_tool(&self, thing: &ThingRef, before: &mut Before) {
        let Some(entry) = self.scope().thing(|l| &l.tools, thing) else { return };
        let tool = &entry.what;
        // A range that the name tells already is not told twice.
        let range = tool.range.as_ref().filter(|range| !entry.name.contains(range.written()));
        let until = tool.calibrated_until().map(|day| self.say("calibrated-until", &[("date", Arg::Text(&date_text(&day)))]));
        let item = Item { count: None, name: self.item_name(thing), details: range.map(|q| self.quantity(q)).into_iter().chain(until).collect() };
        match tool.kind.as_deref() {
            Some("torque-wrench" | "angle-gauge") => before.wrenches.push(item),
            Some("protection") => before.protection.push(item),
            _ => before.tools.push(item),
        }
    }
}
