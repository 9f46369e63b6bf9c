//! Working a calculation: what is missing, ranges end by end, and the formula turned round.

use super::calculation::{Calculation, Input, Kind, Need};
use super::figure::{Figure, Round, Worth};
use super::given::{Given, GivenEntry};
use super::refusal::Refusal;
use crate::quantity::Dimension;

/// A calculation with what it was given and what it came to.
#[derive(Debug)]
pub struct Answer {
    /// The calculation.
    pub calculation: &'static Calculation,
    /// What it was given, as it was understood.
    pub given: Given,
    /// What it came to.
    pub figures: Vec<Figure>,
}

/// Works a calculation from what was written for its inputs: name and text, a name several times where it takes several.
///
/// # Errors
/// A [`Refusal`] that says what is wrong and what to write.
pub fn work(calculation: &'static Calculation, written: &[(&str, &str)]) -> Result<Answer, Refusal> {
    let given = Given::read(calculation, written)?;
    let sought = sought(calculation, &given)?;
    let ranges: Vec<&GivenEntry> = given.entries().iter().filter(|entry| entry.range().is_some()).collect();
    let figures = match ranges.as_slice() {
        [] => once(calculation, &given, sought)?,
        [only] => {
            let (low, high, nominal) = only.range().unwrap_or_default();
            let at = |value: f64| once(calculation, &given.with(only.input, value), sought);
            let nominal = nominal.map(at).transpose()?;
            joined(at(low)?, at(high)?, nominal)
        }
        several => return Err(Refusal::SeveralRanges(several.iter().map(|entry| entry.input).collect())),
    };
    Ok(Answer { calculation, given, figures })
}

/// What is to be worked out from the result; `None` where the formula is worked as it stands.
fn sought(calculation: &'static Calculation, given: &Given) -> Result<Option<&'static Input>, Refusal> {
    let result = calculation.turns.and_then(|name| calculation.input(name));
    let missing: Vec<&'static Input> = calculation.inputs.iter().filter(|input| input.need == Need::Must && !given.has(input.name)).collect();
    let with_result = result.is_some_and(|result| given.has(result.name));
    match (missing.as_slice(), with_result) {
        ([], false) => Ok(None),
        ([], true) => {
            let one_of = calculation.turnable();
            Err(result.map_or_else(|| Refusal::Impossible("one value too many".to_owned()), |result| Refusal::NothingLeftOut { result, one_of }))
        }
        ([only], true) if only.sought.is_some() => Ok(Some(only)),
        _ => {
            let instead = result.filter(|_| !with_result && missing.iter().any(|input| input.sought.is_some()));
            Err(Refusal::Missing { inputs: missing, instead })
        }
    }
}

fn once(calculation: &'static Calculation, given: &Given, sought: Option<&'static Input>) -> Result<Vec<Figure>, Refusal> {
    let Some(input) = sought else { return (calculation.work)(given) };
    let result = calculation.turns.unwrap_or_default();
    let target = given.number(result)?;
    let value_at = |x: f64| {
        let figures = (calculation.work)(&given.with(input, x)).ok()?;
        figures.iter().find(|figure| figure.name == result).and_then(Figure::ends).map(|(low, _)| low - target)
    };
    let found = input.sought.and_then(|range| root(&value_at, range));
    let found = found.ok_or_else(|| Refusal::Impossible(format!("no {} gives this {result}", input.name)))?;
    let mut figures = vec![turned(input, found)];
    figures.extend((calculation.work)(&given.with(input, found))?.into_iter().filter(|figure| figure.name != result));
    Ok(figures)
}

fn turned(input: &'static Input, value: f64) -> Figure {
    match input.kind {
        Kind::Quantity(kinds) => Figure::quantity(input.name, input.letter, input.what, value, kinds.first().copied().unwrap_or(Dimension::Length)),
        Kind::Ratio => Figure::plain(input.name, input.letter, input.what, value, ": 1"),
        _ => Figure::plain(input.name, input.letter, input.what, value, ""),
    }
}

/// Where a function goes through zero between two values; the function need not be there everywhere.
fn root(value: &dyn Fn(f64) -> Option<f64>, (from, to): (f64, f64)) -> Option<f64> {
    const STEPS: u32 = 512;
    let geometric = from > 0.0;
    let at = |share: f64| if geometric { from * (to / from).powf(share) } else { from + (to - from) * share };
    let mut before: Option<(f64, f64)> = None;
    for step in 0..=STEPS {
        let share = f64::from(step) / f64::from(STEPS);
        let Some(here) = value(at(share)) else {
            before = None;
            continue;
        };
        if let Some((earlier, there)) = before
            && (there <= 0.0) != (here <= 0.0)
        {
            return halved(value, (at(earlier), at(share)), there <= 0.0);
        }
        before = Some((share, here));
    }
    // An end that is met exactly.
    [from, to].into_iter().find(|end| value(*end).is_some_and(|off| off.abs() <= 1e-12))
}

fn halved(value: &dyn Fn(f64) -> Option<f64>, (mut low, mut high): (f64, f64), rising: bool) -> Option<f64> {
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if (value(middle)? <= 0.0) == rising {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(f64::midpoint(low, high))
}

/// The figures of both ends of a range taken together: what lies within the limits.
fn joined(low: Vec<Figure>, high: Vec<Figure>, nominal: Option<Vec<Figure>>) -> Vec<Figure> {
    let mut nominal = nominal.unwrap_or_default();
    nominal.retain(|figure| figure.ends().is_some());
    let mut all = Vec::new();
    for (low, high) in low.into_iter().zip(high) {
        let middle = nominal.iter().position(|figure| figure.name == low.name).map(|at| nominal.remove(at));
        let both = match (low.ends(), high.ends()) {
            (Some(first), Some(second)) => Some((first.0.min(second.0), first.1.max(second.1))),
            _ => None,
        };
        let Some(ends) = both else {
            all.push(low);
            continue;
        };
        let mut figure = low;
        match &mut figure.worth {
            Worth::Quantity { low, high, round, .. } => {
                (*low, *high) = ends;
                *round = Round::Inward;
            }
            Worth::Plain { low, high, .. } => (*low, *high) = ends,
            Worth::Words(_) => {}
        }
        if let Some(mut middle) = middle {
            middle.what.push_str(", aimed at");
            figure.what.push_str(", limits");
            all.push(middle);
        }
        all.push(figure);
    }
    all
}
