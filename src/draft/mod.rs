//! Starting a manual, a machine or a procedure: commented files with the right questions in them and not one made-up value.
//!
//! Invariants: what nobody has answered is a `?` that `inspect` reports as such; beside these holes, and what was only
//! heard, a draft passes `inspect`. A range worked out stands in a comment, as a question. Whatever comes from a file of
//! others (captions, spreadsheets) is quoted, cut to length, and either stands in the draft or is told.

mod body;
mod fastener;
mod film;
mod machine;
mod manual;
mod procedure;
mod slot;
mod table;
mod table_columns;
mod undo;
mod yaml;

pub use fastener::FastenerSpec;
pub use machine::{MachineStart, machine_draft};
pub use manual::{ManualStart, manual_draft};
pub use procedure::{ProcedureStart, procedure_draft};
pub use table::{TorqueTable, TableError, read_torques};
pub use undo::Undone;
pub use crate::source::id_of;

/// A file to be written: its path below the manual's folder, with `/`, and its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DraftFile {
    /// Path.
    pub path: String,
    /// Text.
    pub text: String,
}
