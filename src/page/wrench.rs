//! The wrench for a torque: the one the author names, otherwise the smallest that reads it well.

use super::site::Scene;
use super::values::cases;
use crate::manual::{Combination, Entry, Fastener, Scope, Tool};
use crate::quantity::{Dimension, Quantity, Unit};

/// Below this share of full scale a click wrench reads too unsurely (common practice).
const USABLE_FROM: f64 = 0.2;

/// The wrenches for a fastener: each that the author names where it varies, or the best in the shop; one
/// for each stage where none reads them all.
pub(super) fn wrenches<'a>(scope: Scope<'a>, fastener: &Fastener, known: &Combination) -> Vec<&'a Entry<Tool>> {
    let named: Vec<_> =
        cases(&fastener.tool, known).into_iter().filter_map(|(_, id)| scope.entry(|l| &l.tools, id)).collect();
    if !named.is_empty() {
        return named;
    }
    let mut torques: Vec<&Quantity> = Vec::new();
    for (_, torque) in cases(&fastener.torque, known) {
        torques.extend(torque.stages().iter().filter(|stage| stage.dimension() == Dimension::Torque));
    }
    if let Some(one) = best(scope, &torques) {
        return vec![one];
    }
    let mut several: Vec<&Entry<Tool>> = Vec::new();
    for wrench in torques.iter().filter_map(|torque| best(scope, &[*torque])) {
        if !several.iter().any(|known| known.id == wrench.id) {
            several.push(wrench);
        }
    }
    several
}

impl<'s> Scene<'s> {
    /// The wrenches for a fastener, on this page.
    pub(super) fn wrenches(&self, fastener: &Fastener) -> Vec<&'s Entry<Tool>> {
        wrenches(self.scope(), fastener, self.known)
    }

    /// The unit on the scale of the only wrench for a fastener.
    pub(super) fn wrench_unit(&self, fastener: &Fastener) -> Option<&'static Unit> {
        match self.wrenches(fastener).as_slice() {
            [only] => only.what.scale.as_deref().and_then(Unit::find),
            _ => None,
        }
    }
}

/// The wrench with the shortest scale on which every one of these torques can be read.
fn best<'a>(scope: Scope<'a>, torques: &[&Quantity]) -> Option<&'a Entry<Tool>> {
    let mut best: Option<(f64, &Entry<Tool>)> = None;
    if torques.is_empty() {
        return None;
    }
    for tool in scope.homes().flat_map(|(_, lists)| lists.tools.values()) {
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

/// The part of a wrench's scale that can be trusted.
fn usable(tool: &Tool) -> Option<(f64, f64)> {
    if tool.kind.as_deref() != Some("torque-wrench") {
        return None;
    }
    let (Some(low), Some(high)) = tool.range.as_ref()?.low_high() else { return None };
    Some((low.max(high * USABLE_FROM), high))
}
