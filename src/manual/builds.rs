//! Build records: what was done, read and signed on one machine, on which state of the manual.
//!
//! A record is evidence, not text: nothing here is repaired, and a text of a record is shown and compared, never followed.

use super::fingerprint::Fingerprint;
use super::instant::Instant;
use super::things::Spot;
use super::varied::Combination;
use crate::finding::{FileId, Place};

/// What a record's `format:` must say.
pub const BUILD_FORMAT: &str = "benchleaf-build/1";

/// A build record. What could not be read is left out and has been reported.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// The file's name without `.json`.
    pub id: String,
    /// The file.
    pub file: FileId,
    /// Where it begins.
    pub place: Place,
    /// Title of the manual it was made with.
    pub manual: Option<Spot<String>>,
    /// Id of the machine.
    pub machine: Option<Spot<String>>,
    /// The machine's serial number.
    pub serial: Option<Spot<String>>,
    /// Which variant it is: axis and value, with their places.
    pub variant: Vec<(Spot<String>, Spot<String>)>,
    /// Who worked on it.
    pub people: Vec<Spot<String>>,
    /// When it was begun.
    pub begun: Option<Spot<Instant>>,
    /// When it was last saved.
    pub saved: Option<Spot<Instant>>,
    /// What was done, by procedure, in the order written.
    pub work: Vec<BuildWork>,
    /// What was done otherwise, and why.
    pub deviations: Vec<Deviation>,
    /// What was left open.
    pub open: Vec<LeftOpen>,
}

/// The work of one procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildWork {
    /// Id of the procedure.
    pub procedure: Spot<String>,
    /// Its revision then.
    pub revision: Option<u64>,
    /// The fingerprint of the sheet it was done by.
    pub fingerprint: Option<Spot<Fingerprint>>,
    /// When it was begun.
    pub begun: Option<Spot<Instant>>,
    /// When it was finished; none while it is in hand.
    pub finished: Option<Spot<Instant>>,
    /// The acts that are done.
    pub ticks: Vec<Tick>,
    /// What was read.
    pub readings: Vec<Tick>,
    /// Who signed what.
    pub signatures: Vec<Tick>,
    /// Which STOP lines were answered, each by the act it stands before, with what was looked for.
    pub stops: Vec<Tick>,
}

/// An act done, a value read or a signature given.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// The whole entry.
    pub place: Place,
    /// Id of the step.
    pub step: Spot<String>,
    /// The act as the text writes it: `torque:pinion-nut`.
    pub act: Spot<String>,
    /// Of ticks, which of the same acts in the step; of readings, which reading. From 1.
    pub number: u64,
    /// Of a tick, the value as it stood on the page; of a reading, what was read.
    pub value: Option<Spot<String>>,
    /// When.
    pub at: Option<Spot<Instant>>,
    /// Who.
    pub by: Option<Spot<String>>,
}

/// Something done otherwise than the manual says.
#[derive(Clone, Debug, PartialEq)]
pub struct Deviation {
    /// The whole entry.
    pub place: Place,
    /// Id of the procedure.
    pub procedure: Option<Spot<String>>,
    /// Id of the step.
    pub step: Option<Spot<String>>,
    /// Id of the thing.
    pub of: Option<Spot<String>>,
    /// What was done.
    pub what: Option<Spot<String>>,
    /// Why.
    pub because: Option<Spot<String>>,
    /// Who answers for it.
    pub by: Option<Spot<String>>,
    /// When.
    pub at: Option<Spot<Instant>>,
}

/// Something left open.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOpen {
    /// The whole entry.
    pub place: Place,
    /// Id of the open item.
    pub item: Spot<String>,
    /// Id of the procedure that opened it.
    pub procedure: Option<Spot<String>>,
    /// In what state it is.
    pub left: Option<Spot<String>>,
}

impl Build {
    /// Its variant as far as it says.
    #[must_use]
    pub fn combination(&self) -> Combination {
        Combination(self.variant.iter().map(|(axis, value)| (axis.value.clone(), value.value.clone())).collect())
    }

    /// The work of a procedure.
    #[must_use]
    pub fn work_of(&self, procedure: &str) -> Option<&BuildWork> {
        self.work.iter().find(|work| work.procedure.value == procedure)
    }

    /// The deviation that answers for a thing in a procedure: by the thing, or by the step where it names no thing.
    #[must_use]
    pub fn deviation(&self, procedure: &str, step: &str, thing: Option<&str>) -> Option<&Deviation> {
        self.deviations_of(procedure, step, thing).next()
    }

    /// All of them.
    pub fn deviations_of<'a>(&'a self, procedure: &str, step: &str, thing: Option<&str>) -> impl Iterator<Item = &'a Deviation> {
        let is = |spot: &Option<Spot<String>>, text: &str| spot.as_ref().is_some_and(|spot| spot.value == text);
        self.deviations.iter().filter(move |deviation| {
            is(&deviation.procedure, procedure)
                && match &deviation.of {
                    Some(of) => thing == Some(of.value.as_str()) && deviation.step.as_ref().is_none_or(|here| here.value == step),
                    None => is(&deviation.step, step),
                }
        })
    }
}
