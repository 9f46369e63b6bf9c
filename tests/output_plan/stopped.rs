//! Runs that are stopped on the way: what they leave, and how the next one goes on.

use super::{LOCK, Site, files, pages, told};
use benchleaf::output::{Action, OutputError, PageFile, RemoveReason, Summary, WriteReason, apply, plan, write_fresh};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;

#[test]
fn a_failing_write_loses_nothing_and_the_next_run_goes_on() {
    let site = Site::new();
    site.publish(&pages(&[("a.html", "old a"), ("index.html", "old home"), ("z.html", "old z")])).unwrap();
    let manual = pages(&[("a.html", "new a"), ("m/hub.html", "hub"), ("index.html", "new home")]);
    let halted = plan(&site.folder, &manual).unwrap();
    site.put("m", "a file where a folder is wanted");
    let told = told(apply(&halted));
    assert!(told.contains("move the file away") && told.contains("1 of the 4 files to be changed are new, the others still old"), "{told}");
    let half_way = [
        ("a.html", "new a"),
        ("index.html", "old home"),
        ("m", "a file where a folder is wanted"),
        ("z.html", "old z"),
    ];
    assert_eq!(
        site.files(),
        files(&half_way),
        "pages before it are new, the home page and the removed page still stand"
    );

    fs::remove_file(site.path("m")).unwrap();
    assert_eq!(site.publish(&manual).unwrap(), Summary { written: 2, kept: 1, removed: 1, cleaned: 0 });
    let done = [("a.html", "new a"), ("index.html", "new home"), ("m/", ""), ("m/hub.html", "hub")];
    assert_eq!(site.files(), files(&done));
}

/// A device keeps only files with the hash that stands in its list: a list before its files would leave it with nothing.
#[test]
fn the_list_of_what_a_device_keeps_comes_behind_all_files_it_lists() {
    let site = Site::new();
    let names = ["a.html", "index.html", "m/hub.html", "offline.js", "page.css"];
    let of = |text: &str| -> Vec<PageFile> { pages(&names.map(|name| (name, text))) };
    site.publish(&of("old")).unwrap();
    let manual = of("new");
    let halted = plan(&site.folder, &manual).unwrap();
    assert_eq!(halted.entries().last().unwrap().path, "offline.js");
    fs::remove_file(site.path("m/hub.html")).unwrap();
    site.put("m/hub.html/in-the-way", "");
    let told = told(apply(&halted));
    assert!(told.contains("2 of the 5 files to be changed are new") && !told.contains("still stands"), "{told}");
    assert_eq!(fs::read_to_string(site.path("offline.js")).unwrap(), "old");
    fs::remove_dir_all(site.path("m/hub.html")).unwrap();
    site.publish(&manual).unwrap();
    assert_eq!(fs::read_to_string(site.path("offline.js")).unwrap(), "new");
}

/// Until every page shows the new values, the next run has to compare with those of before.
#[test]
fn the_list_of_values_comes_behind_all_pages() {
    let site = Site::new();
    let names = [".values.json", "a.html", "book.html", "index.html", "m/hub.html", "offline.js", "search-index.js"];
    let of = |text: &str| -> Vec<PageFile> { pages(&names.map(|name| (name, text))) };
    site.publish(&of("old")).unwrap();
    let new = of("new");
    let halted = plan(&site.folder, &new).unwrap();
    assert_eq!(halted.entries().last().unwrap().path, ".values.json");
    fs::remove_file(site.path("offline.js")).unwrap();
    site.put("offline.js/in-the-way", "");
    assert!(apply(&halted).is_err());
    assert_eq!(fs::read_to_string(site.path(".values.json")).unwrap(), "old");
    fs::remove_dir_all(site.path("offline.js")).unwrap();
    site.publish(&new).unwrap();
    assert_eq!(fs::read_to_string(site.path(".values.json")).unwrap(), "new");
}

/// What stopped runs have written is told apart from what other people did, run after run.
#[test]
fn a_stopped_run_is_not_taken_for_another_hand_nor_another_hand_for_it() {
    let site = Site::new();
    site.publish(&pages(&[("a.html", "1"), ("b.html", "1"), ("c.html", "1"), ("gone.html", "1")])).unwrap();
    let stopped = |text: &str| {
        let manual = pages(&[("a.html", text), ("b.html", text), ("c.html", text), ("m/new.html", text), ("n.html", text)]);
        let halted = plan(&site.folder, &manual).unwrap();
        site.put("m", "a file where a folder is wanted");
        assert!(apply(&halted).is_err());
        fs::remove_file(site.path("m")).unwrap();
    };
    stopped("2");
    stopped("3");
    // A second stopped run had come less far.
    site.put("b.html", "2");
    site.put("c.html", "another hand");
    site.put("n.html", "somebody's own file");
    let wanted = pages(&[("a.html", "4"), ("b.html", "4"), ("c.html", "4")]);
    let reasons: BTreeMap<_, _> = site.plan(&wanted).into_iter().collect();
    assert_eq!(reasons["a.html"], Action::Write(WriteReason::Interrupted));
    assert_eq!(reasons["b.html"], Action::Write(WriteReason::Interrupted));
    assert_eq!(reasons["c.html"], Action::Write(WriteReason::Altered));
    assert_eq!(reasons["gone.html"], Action::Remove(RemoveReason::Unwanted));
    assert!(!reasons.contains_key("n.html"), "no run had come to it: it is nobody's to remove");
    let taken = plan(&site.folder, &pages(&[("n.html", "4")])).unwrap_err();
    assert!(matches!(&taken, OutputError::ForeignFile(path) if path.ends_with("n.html")), "{taken}");
    site.publish(&wanted).unwrap();
    assert_eq!(site.files(), files(&[("a.html", "4"), ("b.html", "4"), ("c.html", "4"), ("n.html", "somebody's own file")]));
    assert_eq!(site.record().get("unfinished"), None);
}

/// A disk whose power was cut may leave empty what had been moved in.
#[test]
fn an_empty_file_that_was_under_way_is_written_again() {
    let site = Site::new();
    let manual = pages(&[("a.html", "a"), ("m/hub.html", "hub")]);
    let halted = plan(&site.folder, &manual).unwrap();
    site.put("m", "a file where a folder is wanted");
    assert!(apply(&halted).is_err());
    fs::remove_file(site.path("m")).unwrap();
    site.put("a.html", "");
    site.publish(&manual).unwrap();
    assert_eq!(site.files(), files(&[("a.html", "a"), ("m/", ""), ("m/hub.html", "hub")]));
}

/// What a draft that was killed has left beside its file does not keep the next one from writing it.
#[test]
fn a_leftover_of_the_very_name_is_no_obstacle() {
    let site = Site::new();
    let digits: String = Sha256::digest("m/hub.md").iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let leftover = format!("m/.benchleaf-new-{digits}");
    site.put(&leftover, "ha");
    write_fresh(&site.folder, &[("m/hub.md", b"half")]).unwrap();
    assert_eq!(site.files(), files(&[("m/", ""), ("m/hub.md", "half")]));
}

/// Before the first file is moved the old message is true.
#[test]
fn a_failure_before_the_first_file_leaves_the_old_site_and_says_so() {
    let site = Site::new();
    site.publish(&pages(&[("index.html", "old")])).unwrap();
    let manual = pages(&[("index.html", "new")]);
    let halted = plan(&site.folder, &manual).unwrap();
    fs::remove_file(site.path("index.html")).unwrap();
    site.put("index.html/in-the-way", "");
    let told = told(apply(&halted));
    assert!(told.contains("move the folder away") && !told.contains("files to be changed"), "{told}");
}

#[test]
fn the_very_first_run_can_be_stopped_too() {
    let site = Site::new();
    let manual = pages(&[("a.html", "a"), ("m/hub.html", "hub"), ("n.html", "n")]);
    let halted = plan(&site.folder, &manual).unwrap();
    site.put("m", "a file where a folder is wanted");
    assert!(apply(&halted).is_err());
    fs::remove_file(site.path("m")).unwrap();
    assert_eq!(site.files(), files(&[("a.html", "a")]));
    let under_way = site.record()["unfinished"].clone();
    assert_eq!(under_way.as_object().unwrap().keys().collect::<Vec<_>>(), ["a.html", "m/hub.html", "n.html"]);
    // The SHA-256 of the one letter "a".
    assert_eq!(under_way["a.html"], serde_json::json!(["ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb"]));

    let changed = pages(&[("a.html", "a2"), ("m/hub.html", "hub")]);
    assert_eq!(
        site.plan(&changed),
        [
            ("a.html".to_owned(), Action::Write(WriteReason::Interrupted)),
            ("m/hub.html".to_owned(), Action::Write(WriteReason::New)),
        ]
    );
    site.publish(&changed).unwrap();
    assert_eq!(site.files(), files(&[("a.html", "a2"), ("m/", ""), ("m/hub.html", "hub")]));
    assert_eq!(site.record().get("unfinished"), None);
    site.publish(&pages(&[])).unwrap();
    assert_eq!(site.files(), files(&[]), "a file of a stopped run can be removed like any other");
}

#[test]
fn half_written_files_of_a_stopped_run_are_cleaned_and_others_are_not() {
    let site = Site::new();
    let manual = pages(&[("index.html", "home"), ("axle/hub.html", "hub")]);
    site.publish(&manual).unwrap();
    site.put(".benchleaf-new-0123456789abcdef", "half");
    site.put("axle/.benchleaf-new-0123456789abcdef", "half");
    site.put("axle/.benchleaf-new-things.txt", "mine");
    assert_eq!(site.publish(&manual).unwrap(), Summary { kept: 2, cleaned: 2, ..Summary::default() });
    assert_eq!(
        site.files(),
        files(&[
            ("axle/", ""),
            ("axle/.benchleaf-new-things.txt", "mine"),
            ("axle/hub.html", "hub"),
            ("index.html", "home")
        ])
    );
}

#[test]
fn a_run_stopped_before_its_first_record_leaves_a_folder_that_can_be_used() {
    let site = Site::new();
    site.put(LOCK, "");
    site.put(".benchleaf-new-0123456789abcdef", "half a record");
    assert_eq!(site.publish(&pages(&[("index.html", "home")])).unwrap().cleaned, 1);
    assert_eq!(site.files(), files(&[("index.html", "home")]));
}
