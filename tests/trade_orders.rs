//! Orders of tightening against published figures.
//!
//! Sources: US Army general torque notes (TM 5-3805-298-23-2 and three others, one figure), ASME PCC-1 legacy pattern (from
//! memory), common practice.

mod trade_sheet;

use benchleaf::trade::order::{Layout, check, loosening, propose};
use trade_sheet::Sheet;

#[test]
fn a_row_of_nine_is_worked_as_in_the_figure() {
    let mut sheet = Sheet::default();
    // Ranks printed along the row; the order of the positions follows from them.
    let ranks = [9, 7, 5, 3, 1, 2, 4, 6, 8];
    let printed: Vec<usize> = (1..=9).filter_map(|rank| ranks.iter().position(|known| *known == rank).map(|at| at + 1)).collect();
    assert_eq!(printed, [5, 6, 4, 7, 3, 8, 2, 9, 1]);
    let mirrored: Vec<usize> = printed.iter().map(|position| 10 - position).collect();
    let ours = propose(&Layout::Rows(vec![9])).unwrap();
    sheet.holds("SQ-01", &format!("{ours:?}"), ours == printed || ours == mirrored);
    sheet.holds("SQ-01", "the figure's order passes", check(&Layout::Rows(vec![9]), &printed).unwrap().faults.is_empty());
    let distance = |position: &usize| position.abs_diff(5);
    sheet.holds("SQ-01", "the distance never falls", ours.windows(2).all(|pair| distance(&pair[0]) <= distance(&pair[1])));
    sheet.holds("SQ-01", "loosened from the ends", loosening(&ours).first().map(distance) == Some(4));
    sheet.done(4);
}

#[test]
fn circles_are_worked_as_in_the_legacy_pattern() {
    let mut sheet = Sheet::default();
    for (id, count, order) in [("SQ-03", 4, vec![1, 3, 2, 4]), ("SQ-04", 8, vec![1, 5, 3, 7, 2, 6, 4, 8])] {
        let ours = propose(&Layout::Circle(count)).unwrap();
        sheet.holds(id, &format!("{count}: {ours:?}"), ours == order);
    }
    // The legacy pattern of 12 and 16 bolts (ASME PCC-1, from memory).
    for (count, order) in
        [(12, vec![1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]), (16, vec![1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16])]
    {
        let ours = propose(&Layout::Circle(count)).unwrap();
        sheet.holds("PCC-1 legacy", &format!("{count}: {ours:?}"), ours == order);
    }
    sheet.done(4);
}
