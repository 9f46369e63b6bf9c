//! A small manual built by hand, with one thing of every kind that pages show.
#![allow(dead_code, unreachable_pub, reason = "each test file uses the parts it needs")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::wildcard_imports, reason = "what fails here fails its test")]

mod text;

use benchleaf::figure::{Picture, Rendition};
use benchleaf::finding::{FileId, FileTable, Finding, Place};
use benchleaf::manual::*;
use benchleaf::page::{Input, PageError, PageFile};
use benchleaf::quantity::{Dimension, MomentSpan, Quantity, Size, Unit};
use benchleaf::trade::thread::Thread;
use indexmap::IndexMap;
use std::collections::BTreeMap;

pub struct Sample {
    pub manual: Manual,
    pub files: FileTable,
    pub pictures: BTreeMap<String, Picture>,
    pub findings: Vec<Finding>,
    pub theme: BTreeMap<String, Vec<u8>>,
    pub proof_copy: bool,
    pub threads: usize,
}

impl Sample {
    pub fn publish(&self) -> Result<Vec<PageFile>, PageError> {
        benchleaf::page::publish(&Input {
            manual: &self.manual,
            files: &self.files,
            pictures: &self.pictures,
            findings: &self.findings,
            waived: &[],
            proof_copy: self.proof_copy,
            theme: &self.theme,
            threads: self.threads,
        })
    }

    /// The text of one file of the site.
    pub fn page(&self, path: &str) -> String {
        let files = self.publish().unwrap();
        let file = files.iter().find(|file| file.path == path).unwrap_or_else(|| panic!("no page {path}"));
        String::from_utf8(file.bytes.clone()).unwrap()
    }
}

/// The words of a piece of HTML as a reader meets them: spaces made even, a space between cells and blocks.
pub fn words(html: &str) -> String {
    const BLOCKS: &[&str] = &["td", "th", "dt", "dd", "li", "p", "div", "h1", "h2", "h3", "section", "caption"];
    let mut text = String::new();
    let mut rest = html;
    while let Some(open) = rest.find('<') {
        text.push_str(&rest[..open]);
        let end = rest[open..].find('>').map_or(rest.len(), |i| open + i + 1);
        let name = rest[open + 1..end].trim_start_matches('/').split([' ', '>']).next().unwrap_or("");
        if BLOCKS.contains(&name) || rest[open..end].contains("\"entry\"") || rest[open..end].contains("item-detail") {
            text.push(' ');
        }
        rest = &rest[end..];
    }
    text.push_str(rest);
    text.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Everything that the builders below need to know of places.
pub struct Here {
    pub file: FileId,
}

impl Here {
    pub fn place(&self) -> Place {
        Place::new(self.file, 0..0)
    }

    pub fn spot(&self, text: &str) -> Spot<String> {
        Spot { value: text.to_owned(), place: self.place() }
    }

    pub fn one<T>(&self, value: T) -> Varied<T> {
        Varied { cases: vec![Case { when: Combination::default(), value, place: self.place() }] }
    }

    pub fn text(&self, value: &str) -> Varied<String> {
        self.one(value.to_owned())
    }

    pub fn by<T>(&self, axis: &str, values: Vec<(&str, T)>) -> Varied<T> {
        let cases = values
            .into_iter()
            .map(|(name, value)| Case { when: when(&[(axis, name)]), value, place: self.place() })
            .collect();
        Varied { cases }
    }

    pub fn quantity(&self, text: &str) -> Varied<Quantity> {
        self.one(quantity(text))
    }

    pub fn entry<T>(&self, id: &str, name: &str, source: &str, what: T) -> (String, Entry<T>) {
        let entry = Entry {
            id: id.to_owned(),
            id_place: self.place(),
            name: name.to_owned(),
            source: if source.is_empty() { Varied::default() } else { self.text(source) },
            only: Combination::default(),
            note: None,
            limit: Varied::default(),
            what,
        };
        (id.to_owned(), entry)
    }
}

pub fn when(pairs: &[(&str, &str)]) -> Combination {
    Combination(pairs.iter().map(|(a, v)| ((*a).to_owned(), (*v).to_owned())).collect())
}

/// A quantity of whichever dimension its unit tells.
pub fn quantity(text: &str) -> Quantity {
    let dimension = if text.contains("N·m") || text.contains("lbf·ft") {
        Dimension::Torque
    } else if text.ends_with("mm") {
        Dimension::Length
    } else if text.ends_with("°C") {
        Dimension::Temperature
    } else if text.ends_with('°') {
        Dimension::Angle
    } else if text.ends_with("mL") {
        Dimension::Volume
    } else if text.ends_with("kg") {
        Dimension::Mass
    } else if text.ends_with("turn") {
        Dimension::Angle
    } else {
        Dimension::Time
    };
    Quantity::parse(text, dimension).unwrap_or_else(|_| panic!("{text}"))
}

fn stages(texts: &[&str]) -> Torque {
    Torque::Stages(texts.iter().map(|t| quantity(t)).collect())
}

fn thread(text: &str) -> Thread {
    Thread::parse(text).unwrap()
}

/// The sample: an outboard's gearcase in two procedures and a winch's brake in one.
pub fn sample() -> Sample {
    let mut files = FileTable::default();
    let manual_file = files.add("manual.yaml", "title: Sample\n");
    let machine_file = files.add("tarn-18/machine.yaml", "name: Tarn 18\n");
    let here = Here { file: machine_file };
    let shop = shop(&here);
    let mut machine = Machine {
        builds: Vec::new(),
        id: "tarn-18".to_owned(),
        file: machine_file,
        name: "Tarn 18".to_owned(),
        maker: Some("Orrinshaw (invented)".to_owned()),
        kind: Some("outboard motor".to_owned()),
        mass: Some(quantity("34 kg")),
        history: History { revision: Some(8), date: Some(Date { year: 2026, month: 10, day: 12 }), changes: Vec::new() },
        axes: axes(&here),
        not_made: vec![when(&[("shaft", "L"), ("serial", "early")])],
        recordings: IndexMap::new(),
        lists: machine_lists(&here),
        procedures: Vec::new(),
        doubtful: std::collections::BTreeSet::new(),
    };
    for make in [carrier, pinion, close] {
        let procedure = make(&mut files, &shop, &machine);
        machine.procedures.push(procedure);
    }
    let manual = Manual {
        beside: Vec::new(),
        title: "Sallow Reach workshop manual".to_owned(),
        publisher: "Sallow Reach Ferry & Slipway Society (invented)".to_owned(),
        language: "en-GB".to_owned(),
        notice: Some("Machines, makers, people and values in this manual are invented for demonstration.".to_owned()),
        units: ["N·m", "lbf·ft", "mm", "in", "mL", "fl oz (US)"].iter().filter_map(|s| Unit::find(s)).collect(),
        paper: Paper::A4,
        address: None,
        theme: None,
        profile: Profile::Published,
        waivers: Vec::new(),
        file: manual_file,
        shop,
        shop_history: History { revision: Some(3), date: None, changes: Vec::new() },
        machines: vec![machine],
    };
    let bytes = PICTURE.as_bytes().to_vec();
    let length = bytes.len();
    let picture = Picture::Drawing(Rendition { path: "tarn-18/pictures/carrier.svg".to_owned(), width: 640, height: 240, bytes: Some(bytes), length });
    Sample {
        manual,
        files,
        pictures: BTreeMap::from([("tarn-18/pictures/carrier.svg".to_owned(), picture)]),
        findings: Vec::new(),
        theme: BTreeMap::new(),
        proof_copy: false,
        threads: 1,
    }
}

const PICTURE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 240"><rect width="640" height="240" fill="#fff"/><path d="M20 60h600v120H20z M120 60v120 M200 60v120 M420 60v120 M500 60v120" fill="none" stroke="#000" stroke-width="2"/><circle cx="160" cy="30" r="14" fill="#fff" stroke="#000"/><text x="160" y="35" text-anchor="middle" font-size="14">1</text><circle cx="460" cy="30" r="14" fill="#fff" stroke="#000"/><text x="460" y="35" text-anchor="middle" font-size="14">2</text></svg>"##;

fn axes(here: &Here) -> Vec<Axis> {
    let axis = |name: &str, values: &[(&str, &str)]| Axis {
        name: name.to_owned(),
        values: values
            .iter()
            .map(|(name, meaning)| AxisValue { name: (*name).to_owned(), meaning: (*meaning).to_owned(), quantity: None, place: here.place() })
            .collect(),
        place: here.place(),
    };
    vec![
        axis("shaft", &[("S", "381 mm"), ("L", "508 mm")]),
        axis("water", &[("fresh", "fresh water"), ("salt", "salt water")]),
        axis("serial", &[("early", "≤ 4199"), ("late", "≥ 4200")]),
    ]
}

fn shop(here: &Here) -> Lists {
    let tool = |id: &str, name: &str, kind: &str| here.entry(id, name, "", Tool { kind: Some(kind.to_owned()), ..Tool::default() });
    let wrench = |id: &str, name: &str, range: &str, scale: &str| {
        here.entry(id, name, "", Tool {
            kind: Some("torque-wrench".to_owned()),
            range: Some(quantity(range)),
            scale: Some(scale.to_owned()),
            ..Tool::default()
        })
    };
    let shield = Tool { kind: Some("protection".to_owned()), against: vec!["spring".to_owned(), "chips".to_owned()], ..Tool::default() };
    let locker = Material {
        kind: Some("thread-locker".to_owned()),
        strength: Some(here.spot("medium")),
        threads: Some("M6–M20".to_owned()),
        working: Some(quantity("10 min")),
        fixture: Some(quantity("20 min")),
        cure: Some(quantity("24 h")),
        ..Material::default()
    };
    let material = |id: &str, name: &str, kind: &str| here.entry(id, name, "", Material { kind: Some(kind.to_owned()), ..Material::default() });
    let source = |id: &str, title: &str, kind: &str, page: Option<&str>| {
        here.entry(id, title, "", Source {
            title: title.to_owned(),
            kind: Some(kind.to_owned()),
            page: page.map(str::to_owned),
            date: Some(Date { year: 2026, month: 4, day: 11 }),
            by: Some(here.spot("editor")),
            read_by: Some(here.spot("second-reader")),
            ..Source::default()
        })
    };
    Lists {
        tools: IndexMap::from_iter([
            wrench("click-wrench", "Click torque wrench 5–25 N·m", "5–25 N·m", "N·m"),
            wrench("foot-wrench", "Torque wrench 15–80 lbf·ft", "15–80 lbf·ft", "lbf·ft"),
            tool("shaft-holder", "Splined shaft holder", "holding-tool"),
            tool("depth-gauge", "Depth gauge", "gauge"),
            tool("dial-indicator", "Dial indicator with a 90 mm arm", "gauge"),
            tool("contact-probe", "Contact probe", "thermometer"),
            tool("spline-sleeve", "Thin sleeve over the splines", "sleeve"),
            here.entry("eye-shield", "Eye shield", "", shield),
        ]),
        materials: IndexMap::from_iter([
            here.entry("medium-locker", "Medium-strength thread locker", "practice", locker),
            material("grease", "Waterproof grease", "grease"),
            here.entry("gear-oil", "Gear oil", "", Material { kind: Some("oil".to_owned()), grade: Some("80W-90".to_owned()), ..Material::default() }),
        ]),
        sources: IndexMap::from_iter([
            source("book", "Tarn 18 service sheets (invented)", "maker", Some("41")),
            source("bulletin", "Bulletin 2 (invented)", "maker", None),
            source("sheet-12", "Club measurement sheet 12", "measured", Some("2")),
            source("practice", "Common practice at the bench", "practice", None),
        ]),
        people: IndexMap::from_iter([
            here.entry("editor", "Workshop editor", "", Person),
            here.entry("second-reader", "Second reader", "", Person),
        ]),
        ..Lists::default()
    }
}

fn machine_lists(here: &Here) -> Lists {
    let carrier = Part { kind: here.text("housing"), count: here.one(1), reuse: here.text("inspect"), when: here.text("bore unmarked"), ..Part::default() };
    Lists {
        parts: IndexMap::from_iter([here.entry("carrier", "Propeller-shaft carrier", "book", carrier)]),
        fills: IndexMap::from_iter([here.entry("gear-oil", "Gear oil", "book", Fill { of: here.text("gear-oil"), amount: here.quantity("260 mL"), ratio: Varied::default(), oil: Varied::default() })]),
        ..Lists::default()
    }
}

fn carrier(files: &mut FileTable, shop: &Lists, machine: &Machine) -> Procedure {
    let here = Here { file: machine.file };
    let faces = |toward: &str| here.one(Faces::Toward(vec![("spring".to_owned(), here.spot(toward)), ("back".to_owned(), here.spot("grease"))]));
    let seal = |toward: &str, depth: &str| Seal {
        kind: here.text("rotary-lip"),
        size: here.one(Size::parse("30x42x7 mm").unwrap()),
        material: here.text("NBR"),
        count: here.one(1),
        reuse: here.text("never"),
        faces: faces(toward),
        depth: here.quantity(depth),
        lip: here.text("grease"),
        over: here.text("splines"),
        sleeve: here.text("spline-sleeve"),
        ..Seal::default()
    };
    let lists = Lists {
        seals: IndexMap::from_iter([
            here.entry("inner-seal", "Inner seal", "sheet-12", seal("gear-oil", "10 mm")),
            here.entry("outer-seal", "Outer seal", "sheet-12", seal("water", "0 mm")),
        ]),
        heats: IndexMap::from_iter([here.entry("warm-carrier", "Carrier on the plate", "sheet-12", Heat {
            of: here.text("carrier"),
            from: here.quantity("20 °C"),
            to: here.quantity("85 ± 5 °C"),
            cool: here.quantity("≥ 30 min"),
            check_with: here.text("contact-probe"),
        })]),
        leaves_open: IndexMap::from_iter([here.entry("carrier", "carrier", "", OpenItem {
            left: Some("dry-fitted".to_owned()),
            because: Some("it comes out again for the pinion's height and backlash".to_owned()),
            finish_in: Some(here.spot("close#carrier")),
            forbids: vec![here.spot("fill:gear-oil")],
            ..OpenItem::default()
        })]),
        figures: IndexMap::from_iter([here.entry("pictures/carrier.svg", "pictures/carrier.svg", "", Figure {
            by: Some("editor".to_owned()),
            licence: Some("as this manual".to_owned()),
            balloons: vec![
                Balloon { item: 1, at: (25.0, 12.0), of: Some(here.spot("inner-seal")), place: here.place() },
                Balloon { item: 2, at: (72.0, 12.0), of: Some(here.spot("outer-seal")), place: here.place() },
            ],
        })]),
        ..Lists::default()
    };
    let recording = Recording { address: Some("https://films.example/tarn-18".to_owned()), title: Some("Tarn 18 at the club bench".to_owned()), ..Recording::default() };
    let head = text::Head { id: "carrier", title: "Propeller-shaft carrier", revision: 4, after: &[], recording: Some(recording), lists };
    text::procedure(files, shop, machine, head, include_str!("carrier.txt"))
}

fn pinion(files: &mut FileTable, shop: &Lists, machine: &Machine) -> Procedure {
    let here = Here { file: machine.file };
    let nut = Fastener {
        count: here.one(1),
        thread: here.one(thread("M12x1.25")),
        class: here.text("8"),
        threads: here.text("locker"),
        locker: here.text("medium-locker"),
        torque: here.by("serial", vec![("early", stages(&["70 N·m"])), ("late", stages(&["78 N·m"]))]),
        hold_with: here.text("shaft-holder"),
        reuse: here.text("never"),
        critical: true,
        ..Fastener::default()
    };
    let trial = Fastener {
        count: here.one(1),
        thread: here.one(thread("M12x1.25")),
        torque: here.one(Torque::Hand),
        because: Some("it only holds the pinion while you measure".to_owned()),
        temporary: true,
        ..Fastener::default()
    };
    let shim = Shim {
        from: here.quantity("0.90–1.10 mm"),
        step: here.quantity("0.05 mm"),
        formula: here.text("old + reading - target"),
        old: here.quantity("0.90 mm"),
        target: here.quantity("0.64 mm"),
        accept: here.quantity("0.62–0.66 mm"),
        worked: here.one(WorkedShim { reading: Some(quantity("0.71 mm")), gives: Some(quantity("0.95 mm")) }),
        count: Varied::default(),
    };
    let depth = Measure { with: here.text("depth-gauge"), count: here.one(3), when: here.text("cold and dry"), chooses: here.text("pinion-shim"), ..Measure::default() };
    let backlash = Measure {
        spec: here.quantity("0.12–0.22 mm"),
        limit: here.quantity("max 0.25 mm"),
        with: here.text("dial-indicator"),
        count: here.one(4),
        at: here.one(BacklashAt { gear_radius: Some(quantity("70 mm")), dial_radius: Some(quantity("90 mm")) }),
        otherwise: here.text("change the shim and read the gap again"),
        ..Measure::default()
    };
    let mut nut = here.entry("pinion-nut", "Pinion nut", "", nut);
    nut.1.source = here.by("serial", vec![("early", "book".to_owned()), ("late", "bulletin".to_owned())]);
    let lists = Lists {
        fasteners: IndexMap::from_iter([nut, here.entry("trial-nut", "Old pinion nut", "practice", trial)]),
        shims: IndexMap::from_iter([here.entry("pinion-shim", "Pinion shim", "sheet-12", shim)]),
        measures: IndexMap::from_iter([
            here.entry("pinion-depth", "Gap from gauge bar to pinion", "sheet-12", depth),
            here.entry("backlash", "Backlash at the gear", "sheet-12", backlash),
        ]),
        waits: IndexMap::from_iter([here.entry("locker-cure", "Locker cures at the pinion nut", "practice", Wait {
            time: here.quantity("≥ 24 h"),
            of: vec![here.spot("pinion-nut")],
            needs: here.text("torque:pinion-nut"),
            ..Wait::default()
        })]),
        ..Lists::default()
    };
    let head = text::Head { id: "pinion", title: "Pinion height and backlash", revision: 4, after: &["carrier"], recording: None, lists };
    let mut procedure = text::procedure(files, shop, machine, head, include_str!("pinion.txt"));
    procedure.history.changes.push(Change {
        revision: Some(4),
        revision_place: None,
        of: here.spot("pinion-nut.torque"),
        was: here.by("serial", vec![("late", "70 N·m".to_owned())]),
        because: Some("nuts of late machines backed off".to_owned()),
        source: Some(here.spot("bulletin")),
    });
    procedure
}

fn close(files: &mut FileTable, shop: &Lists, machine: &Machine) -> Procedure {
    let here = Here { file: machine.file };
    let cover = Fastener {
        count: here.one(6),
        thread: here.one(thread("M8x1.25")),
        length: here.by("shaft", vec![("S", quantity("40 mm")), ("L", quantity("165 mm"))]),
        class: here.text("8.8"),
        threads: here.text("dry"),
        torque: here.one(stages(&["10 N·m", "20 N·m", "90°"])),
        order: here.one(vec![1, 4, 2, 5, 3, 6]),
        reuse: here.text("inspect"),
        when: here.text("thread clean and head unmarked"),
        ..Fastener::default()
    };
    let spacer = Part { kind: here.text("spacer"), count: here.one(1), thickness: here.quantity("127 mm"), number: here.text("0714"), ..Part::default() };
    let mut spacer = here.entry("mid-spacer", "Spacer of the long shaft", "book", spacer);
    spacer.1.only = when(&[("shaft", "L")]);
    let lists = Lists {
        fasteners: IndexMap::from_iter([here.entry("cover-bolt", "Cover bolt", "book", cover)]),
        parts: IndexMap::from_iter([
            spacer,
            here.entry("o-ring", "O-ring of the carrier", "book", Part { kind: here.text("o-ring"), count: here.one(1), reuse: here.text("never"), ..Part::default() }),
        ]),
        tests: IndexMap::from_iter([here.entry("shift", "Shift rod through every gear", "book", Test {
            expect: here.one(Expect::Quantities(vec![("hold".to_owned(), quantity("5 min"))])),
            otherwise: here.text("set the rod and try again"),
            ..Test::default()
        })]),
        ..Lists::default()
    };
    let head = text::Head { id: "close", title: "Close the gearcase", revision: 2, after: &["pinion"], recording: None, lists };
    text::procedure(files, shop, machine, head, include_str!("close.txt"))
}

/// The span of a moment in the recording, at the place where it stands in a file.
pub fn moment(text: &str, place: Place) -> Option<Spot<MomentSpan>> {
    MomentSpan::parse_or_moment(text).ok().map(|value| Spot { value, place })
}
