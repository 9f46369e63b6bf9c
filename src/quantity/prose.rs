//! Finding numbers with units in running text, where a value should have been a pointer.
//!
//! A rule built on this must be silent on good prose, or it is switched off. So:
//!
//! - **Found**: a number in digits (`26`, `0.64`, `22,5`, `1/4`, `1½`, a range, a tolerance, a size) followed, with or
//!   without a space or a hyphen, by a unit that is no English word: `26 N·m`, `25Nm`, `0.64 mm`, `60-mm`, `90°`,
//!   `130 °C`, `9 lbs`, `12 fl oz`, `2 gallons`, `5 min`, `24 hours`, `900 rpm`, `30x42x7 mm`. Bounds before the number
//!   are not part of what is found.
//! - **Found with care**: `h` `m` `g` `s` `d` `l` `L` `N` `K` alone, not after a word that numbers things (`step 4 d`, `figure 2 s`);
//!   all but `h` only at the end of a clause or before a word such as `of`, `and`, `at`; `s`, `d` and `K` not
//!   touching the number (`the 10s`, `3d printer`). A bare `C` or `F` the same, after two digits or more (`to 90 C`).
//!   `in` after a decimal or a fraction at the end of a clause or before such a word or a word of size (`1/4 in drive`,
//!   `0.020 in gap`, not `0.5 in 10`, nor `8.8 in steel`); after a whole number only before a word of size (`6 in long`).
//!   `bar` after a whole number like a letter, but not before `of` (`3 bar chain`, `1 bar of soap`).
//! - **Not found**: numbers in words (`two turns`, `half a turn`), `turn` and `revolution` (`gear 2 turns freely`), `%`,
//!   `second`, `pound`, `pt`, `mil`, `t`, `k`; numbers inside a word (`M8`, `M6x20 mm`, `PB-9`), clock times and dates.

use super::cursor::Cursor;
use super::number;
use super::spelling::{self, Meaning};
use std::ops::Range;

/// Units that are also English, money, printing or trade words, or name no value an act could hold.
const NEVER: &[&str] = &[
    "turn", "turns", "revolution", "revolutions", "second", "pound", "pounds", "pt", "pts", "mil", "mils", "t", "k", "kilo", "kilos", "%",
    "percent", "per cent",
];
/// Letters that are units only in the right company.
const LETTERS: &[&str] = &["h", "m", "g", "s", "d", "l", "L", "N", "K", "C", "F"];
/// Property classes of bolts: `10.9 in steel` is no length.
const CLASSES: &[&str] = &["3.6", "4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"];
/// How many words back a word that numbers things is looked for in a list: `bolts 3 d, 4 d and 5 d`.
const LIST_WORDS: usize = 8;
/// And how many letters.
const LOOKED_BACK: usize = 120;
const NOT_TOUCHING: &[&str] = &["s", "d", "K"];
/// How many numbers one value has at most: the three lengths of a size.
const MOST_NUMBERS: usize = 3;
/// Words that number things: what follows their number is no unit.
const LABELS: &[&str] = &[
    "step", "steps", "figure", "figures", "fig", "picture", "pictures", "page", "pages", "item", "items", "table", "sheet", "number", "no",
    "position", "positions", "balloon", "balloons", "chapter", "section", "note", "point", "points", "row", "column", "procedure", "bolt",
    "bolts", "nut", "nuts", "variant", "variants", "view", "part", "stage",
];
/// Words that may follow a unit of one letter.
const AFTER_LETTER: &[&str] = &[
    "above", "after", "and", "apart", "at", "away", "before", "below", "deep", "for", "from", "high", "is", "later", "less", "long", "more",
    "of", "off", "on", "or", "per", "then", "thick", "to", "until", "while", "wide", "with",
];
/// Words of size that may follow inches.
const AFTER_INCHES: &[&str] = &[
    "across", "backlash", "bit", "bolt", "bolts", "bore", "clearance", "deep", "diameter", "drill", "drive", "end", "extension", "feeler", "float",
    "gap", "hex", "high", "hose", "long", "oversize", "pipe", "plate", "play", "ratchet", "screw", "screws", "shim", "socket", "sockets",
    "spanner", "square", "thick", "thread", "undersize", "washer", "wear", "wide", "wrench",
];

/// The places in a running text that hold a number with a unit, in order, not overlapping: bytes of the text.
/// What exactly is found is told in the module's description.
pub fn find_in_prose(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    // Most sentences have no number: every one begins with a digit of some kind.
    if !text.bytes().any(|byte| byte.is_ascii_digit() || !byte.is_ascii()) {
        return found;
    }
    let mut cursor = Cursor::new(text);
    while let Some(sign) = cursor.peek() {
        let start = cursor.at();
        if starts_inside_a_word(&cursor) || is_diameter(sign) {
            cursor.skip(sign.len_utf8());
        } else if number::begins(&cursor) && let Some(end) = value_end(&cursor) {
            found.push(start..end);
            cursor.go_to(end);
        } else if sign.is_alphanumeric() {
            skip_word(&mut cursor);
        } else {
            cursor.skip(sign.len_utf8());
        }
    }
    found
}

/// `PB-9`, `8:20`, `#12`: a sign before the number ties it to something else.
fn starts_inside_a_word(cursor: &Cursor<'_>) -> bool {
    let before = cursor.between(0..cursor.at());
    let mut signs = before.chars().rev();
    match signs.next() {
        Some('-' | '–' | '−' | '/' | '.' | ',' | ':' | '_' | '+') => signs.next().is_some_and(char::is_alphanumeric),
        Some('#') => true,
        Some(sign) if is_diameter(sign) => false,
        Some(sign) => sign.is_alphanumeric(),
        None => false,
    }
}

/// `Ø62 mm`: a letter to Unicode, a sign on a drawing.
fn is_diameter(sign: char) -> bool {
    matches!(sign, 'Ø' | 'ø' | '⌀')
}

/// On to the end of a word, with all that hangs on it: `M6x20`, `2026-09-14`, `v1.2`.
fn skip_word(cursor: &mut Cursor<'_>) {
    while let Some(sign) = cursor.peek() {
        let mut ahead = cursor.clone();
        ahead.skip(sign.len_utf8());
        let tied = matches!(sign, '-' | '.' | ':' | '/' | '_' | ',') && ahead.peek().is_some_and(char::is_alphanumeric);
        if !(sign.is_alphanumeric() || tied) {
            break;
        }
        *cursor = ahead;
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Written {
    Whole { digits: usize },
    Decimal,
    Fraction,
}

/// Where the value ends that begins at the cursor, if it has a unit.
fn value_end(cursor: &Cursor<'_>) -> Option<usize> {
    let before = cursor.between(0..cursor.at());
    let mut ahead = cursor.clone();
    let written = eat_number(&mut ahead)?;
    let mut end = unit_end(&ahead, written, before);
    for _ in 1..MOST_NUMBERS {
        let Some(next) = after_joint(&ahead, end) else { break };
        ahead = next;
        let written = eat_number(&mut ahead)?;
        let Some(further) = unit_end(&ahead, written, before) else {
            // `2 mm to 3`: the second number is no part of it. `30x42`: perhaps the next one has the unit.
            if end.is_some() {
                break;
            }
            continue;
        };
        end = Some(further);
    }
    end
}

/// After a dash, `to`, `±` or a cross, where a number follows: what stands there. From `unit_end` on where there was a unit.
fn after_joint<'a>(cursor: &Cursor<'a>, unit_end: Option<usize>) -> Option<Cursor<'a>> {
    const JOINTS: &[&str] = &["–", "—", "-", "−", "±", "+/-", "x", "×", "to "];
    let mut ahead = cursor.clone();
    if let Some(end) = unit_end {
        ahead.go_to(end);
    }
    ahead.skip_spaces();
    JOINTS.iter().any(|joint| ahead.eat(joint)).then_some(())?;
    ahead.skip_spaces();
    number::begins(&ahead).then_some(ahead)
}

/// Steps over a number, commas and all: what is wrong with it is not asked here.
fn eat_number(cursor: &mut Cursor<'_>) -> Option<Written> {
    cursor.eat_any(&['-', '−', '–', '+']);
    let digits = cursor.eat_digits().len();
    let mut written = Written::Whole { digits };
    loop {
        let mut ahead = cursor.clone();
        if ahead.eat_any(&['.', ',']).is_none() || ahead.eat_digits().is_empty() {
            break;
        }
        *cursor = ahead;
        written = Written::Decimal;
    }
    if eat_fraction(cursor, digits > 0) {
        written = Written::Fraction;
    }
    (written != Written::Whole { digits: 0 }).then_some(written)
}

fn eat_fraction(cursor: &mut Cursor<'_>, after_digits: bool) -> bool {
    let mut ahead = cursor.clone();
    let mut whole = true;
    if !(after_digits && ahead.eat("/")) {
        ahead.skip_spaces();
        if let Some(sign) = ahead.peek().filter(|sign| number::is_raised(*sign)) {
            ahead.skip(sign.len_utf8());
            *cursor = ahead;
            return true;
        }
        whole = after_digits && !ahead.eat_digits().is_empty() && ahead.eat("/");
    }
    let fraction = whole && !ahead.eat_digits().is_empty();
    if fraction {
        *cursor = ahead;
    }
    fraction
}

/// Where the unit ends that belongs to the number just read.
fn unit_end(cursor: &Cursor<'_>, written: Written, before: &str) -> Option<usize> {
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    let touching = ahead.at() == cursor.at();
    let hyphen = touching && ahead.eat("-");
    let (length, meaning) = spelling::leading(ahead.rest())?;
    // The stop behind `25 Nm.` ends the sentence, not the unit.
    let spelling = ahead.between(ahead.at()..ahead.at() + length).trim_end_matches('.');
    let start = ahead.at();
    ahead.skip(spelling.len());
    let company = Company { written, digits: last_digits(cursor), before, touching, hyphen, rest: ahead.rest() };
    company.suits(spelling, meaning).then_some(start + spelling.len())
}

/// The digits and points that end where the cursor stands.
fn last_digits<'a>(cursor: &Cursor<'a>) -> &'a str {
    let read = cursor.between(0..cursor.at());
    let start = read.trim_end_matches(|sign: char| sign.is_ascii_digit() || sign == '.').len();
    read.get(start..).unwrap_or("")
}

/// What stands around a unit.
struct Company<'a> {
    written: Written,
    digits: &'a str,
    before: &'a str,
    touching: bool,
    hyphen: bool,
    rest: &'a str,
}

impl Company<'_> {
    fn suits(&self, spelling: &str, meaning: Meaning) -> bool {
        if NEVER.contains(&spelling) || (self.hyphen && (spelling.len() < 2 || spelling == "in")) {
            return false;
        }
        match spelling {
            "in" => self.suits_inches(),
            "bar" | "bars" if matches!(self.written, Written::Whole { .. }) => self.in_company() && self.word_after() != "of",
            letter if LETTERS.contains(&letter) => self.suits_letter(letter),
            _ => matches!(meaning, Meaning::Unit(_) | Meaning::Vague(_)),
        }
    }

    fn suits_letter(&self, letter: &str) -> bool {
        let parted = !self.touching || !NOT_TOUCHING.contains(&letter);
        let scale = matches!(letter, "C" | "F");
        let long_enough = !scale || !matches!(self.written, Written::Whole { digits: 0..=1 });
        let hours = letter == "h" && !self.rest.starts_with(['-', '\'', '’']);
        parted && long_enough && !numbers_a_thing(self.before) && (hours || self.in_company())
    }

    fn suits_inches(&self) -> bool {
        let of_size = AFTER_INCHES.contains(&self.word_after().as_str());
        let class = self.written == Written::Decimal && CLASSES.contains(&self.digits);
        let whole = matches!(self.written, Written::Whole { .. });
        of_size || (!whole && !class && self.in_company())
    }

    /// At the end of a clause, or before a word that may follow a value.
    fn in_company(&self) -> bool {
        self.clause_ends() || AFTER_LETTER.contains(&self.word_after().as_str())
    }

    fn clause_ends(&self) -> bool {
        self.rest.trim_start().is_empty() || self.rest.starts_with(['.', ',', ';', ':', ')', '!', '?', '–', '—', ']', '”', '\n'])
    }

    fn word_after(&self) -> String {
        self.rest.trim_start().chars().take_while(|sign| sign.is_alphanumeric()).collect::<String>().to_lowercase()
    }
}

/// Whether the words before a number make it the number of a thing: `step 4`, `bolts 3 d, 4 d and 5`.
fn numbers_a_thing(before: &str) -> bool {
    let from = before.char_indices().rev().nth(LOOKED_BACK).map_or(0, |(at, _)| at);
    let clause = before.get(from..).unwrap_or("").rsplit(['!', '?', ';', '\n']).next().unwrap_or("");
    let mut words = clause.split(|sign: char| !sign.is_alphanumeric() && sign != ',').filter(|word| !word.is_empty()).rev();
    let Some(last) = words.next() else { return false };
    let label = |word: &str| LABELS.contains(&word.trim_matches(',').to_lowercase().as_str());
    let in_a_list = matches!(last, "and" | "or" | "to" | ",") || last.ends_with(',');
    label(last) || (in_a_list && words.take(LIST_WORDS).any(label))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Vec<&str> {
        find_in_prose(text).into_iter().map(|span| &text[span]).collect()
    }

    #[test]
    fn values_are_found() {
        for (text, values) in [
            ("Torque to 26 N·m, then mark.", vec!["26 N·m"]), ("Set it to 25Nm.", vec!["25Nm"]), ("Do it at 18 ft-lb or 24 N.m", vec!["18 ft-lb", "24 N.m"]),
            ("Nip it to 9 lbs and stop", vec!["9 lbs"]), ("Warm the carrier to 130 °C first", vec!["130 °C"]), ("aim for 0.64 mm of play", vec!["0.64 mm"]),
            ("then another 90° in one pull", vec!["90°"]), ("wait 12 h before filling", vec!["12 h"]), ("a 24 h cure", vec!["24 h"]), ("cures in 24 hours", vec!["24 hours"]),
            ("with a 60 mm driver", vec!["60 mm"]), ("with a 60-mm driver", vec!["60-mm"]), ("70 to 80 N·m", vec!["70 to 80 N·m"]), ("70–80 N·m", vec!["70–80 N·m"]),
            ("75 ± 5 N·m", vec!["75 ± 5 N·m"]), ("a 30x42x7 mm seal", vec!["30x42x7 mm"]), ("pour in 22,5 mL", vec!["22,5 mL"]), ("use the 1/4 in drive", vec!["1/4 in"]),
            ("a gap of 0.020 in at most", vec!["0.020 in"]), ("a 6 in long bar", vec!["6 in"]), ("it is 1 1/4 in.", vec!["1 1/4 in"]), ("½ in thick", vec!["½ in"]),
            ("stand it 2 m from the wall", vec!["2 m"]), ("a smear, 5 g of it", vec!["5 g"]), ("hold for 3 s.", vec!["3 s"]), ("1 L of oil", vec!["1 L"]),
            ("pull with 20 N and read", vec!["20 N"]), ("a rise of 40 K.", vec!["40 K"]), ("heat it to 90 C, then", vec!["90 C"]), ("12 fl oz goes in", vec!["12 fl oz"]),
            ("at -18 °C it shrinks", vec!["-18 °C"]), ("from −55 to 150 °C", vec!["−55 to 150 °C"]), ("at 900 rpm", vec!["900 rpm"]), ("test at 0.35 bar", vec!["0.35 bar"]),
            ("M8 bolts go to 24 N·m", vec!["24 N·m"]), ("M6 x 20 mm screws", vec!["20 mm"]), ("2 mm to 3 mm", vec!["2 mm to 3 mm"]), ("2 mm to 3 places", vec!["2 mm"]),
            ("between 70 and 80 N·m", vec!["80 N·m"]), ("in 10 min, 20 min at the most", vec!["10 min", "20 min"]), ("(3 mm)", vec!["3 mm"]), ("the Ø62 mm bore", vec!["62 mm"]),
            ("press at 2 bar.", vec!["2 bar"]), ("a 0.020 in gap", vec!["0.020 in"]), ("1/2-inch drive", vec!["1/2-inch"]), ("hold 3 s or 4 s.", vec!["3 s", "4 s"]),
        ] {
            assert_eq!(found(text), values, "{text}");
        }
    }

    #[test]
    fn good_prose_is_left_alone() {
        for text in [
            "Two turns the running way, and the marks meet again.", "Turn it half a turn at a time.", "See step 4 before you go on.", "Eight M8 bolts, class 8.8.",
            "Put 2 in and leave the others out.", "About 1 in 5 fail here.", "There are 3 in the box.", "Fit 4 in order.", "Put the other 2 in.", "Leave 3 in.",
            "Parts 1 to 4 in the picture", "with 1/2 in the vice", "a slope of 0.5 in 10", "a 3-in-1 oil", "Step 4 d is next.", "figure 2 s shows it", "bolts 3 F and 12 F",
            "variants 12 C and 12 F", "the 10s and the 12s", "a 3d printed sleeve", "a 3 d printer", "a 10K resistor", "gear 2 turns freely", "after 3 turns it sits",
            "the 2 second gears", "spend 20 pounds", "ISO 4014, revision 3 of 2026-09-14", "at 8:20 in the film", "from 8:20–9:05 m", "Part 0714 is superseded.", "PB-9 plates",
            "M8x1.25 in the head", "M6x20 mm is wrong here", "Six bolts in by hand, last two bolts in.", "Item 3 is a spacer; 4 of them.", "It sits 60 % of the way.",
            "The 4 N stamped on it", "shaft L and 2 L shafts", "class 10.9 in steel, 8.8 in the rest", "put the 8.8 in, then the 10.9 in.",
            "use 1 bar of soap", "a 3 bar chain", "bolts 3 d, 4 d and 5 d.", "the 4-bar linkage", "1, 2 and 3 are numbered", "Tighten 1-4-2-5-3-6.", "",
            "the 1st and the 2nd", "Use 80W-90.", "numbers 5 and 6 go in last", "see balloon 7 in the drawing",
        ] {
            assert_eq!(found(text), Vec::<&str>::new(), "{text}");
        }
    }
}
