//! The README's pictures: each is there, small, and shown; and what takes them names pages that are there.

#![expect(clippy::unwrap_used, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test reads the pictures, the papers and the published demo")]

use pulldown_cmark::{Event, Parser, Tag};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// What a picture may weigh, in bytes.
const MOST: u64 = 150_000;
/// Where they lie, from the README.
const FOLDER: &str = "docs/pictures/";

fn project() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &str) -> String {
    fs::read_to_string(project().join(path)).unwrap()
}

/// The pictures that the README shows, with the words in their place.
fn shown() -> Vec<(String, String)> {
    let readme = read("README.md");
    let mut found: Vec<(String, String)> = Vec::new();
    let mut inside = false;
    for event in Parser::new_ext(&readme, pulldown_cmark::Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Image { dest_url, .. }) => {
                inside = true;
                found.push((dest_url.to_string(), String::new()));
            }
            Event::Text(text) if inside => found.last_mut().unwrap().1.push_str(&text),
            Event::End(pulldown_cmark::TagEnd::Image) => inside = false,
            _ => {}
        }
    }
    found
}

/// What follows a key in the script that takes the pictures: `page: "…"`.
fn named<'a>(script: &'a str, key: &str) -> Vec<&'a str> {
    script.split(&format!("{key}: \"")).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn the_readme_shows_each_picture_and_each_is_small() {
    let shown = shown();
    let names: BTreeSet<String> = shown.iter().map(|(path, _)| path.clone()).collect();
    let there: BTreeSet<String> = fs::read_dir(project().join(FOLDER)).unwrap().map(|entry| format!("{FOLDER}{}", entry.unwrap().file_name().to_str().unwrap())).collect();
    assert_eq!(names, there);
    assert!(names.len() >= 2, "a page and a sheet");
    for (path, words) in &shown {
        assert!(words.split_whitespace().count() > 5, "{path} says nothing to whoever does not see it: {words:?}");
        assert!(fs::metadata(project().join(path)).unwrap().len() < MOST, "{path} is too heavy");
        let (width, height) = image::image_dimensions(project().join(path)).unwrap();
        assert!((600..1200).contains(&width) && (600..1400).contains(&height), "{path}: {width} × {height}");
    }
}

#[test]
fn what_takes_the_pictures_names_pages_that_are_published() {
    let script = read("tools/take-pictures.mjs");
    let pages = named(&script, "page");
    assert!(pages.len() >= 2, "{pages:?}");
    for page in &pages {
        assert!(Path::new(&project().join("site").join(page)).exists(), "{page} is not published");
    }
    assert!(pages.iter().any(|page| page.contains("-sheet")), "none is a bench sheet");
    let steps = named(&script, "step");
    assert!(!steps.is_empty() && steps.iter().all(|step| read(&format!("site/{}", pages[0])).contains(&format!("id=\"{step}\""))), "{steps:?}");
    let made: BTreeSet<String> = named(&script, "picture").into_iter().map(|name| format!("{FOLDER}{name}")).collect();
    assert_eq!(made, shown().into_iter().map(|(path, _)| path).collect());
}
