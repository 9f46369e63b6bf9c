//! Which torque wrench to take for a fastener, and what to set on it.

use super::lists::Scope;
use super::shop::Tool;
use super::things::{Entry, Fastener, Torque};
use super::varied::Combination;
use crate::quantity::{Dimension, Exact, Quantity, Unit};
use crate::trade::wrench::{Adapter, Wrench, WrenchFit, best, set_value_nm};

/// What a stage asks of a wrench.
#[derive(Clone, Debug)]
pub struct Setting<'a> {
    /// Number of the stage, from 1.
    pub stage: usize,
    /// Its torque.
    pub torque: &'a Quantity,
    /// The wrench to take.
    pub tool: &'a Entry<Tool>,
    /// What to set on its scale, N·m: less than the torque where an adapter lengthens the wrench. The nominal value,
    /// or the middle of a range.
    pub set_nm: f64,
    /// Whether an adapter was reckoned in.
    pub corrected: bool,
    /// Permissible deviation of the wrench, ± as a share of the reading (ISO 6789:2003).
    pub deviation: f64,
}

impl Setting<'_> {
    /// The value to set, in the unit of the wrench's scale (N·m where none is known): a mark of the scale, see
    /// [`Quantity::setting`].
    #[must_use]
    pub fn shown(&self) -> Option<Quantity> {
        let unit = self.tool.what.scale.as_deref().and_then(Unit::find).filter(|unit| unit.dimension() == Dimension::Torque);
        let unit = unit.unwrap_or_else(|| Dimension::Torque.base());
        let share = if self.corrected { Exact::from_f64(self.set_nm / middle(self.torque)?)? } else { Exact::whole(1) };
        let set = self.torque.setting(unit, self.tool.what.step.as_ref(), &share)?;
        Quantity::parse(&set, Dimension::Torque).ok()
    }
}

/// A wrench of the shop with its scale.
struct Scale<'a> {
    tool: &'a Entry<Tool>,
    wrench: Wrench,
}

/// The wrench for every stage of a torque that is a torque: the one `tool:` names, or else one that can be trusted for
/// all stages, or else the best for each ([`best`]). A stage that no wrench can be trusted for is left out.
#[must_use]
pub fn settings<'a>(scope: Scope<'a>, fastener: &'a Fastener, torque: &'a Torque, when: &Combination) -> Vec<Setting<'a>> {
    let named = fastener.tool.beside(when);
    let scales = scales(scope, named.map(String::as_str));
    let stages: Vec<(usize, &Quantity)> =
        torque.stages().iter().enumerate().filter(|(_, stage)| stage.dimension() == Dimension::Torque).map(|(at, stage)| (at + 1, stage)).collect();
    let adapter = adapter(fastener, when);
    let reads = |scale: &Scale<'_>, stage: &Quantity| ends(stage).is_some_and(|ends| ends.iter().all(|end| fits(scale, *end, adapter)));
    let for_all: Vec<&Scale<'_>> = scales.iter().filter(|scale| stages.iter().all(|(_, stage)| reads(scale, stage))).collect();
    stages
        .iter()
        .filter_map(|(number, stage)| {
            let reading: Vec<&Scale<'_>> = scales.iter().filter(|scale| reads(scale, stage)).collect();
            // One wrench for all stages need not be laid down and taken up between them: chosen by the last, the greatest.
            let by = if for_all.is_empty() { stage } else { stages.last().map_or(stage, |(_, last)| last) };
            let from = if for_all.is_empty() { &reading } else { &for_all };
            let scale = chosen(from, middle(by)?, adapter).or_else(|| scales.first().filter(|_| named.is_some()))?;
            let set_nm = setting(scale, middle(stage)?, adapter)?;
            let deviation = scale.wrench.permissible_deviation()?;
            Some(Setting { stage: *number, torque: stage, tool: scale.tool, set_nm, corrected: adapter.is_some(), deviation })
        })
        .collect()
}

/// The wrenches for a fastener: each that the author names where it varies, or the best in the shop; one
/// for each stage where none can be trusted for them all. With a stage, those for that stage only.
#[must_use]
pub fn wrenches<'a>(scope: Scope<'a>, fastener: &'a Fastener, known: &Combination, stage: Option<u64>) -> Vec<&'a Entry<Tool>> {
    let named: Vec<_> = fastener.tool.within(known).into_iter().filter_map(|id| scope.entry(|l| &l.tools, id)).collect();
    if !named.is_empty() {
        return named;
    }
    let mut several: Vec<&Entry<Tool>> = Vec::new();
    for case in &fastener.torque.cases {
        let Some(when) = known.and(&case.when) else { continue };
        for setting in settings(scope, fastener, &case.value, &when) {
            let wanted = stage.is_none_or(|stage| stage == u64::try_from(setting.stage).unwrap_or(u64::MAX));
            if wanted && !several.iter().any(|wrench| wrench.id == setting.tool.id) {
                several.push(setting.tool);
            }
        }
    }
    several
}

/// A tool as a torque wrench.
pub(crate) fn wrench(tool: &Tool) -> Option<Wrench> {
    let range = tool.range.as_ref().filter(|range| range.dimension() == Dimension::Torque && tool.kind.as_deref() == Some("torque-wrench"))?;
    let (low, high) = range.low_high();
    let step = tool.step.as_ref().and_then(Quantity::nominal);
    Wrench::new(low.unwrap_or(0.0), high?, step)
}

/// The adapter of a fastener; without an angle in line.
pub(crate) fn adapter(fastener: &Fastener, when: &Combination) -> Option<Adapter> {
    let adapter = fastener.adapter.beside(when)?;
    let length_mm = adapter.length.as_ref()?.nominal()?;
    Some(Adapter { length_mm, angle_deg: adapter.angle.as_ref().and_then(Quantity::nominal).unwrap_or(0.0) })
}

/// From the middle of the grip to the square, mm.
pub(crate) fn length_mm(tool: &Tool) -> Option<f64> {
    tool.length.as_ref().and_then(Quantity::nominal)
}

/// What is set on the scale for a torque: the torque, or less with an adapter.
pub(crate) fn set_on(tool: &Tool, torque_nm: f64, adapter: Option<Adapter>) -> Option<f64> {
    match (adapter, length_mm(tool)) {
        (Some(adapter), Some(length)) => set_value_nm(torque_nm, length, adapter),
        _ => Some(torque_nm),
    }
}

/// The torque wrenches in reach: the one named, or all.
fn scales<'a>(scope: Scope<'a>, named: Option<&str>) -> Vec<Scale<'a>> {
    let tools = scope.homes().flat_map(|(_, lists)| lists.tools.values());
    tools
        .filter(|tool| named.is_none_or(|id| tool.id == id))
        .filter_map(|tool| Some(Scale { tool, wrench: wrench(&tool.what)? }))
        .collect()
}

fn setting(scale: &Scale<'_>, torque_nm: f64, adapter: Option<Adapter>) -> Option<f64> {
    set_on(&scale.tool.what, torque_nm, adapter)
}

fn fits(scale: &Scale<'_>, torque_nm: f64, adapter: Option<Adapter>) -> bool {
    setting(scale, torque_nm, adapter).and_then(|set| scale.wrench.fit(set)) == Some(WrenchFit::Usable)
}

fn chosen<'s, 'a>(scales: &[&'s Scale<'a>], torque_nm: f64, adapter: Option<Adapter>) -> Option<&'s Scale<'a>> {
    let set: Vec<(&Scale<'a>, f64)> = scales.iter().filter_map(|scale| Some((*scale, setting(scale, torque_nm, adapter)?))).collect();
    // With an adapter each wrench is set to something else; the torque itself ranks them well enough.
    let wrenches: Vec<Wrench> = set.iter().map(|(scale, _)| scale.wrench).collect();
    let mean = set.iter().map(|(_, value)| value).sum::<f64>() / f64::from(u32::try_from(set.len()).ok()?);
    let at = best(&wrenches, mean).or_else(|| (!set.is_empty()).then_some(0))?;
    set.get(at).map(|(scale, _)| *scale)
}

/// Both ends of a stage, N·m.
pub(crate) fn ends(stage: &Quantity) -> Option<[f64; 2]> {
    let (low, high) = stage.low_high();
    Some([low.or(high)?, high.or(low)?])
}

/// What one aims at, N·m: the nominal value, the middle of a range, or a bound itself.
pub(crate) fn middle(stage: &Quantity) -> Option<f64> {
    stage.nominal().or_else(|| ends(stage).map(|[low, high]| f64::midpoint(low, high)))
}
