//! Working a calculation: what is missing, ranges end by end, and the formula turned round.

use super::calculation::{Calculation, Input, Kind, Need};
use super::figure::{Figure, Round, Worth, written_in};
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
            let at = |value: f64| {
                let figures = once(calculation, &given.with(only.input, value), sought)?;
                let at = only.quantity().map_or_else(String::new, |quantity| written_in(quantity.unit(), value));
                Ok(Point { at, figures })
            };
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

/// What a calculation comes to at one value of a range.
struct Point {
    /// The value, as it is written.
    at: String,
    figures: Vec<Figure>,
}

impl Point {
    /// Takes out the next figure of a name.
    fn take(&mut self, name: &str) -> Option<Figure> {
        self.figures.iter().position(|figure| figure.name == name).map(|at| self.figures.remove(at))
    }
}

/// The figures of both ends of a range taken together, and those of the value aimed at. A figure that only one end has says at which.
fn joined(low: Point, mut high: Point, nominal: Option<Point>) -> Vec<Figure> {
    let mut nominal = nominal.unwrap_or_else(|| Point { at: String::new(), figures: Vec::new() });
    let mut all = Vec::new();
    for figure in low.figures {
        let middle = nominal.take(figure.name);
        let Some(other) = high.take(figure.name) else {
            all.push(only_at(figure, &low.at));
            all.extend(middle.map(|middle| only_at(middle, &nominal.at)));
            continue;
        };
        match (figure.ends(), other.ends()) {
            (Some(_), Some(_)) => all.extend(both_ends(figure, &other, middle)),
            (None, None) => {
                let said = [Some((&low.at, &figure)), middle.as_ref().map(|middle| (&nominal.at, middle)), Some((&high.at, &other))];
                let words = words_at(said.into_iter().flatten());
                all.push(Figure { worth: Worth::Words(words), ..figure });
            }
            _ => all.extend([only_at(figure, &low.at), only_at(other, &high.at)]),
        }
    }
    all.extend(nominal.figures.into_iter().map(|figure| only_at(figure, &nominal.at)));
    all.extend(high.figures.into_iter().map(|figure| only_at(figure, &high.at)));
    all
}

fn only_at(mut figure: Figure, at: &str) -> Figure {
    figure.what.push_str(", at ");
    figure.what.push_str(at);
    figure
}

/// A number from its least to its greatest: within the limits that were given, but a spread is not narrowed. Before it the value aimed at.
fn both_ends(mut figure: Figure, other: &Figure, middle: Option<Figure>) -> Vec<Figure> {
    let (Some(first), Some(second)) = (figure.ends(), other.ends()) else { return vec![figure] };
    let ends = (first.0.min(second.0), first.1.max(second.1));
    let is_spread = first.0 < first.1 || second.0 < second.1;
    match &mut figure.worth {
        Worth::Quantity { low, high, round, .. } => {
            (*low, *high) = ends;
            *round = if *round == Round::Outward || is_spread { Round::Outward } else { Round::Inward };
        }
        Worth::Plain { low, high, .. } => (*low, *high) = ends,
        Worth::Words(_) => {}
    }
    let Some(mut middle) = middle else { return vec![figure] };
    middle.what.push_str(", aimed at");
    figure.what.push_str(", limits");
    vec![middle, figure]
}

/// Words once where they are the same all over, otherwise each with the values they are said of.
fn words_at<'f>(said: impl Iterator<Item = (&'f String, &'f Figure)>) -> String {
    let mut groups: Vec<(Vec<&str>, &str)> = Vec::new();
    for (at, figure) in said {
        let Worth::Words(words) = &figure.worth else { continue };
        match groups.last_mut() {
            Some((values, same)) if same == words => values.push(at),
            _ => groups.push((vec![at], words)),
        }
    }
    match groups.as_slice() {
        [(_, only)] => (*only).to_owned(),
        several => several.iter().map(|(values, words)| format!("{}: {words}", values.join(" and "))).collect::<Vec<_>>().join("; "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(at: &str, figures: Vec<Figure>) -> Point {
        Point { at: at.to_owned(), figures }
    }

    /// What is told: name, what it is, ends or words.
    fn told(figures: &[Figure]) -> Vec<String> {
        let worth = |figure: &Figure| match (&figure.worth, figure.ends()) {
            (Worth::Words(words), _) => words.clone(),
            (_, Some((low, high))) => format!("{low} to {high}"),
            (_, None) => String::new(),
        };
        figures.iter().map(|figure| format!("{} | {} | {}", figure.name, figure.what, worth(figure))).collect()
    }

    #[test]
    fn figures_are_paired_by_their_names() {
        let length = |name, value| Figure::quantity(name, "", "a length", value, Dimension::Length);
        let low = point("1 mm", vec![Figure::words("look", "look", "careful"), length("one", 1.0), Figure::words("stands", "stands", "free")]);
        let high = point("2 mm", vec![length("one", 3.0), Figure::words("stands", "stands", "tight"), length("two", 4.0)]);
        let wanted = ["look | look, at 1 mm | careful", "one | a length | 1 to 3", "stands | stands | 1 mm: free; 2 mm: tight", "two | a length, at 2 mm | 4 to 4"];
        assert_eq!(told(&joined(low, high, None)), wanted);
    }

    #[test]
    fn a_value_aimed_at_is_told_beside_its_limits() {
        let at = |at, value, words: &str| point(at, vec![Figure::plain("share", "", "share", value, "%"), Figure::words("stands", "stands", words)]);
        let all = joined(at("20 K", 20.0, "low"), at("60 K", 60.0, "high"), Some(at("40 K", 40.0, "low")));
        assert_eq!(told(&all), ["share | share, aimed at | 40 to 40", "share | share, limits | 20 to 60", "stands | stands | 20 K and 40 K: low; 60 K: high"]);
    }
}
