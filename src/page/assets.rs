//! What pages and sheets load beside their HTML: one stylesheet and one script each, joined from the theme's parts.

use super::PageFile;
use std::collections::BTreeMap;

/// A part of a stylesheet or script: its path in the theme, and its text there.
type Part = (&'static str, &'static str);

macro_rules! part {
    ($path:literal) => {
        ($path, include_str!(concat!("../../themes/workshop/", $path)))
    };
}

const GROUND: Part = part!("styles/ground.css");
const PAGE_STYLE: Part = part!("styles/page.css");
const PAPER: Part = part!("styles/paper.css");
const LISTS_STYLE: Part = part!("styles/lists.css");
const REVIEW_STYLE: Part = part!("styles/review.css");
const SHEET_PAPER: Part = part!("styles/sheet-paper.css");
/// What only a proof copy shows.
const PROOF: Part = part!("styles/proof.css");
const CORE: Part = part!("scripts/core.js");
const NUMERALS: Part = part!("scripts/numerals.js");
const SAVED: Part = part!("scripts/saved-copy.js");
/// The worker that keeps the whole manual on the device; it is a file of its own at the site's root.
const WORKER: Part = part!("scripts/offline.js");

/// What is loaded, and the parts it is joined from, in this order.
const JOINED: &[(&str, &[Part])] = &[
    ("page.css", &[GROUND, PAGE_STYLE, PROOF, PAPER]),
    ("lists.css", &[GROUND, PAGE_STYLE, LISTS_STYLE, REVIEW_STYLE, PROOF, PAPER]),
    ("sheet.css", &[GROUND, part!("styles/sheet.css"), part!("styles/paper-mark.css"), part!("styles/bench.css"), PROOF, PAPER, SHEET_PAPER]),
    ("book.css", &[GROUND, PAGE_STYLE, LISTS_STYLE, part!("styles/book.css"), PROOF, PAPER, SHEET_PAPER]),
    ("page.js", &[CORE, SAVED, part!("scripts/find.js")]),
    // Loaded when there is something new to tell.
    ("saved-news.css", &[part!("styles/saved-news.css")]),
    ("saved-news.js", &[part!("scripts/saved-news.js")]),
    // Loaded when the search is first used.
    ("search.css", &[part!("styles/search.css")]),
    ("search.js", &[NUMERALS, part!("scripts/search-match.js"), part!("scripts/search.js")]),
    (
        "sheet.js",
        &[
            CORE,
            part!("scripts/storage.js"),
            SAVED,
            NUMERALS,
            part!("scripts/quantities.js"),
            part!("scripts/reckon.js"),
            part!("scripts/wrenches.js"),
            part!("scripts/writings.js"),
            part!("scripts/record.js"),
            part!("scripts/clock.js"),
            part!("scripts/hold.js"),
            part!("scripts/bench.js"),
            part!("scripts/bench-ticks.js"),
            part!("scripts/bench-steps.js"),
            part!("scripts/bench-readings.js"),
            part!("scripts/bench-reckoners.js"),
            part!("scripts/bench-shims.js"),
            part!("scripts/bench-timers.js"),
            part!("scripts/bench-wrenches.js"),
            part!("scripts/bench-deviations.js"),
            part!("scripts/bench-build.js"),
            part!("scripts/bench-go.js"),
            part!("scripts/stale-paper.js"),
        ],
    ),
];

/// What only a proof server adds to its pages.
const AT_DESK: &[(&str, &[Part])] = &[("proof.css", &[part!("styles/proof-desk.css")]), ("proof.js", &[part!("scripts/proof.js")])];

/// What a kind of page loads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Assets {
    /// Path of its stylesheet: the only request that holds up the first view.
    pub style: &'static str,
    /// Path of its script, which waits until the page stands.
    pub script: &'static str,
}

/// What a procedure's page loads.
pub(super) const PAGE: Assets = Assets { style: "page.css", script: "page.js" };
/// What every other page of the manual loads: the first one, machines, tables.
pub(super) const LISTS: Assets = Assets { style: "lists.css", script: "page.js" };
/// What a book loads.
pub(super) const BOOK: Assets = Assets { style: "book.css", script: "page.js" };
/// What a bench sheet loads.
pub(super) const SHEET: Assets = Assets { style: "sheet.css", script: "sheet.js" };

/// Whether a file of a theme takes the place of a part.
pub(super) fn is_part(path: &str) -> bool {
    path == WORKER.0 || JOINED.iter().chain(AT_DESK).flat_map(|(_, parts)| *parts).any(|(known, _)| *known == path)
}

/// The worker's text behind what it is told of the site. The theme's own goes out as it is.
pub(super) fn worker(theme: &BTreeMap<String, Vec<u8>>) -> Vec<u8> {
    let (path, text) = WORKER;
    theme.get(path).cloned().unwrap_or_else(|| condensed(text).into_bytes())
}

/// The joined files. A file of `theme` with a part's path stands in its place.
///
/// `proof_copy` adds what only a proof copy shows.
pub(super) fn files(theme: &BTreeMap<String, Vec<u8>>, proof_copy: bool) -> Vec<PageFile> {
    joined(JOINED, theme, proof_copy)
}

/// Likewise what a proof server adds, by name.
pub(super) fn at_desk(theme: &BTreeMap<String, Vec<u8>>) -> Vec<PageFile> {
    joined(AT_DESK, theme, true)
}

fn joined(all: &[(&str, &[Part])], theme: &BTreeMap<String, Vec<u8>>, proof_copy: bool) -> Vec<PageFile> {
    all.iter()
        .map(|(path, parts)| {
            let mut bytes = Vec::new();
            for (part, text) in parts.iter().filter(|(part, _)| proof_copy || *part != PROOF.0) {
                match theme.get(*part) {
                    // What another hand wrote goes out as it is.
                    Some(own) => bytes.extend_from_slice(own),
                    None if path.ends_with(".css") => bytes.extend_from_slice(tight(&condensed(text)).as_bytes()),
                    None => bytes.extend_from_slice(condensed(text).as_bytes()),
                }
            }
            PageFile { path: (*path).to_owned(), bytes }
        })
        .collect()
}

/// Our own text without what only its authors read: indentation, empty lines, lines that are comments from end to end.
/// A part keeps to that: no text of several lines between quotes, and comments on lines of their own.
fn condensed(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut in_comment = false;
    for line in text.lines().map(str::trim) {
        if in_comment || line.starts_with("/*") {
            in_comment = !line.ends_with("*/");
        } else if !line.is_empty() && !line.starts_with("//") {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

/// A condensed style sheet without the white space that means nothing: beside braces and semicolons, after colons and
/// commas. What stands between quotes stays.
fn tight(css: &str) -> String {
    let mut out = String::with_capacity(css.len());
    let mut quote = None;
    for character in css.chars() {
        if let Some(open) = quote {
            out.push(character);
            if character == open {
                quote = None;
            }
            continue;
        }
        match character {
            '"' | '\'' => {
                quote = Some(character);
                out.push(character);
            }
            ' ' | '\n' => {
                if !out.ends_with(['{', '}', ';', ':', ',', ' ']) && !out.is_empty() {
                    out.push(' ');
                }
            }
            '{' | '}' => {
                while out.ends_with([' ', ';']) {
                    out.pop();
                }
                out.push(character);
            }
            _ => out.push(character),
        }
    }
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_indentation_are_left_out_and_nothing_else() {
        let text = "/* About\n   this. */\n\na { b: c; }\n/* one line */\n@media print {\n  a { d: e; }\n}\n// why\nlet x = \"/* no */\"; // kept\n";
        assert_eq!(condensed(text), "a { b: c; }\n@media print {\na { d: e; }\n}\nlet x = \"/* no */\"; // kept\n");
    }

    #[test]
    fn a_style_sheet_keeps_every_space_that_means_something() {
        let css = "@media (min-width: 4rem) and (x) {\n.a > .b, .c .d::before { content: \"a: ; {\"; margin: -1px calc(1px + 2px); }\n}\n:root { --a: b; }\n";
        let tightened = "@media (min-width:4rem) and (x){.a > .b,.c .d::before{content:\"a: ; {\";margin:-1px calc(1px + 2px)}}:root{--a:b}\n";
        assert_eq!(tight(css), tightened);
    }

    #[test]
    fn no_part_hides_code_behind_a_comment() {
        for (path, text) in JOINED.iter().chain(AT_DESK).flat_map(|(_, parts)| *parts).chain([&WORKER]) {
            for line in text.lines().map(str::trim) {
                let code_follows = line.split_once("*/").is_some_and(|(_, rest)| !rest.trim().is_empty());
                assert!(!(line.starts_with("/*") && code_follows), "{path}: {line}");
                assert!(!line.contains('`') || line.matches('`').count() % 2 == 0, "{path}: a text of several lines: {line}");
            }
        }
    }

    #[test]
    fn a_part_of_a_theme_stands_in_for_the_built_in_one() {
        let theme = BTreeMap::from([("styles/page.css".to_owned(), b"p { color: black }\n".to_vec())]);
        let page = files(&theme, false).into_iter().find(|file| file.path == "page.css").map(|file| file.bytes).unwrap_or_default();
        let text = String::from_utf8(page).unwrap_or_default();
        assert!(text.contains("p { color: black }") && text.contains("--paper:#fff") && !text.contains(".strip ol"), "{text}");
    }
}
