//! Pipe threads by their designation: parallel ones that seal on a washer or face (G), and ones that seal on the thread
//! (R taper outside, Rp parallel and Rc taper inside).
//!
//! Sources: ISO 228-1 (G) and ISO 7-1 (R, Rp, Rc): threads per inch and major diameter by size, Whitworth profile of 55°
//! with H = 0.960491·P and a thread depth of 0.640327·P. From memory; the printed pitch diameters and minor diameters,
//! also from memory, agree with the formulas to the last digit (`tests/trade_threads.rs`).

use super::thread::{ThreadError, ThreadSize};

/// What kind of pipe thread it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PipeForm {
    /// `G`: parallel inside and outside, sealed by a washer, ring or face (ISO 228-1).
    G,
    /// `R`: taper outside, sealed on the thread (ISO 7-1).
    R,
    /// `Rp`: parallel inside, for an `R` (ISO 7-1).
    Rp,
    /// `Rc`: taper inside, for an `R` (ISO 7-1).
    Rc,
}

impl PipeForm {
    /// The letters before the size.
    #[must_use]
    pub fn letters(self) -> &'static str {
        match self {
            Self::G => "G",
            Self::R => "R",
            Self::Rp => "Rp",
            Self::Rc => "Rc",
        }
    }

    /// Whether it seals on its own flanks, with a sealant, instead of on a washer.
    #[must_use]
    pub fn seals_on_thread(self) -> bool {
        self != Self::G
    }
}

/// Depth of a Whitworth thread for a pitch of 1 (ISO 228-1, ISO 7-1).
pub(super) const WHITWORTH_DEPTH: f64 = 0.640_327;
/// Height of the fundamental triangle of a Whitworth thread for a pitch of 1.
pub(super) const WHITWORTH_HEIGHT: f64 = 0.960_491;

/// A size: how it is written, its major diameter in mm, threads per inch, and whether it is one of ISO 7-1, too.
type Row = (&'static str, f64, u32, bool);

static SIZES: &[Row] = &[
    ("1/16", 7.723, 28, true),
    ("1/8", 9.728, 28, true),
    ("1/4", 13.157, 19, true),
    ("3/8", 16.662, 19, true),
    ("1/2", 20.955, 14, true),
    ("5/8", 22.911, 14, false),
    ("3/4", 26.441, 14, true),
    ("7/8", 30.201, 14, false),
    ("1", 33.249, 11, true),
    ("1-1/8", 37.897, 11, false),
    ("1-1/4", 41.910, 11, true),
    ("1-1/2", 47.803, 11, true),
    ("1-3/4", 53.746, 11, false),
    ("2", 59.614, 11, true),
    ("2-1/4", 65.710, 11, false),
    ("2-1/2", 75.184, 11, true),
    ("2-3/4", 81.534, 11, false),
    ("3", 87.884, 11, true),
    ("3-1/2", 100.330, 11, false),
    ("4", 113.030, 11, true),
    ("4-1/2", 125.730, 11, false),
    ("5", 138.430, 11, true),
    ("5-1/2", 151.130, 11, false),
    ("6", 163.830, 11, true),
];

/// Reads `G1/4`, `G 1/4 A`, `R 1/2`, `Rp1/2`, `Rc 1 1/4`; nothing where the text is no pipe thread at all.
pub(super) fn parse(text: &str) -> Option<Result<ThreadSize, ThreadError>> {
    let (form, rest) = [("Rp", PipeForm::Rp), ("Rc", PipeForm::Rc), ("R", PipeForm::R), ("G", PipeForm::G)]
        .iter()
        .find_map(|(letters, form)| Some((*form, text.strip_prefix(letters)?.trim_start())))?;
    // Behind the letters a size begins: `Right` is a word.
    rest.chars().next().filter(char::is_ascii_digit)?;
    let (rest, class) = match form {
        // The tolerance of the outside thread: A is the closer one.
        PipeForm::G => [("A", Some('A')), ("B", Some('B'))].iter().find_map(|(end, class)| Some((rest.strip_suffix(end)?.trim_end(), *class))).unwrap_or((rest, None)),
        _ => (rest, None),
    };
    // `1 1/4` and `1-1/4` are one size.
    let size: String = rest.split(|sign: char| sign.is_whitespace() || sign == '-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
    let is_size = !size.is_empty() && size.len() <= 8 && size.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'/' | b'-'));
    if !is_size {
        return Some(Err(ThreadError::Unreadable));
    }
    let known = |row: &&Row| row.3 || form == PipeForm::G;
    Some(match SIZES.iter().filter(known).find(|row| row.0 == size) {
        Some((label, diameter_mm, per_inch, _)) => Ok(ThreadSize::Pipe { form, label, diameter_mm: *diameter_mm, per_inch: *per_inch, class }),
        None => {
            let names: Vec<String> = SIZES.iter().filter(known).map(|row| format!("{} {}", form.letters(), row.0)).collect();
            Err(ThreadError::NoSuchPipe(names.join(", ")))
        }
    })
}
