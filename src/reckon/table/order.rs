//! The order in which the bolts of a joint are tightened.

use super::{Calculation, Count, Figure, Input, Refusal, Text, Worked};
use crate::reckon::given::Given;
use crate::trade::order::{self, Layout, Position};

pub(super) static TABLE: &[Calculation] = &[Calculation {
    name: "order",
    about: "the order of tightening for a circle, rows or free places; a given one checked",
    inputs: &[
        Input::must("circle", "", "bolts evenly on a circle, numbered round it", Count, "8").may(),
        Input::must("rows", "", "bolts in rows, numbered row by row", Text, "5,5").may(),
        Input::must("at", "", "places of the bolts in mm, x and y with a comma, a space between them", Text, "0,0 40,0 80,0").may(),
        Input::must("given", "", "an order to be checked", Text, "1,5,3,7,2,6,4,8").may(),
    ],
    formula: &["circle: across, then halfway between; rows and free places: from the middle outwards, sides in turn; loosening: backwards"],
    letters: &[],
    source: "circle: ASME PCC-1, legacy pattern (from memory); rows: US Army general torque notes, TM 5-3805-298-23-2",
    caution: "The maker's order goes before this one.",
    example: &["--rows", "9"],
    turns: None,
    work: tightening,
}];

fn tightening(given: &Given) -> Worked {
    let layout = layout(given)?;
    let impossible = |error: order::LayoutError| Refusal::Impossible(error.to_string());
    let proposal = order::propose(&layout).map_err(impossible)?;
    let mut figures = vec![
        Figure::words("tighten", "tighten", joined(&proposal)),
        Figure::words("loosen", "loosen", joined(&order::loosening(&proposal))),
    ];
    if let Some(text) = given.texts("given").first() {
        let numbers = numbers(text).map(|numbers| numbers.into_iter().collect::<Vec<usize>>());
        let numbers = numbers.ok_or_else(|| Refusal::Impossible(format!("‘{text}’ is no order: write the numbers with commas, as 1,5,3,7")))?;
        let faults = order::check(&layout, &numbers).map_err(impossible)?.faults;
        if faults.is_empty() {
            figures.push(Figure::words("check", "the given order", "nothing is wrong with it"));
        }
        figures.extend(faults.iter().map(|fault| Figure::words("check", "the given order", fault.to_string())));
    }
    Ok(figures)
}

fn layout(given: &Given) -> Result<Layout, Refusal> {
    let (rows, at) = (given.texts("rows").first(), given.texts("at").first());
    match (given.has("circle"), rows, at) {
        (true, None, None) => usize::try_from(given.count("circle")?).map(Layout::Circle).map_err(|_| Refusal::Impossible("too many bolts".to_owned())),
        (false, Some(rows), None) => {
            numbers(rows).map(Layout::Rows).ok_or_else(|| Refusal::Impossible(format!("‘{rows}’ is no rows: write how many are in each, as 5,5")))
        }
        (false, None, Some(at)) => {
            places(at).map(Layout::Positions).ok_or_else(|| Refusal::Impossible(format!("‘{at}’ is no places: write them in mm, as \"0,0 40,0 80,0\"")))
        }
        _ => Err(Refusal::Impossible("one of --circle, --rows and --at says where the bolts sit".to_owned())),
    }
}

fn numbers(text: &str) -> Option<Vec<usize>> {
    text.split([',', ' ']).map(str::trim).filter(|part| !part.is_empty()).map(|part| part.parse().ok()).collect()
}

fn places(text: &str) -> Option<Vec<Position>> {
    let place = |pair: &str| {
        let (x, y) = pair.split_once(',')?;
        let number = |text: &str| text.parse::<f64>().ok().filter(|number| number.is_finite());
        Some(Position { x_mm: number(x)?, y_mm: number(y)? })
    };
    text.split_whitespace().map(place).collect()
}

fn joined(order: &[usize]) -> String {
    order.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}
