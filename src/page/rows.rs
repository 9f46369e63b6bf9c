//! Tables of pages as views: columns, rows with stable anchors, cells of a few lines.

use super::lines;
use super::markup::Markup;
use super::names::Detail;
use super::values::Line;
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};

/// A table. A template is handed its rows as they are printed: a manual has a hundred thousand cells, and to take each apart in a
/// template costs more than to make it.
#[derive(Clone, Debug, Default)]
pub(super) struct Table {
    /// What it holds.
    pub caption: String,
    /// What a reader hears of its frame: no two tables of a page have the same.
    pub label: String,
    /// Headings of the columns.
    pub columns: Vec<String>,
    /// Its rows.
    pub rows: Vec<Row>,
}

impl Serialize for Table {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut rows = Markup::default();
        let headings = self.columns.get(1..).unwrap_or_default();
        for row in &self.rows {
            push_row(("id", &row.anchor), &row.head, &row.cells, headings, &mut rows);
        }
        let mut table = serializer.serialize_struct("Table", 4)?;
        table.serialize_field("caption", &self.caption)?;
        table.serialize_field("label", &self.label)?;
        table.serialize_field("columns", &self.columns)?;
        table.serialize_field("rows", &rows)?;
        table.end()
    }
}

/// Adds a row to a page, with an attribute unless that is empty. Where a screen has no room for columns, each cell stands on a
/// line of its own behind its heading.
pub(super) fn push_row((attribute, value): (&'static str, &str), head: &Cell, cells: &[Cell], headings: &[String], page: &mut Markup) {
    page.push_tag("<tr");
    if !value.is_empty() {
        page.push_tag(" ");
        page.push_tag(attribute);
        page.push_tag("=\"");
        page.push_text(value);
        page.push_tag("\"");
    }
    page.push_tag("><th scope=\"row\">");
    head.push_to(page);
    page.push_tag("</th>");
    for (index, cell) in cells.iter().enumerate() {
        match headings.get(index) {
            Some(heading) => {
                page.push_tag("<td data-label=\"");
                page.push_text(heading);
                page.push_tag("\">");
            }
            None => page.push_tag("<td>"),
        }
        cell.push_to(page);
        page.push_tag("</td>");
    }
    page.push_tag("</tr>\n");
}

/// A row.
#[derive(Clone, Debug, Default)]
pub(super) struct Row {
    /// Anchor; empty for none.
    pub anchor: String,
    /// The first cell: what the row is about.
    pub head: Cell,
    /// The other cells.
    pub cells: Vec<Cell>,
}

/// A cell.
#[derive(Clone, Debug, Default)]
pub(super) struct Cell {
    /// Values, each on a line of its own.
    pub lines: Vec<Line>,
    /// Words, each on a line of its own.
    pub details: Vec<Detail>,
    /// Steps, those of one procedure on a line.
    pub uses: Vec<Uses>,
}

impl Serialize for Cell {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut page = Markup::default();
        self.push_to(&mut page);
        page.serialize(serializer)
    }
}

/// The steps of one procedure that use a thing.
#[derive(Clone, Debug, Default)]
pub(super) struct Uses {
    /// The procedure.
    pub procedure: Detail,
    /// What stands before the numbers of its steps: `step` or `steps`.
    pub counted: String,
    /// Its steps: their numbers, each with the address of the first act that uses the thing.
    pub steps: Vec<Detail>,
}

impl Cell {
    /// A cell of words.
    pub(super) fn text(text: impl Into<String>) -> Self {
        let text = text.into();
        Self { details: if text.is_empty() { Vec::new() } else { vec![Detail::plain(text)] }, ..Self::default() }
    }

    /// A cell of words that may not be there.
    pub(super) fn maybe(text: Option<String>) -> Self {
        text.map_or_else(Self::default, Self::text)
    }

    /// A cell of values.
    pub(super) fn values(lines: Vec<Line>) -> Self {
        Self { lines, ..Self::default() }
    }

    /// The same cell with another line of words, where there is one.
    pub(super) fn and(mut self, text: Option<String>) -> Self {
        self.details.extend(text.map(Detail::plain));
        self
    }

    /// A cell of words, a line each.
    pub(super) fn details(details: Vec<Detail>) -> Self {
        Self { details, ..Self::default() }
    }

    /// Adds what stands in it to a page.
    pub(super) fn push_to(&self, page: &mut Markup) {
        lines::push_below(&self.lines, page);
        for (index, detail) in self.details.iter().enumerate() {
            page.push_tag(if index == 0 { "<span class=\"entry\">" } else { " <span class=\"entry\">" });
            detail.push_to(page);
            page.push_tag("</span>");
        }
        for (index, group) in self.uses.iter().enumerate() {
            page.push_tag(if index == 0 { "<span class=\"entry uses\">" } else { " <span class=\"entry uses\">" });
            group.procedure.push_to(page);
            page.push_tag(", ");
            page.push_text(&group.counted);
            for (place, step) in group.steps.iter().enumerate() {
                page.push_tag(if place == 0 { " " } else { ", " });
                step.push_to(page);
            }
            page.push_tag("</span>");
        }
    }

    /// Whether nothing stands in it.
    pub(super) fn is_empty(&self) -> bool {
        self.lines.is_empty() && self.details.is_empty() && self.uses.is_empty()
    }
}

impl Table {
    /// Leaves out the columns in which no row has anything. The first and the last stay.
    pub(super) fn without_empty_columns(mut self) -> Self {
        let last = self.columns.len().saturating_sub(2);
        let kept: Vec<bool> = (0..self.columns.len().saturating_sub(1))
            .map(|c| c == last || self.rows.iter().any(|row| row.cells.get(c).is_some_and(|cell| !cell.is_empty())))
            .collect();
        let keep = |index: usize| kept.get(index).copied().unwrap_or(true);
        self.columns = self.columns.into_iter().enumerate().filter(|(i, _)| *i == 0 || keep(i - 1)).map(|(_, c)| c).collect();
        for row in &mut self.rows {
            row.cells = std::mem::take(&mut row.cells).into_iter().enumerate().filter(|(i, _)| keep(*i)).map(|(_, c)| c).collect();
        }
        self
    }
}

/// A count for the catalogue.
pub(super) fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_printed_with_all_that_stands_in_its_cells_and_nothing_of_it_is_markup() {
        let line = |label: Option<&str>, other: Option<&str>| Line { label: label.map(str::to_owned), main: "7 < 8".to_owned(), other: other.map(str::to_owned) };
        let way = |text: &str| Detail { text: text.to_owned(), href: Some("a?b&c".to_owned()) };
        let cell = Cell {
            lines: vec![line(Some("early"), Some("(9)")), line(None, None)],
            details: vec![Detail::plain("<i>"), way("d")],
            uses: vec![Uses { procedure: way("Fit"), counted: "steps".to_owned(), steps: vec![way("1"), Detail::plain("2")] }],
        };
        let mut page = Markup::default();
        push_row(("id", "x\"y"), &Cell::text("A"), &[cell, Cell::default()], &["B&C".to_owned()], &mut page);
        assert_eq!(
            page.as_str(),
            "<tr id=\"x&quot;y\"><th scope=\"row\"><span class=\"entry\">A</span></th><td data-label=\"B&amp;C\">\
             <span class=\"line\"><span class=\"label\">early</span> <b class=\"figure\">7 &lt; 8</b> <span class=\"other\">(9)</span></span> \
             <span class=\"line\"><b class=\"figure\">7 &lt; 8</b></span>\
             <span class=\"entry\">&lt;i&gt;</span> <span class=\"entry\"><a href=\"a?b&amp;c\">d</a></span>\
             <span class=\"entry uses\"><a href=\"a?b&amp;c\">Fit</a>, steps <a href=\"a?b&amp;c\">1</a>, 2</span></td><td></td></tr>\n"
        );
    }
}
