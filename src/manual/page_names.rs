//! Names of the pages that a procedure has beside its own, without `.html`: as they lie in the machine's folder of the site.

/// The name of a procedure's sheet for these variant values.
#[must_use]
pub fn sheet_name(procedure: &str, values: &[&str]) -> String {
    if values.is_empty() {
        return format!("{procedure}-sheet");
    }
    let safe: Vec<String> = values.iter().map(|value| file_name_part(value)).collect();
    format!("{procedure}-sheet-{}", safe.join("-"))
}

/// The name of the board for a group of bolts.
#[must_use]
pub fn board_name(procedure: &str, fastener: &str) -> String {
    format!("{procedure}-board-{}", file_name_part(fastener))
}

/// A variant value or id as a file's name may hold it.
#[must_use]
pub fn file_name_part(value: &str) -> String {
    value.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_' | '.') { c } else { '-' }).collect()
}
