//! What can be wrong with a quantity, as data. The words for it stand in `error`.

use super::dimension::Dimension;
use std::ops::Range;

/// A text that could not be read as a quantity: where, what, and what it may have meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    span: Range<usize>,
    fault: Box<Fault>,
}

impl QuantityError {
    pub(super) fn new(span: Range<usize>, fault: Fault) -> Self {
        Self { span, fault: Box::new(fault) }
    }

    /// The bytes of the text handed in that are at fault.
    pub fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// The kind of fault, with what belongs to it.
    pub fn fault(&self) -> &Fault {
        &self.fault
    }
}

/// A kind of fault. `seen`, `first`, `second`, `low` and `high` are the author's text, `wanted` the kinds the field
/// holds (none: any), `readings` and `nearest` likely meanings, worked out.
#[allow(missing_docs, reason = "the fields mean the same in every kind and are told above")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing stands there.
    Empty { wanted: Vec<Dimension> },
    /// Words where a number belongs.
    NumberMissing { seen: String, wanted: Vec<Dimension> },
    /// A number, or what stands around it, that cannot be read.
    Unreadable { seen: String, reason: Unreadable, readings: Vec<String> },
    /// A decimal comma or a thousands separator.
    Separator { seen: String, readings: Vec<String> },
    /// A bare number where a unit is needed.
    UnitMissing { seen: String, wanted: Vec<Dimension>, readings: Vec<String> },
    /// A unit that names several things here.
    UnitVague { seen: String, wanted: Dimension, readings: Vec<String> },
    /// The two ends of one value in different units.
    EndsDiffer { first: String, second: String, readings: Vec<String> },
    /// A spelling of no unit known.
    UnitUnknown { seen: String, wanted: Vec<Dimension>, nearest: Vec<String> },
    /// A unit of another kind than the field holds.
    OtherKind { seen: String, is: Dimension, wanted: Vec<Dimension>, readings: Vec<String> },
    /// One value in two units that do not say the same.
    DualMismatch { first: String, second: String, readings: Vec<String> },
    /// A range whose low end is not below its high end.
    RangeReversed { low: String, high: String, equal: bool, readings: Vec<String> },
}

/// Why a number, or what stands around it, cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// Two or more points or commas that part nothing sensible.
    SeveralPoints,
    /// A power of ten.
    Scientific,
    /// More digits than any instrument shows.
    TooManyDigits,
    /// A fraction no rule is marked with, or one above a whole.
    OddFraction,
    /// Below zero where that means nothing.
    BelowZero,
    /// Colder than absolute zero.
    BelowAbsoluteZero,
    /// A count that is not whole.
    NotWhole,
    /// `<` or `>`, which leave the limit itself out.
    StrictSign,
    /// `about`, `~`: no limit at all.
    Approximate,
    /// A bound put before a range or a tolerance.
    BoundWithRange,
    /// `min` or `max` behind the value.
    BoundBehind,
    /// Words or figures behind the value.
    Trailing,
    /// Further stages of a tightening behind its torque.
    Stages,
    /// `/` or `=` between two units of one value.
    TwoUnitsLoose,
    /// A tolerance of nothing or less.
    EmptyTolerance,
    /// `+2 −1`: two tolerances.
    TwoTolerances,
    /// A tolerance in per cent.
    PercentTolerance,
    /// A bracket that never closes.
    OpenBracket,
    /// A size such as `30x42x7 mm` where one value belongs.
    Size,
    /// A colon: a ratio or a moment where neither belongs.
    Colon,
    /// A size that is not two or three lengths.
    NotASize,
}
