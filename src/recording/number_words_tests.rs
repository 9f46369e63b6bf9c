//! Spoken numbers: samples, and every number spelled out and read back. The spelling is plain English usage.

use super::spoken_number;
use proptest::prelude::*;

const SMALL: [&str; 20] = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    "seventeen", "eighteen", "nineteen",
];
const TENS: [&str; 10] = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// A number below a million in words, with or without “and”, with or without “a” for one.
fn spelled(number: usize, and: bool, article: bool) -> String {
    let one = |n: usize| if article && n == 1 { "a".to_owned() } else { spelled(n, and, false) };
    let rest = |n: usize| match n {
        0 => String::new(),
        n if and && n < 100 => format!(" and {}", spelled(n, and, false)),
        n => format!(" {}", spelled(n, and, false)),
    };
    match number {
        0..20 => SMALL[number].to_owned(),
        20..100 if number.is_multiple_of(10) => TENS[number / 10].to_owned(),
        20..100 => format!("{}-{}", TENS[number / 10], SMALL[number % 10]),
        100..1000 => format!("{} hundred{}", one(number / 100), rest(number % 100)),
        _ => format!("{} thousand{}", one(number / 1000), rest(number % 1000)),
    }
}

fn read(text: &str) -> Option<(Vec<String>, usize)> {
    let words: Vec<&str> = text.split([' ', '-']).collect();
    spoken_number(&words).map(|number| (number.readings, number.words))
}

fn clear(text: &str) -> String {
    let (readings, words) = read(text).unwrap_or_else(|| panic!("{text}"));
    assert_eq!((readings.len(), words), (1, text.split([' ', '-']).count()), "{text}: {readings:?}");
    readings[0].clone()
}

#[test]
fn every_number_to_ten_thousand_reads_back() {
    for number in 0..=10_000 {
        for (and, article) in [(false, false), (true, false), (true, true)] {
            let words = spelled(number, and, article);
            assert_eq!(clear(&words), number.to_string(), "{words}");
        }
    }
}

#[test]
fn decimals_and_fractions_are_read() {
    for (text, number) in [
        ("two point five", "2.5"), ("nought point oh five", "0.05"), ("point one two", "0.12"), ("zero point zero zero four", "0.004"),
        ("twenty-two point seven five", "22.75"), ("one point twenty-five", "1.25"), ("nine point 5", "9.5"), ("point oh fifteen", "0.015"), ("half", "1/2"),
        ("half a", "1/2"), ("a quarter of a", "1/4"), ("three quarters of a", "3/4"), ("two and a half", "2 1/2"), ("one and three quarters", "1 3/4"),
        ("three-eighths of an", "3/8"), ("five sixteenths", "5/16"), ("five thirty-seconds", "5/32"), ("22", "22"), (".5", "0.5"), ("0.020", "0.020"),
        ("3/8", "3/8"), ("1 1/4", "1 1/4"), ("2½", "2 1/2"), ("¼", "1/4"), ("2 and a half", "2 1/2"), ("twenty-two hundred", "2200"),
        ("2 point 5", "2.5"), ("22 point seven five", "22.75"), ("one twenty point five", "120.5"), ("one twenty and a half", "120 1/2"),
    ] {
        assert_eq!(clear(text), number, "{text}");
    }
}

#[test]
fn what_can_be_heard_in_two_ways_keeps_both() {
    for (text, readings) in [
        ("one twenty", ["120", "1.20"]), ("two two five", ["225", "2.25"]), ("two fifty", ["250", "2.50"]), ("1,250", ["1250", "1.250"]),
    ] {
        assert_eq!(read(text).unwrap().0, readings, "{text}");
    }
    for (text, readings) in [
        ("one oh five", ["105", "1.05"]), ("one o five", ["105", "1.05"]), ("one zero five", ["105", "1.05"]), ("two oh eight", ["208", "2.08"]),
        ("one oh oh five", ["1005", "1.005"]), ("one hundred oh five", ["105", "100.05"]), ("one thousand oh five", ["1005", "1000.05"]), ("twenty oh five", ["2005", "20.05"]),
        ("zero five", ["5", "0.5"]),
    ] {
        assert_eq!(read(text), Some((readings.map(str::to_owned).to_vec(), text.split(' ').count())), "{text}");
    }
    // Two that rise and are as long may be a range.
    for (text, readings) in [
        ("thirty thirty-five", ["30–35", "3035", "30.35"]), ("five six", ["5–6", "56", "5.6"]), ("fifteen twenty", ["15–20", "1520", "15.20"]), ("two oh", ["20", "2.0", "2"]),
    ] {
        assert_eq!(read(text), Some((readings.map(str::to_owned).to_vec(), text.split([' ', '-']).count())), "{text}");
    }
    assert_eq!(read("22,5").unwrap().0, ["22.5"]);
    assert_eq!(read("12,250.5").unwrap().0, ["12250.5"]);
}

#[test]
fn other_words_are_no_number() {
    for text in ["", "and five", "a bolt", "newton metres", "hundred", "point", "to", "1234567890", "1/7", "1.2.3", "8.2.1", "a", "oh well"] {
        assert_eq!(read(text), None, "{text}");
    }
    // A number ends where its words end.
    for (text, number, words) in [("five and the", "5", 1), ("two newton metres", "2", 1), ("a hundred and the", "100", 2), ("six bolts", "6", 1), ("three point", "3", 1)] {
        assert_eq!(read(text), Some((vec![number.to_owned()], words)), "{text}");
    }
}

proptest! {
    #[test]
    fn numbers_below_a_million_read_back(number in 0_usize..1_000_000, and: bool, article: bool) {
        prop_assert_eq!(clear(&spelled(number, and, article)), number.to_string());
    }

    #[test]
    fn decimals_read_back_digit_by_digit(whole in 0_usize..1000, digits in "[0-9]{1,5}", and: bool) {
        let spoken: Vec<&str> = digits.bytes().map(|digit| SMALL[usize::from(digit - b'0')]).collect();
        let words = format!("{} point {}", spelled(whole, and, false), spoken.join(" "));
        prop_assert_eq!(clear(&words), format!("{whole}.{digits}"));
    }

    #[test]
    fn figures_stand_for_themselves(whole in 0_u32..100_000, digits in "[0-9]{0,4}") {
        let text = if digits.is_empty() { whole.to_string() } else { format!("{whole}.{digits}") };
        prop_assert_eq!(clear(&text), text);
    }

    #[test]
    fn no_words_make_it_fail(words in prop::collection::vec(prop_oneof![Just("and".to_owned()), Just("a".to_owned()), Just("point".to_owned()), Just("hundred".to_owned()),
        Just("thousand".to_owned()), Just("half".to_owned()), Just("thirty".to_owned()), Just("seconds".to_owned()), "[a-z]{0,6}", "[0-9.,/½]{0,12}", "\\PC{0,6}"], 0..24)) {
        let given: Vec<&str> = words.iter().map(String::as_str).collect();
        if let Some(number) = spoken_number(&given) {
            prop_assert!(number.words >= 1 && number.words <= given.len());
            prop_assert!(!number.readings.is_empty());
            for reading in &number.readings {
                prop_assert!(benchleaf_reads(reading), "{reading}");
            }
        }
    }
}

/// Whether a reading is a number as quantities are written.
fn benchleaf_reads(reading: &str) -> bool {
    crate::quantity::Quantity::parse_free(&format!("{reading} mm")).is_ok()
}
