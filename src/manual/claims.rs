//! What several sources say of one value, and which of them was decided for.

use super::lists::ListKind;
use super::reading::{Reading, Record};
use super::things::Spot;
use super::varied::{Case, Combination, Varied};

/// What sources say of an entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Claims {
    /// The list.
    pub kind: ListKind,
    /// The entry's id.
    pub id: String,
    /// What each says, in the order written.
    pub said: Vec<Claim>,
    /// Which of them was decided for.
    pub decided: Option<Decision>,
}

/// What one source says.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    /// Id of the source.
    pub source: Spot<String>,
    /// The field it is about; the entry's main one where not given.
    pub of: Option<Spot<String>>,
    /// The value.
    pub says: Spot<String>,
}

/// A decision between sources.
#[derive(Clone, Debug, PartialEq)]
pub struct Decision {
    /// Id of the source that counts.
    pub source: Spot<String>,
    /// Why.
    pub because: Option<String>,
}

impl Claims {
    /// What an entry tells of several sources; `None` where it tells nothing of them.
    pub(super) fn of(kind: ListKind, id: &str, record: &Record) -> Option<Self> {
        let claim = |record: &Record| Some(Claim { source: record.spot("source", Reading::text)?, of: record.spot("of", Reading::text), says: record.spot("says", Reading::text)? });
        let said: Vec<Claim> = record.first("sources", |reading| Some(reading.records().into_iter().filter_map(claim).collect())).unwrap_or_default();
        let decision = |reading: &Reading| reading.record().and_then(|record| Some(Decision { source: record.spot("source", Reading::text)?, because: record.text("because") }));
        let decided = record.first("decided", decision);
        (!said.is_empty() || decided.is_some()).then(|| Self { kind, id: id.to_owned(), said, decided })
    }

    /// The source that the value comes from where the entry names no other: the one decided for, or the first.
    pub(super) fn leading(&self) -> Varied<String> {
        let source = self.decided.as_ref().map(|decided| &decided.source).or_else(|| self.said.first().map(|claim| &claim.source));
        let case = |source: &Spot<String>| Case { when: Combination::default(), value: source.value.clone(), place: source.place.clone() };
        Varied { cases: source.map(case).into_iter().collect() }
    }

    /// The field a claim is about; empty where it names none and the list has no main one.
    #[must_use]
    pub fn field<'a>(&self, claim: &'a Claim) -> &'a str {
        claim.of.as_ref().map_or_else(|| main_field(self.kind), |of| of.value.as_str())
    }
}

/// The field that a source of an entry is about where nobody says which; empty where the list has no such field.
#[must_use]
pub fn main_field(kind: ListKind) -> &'static str {
    match kind {
        ListKind::Fasteners => "torque",
        ListKind::Seals => "depth",
        ListKind::Measures => "spec",
        ListKind::Shims => "target",
        ListKind::Heats => "to",
        ListKind::Waits => "time",
        ListKind::Fills | ListKind::Turns => "amount",
        ListKind::Aligns => "offset",
        ListKind::Materials => "cure",
        _ => "",
    }
}
