//! Photographs in a published manual: what a page says of them, that nothing is made twice, and what damaged ones lead to.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and makes real folders")]

mod photograph_sample;
mod site_compare;

use photograph_sample::{Beside, Kind, file, quarters, scene};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};
use std::time::SystemTime;
use tempfile::TempDir;

/// A small manual with photographs, and where it is published.
struct Trial {
    _folder: TempDir,
    manual: PathBuf,
    site: PathBuf,
}

impl Trial {
    fn new(pictures: &[(&str, Vec<u8>)]) -> Self {
        let folder = TempDir::new().unwrap();
        let (manual, site) = (folder.path().join("manual"), folder.path().join("site"));
        fs::create_dir_all(manual.join("tarn/pictures")).unwrap();
        fs::write(manual.join("manual.yaml"), "title: Trial\npublisher: Trial Society (invented)\nlanguage: en-GB\nprofile: working\n").unwrap();
        fs::write(manual.join("tarn/machine.yaml"), "name: Tarn\nmaker: Orrinshaw (invented)\nkind: outboard motor\nrevision: 1\ndate: 2026-09-14\n").unwrap();
        let mut page = "---\ntitle: The hub\nrevision: 1\ndate: 2026-09-14\n---\n".to_owned();
        for (name, bytes) in pictures {
            let id = name.split('.').next().unwrap();
            page += &format!("\n## Look at {id} {{#{id}}}\n\nLook at it from above.\n\n![The hub from above, marks upward, view {id}](pictures/{name})\n");
            fs::write(manual.join("tarn/pictures").join(name), bytes).unwrap();
        }
        fs::write(manual.join("tarn/hub.md"), page).unwrap();
        Self { _folder: folder, manual, site }
    }

    fn put(&self, name: &str, bytes: &[u8]) {
        fs::write(self.manual.join("tarn/pictures").join(name), bytes).unwrap();
    }

    fn bind(&self, more: &[&str]) -> Output {
        let arguments = ["bind", self.manual.to_str().unwrap(), "--into", self.site.to_str().unwrap()];
        Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(arguments).args(more).output().unwrap()
    }

    fn bound(&self) -> String {
        let run = self.bind(&[]);
        assert!(run.status.success(), "{}{}", text(&run.stdout), text(&run.stderr));
        text(&run.stdout)
    }

    /// The published pictures with the times they were written at.
    fn pictures(&self) -> BTreeMap<String, SystemTime> {
        let entries = fs::read_dir(self.site.join("tarn/pictures")).unwrap().map(|entry| entry.unwrap());
        entries.map(|entry| (entry.file_name().to_str().unwrap().to_owned(), entry.metadata().unwrap().modified().unwrap())).collect()
    }

    fn page(&self) -> String {
        fs::read_to_string(self.site.join("tarn/hub.html")).unwrap()
    }
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn photograph(width: u32) -> Vec<u8> {
    file(&scene(width, 400), Kind::Jpeg, &Beside::default())
}

#[test]
fn a_page_lists_the_sizes_and_only_the_first_picture_does_not_wait() {
    let trial = Trial::new(&[("a.jpg", photograph(1700)), ("b.jpg", photograph(300)), ("c.png", file(&quarters(200, 100), Kind::Png, &Beside::default()))]);
    trial.bound();
    let page = trial.page();
    let tag = |from: &str| page.split("<img ").find(|tag| tag.contains(from)).unwrap().split('>').next().unwrap().to_owned();
    let first = tag("view a");
    for width in [480, 960, 1600] {
        let name = trial.pictures().into_keys().find(|name| name.starts_with(&format!("a-{width}."))).unwrap();
        assert!(first.contains(&format!("pictures/{name} {width}w")), "{first}");
    }
    assert!(first.contains("width=\"1600\" height=\"376\"") && first.contains("decoding=\"async\"") && first.contains("sizes=\"") && !first.contains("loading"), "{first}");
    for (other, size) in [("view b", "width=\"300\" height=\"400\""), ("view c", "width=\"200\" height=\"100\"")] {
        let tag = tag(other);
        assert!(tag.contains(size) && tag.contains("loading=\"lazy\"") && !tag.contains("srcset"), "{tag}");
    }
    assert_eq!(page.matches("class=\"paper-only\"").count(), 1);
}

#[test]
fn an_unchanged_photograph_is_kept_and_a_changed_one_replaced() {
    let trial = Trial::new(&[("a.jpg", photograph(1700)), ("b.jpg", photograph(700))]);
    trial.bound();
    let before = trial.pictures();
    assert_eq!(before.len(), 5);
    assert!(trial.bound().contains(" 0 files written"));
    assert_eq!(trial.pictures(), before);
    trial.put("b.jpg", &photograph(710));
    let told = trial.bound();
    // Two sizes, the page and the two books that name them, and the list of what a device keeps; two sizes gone.
    assert!(told.contains(" 6 files written") && told.contains(" 2 removed"), "{told}");
    let after = trial.pictures();
    assert_eq!(after.len(), 5);
    assert!(before.iter().filter(|(name, _)| name.starts_with("a-")).all(|(name, time)| after.get(name) == Some(time)));
    assert!(before.keys().filter(|name| name.starts_with("b-")).all(|name| !after.contains_key(name)));
}

#[test]
fn a_rendition_that_another_hand_changed_or_took_is_made_anew() {
    let trial = Trial::new(&[("a.jpg", photograph(700))]);
    trial.bound();
    let name = trial.pictures().into_keys().next().unwrap();
    let path = trial.site.join("tarn/pictures").join(&name);
    let right = fs::read(&path).unwrap();
    fs::write(&path, b"spoilt").unwrap();
    assert!(trial.bound().contains(" 1 files written"));
    assert_eq!(fs::read(&path).unwrap(), right);
    fs::remove_file(&path).unwrap();
    assert!(trial.bound().contains(" 1 files written"));
    assert_eq!(fs::read(&path).unwrap(), right);
}

/// A PNG whose chunks are all there, one of them with a wrong checksum.
fn damaged() -> Vec<u8> {
    let mut bytes = file(&scene(200, 150), Kind::Png, &Beside::default());
    let middle = bytes.len() / 2;
    bytes[middle..middle + 16].fill(0);
    bytes
}

#[test]
fn damage_behind_the_header_is_a_finding_that_stops_and_a_proof_copy_shows_the_rest() {
    let trial = Trial::new(&[("a.jpg", photograph(700)), ("b.png", damaged())]);
    let run = trial.bind(&[]);
    assert_eq!(run.status.code(), Some(1), "{}", text(&run.stderr));
    assert!(text(&run.stdout).contains("picture-unreadable") && text(&run.stdout).contains("tarn/pictures/b.png"), "{}", text(&run.stdout));
    assert!(text(&run.stderr).contains("Nothing was published") && !trial.site.exists());
    let run = trial.bind(&["--format", "json"]);
    let report: serde_json::Value = serde_json::from_slice(&run.stdout).unwrap();
    assert!(report.to_string().contains("tarn/pictures/b.png"));
    assert_eq!(trial.bind(&["--proof-copy"]).status.code(), Some(1));
    let page = trial.page();
    assert!(page.contains("Picture missing:</strong> The hub from above, marks upward, view b") && page.contains("view a\""), "{page}");
}

#[test]
fn a_photograph_under_a_wrong_ending_is_told_and_shown() {
    let trial = Trial::new(&[("a.png", photograph(700)), ("b.JPEG", file(&scene(500, 300), Kind::WebP, &Beside::default()))]);
    let told = trial.bound();
    assert_eq!(told.matches("picture-misnamed").count(), 2, "{told}");
    assert!(trial.pictures().keys().all(|name| name.ends_with(".jpg")));
}

#[test]
fn one_photograph_under_two_endings_is_published_once() {
    let trial = Trial::new(&[("a.jpg", photograph(300)), ("a.jpeg", photograph(300))]);
    fs::write(trial.manual.join("tarn/hub.md"), "---\ntitle: The hub\nrevision: 1\ndate: 2026-09-14\n---\n\n## Look {#look}\n\n![The hub from above](pictures/a.jpg)\n\n![The hub from above again](pictures/a.jpeg)\n").unwrap();
    trial.bound();
    assert_eq!(trial.pictures().len(), 1);
}

#[test]
fn sites_are_compared_by_pixels_where_there_are_photographs_and_to_the_byte_elsewhere() {
    let jpeg = |change: i16| {
        let mut picture = scene(200, 150);
        for pixel in picture.pixels_mut() {
            for channel in &mut pixel.0 {
                *channel = u8::try_from((i16::from(*channel) + change).clamp(0, 255)).unwrap();
            }
        }
        file(&picture, Kind::Jpeg, &Beside::default())
    };
    let site = |photograph: Vec<u8>, page: &str| {
        let hash = format!("{}", photograph.len());
        let record = format!("{{\"files\":{{\"a.jpg\":\"{hash}\",\"b.html\":\"{page}\"}}}}");
        BTreeMap::from([("a.jpg".to_owned(), photograph), ("b.html".to_owned(), page.into()), (".benchleaf-record.json".to_owned(), record.into_bytes())])
    };
    let compare = |other| site_compare::differences(&site(jpeg(0), "page"), &other);
    assert_eq!(compare(site(jpeg(0), "page")), Vec::<String>::new());
    let one_off = jpeg(1);
    assert_ne!(one_off, jpeg(0));
    assert_eq!(compare(site(one_off, "page")), Vec::<String>::new());
    assert_eq!(compare(site(jpeg(6), "page")), ["a.jpg"]);
    assert_eq!(compare(site(photograph(200), "page")), ["a.jpg"]);
    assert_eq!(compare(site(b"no picture".to_vec(), "page")), ["a.jpg"]);
    assert_eq!(compare(site(jpeg(0), "Page")), [".benchleaf-record.json", "b.html"]);
    let mut less = site(jpeg(0), "page");
    less.remove("a.jpg");
    assert_eq!(compare(less), ["a.jpg"]);
}
