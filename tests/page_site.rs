//! The site as a whole: its files, their links, the same bytes every time.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use benchleaf::figure::{Picture, Rendition};
use benchleaf::page::PageFile;
use page_sample::sample;
use std::collections::{BTreeMap, BTreeSet};

const CAUTION: &str = "The values here come from the publisher named above. They may be wrong for your machine. The maker&#39;s \
                       service data, local codes and a qualified person decide. This manual checks values for plausibility and \
                       consistency, never for correctness.";

fn pages(files: &[PageFile]) -> BTreeMap<&str, &str> {
    let html = files.iter().filter(|file| file.path.ends_with(".html"));
    html.map(|file| (file.path.as_str(), std::str::from_utf8(&file.bytes).unwrap())).collect()
}

fn attributes<'t>(html: &'t str, name: &str) -> Vec<&'t str> {
    let mark = format!(" {name}=\"");
    html.match_indices(&mark).filter_map(|(at, _)| html[at + mark.len()..].split('"').next()).collect()
}

/// The path of the site that a relative link on `page` leads to, and its anchor.
fn target(page: &str, link: &str) -> (String, Option<String>) {
    let (path, anchor) = link.split_once('#').map_or((link, None), |(path, anchor)| (path, Some(anchor.to_owned())));
    if path.is_empty() {
        return (page.to_owned(), anchor);
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        if part == ".." { parts.pop().map(|_| ()).expect("a link that leaves the site") } else { parts.push(part) }
    }
    (parts.join("/"), anchor)
}

#[test]
fn the_same_files_come_out_with_one_thread_and_with_many() {
    let mut sample = sample();
    let one = sample.publish().unwrap();
    for threads in [0, 2, 4, 64] {
        sample.threads = threads;
        assert_eq!(one, sample.publish().unwrap(), "{threads} threads");
    }
    assert!(one.windows(2).all(|pair| pair[0].path < pair[1].path));
}

#[test]
fn every_link_leads_to_a_page_of_the_site_and_to_an_anchor_on_it() {
    let sample = sample();
    let files = sample.publish().unwrap();
    let pictures = sample.pictures.values().flat_map(Picture::renditions).map(|picture| picture.path.as_str());
    let all: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).chain(pictures).collect();
    let pages = pages(&files);
    let mut followed = 0;
    for (page, html) in &pages {
        for link in attributes(html, "href").into_iter().chain(attributes(html, "src")) {
            if link.starts_with("https://films.example/") {
                continue;
            }
            let (path, anchor) = target(page, link);
            assert!(all.contains(path.as_str()), "{page}: {link} leads nowhere");
            if let Some(anchor) = anchor {
                let ids = attributes(pages[path.as_str()], "id");
                assert!(ids.contains(&anchor.as_str()), "{page}: no {anchor} on {path}");
            }
            followed += 1;
        }
    }
    assert!(followed > 300, "{followed}");
}

#[test]
fn every_page_stands_alone_without_inline_script_or_style() {
    for (page, html) in pages(&sample().publish().unwrap()) {
        assert!(html.starts_with("<!doctype html>\n<html lang=\"en-GB\">"), "{page}");
        assert_eq!(html.matches("<h1").count(), 1, "{page}");
        assert_eq!(html.matches("<main").count(), 1, "{page}");
        assert!(html.contains("class=\"skip\" href=\"#page.content\""), "{page}");
        assert!(html.contains(CAUTION), "{page}");
        assert!(html.contains("Sallow Reach Ferry &amp; Slipway Society (invented)"), "{page}: no publisher above the caution");
        let scripts: Vec<&str> = html.split("<script").skip(1).map(|rest| rest.split('>').next().unwrap_or_default()).collect();
        let allowed = [" defer src=\"", " type=\"application/json\"", " type=\"application/ld+json\""];
        assert!(scripts.iter().all(|tag| allowed.iter().any(|start| tag.starts_with(start))), "{page}: {scripts:?}");
        for forbidden in ["<style", " style=", " onclick=", "javascript:", "{{", "{%", "PROOF"] {
            assert!(!html.contains(forbidden), "{page}: {forbidden}");
        }
        let ids = attributes(html, "id");
        assert_eq!(ids.len(), ids.iter().collect::<BTreeSet<_>>().len(), "{page}: an id stands twice");
    }
}

#[test]
fn headings_never_skip_a_level() {
    for (page, html) in pages(&sample().publish().unwrap()) {
        let mut last = 0;
        for (at, _) in html.match_indices("<h") {
            let Some(level) = html[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else { continue };
            assert!(level <= last + 1, "{page}: h{level} after h{last}");
            last = level;
        }
    }
}

#[test]
fn drawings_are_shown_at_their_size() {
    let page = sample().page("tarn-18/carrier.html");
    assert!(page.contains("<img src=\"pictures/carrier.svg\" width=\"640\" height=\"240\" alt=\"The upper half of the carrier"));
}

#[test]
fn a_picture_on_a_pages_path_is_an_error() {
    let mut sample = sample();
    let rendition = Rendition { path: "tarn-18/carrier.html".to_owned(), width: 1, height: 1, bytes: None, length: 0 };
    sample.pictures.insert("tarn-18/pictures/odd.svg".to_owned(), Picture::Drawing(rendition));
    let error = sample.publish().unwrap_err();
    assert!(error.to_string().contains("tarn-18/carrier.html"), "{error}");
}

#[test]
fn a_picture_that_could_not_be_read_is_said_to_be_missing() {
    let mut sample = sample();
    sample.pictures.clear();
    let page = sample.page("tarn-18/carrier.html");
    assert!(page.contains("Picture missing:</strong> The upper half") && !page.contains("<img"));
}

#[test]
fn two_pages_on_one_path_are_an_error_and_not_a_lost_page() {
    let mut sample = sample();
    let copy = sample.manual.machines[0].procedures[0].clone();
    sample.manual.machines[0].procedures.push(copy);
    let error = sample.publish().unwrap_err();
    assert!(error.to_string().contains("tarn-18/carrier"), "{error}");
}
