//! The fingerprint of a bench sheet: told by it, a paper, a phone or a record and the manual of today agree or not.
//!
//! It is SHA-256 (FIPS 180-4) over the *canonical text* of the values on the sheet, of which the first sixty bits are
//! shown. What the canonical text of version 2 holds, and nothing else, a line each, in UTF-8, every line ended by a
//! line feed:
//!
//! ```text
//! benchleaf-sheet/2
//! sheet tarn-18/pinion-height shaft=L
//! pinion-height tighten torque:pinion-nut
//! pinion-height tighten torque:pinion-nut fasteners/pinion-nut.torque 78 N·m
//! pinion-height tighten torque:pinion-nut materials/medium-locker.cure 24 h
//! pinion-height - open leaves_open/carrier.left dry-fitted
//! ```
//!
//! - the version; the machine, procedure and variant of the sheet (axes by name, `-` where it knows none);
//! - a line for each act that the sheet shows, in the order of work: procedure, step, address;
//! - behind the first act that brings a thing on the sheet, a line for each of its values that can hold there, in the
//!   order of their keys: list, id, field, and the value as it is written (white space folded, quotes taken off). A value
//!   that the sheet shows for several variants has each of them, `[serial=late] 78 N·m`;
//! - of a fastener that no act on the sheet tightens, all but its torque: the sheet has no line for that;
//! - with a thing, what its values name and the sheet prints with them: its locker, wrench, holding tool, sleeve, gauge,
//!   thermometer, shim, plates, what a wait lays in something, the shaft it sits on with what else sits there;
//! - behind the first act that tightens with them, the wrenches chosen where no `tool:` names one: by their scales the sheet tells the
//!   torque, and from which wrench is taken up follows which squares and sockets are;
//! - the open items that the procedure finds or leaves.
//!
//! Words of prose, titles, names, notes, sources, minutes, moments of a recording and days of calibration don't count: a paper
//! is not thrown away for a comma. The unit as written does: a wrench is set by it. A later change of these rules is a new
//! version, and every paper printed before it is then out of date, which is the safe way to be wrong. Torque cards and boards
//! have texts of their own (`wall_papers.rs`).

use super::ledger::is_value;
use super::lists::{Home, ListKind, Lists, Scope, ThingRef};
use super::model::{Act, Machine, Manual, Procedure};
use super::sheet_things::{named_by, shafts_of};
use super::varied::Combination;
use super::verb::Verb;
use super::wrench_choice::wrenches;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt;

/// The first line of the canonical text.
const VERSION: &str = "benchleaf-sheet/2";

/// Digits and capitals without I, L, O and U: nothing that is read aloud or copied by hand from greasy paper is taken for
/// another sign (Crockford's base 32, from memory; RFC 4648 keeps I, L, O and drops 0 and 1).
const ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Signs shown: sixty bits. By chance two states of one sheet agree once in 10¹⁸; against somebody who wants them to, no
/// fingerprint on paper helps.
const SIGNS: usize = 12;

/// A sheet's fingerprint as people read it: `7K3M-Q0ZT-9WXA`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint(String);

impl Fingerprint {
    /// The fingerprint of the sheet of a procedure that knows `known` of its machine.
    #[must_use]
    pub fn of(manual: &Manual, machine: &Machine, procedure: &Procedure, known: &Combination) -> Self {
        Self::of_text(&canonical(manual, machine, procedure, known).text)
    }

    pub(super) fn of_text(text: &str) -> Self {
        let digest = Sha256::digest(text.as_bytes());
        let mut bits: u64 = digest.iter().take(8).fold(0, |bits, byte| (bits << 8) | u64::from(*byte));
        let mut signs = String::with_capacity(SIGNS + SIGNS / 4);
        for at in 0..SIGNS {
            if at > 0 && at % 4 == 0 {
                signs.push('-');
            }
            bits = bits.rotate_left(5);
            let sign = usize::try_from(bits & 31).ok().and_then(|index| ALPHABET.get(index)).copied().unwrap_or(b'0');
            signs.push(char::from(sign));
        }
        Self(signs)
    }

    /// Reads a fingerprint as somebody typed it: small letters, other grouping, and O, I, L for 0 and 1 are understood.
    /// None where it is none.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut signs = String::with_capacity(SIGNS + SIGNS / 4);
        let mut count = 0;
        for sign in text.chars().filter(|sign| !matches!(sign, '-' | ' ')) {
            let sign = match sign.to_ascii_uppercase() {
                'O' => '0',
                'I' | 'L' => '1',
                sign => sign,
            };
            if !sign.is_ascii() || !ALPHABET.iter().any(|known| char::from(*known) == sign) || count == SIGNS {
                return None;
            }
            if count > 0 && count % 4 == 0 {
                signs.push('-');
            }
            signs.push(sign);
            count += 1;
        }
        (count == SIGNS).then_some(Self(signs))
    }

    /// Its first group, as at the head of each page of a paper: enough to tell loose pages apart.
    #[must_use]
    pub fn in_short(&self) -> String {
        format!("{}…", self.0.split('-').next().unwrap_or_default())
    }

    /// Its signs in groups of four.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// The canonical text of the values on a sheet, as the head of this file defines it.
#[must_use]
pub fn canonical_text(manual: &Manual, machine: &Machine, procedure: &Procedure, known: &Combination) -> String {
    canonical(manual, machine, procedure, known).text
}

/// The things whose values stand on a sheet.
#[must_use]
pub fn things_on_sheet(manual: &Manual, machine: &Machine, procedure: &Procedure, known: &Combination) -> BTreeSet<ThingRef> {
    canonical(manual, machine, procedure, known).told
}

/// What tells a sheet's values from others: both are found on one way through its work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetValues {
    /// The fingerprint.
    pub fingerprint: Fingerprint,
    /// The things whose values stand on the sheet.
    pub things: BTreeSet<ThingRef>,
}

impl SheetValues {
    /// The values on the sheet of a procedure that knows `known` of its machine.
    #[must_use]
    pub fn of(manual: &Manual, machine: &Machine, procedure: &Procedure, known: &Combination) -> Self {
        let Canonical { text, told, .. } = canonical(manual, machine, procedure, known);
        Self { fingerprint: Fingerprint::of_text(&text), things: told }
    }
}

fn canonical<'a>(manual: &'a Manual, machine: &'a Machine, procedure: &'a Procedure, known: &Combination) -> Canonical<'a> {
    let mut text = Canonical {
        scope: manual.scope(machine, procedure),
        procedure: &procedure.id,
        tightened: tightened(procedure, known),
        text: format!("{VERSION}\nsheet {}/{} {}\n", machine.id, procedure.id, condition(known)),
        told: BTreeSet::new(),
    };
    for step in procedure.steps.iter().filter(|step| step.only.agrees_with(known)) {
        let Some(here) = known.and(&step.only) else { continue };
        for act in &step.acts {
            text.act(&step.id, act, &here);
        }
    }
    text.open_items(machine, procedure, known);
    text
}

/// The fasteners that acts on the sheet tighten.
fn tightened<'a>(procedure: &'a Procedure, known: &Combination) -> BTreeSet<&'a ThingRef> {
    let acts = procedure.steps.iter().filter(|step| step.only.agrees_with(known)).flat_map(|step| &step.acts);
    acts.filter(|act| act.verb == Some(Verb::Torque)).flat_map(|act| &act.things).collect()
}

struct Canonical<'a> {
    scope: Scope<'a>,
    procedure: &'a str,
    tightened: BTreeSet<&'a ThingRef>,
    text: String,
    told: BTreeSet<ThingRef>,
}

impl Canonical<'_> {
    fn act(&mut self, step: &str, act: &Act, known: &Combination) {
        // The sheet has no line for what the variant does not have.
        if act.thing().and_then(|thing| self.scope.head(thing)).is_some_and(|head| !head.only.agrees_with(known)) {
            return;
        }
        let prefix = format!("{} {step} {}", self.procedure, folded(&act.address));
        self.line(&prefix);
        let mut waiting: Vec<ThingRef> = act.things.iter().chain(&act.material).cloned().collect();
        waiting.extend(self.chosen_wrenches(act, known));
        waiting.reverse();
        while let Some(thing) = waiting.pop() {
            if !self.told.insert(thing.clone()) {
                continue;
            }
            self.values(&prefix, &thing, known);
            let mut named = named_by(self.scope, &thing, known);
            named.extend(shafts_of(self.scope, &thing));
            named.reverse();
            waiting.extend(named);
        }
    }

    /// The wrenches that the sheet has for what an act tightens, named or chosen.
    fn chosen_wrenches(&self, act: &Act, known: &Combination) -> Vec<ThingRef> {
        let tightened = act.things.iter().filter(|thing| act.verb == Some(Verb::Torque) && thing.kind == ListKind::Fasteners);
        let fasteners = tightened.filter_map(|thing| self.scope.thing(|l| &l.fasteners, thing));
        let tools = fasteners.flat_map(|entry| wrenches(self.scope, &entry.what, known, act.stage));
        tools.filter_map(|tool| self.scope.find(ListKind::Tools, &tool.id)).collect()
    }

    /// The values of a thing that can hold in the variants of the sheet.
    fn values(&mut self, prefix: &str, thing: &ThingRef, known: &Combination) {
        let Some(lists) = self.scope.lists_of(thing) else { return };
        if let Some(shaft) = lists.shafts.get(&thing.id).filter(|_| thing.kind == ListKind::Shafts) {
            let sits: Vec<&str> = shaft.what.sits.iter().map(|spot| spot.value.as_str()).collect();
            self.line(&format!("{prefix} shafts/{} {}", thing.id, sits.join(", ")));
        }
        let has_torque = thing.kind != ListKind::Fasteners || self.tightened.contains(thing);
        self.text.push_str(&value_lines(lists, thing, known, prefix, |field| is_value(field) && (field != "torque" || has_torque)));
    }

    /// What the procedure finds open and what it leaves open.
    fn open_items(&mut self, machine: &Machine, procedure: &Procedure, known: &Combination) {
        let position = |id: &str| machine.procedures.iter().position(|other| other.id == id);
        let Some(here) = position(&procedure.id) else { return };
        for (opened_in, opener) in machine.procedures.iter().enumerate().take(here + 1) {
            let items = opener.lists.leaves_open.values().map(|item| (ListKind::LeavesOpen, &item.id, &item.only, &item.what.finish_in));
            let away = opener.lists.away.values().map(|part| (ListKind::Away, &part.id, &part.only, &part.what.finish_in));
            for (kind, id, only, finish) in items.chain(away) {
                let finished_in = finish.as_ref().and_then(|spot| position(spot.value.split('#').next().unwrap_or("")));
                let found = opened_in == here || finished_in.is_none_or(|finish| finish >= here);
                if found && only.agrees_with(known) {
                    let thing = ThingRef { kind, home: Home::Procedure(opener.id.clone()), id: id.clone() };
                    let prefix = format!("{} - open", self.procedure);
                    self.line(&format!("{prefix} {}/{id}", kind.key()));
                    self.values(&prefix, &thing, known);
                }
            }
        }
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }
}

/// A line for each value of a thing that can hold in the variants that are known, of the fields that are shown.
pub(super) fn value_lines(lists: &Lists, thing: &ThingRef, known: &Combination, prefix: &str, shown: impl Fn(&str) -> bool) -> String {
    let own = lists.written.iter().filter(|w| w.kind == thing.kind && w.id == thing.id && shown(w.field));
    let mut values: Vec<_> = own.filter(|w| w.when.agrees_with(known)).collect();
    // By key, so that another order of keys in the front matter is no other sheet; the cases of a key as written.
    values.sort_by_key(|w| w.field);
    let mut lines = String::new();
    let mut settled = "";
    for written in values {
        // Behind the first case that holds in any event none is shown.
        if settled == written.field {
            continue;
        }
        let case = if known.satisfies(&written.when) {
            settled = written.field;
            String::new()
        } else {
            format!("[{}] ", condition(&written.when))
        };
        let value = unquoted(&written.text);
        lines.extend([prefix, " ", thing.kind.key(), "/", &thing.id, ".", written.field, " ", &case, &value, "\n"]);
    }
    lines
}

/// `serial=late,shaft=L`; `-` for every machine.
pub(super) fn condition(when: &Combination) -> String {
    if when.is_always() {
        return "-".to_owned();
    }
    let parts: Vec<String> = when.0.iter().map(|(axis, value)| format!("{}={}", folded(axis), folded(value))).collect();
    parts.join(",")
}

/// White space folded into single spaces: nothing of an author's begins a line of its own.
fn folded(text: &str) -> String {
    // Most values are one word.
    if text.contains(char::is_whitespace) { text.split_whitespace().collect::<Vec<_>>().join(" ") } else { text.to_owned() }
}

/// A value without the quotes that YAML needs.
fn unquoted(text: &str) -> String {
    let inner = ['\'', '"'].iter().find_map(|mark| text.strip_prefix(*mark)?.strip_suffix(*mark));
    folded(inner.unwrap_or(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fingerprint_is_read_as_people_write_it() {
        let whole = Fingerprint::parse("7K3M-Q0ZT-91XA").unwrap();
        assert_eq!(whole.as_str(), "7K3M-Q0ZT-91XA");
        for text in ["7k3mq0zt91xa", "7K3M QOZT 9LXA", " 7k3m-qozt-9ixa "] {
            assert_eq!(Fingerprint::parse(text), Some(whole.clone()), "{text}");
        }
        for text in ["", "7K3M-Q0ZT-91X", "7K3M-Q0ZT-91XAB", "7K3M-Q0ZT-91XU", "7K3M-Q0ZT-91Xé", "7K3M_Q0ZT_91XA"] {
            assert_eq!(Fingerprint::parse(text), None, "{text}");
        }
    }

    #[test]
    fn no_two_signs_are_alike() {
        let signs: BTreeSet<u8> = ALPHABET.iter().copied().collect();
        assert_eq!(signs.len(), 32);
        assert!(b"ILOU".iter().all(|sign| !signs.contains(sign)));
    }

    #[test]
    fn quotes_and_white_space_are_no_value() {
        assert_eq!((unquoted("'0714'"), unquoted("\"0714\""), unquoted("0714")), ("0714".to_owned(), "0714".to_owned(), "0714".to_owned()));
        assert_eq!(unquoted("[20 N·m,\n  90°]"), "[20 N·m, 90°]");
    }
}
