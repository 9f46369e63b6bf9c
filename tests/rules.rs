//! Every rule has a page in `tests/rules/`: what it finds with the exact report, and what it must be silent on.
//!
//! The pages are read by people too. When a report changes on purpose, `cargo test --test rules -- --ignored`
//! writes the new ones into the pages; read what it wrote before it goes in.

#![cfg(unix)]
#![expect(clippy::disallowed_methods, reason = "a test reads its pages and makes its own folders")]
#![expect(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "a test fails by saying so")]

mod demo;
#[path = "rules/folder.rs"]
mod folder;
#[path = "rules/page.rs"]
mod page;

use benchleaf::command::{Arguments, Memory, World, run};
use benchleaf::finding::Look;
use benchleaf::inspect::rules;
use benchleaf::manual::Date;
use clap::Parser;
use folder::Folder;
use page::{Kind, Page, Sample};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

#[test]
fn every_page_gives_its_reports() {
    let mut faults: Vec<String> = Vec::new();
    for path in pages() {
        match page::read(&fs::read_to_string(&path).unwrap()) {
            Ok(page) => faults.extend(page.samples.iter().filter_map(|sample| fault(&page, sample))),
            Err(fault) => faults.push(format!("{}: {fault}", path.display())),
        }
    }
    assert!(faults.is_empty(), "{} samples fail\n\n{}", faults.len(), faults.join("\n\n"));
}

#[test]
fn every_rule_has_a_page_and_every_page_a_rule() {
    let named: BTreeSet<String> = rules().iter().map(|rule| rule.name.to_owned()).collect();
    let mut paged = BTreeSet::new();
    for path in pages() {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let page = page::read(&fs::read_to_string(&path).unwrap()).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        assert_eq!(page.rule, name, "the page's heading is the name of its file");
        paged.insert(name);
    }
    let without: Vec<&String> = named.difference(&paged).collect();
    let strangers: Vec<&String> = paged.difference(&named).collect();
    assert!(without.is_empty() && strangers.is_empty(), "rules without a page: {without:?}\npages without a rule: {strangers:?}");
}

#[test]
fn the_base_manual_is_silent() {
    let folder = Folder::new(&base(), &[]).unwrap();
    let report = inspect(folder.path(), &[]);
    assert!(is_silent(&report), "{report}");
}

#[test]
#[ignore = "writes into the pages"]
fn rewrite_reports() {
    for path in pages() {
        let text = fs::read_to_string(&path).unwrap();
        let page = page::read(&text).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
        let reports: Vec<Option<String>> = page
            .samples
            .iter()
            .filter_map(|sample| match &sample.kind {
                Kind::Faulty(block) => Some(report_of(sample).map(|report| block.part_of(&report))),
                Kind::Silent => None,
            })
            .collect();
        let new = page::with_reports(&text, &page, &reports);
        if new != text {
            fs::write(&path, new).unwrap();
        }
    }
}

/// What is wrong with a sample's report, if anything is.
fn fault(page: &Page, sample: &Sample) -> Option<String> {
    let report = report_of(sample)?;
    let title = format!("{} — {}", page.rule, sample.heading);
    match &sample.kind {
        Kind::Silent => (!is_silent(&report)).then(|| format!("{title}: not silent\n{report}")),
        Kind::Faulty(_) if !report.contains(&format!("({})", page.rule)) => Some(format!("{title}: the rule finds nothing\n{report}")),
        Kind::Faulty(block) => {
            let part = block.part_of(&report);
            (part != block.text).then(|| format!("{title}\n{}", difference(&block.text, &part)))
        }
    }
}

/// The report of a sample; none where this system can't build it.
fn report_of(sample: &Sample) -> Option<String> {
    let folder = Folder::new(&base(), &sample.changes).unwrap_or_else(|fault| panic!("{}: {fault}", sample.heading));
    if !folder.is_as_wanted() {
        println!("skipped, because this user may read everything: {}", sample.heading);
        return None;
    }
    let report = inspect(folder.path(), &sample.arguments);
    assert_eq!(report, inspect(folder.path(), &sample.arguments), "{}: two reports of one folder", sample.heading);
    Some(report)
}

/// What `inspect` prints of a folder.
fn inspect(folder: &Path, further: &[String]) -> String {
    let words = ["benchleaf".to_owned(), "inspect".to_owned(), folder.display().to_string()];
    let arguments = Arguments::try_parse_from(words.iter().chain(further)).unwrap();
    let world = World { folder: folder.to_path_buf(), look: Look::default(), processors: 1, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: None, memory: Memory::default() };
    let (mut out, mut err) = (Vec::new(), Vec::new());
    run(&arguments, &world, &mut out, &mut err).unwrap();
    // Beside the report nothing is said but that there was no earlier state.
    assert!(err.is_empty() || err == demo::NOTHING_BEFORE, "{}", String::from_utf8_lossy(&err));
    String::from_utf8(out).unwrap()
}

fn is_silent(report: &str) -> bool {
    // Behind the first line stands only what is waived, by whom and why.
    let mut lines = report.lines();
    lines.next().is_some_and(|first| first.contains(": nothing found in ")) && lines.next().is_none_or(|line| line.starts_with("Waived — "))
}

fn home() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

fn base() -> PathBuf {
    home().join("base")
}

/// The pages, by name.
fn pages() -> Vec<PathBuf> {
    let mut pages: Vec<PathBuf> = fs::read_dir(home())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "md") && !path.ends_with("README.md"))
        .collect();
    pages.sort();
    assert!(!pages.is_empty());
    pages
}

/// Two texts line by line: `-` is missing, `+` is new.
fn difference(wanted: &str, found: &str) -> String {
    let (wanted, found): (Vec<&str>, Vec<&str>) = (wanted.lines().collect(), found.lines().collect());
    // The longest run of lines that both have, from each pair of places to the end.
    let mut common = vec![vec![0_usize; found.len() + 1]; wanted.len() + 1];
    for (i, line) in wanted.iter().enumerate().rev() {
        for (j, other) in found.iter().enumerate().rev() {
            common[i][j] = if line == other { common[i + 1][j + 1] + 1 } else { common[i + 1][j].max(common[i][j + 1]) };
        }
    }
    let (mut i, mut j, mut lines) = (0, 0, Vec::new());
    while i < wanted.len() || j < found.len() {
        if i < wanted.len() && j < found.len() && wanted[i] == found[j] {
            lines.push(format!("  {}", wanted[i]));
            (i, j) = (i + 1, j + 1);
        } else if j == found.len() || (i < wanted.len() && common[i + 1][j] >= common[i][j + 1]) {
            lines.push(format!("- {}", wanted[i]));
            i += 1;
        } else {
            lines.push(format!("+ {}", found[j]));
            j += 1;
        }
    }
    lines.join("\n")
}

#[test]
fn differences_are_shown_line_by_line() {
    assert_eq!(difference("a\nb\nc\n", "a\nx\nc\nd\n"), "  a\n- b\n+ x\n  c\n+ d");
}

#[test]
fn pages_that_would_not_be_looked_at_are_refused() {
    let whole = "# r\n\n## Faulty\n```yaml shop.yaml\na: b\n```\n```report\nx\n```\n\n## Silent: s\n```build\nremove x\n```\n";
    let page = page::read(whole).unwrap();
    assert_eq!((page.rule.as_str(), page.samples.len()), ("r", 2));
    assert_eq!(page::with_reports(whole, &page, &[Some("y\nz\n".to_owned())]), whole.replace("x\n```\n\n##", "y\nz\n```\n\n##"));
    for (from, to) in [
        ("# r", "r"),
        ("## Faulty", "## Wrong"),
        ("```report\nx\n```", ""),
        ("## Silent: s\n```build\nremove x\n```", ""),
        ("```yaml shop.yaml", "```yaml"),
        ("```build\nremove x\n```", ""),
        ("remove x\n```", "remove x\n"),
    ] {
        assert!(page::read(&whole.replace(from, to)).is_err(), "{from} → {to}");
    }
}
