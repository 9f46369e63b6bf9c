//! `inspect`: finds what is wrong, missing, ambiguous or left undone.

use super::arguments::InspectOptions;
use super::making::{Inspected, Order, inspect};
use super::only::Part;
use super::only_new::leave_out_old;
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
        replace_other: false,
        verify: false,
        memory: world.memory,
        threads: world.threads(options.threads),
        progress: Progress::new(world.terminal),
    };
    let mut inspected = match inspect(&order, world) {
        Ok(inspected) => inspected,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let all = inspected.report.findings.len();
    let known = match options.only_new.then(|| leave_out_old(&mut inspected, options, world)).transpose() {
        Ok(known) => known.unwrap_or_default(),
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let fresh = inspected.report.findings.len();
    let part = match Part::of(&options.only, &inspected.files, &inspected.root, &world.folder) {
        Ok(part) => part,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let Inspected { report, files, .. } = &mut inspected;
    report.findings.retain(|finding| part.takes(finding, files));
    report.waived.retain(|finding| part.takes(finding, files));
    if all == 0 && options.format == Format::Text {
        let (procedures, machines) = (counted(inspected.procedures, "procedure"), counted(inspected.machines, "machine"));
        writeln!(out, "{}: nothing found in {procedures} of {machines}", visible(&inspected.title))?;
        out.write_all(waived(&inspected.report.waived, &inspected.files, world.look).as_bytes())?;
    } else {
        tell(&inspected.report, &inspected.files, &inspected.root, options.format, world, out)?;
    }
    if inspected.report.findings.len() < fresh {
        writeln!(err, "Shown: {} of {}.", inspected.report.findings.len(), counted(fresh, "finding"))?;
    }
    if known > 0 {
        writeln!(err, "Left out: {} that stood there before.", counted(known, "finding"))?;
    }
    if !inspected.compared {
        let why = match &options.against {
            Some(named) => format!("{} does not hold the manual yet", visible(named)),
            None => "name one with --against".to_owned(),
        };
        writeln!(err, "The values were compared with no earlier state: {why}.")?;
    }
    Ok(if inspected.stops { Outcome::Findings } else { Outcome::Clean })
}
