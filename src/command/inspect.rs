//! `inspect`: finds what is wrong, missing, ambiguous or left undone.

use super::arguments::InspectOptions;
use super::making::{Order, inspect};
use super::progress::Progress;
use super::work::tell;
use super::{Format, Outcome, World};
use crate::finding::{counted, visible, waived};
use std::io::{self, Write};

pub(super) fn run(options: &InspectOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let site = world.folder.join("site");
    let order = Order {
        manual: options.manual.as_ref(),
        into: &site,
        earlier: &site,
        today: options.today,
        against: options.against.as_deref(),
        proof_copy: false,
        whole_only: false,
        verify: false,
        threads: world.threads(options.threads),
        progress: Progress::new(world.terminal),
    };
    let inspected = match inspect(&order, world) {
        Ok(inspected) => inspected,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    if inspected.report.findings.is_empty() && options.format == Format::Text {
        let (procedures, machines) = (counted(inspected.procedures, "procedure"), counted(inspected.machines, "machine"));
        writeln!(out, "{}: nothing found in {procedures} of {machines}", visible(&inspected.title))?;
        out.write_all(waived(&inspected.report.waived, &inspected.files, world.look).as_bytes())?;
    } else {
        tell(&inspected.report, &inspected.files, options.format, world, out)?;
    }
    Ok(if inspected.stops { Outcome::Findings } else { Outcome::Clean })
}
