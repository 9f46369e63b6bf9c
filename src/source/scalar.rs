//! What YAML 1.1 and 1.2 would make of a plain scalar. Sources: YAML 1.1 type repository (null, bool,
//! int, float, timestamp) and YAML 1.2.2 section 10.3.2 (core schema).

use super::node::Scalar;

/// Digits a number may have before common programs lose some of them (a 64-bit integer has 18 to be sure).
const KEPT_DIGITS: usize = 18;

/// What a plain scalar is turned into where that does not print back as itself: `the number 340 (base 60)`,
/// `the number 460 (octal)`, `false`, `nothing`. None for what survives: quoted scalars, ordinary text, `4`,
/// `8.8`, `true`, dates.
#[must_use]
pub fn retyped(scalar: &Scalar) -> Option<String> {
    if scalar.quoted {
        return None;
    }
    let text = scalar.text.as_str();
    word(text).or_else(|| number(text)).or_else(|| moment(text))
}

fn word(text: &str) -> Option<String> {
    let meaning = match text {
        "" | "~" | "null" | "Null" | "NULL" => "nothing",
        "y" | "Y" | "yes" | "Yes" | "YES" | "True" | "TRUE" | "on" | "On" | "ON" => "true",
        "n" | "N" | "no" | "No" | "NO" | "False" | "FALSE" | "off" | "Off" | "OFF" => "false",
        ".inf" | ".Inf" | ".INF" | "+.inf" | "+.Inf" | "+.INF" => "infinity",
        "-.inf" | "-.Inf" | "-.INF" => "minus infinity",
        ".nan" | ".NaN" | ".NAN" => "the mark for no number",
        "<<" => "the key that merges maps",
        _ => return None,
    };
    Some(meaning.to_owned())
}

fn number(text: &str) -> Option<String> {
    let (sign, digits) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", text.strip_prefix('+').unwrap_or(text)),
    };
    if !digits.starts_with(|c: char| c.is_ascii_digit() || c == '.') || !digits.contains(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let reading = based(digits).or_else(|| sexagesimal(digits)).or_else(|| decimal(digits))?;
    let value = if reading.value == "0" { reading.value } else { format!("{sign}{}", reading.value) };
    // A number with an exponent is printed in as many ways as there are programs.
    if reading.how.is_empty() && value == text && !text.contains(['e', 'E']) {
        return None;
    }
    let how = if reading.how.is_empty() { String::new() } else { format!(" ({})", reading.how) };
    Some(format!("the number {value}{how}"))
}

/// A number as a program would print it, and how it was read where that is not obvious.
struct Reading {
    value: String,
    how: &'static str,
}

/// `0b11`, `0o17`, `0714`, `0x1F`.
fn based(digits: &str) -> Option<Reading> {
    let (base, rest, how) = if let Some(rest) = digits.strip_prefix("0x") {
        (16, rest, "hexadecimal")
    } else if let Some(rest) = digits.strip_prefix("0b") {
        (2, rest, "binary")
    } else if let Some(rest) = digits.strip_prefix("0o") {
        (8, rest, "octal")
    } else {
        (8, digits.strip_prefix('0').filter(|rest| !rest.is_empty())?, "octal")
    };
    let plain: String = rest.chars().filter(|c| *c != '_').collect();
    if plain.is_empty() || !plain.chars().all(|c| c.is_digit(base)) {
        return None;
    }
    let value = u64::from_str_radix(&plain, base).map_or_else(|_| "too long to be kept".to_owned(), |n| n.to_string());
    Some(Reading { value, how })
}

/// `5:40`, `1:30:00`, `1:30.5` as YAML 1.1 reads them: in sixties.
fn sexagesimal(digits: &str) -> Option<Reading> {
    let mut parts = digits.split(':');
    let first = parts.next()?;
    let mut rest: Vec<&str> = parts.collect();
    let last = rest.pop()?;
    let (whole, fraction) = last.split_once('.').map_or((last, None), |(whole, fraction)| (whole, Some(fraction)));
    // The integer form may not begin with 0; the form with a point may.
    if fraction.is_none() && first.starts_with('0') {
        return None;
    }
    let mut value: u64 = integer(first)?;
    for part in rest.into_iter().chain([whole]) {
        let part = Some(part).filter(|p| (1..=2).contains(&p.len())).and_then(integer).filter(|n| *n < 60)?;
        value = value.checked_mul(60)?.checked_add(part)?;
    }
    let tail = match fraction {
        Some(fraction) if fraction.chars().all(|c| c.is_ascii_digit() || c == '_') => {
            let kept: String = fraction.chars().filter(|c| *c != '_').collect();
            let kept = kept.trim_end_matches('0');
            if kept.is_empty() { String::new() } else { format!(".{kept}") }
        }
        Some(_) => return None,
        None => String::new(),
    };
    Some(Reading { value: format!("{value}{tail}"), how: "base 60" })
}

fn integer(text: &str) -> Option<u64> {
    let plain: String = text.chars().filter(|c| *c != '_').collect();
    (!plain.is_empty() && plain.bytes().all(|b| b.is_ascii_digit())).then(|| plain.parse().ok()).flatten()
}

/// `10.10`, `1_000`, `.5`, `1e3` in their shortest spelling.
fn decimal(digits: &str) -> Option<Reading> {
    let (mantissa, exponent) = match digits.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, Some(exponent_of(exponent)?)),
        None => (digits, None),
    };
    let (whole, fraction) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let is_digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit() || b == b'_');
    if !is_digits(whole) || !is_digits(fraction) || whole.starts_with('_') {
        return None;
    }
    let whole: String = whole.chars().filter(|c| *c != '_').collect();
    let fraction: String = fraction.chars().filter(|c| *c != '_').collect();
    let value = match exponent {
        Some(exponent) => shift_point(&whole, &fraction, exponent),
        None => shortest(&whole, &fraction),
    };
    let too_long = value.bytes().filter(u8::is_ascii_digit).count() > KEPT_DIGITS;
    Some(Reading { value, how: if too_long { "with more digits than programs keep" } else { "" } })
}

fn exponent_of(text: &str) -> Option<i32> {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    if digits.is_empty() || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    Some(text.parse::<i32>().unwrap_or(i32::MAX))
}

/// The digits with the point moved; beyond thirty places the exponent is kept.
fn shift_point(whole: &str, fraction: &str, exponent: i32) -> String {
    let Some(places) = usize::try_from(exponent.unsigned_abs()).ok().filter(|places| *places <= 30) else {
        return format!("{}e{exponent}", shortest(whole, fraction));
    };
    let zeros = "0".repeat(places);
    if exponent >= 0 {
        let moved = format!("{fraction}{zeros}");
        let (left, right) = moved.split_at(places.min(moved.len()));
        shortest(&format!("{whole}{left}"), right)
    } else {
        let moved = format!("{zeros}{whole}");
        let (left, right) = moved.split_at(moved.len() - places);
        shortest(left, &format!("{right}{fraction}"))
    }
}

fn shortest(whole: &str, fraction: &str) -> String {
    let whole = whole.trim_start_matches('0');
    let whole = if whole.is_empty() { "0" } else { whole };
    let fraction = fraction.trim_end_matches('0');
    if fraction.is_empty() { whole.to_owned() } else { format!("{whole}.{fraction}") }
}

/// `2026-09-14 10:00:00` is a moment whose spelling is lost; `2026-09-14` is a date and prints back.
fn moment(text: &str) -> Option<String> {
    let (date, time) = text.split_once(['T', 't', ' '])?;
    let date: Vec<&str> = date.split('-').collect();
    let sizes: Vec<usize> = date.iter().map(|part| part.len()).collect();
    let is_date = matches!(sizes.as_slice(), [4, 1..=2, 1..=2]) && date.iter().all(|part| integer(part).is_some());
    let clock: Vec<&str> = time.trim_start().splitn(3, ':').collect();
    let is_clock = matches!(clock.as_slice(), [hour, minute, second]
        if (1..=2).contains(&hour.len()) && integer(hour).is_some()
            && minute.len() == 2 && integer(minute).is_some()
            && second.starts_with(|c: char| c.is_ascii_digit()));
    (is_date && is_clock).then(|| "a moment of a clock, in another spelling".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> Option<String> {
        retyped(&Scalar { text: text.to_owned(), quoted: false })
    }

    /// Expected values: YAML 1.1 type repository (examples of int: `685_230`, `0b1010_0111_0100_1010_1110`,
    /// `190:20:30`; of float: `190:20:30.15`) and YAML 1.2.2, example 10.2 and section 10.3.2.
    #[test]
    fn what_does_not_print_back() {
        let cases = [
            ("5:40", "the number 340 (base 60)"),
            ("45:00", "the number 2700 (base 60)"),
            ("190:20:30", "the number 685230 (base 60)"),
            ("190:20:30.15", "the number 685230.15 (base 60)"),
            ("0:30.5", "the number 30.5 (base 60)"),
            ("-1:30", "the number -90 (base 60)"),
            ("0714", "the number 460 (octal)"),
            ("02472256", "the number 685230 (octal)"),
            ("00", "the number 0 (octal)"),
            ("0o14", "the number 12 (octal)"),
            ("0x1F", "the number 31 (hexadecimal)"),
            ("0b1010_0111_0100_1010_1110", "the number 685230 (binary)"),
            ("089", "the number 89"),
            ("685_230", "the number 685230"),
            ("+12", "the number 12"),
            ("-0", "the number 0"),
            ("10.10", "the number 10.1"),
            ("0.10", "the number 0.1"),
            ("3.0", "the number 3"),
            ("5.", "the number 5"),
            (".5", "the number 0.5"),
            ("1e3", "the number 1000"),
            ("12e03", "the number 12000"),
            ("1.5E-3", "the number 0.0015"),
            ("6.8523015e+5", "the number 685230.15"),
            ("-2E+05", "the number -200000"),
            ("1e300", "the number 1e300"),
            ("1e99999999999", "the number 1e2147483647"),
            ("12345678901234567890", "the number 12345678901234567890 (with more digits than programs keep)"),
            ("NO", "false"),
            ("no", "false"),
            ("off", "false"),
            ("N", "false"),
            ("False", "false"),
            ("yes", "true"),
            ("On", "true"),
            ("Y", "true"),
            ("TRUE", "true"),
            ("~", "nothing"),
            ("", "nothing"),
            ("null", "nothing"),
            (".inf", "infinity"),
            ("-.INF", "minus infinity"),
            (".NaN", "the mark for no number"),
            ("<<", "the key that merges maps"),
            ("2026-09-14 10:00:00", "a moment of a clock, in another spelling"),
            ("2001-12-14t21:59:43.10-05:00", "a moment of a clock, in another spelling"),
        ];
        for (text, meaning) in cases {
            assert_eq!(plain(text).as_deref(), Some(meaning), "{text}");
        }
    }

    #[test]
    fn what_survives() {
        let cases = [
            "4",
            "0",
            "-4",
            "8.8",
            "10.9",
            "12.9",
            "0.5",
            "1200",
            "true",
            "false",
            "2026-09-14",
            "2026-10-2",
            "70 N·m",
            "M12x1.25",
            "0:45",
            "5:75",
            "5:400",
            "24 h",
            "50:1 ratio",
            "yes please",
            "nothing",
            "e3",
            "1e",
            "1e3x",
            "0x",
            "0xG",
            "0b2",
            "0o9",
            "-",
            "+",
            ".",
            "..",
            "1.2.3",
            "1:2:x",
            "≥ 12 h",
            "12-14",
            "2026-09-14T10",
            "a:b",
            "_1",
            "1,5",
            "−5",
            "5 %",
            "Orrinshaw",
            "inf",
            "nan",
            "-.nan",
        ];
        for text in cases {
            assert_eq!(plain(text), None, "{text}");
        }
        assert_eq!(retyped(&Scalar { text: "0714".to_owned(), quoted: true }), None);
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_answered(text in "[-+0-9a-zA-Z_.:~eE]{0,24}") {
            let _ = plain(&text);
        }

        #[test]
        fn every_whole_number_without_zeros_in_front_survives(n in -999_999_999i64..999_999_999) {
            proptest::prop_assert_eq!(plain(&n.to_string()), None);
        }
    }
}
