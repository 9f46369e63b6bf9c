//! The wrench for a torque: the one the author names, otherwise the best the shop has for it.

use super::site::Scene;
use crate::inspect::wrenches;
use crate::manual::{Entry, Fastener, Tool};
use crate::quantity::Unit;

impl<'s> Scene<'s> {
    /// The wrenches for a fastener, or for one stage of its torque, on this page.
    pub(super) fn wrenches(&self, fastener: &'s Fastener, stage: Option<u64>) -> Vec<&'s Entry<Tool>> {
        wrenches(self.scope(), fastener, self.known, stage)
    }

    /// The unit on the scale of the only wrench for a fastener.
    pub(super) fn wrench_unit(&self, fastener: &'s Fastener, stage: Option<u64>) -> Option<&'static Unit> {
        match self.wrenches(fastener, stage).as_slice() {
            [only] => only.what.scale.as_deref().and_then(Unit::find),
            _ => None,
        }
    }
}
