//! The libraries of others: each has a reason and a licence that is known, none is in the program twice without a reason, and
//! `THIRD-PARTY.md` tells what is so.
//!
//! `cargo test --test house_libraries -- --ignored` writes its tables anew and leaves the reasons as they stand.

#![expect(clippy::unwrap_used, clippy::panic, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test reads licences and asks cargo")]

mod crates;

use crates::{Crates, Package};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Under each of these a library may be used under MIT or Apache-2.0, as Benchleaf itself, or asks for nothing.
const AS_OURS: [&str; 18] = [
    "0BSD OR MIT OR Apache-2.0",
    "Apache-2.0",
    "Apache-2.0 / MIT",
    "Apache-2.0 OR BSL-1.0",
    "Apache-2.0 OR GPL-2.0-only",
    "Apache-2.0 OR MIT",
    "Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT",
    "Apache-2.0/MIT",
    "BSD-3-Clause OR Apache-2.0",
    "MIT",
    "MIT OR Apache-2.0",
    "MIT OR Apache-2.0 OR LGPL-2.1-or-later",
    "MIT OR Apache-2.0 OR Zlib",
    "MIT OR Zlib OR Apache-2.0",
    "MIT/Apache-2.0",
    "Unlicense OR MIT",
    "Unlicense/MIT",
    "Zlib OR Apache-2.0 OR MIT",
];
/// Under these more is to be told, or something else: `THIRD-PARTY.md` names each such library.
const OTHERS: [&str; 8] = [
    "(Apache-2.0 OR MIT) AND BSD-3-Clause",
    "(MIT OR Apache-2.0) AND IJG",
    "(MIT OR Apache-2.0) AND Unicode-3.0",
    "CC0-1.0",
    "ISC",
    "MIT AND BSD-3-Clause",
    "Unicode-3.0",
    "Zlib",
];
/// Only for libraries of tests, which nobody passes on.
const OF_TESTS: [&str; 3] = ["BSD-2-Clause", "BSD-2-Clause OR Apache-2.0 OR MIT", "MIT-0"];

/// Libraries that are there in several versions, and why that is borne.
const TWICE: [(&str, &str); 6] = [
    ("base64", "syntect's reader of themes has the newer one, the schema checker of the tests the older"),
    ("cpufeatures", "sha2 has the older one, the random numbers of the tests the newer"),
    ("getrandom", "tempfile has the newer one, the schema checker of the tests the older"),
    ("miniz_oxide", "png has the older one, flate2, which png has too, the newer; both are small"),
    ("r-efi", "comes with getrandom, for a system that the program is not built for"),
    ("syn", "macros while building; the oldest belongs to a package that is never compiled"),
];

/// The parts of `THIRD-PARTY.md` that are tables, each up to the next heading.
const FOR_THE_PROGRAM: &str = "## For the program";
const FOR_THE_TESTS: &str = "## For the tests alone";
const UNDER_MIT: &str = "## Under MIT alone";

fn paper() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("THIRD-PARTY.md")
}

/// Under which part a line stands, and the reasons that stand in a part's table.
fn reasons(text: &str, part: &str) -> BTreeMap<String, String> {
    let (_, table) = text.split_once(part).unwrap_or_else(|| panic!("THIRD-PARTY.md has no part {part:?}"));
    let rows = table.split("\n#").next().unwrap().lines().filter(|line| line.starts_with("| `"));
    rows.map(|row| row.split('|').map(str::trim).collect::<Vec<_>>()).map(|cells| (cells[1].trim_matches('`').to_owned(), cells[2].to_owned())).collect()
}

/// The table of what the manifest names: reason, licence, what comes with it.
fn table(crates: &Crates, named: &BTreeSet<String>, beside: &BTreeSet<String>, reasons: &BTreeMap<String, String>) -> String {
    let mut out = String::from("| library | for | licence | brings | alone |\n| --- | --- | --- | ---: | ---: |\n");
    let mut rows: Vec<(&Package, &String)> = named.iter().map(|id| (&crates.packages[id], id)).collect();
    rows.sort_by_key(|(package, _)| &package.name);
    for (package, id) in rows {
        let all = crates.with_needs([id]);
        let others = crates.with_needs(named.iter().chain(beside).filter(|other| *other != id));
        let alone = all.iter().filter(|one| *one != id && !others.contains(*one)).count();
        let reason = reasons.get(&package.name).map_or("", String::as_str);
        let _ = writeln!(out, "| `{}` | {reason} | {} | {} | {alone} |", package.name, package.licence, all.len() - 1);
    }
    out
}

/// Whose rights must be named, because MIT is all there is.
fn holders(crates: &Crates) -> String {
    let mut out = String::new();
    for package in crates.passed_on().into_iter().filter(|package| package.licence == "MIT") {
        let holders: Vec<String> = package.holders().into_iter().collect();
        let told = if holders.is_empty() { "its licence names nobody".to_owned() } else { holders.join("; ") };
        let _ = writeln!(out, "- `{}`: {}", package.name, told.replace('<', "\\<"));
    }
    out
}

/// A text with one part's table exchanged: from its first line that belongs to it to the next heading.
fn exchanged(text: &str, part: &str, starts: &str, table: &str) -> String {
    let (before, rest) = text.split_once(part).unwrap_or_else(|| panic!("THIRD-PARTY.md has no part {part:?}"));
    let (inside, after) = rest.split_once("\n#").map_or((rest, String::new()), |(inside, after)| (inside, format!("\n#{after}")));
    let words = inside.split_once(&format!("\n{starts}")).map_or(inside, |(words, _)| words);
    format!("{before}{part}{}\n\n{table}{after}", words.trim_end())
}

/// `THIRD-PARTY.md` as it should stand.
fn as_it_is(crates: &Crates, text: &str) -> String {
    let program = table(crates, &crates.direct, &BTreeSet::new(), &reasons(text, FOR_THE_PROGRAM));
    let tests = table(crates, &crates.for_tests, &crates.direct, &reasons(text, FOR_THE_TESTS));
    let text = exchanged(text, FOR_THE_PROGRAM, "| library", &program);
    let text = exchanged(&text, FOR_THE_TESTS, "| library", &tests);
    exchanged(&text, UNDER_MIT, "- `", &holders(crates))
}

#[test]
#[ignore = "writes the tables of THIRD-PARTY.md anew"]
fn write_the_tables() {
    let text = fs::read_to_string(paper()).unwrap();
    fs::write(paper(), as_it_is(&Crates::told(), &text)).unwrap();
}

#[test]
fn the_paper_tells_each_library_with_its_reason_as_it_is() {
    let (crates, text) = (Crates::told(), fs::read_to_string(paper()).unwrap());
    assert!(crates.direct.len() > 20 && crates.for_tests.len() > 4, "cargo's answer was not understood");
    assert!(as_it_is(&crates, &text) == text, "THIRD-PARTY.md is not up to date: cargo test --test house_libraries -- --ignored");
    for part in [FOR_THE_PROGRAM, FOR_THE_TESTS] {
        let without: Vec<String> = reasons(&text, part).into_iter().filter(|(_, reason)| reason.len() < 10).map(|(name, _)| name).collect();
        assert!(without.is_empty(), "no reason is given for {without:?}");
    }
    let all = crates.passed_on().len();
    assert!(text.contains(&format!("{all} libraries")), "THIRD-PARTY.md does not say that the program has {all} libraries");
}

/// The faults of licences: what is under one that is not known, or not told where it has to be.
fn faults<'a>(packages: impl Iterator<Item = (&'a str, &'a str)>, known: &[&str], text: &str) -> Vec<String> {
    let text = text.replace('\\', "");
    let told: BTreeSet<&str> = text.split(|c: char| !c.is_alphanumeric() && !"_-".contains(c)).collect();
    let fault = |(name, licence): (&str, &str)| {
        let is_other = OTHERS.contains(&licence);
        match () {
            () if !known.contains(&licence) && !is_other => Some(format!("{name} is under {licence}, which nobody has read yet")),
            () if is_other && !told.contains(name) => Some(format!("{name} is under {licence}, and THIRD-PARTY.md does not name it")),
            () => None,
        }
    };
    packages.filter_map(fault).collect()
}

#[test]
fn every_licence_is_known_and_told() {
    let (crates, text) = (Crates::told(), fs::read_to_string(paper()).unwrap());
    let passed_on = crates.passed_on();
    let told = faults(passed_on.iter().map(|package| (&*package.name, &*package.licence)), &AS_OURS, &text);
    assert!(told.is_empty(), "{told:#?}");
    // What tests alone use is not passed on, so it need not be told; its licence has to be known all the same.
    let known: Vec<&str> = AS_OURS.iter().chain(&OF_TESTS).chain(&OTHERS).copied().collect();
    let unknown: Vec<String> = crates.packages.values().filter(|package| !known.contains(&&*package.licence)).map(|package| format!("{}: {}", package.name, package.licence)).collect();
    assert!(unknown.is_empty(), "{unknown:#?}");
    // No entry of the lists may outlive its library.
    let used: BTreeSet<&str> = crates.packages.values().map(|package| &*package.licence).collect();
    let idle: Vec<&&str> = known.iter().filter(|licence| !used.contains(**licence)).collect();
    assert!(idle.is_empty(), "no library is under {idle:?} any more");

    assert_eq!(faults([("stranger", "GPL-3.0-only")].into_iter(), &AS_OURS, &text).len(), 1);
    assert_eq!(faults([("stranger", "ISC")].into_iter(), &AS_OURS, &text).len(), 1);
    assert!(faults([("stranger", "MIT"), ("inotify", "ISC")].into_iter(), &AS_OURS, &text).is_empty());
}

/// Names that occur in several versions.
fn several<'a>(packages: impl Iterator<Item = (&'a str, &'a str)>) -> BTreeSet<&'a str> {
    let mut versions: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    packages.for_each(|(name, version)| {
        versions.entry(name).or_default().insert(version);
    });
    versions.into_iter().filter(|(_, versions)| versions.len() > 1).map(|(name, _)| name).collect()
}

#[test]
fn no_library_is_there_twice_without_a_reason() {
    let crates = Crates::told();
    let found = several(crates.packages.values().map(|package| (&*package.name, &*package.version)));
    let borne: BTreeSet<&str> = TWICE.iter().map(|(name, _)| *name).collect();
    assert_eq!(found, borne, "several versions of a library: on the left those there are, on the right those with a reason");
    assert!(TWICE.iter().all(|(_, why)| why.split(' ').count() > 4));
    // In the program itself there is one alone.
    let passed_on = crates.passed_on();
    assert_eq!(several(passed_on.iter().map(|package| (&*package.name, &*package.version))), BTreeSet::from(["miniz_oxide"]));
    assert_eq!(several([("one", "1.0"), ("two", "1.0"), ("one", "2.0")].into_iter()), BTreeSet::from(["one"]));
}
