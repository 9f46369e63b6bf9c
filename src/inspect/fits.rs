//! Interference fits: the heat is enough for the part to drop in.

use super::Context;
use super::torque::beside;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Bearing, BearingFit, Case, Combination, Entry, Heat, Scope};
use crate::quantity::Quantity;
use crate::trade::fit::{DROP_IN_GAP_MM, Interference, Metal};

/// A heat is too low for the fit.
pub(super) static HEAT_INSUFFICIENT: Rule = Rule {
    name: "heat-insufficient",
    severity: Severity::Warning,
    summary: "A part is not heated enough for what must drop into it.",
    explanation: Explanation {
        finds: "heats: of a housing, or of a bearing itself, whose lowest temperature does not open the interference of a bearing's fit: and 0.02 mm on top: T = T from + (interference + 0.02 mm)/(expansion × diameter). Expansion, 10⁻⁶/K: aluminium 23, magnesium 26, cast iron 10.5, steel 12 (handbook values, for screening).",
        matters: "The bearing sticks half-way, and is driven home through its balls.",
        may_be_wrong: "Where the bearing is chilled as well, or pressed.",
        example: "heats: {warm-carrier: {of: carrier, from: 20 °C, to: 50 ± 5 °C}}   for 62 mm in aluminium, 0.040 mm tight",
        instead: "heats: {warm-carrier: {of: carrier, from: 20 °C, to: 85 ± 5 °C}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let scope = context.manual.machine_scope(machine);
        machine.lists.heats.values().for_each(|heat| heats(scope, heat, findings));
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            procedure.lists.heats.values().for_each(|heat| heats(scope, heat, findings));
        }
    }
}

fn heats(scope: Scope<'_>, heat: &Entry<Heat>, findings: &mut Vec<Finding>) {
    for case in &heat.what.to.cases {
        let Some(of) = beside(&heat.what.of, &case.when) else { continue };
        for (_, lists) in scope.homes() {
            for bearing in lists.bearings.values() {
                findings.extend(too_cool(heat, case, of, bearing));
            }
        }
    }
}

fn too_cool(heat: &Entry<Heat>, case: &Case<Quantity>, of: &str, bearing: &Entry<Bearing>) -> Option<Finding> {
    let fit = beside(&bearing.what.fit, &case.when)?;
    let (metal, diameter_mm) = opened(fit, of, bearing, &case.when)?;
    let interference = fit.interference.as_ref()?.low_high();
    let joint = Interference { diameter_mm, greatest_mm: interference.1.or(interference.0)?, gap_mm: DROP_IN_GAP_MM };
    let from = beside(&heat.what.from, &case.when).and_then(Quantity::nominal).unwrap_or(20.0);
    let needed = joint.heat_to_c(from, metal.expansion_per_k())?;
    let (low, high) = case.value.low_high();
    let least = low.or(high).filter(|least| *least > from)?;
    (least + 0.5 < needed).then(|| {
        Finding::new(&HEAT_INSUFFICIENT, case.place.clone(), format!("{} needs {needed:.0} °C to drop in, and {least:.0} °C is all there may be", bearing.name))
            .label("not warm enough")
            .related(bearing.id_place.clone(), "its fit")
            .figure(format!(
                "({} + {DROP_IN_GAP_MM} mm) / ({:.1}·10⁻⁶/K × {diameter_mm} mm) = {:.0} K above {from} °C ({})",
                joint.greatest_mm,
                metal.expansion_per_k() * 1e6,
                needed - from,
                metal.word()
            ))
            .fix("heat it more, as far as what is in it allows")
            .about(format!("{}.to", heat.id))
    })
}

/// What a heat opens for a bearing: the housing's bore where its housing is heated, its own where it is.
fn opened(fit: &BearingFit, of: &str, bearing: &Entry<Bearing>, when: &Combination) -> Option<(Metal, f64)> {
    if bearing.id == of {
        return Some((Metal::BearingSteel, fit.shaft.as_ref()?.nominal()?));
    }
    let housing = beside(&bearing.what.within, when).is_some_and(|within| within == of);
    housing.then(|| Some((Metal::find(fit.housing.as_ref()?)?, fit.bore.as_ref()?.nominal()?))).flatten()
}
