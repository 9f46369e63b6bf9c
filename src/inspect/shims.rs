//! Shims: the worked example, the formula and the series say the same, and every reading finds a shim in the box.

use super::chains::half_digit;
use super::formula::spaced;
use super::measures::short;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Case, Combination, Entry, ListKind, Measure, Scope, Shim, Varied, WorkedShim};
use crate::quantity::{Form, Quantity};
use crate::trade::clearance::Span;
use crate::trade::formula::Formula;
use crate::trade::shim::{ShimChoice, ShimOffer, ShimSeries, TARGET, choose, gives, misses_by_mm};

/// A shim's example, formula and series disagree.
pub(super) static SHIM_ARITHMETIC: Rule = Rule {
    name: "shim-arithmetic",
    severity: Severity::Error,
    summary: "A shim's worked example does not follow from its formula and series.",
    explanation: Explanation {
        finds: "Shims whose worked: example gives a shim that leaves what is accepted (accept:), or, where nothing is stated, lies more than half a step off what the formula comes to; an example that gives a thickness the series does not have; a target: outside accept:; a series in millimetres whose steps do not come out at its end.",
        matters: "The example is what the reader copies with his own numbers. A sign the wrong way round gives the thick shim where the thin one belongs.",
        may_be_wrong: "Where several shims are stacked: say so with count:, then the series is not asked for their sum.",
        example: "shim: {is: old + reading - target, old: 2.35 mm, target: 0.21 mm, worked: {reading: 0.26 mm, gives: 2.30 mm}}",
        instead: "worked: {reading: 0.26 mm, gives: 2.40 mm}",
    },
};

/// No shim of the series gives what is accepted.
pub(super) static SHIM_NOT_AVAILABLE: Rule = Rule {
    name: "shim-not-available",
    severity: Severity::Warning,
    summary: "For some reading, no shim of the series gives what is accepted.",
    explanation: Explanation {
        finds: "Shims with from:, step:, target: and accept: for which a reading between two steps finds no shim that lands inside accept:, readings being taken as fine as the instrument reads, or as accept: is written where no instrument is named; and worked examples that find none. Both neighbours are printed with what each gives.",
        matters: "The reader stands at the bench with a box in which nothing fits, and bends the limit or the shim.",
        may_be_wrong: "Where two shims may be laid together to come between the steps: give the step that they make together.",
        example: "shim: {from: 0.90–1.10 mm, step: 0.10 mm, is: old + reading - target, …, accept: 0.62–0.66 mm}",
        instead: "step: 0.05 mm, or accept: as wide as the source allows",
    },
};

/// Fields without which, unread, nothing can be said.
const FIELDS: [&str; 7] = ["from", "step", "is", "old", "target", "accept", "worked"];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        for entry in lists.shims.values() {
            if FIELDS.into_iter().any(|field| lists.is_unreadable(ListKind::Shims, &entry.id, field)) {
                continue;
            }
            let made = every::made(scope, &entry.only, conditions(&entry.what));
            let boxes = || made.iter().filter_map(|made| ShimBox::of(scope, entry, made));
            // The first fault of a shim is enough: the others follow from it.
            findings.extend(boxes().find_map(|shim| shim.contradiction()).or_else(|| boxes().find_map(|shim| shim.too_coarse())));
        }
    }
}

fn conditions(shim: &Shim) -> impl Iterator<Item = &Combination> {
    let quantities = [&shim.from, &shim.step, &shim.old, &shim.target, &shim.accept];
    let quantities = quantities.into_iter().flat_map(|varied| varied.cases.iter().map(|case| &case.when));
    quantities.chain(shim.formula.cases.iter().map(|case| &case.when)).chain(shim.worked.cases.iter().map(|case| &case.when))
}

/// A shim of one variant, with its formula read.
struct ShimBox<'a> {
    entry: &'a Entry<Shim>,
    made: &'a Combination,
    formula: Formula,
    series: Option<ShimSeries>,
    accept: Option<Span>,
    /// What the instrument tells apart, mm.
    resolution: Option<f64>,
}

impl<'a> ShimBox<'a> {
    fn of(scope: Scope<'_>, entry: &'a Entry<Shim>, made: &'a Combination) -> Option<Self> {
        let shim = &entry.what;
        let formula = Formula::parse(&spaced(shim.formula.get(made)?)?).ok()?;
        let ends = |varied: &Varied<Quantity>| varied.get(made).map(Quantity::low_high);
        let series = match (ends(&shim.from), mm(&shim.step, made)) {
            (Some((Some(low), Some(high))), Some(step)) => ShimSeries::new(low, high, step),
            _ => None,
        };
        let accept = match ends(&shim.accept) {
            Some((Some(low), Some(high))) => Span::new(low, high),
            _ => None,
        };
        Some(Self { entry, made, formula, series, accept, resolution: resolution(scope, &entry.id) })
    }

    /// The formula's values, with one for the reading.
    fn value(&self, reading: f64) -> impl Fn(&str) -> Option<f64> + use<'_, 'a> {
        move |id| match id {
            "reading" => Some(reading),
            "old" => mm(&self.entry.what.old, self.made),
            TARGET => mm(&self.entry.what.target, self.made),
            _ => None,
        }
    }

    fn contradiction(&self) -> Option<Finding> {
        self.series_without_end().or_else(|| self.target_outside()).or_else(|| self.example())
    }

    /// A series whose last step is not the thickest that is written. In inches both are rounded, and nothing is said.
    fn series_without_end(&self) -> Option<Finding> {
        let (from, step) = (self.entry.what.from.case(self.made)?, self.entry.what.step.case(self.made)?);
        let series = self.series.filter(|_| [from, step].into_iter().all(|case| case.value.unit().symbol() == "mm"))?;
        let last = series.not_above(series.to_mm)?;
        (!series.has(series.to_mm)).then(|| {
            let words = format!("from {} mm in steps of {} mm the last is {} mm, not {} mm", short(series.from_mm), short(series.step_mm), short(last), short(series.to_mm));
            Finding::new(&SHIM_ARITHMETIC, step.place.clone(), format!("the steps of {} don't come out at its thickest{}", self.entry.name, every::variant_words(self.made)))
                .label("this step")
                .related(from.place.clone(), "the series")
                .figure(words)
                .fix("look both up again: an end or the step has slipped a digit")
                .about(format!("{}.step", self.entry.id))
        })
    }

    fn target_outside(&self) -> Option<Finding> {
        let (target, accept) = (self.entry.what.target.case(self.made)?, self.entry.what.accept.case(self.made)?);
        let outside = !self.accepts(target.value.nominal()?, &target.value)?;
        outside.then(|| {
            Finding::new(&SHIM_ARITHMETIC, target.place.clone(), format!("the target of {} lies outside what is accepted{}", self.entry.name, every::variant_words(self.made)))
                .label("aims outside")
                .related(accept.place.clone(), "what is accepted")
                .figure(format!("the formula aims at {}; {} is accepted", target.value.written(), accept.value.written()))
                .fix("look both up again: one of them has slipped a digit")
                .about(format!("{}.target", self.entry.id))
        })
    }

    /// Whether what a shim gives is accepted. A value in another unit than the limits was rounded: half its last digit is left.
    fn accepts(&self, value: f64, written: &Quantity) -> Option<bool> {
        let (accept, limits) = (self.accept?, self.entry.what.accept.get(self.made)?);
        let slack = if written.unit().symbol() == limits.unit().symbol() { 0.0 } else { half_digit(written).to_f64() };
        Span::new(accept.low_mm - slack, accept.high_mm + slack).map(|span| span.holds(value))
    }

    fn example(&self) -> Option<Finding> {
        let worked = self.entry.what.worked.case(self.made)?;
        let (reading, chosen) = (worked.value.reading.as_ref()?, worked.value.gives.as_ref()?);
        let (reading_mm, chosen_mm) = (reading.nominal()?, chosen.nominal()?);
        let value = self.value(reading_mm);
        let exact = self.formula.evaluate(&value).ok()?;
        let result = gives(&self.formula, &value, chosen_mm).ok().flatten();
        let accepted = match result.and_then(|result| self.accepts(result, chosen)) {
            Some(accepted) => accepted,
            None => self.near(chosen_mm, exact, chosen),
        };
        let choice = self.series.and_then(|series| choose(&self.formula, &value, series, self.accept).ok());
        if accepted {
            return self.not_in_series(worked, chosen, chosen_mm, exact);
        }
        let neighbours = choice.map(neighbours).unwrap_or_default();
        let is_neighbour = neighbours.iter().any(|offer| (offer.size_mm - chosen_mm).abs() <= half_digit(chosen).to_f64());
        if is_neighbour && choice.is_some_and(|choice| choice.best().is_none()) && self.accept.is_some() {
            let finding = self.none_fits(worked.place.clone(), "this reading finds no shim").figure(self.reckoned(reading, exact));
            return Some(self.with_offers(finding, &neighbours));
        }
        let message = format!("the worked example of {} does not follow from its formula{}", self.entry.name, every::variant_words(self.made));
        let finding = Finding::new(&SHIM_ARITHMETIC, worked.place.clone(), message)
            .label("another shim than worked out")
            .figure(self.reckoned(reading, exact))
            .figures(result.map(|result| format!("{} would make it {} mm{}", chosen.written(), short(result), self.against())));
        let finding = self.entry.what.formula.case(self.made).map(|case| case.place.clone()).into_iter().fold(finding, |finding, place| finding.related(place, "the formula"));
        Some(
            self.with_offers(finding, &neighbours)
                .fix("work the example through once more; then correct the formula, its values or the example")
                .about(format!("{}.worked", self.entry.id)),
        )
    }

    /// Without a target or limits, half a step off is as near as a series can come; without a series, the last digit.
    fn near(&self, chosen: f64, exact: f64, written: &Quantity) -> bool {
        match self.series {
            Some(series) => misses_by_mm(chosen, exact, series.step_mm).is_none(),
            None => misses_by_mm(chosen, exact, 2.0 * half_digit(written).to_f64()).is_none(),
        }
    }

    fn not_in_series(&self, worked: &Case<WorkedShim>, chosen: &Quantity, chosen_mm: f64, exact: f64) -> Option<Finding> {
        let series = self.series?;
        let several = self.entry.what.count.get(self.made).is_some_and(|count| *count > 1);
        let close = |size: Option<f64>| size.is_some_and(|size| (size - chosen_mm).abs() <= half_digit(chosen).to_f64());
        if several || series.has(chosen_mm) || close(series.not_above(chosen_mm)) || close(series.above(chosen_mm)) {
            return None;
        }
        let sizes: Vec<String> = [series.not_above(chosen_mm), series.above(chosen_mm)].into_iter().flatten().map(|size| format!("{} mm", short(size))).collect();
        Some(
            Finding::new(&SHIM_ARITHMETIC, worked.place.clone(), format!("the worked example of {} gives a shim that the series does not have{}", self.entry.name, every::variant_words(self.made)))
                .label(format!("no shim of {}", chosen.written()))
                .related(self.entry.what.from.case(self.made)?.place.clone(), "the series")
                .figure(format!("the formula comes to {} mm; the series has {}", short(exact), sizes.join(" and ")))
                .fix("let the example end at a shim of the series, as the reader must")
                .about(format!("{}.worked", self.entry.id)),
        )
    }

    /// A reading between two steps for which the box has nothing: one step's worth of readings is tried through.
    fn too_coarse(&self) -> Option<Finding> {
        let (series, limits) = (self.series?, self.entry.what.accept.case(self.made)?);
        let grid = self.resolution.or_else(|| last_digit(&limits.value)).filter(|grid| *grid > 0.0)?;
        let middle = series.not_above(f64::midpoint(series.from_mm, series.to_mm))?;
        let target = mm(&self.entry.what.target, self.made)?;
        // The readings for which the middle shim, and the one above it, hit the target.
        let reading_for = |size: f64| {
            let known = |id: &str| if id == TARGET { Some(target) } else { self.value(0.0)(id).filter(|_| id != "reading") };
            self.formula.solve_for("reading", size, &known).ok()
        };
        let (one, other) = (reading_for(middle)?, reading_for(series.above(middle)?)?);
        let (low, high) = (one.min(other), one.max(other));
        let first = (low / grid).round();
        let most = ((high - low) / grid).round();
        if !(1.0..=MOST_READINGS).contains(&most) {
            return None;
        }
        let readings = std::iter::successors(Some(0.0), |step| Some(step + 1.0)).take_while(|step| *step < most);
        let tried: Vec<(f64, ShimChoice)> = readings
            .map(|step| (first + step) * grid)
            .filter_map(|reading| Some((reading, choose(&self.formula, &self.value(reading), series, self.accept).ok()?)))
            .collect();
        let without: Vec<&(f64, ShimChoice)> = tried.iter().filter(|(_, choice)| choice.best().is_none()).collect();
        let (reading, choice) = without.get(without.len() / 2)?;
        let place = self.entry.what.step.case(self.made)?.place.clone();
        let finding = self
            .none_fits(place, "too coarse for what is accepted")
            .related(limits.place.clone(), "what is accepted")
            .figure(format!("{} of {} readings, {} mm apart, find no shim", without.len(), tried.len(), short(grid)))
            .figure(format!("a reading of {} mm asks for {} mm", short(*reading), short(choice.exact_mm)));
        Some(self.with_offers(finding, &neighbours(*choice)))
    }

    fn none_fits(&self, place: Place, label: &str) -> Finding {
        Finding::new(&SHIM_NOT_AVAILABLE, place, format!("the series of {} has no shim that gives what is accepted{}", self.entry.name, every::variant_words(self.made)))
            .label(label)
            .fix("list a series that goes far enough, in finer steps; or widen accept: as far as the source allows")
            .about(format!("{}.step", self.entry.id))
    }

    fn with_offers(&self, finding: Finding, offers: &[ShimOffer]) -> Finding {
        let told = offers.iter().filter_map(|offer| Some(format!("{} mm gives {} mm", short(offer.size_mm), short(offer.gives_mm?))));
        let told: Vec<String> = told.collect();
        finding.figures((!told.is_empty()).then(|| format!("in the series, {}{}", told.join(", "), self.against())))
    }

    /// `; 0.62–0.66 mm is accepted`.
    fn against(&self) -> String {
        let limits = self.entry.what.accept.get(self.made);
        limits.map(|limits| format!("; {} is accepted", limits.written())).unwrap_or_default()
    }

    /// The formula with its values put in: `2.35 + 0.26 - 0.21 = 2.4 mm`.
    fn reckoned(&self, reading: &Quantity, exact: f64) -> String {
        let written = |varied: &Varied<Quantity>, word: &str| varied.get(self.made).map_or_else(|| word.to_owned(), |value| value.written().to_owned());
        let put_in = |word: &str| match word {
            "reading" => reading.written().to_owned(),
            "old" => written(&self.entry.what.old, word),
            TARGET => written(&self.entry.what.target, word),
            sign_or_number => sign_or_number.to_owned(),
        };
        let text = self.entry.what.formula.get(self.made).and_then(|text| spaced(text)).unwrap_or_default();
        let words: Vec<String> = text.split(' ').map(put_in).collect();
        format!("{} = {} mm", words.join(" "), short(exact))
    }
}

/// Readings in one step of a series that are tried through; more would be a step of no box.
const MOST_READINGS: f64 = 1000.0;

fn neighbours(choice: ShimChoice) -> Vec<ShimOffer> {
    [choice.below, choice.above].into_iter().flatten().collect()
}

fn mm(varied: &Varied<Quantity>, made: &Combination) -> Option<f64> {
    varied.get(made).and_then(Quantity::nominal)
}

/// The finest instrument with which this shim is chosen anywhere in the machine, mm.
fn resolution(scope: Scope<'_>, shim: &str) -> Option<f64> {
    let elsewhere = scope.machine.into_iter().flat_map(|machine| &machine.procedures).map(|procedure| &procedure.lists);
    let measures = scope.homes().map(|(_, lists)| lists).chain(elsewhere).flat_map(|lists| lists.measures.values());
    let chooses = |measure: &&Entry<Measure>| measure.what.chooses.cases.iter().any(|case| case.value == shim);
    let tools = measures.filter(chooses).filter_map(|measure| scope.entry(|lists| &lists.tools, measure.what.with.first()?));
    tools.filter_map(|tool| tool.what.resolution.as_ref()?.nominal()).reduce(f64::min)
}

/// One of the last digit that is written, mm.
fn last_digit(quantity: &Quantity) -> Option<f64> {
    let single = matches!(quantity.form(), Form::AtLeast(_) | Form::AtMost(_));
    (!single).then(|| 2.0 * half_digit(quantity).to_f64())
}
