//! The order in which the bolts of a joint are tightened: worked out from where they sit, and a given one checked.
//!
//! Sources: crosswise on a circle: ASME PCC-1, legacy pattern (from memory), common practice; rows and free positions from
//! the centre outwards, sides in turn: US Army general torque notes (TM 5-3805-291-23-2, TM 5-3805-298-23-2). That a
//! step back towards the centre counts from 15 % of the greatest distance on is common practice.

use std::fmt;

/// Most positions an order is worked out for.
pub const MOST_POSITIONS: usize = 200;

/// Where the bolts sit. Positions are numbered from 1 as they are given, on a circle one after the other round it.
#[derive(Clone, Debug, PartialEq)]
pub enum Layout {
    /// Evenly on a circle.
    Circle(usize),
    /// In parallel rows over the same width, numbered row by row; one row is a line.
    Rows(Vec<usize>),
    /// Anywhere.
    Positions(Vec<Position>),
}

/// Where one bolt sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// Across, mm.
    pub x_mm: f64,
    /// Up, mm.
    pub y_mm: f64,
}

impl Layout {
    /// Where the positions sit, by number, up positive: a circle clockwise from the top, of radius 1; rows from the
    /// top down and from left to right, one space apart; free positions as given.
    ///
    /// # Errors
    /// A [`LayoutError`] where the layout is none.
    pub fn positions(&self) -> Result<Vec<Position>, LayoutError> {
        plan(self)?;
        Ok(match self {
            Self::Circle(count) => {
                let share = std::f64::consts::TAU / (span(*count) + 1.0);
                let places = (0..*count).zip(steps()).map(|(_, step)| step * share);
                places.map(|angle| Position { x_mm: angle.sin(), y_mm: angle.cos() }).collect()
            }
            Self::Rows(rows) => {
                row_positions(rows)?.into_iter().map(|at| Position { y_mm: -at.y_mm, ..at }).collect()
            }
            Self::Positions(positions) => positions.clone(),
        })
    }
}

/// Why there is no order for a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayoutError {
    /// No positions at all.
    Empty,
    /// More than [`MOST_POSITIONS`].
    TooMany,
    /// A coordinate that is no number.
    NotANumber,
    /// Two positions in one place.
    SamePlace {
        /// The first of them, from 1.
        first: usize,
        /// The second.
        second: usize,
    },
}

/// What is wrong with a given order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OrderFault {
    /// A position that does not come.
    Missing(usize),
    /// A position that comes more than once.
    Repeated(usize),
    /// A number that is no position.
    NoSuchPosition(usize),
    /// Two neighbours on a circle in succession.
    Neighbours {
        /// The one tightened first.
        first: usize,
        /// Its neighbour, tightened next.
        next: usize,
    },
    /// A step back towards the centre.
    TowardsCentre {
        /// The one tightened first.
        first: usize,
        /// The one nearer to the centre, tightened next.
        next: usize,
    },
}

/// What a check of an order found.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderCheck {
    /// What is wrong; empty where nothing is.
    pub faults: Vec<OrderFault>,
    /// An order that would do.
    pub proposal: Vec<usize>,
}

impl fmt::Display for LayoutError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("there are no positions"),
            Self::TooMany => write!(f, "there are more than {MOST_POSITIONS} positions"),
            Self::NotANumber => f.write_str("a coordinate is no number"),
            Self::SamePlace { first, second } => write!(f, "positions {first} and {second} are in one place"),
        }
    }
}

impl fmt::Display for OrderFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(position) => write!(f, "{position} is missing"),
            Self::Repeated(position) => write!(f, "{position} appears twice"),
            Self::NoSuchPosition(number) => write!(f, "there is no position {number}"),
            Self::Neighbours { first, next } => write!(f, "{next} follows its neighbour {first}"),
            Self::TowardsCentre { first, next } => write!(f, "from {first} to {next} the order goes back towards the centre"),
        }
    }
}

/// An order of tightening for a layout: crosswise on a circle (and where all positions lie about as far from the
/// middle), otherwise from the centre outwards.
///
/// # Errors
/// A [`LayoutError`] where the layout is none.
pub fn propose(layout: &Layout) -> Result<Vec<usize>, LayoutError> {
    Ok(match plan(layout)? {
        Plan::Ring(ring) => crosswise(ring.len()).into_iter().filter_map(|at| ring.get(at - 1).copied()).collect(),
        Plan::CentreOut(places) => centre_out(&places),
    })
}

/// The order of loosening that belongs to an order of tightening: the same backwards.
#[must_use]
pub fn loosening(tightening: &[usize]) -> Vec<usize> {
    tightening.iter().rev().copied().collect()
}

/// Checks a given order against a layout.
///
/// # Errors
/// A [`LayoutError`] where the layout is none.
pub fn check(layout: &Layout, order: &[usize]) -> Result<OrderCheck, LayoutError> {
    let plan = plan(layout)?;
    let mut faults = permutation_faults(order, plan.count());
    for (first, next) in order.iter().copied().zip(order.iter().copied().skip(1)) {
        faults.extend(plan.fault(first, next));
    }
    Ok(OrderCheck { faults, proposal: propose(layout)? })
}

/// Fewest bolts on a circle of which two are not all neighbours.
const RING_CHECKED_FROM: usize = 5;
/// A step back towards the centre by more than this share of the greatest distance is a fault.
const STEP_BACK: f64 = 0.15;
/// Positions whose distances differ by less than this share of the greatest are equally far.
const EQUALLY_FAR: f64 = 0.02;

/// How the positions are to be worked through.
enum Plan {
    /// Round a ring: the positions in turn.
    Ring(Vec<usize>),
    /// From the centre outwards.
    CentreOut(Vec<Place>),
}

/// A position about the centre of all.
#[derive(Clone, Copy)]
struct Place {
    number: usize,
    x: f64,
    y: f64,
    distance: f64,
}

impl Plan {
    fn count(&self) -> usize {
        match self {
            Self::Ring(ring) => ring.len(),
            Self::CentreOut(places) => places.len(),
        }
    }

    fn fault(&self, first: usize, next: usize) -> Option<OrderFault> {
        match self {
            Self::Ring(ring) => {
                let at = |number: usize| ring.iter().position(|known| *known == number);
                let gap = at(first)?.abs_diff(at(next)?);
                let beside = gap == 1 || gap + 1 == ring.len();
                (ring.len() >= RING_CHECKED_FROM && beside).then_some(OrderFault::Neighbours { first, next })
            }
            Self::CentreOut(places) => {
                let distance = |number: usize| places.iter().find(|place| place.number == number).map(|place| place.distance);
                let back = distance(first)? - distance(next)?;
                (back > STEP_BACK * greatest(places) + 1e-9).then_some(OrderFault::TowardsCentre { first, next })
            }
        }
    }
}

fn plan(layout: &Layout) -> Result<Plan, LayoutError> {
    match layout {
        Layout::Circle(0) => Err(LayoutError::Empty),
        Layout::Circle(count) if *count > MOST_POSITIONS => Err(LayoutError::TooMany),
        Layout::Circle(count) => Ok(Plan::Ring((1..=*count).collect())),
        Layout::Rows(rows) => plan_positions(&row_positions(rows)?),
        Layout::Positions(positions) => plan_positions(positions),
    }
}

fn plan_positions(positions: &[Position]) -> Result<Plan, LayoutError> {
    if positions.is_empty() {
        return Err(LayoutError::Empty);
    }
    if positions.len() > MOST_POSITIONS {
        return Err(LayoutError::TooMany);
    }
    let places = about_the_centre(positions).ok_or(LayoutError::NotANumber)?;
    apart(&places)?;
    let least = places.iter().map(|place| place.distance).fold(f64::MAX, f64::min);
    if places.len() >= 4 && least >= (1.0 - STEP_BACK) * greatest(&places) {
        let mut ring = places;
        ring.sort_by(|a, b| a.y.atan2(a.x).total_cmp(&b.y.atan2(b.x)));
        let start = ring.iter().position(|place| place.number == 1).unwrap_or(0);
        ring.rotate_left(start);
        return Ok(Plan::Ring(ring.into_iter().map(|place| place.number).collect()));
    }
    Ok(Plan::CentreOut(places))
}

/// The positions about the middle of all of them, scaled so that the farthest coordinate is 1.
fn about_the_centre(positions: &[Position]) -> Option<Vec<Place>> {
    let count = f64::from(u32::try_from(positions.len()).ok()?);
    let size = positions.iter().flat_map(|at| [at.x_mm.abs(), at.y_mm.abs()]).fold(0.0, f64::max);
    if positions.iter().any(|at| !at.x_mm.is_finite() || !at.y_mm.is_finite()) {
        return None;
    }
    let scaled: Vec<(f64, f64)> =
        positions.iter().map(|at| if size > 0.0 { (at.x_mm / size, at.y_mm / size) } else { (0.0, 0.0) }).collect();
    let middle_x = scaled.iter().map(|at| at.0).sum::<f64>() / count;
    let middle_y = scaled.iter().map(|at| at.1).sum::<f64>() / count;
    let placed = scaled.iter().zip(1..).map(|(at, number)| {
        let (x, y) = (at.0 - middle_x, at.1 - middle_y);
        Place { number, x, y, distance: x.hypot(y) }
    });
    Some(placed.collect())
}

fn apart(places: &[Place]) -> Result<(), LayoutError> {
    for (at, first) in places.iter().enumerate() {
        if let Some(second) = places.iter().skip(at + 1).find(|second| between(first, second) < 1e-6) {
            return Err(LayoutError::SamePlace { first: first.number, second: second.number });
        }
    }
    Ok(())
}

/// Positions of rows: each over the width of the longest, as far apart as the positions in that one.
fn row_positions(rows: &[usize]) -> Result<Vec<Position>, LayoutError> {
    // Checked before anything is laid out: a row of a thousand million is not counted up first.
    let total = rows.iter().try_fold(0_usize, |sum, row| sum.checked_add(*row)).ok_or(LayoutError::TooMany)?;
    if total > MOST_POSITIONS || rows.len() > MOST_POSITIONS {
        return Err(LayoutError::TooMany);
    }
    let longest = rows.iter().copied().max().unwrap_or(0);
    let mut positions = Vec::with_capacity(total);
    for (row, y_mm) in rows.iter().zip(steps()) {
        for (_, step) in (0..*row).zip(steps()) {
            let x_mm = if *row > 1 { step * span(longest) / span(*row) } else { span(longest) / 2.0 };
            positions.push(Position { x_mm, y_mm });
        }
    }
    Ok(positions)
}

/// 0, 1, 2 … as numbers one can reckon with.
fn steps() -> impl Iterator<Item = f64> {
    (0_u32..).map(f64::from)
}

/// Spaces between so many positions.
fn span(count: usize) -> f64 {
    f64::from(u32::try_from(count.saturating_sub(1)).unwrap_or(u32::MAX))
}

fn between(a: &Place, b: &Place) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

fn greatest(places: &[Place]) -> f64 {
    places.iter().map(|place| place.distance).fold(0.0, f64::max)
}

/// Crosswise order of places 1 to `count` round a ring. An even ring goes through opposite pairs, and the pairs in the
/// order of half the ring; an odd one steps by just under half.
fn crosswise(count: usize) -> Vec<usize> {
    if count % 2 == 1 {
        let step = ((count - 1) / 2).max(1);
        return (0..count).map(|at| at * step % count + 1).collect();
    }
    let half = count / 2;
    if half == 0 {
        return Vec::new();
    }
    crosswise(half).into_iter().flat_map(|first| [first, first + half]).collect()
}

/// Nearest to the centre first; of those equally near the one farthest from the last, so that sides take turns.
fn centre_out(places: &[Place]) -> Vec<usize> {
    let slack = EQUALLY_FAR * greatest(places);
    let mut left = places.to_vec();
    let mut order: Vec<Place> = Vec::with_capacity(places.len());
    while !left.is_empty() {
        let nearest = left.iter().map(|place| place.distance).fold(f64::MAX, f64::min);
        let away = |place: &Place| order.last().map_or(0.0, |last| between(last, place));
        let mut best = 0;
        let mut best_away = -1.0;
        for (at, place) in left.iter().enumerate().filter(|(_, place)| place.distance <= nearest + slack) {
            // Farther by more than rounding: symmetrical places keep the order of their numbers.
            if away(place) > best_away + 1e-9 {
                (best, best_away) = (at, away(place));
            }
        }
        order.push(left.remove(best));
    }
    order.into_iter().map(|place| place.number).collect()
}

fn permutation_faults(order: &[usize], count: usize) -> Vec<OrderFault> {
    let mut faults = Vec::new();
    for (at, number) in order.iter().enumerate() {
        let earlier = order.iter().take(at).filter(|known| *known == number).count();
        if (1..=count).contains(number) {
            if earlier == 1 {
                faults.push(OrderFault::Repeated(*number));
            }
        } else if earlier == 0 {
            faults.push(OrderFault::NoSuchPosition(*number));
        }
    }
    faults.extend((1..=count).filter(|position| !order.contains(position)).map(OrderFault::Missing));
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(layout: &Layout, order: &[usize]) -> Vec<String> {
        check(layout, order).unwrap().faults.iter().map(OrderFault::to_string).collect()
    }

    #[test]
    fn circles_are_worked_crosswise() {
        for (count, order) in [
            (1, vec![1]), (2, vec![1, 2]), (3, vec![1, 2, 3]), (4, vec![1, 3, 2, 4]), (5, vec![1, 3, 5, 2, 4]), (6, vec![1, 4, 2, 5, 3, 6]),
            (8, vec![1, 5, 3, 7, 2, 6, 4, 8]), (10, vec![1, 6, 3, 8, 5, 10, 2, 7, 4, 9]),
        ] {
            assert_eq!(propose(&Layout::Circle(count)), Ok(order), "{count}");
        }
    }

    #[test]
    fn rows_go_from_the_middle_to_the_corners() {
        assert_eq!(propose(&Layout::Rows(vec![3, 3])), Ok(vec![2, 5, 1, 6, 4, 3]));
        assert_eq!(propose(&Layout::Rows(vec![2, 2])), Ok(vec![1, 4, 2, 3]));
        assert_eq!(propose(&Layout::Rows(vec![1])), Ok(vec![1]));
        let ten = propose(&Layout::Rows(vec![5, 5])).unwrap();
        assert_eq!(ten.iter().take(2).copied().collect::<Vec<_>>(), [3, 8]);
        assert_eq!(loosening(&ten).first(), ten.last());
    }

    #[test]
    fn free_positions_on_a_ring_go_crosswise() {
        let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)];
        let positions = corners.iter().map(|(x, y)| Position { x_mm: *x, y_mm: *y }).collect();
        assert_eq!(propose(&Layout::Positions(positions)), Ok(vec![1, 3, 2, 4]));
    }

    #[test]
    fn faults_of_an_order_are_named() {
        let six = Layout::Circle(6);
        assert_eq!(found(&six, &[1, 4, 2, 5, 3, 6]), Vec::<String>::new());
        assert_eq!(found(&six, &[1, 4, 2, 5, 3, 3]), ["3 appears twice", "6 is missing"]);
        let around = found(&six, &[1, 2, 3, 4, 5, 6]);
        assert_eq!((around.len(), around[0].as_str()), (5, "2 follows its neighbour 1"));
        assert_eq!(found(&six, &[1, 4, 2, 5, 3, 7]), ["there is no position 7", "6 is missing"]);
        assert_eq!(found(&six, &[1, 6, 3, 5, 2, 4])[0], "6 follows its neighbour 1");
        assert_eq!(found(&six, &[]).len(), 6);
        assert_eq!(found(&Layout::Circle(4), &[1, 2, 3, 4]), Vec::<String>::new());
        let line = Layout::Rows(vec![9]);
        assert_eq!(found(&line, &[1, 5, 4, 6, 3, 7, 2, 8, 9])[0], "from 1 to 5 the order goes back towards the centre");
        assert_eq!(found(&line, &[5, 6, 4, 7, 3, 8, 2, 9, 1]), Vec::<String>::new());
    }

    #[test]
    fn positions_lie_as_they_are_counted() {
        let circle = Layout::Circle(4).positions().unwrap();
        let around: Vec<(i64, i64)> = circle.iter().map(|at| (rounded(at.x_mm), rounded(at.y_mm))).collect();
        assert_eq!(around, [(0, 1), (1, 0), (0, -1), (-1, 0)]);
        let rows = Layout::Rows(vec![3, 2]).positions().unwrap();
        let down: Vec<(i64, i64)> = rows.iter().map(|at| (rounded(at.x_mm), rounded(at.y_mm))).collect();
        assert_eq!(down, [(0, 0), (1, 0), (2, 0), (0, -1), (2, -1)]);
        assert_eq!(Layout::Circle(0).positions(), Err(LayoutError::Empty));
    }

    #[expect(clippy::cast_possible_truncation, reason = "small whole numbers")]
    fn rounded(value: f64) -> i64 {
        value.round() as i64
    }

    #[test]
    fn layouts_that_are_none() {
        let at = |x_mm, y_mm| Position { x_mm, y_mm };
        assert_eq!(propose(&Layout::Circle(0)), Err(LayoutError::Empty));
        assert_eq!(propose(&Layout::Circle(usize::MAX)), Err(LayoutError::TooMany));
        assert_eq!(propose(&Layout::Rows(vec![])), Err(LayoutError::Empty));
        assert_eq!(propose(&Layout::Rows(vec![0, 0])), Err(LayoutError::Empty));
        assert_eq!(propose(&Layout::Rows(vec![usize::MAX, 2])), Err(LayoutError::TooMany));
        assert_eq!(propose(&Layout::Positions(vec![at(f64::NAN, 0.0)])), Err(LayoutError::NotANumber));
        assert_eq!(propose(&Layout::Positions(vec![at(1.0, 0.0), at(1.0, 0.0)])), Err(LayoutError::SamePlace { first: 1, second: 2 }));
        assert_eq!(propose(&Layout::Positions(vec![at(1e300, 0.0), at(-1e300, 0.0)])).map(|order| order.len()), Ok(2));
    }
}
