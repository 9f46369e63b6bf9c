//! The numbers on a picture: balloons with leader lines over it, and the table of items beneath, linked both ways.

use super::names::Detail;
use super::site::Scene;
use super::words::Arg;
use crate::figure::balloons::{Layout, Spot, lay_out};
use crate::manual::{Balloon, ListKind};
use serde::Serialize;

/// The numbers over a picture, in units of a thousandth of its width.
#[derive(Serialize)]
pub(super) struct Numbers {
    height: String,
    radius: String,
    size: String,
    numbers: Vec<Number>,
}

/// A number: its balloon, and its leader line from the balloon to the item.
#[derive(Serialize)]
struct Number {
    id: String,
    row: String,
    item: u64,
    label: String,
    x: String,
    y: String,
    text_y: String,
    line: String,
    to_x: String,
    to_y: String,
}

/// A row of the table of items.
#[derive(Serialize)]
pub(super) struct ItemRow {
    id: String,
    balloon: String,
    item: u64,
    label: String,
    thing: Detail,
    detail: String,
}

impl Scene<'_> {
    /// The numbers of a picture of a width and height. `picture` counts the pictures of the page, for anchors of their own.
    pub(super) fn numbers(&self, picture: usize, width: u32, height: u32, balloons: &[Balloon]) -> Option<Numbers> {
        if balloons.is_empty() || width == 0 || height == 0 {
            return None;
        }
        let spots: Vec<Spot> = balloons.iter().map(|balloon| Spot { item: balloon.item, at: balloon.at }).collect();
        let Layout { height, radius, placed } = lay_out(width, height, &spots);
        // Two figures fit a balloon that is filled by one.
        let size = radius * if balloons.iter().any(|balloon| balloon.item > 9) { 0.95 } else { 1.2 };
        let numbers = balloons.iter().zip(placed).map(|(balloon, at)| Number {
            id: item_anchor(picture, balloon.item),
            row: row_anchor(picture, balloon.item),
            item: balloon.item,
            label: self.item_label(balloon),
            x: units(at.centre.x),
            y: units(at.centre.y),
            // Figures reach about 0.73 of their size above the line they stand on.
            text_y: units(at.centre.y + 0.365 * size),
            line: format!("M{} {}L{} {}", units(at.from.x), units(at.from.y), units(at.target.x), units(at.target.y)),
            to_x: units(at.target.x),
            to_y: units(at.target.y),
        });
        Some(Numbers { height: units(height), radius: units(radius), size: units(size), numbers: numbers.collect() })
    }

    /// The table of a picture's items.
    pub(super) fn item_rows(&self, picture: usize, balloons: &[Balloon]) -> Vec<ItemRow> {
        balloons
            .iter()
            .map(|balloon| {
                let thing = balloon.of.as_ref().and_then(|of| self.find_named(&of.value));
                let named = match (&thing, &balloon.of) {
                    // A material of the shop that no act uses has no row.
                    (Some(thing), _) if thing.kind == ListKind::Materials => Detail::plain(self.name(thing)),
                    (Some(thing), _) => Detail { text: self.name(thing), href: Some(self.row_link(thing)) },
                    (None, Some(of)) => Detail::plain(self.numbered_name(&of.value)),
                    (None, None) => Detail::default(),
                };
                ItemRow {
                    id: row_anchor(picture, balloon.item),
                    balloon: item_anchor(picture, balloon.item),
                    item: balloon.item,
                    label: self.say("balloon-on-picture", &[("item", Arg::Count(balloon.item))]),
                    thing: named,
                    detail: thing.as_ref().and_then(|thing| self.short_text(thing)).unwrap_or_default(),
                }
            })
            .collect()
    }

    /// What a number stands for. A bead has no row of its own, but a name.
    fn numbered_name(&self, id: &str) -> String {
        self.find_named(id).map_or_else(|| self.name_in(ListKind::Beads, id), |thing| self.name(&thing))
    }

    fn item_label(&self, balloon: &Balloon) -> String {
        let name = balloon.of.as_ref().map(|of| self.numbered_name(&of.value)).unwrap_or_default();
        self.say("balloon-label", &[("item", Arg::Count(balloon.item)), ("name", Arg::Text(&name))])
    }
}

fn item_anchor(picture: usize, item: u64) -> String {
    format!("page.picture-{picture}.item-{item}")
}

fn row_anchor(picture: usize, item: u64) -> String {
    format!("page.picture-{picture}.row-{item}")
}

/// A length to a tenth of a unit: far below what can be seen, and the same on every machine.
fn units(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}
