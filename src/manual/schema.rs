//! JSON Schema (draft 2020-12) of the four kinds of file, from the same tables that read them.
//!
//! An editor checks with it what stands where. What a number means it can't know: units, ids and the order
//! of work are for `inspect`.

use super::lists::ListKind;
use super::shape::{Field, Shape};
use super::tables::{COMMON, FileKind, entry_fields};
use serde_json::{Map, Value, json};

/// The schema of one kind of file.
#[must_use]
pub fn schema(kind: FileKind) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in kind.fields() {
        properties.insert(field.key.to_owned(), field_schema(field));
        if field.required {
            required.push(Value::from(field.key));
        }
    }
    for list in kind.lists() {
        properties.insert(list.key().to_owned(), list_schema(list));
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": format!("Benchleaf: {}", kind.name()),
        "description": describe(kind),
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": false,
        "$defs": definitions(),
    })
}

fn describe(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Manual => "manual.yaml: the manual's title, publisher, units and profile",
        FileKind::Shop => "shop.yaml: tools, materials, sources, people and terms that every machine shares",
        FileKind::Machine => "machine.yaml: a machine's names, variants and the values its procedures share",
        FileKind::Procedure => "the front matter of a procedure",
    }
}

fn definitions() -> Value {
    json!({
        "id": {"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$", "description": "lower-case words joined by hyphens"},
        "words": {"type": "string", "minLength": 1},
        "count": {"type": "integer", "minimum": 0},
        "date": {"anyOf": [{"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}], "description": "2026-09-14"},
        "quantity": {"type": "string", "pattern": "[0-9]", "description": "number and unit: 75 N·m, 70–80 N·m, 75 ± 5 N·m, max 150 °C"},
    })
}

fn list_schema(kind: ListKind) -> Value {
    if kind == ListKind::Shafts {
        return json!({
            "type": "object",
            "description": "media, seals, bearings and parts as they sit, end to end",
            "additionalProperties": {"type": "array", "items": {"$ref": "#/$defs/id"}},
        });
    }
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in entry_fields(kind).iter().chain(COMMON) {
        properties.entry(field.key.to_owned()).or_insert_with(|| field_schema(field));
        if field.required {
            required.push(Value::from(field.key));
        }
    }
    let entry = json!({"type": "object", "properties": properties, "required": required, "additionalProperties": false});
    let mut list = json!({"type": "object", "description": format!("each entry is {}", kind.one()), "additionalProperties": entry});
    if kind != ListKind::Figures
        && let Some(list) = list.as_object_mut() {
            list.insert("propertyNames".to_owned(), json!({"$ref": "#/$defs/id"}));
        }
    list
}

fn field_schema(field: &Field) -> Value {
    let mut schema = shape_schema(&field.shape);
    if field.varies {
        let by_axis = json!({"type": "object", "description": "by the values of one axis", "additionalProperties": schema, "minProperties": 1});
        let by_condition = json!({
            "type": "array",
            "description": "where two axes matter",
            "items": {
                "type": "object",
                "properties": {"for": shape_schema(&Shape::Condition), "is": schema},
                "required": ["is"],
                "additionalProperties": false,
            },
        });
        schema = json!({"anyOf": [schema, by_axis, by_condition]});
    }
    if let Some(map) = schema.as_object_mut() {
        map.insert("description".to_owned(), Value::from(field.help));
    }
    schema
}

fn shape_schema(shape: &Shape) -> Value {
    match shape {
        // Plain numbers (8.8, 3) are words here too: they print back as themselves.
        Shape::Text => json!({"anyOf": [{"$ref": "#/$defs/words"}, {"type": "number"}]}),
        Shape::AsWritten => json!({"anyOf": [{"$ref": "#/$defs/words"}, {"type": "number"}, {"type": "array"}, {"type": "object"}]}),
        Shape::Words(words) => json!({"enum": words}),
        Shape::Count => json!({"$ref": "#/$defs/count"}),
        Shape::Flag => json!({"type": "boolean"}),
        Shape::Date => json!({"$ref": "#/$defs/date"}),
        Shape::Months => json!({"type": "string", "pattern": "^[0-9]+ (month|months|year|years)$", "description": "12 months"}),
        Shape::Quantity(_) | Shape::AnyQuantity | Shape::Size => json!({"$ref": "#/$defs/quantity"}),
        Shape::Thread => json!({"type": "string", "description": "M12x1.25, 1/4-20 UNC; left-hand after it"}),
        Shape::Moment => json!({"type": "string", "pattern": "^[0-9]+(:[0-9]{2}){1,2}$"}),
        Shape::Span => json!({"type": "string", "pattern": "^[0-9]+(:[0-9]{2}){1,2}([–-][0-9]+(:[0-9]{2}){1,2})?$"}),
        Shape::Id => json!({"type": "string", "minLength": 1}),
        Shape::Percent => json!({"type": "string", "pattern": "^[0-9.]+% [0-9.]+%$"}),
        Shape::Pair => json!({"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2}),
        Shape::List(of) => json!({"type": "array", "items": shape_schema(of)}),
        Shape::Map(fields) => map_schema(fields),
        Shape::Named(of) => json!({"type": "object", "additionalProperties": shape_schema(of)}),
        Shape::Condition => json!({"type": "object", "additionalProperties": {"type": "string"}}),
        Shape::Either(shapes) => json!({"anyOf": shapes.iter().map(shape_schema).collect::<Vec<_>>()}),
    }
}

fn map_schema(fields: &[Field]) -> Value {
    let properties: Map<String, Value> = fields.iter().map(|field| (field.key.to_owned(), field_schema(field))).collect();
    let required: Vec<&str> = fields.iter().filter(|field| field.required).map(|field| field.key).collect();
    json!({"type": "object", "properties": properties, "required": required, "additionalProperties": false})
}
