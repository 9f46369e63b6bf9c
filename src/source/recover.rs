//! Reading on behind a mistake: the text is split at its keys and each piece read on its own, so that
//! one bad entry does not hide the others. Spaces and line ends stay where they are, so places stay true.

use super::front::lines_from;
use super::node::{Node, Pair, Value};
use super::report::{Report, Slice};
use super::yaml::{doubled, not_a_map, tree};
use crate::finding::{Finding, Place};
use std::collections::BTreeMap;
use std::ops::Range;

/// How often a piece that can't be read is split again: list, entry, field, part of a field.
const SPLITS: usize = 4;

/// The map of a piece of a file whose reading as a whole failed with `whole`.
pub(super) fn read_map(slice: &Slice, whole: Finding, report: &mut Report) -> Node {
    let mut pairs = Pairs::default();
    let failed = read_chunks(slice, 0, SPLITS, &mut pairs, report);
    if !failed {
        report.add(whole);
    }
    pairs.into_node(&slice.place(0..slice.text.trim_end().len()))
}

/// Pairs from several pieces of one map.
#[derive(Default)]
struct Pairs {
    list: Vec<Pair>,
    seen: BTreeMap<String, Place>,
}

impl Pairs {
    fn add(&mut self, pair: Pair, report: &mut Report) {
        if let Some(first) = self.seen.get(&pair.key) {
            report.add(doubled(&pair.key, pair.key_place, first.clone()));
            return;
        }
        self.seen.insert(pair.key.clone(), pair.key_place.clone());
        self.list.push(pair);
    }

    /// The map of the pairs; a hole where there are none.
    fn into_node(self, place: &Place) -> Node {
        let place = reaching(place, self.list.last().map(|pair| &pair.node.place));
        let value = if self.list.is_empty() { Value::Hole } else { Value::Map(self.list) };
        Node { place, value }
    }
}

/// Reads each piece that begins with a key in column `indent`. Whether any failed.
fn read_chunks(slice: &Slice, indent: usize, splits: usize, pairs: &mut Pairs, report: &mut Report) -> bool {
    let mut failed = false;
    for chunk in chunks(slice, |line| starts_key(line, indent)) {
        failed |= read_chunk(&slice.part(chunk), indent, splits, pairs, report);
    }
    failed
}

/// Reads one key with what belongs to it. Whether it failed.
fn read_chunk(chunk: &Slice, indent: usize, splits: usize, pairs: &mut Pairs, report: &mut Report) -> bool {
    let mut findings = Vec::new();
    let fault = match tree(chunk, &mut findings) {
        Ok(None) => return false,
        Ok(Some(node)) => {
            report.extend(findings);
            return match node.value {
                Value::Map(list) => {
                    for pair in list {
                        pairs.add(pair, report);
                    }
                    false
                }
                Value::Hole => true,
                Value::Scalar(_) | Value::List(_) => {
                    report.add(not_a_map(chunk, &node));
                    true
                }
            };
        }
        Err(fault) => *fault,
    };
    if let Some(head) = head_without_stray_tail(chunk, indent) {
        for pair in head {
            pairs.add(pair, report);
        }
        report.add(fault);
        return true;
    }
    let Some(key) = key_of(chunk) else {
        report.extend(findings);
        report.add(fault);
        return true;
    };
    let node = match children(chunk, indent).filter(|_| splits > 0) {
        Some(children) => read_children(chunk, &children, splits, fault, report),
        None => {
            report.extend(findings);
            report.add(fault);
            Node { place: chunk.place(key.value.clone()), value: Value::Hole }
        }
    };
    pairs.add(Pair { key: key.text, key_place: chunk.place(key.span), node }, report);
    true
}

/// The lines below a key, where they are indented as its own list or map.
struct Children {
    span: Range<usize>,
    indent: usize,
    dashes: bool,
}

fn read_children(chunk: &Slice, children: &Children, splits: usize, fault: Finding, report: &mut Report) -> Node {
    let part = chunk.part(children.span.clone());
    let place = part.place(children.indent..part.text.trim_end().len().max(children.indent));
    let mut failed = false;
    let node = if children.dashes {
        let mut items = Vec::new();
        for item in chunks(&part, |line| indent_of(line) == children.indent && line.trim_start().starts_with('-')) {
            failed |= read_item(&part.part(item), &mut items, report);
        }
        let place = reaching(&place, items.last().map(|node| &node.place));
        Node { place, value: Value::List(items) }
    } else {
        let mut pairs = Pairs::default();
        failed = read_chunks(&part, children.indent, splits - 1, &mut pairs, report);
        pairs.into_node(&place)
    };
    if !failed {
        report.add(fault);
    }
    node
}

/// A place made to hold its last member, which may stand on an empty line at its end.
fn reaching(place: &Place, last: Option<&Place>) -> Place {
    let end = last.map_or(place.end, |last| place.end.max(last.end));
    Place { file: place.file, start: place.start, end }
}

fn read_item(item: &Slice, items: &mut Vec<Node>, report: &mut Report) -> bool {
    let mut findings = Vec::new();
    let read = tree(item, &mut findings);
    report.extend(findings);
    match read {
        Ok(None) => false,
        Ok(Some(Node { value: Value::List(list), .. })) => {
            items.extend(list);
            false
        }
        Ok(Some(node)) => {
            items.push(node);
            false
        }
        Err(fault) => {
            items.push(Node { place: fault.place().clone(), value: Value::Hole });
            report.add(*fault);
            true
        }
    }
}

/// Where a later line of the chunk begins no deeper than its key and is no key itself: the pairs above it,
/// if they can be read.
fn head_without_stray_tail(chunk: &Slice, indent: usize) -> Option<Vec<Pair>> {
    let stray = lines_from(chunk.text, 0).skip(1).find(|line| {
        let line = chunk.get(line.clone());
        // What a tab indents is no neighbour: it is told where it stands.
        content(line) && !line.starts_with('\t') && indent_of(line) <= indent && !line.trim_start().starts_with(['-', ']', '}'])
    })?;
    match tree(&chunk.part(0..stray.start), &mut Vec::new()) {
        Ok(Some(Node { value: Value::Map(pairs), .. })) => Some(pairs),
        Ok(_) | Err(_) => None,
    }
}

struct KeyAt {
    text: String,
    span: Range<usize>,
    value: Range<usize>,
}

/// The key at the start of a chunk, as far as it can be told without a parser.
fn key_of(chunk: &Slice) -> Option<KeyAt> {
    let line = lines_from(chunk.text, 0).find(|line| content(chunk.get(line.clone())))?;
    let written = chunk.get(line.clone());
    let indent = indent_of(written);
    let (before, after) = written.match_indices(':').find_map(|(at, _)| {
        let (before, after) = (written.get(indent..at)?, written.get(at + 1..)?);
        (after.is_empty() || after.starts_with(char::is_whitespace)).then_some((before, after))
    })?;
    let start = line.start + indent;
    let key_end = start + before.trim_end().len();
    let value_start = line.end - after.trim_start().len();
    let value_end = chunk.text.trim_end().len();
    let text = before.trim().trim_matches(['\'', '"']).to_owned();
    Some(KeyAt { text, span: start..key_end, value: value_start.min(value_end)..value_end })
}

/// The lines below the key of a chunk, where nothing but a comment stands behind the key.
fn children(chunk: &Slice, indent: usize) -> Option<Children> {
    let mut lines = lines_from(chunk.text, 0).filter(|line| content(chunk.get(line.clone())));
    let key = lines.next()?;
    let after = chunk.get(key.clone()).trim_end();
    let after = after.split_once(" #").map_or(after, |(before, _)| before.trim_end());
    if !after.ends_with(':') {
        return None;
    }
    let first = lines.next()?;
    let written = chunk.get(first.clone());
    let dashes = written.trim_start().starts_with('-');
    let child_indent = indent_of(written);
    let deeper = child_indent > indent || (dashes && child_indent == indent);
    deeper.then_some(Children { span: key.end..chunk.text.len(), indent: child_indent, dashes })
}

/// Splits a piece before each line that `starts`; what stands above the first goes with it.
fn chunks(slice: &Slice, starts: impl Fn(&str) -> bool) -> Vec<Range<usize>> {
    let mut cuts: Vec<usize> =
        lines_from(slice.text, 0).filter(|line| starts(slice.get(line.clone()))).map(|line| line.start).collect();
    if cuts.is_empty() {
        cuts.push(0);
    }
    if let Some(first) = cuts.first_mut() {
        *first = 0;
    }
    let ends = cuts.iter().skip(1).copied().chain([slice.text.len()]);
    cuts.iter().copied().zip(ends).map(|(start, end)| start..end).collect()
}

/// Whether a line holds a key in column `indent`.
fn starts_key(line: &str, indent: usize) -> bool {
    let line = line.trim_end();
    let body = line.trim_start();
    content(line)
        && !line.get(..line.len() - body.len()).unwrap_or("").contains('\t')
        && indent_of(line) == indent
        && !body.starts_with(['-', '{', '[', '}', ']', '#'])
        && (body.ends_with(':') || body.contains(": ") || body.contains(":\t"))
}

fn content(line: &str) -> bool {
    let line = line.trim();
    !line.is_empty() && !line.starts_with('#')
}

fn indent_of(line: &str) -> usize {
    line.len() - line.trim_start_matches(' ').len()
}
