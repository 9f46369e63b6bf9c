//! The board of bolts: holes at their true places and size, to lay cardboard under, punch, and keep each bolt of a cover
//! where it came from. Only for a layout in millimetres: a circle without a diameter has no true size.

use super::error::PageError;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::site::{Scene, Site};
use super::values::cases;
use super::words::Arg;
use crate::manual::{BOARD_AIR as AIR, BOARD_BARS as BARS, BOARD_ROOM as ROOM, Combination, Edges, Entry, Fastener, Layout, Procedure, Scope, SheetValues, ThingRef, Varied, board_places, newest_change, placed_fasteners};
use serde::Serialize;

/// The bars to measure, in millimetres.
const BAR: f64 = 50.0;
/// Without a thread a hole is drawn so wide.
const UNKNOWN_RADIUS: f64 = 3.0;
/// Height of a hole's two lines of text, and the width of a letter of the lower one.
const TEXT: (f64, f64) = (9.0, 1.75);
/// Room for what lies at an edge.
const EDGE: f64 = 5.0;

#[derive(Serialize)]
struct BoardView {
    class: &'static str,
    running: String,
    fingerprint: String,
    back: Detail,
    boards: Vec<Board>,
}

/// One board. Lengths are texts in millimetres.
#[derive(Debug, Default, Serialize)]
struct Board {
    title: String,
    facts: Vec<String>,
    described: String,
    width: String,
    height: String,
    holes: Vec<Hole>,
    bars: String,
    across_x: String,
    across_y: String,
    down_x: String,
    down_y: String,
    edges: Vec<EdgeText>,
}

/// What lies at an edge, beside it.
#[derive(Debug, Serialize)]
struct EdgeText {
    x: String,
    y: String,
    words: String,
    /// Turned to run upwards along its edge.
    upwards: bool,
}

#[derive(Debug, Serialize)]
struct Hole {
    x: String,
    y: String,
    radius: String,
    left: String,
    right: String,
    top: String,
    bottom: String,
    text_x: String,
    turn_y: String,
    words_y: String,
    anchor: &'static str,
    /// When it is tightened.
    turn: u64,
    words: String,
}

/// Makes the page of a board.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize, thing: &ThingRef) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let path = link::board_path(&machine.id, &procedure.id, &thing.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: &path, known: &any, at_bench: true };
    let Some(entry) = scene.scope().thing(|l| &l.fasteners, thing) else { return Ok(Default::default()) };
    // The cases of `cases`, with what they hold for.
    let held_for = entry.what.layout.cases_within(&entry.only).map(|case| &case.when);
    let boards = cases(&entry.what.layout, &entry.only).zip(held_for).filter_map(|((label, layout), when)| {
        let known = entry.only.and(when)?;
        Scene { known: &known, ..scene }.board(entry, label.as_deref(), layout)
    });
    let title = site.say_with("board-of", &[("name", Arg::Text(&entry.name))]);
    let SheetValues { fingerprint, things } = SheetValues::of_board(site.input.manual, machine, procedure, thing);
    let revision = procedure.history.revision.map(|r| scene.say("revision", &[("revision", Arg::Count(r))]));
    let running: Vec<String> = [machine.name.clone(), procedure.title.clone(), title.clone()].into_iter().chain(revision).chain([fingerprint.in_short()]).collect();
    let back = Detail { text: procedure.title.clone(), href: Some(scene.link(&link::procedure_path(&machine.id, &procedure.id))) };
    let id = format!("{}/{}-board-{}", machine.id, procedure.id, thing.id);
    let mut block = site.title_block("kind-board", &title, &id, Some(&procedure.history));
    block.machine = Some(Detail::plain(machine.name.as_str()));
    block.of_day(procedure.history.date.max(newest_change(site.input.manual, machine, &things)));
    let heading = format!("{title}, {}", machine.name);
    let view = BoardView { class: "board", running: running.join(" · "), fingerprint: fingerprint.to_string(), back, boards: boards.collect() };
    let html = site.document("board.html", site.sheet_frame(&path, &heading), block, &view)?;
    Ok((path, html))
}

impl Scene<'_> {
    /// Links to the boards of a procedure.
    pub(super) fn board_links(&self, procedure: &Procedure) -> Vec<Detail> {
        let scope = Scope { procedure: Some(procedure), ..self.scope() };
        placed_fasteners(scope, procedure)
            .into_iter()
            .map(|thing| {
                let name = scope.head(&thing).map_or_else(|| thing.id.clone(), |head| head.name.to_owned());
                let text = self.say("board-of", &[("name", Arg::Text(&name))]);
                Detail { text, href: Some(self.link(&link::board_path(&self.machine.id, &procedure.id, &thing.id))) }
            })
            .collect()
    }

    /// The order, in the numbers of the board: its holes bear their turns, and positions told beside them would be taken for those.
    /// Orders that differ by variant are told by positions: a hole bears the turn of one of them.
    fn turns_text(&self, fastener: &Fastener) -> Option<String> {
        match self.orders(fastener).as_slice() {
            [order] => {
                let key = if order.is_worked_out { "board-turns-worked-out" } else { "board-turns" };
                Some(self.say(key, &[("count", Arg::Count(super::rows::count(order.positions.len())))]))
            }
            _ => self.order_text(fastener),
        }
    }

    fn board(&self, entry: &Entry<Fastener>, label: Option<&str>, layout: &Layout) -> Option<Board> {
        let (places, turned) = board_places(layout)?;
        let edges = self.edges(&entry.what);
        let order = self.positions(&entry.what);
        let mut bolt = Fastener { count: Varied::default(), class: Varied::default(), ..entry.what.clone() };
        if cases(&bolt.length, self.known).nth(1).is_some() {
            // Beside a hole there is room for one length; the list above has them all.
            bolt.length = Varied::default();
        }
        let size = self.fastener_text(&bolt, None).unwrap_or_default();
        let diameter = entry.what.thread.get(self.known).map(|thread| thread.diameter_mm());
        let title = match label {
            Some(label) => format!("{} ({label})", entry.name),
            None => entry.name.clone(),
        };
        let facts = self.fastener_text(&entry.what, None).into_iter().chain(self.turns_text(&entry.what)).collect();
        let mut board = drawn(&places, &order, diameter.map_or(UNKNOWN_RADIUS, |diameter| diameter / 2.0), &size, &lying(edges, turned));
        let described = self.say("board-described", &[("name", Arg::Text(&entry.name)), ("count", Arg::Count(super::rows::count(places.len())))]);
        let told = self.edge_words(&lying(self.edges(&entry.what), turned)).join(" ");
        board.described = if told.is_empty() { described } else { format!("{described}. {told}") };
        board.title = title;
        board.facts = facts;
        Some(board)
    }
}

/// The edges as the board lies: turned on its side, what was above is on the right.
fn lying(edges: Edges, turned: bool) -> Edges {
    let [up, down, left, right] = edges.words;
    Edges { words: if turned { [left, right, down, up] } else { [up, down, left, right] } }
}

fn drawn(places: &[(f64, f64)], order: &[u64], radius: f64, words: &str, edges: &Edges) -> Board {
    let far = |pick: fn(&(f64, f64)) -> f64| places.iter().map(pick).fold(0.0, f64::max);
    let width = (far(|p| p.0) + AIR).max(BARS.0 + BAR + 4.0);
    let letters = f64::from(u32::try_from(words.chars().count()).unwrap_or(0));
    let wide = (letters * TEXT.1).max(8.0);
    let edges = edge_texts(edges, (far(|p| p.0), far(|p| p.1)));
    let mut taken: Vec<Area> = places.iter().map(|(x, y)| Area::round(*x, *y, radius + 1.0)).collect();
    let is_marked_left = edges.iter().any(|edge| edge.upwards && edge.x == mm(BARS.0 + EDGE - 1.0));
    let mut holes = Vec::new();
    for (index, (x, y)) in places.iter().enumerate() {
        let number = super::rows::count(index + 1);
        let turn = order.iter().position(|position| *position == number).map_or(number, |at| super::rows::count(at + 1));
        let beside = radius + 2.5;
        let ways = [
            ("start", x + beside, *y),
            ("end", x - beside, *y),
            ("middle", *x, y - beside - TEXT.0 / 2.0),
            ("middle", *x, y + beside + TEXT.0 / 2.0),
        ];
        let area = |(anchor, at, middle): (&str, f64, f64)| {
            let left = match anchor {
                "start" => at,
                "end" => at - wide,
                _ => at - wide / 2.0,
            };
            Area { left, top: middle - TEXT.0 / 2.0, right: left + wide, bottom: middle + TEXT.0 / 2.0 }
        };
        let free = |way: &&(&'static str, f64, f64)| {
            let area = area(**way);
            area.left >= if is_marked_left { BARS.0 + EDGE } else { BARS.0 } && area.right <= ROOM.0 && !taken.iter().enumerate().any(|(of, other)| of != index && other.meets(area))
        };
        let way = *ways.iter().find(free).unwrap_or(&ways[0]);
        taken.push(area(way));
        let (anchor, text_x, middle) = way;
        holes.push(Hole {
            x: mm(*x),
            y: mm(*y),
            radius: mm(radius),
            left: mm(x - radius - 2.0),
            right: mm(x + radius + 2.0),
            top: mm(y - radius - 2.0),
            bottom: mm(y + radius + 2.0),
            text_x: mm(text_x),
            turn_y: mm(middle),
            words_y: mm(middle + 3.8),
            anchor,
            turn,
            words: words.to_owned(),
        });
    }
    // No more than is needed: below the board stands the caution, on the same leaf.
    let words_below = if edges.iter().any(|edge| edge.y == mm(far(|p| p.1) + AIR - 1.0)) { far(|p| p.1) + AIR } else { 0.0 };
    let height = taken.iter().map(|area| area.bottom + 2.0).fold(words_below, f64::max).max(BAR + 6.0) + BARS.1;
    let (low, beside) = (height - 3.0, 3.0);
    let right = taken.iter().map(|area| area.right).fold(width, f64::max).min(ROOM.0);
    let bars = format!(
        "M{x0} {y0}V{y1}M{x0} {y}H{x1}M{x1} {y0}V{y1}M{x2} {top}H{x3}M{beside} {top}V{end}M{x2} {end}H{x3}",
        x0 = mm(BARS.0), x1 = mm(BARS.0 + BAR), y0 = mm(low - 2.0), y1 = mm(low + 2.0), y = mm(low),
        x2 = mm(beside - 2.0), x3 = mm(beside + 2.0), beside = mm(beside), top = mm(3.0), end = mm(3.0 + BAR),
    );
    Board {
        width: mm(right),
        height: mm(height),
        holes,
        bars,
        across_x: mm(BARS.0 + BAR / 2.0),
        across_y: mm(low - 1.2),
        down_x: mm(0.5),
        down_y: mm(BAR + 9.0),
        edges,
        ..Board::default()
    }
}

/// The words at the edges, each beside the middle of the holes: `far` is the hole farthest to the right and down.
fn edge_texts(edges: &Edges, far: (f64, f64)) -> Vec<EdgeText> {
    let [up, down, left, right] = &edges.words;
    let middle = (f64::midpoint(BARS.0 + AIR, far.0), f64::midpoint(AIR, far.1));
    let told = [
        (up, middle.0, EDGE, false),
        (down, middle.0, far.1 + AIR - 1.0, false),
        (left, BARS.0 + EDGE - 1.0, middle.1, true),
        (right, far.0 + AIR - 1.0, middle.1, true),
    ];
    let texts = told.into_iter().filter_map(|(words, x, y, upwards)| Some(EdgeText { x: mm(x), y: mm(y), words: words.clone()?, upwards }));
    texts.collect()
}

/// An area that is taken, in millimetres.
#[derive(Clone, Copy, Debug)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Area {
    fn round(x: f64, y: f64, radius: f64) -> Self {
        Self { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius }
    }

    fn meets(self, other: Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

/// Millimetres to a hundredth.
fn mm(value: f64) -> String {
    format!("{value:.2}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_board_says_what_lies_at_its_edges_and_turns_the_words_with_the_holes() {
        let edges = || Edges { words: [Some("belt end".to_owned()), None, Some("port".to_owned()), None] };
        let (places, turned) = board_places(&Layout::At(vec![(0.0, 0.0), (40.0, 0.0), (40.0, 60.0)])).unwrap();
        let board = drawn(&places, &[1, 2, 3], 4.0, "M8", &lying(edges(), turned));
        let said: Vec<(&str, bool)> = board.edges.iter().map(|edge| (edge.words.as_str(), edge.upwards)).collect();
        assert_eq!(said, [("belt end", false), ("port", true)]);
        assert!(board.edges[0].y.parse::<f64>().unwrap() < 15.0 - 5.0, "above the uppermost hole");
        // 20 mm wide and 130 mm high does not fit upright: up goes to the right, left goes up.
        let (places, turned) = board_places(&Layout::At(vec![(0.0, 0.0), (10.0, 138.0)])).unwrap();
        assert!(turned && places[1].0 > places[0].0, "the upper hole lies to the right: {places:?}");
        assert_eq!(lying(edges(), turned).words, [Some("port".to_owned()), None, None, Some("belt end".to_owned())]);
    }

    #[test]
    fn each_hole_says_when_it_is_tightened_and_no_text_lies_on_another() {
        let (places, _) = board_places(&Layout::At(vec![(0.0, 0.0), (30.0, 0.0), (0.0, 30.0), (30.0, 30.0)])).unwrap();
        let board = drawn(&places, &[1, 4, 2, 3], 4.0, "M8 × 1.25 × 40 mm", &Edges::default());
        let turns: Vec<u64> = board.holes.iter().map(|hole| hole.turn).collect();
        assert_eq!(turns, [1, 3, 4, 2]);
        assert_eq!(board.holes[0].radius, "4.00");
        assert_eq!(board.holes[0].anchor, "middle", "to its right stands the next hole, to its left the bar");
        let below: Vec<&str> = board.holes.iter().map(|hole| hole.words_y.as_str()).collect();
        assert!(below.iter().enumerate().all(|(at, y)| below.iter().skip(at + 1).filter(|other| *other == y).count() <= 1), "{below:?}");
    }
}
