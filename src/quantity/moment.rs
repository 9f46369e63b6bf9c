//! Moments and spans of a recording: `8:20`, `1:24:30`, `8:20–9:05`.

use std::fmt;
use std::ops::Range;

/// A moment in a recording, in whole seconds from its beginning (below 1000 hours).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    seconds: u32,
}

/// A stretch of a recording; its beginning is before its end, or at it where only a moment was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct MomentSpan {
    start: Moment,
    end: Moment,
}

/// A text that is no moment or no span; its words stand in `error`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MomentError {
    span: Range<usize>,
    seen: String,
    fault: MomentFault,
}

/// What is wrong with a moment or a span.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MomentFault {
    /// Not digits parted by colons.
    Unreadable,
    /// Sixty or more minutes beside hours, or seconds.
    SixtyOrMore,
    /// One moment, or more than two.
    NoSpan,
    /// The end is not after the beginning.
    Reversed,
}

const DASHES: &[char] = &['–', '—', '-', '−'];

impl Moment {
    /// A moment some seconds after the beginning.
    pub fn from_seconds(seconds: u32) -> Self {
        Self { seconds }
    }

    /// Reads `minutes:seconds` (the minutes may pass 60) or `hours:minutes:seconds`; seconds, and minutes after hours,
    /// have two digits.
    pub fn parse(text: &str) -> Result<Self, MomentError> {
        let trimmed = text.trim();
        let start = text.len() - text.trim_start().len();
        let error = |fault| MomentError { span: start..start + trimmed.len(), seen: trimmed.to_owned(), fault };
        let fields: Vec<&str> = trimmed.split(':').collect();
        let (hours, minutes, seconds) = match fields.as_slice() {
            [minutes, seconds] => (Some(0), digits(minutes, 1..=3), digits(seconds, 2..=2)),
            [hours, minutes, seconds] => (digits(hours, 1..=3), digits(minutes, 2..=2), digits(seconds, 2..=2)),
            _ => (None, None, None),
        };
        let (Some(hours), Some(minutes), Some(seconds)) = (hours, minutes, seconds) else {
            return Err(error(MomentFault::Unreadable));
        };
        if seconds > 59 || (fields.len() == 3 && minutes > 59) {
            return Err(error(MomentFault::SixtyOrMore));
        }
        Ok(Self { seconds: hours * 3600 + minutes * 60 + seconds })
    }

    /// Seconds from the beginning of the recording.
    pub fn seconds(self) -> u32 {
        self.seconds
    }

    /// So many seconds later; `None` before the beginning.
    pub fn shifted(self, seconds: i64) -> Option<Self> {
        u32::try_from(i64::from(self.seconds) + seconds).ok().map(Self::from_seconds)
    }
}

impl MomentSpan {
    /// Reads two moments with a dash (or `to`) between.
    pub fn parse(text: &str) -> Result<Self, MomentError> {
        let trimmed = text.trim();
        let from = text.len() - text.trim_start().len();
        let whole = from..from + trimmed.len();
        let error = |fault| MomentError { span: whole.clone(), seen: trimmed.to_owned(), fault };
        let Some((first, second)) = trimmed.split_once(DASHES).or_else(|| trimmed.split_once(" to ")) else {
            return Err(error(MomentFault::NoSpan));
        };
        let start = Moment::parse(first).map_err(|inner| inner.moved(from))?;
        let end = Moment::parse(second).map_err(|inner| inner.moved(from + trimmed.len() - second.len()))?;
        if start >= end { Err(error(MomentFault::Reversed)) } else { Ok(Self { start, end }) }
    }

    /// Reads a span, or a single moment as a stretch of no length.
    pub fn parse_or_moment(text: &str) -> Result<Self, MomentError> {
        match Moment::parse(text) {
            Ok(moment) => Ok(Self { start: moment, end: moment }),
            Err(moment) => Self::parse(text).map_err(|span| if span.fault == MomentFault::NoSpan { moment } else { span }),
        }
    }

    /// So many seconds later; what lies before the beginning is cut off it, and `None` is left of what lies there wholly.
    pub fn shifted(self, seconds: i64) -> Option<Self> {
        let end = self.end.shifted(seconds)?;
        let start = self.start.shifted(seconds).unwrap_or(Moment::from_seconds(0));
        (self.is_moment() || start < end).then_some(Self { start, end })
    }

    /// Whether it is a single moment.
    pub fn is_moment(self) -> bool {
        self.start == self.end
    }

    /// Its beginning.
    pub fn start(self) -> Moment {
        self.start
    }

    /// Its end.
    pub fn end(self) -> Moment {
        self.end
    }

    /// How long it lasts, in seconds; none for a single moment.
    pub fn seconds(self) -> u32 {
        self.end.seconds - self.start.seconds
    }
}

impl MomentError {
    /// The bytes of the text handed in that are at fault.
    pub fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// The kind of fault.
    pub fn fault(&self) -> MomentFault {
        self.fault
    }

    pub(super) fn seen(&self) -> &str {
        &self.seen
    }

    fn moved(self, by: usize) -> Self {
        Self { span: self.span.start + by..self.span.end + by, ..self }
    }
}

fn digits(text: &str, length: std::ops::RangeInclusive<usize>) -> Option<u32> {
    let plain = length.contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// `8:20`, and from one hour on `1:24:30`.
impl fmt::Display for Moment {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (hours, minutes, seconds) = (self.seconds / 3600, self.seconds / 60 % 60, self.seconds % 60);
        if hours == 0 { write!(out, "{minutes}:{seconds:02}") } else { write!(out, "{hours}:{minutes:02}:{seconds:02}") }
    }
}

impl fmt::Display for MomentSpan {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_moment() { write!(out, "{}", self.start) } else { write!(out, "{}–{}", self.start, self.end) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_read_and_shown() {
        for (text, seconds, shown) in [
            ("8:20", 500, "8:20"), ("1:24:30", 5070, "1:24:30"), ("45:00", 2700, "45:00"), ("0:05", 5, "0:05"), ("90:00", 5400, "1:30:00"),
            (" 05:40 ", 340, "5:40"), ("999:59:59", 3_599_999, "999:59:59"),
        ] {
            let moment = Moment::parse(text).unwrap();
            assert_eq!((moment.seconds(), moment.to_string().as_str()), (seconds, shown));
        }
    }

    #[test]
    fn a_recording_put_up_again_moves_its_moments() {
        let moved = |text: &str, by: i64| MomentSpan::parse_or_moment(text).unwrap().shifted(by).map(|span| span.to_string());
        assert_eq!(moved("8:20–9:05", 40).as_deref(), Some("9:00–9:45"));
        assert_eq!(moved("8:20", -15).as_deref(), Some("8:05"));
        assert_eq!(moved("0:10–0:30", -15).as_deref(), Some("0:00–0:15"));
        assert_eq!((moved("0:10", -15), moved("0:05–0:15", -15)), (None, None));
    }

    #[test]
    fn other_texts_are_no_moment() {
        for (text, fault) in [
            ("", MomentFault::Unreadable), ("340", MomentFault::Unreadable), ("5:4", MomentFault::Unreadable), ("5:60", MomentFault::SixtyOrMore),
            ("1:60:00", MomentFault::SixtyOrMore), ("-5:40", MomentFault::Unreadable), ("1:2:3:4", MomentFault::Unreadable), ("8.20", MomentFault::Unreadable),
            ("1234:00", MomentFault::Unreadable), ("٥:٤٠", MomentFault::Unreadable),
        ] {
            assert_eq!(Moment::parse(text).map_err(|error| error.fault()), Err(fault), "{text}");
        }
    }

    #[test]
    fn spans_are_read_and_shown() {
        for text in ["8:20–9:05", "8:20-9:05", "8:20 – 9:05", "8:20 to 9:05"] {
            let span = MomentSpan::parse(text).unwrap();
            assert_eq!((span.seconds(), span.to_string().as_str()), (45, "8:20–9:05"), "{text}");
        }
        for (text, fault, place) in [
            ("8:20", MomentFault::NoSpan, 0..4), ("9:05–8:20", MomentFault::Reversed, 0..11), ("8:20–8:20", MomentFault::Reversed, 0..11),
            (" 8:20–9:5", MomentFault::Unreadable, 8..11), ("8:70–9:05", MomentFault::SixtyOrMore, 0..4),
        ] {
            let error = MomentSpan::parse(text).unwrap_err();
            assert_eq!((error.fault(), error.span()), (fault, place), "{text}");
        }
    }
}
