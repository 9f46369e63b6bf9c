//! A pack of plates that take turns, each plate in its place: what lies where, how many there are, how thick they are
//! and how high it all stands.

use super::drawing::{
    ABOVE_LINE, Anchor, Bounds, Drawing, Fill, LINE_PITCH, MARGIN, NOTE, Scene, WIDTH, Weight, dimension_up, point,
    text_width, wrapped,
};

/// A pack of plates.
#[derive(Clone, Debug, PartialEq)]
pub struct PlatePack {
    /// The drawing's title.
    pub title: String,
    /// Its description, for those who can't see it.
    pub description: String,
    /// The kinds of plates.
    pub kinds: Vec<PlateKind>,
    /// The kind of each plate, from the first that goes in: an index into `kinds`.
    pub order: Vec<usize>,
    /// The height of the pack, as its dimension is written.
    pub height: Option<String>,
    /// What stands at the first plate.
    pub first: String,
    /// What stands at the last.
    pub last: String,
}

/// A kind of plates.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateKind {
    /// What the list of items says of it: count, name and thickness.
    pub words: String,
    /// Thickness of a plate in millimetres; all are drawn alike where one is not known.
    pub thickness: Option<f64>,
}

/// More plates than this are too thin to be told apart on 60 mm of paper.
pub const MOST_PLATES: usize = 60;

/// The plates' inner and outer edges across the paper. Kinds alternate in which edge stands out: toothed inside they
/// sit on the hub, toothed outside in the drum.
const INNER: f64 = 14.0;
const OUTER: f64 = 50.0;
const STEP: f64 = 3.5;
/// Height of the tallest pack, and of the thickest and thinnest plate, on the paper.
const TALLEST: f64 = 46.0;
const THICKEST: f64 = 3.6;
const THINNEST: f64 = 0.7;
/// A longer value is no dimension but a sentence, and stands on the page alone.
const LONGEST_DIMENSION: f64 = 36.0;
/// Numbers stand this far apart at least.
const NUMBER_PITCH: f64 = 2.6;

/// The order of plates that take turns, from the first, as indices of kinds; none where the counts can't take turns
/// from `begin` to `end`, where there are none, or more than [`MOST_PLATES`].
#[must_use]
pub fn in_turn(counts: &[u64], begin: usize, end: usize) -> Option<Vec<usize>> {
    let total = counts.iter().try_fold(0_u64, |sum, count| sum.checked_add(*count))?;
    let total = usize::try_from(total).ok().filter(|total| (1..=MOST_PLATES).contains(total))?;
    if begin >= counts.len() {
        return None;
    }
    let mut left = counts.to_vec();
    let mut order: Vec<usize> = Vec::with_capacity(total);
    while order.len() < total {
        let kind = (begin + order.len()) % counts.len();
        let remaining = left.get_mut(kind)?;
        *remaining = remaining.checked_sub(1)?;
        order.push(kind);
    }
    (order.last() == Some(&end)).then_some(order)
}

/// Draws it, the first plate at the bottom. None for a pack without plates, or with too many.
#[must_use]
pub fn plate_pack(pack: &PlatePack) -> Option<Drawing> {
    if pack.order.is_empty() || pack.order.len() > MOST_PLATES {
        return None;
    }
    let heights = heights(pack);
    let mut scene = Scene::new();
    let (last, first) = (lines(&pack.last), lines(&pack.first));
    let total = heights.iter().sum::<f64>();
    let dimension = pack.height.as_deref().map(|height| (height, text_width(height, NOTE)));
    let dimension = dimension.filter(|(_, width)| *width < LONGEST_DIMENSION);
    // A value longer than the pack is high stands above it.
    let above = dimension.map_or(0.0, |(_, width)| if width + 1.3 < total { 0.0 } else { width + 1.3 });
    let top = MARGIN + (block(&last) + 0.6).max(above);
    let bottom = top + total;
    let mut lower = bottom;
    for (position, (kind, height)) in pack.order.iter().zip(&heights).enumerate() {
        let (left, right) = if kind % 2 == 0 { (INNER, OUTER - STEP) } else { (INNER + STEP, OUTER) };
        let plate = Bounds { left, top: lower - height, right, bottom: lower };
        scene.tag("plate", position);
        scene.rectangle(plate, Weight::Thick, lining(*kind));
        lower = plate.top;
    }
    numbers(&mut scene, &heights, bottom);
    scene.tag("end", 0);
    write(&mut scene, &last, top - 0.6 - block(&last));
    scene.tag("end", 1);
    write(&mut scene, &first, bottom + 0.8);
    if let Some((height, _)) = dimension {
        scene.tag("height", 0);
        dimension_up(&mut scene, top, bottom, INNER, 8.0, NOTE, height);
    }
    key(&mut scene, pack, bottom + 0.8 + block(&first) + 1.4);
    Some(Drawing::new(&pack.title, &pack.description, scene))
}

/// What stands at an end of the pack, in lines.
fn lines(text: &str) -> Vec<String> {
    wrapped(text, NOTE, WIDTH - INNER - MARGIN)
}

/// The height of lines of text.
fn block(lines: &[String]) -> f64 {
    lines.len() as f64 * LINE_PITCH * NOTE
}

fn write(scene: &mut Scene, lines: &[String], top: f64) {
    let mut baseline = top + ABOVE_LINE * NOTE;
    for line in lines {
        scene.text(point(INNER, baseline), Anchor::Start, NOTE, line.as_str());
        baseline += LINE_PITCH * NOTE;
    }
}

/// The kinds' fillings: hatched one way, empty, hatched the other way, and so on.
fn lining(kind: usize) -> Fill {
    match kind % 4 {
        0 => Fill::Hatched(45.0, 0.9),
        1 => Fill::None,
        2 => Fill::Hatched(135.0, 0.9),
        _ => Fill::Tint,
    }
}

/// The plates' heights on the paper: to one scale where all are known and the thinnest stays visible.
fn heights(pack: &PlatePack) -> Vec<f64> {
    let known: Option<Vec<f64>> = pack
        .order
        .iter()
        .map(|kind| pack.kinds.get(*kind).and_then(|kind| kind.thickness).filter(|t| t.is_finite() && *t > 0.0))
        .collect();
    let even = vec![1.0; pack.order.len()];
    let relative = known.unwrap_or(even);
    let (sum, thickest) = (relative.iter().sum::<f64>(), relative.iter().copied().fold(0.0, f64::max));
    let scale = (TALLEST / sum).min(THICKEST / thickest);
    relative.iter().map(|thickness| (thickness * scale).max(THINNEST)).collect()
}

/// Each plate's number beside it, counted from the first; where they would not fit, every second, fifth, and so on.
fn numbers(scene: &mut Scene, heights: &[f64], bottom: f64) {
    let mut lower = bottom;
    let middles: Vec<f64> = heights
        .iter()
        .map(|height| {
            lower -= height;
            lower + height / 2.0
        })
        .collect();
    let numbered = |every: usize| middles.iter().enumerate().filter(move |(position, _)| (position + 1) % every == 0);
    let fits = |every: &usize| {
        let shown: Vec<f64> = numbered(*every).map(|(_, middle)| *middle).collect();
        shown.windows(2).all(|pair| matches!(pair, [lower, upper] if lower - upper >= NUMBER_PITCH))
    };
    let every = [1, 2, 5, 10].into_iter().find(fits).unwrap_or(20);
    for (position, middle) in numbered(every) {
        scene.tag("number", position);
        scene.text(point(OUTER + 4.2, middle + 0.365 * NOTE), Anchor::End, NOTE, (position + 1).to_string());
    }
}

/// What the kinds are: a piece of each with its count, name and thickness.
fn key(scene: &mut Scene, pack: &PlatePack, top: f64) {
    let mut y = top;
    for (kind, plate) in pack.kinds.iter().enumerate() {
        scene.tag("key", kind);
        let piece = Bounds { left: 3.0, top: y + 0.2, right: 8.0, bottom: y + 2.4 };
        scene.rectangle(piece, Weight::Thick, lining(kind));
        for line in wrapped(&plate.words, NOTE, WIDTH - 9.5 - MARGIN) {
            scene.text(point(9.5, y + ABOVE_LINE * NOTE), Anchor::Start, NOTE, line);
            y += LINE_PITCH * NOTE;
        }
    }
}
