//! What may be typed.

use crate::manual::{Date, FileKind};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Turns illustrated rebuild procedures into a cross-linked manual with printable bench checklists.
#[derive(Debug, Parser)]
#[command(name = "benchleaf", version, about, max_term_width = 100)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What can be done.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Find what is wrong, missing, ambiguous or left undone
    Inspect(InspectOptions),
    /// Publish the manual: inspect it first, then write pages and bench sheets
    Bind(BindOptions),
    /// Tell what a rule finds, or what stands behind a value of the manual
    Explain(ExplainOptions),
    /// Print the schema of a kind of file, for editors (JSON Schema 2020-12)
    Schema(SchemaOptions),
}

/// Options of `inspect`.
#[derive(Debug, Args)]
pub struct InspectOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, or procedures]
    pub manual: Option<PathBuf>,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Judge waivers as on this day (2026-09-14) [default: the manual's newest date]
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Compare values with an earlier state: a folder or a revision [default: what the last bind left in site]
    #[arg(long, value_name = "FOLDER-OR-REVISION")]
    pub against: Option<String>,
    /// How many threads may work; the report is the same for any number [default: one for each processor]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub threads: Option<u16>,
}

/// Options of `bind`.
#[derive(Debug, Args)]
pub struct BindOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, or procedures]
    pub manual: Option<PathBuf>,
    /// The folder to publish into
    #[arg(long, value_name = "FOLDER", default_value = "site")]
    pub into: PathBuf,
    /// Publish in spite of errors; every page and sheet is marked PROOF, NOT FOR USE
    #[arg(long)]
    pub proof_copy: bool,
    /// Tell of each machine and each file what happened to it, and because of what
    #[arg(long)]
    pub why: bool,
    /// Read every published file to see whether it is as it was published, whatever its size and times say
    #[arg(long)]
    pub verify: bool,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Judge waivers as on this day (2026-09-14) [default: the manual's newest date]
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Compare values with an earlier state: a folder or a revision [default: what the last bind left there]
    #[arg(long, value_name = "FOLDER-OR-REVISION")]
    pub against: Option<String>,
    /// How many threads may work; the site is the same for any number [default: one for each processor]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub threads: Option<u16>,
}

/// Options of `explain`.
#[derive(Debug, Args)]
pub struct ExplainOptions {
    /// A rule's name as a report prints it, or a value (`pinion-nut.torque`, `pinion-nut`); without one, all rules are listed
    pub name: Option<String>,
    /// The manual's folder, where a value is asked for [default: this folder, or procedures]
    pub manual: Option<PathBuf>,
}

/// Options of `schema`.
#[derive(Debug, Args)]
pub struct SchemaOptions {
    /// The kind of file
    #[arg(value_enum)]
    pub kind: SchemaKind,
}

/// The kinds of file that have a schema.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum SchemaKind {
    /// manual.yaml
    Manual,
    /// shop.yaml
    Shop,
    /// machine.yaml
    Machine,
    /// A procedure's front matter
    Procedure,
}

impl From<SchemaKind> for FileKind {
    fn from(kind: SchemaKind) -> Self {
        match kind {
            SchemaKind::Manual => Self::Manual,
            SchemaKind::Shop => Self::Shop,
            SchemaKind::Machine => Self::Machine,
            SchemaKind::Procedure => Self::Procedure,
        }
    }
}

/// How to tell what was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people
    Text,
    /// For scripts
    Json,
    /// For review systems (SARIF 2.1.0)
    Sarif,
}

fn date(text: &str) -> Result<Date, String> {
    Date::parse(text).ok_or_else(|| "write the day as 2026-09-14".to_owned())
}
