//! Drawings from values: one drawing language for all of them, in millimetres of paper.
//!
//! A drawing is a scene of typed marks, and only [`svg`] knows how a mark is written. So a test can ask the scene
//! where things are, and [`Drawing::faults`] whether texts overlap, a line runs through a text or anything leaves
//! the paper. Lines have the widths of ISO 128, dimensions look as ISO 129-1 wants them, item references as
//! ISO 6433. Nothing is told by colour: ink is `currentColor`, so a drawing is as good in grey and in dark mode.
//! Words come from the caller, who has the catalogue: nothing here speaks a language.

mod check;
mod dimension;
mod geometry;
mod hatching;
mod items;
mod lettering;
mod scene;
mod svg;

pub use check::Fault;
pub use dimension::{arrowhead, dimension_across, dimension_arc, dimension_up};
pub use geometry::{Bounds, Point, point, polar};
pub use items::{LeaderEnd, balloon, balloon_radius, item_list, leader};
pub use lettering::{ABOVE_LINE, BELOW_LINE, FIGURE, LINE_PITCH, NOTE, text_width, wrapped};
pub use scene::{Anchor, Fill, Item, Mark, Scene, Tag, Weight};
pub(crate) use svg::{marks, push_whole, svg_of_marks};
pub use svg::svg;

/// The width all drawings are made for, in millimetres of paper: sheets print them at this size.
pub const WIDTH: f64 = 60.0;

/// White space round a drawing, in millimetres.
pub const MARGIN: f64 = 1.0;

/// A drawing, ready to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// What it shows, in a few words: its name for those who can't see it, and its caption.
    pub title: String,
    /// All that is drawn, in sentences, for those who can't see it.
    pub description: String,
    /// Width of the paper in millimetres; the scene's x runs from 0 to it.
    pub width_mm: f64,
    /// Height likewise, downwards.
    pub height_mm: f64,
    /// What is drawn.
    pub scene: Scene,
}

impl Drawing {
    /// A drawing [`WIDTH`] wide and as high as its scene needs.
    #[must_use]
    pub fn new(title: impl Into<String>, description: impl Into<String>, scene: Scene) -> Self {
        let height_mm = scene.bounds().map_or(0.0, |bounds| bounds.bottom) + MARGIN;
        Self { title: title.into(), description: description.into(), width_mm: WIDTH, height_mm, scene }
    }

    /// What is wrong with it as a drawing; none for a good one.
    #[must_use]
    pub fn faults(&self) -> Vec<Fault> {
        check::faults(self)
    }
}
