//! A size: two or three lengths of one thing in one unit, such as the `30x42x7 mm` of a shaft seal.

use super::convert;
use super::cursor::Cursor;
use super::dimension::Dimension;
use super::exact::Exact;
use super::fault::{Fault, QuantityError, Unreadable};
use super::number::{self, Number};
use super::parse::unreadable;
use super::spelling::{self, Meaning};
use super::unit::Unit;
use std::fmt;

/// The signs between the lengths of a size.
pub(super) const CROSSES: &[char] = &['x', 'X', '×', '*'];

/// Two or three lengths above zero, in the order written (a seal or bearing: bore, outside, width).
#[derive(Clone, Debug)]
pub struct Size {
    written: String,
    lengths: Vec<Number>,
    unit: &'static Unit,
}

impl Size {
    /// Reads `30x42x7 mm` (also with `×`, `X`, `*`, spaces, and the unit after each length).
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let mut cursor = Cursor::new(text);
        let start = cursor.at();
        let whole = start..cursor.end();
        if cursor.rest().is_empty() {
            return Err(QuantityError::new(whole, Fault::Empty { wanted: vec![Dimension::Length] }));
        }
        let mut lengths = Vec::new();
        let mut units = Vec::new();
        loop {
            cursor.skip_spaces();
            if !number::begins(&cursor) {
                return Err(unreadable(&cursor, whole, Unreadable::NotASize));
            }
            let from = cursor.at();
            let length = number::read(&mut cursor)?;
            if *length.value() <= Exact::zero() {
                return Err(unreadable(&cursor, from..cursor.at(), Unreadable::BelowZero));
            }
            lengths.push(length);
            cursor.skip_spaces();
            if let Some(unit) = read_unit(&mut cursor, &lengths)? {
                units.push(unit);
            }
            cursor.skip_spaces();
            if cursor.eat_any(CROSSES).is_none() {
                break;
            }
        }
        if !cursor.rest().is_empty() || !(2..=3).contains(&lengths.len()) {
            return Err(unreadable(&cursor, whole, Unreadable::NotASize));
        }
        let written = cursor.between(whole.clone()).to_owned();
        match units.as_slice() {
            [unit, others @ ..] if others.iter().all(|other| other == unit) => Ok(Self { written, lengths, unit }),
            [] => {
                let readings = ["mm", "in"].map(|symbol| format!("{} {symbol}", crossed(&lengths))).to_vec();
                Err(QuantityError::new(whole, Fault::UnitMissing { seen: written, wanted: vec![Dimension::Length], readings }))
            }
            _ => Err(unreadable(&cursor, whole, Unreadable::NotASize)),
        }
    }

    /// The author's own spelling.
    pub fn written(&self) -> &str {
        &self.written
    }

    /// The author's unit.
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// The lengths as written, two or three.
    pub fn lengths(&self) -> &[Number] {
        &self.lengths
    }

    /// The lengths in mm, exactly.
    pub fn exact_millimetres(&self) -> Vec<Exact> {
        self.lengths.iter().map(|length| self.unit.to_base(length.value())).collect()
    }

    /// The lengths in mm.
    pub fn millimetres(&self) -> Vec<f64> {
        self.exact_millimetres().iter().map(Exact::to_f64).collect()
    }

    /// The size as text in another unit of length, each length rounded like a single value; `None` for other units.
    pub fn convert(&self, to: &Unit) -> Option<String> {
        let there = |length: &Number| {
            let exact = to.from_base(&self.unit.to_base(length.value()));
            convert::honest_digits(length.value(), length.place(), &exact)
        };
        let lengths: Vec<String> = self.lengths.iter().map(there).collect();
        (to.dimension() == Dimension::Length).then(|| to.after(&lengths.join(" × ")))
    }
}

impl PartialEq for Size {
    fn eq(&self, other: &Self) -> bool {
        self.exact_millimetres() == other.exact_millimetres()
    }
}

impl Eq for Size {}

/// The size in our spelling: `30 × 42 × 7 mm`.
impl fmt::Display for Size {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.unit.after(&crossed(&self.lengths)))
    }
}

fn crossed(lengths: &[Number]) -> String {
    lengths.iter().map(Number::to_string).collect::<Vec<_>>().join(" × ")
}

/// The unit that stands here, if anything but a cross or the end does.
fn read_unit(cursor: &mut Cursor<'_>, lengths: &[Number]) -> Result<Option<&'static Unit>, QuantityError> {
    let start = cursor.at();
    if cursor.rest().is_empty() || cursor.rest().starts_with(CROSSES) {
        return Ok(None);
    }
    let wanted = vec![Dimension::Length];
    match spelling::leading(cursor.rest()) {
        Some((length, Meaning::Unit(unit))) if unit.dimension() == Dimension::Length => {
            cursor.skip(length);
            Ok(Some(unit))
        }
        Some((length, Meaning::Unit(unit))) => {
            let seen = cursor.between(start..start + length).to_owned();
            let fault = Fault::OtherKind { seen, is: unit.dimension(), wanted, readings: Vec::new() };
            Err(QuantityError::new(start..start + length, fault))
        }
        _ => {
            let seen = number::shorten(cursor.rest());
            let nearest = spelling::nearest(cursor.rest(), &wanted).into_iter().map(|unit| unit.after(&crossed(lengths))).collect();
            Err(QuantityError::new(start..cursor.end(), Fault::UnitUnknown { seen, wanted, nearest }))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read() {
        for (text, millimetres, shown) in [
            ("30x42x7 mm", vec![30.0, 42.0, 7.0], "30 × 42 × 7 mm"), ("30 × 62 × 16 mm", vec![30.0, 62.0, 16.0], "30 × 62 × 16 mm"),
            (" 12X24*6mm ", vec![12.0, 24.0, 6.0], "12 × 24 × 6 mm"), ("30 mm x 42 mm", vec![30.0, 42.0], "30 × 42 mm"),
            ("1 1/4 x 2 x 3/8 in", vec![31.75, 50.8, 9.525], "1 1/4 × 2 × 3/8 in"), ("2.5x20 mm", vec![2.5, 20.0], "2.5 × 20 mm"),
        ] {
            let size = Size::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!((size.millimetres(), size.to_string().as_str(), size.written()), (millimetres, shown, text.trim()));
        }
        assert_eq!(Size::parse("1x2 in").unwrap(), Size::parse("25.4x50.8 mm").unwrap());
    }

    #[test]
    fn sizes_are_converted_length_by_length() {
        let size = Size::parse("30x42x7 mm").unwrap();
        assert_eq!(size.convert(Unit::find("in").unwrap()).unwrap(), "1.18 × 1.65 × 0.276 in");
        assert_eq!(size.convert(Unit::find("kg").unwrap()), None);
    }

    #[test]
    fn other_texts_are_no_size() {
        for (text, name) in [
            ("", "number-unreadable"), ("30 mm", "number-unreadable"), ("30x42x7x9 mm", "number-unreadable"), ("30x42x7", "unit-missing"),
            ("30x42x mm", "number-unreadable"), ("30x42,5x7 mm", "decimal-comma-or-thousand"), ("30x42x7 kg", "unit-of-another-kind"),
            ("30x42x7 MM", "unit-unknown"), ("30x0x7 mm", "number-unreadable"), ("30 mm x 2 in", "number-unreadable"), ("M8x1.25", "number-unreadable"),
            ("30x42x7 mm NBR", "number-unreadable"),
        ] {
            assert_eq!(Size::parse(text).map_err(|error| error.name()), Err(name), "{text}");
        }
    }
}
