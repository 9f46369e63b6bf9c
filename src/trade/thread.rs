//! Screw threads by their designation: ISO metric, Unified inch, and pipe threads (`thread_pipe.rs`).
//!
//! Sources: ISO 261 (metric diameters and pitches, first and second choice to M64; from memory, checked
//! against the rows of the stress-area tables of ISO 898-1), ASME B1.1 (Unified coarse and fine series
//! to 1½ in; from memory).

use super::thread_pipe::{self, PipeForm};
use std::fmt;

/// A screw thread.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Its system and size.
    pub size: ThreadSize,
    /// Whether it tightens anticlockwise.
    pub left_hand: bool,
}

/// System and size of a thread.
#[derive(Clone, Debug, PartialEq)]
pub enum ThreadSize {
    /// ISO metric: nominal diameter and pitch in millimetres.
    Metric {
        /// Nominal diameter, mm.
        diameter: f64,
        /// Pitch, mm.
        pitch: f64,
    },
    /// Unified inch.
    Unified {
        /// The size as the trade writes it: `1/4`, `#10`.
        label: &'static str,
        /// Nominal diameter, in.
        diameter: f64,
        /// Threads per inch.
        per_inch: u32,
        /// `UNC` or `UNF`.
        series: Series,
    },
    /// A pipe thread: it closes and seals, and is no bolt.
    Pipe {
        /// Which kind.
        form: PipeForm,
        /// The size as the trade writes it: `1/4`. It is the bore of an old pipe, and no length of the thread.
        label: &'static str,
        /// Major diameter, mm; of a taper thread in its gauge plane.
        diameter_mm: f64,
        /// Threads per inch; of some sizes of NPT 11.5.
        per_inch: f64,
        /// Tolerance of the outside thread of a `G`, where it is written: `A` or `B`.
        class: Option<char>,
    },
}

/// A Unified series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Series {
    /// Coarse.
    Coarse,
    /// Fine.
    Fine,
}

/// Why a designation is no thread.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ThreadError {
    /// It is no designation at all.
    Unreadable,
    /// A metric diameter without its pitch; the pitches there are.
    PitchMissing(String),
    /// A pitch that does not exist with this diameter; the ones that do.
    NoSuchPitch(String),
    /// A diameter that does not exist.
    NoSuchDiameter,
    /// A Unified size and number of threads that do not go together; the ones that do.
    NoSuchUnified(String),
    /// A size that does not exist among the pipe threads of this kind; the ones that do.
    NoSuchPipe(String),
}

impl ThreadError {
    /// What is wrong, in the reader's words.
    #[must_use]
    pub fn message(&self, written: &str) -> String {
        match self {
            Self::Unreadable => format!("‘{written}’ is no thread"),
            Self::PitchMissing(_) => format!("‘{written}’ has no pitch"),
            Self::NoSuchPitch(_) => format!("there is no ‘{written}’: the pitch does not go with the diameter"),
            Self::NoSuchDiameter => format!("‘{written}’ has a diameter that is not in the series"),
            Self::NoSuchUnified(_) => format!("there is no ‘{written}’ in the Unified series"),
            Self::NoSuchPipe(_) => format!("there is no ‘{written}’ among the pipe threads"),
        }
    }

    /// What to write instead.
    #[must_use]
    pub fn fix(&self) -> String {
        match self {
            Self::Unreadable => {
                "write ISO metric with its pitch (M8x1.25), Unified (1/4-20 UNC, 5/16-24 UNF) or a pipe thread (G 1/4, R 1/2, Rp 1/2, Rc 1/2, 1/4-18 NPT); add ‘left-hand’ where it is"
                    .to_owned()
            }
            Self::PitchMissing(known) | Self::NoSuchPitch(known) => {
                format!("measure the pitch and write it: {known}")
            }
            Self::NoSuchDiameter => "measure again over the crests, and write the nominal diameter of ISO 261".to_owned(),
            Self::NoSuchUnified(known) => format!("count the threads and write one of: {known}"),
            Self::NoSuchPipe(known) => format!("measure over the crests, and write one of: {known}"),
        }
    }
}

impl Thread {
    /// Reads `M12x1.25`, `M12×1.25`, `1/4-20 UNC`, `#10-32 UNF`, `G 1/4`, `R 1/2`, `1/4-18 NPT`, each with `left-hand` or `LH` behind it.
    ///
    /// # Errors
    /// A [`ThreadError`] where the text is no thread of these series.
    pub fn parse(text: &str) -> Result<Self, ThreadError> {
        let trimmed = text.trim();
        let (size, left_hand) = ["left-hand", "LH"]
            .iter()
            .find_map(|mark| trimmed.strip_suffix(mark))
            .map_or((trimmed, false), |rest| (rest.trim_end(), true));
        let size = match (size.strip_prefix('M'), thread_pipe::parse(size)) {
            (Some(rest), _) => parse_metric(rest)?,
            (None, Some(pipe)) => pipe?,
            (None, None) => parse_unified(size)?,
        };
        Ok(Self { size, left_hand })
    }

    /// Nominal diameter in millimetres.
    #[must_use]
    pub fn diameter_mm(&self) -> f64 {
        match self.size {
            ThreadSize::Metric { diameter, .. } => diameter,
            ThreadSize::Unified { diameter, .. } => diameter * 25.4,
            ThreadSize::Pipe { diameter_mm, .. } => diameter_mm,
        }
    }

    /// Pitch in millimetres.
    #[must_use]
    pub fn pitch_mm(&self) -> f64 {
        match self.size {
            ThreadSize::Metric { pitch, .. } => pitch,
            ThreadSize::Unified { per_inch, .. } => 25.4 / f64::from(per_inch),
            ThreadSize::Pipe { per_inch, .. } => 25.4 / per_inch,
        }
    }

    /// Whether it is an ISO metric thread.
    #[must_use]
    pub fn is_metric(&self) -> bool {
        matches!(self.size, ThreadSize::Metric { .. })
    }

    /// Which kind of pipe thread it is, if it is one: it seals, has no property class, and is no bolt to be screened.
    #[must_use]
    pub fn pipe(&self) -> Option<PipeForm> {
        match self.size {
            ThreadSize::Pipe { form, .. } => Some(form),
            _ => None,
        }
    }

    /// Whether its pitch is the coarse one of its diameter; a metric diameter that has only fine pitches has none, nor has a pipe thread.
    #[must_use]
    pub fn is_coarse(&self) -> bool {
        match self.size {
            ThreadSize::Unified { series, .. } => series == Series::Coarse,
            ThreadSize::Pipe { .. } => false,
            ThreadSize::Metric { diameter, pitch } => {
                let row = METRIC.iter().find(|row| close(row.0, diameter) && !FINE_ONLY.iter().any(|fine| close(*fine, diameter)));
                row.and_then(|row| row.1.first()).is_some_and(|coarse| close(*coarse, pitch))
            }
        }
    }
}

impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.size {
            ThreadSize::Metric { diameter, pitch } if pitch.fract().abs() < 1e-9 => write!(f, "M{diameter} × {pitch:.1}")?,
            ThreadSize::Metric { diameter, pitch } => write!(f, "M{diameter} × {pitch}")?,
            ThreadSize::Unified { label, per_inch, series, .. } => {
                let series = match series {
                    Series::Coarse => "UNC",
                    Series::Fine => "UNF",
                };
                write!(f, "{label}-{per_inch} {series}")?;
            }
            ThreadSize::Pipe { form: PipeForm::Npt, label, per_inch, .. } => write!(f, "{label}-{per_inch} NPT")?,
            ThreadSize::Pipe { form, label, class, .. } => {
                write!(f, "{} {label}", form.letters())?;
                if let Some(class) = class {
                    write!(f, " {class}")?;
                }
            }
        }
        if self.left_hand { write!(f, " left-hand") } else { Ok(()) }
    }
}

fn parse_metric(rest: &str) -> Result<ThreadSize, ThreadError> {
    let (diameter, pitch) = match rest.split_once(['x', 'X', '×', '*']) {
        Some((diameter, pitch)) => (diameter, Some(pitch)),
        None => (rest, None),
    };
    let diameter = decimal(diameter).ok_or(ThreadError::Unreadable)?;
    let row = METRIC.iter().find(|row| close(row.0, diameter));
    match (row, pitch) {
        (None, _) => Err(ThreadError::NoSuchDiameter),
        (Some(row), None) => Err(ThreadError::PitchMissing(metric_choices(row))),
        (Some(row), Some(pitch)) => {
            let pitch = decimal(pitch).ok_or(ThreadError::Unreadable)?;
            if row.1.iter().any(|known| close(*known, pitch)) {
                Ok(ThreadSize::Metric { diameter, pitch })
            } else {
                Err(ThreadError::NoSuchPitch(metric_choices(row)))
            }
        }
    }
}

fn parse_unified(text: &str) -> Result<ThreadSize, ThreadError> {
    let (label, rest) = text.split_once('-').ok_or(ThreadError::Unreadable)?;
    let (label, rest) = match rest.split_once('-') {
        Some((eighths, more)) if eighths.contains('/') => (format!("{label}-{eighths}"), more),
        _ => (label.trim().to_owned(), rest),
    };
    let mut words = rest.split_whitespace();
    let per_inch: u32 = words.next().and_then(|n| n.parse().ok()).ok_or(ThreadError::Unreadable)?;
    let series = match words.next() {
        Some("UNC") => Series::Coarse,
        Some("UNF") => Series::Fine,
        _ => return Err(ThreadError::Unreadable),
    };
    let row = UNIFIED.iter().find(|row| row.0 == label).ok_or(ThreadError::NoSuchDiameter)?;
    let wanted = match series {
        Series::Coarse => row.2,
        Series::Fine => row.3,
    };
    if words.next().is_none() && wanted == Some(per_inch) {
        Ok(ThreadSize::Unified { label: row.0, diameter: row.1, per_inch, series })
    } else {
        Err(ThreadError::NoSuchUnified(unified_choices(row)))
    }
}

fn metric_choices(row: &(f64, &[f64])) -> String {
    let names: Vec<String> = row.1.iter().map(|pitch| format!("M{}x{}", row.0, pitch_text(*pitch))).collect();
    names.join(", ")
}

fn pitch_text(pitch: f64) -> String {
    if close(pitch.fract(), 0.0) { format!("{pitch:.1}") } else { pitch.to_string() }
}

fn unified_choices(row: &(&str, f64, Option<u32>, Option<u32>)) -> String {
    let coarse = row.2.map(|n| format!("{}-{n} UNC", row.0));
    let fine = row.3.map(|n| format!("{}-{n} UNF", row.0));
    let names: Vec<String> = coarse.into_iter().chain(fine).collect();
    names.join(", ")
}

/// A positive decimal of at most eight characters, without sign or exponent.
fn decimal(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain = !text.is_empty() && text.len() <= 8 && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if plain { text.parse().ok() } else { None }
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

/// Nominal diameter and pitches in millimetres, coarse first (ISO 261).
static METRIC: &[(f64, &[f64])] = &[
    (1.6, &[0.35, 0.2]),
    (2.0, &[0.4, 0.25]),
    (2.5, &[0.45, 0.35]),
    (3.0, &[0.5, 0.35]),
    (3.5, &[0.6, 0.35]),
    (4.0, &[0.7, 0.5]),
    (5.0, &[0.8, 0.5]),
    (6.0, &[1.0, 0.75]),
    (7.0, &[1.0, 0.75]),
    (8.0, &[1.25, 1.0, 0.75]),
    (9.0, &[1.25, 1.0, 0.75]),
    (10.0, &[1.5, 1.25, 1.0, 0.75]),
    (11.0, &[1.5, 1.0, 0.75]),
    (12.0, &[1.75, 1.5, 1.25, 1.0]),
    (14.0, &[2.0, 1.5, 1.25, 1.0]),
    (15.0, &[1.5, 1.0]),
    (16.0, &[2.0, 1.5, 1.0]),
    (17.0, &[1.5, 1.0]),
    (18.0, &[2.5, 2.0, 1.5, 1.0]),
    (20.0, &[2.5, 2.0, 1.5, 1.0]),
    (22.0, &[2.5, 2.0, 1.5, 1.0]),
    (24.0, &[3.0, 2.0, 1.5, 1.0]),
    (25.0, &[2.0, 1.5, 1.0]),
    (26.0, &[1.5]),
    (27.0, &[3.0, 2.0, 1.5, 1.0]),
    (28.0, &[2.0, 1.5, 1.0]),
    (30.0, &[3.5, 3.0, 2.0, 1.5, 1.0]),
    (32.0, &[2.0, 1.5]),
    (33.0, &[3.5, 3.0, 2.0, 1.5]),
    (35.0, &[1.5]),
    (36.0, &[4.0, 3.0, 2.0, 1.5]),
    (39.0, &[4.0, 3.0, 2.0, 1.5]),
    (40.0, &[3.0, 2.0, 1.5]),
    (42.0, &[4.5, 4.0, 3.0, 2.0, 1.5]),
    (45.0, &[4.5, 4.0, 3.0, 2.0, 1.5]),
    (48.0, &[5.0, 4.0, 3.0, 2.0, 1.5]),
    (50.0, &[3.0, 2.0, 1.5]),
    (52.0, &[5.0, 4.0, 3.0, 2.0, 1.5]),
    (56.0, &[5.5, 4.0, 3.0, 2.0, 1.5]),
    (60.0, &[5.5, 4.0, 3.0, 2.0, 1.5]),
    (64.0, &[6.0, 4.0, 3.0, 2.0, 1.5]),
];

/// Diameters of the table without a coarse pitch (ISO 261).
static FINE_ONLY: &[f64] = &[15.0, 17.0, 25.0, 26.0, 28.0, 32.0, 35.0, 40.0, 50.0];

/// Size, diameter in inches, threads per inch of the coarse and of the fine series (ASME B1.1).
static UNIFIED: &[(&str, f64, Option<u32>, Option<u32>)] = &[
    ("#4", 0.112, Some(40), Some(48)),
    ("#5", 0.125, Some(40), Some(44)),
    ("#6", 0.138, Some(32), Some(40)),
    ("#8", 0.164, Some(32), Some(36)),
    ("#10", 0.190, Some(24), Some(32)),
    ("#12", 0.216, Some(24), Some(28)),
    ("1/4", 0.25, Some(20), Some(28)),
    ("5/16", 0.3125, Some(18), Some(24)),
    ("3/8", 0.375, Some(16), Some(24)),
    ("7/16", 0.4375, Some(14), Some(20)),
    ("1/2", 0.5, Some(13), Some(20)),
    ("9/16", 0.5625, Some(12), Some(18)),
    ("5/8", 0.625, Some(11), Some(18)),
    ("3/4", 0.75, Some(10), Some(16)),
    ("7/8", 0.875, Some(9), Some(14)),
    ("1", 1.0, Some(8), Some(12)),
    ("1-1/8", 1.125, Some(7), Some(12)),
    ("1-1/4", 1.25, Some(7), Some(12)),
    ("1-3/8", 1.375, Some(6), Some(12)),
    ("1-1/2", 1.5, Some(6), Some(12)),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str) -> String {
        Thread::parse(text).map_or_else(|e| e.message(text), |t| t.to_string())
    }

    #[test]
    fn reads_metric_and_unified() {
        assert_eq!(shown("M12x1.25"), "M12 × 1.25");
        assert_eq!(shown("M12×1.25"), "M12 × 1.25");
        assert_eq!(shown("M6x1.0"), "M6 × 1.0");
        assert_eq!(shown("M6x1"), "M6 × 1.0");
        assert_eq!(shown("M12x1.25 left-hand"), "M12 × 1.25 left-hand");
        assert_eq!(shown("1/4-20 UNC"), "1/4-20 UNC");
        assert_eq!(shown("5/16-24 UNF"), "5/16-24 UNF");
        assert_eq!(shown("#10-32 UNF"), "#10-32 UNF");
        assert_eq!(shown("1-1/8-7 UNC"), "1-1/8-7 UNC");
    }

    // ISO 228-1 and ISO 7-1, from memory.
    #[test]
    fn reads_pipe_threads() {
        for (text, wanted) in [
            ("G1/4", "G 1/4"), ("G 1/4", "G 1/4"), ("G1/4A", "G 1/4 A"), ("G 1/4 B", "G 1/4 B"), ("R1/2", "R 1/2"), ("Rp 1/2", "Rp 1/2"), ("Rc1 1/4", "Rc 1-1/4"),
            ("G 1-1/4", "G 1-1/4"), ("G 3/4 left-hand", "G 3/4 left-hand"), ("G1", "G 1"),
        ] {
            assert_eq!(shown(text), wanted, "{text}");
        }
        assert_eq!(shown("G 5/8"), "G 5/8");
        assert_eq!(shown("R 5/8"), "there is no ‘R 5/8’ among the pipe threads");
        assert_eq!(shown("G 1/3"), "there is no ‘G 1/3’ among the pipe threads");
        // ASME B1.20.1, from memory.
        for (text, wanted) in [("1/4-18 NPT", "1/4-18 NPT"), ("1/4 NPT", "1/4-18 NPT"), ("NPT1/8", "1/8-27 NPT"), ("1-11.5 NPT", "1-11.5 NPT"), ("NPT 1 1/4", "1-1/4-11.5 NPT"), ("1-1/2-11.5 NPT", "1-1/2-11.5 NPT")] {
            assert_eq!(shown(text), wanted, "{text}");
        }
        for text in ["1/4-20 NPT", "5/8 NPT", "NPT", "1/4-18-18 NPT"] {
            assert!(shown(text).contains("among the pipe threads"), "{text}: {}", shown(text));
        }
        for text in ["G", "R", "Rp", "Right", "G 0.25", "R1/2A", "G1/4C", "GG1/4", "G 1/4/", "G ½"] {
            assert!(matches!(shown(text).as_str(), no if no.contains("is no thread") || no.contains("among the pipe threads")), "{text}: {}", shown(text));
        }
    }

    #[test]
    fn refuses_what_is_no_thread() {
        assert_eq!(shown("M8"), "‘M8’ has no pitch");
        assert_eq!(shown("M8x1.3"), "there is no ‘M8x1.3’: the pitch does not go with the diameter");
        assert_eq!(shown("M8.5x1"), "‘M8.5x1’ has a diameter that is not in the series");
        assert_eq!(shown("1/4-22 UNC"), "there is no ‘1/4-22 UNC’ in the Unified series");
        assert_eq!(shown("bolt"), "‘bolt’ is no thread");
        assert_eq!(shown("M"), "‘M’ is no thread");
        assert_eq!(shown("Mx"), "‘Mx’ is no thread");
        assert_eq!(shown("M1e3x1"), "‘M1e3x1’ is no thread");
        assert_eq!(shown(""), "‘’ is no thread");
    }

    #[test]
    fn coarse_and_fine_are_told_apart() {
        for (text, coarse) in [
            ("M8x1.25", true), ("M8x1", false), ("M15x1.5", false), ("M12x1.75", true), ("M12x1.25", false), ("1/4-20 UNC", true), ("1/4-28 UNF", false),
        ] {
            assert_eq!(Thread::parse(text).unwrap().is_coarse(), coarse, "{text}");
        }
        assert!(Thread::parse("M8x1").unwrap().is_metric() && !Thread::parse("1/4-28 UNF").unwrap().is_metric());
    }

    #[test]
    fn a_missing_pitch_names_the_ones_there_are() {
        let error = Thread::parse("M10").unwrap_err();
        assert_eq!(error.fix(), "measure the pitch and write it: M10x1.5, M10x1.25, M10x1.0, M10x0.75");
    }

    // ISO 898-1 reprints list the stress area of each coarse thread, As = π/4·(d − 0.9382·P)² (ISO 898-1,
    // 9.1.6.1): a wrong pitch in the table would miss the printed figure.
    #[test]
    fn coarse_pitches_reproduce_the_printed_stress_areas() {
        let printed = [
            (3.0, 5.03, 0.005), (4.0, 8.78, 0.005), (5.0, 14.2, 0.05), (6.0, 20.1, 0.05), (7.0, 28.9, 0.05),
            (8.0, 36.6, 0.05), (10.0, 58.0, 0.05), (12.0, 84.3, 0.05), (14.0, 115.0, 0.5), (16.0, 157.0, 0.5),
            (18.0, 192.0, 0.5), (20.0, 245.0, 0.5), (22.0, 303.0, 0.5), (24.0, 353.0, 0.5), (27.0, 459.0, 0.5),
        ];
        for (diameter, area, half_digit) in printed {
            let row = METRIC.iter().find(|row| close(row.0, diameter)).unwrap();
            let stress = std::f64::consts::FRAC_PI_4 * (diameter - 0.9382 * row.1[0]).powi(2);
            assert!((stress - area).abs() <= half_digit + 0.01, "M{diameter}: {stress} against {area}");
        }
    }
}
