//! What an act shows where it stands: its values, and what one must know to carry it out.

use super::names::Detail;
use super::site::Scene;
use super::values::{Line, Scale, cases, glued, quantity_line, quantity_text, torque_beside, torque_line, values_glued, varied_text};
use super::words::Arg;
use crate::manual::{Act, Combination, Entry, Fastener, ListKind, Part, Procedure, Seal, ThingRef, Torque, Varied, Verb};
use crate::quantity::{Form, Quantity, Unit};
use crate::trade::thread::Thread;

/// The values of an act and what belongs to them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Told {
    /// Values, to be read first.
    pub lines: Vec<Line>,
    /// What else one must know.
    pub details: Vec<Detail>,
}

impl Told {
    pub(super) fn detail(&mut self, text: Option<String>) {
        if let Some(text) = text.filter(|text| !text.is_empty()) {
            self.details.push(Detail::plain(text));
        }
    }
}

impl<'s> Scene<'s> {
    /// What an act shows.
    pub(super) fn told(&self, act: &Act) -> Told {
        let mut told = Told::default();
        let Some(verb) = act.verb else { return told };
        if let (Verb::Apply, Some(material)) = (verb, &act.material) {
            self.tell_material(act, material, &mut told);
            return told;
        }
        for thing in &act.things {
            self.tell(act, verb, thing, &mut told);
            if !told.lines.is_empty() {
                told.detail(self.is_unsourced(thing).then(|| self.site.say("unsourced")));
                told.details.extend(self.waiver_details(thing));
            }
        }
        for waiver in self.act_waivers(act) {
            if !told.details.contains(&waiver) {
                told.details.push(waiver);
            }
        }
        told
    }

    fn tell(&self, act: &Act, verb: Verb, thing: &ThingRef, told: &mut Told) {
        match thing.kind {
            ListKind::Fasteners => self.tell_fastener(act, verb, thing, told),
            ListKind::Seals if matches!(verb, Verb::Fit | Verb::DryFit) => self.tell_seal(act, thing, told),
            ListKind::Bearings if matches!(verb, Verb::Fit | Verb::DryFit) => self.tell_bearing(act, thing, told),
            ListKind::Parts if matches!(verb, Verb::Fit | Verb::DryFit | Verb::Remove) => self.tell_part(act, verb, thing, told),
            ListKind::Stacks if matches!(verb, Verb::Fit | Verb::DryFit) => self.tell_stack(thing, told),
            ListKind::Shims if matches!(verb, Verb::Fit | Verb::DryFit) => self.tell_shim(thing, told),
            ListKind::Tools => self.tell_tool(thing, told),
            _ => self.tell_work(verb, thing, told),
        }
    }

    fn tell_fastener(&self, act: &Act, verb: Verb, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.fasteners, thing) else { return };
        let fastener = &entry.what;
        match verb {
            Verb::Torque => {
                told.lines = self.torque_lines(fastener, act.stage);
                told.lines.extend(self.setting_lines(entry));
                told.detail(self.fastener_text(fastener, act.times));
                self.tell_threads(fastener, told);
                told.detail(varied_text(&fastener.running, self.known, |running| self.site.words.of("running", running)));
                told.detail(self.order_text(fastener));
                for wrench in self.wrenches(fastener, act.stage) {
                    told.details.push(self.detail_in(ListKind::Tools, &wrench.id));
                }
                for (_, holder) in cases(&fastener.hold_with, self.known) {
                    let name = self.name_in(ListKind::Tools, holder);
                    told.detail(Some(self.say("hold-with", &[("tool", Arg::Text(&name))])));
                }
                told.detail(self.adapter_text(entry));
                told.detail(fastener.because.as_deref().filter(|_| is_by_hand(fastener)).map(values_glued));
                told.detail(fastener.critical.then(|| self.site.say("two-signatures")));
                if !self.at_bench {
                    told.details.push(self.account_link(thing));
                }
            }
            Verb::Start | Verb::Fit | Verb::DryFit => {
                told.detail(self.fastener_text(fastener, act.times));
                match self.locker_to_come(act, fastener) {
                    Some(later) => told.detail(Some(later)),
                    None => self.tell_threads(fastener, told),
                }
                told.detail(self.new_each_time(&fastener.reuse));
            }
            Verb::Remove | Verb::Loosen => {
                told.detail(self.how_many_text(&fastener.count, act.times));
                told.detail(self.loosening_text(act, fastener));
                told.detail(self.thrown_away(&fastener.reuse));
            }
            Verb::Lock => told.detail(varied_text(&fastener.lock, self.known, |lock| self.site.words.of("lock", lock))),
            _ => {}
        }
    }

    /// The torque's lines: all stages, or one.
    pub(super) fn torque_lines(&self, fastener: &'s Fastener, stage: Option<u64>) -> Vec<Line> {
        let units = self.torque_units(fastener);
        let mut lines = Vec::new();
        for (label, torque) in cases(&fastener.torque, self.known) {
            let stages = torque.stages();
            if matches!(torque, Torque::Hand) {
                lines.push(Line::of(self.site.say("by-hand")).labelled(label.as_deref()));
            }
            for (index, quantity) in stages.iter().enumerate() {
                let number = super::rows::count(index + 1);
                if stage.is_some_and(|wanted| wanted != number) {
                    continue;
                }
                // Each stage is told in the marks of the wrench that sets it, alone or beside the others.
                let scale = self.scale_for(fastener, torque, if stages.len() > 1 { Some(number) } else { stage });
                let line = if self.at_bench { torque_line(quantity, scale, &units) } else { torque_beside(quantity, scale, &units) };
                let stage_label = (stages.len() > 1).then(|| self.say("stage", &[("number", Arg::Count(number))]));
                lines.push(line.labelled(stage_label.as_deref()).labelled(label.as_deref()));
            }
        }
        lines
    }

    /// The scale of the wrench for one case of a torque: what is not known yet, is taken from the case, as the sheet of that
    /// variant will.
    pub(super) fn scale_for(&self, fastener: &'s Fastener, torque: &Torque, stage: Option<u64>) -> Option<Scale<'s>> {
        let case = fastener.torque.cases.iter().find(|case| std::ptr::eq(&case.value, torque));
        match case.and_then(|case| self.known.and(&case.when)) {
            Some(known) => self.wrench_scale_where(fastener, stage, &known),
            None => self.wrench_scale(fastener, stage),
        }
    }

    /// `8 × M6 × 1.0 × 45 mm, class 8.8`.
    pub(super) fn fastener_text(&self, fastener: &Fastener, times: Option<u64>) -> Option<String> {
        // Which way it turns is no part of the size, and is said in the pages' language.
        let thread = varied_text(&fastener.thread, self.known, |thread| Thread { left_hand: false, ..thread.clone() }.to_string());
        let is_left = cases(&fastener.thread, self.known).any(|(_, thread)| thread.left_hand);
        let hand = varied_text(&fastener.thread, self.known, |thread| if thread.left_hand { self.site.say("left-hand") } else { "–".to_owned() });
        // A nominal length, like a thread, is not converted.
        let length = varied_text(&fastener.length, self.known, |length| glued(length.written()));
        let class = varied_text(&fastener.class, self.known, |class| self.say("class", &[("class", Arg::Text(class))]));
        let varies = cases(&fastener.length, self.known).nth(1).is_some();
        let size = match (thread, length) {
            (Some(thread), Some(length)) if varies => Some(format!("{thread}, {}", self.say("long", &[("length", Arg::Text(&length))]))),
            (Some(thread), Some(length)) => Some(format!("{thread} × {length}")),
            (one, other) => one.or(other),
        };
        let parts: Vec<String> = [size, hand.filter(|_| is_left), class].into_iter().flatten().collect();
        let what = (!parts.is_empty()).then(|| parts.join(", "));
        match (self.count_text(&fastener.count, times), what) {
            (Some(count), Some(what)) => Some(format!("{count} {what}")),
            (one, other) => one.or(other),
        }
    }

    /// A fastener that is run up without its locker, because that is put on later: named here it would be put on now.
    fn locker_to_come(&self, act: &Act, fastener: &Fastener) -> Option<String> {
        let (thing, own) = (act.thing()?, self.procedure?);
        let (_, locker) = cases(&fastener.locker, self.known).next()?;
        let puts_on = |other: &&Act| other.verb == Some(Verb::Apply) && other.thing() == Some(thing) && other.material.as_ref().is_some_and(|material| material.id == *locker);
        // In the order of work, over all procedures.
        let all = || self.machine.procedures.iter().flat_map(|procedure| procedure.steps.iter().flat_map(move |step| step.acts.iter().map(move |act| (procedure, act))));
        let is_here = |procedure: &Procedure, other: &Act| procedure.id == own.id && std::ptr::eq(other, act);
        let is_on = all().take_while(|(procedure, other)| !is_here(procedure, other)).any(|(_, other)| puts_on(&other));
        let comes = all().skip_while(|(procedure, other)| !is_here(procedure, other)).any(|(_, other)| puts_on(&other));
        (!is_on && comes).then(|| self.say("locker-later", &[("locker", Arg::Text(&self.named(locker)))]))
    }

    fn tell_threads(&self, fastener: &Fastener, told: &mut Told) {
        for (label, id) in cases(&fastener.locker, self.known) {
            if let Some(entry) = self.scope().entry(|l| &l.materials, id) {
                let mut detail = self.detail_in(ListKind::Materials, id);
                detail.text = self.material_name(entry);
                if let Some(label) = label {
                    detail.text = format!("{label} {}", detail.text);
                }
                told.details.push(detail);
            }
        }
        told.detail(varied_text(&fastener.threads, self.known, |threads| match threads.as_str() {
            // The locker itself has been named.
            "locker" if fastener.locker.is_given() => String::new(),
            threads => self.site.words.of("threads", threads),
        }));
    }

    /// An adapter on the wrench.
    pub(super) fn adapter_text(&self, entry: &'s Entry<Fastener>) -> Option<String> {
        varied_text(&entry.what.adapter, self.known, |adapter| {
            let parts: Vec<String> = [&adapter.length, &adapter.angle].into_iter().flatten().map(|q| self.quantity(q)).collect();
            let key = if self.setting_lines(entry).is_empty() { "adapter" } else { "adapter-reckoned" };
            self.say(key, &[("size", Arg::Text(&parts.join(", ")))])
        })
    }

    fn tell_seal(&self, act: &Act, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.seals, thing) else { return };
        let seal = &entry.what;
        told.lines.extend(self.lines("depth", &seal.depth));
        told.detail(self.faces_text(&seal.faces));
        told.detail(self.seal_text(seal, act.times));
        told.detail(self.over_text(seal));
        told.detail(varied_text(&seal.lip, self.known, |id| {
            self.say("lip", &[("material", Arg::Text(&self.named(id)))])
        }));
        told.detail(self.quantities(&seal.vent).map(|vent| self.say("vent", &[("depth", Arg::Text(&vent))])));
        told.detail(self.new_each_time(&seal.reuse));
    }

    /// `2 × 30x42x7 mm, NBR`.
    pub(super) fn seal_text(&self, seal: &Seal, times: Option<u64>) -> Option<String> {
        let size = varied_text(&seal.size, self.known, |size| size.written().to_owned());
        let material = varied_text(&seal.material, self.known, Clone::clone);
        let parts: Vec<String> = [size, material].into_iter().flatten().collect();
        let what = (!parts.is_empty()).then(|| parts.join(", "));
        match (self.count_text(&seal.count, times), what) {
            (Some(count), Some(what)) => Some(format!("{count} {what}")),
            (one, other) => one.or(other),
        }
    }

    fn over_text(&self, seal: &Seal) -> Option<String> {
        let over = varied_text(&seal.over, self.known, |over| self.site.words.of("over", over))?;
        Some(match varied_text(&seal.sleeve, self.known, |id| self.name_in(ListKind::Tools, id)) {
            Some(sleeve) => self.say("over-with-sleeve", &[("over", Arg::Text(&over)), ("sleeve", Arg::Text(&sleeve))]),
            None => self.say("over", &[("over", Arg::Text(&over))]),
        })
    }

    fn tell_bearing(&self, act: &Act, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.bearings, thing) else { return };
        let bearing = &entry.what;
        told.detail(self.how_many_text(&bearing.count, act.times));
        told.detail(varied_text(&bearing.size, self.known, |size| size.written().to_owned()));
        told.detail(self.faces_text(&bearing.faces));
        told.detail(varied_text(&bearing.fit, self.known, |fit| {
            fit.interference
                .as_ref()
                .map(|q| self.say("interference", &[("size", Arg::Text(&self.quantity(q)))]))
                .unwrap_or_default()
        }));
        told.detail(self.new_each_time(&bearing.reuse));
        self.tell_limit(&entry.limit, told);
    }

    fn tell_part(&self, act: &Act, verb: Verb, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.parts, thing) else { return };
        let part = &entry.what;
        told.detail(self.how_many_text(&part.count, act.times));
        if verb == Verb::Remove {
            told.detail(self.thrown_away(&part.reuse));
            return;
        }
        // On a sheet it stands above, in the list of what must be in hand; which of several it is, is said where it goes in.
        if !self.at_bench || part.number.cases.len() > 1 || part.material.cases.len() > 1 {
            told.detail(self.part_text(part));
        }
        told.detail(self.faces_text(&part.faces));
        told.detail(varied_text(&part.side, self.known, Clone::clone));
        told.detail(self.new_each_time(&part.reuse));
        told.detail(part.temporary.then(|| self.site.say("temporary")));
        told.detail((part.critical && verb == Verb::Fit).then(|| self.site.say("two-signatures")));
        self.tell_limit(&entry.limit, told);
    }

    /// A part's thickness, material and number.
    pub(super) fn part_text(&self, part: &Part) -> Option<String> {
        let thickness = self.quantities(&part.thickness);
        let material = varied_text(&part.material, self.known, Clone::clone);
        let number = varied_text(&part.number, self.known, |n| self.say("part-number", &[("number", Arg::Text(n))]));
        let parts: Vec<String> = [thickness, material, number].into_iter().flatten().collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }

    pub(super) fn tell_stack(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.stacks, thing) else { return };
        for of in &entry.what.of {
            let Some(part) = self.scope().entry(|l| &l.parts, &of.value) else { continue };
            let count = varied_text(&part.what.count, self.known, |n| self.say("count", &[("count", Arg::Count(*n))]));
            let thickness = self.quantities(&part.what.thickness);
            let words: Vec<String> = [count, Some(part.name.clone()), thickness].into_iter().flatten().collect();
            told.detail(Some(words.join(" ")));
        }
        let end = |ids: &Varied<String>| varied_text(ids, self.known, |id| self.named(id));
        if let (Some(begin), Some(end)) = (end(&entry.what.begin), end(&entry.what.end)) {
            told.detail(Some(self.say("stack-ends", &[("begin", Arg::Text(&begin)), ("end", Arg::Text(&end))])));
        }
    }

    fn tell_shim(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.shims, thing) else { return };
        told.detail(self.shim_text(&entry.what));
    }

    fn tell_tool(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.tools, thing) else { return };
        told.detail(entry.what.range.as_ref().map(|range| self.quantity(range)));
    }

    fn tell_material(&self, act: &Act, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.materials, thing) else { return };
        told.details.push(Detail { text: self.material_name(entry), href: Some(self.row_link(thing)) });
        let material = &entry.what;
        told.detail(material.grade.clone());
        // Only a fastener is tightened; a bearing or a bush is joined.
        let is_joined = act.things.iter().any(|thing| !matches!(thing.kind, ListKind::Fasteners | ListKind::Materials));
        let words = if is_joined { "working-time-join" } else { "working-time" };
        told.detail(material.working.as_ref().map(|q| self.say(words, &[("time", Arg::Text(&self.quantity(q)))])));
    }

    /// What must be kept to. `max 150 °C` says so itself; `150 °C` alone would be taken for what is to be reached.
    pub(super) fn tell_limit(&self, limit: &Varied<Quantity>, told: &mut Told) {
        let says_so = cases(limit, self.known).all(|(_, limit)| matches!(limit.form(), Form::AtMost(_)));
        told.detail(self.quantities(limit).map(|q| if says_so { q } else { self.say("treat-limit", &[("limit", Arg::Text(&q))]) }));
    }

    /// `4 ×` where there is more than one, or where the act says how many.
    pub(super) fn count_text(&self, count: &Varied<u64>, times: Option<u64>) -> Option<String> {
        let say = |n: u64| self.say("count", &[("count", Arg::Count(n))]);
        match times {
            Some(times) => Some(say(times)),
            None => {
                let more_than_one = cases(count, self.known).any(|(_, n)| *n != 1);
                more_than_one.then(|| varied_text(count, self.known, |n| say(*n))).flatten()
            }
        }
    }

    /// How many, where nothing stands beside it: on paper `2 ×` alone tells nobody two of what.
    fn how_many_text(&self, count: &Varied<u64>, times: Option<u64>) -> Option<String> {
        let count_text = self.count_text(count, times)?;
        if !self.at_bench {
            return Some(count_text);
        }
        let say = |n: u64| self.say("pieces", &[("count", Arg::Count(n))]);
        times.map(say).or_else(|| varied_text(count, self.known, |n| say(*n)))
    }

    /// At an act, only that a new one goes in: on what condition an old one does stands before the work.
    fn new_each_time(&self, reuse: &Varied<String>) -> Option<String> {
        let never = cases(reuse, self.known).any(|(_, reuse)| reuse.as_str() == "never");
        if never { self.reuse_text(reuse, &Varied::default()) } else { None }
    }

    /// `a new one`, `again if …`.
    ///
    /// Not on a bench sheet: there the parts have been laid out and looked at before the first line.
    pub(super) fn reuse_text(&self, reuse: &Varied<String>, when: &Varied<String>) -> Option<String> {
        if self.at_bench {
            return None;
        }
        varied_text(reuse, self.known, |reuse| match reuse.as_str() {
            "never" => self.site.say("reuse-never"),
            "inspect" => match self.condition_text(when) {
                Some(condition) => self.say("reuse-inspect", &[("condition", Arg::Text(&condition))]),
                None => self.site.say("reuse-looked-at"),
            },
            other => self.site.words.of("reuse", other),
        })
    }

    /// A condition of reuse: the name of a measurement with its limit, or words.
    pub(super) fn condition_text(&self, when: &Varied<String>) -> Option<String> {
        varied_text(when, self.known, |when| match super::drawn_parts::anywhere(self, |l| &l.measures, when) {
            Some(measure) => {
                let limit = self.quantities(&measure.what.limit).or_else(|| self.quantities(&measure.what.spec));
                [Some(measure.name.clone()), limit].into_iter().flatten().collect::<Vec<_>>().join(" ")
            }
            None => when.clone(),
        })
    }

    fn thrown_away(&self, reuse: &Varied<String>) -> Option<String> {
        let never = cases(reuse, self.known).any(|(_, reuse)| reuse.as_str() == "never");
        let say = |reuse: &String| match reuse.as_str() {
            "never" => self.site.say("thrown-away"),
            // The condition itself stands before the work that fits it again.
            "inspect" => self.site.say("reuse-looked-at"),
            other => self.site.words.of("reuse", other),
        };
        never.then(|| varied_text(reuse, self.known, say)).flatten()
    }

    /// The lines of a value with its own label.
    pub(super) fn lines(&self, label: &str, varied: &Varied<Quantity>) -> Vec<Line> {
        let label = self.site.say(label);
        cases(varied, self.known)
            .map(|(case, quantity)| quantity_line(quantity, self.units()).labelled(case.as_deref()).labelled(Some(&label)))
            .collect()
    }

    /// A varied quantity in one text.
    pub(super) fn quantities(&self, varied: &Varied<Quantity>) -> Option<String> {
        varied_text(varied, self.known, |quantity| self.quantity(quantity))
    }

    /// A quantity in one text.
    pub(super) fn quantity(&self, quantity: &Quantity) -> String {
        quantity_text(quantity, self.units())
    }

    /// The units shown beside the author's own.
    pub(super) fn units(&self) -> &[&'static Unit] {
        &self.site.input.manual.units
    }

    /// The condition of an entry in words: the variant values that are not known.
    pub(super) fn only_text(&self, only: &Combination) -> Option<String> {
        let label = super::values::variant_label(only, self.known);
        (!label.is_empty()).then(|| self.say("only", &[("variant", Arg::Text(&label))]))
    }
}

fn is_by_hand(fastener: &Fastener) -> bool {
    fastener.torque.cases.iter().any(|case| matches!(case.value, Torque::Hand))
}
