//! `schema`: prints the schema of a kind of file.

use super::Outcome;
use super::arguments::SchemaOptions;
use crate::manual::schema;
use std::io::{self, Write};

pub(super) fn run(options: &SchemaOptions, out: &mut dyn Write) -> io::Result<Outcome> {
    let text = serde_json::to_string_pretty(&schema(options.kind.into())).map_err(io::Error::other)?;
    writeln!(out, "{text}")?;
    Ok(Outcome::Clean)
}
