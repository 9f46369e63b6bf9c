//! Every value of a manual for other programs: what the ledger holds, one value a row, with its number and its source.

use super::ledger::{condition, homes, values};
use super::lists::{Lists, Scope, WrittenValue};
use super::model::{History, Manual};
use super::varied::Combination;
use crate::finding::FileId;
use crate::quantity::{Dimension, Quantity};
use serde::Serialize;
use serde_json::{Value, json};

/// One value.
#[derive(Clone, Debug, Serialize)]
pub struct ListedValue {
    /// The machine's id; nothing for what all machines share.
    pub machine: Option<String>,
    /// The procedure's id; nothing for what all procedures share.
    pub procedure: Option<String>,
    /// The list: `fasteners`.
    pub list: &'static str,
    /// The entry's id.
    pub id: String,
    /// The field's key.
    pub field: &'static str,
    /// The variant it holds for, as `serial late, shaft L`; empty for all.
    pub variant: String,
    /// As it is written.
    pub written: String,
    /// Low end in `unit`, where it is one quantity and has one.
    pub low: Option<f64>,
    /// High end.
    pub high: Option<f64>,
    /// The base unit of its kind.
    pub unit: Option<&'static str>,
    /// Id of its source.
    pub source: Option<String>,
    /// The source's title.
    pub source_title: Option<String>,
    /// The kind of source: `maker`, `measured`.
    pub source_kind: Option<String>,
    /// The revision of its front matter that changed it last; nothing where no change is recorded.
    pub since_revision: Option<u64>,
    /// The revision of its front matter.
    pub revision: Option<u64>,
    /// The rules that find fault with it and are answered for.
    pub waived: Vec<String>,
    /// The file it stands in: whoever adds waivers needs it.
    #[serde(skip)]
    pub file: FileId,
}

/// Every value of a manual, in the order of homes and as written.
#[must_use]
pub fn value_list(manual: &Manual) -> Vec<ListedValue> {
    let mut rows = Vec::new();
    for (name, lists, history, file) in homes(manual) {
        let (machine, procedure) = match name.split_once('/') {
            Some((machine, procedure)) => (Some(machine), Some(procedure)),
            None => (manual.machine(&name).map(|machine| machine.id.as_str()), None),
        };
        let of_machine = machine.and_then(|id| manual.machine(id));
        let of_procedure = of_machine.zip(procedure).and_then(|(machine, id)| machine.procedure(id));
        let scope = Scope { shop: &manual.shop, machine: of_machine, procedure: of_procedure };
        let home = HomeOf { machine, procedure, lists, history, file, scope };
        rows.extend(values(lists).map(|written| home.row(written)));
    }
    rows
}

struct HomeOf<'a> {
    machine: Option<&'a str>,
    procedure: Option<&'a str>,
    lists: &'a Lists,
    history: &'a History,
    file: FileId,
    scope: Scope<'a>,
}

impl HomeOf<'_> {
    fn row(&self, written: &WrittenValue) -> ListedValue {
        let quantity = quantity(written);
        let (low, high) = quantity.as_ref().map_or((None, None), Quantity::low_high);
        let source = self.source(written);
        let entry = source.as_deref().and_then(|id| self.scope.entry(|l| &l.sources, id));
        ListedValue {
            machine: self.machine.map(str::to_owned),
            procedure: self.procedure.map(str::to_owned),
            list: written.kind.key(),
            id: written.id.clone(),
            field: written.field,
            variant: condition(&written.when),
            written: written.text.clone(),
            low,
            high,
            unit: quantity.map(|quantity| quantity.dimension().base().symbol()),
            source_title: entry.map(|entry| entry.what.title.clone()),
            source_kind: entry.and_then(|entry| entry.what.kind.clone()),
            source,
            since_revision: self.since(written),
            revision: self.history.revision,
            waived: Vec::new(),
            file: self.file,
        }
    }

    /// The source of a value: of its variant, where sources differ.
    fn source(&self, written: &WrittenValue) -> Option<String> {
        let sources = self.lists.source(written.kind, &written.id)?;
        let within: Vec<&Combination> = sources.cases_within(&written.when).map(|case| &case.when).collect();
        let case = sources.case(&written.when).or_else(|| sources.cases.iter().find(|case| within.contains(&&case.when)))?;
        Some(case.value.clone())
    }

    fn since(&self, written: &WrittenValue) -> Option<u64> {
        let of = format!("{}.{}", written.id, written.field);
        let changes = self.history.changes.iter().filter(|change| change.of.value == of || change.of.value == written.id);
        changes.filter_map(|change| change.revision).max()
    }
}

/// The value as one quantity, where it is one; a bare number is one only where the field counts something.
fn quantity(written: &WrittenValue) -> Option<Quantity> {
    let quantity = Quantity::parse_free(&written.text).ok()?;
    let counts = matches!(written.field, "count" | "new" | "spare" | "packs");
    (quantity.dimension() != Dimension::Count || counts).then_some(quantity)
}

/// The schema of the list of values (JSON Schema 2020-12).
#[must_use]
pub fn value_list_schema() -> Value {
    let text = |words: &str| json!({ "type": "string", "description": words });
    let maybe = |kind: &str, words: &str| json!({ "type": [kind, "null"], "description": words });
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Benchleaf: list of values",
        "description": "Every value of a manual. Version 1: fields may be added within a version; none is renamed, removed or given another meaning.",
        "type": "object",
        "required": ["format", "version", "title", "values"],
        "properties": {
            "format": { "const": "benchleaf-value-list" },
            "version": { "const": 1 },
            "title": text("The manual's title."),
            "caution": text("What stands under every value."),
            "values": {
                "type": "array",
                "items": {
                    "type": "object",
                    "required": ["machine", "procedure", "list", "id", "field", "variant", "written", "low", "high", "unit", "source", "source_kind", "since_revision", "revision", "waived"],
                    "properties": {
                        "machine": maybe("string", "The machine's id; null for what all machines share."),
                        "procedure": maybe("string", "The procedure's id; null for what all procedures share."),
                        "list": text("The list of the front matter, such as fasteners."),
                        "id": text("The entry's id."),
                        "field": text("The field's key, such as torque."),
                        "variant": text("The variant it holds for, as axis and value with commas; empty for all."),
                        "written": text("As its author wrote it."),
                        "low": maybe("number", "Low end in unit; null where it has none or is no single quantity."),
                        "high": maybe("number", "High end in unit."),
                        "unit": maybe("string", "Unit of low and high: N·m, N, mm, °, °C, K, mL, kPa, kg, s, r/min, %; empty for counts and ratios."),
                        "source": maybe("string", "Id of its source; null for none."),
                        "source_title": maybe("string", "The source's title."),
                        "source_kind": maybe("string", "maker, kit, vendor, measured, size-table, practice or heard."),
                        "since_revision": maybe("integer", "The revision that changed it last; null where no change is recorded."),
                        "revision": maybe("integer", "The revision of the file it stands in."),
                        "waived": { "type": "array", "items": { "type": "string" }, "description": "Rules that find fault with it and are answered for." }
                    }
                }
            }
        }
    })
}
