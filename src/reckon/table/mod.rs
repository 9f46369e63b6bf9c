//! The calculations, one file a subject.

mod bolts;
mod clearances;
mod convert;
mod fits;
mod fluids;
mod friction;
mod holes;
mod lockers;
mod marks;
mod order;
mod seals;
mod shims;
mod threads;
mod wrenches;

use super::calculation::{Calculation, Input, Kind, Take};
use super::figure::{Figure, Round};
use super::given::possible;
use super::refusal::Refusal;
use crate::quantity::Dimension::{self, Angle, Force, Length, Pressure, Temperature, TemperatureRise, Time, Torque, Volume};
use Kind::{Class, Count, Number, Quantity, Ratio, Size, Text, Word};

/// All of them, by subject.
pub(super) static ALL: &[&[Calculation]] = &[
    convert::TABLE,
    threads::TABLE,
    bolts::TABLE,
    friction::TABLE,
    wrenches::TABLE,
    order::TABLE,
    holes::TABLE,
    fits::TABLE,
    clearances::TABLE,
    shims::TABLE,
    marks::TABLE,
    fluids::TABLE,
    lockers::TABLE,
    seals::TABLE,
];

/// What a table's function gives back.
type Worked = Result<Vec<Figure>, Refusal>;

/// An input of one kind of quantity.
const fn of(name: &'static str, letter: &'static str, what: &'static str, kind: &'static [Dimension], example: &'static str) -> Input {
    Input::must(name, letter, what, Quantity(kind), example)
}

const fn thread() -> Input {
    Input::must("thread", "d × P", "the thread: ISO metric with its pitch, or Unified", Kind::Thread, "M8x1.25")
}

const fn class() -> Input {
    Input::must("class", "", "the property class or grade on the head", Class, "8.8")
}

fn conditions() -> Vec<&'static str> {
    crate::trade::friction::ThreadCondition::WORDS.iter().map(|(word, _)| *word).collect()
}

fn roles() -> Vec<&'static str> {
    crate::trade::screening::Role::WORDS.iter().map(|(word, _)| *word).collect()
}

fn hole_materials() -> Vec<&'static str> {
    crate::trade::engagement::InternalMaterial::WORDS.iter().map(|(word, _)| *word).collect()
}

fn metals() -> Vec<&'static str> {
    crate::trade::fit::Metal::WORDS.iter().map(|(word, _)| *word).collect()
}

const SMALL: f64 = 1e-3;
const LARGE: f64 = 1e6;
