//! What machines share and what stands behind the values: tools, materials, sources, people, terms,
//! recordings.

use super::things::Spot;
use super::varied::Varied;
use crate::finding::Place;
use crate::quantity::{Moment, MomentSpan, Quantity};

/// A tool.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tool {
    /// `torque-wrench angle-gauge holding-tool …`.
    pub kind: Option<String>,
    /// A wrench's scale, from end to end.
    pub range: Option<Quantity>,
    /// The unit on its scale.
    pub scale: Option<String>,
    /// One division.
    pub step: Option<Quantity>,
    /// Its square.
    pub drive: Option<String>,
    /// Its length from square to grip.
    pub length: Option<Quantity>,
    /// What it can tell apart.
    pub resolution: Option<Quantity>,
    /// What a protection protects from.
    pub against: Vec<String>,
    /// The act that must come first, where it can't do without: `fit:piston`.
    pub needs: Option<Spot<String>>,
    /// The day it was last calibrated.
    pub calibrated: Option<Date>,
    /// After how many months it must be again.
    pub calibrate_every: Option<u64>,
    /// `bought given lent`.
    pub got: Varied<String>,
}

impl Tool {
    /// The last day on which its calibration holds; none where day or term is not given.
    #[must_use]
    pub fn calibrated_until(&self) -> Option<Date> {
        self.calibrated?.months_later(self.calibrate_every?)
    }
}

/// A locker, oil, grease, sealant or other material.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Material {
    /// `thread-locker retaining-compound sealant oil …`.
    pub kind: Option<String>,
    /// A locker's strength: `low medium high wicking`.
    pub strength: Option<Spot<String>>,
    /// Threads it is meant for, as written: `M6–M20`.
    pub threads: Option<String>,
    /// Time in which the joint can still be tightened.
    pub working: Option<Quantity>,
    /// Time until it holds.
    pub fixture: Option<Quantity>,
    /// Time until it may be loaded.
    pub cure: Option<Quantity>,
    /// Temperatures it stands.
    pub service: Option<Quantity>,
    /// Temperature that lets go of it.
    pub release: Option<Quantity>,
    /// Grade, as written.
    pub grade: Option<String>,
    /// What it is made on.
    pub base: Option<String>,
    /// How much a pack holds.
    pub pack: Option<Quantity>,
    /// Packs in hand; one where not given.
    pub packs: Option<u64>,
    /// `bought given lent`.
    pub got: Varied<String>,
}

/// Where a value comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Source {
    /// Its title.
    pub title: String,
    /// `maker kit vendor measured size-table practice heard`.
    pub kind: Option<String>,
    /// Edition.
    pub edition: Option<String>,
    /// Page.
    pub page: Option<String>,
    /// Date.
    pub date: Option<Date>,
    /// Id of who wrote or measured it.
    pub by: Option<Spot<String>>,
    /// Id of who read it a second time.
    pub read_by: Option<Spot<String>>,
}

/// A person or role.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Person;

/// A word of the glossary.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Term {
    /// What it means.
    pub means: String,
    /// Words not to use for it.
    pub not: Vec<String>,
}

/// A day, `2026-09-14`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    /// Year, 1 to 9999.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31 as the month has it.
    pub day: u8,
}

/// The recording of the work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recording {
    /// Where it is.
    pub address: Option<String>,
    /// By how many seconds it was put up again later than its moments are written. They are all moved by it already.
    pub shift: i64,
    /// Its title.
    pub title: Option<String>,
    /// How long it is.
    pub length: Option<Moment>,
    /// Spans in which hands work and nothing is said.
    pub silent: Vec<Spot<MomentSpan>>,
    /// What was said wrong.
    pub corrections: Vec<Correction>,
}

/// Something said wrong in a recording.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// When.
    pub at: Option<Moment>,
    /// Where that stands.
    pub at_place: Option<Place>,
    /// What was said.
    pub said: String,
    /// Where that stands.
    pub said_place: Place,
    /// What it is about: `ID.field`.
    pub of: Option<Spot<String>>,
}
