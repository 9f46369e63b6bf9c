//! The SARIF report, checked against the schema that OASIS publishes with SARIF 2.1.0 and against rules of
//! the standard that a schema can't express. Section numbers are the standard's.

#![expect(clippy::disallowed_methods, reason = "the test reads the schema and asks where it lies")]
#![expect(clippy::expect_used, reason = "helpers of tests fail by panicking, as the tests do")]

use benchleaf::finding::{Explanation, FileTable, Finding, Place, Rule, Severity, Ground, sarif};
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::Command;

static WITHOUT_UNIT: Rule = Rule {
    name: "torque-without-unit",
    severity: Severity::Error,
    summary: "A torque has no unit.",
    explanation: Explanation {
        finds: "A torque without a unit.",
        matters: "The same number means another torque.",
        may_be_wrong: "Never.",
        example: "## Fit {#fit}",
        instead: "Write the unit.",
    },
};

static LEFT_UNDONE: Rule = Rule {
    name: "left-undone",
    severity: Severity::Warning,
    summary: "A part taken off is never put back.",
    explanation: Explanation {
        finds: "A part taken off.",
        matters: "It stays on the bench.",
        may_be_wrong: "Where another procedure fits it.",
        example: "",
        instead: "Fit it.",
    },
};

/// A report with everything in it: figures, fix, related place, a file without text, odd names.
fn sample() -> Value {
    let mut files = FileTable::default();
    let hub = files.add("axle/näbe 1.md", "---\r\ntorque: 25–30\r\n---\r\n");
    let photo = files.add("c:photo%.png", "");
    let findings = [
        Finding::new(&WITHOUT_UNIT, Place::new(hub, 13..20), "`{#fit}` has no unit")
            .label("here")
            .figure("25 N·m is 18 lbf·ft")
            .related(Place::new(hub, 0..3), "the front matter")
            .related(Place::whole_file(photo), "")
            .fix("write `25–30 N·m`")
            .about("nut.torque"),
        Finding::new(&LEFT_UNDONE, Place::whole_file(photo), "not a picture").severity(Severity::Note),
    ];
    read(&sarif(&findings, &files, &[&LEFT_UNDONE], &Ground::Manual).expect("a report"))
}

fn read(document: &str) -> Value {
    serde_json::from_str(document).unwrap_or(Value::Null)
}

/// The schema from the package that carries it; cargo knows where the package lies and fetches it if need be.
fn oasis_schema() -> Value {
    let metadata = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo can be run");
    assert!(metadata.status.success(), "{}", String::from_utf8_lossy(&metadata.stderr));
    let metadata: Value = serde_json::from_slice(&metadata.stdout).expect("cargo speaks JSON");
    let package = metadata["packages"].as_array().and_then(|all| all.iter().find(|p| p["name"] == "serde-sarif"));
    let manifest = package.and_then(|p| p["manifest_path"].as_str()).expect("Cargo.toml names the package");
    let schema = PathBuf::from(manifest).with_file_name("src").join("schema.json");
    let schema: Value = serde_json::from_slice(&std::fs::read(schema).expect("the package holds the schema"))
        .expect("the schema is JSON");
    assert!(schema["title"].as_str().is_some_and(|title| title.contains("Version 2.1.0")), "{}", schema["title"]);
    schema
}

/// What the schema has against a document.
fn complaints(schema: &Value, document: &Value) -> Option<String> {
    let mut compiler = boon::Compiler::new();
    compiler.enable_format_assertions();
    compiler.add_resource("sarif.json", schema.clone()).expect("the schema can be added");
    let mut schemas = boon::Schemas::new();
    let index = compiler.compile("sarif.json", &mut schemas).expect("the schema compiles");
    schemas.validate(document, index).err().map(|error| format!("{error:#}"))
}

#[test]
fn the_official_schema_accepts_the_report() {
    let schema = oasis_schema();
    assert_eq!(complaints(&schema, &sample()), None);
    let empty = read(&sarif(&[], &FileTable::default(), &[], &Ground::Manual).unwrap());
    assert_eq!(complaints(&schema, &empty), None);
    let mut broken = sample();
    broken["runs"][0]["results"][0]["level"] = json!("grave");
    assert!(complaints(&schema, &broken).is_some(), "the check itself can fail");
}

#[test]
fn every_result_points_to_its_rule() {
    let report = sample();
    let rules = report["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap().clone();
    assert_eq!(rules.len(), 2, "the rule that was tried and the one that a finding brought");
    for result in report["runs"][0]["results"].as_array().unwrap() {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"], "3.27.6: ruleIndex and ruleId name the same rule");
    }
    assert_eq!(rules[0]["defaultConfiguration"]["level"], "warning");
    let help = rules[0]["help"]["text"].as_str().unwrap();
    assert!(help.starts_with("What it finds\n\nA part taken off.\n\nWhy it matters at the bench\n\n"), "{help}");
}

#[test]
fn a_region_counts_code_points_from_one_and_bytes_from_nought() {
    let report = sample();
    assert_eq!(report["runs"][0]["columnKind"], "unicodeCodePoints", "3.14.17");
    let place = &report["runs"][0]["results"][0]["locations"][0]["physicalLocation"];
    assert_eq!(
        place["region"],
        json!({"startLine": 2, "startColumn": 9, "endLine": 2, "endColumn": 14, "byteOffset": 13, "byteLength": 7})
    );
    assert_eq!(
        place["artifactLocation"],
        json!({"uri": "axle/n%C3%A4be%201.md", "uriBaseId": "MANUAL"}),
        "RFC 3986, section 2.1: other characters by the bytes of their UTF-8"
    );
}

#[test]
fn a_file_without_text_has_no_region_and_a_colon_is_no_scheme() {
    let report = sample();
    let place = &report["runs"][0]["results"][1]["locations"][0]["physicalLocation"];
    assert_eq!(*place, json!({"artifactLocation": {"uri": "c%3Aphoto%25.png", "uriBaseId": "MANUAL"}}));
}

#[test]
fn every_base_is_described_without_a_path_of_this_machine() {
    let report = sample();
    let bases = &report["runs"][0]["originalUriBaseIds"];
    assert_eq!(*bases, json!({"MANUAL": {"description": {"text": "The folder of the manual."}}}), "3.14.14");
}

#[test]
fn the_message_holds_figures_and_fix_and_doubles_braces() {
    let report = sample();
    let result = &report["runs"][0]["results"][0];
    assert_eq!(
        result["message"]["text"], "`{{#fit}}` has no unit.\nFigure: 25 N·m is 18 lbf·ft\nInstead: write `25–30 N·m`",
        "3.11.3: the first sentence stands alone; 3.11.5: braces are doubled"
    );
    assert_eq!(result["locations"][0]["message"]["text"], "here");
    assert_eq!(result["relatedLocations"][0]["message"]["text"], "the front matter");
    assert_eq!(result["relatedLocations"][1]["id"], 1);
    assert_eq!(result["properties"]["about"], "nut.torque");
    assert_eq!(report["runs"][0]["results"][1]["level"], "note", "graver or lighter than the rule's own level");
}
