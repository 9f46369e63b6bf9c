//! The message catalogue holds every key that is used, and no other.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test reads the sources of the pages")]

use std::collections::BTreeSet;
use std::path::Path;

fn read(folder: &str, ending: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut names: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    names.sort();
    let wanted = names.iter().filter(|name| name.extension().is_some_and(|e| e == ending));
    wanted.map(|name| std::fs::read_to_string(name).unwrap()).collect()
}

fn english() -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("themes/workshop/messages/en.ftl")).unwrap()
}

fn catalogue() -> BTreeSet<String> {
    let text = english();
    text.lines()
        .filter(|line| line.starts_with(|c: char| c.is_ascii_lowercase()))
        .filter_map(|line| line.split_once(" =").map(|(key, _)| key.to_owned()))
        .collect()
}

/// The texts in quotes after each `mark`, up to the closing quote.
fn quoted_after<'t>(text: &'t str, mark: &str) -> Vec<&'t str> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices(mark) {
        let rest = text[at + mark.len()..].trim_start();
        if let Some(inner) = rest.strip_prefix('"') {
            found.extend(inner.split('"').next());
        }
    }
    found
}

/// Every text in quotes that could be a key.
fn literals(text: &str) -> BTreeSet<&str> {
    let is_key = |part: &&str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_lowercase() || b == b'-');
    text.split('"').filter(is_key).collect()
}

struct Used {
    keys: BTreeSet<String>,
    families: BTreeSet<String>,
    literals: BTreeSet<String>,
}

fn used() -> Used {
    let mut used = Used { keys: BTreeSet::new(), families: BTreeSet::new(), literals: BTreeSet::new() };
    for template in read("themes/workshop/templates", "html") {
        used.keys.extend(quoted_after(&template, "key=").into_iter().map(str::to_owned));
    }
    for code in read("src/page", "rs") {
        let code = code.split("#[cfg(test)]").next().unwrap_or("").to_owned();
        for mark in ["say(", "say_with(", "title_block("] {
            used.keys.extend(quoted_after(&code, mark).into_iter().map(str::to_owned));
        }
        for mark in ["words.of(", "words("] {
            used.families.extend(quoted_after(&code, mark).into_iter().map(str::to_owned));
        }
        used.literals.extend(literals(&code).into_iter().map(str::to_owned));
    }
    used
}

#[test]
fn every_key_that_is_used_stands_in_the_catalogue() {
    let (used, known) = (used(), catalogue());
    let missing: Vec<_> = used.keys.iter().filter(|key| !known.contains(*key)).collect();
    assert!(missing.is_empty(), "not in the catalogue: {missing:?}");
    assert!(used.keys.len() > 100, "the scan has found too little: {}", used.keys.len());
    for family in &used.families {
        let begins = format!("{family}-");
        assert!(known.iter().any(|key| key.starts_with(&begins)), "no word of the family {family}");
    }
    // Headings and captions are handed on before they are said.
    let handed_on = ["col-", "table-", "tables-", "about-", "have-"];
    for literal in used.literals.iter().filter(|l| handed_on.iter().any(|begins| l.starts_with(begins))) {
        assert!(known.contains(literal), "not in the catalogue: {literal}");
    }
}

#[test]
fn every_key_of_the_catalogue_is_used() {
    let used = used();
    // Families that the review chooses between before it says a word of one.
    let chosen = ["part-kind", "test-kind", "metal", "flag"].map(str::to_owned);
    assert!(chosen.iter().all(|family| used.literals.contains(family)), "chosen nowhere: {chosen:?}");
    let of_family = |key: &str| used.families.iter().chain(&chosen).any(|family| key.starts_with(&format!("{family}-")));
    let idle: Vec<_> = catalogue()
        .into_iter()
        .filter(|key| !used.keys.contains(key) && !used.literals.contains(key) && !of_family(key))
        .collect();
    assert!(idle.is_empty(), "used nowhere: {idle:?}");
}

#[test]
fn the_standing_caution_is_word_for_word() {
    let text = english();
    let caution = "The values here come from the publisher named above. They may be wrong for your machine. The \
                   maker's service data, local codes and a qualified person decide. This manual checks values for \
                   plausibility and consistency, never for correctness.";
    assert!(text.contains(&format!("\ncaution = {caution}\n")));
}

#[test]
fn no_template_holds_words_of_its_own_or_trusts_an_author() {
    for template in read("themes/workshop/templates", "html") {
        assert!(!template.contains("| safe") && !template.contains("|safe"), "a template trusts a text: {template}");
        let mut outside = String::new();
        let mut rest = template.as_str();
        // What is left without tags, expressions and comments is text.
        while let Some(open) = rest.find(['<', '{']) {
            outside.push_str(&rest[..open]);
            let close = match &rest[open..] {
                tag if tag.starts_with("{{") => "}}",
                tag if tag.starts_with("{%") => "%}",
                comment if comment.starts_with("{#") => "#}",
                tag if tag.starts_with('<') && tag[1..].starts_with(|c: char| c == '/' || c == '!' || c.is_ascii_lowercase()) => ">",
                _ => "",
            };
            let end = if close.is_empty() { open + 1 } else { end_of(rest, open, close) };
            rest = &rest[end..];
        }
        outside.push_str(rest);
        assert!(!outside.chars().any(char::is_alphabetic), "words in a template: {:?}", outside.split_whitespace().collect::<Vec<_>>());
    }
}

/// Where the tag or expression ends that opens at `open`; expressions inside a tag are part of it.
fn end_of(text: &str, open: usize, close: &str) -> usize {
    if close != ">" {
        return text[open..].find(close).map_or(text.len(), |i| open + i + close.len());
    }
    let mut at = open;
    loop {
        let Some(next) = text[at..].find(['>', '{']).map(|i| at + i) else { return text.len() };
        if text[next..].starts_with('>') {
            return next + 1;
        }
        let close = if text[next..].starts_with("{{") { "}}" } else { "%}" };
        at = text[next..].find(close).map_or(text.len(), |i| next + i + close.len());
    }
}
