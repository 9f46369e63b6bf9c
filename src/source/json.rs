//! A build record's JSON (RFC 8259) into nodes with places. What JSON can't be is a finding and a hole.
//!
//! A text is a quoted scalar, a number, `true` and `false` are plain ones, `null` is a plain scalar without text.

use super::node::{Node, Pair, Scalar, Value};
use super::report::{Report, Slice, excerpt};
use super::rules::RECORD_UNREADABLE;
use super::yaml::doubled;
use crate::finding::{Finding, Place, Severity};
use jsonc_parser::ast::{self, ObjectPropName};
use jsonc_parser::common::{Range, Ranged};
use jsonc_parser::{CollectOptions, ParseOptions};
use serde::de::IgnoredAny;
use std::collections::BTreeMap;

/// Lists and maps within each other. A record has five.
const DEEPEST: usize = 16;

/// Reads a record, whose top must be a map.
pub(super) fn read_map(slice: &Slice, report: &mut Report) -> Node {
    // Judged by a strict reader first, which bounds the depth: the one below knows the places, and lets more through.
    if let Err(error) = serde_json::from_str::<IgnoredAny>(slice.text) {
        report.add(broken(slice, &error));
        return hole(slice, 0..0);
    }
    let options = ParseOptions {
        allow_comments: false,
        allow_loose_object_property_names: false,
        allow_trailing_commas: false,
        allow_missing_commas: false,
        allow_single_quoted_strings: false,
        allow_hexadecimal_numbers: false,
        allow_unary_plus_numbers: false,
        allow_bare_decimal_point_numbers: false,
        allow_non_finite_numbers: false,
        allow_extended_string_escapes: false,
    };
    let parsed = jsonc_parser::parse_to_ast(slice.text, &CollectOptions::default(), &options);
    let top = match parsed {
        Ok(parsed) => parsed.value,
        Err(error) => {
            let at = error.range().start;
            report.add(fault(slice, at, "this is no JSON").figure(error.kind().to_string()));
            return hole(slice, 0..0);
        }
    };
    match top {
        Some(top @ ast::Value::Object(_)) => node(slice, top, 1, report),
        Some(other) => {
            report.add(fault(slice, other.range().start, "a record is one map of keys and values").label("this is something else"));
            hole(slice, 0..0)
        }
        None => {
            report.add(fault(slice, 0, "the record is empty").label("nothing stands here"));
            hole(slice, 0..0)
        }
    }
}

fn node(slice: &Slice, value: ast::Value<'_>, depth: usize, report: &mut Report) -> Node {
    let span = span(value.range());
    let plain = |text: &str| Value::Scalar(Scalar { text: text.to_owned(), quoted: false });
    let value = match value {
        ast::Value::StringLit(text) => Value::Scalar(Scalar { text: text.value.into_owned(), quoted: true }),
        ast::Value::NumberLit(number) => plain(number.value),
        ast::Value::BooleanLit(flag) => plain(if flag.value { "true" } else { "false" }),
        ast::Value::NullKeyword(_) => plain(""),
        ast::Value::Array(_) | ast::Value::Object(_) if depth >= DEEPEST => {
            report.add(fault(slice, span.start, format!("lists and maps are nested more than {DEEPEST} deep")).label("not read from here on"));
            Value::Hole
        }
        ast::Value::Array(list) => Value::List(list.elements.into_iter().map(|item| node(slice, item, depth + 1, report)).collect()),
        ast::Value::Object(map) => Value::Map(pairs(slice, map, depth, report)),
    };
    Node { place: slice.place(span), value }
}

fn pairs(slice: &Slice, map: ast::Object<'_>, depth: usize, report: &mut Report) -> Vec<Pair> {
    let mut seen: BTreeMap<String, Place> = BTreeMap::new();
    let mut pairs = Vec::with_capacity(map.properties.len());
    for property in map.properties {
        let key_place = slice.place(span(property.name.range()));
        let key = match property.name {
            ObjectPropName::String(text) => text.value.into_owned(),
            ObjectPropName::Word(word) => word.value.to_owned(),
        };
        if let Some(first) = seen.get(&key) {
            report.add(doubled(&key, key_place, first.clone()).severity(Severity::Warning).fix("keep the right one and remove the other"));
            continue;
        }
        seen.insert(key.clone(), key_place.clone());
        pairs.push(Pair { key, key_place, node: node(slice, property.value, depth + 1, report) });
    }
    pairs
}

fn hole(slice: &Slice, span: std::ops::Range<usize>) -> Node {
    Node { place: slice.place(span), value: Value::Hole }
}

fn span(range: Range) -> std::ops::Range<usize> {
    range.start..range.end
}

fn fault(slice: &Slice, at: usize, message: impl Into<String>) -> Finding {
    Finding::new(&RECORD_UNREADABLE, slice.place(slice.character_at(at)), message)
        .label("not read from here on")
        .fix("export the record again, or mend it by hand; until then it is left out")
}

fn broken(slice: &Slice, error: &serde_json::Error) -> Finding {
    // Line and column count from 1, the column in bytes; an error at the end of a line has the column before its first.
    let start: usize = slice.text.split_inclusive('\n').take(error.line().saturating_sub(1)).map(str::len).sum();
    let at = (start + error.column().saturating_sub(1)).min(slice.text.len());
    let message = match error.classify() {
        serde_json::error::Category::Eof => "the record ends in the middle",
        _ => "this is no JSON",
    };
    let words = error.to_string();
    let reason = words.split(" at line ").next().unwrap_or(&words);
    fault(slice, at, message).figure(excerpt(reason))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::FileTable;
    use proptest::prelude::*;

    fn read(text: &str) -> (Node, Vec<Finding>) {
        let file = FileTable::default().add("x.json", text);
        let mut report = Report::default();
        let node = read_map(&Slice::whole(file, text), &mut report);
        (node, report.into_findings())
    }

    #[test]
    fn values_come_with_their_places() {
        let text = "{\"a\": \"\\u004e\\u00b7m \\ud83d\\ude00\", \"b\": [1.50, true, null], \"ä\": {}}";
        let (node, findings) = read(text);
        assert!(findings.is_empty());
        let a = node.get("a").unwrap();
        assert_eq!((a.text(), &text[a.place.start..a.place.end]), (Some("N·m 😀"), "\"\\u004e\\u00b7m \\ud83d\\ude00\""));
        let Value::List(items) = &node.get("b").unwrap().value else { panic!() };
        let texts: Vec<_> = items.iter().map(|item| (item.text().unwrap(), &text[item.place.start..item.place.end])).collect();
        assert_eq!(texts, [("1.50", "1.50"), ("true", "true"), ("", "null")]);
        assert_eq!(&text[node.pairs()[2].key_place.start..node.pairs()[2].key_place.end], "\"ä\"");
    }

    #[test]
    fn what_is_no_json_is_one_finding() {
        for (text, message, at) in [
            ("", "the record ends in the middle", 0),
            ("{\"a\": 1", "the record ends in the middle", 6),
            ("{\"a\": 1,}", "this is no JSON", 8),
            ("{\"a\": 01}", "this is no JSON", 7),
            ("{'a': 1}", "this is no JSON", 1),
            ("{\"a\": 1} // why", "this is no JSON", 9),
            ("{\"a\":\n NaN}", "this is no JSON", 7),
            ("[1]", "a record is one map of keys and values", 0),
        ] {
            let (node, findings) = read(text);
            assert_eq!((findings.len(), node.value), (1, Value::Hole), "{text}");
            assert_eq!((findings[0].message(), findings[0].place().start), (message, at), "{text}");
        }
    }

    #[test]
    fn depth_and_doubled_keys_are_bounded_and_told() {
        let deep = format!("{{\"a\": {}1{}}}", "[".repeat(100), "]".repeat(100));
        assert_eq!(read(&deep).1.len(), 1);
        let endless = format!("{{\"a\": {}", "[".repeat(100_000));
        assert_eq!(read(&endless).1.len(), 1);
        let (node, findings) = read("{\"a\": 1, \"a\": 2}");
        assert_eq!((findings.len(), node.pairs().len(), node.get("a").and_then(Node::text)), (1, 1, Some("1")));
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in any::<String>()) {
            let _ = read(&text);
        }

        #[test]
        fn any_json_like_text_is_answered(text in "[\\{\\}\\[\\]\":,0-9a-z\\\\ue \\n+.-]{0,60}") {
            let (node, findings) = read(&text);
            prop_assert!(findings.is_empty() == matches!(node.value, Value::Map(_)) || !findings.is_empty());
        }
    }
}
