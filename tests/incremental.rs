//! Binding again gives what binding from nothing gives: after any edits of the manual, of what is published and of what was
//! left for the next run, the site, the report and the count of files written are those of a full run, to the byte.
//!
//! `BENCHLEAF_CASES` sets how many rows of edits are tried.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes real folders")]

mod photograph_sample;

use benchleaf::command::{Arguments, World, run};
use benchleaf::finding::Look;
use benchleaf::manual::Date;
use clap::Parser;
use photograph_sample::{Beside, Kind, scene};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What was left for the next run.
const KEPT: &str = ".benchleaf-kept";

/// One thing that happens between two runs. Numbers choose among what is there.
#[derive(Clone, Debug)]
enum Edit {
    /// A digit of a file becomes another.
    Digit(usize, usize, u8),
    /// A word of the text becomes another.
    Word(usize, usize),
    /// A line goes.
    LineGone(usize, usize),
    /// A step's heading is worded anew, its id with it or not.
    Heading(usize, usize, bool),
    /// A file is put back as it was in the beginning.
    Back(usize),
    /// Everything is.
    AllBack,
    /// A procedure's file gets another name.
    Renamed(usize),
    /// A procedure goes.
    Gone(usize),
    /// A procedure is there twice.
    Twice(usize),
    /// A machine goes.
    MachineGone(usize),
    /// A machine is there twice.
    MachineTwice(usize),
    /// A link to another machine's step.
    Link(usize, usize),
    /// An act that nobody knows.
    Fault(usize),
    /// A drawing changes.
    Picture(usize),
    /// The photograph is another one, is cut short, or goes.
    Photograph(u8),
    /// A theme of one's own, or none.
    Theme(u8),
    /// A value that all machines share.
    Shared(usize, u8),
    /// A published file is changed without changing its size.
    Scribbled(usize),
    /// A published file is cut short.
    Cut(usize),
    /// A published file goes.
    Lost(usize),
    /// What was left for the next run is damaged.
    KeptDamaged(usize, usize),
    /// What was left for the next run goes.
    KeptGone,
    /// Somebody else's file lies in the site.
    Foreign(u8),
    /// A build record goes.
    RecordGone(usize),
    /// A build record is there twice.
    RecordTwice(usize),
    /// A build record says that it is of another machine, which may be there or not.
    RecordOf(usize, u8),
    /// The manual has an address, so that it has a feed and a list of its pages; or none.
    Address(bool),
    /// Another version of the program.
    Program(u8),
}

/// How a run is started.
#[derive(Clone, Debug)]
struct Options {
    proof: bool,
    today: bool,
    threads: u8,
    verify: bool,
    against: Option<Against>,
}

/// What the values are compared with, but for what was published last.
#[derive(Clone, Copy, Debug)]
enum Against {
    /// The manual as it was in the beginning.
    Manual,
    /// The same as it was published.
    Site,
}

impl Against {
    fn folder(self) -> &'static str {
        if matches!(self, Self::Manual) { "before" } else { "before-site" }
    }
}

fn edit() -> impl Strategy<Value = Edit> {
    let n = || 0usize..10_000;
    prop_oneof![
        4 => (n(), n(), 0u8..10).prop_map(|(f, at, d)| Edit::Digit(f, at, d)),
        4 => (n(), n()).prop_map(|(f, at)| Edit::Word(f, at)),
        2 => (n(), n()).prop_map(|(f, at)| Edit::LineGone(f, at)),
        2 => (n(), n(), any::<bool>()).prop_map(|(f, at, id)| Edit::Heading(f, at, id)),
        3 => n().prop_map(Edit::Back),
        2 => Just(Edit::AllBack),
        1 => n().prop_map(Edit::Renamed),
        1 => n().prop_map(Edit::Gone),
        1 => n().prop_map(Edit::Twice),
        1 => n().prop_map(Edit::MachineGone),
        1 => n().prop_map(Edit::MachineTwice),
        3 => (n(), n()).prop_map(|(f, to)| Edit::Link(f, to)),
        1 => n().prop_map(Edit::Fault),
        1 => n().prop_map(Edit::Picture),
        1 => (0u8..4).prop_map(Edit::Photograph),
        1 => (0u8..3).prop_map(Edit::Theme),
        1 => (n(), 0u8..10).prop_map(|(at, d)| Edit::Shared(at, d)),
        2 => n().prop_map(Edit::Scribbled),
        1 => n().prop_map(Edit::Cut),
        1 => n().prop_map(Edit::Lost),
        2 => (n(), n()).prop_map(|(f, at)| Edit::KeptDamaged(f, at)),
        1 => Just(Edit::KeptGone),
        1 => (0u8..3).prop_map(Edit::Foreign),
        1 => n().prop_map(Edit::RecordGone),
        1 => n().prop_map(Edit::RecordTwice),
        1 => (n(), 0u8..4).prop_map(|(record, of)| Edit::RecordOf(record, of)),
        2 => any::<bool>().prop_map(Edit::Address),
        1 => (0u8..3).prop_map(Edit::Program),
    ]
}

fn options() -> impl Strategy<Value = Options> {
    let against = prop::option::weighted(0.2, prop_oneof![Just(Against::Manual), Just(Against::Site)]);
    (prop::bool::weighted(0.4), prop::bool::weighted(0.1), 1u8..4, prop::bool::weighted(0.1), against)
        .prop_map(|(proof, today, threads, verify, against)| Options { proof, today, threads, verify, against })
}

/// Every file below a folder by its path.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
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

fn put(folder: &Path, path: &str, bytes: &[u8]) {
    let target = folder.join(path);
    fs::create_dir_all(target.parent().unwrap()).unwrap();
    fs::write(target, bytes).unwrap();
}

fn picked<T>(all: &[T], number: usize) -> Option<&T> {
    if all.is_empty() { None } else { all.get(number % all.len()) }
}

/// The demo has drawings alone.
const PHOTOGRAPH: &str = "hb-2/pictures/deck.jpg";

fn photograph(width: u32) -> Vec<u8> {
    photograph_sample::file(&scene(width, 200), Kind::Jpeg, &Beside::default())
}

/// A manual, its site, and the site as a full run leaves it.
struct Trial {
    folder: TempDir,
    original: BTreeMap<String, Vec<u8>>,
    program: u8,
}

impl Trial {
    fn new() -> Self {
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

    fn manual(&self) -> PathBuf {
        self.folder.path().join("manual")
    }

    fn site(&self) -> PathBuf {
        self.folder.path().join("site")
    }

    fn all_back(&self) {
        let _ = fs::remove_dir_all(self.manual());
        for (path, bytes) in &self.original {
            put(&self.manual(), path, bytes);
        }
    }

    fn texts(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| [".md", "machine.yaml", ".json"].iter().any(|end| path.ends_with(end))).collect()
    }

    fn records(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| path.ends_with(".json")).collect()
    }

    fn procedures(&self) -> Vec<String> {
        files(&self.manual()).into_keys().filter(|path| path.ends_with(".md") && path.contains('/')).collect()
    }

    fn machines(&self) -> Vec<String> {
        let mut all: Vec<String> = self.procedures().iter().map(|path| path.split('/').next().unwrap().to_owned()).collect();
        all.dedup();
        all
    }

    /// Changes a text of the manual; what cannot be done is left.
    fn change(&self, path: &str, change: impl FnOnce(&str) -> Option<String>) {
        let old = String::from_utf8(fs::read(self.manual().join(path)).unwrap()).unwrap();
        if let Some(new) = change(&old) {
            fs::write(self.manual().join(path), new).unwrap();
        }
    }

    fn change_digit(&self, path: &str, at: usize, digit: u8) {
        self.change(path, |text| {
            let digits: Vec<usize> = text.bytes().enumerate().filter(|(_, byte)| byte.is_ascii_digit()).map(|(at, _)| at).collect();
            let at = *picked(&digits, at)?;
            Some(format!("{}{digit}{}", &text[..at], &text[at + 1..]))
        });
    }

    fn do_one(&mut self, edit: &Edit) {
        match edit {
            Edit::Digit(file, at, digit) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change_digit(path, *at, *digit);
                }
            }
            Edit::Shared(at, digit) => self.change_digit("shop.yaml", *at, *digit),
            Edit::Word(file, at) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change(path, |text| {
                        let found: Vec<usize> = text.match_indices(" the ").map(|(at, _)| at).collect();
                        let at = *picked(&found, *at)?;
                        Some(format!("{} that {}", &text[..at], &text[at + 5..]))
                    });
                }
            }
            Edit::LineGone(file, at) => {
                if let Some(path) = picked(&self.texts(), *file) {
                    self.change(path, |text| {
                        let lines: Vec<&str> = text.lines().collect();
                        let gone = at % lines.len().max(1);
                        Some(lines.iter().enumerate().filter(|(index, _)| *index != gone).map(|(_, line)| format!("{line}\n")).collect())
                    });
                }
            }
            Edit::Heading(file, at, id) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    self.change(path, |text| {
                        let heads: Vec<&str> = text.lines().filter(|line| line.starts_with("## ")).collect();
                        let head = *picked(&heads, *at)?;
                        let new = if *id { head.replacen("{#", "{#x", 1) } else { head.replacen("## ", "## Now: ", 1) };
                        Some(text.replacen(head, &new, 1))
                    });
                }
            }
            Edit::Back(file) => {
                let all: Vec<(&String, &Vec<u8>)> = self.original.iter().collect();
                if let Some((path, bytes)) = picked(&all, *file) {
                    put(&self.manual(), path, bytes);
                }
            }
            Edit::AllBack => self.all_back(),
            Edit::Renamed(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::rename(self.manual().join(path), self.manual().join(path.replace(".md", "-b.md"))).unwrap();
                }
            }
            Edit::Gone(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::remove_file(self.manual().join(path)).unwrap();
                }
            }
            Edit::Twice(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    fs::copy(self.manual().join(path), self.manual().join(path.replace(".md", "-c.md"))).unwrap();
                }
            }
            Edit::MachineGone(machine) => {
                if let Some(machine) = picked(&self.machines(), *machine) {
                    fs::remove_dir_all(self.manual().join(machine)).unwrap();
                }
            }
            Edit::MachineTwice(machine) => {
                if let Some(machine) = picked(&self.machines(), *machine).filter(|_| self.machines().len() < 4) {
                    for (path, bytes) in files(&self.manual().join(machine)) {
                        put(&self.manual(), &format!("{machine}-b/{path}"), &bytes);
                    }
                }
            }
            Edit::Link(file, to) => {
                let (from, to) = (picked(&self.procedures(), *file).cloned(), picked(&self.procedures(), *to).cloned());
                if let (Some(from), Some(to)) = (from, to) {
                    let target = fs::read_to_string(self.manual().join(&to)).unwrap();
                    let step = target.split("{#").nth(1).and_then(|rest| rest.split([' ', '}']).next()).unwrap_or("none").to_owned();
                    self.change(&from, |text| Some(format!("{text}\nMore stands in [the other]({}).\n", format_args!("see:{}#{step}", to.trim_end_matches(".md")))));
                }
            }
            Edit::Fault(file) => {
                if let Some(path) = picked(&self.procedures(), *file) {
                    self.change(path, |text| Some(text.replacen("(torque:", "(torque:no-such-", 1)));
                }
            }
            Edit::Picture(file) => {
                let pictures: Vec<String> = files(&self.manual()).into_keys().filter(|path| path.ends_with(".svg")).collect();
                if let Some(path) = picked(&pictures, *file) {
                    self.change(path, |text| Some(text.replacen("</svg>", "<!-- again --></svg>", 1)));
                }
            }
            Edit::Photograph(kind) => {
                let good = photograph(300 + 10 * u32::from(*kind));
                match kind {
                    0 => drop(fs::remove_file(self.manual().join(PHOTOGRAPH))),
                    1 => put(&self.manual(), PHOTOGRAPH, &good[..good.len() / 2]),
                    _ => put(&self.manual(), PHOTOGRAPH, &good),
                }
            }
            Edit::Theme(kind) => {
                let with = |text: &str| format!("{}theme: look\n", text.replace("theme: look\n", ""));
                put(&self.manual(), "look/styles/page.css", format!("body {{ margin: {kind}px }}\n").as_bytes());
                if *kind == 0 {
                    fs::remove_dir_all(self.manual().join("look")).unwrap();
                    self.change("manual.yaml", |text| Some(text.replace("theme: look\n", "")));
                } else {
                    self.change("manual.yaml", |text| Some(with(text)));
                }
            }
            Edit::Scribbled(_) | Edit::Cut(_) | Edit::Lost(_) => self.damage(edit),
            Edit::KeptDamaged(file, at) => {
                let kept = self.site().join(KEPT);
                let names: Vec<String> = files(&kept).into_keys().collect();
                if let Some(name) = picked(&names, *file) {
                    let mut bytes = fs::read(kept.join(name)).unwrap();
                    let at = at % bytes.len().max(1);
                    if let Some(byte) = bytes.get_mut(at) {
                        *byte = byte.wrapping_add(1);
                    }
                    fs::write(kept.join(name), bytes).unwrap();
                }
            }
            Edit::KeptGone => drop(fs::remove_dir_all(self.site().join(KEPT))),
            Edit::Foreign(kind) => {
                if self.site().exists() {
                    put(&self.site(), &format!("tables/own-{kind}.txt"), b"mine");
                }
            }
            Edit::RecordGone(record) => {
                if let Some(path) = picked(&self.records(), *record) {
                    fs::remove_file(self.manual().join(path)).unwrap();
                }
            }
            Edit::RecordTwice(record) => {
                if let Some(path) = picked(&self.records(), *record) {
                    fs::copy(self.manual().join(path), self.manual().join(path.replace(".json", "-b.json"))).unwrap();
                }
            }
            Edit::RecordOf(record, of) => {
                let of = ["tarn-18", "hb-2", "hb-2-b", "nobodys"][usize::from(*of)];
                if let Some(path) = picked(&self.records(), *record) {
                    self.change(path, |text| {
                        let now = text.lines().find(|line| line.trim_start().starts_with("\"machine\":"))?;
                        Some(text.replacen(now, &format!(" \"machine\": \"{of}\","), 1))
                    });
                }
            }
            Edit::Address(has) => self.change("manual.yaml", |text| {
                let without: String = text.lines().filter(|line| !line.starts_with("address:")).map(|line| format!("{line}\n")).collect();
                Some(if *has { format!("{without}address: https://manual.example/bench\n") } else { without })
            }),
            Edit::Program(version) => self.program = *version,
        }
    }

    fn damage(&self, edit: &Edit) {
        let published: Vec<String> = files(&self.site()).into_keys().filter(|path| !path.contains(".benchleaf-") && !path.starts_with('.')).collect();
        let (Edit::Scribbled(file) | Edit::Cut(file) | Edit::Lost(file)) = edit else { return };
        let Some(path) = picked(&published, *file).map(|path| self.site().join(path)) else { return };
        let mut bytes = fs::read(&path).unwrap();
        match edit {
            Edit::Lost(_) => fs::remove_file(&path).unwrap(),
            Edit::Cut(_) => fs::write(&path, &bytes[..bytes.len() / 2]).unwrap(),
            _ => {
                if let Some(byte) = bytes.last_mut() {
                    *byte = if *byte == b' ' { b'\n' } else { b' ' };
                }
                fs::write(&path, bytes).unwrap();
            }
        }
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
    fn bind(&self, into: &Path, options: &Options) -> (u8, String) {
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
        let world = World { folder: self.folder.path().to_owned(), look: Look::default(), processors: 2, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: Some(program) };
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let outcome = run(&arguments, &world, &mut out, &mut err).unwrap();
        let said = format!("{}{}", String::from_utf8_lossy(&out), String::from_utf8_lossy(&err));
        (outcome.code(), said.replace(into.to_str().unwrap(), "SITE"))
    }

    /// Binds again, and the same from nothing that was left; both must agree.
    fn compare(&self, options: &Options) {
        let full = self.folder.path().join("full");
        let _ = fs::remove_dir_all(&full);
        for (path, bytes) in files(&self.site()).into_iter().filter(|(path, _)| !path.starts_with(KEPT)) {
            put(&full, &path, &bytes);
        }
        let (wanted, wanted_words) = self.bind(&full, options);
        let (code, words) = self.bind(&self.site(), options);
        assert_eq!(words, wanted_words);
        assert_eq!(code, wanted);
        let published = |folder: &Path| files(folder).into_iter().filter(|(path, _)| !path.starts_with(KEPT)).collect::<BTreeMap<_, _>>();
        let (is, should) = (published(&self.site()), published(&full));
        let different: Vec<&String> = is.keys().chain(should.keys()).filter(|path| is.get(*path) != should.get(*path)).collect();
        assert!(different.is_empty(), "these files are not what a full run publishes: {different:?}");
    }
}

#[test]
fn binding_again_gives_what_binding_from_nothing_gives() {
    let cases = std::env::var("BENCHLEAF_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(6);
    let config = Config { cases, max_shrink_iters: 40, failure_persistence: None, ..Config::default() };
    let between = prop::collection::vec(edit(), 0..3);
    let rows = prop::collection::vec((between, options()), 4..8);
    TestRunner::new(config)
        .run(&rows, |rows| {
            let mut trial = Trial::new();
            trial.compare(&PLAIN);
            for (edits, options) in &rows {
                for edit in edits {
                    trial.do_one(edit);
                }
                trial.compare(options);
            }
            Ok(())
        })
        .unwrap();
}

/// What `--why` says, line by line.
fn why(trial: &Trial) -> Vec<String> {
    let program = trial.folder.path().join("program");
    let arguments = ["benchleaf", "bind", trial.manual().to_str().unwrap(), "--into", trial.site().to_str().unwrap(), "--why"].map(str::to_owned);
    let world = World { folder: trial.folder.path().to_owned(), look: Look::default(), processors: 2, terminal: false, today: Date { year: 2026, month: 9, day: 14 }, program: Some(program) };
    let (mut out, mut err) = (Vec::new(), Vec::new());
    run(&Arguments::try_parse_from(arguments).unwrap(), &world, &mut out, &mut err).unwrap();
    String::from_utf8(out).unwrap().replace(trial.site().to_str().unwrap(), "SITE").lines().map(str::to_owned).collect()
}

const PLAIN: Options = Options { proof: false, today: false, threads: 2, verify: false, against: None };

#[test]
fn a_change_in_one_machine_leaves_the_other_alone_and_is_named() {
    let trial = Trial::new();
    trial.bind(&trial.site(), &PLAIN);
    trial.change("tarn-18/pinion-height-and-backlash.md", |text| Some(format!("{text}\nOne more word.\n")));
    let lines = why(&trial);
    assert!(lines.contains(&"hb-2: kept, because nothing behind it changed".to_owned()), "{lines:?}");
    assert!(lines.contains(&"tarn-18: made anew, because tarn-18/pinion-height-and-backlash.md changed".to_owned()), "{lines:?}");
    let written: Vec<&String> = lines.iter().filter(|line| line.contains(": written, because ")).collect();
    // The books hold the page, and the copy on a device lists all files.
    let beside = ["SITE/book.html:", "SITE/tarn-18/book.html:", "SITE/offline.js:"];
    let (beside, own): (Vec<&&String>, Vec<&&String>) = written.iter().partition(|line| beside.iter().any(|path| line.starts_with(path)));
    assert_eq!(beside.len(), 3, "{written:?}");
    assert!(!own.is_empty() && own.iter().all(|line| line.starts_with("SITE/tarn-18/pinion-height-and-backlash")), "{written:?}");
}

#[test]
fn a_link_to_another_machine_follows_what_that_machine_calls_its_steps() {
    let mut trial = Trial::new();
    let number = |of: &str| trial.procedures().iter().position(|path| path.starts_with(of)).unwrap();
    let (from, to) = (number("tarn-18/"), number("hb-2/"));
    trial.do_one(&Edit::Link(from, to));
    trial.compare(&PLAIN);
    // A word in the other machine's text changes nothing here; the name of its step does.
    trial.do_one(&Edit::Word(to, 0));
    trial.bind(&trial.site(), &PLAIN);
    assert!(why(&trial).contains(&"tarn-18: kept, because nothing behind it changed".to_owned()));
    trial.do_one(&Edit::Heading(to, 0, true));
    let full = trial.bind(&trial.folder.path().join("other"), &PLAIN);
    assert_eq!(full.0, 1, "the link leads nowhere now: {}", full.1);
    assert_eq!(trial.bind(&trial.site(), &PLAIN).0, 1);
}

#[test]
fn a_record_that_lies_with_the_wrong_machine_hears_of_machines_that_come_and_go() {
    let mut trial = Trial::new();
    trial.do_one(&Edit::RecordOf(0, 2));
    assert!(trial.records()[0].starts_with("hb-2/"));
    let (_, said) = trial.bind(&trial.site(), &PLAIN);
    assert!(said.contains("move it to its machine's builds/"), "{said}");
    trial.do_one(&Edit::MachineTwice(0));
    let (_, said) = trial.bind(&trial.site(), &PLAIN);
    assert!(said.contains("move it to hb-2-b/builds/"), "{said}");
    trial.compare(&PLAIN);
}

#[test]
fn a_shared_value_is_written_where_it_is_shown_and_nowhere_else() {
    let trial = Trial::new();
    trial.bind(&trial.site(), &PLAIN);
    let before = files(&trial.site());
    // The name of a person who is on some pages only.
    trial.change("shop.yaml", |text| Some(text.replacen("Second reader", "Other reader", 1)));
    let (_, said) = trial.bind(&trial.site(), &PLAIN);
    let after = files(&trial.site());
    let pages = |path: &&String| path.ends_with(".html");
    let changed = before.keys().filter(pages).filter(|path| before.get(*path) != after.get(*path)).count();
    let all = before.keys().filter(pages).count();
    assert!(changed < all, "{said}");
    trial.compare(&PLAIN);
}

#[test]
fn nothing_is_taken_over_from_another_program() {
    let mut trial = Trial::new();
    trial.bind(&trial.site(), &PLAIN);
    trial.do_one(&Edit::Program(1));
    fs::write(trial.folder.path().join("program"), [b'v', 1]).unwrap();
    let lines = why(&trial);
    assert!(lines.contains(&"tarn-18: made anew, because no earlier run of this program left anything of it".to_owned()), "{lines:?}");
    assert!(lines.last().unwrap().contains(" 0 files written"), "{lines:?}");
}

#[test]
fn a_published_file_changed_by_another_hand_is_noticed_though_its_size_and_time_are_as_they_were() {
    let trial = Trial::new();
    trial.bind(&trial.site(), &PLAIN);
    let path = trial.site().join("index.html");
    let (time, good) = (fs::metadata(&path).unwrap().modified().unwrap(), fs::read(&path).unwrap());
    let mut bad = good.clone();
    *bad.last_mut().unwrap() = b' ';
    fs::write(&path, &bad).unwrap();
    fs::File::options().write(true).open(&path).unwrap().set_times(fs::FileTimes::new().set_modified(time)).unwrap();
    trial.bind(&trial.site(), &Options { verify: true, ..PLAIN });
    assert_eq!(fs::read(&path).unwrap(), good);
}
