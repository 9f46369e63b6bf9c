//! The braces of a heading: `{#carrier time=10min at=8:20 for=shaft-L}`.

use super::report::{Report, Slice, excerpt};
use super::spelled_id::{id_within, is_id};
use super::rules::{DOUBLED_KEY, NAME_NOT_AN_ID, STEP_ATTRIBUTE_UNKNOWN, STEP_BRACES_BROKEN};
use crate::finding::{Finding, Place};
use std::ops::Range;

/// The keys a step's braces may hold.
const KEYS: [&str; 3] = ["time", "at", "for"];

/// What the braces of a step's heading say.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Braces {
    pub(super) id: Option<(String, Place)>,
    pub(super) attributes: Vec<(String, String, Place)>,
}

/// Reads the braces of a step's heading. `heading` is its span; `recognised` tells whether Markdown took
/// the braces for such, and did not leave them in the words.
pub(super) fn read(slice: &Slice, heading: Range<usize>, recognised: bool, report: &mut Report) -> Braces {
    let mut braces = Braces::default();
    let line = words_line(slice, heading);
    let Some(span) = find(slice, &line, recognised) else {
        return braces;
    };
    let whole = slice.get(span.clone());
    let closed = whole.ends_with('}');
    if !recognised {
        report.add(broken(slice, &line, &span, closed));
    }
    let inner = span.start + 1..if closed { span.end - 1 } else { span.end };
    let mut said_broken = !recognised;
    for token in tokens(slice.get(inner.clone())) {
        let token = inner.start + token.start..inner.start + token.end;
        read_token(slice, token, &mut braces, &mut said_broken, report);
    }
    braces
}

/// Whether the words of a heading hold braces that Markdown did not take for such.
pub(super) fn left_in_words(title: &str) -> bool {
    title.contains("{#") || title.trim_end().ends_with('}')
}

/// The title without braces that Markdown left in it.
pub(super) fn title_without_braces(title: &str) -> String {
    let Some(start) = title.find("{#").or_else(|| title.rfind('{')) else {
        return title.trim().to_owned();
    };
    let after = title.get(start..).and_then(|rest| rest.split_once('}')).map_or("", |(_, after)| after);
    let before = title.get(..start).unwrap_or("").trim();
    format!("{before} {}", after.trim()).trim().to_owned()
}

/// An id made of a title's words, to be offered.
pub(super) fn id_from(title: &str) -> String {
    id_or(title, "step-name")
}

/// An id made of a name's words, to be offered; where none of its letters can stand in an id, these words.
pub(super) fn id_or(name: &str, otherwise: &str) -> String {
    Some(id_within(name, 32)).filter(|id| !id.is_empty()).unwrap_or_else(|| otherwise.to_owned())
}

/// The line of a heading that may end in braces: without the closing `#` of one style and the underline of
/// the other.
fn words_line(slice: &Slice, heading: Range<usize>) -> Range<usize> {
    let written = slice.get(heading.clone());
    let mut end = heading.start + written.trim_end().len();
    if !written.trim_start().starts_with('#') {
        let body = slice.get(heading.start..end);
        end = heading.start + body.rfind('\n').map_or(body, |at| body.get(..at).unwrap_or("")).trim_end().len();
    }
    let body = slice.get(heading.start..end);
    let without_marks = body.trim_end_matches('#');
    if without_marks.len() < body.len() && without_marks.ends_with([' ', '\t', '}']) {
        end = heading.start + without_marks.trim_end().len();
    }
    let start = slice.get(heading.start..end).rfind('\n').map_or(heading.start, |at| heading.start + at + 1);
    start..end
}

fn find(slice: &Slice, line: &Range<usize>, recognised: bool) -> Option<Range<usize>> {
    let written = slice.get(line.clone());
    let start = if recognised { written.rfind('{') } else { written.find("{#").or_else(|| written.rfind('{')) }?;
    let end = written.get(start..)?.find('}').map_or(written.len(), |at| start + at + 1);
    Some(line.start + start..line.start + end)
}

fn broken(slice: &Slice, line: &Range<usize>, span: &Range<usize>, closed: bool) -> Finding {
    let inner = slice.get(span.clone());
    let (label, fix) = if !closed {
        ("opened here and not closed", "close them with ‘}’ at the end of the heading".to_owned())
    } else if span.end < line.end {
        ("words follow behind these", "put the braces at the end of the heading".to_owned())
    } else if inner.contains(['"', '\'', '“', '”', '‘', '’']) {
        ("quotes don't survive here", "leave the quotes out and write no spaces: ‘{#carrier time=10min}’".to_owned())
    } else {
        ("not read as braces", "write them as ‘{#carrier time=10min}’ at the end of the heading".to_owned())
    };
    Finding::new(&STEP_BRACES_BROKEN, slice.place(span.clone()), "the braces of this heading are read as plain words")
        .label(label)
        .fix(fix)
}

fn read_token(slice: &Slice, span: Range<usize>, braces: &mut Braces, said_broken: &mut bool, report: &mut Report) {
    let token = slice.get(span.clone());
    let place = slice.place(span.clone());
    if let Some(id) = token.strip_prefix('#') {
        let id = id.trim_matches(['"', '\'', ',']);
        let place = slice.place(span.start + 1..span.start + 1 + id.len());
        read_id(id, place, braces, report);
    } else if token.starts_with('.') {
        report.add(
            unknown(place, token, "a class means nothing in a manual").fix(format!("take ‘{}’ out", excerpt(token))),
        );
    } else if let Some((key, value)) = token.split_once('=') {
        let value_place = slice.place(span.start + key.len() + 1..span.end);
        if key.is_empty() || value.is_empty() || value.contains(['"', '\'', '“', '”']) {
            if !*said_broken {
                report.add(split(place, token));
            }
            *said_broken = true;
        } else if !KEYS.contains(&key) {
            let nearest = nearest(key);
            let key_place = slice.place(span.start..span.start + key.len());
            report.add(
                unknown(key_place, key, "this key is unknown")
                    .fix(format!("did you mean ‘{nearest}={}’? The keys are time, at and for", excerpt(value))),
            );
        } else if let Some((_, _, first)) = braces.attributes.iter().find(|(known, _, _)| known == key) {
            report.add(
                Finding::new(&DOUBLED_KEY, place, format!("‘{key}’ stands twice on this heading"))
                    .label("the second, left out")
                    .related(first.clone(), "the first, kept")
                    .fix("keep one of them"),
            );
        } else {
            braces.attributes.push((key.to_owned(), value.to_owned(), value_place));
        }
    } else if !*said_broken {
        *said_broken = true;
        report.add(split(place, token));
    }
}

fn read_id(id: &str, place: Place, braces: &mut Braces, report: &mut Report) {
    if let Some((first, first_place)) = &braces.id {
        report.add(
            unknown(place, id, "a step has one id, and this is its second")
                .related(first_place.clone(), format!("the first, ‘{first}’, kept"))
                .fix("remove one of the two"),
        );
        return;
    }
    if id.is_empty() {
        return;
    }
    if !is_id(id) {
        report.add(
            Finding::new(&NAME_NOT_AN_ID, place.clone(), format!("‘{}’ can't be an id", excerpt(id)))
                .label("not lower-case words joined by hyphens")
                .fix(format!("write ‘{{#{}}}’", id_from(id))),
        );
    }
    braces.id = Some((id.to_owned(), place));
}

fn unknown(place: Place, written: &str, label: &str) -> Finding {
    Finding::new(&STEP_ATTRIBUTE_UNKNOWN, place, format!("‘{}’ means nothing on a heading", excerpt(written)))
        .label(label)
}

fn split(place: Place, token: &str) -> Finding {
    Finding::new(&STEP_BRACES_BROKEN, place, format!("‘{}’ stands alone in the braces", excerpt(token)))
        .label("split off by a space, or kept with its quotes")
        .fix("write key=value without spaces and quotes: ‘time=10min’, ‘at=8:20–9:05’, ‘for=shaft-L,start-E’")
}

fn nearest(key: &str) -> &'static str {
    KEYS.into_iter().min_by_key(|known| strsim::damerau_levenshtein(known, &key.to_ascii_lowercase())).unwrap_or("time")
}

fn tokens(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut at = 0;
    text.split(char::is_whitespace).filter_map(move |token| {
        let start = at;
        at += token.len()
            + text.get(start + token.len()..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        (!token.is_empty()).then_some(start..start + token.len())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::FileTable;

    fn braces(heading: &str, recognised: bool) -> (Option<String>, Vec<String>, Vec<&'static str>) {
        let file = FileTable::default().add("x.md", "");
        let slice = Slice::whole(file, heading);
        let mut report = Report::default();
        let braces = read(&slice, 0..heading.len(), recognised, &mut report);
        for (key, value, place) in &braces.attributes {
            assert_eq!(&heading[place.start..place.end], value, "{key}");
        }
        if let Some((id, place)) = &braces.id {
            assert_eq!(&heading[place.start..place.end], id);
        }
        (
            braces.id.map(|(id, _)| id),
            braces.attributes.into_iter().map(|(key, value, _)| format!("{key}={value}")).collect(),
            report.into_findings().iter().map(|f| f.rule().name).collect(),
        )
    }

    fn reads(heading: &str, id: &str, attributes: &[&str]) {
        let (found, list, rules) = braces(heading, true);
        assert_eq!(found.as_deref(), Some(id), "{heading}");
        assert_eq!(list, attributes, "{heading}");
        assert!(rules.is_empty(), "{heading}: {rules:?}");
    }

    #[test]
    fn reads_braces() {
        reads("## Fit {#carrier}\n", "carrier", &[]);
        reads(
            "## Fit {#a time=10min at=8:20–9:05 for=shaft-L,start-E} ##\n",
            "a",
            &["time=10min", "at=8:20–9:05", "for=shaft-L,start-E"],
        );
        reads("Fit it\nnow {#a time=5min}\r\n-----\r\n", "a", &["time=5min"]);
        reads("## Fit { #a  time=1min }\n", "a", &["time=1min"]);
    }

    #[test]
    fn faults() {
        let cases: [(&str, bool, Option<&str>, &[&str]); 12] = [
            ("## Fit\n", false, None, &[]),
            ("## Fit {#a time=10 min}\n", true, Some("a"), &["step-braces-broken"]),
            ("## Fit {#a time = 10min}\n", true, Some("a"), &["step-braces-broken"]),
            ("## Fit {#a x=\"b c\"}\n", false, Some("a"), &["step-braces-broken"]),
            ("## Fit {#a time=10min\n", false, Some("a"), &["step-braces-broken"]),
            ("## Fit {#a} more\n", false, Some("a"), &["step-braces-broken"]),
            ("## Fit {#a fro=shaft-L}\n", true, Some("a"), &["step-attribute-unknown"]),
            ("## Fit {#a .big}\n", true, Some("a"), &["step-attribute-unknown"]),
            ("## Fit {#a #b}\n", true, Some("a"), &["step-attribute-unknown"]),
            ("## Fit {#a time=1min time=2min}\n", true, Some("a"), &["doubled-key"]),
            ("## Fit {#Big_One}\n", true, Some("Big_One"), &["name-not-an-id"]),
            ("## Fit {a}\n", true, None, &["step-braces-broken"]),
        ];
        for (heading, recognised, id, rules) in cases {
            let (found, _, named) = braces(heading, recognised);
            assert_eq!(found.as_deref(), id, "{heading}");
            assert_eq!(named, rules, "{heading}");
        }
    }

    #[test]
    fn names() {
        assert_eq!(id_from("Fit the “carrier” (dry)"), "fit-the-carrier-dry");
        assert_eq!(id_from("÷"), "step-name");
        assert_eq!(title_without_braces("Fit {#a x=\"b\"}"), "Fit");
        assert_eq!(title_without_braces("Fit {#a} more"), "Fit more");
        assert_eq!(nearest("fro"), "for");
        assert_eq!(nearest("tim"), "time");
    }
}
