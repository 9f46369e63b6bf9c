//! Binding again gives what binding from nothing gives: after any edits of the manual, of what is published and of what was
//! left for the next run, the site, the report and the count of files written are those of a full run, to the byte.
//!
//! `BENCHLEAF_CASES` sets how many rows of edits are tried.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes real folders")]

mod change;
mod edit;
#[path = "../photograph_sample/mod.rs"]
mod photograph_sample;
mod trial;

use edit::{Edit, Options, PLAIN, edit, options};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use trial::{KEPT, Trial, files};

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

#[test]
fn machines_too_many_to_be_held_are_published_as_few_are() {
    let trial = Trial::new();
    let (few, many) = (trial.folder.path().join("few"), trial.folder.path().join("many"));
    let not_held = Options { held: (false, false), ..PLAIN };
    assert_eq!(trial.bind(&few, &PLAIN), trial.bind(&many, &not_held));
    let published = |folder: &Path| files(folder).into_iter().filter(|(path, _)| !path.starts_with(KEPT)).collect::<BTreeMap<_, _>>();
    assert!(published(&few) == published(&many));
    // Pages of the first machine are laid down before the fault in the second is found: nothing of them stays.
    trial.change("tarn-18/pinion-height-and-backlash.md", |text| Some(format!("{text}\nSee [there](see:nowhere).\n")));
    let new = trial.folder.path().join("new");
    let (code, said) = trial.bind(&new, &not_held);
    assert_eq!((code, new.exists()), (1, false), "{said}");
    assert_eq!((code, said), trial.bind(&new, &PLAIN));
    assert_eq!(trial.bind(&many, &not_held).0, 1);
    assert!(published(&few) == published(&many));
}

#[test]
fn a_change_in_one_machine_leaves_the_other_alone_and_is_named() {
    let trial = Trial::new();
    trial.bind(&trial.site(), &PLAIN);
    trial.change("tarn-18/pinion-height-and-backlash.md", |text| Some(format!("{text}\nOne more word.\n")));
    let lines = trial.why();
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
    assert!(trial.why().contains(&"tarn-18: kept, because nothing behind it changed".to_owned()));
    trial.do_one(&Edit::Heading(to, 0, true));
    let full = trial.bind(&trial.folder.path().join("other"), &PLAIN);
    assert_eq!(full.0, 1, "the link leads nowhere now: {}", full.1);
    assert_eq!(trial.bind(&trial.site(), &PLAIN).0, 1);
}

/// A first run foretells from a quick look what links show of other machines. A heading underlined instead of marked is one that the
/// look passes over.
#[test]
fn a_link_shows_the_right_step_however_headings_are_written() {
    let trial = Trial::new();
    let not_held = Options { held: (false, false), ..PLAIN };
    let (from, to) = ("tarn-18/pinion-height-and-backlash.md", "hb-2/housing-and-cups.md");
    let text = fs::read_to_string(trial.manual().join(to)).unwrap();
    let headings: Vec<String> = text.lines().filter(|line| line.starts_with("## ")).map(str::to_owned).collect();
    let (first, second) = (headings[0].trim_start_matches("## "), headings[1].split("{#").nth(1).unwrap().split([' ', '}']).next().unwrap());
    trial.change(from, |text| Some(format!("{text}\nMore stands in [the other](see:hb-2/housing-and-cups#{second}).\n")));
    trial.compare(&PLAIN);
    let page = |site: &str| fs::read_to_string(trial.folder.path().join(site).join("tarn-18/pinion-height-and-backlash.html")).unwrap();
    let before = page("full");
    trial.change(to, |text| Some(text.replacen(&headings[0], &format!("{first}\n---"), 1)));
    for options in [&PLAIN, &not_held] {
        let (code, said) = trial.bind(&trial.folder.path().join("anew"), options);
        assert_eq!(code, 0, "{said}");
        assert!(page("anew") == before, "the number of the step");
        fs::remove_dir_all(trial.folder.path().join("anew")).unwrap();
        trial.compare(options);
    }
    // Of a link to a step that is not there, a proof copy tells which step may be meant: it hangs on all of them.
    let slip = headings[0].split("{#").nth(1).unwrap().split([' ', '}']).next().unwrap();
    trial.change(from, |text| Some(text.replacen(&format!("#{second})"), &format!("#{slip}x)"), 1)));
    for options in [&PLAIN, &not_held].map(|options| Options { proof: true, ..options.clone() }) {
        trial.compare(&options);
        assert!(page("full").contains(&format!("did you mean ‘{slip}’?")));
    }
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
    let lines = trial.why();
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
