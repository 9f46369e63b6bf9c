//! A manual, its site, and the site as a full run leaves it.

use crate::edit::{Against, Options, PLAIN};
use crate::photograph_sample::{self, Beside, Kind, scene};
use benchleaf::command::{Arguments, Memory, World, run};
use benchleaf::finding::Look;
use benchleaf::manual::Date;
use clap::Parser;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What was left for the next run.
pub(crate) const KEPT: &str = ".benchleaf-kept";

/// Every file below a folder by its path.
pub(crate) fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(here) = waiting.pop() {
        for entry in fs::read_dir(&here).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                all.insert(path.strip_prefix(folder).unwrap().to_str().unwrap().to_owned(), fs::read(&path).unwrap());
            }
        }
    }
    all
}

pub(crate) fn put(folder: &Path, path: &str, bytes: &[u8]) {
    let target = folder.join(path);
    fs::create_dir_all(target.parent().unwrap()).unwrap();
    fs::write(target, bytes).unwrap();
}

pub(crate) fn picked<T>(all: &[T], number: usize) -> Option<&T> {
    if all.is_empty() { None } else { all.get(number % all.len()) }
}

/// The demo has drawings alone.
pub(crate) const PHOTOGRAPH: &str = "hb-2/pictures/deck.jpg";

pub(crate) fn photograph(width: u32) -> Vec<u8> {
    photograph_sample::file(&scene(width, 200), Kind::Jpeg, &Beside::default())
}

/// A manual, its site, and the site as a full run leaves it.
pub(crate) struct Trial {
    pub(crate) folder: TempDir,
    pub(crate) original: BTreeMap<String, Vec<u8>>,
    pub(crate) program: u8,
}

impl Trial {
    pub(crate) fn new() -> Self {
        let folder = TempDir::new().unwrap();
        let mut original = files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures"));
        // So that most edits are published.
        let manual = String::from_utf8(original["manual.yaml"].clone()).unwrap();
        let profile = manual.lines().find(|line| line.starts_with("profile:")).unwrap().to_owned();
        original.insert("manual.yaml".to_owned(), manual.replace(&profile, "profile: working").into_bytes());
        original.insert(PHOTOGRAPH.to_owned(), photograph(300));
        let shown = original.get_mut("hb-2/housing-and-cups.md").unwrap();
        shown.extend_from_slice(b"\n![The winch with its deck plate, seen from the quay](pictures/deck.jpg)\n");
        let trial = Self { folder, original, program: 0 };
        trial.all_back();
        trial
    }

    pub(crate) fn manual(&self) -> PathBuf {
        self.folder.path().join("manual")
    }

    pub(crate) fn site(&self) -> PathBuf {
        self.folder.path().join("site")
    }

    pub(crate) fn all_back(&self) {
        let _ = fs::remove_dir_all(self.manual());
        for (path, bytes) in &self.original {
            put(&self.manual(), path, bytes);
        }
    }

    pub(crate) fn texts(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| [".md", "machine.yaml", ".json"].iter().any(|end| path.ends_with(end))).collect()
    }

    pub(crate) fn records(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| path.ends_with(".json")).collect()
    }

    pub(crate) fn procedures(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| path.ends_with(".md") && path.contains('/')).collect()
    }

    pub(crate) fn machines(&self) -> Vec<String> {
        let mut all: Vec<String> = self.procedures().iter().map(|path| path.split('/').next().unwrap().to_owned()).collect();
        all.dedup();
        all
    }

    /// Changes a text of the manual; what cannot be done is left.
    pub(crate) fn change(&self, path: &str, change: impl FnOnce(&str) -> Option<String>) {
        let old = String::from_utf8(fs::read(self.manual().join(path)).unwrap()).unwrap();
        if let Some(new) = change(&old) {
            fs::write(self.manual().join(path), new).unwrap();
        }
    }

    pub(crate) fn change_digit(&self, path: &str, at: usize, digit: u8) {
        self.change(path, |text| {
            let digits: Vec<usize> = text.bytes().enumerate().filter(|(_, byte)| byte.is_ascii_digit()).map(|(at, _)| at).collect();
            let at = *picked(&digits, at)?;
            Some(format!("{}{digit}{}", &text[..at], &text[at + 1..]))
        });
    }

    /// The folder of an earlier state; made where it is not there yet.
    fn earlier(&self, against: Against) -> PathBuf {
        let manual = self.folder.path().join(Against::Manual.folder());
        if !manual.exists() {
            self.original.iter().for_each(|(path, bytes)| put(&manual, path, bytes));
        }
        let folder = self.folder.path().join(against.folder());
        if !folder.exists() {
            self.bind_of(&manual, &folder, &PLAIN);
        }
        folder
    }

    /// Binds into a folder; tells how it ended and what it said, with the folder's name taken out.
    pub(crate) fn bind(&self, into: &Path, options: &Options) -> (u8, String) {
        self.bind_of(&self.manual(), into, options)
    }

    fn bind_of(&self, manual: &Path, into: &Path, options: &Options) -> (u8, String) {
        let program = self.folder.path().join("program");
        fs::write(&program, [b'v', self.program]).unwrap();
        let threads = options.threads.to_string();
        let mut words = vec!["benchleaf", "bind", manual.to_str().unwrap(), "--into", into.to_str().unwrap(), "--threads", &threads].into_iter().map(str::to_owned).collect::<Vec<_>>();
        words.extend(options.proof.then(|| "--proof-copy".to_owned()));
        words.extend(options.verify.then(|| "--verify".to_owned()));
        words.extend(options.today.then(|| "--today=2031-01-01".to_owned()));
        words.extend(options.against.map(|against| format!("--against={}", self.earlier(against).display())));
        let arguments = Arguments::try_parse_from(words).unwrap();
        let most = Memory::default();
        let memory = Memory { waiting: if options.held.0 { most.waiting } else { 0 }, looked_at: if options.held.1 { most.looked_at } else { 0 } };
        let world = World { folder: self.folder.path().to_owned(), look: Look::default(), processors: 2, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: Some(program), memory };
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let outcome = run(&arguments, &world, &mut out, &mut err).unwrap();
        let said = format!("{}{}", String::from_utf8_lossy(&out), String::from_utf8_lossy(&err));
        (outcome.code(), said.replace(into.to_str().unwrap(), "SITE"))
    }

    /// Binds again, and the same from nothing that was left; both must agree.
    pub(crate) fn compare(&self, options: &Options) {
        let full = self.folder.path().join("full");
        let _ = fs::remove_dir_all(&full);
        for (path, bytes) in files(&self.site()).into_iter().filter(|(path, _)| !path.starts_with(KEPT)) {
            put(&full, &path, &bytes);
        }
        // A full run holds every machine until all were looked at.
        let (wanted, wanted_words) = self.bind(&full, &Options { held: PLAIN.held, ..options.clone() });
        let (code, words) = self.bind(&self.site(), options);
        assert_eq!(words, wanted_words);
        assert_eq!(code, wanted);
        let published = |folder: &Path| files(folder).into_iter().filter(|(path, _)| !path.starts_with(KEPT)).collect::<BTreeMap<_, _>>();
        let (is, should) = (published(&self.site()), published(&full));
        let different: Vec<&String> = is.keys().chain(should.keys()).filter(|path| is.get(*path) != should.get(*path)).collect();
        assert!(different.is_empty(), "these files are not what a full run publishes: {different:?}");
    }

    /// Binds again with `--why`; what it says, line by line.
    pub(crate) fn why(&self) -> Vec<String> {
        let program = self.folder.path().join("program");
        let arguments = ["benchleaf", "bind", self.manual().to_str().unwrap(), "--into", self.site().to_str().unwrap(), "--why"].map(str::to_owned);
        let world = World { folder: self.folder.path().to_owned(), look: Look::default(), processors: 2, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: Some(program), memory: Memory::default() };
        let (mut out, mut err) = (Vec::new(), Vec::new());
        run(&Arguments::try_parse_from(arguments).unwrap(), &world, &mut out, &mut err).unwrap();
        String::from_utf8(out).unwrap().replace(self.site().to_str().unwrap(), "SITE").lines().map(str::to_owned).collect()
    }
}
