//! The form of what `bulletin` and `paper` print for scripts, and its schema.
//!
//! Version 1: fields may be added within a version; none is renamed, removed or given another meaning.

use super::paper::{PaperNews, RecordNews};
use super::{Bulletin, CAUTION};
use schemars::{Schema, SchemaGenerator};
use serde::Serialize;
use serde_json::{Value, json};

/// A bulletin for scripts.
#[must_use]
pub fn bulletin_json(bulletin: &Bulletin) -> Value {
    document("benchleaf-bulletin", "bulletin", bulletin)
}

/// What is known of a paper, for scripts.
#[must_use]
pub fn paper_json(news: &PaperNews) -> Value {
    document("benchleaf-paper-news", "paper", news)
}

/// What is known of a build record, for scripts.
#[must_use]
pub fn record_json(news: &RecordNews) -> Value {
    document("benchleaf-paper-news", "record", news)
}

fn document(format: &str, what: &str, told: &impl Serialize) -> Value {
    json!({ "format": format, "version": 1, "caution": CAUTION, what: told })
}

/// The schema of what `bulletin` prints (JSON Schema 2020-12).
#[must_use]
pub fn bulletin_schema() -> Value {
    schema("Benchleaf: bulletin", "benchleaf-bulletin", &[("bulletin", SchemaGenerator::subschema_for::<Bulletin>)])
}

/// The schema of what `paper` prints: about a paper, or about a record.
#[must_use]
pub fn paper_schema() -> Value {
    let told: [(&str, Part); 2] = [("paper", SchemaGenerator::subschema_for::<PaperNews>), ("record", SchemaGenerator::subschema_for::<RecordNews>)];
    schema("Benchleaf: news of a paper or a record", "benchleaf-paper-news", &told)
}

/// Adds a type to the definitions, and refers to it.
type Part = fn(&mut SchemaGenerator) -> Schema;

/// One of the parts is there, and no other.
fn schema(title: &str, format: &str, parts: &[(&str, Part)]) -> Value {
    let mut generator = schemars::generate::SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut properties = json!({
        "format": { "const": format },
        "version": { "const": 1 },
        "caution": { "type": "string", "description": "What every reader has to be told with it." },
    });
    let mut ways = Vec::new();
    for (name, part) in parts {
        if let Some(properties) = properties.as_object_mut() {
            properties.insert((*name).to_owned(), part(&mut generator).to_value());
        }
        ways.push(json!({ "required": [name] }));
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "description": "Version 1: fields may be added within a version; none is renamed, removed or given another meaning.",
        "type": "object",
        "required": ["format", "version", "caution"],
        "oneOf": ways,
        "properties": properties,
        "$defs": generator.take_definitions(true),
    })
}
