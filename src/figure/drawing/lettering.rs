//! How wide text is, without asking a font: the reader's own sans-serif sets it, so the widest common one counts.

use unicode_width::UnicodeWidthChar;

/// Size of notes and item numbers in millimetres: capitals 1.8 mm high, the smallest of ISO 3098-1.
pub const NOTE: f64 = 2.5;

/// Size of values and dimensions in millimetres: capitals near 2.5 mm high, the next of ISO 3098-1.
pub const FIGURE: f64 = 3.4;

/// From one line of text to the next, in text sizes.
pub const LINE_PITCH: f64 = 1.3;

/// How far letters reach above the line they stand on, in text sizes; capitals with accents reach a little higher.
pub const ABOVE_LINE: f64 = 0.78;

/// How far below.
pub const BELOW_LINE: f64 = 0.24;

/// Advance widths of space to tilde in thousandths of the size: for each the greater of `DejaVu Sans` 2.37 (its own
/// `hmtx` table, the widest of the sans-serifs that systems come with) and Helvetica (Adobe's core font metrics).
const ASCII: [u16; 95] = [
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337, // space to /
    636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 556, // 0 to ?
    1015, 684, 686, 722, 770, 667, 611, 778, 752, 295, 500, 667, 557, 863, 748, 787, // @ to O
    667, 787, 722, 667, 611, 732, 684, 989, 685, 667, 685, 390, 337, 390, 838, 556, // P to _
    500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612, // ` to o
    635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838, // p to ~
];

/// The most a text takes in the common sans-serifs, in millimetres.
#[must_use]
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().map(advance).sum::<f64>() * size
}

/// In sizes.
fn advance(letter: char) -> f64 {
    let known = u32::from(letter).checked_sub(32).and_then(|at| ASCII.get(usize::try_from(at).ok()?));
    let thousandths = match (known, letter) {
        (Some(width), _) => *width,
        (None, '·' | '‘' | '’' | '\u{a0}' | '\u{202f}' | '\u{2009}') => 318,
        (None, '°' | '–' | '“' | '”') => 556,
        (None, 'µ' | 'ß' | '²' | '³' | '¹') => 640,
        (None, 'à'..='å' | 'è'..='ë' | 'ì'..='ï' | 'ñ'..='ö' | 'ø'..='ÿ' | 'ç') => 640,
        (None, '×' | '±' | '÷' | '−' | '→' | '≤' | '≥' | '≈' | 'Δ' | 'À'..='Å' | 'Ç'..='Ö' | 'Ø'..='Ý') => {
            838
        }
        _ => match letter.width() {
            Some(0) | None => 0,
            Some(1) => 1070,
            // East Asian letters are square; emoji a little wider.
            Some(_) => 1250,
        },
    };
    f64::from(thousandths) / 1000.0
}

/// Breaks a text into lines no wider than `width` millimetres, between words, or within a word that is wider than
/// a line alone. A no-break space holds a number to its unit where the two fit on a line. Never empty.
#[must_use]
pub fn wrapped(text: &str, size: f64, width: f64) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split([' ', '\n', '\t', '\r']).filter(|word| !word.is_empty()) {
        for piece in pieces(word, size, width) {
            let line = lines.last().map_or("", String::as_str);
            let joined = if line.is_empty() { piece.clone() } else { format!("{line} {piece}") };
            if text_width(&joined, size) <= width {
                lines.pop();
                lines.push(joined);
            } else if line.is_empty() {
                lines.pop();
                lines.push(piece);
            } else {
                lines.push(piece);
            }
        }
    }
    lines
}

/// A word whole, or in pieces that fit a line each.
fn pieces(word: &str, size: f64, width: f64) -> Vec<String> {
    if text_width(word, size) <= width {
        return vec![word.to_owned()];
    }
    let mut pieces = Vec::new();
    let mut piece = String::new();
    for letter in word.chars() {
        if !piece.is_empty() && text_width(&piece, size) + advance(letter) * size > width {
            pieces.push(std::mem::take(&mut piece));
        }
        piece.push(letter);
    }
    pieces.push(piece);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Widths of Adobe's core font metrics for Helvetica: H 722, e 556, l 222, o 556; `DejaVu Sans` is wider.
    #[test]
    fn text_is_never_narrower_than_in_common_fonts() {
        let helvetica = f64::from(722 + 556 + 222 + 222 + 556) / 1000.0;
        let dejavu = f64::from(752 + 615 + 278 + 278 + 612) / 1000.0;
        let reckoned = text_width("Hello", 1.0);
        assert!(reckoned >= helvetica && reckoned >= dejavu && reckoned < 1.2 * dejavu, "{reckoned}");
    }

    #[test]
    fn lines_break_between_words_and_within_one_that_is_too_long() {
        assert_eq!(wrapped("gear oil up to here", 2.5, 13.0), ["gear oil", "up to here"]);
        let lines = wrapped("Donaudampfschifffahrtsgesellschaft", 2.5, 12.0);
        assert!(lines.len() > 2 && lines.iter().all(|line| text_width(line, 2.5) <= 12.0), "{lines:?}");
        assert_eq!(lines.concat(), "Donaudampfschifffahrtsgesellschaft");
        assert_eq!(wrapped("", 2.5, 12.0), [""]);
    }
}
