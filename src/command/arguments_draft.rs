//! What may be typed behind `draft` and `recording`.

use super::arguments::{PlainFormat, date};
use crate::manual::Date;
use clap::{Args, Subcommand};
use std::path::PathBuf;

/// Options of `draft`.
#[derive(Debug, Args)]
pub struct DraftOptions {
    /// What to start
    #[command(subcommand)]
    pub what: DraftWhat,
}

/// What can be started.
#[derive(Debug, Subcommand)]
pub enum DraftWhat {
    /// Start a manual: manual.yaml and shop.yaml
    Manual(DraftManual),
    /// Start a machine of the manual: its folder with machine.yaml
    Machine(DraftMachine),
    /// Start a procedure of a machine, out of nothing, a recording's captions, a table of torques or the procedure it undoes
    Procedure(DraftProcedure),
}

/// Options of `draft manual`.
#[derive(Debug, Args)]
pub struct DraftManual {
    /// The manual's title
    pub title: String,
    /// Who answers for the values: a club, a workshop, a name
    #[arg(long)]
    pub publisher: Option<String>,
    /// The manual's folder; it may be there already
    #[arg(long, value_name = "FOLDER", default_value = "procedures")]
    pub into: PathBuf,
    /// How it is written
    #[command(flatten)]
    pub how: DraftHow,
}

/// Options of `draft machine`.
#[derive(Debug, Args)]
pub struct DraftMachine {
    /// The machine's name
    pub name: String,
    /// A table of torques saved as CSV: becomes the fasteners that the machine's procedures share
    #[arg(long, value_name = "FILE")]
    pub from: Option<PathBuf>,
    /// The name of its folder [default: made of the name]
    #[arg(long)]
    pub id: Option<String>,
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    #[arg(long, value_name = "FOLDER")]
    pub manual: Option<PathBuf>,
    /// How it is written
    #[command(flatten)]
    pub how: DraftHow,
}

/// Options of `draft procedure`.
#[derive(Debug, Args)]
pub struct DraftProcedure {
    /// The machine: the name of its folder
    pub machine: String,
    /// The procedure's title
    pub title: String,
    /// Captions (WebVTT, SRT, text with moments) or a table of torques (CSV); may be given once for each
    #[arg(long, value_name = "FILE")]
    pub from: Vec<PathBuf>,
    /// A fastener as far as it is known: "M8x1.25 8.8 into aluminium as cover threads dry"; may be given several times
    #[arg(long, value_name = "WORDS")]
    pub fastener: Vec<String>,
    /// A procedure that it takes apart again: its steps from the last to the first, with what has to be asked on the way
    #[arg(long, value_name = "PROCEDURE", conflicts_with_all = ["from", "fastener"])]
    pub undo: Option<String>,
    /// The name of its file, without .md [default: made of the title]
    #[arg(long)]
    pub id: Option<String>,
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    #[arg(long, value_name = "FOLDER")]
    pub manual: Option<PathBuf>,
    /// How it is written
    #[command(flatten)]
    pub how: DraftHow,
}

/// How a draft is written.
#[derive(Debug, Args)]
pub struct DraftHow {
    /// Show what would be written, and write nothing
    #[arg(long)]
    pub print: bool,
    /// The day to put in (2026-09-14) [default: today]
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
}

/// Options of `recording`.
#[derive(Debug, Args)]
pub struct RecordingOptions {
    /// What to do
    #[command(subcommand)]
    pub what: RecordingWhat,
}

/// What a finished procedure has to say about its recording.
#[derive(Debug, Subcommand)]
pub enum RecordingWhat {
    /// Compare what is said with what the procedure lists: said and not listed, listed and not said, said differently
    Compare(CompareOptions),
    /// Print what to film, before there is a recording: what must lie ready, each step, what is seen from near
    Shots(OfRecording),
    /// Print the recording's description: chapters, parts, tools, sources, corrections, what stays open
    Description(OfRecording),
    /// Print what was said wrong as a caption file (WebVTT)
    Corrections(OfRecording),
    /// List the spans of the recording for which there is no step
    Gaps(GapsOptions),
}

/// Options of `recording compare`.
#[derive(Debug, Args)]
pub struct CompareOptions {
    /// The procedure: MACHINE/PROCEDURE, or PROCEDURE where only one machine has it
    pub procedure: String,
    /// The captions: WebVTT, SRT, or text with moments
    pub captions: PathBuf,
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    #[arg(long, value_name = "FOLDER")]
    pub manual: Option<PathBuf>,
    /// How to tell it
    #[arg(long, value_enum, default_value_t = PlainFormat::Text)]
    pub format: PlainFormat,
}

/// Options of `recording shots`, `recording description` and `recording corrections`.
#[derive(Debug, Args)]
pub struct OfRecording {
    /// The procedure: MACHINE/PROCEDURE, or PROCEDURE where only one machine has it; others in the same recording come along
    pub procedure: String,
    /// The manual's folder: the one with manual.yaml in it [default: this folder, procedures below it, or one above]
    #[arg(long, value_name = "FOLDER")]
    pub manual: Option<PathBuf>,
}

/// Options of `recording gaps`.
#[derive(Debug, Args)]
pub struct GapsOptions {
    /// Which recording, and where
    #[command(flatten)]
    pub of: OfRecording,
    /// How to tell it
    #[arg(long, value_enum, default_value_t = PlainFormat::Text)]
    pub format: PlainFormat,
}
