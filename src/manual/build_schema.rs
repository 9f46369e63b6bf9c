//! JSON Schema (draft 2020-12) of a build record.

use super::builds::BUILD_FORMAT;
use serde_json::{Value, json};

/// The schema of a build record. Keys it does not name may stand in one: they are passed over.
#[must_use]
pub fn build_schema() -> Value {
    let tick = |value: &str| {
        json!({
            "type": "object",
            "properties": {
                "step": {"$ref": "#/$defs/id", "description": "id of the step"},
                "act": {"$ref": "#/$defs/act"},
                "number": {"type": "integer", "minimum": 1, "maximum": 1_000_000, "description": "of ticks and answers: which of the same acts in the step; of readings: which reading; from 1"},
                "value": {"$ref": "#/$defs/short", "description": value},
                "at": {"$ref": "#/$defs/moment"},
                "by": {"$ref": "#/$defs/short", "description": "who"},
            },
            "required": ["step", "act"],
        })
    };
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Benchleaf: build",
        "description": "a build record: what was done, read and signed on one machine, on which state of the manual",
        "type": "object",
        "properties": {
            "format": {"const": BUILD_FORMAT},
            "manual": {"$ref": "#/$defs/short", "description": "title of the manual it was made with"},
            "machine": {"$ref": "#/$defs/id", "description": "id of the machine: the name of its folder"},
            "serial": {"$ref": "#/$defs/short", "description": "the machine's serial number"},
            "variant": {"type": "object", "additionalProperties": {"type": "string", "maxLength": 200}, "description": "axis and value: {\"shaft\": \"L\"}"},
            "people": {"type": "array", "items": {"type": "string", "maxLength": 200}, "description": "who worked on it"},
            "begun": {"$ref": "#/$defs/moment"},
            "saved": {"$ref": "#/$defs/moment"},
            "procedures": {
                "type": "object",
                "description": "the work, by id of the procedure",
                "additionalProperties": {
                    "type": "object",
                    "properties": {
                        "revision": {"type": ["integer", "null"], "minimum": 0, "maximum": 1_000_000, "description": "revision of the procedure then"},
                        "fingerprint": {"type": ["string", "null"], "pattern": "^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$", "description": "fingerprint of the sheet it was done by"},
                        "begun": {"$ref": "#/$defs/moment"},
                        "finished": {"$ref": "#/$defs/moment"},
                        "ticks": {"type": "array", "items": tick("the value as it stood on the page"), "description": "the acts that are done"},
                        "readings": {"type": "array", "items": tick("what was read, with its unit"), "description": "what was read"},
                        "signatures": {"type": "array", "items": tick("nothing"), "description": "who signed at hold points"},
                        "stops": {"type": "array", "items": tick("what was looked for, as the STOP line has it"), "description": "STOP lines that were answered, each by the act it stands before"},
                    },
                },
            },
            "deviations": {
                "type": "array",
                "description": "what was done otherwise, and why",
                "items": {
                    "type": "object",
                    "properties": {
                        "procedure": {"$ref": "#/$defs/id", "description": "id of the procedure"},
                        "step": {"$ref": "#/$defs/short", "description": "id of the step"},
                        "of": {"$ref": "#/$defs/short", "description": "id of the thing"},
                        "what": {"$ref": "#/$defs/long", "description": "what was done"},
                        "because": {"$ref": "#/$defs/long", "description": "why"},
                        "by": {"$ref": "#/$defs/short", "description": "who answers for it"},
                        "at": {"$ref": "#/$defs/moment"},
                    },
                    "required": ["procedure"],
                },
            },
            "open": {
                "type": "array",
                "description": "what was left open",
                "items": {
                    "type": "object",
                    "properties": {
                        "item": {"$ref": "#/$defs/id", "description": "id of the open item"},
                        "procedure": {"$ref": "#/$defs/short", "description": "id of the procedure that opened it"},
                        "left": {"$ref": "#/$defs/short", "description": "in what state it is: hand-tight, dry-fitted"},
                    },
                    "required": ["item"],
                },
            },
        },
        "required": ["format", "machine"],
        "$defs": {
            "id": {"type": "string", "minLength": 1, "maxLength": 200},
            "act": {"type": "string", "minLength": 1, "maxLength": 200, "description": "the act as the text writes it: torque:pinion-nut"},
            "short": {"type": ["string", "null"], "maxLength": 200},
            "long": {"type": ["string", "null"], "maxLength": 2000},
            "moment": {
                "type": ["string", "null"],
                "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt ][0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]{1,9})?([Zz]|[+-][0-9]{2}:[0-9]{2})$",
                "description": "a moment as RFC 3339 writes it: 2026-09-14T18:02:00Z",
            },
        },
    })
}
