//! Reading one number: `75`, `0.20`, `−18`, `1/4`, `1 1/4`, `1¼`. What could be read in two ways goes to `doubtful`.

use super::cursor::Cursor;
use super::doubtful;
use super::exact::Exact;
use super::fault::{Fault, QuantityError, Unreadable};
use std::fmt;

/// A number as an author wrote it: its value, how finely it was written, and its digits.
#[derive(Clone, Debug)]
pub struct Number {
    value: Exact,
    place: i32,
    fraction: bool,
    digits: String,
}

/// More digits than this are no reading of any instrument (and would cost time to reckon with).
pub(super) const MOST_DIGITS: usize = 15;
/// How finely a fraction is taken to be meant: three significant digits.
const FRACTION_DIGITS: i32 = 3;
/// The lower parts a rule, a drill or a socket is marked with, and thirds and sixths of a turn.
const LOWER_PARTS: &[&str] = &["2", "3", "4", "6", "8", "16", "32", "64"];
const RAISED: &[(char, &str, &str)] = &[
    ('¼', "1", "4"),
    ('½', "1", "2"),
    ('¾', "3", "4"),
    ('⅓', "1", "3"),
    ('⅔', "2", "3"),
    ('⅛', "1", "8"),
    ('⅜', "3", "8"),
    ('⅝', "5", "8"),
    ('⅞', "7", "8"),
];
const MINUS: &[char] = &['-', '−', '–'];
const GROUPING: &[char] = &[',', '\'', '’', '_', '٬', '٫'];
const GROUP_SPACES: &[char] = &[' ', '\u{a0}', '\u{2009}', '\u{202f}'];

impl Number {
    /// Its value, exactly.
    pub fn value(&self) -> &Exact {
        &self.value
    }

    /// Its value as the nearest double.
    pub fn to_f64(&self) -> f64 {
        self.value.to_f64()
    }

    /// The power of ten of its last digit: 0 for `70`, −2 for `0.20`. A fraction counts as three significant digits.
    pub fn place(&self) -> i32 {
        self.place
    }

    /// Half a unit of its last digit: what the author left open. Nothing for a fraction.
    pub fn half_digit(&self) -> Exact {
        if self.fraction { Exact::zero() } else { Exact::ten_to(self.place) * half() }
    }

    /// The ratio of two numbers, written with a colon.
    pub(super) fn ratio(upper: &Self, lower: &Self) -> Option<Self> {
        let value = upper.value.over(&lower.value)?;
        Some(Self { place: fraction_place(&value), value, fraction: true, digits: format!("{upper}:{lower}") })
    }

    /// A whole number and a fraction below one taken together: 1 and 1/4 as 1 1/4.
    pub(super) fn with_fraction(&self, part: &Self) -> Option<Self> {
        let fits = self.place == 0 && !self.fraction && part.fraction && part.value < Exact::whole(1) && !self.value.is_negative();
        let value = self.value.clone() + part.value.clone();
        fits.then(|| Self { place: fraction_place(&value), value, fraction: true, digits: format!("{self} {part}") })
    }

    /// So many times the number, its last digit where it was.
    pub(super) fn times(&self, factor: i64) -> Self {
        if factor == 1 { self.clone() } else { Self::worked_out(self.value.clone() * Exact::whole(factor), self.place) }
    }

    /// A number that was worked out, with its last digit at `place`.
    pub(super) fn worked_out(value: Exact, place: i32) -> Self {
        Self { digits: value.digits(place), value, place, fraction: false }
    }
}

impl fmt::Display for Number {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.digits)
    }
}

fn half() -> Exact {
    Exact::fraction(1, 2).unwrap_or_else(Exact::zero)
}

fn fraction_place(value: &Exact) -> i32 {
    value.magnitude().map_or(0, |magnitude| magnitude + 1 - FRACTION_DIGITS)
}

/// Whether a number begins at the cursor (sign included).
pub(super) fn begins(cursor: &Cursor<'_>) -> bool {
    let mut ahead = cursor.clone();
    if ahead.eat_any(&['-', '−', '+']).is_none() {
        ahead.eat_any(&['–']);
    }
    begins_unsigned(&ahead)
}

/// Whether a sign is a raised fraction such as `½`.
pub(super) fn is_raised(sign: char) -> bool {
    RAISED.iter().any(|(raised, ..)| *raised == sign)
}

fn begins_unsigned(cursor: &Cursor<'_>) -> bool {
    let mut signs = cursor.rest().chars();
    match signs.next() {
        Some('.') => signs.next().is_some_and(|sign| sign.is_ascii_digit()),
        Some(sign) => sign.is_ascii_digit() || is_raised(sign),
        None => false,
    }
}

/// Reads the number at the cursor and stands after it. The caller has checked that one [`begins`].
pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Number, QuantityError> {
    let start = cursor.at();
    let negative = cursor.eat_any(MINUS).is_some();
    cursor.eat_any(&['+']);
    let run = read_run(cursor);
    if let Some(fault) = doubtful::power_of_ten(cursor, start, negative, &run) {
        return Err(QuantityError::new(start..cursor.at(), fault));
    }
    let here = |cursor: &Cursor<'_>| start..cursor.at();
    if run.grouped || run.points > 1 {
        return Err(QuantityError::new(here(cursor), doubtful::separators(cursor, start, negative, &run)));
    }
    let fraction = read_fraction(cursor, &run);
    if run.digits.len() > MOST_DIGITS {
        let span = here(cursor);
        let seen = shorten(cursor.between(span.clone()));
        return Err(QuantityError::new(span, Fault::Unreadable { seen, reason: Unreadable::TooManyDigits, readings: Vec::new() }));
    }
    let number = match fraction {
        Some((upper, lower)) => mixed(&run.digits, &upper, &lower),
        None => decimal(&run.digits),
    };
    let Some(number) = number else {
        let seen = shorten(cursor.between(here(cursor)));
        return Err(QuantityError::new(
            here(cursor),
            Fault::Unreadable { seen, reason: Unreadable::OddFraction, readings: Vec::new() },
        ));
    };
    Ok(if negative { negated(number) } else { number })
}

/// Digits, points and separators that stand together. Every separator is kept as a comma.
pub(super) struct Run {
    pub(super) digits: String,
    points: usize,
    grouped: bool,
}

fn read_run(cursor: &mut Cursor<'_>) -> Run {
    let mut run = Run { digits: String::new(), points: 0, grouped: false };
    loop {
        run.digits.push_str(cursor.eat_digits());
        let Some(sign) = cursor.peek() else { break };
        let mut ahead = cursor.clone();
        ahead.skip(sign.len_utf8());
        let digits = ahead.eat_digits();
        if digits.is_empty() {
            break;
        }
        if sign == '.' {
            run.points += 1;
        } else if GROUPING.contains(&sign) || is_group_space(sign, &run, digits, &ahead) {
            run.grouped = true;
        } else {
            break;
        }
        run.digits.push(if sign == '.' { '.' } else { ',' });
        cursor.skip(sign.len_utf8());
    }
    run
}

/// A space parts thousands only between one to three digits and exactly three: `1 250`, not `1 1/4`.
fn is_group_space(sign: char, run: &Run, digits: &str, after: &Cursor<'_>) -> bool {
    let last_group = run.digits.rsplit(',').next().unwrap_or("");
    let small = !last_group.is_empty() && last_group.len() <= 3 && !last_group.contains('.');
    GROUP_SPACES.contains(&sign) && small && digits.len() == 3 && after.peek() != Some('/')
}

/// The upper and lower part of a fraction that stands here. For `3/8` the digits read so far are the upper part;
/// for `1 3/8` and `1⅜` they are the whole number.
fn read_fraction(cursor: &mut Cursor<'_>, run: &Run) -> Option<(String, String)> {
    let start = cursor.at();
    if !run.digits.is_empty() && cursor.eat("/") {
        let lower = cursor.eat_digits();
        if !lower.is_empty() {
            return Some((String::new(), lower.to_owned()));
        }
        cursor.go_to(start);
    }
    cursor.skip_spaces();
    if let Some(sign) = cursor.peek()
        && let Some((_, upper, lower)) = RAISED.iter().find(|(raised, ..)| *raised == sign)
    {
        cursor.skip(sign.len_utf8());
        return Some(((*upper).to_owned(), (*lower).to_owned()));
    }
    let upper = cursor.eat_digits();
    if !upper.is_empty() && cursor.eat("/") {
        let lower = cursor.eat_digits();
        if !lower.is_empty() {
            return Some((upper.to_owned(), lower.to_owned()));
        }
    }
    cursor.go_to(start);
    None
}

fn decimal(digits: &str) -> Option<Number> {
    let part = digits.split_once('.').map_or(0, |(_, part)| part.len());
    let value = Exact::decimal(digits)?;
    let place = -i32::try_from(part).ok()?;
    Some(Number { value, place, fraction: false, digits: digits.to_owned() })
}

/// `upper` is empty where the digits read first are the upper part.
fn mixed(digits: &str, upper: &str, lower: &str) -> Option<Number> {
    let (whole, upper) = if upper.is_empty() { ("", digits) } else { (digits, upper) };
    if upper.len() > 2 || !LOWER_PARTS.contains(&lower) {
        return None;
    }
    let part = Exact::decimal(upper)?.over(&Exact::decimal(lower)?)?;
    let proper = !part.is_zero() && part < Exact::whole(1);
    if !proper || whole.contains('.') || upper.contains('.') {
        return None;
    }
    let (value, digits) = if whole.is_empty() {
        (part, format!("{upper}/{lower}"))
    } else {
        (Exact::decimal(whole)? + part, format!("{whole} {upper}/{lower}"))
    };
    Some(Number { place: fraction_place(&value), value, fraction: true, digits })
}

fn negated(number: Number) -> Number {
    Number { value: -number.value, digits: format!("−{}", number.digits), ..number }
}

/// Long rubbish is not repeated in full.
pub(super) fn shorten(text: &str) -> String {
    const SHOWN: usize = 40;
    let mut short: String = text.chars().take(SHOWN).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(text: &str) -> Number {
        read(&mut Cursor::new(text)).unwrap()
    }

    fn fault(text: &str) -> QuantityError {
        read(&mut Cursor::new(text)).unwrap_err()
    }

    #[test]
    fn numbers_are_read_as_written() {
        for (text, value, place, shown) in [
            ("75", 75.0, 0, "75"), ("0.20", 0.2, -2, "0.20"), (".020", 0.02, -3, ".020"), ("-18", -18.0, 0, "−18"), ("−5", -5.0, 0, "−5"),
            ("–18", -18.0, 0, "−18"), ("+5", 5.0, 0, "5"), ("1/4", 0.25, -3, "1/4"), ("1 1/4", 1.25, -2, "1 1/4"), ("1¼", 1.25, -2, "1 1/4"),
            ("½", 0.5, -3, "1/2"), ("3/64", 0.046_875, -4, "3/64"), ("007", 7.0, 0, "007"),
        ] {
            let number = number(text);
            assert_eq!((number.to_f64(), number.place(), number.to_string().as_str()), (value, place, shown), "{text}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(matches!(fault(&"9".repeat(400)).fault(), Fault::Unreadable { reason: Unreadable::TooManyDigits, .. }));
        for text in ["1/0", "5/4", "0/4", "1/5", "1.5/2", "10/12", "1.5 1/4", "1/4000000000000000000000"] {
            assert!(matches!(fault(text).fault(), Fault::Unreadable { reason: Unreadable::OddFraction, .. }), "{text}");
        }
        for text in ["1.2.3", "1,2,3", "12,34,5"] {
            assert!(matches!(fault(text).fault(), Fault::Unreadable { reason: Unreadable::SeveralPoints, .. }), "{text}");
        }
    }
}
