//! What the scripts of a bench sheet need to know of its work: values as numbers beside how they are written, and words.

use super::open::{self, Open};
use super::site::Scene;
use super::bench_words::{json, words};
use super::markup::Markup;
use super::values::{cases, glued, quantity_text, torque_beside};
use super::{PageError, link};
use crate::manual::{
    Act, Align, Axis, AxisValue, Combination, Entry, Expect, Fastener, Fingerprint, Heat, Home, ListKind, Machine, Measure, Procedure, Shim, Step, Test, ThingRef, Torque, Varied, Verb, Wait,
};
use crate::quantity::{Dimension, Quantity, Unit};
use serde::Serialize;
use std::collections::BTreeMap;

/// The data block of a sheet.
#[derive(Serialize)]
struct BenchData<'a> {
    manual: &'a str,
    machine: &'a str,
    machine_name: &'a str,
    procedure: &'a str,
    title: &'a str,
    revision: Option<u64>,
    /// Of the values on this sheet, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    fingerprint: Option<&'a str>,
    variant: &'a BTreeMap<String, String>,
    /// Which serial numbers each value of an axis of this sheet means.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    numbers: Vec<Numbers<'a>>,
    sheets: Vec<OtherSheet<'a>>,
    acts: Vec<BenchAct>,
    leaves: Vec<Leaves<'a>>,
    finishes: Vec<Finishes<'a>>,
}

/// What the data blocks of all sheets have alike, behind their own.
#[derive(Serialize)]
struct Alike {
    units: Vec<BenchUnit>,
    words: BTreeMap<&'static str, String>,
}

/// The serial numbers that a value of an axis means.
#[derive(Serialize)]
struct Numbers<'a> {
    axis: &'a str,
    value: &'a str,
    means: &'a str,
    low: Option<f64>,
    high: Option<f64>,
}

/// The same procedure's sheet for another variant.
#[derive(Serialize)]
struct OtherSheet<'a> {
    variant: &'a BTreeMap<String, String>,
    href: String,
}

/// What stays open behind this procedure.
#[derive(Serialize)]
struct Leaves<'a> {
    item: &'a str,
    left: &'a str,
}

/// What another procedure left open and this one finishes.
#[derive(Serialize)]
struct Finishes<'a> {
    item: &'a str,
    procedure: &'a str,
}

/// A unit readings may be written in: how many of the base unit of its kind one of it is, and what it reads at nothing.
#[derive(Serialize)]
struct BenchUnit {
    symbol: &'static str,
    others: &'static [&'static str],
    kind: String,
    size: f64,
    zero: f64,
}

/// An act with what can be reckoned from it.
#[derive(Default, Serialize)]
struct BenchAct {
    /// `STEP/ACT/NUMBER`, as on its row.
    key: String,
    step: String,
    act: String,
    number: usize,
    name: String,
    /// Its values in the author's units, as a tick keeps them.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    torque: Option<BenchTorque>,
    #[serde(skip_serializing_if = "Option::is_none")]
    measure: Option<BenchMeasure>,
    /// What a test shows, each written down by itself.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    reads: Vec<BenchRead>,
    /// A shim that goes in: how thick it is, is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    fits: Option<BenchFits>,
    #[serde(skip_serializing_if = "Option::is_none")]
    align: Option<BenchAlign>,
    #[serde(skip_serializing_if = "Option::is_none")]
    timer: Option<BenchTimer>,
    /// What a wait that ends with the act has to have had.
    #[serde(skip_serializing_if = "Option::is_none")]
    wait: Option<BenchWait>,
    /// Ids of those who sign.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    people: Vec<String>,
}

#[derive(Serialize)]
struct BenchTorque {
    stages: Vec<Band>,
    /// mm from the square to the fastener, and ° to the wrench.
    #[serde(skip_serializing_if = "Option::is_none")]
    adapter: Option<(f64, f64)>,
}

/// A quantity as written, and its ends in the base unit of its kind.
#[derive(Serialize)]
struct Band {
    text: String,
    unit: &'static str,
    low: Option<f64>,
    high: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nominal: Option<f64>,
}

#[derive(Serialize)]
struct BenchMeasure {
    id: String,
    unit: &'static str,
    /// Other units that are offered.
    others: Vec<&'static str>,
    count: u64,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    places: Vec<String>,
    spec: Option<Band>,
    limit: Option<Band>,
    otherwise: Option<String>,
    /// Reading at the dial to value at the teeth.
    #[serde(skip_serializing_if = "Option::is_none")]
    lever: Option<(f64, f64)>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shim: Option<BenchShim>,
    /// A formula over other measures, with their names.
    #[serde(skip_serializing_if = "Option::is_none")]
    formula: Option<(String, Vec<(String, String)>)>,
}

/// A value that a test shows.
#[derive(Serialize)]
struct BenchRead {
    name: String,
    unit: &'static str,
    spec: Band,
    otherwise: Option<String>,
}

/// A shim that goes in, and the units its thickness may be written in.
#[derive(Serialize)]
struct BenchFits {
    of: String,
    unit: &'static str,
    others: Vec<&'static str>,
    /// The thicknesses there are: any other is none of them.
    series: BenchSeries,
}

/// A series of shims, from the thinnest to the thickest.
#[derive(Serialize)]
struct BenchSeries {
    #[serde(flatten)]
    band: Band,
    step: Option<f64>,
}

#[derive(Serialize)]
struct BenchShim {
    /// Its id.
    of: String,
    formula: String,
    from: f64,
    to: f64,
    step: f64,
    unit: &'static str,
    old: Option<f64>,
    target: Option<f64>,
    accept: Option<Band>,
    names: Vec<(String, String)>,
}

#[derive(Serialize)]
struct BenchAlign {
    arc: Option<f64>,
    diameter: Option<f64>,
    degrees: Option<f64>,
}

/// How long a wait lasts from the act that begins it, wherever that stands.
#[derive(Serialize)]
struct BenchWait {
    begun: String,
    /// The least time.
    seconds: f64,
    /// Whether the procedure lists the wait itself: it can begin nowhere else.
    own: bool,
}

/// A wait that can be begun with the act; one to keep within, such as a locker's working time, is marked.
#[derive(Serialize)]
struct BenchTimer {
    name: String,
    seconds: f64,
    text: String,
    within: bool,
}

/// `STEP/ACT/NUMBER` of an act: the n-th of the same act in its step, whatever the variant.
pub(super) fn act_key(step: &Step, index: usize) -> String {
    let Some(act) = step.acts.get(index) else { return String::new() };
    format!("{}/{}/{}", step.id, act.address, number(step, index, act))
}

fn number(step: &Step, index: usize, act: &Act) -> usize {
    step.acts.iter().take(index).filter(|other| other.address == act.address).count() + 1
}

/// The data block of a sheet, safe inside a `script` element.
pub(super) fn data(scene: &Scene<'_>, index: usize, fingerprint: &Fingerprint) -> Result<Markup, PageError> {
    let Some(procedure) = scene.procedure else { return Ok(Markup::default()) };
    let machine = scene.machine;
    let items: Vec<Open<'_>> = open::possible(&open::all(machine), scene.known);
    let own = scene.site.sheets.get(scene.machine_index).and_then(|m| m.get(index));
    // Values stand in the author's own units here.
    let as_written = Scene { at_bench: false, ..*scene };
    let data = BenchData {
        manual: &scene.site.input.manual.title,
        machine: &machine.id,
        machine_name: &machine.name,
        procedure: &procedure.id,
        title: &procedure.title,
        revision: procedure.history.revision,
        fingerprint: Some(fingerprint.as_str()),
        variant: &scene.known.0,
        numbers: numbers(machine, scene.known),
        sheets: own.map_or_else(Vec::new, |own| {
            own.all.iter().map(|(path, known)| OtherSheet { variant: &known.0, href: link::relative(scene.page, path) }).collect()
        }),
        acts: acts(&as_written, procedure),
        leaves: items.iter().filter(|item| item.left_by(machine, index)).map(|item| Leaves { item: item.id, left: item.left_as().unwrap_or_default() }).collect(),
        finishes: items
            .iter()
            .filter(|item| item.finished_in(machine).is_some_and(|(finish, _)| finish == index))
            .filter_map(|item| Some(Finishes { item: item.id, procedure: &machine.procedures.get(item.opened_in)?.id }))
            .collect(),
    };
    let own = json(&data)?;
    let known = &scene.site.words.bench;
    match known.get() {
        Some(alike) => Ok(own.with_members_of(alike)),
        None => {
            let alike = json(&Alike { units: units(), words: words(scene) })?;
            Ok(own.with_members_of(known.get_or_init(|| alike)))
        }
    }
}

/// The serial numbers behind the axes that a sheet is for.
fn numbers<'a>(machine: &'a Machine, known: &Combination) -> Vec<Numbers<'a>> {
    let axes = machine.axes.iter().filter(|axis| known.0.contains_key(&axis.name));
    let value = |axis: &'a Axis, value: &'a AxisValue| {
        let (low, high) = value.numbers()?;
        Some(Numbers { axis: &axis.name, value: &value.name, means: &value.meaning, low, high })
    };
    axes.flat_map(|axis| axis.values.iter().filter_map(move |own| value(axis, own))).collect()
}

fn units() -> Vec<BenchUnit> {
    let wanted = [
        Dimension::Torque, Dimension::Length, Dimension::Angle, Dimension::Force, Dimension::Pressure, Dimension::Temperature, Dimension::Rotation,
        Dimension::Percent, Dimension::Volume,
    ];
    Unit::all()
        .iter()
        .filter(|unit| wanted.contains(&unit.dimension()))
        .map(|unit| BenchUnit {
            symbol: unit.symbol(),
            others: unit.other_spellings(),
            kind: format!("{:?}", unit.dimension()).to_lowercase(),
            size: unit.size(),
            zero: unit.from_base(&crate::quantity::Exact::zero()).to_f64(),
        })
        .collect()
}

fn acts(scene: &Scene<'_>, procedure: &Procedure) -> Vec<BenchAct> {
    let steps = procedure.steps.iter().filter(|step| step.only.agrees_with(scene.known));
    steps.flat_map(|step| step.acts.iter().enumerate().filter_map(|(index, act)| scene.bench_act(step, index, act))).collect()
}

impl<'s> Scene<'s> {
    fn bench_act(&self, step: &Step, index: usize, act: &'s Act) -> Option<BenchAct> {
        let verb = act.verb?;
        if matches!(verb, Verb::Tool | Verb::Stop) {
            return None;
        }
        let known = self.known.and(&step.only)?;
        let scene = Scene { known: &known, ..*self };
        let mut bench = BenchAct {
            key: act_key(step, index),
            step: step.id.clone(),
            act: act.address.clone(),
            number: number(step, index, act),
            name: act.thing().map_or_else(|| act.words.clone(), |thing| scene.name(thing)),
            value: scene.value_kept(act, verb),
            people: act.things.iter().filter(|thing| thing.kind == ListKind::People).map(|thing| thing.id.clone()).collect(),
            timer: scene.bench_timer(act, verb),
            wait: scene.bench_wait(act, verb),
            ..BenchAct::default()
        };
        for thing in &act.things {
            match (thing.kind, verb) {
                (ListKind::Fasteners, Verb::Torque) => bench.torque = scene.scope().thing(|l| &l.fasteners, thing).map(|e| scene.bench_torque(&e.what, act.stage)),
                (ListKind::Measures, Verb::Measure) => bench.measure = scene.scope().thing(|l| &l.measures, thing).map(|e| scene.bench_measure(e)),
                (ListKind::Tests, Verb::Test) => bench.reads = scene.scope().thing(|l| &l.tests, thing).map_or_else(Vec::new, |e| scene.bench_reads(&e.what)),
                (ListKind::Shims, Verb::Fit | Verb::DryFit) => bench.fits = scene.scope().thing(|l| &l.shims, thing).and_then(|e| scene.bench_fits(e)),
                (ListKind::Aligns, Verb::Align) => bench.align = scene.scope().thing(|l| &l.aligns, thing).map(|e| bench_align(&e.what, &known)),
                _ => {}
            }
        }
        Some(bench)
    }

    /// The values of an act in the author's units, in one line; none where it has no value.
    fn value_kept(&self, act: &'s Act, verb: Verb) -> Option<String> {
        let lines = match act.thing().filter(|_| verb == Verb::Torque).and_then(|thing| self.fastener(thing)) {
            Some(fastener) => self.torque_lines(fastener, act.stage),
            None => self.told(act).lines,
        };
        let texts: Vec<String> = lines
            .into_iter()
            .map(|line| match line.label {
                // As records have it, whatever sign the page sets behind a stage.
                Some(label) => format!("{} {}", label.trim_end_matches(':'), line.main),
                None => line.main,
            })
            .collect();
        // What the author wrote has no brackets but those the page sets: a record holds it as written.
        (!texts.is_empty()).then(|| texts.join(", ").replace('\u{a0}', " ").replace('[', "(").replace(']', ")"))
    }

    fn fastener(&self, thing: &ThingRef) -> Option<&'s Fastener> {
        self.scope().thing(|l| &l.fasteners, thing).map(|entry| &entry.what)
    }

    fn bench_torque(&self, fastener: &'s Fastener, stage: Option<u64>) -> BenchTorque {
        let mut stages = Vec::new();
        let units = self.torque_units(fastener);
        if let Some(torque @ Torque::Stages(all)) = sure(&fastener.torque, self.known) {
            for (at, quantity) in all.iter().enumerate() {
                let number = super::rows::count(at + 1);
                if stage.is_none_or(|stage| stage == number) && quantity.dimension() == Dimension::Torque {
                    // The same second figure as on the page and on the wrench.
                    let line = torque_beside(quantity, self.scale_for(fastener, torque, Some(number)), &units);
                    let text = [Some(line.main), line.other].into_iter().flatten().collect::<Vec<_>>().join(" ").replace('\u{a0}', " ");
                    stages.push(Band { text, ..self.band(quantity) });
                }
            }
        }
        let adapter = sure(&fastener.adapter, self.known)
            .and_then(|adapter| Some((adapter.length.as_ref()?.nominal()?, adapter.angle.as_ref().and_then(Quantity::nominal).unwrap_or(0.0))));
        BenchTorque { stages, adapter }
    }

    /// The unit a measurement is read in: of its spec, its limit or the shim that it chooses.
    pub(super) fn unit_told(&self, measure: &Measure) -> Option<&'static Unit> {
        let shim = sure(&measure.chooses, self.known).and_then(|id| self.scope().entry(|l| &l.shims, id));
        let told = sure(&measure.spec, self.known).or_else(|| sure(&measure.limit, self.known)).or_else(|| shim.and_then(|shim| shim.what.from.first()));
        told.map(Quantity::unit)
    }

    fn bench_measure(&self, entry: &Entry<Measure>) -> BenchMeasure {
        let measure = &entry.what;
        let spec = sure(&measure.spec, self.known);
        let limit = sure(&measure.limit, self.known);
        let shim = sure(&measure.chooses, self.known).and_then(|id| self.scope().entry(|l| &l.shims, id));
        // A length, where nothing says.
        let length = || self.units().iter().copied().find(|unit| unit.dimension() == Dimension::Length);
        let unit = self.unit_told(measure).or_else(length).unwrap_or_else(|| &Unit::all()[0]);
        let count = measure.readings(self.known).clamp(1, super::sheet_row::MOST_BLANKS);
        let places = &measure.places;
        let radius = |quantity: &Option<Quantity>| quantity.as_ref().and_then(Quantity::nominal);
        BenchMeasure {
            id: entry.id.clone(),
            unit: unit.symbol(),
            others: self.others(unit),
            count,
            // As on the sheet: a name for each, or for none.
            places: places.iter().filter(|_| u64::try_from(places.len()) == Ok(count)).map(|place| place.value.clone()).collect(),
            spec: spec.map(|quantity| self.band(quantity)),
            limit: limit.map(|quantity| self.band(quantity)),
            otherwise: sure(&measure.otherwise, self.known).cloned(),
            lever: sure(&measure.at, self.known).and_then(|at| Some((radius(&at.gear_radius)?, radius(&at.dial_radius)?))),
            shim: shim.and_then(|shim| self.bench_shim(shim)),
            formula: sure(&measure.formula, self.known).map(|formula| (formula.clone(), self.names_in(formula))),
        }
    }

    fn bench_reads(&self, test: &Test) -> Vec<BenchRead> {
        let reads = sure(&test.expect, self.known).into_iter().flat_map(Expect::shown);
        let read = |(name, quantity): &(String, Quantity)| BenchRead {
            name: self.site.words.of("expect", name),
            unit: quantity.unit().symbol(),
            spec: self.band(quantity),
            otherwise: sure(&test.otherwise, self.known).cloned(),
        };
        reads.map(read).collect()
    }

    /// None where nothing tells the unit of its series.
    fn bench_fits(&self, entry: &Entry<Shim>) -> Option<BenchFits> {
        let from = sure(&entry.what.from, self.known)?;
        let step = sure(&entry.what.step, self.known).and_then(Quantity::nominal);
        // As the box is marked: it stands in brackets, and a second unit in brackets within them is hard to read.
        let band = Band { text: from.written().to_owned(), ..self.band(from) };
        Some(BenchFits { of: entry.id.clone(), unit: from.unit().symbol(), others: self.others(from.unit()), series: BenchSeries { band, step } })
    }

    /// The other units of the manual for what is written in a unit.
    fn others(&self, unit: &'static Unit) -> Vec<&'static str> {
        self.units().iter().filter(|other| other.dimension() == unit.dimension() && **other != unit).map(|other| other.symbol()).collect()
    }

    fn bench_shim(&self, entry: &Entry<Shim>) -> Option<BenchShim> {
        let shim = &entry.what;
        let from = sure(&shim.from, self.known)?;
        let (Some(low), Some(high)) = from.low_high() else { return None };
        let formula = sure(&shim.formula, self.known)?;
        let nominal = |varied| sure(varied, self.known).and_then(Quantity::nominal);
        Some(BenchShim {
            of: entry.id.clone(),
            formula: formula.clone(),
            from: low,
            to: high,
            step: nominal(&shim.step)?,
            unit: from.unit().symbol(),
            old: nominal(&shim.old),
            target: nominal(&shim.target),
            accept: sure(&shim.accept, self.known).map(|quantity| self.band(quantity)),
            names: self.names_in(formula),
        })
    }

    /// The measures a formula names, each with the name people use.
    fn names_in(&self, formula: &str) -> Vec<(String, String)> {
        let words = formula.split_whitespace().map(|word| word.trim_matches(['(', ')']));
        words.filter_map(|word| self.scope().entry(|l| &l.measures, word).map(|entry| (word.to_owned(), entry.name.clone()))).collect()
    }

    fn band(&self, quantity: &Quantity) -> Band {
        let (low, high) = quantity.low_high();
        let text = quantity_text(quantity, self.units()).replace('\u{a0}', " ");
        Band { text, unit: quantity.unit().symbol(), low, high, nominal: quantity.nominal() }
    }

    /// The wait that ends with the act.
    fn bench_wait(&self, act: &Act, verb: Verb) -> Option<BenchWait> {
        let thing = act.thing().filter(|thing| verb == Verb::Wait && thing.kind == ListKind::Waits)?;
        let wait: &Wait = &self.scope().thing(|l| &l.waits, thing)?.what;
        let time = sure(&wait.time, self.known)?;
        let seconds = time.low_high().0.or_else(|| time.nominal()).filter(|seconds| time.dimension() == Dimension::Time && *seconds > 0.0)?;
        Some(BenchWait { begun: format!("{}:{}", Verb::Begin.word(), thing.id), seconds, own: matches!(thing.home, Home::Procedure(_)) })
    }

    /// A wait that begins with the act.
    fn bench_timer(&self, act: &Act, verb: Verb) -> Option<BenchTimer> {
        let timer = |name: String, quantity: &Quantity, within: bool| {
            let seconds = quantity.seconds().filter(|seconds| *seconds > 0.0)?;
            Some(BenchTimer { name, seconds, text: glued(quantity.written()), within })
        };
        if let (Verb::Apply, Some(material)) = (verb, &act.material) {
            let entry = self.scope().thing(|l| &l.materials, material)?;
            return timer(entry.name.clone(), entry.what.working.as_ref()?, true);
        }
        let thing = act.thing()?;
        let name = self.name(thing);
        match (verb, thing.kind) {
            (Verb::Begin, ListKind::Waits) => {
                let wait: &Wait = &self.scope().thing(|l| &l.waits, thing)?.what;
                timer(name, sure(&wait.time, self.known)?, false)
            }
            (Verb::Cool, ListKind::Heats) => {
                let heat: &Heat = &self.scope().thing(|l| &l.heats, thing)?.what;
                timer(name, sure(&heat.cool, self.known)?, false)
            }
            (Verb::Test, ListKind::Tests) => {
                let test: &Test = &self.scope().thing(|l| &l.tests, thing)?.what;
                let Expect::Quantities(quantities) = sure(&test.expect, self.known)? else { return None };
                timer(name, quantities.iter().find(|(_, quantity)| quantity.dimension() == Dimension::Time).map(|(_, quantity)| quantity)?, false)
            }
            _ => None,
        }
    }
}

/// A value that holds in any event. Where a variant that is not known decides, nothing is judged or reckoned: a value of the
/// other variant would be worse than none.
fn sure<'v, T>(varied: &'v Varied<T>, known: &'v Combination) -> Option<&'v T> {
    cases(varied, known).next().filter(|(label, _)| label.is_none()).map(|(_, value)| value)
}

fn bench_align(align: &Align, known: &Combination) -> BenchAlign {
    let nominal = |varied| sure(varied, known).and_then(Quantity::nominal);
    BenchAlign { arc: nominal(&align.arc), diameter: nominal(&align.diameter), degrees: nominal(&align.offset) }
}
