//! A unit: its spelling, its kind and its exact size. The units themselves are data, in `table`.

use super::dimension::Dimension;
use super::exact::{Exact, Rounding};
use super::{spelling, table};
use std::fmt;

/// A unit of measurement. There is one static value of each, in the table.
#[derive(Debug)]
pub struct Unit {
    pub(super) symbol: &'static str,
    pub(super) others: &'static [&'static str],
    pub(super) dimension: Dimension,
    /// Its size in the base unit of its kind, as upper and lower part of an exact fraction.
    pub(super) size: (i128, i128),
    /// What it reads where the base unit reads zero: 32 for °F, otherwise 0.
    pub(super) zero: i64,
    pub(super) one: &'static str,
    pub(super) many: &'static str,
    /// A band that ends below this many of it is shown in the smaller unit named.
    pub(super) narrow: Option<(i64, &'static str)>,
}

impl Unit {
    /// The unit a spelling stands for: `ft-lb` is lbf·ft. Spellings are case-sensitive (mL and ml are both
    /// known, but mN is not MN); spaces, points, hyphens and raised dots between the parts are the same.
    /// `None` for unknown and for ambiguous spellings (`pt`, `C`).
    pub fn find(spelling: &str) -> Option<&'static Self> {
        spelling::find(spelling)
    }

    /// Every unit, grouped by kind.
    pub fn all() -> &'static [Self] {
        table::UNITS
    }

    /// The spelling shown to readers.
    pub fn symbol(&self) -> &'static str {
        self.symbol
    }

    /// Other spellings that are read as this unit.
    pub fn other_spellings(&self) -> &'static [&'static str] {
        self.others
    }

    /// The kind it measures.
    pub fn dimension(&self) -> Dimension {
        self.dimension
    }

    /// Its name for reading aloud: `newton metre`, or the plural.
    pub fn spoken(&self, plural: bool) -> &'static str {
        if plural { self.many } else { self.one }
    }

    /// One of it, in the base unit of its kind, as the nearest double (for a temperature: one degree's size).
    pub fn size(&self) -> f64 {
        self.exact_size().to_f64()
    }

    /// One of it, in the base unit of its kind, exactly.
    pub fn exact_size(&self) -> Exact {
        Exact::fraction(self.size.0, self.size.1).unwrap_or_else(Exact::zero)
    }

    /// A value in this unit, taken to the base unit of its kind.
    pub fn to_base(&self, value: &Exact) -> Exact {
        // The base units themselves are written most often, and exact arithmetic is slow.
        let from_zero = if self.zero == 0 { value.clone() } else { value.clone() - Exact::whole(self.zero) };
        if self.size == (1, 1) { from_zero } else { from_zero * self.exact_size() }
    }

    /// A value in the base unit of its kind, taken to this unit.
    pub fn from_base(&self, value: &Exact) -> Exact {
        let from_zero = if self.size == (1, 1) { value.clone() } else { value.over(&self.exact_size()).unwrap_or_else(Exact::zero) };
        if self.zero == 0 { from_zero } else { from_zero + Exact::whole(self.zero) }
    }

    /// A computed value (given in this unit) with `digits` significant digits and the unit: `60.9 N·m`.
    /// Infinite or missing values show as `– N·m`.
    pub fn show(&self, value: f64, digits: i32, rounding: Rounding) -> String {
        let number = Exact::from_f64(value).map_or_else(|| "–".to_owned(), |exact| exact.significant(digits, rounding));
        self.after(&number)
    }

    /// The unit set after a number's digits: a degree sign touches them, others keep a space.
    pub(super) fn after(&self, digits: &str) -> String {
        match self.symbol {
            "" => digits.to_owned(),
            "°" => format!("{digits}°"),
            symbol => format!("{digits} {symbol}"),
        }
    }

    /// Whether values keep their zero point when converted: °C and °F do not share one.
    pub(super) fn has_scale(&self) -> bool {
        self.dimension == Dimension::Temperature
    }
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.dimension == other.dimension && self.symbol == other.symbol
    }
}

impl Eq for Unit {}

impl fmt::Display for Unit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.symbol)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_computed_value_is_shown_with_its_unit() {
        let unit = Unit::find("N·m").unwrap();
        assert_eq!(unit.show(60.869_565, 3, Rounding::Nearest), "60.9 N·m");
        assert_eq!(unit.show(80.5, 2, Rounding::Down), "80 N·m");
        assert_eq!(unit.show(f64::NAN, 3, Rounding::Nearest), "– N·m");
        assert_eq!(Unit::find("deg").unwrap().show(2.3386, 3, Rounding::Nearest), "2.34°");
    }

    #[test]
    fn the_zero_of_a_scale_is_kept() {
        let fahrenheit = Unit::find("°F").unwrap();
        assert_eq!(fahrenheit.to_base(&Exact::whole(-40)), Exact::whole(-40));
        assert_eq!(fahrenheit.from_base(&Exact::whole(100)), Exact::whole(212));
    }
}
