//! What the drawings of single acts share: text below what is drawn, and the way to the top of the paper.

use super::drawing::{ABOVE_LINE, Anchor, BELOW_LINE, Bounds, LINE_PITCH, MARGIN, Mark, Point, Scene, WIDTH, point, text_width, wrapped};

/// Sets a text below all that is drawn, over as many lines as it needs. Nothing for an empty one.
pub(super) fn note(scene: &mut Scene, size: f64, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    let is_text = scene.items.last().is_some_and(|item| matches!(item.mark, Mark::Text { .. }));
    let bottom = scene.bounds().map_or(0.0, |bounds| bounds.bottom);
    // Below lines a little more air than below text.
    let mut line = bottom + if is_text { 1.06 * size } else { 1.06 * size + 1.0 };
    for text in wrapped(text, size, WIDTH - 2.0 * MARGIN) {
        scene.text(point(MARGIN, line), Anchor::Start, size, text);
        line += LINE_PITCH * size;
    }
}

/// Moves all that is drawn so that its top stands at the paper's margin.
pub(super) fn to_the_top(scene: &mut Scene) {
    let Some(top) = scene.bounds().map(|bounds| bounds.top) else { return };
    let down = MARGIN - top;
    for item in &mut scene.items {
        match &mut item.mark {
            Mark::Path { points, .. } => points.iter_mut().for_each(|at| *at = at.moved(0.0, down)),
            Mark::Circle { centre: at, .. } | Mark::Arc { centre: at, .. } | Mark::Text { at, .. } => *at = at.moved(0.0, down),
        }
    }
}

/// The way from one place to another, of length 1, and the same turned to the left as seen along it. None where both
/// are one place.
pub(super) fn directions(from: Point, to: Point) -> Option<((f64, f64), (f64, f64))> {
    let whole = from.distance(to);
    let (x, y) = ((to.x - from.x) / whole, (to.y - from.y) / whole);
    (x.is_finite() && y.is_finite()).then_some(((x, y), (y, -x)))
}

/// Sets lines of text centred in a direction from a place, as near as they may come, moved sideways where they would
/// leave the paper.
pub(super) fn text_beside(scene: &mut Scene, from: Point, direction: (f64, f64), size: f64, lines: &[&str]) {
    let width = lines.iter().map(|line| text_width(line, size)).fold(0.0, f64::max);
    let more = f64::from(u32::try_from(lines.len().saturating_sub(1)).unwrap_or(0));
    let bounds = beside(from, direction, width, (more * 1.25 + ABOVE_LINE + BELOW_LINE) * size);
    let mut line = bounds.top + ABOVE_LINE * size;
    for text in lines {
        scene.text(point(bounds.centre().x, line), Anchor::Middle, size, *text);
        line += 1.25 * size;
    }
}

fn beside(from: Point, direction: (f64, f64), width: f64, height: f64) -> Bounds {
    let reach = width / 2.0 * direction.0.abs() + height / 2.0 * direction.1.abs();
    let middle = from.moved(direction.0 * reach, direction.1 * reach);
    let half = width / 2.0;
    let x = middle.x.min(WIDTH - MARGIN - half).max(MARGIN + half);
    Bounds { left: x - half, top: middle.y - height / 2.0, right: x + half, bottom: middle.y + height / 2.0 }
}
