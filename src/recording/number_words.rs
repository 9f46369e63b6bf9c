//! Numbers as they are spoken: “twenty-two”, “two and a half”, “nought point oh five”, “three quarters”, and figures.
//!
//! A number that can be heard in several ways (“one twenty”, “22,5”) keeps all its readings; nothing is guessed.

/// Most words a number may have; a longer run of number words is no number.
const MOST_WORDS: usize = 16;
/// Most digits of a figure; what is longer is a serial number.
const MOST_DIGITS: usize = 9;

/// A spoken number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpokenNumber {
    /// The number in figures as a quantity is written (`22`, `0.05`, `2 1/2`), once for each way to hear it.
    pub readings: Vec<String>,
    /// How many words it takes.
    pub words: usize,
}

impl SpokenNumber {
    fn clear(reading: String, words: usize) -> Self {
        Self { readings: vec![reading], words }
    }
}

/// Reads the number that words begin with. Words are in lower case, without signs around them and cut at their hyphens:
/// `["twenty", "two", "newton", "metres"]`. None where they begin with no number.
#[must_use]
pub fn spoken_number(words: &[&str]) -> Option<SpokenNumber> {
    let words = words.get(..words.len().min(MOST_WORDS)).unwrap_or(words);
    figure(words).or_else(|| fraction_alone(words)).or_else(|| in_words(words))
}

/// A number in figures, with a fraction or a word of magnitude behind it.
fn figure(words: &[&str]) -> Option<SpokenNumber> {
    let first = *words.first()?;
    if let Some(vulgar) = vulgar(first) {
        return Some(SpokenNumber::clear(vulgar.to_owned(), 1));
    }
    let whole: String = first.chars().take_while(char::is_ascii_digit).collect();
    let digits = first.chars().filter(char::is_ascii_digit).count();
    let plain = first.chars().all(|sign| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '/'));
    // `.5` is a figure too; a point or comma at an end was a sentence's and is gone by now.
    let begins = !whole.is_empty() || (first.starts_with('.') && digits > 0);
    if let Some((number, sign)) = split_vulgar(first) {
        return Some(SpokenNumber::clear(format!("{number} {sign}"), 1));
    }
    let ends = !first.ends_with(['.', ',']);
    if !plain || !begins || !ends || digits > MOST_DIGITS || first.matches(['.', '/']).count() > 1 {
        return None;
    }
    if first.contains('/') {
        return is_fraction(first).then(|| SpokenNumber::clear(first.to_owned(), 1));
    }
    if first.contains(',') {
        return with_comma(first).map(|readings| SpokenNumber { readings, words: 1 });
    }
    let number = if first.starts_with('.') { format!("0{first}") } else { first.to_owned() };
    let rest = words.get(1..).unwrap_or_default();
    match rest {
        ["point", digits @ ..] if !number.contains('.') => {
            let behind = behind_point(digits).map(|(text, count)| SpokenNumber::clear(format!("{number}.{text}"), 2 + count));
            Some(behind.unwrap_or_else(|| SpokenNumber::clear(number, 1)))
        }
        [fraction, ..] if !number.contains('.') && is_fraction(fraction) => Some(SpokenNumber::clear(format!("{number} {fraction}"), 2)),
        ["and", ..] if !number.contains('.') => {
            let (text, taken) = tail_fraction(rest).unwrap_or_default();
            Some(if taken == 0 { SpokenNumber::clear(number, 1) } else { SpokenNumber::clear(format!("{number} {text}"), 1 + taken) })
        }
        _ => Some(SpokenNumber::clear(number, 1)),
    }
}

/// `22,5` is a decimal comma, `1,250` may be either, `1,250.5` and `12,250,000` are thousands.
fn with_comma(text: &str) -> Option<Vec<String>> {
    let groups: Vec<&str> = text.split(',').collect();
    let whole_groups = groups.iter().skip(1).all(|group| group.split('.').next().is_some_and(|digits| digits.len() == 3));
    let thousands = whole_groups && groups.first().is_some_and(|first| (1..=3).contains(&first.len()));
    let decimal = groups.len() == 2 && !text.contains('.') && groups.iter().all(|group| !group.is_empty());
    let mut readings = Vec::new();
    if thousands {
        readings.push(groups.concat());
    }
    if decimal {
        readings.push(text.replace(',', "."));
    }
    (!readings.is_empty()).then_some(readings)
}

/// `3/8`: below one, and a fraction of a ruler or a machinist.
fn is_fraction(text: &str) -> bool {
    let Some((above, below)) = text.split_once('/') else { return false };
    let plain = |part: &str| (1..=2).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    let value = |part: &str| part.parse::<u32>().unwrap_or(0);
    plain(above) && plain(below) && value(above) > 0 && value(above) < value(below) && matches!(value(below), 2 | 3 | 4 | 6 | 8 | 16 | 32 | 64)
}

fn vulgar(text: &str) -> Option<&'static str> {
    Some(match text {
        "½" => "1/2",
        "¼" => "1/4",
        "¾" => "3/4",
        "⅛" => "1/8",
        "⅜" => "3/8",
        "⅝" => "5/8",
        "⅞" => "7/8",
        "⅓" => "1/3",
        "⅔" => "2/3",
        _ => return None,
    })
}

/// `2½`.
fn split_vulgar(text: &str) -> Option<(&str, &'static str)> {
    let at = text.char_indices().next_back()?.0;
    let (number, sign) = text.split_at_checked(at)?;
    let plain = (1..=MOST_DIGITS).contains(&number.len()) && number.bytes().all(|byte| byte.is_ascii_digit());
    Some((number, vulgar(sign).filter(|_| plain)?))
}

/// “half”, “half a”, “a quarter of a”, “three quarters”, “five eighths of an”.
fn fraction_alone(words: &[&str]) -> Option<SpokenNumber> {
    let (above, mut taken) = match words {
        ["a" | "an", next, ..] if denominator(next).is_some() => (1, 1),
        [first, next, ..] if small(first).is_some() && denominator(next).is_some() => (small(first)?, 1),
        [first, ..] if denominator(first).is_some() => (1, 0),
        _ => return None,
    };
    let (below, names) = denominator_of(words.get(taken..).unwrap_or_default())?;
    taken += names;
    // “seconds” are a time unless “thirty” stands before them, and “tenths” are a unit of their own.
    if above >= below {
        return None;
    }
    taken += of_a(words.get(taken..).unwrap_or_default());
    Some(SpokenNumber::clear(format!("{above}/{below}"), taken))
}

/// “of a”, “of an”, “a”, “an” between a fraction and its unit.
fn of_a(words: &[&str]) -> usize {
    match words {
        ["of", "a" | "an", ..] => 2,
        ["a" | "an", ..] => 1,
        _ => 0,
    }
}

/// “and a half”, “and three quarters”: the fraction, and how many words it takes.
fn tail_fraction(words: &[&str]) -> Option<(String, usize)> {
    let ["and", rest @ ..] = words else { return None };
    let fraction = fraction_alone(rest)?;
    // “two and a half a”: an article behind it is no part of it.
    let text = fraction.readings.into_iter().next()?;
    Some((text, fraction.words + 1))
}

fn denominator(word: &str) -> Option<u32> {
    Some(match word {
        "half" | "halves" => 2,
        "third" | "thirds" => 3,
        "quarter" | "quarters" => 4,
        "sixth" | "sixths" => 6,
        "eighth" | "eighths" => 8,
        "sixteenth" | "sixteenths" => 16,
        "thirtysecond" | "thirtyseconds" => 32,
        "sixtyfourth" | "sixtyfourths" => 64,
        _ => return None,
    })
}

/// A denominator of one or two words: “eighths”, “thirty seconds”.
fn denominator_of(words: &[&str]) -> Option<(u32, usize)> {
    match words {
        ["thirty", "second" | "seconds", ..] => Some((32, 2)),
        ["sixty", "fourth" | "fourths", ..] => Some((64, 2)),
        [first, ..] => denominator(first).map(|below| (below, 1)),
        [] => None,
    }
}

/// Zero to nineteen.
fn small(word: &str) -> Option<u32> {
    const WORDS: [&str; 20] = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen",
        "sixteen", "seventeen", "eighteen", "nineteen",
    ];
    let at = WORDS.iter().position(|known| *known == word)?;
    u32::try_from(at).ok()
}

fn tens(word: &str) -> Option<u32> {
    const WORDS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let at = WORDS.iter().position(|known| *known == word || (word == "fourty" && *known == "forty"))?;
    u32::try_from(at).ok().map(|at| (at + 2) * 10)
}

/// A digit behind a point: “oh” and “nought” too.
fn digit(word: &str) -> Option<u32> {
    if is_nought(word) { Some(0) } else { small(word).filter(|digit| *digit < 10) }
}

/// A nought that is no number by itself: “oh” between digits.
pub(super) fn is_nought(word: &str) -> bool {
    matches!(word, "oh" | "o" | "nought" | "naught" | "nil")
}

/// Words: whole numbers side by side, then a point with digits, or a fraction.
fn in_words(words: &[&str]) -> Option<SpokenNumber> {
    let (first, begun) = match words {
        ["nought" | "naught" | "oh", "point", ..] => (0, 1),
        ["point", ..] => (0, 0),
        _ => whole(words)?,
    };
    let rest = |taken: usize| words.get(taken..).unwrap_or_default();
    // “five sixteenths” was a fraction; “thirty seconds” and “two sixty-fourths” come here.
    if let Some((below @ (32 | 64), count)) = denominator_of(rest(begun)).filter(|(below, _)| first > 0 && first < *below) {
        let all = begun + count;
        return Some(SpokenNumber::clear(format!("{first}/{below}"), all + of_a(rest(all))));
    }
    let (mut parts, taken) = if begun == 0 { (vec![first.to_string()], 0) } else { parts(words, first, begun) };
    if let ["point", digits @ ..] = rest(taken) {
        let Some((text, count)) = behind_point(digits) else {
            return (taken > 0).then(|| SpokenNumber { readings: side_by_side(&parts), words: taken });
        };
        return Some(SpokenNumber::clear(format!("{}.{text}", as_one(&parts)), taken + 1 + count));
    }
    if let Some((text, count)) = tail_fraction(rest(taken)) {
        let whole = as_one(&parts);
        return Some(SpokenNumber::clear(if whole == "0" { text } else { format!("{whole} {text}") }, taken + count));
    }
    // “Two oh” is 20 or 2.0; “two. Oh, …” is two.
    let noughts = rest(taken).iter().take_while(|word| is_nought(word)).count();
    let plain = side_by_side(&parts);
    if noughts == 0 {
        return Some(SpokenNumber { readings: plain, words: taken });
    }
    parts.push("0".repeat(noughts));
    let readings = side_by_side(&parts).into_iter().chain(plain).collect();
    Some(SpokenNumber { readings, words: taken + noughts })
}

/// The numbers that stand side by side from a first one on, with the noughts between them, and how many words they take.
fn parts(words: &[&str], first: u32, mut taken: usize) -> (Vec<String>, usize) {
    let mut parts = vec![first.to_string()];
    loop {
        let rest = words.get(taken..).unwrap_or_default();
        let noughts = rest.iter().take_while(|word| is_nought(word)).count();
        let behind = rest.get(noughts..).unwrap_or_default();
        let is_other = matches!(behind.first(), Some(&("a" | "an"))) || denominator_of(behind).is_some();
        let Some((next, count)) = whole(behind).filter(|_| !is_other) else { return (parts, taken) };
        parts.extend((0..noughts).map(|_| "0".to_owned()));
        parts.push(next.to_string());
        taken += noughts + count;
    }
}

/// “one twenty” is 120 or 1.20; “two two five” is 225 or 2.25; “one hundred oh five” is 105 or 100.05; “thirty thirty-five” may be a range, too.
pub(super) fn side_by_side(parts: &[String]) -> Vec<String> {
    match parts {
        [only] => vec![only.clone()],
        [first, rest @ ..] => {
            let behind = rest.concat();
            let range = (first.len() == behind.len() && rest.len() == 1 && *first < behind && first != "0").then(|| format!("{first}–{behind}"));
            range.into_iter().chain([as_one(parts), format!("{first}.{behind}")]).collect()
        }
        [] => Vec::new(),
    }
}

/// Numbers side by side as one whole number. What stands behind hundreds or thousands and fills their noughts is added: nobody says 10005 as
/// “one hundred oh five”.
fn as_one(parts: &[String]) -> String {
    let [first, rest @ ..] = parts else { return String::new() };
    let behind = rest.concat();
    if rest.is_empty() {
        return first.clone();
    }
    let round = first.len() > 2 && first.ends_with(&"0".repeat(behind.len())) && behind.len() < first.len();
    let kept = if round { first.len() - behind.len() } else { first.len() };
    let text = format!("{}{behind}", first.get(..kept).unwrap_or_default());
    plain(&text).to_owned()
}

/// Without noughts before it.
fn plain(digits: &str) -> &str {
    let cut = digits.trim_start_matches('0');
    if cut.is_empty() { "0" } else { cut }
}

/// What a number comes to that another one touches, with noughts between them: as one, as those said in words are; alone; or, where they make none
/// together, the other one.
pub(super) fn touching(before: &[String], noughts: usize, own: &[String]) -> Vec<String> {
    let whole = |text: &&String| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let behind = |text: &String| format!("{}{text}", "0".repeat(noughts));
    let mut all = Vec::new();
    for first in before.iter().filter(whole) {
        for second in own.iter().filter(whole) {
            all.extend(side_by_side(&[first.clone(), behind(second)]));
        }
    }
    let others = if all.is_empty() { before } else { &[] };
    all.extend(own.iter().map(|text| if whole(&text) { plain(text).to_owned() } else { text.clone() }));
    all.extend_from_slice(others);
    all
}

/// The digits behind a point: one by one (“two five”), or as a number below a hundred (“twenty-five”).
fn behind_point(words: &[&str]) -> Option<(String, usize)> {
    let mut text = String::new();
    let mut taken = 0;
    while let Some(word) = words.get(taken) {
        if let Some(digit) = digit(word) {
            text.push_str(&digit.to_string());
            taken += 1;
        } else if let Some(teen) = small(word).filter(|_| text.chars().all(|digit| digit == '0')) {
            text.push_str(&teen.to_string());
            return Some((text, taken + 1));
        } else if let Some(ten) = tens(word).filter(|_| text.chars().all(|digit| digit == '0')) {
            let unit = words.get(taken + 1).and_then(|word| small(word)).filter(|unit| (1..10).contains(unit));
            text.push_str(&(ten + unit.unwrap_or(0)).to_string());
            return Some((text, taken + 1 + usize::from(unit.is_some())));
        } else if !text.is_empty() || taken > 0 || !word.bytes().all(|byte| byte.is_ascii_digit()) || word.len() > MOST_DIGITS || word.is_empty() {
            break;
        } else {
            return Some(((*word).to_owned(), 1));
        }
    }
    (!text.is_empty() && text.len() <= MOST_DIGITS).then_some((text, taken))
}

/// A whole number below a million, and how many words it takes.
fn whole(words: &[&str]) -> Option<(u32, usize)> {
    let (mut thousands, mut current, mut taken) = (None, None::<u32>, 0);
    // What may be added to what stands: units behind tens, anything below a hundred behind hundreds.
    let mut room = 100;
    loop {
        let word = words.get(taken).copied().unwrap_or_default();
        let next = words.get(taken + 1).copied().unwrap_or_default();
        let joins = current.is_some() || thousands.is_some();
        if matches!(word, "a" | "an") && !joins && matches!(next, "hundred" | "thousand") {
            current = Some(1);
            room = 0;
        } else if let Some(value) = small(word).filter(|value| *value < room && (*value > 0 || !joins)) {
            current = Some(current.unwrap_or(0) + value);
            room = 0;
        } else if let Some(value) = tens(word).filter(|value| *value < room) {
            current = Some(current.unwrap_or(0) + value);
            room = 10;
        } else if word == "hundred" && current.is_some_and(|current| (1..100).contains(&current)) {
            current = current.map(|current| current * 100);
            room = 100;
        } else if word == "thousand" && thousands.is_none() && current.is_some_and(|current| (1..1000).contains(&current)) {
            thousands = current.map(|current| current * 1000);
            current = None;
            room = 100;
        } else if word == "and" && room == 100 && joins && (small(next).is_some_and(|value| value > 0) || tens(next).is_some()) && fraction_alone(words.get(taken + 1..).unwrap_or_default()).is_none() {
            // “a hundred and five”: the word between.
        } else {
            break;
        }
        taken += 1;
    }
    let value = thousands.unwrap_or(0).checked_add(current.unwrap_or(0))?;
    (taken > 0).then_some((value, taken))
}

#[cfg(test)]
#[path = "number_words_tests.rs"]
mod tests;
