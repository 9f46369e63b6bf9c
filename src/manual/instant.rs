//! A moment of a clock in a build record, as RFC 3339 writes it: `2026-09-14T18:02:00Z`.

use super::shop::Date;
use std::fmt;

/// A day and a time of day with its distance from UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Instant {
    /// Seconds since 1970-01-01 00:00 UTC, parts of a second left out.
    seconds: i64,
    day: Date,
    hour: u8,
    minute: u8,
    /// Minutes ahead of UTC.
    ahead: i16,
}

impl Instant {
    /// Reads a moment. None where the text is none: a day without its time, a time without its distance from UTC.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let day = Date::parse(text.get(..10)?)?;
        let rest = text.get(10..)?.strip_prefix(['T', 't', ' '])?;
        let (hour, minute, second) = (two(rest, 0)?, two(rest, 3)?, two(rest, 6)?);
        let colons = rest.get(2..3)? == ":" && rest.get(5..6)? == ":";
        let mut zone = rest.get(8..)?;
        if let Some(fraction) = zone.strip_prefix('.') {
            let digits = fraction.bytes().take_while(u8::is_ascii_digit).count();
            zone = fraction.get(digits..).filter(|_| (1..=9).contains(&digits))?;
        }
        let ahead = match zone {
            "Z" | "z" => 0,
            _ => {
                let sign: i16 = if zone.starts_with('+') { 1 } else if zone.starts_with('-') { -1 } else { return None };
                let (hours, minutes) = (two(zone, 1)?, two(zone, 4)?);
                if zone.get(3..4)? != ":" || zone.len() != 6 || hours > 23 || minutes > 59 {
                    return None;
                }
                sign * (i16::from(hours) * 60 + i16::from(minutes))
            }
        };
        if !colons || hour > 23 || minute > 59 || second > 60 {
            return None;
        }
        let of_day = (i64::from(hour) * 60 + i64::from(minute) - i64::from(ahead)) * 60 + i64::from(second);
        Some(Self { seconds: days(day) * 86_400 + of_day, day, hour, minute, ahead })
    }

    /// The day, as it was where it was written.
    #[must_use]
    pub fn day(&self) -> Date {
        self.day
    }

    /// Seconds from this moment to a later one; negative for an earlier one.
    #[must_use]
    pub fn seconds_until(&self, later: &Self) -> i64 {
        later.seconds - self.seconds
    }
}

impl fmt::Display for Instant {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{} {:02}:{:02}", self.day, self.hour, self.minute)?;
        if self.ahead == 0 {
            return out.write_str(" UTC");
        }
        let sign = if self.ahead < 0 { '−' } else { '+' };
        let ahead = self.ahead.unsigned_abs();
        write!(out, " UTC{sign}{:02}:{:02}", ahead / 60, ahead % 60)
    }
}

fn two(text: &str, at: usize) -> Option<u8> {
    let digits = text.get(at..at + 2)?;
    digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse().ok()).flatten()
}

/// Days since 1970-01-01, of the Gregorian calendar: whole years with their leap days, then the days of the months.
fn days(day: Date) -> i64 {
    let before = i64::from(day.year) - 1;
    let is_leap = day.year.is_multiple_of(4) && (!day.year.is_multiple_of(100) || day.year.is_multiple_of(400));
    let months: [i64; 12] = [31, if is_leap { 29 } else { 28 }, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let of_year: i64 = months.iter().take(usize::from(day.month.saturating_sub(1))).sum();
    // 719 162 days lie between 0001-01-01 and 1970-01-01.
    before * 365 + before / 4 - before / 100 + before / 400 + of_year + i64::from(day.day) - 1 - 719_162
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Expected values: `date -u -d … +%s` of GNU coreutils.
    #[test]
    fn moments_are_counted_as_others_count_them() {
        for (text, seconds) in [
            ("1970-01-01T00:00:00Z", 0),
            ("2026-09-14T18:02:00Z", 1_789_408_920),
            ("2026-09-14T20:02:00.123+02:00", 1_789_408_920),
            ("2000-02-29 23:59:59-00:30", 951_870_599),
            ("1900-03-01T00:00:00Z", -2_203_891_200),
        ] {
            assert_eq!(Instant::parse(text).map(|i| i.seconds), Some(seconds), "{text}");
        }
    }

    #[test]
    fn what_is_no_moment_is_none() {
        for text in ["", "2026-09-14", "2026-09-14T18:02:00", "2026-09-14T18:02Z", "2026-02-30T00:00:00Z", "2026-09-14T24:00:00Z", "2026-09-14T18:02:00.Z", "2026-09-14T18:02:00+2:00", "14.9.2026 18:02", "2026-09-14T18:02:00Zé", "ééééé"] {
            assert_eq!(Instant::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_moment_is_shown_with_its_distance_from_utc() {
        let shown = |text| Instant::parse(text).unwrap().to_string();
        assert_eq!(shown("2026-09-14T18:02:00Z"), "2026-09-14 18:02 UTC");
        assert_eq!(shown("2026-09-14T20:02:59+02:00"), "2026-09-14 20:02 UTC+02:00");
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_answered(text in "[0-9TZ:+. é-]{0,32}") {
            let _ = Instant::parse(&text);
        }
    }
}
