//! Reckoning at the bench and the desk: the calculations of the trade as a table of data, and how one is worked.
//!
//! A [`Calculation`] says in words what it is for, which values it takes ([`Input`]), its formula with every letter
//! explained, where formula and figures come from, and what to be careful about; a function works it from values that
//! [`crate::quantity`] has read and [`crate::trade`] knows what to do with. Nothing is worked out in two places.
//!
//! Invariants: values are read once, with their units; a range is carried through end by end and its result rounded so
//! that it lies within the limits it came from; a result is converted from what was worked out, never from what was
//! rounded. Where a formula can be turned round, [`work()`] turns it: the result is given, one input is left out.

mod calculation;
mod figure;
mod given;
mod refusal;
mod table;
mod work;

pub use calculation::{Calculation, Input, Kind, Need, Take};
pub use figure::{Figure, Worth};
pub use given::{Given, GivenEntry};
pub use refusal::Refusal;
pub use work::{Answer, work};

/// What stands under every result.
pub const CAUTION: &str = "A reckoning tells whether a value is plausible and consistent, never that it is correct. \
    The maker's service data, local codes and a qualified person decide.";

/// All calculations, in groups of one subject.
#[must_use]
pub fn calculations() -> Vec<&'static Calculation> {
    table::ALL.iter().flat_map(|group| group.iter()).collect()
}

/// The calculation of a name.
#[must_use]
pub fn calculation(name: &str) -> Option<&'static Calculation> {
    calculations().into_iter().find(|calculation| calculation.name == name)
}
