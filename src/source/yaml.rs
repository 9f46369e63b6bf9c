//! YAML into nodes with places. Nothing is typed here: a plain scalar comes out as it is written.
//!
//! The parser hands over events one by one, so nothing recurses, and an alias is one event that is
//! refused instead of followed.

mod faults;

pub(super) use faults::{doubled, not_a_map, too_deep};

use super::node::{Node, Pair, Scalar, Value};
use super::recover;
use super::report::{Report, SHOWN_PER_FILE, Slice, excerpt};
use super::rules::YAML_TRAP;
use super::syntax;
use crate::finding::{Finding, Place, Severity};
use serde_yaml::granit_parser::{self, Event, Parser, ScalarStyle, Span, StructureStyle};
use std::collections::BTreeMap;
use std::ops::Range;

/// Lists and maps within each other.
const DEEPEST: usize = 32;

/// Reads a piece of a file whose top must be a map. Every fault is reported; what can't be read is a hole.
/// A piece without values is an empty map.
pub(super) fn read_map(slice: &Slice, report: &mut Report) -> Node {
    let mut findings = Vec::new();
    match tree(slice, &mut findings) {
        Ok(None) => Node { place: slice.place(0..0), value: Value::Map(Vec::new()) },
        Ok(Some(node)) => {
            report.extend(findings);
            map_or_hole(slice, node, report)
        }
        Err(fault) => recover::read_map(slice, *fault, report),
    }
}

fn map_or_hole(slice: &Slice, node: Node, report: &mut Report) -> Node {
    match &node.value {
        Value::Map(_) | Value::Hole => node,
        Value::Scalar(_) | Value::List(_) => {
            report.add(not_a_map(slice, &node));
            Node { place: node.place, value: Value::Hole }
        }
    }
}

/// The tree of a piece of YAML; none where it holds nothing but comments. Faults that leave the tree
/// readable go to `findings`; the one that stops the reading is the error.
pub(super) fn tree(slice: &Slice, findings: &mut Vec<Finding>) -> Result<Option<Node>, Box<Finding>> {
    let options = granit_parser::options! {
        emit_comments: false,
        emit_unresolved_aliases: true,
        emit_anchor_events: true,
        disallow_directives: true,
        flow_nesting_limit: DEEPEST,
        block_nesting_limit: DEEPEST,
    };
    let mut builder = Builder { slice, findings, open: Vec::new(), root: None, documents: 0, refused_to: None };
    for event in Parser::new_from_str_with_options(slice.text, options) {
        match event {
            Ok((event, span)) => {
                if builder.take(event, &span)?.is_break() {
                    break;
                }
            }
            Err(error) => {
                let at = error.marker().byte_offset().unwrap_or(slice.text.len());
                let fault =
                    builder.fault_of_refused_sign(at).unwrap_or_else(|| syntax::explain(error.kind(), slice, at));
                return Err(Box::new(fault));
            }
        }
    }
    Ok(builder.root)
}

struct Builder<'a, 'f> {
    slice: &'a Slice<'a>,
    findings: &'f mut Vec<Finding>,
    open: Vec<Open>,
    root: Option<Node>,
    documents: usize,
    /// Where the last refused alias ends: a fault of syntax on the rest of its line has the same cause.
    refused_to: Option<usize>,
}

/// A list or map whose end has not come yet.
enum Open {
    List { start: usize, items: Vec<Node> },
    Map { start: usize, kind: MapKind, pairs: Vec<Pair>, seen: BTreeMap<String, Place>, key: Key },
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum MapKind {
    Block,
    Braces,
    /// `[a: b]`: a map of one pair without braces.
    Bare,
}

/// The key whose value comes next.
enum Key {
    None,
    Text {
        text: String,
        span: Range<usize>,
        quoted: bool,
    },
    /// Reported already: its value is read and dropped.
    Refused,
}

type Flow = std::ops::ControlFlow<()>;

impl Builder<'_, '_> {
    fn take(&mut self, event: Event<'_>, span: &Span) -> Result<Flow, Box<Finding>> {
        let span_bytes = bytes(span);
        match event {
            Event::DocumentStart(..) => {
                self.documents += 1;
                if self.documents > 1 {
                    self.findings.push(faults::second_document(self.slice, span_bytes));
                    return Ok(Flow::Break(()));
                }
            }
            Event::Alias(_) | Event::UnresolvedAlias(_) => self.alias(span_bytes),
            Event::Anchor(..) => self.anchor(span_bytes),
            Event::Scalar(text, style, _, tag) => {
                if tag.is_some() {
                    self.tag(span, &span_bytes);
                    let hole = self.hole(span_bytes);
                    self.give(hole);
                } else {
                    self.scalar(&text, style, span_bytes);
                }
            }
            Event::SequenceStart(_, _, tag) => {
                if tag.is_some() {
                    self.tag(span, &span_bytes);
                }
                self.open(Open::List { start: span_bytes.start, items: Vec::new() })?;
            }
            Event::MappingStart(style, _, tag) => {
                if tag.is_some() {
                    self.tag(span, &span_bytes);
                }
                let kind = match style {
                    StructureStyle::Block => MapKind::Block,
                    StructureStyle::Flow if span_bytes.is_empty() => MapKind::Bare,
                    StructureStyle::Flow => MapKind::Braces,
                };
                self.open(Open::Map {
                    start: span_bytes.start,
                    kind,
                    pairs: Vec::new(),
                    seen: BTreeMap::new(),
                    key: Key::None,
                })?;
            }
            Event::SequenceEnd | Event::MappingEnd => self.close(&span_bytes),
            _ => {}
        }
        Ok(Flow::Continue(()))
    }

    fn open(&mut self, open: Open) -> Result<(), Box<Finding>> {
        if self.open.len() >= DEEPEST {
            let (Open::List { start, .. } | Open::Map { start, .. }) = open;
            return Err(Box::new(too_deep(self.slice, start)));
        }
        self.open.push(open);
        Ok(())
    }

    fn close(&mut self, end: &Range<usize>) {
        let node = match self.open.pop() {
            // A tree stays in memory as long as its manual: what its vectors grew too large is given back.
            Some(Open::List { start, mut items }) => {
                items.shrink_to_fit();
                let end = ending(end, items.last().map(|node| &node.place), self.slice.base, start);
                Node { place: self.slice.place(start..end), value: Value::List(items) }
            }
            Some(Open::Map { start, kind, mut pairs, .. }) => {
                pairs.shrink_to_fit();
                let end = ending(end, pairs.last().map(|pair| &pair.node.place), self.slice.base, start);
                if kind == MapKind::Bare {
                    self.bare_map(start..end, &pairs);
                }
                Node { place: self.slice.place(start..end), value: Value::Map(pairs) }
            }
            None => return,
        };
        self.give(node);
    }

    fn scalar(&mut self, text: &str, style: ScalarStyle, span: Range<usize>) {
        let quoted = style != ScalarStyle::Plain;
        let text = if !quoted && span.is_empty() { "" } else { text };
        if matches!(style, ScalarStyle::Folded | ScalarStyle::Literal) && text.trim().is_empty() {
            self.empty_block(&span);
        }
        if !quoted && !span.is_empty() {
            self.lost_comment(text, &span);
        }
        let scalar = Scalar { text: text.to_owned(), quoted };
        self.give(Node { place: self.slice.place(span), value: Value::Scalar(scalar) });
    }

    /// Hands a finished node to what is open around it.
    fn give(&mut self, node: Node) {
        let slice = *self.slice;
        match self.open.last_mut() {
            None => self.root = self.root.take().or(Some(node)),
            Some(Open::List { items, .. }) => items.push(node),
            Some(Open::Map { kind, pairs, seen, key, .. }) => match std::mem::replace(key, Key::None) {
                Key::None => *key = key_of(&slice, node, seen, self.findings),
                Key::Refused => {}
                Key::Text { text, span, quoted } => {
                    let pair = Pair { key: text, key_place: slice.place(span.clone()), node };
                    if *kind == MapKind::Braces && is_stray(&slice, &span, &pair.node) {
                        self.findings.push(faults::stray_key(&slice, pairs, &pair, quoted));
                    }
                    pairs.push(pair);
                }
            },
        }
        // What comes after is not shown anyway.
        self.findings.truncate(SHOWN_PER_FILE + 1);
    }

    fn hole(&self, span: Range<usize>) -> Node {
        Node { place: self.slice.place(span), value: Value::Hole }
    }

    /// Takes a fault in, made only while there are few: what comes after is not shown anyway.
    fn say(&mut self, fault: impl FnOnce(&Slice) -> Finding) -> bool {
        let few = self.findings.len() <= SHOWN_PER_FILE;
        if few {
            let fault = fault(self.slice);
            self.findings.push(fault);
        }
        few
    }

    fn alias(&mut self, span: Range<usize>) {
        let said = self.say(|slice| {
            Finding::new(
                &YAML_TRAP,
                slice.place(span.clone()),
                "‘*’ at the start of a value is read as a reference to another value",
            )
            .label("an alias, which a manual does not use")
            .fix(format!("write the value itself, or put the text in quotes: '{}'", rest_of_value(slice, span.start)))
        });
        self.refused_to = said.then_some(span.end);
        let hole = self.hole(span);
        self.give(hole);
    }

    fn anchor(&mut self, span: Range<usize>) {
        self.say(|slice| {
            Finding::new(&YAML_TRAP, slice.place(span), "‘&’ at the start of a value is read as a name for references")
                .label("an anchor, which a manual does not use")
                .fix("take it out, or put the whole text in quotes; a value that several procedures share stands in machine.yaml")
        });
    }

    fn tag(&mut self, span: &Span, node: &Range<usize>) {
        let tag = span.tag_span().map_or_else(|| node.clone(), |tag| bytes(&tag));
        self.say(|slice| {
            let written = excerpt(slice.get(tag.clone()));
            Finding::new(&YAML_TRAP, slice.place(tag), format!("‘{written}’ at the start of a value is read as a type"))
                .label("a tag, which a manual does not use")
                .fix("take it out, or put the whole text in quotes")
        });
    }

    /// Where an alias was refused a little before on the same line, that fault says it better.
    fn fault_of_refused_sign(&mut self, at: usize) -> Option<Finding> {
        let end = self.refused_to?;
        if at < end || self.slice.get(end..at).contains('\n') {
            return None;
        }
        self.findings.pop()
    }

    fn bare_map(&mut self, span: Range<usize>, pairs: &[Pair]) {
        if let [pair] = pairs
            && pair.node.text() == Some("")
        {
            self.say(|slice| {
                let key = excerpt(&pair.key);
                Finding::new(&YAML_TRAP, slice.place(span), format!("the colon makes a map of ‘{key}’ in this list"))
                    .label("read as a key without a value")
                    .fix(format!("write ‘{key}’ without the colon"))
            });
        }
    }

    fn empty_block(&mut self, span: &Range<usize>) {
        self.say(|slice| {
            let (sign, at) = block_sign(slice, span.start);
            let written = slice.get(at..slice.line_around(at).end).trim();
            let rest = written.get(1..).unwrap_or("").trim();
            let place = slice.place(at..at + written.len());
            Finding::new(&YAML_TRAP, place, format!("‘{sign}’ begins a block of text in YAML, and the block is empty"))
                .label("read as empty text")
                .fix(syntax::instead_of_sign(sign, rest))
        });
    }

    fn lost_comment(&mut self, text: &str, span: &Range<usize>) {
        let rest = self.slice.text.get(span.end..).unwrap_or("");
        let comment = rest.trim_start_matches([' ', '\t']);
        let gap = rest.len() - comment.len();
        if gap == 0 || !comment.starts_with('#') || comment.chars().nth(1).is_none_or(|c| c.is_whitespace() || c == '#')
        {
            return;
        }
        let comment = comment.lines().next().unwrap_or("");
        self.say(|slice| {
            let place = slice.place(span.end + gap..span.end + gap + comment.len());
            Finding::new(&YAML_TRAP, place, format!("‘{}’ is read as a comment and left out", excerpt(comment)))
                .severity(Severity::Warning)
                .label("not part of the value")
                .fix(format!(
                    "if it belongs to the value, quote the whole: ‘'{} {}'’; if it is a comment, put a space after the ‘#’",
                    excerpt(text),
                    excerpt(comment)
                ))
        });
    }
}

/// A key from the node that stands in its place.
fn key_of(slice: &Slice, node: Node, seen: &mut BTreeMap<String, Place>, findings: &mut Vec<Finding>) -> Key {
    let Value::Scalar(scalar) = node.value else {
        if !matches!(node.value, Value::Hole) {
            findings.push(
                Finding::new(&YAML_TRAP, node.place, "a list or map stands where a key is wanted")
                    .label("read as a key")
                    .fix("give it a name: ‘name: …’; text with brackets in it goes in quotes"),
            );
        }
        return Key::Refused;
    };
    if !scalar.quoted && scalar.text == "<<" {
        findings.push(
            Finding::new(&YAML_TRAP, node.place, "‘<<’ is read as an order to merge another map in")
                .label("a merge key, which a manual does not use")
                .fix("write the values themselves; what procedures share stands in machine.yaml"),
        );
        return Key::Refused;
    }
    if let Some(first) = seen.get(&scalar.text) {
        findings.push(doubled(&scalar.text, node.place, first.clone()));
        return Key::Refused;
    }
    let span = node.place.start.saturating_sub(slice.base)..node.place.end.saturating_sub(slice.base);
    seen.insert(scalar.text.clone(), node.place);
    Key::Text { text: scalar.text, span, quoted: scalar.quoted }
}

/// Whether a key of a map in braces has neither a colon nor a value.
fn is_stray(slice: &Slice, key: &Range<usize>, value: &Node) -> bool {
    value.text() == Some("")
        && value.place.start == value.place.end
        && !slice.text.get(key.end..).unwrap_or("").trim_start().starts_with(':')
}

/// The sign that opens the block scalar whose content begins at `content`, and where it stands.
fn block_sign(slice: &Slice, content: usize) -> (char, usize) {
    let before = slice.get(0..content);
    match before.rfind(['>', '|']) {
        Some(at) => (if before.get(at..).is_some_and(|rest| rest.starts_with('|')) { '|' } else { '>' }, at),
        None => ('>', content),
    }
}

/// The author's text from `at` to where the value ends: the end of the line, or a comma or bracket in braces.
fn rest_of_value(slice: &Slice, at: usize) -> String {
    let line = slice.line_around(at);
    let rest = slice.get(at..line.end);
    let in_braces = slice.get(line.start..at).contains(['{', '[']);
    let end = if in_braces { rest.find([',', '}', ']']).unwrap_or(rest.len()) } else { rest.len() };
    excerpt(rest.get(..end).unwrap_or(rest))
}

/// Where a list or map ends: its closing bracket, or the end of its last member where it has none.
fn ending(event: &Range<usize>, last: Option<&Place>, base: usize, start: usize) -> usize {
    let end = if event.is_empty() { last.map_or(event.end, |place| place.end.saturating_sub(base)) } else { event.end };
    end.max(start)
}

fn bytes(span: &Span) -> Range<usize> {
    let start = span.start.byte_offset().unwrap_or(0);
    let end = span.end.byte_offset().unwrap_or(start);
    start..end.max(start)
}

#[cfg(test)]
mod tests;
