//! Tables for spreadsheets, as RFC 4180 has them.

use crate::quantity::Quantity;
use std::io::{self, Write};

/// Writes one row.
pub(super) fn row<'t>(out: &mut dyn Write, cells: impl IntoIterator<Item = &'t str>) -> io::Result<()> {
    let cells: Vec<String> = cells.into_iter().map(cell).collect();
    write!(out, "{}\r\n", cells.join(","))
}

/// Signs by which a spreadsheet takes a cell for a formula, the wide forms of East Asian keyboards among them; a tab or a line's
/// end in front is passed over, and what follows reckoned (OWASP, "CSV Injection", the wide forms from memory).
const BEGIN_FORMULAS: [char; 11] = ['=', '@', '+', '-', '＝', '＠', '＋', '－', '\t', '\r', '\n'];

/// A cell in quotes where it needs them. A text that a spreadsheet would reckon as a formula gets a space in front.
fn cell(text: &str) -> String {
    let guarded = if text.starts_with(BEGIN_FORMULAS) && !is_value(text) { format!(" {text}") } else { text.to_owned() };
    if guarded.contains(['"', ',', '\n', '\r']) { format!("\"{}\"", guarded.replace('"', "\"\"")) } else { guarded }
}

/// Whether all of a cell is one plain number or quantity, such as `-0.05` or `-40 °C`: that stays a number to reckon with.
fn is_value(text: &str) -> bool {
    let number = text.strip_prefix(['+', '-']).is_some_and(|digits| {
        digits.starts_with(|first: char| first.is_ascii_digit()) && digits.chars().all(|sign| sign.is_ascii_digit() || sign == '.') && digits.parse::<f64>().is_ok()
    });
    number || (text.starts_with(['+', '-']) && Quantity::parse_free(text).is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    // RFC 4180, 2: quotes are doubled, commas and line ends stand in quotes, lines end in CR LF.
    #[test]
    fn cells_are_quoted_where_they_need_it() {
        let mut out = Vec::new();
        row(&mut out, ["plain", "a, b", "1/4\" drive", "", "=1+1", "20–25 N·m"]).unwrap();
        assert_eq!(String::from_utf8(out).unwrap(), "plain,\"a, b\",\"1/4\"\" drive\",, =1+1,20–25 N·m\r\n");
    }

    // OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return are reckoned.
    #[test]
    fn what_a_spreadsheet_would_run_stands_behind_a_space() {
        for text in ["=HYPERLINK(1)", "@SUM(1)", "+HYPERLINK(1)", "+cmd|'/C calc'!A0", "-2+3+cmd|'/C calc'!A0", "-A1", "-1-1", "-40 °C+A1", "\t=1+1", "+-1", "-", "- 1", "＝1+1", "－A1"] {
            assert_eq!(cell(text), format!(" {text}"), "{text}");
        }
        assert_eq!(cell("\r=1+1"), "\" \r=1+1\"");
        assert_eq!(cell("\n=1,1"), "\" \n=1,1\"");
    }

    #[test]
    fn a_value_with_a_sign_stays_a_value() {
        for text in ["-0.05", "+12", "-40 °C", "+0.02 mm", "-0.05–+0.05 mm", "−40 °C", "–", "M8", "20–25 N·m"] {
            assert_eq!(cell(text), text);
        }
    }
}
