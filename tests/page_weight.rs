//! What a page weighs: a procedure's HTML, style and script together, as sent and not packed, its drawings apart; and the
//! search index of a hundred procedures.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test writes the manual that it publishes and weighs the site")]

#[path = "../examples/make_manual/generate/mod.rs"]
mod generate;

use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

/// What a procedure's page may weigh, in bytes.
const PAGE: usize = 60_000;
/// What the search index of a hundred procedures may weigh, in bytes.
const INDEX: usize = 100_000;

fn published(manual: &Path) -> TempDir {
    let folder = TempDir::new().unwrap();
    let program = Path::new(env!("CARGO_BIN_EXE_benchleaf"));
    let run = Command::new(program).arg("bind").arg(manual).arg("--into").arg(folder.path().join("site")).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stdout));
    folder
}

fn size(site: &Path, file: &str) -> usize {
    usize::try_from(fs::metadata(site.join(file)).unwrap().len()).unwrap()
}

/// HTML without its inline drawings.
fn without_drawings(html: &str) -> usize {
    html.split("<svg").enumerate().map(|(index, part)| if index == 0 { part.len() } else { part.split_once("</svg>").map_or(0, |(_, rest)| rest.len()) }).sum()
}

/// The pages of procedures: they alone have steps. Each with its weight.
fn weights(site: &Path) -> Vec<(String, usize)> {
    let shared = size(site, "page.css") + size(site, "page.js");
    let machines = fs::read_dir(site).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir());
    let pages = machines.flat_map(|folder| fs::read_dir(folder).unwrap()).map(|entry| entry.unwrap().path());
    let pages = pages.filter(|path| path.extension().is_some_and(|ending| ending == "html"));
    let mut found: Vec<(String, usize)> = pages
        .filter_map(|path| {
            let html = fs::read_to_string(&path).unwrap();
            let name = path.strip_prefix(site).unwrap().display().to_string();
            html.contains("<body class=\"procedure").then(|| (name, without_drawings(&html) + shared))
        })
        .collect();
    found.sort();
    found
}

fn within_the_budget(site: &Path, least: usize) {
    let weights = weights(site);
    assert!(weights.len() >= least, "only {} procedures were weighed", weights.len());
    let heavy: Vec<_> = weights.iter().filter(|(_, weight)| *weight > PAGE).collect();
    assert!(heavy.is_empty(), "heavier than {PAGE} bytes: {heavy:?}");
}

#[test]
fn every_procedure_of_the_demo_is_light() {
    let folder = published(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"));
    within_the_budget(&folder.path().join("site"), 6);
}

#[test]
fn a_hundred_ordinary_procedures_are_light_and_so_is_their_index() {
    let manual = TempDir::new().unwrap();
    for (path, text) in &generate::manual(100, 1) {
        let path = manual.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    let folder = published(manual.path());
    let site = folder.path().join("site");
    within_the_budget(&site, 100);
    let index = size(&site, "search-index.js");
    assert!(index < INDEX, "the index of a hundred procedures weighs {index} bytes");
    assert!(index > 20_000, "the index holds too little to be one: {index} bytes");
}

#[test]
fn drawings_are_left_out_of_the_weight_and_nothing_else() {
    assert_eq!(without_drawings("ab<svg x><g/></svg>cd<svg></svg>e"), 5);
    assert_eq!(without_drawings("no drawing"), 10);
}
