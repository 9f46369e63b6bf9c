//! Tables for spreadsheets, as RFC 4180 has them.

use std::io::{self, Write};

/// Writes one row.
pub(super) fn row<'t>(out: &mut dyn Write, cells: impl IntoIterator<Item = &'t str>) -> io::Result<()> {
    let cells: Vec<String> = cells.into_iter().map(cell).collect();
    write!(out, "{}\r\n", cells.join(","))
}

/// A cell in quotes where it needs them. A text that a spreadsheet would reckon as a formula gets a space in front.
fn cell(text: &str) -> String {
    let guarded = if text.starts_with(['=', '@']) { format!(" {text}") } else { text.to_owned() };
    if guarded.contains(['"', ',', '\n', '\r']) { format!("\"{}\"", guarded.replace('"', "\"\"")) } else { guarded }
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
}
