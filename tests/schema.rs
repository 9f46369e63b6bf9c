//! The schemas for editors: each is a JSON Schema of draft 2020-12, lets every file of the demonstration manual
//! through, and stops what is misspelt.
//!
//! The meta-schema is the one that the library `boon` carries: <https://json-schema.org/draft/2020-12/schema>.

#![expect(clippy::disallowed_methods, reason = "a test reads the demonstration manual")]
#![expect(clippy::unwrap_used, clippy::panic, reason = "a test fails by saying so")]

mod demo;

use benchleaf::manual::{FileKind, ListKind, tables};
use boon::{Compiler, SchemaIndex, Schemas};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::Command;

struct Schema {
    kind: FileKind,
    schemas: Schemas,
    index: SchemaIndex,
    document: Value,
}

impl Schema {
    /// The schema that the program prints.
    fn of(kind: FileKind) -> Self {
        let output = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["schema", kind.name()]).output().unwrap();
        assert_eq!(output.status.code(), Some(0));
        let document: Value = serde_json::from_slice(&output.stdout).unwrap();
        let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
        let name = format!("https://schemas.example/{}.json", kind.name());
        compiler.add_resource(&name, document.clone()).unwrap();
        let index = compiler.compile(&name, &mut schemas).unwrap_or_else(|error| panic!("{}: {error:#}", kind.name()));
        Self { kind, schemas, index, document }
    }

    fn faults(&self, value: &Value) -> Option<String> {
        self.schemas.validate(value, self.index).err().map(|error| format!("{error:#}"))
    }

    fn accepts(&self, value: &Value) {
        if let Some(faults) = self.faults(value) {
            panic!("{}: {faults}\n{value:#}", self.kind.name());
        }
    }

    fn refuses(&self, value: &Value) {
        assert!(self.faults(value).is_some(), "{}: {value:#}", self.kind.name());
    }
}

/// YAML as an editor's checker has it: typed.
fn yaml(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

/// The files of a manual that have a schema, with what is in them.
fn documents(folder: &Path) -> Vec<(FileKind, String, Value)> {
    let mut all = Vec::new();
    for path in demo::files(folder) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let text = || fs::read_to_string(&path).unwrap();
        let found = match name.as_str() {
            "manual.yaml" => (FileKind::Manual, yaml(&text())),
            "shop.yaml" => (FileKind::Shop, yaml(&text())),
            "machine.yaml" => (FileKind::Machine, yaml(&text())),
            _ if name.ends_with(".md") => (FileKind::Procedure, yaml(text().split("---\n").nth(1).unwrap())),
            _ => continue,
        };
        all.push((found.0, path.display().to_string(), found.1));
    }
    all
}

#[test]
fn every_schema_is_one_of_the_draft_it_names() {
    for kind in FileKind::ALL {
        let schema = Schema::of(kind);
        assert_eq!(schema.document["$schema"], "https://json-schema.org/draft/2020-12/schema");
        assert!(schema.document["description"].as_str().is_some_and(|words| words.len() > 10));
    }
}

#[test]
fn the_checker_checks_against_the_meta_schema() {
    let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
    let broken = json!({"$schema": "https://json-schema.org/draft/2020-12/schema", "type": "nothing"});
    compiler.add_resource("https://schemas.example/broken.json", broken).unwrap();
    assert!(compiler.compile("https://schemas.example/broken.json", &mut schemas).is_err());
}

#[test]
fn the_demonstration_manual_is_let_through() {
    let schemas = FileKind::ALL.map(Schema::of);
    let documents = documents(&demo::original());
    assert!(FileKind::ALL.iter().all(|kind| documents.iter().any(|(of, _, _)| of == kind)));
    for (kind, path, value) in documents {
        let schema = schemas.iter().find(|schema| schema.kind == kind).unwrap();
        assert!(schema.faults(&value).is_none(), "{path}: {}", schema.faults(&value).unwrap_or_default());
    }
}

#[test]
fn the_base_manual_of_the_rules_pages_is_let_through() {
    for (kind, path, value) in documents(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules/base")) {
        let schema = Schema::of(kind);
        assert!(schema.faults(&value).is_none(), "{path}: {}", schema.faults(&value).unwrap_or_default());
    }
}

/// Every key of the demonstration manual, misspelt one after the other, wherever the format has the keys.
#[test]
fn a_misspelt_key_is_stopped_wherever_it_stands() {
    let schemas = FileKind::ALL.map(Schema::of);
    let mut tried = 0;
    for (kind, path, value) in documents(&demo::original()) {
        let schema = schemas.iter().find(|schema| schema.kind == kind).unwrap();
        for pointer in maps_of_known_keys(&value) {
            let mut wrong = value.clone();
            let map = wrong.pointer_mut(&pointer).unwrap().as_object_mut().unwrap();
            map.insert("torqe".to_owned(), json!("24 N·m"));
            assert!(schema.faults(&wrong).is_some(), "{path}{pointer}");
            tried += 1;
        }
    }
    assert!(tried > 100, "{tried}");
}

/// The top and each entry of each list.
fn maps_of_known_keys(value: &Value) -> Vec<String> {
    let mut all = vec![String::new()];
    for (list, entries) in value.as_object().unwrap() {
        if ListKind::find(list).is_none_or(|kind| kind == ListKind::Shafts) {
            continue;
        }
        all.extend(entries.as_object().unwrap().keys().map(|id| format!("/{list}/{}", id.replace('~', "~0").replace('/', "~1"))));
    }
    all
}

#[test]
fn a_wrong_word_or_form_is_stopped() {
    let procedure = Schema::of(FileKind::Procedure);
    let with = |lists: &str| yaml(&format!("title: x\nrevision: 1\ndate: '2026-09-14'\n{lists}"));
    let good = [
        "",
        "fasteners: {nut: {role: shaft-nut, count: 4, class: 8.8, torque: 24 N·m}}",
        "fasteners: {nut: {torque: hand, because: x}}",
        "fasteners: {nut: {torque: [20 N·m, 90°]}}",
        "fasteners: {nut: {torque: {early: 70 N·m, late: 78 N·m}}}",
        "fasteners: {nut: {torque: {early: [20 N·m, 90°], late: 78 N·m}}}",
        "fasteners: {nut: {torque: [{for: {serial: late, shaft: L}, is: 78 N·m}]}}",
        "fasteners: {nut: {reuse: {stock: inspect, kit: never}}}",
        "seals: {s: {faces: either}, t: {faces: {spring: gear-oil}}, u: {faces: {R: either, E: {lip: air}}}}",
        "shafts: {s: [gear-oil, inner, water]}",
        "tests: {t: {expect: words}, u: {expect: {hold: 10 min, drift: max 5 mm}}}",
        "figures: {pictures/a.svg: {balloons: [{item: 1, at: 34% 20%, of: nut}]}}",
        "video: film",
        "video: {address: 'https://films.example/x', length: '45:00', silent: ['1:00–2:00']}",
        "measures: {m: {spec: 0.20–0.32 mm, at: {gear_radius: 70 mm, dial_radius: 90 mm}}}",
        "fasteners: {nut: {layout: {at: [[0, 0], [12.5, -3]]}}}",
    ];
    for lists in good {
        procedure.accepts(&with(lists));
    }
    let bad = [
        "fasteners: {nut: {role: shaft nut}}",
        "fasteners: {nut: {count: three}}",
        "fasteners: {nut: {count: -1}}",
        "fasteners: {nut: {torque: good and tight}}",
        "fasteners: {nut: {torque: [[24 N·m]]}}",
        "fasteners: {nut: {torque: [{is: 78 N·m, fro: {serial: late}}]}}",
        "fasteners: {nut: {torque: [{for: {serial: late}}]}}",
        "fasteners: {Hub_Nut: {}}",
        "fasteners: nut",
        "fasteners: {nut: 24 N·m}",
        "seals: {s: {faces: sideways}}",
        "seals: {s: {faces: [gear-oil]}}",
        "shafts: {s: gear-oil}",
        "after: base",
        "figures: {pictures/a.svg: {balloons: [{item: 1, at: 34 20, of: nut}]}}",
        "figures: {pictures/a.svg: {balloons: [{item: 1, at: 34% 20%}]}}",
        "leaves_open: {nut: {left: hand-tight, because: x}}",
        "tools: {w: {kind: wrench}}",
        "tools: {w: {}}",
        "terms: {w: {means: x}}",
        "video: {length: '45:00'}",
        "fasteners: {nut: {layout: {at: [[0]]}}}",
    ];
    for lists in bad {
        procedure.refuses(&with(lists));
    }
    for head in ["title: x\nrevision: 1\n", "title: x\nrevision: 1.5\ndate: '2026-09-14'\n", "title: x\nrevision: 1\ndate: 14.9.2026\n"] {
        procedure.refuses(&yaml(head));
    }
    let manual = Schema::of(FileKind::Manual);
    manual.accepts(&yaml("title: x\npublisher: Club\npaper: Letter\nprofile: working\n"));
    for head in ["title: x\n", "title: x\npublisher: Club\npaper: A5\n", "title: x\npublisher: Club\nunits: {torque: N·m}\n"] {
        manual.refuses(&yaml(head));
    }
}

/// Every key that the program reads is in the schema, with words for the editor; and no other.
#[test]
fn the_schema_has_the_keys_that_are_read() {
    for kind in FileKind::ALL {
        let schema = Schema::of(kind);
        let properties = schema.document["properties"].as_object().unwrap();
        let fields = kind.fields().iter().map(|field| field.key);
        let mut wanted: Vec<&str> = fields.chain(kind.lists().into_iter().map(ListKind::key)).collect();
        wanted.sort_unstable();
        let mut found: Vec<&str> = properties.keys().map(String::as_str).collect();
        found.sort_unstable();
        assert_eq!(found, wanted, "{}", kind.name());
        for list in kind.lists().into_iter().filter(|list| *list != ListKind::Shafts) {
            let entry = &properties[list.key()]["additionalProperties"]["properties"];
            for field in tables::entry_fields(list).iter().chain(tables::COMMON) {
                let help = entry[field.key]["description"].as_str();
                assert!(help.is_some_and(|help| !help.is_empty()), "{}.{}", list.key(), field.key);
            }
        }
    }
}
