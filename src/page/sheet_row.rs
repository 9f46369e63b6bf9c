//! The line of an act on a bench sheet: its box, words and values, the grid of stages and positions, the blanks to write in.

use super::before::Item;
use super::faults::FaultView;
use super::markup::Markup;
use super::sheet_line::capitalised;
use super::site::Scene;
use super::values::{Line, cases, glued, varied_text};
use crate::manual::{Act, Entry, Fastener, ListKind, Step, ThingRef, Verb};
use crate::quantity::Unit;
use serde::Serialize;

/// What stands on one line of a sheet, or between lines. A template is handed only what there is: most lines have little of it.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct SheetRow {
    /// `text`, `picture`, `panel`, `act`, `reset`, `close`, `hold`, `sign` or `stop`.
    pub kind: &'static str,
    /// What stands before the words in their sentence.
    #[serde(skip)]
    pub lead: Markup,
    /// Text, or the words of a mark; of an act that is [printed](SheetRow::print) its whole line with the values.
    /// A template of an earlier form, which put the values beside the words itself, must not go on without them unnoticed.
    #[serde(rename = "printed")]
    pub text: Markup,
    /// What stands behind the words in their sentence.
    #[serde(skip)]
    pub tail: Markup,
    /// The tools in use.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tools: Vec<String>,
    /// The thing's name where the words lack it.
    #[serde(skip)]
    pub name: Option<String>,
    /// Those who sign.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<String>,
    /// `step.act`, as on the procedure's page.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// `STEP/ACT/NUMBER`, by which scripts know the act.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub key: String,
    /// Values, to be read from 70 cm.
    #[serde(skip)]
    pub lines: Vec<Line>,
    /// What else one must know.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub details: Vec<String>,
    /// The same of an act, printed.
    #[serde(skip_serializing_if = "Markup::is_empty")]
    pub beside: Markup,
    /// The blanks of an act, printed.
    #[serde(skip_serializing_if = "Markup::is_empty")]
    pub written: Markup,
    /// Drawings that belong to the line.
    #[serde(skip_serializing_if = "Markup::is_empty")]
    pub drawings: Markup,
    /// Blanks to write readings into.
    #[serde(skip)]
    pub blanks: Vec<String>,
    /// Blanks for what the readings give, each with what stands before it.
    #[serde(skip)]
    pub results: Vec<String>,
    /// Blanks for what a test showed, each with what is read and its unit.
    #[serde(skip)]
    pub reads: Vec<String>,
    /// Stages against positions, a box each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub grid: Vec<Band>,
    /// The unit that its blanks are read in.
    #[serde(skip)]
    pub blank_unit: &'static str,
    /// What was found wrong in the act, on a proof copy.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub faults: Vec<FaultView>,
    /// Whether it warns of an injury.
    #[serde(skip)]
    pub warns: bool,
    /// Whether there is a blank for who set the wrench.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub set_by: bool,
}

/// A part of a grid of stages and positions that is not wider than the paper.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Band {
    /// Numbers of the positions in the order of tightening.
    pub positions: Vec<u64>,
    /// The stages.
    pub stages: Vec<Line>,
}

/// So many boxes of 8 mm stand in a row of a sheet's column.
const BAND: usize = 7;
/// More blanks than this are a table of their own.
pub(super) const MOST_BLANKS: u64 = 24;

impl Scene<'_> {
    /// The line of an act in the scene's variant.
    pub(super) fn sheet_row(&self, step: &Step, index: usize, act: &Act, drawings: Markup) -> SheetRow {
        let kind = match act.verb {
            Some(Verb::Hold) => "hold",
            Some(Verb::Sign) => "sign",
            Some(Verb::Stop) => "stop",
            _ => "act",
        };
        let told = self.told(act);
        let mut row = SheetRow {
            kind,
            text: Markup::text(&capitalised(&act.words)),
            name: self.name_beside(act),
            people: self.people(act),
            faults: self.site.faults.at(&act.place),
            number: format!("{}.{}", step.number, index + 1),
            drawings,
            key: super::bench::act_key(step, index),
            lines: told.lines,
            details: told.details.into_iter().map(|detail| detail.text).collect(),
            ..SheetRow::default()
        };
        for thing in &act.things {
            match (thing.kind, act.verb) {
                (ListKind::Fasteners, Some(Verb::Torque)) => {
                    if let Some(entry) = self.scope().thing(|l| &l.fasteners, thing) {
                        self.grid(entry, act, &mut row);
                        row.set_by = entry.what.critical;
                        self.drive(&entry.what, &mut row);
                    }
                }
                (ListKind::Measures, Some(Verb::Measure)) => self.blanks(thing, &mut row),
                (ListKind::Tests, Some(Verb::Test)) => self.test_blanks(thing, &mut row),
                _ => {}
            }
        }
        row
    }

    /// What the boxes of a group are called, in the order of tightening: where a drawing beside them has a number for each turn, by
    /// those, for two numbers on one bolt are one too many; else by their positions.
    fn places(&self, entry: &Entry<Fastener>) -> Vec<u64> {
        let positions = self.positions(&entry.what);
        if super::drawn_acts::order(self, entry).is_some() { (1..=super::rows::count(positions.len())).collect() } else { positions }
    }

    /// What turns a fastener stands beside its torque: socket and wrench are taken up together. Where room is short
    /// a hexagon's size says enough, as it does on the socket. Where stages stand in a grid, the torque differs between
    /// variants, or the line would need another row for it, it stands behind the wrench.
    fn drive(&self, fastener: &Fastener, row: &mut SheetRow) {
        let drive = varied_text(&fastener.drive, self.known, |drive| glued(drive.trim()));
        // What is run up by hand alone needs none.
        let by_tool = cases(&fastener.torque, self.known).any(|(_, torque)| !torque.stages().is_empty());
        let Some(drive) = drive.filter(|drive| by_tool && !drive.is_empty()) else { return };
        let size = drive.strip_suffix("\u{a0}hex").unwrap_or(&drive);
        let beside = row.lines.first_mut().and_then(|line| Some(([drive.as_str(), size].into_iter().find(|label| has_room(line, label))?, line)));
        match beside {
            Some((label, line)) => line.label = Some(label.to_owned()),
            None => row.details.push(drive),
        }
    }

    /// Stages against positions, for a group that is tightened in stages or one stage at a time.
    fn grid(&self, entry: &Entry<Fastener>, act: &Act, row: &mut SheetRow) {
        let fastener = &entry.what;
        let count = self.positions(&entry.what).len();
        let staged = row.lines.len() > 1 && !fastener.torque.cases.iter().any(|case| case.value.stages().len() < 2);
        if count < 2 || !(staged || act.stage.is_some()) {
            return;
        }
        let positions = self.places(entry);
        // A single stage has its value on the line.
        let is_single = row.lines.len() == 1;
        // Bands of equal length: six and six rather than ten and two.
        let bands = positions.len().div_ceil(BAND).max(1);
        let stages = if is_single { vec![Line::default()] } else { std::mem::take(&mut row.lines) };
        let chunks = positions.chunks(positions.len().div_ceil(bands));
        row.grid = chunks.map(|chunk| Band { positions: chunk.to_vec(), stages: stages.clone() }).collect();
        // The grid's columns are the order.
        let order = self.order_text(fastener);
        row.details.retain(|detail| Some(detail) != order.as_ref());
    }

    fn blanks(&self, thing: &ThingRef, row: &mut SheetRow) {
        let Some(entry) = self.scope().thing(|l| &l.measures, thing) else { return };
        let count = entry.what.readings(self.known).clamp(1, MOST_BLANKS);
        let places = &entry.what.places;
        row.blanks = if u64::try_from(places.len()) == Ok(count) {
            places.iter().map(|place| place.value.clone()).collect()
        } else if count == 1 {
            vec![String::new()]
        } else {
            (1..=count).map(|n| n.to_string()).collect()
        };
        row.blank_unit = self.unit_told(&entry.what).map_or("", Unit::symbol);
        for (_, id) in cases(&entry.what.chooses, self.known) {
            let formula = self.scope().entry(|l| &l.shims, id).and_then(|shim| self.shim_formula(&shim.what));
            row.results.extend(formula.map(|formula| format!("{formula} =")));
            row.results.push(self.site.say("sheet-shim"));
        }
    }

    /// What a test showed is written down in the unit it is expected in.
    fn test_blanks(&self, thing: &ThingRef, row: &mut SheetRow) {
        let Some(entry) = self.scope().thing(|l| &l.tests, thing) else { return };
        for (_, expect) in cases(&entry.what.expect, self.known) {
            row.reads.extend(expect.shown().map(|(name, quantity)| {
                let name = self.site.words.of("expect", name);
                match quantity.unit().symbol() {
                    "" => name,
                    unit => format!("{name},\u{a0}{unit}"),
                }
            }));
        }
        row.reads.dedup();
    }

    /// Parts, materials or tools in one line of text.
    pub(super) fn items_text(&self, items: &[Item]) -> Vec<String> {
        items
            .iter()
            .map(|item| {
                let name: Vec<&str> = item.count.as_deref().into_iter().chain([item.name.text.as_str()]).collect();
                let details: Vec<&str> = item.details.iter().map(String::as_str).filter(|d| !d.is_empty()).collect();
                if details.is_empty() { name.join(" ") } else { format!("{} ({})", name.join(" "), details.join(", ")) }
            })
            .collect()
    }
}

/// Whether a label fits before a value in as many rows as the value takes alone, in the column of a printed sheet. Reckoned by
/// the mean width of letters and figures in the widest of the theme's fonts: a value that is a little shorter in another
/// font has its label behind the wrench, and loses nothing.
fn has_room(line: &Line, label: &str) -> bool {
    /// Millimetres: the column, a letter of 11 points, a bold one of 16.2 points.
    const ROOM: f64 = 76.0;
    const SMALL: f64 = 2.33;
    const LARGE: f64 = 3.94;
    let wide = |text: &str, letter: f64| text.chars().map(|_| letter).sum::<f64>();
    let main = wide(&line.main, LARGE);
    let whole = main + line.other.as_ref().map_or(0.0, |other| SMALL + wide(other, SMALL));
    let taken = if whole <= ROOM { whole } else { main };
    line.label.is_none() && taken + SMALL + wide(label, SMALL) <= ROOM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_stands_where_it_makes_no_row_longer() {
        let line = |main: &str, other: &str| Line { label: None, main: main.to_owned(), other: Some(other.to_owned()) };
        assert!(has_room(&line("6 N·m", "(4.4 lbf·ft)"), "10 mm hex"));
        // Alone on one row, with a label on two.
        assert!(!has_room(&line("28 lbf·ft", "(38 N·m)"), "12 mm hex"));
        // On two rows in any event, and the first of them has room.
        assert!(has_room(&line("320 ± 15 N·m", "[236 lbf·ft (225–247)]"), "46 mm hex"));
        assert!(!has_room(&line("6 N·m", "(4.4 lbf·ft)").labelled(Some("early")), "10 mm hex"));
    }
}
