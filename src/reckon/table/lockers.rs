//! Thread lockers: how long, how hot, how much.

use super::{Calculation, Figure, Input, Temperature, Text, Time, Word, Worked, class, of, possible, thread};
use crate::reckon::given::Given;
use crate::trade::locker::{self, ColdCure, LockerStrength, Surface};

fn strengths() -> Vec<&'static str> {
    LockerStrength::WORDS.iter().map(|(word, _)| *word).collect()
}

pub(super) static TABLE: &[Calculation] = &[Calculation {
    name: "locker",
    about: "cure of a thread locker on this bench, what is left of it, what it stands",
    inputs: &[
        Input::must("strength", "", "its strength", Word(strengths), "medium").bare(),
        of("bench", "t", "temperature of bench and parts", &[Temperature], "12 °C").assume("20 °C"),
        of("cure", "", "full cure as its maker states it", &[Time], "24 h").may(),
        of("working", "", "working time as its maker states it", &[Time], "10 min").may(),
        of("since-applied", "", "how long ago it was put on", &[Time], "12 min").may(),
        of("since-tightened", "", "how long ago it was tightened", &[Time], "5 h").may(),
        of("service", "", "temperature in service", &[Temperature], "130 °C").may(),
        of("heat", "", "temperature the part will be heated to", &[Temperature], "150 °C").may(),
        thread().may(),
        class().may(),
        Input::must("onto", "", "what it touches: a metal or a plastic", Text, "aluminium").may(),
    ],
    formula: &["cure and time to hold: as stated from 15 °C up, three times as long from 10 °C, with primer below"],
    letters: &[],
    source: "times and temperatures: common practice; cold: TM 5-3820-256-24-5 (72 h at 10 °C, primer below); strips: TM 10-3930-643-20",
    caution: "The locker maker's own data go before all of this. A joint that has begun to set is taken apart and done again.",
    example: &["medium", "--bench", "10 °C"],
    turns: None,
    work: locking,
}];

fn locking(given: &Given) -> Worked {
    let strength = possible(given.word("strength").and_then(LockerStrength::find), "a strength is wanted")?;
    let usual = strength.defaults();
    let minutes = |name: &str, otherwise: f64| given.maybe(name).map_or(otherwise, |seconds| seconds / 60.0);
    let (cure, working) = (minutes("cure", usual.cure_min), minutes("working", usual.working_min));
    let why = "times are above nothing";
    let time = |name, what: &str, min: f64| Figure::quantity(name, "", what, min * 60.0, Time);
    let bench = given.number("bench")?;
    let here = |min: f64| {
        possible(locker::cure_at(bench, min), why).map(|time| match time {
            ColdCure::AsStated(min) | ColdCure::Longer(min) => Some(min),
            ColdCure::NeedsPrimer => None,
        })
    };
    let mut figures = vec![time("working", "last turn no later than, after putting on", working)];
    figures.extend(here(usual.fixture_min)?.map(|min| time("fixture", "holds by itself after about", min)));
    let cure = here(cure)?;
    match cure {
        Some(min) => figures.push(time("cure", "full strength after", min)),
        None => figures.push(Figure::words("cure", "full strength", "it may never set: warm the joint, or use a primer")),
    }
    if given.has("since-applied") {
        let words = match locker::overrun_min(minutes("since-applied", 0.0), working) {
            Some(over) => format!("over by {} min: take it apart, clean it, put new locker on", up(over)),
            None => "there is time yet".to_owned(),
        };
        figures.push(Figure::words("overrun", "working time", words));
    }
    if let Some(cure) = cure.filter(|_| given.has("since-tightened")) {
        match locker::cure_left_min(minutes("since-tightened", 0.0), cure) {
            Some(left) => figures.push(time("left", "wait another", left)),
            None => figures.push(Figure::words("left", "cure", "done")),
        }
    }
    if let Some(service) = given.maybe("service") {
        let words = locker::outside_service_k(service, usual.service_low_c, usual.service_high_c);
        let words = words.map_or_else(|| "within what is usual".to_owned(), |off| format!("outside what is usual by {} K", up(off)));
        figures.push(Figure::words("service", "in service (usually −55 to 150 °C)", words));
    }
    if let (Some(heat), Some(release)) = (given.maybe("heat"), usual.release_c) {
        let words = if locker::is_released(heat, release) { "it lets go" } else { "it holds" };
        figures.push(Figure::words("release", "at this heat (lets go at about 250 °C)", words));
    }
    if let Ok(thread) = given.thread("thread") {
        let diameter = thread.diameter_mm();
        let strips = possible(locker::strips(diameter), why)?;
        figures.push(Figure::plain("strips", "", "strips along the bolt", f64::from(strips), "").with_digits(1));
        if strength.too_strong_for(diameter) {
            figures.push(Figure::words("strength", "look", "high strength below M6: the screw may break before the locker lets go"));
        }
    }
    if let Some(onto) = given.texts("onto").first() {
        let class = given.class("class").map_or("", |class| class.name());
        let words = match locker::surface(onto) {
            Surface::Crazes => "it may craze: keep locker away",
            Surface::Plastic => "no metal wakes the locker there: it stays wet",
            Surface::Inactive => INACTIVE,
            Surface::Active | Surface::Unknown if locker::is_stainless(class) => INACTIVE,
            Surface::Active => "nothing against it is known here",
            Surface::Unknown => "not in the table: ask the locker's maker, or try it on a piece",
        };
        figures.push(Figure::words("onto", onto, words));
    }
    Ok(figures)
}

const INACTIVE: &str = "sets slowly or not at all: primer is advised";

/// What is over, in whole numbers: never by nothing. A hair left by binary fractions is none.
fn up(over: f64) -> f64 {
    (over - 1e-6).ceil().max(1.0)
}
