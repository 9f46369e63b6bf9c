//! What a device is told of the site, so that it keeps one whole version of it, and what the bench is told of the work.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use benchleaf::figure::{Picture, Rendition};
use benchleaf::manual::{Axis, AxisValue};
use page_sample::{Sample, sample, when};
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;

/// What stands in front of the worker.
fn copy(sample: &Sample) -> Value {
    let worker = sample.page("offline.js");
    let line = worker.lines().find_map(|line| line.strip_prefix("const COPY = ")).unwrap();
    serde_json::from_str(line.trim_end_matches(';')).unwrap()
}

fn paths(list: &Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|pair| pair[0].as_str().unwrap()).collect()
}

fn photograph(width: u32, bytes: Option<Vec<u8>>) -> Picture {
    Picture::Photograph(vec![Rendition { path: "tarn-18/pictures/hub-1600.0123.jpg".to_owned(), width, height: width, bytes, length: 0 }])
}

#[test]
fn the_worker_knows_every_file_but_itself_by_its_hash() {
    let sample = sample();
    let files = sample.publish().unwrap();
    let copy = copy(&sample);
    let mut expected: Vec<&str> = files.iter().map(|file| file.path.as_str()).filter(|path| *path != "offline.js").collect();
    expected.push("tarn-18/pictures/carrier.svg");
    expected.sort_unstable();
    assert_eq!(paths(&copy["files"]), expected);
    for pair in copy["files"].as_array().unwrap() {
        let Some(file) = files.iter().find(|file| file.path == pair[0].as_str().unwrap()) else { continue };
        let hash: String = Sha256::digest(&file.bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(pair[1].as_str().unwrap(), &hash[..32], "{}", file.path);
    }
    assert_eq!(copy["later"], Value::Array(Vec::new()));
}

#[test]
fn any_changed_byte_is_another_version_and_the_same_sources_are_the_same() {
    let version = |sample: &Sample| copy(sample)["version"].clone();
    let first = version(&sample());
    assert_eq!(version(&sample()), first);
    let mut other = sample();
    other.manual.machines[0].procedures[0].title.push('!');
    assert_ne!(version(&other), first, "a page");
    let mut other = sample();
    let Some(Picture::Drawing(drawing)) = other.pictures.values_mut().next() else { panic!("no drawing") };
    drawing.bytes = Some(b"<svg/>".to_vec());
    assert_ne!(version(&other), first, "a drawing");
    let mut other = sample();
    other.theme.insert("scripts/offline.js".to_owned(), b"// another worker\n".to_vec());
    assert_ne!(version(&other), first, "the worker itself");
    assert!(other.page("offline.js").ends_with("// another worker\n"));
}

#[test]
fn whether_a_photograph_is_held_already_changes_nothing() {
    let with = |bytes: Option<Vec<u8>>| {
        let mut sample = sample();
        sample.pictures.insert("tarn-18/pictures/hub.jpg".to_owned(), photograph(1600, bytes));
        sample.page("offline.js")
    };
    assert_eq!(with(None), with(Some(vec![1, 2, 3])));
}

#[test]
fn pictures_of_a_large_manual_are_kept_once_they_were_looked_at() {
    let mut sample = sample();
    // 20 000 × 20 000 pixels at two bits are 100 MB.
    sample.pictures.insert("tarn-18/pictures/hub.jpg".to_owned(), photograph(20_000, None));
    let copy = copy(&sample);
    assert_eq!(paths(&copy["later"]), ["tarn-18/pictures/carrier.svg", "tarn-18/pictures/hub-1600.0123.jpg"]);
    assert!(!paths(&copy["files"]).iter().any(|path| path.contains("pictures/")));
}

#[test]
fn one_size_of_a_photograph_is_kept_and_stands_in_for_the_others() {
    let mut sample = sample();
    let sizes = [480, 960, 1600].map(|width| Rendition { path: format!("tarn-18/pictures/hub-{width}.0123.jpg"), width, height: width, bytes: None, length: 0 });
    sample.pictures.insert("tarn-18/pictures/hub.jpg".to_owned(), Picture::Photograph(sizes.to_vec()));
    let copy = copy(&sample);
    let [small, middle, large] = ["480", "960", "1600"].map(|width| format!("tarn-18/pictures/hub-{width}.0123.jpg"));
    assert!(paths(&copy["files"]).contains(&middle.as_str()));
    assert_eq!(paths(&copy["later"]), [large.as_str(), small.as_str()]);
    assert_eq!((copy["instead"][&small].as_str(), copy["instead"][&large].as_str()), (Some(middle.as_str()), Some(middle.as_str())));
}

#[test]
fn each_page_and_sheet_of_a_procedure_has_its_revision() {
    let mut sample = sample();
    sample.manual.machines[0].procedures[1].history.revision = Some(7);
    let revisions = copy(&sample)["revisions"].clone();
    for path in ["tarn-18/pinion.html", "tarn-18/pinion-sheet-early.html", "tarn-18/pinion-sheet-late.html"] {
        assert_eq!(revisions[path], 7, "{path}");
    }
}

fn bench(page: &str) -> Value {
    let (_, rest) = page.split_once("<script type=\"application/json\" id=\"bench-data\">").unwrap();
    serde_json::from_str(rest.split_once("</script>").unwrap().0).unwrap()
}

#[test]
fn every_line_of_a_sheet_is_known_to_the_bench_by_a_key_of_its_own() {
    let page = sample().page("tarn-18/pinion-sheet-late.html");
    let data = bench(&page);
    let known: Vec<&str> = data["acts"].as_array().unwrap().iter().map(|act| act["key"].as_str().unwrap()).collect();
    let rows: Vec<String> = page.split("data-act=\"").skip(1).map(|rest| rest.split('"').next().unwrap().replace("&#x2F;", "/")).collect();
    assert!(rows.len() > 5, "{rows:?}");
    assert_eq!(rows.iter().collect::<BTreeSet<_>>().len(), rows.len(), "a key stands twice");
    for row in &rows {
        assert!(known.contains(&row.as_str()), "{row} is not among {known:?}");
    }
    let nut = data["acts"].as_array().unwrap().iter().find(|act| act["act"] == "torque:pinion-nut").unwrap();
    assert_eq!(nut["value"], "78 N·m");
    assert_eq!((&nut["torque"]["stages"][0]["low"], &nut["torque"]["stages"][0]["unit"]), (&Value::from(78.0), &Value::from("N·m")));
    assert_eq!(data["variant"]["serial"], "late");
}

#[test]
fn an_authors_text_cannot_leave_the_data_block() {
    let mut sample = sample();
    let hostile = "</script><script>alert(1)</script><!--";
    sample.manual.title = hostile.to_owned();
    sample.manual.machines[0].procedures[1].title = hostile.to_owned();
    let page = sample.page("tarn-18/pinion-sheet-late.html");
    assert!(!page.contains("<script>alert"), "it stands in the page as markup");
    let data = bench(&page);
    assert_eq!((data["manual"].as_str(), data["title"].as_str()), (Some(hostile), Some(hostile)));
}

#[test]
fn what_depends_on_an_unknown_variant_is_neither_judged_nor_reckoned() {
    let mut sample = sample();
    let machine = &mut sample.manual.machines[0];
    // So many ways of differing that there is one sheet for all of them.
    let place = machine.axes[0].place.clone();
    for letter in ["a", "b", "c", "d", "e"] {
        let value = |n: u8| AxisValue { name: format!("{letter}{n}"), meaning: String::new(), quantity: None, place: place.clone() };
        machine.axes.push(Axis { name: letter.to_owned(), values: vec![value(1), value(2)], place: place.clone() });
        let mut step = machine.procedures[1].steps[0].clone();
        step.id = format!("extra-{letter}");
        step.number = machine.procedures[1].steps.len() + 1;
        step.only = when(&[(letter, &format!("{letter}1"))]);
        machine.procedures[1].steps.push(step);
    }
    let data = bench(&sample.page("tarn-18/pinion-sheet.html"));
    let nut = data["acts"].as_array().unwrap().iter().find(|act| act["act"] == "torque:pinion-nut").unwrap();
    assert_eq!(nut["torque"]["stages"], Value::Array(Vec::new()));
    assert_eq!(nut["value"], "early 70 N·m, late 78 N·m");
}
