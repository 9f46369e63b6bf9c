//! Choosing a shim.

use super::{Calculation, Figure, Input, Length, Refusal, Take, Text, Worked, of, possible};
use crate::quantity::Quantity as Value;
use crate::reckon::given::Given;
use crate::trade::formula::Formula;
use crate::trade::shim::{self, ShimOffer, ShimSeries};

pub(super) static TABLE: &[Calculation] = &[Calculation {
    name: "shim",
    about: "which shim of the box, and what its neighbours would give",
    inputs: &[
        of("reading", "reading", "what was measured", &[Length], "0.71 mm").may(),
        of("old", "old", "the shim in place at the reading", &[Length], "0.90 mm").may(),
        of("target", "target", "what is wanted", &[Length], "0.64 mm").may(),
        of("box", "", "the shims there are, from thinnest to thickest", &[Length], "0.90–1.10 mm").take(Take::Span),
        of("step", "", "from one to the next", &[Length], "0.05 mm"),
        of("accept", "", "what is accepted of the target; otherwise half a step off", &[Length], "0.62–0.66 mm").take(Take::Span).may(),
        Input::must("formula", "", "another formula, operators between spaces", Text, "old + reading - target").assume("old + reading - target"),
        Input::must("with", "", "another value in it, as name=0.05 mm; several", Text, "preload=0.05 mm").may().take(Take::Many),
    ],
    formula: &["shim = old + reading − target, or the one given"],
    letters: &[],
    source: "arithmetic; that a shim may lie half a step off is common practice",
    caution: "Measure the shim you take: what is printed on it is not what it is. Measure again when it is in.",
    example: &["--old", "0.90 mm", "--reading", "0.71 mm", "--target", "0.64 mm", "--box", "0.90–1.10 mm", "--step", "0.05 mm", "--accept", "0.62–0.66 mm"],
    turns: None,
    work: choose,
}];

fn choose(given: &Given) -> Worked {
    let text = given.texts("formula").first().cloned().unwrap_or_default();
    let formula = Formula::parse(&text).map_err(|error| {
        let at = text.get(error.span.clone()).unwrap_or_default();
        Refusal::Impossible(format!("the formula ‘{text}’ can't be read at ‘{at}’: {}", error.fault))
    })?;
    let others = others(given)?;
    let value = |name: &str| match name {
        "reading" | "old" | "target" => given.maybe(name),
        other => others.iter().find(|(known, _)| known == other).map(|(_, value)| *value),
    };
    if let Some(name) = formula.names().into_iter().find(|name| value(name).is_none()) {
        let typed = if matches!(name, "reading" | "old" | "target") { format!("--{name} \"0.64 mm\"") } else { format!("--with \"{name}=0.05 mm\"") };
        return Err(Refusal::Impossible(format!("‘{name}’ is in the formula and has no value: add {typed}")));
    }
    let span = given.span("box")?;
    let series = possible(ShimSeries::new(span.low_mm, span.high_mm, given.number("step")?), "the box has shims above nothing, a step apart")?;
    let choice = shim::choose(&formula, &value, series, given.maybe_span("accept")).map_err(|error| Refusal::Impossible(error.to_string()))?;
    let length = |name, what: &str, mm| Figure::quantity(name, "", what, mm, Length).shown_to_place(-3);
    let mut figures = vec![length("exact", "by the formula", choice.exact_mm)];
    match choice.best() {
        Some(best) => figures.push(length("take", "take", best.size_mm)),
        None => figures.push(Figure::words("take", "take", "none of this box is accepted")),
    }
    let mut offer = |name, what: &str, offer: Option<ShimOffer>| {
        let Some(offer) = offer else { return };
        let words = if offer.accepted { "accepted" } else { "not accepted" };
        figures.push(length(name, &format!("{what}, {words}"), offer.size_mm));
        figures.extend(offer.gives_mm.map(|gives| length("gives", "  it gives", gives)));
    };
    offer("below", "next below", choice.below);
    offer("above", "next above", choice.above);
    Ok(figures)
}

/// The values given by name.
fn others(given: &Given) -> Result<Vec<(String, f64)>, Refusal> {
    let read = |text: &String| {
        let (name, value) = text.split_once('=').ok_or_else(|| Refusal::Impossible(format!("‘{text}’ has no name: write it as name=0.05 mm")))?;
        let length = Value::parse(value, Length).map_err(|error| Refusal::Impossible(format!("{name}: {error}")))?;
        let number = possible(length.nominal(), &format!("‘{value}’ is not one length"))?;
        Ok((name.trim().to_owned(), number))
    };
    given.texts("with").iter().map(read).collect()
}
