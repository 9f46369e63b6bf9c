//! The middle one of several readings.

use super::exact::{Exact, Rounding};
use super::value::Quantity;

/// The middle one of several values, in the unit of the first and as fine as they were written in it; of an even number the
/// mean of the two in the middle, with one digit more where it lies between two readings. `None` of nothing, of values of
/// different kinds, and where one is a range or a bound.
#[must_use]
pub fn median(of: &[&Quantity]) -> Option<Quantity> {
    let first = *of.first()?;
    let (unit, kind) = (first.unit(), first.dimension());
    let mut values = of.iter().map(|quantity| quantity.exact_nominal().filter(|_| quantity.dimension() == kind)).collect::<Option<Vec<Exact>>>()?;
    values.sort();
    let half = values.len() / 2;
    let upper = values.get(half)?.clone();
    let middle = match half.checked_sub(1).and_then(|below| values.get(below)).filter(|_| values.len() % 2 == 0) {
        Some(lower) => (lower.clone() + upper) * Exact::fraction(1, 2)?,
        None => upper,
    };
    let middle = unit.from_base(&middle);
    let place = of.iter().filter(|quantity| quantity.unit() == unit).map(|quantity| quantity.form().place()).min()?;
    let place = if middle.rounded(place, Rounding::Nearest) == middle { place } else { place - 1 };
    Quantity::parse(&unit.after(&middle.digits(place)), kind).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_readings() {
        for (texts, expected) in [
            (&["0.71 mm", "0.70 mm", "0.72 mm"][..], Some("0.71 mm")), (&["0.71 mm", "0.72 mm"], Some("0.715 mm")), (&["0.70 mm", "0.72 mm"], Some("0.71 mm")),
            (&["0.5 mm", "0.02 in"], Some("0.50 mm")), (&["-1 °C", "3 °C"], Some("1 °C")), (&["2 bar"], Some("2 bar")), (&[], None), (&["1 mm", "1 bar"], None), (&["1–2 mm"], None),
        ] {
            let all: Vec<Quantity> = texts.iter().map(|text| Quantity::parse_free(text).unwrap()).collect();
            let middle = median(&all.iter().collect::<Vec<_>>()).map(|middle| middle.to_string());
            assert_eq!(middle.as_deref(), expected, "{texts:?}");
        }
    }
}
