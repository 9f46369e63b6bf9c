//! What may be typed.

use super::arguments_draft::{DraftOptions, RecordingOptions};
use super::arguments_proof::ProofOptions;
use super::reckon_options::ReckonOptions;
use crate::manual::Date;
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
    /// Show the manual in a browser on this machine as a proof copy that follows each save
    Proof(ProofOptions),
    /// Tell what a rule finds, or what stands behind a value of the manual
    Explain(ExplainOptions),
    /// Start a manual, a machine or a procedure: commented files with questions, no made-up value
    Draft(DraftOptions),
    /// Compare a recording with its procedure; print its description, its corrections, its gaps
    Recording(RecordingOptions),
    /// Work a value out at the bench: convert, torque and preload, wrench setting, heat for a fit, shim and more
    Reckon(ReckonOptions),
    /// List tools, parts, materials and waits for the chosen work, and what has to be ordered
    Kit(KitOptions),
    /// List every value of the manual with its number, its unit and its source
    Values(ValuesOptions),
    /// Tell what changed between two states of the manual, and which printed sheets that makes out of date
    Bulletin(BulletinOptions),
    /// Tell whether a printed sheet or a build record is still current, and what changed since
    Paper(PaperOptions),
    /// Print the schema of a kind of file, for editors (JSON Schema 2020-12)
    Schema(SchemaOptions),
    /// Print the manual page of the program, or of one of its commands (roff)
    Man(ManOptions),
    /// Print the completions for a shell
    Completions(CompletionsOptions),
}

/// Options of `inspect`.
#[derive(Debug, Args)]
pub struct InspectOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    pub manual: Option<PathBuf>,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Judge waivers as on this day (2026-09-14) [default: the manual's newest date]
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Compare values with an earlier state: a folder or a revision [default: what the last bind left in site, here or beside
    /// the manual]
    #[arg(long, value_name = "FOLDER-OR-REVISION")]
    pub against: Option<String>,
    /// Show only what a rule finds, or what is found in a file or folder; may be given several times. The exit code stays
    /// that of the whole manual
    #[arg(long, value_name = "RULE|FILE")]
    pub only: Vec<String>,
    /// Show only what the state of --against had not yet, and whatever stops publishing; the rest is counted. The exit code
    /// stays that of the whole manual
    #[arg(long, requires = "against")]
    pub only_new: bool,
    /// How many threads may work; the report is the same for any number [default: one for each processor]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub threads: Option<u16>,
}

/// Options of `bind`.
#[derive(Debug, Args)]
pub struct BindOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
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
    /// Publish even where the folder holds the site of another manual, which is removed
    #[arg(long)]
    pub replace_other: bool,
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
    /// A rule's name as a report prints it, or a value (`pinion-nut.torque`, `pinion-nut`, `tarn-18/pinion-nut`); without one, all rules are listed
    pub name: Option<String>,
    /// The manual's folder, where a value is asked for [default: this folder, procedures below it, or one above]
    pub manual: Option<PathBuf>,
}

/// Options of `kit`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf kit\n  benchleaf kit tarn-18 --for shaft=L,serial=late\n  benchleaf kit procedures close-gearcase --format csv > kit.csv")]
pub struct KitOptions {
    /// The manual's folder [default: this folder, procedures below it, or one above], then machines and procedures: tarn-18, close-gearcase,
    /// tarn-18/close-gearcase [default: all]
    #[arg(value_name = "MANUAL|NAME")]
    pub names: Vec<String>,
    /// The machine's variant: shaft=L,serial=late; what is not said is told for each
    #[arg(long = "for", value_name = "VARIANT", value_delimiter = ',')]
    pub only: Vec<String>,
    /// How to tell it
    #[arg(long, value_enum, default_value_t = TableFormat::Text)]
    pub format: TableFormat,
}

/// Options of `values`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf values --format csv > values.csv\n  benchleaf schema values")]
pub struct ValuesOptions {
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    pub manual: Option<PathBuf>,
    /// How to tell them
    #[arg(long, value_enum, default_value_t = TableFormat::Text)]
    pub format: TableFormat,
}

/// Options of `bulletin`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf bulletin HEAD~5\n  benchleaf bulletin spring-2026 autumn-2026 --format json\n  benchleaf bulletin ../last-year procedures")]
pub struct BulletinOptions {
    /// The earlier state: a folder with a manual or a published site in it, or a revision of the manual's folder
    pub old: String,
    /// The later state [default: the manual's folder as it is]
    pub new: Option<String>,
    /// The manual's folder, where a revision is named [default: this folder, procedures below it, or one above]
    #[arg(long, value_name = "FOLDER")]
    pub manual: Option<PathBuf>,
    /// How to tell it
    #[arg(long, value_enum, default_value_t = PlainFormat::Text)]
    pub format: PlainFormat,
}

/// Options of `paper`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf paper 7K3M-Q0ZT-91XA\n  benchleaf paper 7k3mq0zt91xa --against spring-2026\n  benchleaf paper hull-7.json")]
pub struct PaperOptions {
    /// The fingerprint of a sheet, torque card or board, what a sheet's square code holds, or the file of a build record
    #[arg(value_name = "FINGERPRINT|RECORD")]
    pub paper: String,
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    pub manual: Option<PathBuf>,
    /// The state that may have printed it: a folder or a revision [default: the folder's revisions, newest first]
    #[arg(long, value_name = "FOLDER-OR-REVISION")]
    pub against: Option<String>,
    /// How many revisions to look at
    #[arg(long, value_name = "NUMBER", default_value_t = 100)]
    pub revisions: u16,
    /// How to tell it
    #[arg(long, value_enum, default_value_t = PlainFormat::Text)]
    pub format: PlainFormat,
}

/// Options of `man`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchleaf man > benchleaf.1\n  benchleaf man reckon adapter | man -l -")]
pub struct ManOptions {
    /// The command, and the calculation below `reckon`
    pub command: Vec<String>,
}

/// Options of `completions`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  benchleaf completions bash > ~/.local/share/bash-completion/completions/benchleaf")]
pub struct CompletionsOptions {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// How to tell a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum TableFormat {
    /// For people
    Text,
    /// For spreadsheets
    Csv,
    /// For scripts
    Json,
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
    /// What `benchleaf values --format json` prints
    Values,
    /// A build record
    Build,
    /// What `benchleaf bulletin --format json` prints
    Bulletin,
    /// What `benchleaf paper --format json` prints
    Paper,
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

/// How to tell a result.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PlainFormat {
    /// For people
    Text,
    /// For scripts
    Json,
}

pub(super) fn date(text: &str) -> Result<Date, String> {
    Date::parse(text).ok_or_else(|| "write the day as 2026-09-14".to_owned())
}
