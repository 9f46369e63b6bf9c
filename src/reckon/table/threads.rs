//! Threads and what their bolts bear: sizes, limits, strength, hexagons.

use super::{Calculation, Figure, Force, Length, Pressure, Refusal, Torque, Worked, class, of, possible, thread};
use crate::reckon::given::Given;
use crate::trade::hexagon;
use crate::trade::prevailing::{self, greatest_running_nm};
use crate::trade::property::PropertyClass;
use crate::trade::thread_limits::DiameterLimits;

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "thread",
        about: "a thread's diameters, stress area, tap drill and limits of size",
        inputs: &[thread().bare()],
        formula: &["H = √3/2·P   d2 = d − 3/4·H   D1 = d − 5/4·H   d3 = D1 − H/6", "As = π/4·((d2 + d3)/2)²   inch: As = π/4·(d − 0.9743/n)²", "pipe: d2 = d − 0.640327·P   D1 = d − 1.280654·P"],
        letters: &[
            ("d", "nominal diameter"), ("P", "pitch"), ("H", "height of the triangle"), ("d2", "pitch diameter"),
            ("D1", "minor diameter of the nut"), ("d3", "root diameter of the bolt"), ("As", "stress area"), ("n", "threads per inch"),
        ],
        source: "ISO 68-1, ISO 724, ISO 898-1:2013, 9.1.6.1; ASME B1.1; limits ISO 965-1 6g/6H and ASME B1.1 2A/2B; pipe threads ISO 228-1, ISO 7-1 and ASME B1.20.1, from memory; tap drill ISO 2306 (metric, from memory), else d − P, common practice",
        caution: "Limits hold before coating. The size of a pipe thread is no length of it: G 1/4 measures 13.2 mm over its crests.",
        example: &["M10x1.25"],
        turns: None,
        work: sizes,
    },
    Calculation {
        name: "class",
        about: "what a bolt of a property class bears: proof load, breaking load",
        inputs: &[thread(), class()],
        formula: &["Fp = As·Sp   Fm = As·Rm"],
        letters: &[("Fp", "proof load"), ("Fm", "least breaking load"), ("As", "stress area"), ("Sp", "proof stress"), ("Rm", "tensile strength")],
        source: "ISO 898-1:2013 Table 3 (bolts), ISO 898-2:2012 (nuts, from memory), ISO 3506-1 (stainless, from memory), SAE J429 (inch)",
        caution: "A bolt of unknown history bears less. A nut's class stands for the bolt it is made for.",
        example: &["--thread", "M10x1.5", "--class", "8.8"],
        turns: None,
        work: strength,
    },
    Calculation {
        name: "hexagon",
        about: "which spanner and key a thread's head and nut take",
        inputs: &[
            thread(),
            of("size", "s", "a spanner or key at hand", &[Length], "17 mm").may(),
        ],
        formula: &["by table"],
        letters: &[("s", "across the flats")],
        source: "ISO 4014/4017/4032 and DIN 931/934 (across flats, nut height), ISO 4762 (socket, from memory), ISO 273 (clearance hole)",
        caution: "Flanged, low, button and set screws have other sizes.",
        example: &["--thread", "M10x1.5", "--size", "17 mm"],
        turns: None,
        work: hexagons,
    },
    Calculation {
        name: "running",
        about: "the most torque a new self-locking nut may take to run down",
        inputs: &[thread()],
        formula: &["by table"],
        letters: &[],
        source: "ISO 2320, class 8, first time on (from memory); inch: MSFC-STD-486B Table XI, which agrees with MIL-DTL-45916 Table I (7/16 and 1 in from memory)",
        caution: "A nut at hand takes less: measure it, and add what you measure to the torque where the source says so.",
        example: &["--thread", "3/8-24 UNF"],
        turns: None,
        work: running,
    },
];

fn sizes(given: &Given) -> Worked {
    let thread = given.any_thread("thread")?;
    let form = thread.form();
    let length = |name, letter, what: &str, value| Figure::quantity(name, letter, what, value, Length).shown_to_place(-3);
    let mut figures = vec![
        length("diameter", "d", "nominal diameter", form.major_mm),
        length("pitch", "P", "pitch", form.pitch_mm),
        length("pitch-diameter", "d2", "pitch diameter", form.pitch_diameter_mm),
        length("minor-diameter", "D1", "minor diameter of the nut", form.internal_minor_mm),
    ];
    if let Some(pipe) = thread.pipe() {
        let seals = if pipe.seals_on_thread() { "on its thread, with a sealant" } else { "on a washer, ring or face, not on its thread" };
        figures.push(Figure::words("seals", "seals", seals));
        return Ok(figures);
    }
    figures.extend([
        length("root-diameter", "d3", "root diameter of the bolt", form.root_mm),
        Figure::plain("stress-area", "As", "stress area", form.stress_area_mm2, "mm²"),
        Figure::quantity("tap-drill", "", "tap drill", thread.tap_drill_mm(), Length).shown_to_place(-2),
    ]);
    let limits = |name, what: &str, at: DiameterLimits| Figure::span(name, "", what, (at.low_mm, at.high_mm), Length).shown_to_place(-3);
    if let Some(bolt) = thread.external_limits() {
        figures.push(limits("bolt-major", "bolt, over the crests", bolt.major));
        figures.push(limits("bolt-pitch", "bolt, pitch diameter", bolt.pitch_diameter));
    }
    if let Some(nut) = thread.internal_limits() {
        figures.push(limits("nut-minor", "nut, minor diameter", nut.minor));
        figures.push(limits("nut-pitch", "nut, pitch diameter", nut.pitch_diameter));
    }
    Ok(figures)
}

fn strength(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let class = given.class("class").unwrap_or_else(|| PropertyClass::assumed(thread));
    let refused = |error: crate::trade::property::ClassError| Refusal::Impossible(error.message());
    let strength = class.strength(thread).map_err(refused)?;
    let stress = |name, letter, what: &str, mpa: f64| Figure::quantity(name, letter, what, mpa * 1000.0, Pressure).in_unit("MPa").with_digits(4);
    let mut figures = vec![
        stress("tensile", "Rm", "least tensile strength", strength.tensile_mpa),
        stress("yield", "", "least yield stress", strength.yield_mpa),
        stress("proof-stress", "Sp", "proof stress", strength.proof_mpa),
        Figure::plain("stress-area", "As", "stress area", thread.form().stress_area_mm2, "mm²"),
        Figure::quantity("proof-load", "Fp", "proof load", class.proof_load_n(thread).map_err(refused)?, Force),
        Figure::quantity("breaking-load", "Fm", "least breaking load", class.tensile_load_n(thread).map_err(refused)?, Force),
    ];
    figures.extend(class.nut_proof_mpa(thread).map(|mpa| stress("nut-proof", "", "proof stress of the nut itself", mpa)));
    Ok(figures)
}

fn hexagons(given: &Given) -> Worked {
    let diameter = given.thread("thread")?.diameter_mm();
    let row = possible(hexagon::sizes(diameter), &format!("the table holds {}", listed(&hexagon::diameters())))?;
    let length = |name, letter, what: &str, value| Figure::quantity(name, letter, what, value, Length).shown_to_place(-1);
    let mut figures = vec![length("across-flats", "s", "across flats of head and nut", row.across_flats_mm)];
    figures.extend(row.older_across_flats_mm.map(|older| length("older-across-flats", "s", "across flats, older standard", older)));
    figures.extend([
        length("socket-key", "s", "key of a socket cap screw", row.socket_key_mm),
        length("nut-height", "m", "height of a regular nut", row.nut_height_mm),
        length("face", "dw", "bearing face", row.seat.outside_mm).shown_to_place(-2),
        length("hole", "dh", "clearance hole, medium", row.seat.hole_mm),
    ]);
    if let Some(size) = given.maybe("size") {
        let words = match (hexagon::occurs(diameter, size, true), hexagon::occurs(diameter, size, false), hexagon::occurs_on_any_head(diameter, size)) {
            (Some(true), ..) => "yes, on plain heads and nuts",
            (_, Some(true), _) => "yes, as the key of a socket cap screw",
            (.., Some(true)) => "only on other heads (flanged, low, button, set screws): look again",
            _ => "on no head in common use: measure thread or hexagon again",
        };
        figures.push(Figure::words("occurs", "whether this size occurs with the thread", words));
    }
    Ok(figures)
}

fn running(given: &Given) -> Worked {
    let (metric, inch) = prevailing::sizes();
    let why = format!("the tables do not hold this thread; they hold {}, and {} in", listed(&metric), listed(&inch));
    let torque = possible(greatest_running_nm(given.thread("thread")?), &why)?;
    Ok(vec![Figure::quantity("running", "", "most torque to run down", torque, Torque)])
}

fn listed(names: &[String]) -> String {
    match names {
        [most @ .., before, last] => most.iter().chain([before]).map(String::as_str).collect::<Vec<_>>().join(", ") + " and " + last,
        [only] => only.clone(),
        [] => String::new(),
    }
}
