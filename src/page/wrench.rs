//! The wrench for a torque: the one the author names, otherwise the best the shop has for it.

use super::site::Scene;
use super::values::cases;
use crate::inspect::settings;
use crate::manual::{Combination, Entry, Fastener, Scope, Tool};
use crate::quantity::Unit;

/// The wrenches for a fastener: each that the author names where it varies, or the best in the shop; one
/// for each stage where none can be trusted for them all. With a stage, those for that stage only.
pub(super) fn wrenches<'a>(scope: Scope<'a>, fastener: &'a Fastener, known: &Combination, stage: Option<u64>) -> Vec<&'a Entry<Tool>> {
    let named: Vec<_> =
        cases(&fastener.tool, known).into_iter().filter_map(|(_, id)| scope.entry(|l| &l.tools, id)).collect();
    if !named.is_empty() {
        return named;
    }
    let mut several: Vec<&Entry<Tool>> = Vec::new();
    for case in &fastener.torque.cases {
        let Some(when) = known.and(&case.when) else { continue };
        for setting in settings(scope, fastener, &case.value, &when) {
            let wanted = stage.is_none_or(|stage| stage == super::rows::count(setting.stage));
            if wanted && !several.iter().any(|wrench| wrench.id == setting.tool.id) {
                several.push(setting.tool);
            }
        }
    }
    several
}

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
