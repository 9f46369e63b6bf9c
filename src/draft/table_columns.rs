//! The columns of a spreadsheet of torques, by the plain names that people give them.

use crate::quantity::{Dimension, Unit};

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Column {
    Name,
    Count,
    Thread,
    Class,
    Role,
    Into,
    Condition,
    /// A torque; with a unit where the heading has one.
    Torque(Option<&'static Unit>),
    Lowest(Option<&'static Unit>),
    Highest(Option<&'static Unit>),
    Unit,
    Source,
    Page,
    Note,
    /// None of these: kept in a comment.
    Other,
}

/// Headings as they are written, folded to letters and digits.
const HEADINGS: [(Column, &[&str]); 14] = [
    (Column::Name, &["fastener", "fasteners", "fastenername", "bolt", "bolts", "screw", "nut", "boltnut", "name", "item", "description", "location", "where", "part", "joint"]),
    (Column::Count, &["count", "qty", "quantity", "pcs", "pieces", "howmany", "number", "no", "n"]),
    (Column::Thread, &["thread", "threadsize", "size", "dimension", "boltsize", "threadpitch"]),
    (Column::Class, &["class", "propertyclass", "grade", "strengthclass", "strength", "boltclass", "boltgrade"]),
    (Column::Role, &["role"]),
    (Column::Into, &["into", "internalthread", "tappedin", "housing", "housingmaterial"]),
    (Column::Condition, &["threads", "threadcondition", "condition", "lubrication", "lubricant", "lube", "dryoroiled"]),
    (Column::Torque(None), &["torque", "torquevalue", "tighteningtorque", "tightento", "torquespec", "moment", "value", "tightening"]),
    (Column::Lowest(None), &["min", "mintorque", "torquemin", "minimum", "lowest", "from", "minimumtorque", "low"]),
    (Column::Highest(None), &["max", "maxtorque", "torquemax", "maximum", "highest", "to", "maximumtorque", "high"]),
    (Column::Unit, &["unit", "units", "torqueunit", "uom", "unitoftorque"]),
    (Column::Source, &["source", "sources", "reference", "ref", "document", "book", "manual", "readin"]),
    (Column::Page, &["page", "pages", "pg", "p", "pageno"]),
    (Column::Note, &["note", "notes", "remark", "remarks", "comment", "comments"]),
];

/// The column of a heading: `Torque`, `Torque (N·m)`, `min torque [lbf·ft]`, `Nm`.
pub(super) fn column(heading: &str) -> Column {
    if let Some(column) = plain(heading) {
        return column;
    }
    if let Some(unit) = torque_unit(heading) {
        return Column::Torque(Some(unit));
    }
    let cut = heading.find(['(', '[', ',', '/']).or_else(|| heading.trim_end().rfind(' '));
    let Some((words, unit)) = cut.and_then(|at| heading.split_at_checked(at)) else { return Column::Other };
    let unit = torque_unit(unit.trim_matches([' ', '(', ')', '[', ']', ',', '/']).trim_start_matches("in "));
    match (plain(words), unit) {
        (Some(Column::Torque(_)), Some(unit)) => Column::Torque(Some(unit)),
        (Some(Column::Lowest(_)), Some(unit)) => Column::Lowest(Some(unit)),
        (Some(Column::Highest(_)), Some(unit)) => Column::Highest(Some(unit)),
        _ => Column::Other,
    }
}

/// The headings that are known, for a message.
pub(super) fn known() -> String {
    let names: Vec<&str> = HEADINGS.iter().filter_map(|(_, names)| names.first().copied()).collect();
    names.join(", ")
}

fn plain(heading: &str) -> Option<Column> {
    let folded: String = heading.chars().filter(|sign| sign.is_ascii_alphanumeric()).map(|sign| sign.to_ascii_lowercase()).collect();
    HEADINGS.iter().find(|(_, names)| names.contains(&folded.as_str())).map(|(column, _)| *column)
}

fn torque_unit(text: &str) -> Option<&'static Unit> {
    Unit::find(text.trim()).filter(|unit| unit.dimension() == Dimension::Torque)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_are_known_in_several_spellings() {
        let unit = |symbol: &str| Unit::find(symbol);
        for (heading, wanted) in [
            ("Fastener", Column::Name), (" Qty. ", Column::Count), ("Property class", Column::Class), ("Torque", Column::Torque(None)),
            ("Torque (Nm)", Column::Torque(unit("N·m"))), ("torque [lbf·ft]", Column::Torque(unit("lbf·ft"))), ("Torque ft-lb", Column::Torque(unit("lbf·ft"))),
            ("Nm", Column::Torque(unit("N·m"))), ("Min torque, N·m", Column::Lowest(unit("N·m"))), ("Units", Column::Unit), ("Page", Column::Page),
            ("Remarks", Column::Note), ("Torque (kg)", Column::Other), ("Colour", Column::Other), ("", Column::Other), ("(", Column::Other),
        ] {
            assert_eq!(column(heading), wanted, "{heading}");
        }
    }
}
