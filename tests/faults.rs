//! Procedures as they go wrong on the bench, each with the findings it must give and nothing else, and each
//! repaired, where nothing may be found.
//!
//! A page in `tests/faults/` is built like one of `tests/rules/`, whose little manual it changes; its `report` block
//! holds a line `RULE FILE:LINE` for each error or warning.

#![cfg(unix)]
#![expect(clippy::disallowed_methods, reason = "a test reads its pages and makes its own folders")]
#![expect(clippy::unwrap_used, clippy::panic, reason = "helpers of tests fail by panicking, as the tests do")]

mod demo;
#[path = "rules/folder.rs"]
#[expect(dead_code, reason = "only the pages of the rules forbid reading")]
mod folder;
#[path = "rules/page.rs"]
#[expect(dead_code, reason = "the pages of the rules are also written anew")]
mod page;

use benchleaf::command::{Arguments, Memory, World, run};
use benchleaf::finding::Look;
use benchleaf::inspect::rule;
use benchleaf::manual::Date;
use clap::Parser;
use folder::Folder;
use page::{Kind, Sample};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

#[test]
fn each_faulty_procedure_gives_its_findings_and_no_other() {
    let mut faults = Vec::new();
    for (name, sample) in samples() {
        let found = findings(&sample, &["error", "warning"]);
        let wanted = match &sample.kind {
            Kind::Faulty(report) => sorted(report.text.lines()),
            Kind::Silent => continue,
        };
        if found != wanted {
            faults.push(format!("{name} — {}\n  wanted {wanted:#?}\n  found {found:#?}", sample.heading));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n\n"));
}

#[test]
fn each_repaired_procedure_is_silent() {
    let mut faults = Vec::new();
    for (name, sample) in samples().into_iter().filter(|(_, sample)| matches!(sample.kind, Kind::Silent)) {
        let found = findings(&sample, &["error", "warning", "note"]);
        if !found.is_empty() {
            faults.push(format!("{name} — {}\n  found {found:#?}", sample.heading));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n\n"));
}

#[test]
fn each_page_has_a_fault_and_its_repair() {
    let mut pages: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for (name, sample) in samples() {
        let (faults, repairs) = pages.entry(name).or_default();
        match sample.kind {
            Kind::Faulty(_) => *faults += 1,
            Kind::Silent => *repairs += 1,
        }
    }
    assert_eq!(pages.len(), 18, "{pages:?}");
    assert!(pages.values().all(|(faults, repairs)| *faults > 0 && *repairs > 0), "{pages:?}");
    for line in samples().iter().filter_map(|(_, sample)| if let Kind::Faulty(report) = &sample.kind { Some(report) } else { None }).flat_map(|r| r.text.lines()) {
        let (name, place) = line.split_once(' ').unwrap();
        assert!(rule(name).is_some(), "no rule of this name: {line}");
        assert!(place.rsplit_once(':').is_some_and(|(_, number)| number.parse::<u32>().is_ok()), "{line}");
    }
}

/// Every sample of every page, in order, with its page's name.
fn samples() -> Vec<(String, Sample)> {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults");
    let mut paths: Vec<_> = fs::read_dir(home).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let mut all = Vec::new();
    for path in paths {
        let page = page::read(&fs::read_to_string(&path).unwrap()).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
        all.extend(page.samples.into_iter().map(|sample| (page.rule.clone(), sample)));
    }
    all
}

/// `RULE FILE:LINE` of each finding of these grades, sorted.
fn findings(sample: &Sample, grades: &[&str]) -> Vec<String> {
    let base = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules/base");
    let folder = Folder::new(&base, &sample.changes).unwrap_or_else(|fault| panic!("{}: {fault}", sample.heading));
    let report: serde_json::Value = serde_json::from_str(&inspect(folder.path())).unwrap();
    let lines: Vec<String> = report["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|finding| grades.contains(&finding["severity"].as_str().unwrap()))
        .map(|finding| {
            let place = &finding["place"];
            format!("{} {}:{}", finding["rule"].as_str().unwrap(), place["file"].as_str().unwrap(), place["line"])
        })
        .collect();
    sorted(lines.iter().map(String::as_str))
}

fn inspect(folder: &Path) -> String {
    let shown = folder.display().to_string();
    let arguments = Arguments::try_parse_from(["benchleaf", "inspect", "--format", "json", shown.as_str()]).unwrap();
    let world = World { folder: folder.to_path_buf(), look: Look::default(), processors: 1, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: None, memory: Memory::default() };
    let (mut out, mut err) = (Vec::new(), Vec::new());
    run(&arguments, &world, &mut out, &mut err).unwrap();
    // Beside the report nothing is said but that there was no earlier state.
    assert!(err.is_empty() || err == demo::NOTHING_BEFORE, "{}", String::from_utf8_lossy(&err));
    String::from_utf8(out).unwrap()
}

fn sorted<'a>(lines: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut lines: Vec<String> = lines.map(str::to_owned).collect();
    lines.sort();
    lines
}
