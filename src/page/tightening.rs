//! The order in which a group of fasteners is tightened, and what to set on a wrench with an adapter: as the author
//! gives them, else worked out. Words, grid of boxes and drawing all take them from here.

use super::site::Scene;
use super::values::{cases, glued};
use super::words::Arg;
use crate::manual::{Fastener, Layout};
use crate::quantity::{Dimension, Quantity, Rounding, Unit};
use crate::trade::order::propose;
use crate::trade::wrench::{self, set_value_nm};

/// An order of tightening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Order {
    /// For which variant.
    pub label: Option<String>,
    /// Positions in turn.
    pub positions: Vec<u64>,
    /// Whether it was worked out from where the positions sit.
    pub is_worked_out: bool,
}

/// A wrench with an adapter, and its setting for each torque.
#[derive(Clone, Debug)]
pub(super) struct Setting<'s> {
    /// Length of the wrench.
    pub length: &'s Quantity,
    /// Length of the adapter.
    pub adapter: &'s Quantity,
    /// Both in millimetres, and the angle.
    pub length_mm: f64,
    /// See there.
    pub reckoned: wrench::Adapter,
    /// What to set, a torque each.
    pub set: Vec<String>,
    /// What the fastener gets.
    pub torques: Vec<String>,
}

/// The fewest digits a setting is shown with: more than any wrench can be set to.
const DIGITS: i32 = 3;

impl<'s> Scene<'s> {
    /// The orders of a group by variant: those given; where none is, those worked out from the layout.
    pub(super) fn orders(&self, fastener: &Fastener) -> Vec<Order> {
        let given = cases(&fastener.order, self.known).into_iter();
        let mut orders: Vec<Order> =
            given.map(|(label, order)| Order { label, positions: order.clone(), is_worked_out: false }).collect();
        if orders.last().is_some_and(|order| order.label.is_none()) {
            return orders;
        }
        for (label, layout) in cases(&fastener.layout, self.known) {
            let known = orders.iter().any(|order| order.label.is_some() && order.label == label);
            if let Some(positions) = worked_out(layout).filter(|_| !known) {
                orders.push(Order { label, positions, is_worked_out: true });
            }
        }
        orders
    }

    /// `order 1-4-2-5-3-6`, by variant.
    pub(super) fn order_text(&self, fastener: &Fastener) -> Option<String> {
        let orders: Vec<String> = self
            .orders(fastener)
            .into_iter()
            .map(|order| {
                let positions: Vec<String> = order.positions.iter().map(u64::to_string).collect();
                let key = if order.is_worked_out { "order-worked-out" } else { "order" };
                let said = self.say(key, &[("order", Arg::Text(&positions.join("-")))]);
                order.label.map_or(said.clone(), |label| format!("{label} {said}"))
            })
            .collect();
        (!orders.is_empty()).then(|| orders.join(" · "))
    }

    /// The numbers of the positions in the order of tightening; in turn where there is no order.
    pub(super) fn positions(&self, fastener: &Fastener) -> Vec<u64> {
        if let Some(order) = self.orders(fastener).into_iter().next() {
            return order.positions;
        }
        let count = cases(&fastener.count, self.known).first().map_or(0, |(_, count)| **count);
        (1..=count.min(200)).collect()
    }

    /// What to set on the wrench for a fastener with an adapter, where all of it is known.
    pub(super) fn setting<'f>(&self, fastener: &'f Fastener) -> Option<Setting<'f>>
    where
        's: 'f,
    {
        let adapter = fastener.adapter.get(self.known)?;
        let wrenches = self.wrenches(fastener);
        let [wrench] = wrenches.as_slice() else { return None };
        let (length, adapter_length) = (wrench.what.length.as_ref()?, adapter.length.as_ref()?);
        let angle_deg = adapter.angle.as_ref().map_or(Some(0.0), Quantity::nominal)?;
        let (length_mm, reckoned) = (length.nominal()?, wrench::Adapter { length_mm: adapter_length.nominal()?, angle_deg });
        let stages = fastener.torque.get(self.known)?.stages().iter().filter(|stage| stage.dimension() == Dimension::Torque);
        let torques: Vec<&Quantity> = stages.collect();
        let unit = self.wrench_unit(fastener);
        let set = torques.iter().map(|torque| set_text(torque, unit.unwrap_or(torque.unit()), length_mm, reckoned)).collect::<Option<Vec<_>>>()?;
        let torques: Vec<String> = torques.into_iter().map(|torque| glued(torque.written())).collect();
        (!set.is_empty()).then_some(Setting { length, adapter: adapter_length, length_mm, reckoned, set, torques })
    }
}

fn worked_out(layout: &Layout) -> Option<Vec<u64>> {
    let order = propose(&layout.for_trade()).ok()?;
    Some(order.into_iter().map(super::rows::count).collect())
}

/// A setting on a scale; limits are rounded inwards.
fn set_text(torque: &Quantity, unit: &Unit, length_mm: f64, adapter: wrench::Adapter) -> Option<String> {
    let on_scale = |newton_metres: f64| Some(set_value_nm(newton_metres, length_mm, adapter)? / unit.size());
    let shown = |value: f64, rounding: Rounding| glued(&unit.show(value, DIGITS, rounding));
    match torque.low_high() {
        (Some(low), Some(high)) if high > low => {
            let (low, high) = (shown(on_scale(low)?, Rounding::Up), shown(on_scale(high)?, Rounding::Down));
            let bare = low.strip_suffix(unit.symbol()).map_or(low.as_str(), str::trim_end);
            Some(format!("{bare}–{high}"))
        }
        (Some(one), None) => Some(shown(on_scale(one)?, Rounding::Up)),
        (None, Some(one)) => Some(shown(on_scale(one)?, Rounding::Down)),
        (Some(one), Some(_)) => Some(shown(on_scale(one)?, Rounding::Nearest)),
        (None, None) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(torque: &str, unit: &str, length_mm: f64, adapter_mm: f64, angle_deg: f64) -> String {
        let torque = Quantity::parse(torque, Dimension::Torque).unwrap();
        let adapter = wrench::Adapter { length_mm: adapter_mm, angle_deg };
        set_text(&torque, Unit::find(unit).unwrap(), length_mm, adapter).unwrap().replace('\u{a0}', " ")
    }

    /// FAA AC 43.13-1B, chapter 7: T·L/(L + E·cos θ); worked by hand.
    #[test]
    fn a_setting_is_in_the_units_of_the_scale() {
        assert_eq!(set("70 N·m", "N·m", 300.0, 45.0, 0.0), "60.9 N·m");
        assert_eq!(set("70 N·m", "N·m", 300.0, 45.0, 90.0), "70.0 N·m");
        // 70 × 300 / 345 = 60.87 N·m; 1 lbf·ft is 1.3558 N·m.
        assert_eq!(set("70 N·m", "lbf·ft", 300.0, 45.0, 0.0), "44.9 lbf·ft");
        // 57.39 and 64.35: never outside.
        assert_eq!(set("66–74 N·m", "N·m", 300.0, 45.0, 0.0), "57.4–64.3 N·m");
    }

    #[test]
    fn a_layout_has_the_order_of_the_trade() {
        assert_eq!(worked_out(&Layout::Circle(8)), Some(vec![1, 5, 3, 7, 2, 6, 4, 8]));
        assert_eq!(worked_out(&Layout::Circle(0)), None);
    }
}
