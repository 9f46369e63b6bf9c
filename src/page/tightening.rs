//! The order in which a group of fasteners is tightened, and what to set on a wrench with an adapter: as the author
//! gives them, else worked out. Words, grid of boxes and drawing all take them from here.

use super::site::Scene;
use super::values::{cases, glued};
use super::words::Arg;
use crate::manual::{Act, Edges, Fastener, Layout, ThingRef, Verb, settings};
use crate::quantity::Quantity;
use crate::trade::order::propose;
use crate::trade::wrench::Adapter;

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
    pub reckoned: Adapter,
    /// What to set, a torque each.
    pub set: Vec<String>,
    /// What the fastener gets.
    pub torques: Vec<String>,
}

impl<'s> Scene<'s> {
    /// The orders of a group by variant: those given; where none is, those worked out from the layout.
    pub(super) fn orders(&self, fastener: &Fastener) -> Vec<Order> {
        let given = cases(&fastener.order, self.known);
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

    /// `positions 1-4-2-5-3-6`, by variant.
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

    /// The orders in which an act brings a group loose: the reverse of that of tightening, so that the joint never hangs on
    /// one side (common practice). Of the order that was worked out that holds as well. None where the act takes out only
    /// some of the group: which of them, an order of all does not tell.
    pub(super) fn loosening(&self, act: &Act, fastener: &Fastener) -> Vec<Order> {
        let is_first = match act.verb {
            Some(Verb::Loosen) => true,
            Some(Verb::Remove) => act.thing().is_some_and(|thing| !self.is_loosened_apart(thing)),
            _ => false,
        };
        let mut orders = if is_first { self.orders(fastener) } else { Vec::new() };
        orders.retain(|order| act.times.is_none_or(|times| times == super::rows::count(order.positions.len())));
        for order in &mut orders {
            order.positions.reverse();
        }
        orders
    }

    /// `loosen in this order: 6-3-5-2-4-1`, by variant.
    pub(super) fn loosening_text(&self, act: &Act, fastener: &Fastener) -> Option<String> {
        // In as few words as there is room for on paper: which position has which number, the page draws.
        let key = if self.at_bench && fastener.layout.get(self.known).is_some() { "loosen-sheet" } else { "order-loosen" };
        let orders: Vec<String> = self
            .loosening(act, fastener)
            .into_iter()
            .map(|order| {
                let turn: Vec<String> = order.positions.iter().map(u64::to_string).collect();
                let said = self.say(key, &[("order", Arg::Text(&turn.join("-")))]);
                order.label.map_or(said.clone(), |label| format!("{label} {said}"))
            })
            .collect();
        (!orders.is_empty()).then(|| orders.join(" · "))
    }

    /// Whether another act of the procedure loosens the thing: taken out afterwards, it has no order any more.
    fn is_loosened_apart(&self, thing: &ThingRef) -> bool {
        let steps = self.procedure.iter().flat_map(|procedure| &procedure.steps);
        steps.flat_map(|step| &step.acts).any(|act| act.verb == Some(Verb::Loosen) && act.things.contains(thing))
    }

    /// What lies at the edges of a group's layout.
    pub(super) fn edges(&self, fastener: &Fastener) -> Edges {
        fastener.edges.get(self.known).cloned().unwrap_or_default()
    }

    /// The same in sentences, an edge each: `At the top: belt end.`
    pub(super) fn edge_words(&self, edges: &Edges) -> Vec<String> {
        let keys = ["edge-top", "edge-bottom", "edge-left", "edge-right"];
        let told = keys.iter().zip(&edges.words).filter_map(|(key, words)| Some((key, words.as_ref()?)));
        told.map(|(key, words)| self.say(key, &[("words", Arg::Text(words))])).collect()
    }

    /// The numbers of the positions in the order of tightening; in turn where there is no order.
    pub(super) fn positions(&self, fastener: &Fastener) -> Vec<u64> {
        if let Some(order) = self.orders(fastener).into_iter().next() {
            return order.positions;
        }
        let count = cases(&fastener.count, self.known).next().map_or(0, |(_, count)| *count);
        (1..=count.min(200)).collect()
    }

    /// What to set on the wrench for a fastener with an adapter, where all of it is known.
    pub(super) fn setting(&self, fastener: &'s Fastener) -> Option<Setting<'s>> {
        let adapter = fastener.adapter.get(self.known)?;
        let settings = settings(self.scope(), fastener, fastener.torque.get(self.known)?, self.known);
        let wrench = settings.first().filter(|first| settings.iter().all(|other| other.corrected && other.tool.id == first.tool.id))?.tool;
        let (length, adapter_length) = (wrench.what.length.as_ref()?, adapter.length.as_ref()?);
        let angle_deg = adapter.angle.as_ref().map_or(Some(0.0), Quantity::nominal)?;
        let set = settings.iter().map(|setting| Some(glued(setting.shown()?.written()))).collect::<Option<Vec<_>>>()?;
        let torques = settings.iter().map(|setting| glued(setting.torque.written())).collect();
        let reckoned = Adapter { length_mm: adapter_length.nominal()?, angle_deg };
        Some(Setting { length, adapter: adapter_length, length_mm: length.nominal()?, reckoned, set, torques })
    }
}

fn worked_out(layout: &Layout) -> Option<Vec<u64>> {
    let order = propose(&layout.for_trade()).ok()?;
    Some(order.into_iter().map(super::rows::count).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_layout_has_the_order_of_the_trade() {
        assert_eq!(worked_out(&Layout::Circle(8)), Some(vec![1, 5, 3, 7, 2, 6, 4, 8]));
        assert_eq!(worked_out(&Layout::Circle(0)), None);
    }
}
