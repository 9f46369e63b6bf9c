//! `inspect`: finds what is wrong, missing, ambiguous or left undone.

use super::arguments::InspectOptions;
use super::work::{Order, tell, work};
use super::{Format, Outcome, World};
use crate::finding::{visible, waived};
use std::io::{self, Write};

pub(super) fn run(options: &InspectOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let site = world.folder.join("site");
    let threads = world.threads(options.threads);
    let order = Order { manual: options.manual.as_ref(), today: options.today, against: options.against.as_deref(), site: &site, threads };
    let work = match work(&order, world) {
        Ok(work) => work,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    if work.report.findings.is_empty() && options.format == Format::Text {
        let procedures: usize = work.manual.machines.iter().map(|machine| machine.procedures.len()).sum();
        let machines = work.manual.machines.len();
        writeln!(out, "{}: nothing found in {} of {}", visible(&work.manual.title), counted(procedures, "procedure"), counted(machines, "machine"))?;
        out.write_all(waived(&work.report.waived, &work.sources.files, world.look).as_bytes())?;
    } else {
        tell(&work, options.format, world, out)?;
    }
    Ok(if work.report.stops(work.manual.profile) { Outcome::Findings } else { Outcome::Clean })
}

/// `1 procedure`, `6 procedures`.
fn counted(number: usize, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}
