//! What a field may hold, as data: the reader, the editor's schema and the messages all come from it.

use crate::quantity::Dimension;

/// One key of a map.
#[derive(Debug)]
pub struct Field {
    /// The key.
    pub key: &'static str,
    /// What it may hold.
    pub shape: Shape,
    /// Whether it may differ by variant.
    pub varies: bool,
    /// Whether it must be there.
    pub required: bool,
    /// Told to the author, in editors too.
    pub help: &'static str,
}

/// What a value may be.
#[derive(Debug)]
pub enum Shape {
    /// Any words.
    Text,
    /// A value of any field, in that field's own form: text, list or map. It is kept as written.
    AsWritten,
    /// One of these words.
    Words(&'static [&'static str]),
    /// A whole number, 0 or more.
    Count,
    /// `true` or `false`.
    Flag,
    /// A day, `2026-09-14`.
    Date,
    /// How many months, `12 months` or `1 year`: no quantity, for months differ in length.
    Months,
    /// A quantity of one of these dimensions.
    Quantity(&'static [Dimension]),
    /// A quantity of any dimension, its unit tells which.
    AnyQuantity,
    /// Two or three lengths, `30x42x7 mm`.
    Size,
    /// A thread, `M12x1.25`.
    Thread,
    /// A moment in a recording, `1:24:30`.
    Moment,
    /// A moment or span, `8:20–9:05`.
    Span,
    /// An id of another entry, or of a file.
    Id,
    /// A place on a picture, `34% 20%`.
    Percent,
    /// A pair of numbers in millimetres, `[0, 12.5]`.
    Pair,
    /// A list of one shape.
    List(&'static Self),
    /// A map of known keys.
    Map(&'static [Field]),
    /// A map whose keys the author chooses.
    Named(&'static Self),
    /// Axis values under which something holds, `{serial: late, shaft: L}`.
    Condition,
    /// The first of these whose outline fits.
    Either(&'static [Self]),
}

impl Field {
    /// A field that is optional and does not vary.
    #[must_use]
    pub const fn new(key: &'static str, shape: Shape, help: &'static str) -> Self {
        Self { key, shape, varies: false, required: false, help }
    }

    /// The same, but it must be there.
    #[must_use]
    pub const fn required(key: &'static str, shape: Shape, help: &'static str) -> Self {
        Self { key, shape, varies: false, required: true, help }
    }

    /// The same, but it may differ by variant.
    #[must_use]
    pub const fn varied(key: &'static str, shape: Shape, help: &'static str) -> Self {
        Self { key, shape, varies: true, required: false, help }
    }
}

impl Shape {
    /// What is wanted, in words: "a count", "a torque with its unit".
    #[must_use]
    pub fn wanted(&self) -> String {
        match self {
            Self::Text => "a text".to_owned(),
            Self::AsWritten => "the value as the field is written".to_owned(),
            Self::Words([only]) => (*only).to_owned(),
            Self::Words(words) => format!("one of: {}", words.join(", ")),
            Self::Count => "a whole number".to_owned(),
            Self::Flag => "true or false".to_owned(),
            Self::Date => "a date such as 2026-09-14".to_owned(),
            Self::Months => "a number of months such as 12 months".to_owned(),
            Self::Quantity(dimensions) => {
                let names: Vec<&str> = dimensions.iter().map(|d| d.spoken()).collect();
                format!("{} with its unit", names.join(" or "))
            }
            Self::AnyQuantity => "a number with its unit".to_owned(),
            Self::Size => "a size such as 30x42x7 mm".to_owned(),
            Self::Thread => "a thread such as M8x1.25".to_owned(),
            Self::Moment => "a moment such as '8:20'".to_owned(),
            Self::Span => "a span such as '8:20–9:05'".to_owned(),
            Self::Id => "an id".to_owned(),
            Self::Percent => "a place such as 34% 20%".to_owned(),
            Self::Pair => "two numbers such as [0, 12.5]".to_owned(),
            Self::List(of) => format!("a list [{}, …]", of.wanted()),
            Self::Map(fields) => {
                let keys: Vec<String> = fields.iter().map(|f| format!("{}: …", f.key)).collect();
                format!("{{{}}}", keys.join(", "))
            }
            Self::Named(of) => format!("{{key: {}, …}}", of.wanted()),
            Self::Condition => "a condition such as {serial: late}".to_owned(),
            Self::Either(shapes) => {
                let each: Vec<String> = shapes.iter().map(Self::wanted).collect();
                each.join(", or ")
            }
        }
    }

    /// Whether a map can stand here (so that a map is not at once taken for variants).
    #[must_use]
    pub fn takes_map(&self) -> bool {
        match self {
            Self::Map(_) | Self::Named(_) | Self::Condition | Self::AsWritten => true,
            Self::Either(shapes) => shapes.iter().any(Self::takes_map),
            _ => false,
        }
    }

    /// Whether a list can stand here.
    #[must_use]
    pub fn takes_list(&self) -> bool {
        match self {
            Self::List(_) | Self::Pair | Self::AsWritten => true,
            Self::Either(shapes) => shapes.iter().any(Self::takes_list),
            _ => false,
        }
    }
}
