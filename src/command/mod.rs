//! The command line: one file a command. No rule and no wording of pages here.

mod arguments;
mod arguments_draft;
mod arguments_proof;
mod bind;
mod bulletin;
mod csv;
mod draft;
mod explain;
mod explain_value;
mod inspect;
mod kit;
mod kit_text;
mod manual_page;
mod paper;
mod reckon;
mod reckon_options;
mod proof;
mod proof_build;
mod progress;
mod recording;
mod making;
mod only;
mod only_new;
mod schema;
mod sieve;
mod values;
mod work;

pub use arguments::{Arguments, Command, Format, PlainFormat, TableFormat};
pub use making::Memory;
pub use reckon_options::ReckonOptions;

use crate::finding::{Look, visible};
use crate::manual::Date;
use sieve::{Manner, Sieve};
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
    /// Whether a person reads along at a terminal.
    pub terminal: bool,
    /// How many processors there are.
    pub processors: usize,
    /// The day, by UTC: what a draft is dated with, and nothing else.
    pub today: Date,
    /// The program's own file, by which what an earlier run left is known to be this program's; without it nothing is taken over.
    pub program: Option<PathBuf>,
    /// How much of a manual is held in memory at a time.
    pub memory: Memory,
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
    let manner = Manner::of(&arguments.command, world.look.colour, world.terminal);
    let (out, err): (&mut dyn Write, &mut dyn Write) = (&mut Sieve::new(out, manner), &mut Sieve::new(err, Manner::of_errors(&arguments.command, world.look.colour)));
    match &arguments.command {
        Command::Inspect(options) => inspect::run(options, world, out, err),
        Command::Bind(options) => bind::run(options, world, out, err),
        Command::Proof(options) => proof::run(options, world, out, err),
        Command::Explain(options) => explain::run(options, world, out, err),
        Command::Draft(options) => draft::run(options, world, out, err),
        Command::Recording(options) => recording::run(options, world, out, err),
        Command::Reckon(options) => reckon::run(options, out, err),
        Command::Kit(options) => kit::run(options, world, out, err),
        Command::Bulletin(options) => bulletin::run(options, world, out, err),
        Command::Paper(options) => paper::run(options, world, out, err),
        Command::Values(options) => values::run(options, world, out, err),
        Command::Man(options) => manual_page::man(options, out, err),
        Command::Completions(options) => manual_page::completions(options, out),
        Command::Schema(options) => schema::run(options, out),
    }
}

/// Rows of two columns, the second one aligned.
fn columns(out: &mut dyn Write, indent: &str, rows: &[(String, String)]) -> io::Result<()> {
    let width = rows.iter().map(|(label, _)| unicode_width::UnicodeWidthStr::width(label.as_str())).max().unwrap_or(0);
    for (label, value) in rows {
        let gap = width - unicode_width::UnicodeWidthStr::width(label.as_str());
        let line = format!("{indent}{label}{:gap$}   {value}", "");
        writeln!(out, "{}", visible(line.trim_end()))?;
    }
    Ok(())
}
