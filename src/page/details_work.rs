//! What the acts of work show that handle no single part: heats, waits, fills, readings, settings, tests.

use super::details::Told;
use super::names::Detail;
use super::site::Scene;
use super::values::{Line, cases, quantity_line, values_glued, varied_text};
use super::words::Arg;
use crate::inspect::spaced;
use crate::manual::{Align, BacklashAt, Expect, ListKind, Measure, Shim, ThingRef, Varied, Verb};
use crate::quantity::{Dimension, Quantity};
use crate::trade::formula::Formula;
use crate::trade::shim::{TargetIs, target_is};

impl Scene<'_> {
    /// Fills in what an act on one of the lists of work shows.
    pub(super) fn tell_work(&self, verb: Verb, thing: &ThingRef, told: &mut Told) {
        match thing.kind {
            ListKind::Heats => self.tell_heat(verb, thing, told),
            ListKind::Waits => self.tell_wait(verb, thing, told),
            ListKind::Fills => self.tell_fill(thing, told),
            ListKind::Beads => self.tell_bead(thing, told),
            ListKind::Aligns => self.tell_align(thing, told),
            ListKind::Measures => self.tell_measure(thing, told),
            ListKind::Turns => self.tell_turn(thing, told),
            ListKind::Tests => self.tell_test(thing, told),
            ListKind::Away => self.tell_away(verb, thing, told),
            _ => {}
        }
    }

    /// What the author notes: these lists have no table of their own where it could stand.
    fn tell_note(&self, note: Option<&str>, told: &mut Told) {
        told.detail(note.map(values_glued));
    }

    fn tell_heat(&self, verb: Verb, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.heats, thing) else { return };
        if verb == Verb::Cool {
            told.lines.extend(self.plain_lines(&entry.what.cool));
            return;
        }
        told.lines.extend(self.plain_lines(&entry.what.to));
        told.detail(self.quantities(&entry.what.from).map(|from| self.say("heat-from", &[("from", Arg::Text(&from))])));
        for (_, probe) in cases(&entry.what.check_with, self.known) {
            told.details.push(self.detail_in(ListKind::Tools, probe));
        }
        self.tell_limit(&entry.limit, told);
        self.tell_note(entry.note.as_deref(), told);
    }

    fn tell_wait(&self, verb: Verb, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.waits, thing) else { return };
        let wait = &entry.what;
        told.lines.extend(self.plain_lines(&wait.time));
        if verb != Verb::Begin {
            return;
        }
        let medium = varied_text(&wait.medium, self.known, |id| self.named(id));
        told.detail(medium.map(|medium| self.say("soak-in", &[("medium", Arg::Text(&medium))])));
        told.detail(wait.covered.then(|| self.site.say("soak-covered")));
        self.tell_note(entry.note.as_deref(), told);
    }

    fn tell_fill(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.fills, thing) else { return };
        told.lines.extend(self.plain_lines(&entry.what.amount));
        told.detail(self.quantities(&entry.what.ratio).map(|ratio| self.say("mix-ratio", &[("ratio", Arg::Text(&ratio))])));
        told.detail(self.quantities(&entry.what.oil).map(|oil| self.say("mix-oil", &[("oil", Arg::Text(&oil))])));
        for (_, id) in cases(&entry.what.of, self.known) {
            let mut detail = self.detail_in(ListKind::Materials, id);
            if let Some(grade) = self.scope().entry(|l| &l.materials, id).and_then(|m| m.what.grade.as_deref()) {
                detail.text = format!("{}, {grade}", detail.text);
            }
            told.details.push(detail);
        }
        self.tell_note(entry.note.as_deref(), told);
    }

    fn tell_bead(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.beads, thing) else { return };
        told.lines.extend(self.lines("bead-diameter", &entry.what.diameter));
        told.detail(self.quantities(&entry.what.path).map(|path| self.say("bead-path", &[("path", Arg::Text(&path))])));
        told.detail(self.quantities(&entry.what.gap).map(|gap| self.say("bead-gap", &[("gap", Arg::Text(&gap))])));
        for (_, id) in cases(&entry.what.of, self.known) {
            let mut detail = self.detail_in(ListKind::Materials, id);
            if let Some(material) = self.scope().entry(|l| &l.materials, id) {
                detail.text = self.material_name(material);
                told.detail(material.what.working.as_ref().map(|q| self.say("working-time", &[("time", Arg::Text(&self.quantity(q)))])));
            }
            told.details.push(detail);
        }
    }

    fn tell_align(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.aligns, thing) else { return };
        let align = &entry.what;
        told.lines.extend(self.plain_lines(&align.offset));
        if let (Some(arc), Some(diameter)) = (self.quantities(&align.arc), self.quantities(&align.diameter)) {
            told.detail(Some(self.say("arc-on", &[("arc", Arg::Text(&arc)), ("diameter", Arg::Text(&diameter))])));
        }
        told.detail(self.marks_text(align));
        told.detail(self.sense_text(align));
        self.tell_view(&align.viewed_from, told);
        for (_, tool) in cases(&align.check_with, self.known) {
            told.details.push(self.detail_in(ListKind::Tools, tool));
        }
    }

    /// What the marks do: they meet, or stand apart where an offset says how far; where it says to which side too, that is told.
    fn marks_text(&self, align: &Align) -> Option<String> {
        let (apart, side) = (align.offset.is_given(), align.sense.is_given());
        let joint = match (apart, side) {
            (true, true) => return None,
            (true, false) => "marks-apart",
            (false, _) => "marks-meet",
        };
        (!align.marks.is_empty()).then(|| align.marks.join(&self.site.say(joint)))
    }

    /// To which side the first mark stands off the second.
    pub(super) fn sense_text(&self, align: &Align) -> Option<String> {
        let (Some(first), Some(second)) = (align.marks.first(), align.marks.get(1)) else { return None };
        varied_text(&align.sense, self.known, |sense| {
            let sense = self.site.words.of("sense", sense);
            self.say("marks-off", &[("first", Arg::Text(first)), ("second", Arg::Text(second)), ("sense", Arg::Text(&sense))])
        })
    }

    fn tell_measure(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.measures, thing) else { return };
        let measure = &entry.what;
        told.lines.extend(self.lines("spec", &measure.spec));
        told.lines.extend(self.lines("limit", &measure.limit));
        told.lines.extend(self.dial_line(measure));
        told.detail(self.formula_text(measure));
        told.detail(varied_text(&measure.cord, self.known, |cord| match (&cord.radius, &cord.torque) {
            (Some(radius), Some(torque)) => {
                let (radius, torque) = (super::values::glued(radius.written()), super::values::glued(torque.written()));
                self.say("cord", &[("radius", Arg::Text(&radius)), ("torque", Arg::Text(&torque))])
            }
            _ => String::new(),
        }));
        self.tell_note(entry.note.as_deref(), told);
        told.detail(varied_text(&measure.when, self.known, Clone::clone));
        for (_, tool) in cases(&measure.with, self.known) {
            told.details.push(self.detail_in(ListKind::Tools, tool));
        }
        let readings = cases(&measure.count, self.known).next().map_or_else(|| measure.readings(self.known), |(_, count)| *count);
        told.detail((readings > 1).then(|| self.say("readings", &[("count", Arg::Count(readings))])));
        // On the sheet each place stands at its blank.
        if !self.at_bench && !measure.places.is_empty() {
            told.detail(Some(measure.places.iter().map(|place| place.value.as_str()).collect::<Vec<_>>().join(", ")));
        }
        for (_, id) in cases(&measure.chooses, self.known) {
            let Some(shim) = self.scope().entry(|l| &l.shims, id) else { continue };
            told.details.push(self.detail_in(ListKind::Shims, id));
            told.lines.extend(self.lines(accept_key(&shim.what), &shim.what.accept));
            if !self.at_bench {
                told.detail(self.shim_formula(&shim.what));
            }
            told.detail(self.shim_text(&shim.what));
            told.detail(self.shim_worked(&shim.what));
            self.tell_note(shim.note.as_deref(), told);
        }
        // What is read with the wrong shim in is out, and that is what it is read for.
        let otherwise = if measure.chooses.is_given() { "otherwise-shim" } else { "otherwise" };
        told.detail(varied_text(&measure.otherwise, self.known, |words| self.say(otherwise, &[("otherwise", Arg::Text(words))])));
    }

    /// The formula of a measurement with the names of what it reckons with.
    pub(super) fn formula_text(&self, measure: &Measure) -> Option<String> {
        varied_text(&measure.formula, self.known, |formula| {
            let words: Vec<String> = formula
                .split_whitespace()
                .map(|word| self.scope().entry(|l| &l.measures, word).map_or_else(|| sign(word), |m| m.name.clone()))
                .collect();
            format!("= {}", words.join(" "))
        })
    }

    /// The shim's formula with its known values put in: `shim = 0.90 mm + reading − 0.64 mm`.
    pub(super) fn shim_formula(&self, shim: &Shim) -> Option<String> {
        let put_in = |varied: &Varied<Quantity>, word: &str| {
            varied_text(varied, self.known, |q| super::values::glued(q.written())).unwrap_or_else(|| self.site.words.of("formula", word))
        };
        varied_text(&shim.formula, self.known, |formula| {
            let words: Vec<String> = formula
                .split_whitespace()
                .map(|word| match word {
                    "old" => put_in(&shim.old, word),
                    "target" => put_in(&shim.target, word),
                    "reading" => self.site.words.of("formula", word),
                    word => self.scope().entry(|l| &l.measures, word).map_or_else(|| sign(word), |m| m.name.clone()),
                })
                .collect();
            self.say("shim-formula", &[("formula", Arg::Text(&words.join(" ")))])
        })
    }

    /// `from 0.90–1.10 mm in steps of 0.05 mm`.
    pub(super) fn shim_text(&self, shim: &Shim) -> Option<String> {
        let from = varied_text(&shim.from, self.known, |q| super::values::glued(q.written()))?;
        let step = varied_text(&shim.step, self.known, |q| super::values::glued(q.written()));
        Some(match step {
            Some(step) => self.say("shim-series", &[("range", Arg::Text(&from)), ("step", Arg::Text(&step))]),
            None => from,
        })
    }

    fn shim_worked(&self, shim: &Shim) -> Option<String> {
        varied_text(&shim.worked, self.known, |worked| match (&worked.reading, &worked.gives) {
            (Some(reading), Some(gives)) => {
                let (reading, gives) = (super::values::glued(reading.written()), super::values::glued(gives.written()));
                self.say("shim-worked", &[("reading", Arg::Text(&reading)), ("gives", Arg::Text(&gives))])
            }
            _ => String::new(),
        })
    }

    /// The band as a dial shows it that sits at another radius than the teeth.
    pub(super) fn dial_line(&self, measure: &Measure) -> Option<Line> {
        let (_, at) = cases(&measure.at, self.known).next()?;
        let (_, spec) = cases(&measure.spec, self.known).next()?;
        let band = Quantity::parse(&dial_band(at, spec)?, Dimension::Length).ok()?;
        Some(quantity_line(&band, self.units()).labelled(Some(&self.site.say("on-the-dial"))))
    }

    fn tell_turn(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.turns, thing) else { return };
        let sense = varied_text(&entry.what.sense, self.known, |sense| self.site.words.of("sense", sense));
        let amounts = cases(&entry.what.amount, self.known);
        told.lines.extend(self.plain_lines(&entry.what.amount).into_iter().zip(amounts).map(|(line, (_, amount))| {
            // Nobody reads 24 turns off a scale of degrees.
            let other = line.other.filter(|_| amount.low_high().1.is_none_or(|degrees| degrees <= 720.0));
            Line { main: self.turns(&line.main, amount), other, ..line }
        }));
        told.detail(sense);
        self.tell_view(&entry.what.viewed_from, told);
        self.tell_note(entry.note.as_deref(), told);
    }

    /// A number of turns in the words of the manual's language: `1 turn`, `10 turns`.
    fn turns(&self, written: &str, amount: &Quantity) -> String {
        if amount.unit().symbol() != "turn" {
            return written.to_owned();
        }
        // In degrees.
        let is_one = amount.low_high().1.is_some_and(|most| 0.0 < most && most <= 360.0);
        let word = self.site.words.of("turns", if is_one { "one" } else { "more" });
        ["revolutions", "revolution", "turns"].into_iter().fold(written.to_owned(), |text, unit| text.replace(unit, "turn")).replace("turn", &word)
    }

    fn tell_view(&self, viewed_from: &Varied<String>, told: &mut Told) {
        told.detail(varied_text(viewed_from, self.known, |from| self.say("viewed-from", &[("from", Arg::Text(from))])));
    }

    fn tell_test(&self, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.tests, thing) else { return };
        for (case, expect) in cases(&entry.what.expect, self.known) {
            match expect {
                Expect::Words(words) => told.detail(Some(match case {
                    Some(case) => format!("{case} {words}"),
                    None => words.clone(),
                })),
                Expect::Quantities(quantities) => told.lines.extend(quantities.iter().map(|(name, quantity)| {
                    quantity_line(quantity, self.units())
                        .labelled(Some(&self.site.words.of("expect", name)))
                        .labelled(case.as_deref())
                })),
            }
        }
        self.tell_note(entry.note.as_deref(), told);
        told.detail(varied_text(&entry.what.otherwise, self.known, |otherwise| {
            self.say("otherwise", &[("otherwise", Arg::Text(otherwise))])
        }));
    }

    fn tell_away(&self, verb: Verb, thing: &ThingRef, told: &mut Told) {
        let Some(entry) = self.scope().thing(|l| &l.away, thing) else { return };
        if verb == Verb::Send {
            told.detail(entry.what.because.as_deref().map(values_glued));
            self.tell_limit(&entry.limit, told);
            return;
        }
        for inspected in &entry.what.on_return {
            let detail = match self.scope().find(ListKind::Measures, &inspected.value) {
                Some(measure) => Detail { text: self.name(&measure), href: Some(self.row_link(&measure)) },
                None => Detail::plain(values_glued(&inspected.value)),
            };
            told.details.push(detail);
        }
    }

    /// The lines of a value that needs no label of its own.
    pub(super) fn plain_lines(&self, varied: &Varied<Quantity>) -> Vec<Line> {
        cases(varied, self.known)
            .map(|(case, quantity)| quantity_line(quantity, self.units()).labelled(case.as_deref()))
            .collect()
    }
}

/// What the accepted values of a shim are called. Where its sum knows the shim that lay in place, it is read again with the new one;
/// otherwise the sum turned round says what is held against them, for every variant or not at all.
pub(super) fn accept_key(shim: &Shim) -> &'static str {
    let formulas = || shim.formula.cases.iter().map(|formula| spaced(&formula.value).and_then(|text| Formula::parse(&text).ok()));
    if formulas().flatten().any(|formula| formula.names().contains(&"old")) {
        return "accept";
    }
    let mut told = formulas().map(|formula| formula.as_ref().map_or(TargetIs::Other, target_is));
    let first = told.next().unwrap_or(TargetIs::Other);
    match if told.all(|other| other == first) { first } else { TargetIs::Other } {
        TargetIs::ReadingLessShim => "accept-less",
        TargetIs::ShimLessReading => "accept-more",
        TargetIs::ReadingAndShim => "accept-both",
        TargetIs::Other => "accept-target",
    }
}

/// The band of a backlash where the dial sits: `dial = gear × dial radius ÷ gear radius`, in millimetres,
/// rounded inwards to the hundredth so that no reading outside the author's band is let pass.
fn dial_band(at: &BacklashAt, spec: &Quantity) -> Option<String> {
    let radius = |q: &Option<Quantity>| q.as_ref().and_then(Quantity::nominal);
    let ratio = radius(&at.dial_radius)? / radius(&at.gear_radius)?;
    let (Some(low), Some(high)) = spec.low_high() else { return None };
    let low = (low * ratio * 100.0 - 1e-6).ceil() / 100.0;
    let high = (high * ratio * 100.0 + 1e-6).floor() / 100.0;
    (ratio.is_finite() && low <= high).then(|| format!("{low:.2}–{high:.2} mm"))
}

fn sign(word: &str) -> String {
    if word == "-" { "−".to_owned() } else { word.to_owned() }
}
