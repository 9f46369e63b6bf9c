//! Captions of a recording: WebVTT, SRT and plain text become cues with their moments.
//!
//! WebVTT is read after the W3C's “WebVTT: The Web Video Text Tracks Format” (syntax and parser rules from memory): a
//! signature, blocks between empty lines, comment, style and region blocks, cue identifiers, timings with settings, spans
//! in angle brackets and six escapes. SRT has no standard; common practice is a number, a line of timings with a decimal
//! comma, and text. Plain text may carry moments at the beginning of its lines (`8:20 …`).
//!
//! Nothing is dropped in silence: a line that is no caption is counted and told. What is too large is refused whole.

use super::markup::{spoken_text, without_marks};
use crate::quantity::Moment;
use std::ops::Range;

/// Most bytes of a caption file: a day of speech with a time for every word.
pub const CAPTION_LIMIT: usize = 4 * 1024 * 1024;
/// Most cues of a caption file.
const MOST_CUES: usize = 100_000;
/// Most bytes of one cue's text.
const MOST_TEXT: usize = 4000;
/// Most lines that captions roll up by.
const ROLLED: usize = 4;
/// A line of timings with its settings is no longer, in bytes.
const LONGEST_TIMINGS: usize = 200;
/// Lines that are looked at to know a table.
const ROWS: usize = 12;
/// Beyond this no moment can be written (999:59:59).
const MOST_MS: u64 = 3_599_999_000;

/// What a caption file holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Captions {
    /// The cues in the order of their beginnings.
    pub cues: Vec<Cue>,
    /// Lines that could not be understood.
    pub faults: Vec<CaptionFault>,
}

/// A line that could not be understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaptionFault {
    /// Its number, from 1.
    pub line: usize,
    /// What is wrong.
    pub what: String,
    /// The line, where it shows the fault, and the characters of it that are wrong.
    pub shown: Option<(String, Range<usize>)>,
}

impl CaptionFault {
    fn of(line: usize, what: impl Into<String>) -> Self {
        Self { line, what: what.into(), shown: None }
    }

    /// The line with a caret below what is wrong in it; empty where it does not show the fault.
    #[must_use]
    pub fn excerpt(&self) -> String {
        let Some((text, wrong)) = &self.shown else { return String::new() };
        format!("\n      {text}\n      {}{}", " ".repeat(wrong.start), "^".repeat(wrong.len()))
    }
}

/// Some words and when they are said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cue {
    /// From when to when, in milliseconds from the beginning; none in a text without times.
    pub span: Option<(u64, u64)>,
    /// The words, without spans, escapes and notes of sounds; lines with a space between.
    pub text: String,
}

/// Why a file gives no captions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CaptionError {
    /// It is larger than [`CAPTION_LIMIT`]: its bytes.
    TooLarge(usize),
    /// More cues than anybody can say.
    TooMany,
    /// It is not UTF-8: the byte where it stops being so.
    NotUtf8(usize),
    /// There is not one word in it.
    Empty,
    /// No line of it can be read: the first one.
    Faulty(CaptionFault),
    /// It is a table: the first line.
    Table(String),
}

impl CaptionError {
    /// What is wrong and what to do.
    #[must_use]
    pub fn message(&self) -> String {
        match self {
            Self::TooLarge(bytes) => format!("{} KiB are too many for captions ({} KiB are let through); cut the file in two", bytes / 1024, CAPTION_LIMIT / 1024),
            Self::TooMany => format!("more than {MOST_CUES} captions; cut the file in two"),
            Self::NotUtf8(at) => format!("byte {at} is not UTF-8; save the file as UTF-8"),
            Self::Faulty(fault) => format!("no caption can be read; line {}: {}{}", fault.line, fault.what, fault.excerpt()),
            Self::Table(first) => format!("these are no captions but a table, which begins with ‘{first}’; give WebVTT, SRT, or plain text (a table of torques goes into ‘benchleaf draft’ with --from)"),
            Self::Empty => "there is no spoken word in it; give WebVTT, SRT, or plain text with moments such as 8:20 before its lines".to_owned(),
        }
    }
}

/// Reads captions of any of the three kinds; the content tells which, whatever the file is called.
///
/// # Errors
/// [`CaptionError`] where there are none.
pub fn read_captions(bytes: &[u8]) -> Result<Captions, CaptionError> {
    if bytes.len() > CAPTION_LIMIT {
        return Err(CaptionError::TooLarge(bytes.len()));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| CaptionError::NotUtf8(error.valid_up_to()))?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n").replace('\0', "\u{fffd}");
    let lines: Vec<&str> = text.split('\n').collect();
    if let Some(first) = table(&lines) {
        return Err(CaptionError::Table(first));
    }
    let signed = lines.first().is_some_and(|line| is_signature(line));
    let mut captions = if signed || lines.iter().any(|line| line.contains("-->") || short_arrow(line).is_some()) { timed(&lines, signed)? } else { plain(&lines)? };
    // The order of a file is the order of its lines; that of a recording is time. Equal times keep their order.
    captions.cues.sort_by_key(|cue| cue.span.map(|(from, _)| from));
    roll_up(&mut captions.cues);
    captions.cues.retain(|cue| !cue.text.is_empty());
    match (captions.cues.is_empty(), captions.faults.first()) {
        (false, _) => Ok(captions),
        (true, Some(fault)) => Err(CaptionError::Faulty(fault.clone())),
        (true, None) => Err(CaptionError::Empty),
    }
}

/// The first line of what is a table and no speech: each of its first lines has as many commas, semicolons or tabs, two at
/// least, and none an arrow or a moment in front.
fn table(lines: &[&str]) -> Option<String> {
    let rows: Vec<&&str> = lines.iter().filter(|line| !line.trim().is_empty()).take(ROWS).collect();
    let first = rows.first()?;
    let even = |mark: char| {
        let count = |row: &str| row.matches(mark).count();
        count(first) >= 2 && rows.iter().all(|row| count(row) == count(first))
    };
    let spoken = |row: &&&str| row.contains("-->") || leading_moment(row).0.is_some();
    let is_table = rows.len() > 2 && [',', ';', '\t'].into_iter().any(even) && !rows.iter().any(spoken);
    is_table.then(|| first.chars().take(60).map(|c| if c.is_control() { ' ' } else { c }).collect())
}

/// `WEBVTT`, alone or with words behind a space or tab.
fn is_signature(line: &str) -> bool {
    line.strip_prefix("WEBVTT").is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
}

/// WebVTT and SRT: blocks between empty lines, each with a line of timings.
fn timed(lines: &[&str], signed: bool) -> Result<Captions, CaptionError> {
    let mut captions = Captions::default();
    let mut at = 0;
    if signed {
        // What stands in the header belongs to no caption; a line of timings ends it even without an empty line.
        at = lines.iter().position(|line| line.trim().is_empty() || line.contains("-->")).unwrap_or(lines.len());
    }
    while at < lines.len() {
        if lines.get(at).is_none_or(|line| line.trim().is_empty()) {
            at += 1;
            continue;
        }
        let end = lines.iter().skip(at).position(|line| line.trim().is_empty()).map_or(lines.len(), |length| at + length);
        let block = lines.get(at..end).unwrap_or_default();
        read_block(block, at, signed, &mut captions);
        if captions.cues.len() > MOST_CUES {
            return Err(CaptionError::TooMany);
        }
        at = end;
    }
    Ok(captions)
}

/// One block; `at` is the index of its first line.
fn read_block(block: &[&str], at: usize, signed: bool, captions: &mut Captions) {
    let first = block.first().copied().unwrap_or_default();
    let starts = |word: &str| first.strip_prefix(word).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']));
    let timing = block.iter().position(|line| line.contains("-->"));
    if signed && timing != Some(0) && (starts("NOTE") || starts("STYLE") || starts("REGION")) {
        return;
    }
    let Some(timing) = timing.filter(|timing| *timing <= 1) else {
        let short = block.iter().take(2).enumerate().find_map(|(below, line)| Some((below, *line, short_arrow(line)?)));
        captions.faults.push(match short {
            Some((below, line, wrong)) => CaptionFault { line: at + below + 1, what: "‘-->’ belongs between the two times".to_owned(), shown: Some((line.to_owned(), wrong)) },
            None => CaptionFault::of(at + 1, "these lines have no timings (00:08:20.000 --> 00:08:24.000)"),
        });
        return;
    };
    // Without an empty line between, the next line of timings begins another caption.
    let rest = block.get(timing + 1..).unwrap_or_default();
    let next = rest.iter().position(|line| line.contains("-->"));
    let own = rest.get(..next.map_or(rest.len(), |next| next - usize::from(next > 0 && is_number(rest.get(next - 1))))).unwrap_or_default();
    match timings(block.get(timing).copied().unwrap_or_default()) {
        Ok(span) => push(Some(span), own, at + timing + 1, captions),
        Err((what, wrong)) => {
            let line = block.get(timing).copied().unwrap_or_default();
            let shown = (line.len() <= LONGEST_TIMINGS).then(|| (line.to_owned(), characters(line, wrong)));
            captions.faults.push(CaptionFault { line: at + timing + 1, what: what.to_owned(), shown });
        }
    }
    if next.is_some() && captions.cues.len() <= MOST_CUES {
        let from = timing + 1 + own.len();
        rest_of_block(block.get(from..).unwrap_or_default(), at + from, signed, captions);
    }
}

/// The captions of a block behind its first: one by one, never nested however many there are.
fn rest_of_block(block: &[&str], at: usize, signed: bool, captions: &mut Captions) {
    let marks: Vec<usize> = block.iter().enumerate().filter(|(_, line)| line.contains("-->")).map(|(index, _)| index).collect();
    let begins: Vec<usize> = marks.iter().map(|mark| mark - usize::from(*mark > 0 && is_number(block.get(mark - 1)))).collect();
    for (index, from) in begins.iter().enumerate() {
        let to = begins.get(index + 1).copied().unwrap_or(block.len());
        read_block(block.get(*from..to).unwrap_or_default(), at + from, signed, captions);
    }
}

fn is_number(line: Option<&&str>) -> bool {
    line.is_some_and(|line| !line.trim().is_empty() && line.trim().bytes().all(|byte| byte.is_ascii_digit()))
}

/// A caption that stays on a screen for seconds. (A transcript may be one long paragraph, and is bounded by its file.)
fn push(span: Option<(u64, u64)>, lines: &[&str], line: usize, captions: &mut Captions) {
    if lines.iter().map(|line| line.len()).sum::<usize>() > MOST_TEXT {
        captions.faults.push(CaptionFault::of(line, format!("more than {MOST_TEXT} bytes in one caption: not read")));
        return;
    }
    // Lines are kept apart until what is repeated in the next caption has been taken out.
    let text: Vec<String> = lines.iter().map(|line| spoken_text(line)).filter(|line| !line.is_empty()).collect();
    captions.cues.push(Cue { span, text: text.join("\n") });
}

/// Where another arrow stands between two times, in characters: `00:08:20.000 -> 00:08:24.000`.
fn short_arrow(line: &str) -> Option<Range<usize>> {
    if line.len() > LONGEST_TIMINGS || line.contains("-->") {
        return None;
    }
    let (at, arrow) = ["->", "–>", "—>", "=>", "→"].into_iter().find_map(|arrow| Some((line.find(arrow)?, arrow)))?;
    let (from, to) = (line.get(..at)?, line.get(at + arrow.len()..)?);
    timestamp(from.trim_end_matches(['-', '=']).trim())?;
    timestamp(to.split_whitespace().next()?)?;
    let start = line.get(..at)?.chars().count();
    Some(start..start + arrow.chars().count())
}

/// `00:08:20.000 --> 00:08:24.000 align:start`. What is wrong comes with the bytes of the line that are.
fn timings(line: &str) -> Result<(u64, u64), (&'static str, Range<usize>)> {
    let arrow = line.find("-->").ok_or(("there are no timings", 0..line.len()))?;
    let (before, behind) = (line.get(..arrow).unwrap_or_default(), arrow + "-->".len());
    let rest = line.get(behind..).unwrap_or_default();
    let first = before.trim();
    let second = rest.split_whitespace().next().unwrap_or_default();
    let start = behind + (rest.len() - rest.trim_start().len());
    // Where there is no time at all, the arrow is shown that wants one.
    let place = |at: usize, text: &str| if text.is_empty() { arrow..behind } else { at..at + text.len() };
    let (first_at, second_at) = (place(before.len() - before.trim_start().len(), first), place(start, second));
    let from = timestamp(first).ok_or(("the first time can't be read; write it as 00:08:20.000", first_at))?;
    let to = timestamp(second).ok_or(("the second time can't be read; write it as 00:08:24.000", second_at.clone()))?;
    if to < from { Err(("it ends before it begins", second_at)) } else { Ok((from, to)) }
}

/// A span of bytes of a line as a span of its characters, at least one.
fn characters(line: &str, bytes: Range<usize>) -> Range<usize> {
    let count = |end: usize| line.get(..end).map_or(0, |part| part.chars().count());
    let start = count(bytes.start);
    start..count(bytes.end).max(start + 1)
}

/// `[hours:]minutes:seconds.milliseconds`, with a comma for the point in SRT. Milliseconds.
fn timestamp(text: &str) -> Option<u64> {
    let (clock, part) = text.split_once(['.', ',']).unwrap_or((text, "000"));
    let fields: Vec<&str> = clock.split(':').collect();
    let number = |text: &str, most: usize| {
        let plain = (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        plain.then(|| text.parse::<u64>().ok()).flatten()
    };
    let (hours, minutes, seconds) = match fields.as_slice() {
        [minutes, seconds] => (0, number(minutes, 2)?, number(seconds, 2)?),
        [hours, minutes, seconds] => (number(hours, 3)?, number(minutes, 2)?, number(seconds, 2)?),
        _ => return None,
    };
    let part = if part.len() == 3 { number(part, 3)? } else { return None };
    if minutes > 59 || seconds > 59 {
        return None;
    }
    Some(((hours * 60 + minutes) * 60 + seconds) * 1000 + part).filter(|ms| *ms <= MOST_MS)
}

/// Plain text: a moment at the beginning of a line holds for what follows, until the next one.
fn plain(lines: &[&str]) -> Result<Captions, CaptionError> {
    let mut captions = Captions::default();
    let mut moment: Option<u64> = None;
    let mut texts: Vec<(Option<u64>, String)> = Vec::new();
    let mut open = false;
    for line in lines {
        let (at, words) = leading_moment(line);
        if let Some(at) = at {
            moment = Some(at);
            open = false;
        }
        let words = words.trim();
        match texts.last_mut() {
            _ if words.is_empty() => open = open && at.is_some(),
            Some((_, text)) if open => {
                text.push('\n');
                text.push_str(words);
            }
            _ => {
                texts.push((moment, words.to_owned()));
                open = true;
            }
        }
        if texts.len() > MOST_CUES {
            return Err(CaptionError::TooMany);
        }
    }
    // The next other moment of each text, found from the back: each once, however many share a moment.
    let mut nexts = vec![None; texts.len()];
    let (mut at, mut later) = (None, None);
    for ((from, _), next) in texts.iter().zip(nexts.iter_mut()).rev() {
        if *from != at {
            later = at;
            at = *from;
        }
        *next = later.filter(|later| Some(*later) > *from);
    }
    for ((from, text), next) in texts.iter().zip(nexts) {
        let last = from.map(|from| next.unwrap_or_else(|| from + 1000 * u64::try_from(text.split_whitespace().count() / 3 + 1).unwrap_or(1)));
        let own: Vec<String> = text.split('\n').map(spoken_text).filter(|line| !line.is_empty()).collect();
        captions.cues.push(Cue { span: from.zip(last), text: own.join("\n") });
    }
    Ok(captions)
}

/// `8:20 words`, `[8:20] words`, `(1:24:30) words`, or a line with a moment alone.
fn leading_moment(line: &str) -> (Option<u64>, &str) {
    let line = line.trim_start();
    let (inner, rest) = match line.strip_prefix(['[', '(']) {
        Some(open) => match open.split_once([']', ')']) {
            Some(parts) => parts,
            None => return (None, line),
        },
        None => line.split_once(char::is_whitespace).unwrap_or((line, "")),
    };
    let clock = inner.trim().split('.').next().unwrap_or_default();
    match Moment::parse(clock) {
        Ok(moment) if inner.len() <= 14 => (Some(u64::from(moment.seconds()) * 1000), without_marks(rest.trim_start(), &['-', '–', '—', ':'])),
        _ => (None, line),
    }
}

/// Captions that roll up repeat the lines above: what the caption before ends with is taken out where the next one
/// begins with it and follows at once.
fn roll_up(cues: &mut [Cue]) {
    let mut before: Option<(u64, Vec<String>)> = None;
    for cue in cues {
        let lines: Vec<String> = cue.text.split('\n').map(str::to_owned).collect();
        let follows = before.as_ref().zip(cue.span).is_some_and(|((end, _), (from, _))| from <= end + 100);
        let shown = before.as_ref().map(|(_, lines)| lines.as_slice()).filter(|_| follows).unwrap_or_default();
        let most = shown.len().min(lines.len()).min(ROLLED);
        let repeated = (1..=most).rev().find(|count| shown.get(shown.len() - count..) == lines.get(..*count)).unwrap_or(0);
        cue.text = lines.get(repeated..).unwrap_or_default().join(" ").trim().to_owned();
        if let Some((_, end)) = cue.span {
            before = Some((end, lines));
        }
    }
}

#[cfg(test)]
#[path = "captions_tests.rs"]
mod tests;
