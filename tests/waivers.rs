//! What nobody answers for: the guide's list is the program's, and the program refuses what stands on it.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes its own folders")]

use benchleaf::finding::Rule;
use benchleaf::inspect::{PROTECTION, rules};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

/// The rows of the guide's table: rule and what is missing.
fn told() -> Vec<(String, String)> {
    let guide = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/together.md")).unwrap();
    let list = guide.split("What is never waived").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows = list.lines().filter_map(|line| line.trim().strip_prefix("| `")?.strip_suffix(" |")?.split_once("` | "));
    rows.map(|(rule, what)| (rule.to_owned(), what.to_owned())).collect()
}

#[test]
fn the_guide_tells_the_list_that_the_program_has() {
    let known: Vec<(String, String)> = PROTECTION.iter().map(|(rule, what)| ((*rule).to_owned(), (*what).to_owned())).collect();
    assert_eq!(told(), known);
}

/// One waiver for every rule there is: those of rules that are never wrong and those of the guide's table are refused, no other.
#[test]
fn a_waiver_of_what_is_never_waived_is_refused_and_no_other() {
    let all = rules();
    // A report of very many findings of one rule is cut: a few at a time.
    let refused: BTreeSet<String> = all.chunks(30).flat_map(refused).collect();
    let named: BTreeSet<String> = told().into_iter().map(|(rule, _)| rule).collect();
    let never = all.iter().filter(|rule| rule.explanation.may_be_wrong.starts_with("Never")).map(|rule| rule.name.to_owned());
    let wanted: BTreeSet<String> = never.chain(named).collect();
    assert_eq!(refused, wanted);
}

/// The rules of which a waiver is refused, in a manual that has one of each.
fn refused(all: &[&Rule]) -> Vec<String> {
    let folder = TempDir::new().unwrap();
    let waivers: Vec<String> = all.iter().map(|rule| format!("  - {{rule: {}, of: thing, because: we know better, by: editor, until: 2099-12-31}}\n", rule.name)).collect();
    fs::write(folder.path().join("manual.yaml"), format!("title: Little manual\npublisher: Example club (invented)\nprofile: working\nwaivers:\n{}", waivers.concat())).unwrap();
    fs::write(folder.path().join("shop.yaml"), "people:\n  editor: {name: Editor}\n").unwrap();
    fs::create_dir(folder.path().join("tarn")).unwrap();
    fs::write(folder.path().join("tarn/machine.yaml"), "name: Tarn\n").unwrap();
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["inspect", folder.path().to_str().unwrap(), "--format", "json"]).current_dir(folder.path()).output().unwrap();
    let report: Value = serde_json::from_slice(&run.stdout).unwrap();
    let told = report["findings"].as_array().unwrap().iter().filter(|finding| finding["rule"] == "waiver-refused").map(|finding| finding["message"].as_str().unwrap().split(['‘', '’']).nth(1).unwrap().to_owned());
    told.collect()
}

#[test]
fn explain_says_what_is_never_waived_and_of_nothing_else() {
    let explained = |rule: &str| String::from_utf8(Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["explain", rule]).output().unwrap().stdout).unwrap();
    for (rule, last) in [("notice-missing", "\nNever waived: a notice is missing: write the step, not the waiver.\n"), ("unit-missing", "\nNever waived: no work makes it right.\n")] {
        assert!(explained(rule).ends_with(last), "{}", explained(rule));
    }
    assert!(!explained("listed-not-used").contains("Never waived"));
}

/// Two procedures list a bolt under one id, each its own: the waiver answers for the one that is not critical, and the critical one
/// stays found, whichever file is read first.
#[test]
fn an_id_is_critical_where_its_own_procedure_says_so() {
    for (plain, critical) in [("brake", "stop"), ("stop", "brake")] {
        let folder = TempDir::new().unwrap();
        let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
        write("manual.yaml", "title: Little manual\npublisher: Example club (invented)\nprofile: working\nwaivers:\n  - {rule: final-torque-missing, of: bolt, because: the maker gives none, by: editor, until: 2099-12-31}\n");
        write("shop.yaml", "people:\n  editor: {name: Editor}\n");
        fs::create_dir(folder.path().join("tarn")).unwrap();
        write("tarn/machine.yaml", "name: Tarn\n");
        let procedure = |key: &str| format!("---\ntitle: Work\nrevision: 1\ndate: 2026-09-14\nfasteners:\n  bolt: {{name: Bolt, count: 2, thread: M6x1.0, class: 8.8{key}}}\n---\n\n## Tighten {{#tighten}}\n\n[Tighten the bolts](torque:bolt).\n");
        write(&format!("tarn/{plain}.md"), &procedure(""));
        write(&format!("tarn/{critical}.md"), &procedure(", critical: true"));
        let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["inspect", folder.path().to_str().unwrap(), "--format", "json"]).current_dir(folder.path()).output().unwrap();
        let report: Value = serde_json::from_slice(&run.stdout).unwrap();
        let told = |rule: &str| -> Vec<String> {
            let of_rule = report["findings"].as_array().unwrap().iter().filter(|finding| finding["rule"] == rule);
            of_rule.map(|finding| finding["place"]["file"].as_str().unwrap().to_owned()).collect()
        };
        assert_eq!(told("final-torque-missing"), [format!("tarn/{critical}.md")], "{report}");
        assert_eq!(told("waiver-refused"), [""; 0], "{report}");
    }
}
