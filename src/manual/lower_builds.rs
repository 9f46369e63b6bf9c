//! From a record's file to [`Build`]: every text is looked at before it is kept.

use super::builds::{BUILD_FORMAT, Build, BuildWork, Deviation, LeftOpen, Tick};
use super::fingerprint::Fingerprint;
use super::instant::Instant;
use super::rules::{RECORD_KEY_UNKNOWN, RECORD_MALFORMED};
use super::things::Spot;
use crate::finding::{Finding, Place, nearest};
use crate::source::{Node, Pair, RecordSource, Scalar, Value};

/// Characters of an id, a name, a value or a serial number.
const SHORT: usize = 200;
/// Characters of what somebody tells in words.
const LONG: usize = 2000;

/// Gives meaning to a record that is no part of the manual, and tells what is wrong with its form.
#[must_use]
pub fn lower_record(source: &RecordSource) -> (Option<Build>, Vec<Finding>) {
    let mut findings = Vec::new();
    let build = build(source, &mut findings);
    (build, findings)
}

/// Gives meaning to a record. None where it is of another version or kind, which has been reported.
pub(super) fn build(source: &RecordSource, findings: &mut Vec<Finding>) -> Option<Build> {
    let root = &source.root;
    let mut form = Form { findings };
    let format = form.needed(root, "format", "the record")?;
    if format.value != BUILD_FORMAT {
        form.findings.push(
            Finding::new(&RECORD_MALFORMED, format.place, format!("this is ‘{}’, and records of ‘{BUILD_FORMAT}’ are read", format.value))
                .label("another kind or version")
                .fix("export the record again with the pages of this manual, or read it with the Benchleaf that wrote it"),
        );
        return None;
    }
    let keys = ["format", "manual", "machine", "serial", "variant", "people", "begun", "saved", "procedures", "deviations", "open"];
    form.keys(root, &keys, "a record");
    Some(Build {
        id: source.id.clone(),
        file: source.file,
        place: first_sign(&root.place),
        manual: form.text(root, "manual", SHORT),
        machine: form.needed(root, "machine", "the record"),
        serial: form.text(root, "serial", SHORT),
        variant: form.variant(root),
        people: form.people(root),
        begun: form.instant(root, "begun"),
        saved: form.instant(root, "saved"),
        work: form.map(root, "procedures").iter().map(|pair| form.work(pair)).collect(),
        deviations: form.list(root, "deviations").iter().filter_map(|node| form.deviation(node)).collect(),
        open: form.list(root, "open").iter().filter_map(|node| form.left_open(node)).collect(),
    })
}

struct Form<'f> {
    findings: &'f mut Vec<Finding>,
}

impl Form<'_> {
    fn work(&mut self, pair: &Pair) -> BuildWork {
        let node = &pair.node;
        self.keys(node, &["revision", "fingerprint", "begun", "finished", "ticks", "readings", "signatures", "stops"], "the work of a procedure");
        if !matches!(node.value, Value::Map(_)) {
            self.malformed(first_sign(&node.place), "the work of a procedure is a map of keys and values", "something else");
        }
        let fingerprint = self.text(node, "fingerprint", SHORT).and_then(|spot| {
            let read = Fingerprint::parse(&spot.value);
            if read.is_none() {
                self.malformed(spot.place.clone(), "this is no fingerprint of a sheet", "three groups of four signs are wanted");
            }
            read.map(|value| Spot { value, place: spot.place })
        });
        BuildWork {
            procedure: Spot { value: pair.key.clone(), place: pair.key_place.clone() },
            revision: self.count(node, "revision"),
            fingerprint,
            begun: self.instant(node, "begun"),
            finished: self.instant(node, "finished"),
            ticks: self.list(node, "ticks").iter().filter_map(|node| self.tick(node, "a tick")).collect(),
            readings: self.list(node, "readings").iter().filter_map(|node| self.tick(node, "a reading")).collect(),
            signatures: self.list(node, "signatures").iter().filter_map(|node| self.tick(node, "a signature")).collect(),
            stops: self.list(node, "stops").iter().filter_map(|node| self.tick(node, "an answer to a STOP line")).collect(),
        }
    }

    fn tick(&mut self, node: &Node, what: &str) -> Option<Tick> {
        self.keys(node, &["step", "act", "number", "value", "at", "by"], what);
        let (step, act) = (self.needed(node, "step", what), self.needed(node, "act", what));
        let number = self.count(node, "number").unwrap_or(1).max(1);
        let (value, at, by) = (self.text(node, "value", SHORT), self.instant(node, "at"), self.text(node, "by", SHORT));
        Some(Tick { place: node.place.clone(), step: step?, act: act?, number, value, at, by })
    }

    fn deviation(&mut self, node: &Node) -> Option<Deviation> {
        if !matches!(node.value, Value::Map(_)) {
            self.malformed(first_sign(&node.place), "a deviation is a map of keys and values", "something else");
            return None;
        }
        self.keys(node, &["procedure", "step", "of", "what", "because", "by", "at"], "a deviation");
        Some(Deviation {
            place: node.place.clone(),
            procedure: self.needed(node, "procedure", "a deviation"),
            step: self.text(node, "step", SHORT),
            of: self.text(node, "of", SHORT),
            what: self.text(node, "what", LONG),
            because: self.text(node, "because", LONG),
            by: self.text(node, "by", SHORT),
            at: self.instant(node, "at"),
        })
    }

    fn left_open(&mut self, node: &Node) -> Option<LeftOpen> {
        self.keys(node, &["item", "procedure", "left"], "an open item");
        let item = self.needed(node, "item", "an open item");
        let (procedure, left) = (self.text(node, "procedure", SHORT), self.text(node, "left", SHORT));
        Some(LeftOpen { place: node.place.clone(), item: item?, procedure, left })
    }

    fn variant(&mut self, root: &Node) -> Vec<(Spot<String>, Spot<String>)> {
        let mut variant = Vec::new();
        for pair in self.map(root, "variant") {
            if let Some(value) = self.text(root.get("variant").unwrap_or(root), &pair.key, SHORT) {
                variant.push((Spot { value: pair.key.clone(), place: pair.key_place.clone() }, value));
            }
        }
        variant
    }

    fn people(&mut self, root: &Node) -> Vec<Spot<String>> {
        self.list(root, "people").iter().filter_map(|node| self.words(node, "people", SHORT)).collect()
    }

    /// A text that must be there.
    fn needed(&mut self, node: &Node, key: &str, what: &str) -> Option<Spot<String>> {
        if node.get(key).is_none() && node.value != Value::Hole {
            self.malformed(first_sign(&node.place), &format!("{what} needs ‘{key}’"), &format!("no {key}"));
            return None;
        }
        self.text(node, key, SHORT)
    }

    /// A text; none where there is none, or `null`.
    fn text(&mut self, node: &Node, key: &str, most: usize) -> Option<Spot<String>> {
        let found = node.get(key)?;
        if is_null(found) { None } else { self.words(found, key, most) }
    }

    /// The words of a text, without what could pretend to be something else where it is shown.
    fn words(&mut self, node: &Node, key: &str, most: usize) -> Option<Spot<String>> {
        match &node.value {
            Value::Scalar(Scalar { text, quoted: true }) => {
                let text = text.trim();
                if text.chars().any(is_hidden) {
                    self.malformed(node.place.clone(), &format!("‘{key}’ holds signs that can't be seen"), "left out");
                    return None;
                }
                if text.chars().count() > most {
                    self.malformed(first_sign(&node.place), &format!("‘{key}’ is longer than {most} signs"), "left out");
                    return None;
                }
                (!text.is_empty()).then(|| Spot { value: text.to_owned(), place: node.place.clone() })
            }
            Value::Hole => None,
            Value::Scalar(_) | Value::List(_) | Value::Map(_) => {
                self.malformed(first_sign(&node.place), &format!("‘{key}’ is a text in quotes"), "something else");
                None
            }
        }
    }

    fn count(&mut self, node: &Node, key: &str) -> Option<u64> {
        let found = node.get(key).filter(|found| !is_null(found))?;
        let count = match &found.value {
            Value::Scalar(Scalar { text, quoted: false }) => text.parse().ok().filter(|count| *count <= 1_000_000),
            _ => None,
        };
        if count.is_none() {
            self.malformed(found.place.clone(), &format!("‘{key}’ is a whole number"), "something else");
        }
        count
    }

    fn instant(&mut self, node: &Node, key: &str) -> Option<Spot<Instant>> {
        let text = self.text(node, key, SHORT)?;
        let Some(value) = Instant::parse(&text.value) else {
            self.malformed(text.place, &format!("‘{key}’ is a moment such as 2026-09-14T18:02:00Z"), "something else");
            return None;
        };
        Some(Spot { value, place: text.place })
    }

    fn list<'n>(&mut self, node: &'n Node, key: &str) -> &'n [Node] {
        match node.get(key) {
            Some(Node { value: Value::List(items), .. }) => items,
            Some(Node { value: Value::Hole, .. }) | None => &[],
            Some(found) if is_null(found) => &[],
            Some(found) => {
                self.malformed(first_sign(&found.place), &format!("‘{key}’ is a list"), "something else");
                &[]
            }
        }
    }

    fn map<'n>(&mut self, node: &'n Node, key: &str) -> &'n [Pair] {
        match node.get(key) {
            Some(found) if is_null(found) || found.value == Value::Hole => &[],
            Some(found) => {
                if !matches!(found.value, Value::Map(_)) {
                    self.malformed(first_sign(&found.place), &format!("‘{key}’ is a map of keys and values"), "something else");
                }
                found.pairs()
            }
            None => &[],
        }
    }

    /// Keys that this version does not know are kept in the file and passed over.
    fn keys(&mut self, node: &Node, known: &[&str], what: &str) {
        for pair in node.pairs().iter().filter(|pair| !known.contains(&pair.key.as_str())) {
            let near = nearest(&pair.key, known.iter().copied());
            let shown: String = pair.key.chars().filter(|sign| !is_hidden(*sign)).take(40).collect();
            self.findings.push(
                Finding::new(&RECORD_KEY_UNKNOWN, pair.key_place.clone(), format!("‘{shown}’ is no key of {what}"))
                    .label("passed over")
                    .fix(near.map_or_else(|| "nothing need be done; the rest of the record is read".to_owned(), |near| format!("did you mean ‘{near}’?"))),
            );
        }
    }

    fn malformed(&mut self, place: Place, message: &str, label: &str) {
        self.findings.push(
            Finding::new(&RECORD_MALFORMED, place, message)
                .label(label)
                .fix("export the record again, or mend it by hand; ‘benchleaf schema build’ prints its form"),
        );
    }
}

fn is_null(node: &Node) -> bool {
    matches!(&node.value, Value::Scalar(Scalar { text, quoted: false }) if text.is_empty())
}

/// Controls, and signs that turn the direction of writing round.
fn is_hidden(sign: char) -> bool {
    sign.is_control() || matches!(sign, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

fn first_sign(place: &Place) -> Place {
    place.part(0..1)
}
