//! Torque and preload with the friction of thread and seat: the long form, the handbook's, the power screw's, and yield.

use super::{Calculation, Figure, Force, Input, Length, Number, Refusal, Take, Torque, Worked, class, of, possible, thread};
use crate::reckon::given::Given;
use crate::trade::hexagon;
use crate::trade::preload::{self, JointFriction, Seat};
use crate::trade::property::PropertyClass;

const fn thread_friction() -> Input {
    Input::must("thread-friction", "μG", "friction in the thread", Number, "0.14").assume("0.14")
}

const fn seat_friction() -> Input {
    Input::must("seat-friction", "μK", "friction under head or nut", Number, "0.14").assume("0.14")
}

const fn face() -> Input {
    of("face", "dw", "outside diameter of the bearing face; otherwise that of a plain hexagon", &[Length], "14.63 mm").may()
}

const fn hole() -> Input {
    of("hole", "dh", "clearance hole; otherwise a medium one", &[Length], "11 mm").may()
}

const fn force() -> Input {
    of("preload", "F", "the preload", &[Force], "28.8 kN").take(Take::Limits)
}

pub(super) static TABLE: &[Calculation] = &[
    Calculation {
        name: "friction-torque",
        about: "torque for a preload from the friction of thread and seat; turned round, the preload",
        inputs: &[
            force().sought(1e-3, 1e9),
            thread(),
            thread_friction(),
            seat_friction(),
            face(),
            hole(),
            of("torque", "T", "the torque, where the preload is left out", &[Torque], "54 N·m").result().take(Take::Limits),
        ],
        formula: &["T = F·(P/2π + d2·μG/(2·cos 30°) + Dkm/2·μK)   Dkm = (dw + dh)/2"],
        letters: &[("P", "pitch"), ("d2", "pitch diameter"), ("Dkm", "mean diameter of the bearing face")],
        source: "VDI 2230-1 (Kellermann and Klein); MIL-HDBK-60 (1990), App. B, 100.5; bearing faces ISO 4014 (from memory), holes ISO 273",
        caution: "Coefficients of friction are known to a fifth at best.",
        example: &["--preload", "28.82 kN", "--thread", "M10x1.5"],
        turns: Some("torque"),
        work: long,
    },
    Calculation {
        name: "handbook-torque",
        about: "torque for a preload, equal friction and a standard head; turned round, the preload",
        inputs: &[
            force().sought(1e-3, 1e9),
            thread(),
            Input::must("friction", "μ", "friction of thread and seat alike", Number, "0.12").sought(1e-4, 2.0),
            of("torque", "T", "the torque, where another value is left out", &[Torque], "79.6 lbf·ft").result().take(Take::Limits),
        ],
        formula: &["T = F·(0.159·P + 1.156·μ·d)"],
        letters: &[("P", "pitch"), ("d", "nominal diameter")],
        source: "MIL-HDBK-60 (1990), App. B, 100.5",
        caution: "It holds for standard hexagon heads only.",
        example: &["--preload", "11707 lbf", "--thread", "1/2-13 UNC", "--friction", "0.12"],
        turns: Some("torque"),
        work: handbook,
    },
    Calculation {
        name: "power-screw",
        about: "nut factor and torque by the power-screw form",
        inputs: &[force().sought(1e-3, 1e9), thread(), thread_friction(), seat_friction(), of("torque", "T", "the torque, where the preload is left out", &[Torque], "3551 lbf·in").result()],
        formula: &["K = d2/(2·d)·(tan λ + μG·sec 30°)/(1 − μG·tan λ·sec 30°) + 0.625·μK   T = K·d·F"],
        letters: &[("K", "nut factor"), ("λ", "lead angle: tan λ = P/(π·d2)"), ("d", "nominal diameter"), ("d2", "pitch diameter"), ("P", "pitch")],
        source: "Shigley's Mechanical Engineering Design, 9th ed., eq. 8-26",
        caution: "It takes the bearing face as 1.5 diameters wide: a regular hexagon.",
        example: &["--preload", "25000 lbf", "--thread", "3/4-16 UNF", "--thread-friction", "0.15", "--seat-friction", "0.15"],
        turns: Some("torque"),
        work: power_screw,
    },
    Calculation {
        name: "yield-torque",
        about: "preload and torque at a share of the bolt's yield, with the torsion of tightening",
        inputs: &[
            thread(),
            class(),
            thread_friction(),
            seat_friction(),
            face(),
            hole(),
            Input::must("share", "ν", "share of the yield stress", Number, "90 %").assume("90 %"),
        ],
        formula: &["F = As·ν·Rp/√(1 + 3·(1.5·d2/d0·(P/(π·d2) + 1.155·μG))²)   T by the long form", "d0 = (d2 + d3)/2"],
        letters: &[("F", "preload"), ("As", "stress area"), ("Rp", "yield stress"), ("d2", "pitch diameter"), ("d3", "root diameter"), ("P", "pitch"), ("T", "torque")],
        source: "VDI 2230-1 (tables as reprinted)",
        caution: "This is the most a new bolt takes, not what a joint should get.",
        example: &["--thread", "M12x1.25", "--class", "8.8", "--thread-friction", "0.12", "--seat-friction", "0.12"],
        turns: None,
        work: at_yield,
    },
];

fn friction(given: &Given) -> Result<JointFriction, Refusal> {
    Ok(JointFriction { thread: given.number("thread-friction")?, seat: given.number("seat-friction")? })
}

fn seat(given: &Given) -> Result<Seat, Refusal> {
    let usual = hexagon::sizes(given.thread("thread")?.diameter_mm()).map(|row| row.seat);
    let outside_mm = given.maybe("face").or_else(|| usual.map(|seat| seat.outside_mm));
    let hole_mm = given.maybe("hole").or_else(|| usual.map(|seat| seat.hole_mm));
    let why = "the head of this thread is not in the table: give --face and --hole";
    Ok(Seat { outside_mm: possible(outside_mm, why)?, hole_mm: possible(hole_mm, why)? })
}

const RING: &str = "the bearing face has to be wider than the hole, and preload and friction above nothing";

fn long(given: &Given) -> Worked {
    let (form, seat, friction) = (given.thread("thread")?.form(), seat(given)?, friction(given)?);
    let torque = preload::long_torque_nm(&form, seat, friction, given.number("preload")?);
    let factor = preload::long_nut_factor(&form, seat, friction);
    Ok(vec![
        Figure::quantity("torque", "T", "torque", possible(torque, RING)?, Torque),
        Figure::plain("nut-factor", "K", "nut factor this amounts to", possible(factor, RING)?, ""),
    ])
}

fn handbook(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let (force, diameter) = (given.number("preload")?, thread.diameter_mm());
    let torque = preload::handbook_torque_nm(force, diameter, thread.pitch_mm(), given.number("friction")?);
    let torque = possible(torque, "preload and friction are above nothing")?;
    let mut figures = vec![Figure::quantity("torque", "T", "torque", torque, Torque)];
    figures.extend(preload::nut_factor(torque, diameter, force).map(|k| Figure::plain("nut-factor", "K", "nut factor this amounts to", k, "")));
    Ok(figures)
}

fn power_screw(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let factor = possible(preload::power_screw_nut_factor(&thread.form(), friction(given)?), "the friction leaves no lead")?;
    let torque = possible(preload::torque_nm(given.number("preload")?, thread.diameter_mm(), factor), "a preload above nothing is wanted")?;
    Ok(vec![Figure::quantity("torque", "T", "torque", torque, Torque), Figure::plain("nut-factor", "K", "nut factor", factor, "")])
}

fn at_yield(given: &Given) -> Worked {
    let thread = given.thread("thread")?;
    let class = given.class("class").unwrap_or_else(|| PropertyClass::assumed(thread));
    let strength = class.strength(thread).map_err(|error| Refusal::Impossible(error.message()))?;
    let (form, friction) = (thread.form(), friction(given)?);
    let force = preload::preload_at_yield_n(&form, strength.yield_mpa, given.number("share")?, friction.thread);
    let force = possible(force, "a share of the yield stress is above nothing")?;
    let torque = possible(preload::long_torque_nm(&form, seat(given)?, friction, force), RING)?;
    Ok(vec![Figure::quantity("preload", "F", "preload", force, Force), Figure::quantity("torque", "T", "torque", torque, Torque)])
}
