//! The program is one file: copied alone to where nothing else is, it starts a manual, publishes one and tells of itself.

#![expect(clippy::unwrap_used, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test copies the program and a manual")]

mod demo;

use demo::{Demo, files};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// The program, alone in a folder.
struct Alone {
    folder: TempDir,
    program: PathBuf,
}

impl Alone {
    fn new() -> Self {
        let folder = TempDir::new().unwrap();
        let program = folder.path().join("program");
        fs::copy(env!("CARGO_BIN_EXE_benchleaf"), &program).unwrap();
        Self { folder, program }
    }

    /// Runs it without anything of this machine's surroundings.
    fn run(&self, arguments: &[&str]) -> Output {
        Command::new(&self.program).args(arguments).current_dir(self.folder.path()).env_clear().output().unwrap()
    }

    fn said(&self, arguments: &[&str]) -> String {
        let run = self.run(arguments);
        assert!(run.status.success(), "{arguments:?}: {}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
        String::from_utf8(run.stdout).unwrap()
    }
}

#[test]
fn a_manual_is_published_with_pages_styles_and_words_from_within() {
    let (alone, manual) = (Alone::new(), Demo::copy());
    alone.said(&["bind", manual.path().to_str().unwrap(), "--into", "site"]);
    let site = alone.folder.path().join("site");
    let page = fs::read_to_string(site.join("tarn-18/close-gearcase.html")).unwrap();
    assert!(page.contains("Before you start"), "the words are missing");
    for asset in ["page.css", "page.js", "sheet.css", "sheet.js", "mark.svg"] {
        assert!(fs::metadata(site.join(asset)).unwrap().len() > 100, "{asset}");
    }
    // What was published is what the repository's own themes make: nothing of it came from a folder at hand.
    let here = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("site/page.css")).unwrap();
    assert_eq!(fs::read_to_string(site.join("page.css")).unwrap(), here);
}

#[test]
fn it_begins_a_manual_and_explains_itself() {
    let alone = Alone::new();
    alone.said(&["draft", "manual", "Our manual"]);
    assert!(alone.folder.path().join("procedures/manual.yaml").exists());
    assert!(alone.said(&["explain"]).lines().count() > 200);
    assert!(alone.said(&["man"]).contains("benchleaf"));
    assert!(alone.said(&["schema", "procedure"]).contains("json-schema.org"));
}

#[test]
fn no_source_of_the_program_knows_where_it_was_built() {
    let sources = files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    assert!(sources.len() > 100);
    // A folder by this name is read when the program runs, or goes into it: both are wrong but in tests.
    let knowing: Vec<&PathBuf> = sources.iter().filter(|path| fs::read_to_string(path).unwrap().contains("CARGO_MANIFEST_DIR")).collect();
    assert!(knowing.is_empty(), "{knowing:?}");
}
