//! A measurement: what is read, how often and where, and what it is held against.

use super::things::Spot;
use super::varied::{Combination, Varied};
use crate::quantity::Quantity;

/// A measurement.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measure {
    /// `end-gap wear height …`.
    pub kind: Varied<String>,
    /// What a good one reads.
    pub spec: Varied<Quantity>,
    /// Beyond what it may not be used.
    pub limit: Varied<Quantity>,
    /// Id of the instrument.
    pub with: Varied<String>,
    /// How many readings.
    pub count: Varied<u64>,
    /// Where each is taken, in their order, in words.
    pub places: Vec<Spot<String>>,
    /// In what condition: `cold`, `oiled`.
    pub when: Varied<String>,
    /// What to do when it is out.
    pub otherwise: Varied<String>,
    /// Id of the shim it chooses.
    pub chooses: Varied<String>,
    /// A formula over other measures.
    pub formula: Varied<String>,
    /// Id of the thing measured.
    pub of: Varied<String>,
    /// Bore for a ring's end gap.
    pub bore: Varied<Quantity>,
    /// Radius of the gear and of the dial, for backlash.
    pub at: Varied<BacklashAt>,
    /// For a pull on a cord: what it stands for.
    pub cord: Varied<Cord>,
}

impl Measure {
    /// How many readings it takes on a machine of this variant.
    #[must_use]
    pub fn readings(&self, known: &Combination) -> u64 {
        let places = u64::try_from(self.places.len()).unwrap_or(u64::MAX).max(1);
        self.count.get(known).or_else(|| self.count.first()).copied().unwrap_or(places)
    }
}

/// What a pull on a cord stands for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cord {
    /// Radius on which the cord is wound.
    pub radius: Option<Quantity>,
    /// The drag, as a torque.
    pub torque: Option<Quantity>,
}

/// The two radii of a backlash reading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BacklashAt {
    /// Radius at the gear's teeth.
    pub gear_radius: Option<Quantity>,
    /// Radius at which the dial sits.
    pub dial_radius: Option<Quantity>,
}
