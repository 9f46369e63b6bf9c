//! Drawings that are drawn once: the same one stands on its procedure's page, on the sheets of its variants, and is asked
//! for again where a line only says what is on it.

use crate::figure::alignment::Alignment;
use crate::figure::drawing::{Drawing, marks, svg_of_marks};
use crate::figure::heated_fit::HeatedFit;
use crate::figure::orientation::{Orientation, orientation};
use crate::figure::plate_pack::{PlatePack, plate_pack};
use crate::figure::shaft_stack::{ShaftStack, shaft_stack};
use crate::figure::tightening_order::{OrderWords, TighteningOrder};
use crate::figure::torque_stages::TorqueStages;
use crate::figure::turning_sense::{TurningSense, turning_sense};
use crate::figure::wrench_adapter::WrenchAdapter;
use crate::trade::order::Layout;
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// All that a drawing hangs on: its values and its words.
#[derive(PartialEq)]
pub(super) enum Wanted {
    Adapter(WrenchAdapter),
    Alignment(Alignment),
    Fit(HeatedFit),
    Order { words: OrderWords, order: Vec<usize>, layout: Layout },
    Orientation(Orientation),
    Pack(PlatePack),
    Sense(TurningSense),
    Shaft(ShaftStack),
    Stages(TorqueStages),
}

/// A drawing, and how its marks are written.
pub(super) struct Drawn {
    drawing: Drawing,
    marks: OnceCell<String>,
}

impl PartialEq for Drawn {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other) || self.drawing == other.drawing
    }
}

impl Drawn {
    /// What it shows, in a few words.
    pub(super) fn title(&self) -> &str {
        &self.drawing.title
    }

    /// The drawing as SVG, under an id.
    pub(super) fn svg(&self, id: &str) -> String {
        svg_of_marks(&self.drawing, id, self.marks.get_or_init(|| marks(&self.drawing)))
    }
}

/// So many are kept: more than a procedure has, whose page and sheets are made one after the other.
const MOST_KEPT: usize = 48;

/// What was drawn from what; none where it can't be drawn.
type Kept = Vec<(Wanted, Option<Rc<Drawn>>)>;

thread_local! {
    static KEPT: RefCell<Kept> = const { RefCell::new(Vec::new()) };
}

/// A drawing, as it was drawn before where it was.
pub(super) fn drawn(wanted: Wanted) -> Option<Rc<Drawn>> {
    KEPT.with_borrow_mut(|kept| {
        // What was drawn last is asked for soonest.
        if let Some((_, drawn)) = kept.iter().rfind(|(known, _)| *known == wanted) {
            return drawn.clone();
        }
        if kept.len() >= MOST_KEPT {
            kept.drain(..MOST_KEPT / 2);
        }
        let drawn = wanted.drawing().map(|drawing| Rc::new(Drawn { drawing, marks: OnceCell::new() }));
        kept.push((wanted, drawn.clone()));
        drawn
    })
}

impl Wanted {
    fn drawing(&self) -> Option<Drawing> {
        match self {
            Self::Adapter(adapter) => adapter.drawing(),
            Self::Alignment(alignment) => alignment.drawing(),
            Self::Fit(fit) => fit.drawing(),
            Self::Order { words, order, layout } => TighteningOrder { layout, order, words: words.clone() }.drawing(),
            Self::Orientation(part) => orientation(part),
            Self::Pack(pack) => plate_pack(pack),
            Self::Sense(turning) => Some(turning_sense(turning)),
            Self::Shaft(stack) => shaft_stack(stack),
            Self::Stages(stages) => stages.drawing(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::turning_sense::Sense;

    fn turning(title: &str) -> Wanted {
        let (title, sense) = (title.to_owned(), Sense::Clockwise);
        Wanted::Sense(TurningSense { description: "A thread.".to_owned(), words: "undo".to_owned(), title, sense })
    }

    #[test]
    fn what_is_wanted_again_is_not_drawn_again_and_looks_the_same() {
        let first = drawn(turning("Nut")).unwrap();
        assert!(Rc::ptr_eq(&first, &drawn(turning("Nut")).unwrap()));
        assert!(*first != *drawn(turning("Bolt")).unwrap());
        for other in 0..MOST_KEPT {
            drawn(turning(&other.to_string()));
        }
        let again = drawn(turning("Nut")).unwrap();
        assert!(!Rc::ptr_eq(&first, &again) && *first == *again);
        assert_eq!(first.svg("a"), again.svg("a"));
        KEPT.with_borrow(|kept| assert!(kept.len() <= MOST_KEPT));
    }
}
