//! The command line: one file a command. No rule and no wording of pages here.

mod arguments;
mod bind;
mod explain;
mod explain_value;
mod inspect;
mod making;
mod schema;
mod work;

pub use arguments::{Arguments, Command, Format};

use crate::finding::Look;
use std::io::{self, Write};
use std::path::PathBuf;

/// How a run ended, for the program's exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing that stops.
    Clean,
    /// Findings that stop.
    Findings,
    /// It could not run.
    CouldNotRun,
}

impl Outcome {
    /// The exit code: 0, 1 or 2.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Self::Clean => 0,
            Self::Findings => 1,
            Self::CouldNotRun => 2,
        }
    }
}

/// What a run may know of the world, read once in `main`.
#[derive(Clone, Debug)]
pub struct World {
    /// The folder the program was started in.
    pub folder: PathBuf,
    /// How reports look.
    pub look: Look,
    /// How many processors there are.
    pub processors: usize,
    /// The program's own file, by which what an earlier run left is known to be this program's; without it nothing is taken over.
    pub program: Option<PathBuf>,
}

impl World {
    /// How many threads may work: as many as asked for, otherwise one for each processor.
    fn threads(&self, asked: Option<u16>) -> usize {
        asked.map_or(self.processors, usize::from)
    }
}

/// Runs one command. What it has to say goes to `out`, what kept it from running to `err`.
///
/// # Errors
/// Only where `out` or `err` can't be written to.
pub fn run(arguments: &Arguments, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    match &arguments.command {
        Command::Inspect(options) => inspect::run(options, world, out, err),
        Command::Bind(options) => bind::run(options, world, out, err),
        Command::Explain(options) => explain::run(options, world, out, err),
        Command::Schema(options) => schema::run(options, out),
    }
}
