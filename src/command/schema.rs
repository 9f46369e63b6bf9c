//! `schema`: prints the schema of a kind of file.

use super::Outcome;
use super::arguments::SchemaOptions;
use crate::manual::{schema, value_list_schema};
use std::io::{self, Write};

pub(super) fn run(options: &SchemaOptions, out: &mut dyn Write) -> io::Result<Outcome> {
    let document = options.kind.file_kind().map_or_else(value_list_schema, schema);
    let text = serde_json::to_string_pretty(&document).map_err(io::Error::other)?;
    writeln!(out, "{text}")?;
    Ok(Outcome::Clean)
}
