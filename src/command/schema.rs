//! `schema`: prints the schema of a kind of file.

use super::Outcome;
use super::arguments::{SchemaKind, SchemaOptions};
use crate::bulletin::{bulletin_schema, paper_schema};
use crate::manual::{FileKind, build_schema, schema, value_list_schema};
use std::io::{self, Write};

pub(super) fn run(options: &SchemaOptions, out: &mut dyn Write) -> io::Result<Outcome> {
    let schema = match options.kind {
        SchemaKind::Manual => schema(FileKind::Manual),
        SchemaKind::Shop => schema(FileKind::Shop),
        SchemaKind::Machine => schema(FileKind::Machine),
        SchemaKind::Procedure => schema(FileKind::Procedure),
        SchemaKind::Build => build_schema(),
        SchemaKind::Bulletin => bulletin_schema(),
        SchemaKind::Paper => paper_schema(),
        SchemaKind::Values => value_list_schema(),
    };
    let text = serde_json::to_string_pretty(&schema).map_err(io::Error::other)?;
    writeln!(out, "{text}")?;
    Ok(Outcome::Clean)
}
