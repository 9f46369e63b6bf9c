//! Pipe threads by their designation: parallel ones that seal on a washer or face (G), and ones that seal on the thread
//! (R taper outside, Rp parallel and Rc taper inside; NPT, the American taper thread, outside and inside).
//!
//! Sources: ISO 228-1 (G) and ISO 7-1 (R, Rp, Rc): threads per inch and major diameter by size, Whitworth profile of 55°
//! with H = 0.960491·P and a thread depth of 0.640327·P. From memory; the printed pitch diameters and minor diameters,
//! also from memory, agree with the formulas to the last digit (`tests/trade_threads.rs`). ASME B1.20.1 (NPT): outside
//! diameter of the pipe D, threads per inch n and hand-tight length L1 by size, profile of 60°, taper of 1 in 16 on the diameter,
//! pitch diameter at the small end E0 = D − (0.05·D + 1.1)/n, in the hand-tight plane E1 = E0 + L1/16, thread depth 0.8/n.

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
    /// `NPT`: taper, outside and inside, sealed on the thread (ASME B1.20.1).
    Npt,
}

impl PipeForm {
    /// The letters of its designation: before the size, of `NPT` behind it.
    #[must_use]
    pub fn letters(self) -> &'static str {
        match self {
            Self::G => "G",
            Self::R => "R",
            Self::Rp => "Rp",
            Self::Rc => "Rc",
            Self::Npt => "NPT",
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

/// Depth of an American taper pipe thread for a pitch of 1, as the pitch diameters are reckoned with (ASME B1.20.1).
pub(super) const AMERICAN_DEPTH: f64 = 0.8;

/// A size of NPT: how it is written, outside diameter of the pipe in inches, threads per inch, hand-tight length L1 in inches.
static AMERICAN: &[(&str, f64, f64, f64)] = &[
    ("1/16", 0.3125, 27.0, 0.160),
    ("1/8", 0.405, 27.0, 0.1615),
    ("1/4", 0.540, 18.0, 0.2278),
    ("3/8", 0.675, 18.0, 0.240),
    ("1/2", 0.840, 14.0, 0.320),
    ("3/4", 1.050, 14.0, 0.339),
    ("1", 1.315, 11.5, 0.400),
    ("1-1/4", 1.660, 11.5, 0.420),
    ("1-1/2", 1.900, 11.5, 0.420),
    ("2", 2.375, 11.5, 0.436),
];

/// Reads `1/4-18 NPT`, `1/4 NPT` and `NPT 1/4`; nothing where the text is none. A pitch that is written has to be the size's own.
fn american(text: &str) -> Option<Result<ThreadSize, ThreadError>> {
    let rest = text.strip_suffix("NPT").or_else(|| text.strip_prefix("NPT"))?.trim();
    let known = || AMERICAN.iter().map(|row| format!("{}-{} NPT", row.0, row.2)).collect::<Vec<_>>().join(", ");
    let mut parts: Vec<&str> = rest.split(|sign: char| sign.is_whitespace() || sign == '-').filter(|part| !part.is_empty()).collect();
    let row = |parts: &[&str]| AMERICAN.iter().find(|row| row.0 == parts.join("-"));
    let whole = row(&parts);
    let pitch = if whole.is_none() { parts.pop() } else { None };
    let found = whole.or_else(|| row(&parts).filter(|row| pitch.and_then(|pitch| pitch.parse::<f64>().ok()).is_some_and(|pitch| (pitch - row.2).abs() < 1e-9)));
    let Some((label, outside, per_inch, hand_tight)) = found else { return Some(Err(ThreadError::NoSuchPipe(known()))) };
    let pitch_diameter = outside - (0.05 * outside + 1.1) / per_inch + hand_tight / 16.0;
    let diameter_mm = (pitch_diameter + AMERICAN_DEPTH / per_inch) * 25.4;
    Some(Ok(ThreadSize::Pipe { form: PipeForm::Npt, label, diameter_mm, per_inch: *per_inch, class: None }))
}

/// Reads `G1/4`, `G 1/4 A`, `R 1/2`, `Rp1/2`, `Rc 1 1/4`, `1/4-18 NPT`; nothing where the text is no pipe thread at all.
pub(super) fn parse(text: &str) -> Option<Result<ThreadSize, ThreadError>> {
    if let Some(npt) = american(text) {
        return Some(npt);
    }
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
        Some((label, diameter_mm, per_inch, _)) => Ok(ThreadSize::Pipe { form, label, diameter_mm: *diameter_mm, per_inch: f64::from(*per_inch), class }),
        None => {
            let names: Vec<String> = SIZES.iter().filter(known).map(|row| format!("{} {}", form.letters(), row.0)).collect();
            Err(ThreadError::NoSuchPipe(names.join(", ")))
        }
    })
}
