//! The square code (QR, ISO/IEC 18004) as one path of black modules.

mod mask;

use crate::figure::drawing::push_whole;
use mask::Modules;
use qrcodegen::{Mask, QrCode, QrCodeEcc, QrSegment, Version};
use serde::Serialize;

/// White round a code, in modules (ISO/IEC 18004, 9.1: four).
const QUIET: u32 = 4;

/// Side of the code with its quiet zone, in millimetres: its place in the title block.
const SIDE_MM: u8 = 24;

/// The least version: 41 modules and the quiet zone in 24 mm make a symbol of 20 mm.
const LEAST: u8 = 6;

/// The greatest version: of its 61 modules each is 0.35 mm wide, which a telephone still tells apart on office paper
/// (common practice: a third of a millimetre).
const MOST: u8 = 11;

/// A code, ready for its template.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SquareCode {
    /// Modules of a side, with the quiet zone.
    pub modules: u32,
    /// Millimetres of a side on paper, with the quiet zone.
    pub side_mm: u8,
    /// The path that draws the black modules.
    pub path: String,
}

impl SquareCode {
    /// The code of a text; none where the text is too long for a code of that size.
    pub(super) fn of(text: &str) -> Option<Self> {
        let mut segments = QrSegment::make_segments(text);
        if !text.is_ascii() {
            // Without it a reader may take the bytes for Latin-1.
            segments.insert(0, QrSegment::make_eci(26));
        }
        let made = [QrCodeEcc::Medium, QrCodeEcc::Low].into_iter().find_map(|level| {
            let encoded = |mask| QrCode::encode_segments_advanced(&segments, level, Version::new(LEAST), Version::new(MOST), Some(Mask::new(mask)), true).ok();
            Some(mask::best(&encoded(0)?, &encoded))
        })?;
        Some(Self { modules: u32::try_from(made.rows().len()).ok()? + 2 * QUIET, side_mm: SIDE_MM, path: path(&made) })
    }
}

/// Runs of black modules, a rectangle each.
fn path(code: &Modules) -> String {
    let mut path = String::new();
    for (y, row) in (QUIET..).zip(code.rows()) {
        let (mut left, mut x) = (*row, QUIET);
        while left != 0 {
            let white = left.trailing_zeros();
            let run = (left >> white).trailing_ones();
            x += white;
            for (sign, number) in [("M", x), (" ", y), ("h", run), ("v1h-", run)] {
                path.push_str(sign);
                push_whole(&mut path, number.into());
            }
            path.push('z');
            x += run;
            left = left.checked_shr(white + run).unwrap_or(0);
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_its_quiet_zone_and_its_size_on_paper() {
        for length in [1, 60, 106, 120, 200, 250, 300] {
            let code = SquareCode::of(&"x".repeat(length)).unwrap();
            let symbol = f64::from(SIDE_MM) * f64::from(code.modules - 2 * QUIET) / f64::from(code.modules);
            assert!(symbol >= 20.0, "{length}: {symbol} mm");
            assert!(f64::from(SIDE_MM) / f64::from(code.modules) >= 0.33, "{length}");
            // The finder pattern's first row is seven modules wide and begins behind the quiet zone.
            assert!(code.path.starts_with("M4 4h7v1h-7z"), "{}", &code.path[..20]);
        }
        assert_eq!(SquareCode::of(&"x".repeat(2000)), None);
    }

    #[test]
    fn the_path_covers_each_black_module_once() {
        let code = QrCode::encode_text("benchleaf", QrCodeEcc::Medium).unwrap();
        let mut black = std::collections::BTreeSet::new();
        for run in path(&Modules::of(&code)).split('M').skip(1) {
            let (x, rest) = run.split_once(' ').unwrap();
            let (y, rest) = rest.split_once('h').unwrap();
            let (length, _) = rest.split_once('v').unwrap();
            let (x, y, length): (i32, i32, i32) = (x.parse().unwrap(), y.parse().unwrap(), length.parse().unwrap());
            (0..length).for_each(|step| assert!(black.insert((x + step - 4, y - 4)), "drawn twice"));
        }
        let wanted = (0..code.size()).flat_map(|y| (0..code.size()).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y)).collect();
        assert_eq!(black, wanted);
    }
}
