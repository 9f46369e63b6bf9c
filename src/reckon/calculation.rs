//! A calculation as data: its name, its inputs, its formula, its letters, its source, its caution, its function.

use super::figure::Figure;
use super::given::Given;
use super::refusal::Refusal;
use crate::quantity::Dimension;

/// One calculation of the trade.
#[derive(Debug)]
pub struct Calculation {
    /// Its name on the command line: a word of the trade.
    pub name: &'static str,
    /// What it is for, in one line.
    pub about: &'static str,
    /// What it takes, in the order in which it is told.
    pub inputs: &'static [Input],
    /// The formula, one line each.
    pub formula: &'static [&'static str],
    /// Letters of the formula that are no input: letter and meaning.
    pub letters: &'static [(&'static str, &'static str)],
    /// Where formula and figures come from.
    pub source: &'static str,
    /// What to be careful about, beside what stands under every result.
    pub caution: &'static str,
    /// A worked command line, without `benchleaf reckon NAME`.
    pub example: &'static [&'static str],
    /// The name of the result that can be given instead of one of the inputs marked so.
    pub turns: Option<&'static str>,
    /// Works it out.
    pub work: fn(&Given) -> Result<Vec<Figure>, Refusal>,
}

/// One value a calculation takes.
#[derive(Clone, Copy, Debug)]
pub struct Input {
    /// Its name on the command line.
    pub name: &'static str,
    /// Its letter in the formula; empty where it has none.
    pub letter: &'static str,
    /// What it is.
    pub what: &'static str,
    /// What may be written.
    pub kind: Kind,
    /// Whether it has to be given.
    pub need: Need,
    /// How a range is taken.
    pub take: Take,
    /// Something that could be written.
    pub example: &'static str,
    /// Whether it is written without its name, in order.
    pub bare: bool,
    /// Where it may be worked out from the result: from and to, in the base unit of its kind.
    pub sought: Option<(f64, f64)>,
}

/// What may be written for an input.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A quantity of one of these kinds; of any where none is named.
    Quantity(&'static [Dimension]),
    /// A number without a unit, or a percentage.
    Number,
    /// A whole number.
    Count,
    /// A ratio, as 50:1.
    Ratio,
    /// One of these words.
    Word(fn() -> Vec<&'static str>),
    /// A thread's designation.
    Thread,
    /// A property class or grade.
    Class,
    /// Two or three lengths, as 30x42x7 mm.
    Size,
    /// Words.
    Text,
}

/// Whether an input has to be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// It has.
    Must,
    /// It may be left out.
    May,
    /// It may be left out, and this is assumed and said.
    Assume(&'static str),
    /// It is the result, given so that an input is worked out.
    Result,
}

/// How a range, a tolerance or a bound is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Take {
    /// One value is wanted.
    One,
    /// A range is carried through: a value to hold lies within the limits, and what is judged is judged at both ends.
    Limits,
    /// Of a range the high end counts.
    Greatest,
    /// Of a range the low end counts.
    Least,
    /// A range is wanted; one value is both of its ends.
    Span,
    /// One value or several.
    Many,
    /// As it is written.
    Whole,
}

impl Calculation {
    /// The input of a name.
    #[must_use]
    pub fn input(&self, name: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// What can be worked out from the result.
    #[must_use]
    pub fn turnable(&self) -> Vec<&'static Input> {
        self.inputs.iter().filter(|input| input.sought.is_some()).collect()
    }

    /// The worked example as it is typed.
    #[must_use]
    pub fn example_line(&self) -> String {
        let words = self.example.iter().map(|word| if word.contains([' ', '(', '°', 'Δ']) { format!("\"{word}\"") } else { (*word).to_owned() });
        format!("benchleaf reckon {} {}", self.name, words.collect::<Vec<_>>().join(" "))
    }
}

impl Input {
    /// An input that has to be given.
    pub(super) const fn must(name: &'static str, letter: &'static str, what: &'static str, kind: Kind, example: &'static str) -> Self {
        Self { name, letter, what, kind, need: Need::Must, take: Take::One, example, bare: false, sought: None }
    }

    /// An input that may be left out.
    pub(super) const fn may(self) -> Self {
        Self { need: Need::May, ..self }
    }

    /// An input that is taken to be this where it is left out.
    pub(super) const fn assume(self, text: &'static str) -> Self {
        Self { need: Need::Assume(text), ..self }
    }

    /// The result, where an input is worked out from it.
    pub(super) const fn result(self) -> Self {
        Self { need: Need::Result, ..self }
    }

    /// How a range is taken.
    pub(super) const fn take(self, take: Take) -> Self {
        Self { take, ..self }
    }

    /// Written without its name.
    pub(super) const fn bare(self) -> Self {
        Self { bare: true, ..self }
    }

    /// May be worked out, between two values of the base unit.
    pub(super) const fn sought(self, from: f64, to: f64) -> Self {
        Self { sought: Some((from, to)), ..self }
    }

    /// Whether several may be given.
    #[must_use]
    pub fn is_many(&self) -> bool {
        self.take == Take::Many
    }
}
