//! The start of a machine: `machine.yaml`, with the fasteners of a spreadsheet where there is one.

use super::DraftFile;
use super::table::TorqueTable;
use super::yaml::{hole, quoted};
use crate::manual::Date;

/// What is known of a machine that is begun.
#[derive(Clone, Debug)]
pub struct MachineStart<'a> {
    /// Its folder's name.
    pub id: &'a str,
    /// Its name.
    pub name: &'a str,
    /// Its torques.
    pub table: Option<&'a TorqueTable>,
    /// The day.
    pub today: Date,
}

/// The machine's file.
#[must_use]
pub fn machine_draft(start: &MachineStart<'_>) -> DraftFile {
    let mut text = format!(
        "name: {}\n\
         maker: {:<24} # who makes it\n\
         kind: {:<25} # what it is: outboard motor, gearbox, winch\n\
         # mass: …                       # from what mass on must two lift it, or a hoist?\n\
         revision: 1                     # counted up with each change of a value\n\
         date: {}\n\
         # variants:                     # do serials, years or options differ in any value? Name the axis and what each means\n\
         #   serial: {{early: ≤ …, late: ≥ …}}\n\
         # recordings:                   # films that several procedures share\n\
         #   bench-film: {{address: https://…, title: …, length: '…'}}\n",
        quoted(start.name),
        hole(""),
        hole(""),
        start.today
    );
    if let Some(table) = start.table {
        table.write(&mut text);
    }
    DraftFile { path: format!("{}/machine.yaml", start.id), text }
}
