//! What is said of YAML that can be read and should not be.

use super::super::node::{Node, Pair, Value};
use super::super::report::{Slice, excerpt};
use super::super::rules::{DOUBLED_KEY, NESTING_TOO_DEEP, YAML_TRAP, YAML_UNREADABLE};
use super::DEEPEST;
use crate::finding::{Finding, Place};
use std::ops::Range;

/// What is said where lines of `key: value` are wanted and something else stands.
pub(in super::super) fn not_a_map(slice: &Slice, node: &Node) -> Finding {
    let written = slice.get(node.place.start.saturating_sub(slice.base)..node.place.end.saturating_sub(slice.base));
    let fault = |message: &str| Finding::new(&YAML_UNREADABLE, node.place.clone(), message);
    match &node.value {
        Value::List(_) => fault("a list stands where ‘key: value’ lines are wanted")
            .label("this is a list")
            .fix("give each entry a name of its own and write ‘name: …’ instead of ‘- …’"),
        _ => {
            let fix = match written.split_once(':') {
                Some((key, value)) if !value.is_empty() && !value.starts_with(char::is_whitespace) => {
                    format!("put a space after the colon: ‘{}: {}’", excerpt(key), excerpt(value))
                }
                _ => "write it as ‘key: value’".to_owned(),
            };
            fault("text stands where ‘key: value’ lines are wanted").label("this has no key").fix(fix)
        }
    }
}

/// What is said of a key that stands twice.
pub(in super::super) fn doubled(key: &str, second: Place, first: Place) -> Finding {
    Finding::new(&DOUBLED_KEY, second, format!("‘{}’ stands twice here", excerpt(key)))
        .label("the second, left out")
        .related(first, "the first, kept")
        .fix("keep the right one and remove the other; two values for two variants go in one map")
}

/// `pairs` are those before the stray one.
pub(super) fn stray_key(slice: &Slice, pairs: &[Pair], stray: &Pair, quoted: bool) -> Finding {
    let key = &stray.key;
    let fault = Finding::new(
        &YAML_TRAP,
        stray.key_place.clone(),
        format!("‘{}’ is read as a key without a value", excerpt(key)),
    )
    .label("a stray key, because of the comma before it");
    if let Some((name, value)) = key.split_once(':').filter(|_| !quoted) {
        return fault.label("no space after the colon, so this is one word").fix(format!(
            "put a space after the colon: ‘{}: {}’",
            excerpt(name),
            excerpt(value)
        ));
    }
    let Some((before, text)) = value_cut_off(pairs) else {
        return fault.label("a stray key").fix("give it a value: ‘key: value’");
    };
    let whole =
        slice.get(before.node.place.start.saturating_sub(slice.base)..stray.key_place.end.saturating_sub(slice.base));
    let reading = format!("read as {} {} and a stray key ‘{}’", before.key, excerpt(text), excerpt(key));
    let touches = stray.key_place.start == before.node.place.end + 1;
    if touches && text.ends_with(|c: char| c.is_ascii_digit()) && key.starts_with(|c: char| c.is_ascii_digit()) {
        return fault
            .figure(reading)
            .figure(format!("likely meant: {} {text}.{key}, written with a decimal comma", before.key))
            .fix(format!("write {text}.{key}; if ‘{}’ is meant as text, put it in quotes", excerpt(whole)));
    }
    fault.figure(reading).fix(format!(
        "a comma ends a value in braces: quote the whole, ‘{}: '{}'’",
        before.key,
        excerpt(whole)
    ))
}

/// The plain value that a comma has cut off: the last one before the stray keys. Few are looked at.
fn value_cut_off(pairs: &[Pair]) -> Option<(&Pair, &str)> {
    let pair = pairs.iter().rev().take(8).find(|pair| pair.node.text() != Some(""))?;
    match &pair.node.value {
        Value::Scalar(scalar) if !scalar.quoted => Some((pair, scalar.text.as_str())),
        Value::Scalar(_) | Value::List(_) | Value::Map(_) | Value::Hole => None,
    }
}

pub(super) fn second_document(slice: &Slice, span: Range<usize>) -> Finding {
    Finding::new(&YAML_UNREADABLE, slice.place(span), "a second document begins here")
        .label("what follows is not read")
        .fix("a file holds one document: remove this line of ‘---’, or begin a new file")
}

/// What is said where lists and maps go too deep.
pub(in super::super) fn too_deep(slice: &Slice, at: usize) -> Finding {
    Finding::new(
        &NESTING_TOO_DEEP,
        slice.place(slice.character_at(at)),
        format!("lists and maps are nested more than {DEEPEST} deep"),
    )
    .label("not read from here on")
    .fix("close the brackets that were opened before, or flatten the value")
}
