//! `bind`: publishes the manual. It inspects first; what stops leaves the published site untouched.

use super::arguments::BindOptions;
use super::making::{Order, make};
use super::progress::Progress;
use super::work::tell;
use super::{Outcome, World};
use crate::finding::visible;
use crate::output::folder_there;
use std::io::{self, Write};

pub(super) fn run(options: &BindOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let into = world.folder.join(&options.into);
    let order = Order {
        manual: options.manual.as_ref(),
        into: &into,
        earlier: &into,
        today: options.today,
        against: options.against.as_deref(),
        proof_copy: options.proof_copy,
        whole_only: false,
        replace_other: options.replace_other,
        verify: options.verify,
        memory: world.memory,
        threads: world.threads(options.threads),
        progress: Progress::new(world.terminal),
    };
    let made = match make(&order, world) {
        Ok(made) => made,
        Err(message) => {
            writeln!(err, "{message}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    if !made.report.findings.is_empty() {
        tell(&made.report, &made.files, &made.head.root, options.format, world, out)?;
    }
    match &made.published {
        Some((published, why)) => {
            if options.why {
                out.write_all(why.lines(published, &into).as_bytes())?;
            }
            let summary = published.summary;
            let (written, kept, removed) = (summary.written, summary.kept, summary.removed);
            writeln!(out, "{}: {written} files written, {kept} kept, {removed} removed", into.display())?;
        }
        None if folder_there(&into) => writeln!(err, "Nothing was published; what is in {} stays as it was.", into.display())?,
        None => writeln!(err, "Nothing was published; {} was not made.", into.display())?,
    }
    if let Some(beside) = made.beside.filter(|_| made.compared) {
        writeln!(err, "The values were compared with those published in {}, beside the manual; --against names another earlier state.", visible(&beside.display().to_string()))?;
    }
    if made.published.is_some() && !made.compared {
        let why = match &options.against {
            Some(named) => format!("{} does not hold the manual yet", visible(named)),
            None => format!("{} held no earlier publication of this manual; --against names another earlier state", visible(&into.display().to_string())),
        };
        writeln!(err, "The values were compared with no earlier state: {why}.")?;
    }
    Ok(if made.stops { Outcome::Findings } else { Outcome::Clean })
}
