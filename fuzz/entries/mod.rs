//! The ways in which foreign bytes come into the program. Each function takes any bytes, does with them what the program
//! does, and panics where something is wrong with what comes out: the targets of `fuzz/` and `tests/hostile.rs` share them.

#![allow(dead_code, reason = "each target uses its own")]
#![allow(unreachable_pub, reason = "two packages have this as a module of their own")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::disallowed_methods, reason = "what fails here fails its test")]

pub mod inert;

use benchleaf::draft::read_torques;
use benchleaf::figure::{Picture, renditions};
use benchleaf::finding::{FileTable, Finding, Ground, Look, json, sarif, text};
use benchleaf::inspect::{Terms, inspect, rules};
use benchleaf::manual::lower;
use benchleaf::page::{Input, publish};
use benchleaf::quantity::{Dimension, Quantity, find_in_prose};
use benchleaf::recording::{Speech, beginnings, heard, read_captions};
use benchleaf::source::{read, read_picture, read_record};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// Dimensions that fields ask for.
const WANTED: [Dimension; 5] = [Dimension::Torque, Dimension::Length, Dimension::Temperature, Dimension::Time, Dimension::Volume];

/// A quantity, as a field of each dimension and as prose.
pub fn quantity(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for dimension in WANTED {
        if let Ok(quantity) = Quantity::parse(&text, dimension) {
            assert_eq!(quantity.dimension(), dimension);
            if let (Some(low), Some(high)) = quantity.low_high() {
                assert!(low <= high, "{text:?}: {low} to {high}");
            }
            // What is shown of it is the same quantity again.
            let again = Quantity::parse(quantity.written(), dimension).expect("what is written");
            assert!(again.same_value(&quantity), "{text:?}");
        }
    }
    if let Ok(quantity) = Quantity::parse_free(&text) {
        assert!(!quantity.spoken().is_empty());
    }
    let mut end = 0;
    for found in find_in_prose(&text) {
        assert!(found.start >= end && text.get(found.clone()).is_some_and(|words| !words.is_empty()), "{text:?}");
        end = found.end;
    }
}

const MANUAL: &str = "title: Trial\npublisher: Trial Society (invented)\nlanguage: en-GB\nprofile: working\n";
const MACHINE: &str = "name: Tarn\nmaker: Orrinshaw (invented)\nkind: outboard motor\nrevision: 1\ndate: 2026-09-14\nvariants: {shaft: {S: 381 mm, L: 508 mm}}\n";
const HEAD: &str = "---\ntitle: The hub\nrevision: 1\ndate: 2026-09-14\n---\n";

/// A small manual in a scratch folder, with files of one's own in it.
pub fn small(files: &[(&str, &[u8])]) -> TempDir {
    let folder = TempDir::new().unwrap();
    let own = [("manual.yaml", MANUAL.as_bytes()), ("tarn/machine.yaml", MACHINE.as_bytes())];
    for (name, bytes) in own.iter().chain(files) {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

/// The whole of a procedure's file: front matter and body.
pub fn procedure(bytes: &[u8]) {
    manual(small(&[("tarn/hub.md", bytes)]).path());
}

/// A front matter with a sound body behind it.
pub fn front_matter(bytes: &[u8]) {
    let file = [b"---\n", bytes, b"\n---\n\n## Look at it {#look}\n\n[Look](measure:gap) at it.\n"].concat();
    manual(small(&[("tarn/hub.md", &file)]).path());
}

/// A body behind a sound front matter.
pub fn body(bytes: &[u8]) {
    manual(small(&[("tarn/hub.md", &[HEAD.as_bytes(), bytes].concat())]).path());
}

/// The files that are YAML alone.
pub fn yaml(bytes: &[u8]) {
    let page = format!("{HEAD}\n## Look at it {{#look}}\n\nLook.\n");
    for name in ["manual.yaml", "shop.yaml", "tarn/machine.yaml"] {
        manual(small(&[("tarn/hub.md", page.as_bytes()), (name, bytes)]).path());
    }
}

/// A build record, by itself and in a manual.
pub fn record(bytes: &[u8]) {
    let page = format!("{HEAD}\n## Look at it {{#look}}\n\nLook.\n");
    let folder = small(&[("tarn/hub.md", page.as_bytes()), ("tarn/builds/one.json", bytes)]);
    let (_, files, findings) = read_record(&folder.path().join("tarn/builds/one.json"));
    findings.iter().for_each(|finding| sound(finding, &files));
    manual(folder.path());
}

/// A picture under a name that ends in `jpg`, `png`, `webp` or `svg`.
pub fn picture(ending: &str, bytes: &[u8]) {
    let page = format!("{HEAD}\n## Look at it {{#look}}\n\nLook.\n\n![The hub from above](pictures/hub.{ending})\n");
    manual(small(&[("tarn/hub.md", page.as_bytes()), (&format!("tarn/pictures/hub.{ending}"), bytes)]).path());
}

/// Captions of a recording, of any of the three kinds.
pub fn captions(bytes: &[u8]) {
    if let Ok(captions) = read_captions(bytes) {
        let speech = Speech::of(&captions);
        assert!(speech.captions() <= captions.cues.len());
        for value in heard(&speech) {
            assert!(!value.said.is_empty());
        }
        let _ = beginnings(&speech);
    }
}

/// A table of torques out of a spreadsheet.
pub fn table(bytes: &[u8]) {
    if let Ok(table) = read_torques(bytes, "torques.csv") {
        assert!(table.len() <= bytes.len(), "more rows than there are bytes");
    }
}

/// A manual from its folder to its pages: findings that can be shown in every form, and a proof copy of it whose pages
/// are sound and do nothing.
pub fn manual(folder: &Path) {
    let Ok((mut sources, mut findings)) = read(folder) else { return };
    let (manual, more) = lower(&sources);
    findings.extend(more);
    let report = inspect(&manual, &sources, findings, &Terms::default());
    report.findings.iter().chain(&report.waived).for_each(|finding| sound(finding, &sources.files));
    let words = text(&report.findings, &sources.files, Look::default());
    assert!(words.ends_with('\n') && !words.contains(commands), "{words:?}");
    json(&report.findings, &sources.files).expect("JSON");
    sarif(&report.findings, &sources.files, &rules(), &Ground::Manual).expect("SARIF");

    let shown = manual.shown_pictures();
    let shown = sources.pictures.iter().filter(|(path, _)| shown.contains(*path)).map(|(path, picture)| (path.clone(), picture.clone())).collect();
    let (pictures, faults) = renditions(&shown, &|path| read_picture(&sources, path), &|_| false, 1);
    faults.iter().for_each(|fault| assert!(!fault.finding(&mut sources.files).message().is_empty()));
    pages(&Input {
        manual: &manual,
        files: &sources.files,
        pictures: &pictures,
        findings: &report.findings,
        waived: &report.waived,
        proof_copy: true,
        theme: &BTreeMap::new(),
        threads: 1,
    });
    for rendition in pictures.into_values().flat_map(Picture::into_renditions) {
        if rendition.path.to_lowercase().ends_with(".svg") {
            let bytes = rendition.bytes.unwrap_or_default();
            let faults = inert::drawing(&bytes);
            assert!(faults.is_empty(), "{faults:#?} in {}", String::from_utf8_lossy(&bytes));
        }
    }
}

fn pages(input: &Input<'_>) {
    // Names that clash are told, as they must be; nothing is published then.
    let Ok(files) = publish(input) else { return };
    for file in files {
        assert!(!file.path.starts_with('/') && !file.path.split('/').any(|part| part == ".."), "{}", file.path);
        if file.path.ends_with(".html") {
            let faults = inert::page(&file.bytes);
            assert!(faults.is_empty(), "{}: {faults:#?}", file.path);
        }
    }
}

/// Whether a character drives a terminal or turns the words around it.
fn commands(c: char) -> bool {
    (c.is_control() && c != '\n') || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A finding can be shown: its places lie in their files, and it says something.
fn sound(finding: &Finding, files: &FileTable) {
    for place in finding.related_places().iter().map(|(place, _)| place).chain([finding.place()]) {
        assert!(files.text(place.file).get(place.start..place.end).is_some(), "{finding:#?}");
    }
    assert!(!finding.message().is_empty() && !finding.fix_text().is_empty(), "{finding:#?}");
}
