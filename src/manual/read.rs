//! Reading a node by its shape: every fault of form is found here, once, with its place.

use super::expected;
use super::reading::{Reading, Record, Written};
use super::rules;
use super::shape::{Field, Shape};
use super::things::Spot;
use super::varied::{Axis, Case, Combination, Varied};
use crate::finding::{FileTable, Finding, Place, nearest};
use crate::source::{Node, Pair, Value};

/// Reads nodes against the axes of one machine, and gathers what is wrong.
pub(super) struct Reader<'a> {
    pub(super) files: &'a FileTable,
    pub(super) axes: Vec<Axis>,
    pub(super) findings: Vec<Finding>,
}

/// What a map is read against.
pub(super) struct Outline<'t> {
    /// Its keys: the first table that knows a key wins.
    pub(super) tables: &'t [&'static [Field]],
    /// Keys that somebody else reads (the lists).
    pub(super) others: &'t [&'static str],
    /// What the map is, in words: "a fastener".
    pub(super) what: &'t str,
    /// Where a missing key is told.
    pub(super) anchor: &'t Place,
}

impl<'a> Reader<'a> {
    pub(super) fn new(files: &'a FileTable) -> Self {
        Self { files, axes: Vec::new(), findings: Vec::new() }
    }

    pub(super) fn report(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Reads a map of known keys.
    pub(super) fn record(&mut self, node: &Node, outline: &Outline<'_>) -> Record {
        let mut record = Record::empty(node.place.clone());
        match &node.value {
            Value::Map(pairs) => {
                for (index, pair) in pairs.iter().enumerate() {
                    if self.is_cut(&pair.node, pairs.get(index + 1)) {
                        let cut = outline.tables.iter().flat_map(|table| table.iter()).find(|field| field.key == pair.key);
                        record.unreadable.extend(cut.map(|field| field.key));
                    } else {
                        self.pair(pair, outline, &mut record);
                    }
                }
                self.missing_keys(pairs, outline, &record);
            }
            Value::Hole => {}
            Value::Scalar(_) | Value::List(_) => {
                self.report(
                    Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("{} is written as keys and values", outline.what))
                        .label("no keys here")
                        .fix(format!("write its keys: {}", keys_text(outline))),
                );
            }
        }
        record
    }

    fn pair(&mut self, pair: &Pair, outline: &Outline<'_>, record: &mut Record) {
        if outline.others.contains(&pair.key.as_str()) {
            return;
        }
        let known = outline.tables.iter().find_map(|table| table.iter().find(|field| field.key == pair.key));
        match known {
            Some(field) => {
                if is_empty(&pair.node) {
                    record.unreadable.push(field.key);
                    // Several shapes in one sentence are hard to read: the help says it in words.
                    let wanted = if matches!(field.shape, Shape::Either(_)) { field.help.to_owned() } else { field.shape.wanted() };
                    self.empty_value(pair, &wanted);
                    return;
                }
                let told = self.findings.len();
                let value = self.field(field, &pair.node);
                // A value by variant of which one case is no good counts too: its gap is not a second fault.
                if !value.is_given() || self.findings.len() > told {
                    record.unreadable.push(field.key);
                }
                for case in &value.cases {
                    record.written.push(Written {
                        field: field.key,
                        when: case.when.clone(),
                        text: self.written_text(&case.place),
                        place: case.place.clone(),
                        varies: value.varies(),
                    });
                }
                record.fields.push((field.key, value));
            }
            None => record.unreadable.extend(self.unknown_key(pair, outline)),
        }
    }

    /// A key with nothing behind it.
    pub(super) fn empty_value(&mut self, pair: &Pair, wanted: &str) {
        self.report(
            Finding::new(&rules::KEY_WITHOUT_VALUE, pair.key_place.clone(), format!("‘{}’ has no value", pair.key))
                .label("nothing behind it")
                .fix(format!("write {wanted}; or take the key out")),
        );
    }

    /// Reports a key that is not known, and tells the one that was meant: nobody need report that missing.
    fn unknown_key(&mut self, pair: &Pair, outline: &Outline<'_>) -> Option<&'static str> {
        if self.is_stray(pair) {
            return None;
        }
        let keys = outline.tables.iter().flat_map(|table| table.iter().map(|field| field.key));
        let near = nearest(&pair.key, keys.chain(outline.others.iter().copied()));
        let fix = near.map_or_else(|| format!("known here: {}", keys_text(outline)), |near| format!("did you mean ‘{near}’?"));
        self.report(
            Finding::new(&rules::UNKNOWN_KEY, pair.key_place.clone(), format!("‘{}’ is no key of {}", pair.key, outline.what))
                .label("not known here")
                .fix(fix),
        );
        outline.tables.iter().flat_map(|table| table.iter()).map(|field| field.key).find(|key| Some(*key) == near)
    }

    /// Whether a key is what follows a comma in a flow map's text, without a colon: the reading stage has said so.
    fn is_stray(&self, pair: &Pair) -> bool {
        let behind = self.files.text(pair.key_place.file).get(pair.key_place.end..).unwrap_or("");
        is_empty(&pair.node) && !behind.trim_start().starts_with(':')
    }

    /// Whether a number was cut in two at its decimal comma: `22,5 N·m` in a flow map.
    fn is_cut(&self, node: &Node, next: Option<&Pair>) -> bool {
        let number = node.text().is_some_and(|text| text.trim().ends_with(|c: char| c.is_ascii_digit()));
        number && next.is_some_and(|next| next.key.starts_with(|c: char| c.is_ascii_digit()) && self.is_stray(next))
    }

    fn missing_keys(&mut self, pairs: &[Pair], outline: &Outline<'_>, record: &Record) {
        for field in outline.tables.iter().flat_map(|table| table.iter()).filter(|field| field.required) {
            if !pairs.iter().any(|pair| pair.key == field.key) && !record.unreadable.contains(&field.key) {
                self.report(
                    Finding::new(&rules::KEY_MISSING, outline.anchor.clone(), format!("{} needs ‘{}’", outline.what, field.key))
                        .label(format!("no {}", field.key))
                        .fix(format!("add ‘{}’: {}", field.key, field.help)),
                );
            }
        }
    }

    /// Reads a field, by variant where it is written so.
    pub(super) fn field(&mut self, field: &Field, node: &Node) -> Varied<Reading> {
        if field.varies {
            if let Some(axis) = self.variant_axis(field, node) {
                return self.by_axis(field, &axis, node);
            }
            if let Some(items) = condition_list(node) {
                return self.by_conditions(field, items);
            }
        }
        let value = self.shape(&field.shape, node);
        let cases = value
            .map(|spot| Case { when: Combination::default(), value: spot.value, place: spot.place })
            .into_iter()
            .collect();
        Varied { cases }
    }

    /// The axis by whose values a map is written, if it is one written by variant.
    fn variant_axis(&self, field: &Field, node: &Node) -> Option<Axis> {
        let pairs = node.pairs();
        let of = |pair: &Pair| self.axes.iter().find(|axis| axis.values.iter().any(|v| v.name == pair.key));
        let found: Vec<&Axis> = pairs.iter().filter_map(of).collect();
        if field.shape.takes_map() && found.len() < pairs.len() {
            return None;
        }
        if let Some(axis) = found.first() {
            return Some((*axis).clone());
        }
        // A map where none can stand: meant by variant, with every key misspelt.
        (!pairs.is_empty() && !field.shape.takes_map())
            .then(|| Axis { name: String::new(), values: Vec::new(), place: node.place.clone() })
    }

    fn by_axis(&mut self, field: &Field, axis: &Axis, node: &Node) -> Varied<Reading> {
        let mut varied = Varied::default();
        if self.axes.is_empty() {
            self.no_variants(node);
            return varied;
        }
        for pair in node.pairs() {
            if !axis.values.iter().any(|value| value.name == pair.key) {
                self.unknown_variant_key(pair, axis);
                continue;
            }
            if is_empty(&pair.node) {
                self.empty_value(pair, &field.shape.wanted());
            } else if let Some(spot) = self.shape(&field.shape, &pair.node) {
                let when = Combination([(axis.name.clone(), pair.key.clone())].into_iter().collect());
                varied.cases.push(Case { when, value: spot.value, place: spot.place });
            }
        }
        varied
    }

    fn no_variants(&mut self, node: &Node) {
        self.report(
            Finding::new(&rules::UNKNOWN_VARIANT, node.place.clone(), "a value by variant, and this machine has no variants")
                .label("which of them?")
                .fix("declare them under variants: in machine.yaml, or write one value"),
        );
    }

    fn unknown_variant_key(&mut self, pair: &Pair, axis: &Axis) {
        let other = self.axes.iter().find(|a| a.values.iter().any(|v| v.name == pair.key));
        let (message, fix) = if let Some(other) = other {
            (
                format!("‘{}’ is a value of {}, its neighbour is one of {}", pair.key, other.name, axis.name),
                "where two axes matter, write a list: [{for: {axis: value, …}, is: …}]".to_owned(),
            )
        } else {
            let names = self.axes.iter().flat_map(|a| a.values.iter().map(|v| v.name.as_str()));
            let all: Vec<&str> = names.clone().collect();
            let fix = nearest(&pair.key, names)
                .map_or_else(|| format!("variants of this machine: {}", all.join(", ")), |near| format!("did you mean ‘{near}’?"));
            (format!("‘{}’ is no variant of this machine", pair.key), fix)
        };
        self.report(Finding::new(&rules::UNKNOWN_VARIANT, pair.key_place.clone(), message).label("not a variant").fix(fix));
    }

    fn by_conditions(&mut self, field: &Field, items: &[Node]) -> Varied<Reading> {
        let mut varied = Varied::default();
        for item in items {
            for pair in item.pairs().iter().filter(|pair| pair.key != "for" && pair.key != "is") {
                self.report(
                    Finding::new(&rules::UNKNOWN_KEY, pair.key_place.clone(), format!("‘{}’ is no key of a value by variant", pair.key))
                        .label("not known here")
                        .fix("write {for: {axis: value, …}, is: …}"),
                );
            }
            let when = item.get("for").and_then(|node| self.condition(node)).unwrap_or_default();
            if let Some(pair) = item.pairs().iter().find(|pair| pair.key == "is" && is_empty(&pair.node)) {
                self.empty_value(pair, &field.shape.wanted());
                continue;
            }
            let Some(node) = item.get("is") else {
                self.report(
                    Finding::new(&rules::KEY_MISSING, item.place.clone(), "a value by variant needs ‘is’")
                        .label("no is")
                        .fix("write {for: {axis: value, …}, is: …}"),
                );
                continue;
            };
            if let Some(spot) = self.shape(&field.shape, node) {
                varied.cases.push(Case { when, value: spot.value, place: spot.place });
            }
        }
        varied
    }

    /// Reads a node as a shape; `None` where it can't be, which has been reported.
    pub(super) fn shape(&mut self, shape: &Shape, node: &Node) -> Option<Spot<Reading>> {
        let value = match (&node.value, shape) {
            (Value::Hole, _) => None,
            (_, Shape::Either(shapes)) => return self.either(shapes, node),
            (Value::Scalar(scalar), Shape::AsWritten) => self.scalar(&Shape::Text, node, scalar),
            (_, Shape::AsWritten) => Some(Reading::Text(self.written_text(&node.place))),
            (Value::Map(_), Shape::Map(fields)) => Some(Reading::Map(self.nested(fields, node))),
            (Value::Map(pairs), Shape::Named(of)) => Some(Reading::Named(self.named(of, pairs))),
            (Value::Map(_), Shape::Condition) => self.condition(node).map(Reading::Condition),
            (Value::List(items), Shape::List(of)) => {
                let kept = items.iter().filter(|item| !is_verb_with_colon(item));
                Some(Reading::List(kept.filter_map(|item| self.shape(of, item)).collect()))
            }
            (Value::List(items), Shape::Pair) => self.pair_of_numbers(node, items),
            (Value::Scalar(scalar), _) if !shape.takes_map() && !shape.takes_list() => self.scalar(shape, node, scalar),
            _ => {
                self.another_form(shape, node);
                None
            }
        };
        value.map(|value| Spot { value, place: node.place.clone() })
    }

    fn either(&mut self, shapes: &'static [Shape], node: &Node) -> Option<Spot<Reading>> {
        let fits = |shape: &&'static Shape| match (&node.value, shape) {
            (Value::Map(_), shape) => shape.takes_map(),
            (Value::List(_), shape) => shape.takes_list(),
            (Value::Scalar(scalar), Shape::Words(words)) => words.contains(&scalar.text.trim()),
            (Value::Scalar(_), shape) => !shape.takes_map() && !shape.takes_list(),
            (Value::Hole, _) => true,
        };
        match shapes.iter().find(fits) {
            Some(shape) => self.shape(shape, node),
            None => {
                self.another_form(&Shape::Either(shapes), node);
                None
            }
        }
    }

    pub(super) fn another_form(&mut self, shape: &Shape, node: &Node) {
        // Nobody answers a question in the form of its answer.
        if let Some(question) = node.text().and_then(|text| text.trim().strip_prefix('?')) {
            self.unanswered(node, question.trim(), shape);
            return;
        }
        let (found, fix) = match &node.value {
            Value::Scalar(scalar) if matches!(shape, Shape::List(_)) => ("a single value".to_owned(), format!("write [{}]", scalar.text)),
            Value::Scalar(scalar) if matches!(shape, Shape::Either(_)) => (format!("‘{}’", scalar.text), format!("write {}", shape.wanted())),
            Value::Scalar(_) => ("a single value".to_owned(), format!("write {}", shape.wanted())),
            Value::List(_) => ("a list".to_owned(), format!("write {}", shape.wanted())),
            Value::Map(_) => ("a map of keys".to_owned(), format!("write {}", shape.wanted())),
            Value::Hole => return,
        };
        self.report(
            Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("{found} stands where {} is wanted", shape.wanted()))
                .label("of another form")
                .fix(fix),
        );
    }

    fn nested(&mut self, fields: &'static [Field], node: &Node) -> Record {
        let outline = Outline { tables: &[fields], others: &[], what: "this map", anchor: &node.place };
        self.record(node, &outline)
    }

    fn named(&mut self, of: &Shape, pairs: &[Pair]) -> Vec<(Spot<String>, Spot<Reading>)> {
        let mut named = Vec::new();
        for pair in pairs {
            // A name such as `time:` leaves no doubt about what stands there, and a number without its unit is no time.
            let of = if matches!(of, Shape::AnyQuantity) { expected::under(&pair.key) } else { of };
            if is_empty(&pair.node) {
                self.empty_value(pair, &of.wanted());
            } else if let Some(value) = self.shape(of, &pair.node) {
                named.push((Spot { value: pair.key.clone(), place: pair.key_place.clone() }, value));
            }
        }
        named
    }

    /// `{serial: late, shaft: L}` against the machine's axes.
    pub(super) fn condition(&mut self, node: &Node) -> Option<Combination> {
        let mut combination = Combination::default();
        for pair in node.pairs() {
            let Some(axis) = self.axes.iter().find(|axis| axis.name == pair.key).cloned() else {
                let near = nearest(&pair.key, self.axes.iter().map(|a| a.name.as_str())).map(str::to_owned);
                let axes: Vec<&str> = self.axes.iter().map(|a| a.name.as_str()).collect();
                let fix = near.map_or_else(|| format!("axes of this machine: {}", axes.join(", ")), |near| format!("did you mean ‘{near}’?"));
                self.report(
                    Finding::new(&rules::UNKNOWN_VARIANT, pair.key_place.clone(), format!("‘{}’ is no axis of this machine", pair.key))
                        .label("not an axis")
                        .fix(fix),
                );
                continue;
            };
            let Some(value) = pair.node.text() else {
                self.another_form(&Shape::Text, &pair.node);
                continue;
            };
            self.axis_value(&axis, value, &pair.node.place, &mut combination);
        }
        if matches!(node.value, Value::Map(_)) { Some(combination) } else { self.another_form(&Shape::Condition, node); None }
    }

    fn axis_value(&mut self, axis: &Axis, value: &str, place: &Place, combination: &mut Combination) {
        if axis.values.iter().any(|v| v.name == value) {
            combination.0.insert(axis.name.clone(), value.to_owned());
            return;
        }
        let names: Vec<&str> = axis.values.iter().map(|v| v.name.as_str()).collect();
        self.report(
            Finding::new(&rules::UNKNOWN_VARIANT, place.clone(), format!("‘{value}’ is no value of {}", axis.name))
                .label("not a variant")
                .fix(format!("{} has {}", axis.name, names.join(", "))),
        );
    }

    /// A value's text as it stands in the file, white space folded.
    fn written_text(&self, place: &Place) -> String {
        let text = self.files.text(place.file).get(place.start..place.end).unwrap_or("");
        let words: Vec<&str> = text.split_whitespace().collect();
        words.join(" ")
    }
}

fn keys_text(outline: &Outline<'_>) -> String {
    let own = outline.tables.iter().flat_map(|table| table.iter().map(|field| field.key));
    let keys: Vec<&str> = own.chain(outline.others.iter().copied()).collect();
    keys.join(", ")
}

/// Whether a key has nothing behind it.
pub(super) fn is_empty(node: &Node) -> bool {
    matches!(&node.value, Value::Scalar(scalar) if scalar.text.is_empty() && !scalar.quoted)
}

/// `[turn:]`: YAML makes a map of it, and the reading stage has said so.
fn is_verb_with_colon(node: &Node) -> bool {
    matches!(node.pairs(), [pair] if is_empty(&pair.node))
}

/// The items of a list written `[{for: …, is: …}]`.
fn condition_list(node: &Node) -> Option<&[Node]> {
    match &node.value {
        Value::List(items) if items.iter().any(|item| item.get("is").is_some() || item.get("for").is_some()) => Some(items),
        _ => None,
    }
}
