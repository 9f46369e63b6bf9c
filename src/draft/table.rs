//! A spreadsheet of torques (CSV) as slots: what is clear becomes a value, what isn't a hole with its likely meanings.
//! Nothing is dropped: a column or cell that is not understood stands in a comment beside its fastener.

use super::slot::{Slot, asked};
use super::table_columns::{Column, column, known};
use super::yaml::{comment, free_id, hole, one_line, quoted};
use crate::source::id_of;
use crate::quantity::{Dimension, Quantity, Unit};
use crate::trade::engagement::InternalMaterial;
use crate::trade::friction::ThreadCondition;
use crate::trade::property::PropertyClass;
use crate::trade::screening::Role;
use crate::trade::thread::Thread;
use std::collections::BTreeSet;

/// Most bytes of a spreadsheet.
const MOST_BYTES: usize = 1024 * 1024;
/// Most rows of a spreadsheet: no machine has so many kinds of fasteners.
const MOST_ROWS: usize = 400;
/// Most cells of a row.
const MOST_CELLS: usize = 64;

/// The fasteners of a spreadsheet and the sources it names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TorqueTable {
    rows: Vec<Row>,
    sources: Vec<(String, String, Option<String>)>,
    file: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Row {
    slot: Slot,
    source: usize,
    left_hand: bool,
}

/// Why a spreadsheet gives no fasteners.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TableError {
    /// Its bytes are too many.
    TooLarge(usize),
    /// Rows or cells are too many: the line.
    TooMany(u64),
    /// It is not UTF-8: the byte where it stops being so.
    NotUtf8(usize),
    /// It is no table: the line, and what the reader of tables says.
    Broken(u64, String),
    /// No column of names or none of torques: the headings that were seen.
    NoTorques(Vec<String>),
    /// No row below the headings.
    NoRows,
}

impl TableError {
    /// What is wrong and what to do.
    #[must_use]
    pub fn message(&self) -> String {
        match self {
            Self::TooLarge(bytes) => format!("{} KiB are too many for a table of torques; cut it in pieces of at most {} KiB", bytes / 1024, MOST_BYTES / 1024),
            Self::TooMany(line) => format!("line {line} is beyond {MOST_ROWS} rows or {MOST_CELLS} cells; cut the table in pieces"),
            Self::NotUtf8(at) => format!("byte {at} is not UTF-8; save the spreadsheet as CSV in UTF-8"),
            Self::Broken(line, why) => format!("line {line} is no row of a table ({why}); save the spreadsheet as CSV again"),
            Self::NoTorques(seen) => format!(
                "the first row must name the columns, a fastener's and a torque's at least; it has: {}. Known: {}",
                seen.iter().map(|name| format!("‘{}’", one_line(name, 40))).collect::<Vec<_>>().join(", "),
                known()
            ),
            Self::NoRows => "there is no row below the headings".to_owned(),
        }
    }
}

/// Reads a spreadsheet saved as CSV, with commas, semicolons or tabs. `file` is its name.
///
/// # Errors
/// [`TableError`] where it is no table of torques.
pub fn read_torques(bytes: &[u8], file: &str) -> Result<TorqueTable, TableError> {
    if bytes.len() > MOST_BYTES {
        return Err(TableError::TooLarge(bytes.len()));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| TableError::NotUtf8(error.valid_up_to()))?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    // Some programs say first which sign parts the cells.
    let (delimiter, text) = match text.strip_prefix("sep=").and_then(|rest| rest.split_once('\n')) {
        Some((sign, rest)) if sign.trim_end_matches('\r').len() == 1 => (sign.bytes().next().unwrap_or(b','), rest),
        _ => (delimiter(text), text),
    };
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut columns: Option<Vec<(Column, String)>> = None;
    let mut table = TorqueTable { rows: Vec::new(), sources: Vec::new(), file: one_line(file, 80) };
    for record in reader.records() {
        let record = record.map_err(|error| TableError::Broken(error.position().map_or(0, csv::Position::line), one_line(&error.to_string(), 120)))?;
        let line = record.position().map_or(0, csv::Position::line);
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        if record.len() > MOST_CELLS || table.rows.len() >= MOST_ROWS {
            return Err(TableError::TooMany(line));
        }
        match &columns {
            None => columns = Some(headings(&record)?),
            Some(columns) => table.add(columns, &record, line),
        }
    }
    if table.rows.is_empty() { Err(TableError::NoRows) } else { Ok(table) }
}

/// The sign that parts the cells of the first line: the commonest of three.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let count = |sign: u8| first.bytes().filter(|byte| *byte == sign).count();
    [b'\t', b';', b','].into_iter().rev().max_by_key(|sign| count(*sign)).unwrap_or(b',')
}

fn headings(record: &csv::StringRecord) -> Result<Vec<(Column, String)>, TableError> {
    let columns: Vec<(Column, String)> = record.iter().map(|heading| (column(heading), heading.trim().to_owned())).collect();
    let has = |wanted: fn(&Column) -> bool| columns.iter().any(|(column, _)| wanted(column));
    let torques = has(|column| matches!(column, Column::Torque(_) | Column::Lowest(_) | Column::Highest(_)));
    let named = has(|column| matches!(column, Column::Name | Column::Thread));
    if torques && named { Ok(columns) } else { Err(TableError::NoTorques(record.iter().map(str::to_owned).collect())) }
}

/// The cells of one row, by what they hold.
struct Cells<'r> {
    columns: &'r [(Column, String)],
    record: &'r csv::StringRecord,
}

impl<'r> Cells<'r> {
    /// Every filled cell with its column; beyond the headings there is none.
    fn filled(&self) -> impl Iterator<Item = (usize, Option<&'r (Column, String)>, &'r str)> {
        let columns = self.columns;
        self.record.iter().enumerate().map(move |(index, cell)| (index, columns.get(index), cell.trim())).filter(|(_, _, cell)| !cell.is_empty())
    }

    /// The first filled cell of a kind of column.
    fn first(&self, wanted: Column) -> Option<&'r str> {
        self.filled().find(|(_, column, _)| column.is_some_and(|(column, _)| *column == wanted)).map(|(_, _, cell)| cell)
    }
}

impl TorqueTable {
    fn add(&mut self, columns: &[(Column, String)], record: &csv::StringRecord, line: u64) {
        let cells = Cells { columns, record };
        let name = cells.first(Column::Name);
        let id = name.map(id_of).filter(|id| !id.is_empty()).unwrap_or_else(|| format!("line-{line}"));
        let mut slot = Slot::new(id);
        match name {
            Some(name) => slot.set("name", quoted(name)),
            None => slot.open("name", asked::NAME),
        }
        word(&mut slot, "count", cells.first(Column::Count), asked::COUNT, count);
        word(&mut slot, "thread", cells.first(Column::Thread), asked::THREAD, thread);
        if let Some(class) = cells.first(Column::Class) {
            word(&mut slot, "class", Some(class), asked::CLASS, |text| PropertyClass::find(text).map(|class| class.name().to_owned()).ok_or_else(|| "known to no standard we have".to_owned()));
        }
        let not_known = |known: Vec<&str>| format!("one of {}?", known.join(", "));
        word(&mut slot, "role", cells.first(Column::Role), asked::ROLE, |text| {
            Role::find(text).map(|role| role.word().to_owned()).ok_or_else(|| not_known(Role::WORDS.iter().map(|(word, _)| *word).collect()))
        });
        if let Some(into) = cells.first(Column::Into) {
            word(&mut slot, "into", Some(into), "", |text| {
                InternalMaterial::find(text).map(|into| into.word().to_owned()).ok_or_else(|| not_known(InternalMaterial::WORDS.iter().map(|(word, _)| *word).collect()))
            });
        }
        match cells.first(Column::Condition).map(|text| (text, ThreadCondition::find(text))) {
            Some((_, Some(condition))) => slot.threads(condition),
            Some((text, None)) => slot.set("threads", hole(&format!("{text} – {}", not_known(ThreadCondition::WORDS.iter().map(|(word, _)| *word).collect())))),
            None => slot.open("threads", asked::THREADS),
        }
        torque(&mut slot, &cells);
        let role = cells.first(Column::Role).and_then(Role::find);
        if role == Some(Role::ShaftNut) {
            slot.open("hold_with", asked::HOLD);
        }
        if matches!(role, Some(Role::ShaftNut | Role::Drive)) {
            slot.open("lock", asked::LOCK);
        }
        slot.open("tool", asked::TOOL);
        slot.open("reuse", asked::REUSE);
        let notes: Vec<&str> = cells.filled().filter(|(_, column, _)| column.is_some_and(|(column, _)| *column == Column::Note)).map(|(_, _, cell)| cell).collect();
        if !notes.is_empty() {
            slot.set("note", quoted(&notes.join("; ")));
        }
        leftovers(&mut slot, &cells);
        let source = self.source(cells.first(Column::Source), cells.first(Column::Page));
        let left_hand = cells.first(Column::Thread).and_then(|text| Thread::parse(&thread(text).ok()?).ok()).is_some_and(|thread| thread.left_hand);
        self.rows.push(Row { slot, source, left_hand });
    }

    /// The index of a source: the one that is named, otherwise the spreadsheet itself.
    fn source(&mut self, title: Option<&str>, page: Option<&str>) -> usize {
        let own = format!("Spreadsheet {}", self.file);
        let title = title.unwrap_or(&own).to_owned();
        let page = page.map(str::to_owned);
        if let Some(known) = self.sources.iter().position(|(_, known, on)| *known == title && *on == page) {
            return known;
        }
        let words = page.as_ref().map_or_else(|| title.clone(), |page| format!("{title} {page}"));
        let id = Some(id_of(&words)).filter(|id| !id.is_empty()).unwrap_or_else(|| "spreadsheet".to_owned());
        self.sources.push((id, title, page));
        self.sources.len() - 1
    }

    /// Gives every fastener and source an id that nothing else has.
    pub(super) fn rename(&mut self, taken: &mut BTreeSet<String>) {
        for (id, _, _) in &mut self.sources {
            *id = free_id(id, taken);
        }
        for row in &mut self.rows {
            row.slot.id = free_id(&row.slot.id, taken);
        }
    }

    /// The ids of the fasteners, and whether their threads are left-hand.
    pub(super) fn tightened(&self) -> Vec<(String, bool)> {
        self.rows.iter().map(|row| (row.slot.id.clone(), row.left_hand)).collect()
    }

    pub(super) fn has_sources(&self) -> bool {
        !self.sources.is_empty()
    }

    /// How many fasteners there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there is none; a table that was read has some.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Both lists with their keys.
    pub(super) fn write(&self, out: &mut String) {
        let mut own = self.clone();
        own.rename(&mut BTreeSet::new());
        out.push_str("fasteners:\n");
        own.write_fasteners(out);
        out.push_str("sources:\n");
        own.write_sources(out);
    }

    pub(super) fn write_fasteners(&self, out: &mut String) {
        out.push_str(&comment(2, &format!("out of {}: read each value a second time in its source", self.file)));
        out.push('\n');
        for row in &self.rows {
            let mut slot = row.slot.clone();
            if let Some((id, _, _)) = self.sources.get(row.source) {
                slot.set("source", id.clone());
            }
            slot.write(out);
        }
    }

    pub(super) fn write_sources(&self, out: &mut String) {
        for (id, title, page) in &self.sources {
            let page = page.as_ref().map_or_else(String::new, |page| format!(", page: {}", quoted(page)));
            out.push_str(&format!("  {id}: {{title: {}, kind: {}{page}}}   # {}\n", quoted(title), hole(""), asked::KIND));
        }
    }
}

/// A cell that becomes a word or number, or a hole with the cell's text and what is wrong.
fn word(slot: &mut Slot, key: &'static str, cell: Option<&str>, question: &'static str, read: impl Fn(&str) -> Result<String, String>) {
    match cell.map(|cell| (cell, read(cell))) {
        None => slot.open(key, question),
        Some((_, Ok(value))) => slot.set(key, value),
        Some((cell, Err(why))) => slot.set(key, hole(&format!("{cell} – {why}"))),
    }
}

fn count(text: &str) -> Result<String, String> {
    let plain = (1..=5).contains(&text.len()) && !text.starts_with('0') && text.bytes().all(|byte| byte.is_ascii_digit());
    if plain { Ok(text.to_owned()) } else { Err("how many?".to_owned()) }
}

/// `M8 x 1,25` is a thread with blanks and a decimal comma; that one can be nothing else.
fn thread(text: &str) -> Result<String, String> {
    let metric = text.starts_with('M');
    let written = if metric { text.replace(' ', "").replace(['×', '*', 'X'], "x").replace(',', ".").replace("left-hand", " left-hand").replace("LH", " LH") } else { text.to_owned() };
    match Thread::parse(&written) {
        Ok(_) => Ok(written),
        Err(error) => Err(format!("{}; {}", error.message(text), error.fix())),
    }
}

/// The torque of a row, out of its torque columns and its unit.
fn torque(slot: &mut Slot, cells: &Cells<'_>) {
    let unit_cell = cells.first(Column::Unit);
    let mut written: Vec<String> = Vec::new();
    let (mut low, mut high) = (None, None);
    for (_, column, cell) in cells.filled() {
        match column.map(|(column, _)| *column) {
            Some(Column::Torque(unit)) => written.push(with_unit(cell, unit, unit_cell)),
            Some(Column::Lowest(unit)) => low = low.or(Some((cell, unit))),
            Some(Column::Highest(unit)) => high = high.or(Some((cell, unit))),
            _ => {}
        }
    }
    match (low, high) {
        (Some((low, unit)), Some((high, other))) if unit == other => written.push(with_unit(&format!("{low}–{high}"), unit, unit_cell)),
        (low, high) => {
            written.extend(low.map(|(low, unit)| with_unit(&format!("min {low}"), unit, unit_cell)));
            written.extend(high.map(|(high, unit)| with_unit(&format!("max {high}"), unit, unit_cell)));
        }
    }
    match written.as_slice() {
        [] => slot.open("torque", asked::TORQUE),
        [only] => slot.set("torque", one_torque(only)),
        // A table may have a column for each unit: the two must agree.
        [first, second] if one_torque(&format!("{first} ({second})")).starts_with(|sign: char| sign != '\'') => slot.set("torque", format!("{first} ({second})")),
        several => slot.set("torque", hole(&format!("{} – they do not agree, or are not one value in two units", several.join(" and ")))),
    }
    debug_assert!(slot.has("torque"), "every fastener has a torque or a hole");
}

/// A cell with the unit it needs: its own, that of the unit column, or that of the heading. Units that contradict one
/// another stand side by side, and then it is no torque that can be read.
fn with_unit(cell: &str, heading: Option<&'static Unit>, unit_cell: Option<&str>) -> String {
    let own = Quantity::parse(cell, Dimension::Torque).ok().map(|quantity| quantity.unit());
    let beside = match (unit_cell, heading) {
        (Some(unit), Some(heading)) if Unit::find(unit) != Some(heading) => return format!("{cell} {unit} {}", heading.symbol()),
        (Some(unit), _) => Some(unit),
        (None, heading) => heading.map(Unit::symbol),
    };
    match (own, beside) {
        (Some(own), Some(unit)) if Unit::find(unit) == Some(own) => cell.to_owned(),
        (_, Some(unit)) => format!("{cell} {unit}"),
        (_, None) => cell.to_owned(),
    }
}

/// A torque as it is written, or a hole that says what it may mean.
fn one_torque(text: &str) -> String {
    match Quantity::parse(text, Dimension::Torque) {
        Ok(quantity) => quantity.written().to_owned(),
        Err(error) => {
            let figures = error.figures();
            let likely = if figures.is_empty() { error.fix() } else { format!("likely {}", figures.join(" or ")) };
            hole(&format!("{text} – {}; {likely}", error.message()))
        }
    }
}

/// What no key has taken stands in comments.
fn leftovers(slot: &mut Slot, cells: &Cells<'_>) {
    let mut seen: Vec<Column> = Vec::new();
    for (index, column, cell) in cells.filled() {
        let label = match column {
            Some((Column::Other, heading)) if heading.is_empty() => format!("column {}", index + 1),
            Some((Column::Other, heading)) => format!("column ‘{}’", one_line(heading, 40)),
            Some((Column::Torque(_) | Column::Note, _)) => continue,
            // The first of each kind was taken, a second one was not.
            Some((kind, heading)) if seen.iter().any(|known| same_kind(*known, *kind)) => format!("column ‘{}’", one_line(heading, 40)),
            Some((kind, _)) => {
                seen.push(*kind);
                continue;
            }
            None => format!("cell {} beyond the headings", index + 1),
        };
        slot.ask(format!("{label}: {}", one_line(cell, 200)));
    }
}

fn same_kind(one: Column, other: Column) -> bool {
    std::mem::discriminant(&one) == std::mem::discriminant(&other)
}

#[cfg(test)]
#[path = "table_tests.rs"]
mod tests;
