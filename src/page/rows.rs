//! Tables of pages as views: columns, rows with stable anchors, cells of a few lines.

use super::lines;
use super::markup::Markup;
use super::names::Detail;
use super::values::Line;
use serde::{Serialize, Serializer};

/// A table.
#[derive(Clone, Debug, Default, Serialize)]
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

/// A row.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Row {
    /// Anchor; empty for none.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub anchor: String,
    /// The first cell: what the row is about.
    pub head: Cell,
    /// The other cells.
    pub cells: Vec<Cell>,
}

/// A cell. A template is handed what stands in it as it is printed: a manual has a hundred thousand, and to take each apart
/// in a template costs more than to make it.
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
        self.printed().serialize(serializer)
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

    fn printed(&self) -> Markup {
        let mut page = lines::below(&self.lines);
        for (index, detail) in self.details.iter().enumerate() {
            page.push_tag(if index == 0 { "<span class=\"entry\">" } else { " <span class=\"entry\">" });
            detail.push_to(&mut page);
            page.push_tag("</span>");
        }
        for (index, group) in self.uses.iter().enumerate() {
            page.push_tag(if index == 0 { "<span class=\"entry uses\">" } else { " <span class=\"entry uses\">" });
            group.procedure.push_to(&mut page);
            page.push_tag(", ");
            page.push_text(&group.counted);
            for (place, step) in group.steps.iter().enumerate() {
                page.push_tag(if place == 0 { " " } else { ", " });
                step.push_to(&mut page);
            }
            page.push_tag("</span>");
        }
        page
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
