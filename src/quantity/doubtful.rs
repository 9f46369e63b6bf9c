//! Numbers that could be read in two ways: a decimal comma, something between the thousands, a power of ten. They are
//! refused, and each reading is written out.

use super::cursor::Cursor;
use super::exact::Exact;
use super::fault::{Fault, Unreadable};
use super::number::{MOST_DIGITS, Run, shorten};

/// The readings of `22,5`, `1,250`, `1.250,5` and the like.
pub(super) fn separators(cursor: &Cursor<'_>, start: usize, negative: bool, run: &Run) -> Fault {
    let seen = cursor.between(start..cursor.at()).to_owned();
    let minus = if negative { "-" } else { "" };
    let mut numbers = Vec::new();
    if run.digits.len() <= 2 * MOST_DIGITS {
        let marks: Vec<&str> = run.digits.split([',', '.']).collect();
        let groups_of_three = marks.iter().skip(1).all(|group| group.len() == 3) && marks.first().is_some_and(|first| (1..=3).contains(&first.len()));
        let joined = marks.concat();
        let both = run.digits.contains(',') && run.digits.contains('.');
        if both && let Some(last) = marks.last() && let Some(whole) = joined.strip_suffix(last) {
            numbers.push((format!("{minus}{whole}.{last}"), "."));
        } else if marks.len() == 2 && seen.contains([',', '٫']) {
            numbers.push((format!("{minus}{}", run.digits.replace(',', ".")), "."));
        }
        if groups_of_three && !both {
            numbers.push((format!("{minus}{joined}"), ""));
        }
    }
    if numbers.is_empty() {
        return Fault::Unreadable { seen: shorten(&seen), reason: Unreadable::SeveralPoints, readings: Vec::new() };
    }
    let readings = numbers
        .iter()
        .map(|(number, mark)| substituted(cursor, start, number, &without_commas(cursor.rest(), mark)))
        .collect();
    Fault::Separator { seen, readings }
}

/// The rest of the value, its commas read like the first one.
fn without_commas(rest: &str, mark: &str) -> String {
    let parts: Vec<&str> = rest.split(',').collect();
    let mut out = String::new();
    for (at, part) in parts.iter().enumerate() {
        let between_digits = out.ends_with(|sign: char| sign.is_ascii_digit()) && part.starts_with(|sign: char| sign.is_ascii_digit());
        out.push_str(if at == 0 { "" } else if between_digits { mark } else { "," });
        out.push_str(part);
    }
    out
}

/// The whole text with the number just read written differently.
fn substituted(cursor: &Cursor<'_>, start: usize, number: &str, rest: &str) -> String {
    let before = cursor.between(0..start).trim_start();
    format!("{}{}{}", shorten(before), number.replace('-', "−"), shorten(rest))
}

/// `1e3`, `1.5E+3`, `1×10³`: which digits are real cannot be told, and spreadsheets write it unasked.
pub(super) fn power_of_ten(cursor: &mut Cursor<'_>, start: usize, negative: bool, run: &Run) -> Option<Fault> {
    let exponent = read_exponent(cursor)?;
    let seen = shorten(cursor.between(start..cursor.at()));
    let value = Exact::decimal(&run.digits).filter(|_| run.digits.len() <= MOST_DIGITS);
    let small = exponent.parse::<i32>().ok().filter(|power| power.abs() <= 9);
    let readings = match (value, small) {
        (Some(value), Some(power)) => {
            let places = run.digits.split_once('.').map_or(0, |(_, part)| i32::try_from(part.len()).unwrap_or(0));
            let value = value * Exact::ten_to(power);
            let minus = if negative { "-" } else { "" };
            vec![substituted(cursor, start, &format!("{minus}{}", value.digits(power - places)), cursor.rest())]
        }
        _ => Vec::new(),
    };
    Some(Fault::Unreadable { seen, reason: Unreadable::Scientific, readings })
}

fn read_exponent(cursor: &mut Cursor<'_>) -> Option<String> {
    let start = cursor.at();
    let exponent = letter_exponent(cursor).or_else(|| {
        cursor.go_to(start);
        times_ten(cursor)
    });
    if exponent.is_none() {
        cursor.go_to(start);
    }
    exponent
}

fn letter_exponent(cursor: &mut Cursor<'_>) -> Option<String> {
    cursor.eat_any(&['e', 'E'])?;
    signed_digits(cursor)
}

fn times_ten(cursor: &mut Cursor<'_>) -> Option<String> {
    cursor.skip_spaces();
    cursor.eat_any(&['×', 'x', '*', '·', '⋅'])?;
    cursor.skip_spaces();
    if !cursor.eat("10") {
        return None;
    }
    if cursor.eat("^") || cursor.eat("**") { signed_digits(cursor) } else { raised_digits(cursor) }
}

fn signed_digits(cursor: &mut Cursor<'_>) -> Option<String> {
    let sign = cursor.eat_any(&['-', '−', '+']);
    let digits = cursor.eat_digits();
    let minus = if matches!(sign, Some('-' | '−')) { "-" } else { "" };
    (!digits.is_empty()).then(|| format!("{minus}{digits}"))
}

fn raised_digits(cursor: &mut Cursor<'_>) -> Option<String> {
    const RAISED_DIGITS: &[char] = &['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let minus = cursor.eat_any(&['⁻']).map_or("", |_| "-");
    let mut digits = String::new();
    while let Some(sign) = cursor.eat_any(RAISED_DIGITS) {
        let digit = RAISED_DIGITS.iter().position(|raised| *raised == sign).unwrap_or(0);
        digits.push_str(&digit.to_string());
    }
    (!digits.is_empty()).then(|| format!("{minus}{digits}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::fault::QuantityError;
    use crate::quantity::number::read;

    fn fault(text: &str) -> QuantityError {
        read(&mut Cursor::new(text)).unwrap_err()
    }

    #[test]
    fn what_could_be_read_twice_is_refused_with_the_readings() {
        for (text, readings) in [
            ("22,5 N·m", vec!["22.5 N·m"]), ("1,250 N·m", vec!["1.250 N·m", "1250 N·m"]), ("1.250,5", vec!["1250.5"]),
            ("1'250 kg", vec!["1250 kg"]), ("1 250 kg", vec!["1250 kg"]), ("1.250.000 s", vec!["1250000 s"]), ("-0,5 bar", vec!["−0.5 bar"]),
            ("1,250.5", vec!["1250.5"]), ("12,5–13,0 mm", vec!["12.5–13.0 mm"]),
        ] {
            let Fault::Separator { readings: found, .. } = fault(text).fault().clone() else { panic!("{text}") };
            assert_eq!(found, readings, "{text}");
        }
    }

    #[test]
    fn powers_of_ten_are_written_out() {
        for (text, reading) in [
            ("1e3 N", "1000 N"), ("1.5E+3 N", "1500 N"), ("2×10³ N", "2000 N"), ("2 x 10^-3 m", "0.002 m"), ("1.50e1", "15.0"),
        ] {
            let Fault::Unreadable { reason: Unreadable::Scientific, readings, .. } = fault(text).fault().clone() else {
                panic!("{text}")
            };
            assert_eq!(readings, [reading], "{text}");
        }
        let Fault::Unreadable { reason: Unreadable::Scientific, readings, .. } = fault("1e300").fault().clone() else { panic!() };
        assert!(readings.is_empty());
    }
}
