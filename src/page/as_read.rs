//! What build records tell of measures: on a machine's page what was read on all of them, on a build's page which shims were
//! fitted and what the readings asked for.

use super::names::Detail;
use super::rows::{Cell, Row, Table};
use super::site::Scene;
use super::values::{Line, cases, glued, quantity_line};
use crate::inspect::{RecordedShim, as_read, recorded_shims};
use crate::manual::{Build, Varied};
use crate::quantity::Quantity;

impl Scene<'_> {
    /// Each measure over all build records of the machine: least, median, most.
    pub(super) fn as_read_table(&self) -> Option<Table> {
        let rows = as_read(self.site.input.manual, self.machine).into_iter().filter_map(|read| {
            let scene = self.inside(self.machine.procedures.get(read.procedure)?);
            let value = |text: String| Cell::values(vec![Line::of(glued(&text))]);
            let listed = |varied: &Varied<Quantity>| {
                Cell::values(cases(varied, self.known).map(|(label, quantity)| quantity_line(quantity, self.units()).labelled(label.as_deref())).collect())
            };
            Some(Row {
                anchor: String::new(),
                head: Cell::details(vec![Detail { text: read.entry.name.clone(), href: Some(scene.row_link(&read.thing)) }]),
                cells: vec![
                    Cell::text(read.machines.to_string()),
                    value(read.least),
                    value(read.median),
                    value(read.most),
                    listed(&read.entry.what.spec),
                    listed(&read.entry.what.limit),
                ],
            })
        });
        let columns = ["col-measure", "col-machines", "col-least", "col-median", "col-most", "col-spec", "col-limit"];
        self.table("table-as-read", &columns, rows.collect())
    }

    /// The shims that a record tells the thickness of, against what its readings ask for.
    pub(super) fn fitted_shims_table(&self, build: &Build) -> Option<Table> {
        let manual = self.site.input.manual;
        let mut rows = Vec::new();
        for work in &build.work {
            let Some(index) = self.machine.procedures.iter().position(|procedure| procedure.id == work.procedure.value) else { continue };
            let Some(procedure) = self.machine.procedures.get(index) else { continue };
            for shim in recorded_shims(manual.scope(self.machine, procedure), build, work, self.known) {
                rows.push(self.inside(procedure).fitted_shim(index, &shim));
            }
        }
        self.table("table-fitted-shims", &["col-shim", "col-step", "col-median", "col-asked", "col-fitted", "col-gives", "col-verdict"], rows)
    }

    fn fitted_shim(&self, index: usize, shim: &RecordedShim<'_>) -> Row {
        let value = |text: &str| Cell::values(vec![Line::of(glued(text))]);
        let verdict = if shim.accepted { Cell::text(self.site.say("verdict-good")) } else { Cell::values(vec![Line::of(self.site.say("verdict-out"))]) };
        // Of a series that does not have the sum, the shim that comes nearest.
        let offer = shim.offer.as_deref().filter(|offer| *offer != shim.asked).map(|offer| Line::of(format!("→ {}", glued(offer))));
        Row {
            anchor: String::new(),
            head: Cell::text(shim.entry.name.clone()),
            cells: vec![
                Cell::details(self.step_detail(index, Some(&shim.tick.step.value)).into_iter().collect()),
                Cell::values(vec![quantity_line(&shim.reading, &[])]),
                Cell::values(vec![Line::of(glued(&shim.asked))].into_iter().chain(offer).collect()),
                Cell::values(vec![quantity_line(&shim.chosen, &[])]),
                shim.gives.as_deref().map_or_else(Cell::default, value),
                verdict,
            ],
        }
    }
}
