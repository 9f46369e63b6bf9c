//! The commands of the desk as they are typed: `reckon`, `values`, `man`, `completions`, `schema values`.

#![allow(clippy::unwrap_used, clippy::disallowed_methods, clippy::panic, reason = "a test may fail loudly and reads the repository")]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

fn benchleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).current_dir(Path::new(env!("CARGO_MANIFEST_DIR"))).output().unwrap()
}

fn out(arguments: &[&str]) -> String {
    let output = benchleaf(arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn refused(arguments: &[&str]) -> String {
    let output = benchleaf(arguments);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}");
    assert!(output.stdout.is_empty(), "{arguments:?}");
    String::from_utf8(output.stderr).unwrap()
}

fn folded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn reckon_alone_lists_every_calculation() {
    let told = out(&["reckon"]);
    for calculation in benchleaf::reckon::calculations() {
        assert!(told.lines().any(|line| line.starts_with(calculation.name) && line.contains(calculation.about)), "{}", calculation.name);
        // Lines of help are broken to fit a screen.
        let help = folded(&out(&["reckon", calculation.name, "--help"]));
        for text in [&folded(calculation.formula[0]), "Source:", "Take care:", "Example:"] {
            assert!(help.contains(text), "{}: {text}\n{help}", calculation.name);
        }
        let example: Vec<&str> = ["reckon", calculation.name].iter().chain(calculation.example).copied().collect();
        let worked = out(&example);
        assert!(worked.contains("comes to") && worked.contains(benchleaf::reckon::CAUTION), "{worked}");
        assert!(worked.contains(calculation.source) && worked.contains(calculation.caution), "{worked}");
    }
    let json: Value = serde_json::from_str(&out(&["reckon", "--format", "json"])).unwrap();
    assert_eq!(json["calculations"].as_array().unwrap().len(), benchleaf::reckon::calculations().len());
}

// NIST SP 811, App. B.8: 1 lbf·ft is 1.355818 N·m: 22 N·m is 16.23, 20 is 14.75, 24 is 17.70; limits go inward.
#[test]
fn a_value_is_converted_with_its_limits() {
    let told = out(&["reckon", "convert", "22 ±2 N·m", "lbf·ft"]);
    assert!(told.contains("16.2 lbf·ft (14.8–17.7)"), "{told}");
    let all = out(&["reckon", "convert", "-18 °C"]);
    assert!(all.contains("0 °F"), "{all}");
    let json: Value = serde_json::from_str(&out(&["reckon", "convert", "max 150 °C", "°F", "--format", "json"])).unwrap();
    assert_eq!(json["results"][0]["shown"], "max 302 °F");
}

// TM 1-1500-204-23-9, p. 143: 300 lbf·in, 10 in, 4 in: 214.
#[test]
fn a_wrench_is_set_for_its_adapter_and_back() {
    let typed = ["reckon", "adapter", "--wrench", "10 in", "--offset", "4 in"];
    let told = out(&[&typed[..], &["--torque", "300 lbf·in"]].concat());
    assert!(told.contains("214 lbf·in (24.2 N·m)"), "{told}");
    let json: Value = serde_json::from_str(&out(&[&typed[..], &["--torque", "300 lbf·in", "--format", "json"]].concat())).unwrap();
    let set = &json["results"][0];
    assert!((set["low"].as_f64().unwrap() - 24.21).abs() < 0.01 && set["unit"] == "N·m" && set["letter"] == "S", "{set}");
    assert_eq!(json["given"][0]["written"], "300 lbf·in");
    let back = out(&[&typed[..], &["--set", "214.2857 lbf·in"]].concat());
    assert!(back.contains("300 lbf·in"), "{back}");
}

#[test]
fn mistakes_are_told_with_what_to_write() {
    let told = refused(&["reckon", "adapter", "--torque", "70", "--wrench", "300 mm", "--offset", "45 mm"]);
    for words in ["‘70’ has no unit", "70 lbf·ft = 94.9 N·m", "instead: ", "for example: benchleaf reckon adapter"] {
        assert!(told.contains(words), "{words} is not in\n{told}");
    }
    let told = refused(&["reckon", "heat", "--diameter", "62 N·m", "--interference", "0.04 mm", "--metal", "aluminium"]);
    assert!(told.contains("‘N·m’ is the unit of a torque, and a length belongs here"), "{told}");
    let told = refused(&["reckon", "adaptor"]);
    assert!(told.contains("'adapter'"), "{told}");
}

#[test]
fn every_value_keeps_to_its_schema() {
    let schema: Value = serde_json::from_str(&out(&["schema", "values"])).unwrap();
    let document: Value = serde_json::from_str(&out(&["values", "--format", "json"])).unwrap();
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("values.json", schema).unwrap();
    let index = compiler.compile("values.json", &mut schemas).unwrap();
    schemas.validate(&document, index).unwrap_or_else(|error| panic!("{error}"));
    let mut wrong = document.clone();
    wrong["values"][0]["written"] = Value::Null;
    assert!(schemas.validate(&wrong, index).is_err(), "the schema lets anything through");

    // Counted in the ledger that the site carries: every value of it is here, and no other.
    let site = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("site/.values.json"));
    let ledger: Value = serde_json::from_slice(&site.unwrap()).unwrap();
    let homes = ledger["homes"].as_object().unwrap().values();
    let counted: usize = homes.flat_map(|home| home["values"].as_object().unwrap().values()).map(|cases| cases.as_object().unwrap().len()).sum();
    let values = document["values"].as_array().unwrap();
    assert_eq!(values.len(), counted);

    // The figures stand in procedures/tarn-18/pinion-height-and-backlash.md.
    let late = values.iter().find(|value| value["id"] == "pinion-nut" && value["field"] == "torque" && value["variant"] == "serial late").unwrap();
    assert_eq!((late["low"].as_f64(), late["high"].as_f64(), late["unit"].as_str()), (Some(74.0), Some(82.0), Some("N·m")));
    assert_eq!((late["since_revision"].as_u64(), late["procedure"].as_str()), (Some(4), Some("pinion-height-and-backlash")));
    assert!(late["source_kind"].is_string(), "{late}");

    let table = out(&["values", "--format", "csv"]);
    assert_eq!(table.split("\r\n").filter(|row| !row.is_empty()).count(), counted + 1);
}

#[test]
fn the_manual_page_and_the_completions_know_every_command() {
    let page = out(&["man"]);
    assert!(page.contains(".TH benchleaf"), "{page}");
    for shell in ["bash", "zsh", "fish"] {
        let script = out(&["completions", shell]);
        for command in ["inspect", "bind", "reckon", "kit", "values", "adapter"] {
            assert!(script.contains(command), "{shell} does not know {command}");
        }
    }
    for command in ["inspect", "bind", "explain", "reckon", "kit", "values", "schema", "man", "completions"] {
        assert!(page.contains(command), "{command}");
        assert!(out(&["man", command]).contains(".SH SYNOPSIS"), "{command}");
        assert!(out(&[command, "--help"]).contains("Usage: benchleaf"), "{command}");
    }
    assert!(out(&["man", "reckon", "adapter"]).contains("S = T"), "the formula stands in the page");
    assert!(refused(&["man", "polish"]).contains("There is no command"), "no such command");
}
