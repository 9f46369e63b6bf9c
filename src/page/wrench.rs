//! The wrench for a torque: the one the author names, otherwise the smallest that reads it well.

use super::site::Scene;
use crate::manual::{Entry, Fastener, Tool};
use crate::quantity::{Dimension, Quantity, Unit};

/// Below this share of full scale a click wrench reads too unsurely (common practice).
const USABLE_FROM: f64 = 0.2;

impl<'s> Scene<'s> {
    /// The wrenches for a fastener: each that the author names where it varies, or the best in the shop.
    pub(super) fn wrenches(&self, fastener: &Fastener) -> Vec<&'s Entry<Tool>> {
        let named: Vec<_> = super::values::cases(&fastener.tool, self.known)
            .into_iter()
            .filter_map(|(_, id)| self.scope().entry(|l| &l.tools, id))
            .collect();
        if !named.is_empty() {
            return named;
        }
        let mut torques: Vec<&Quantity> = Vec::new();
        for (_, torque) in super::values::cases(&fastener.torque, self.known) {
            torques.extend(torque.stages().iter().filter(|stage| stage.dimension() == Dimension::Torque));
        }
        self.best_wrench(&torques).into_iter().collect()
    }

    /// The unit on the scale of the only wrench for a fastener.
    pub(super) fn wrench_unit(&self, fastener: &Fastener) -> Option<&'static Unit> {
        match self.wrenches(fastener).as_slice() {
            [only] => only.what.scale.as_deref().and_then(Unit::find),
            _ => None,
        }
    }

    /// The wrench with the shortest scale on which every one of these torques can be read.
    fn best_wrench(&self, torques: &[&Quantity]) -> Option<&'s Entry<Tool>> {
        let mut best: Option<(f64, &Entry<Tool>)> = None;
        if torques.is_empty() {
            return None;
        }
        for tool in self.scope().homes().flat_map(|(_, lists)| lists.tools.values()) {
            let Some((low, high)) = usable(&tool.what) else { continue };
            let fits = torques.iter().all(|torque| match torque.low_high() {
                (Some(from), Some(to)) => from >= low && to <= high,
                (Some(one), None) | (None, Some(one)) => one >= low && one <= high,
                (None, None) => false,
            });
            if fits && best.is_none_or(|(shortest, _)| high < shortest) {
                best = Some((high, tool));
            }
        }
        best.map(|(_, tool)| tool)
    }
}

/// The part of a wrench's scale that can be trusted.
fn usable(tool: &Tool) -> Option<(f64, f64)> {
    if tool.kind.as_deref() != Some("torque-wrench") {
        return None;
    }
    let (Some(low), Some(high)) = tool.range.as_ref()?.low_high() else { return None };
    Some((low.max(high * USABLE_FROM), high))
}
