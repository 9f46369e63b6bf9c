//! A manual that grows too large to be one book, and shrinks again, between two runs: machines that nobody touched must be
//! made anew then, as each contributes its chapters only where there is a book of all.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes real folders")]

use benchleaf::page::is_printable;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// What was left for the next run.
const KEPT: &str = ".benchleaf-kept";

fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(here) = waiting.pop() {
        for entry in fs::read_dir(&here).unwrap() {
            let path = entry.unwrap().path();
            if !path.is_dir() {
                all.insert(path.strip_prefix(folder).unwrap().to_path_buf(), fs::read(&path).unwrap());
            } else if !path.ends_with(KEPT) {
                waiting.push(path);
            }
        }
    }
    all
}

fn procedure(number: usize) -> String {
    format!("---\ntitle: Look {number}\nrevision: 1\ndate: 2026-09-14\n---\n\n## Look {{#look}}\n\nLook at it.\n")
}

struct Trial {
    folder: TempDir,
}

impl Trial {
    /// Two machines: one with a single procedure, one with as many as a book of all still takes beside it.
    fn new() -> Self {
        let trial = Self { folder: TempDir::new().unwrap() };
        trial.put("manual.yaml", "title: Small steps\npublisher: Example club (invented)\nprofile: working\n");
        let most = (1..).take_while(|number| is_printable(*number)).last().unwrap();
        for (machine, count) in [("fell", most - 1), ("tarn", 1)] {
            trial.put(&format!("{machine}/machine.yaml"), &format!("name: {machine}\nmaker: Example works (invented)\nrevision: 1\ndate: 2026-09-14\n"));
            (0..count).for_each(|number| trial.put(&format!("{machine}/look-{number}.md"), &procedure(number)));
        }
        trial
    }

    fn put(&self, path: &str, text: &str) {
        let path = self.folder.path().join("manual").join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// Publishes into a folder; tells why it wrote what, and what stands there then.
    fn bind(&self, into: &str) -> (String, BTreeMap<PathBuf, Vec<u8>>) {
        let site = self.folder.path().join(into);
        let run = Command::new(env!("CARGO_BIN_EXE_benchleaf"))
            .arg("bind")
            .arg(self.folder.path().join("manual"))
            .args([Path::new("--into"), &site, Path::new("--why")])
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&run.stdout).into_owned();
        assert!(run.status.success(), "{said}{}", String::from_utf8_lossy(&run.stderr));
        (said, files(&site))
    }
}

#[test]
fn a_manual_that_becomes_too_large_for_a_book_and_small_again_is_what_a_full_run_makes_of_it() {
    let trial = Trial::new();
    let (_, small) = trial.bind("site");
    assert!(small.contains_key(Path::new("book.html")));
    let (said, again) = trial.bind("site");
    assert!(said.contains("fell: kept") && again == small, "{said}");

    trial.put("tarn/one-more.md", &procedure(999));
    let (said, large) = trial.bind("site");
    assert!(!large.contains_key(Path::new("book.html")));
    assert!(said.contains("fell: made anew, because the whole manual became a book, or too large for one"), "{said}");
    assert!(large == trial.bind("full").1, "another site than a full run makes");

    fs::remove_file(trial.folder.path().join("manual/tarn/one-more.md")).unwrap();
    let (_, back) = trial.bind("site");
    assert!(back == small, "another site than a full run made");
}
