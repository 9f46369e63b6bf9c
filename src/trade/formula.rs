//! Formulas of measures and shims: `old + reading - target`, `(bore - piston) / 2`.
//!
//! # The grammar of a formula
//! ```text
//! formula  = sum                                    at most 400 bytes
//! sum      = product { ( "+" | "-" ) product }
//! product  = operand { ( "×" | "÷" ) operand }      also * and /
//! operand  = number | id | "(" sum ")"              brackets at most 32 deep
//! number   = [ "-" ] digits [ "." digits ]          also "." digits; no unit, no exponent
//! id       = lower-case words and numbers joined by hyphens
//! ```
//! Operators have a space on either side: an id has hyphens in it. Values have no unit here; the caller keeps all of
//! them in one (mm as a rule), and asks [`Formula::power`] whether a bare number stands where a length should.

use super::guard::finite;
use std::fmt;
use std::ops::Range;

mod reading;

/// A formula that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula {
    root: Node,
}

/// A text that is no formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaError {
    /// The bytes of the text that are at fault.
    pub span: Range<usize>,
    /// What is wrong there.
    pub fault: FormulaFault,
}

/// What is wrong with a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FormulaFault {
    /// Nothing there.
    Empty,
    /// Longer than 400 bytes.
    TooLong,
    /// Brackets more than 32 deep.
    TooDeep,
    /// An operator without a space on either side.
    SpaceMissing,
    /// No number, id or bracket where one should stand.
    OperandMissing,
    /// Two operands without an operator between.
    OperatorMissing,
    /// A bracket that is not closed.
    NotClosed,
    /// A bracket that was not opened.
    NotOpened,
    /// A number with a unit.
    Unit,
    /// A sign that has no meaning here.
    UnknownSign,
}

/// Why a formula has no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReckonError {
    /// An id without a value.
    NoValue(String),
    /// A division by nothing.
    DividedByZero,
    /// A value or result that is no number, or beyond all numbers.
    NotANumber,
    /// The unknown is not in the formula.
    UnknownAbsent(String),
    /// The unknown is multiplied with itself, divided by, or has no weight: there is no one answer.
    NotSolvable(String),
    /// A number without a unit is added to a length.
    BareNumber(Range<usize>),
}

impl Formula {
    /// Reads a formula.
    ///
    /// # Errors
    /// A [`FormulaError`] with its place.
    pub fn parse(text: &str) -> Result<Self, FormulaError> {
        reading::read(text).map(|root| Self { root })
    }

    /// The ids in it, each once, in the order in which they come.
    #[must_use]
    pub fn names(&self) -> Vec<&str> {
        let mut names = Vec::new();
        self.root.collect(&mut names);
        names
    }

    /// Its value, where every id has one.
    ///
    /// # Errors
    /// A [`ReckonError`].
    pub fn evaluate(&self, value: &dyn Fn(&str) -> Option<f64>) -> Result<f64, ReckonError> {
        self.root.line(None, value).map(|line| line.constant)
    }

    /// What an id must be so that the formula comes to a result.
    ///
    /// # Errors
    /// A [`ReckonError`], also where there is not exactly one answer.
    pub fn solve_for(&self, unknown: &str, result: f64, value: &dyn Fn(&str) -> Option<f64>) -> Result<f64, ReckonError> {
        if !self.names().contains(&unknown) {
            return Err(ReckonError::UnknownAbsent(unknown.to_owned()));
        }
        let line = self.root.line(Some(unknown), value)?;
        if line.slope.abs() < f64::MIN_POSITIVE {
            return Err(ReckonError::NotSolvable(unknown.to_owned()));
        }
        finite((result - line.constant) / line.slope).ok_or(ReckonError::NotANumber)
    }

    /// The power of a length the formula comes to where every id is a length: 1 for a length, 2 for an area, 0 for a
    /// number.
    ///
    /// # Errors
    /// [`ReckonError::BareNumber`] where a number, or a length of another power, is added to or taken from a length.
    pub fn power(&self) -> Result<i32, ReckonError> {
        self.root.power()
    }
}

/// A part of a formula with its place in the text.
#[derive(Clone, Debug, PartialEq)]
struct Node {
    span: Range<usize>,
    kind: NodeKind,
}

#[derive(Clone, Debug, PartialEq)]
enum NodeKind {
    Number(f64),
    Name(String),
    Operation { sign: Sign, left: Box<Node>, right: Box<Node> },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sign {
    Plus,
    Minus,
    Times,
    Over,
}

/// A value as it depends on the unknown: constant + slope · unknown.
#[derive(Clone, Copy)]
struct Line {
    constant: f64,
    slope: f64,
}

impl Node {
    fn collect<'a>(&'a self, names: &mut Vec<&'a str>) {
        match &self.kind {
            NodeKind::Number(_) => {}
            NodeKind::Name(name) if names.contains(&name.as_str()) => {}
            NodeKind::Name(name) => names.push(name),
            NodeKind::Operation { left, right, .. } => {
                left.collect(names);
                right.collect(names);
            }
        }
    }

    fn line(&self, unknown: Option<&str>, value: &dyn Fn(&str) -> Option<f64>) -> Result<Line, ReckonError> {
        let line = match &self.kind {
            NodeKind::Number(number) => Line { constant: *number, slope: 0.0 },
            NodeKind::Name(name) if Some(name.as_str()) == unknown => Line { constant: 0.0, slope: 1.0 },
            NodeKind::Name(name) => {
                Line { constant: value(name).ok_or_else(|| ReckonError::NoValue(name.clone()))?, slope: 0.0 }
            }
            NodeKind::Operation { sign, left, right } => {
                combine(*sign, left.line(unknown, value)?, right.line(unknown, value)?, unknown)?
            }
        };
        if line.constant.is_finite() && line.slope.is_finite() { Ok(line) } else { Err(ReckonError::NotANumber) }
    }

    fn power(&self) -> Result<i32, ReckonError> {
        match &self.kind {
            NodeKind::Number(_) => Ok(0),
            NodeKind::Name(_) => Ok(1),
            NodeKind::Operation { sign, left, right } => {
                let (first, second) = (left.power()?, right.power()?);
                match sign {
                    Sign::Times => Ok(first.saturating_add(second)),
                    Sign::Over => Ok(first.saturating_sub(second)),
                    Sign::Plus | Sign::Minus if first == second => Ok(first),
                    Sign::Plus | Sign::Minus => {
                        let odd = if first < second { left } else { right };
                        Err(ReckonError::BareNumber(odd.span.clone()))
                    }
                }
            }
        }
    }
}

fn combine(sign: Sign, left: Line, right: Line, unknown: Option<&str>) -> Result<Line, ReckonError> {
    let has_unknown = |line: Line| line.slope.abs() > 0.0;
    let not_solvable = || Err(ReckonError::NotSolvable(unknown.unwrap_or_default().to_owned()));
    match sign {
        Sign::Plus => Ok(Line { constant: left.constant + right.constant, slope: left.slope + right.slope }),
        Sign::Minus => Ok(Line { constant: left.constant - right.constant, slope: left.slope - right.slope }),
        Sign::Times if has_unknown(left) && has_unknown(right) => not_solvable(),
        Sign::Times => Ok(Line {
            constant: left.constant * right.constant,
            slope: left.slope * right.constant + left.constant * right.slope,
        }),
        Sign::Over if has_unknown(right) => not_solvable(),
        Sign::Over if right.constant.abs() < f64::MIN_POSITIVE => Err(ReckonError::DividedByZero),
        Sign::Over => Ok(Line { constant: left.constant / right.constant, slope: left.slope / right.constant }),
    }
}

impl fmt::Display for FormulaFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "there is no formula",
            Self::TooLong => "the formula is longer than 400 bytes",
            Self::TooDeep => "the brackets are more than 32 deep",
            Self::SpaceMissing => "an operator needs a space on either side",
            Self::OperandMissing => "a number, an id or a bracket is missing here",
            Self::OperatorMissing => "+, -, × or ÷ is missing before this",
            Self::NotClosed => "this bracket is not closed",
            Self::NotOpened => "this bracket was not opened",
            Self::Unit => "a number in a formula has no unit: name the length and give it a value",
            Self::UnknownSign => "this sign has no meaning in a formula",
        })
    }
}

impl fmt::Display for ReckonError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoValue(name) => write!(f, "‘{name}’ has no value"),
            Self::DividedByZero => f.write_str("the formula divides by zero"),
            Self::NotANumber => f.write_str("the formula comes to no number"),
            Self::UnknownAbsent(name) => write!(f, "‘{name}’ is not in the formula"),
            Self::NotSolvable(name) => write!(f, "the formula has no one answer for ‘{name}’"),
            Self::BareNumber(_) => f.write_str("a number without a unit is added to a length"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bench(name: &str) -> Option<f64> {
        [("old", 0.90), ("reading", 0.71), ("target", 0.64), ("bore", 58.0), ("piston-skirt", 57.96), ("2nd-gap", 0.25)]
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, value)| *value)
    }

    fn value(text: &str) -> f64 {
        Formula::parse(text).unwrap_or_else(|error| panic!("{text}: {error:?}")).evaluate(&bench).unwrap()
    }

    fn fault(text: &str) -> (FormulaFault, &str) {
        let error = Formula::parse(text).expect_err(text);
        (error.fault, &text[error.span])
    }

    #[test]
    fn formulas_are_reckoned_in_the_usual_order() {
        for (text, expected) in [
            ("old + reading - target", 0.97), ("bore - piston-skirt", 0.04), ("(bore - piston-skirt) / 2", 0.02), ("1 + 2 × 3", 7.0),
            ("8 - 3 - 2", 3.0), ("8 ÷ 4 / 2", 1.0), ("2 * (1 + .5)", 3.0), ("1 - -0.5", 1.5), ("1 − 0.5", 0.5), ("((old))", 0.90),
            ("2nd-gap × 4", 1.0), ("  old  ", 0.90), ("−2 + 5", 3.0),
        ] {
            assert!((value(text) - expected).abs() < 1e-12, "{text}: {}", value(text));
        }
    }

    #[test]
    fn names_come_once_and_in_order() {
        assert_eq!(Formula::parse("old + reading - target + old").unwrap().names(), ["old", "reading", "target"]);
    }

    #[test]
    fn faults_have_their_place() {
        for (text, expected, at) in [
            ("", FormulaFault::Empty, ""), ("   ", FormulaFault::Empty, ""), ("old +", FormulaFault::OperandMissing, "+"),
            ("+ old", FormulaFault::OperandMissing, "+"), ("old + + target", FormulaFault::OperandMissing, "+"),
            ("old reading", FormulaFault::OperatorMissing, "reading"), ("old (reading)", FormulaFault::OperatorMissing, "("),
            ("old+reading", FormulaFault::SpaceMissing, "+"), ("old -reading", FormulaFault::SpaceMissing, "-"),
            ("old - 5-3", FormulaFault::SpaceMissing, "5-3"), ("2×old", FormulaFault::SpaceMissing, "×"),
            ("(old", FormulaFault::NotClosed, "("), ("old)", FormulaFault::NotOpened, ")"), ("()", FormulaFault::OperandMissing, ")"),
            ("old - 0.05 mm", FormulaFault::Unit, "mm"), ("old - 0.05mm", FormulaFault::Unit, "0.05mm"), ("old - 5mm", FormulaFault::Unit, "5mm"),
            ("old ^ 2", FormulaFault::UnknownSign, "^"), ("Old", FormulaFault::UnknownSign, "O"), ("0,05 + old", FormulaFault::UnknownSign, ","),
            ("old – target", FormulaFault::UnknownSign, "–"), ("1.2.3", FormulaFault::UnknownSign, "1.2.3"), ("old-", FormulaFault::SpaceMissing, "-"),
        ] {
            assert_eq!(fault(text), (expected, at), "{text}");
        }
        assert_eq!(fault(&"(".repeat(33)).0, FormulaFault::TooDeep);
        assert_eq!(fault(&"1 + ".repeat(120)).0, FormulaFault::TooLong);
    }

    #[test]
    fn formulas_without_a_value_say_why() {
        let reckoned = |text: &str| Formula::parse(text).unwrap().evaluate(&bench);
        assert_eq!(reckoned("old - gap"), Err(ReckonError::NoValue("gap".to_owned())));
        assert_eq!(reckoned("old / (bore - bore)"), Err(ReckonError::DividedByZero));
        let huge = "9".repeat(300);
        assert_eq!(reckoned(&format!("{huge} × {}", "9".repeat(90))), Err(ReckonError::NotANumber));
        assert_eq!(Formula::parse("old").unwrap().evaluate(&|_| Some(f64::NAN)), Err(ReckonError::NotANumber));
    }

    #[test]
    fn a_formula_is_solved_for_one_of_its_ids() {
        let solved = |text: &str, unknown: &str, result: f64| Formula::parse(text).unwrap().solve_for(unknown, result, &bench);
        assert!((solved("old + reading - target", "target", 0.95).unwrap() - 0.66).abs() < 1e-12);
        assert!((solved("old + (reading - target) × 2", "target", 0.90).unwrap() - 0.71).abs() < 1e-12);
        assert_eq!(solved("old + reading", "target", 0.95), Err(ReckonError::UnknownAbsent("target".to_owned())));
        for text in ["target × target", "old / target", "target - target"] {
            assert_eq!(solved(text, "target", 0.95), Err(ReckonError::NotSolvable("target".to_owned())), "{text}");
        }
    }

    #[test]
    fn bare_lengths_are_found() {
        let power = |text: &str| Formula::parse(text).unwrap().power();
        assert_eq!(power("(bore - piston-skirt) / 2"), Ok(1));
        assert_eq!(power("bore × piston-skirt"), Ok(2));
        assert_eq!(power("bore / piston-skirt"), Ok(0));
        assert_eq!(power("bore - 0.05"), Err(ReckonError::BareNumber(7..11)));
        assert_eq!(power("2 + bore"), Err(ReckonError::BareNumber(0..1)));
    }
}
