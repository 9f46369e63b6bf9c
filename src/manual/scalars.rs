//! Reading a single value by its shape: counts, dates, quantities, words.

use super::read::Reader;
use super::reading::Reading;
use super::rules;
use super::shape::Shape;
use super::shop::Date;
use crate::finding::{Finding, Place, nearest};
use crate::quantity::{Moment, MomentSpan, Quantity, QuantityError, Size};
use crate::source::{Node, Scalar, retyped};
use crate::trade::thread::{Thread, ThreadError};

impl Reader<'_> {
    pub(super) fn pair_of_numbers(&mut self, node: &Node, items: &[Node]) -> Option<Reading> {
        let number = |node: &Node| node.text().and_then(plain_number);
        if let [x, y] = items
            && let (Some(x), Some(y)) = (number(x), number(y)) {
                return Some(Reading::Pair(x, y));
            }
        self.another_form(&Shape::Pair, node);
        None
    }

    pub(super) fn scalar(&mut self, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<Reading> {
        let text = scalar.text.trim();
        if let Some(question) = text.strip_prefix('?') {
            self.unanswered(node, question.trim(), shape);
            return None;
        }
        match shape {
            Shape::Count => plain_count(text).map(Reading::Count).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Flag => match text {
                "true" => Some(Reading::Flag(true)),
                "false" => Some(Reading::Flag(false)),
                _ => self.refuse(shape, node, scalar),
            },
            Shape::Date => Date::parse(text).map(Reading::Date).or_else(|| self.no_date(shape, node, scalar)),
            Shape::Months => months(text).map(Reading::Count).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Quantity(dimensions) => {
                self.quantity(Quantity::parse_any(text, dimensions), shape, node, scalar).map(|q| Reading::Quantity(Box::new(q)))
            }
            Shape::AnyQuantity => {
                self.quantity(Quantity::parse_free(text), shape, node, scalar).map(|q| Reading::Quantity(Box::new(q)))
            }
            Shape::Size => self.quantity(Size::parse(text), shape, node, scalar).map(|size| Reading::Size(Box::new(size))),
            _ if self.trapped(node, scalar) => None,
            Shape::Text | Shape::AsWritten => Some(Reading::Text(scalar.text.trim().to_owned())),
            Shape::Words(words) if words.contains(&text) => Some(Reading::Text(text.to_owned())),
            Shape::Words(words) => self.unknown_word(words, node, text),
            Shape::Id => Some(Reading::Text(text.to_owned())),
            Shape::Thread => self.thread(node, text),
            Shape::Moment => Moment::parse(text).ok().map(Reading::Moment).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Span => MomentSpan::parse(text).ok().map(Reading::Span).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Percent => percent(text).map(|(x, y)| Reading::Percent(x, y)).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Pair | Shape::List(_) | Shape::Map(_) | Shape::Named(_) | Shape::Condition | Shape::Either(_) => {
                self.another_form(shape, node);
                None
            }
        }
    }

    /// Reports a value that is still a question.
    pub(super) fn unanswered(&mut self, node: &Node, question: &str, shape: &Shape) {
        let finding = Finding::new(&rules::QUESTION_UNANSWERED, node.place.clone(), "this is still a question")
            .label("not answered yet")
            .fix(format!("look it up, then write {}; or take the key out", shape.wanted()));
        self.report(if question.is_empty() { finding } else { finding.figure(format!("the draft asks: {question}")) });
    }

    /// Reports a scalar that YAML would turn into something else.
    fn trapped(&mut self, node: &Node, scalar: &Scalar) -> bool {
        let Some(becomes) = retyped(scalar) else { return false };
        self.report(
            Finding::new(&crate::source::rules::YAML_TRAP, node.place.clone(), format!("other readers of YAML make {becomes} of ‘{}’", scalar.text))
                .label(format!("read as {becomes}"))
                .fix(format!("quote it: '{}'", scalar.text)),
        );
        true
    }

    fn quantity<T>(&mut self, parsed: Result<T, QuantityError>, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<T> {
        let error = match parsed {
            Ok(value) => return Some(value),
            Err(error) => error,
        };
        let digits = scalar.text.trim().bytes().all(|b| b.is_ascii_digit() || b == b'.');
        if !digits && self.trapped(node, scalar) {
            return None;
        }
        let place = self.within(node, scalar, &error);
        let fix = error.fix();
        let fix = if fix.is_empty() { format!("write {}", shape.wanted()) } else { fix };
        // What a test should show is words as well as values, but not both.
        let fix = if matches!(shape, Shape::AnyQuantity) { format!("{fix}; or write the whole of expect: as words, in quotes") } else { fix };
        self.report(
            Finding::new(super::quantity_rules::of_quantity(error.name()), place, error.message())
                .label(super::quantity_rules::label(error.name()))
                .figures(error.figures())
                .fix(fix),
        );
        None
    }

    /// The bytes of an error inside a scalar, quotes allowed for.
    fn within(&self, node: &Node, scalar: &Scalar, error: &QuantityError) -> Place {
        let text = self.files.text(node.place.file).get(node.place.start..node.place.end).unwrap_or("");
        let lead = scalar.text.len() - scalar.text.trim_start().len();
        match text.find(scalar.text.as_str()) {
            Some(at) => {
                let shift = at + lead;
                node.place.part(error.span().start + shift..error.span().end + shift)
            }
            None => node.place.clone(),
        }
    }

    fn unknown_word(&mut self, words: &[&'static str], node: &Node, text: &str) -> Option<Reading> {
        let fix = nearest(text, words.iter().copied())
            .map_or_else(|| format!("one of: {}", words.join(", ")), |near| format!("did you mean ‘{near}’? Known: {}", words.join(", ")));
        self.report(
            Finding::new(&rules::UNKNOWN_WORD, node.place.clone(), format!("‘{text}’ is not one of the words this key knows"))
                .label("not known here")
                .fix(fix),
        );
        None
    }

    fn thread(&mut self, node: &Node, text: &str) -> Option<Reading> {
        match Thread::parse(text) {
            Ok(thread) => Some(Reading::Thread(Box::new(thread))),
            Err(error) => {
                self.report(
                    Finding::new(&rules::THREAD_UNREADABLE, node.place.clone(), error.message(text))
                        .label(match error {
                            ThreadError::Unreadable => "not a thread",
                            ThreadError::PitchMissing(_) => "no pitch",
                            ThreadError::NoSuchPitch(_) => "no such pitch",
                            ThreadError::NoSuchDiameter => "no such diameter",
                            ThreadError::NoSuchUnified(_) | ThreadError::NoSuchPipe(_) => "no such thread",
                        })
                        .fix(error.fix()),
                );
                None
            }
        }
    }

    fn no_date(&mut self, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<Reading> {
        let digits: String = scalar.text.trim().chars().map(|c| if c.is_ascii_digit() { '0' } else { c }).collect();
        if digits != "0000-00-00" {
            return self.refuse(shape, node, scalar);
        }
        self.report(
            Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("‘{}’ is in no calendar", scalar.text))
                .label("no such day")
                .fix("write the year, the month and the day: 2026-09-14"),
        );
        None
    }

    fn refuse(&mut self, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<Reading> {
        if !matches!(shape, Shape::Count | Shape::Flag | Shape::Date | Shape::Months) && self.trapped(node, scalar) {
            return None;
        }
        self.report(
            Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("‘{}’ is not {}", scalar.text, shape.wanted()))
                .label("of another form")
                .fix(format!("write {}", shape.wanted())),
        );
        None
    }
}

/// Reads `12 months` or `1 year`; at most a hundred years, at least a month.
fn months(text: &str) -> Option<u64> {
    let (number, unit) = text.split_once(' ')?;
    let each = match unit.trim() {
        "month" | "months" => 1,
        "year" | "years" => 12,
        _ => return None,
    };
    plain_count(number).and_then(|number| number.checked_mul(each)).filter(|months| (1..=1200).contains(months))
}

impl Date {
    /// The same day so many months later; the last of the month where that is shorter. None beyond the year 9999.
    #[must_use]
    pub fn months_later(self, months: u64) -> Option<Self> {
        let since = u64::from(self.year) * 12 + u64::from(self.month) - 1 + months;
        let (year, month) = (u16::try_from(since / 12).ok().filter(|year| *year <= 9999)?, u8::try_from(since % 12).ok()? + 1);
        (1..=self.day).rev().find_map(|day| Self::parse(&format!("{year:04}-{month:02}-{day:02}")))
    }

    /// Reads `2026-09-14`; none for a day that is in no calendar.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        let shaped = year.len() == 4 && month.len() == 2 && day.len() == 2 && parts.next().is_none();
        if !shaped || !text.bytes().all(|b| b.is_ascii_digit() || b == b'-') {
            return None;
        }
        let (year, month, day): (u16, u8, u8) = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return None,
        };
        (year > 0 && (1..=days).contains(&day)).then_some(Self { year, month, day })
    }

    /// The day so many days after 1970-01-01, up to the end of the year 9999.
    #[must_use]
    pub fn of_days(days: u64) -> Self {
        // Counted from 1600-03-01, so that a leap day ends its year: 135 080 days before.
        let days = days.min(2_932_896) + 135_080;
        let (era, in_era) = (days / 146_097, days % 146_097);
        let year = (in_era - in_era / 1_460 + in_era / 36_524 - in_era / 146_096) / 365;
        let in_year = in_era - (365 * year + year / 4 - year / 100);
        let shifted = (5 * in_year + 2) / 153;
        let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
        let small = |number: u64| u8::try_from(number).unwrap_or(1);
        let year = 1600 + era * 400 + year + u64::from(month <= 2);
        Self { year: u16::try_from(year).unwrap_or(9999), month: small(month), day: small(in_year - (153 * shifted + 2) / 5 + 1) }
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// A whole number without sign, leading zero or more than twelve digits.
fn plain_count(text: &str) -> Option<u64> {
    let plain = (1..=12).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    if plain && (text == "0" || !text.starts_with('0')) { text.parse().ok() } else { None }
}

fn plain_number(text: &str) -> Option<f64> {
    let text = text.trim();
    let digits = text.strip_prefix('-').unwrap_or(text);
    let plain = (1..=12).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if plain { text.parse().ok() } else { None }
}

/// `34% 20%`, each from 0 to 100.
fn percent(text: &str) -> Option<(f64, f64)> {
    let mut parts = text.split_whitespace();
    let mut next = || {
        let number = plain_number(parts.next()?.strip_suffix('%')?)?;
        (0.0..=100.0).contains(&number).then_some(number)
    };
    let pair = (next()?, next()?);
    parts.next().is_none().then_some(pair)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_days_of_the_calendar() {
        let shown = |text: &str| Date::parse(text).map(|d| d.to_string());
        assert_eq!(shown("2026-09-14").as_deref(), Some("2026-09-14"));
        assert_eq!(shown("2024-02-29").as_deref(), Some("2024-02-29"));
        for bad in ["2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26-01-01", "2026-1-1", "0000-01-01", "2026-01-01x", "+026-01-01", ""] {
            assert_eq!(shown(bad), None, "{bad}");
        }
    }

    #[test]
    fn months_are_counted_in_the_calendar() {
        let later = |day: &str, months: u64| Date::parse(day).unwrap().months_later(months).map(|day| day.to_string());
        for (day, months, then) in [("2026-03-02", 12, "2027-03-02"), ("2024-02-29", 12, "2025-02-28"), ("2026-08-31", 1, "2026-09-30"), ("2026-12-31", 2, "2027-02-28"), ("2025-11-15", 14, "2027-01-15")] {
            assert_eq!(later(day, months).as_deref(), Some(then), "{day} + {months}");
        }
        assert_eq!(later("9999-12-01", 1), None);
        for (text, number) in [("12 months", Some(12)), ("1 year", Some(12)), ("2 years", Some(24)), ("1 month", Some(1)), ("12", None), ("0 months", None), ("12 weeks", None), ("1.5 years", None), ("999999999999 years", None), ("", None)] {
            assert_eq!(months(text), number, "{text}");
        }
    }

    // Days since 1970-01-01 as `date -u -d DAY +%s` of GNU coreutils gives them, over 86 400.
    #[test]
    fn days_since_1970_are_dates() {
        for (days, date) in [(0, "1970-01-01"), (59, "1970-03-01"), (11_016, "2000-02-29"), (20_789, "2026-12-02"), (47_540, "2100-02-28"), (47_541, "2100-03-01"), (2_932_896, "9999-12-31"), (u64::MAX, "9999-12-31")] {
            assert_eq!(Date::of_days(days).to_string(), date);
        }
    }

    #[test]
    fn counts_and_places() {
        assert_eq!(plain_count("4"), Some(4));
        assert_eq!(plain_count("0"), Some(0));
        for bad in ["04", "-1", "1.0", "", "four", "99999999999999999999"] {
            assert_eq!(plain_count(bad), None, "{bad}");
        }
        assert_eq!(percent("34% 20.5%"), Some((34.0, 20.5)));
        for bad in ["34 20", "34%", "101% 0%", "1% 2% 3%", "-1% 2%"] {
            assert_eq!(percent(bad), None, "{bad}");
        }
    }
}
