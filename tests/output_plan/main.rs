//! Publishing into real folders: what is written, kept, removed and refused.

#![expect(clippy::disallowed_methods, reason = "the tests play the user and the other programs in the folder")]
#![expect(clippy::expect_used, reason = "helpers of tests fail by panicking, as the tests do")]

mod stopped;

use benchleaf::output::{
    Action, Content, OutputError, Overlap, PageFile, RemoveReason, Summary, WriteReason, apply, check_apart, held, plan,
};
use std::collections::BTreeMap;
use std::fs::{self, File, FileTimes};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use tempfile::{TempDir, tempdir};

const RECORD: &str = ".benchleaf-record.json";
const LOCK: &str = ".benchleaf-lock";

/// An output folder that is not there yet, in a folder that goes when the test ends.
struct Site {
    around: TempDir,
    folder: PathBuf,
}

impl Site {
    fn new() -> Self {
        let around = tempdir().expect("a folder for the test");
        let folder = around.path().join("site");
        Self { around, folder }
    }

    fn path(&self, path: &str) -> PathBuf {
        self.folder.join(path)
    }

    fn put(&self, path: &str, content: &str) {
        let path = self.path(path);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, content).expect("a file");
    }

    fn publish(&self, pages: &[PageFile]) -> Result<Summary, OutputError> {
        apply(&plan(&self.folder, pages)?)
    }

    fn plan(&self, pages: &[PageFile]) -> Vec<(String, Action)> {
        let plan = plan(&self.folder, pages).expect("a plan");
        plan.entries().iter().map(|entry| (entry.path.clone(), entry.action)).collect()
    }

    /// Every file below the folder but the lock and the record, with its text.
    fn files(&self) -> BTreeMap<String, String> {
        let mut found = BTreeMap::new();
        collect(&self.folder, "", &mut found);
        found.remove(LOCK);
        found.remove(RECORD);
        found
    }

    fn record(&self) -> serde_json::Value {
        serde_json::from_slice(&fs::read(self.path(RECORD)).expect("a record")).expect("JSON")
    }
}

fn collect(folder: &Path, before: &str, found: &mut BTreeMap<String, String>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let entry = entry.expect("an entry");
        let name = format!("{before}{}", entry.file_name().to_string_lossy());
        if entry.file_type().expect("a type").is_dir() {
            found.insert(format!("{name}/"), String::new());
            collect(&entry.path(), &format!("{name}/"), found);
        } else {
            found.insert(name, fs::read_to_string(entry.path()).expect("a text"));
        }
    }
}

fn pages(pages: &[(&str, &str)]) -> Vec<PageFile> {
    pages.iter().map(|(path, text)| PageFile { path: (*path).to_owned(), content: Content::Bytes(text.as_bytes().to_vec()) }).collect()
}

fn files(files: &[(&str, &str)]) -> BTreeMap<String, String> {
    files.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect()
}

/// The whole of what an error tells.
fn told<T: std::fmt::Debug>(result: Result<T, OutputError>) -> String {
    result.expect_err("an error").to_string()
}

#[test]
fn the_first_run_makes_the_folder_and_writes_all() {
    let site = Site::new();
    let manual = pages(&[("index.html", "home"), ("axle/hub.html", "hub"), ("style/sheet.css", "black")]);
    assert_eq!(
        site.plan(&manual),
        [
            ("style/sheet.css".to_owned(), Action::Write(WriteReason::New)),
            ("axle/hub.html".to_owned(), Action::Write(WriteReason::New)),
            ("index.html".to_owned(), Action::Write(WriteReason::New)),
        ],
        "styles, then pages, then the home page"
    );
    assert!(!site.folder.exists(), "a plan changes nothing");
    assert_eq!(site.publish(&manual).unwrap(), Summary { written: 3, ..Summary::default() });
    assert_eq!(
        site.files(),
        files(&[
            ("axle/", ""),
            ("axle/hub.html", "hub"),
            ("index.html", "home"),
            ("style/", ""),
            ("style/sheet.css", "black")
        ])
    );
}

#[test]
fn an_empty_folder_is_as_good_as_none() {
    let site = Site::new();
    fs::create_dir(&site.folder).unwrap();
    assert_eq!(site.publish(&pages(&[("index.html", "home")])).unwrap().written, 1);
}

/// The hash of "abc" is the example that NIST gives with FIPS 180-4.
#[test]
fn the_record_lists_each_file_with_its_hash_and_nothing_of_the_day() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "abc"), ("a.css", "abc")])).unwrap();
    let hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    let record = site.record();
    assert_eq!(record["format"], "benchleaf-record");
    assert_eq!(record["version"], 1);
    assert_eq!(record["files"], serde_json::json!({"a.css": hash, "index.html": hash}));
    let other = Site::new();
    other.publish(&pages(&[("a.css", "abc"), ("index.html", "abc")])).unwrap();
    assert_eq!(fs::read(site.path(RECORD)).unwrap(), fs::read(other.path(RECORD)).unwrap());
}

#[test]
fn only_what_changed_is_touched() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home"), ("hub.html", "hub")])).unwrap();
    let long_ago = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000_000);
    for path in ["index.html", "hub.html", RECORD] {
        let file = File::options().write(true).open(site.path(path)).unwrap();
        file.set_times(FileTimes::new().set_modified(long_ago)).unwrap();
    }
    let modified = |path: &str| fs::metadata(site.path(path)).unwrap().modified().unwrap();

    let same = pages(&[("index.html", "home"), ("hub.html", "hub")]);
    assert!(plan(&site.folder, &same).unwrap().changes_nothing());
    assert_eq!(site.publish(&same).unwrap(), Summary { kept: 2, ..Summary::default() });
    assert_eq!([modified("index.html"), modified("hub.html"), modified(RECORD)], [long_ago; 3]);

    let changed = pages(&[("index.html", "home"), ("hub.html", "new hub")]);
    assert_eq!(site.publish(&changed).unwrap(), Summary { kept: 1, written: 1, ..Summary::default() });
    assert_eq!(modified("index.html"), long_ago);
    assert!(modified("hub.html") > long_ago);
}

#[test]
fn each_reason_to_write_is_told_apart() {
    let site = Site::new();
    let before = [("changed.html", "1"), ("altered.html", "1"), ("missing.html", "1"), ("mended.html", "1")];
    site.publish(&pages(&before)).unwrap();
    site.put("altered.html", "another hand");
    site.put("mended.html", "2");
    fs::remove_file(site.path("missing.html")).unwrap();
    let manual = pages(&[
        ("changed.html", "2"),
        ("altered.html", "1"),
        ("missing.html", "1"),
        ("mended.html", "2"),
        ("new.html", "1"),
    ]);
    let reasons: BTreeMap<_, _> = site.plan(&manual).into_iter().collect();
    assert_eq!(reasons["changed.html"], Action::Write(WriteReason::Changed));
    assert_eq!(reasons["altered.html"], Action::Write(WriteReason::Altered));
    assert_eq!(reasons["missing.html"], Action::Write(WriteReason::Missing));
    assert_eq!(reasons["new.html"], Action::Write(WriteReason::New));
    assert_eq!(reasons["mended.html"], Action::Keep, "it holds what it should, whoever wrote it");
    let words: std::collections::BTreeSet<_> = reasons.values().map(|action| action.because()).collect();
    assert_eq!(words.len(), 5, "each reason has words of its own");
    site.publish(&manual).unwrap();
    assert!(plan(&site.folder, &manual).unwrap().changes_nothing());
}

#[test]
fn what_is_no_longer_wanted_goes_with_the_folders_it_leaves_empty() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home"), ("axle/old/hub.html", "hub"), ("axle/nut.html", "nut")])).unwrap();
    site.put("axle/nut.html", "another hand");
    let manual = pages(&[("index.html", "home")]);
    assert_eq!(
        site.plan(&manual),
        [
            ("index.html".to_owned(), Action::Keep),
            ("axle/nut.html".to_owned(), Action::Remove(RemoveReason::UnwantedAndAltered)),
            ("axle/old/hub.html".to_owned(), Action::Remove(RemoveReason::Unwanted)),
        ]
    );
    assert_eq!(site.publish(&manual).unwrap(), Summary { kept: 1, removed: 2, ..Summary::default() });
    assert_eq!(site.files(), files(&[("index.html", "home")]));
}

#[test]
fn a_page_that_is_gone_already_is_only_struck_from_the_record() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home"), ("hub.html", "hub")])).unwrap();
    fs::remove_file(site.path("hub.html")).unwrap();
    assert_eq!(site.publish(&pages(&[("index.html", "home")])).unwrap(), Summary { kept: 1, ..Summary::default() });
    assert_eq!(site.record()["files"].as_object().unwrap().len(), 1);
}

#[test]
fn somebody_elses_folder_is_refused() {
    let site = Site::new();
    site.put("thesis.txt", "ten years of work");
    let told = told(site.publish(&pages(&[("index.html", "home")])));
    assert!(told.contains("thesis.txt") && told.contains("name an empty or a new folder"), "{told}");
    assert_eq!(site.files(), files(&[("thesis.txt", "ten years of work")]));
    let nothing: Vec<PageFile> = Vec::new();
    assert!(matches!(site.publish(&nothing), Err(OutputError::ForeignFolder { .. })), "with nothing to write, too");
}

#[test]
fn somebody_elses_files_among_ours_stay() {
    let site = Site::new();
    site.publish(&pages(&[("axle/hub.html", "hub")])).unwrap();
    site.put("axle/notes.txt", "mine");
    site.put("CNAME", "mine too");
    site.publish(&pages(&[("index.html", "home")])).unwrap();
    assert_eq!(
        site.files(),
        files(&[("CNAME", "mine too"), ("axle/", ""), ("axle/notes.txt", "mine"), ("index.html", "home")])
    );
}

#[test]
fn a_page_does_not_replace_somebody_elses_file() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home")])).unwrap();
    site.put("hub.html", "mine");
    let wanted = pages(&[("index.html", "new home"), ("hub.html", "hub")]);
    let told = told(site.publish(&wanted));
    assert!(told.contains("hub.html") && told.contains("not written by Benchleaf"), "{told}");
    assert_eq!(site.files(), files(&[("hub.html", "mine"), ("index.html", "home")]), "nothing at all was written");
}

#[test]
fn a_file_that_comes_between_plan_and_deed_is_not_replaced() {
    let site = Site::new();
    let wanted = pages(&[("index.html", "home"), ("hub.html", "hub")]);
    let plan = plan(&site.folder, &wanted).unwrap();
    site.put("hub.html", "mine");
    assert!(matches!(apply(&plan), Err(OutputError::ForeignFile(path)) if path == site.path("hub.html")));
    assert_eq!(site.files(), files(&[("hub.html", "mine")]));
}

#[test]
fn files_and_folders_in_each_others_place_are_refused() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home")])).unwrap();
    site.put("axle", "a file");
    site.put("hub.html/inner", "a folder");
    let in_the_way = plan(&site.folder, &pages(&[("axle/hub.html", "hub")])).map(|_| ());
    assert!(matches!(in_the_way, Err(OutputError::FileInTheWay(path)) if path == site.path("axle")));
    let in_the_way = plan(&site.folder, &pages(&[("hub.html", "hub")])).map(|_| ());
    assert!(matches!(in_the_way, Err(OutputError::FolderInTheWay(path)) if path == site.path("hub.html")));
    let in_the_way = plan(&site.path("index.html"), &pages(&[("hub.html", "hub")])).map(|_| ());
    assert!(matches!(in_the_way, Err(OutputError::FileInTheWay(path)) if path == site.path("index.html")));
}

#[cfg(unix)]
#[test]
fn no_link_is_followed() {
    use std::os::unix::fs::symlink;
    let site = Site::new();
    let outside = site.around.path().join("outside");
    fs::create_dir(&outside).unwrap();
    fs::write(outside.join("hub.html"), "mine").unwrap();
    site.publish(&pages(&[("index.html", "home"), ("axle/hub.html", "hub"), ("nut.html", "nut")])).unwrap();

    fs::remove_dir_all(site.path("axle")).unwrap();
    symlink(&outside, site.path("axle")).unwrap();
    let link = site.path("axle");
    let is_refused =
        |result: Result<Summary, OutputError>, at: &Path| matches!(result, Err(OutputError::Link(path)) if path == at);
    assert!(is_refused(site.publish(&pages(&[("axle/hub.html", "hub")])), &link), "to write");
    assert!(is_refused(site.publish(&pages(&[("index.html", "home")])), &link), "to remove");

    fs::remove_file(&link).unwrap();
    fs::remove_file(site.path("nut.html")).unwrap();
    symlink(outside.join("hub.html"), site.path("nut.html")).unwrap();
    assert!(is_refused(site.publish(&pages(&[("nut.html", "nut")])), &site.path("nut.html")), "a link that is a file");

    fs::remove_file(site.path("nut.html")).unwrap();
    fs::rename(site.path(RECORD), outside.join("record")).unwrap();
    symlink(outside.join("record"), site.path(RECORD)).unwrap();
    assert!(is_refused(site.publish(&pages(&[("index.html", "home")])), &site.path(RECORD)), "the record");
    assert_eq!(fs::read_to_string(outside.join("hub.html")).unwrap(), "mine");
}

#[cfg(unix)]
#[test]
fn a_link_that_comes_between_plan_and_deed_is_not_followed() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "home"), ("axle/hub.html", "hub")])).unwrap();
    let outside = site.around.path().join("outside");
    fs::create_dir(&outside).unwrap();
    fs::write(outside.join("hub.html"), "mine").unwrap();
    let nothing_but_home = pages(&[("index.html", "home")]);
    let plan = plan(&site.folder, &nothing_but_home).unwrap();
    fs::remove_dir_all(site.path("axle")).unwrap();
    std::os::unix::fs::symlink(&outside, site.path("axle")).unwrap();
    assert!(matches!(apply(&plan), Err(OutputError::Link(_))));
    assert_eq!(fs::read_to_string(outside.join("hub.html")).unwrap(), "mine");
}

#[test]
fn a_hostile_record_removes_nothing() {
    let site = Site::new();
    let prey = site.around.path().join("prey.txt");
    fs::write(&prey, "mine").unwrap();
    for listed in ["../prey.txt", prey.to_str().unwrap(), "x/../../prey.txt", "./../prey.txt"] {
        let record = serde_json::json!({"format": "benchleaf-record", "version": 1, "files": {listed: "00"}});
        site.put(RECORD, &record.to_string());
        let told = told(site.publish(&pages(&[("index.html", "home")])));
        assert!(told.contains("nothing was touched"), "{told}");
        assert_eq!(site.files(), files(&[]), "{listed}");
    }
    assert_eq!(fs::read_to_string(&prey).unwrap(), "mine");
}

#[test]
fn two_runs_at_once_are_refused_and_a_dead_run_holds_nothing() {
    let site = Site::new();
    let manual = pages(&[("index.html", "home")]);
    site.publish(&manual).unwrap();
    assert!(site.path(LOCK).exists(), "the file stays, the lock is gone with the run");
    let other_run = File::options().write(true).open(site.path(LOCK)).unwrap();
    other_run.try_lock().unwrap();
    let told = told(site.publish(&manual));
    assert!(told.contains("another run") && told.contains("wait until it is done"), "{told}");
    drop(other_run);
    assert!(site.publish(&manual).is_ok());
}

#[test]
fn a_plan_that_another_run_overtook_is_refused() {
    let site = Site::new();
    let mine = pages(&[("index.html", "mine")]);
    let overtaken = plan(&site.folder, &mine).unwrap();
    site.publish(&pages(&[("index.html", "theirs")])).unwrap();
    assert!(matches!(apply(&overtaken), Err(OutputError::Overtaken(_))));
    assert_eq!(site.files(), files(&[("index.html", "theirs")]));
}

#[test]
fn paths_that_not_every_file_system_takes_are_refused() {
    let site = Site::new();
    for path in ["../index.html", "/index.html", "con.html", "a\u{7}.html", RECORD] {
        let refused = plan(&site.folder, &pages(&[(path, "")])).map(|_| ());
        assert!(matches!(refused, Err(OutputError::Name { .. })), "{path:?}: {refused:?}");
    }
    let refused = plan(&site.folder, &pages(&[("Hub.html", ""), ("hub.html", "")])).map(|_| ());
    assert!(matches!(&refused, Err(OutputError::SamePath(..))), "{refused:?}");
    let told = told(refused);
    assert!(told.contains("Hub.html") && told.contains("hub.html"), "{told}");
}

/// On a file system that makes no difference between cases there is one file, and it must survive.
#[test]
fn a_page_renamed_by_case_only_survives() {
    let site = Site::new();
    site.publish(&pages(&[("Axle/Hub.html", "hub")])).unwrap();
    site.publish(&pages(&[("axle/hub.html", "hub")])).unwrap();
    assert_eq!(fs::read_to_string(site.path("axle/hub.html")).unwrap(), "hub");
    let names: Vec<_> = site.files().into_keys().filter(|name| !name.ends_with('/')).collect();
    assert_eq!(names.len(), 1, "{names:?}");
}

#[test]
fn output_and_manual_must_lie_apart() {
    let around = tempdir().unwrap();
    let path = |below: &str| around.path().join(below);
    fs::create_dir_all(path("club/manual/axle")).unwrap();
    let overlap = |output: &str| match check_apart(&path(output), &path("club/manual")) {
        Ok(()) => None,
        Err(OutputError::NotApart { how, .. }) => Some(how),
        Err(other) => panic!("{other}"),
    };
    assert_eq!(overlap("club/site"), None);
    assert_eq!(overlap("club/manual-site"), None, "a longer name is another folder");
    assert_eq!(overlap("new/folders/site"), None);
    assert_eq!(overlap("club/manual"), Some(Overlap::Same));
    assert_eq!(overlap("club/manual/axle/../."), Some(Overlap::Same));
    assert_eq!(overlap("club/manual/site"), Some(Overlap::Inside));
    assert_eq!(overlap("club/manual/new/site"), Some(Overlap::Inside));
    assert_eq!(overlap("club"), Some(Overlap::Around));
    let told = told(check_apart(&path("club"), &path("club/manual")));
    assert!(told.contains("contains the manual's folder") && told.contains("beside the manual"), "{told}");
}

#[cfg(unix)]
#[test]
fn links_to_the_manual_do_not_hide_an_overlap() {
    let around = tempdir().unwrap();
    let manual = around.path().join("manual");
    fs::create_dir(&manual).unwrap();
    let link = around.path().join("link");
    std::os::unix::fs::symlink(&manual, &link).unwrap();
    assert!(matches!(
        check_apart(&link.join("site"), &manual),
        Err(OutputError::NotApart { how: Overlap::Inside, .. })
    ));
}

#[test]
fn a_file_told_to_be_held_is_kept_with_its_hash_and_never_written() {
    let site = Site::new();
    site.publish(&pages(&[("a.jpg", "pixels"), ("b.html", "page")])).expect("published");
    let before = site.record();
    let held = held(&site.folder).expect("a record");
    assert!(held.holds("a.jpg") && held.holds("b.html") && !held.holds("c.jpg") && !held.holds("../a.jpg"));
    let as_held = PageFile { path: "a.jpg".to_owned(), content: Content::AsHeld };
    let summary = site.publish(&[vec![as_held.clone()], pages(&[("b.html", "page")])].concat()).expect("published");
    assert_eq!((summary.written, summary.kept, summary.removed), (0, 2, 0));
    assert_eq!(site.record(), before);
    assert_eq!(site.files()["a.jpg"], "pixels");
    // Changed or gone since, it is not held; and what is not there can't be kept.
    site.put("a.jpg", "others");
    assert!(!held.holds("a.jpg"));
    fs::remove_file(site.path("a.jpg")).expect("gone");
    assert!(!held.holds("a.jpg"));
    assert!(matches!(site.publish(&[as_held]), Err(OutputError::Overtaken(_))));
}

#[test]
fn a_folder_that_is_not_there_holds_nothing() {
    assert!(!held(&Site::new().folder).expect("nothing").holds("a.jpg"));
}
