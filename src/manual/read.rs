//! Reading a node by its shape: every fault of form is found here, once, with its place.

use super::reading::{Reading, Record, Written};
use super::rules;
use super::shape::{Field, Shape};
use super::things::{Date, Spot};
use super::varied::{Axis, Case, Combination, Varied};
use crate::finding::{FileTable, Finding, Place, nearest};
use crate::quantity::{Moment, MomentSpan, Quantity, QuantityError, Size};
use crate::source::{Node, Pair, Scalar, Value, retyped};
use crate::trade::thread::Thread;

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
                for pair in pairs {
                    self.pair(pair, outline, &mut record);
                }
                self.missing_keys(pairs, outline);
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
                    self.empty_value(pair, field);
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
            None => self.unknown_key(pair, outline),
        }
    }

    fn empty_value(&mut self, pair: &Pair, field: &Field) {
        self.report(
            Finding::new(&rules::KEY_WITHOUT_VALUE, pair.key_place.clone(), format!("‘{}’ has no value", pair.key))
                .label("nothing behind it")
                .fix(format!("write {}, or take the key out", field.shape.wanted())),
        );
    }

    fn unknown_key(&mut self, pair: &Pair, outline: &Outline<'_>) {
        // A comma in a flow map's text makes a key of what follows; where it looks like the rest of a
        // number the reading stage has said so already.
        if is_empty(&pair.node) && !is_key_like(&pair.key) {
            if !pair.key.starts_with(|c: char| c.is_ascii_digit()) {
                self.report(
                    Finding::new(&crate::source::rules::YAML_TRAP, pair.key_place.clone(), format!("‘{}’ has become a key of its own", pair.key))
                        .label("split off at the comma before it")
                        .fix("put the whole text in quotes: a comma inside { } starts a new key"),
                );
            }
            return;
        }
        let keys = outline.tables.iter().flat_map(|table| table.iter().map(|field| field.key));
        let near = nearest(&pair.key, keys.chain(outline.others.iter().copied()));
        let fix = near.map_or_else(|| format!("known here: {}", keys_text(outline)), |near| format!("did you mean ‘{near}’?"));
        self.report(
            Finding::new(&rules::UNKNOWN_KEY, pair.key_place.clone(), format!("‘{}’ is no key of {}", pair.key, outline.what))
                .label("not known here")
                .fix(fix),
        );
    }

    fn missing_keys(&mut self, pairs: &[Pair], outline: &Outline<'_>) {
        for field in outline.tables.iter().flat_map(|table| table.iter()).filter(|field| field.required) {
            if !pairs.iter().any(|pair| pair.key == field.key) {
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
        for pair in node.pairs() {
            if !axis.values.iter().any(|value| value.name == pair.key) {
                self.unknown_variant_key(pair, axis, field);
                continue;
            }
            if let Some(spot) = self.shape(&field.shape, &pair.node) {
                let when = Combination([(axis.name.clone(), pair.key.clone())].into_iter().collect());
                varied.cases.push(Case { when, value: spot.value, place: spot.place });
            }
        }
        varied
    }

    fn unknown_variant_key(&mut self, pair: &Pair, axis: &Axis, field: &Field) {
        let other = self.axes.iter().find(|a| a.values.iter().any(|v| v.name == pair.key));
        let (message, fix) = if let Some(other) = other {
            (
                format!("‘{}’ is a value of {}, its neighbour is one of {}", pair.key, other.name, axis.name),
                "where two axes matter, write a list: [{for: {axis: value, …}, is: …}]".to_owned(),
            )
        } else {
            let names = self.axes.iter().flat_map(|a| a.values.iter().map(|v| v.name.as_str()));
            let all: Vec<&str> = names.clone().collect();
            let fix = nearest(&pair.key, names).map_or_else(
                || {
                    if all.is_empty() {
                        format!("this machine has no variants; write {}", field.shape.wanted())
                    } else {
                        format!("variants of this machine: {}", all.join(", "))
                    }
                },
                |near| format!("did you mean ‘{near}’?"),
            );
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
            (Value::Map(_), Shape::Map(fields)) => Some(Reading::Map(self.nested(fields, node))),
            (Value::Map(pairs), Shape::Named(of)) => Some(Reading::Named(self.named(of, pairs))),
            (Value::Map(_), Shape::Condition) => self.condition(node).map(Reading::Condition),
            (Value::List(items), Shape::List(of)) => {
                Some(Reading::List(items.iter().filter_map(|item| self.shape(of, item)).collect()))
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
            (Value::Scalar(scalar), Shape::Words(words)) => words.contains(&scalar.text.as_str()),
            (Value::Scalar(_), shape) => !shape.takes_map() && !shape.takes_list(),
            (Value::Hole, _) => true,
        };
        let fallback = || shapes.iter().rev().find(|shape| !matches!(shape, Shape::Map(_) | Shape::Named(_) | Shape::List(_)));
        if let Some(shape) = shapes.iter().find(fits) {
            return self.shape(shape, node);
        }
        if matches!(node.value, Value::Scalar(_)) && fallback().is_none() {
            self.another_form(&Shape::Either(shapes), node);
            return None;
        }
        match fallback().filter(|_| matches!(node.value, Value::Scalar(_))) {
            Some(shape) => self.shape(shape, node),
            None => {
                self.another_form(&Shape::Either(shapes), node);
                None
            }
        }
    }

    fn another_form(&mut self, shape: &Shape, node: &Node) {
        let found = match &node.value {
            Value::Scalar(_) => "a single value",
            Value::List(_) => "a list",
            Value::Map(_) => "keys and values",
            Value::Hole => return,
        };
        self.report(
            Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("{found} stands where {} is wanted", shape.wanted()))
                .label("of another form")
                .fix(format!("write {}", shape.wanted())),
        );
    }

    fn nested(&mut self, fields: &'static [Field], node: &Node) -> Record {
        let outline = Outline { tables: &[fields], others: &[], what: "this map", anchor: &node.place };
        self.record(node, &outline)
    }

    fn named(&mut self, of: &Shape, pairs: &[Pair]) -> Vec<(Spot<String>, Spot<Reading>)> {
        let mut named = Vec::new();
        for pair in pairs {
            if let Some(value) = self.shape(of, &pair.node) {
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

    fn pair_of_numbers(&mut self, node: &Node, items: &[Node]) -> Option<Reading> {
        let number = |node: &Node| node.text().and_then(plain_number);
        if let [x, y] = items
            && let (Some(x), Some(y)) = (number(x), number(y)) {
                return Some(Reading::Pair(x, y));
            }
        self.another_form(&Shape::Pair, node);
        None
    }

    fn scalar(&mut self, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<Reading> {
        let text = scalar.text.trim();
        match shape {
            Shape::Count => plain_count(text).map(Reading::Count).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Flag => match text {
                "true" => Some(Reading::Flag(true)),
                "false" => Some(Reading::Flag(false)),
                _ => self.refuse(shape, node, scalar),
            },
            Shape::Date => Date::parse(text).map(Reading::Date).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Quantity(dimensions) => {
                self.quantity(Quantity::parse_any(text, dimensions), shape, node, scalar).map(|q| Reading::Quantity(Box::new(q)))
            }
            Shape::AnyQuantity => {
                self.quantity(Quantity::parse_free(text), shape, node, scalar).map(|q| Reading::Quantity(Box::new(q)))
            }
            Shape::Size => self.quantity(Size::parse(text), shape, node, scalar).map(|size| Reading::Size(Box::new(size))),
            _ if self.trapped(node, scalar) => None,
            Shape::Text => Some(Reading::Text(scalar.text.trim().to_owned())),
            Shape::Words(words) if words.contains(&text) => Some(Reading::Text(text.to_owned())),
            Shape::Words(words) => self.unknown_word(words, node, text),
            Shape::Id => Some(Reading::Text(text.to_owned())),
            Shape::Thread => self.thread(node, text),
            Shape::Moment => Moment::parse(text).ok().map(Reading::Moment).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Span => MomentSpan::parse(text).ok().map(Reading::Span).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Percent => percent(text).map(|(x, y)| Reading::Percent(x, y)).or_else(|| self.refuse(shape, node, scalar)),
            Shape::Pair | Shape::List(_) | Shape::Map(_) | Shape::Named(_) | Shape::Condition | Shape::Either(_) => {
                self.another_form(shape, node);
                None
            }
        }
    }

    /// Reports a scalar that YAML would turn into something else.
    fn trapped(&mut self, node: &Node, scalar: &Scalar) -> bool {
        let Some(becomes) = retyped(scalar) else { return false };
        self.report(
            Finding::new(&crate::source::rules::YAML_TRAP, node.place.clone(), format!("other readers of YAML make {becomes} of ‘{}’", scalar.text))
                .label(format!("read as {becomes}"))
                .fix(format!("quote it: '{}'", scalar.text)),
        );
        true
    }

    fn quantity<T>(&mut self, parsed: Result<T, QuantityError>, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<T> {
        let error = match parsed {
            Ok(value) => return Some(value),
            Err(error) => error,
        };
        let digits = scalar.text.trim().bytes().all(|b| b.is_ascii_digit() || b == b'.');
        if !digits && self.trapped(node, scalar) {
            return None;
        }
        let place = self.within(node, scalar, &error);
        let fix = error.fix();
        let fix = if fix.is_empty() { format!("write {}", shape.wanted()) } else { fix };
        self.report(
            Finding::new(super::quantity_rules::of_quantity(error.name()), place, error.message())
                .label(super::quantity_rules::label(error.name()))
                .figures(error.figures())
                .fix(fix),
        );
        None
    }

    /// The bytes of an error inside a scalar, quotes allowed for.
    fn within(&self, node: &Node, scalar: &Scalar, error: &QuantityError) -> Place {
        let text = self.files.text(node.place.file).get(node.place.start..node.place.end).unwrap_or("");
        let lead = scalar.text.len() - scalar.text.trim_start().len();
        match text.find(scalar.text.as_str()) {
            Some(at) => {
                let shift = at + lead;
                node.place.part(error.span().start + shift..error.span().end + shift)
            }
            None => node.place.clone(),
        }
    }

    fn unknown_word(&mut self, words: &[&'static str], node: &Node, text: &str) -> Option<Reading> {
        let fix = nearest(text, words.iter().copied())
            .map_or_else(|| format!("one of: {}", words.join(", ")), |near| format!("did you mean ‘{near}’? Known: {}", words.join(", ")));
        self.report(
            Finding::new(&rules::UNKNOWN_WORD, node.place.clone(), format!("‘{text}’ is not one of the words this key knows"))
                .label("not known here")
                .fix(fix),
        );
        None
    }

    fn thread(&mut self, node: &Node, text: &str) -> Option<Reading> {
        match Thread::parse(text) {
            Ok(thread) => Some(Reading::Thread(Box::new(thread))),
            Err(error) => {
                self.report(
                    Finding::new(&rules::THREAD_UNREADABLE, node.place.clone(), error.message(text))
                        .label("no such thread")
                        .fix(error.fix()),
                );
                None
            }
        }
    }

    fn refuse(&mut self, shape: &Shape, node: &Node, scalar: &Scalar) -> Option<Reading> {
        if !matches!(shape, Shape::Count | Shape::Flag | Shape::Date) && self.trapped(node, scalar) {
            return None;
        }
        self.report(
            Finding::new(&rules::VALUE_OF_ANOTHER_FORM, node.place.clone(), format!("‘{}’ is not {}", scalar.text, shape.wanted()))
                .label("of another form")
                .fix(format!("write {}", shape.wanted())),
        );
        None
    }

    /// A value's text as it stands in the file, white space folded.
    fn written_text(&self, place: &Place) -> String {
        let text = self.files.text(place.file).get(place.start..place.end).unwrap_or("");
        let words: Vec<&str> = text.split_whitespace().collect();
        words.join(" ")
    }
}

impl Date {
    /// Reads `2026-09-14`; none for a day that is in no calendar.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        let shaped = year.len() == 4 && month.len() == 2 && day.len() == 2 && parts.next().is_none();
        if !shaped || !text.bytes().all(|b| b.is_ascii_digit() || b == b'-') {
            return None;
        }
        let (year, month, day): (u16, u8, u8) = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return None,
        };
        (year > 0 && (1..=days).contains(&day)).then_some(Self { year, month, day })
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

fn keys_text(outline: &Outline<'_>) -> String {
    let own = outline.tables.iter().flat_map(|table| table.iter().map(|field| field.key));
    let keys: Vec<&str> = own.chain(outline.others.iter().copied()).collect();
    keys.join(", ")
}

fn is_empty(node: &Node) -> bool {
    matches!(&node.value, Value::Scalar(scalar) if scalar.text.is_empty() && !scalar.quoted)
}

fn is_key_like(key: &str) -> bool {
    !key.is_empty() && key.bytes().all(|b| b.is_ascii_lowercase() || b == b'_' || b == b'-')
}

/// The items of a list written `[{for: …, is: …}]`.
fn condition_list(node: &Node) -> Option<&[Node]> {
    match &node.value {
        Value::List(items) if items.iter().any(|item| item.get("is").is_some() || item.get("for").is_some()) => Some(items),
        _ => None,
    }
}

/// A whole number without sign, leading zero or more than twelve digits.
fn plain_count(text: &str) -> Option<u64> {
    let plain = (1..=12).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    if plain && (text == "0" || !text.starts_with('0')) { text.parse().ok() } else { None }
}

fn plain_number(text: &str) -> Option<f64> {
    let text = text.trim();
    let digits = text.strip_prefix('-').unwrap_or(text);
    let plain = (1..=12).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if plain { text.parse().ok() } else { None }
}

/// `34% 20%`, each from 0 to 100.
fn percent(text: &str) -> Option<(f64, f64)> {
    let mut parts = text.split_whitespace();
    let mut next = || {
        let number = plain_number(parts.next()?.strip_suffix('%')?)?;
        (0.0..=100.0).contains(&number).then_some(number)
    };
    let pair = (next()?, next()?);
    parts.next().is_none().then_some(pair)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_days_of_the_calendar() {
        let shown = |text: &str| Date::parse(text).map(|d| d.to_string());
        assert_eq!(shown("2026-09-14").as_deref(), Some("2026-09-14"));
        assert_eq!(shown("2024-02-29").as_deref(), Some("2024-02-29"));
        for bad in ["2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26-01-01", "2026-1-1", "0000-01-01", "2026-01-01x", "+026-01-01", ""] {
            assert_eq!(shown(bad), None, "{bad}");
        }
    }

    #[test]
    fn counts_and_places() {
        assert_eq!(plain_count("4"), Some(4));
        assert_eq!(plain_count("0"), Some(0));
        for bad in ["04", "-1", "1.0", "", "four", "99999999999999999999"] {
            assert_eq!(plain_count(bad), None, "{bad}");
        }
        assert_eq!(percent("34% 20.5%"), Some((34.0, 20.5)));
        for bad in ["34 20", "34%", "101% 0%", "1% 2% 3%", "-1% 2%"] {
            assert_eq!(percent(bad), None, "{bad}");
        }
    }
}
