//! The sheets of a procedure: their paths, and what each knows of the machine.

use super::link;
use crate::manual::{Combination, Machine, Manual, Procedure, sheet_variants};

/// The sheets of a procedure.
#[derive(Clone, Debug)]
pub(super) struct Sheets {
    /// Their paths and what each knows of the machine.
    pub all: Vec<(String, Combination)>,
}

impl Sheets {
    /// One sheet for each combination of the axes that touch the procedure.
    pub(super) fn of(manual: &Manual, machine: &Machine, procedure: &Procedure) -> Self {
        let all = sheet_variants(manual, machine, procedure)
            .into_iter()
            .map(|combination| {
                let values: Vec<&str> =
                    machine.axes.iter().filter_map(|axis| combination.0.get(&axis.name)).map(String::as_str).collect();
                (link::sheet_path(&machine.id, &procedure.id, &values), combination)
            })
            .collect();
        Self { all }
    }
}
