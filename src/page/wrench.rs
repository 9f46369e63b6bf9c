//! The wrench for a torque: the one the author names, otherwise the best the shop has for it.

use super::site::Scene;
use super::values::{Scale, cases};
use crate::manual::{Combination, Entry, Fastener, Tool, wrenches};
use crate::quantity::{Unit, shared_unit};

impl<'s> Scene<'s> {
    /// The wrenches for a fastener, or for one stage of its torque, on this page.
    pub(super) fn wrenches(&self, fastener: &'s Fastener, stage: Option<u64>) -> Vec<&'s Entry<Tool>> {
        wrenches(self.scope(), fastener, self.known, stage)
    }

    /// The scale of the only wrench for a fastener. With an adapter what is set is another value than the torque: then the
    /// torque is told without regard to the marks.
    pub(super) fn wrench_scale(&self, fastener: &'s Fastener, stage: Option<u64>) -> Option<Scale<'s>> {
        self.wrench_scale_where(fastener, stage, self.known)
    }

    /// The same where this is known.
    pub(super) fn wrench_scale_where(&self, fastener: &'s Fastener, stage: Option<u64>, known: &Combination) -> Option<Scale<'s>> {
        match wrenches(self.scope(), fastener, known, stage).as_slice() {
            [only] => {
                let unit = only.what.scale.as_deref().and_then(Unit::find)?;
                Some(Scale { unit, step: only.what.step.as_ref().filter(|_| !fastener.adapter.is_given()) })
            }
            _ => None,
        }
    }

    /// The units the torques of a fastener are told in: all its stages in one.
    pub(super) fn torque_units(&self, fastener: &'s Fastener) -> Vec<&'static Unit> {
        let stages = cases(&fastener.torque, self.known).flat_map(|(_, torque)| torque.stages());
        let stages: Vec<_> = stages.collect();
        self.units().iter().map(|unit| shared_unit(stages.iter().copied(), unit)).collect()
    }
}
