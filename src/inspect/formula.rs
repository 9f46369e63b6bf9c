//! Formulas of the front matter, `bore - piston`: read once, worked out with ranges.
//!
//! Numbers, `+ - × ÷ ( )` and ids. A hyphen inside a word belongs to the id; a minus sign stands between spaces.

use crate::quantity::Exact;

/// A formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Formula {
    /// A plain number.
    Number(Exact),
    /// A value by its id.
    Id(String),
    /// Two formulas and what joins them.
    Joined(Box<Self>, Sign, Box<Self>),
}

/// What joins two formulas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sign {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `×`
    Times,
    /// `÷`
    Over,
}

/// Low and high end of a value.
pub(super) type Span = (Exact, Exact);

/// The deepest that brackets go.
const DEEPEST: usize = 32;

impl Formula {
    /// Reads a formula.
    ///
    /// # Errors
    /// What is wrong, in an author's words.
    pub(super) fn parse(text: &str) -> Result<Self, String> {
        let tokens = tokens(text)?;
        let mut reader = Reader { tokens: &tokens, at: 0, depth: 0 };
        let formula = reader.sum()?;
        match tokens.get(reader.at) {
            None => Ok(formula),
            Some(more) => Err(format!("‘{more}’ is one too many")),
        }
    }

    /// The ids it names, in order.
    pub(super) fn ids(&self) -> Vec<&str> {
        match self {
            Self::Number(_) => Vec::new(),
            Self::Id(id) => vec![id],
            Self::Joined(one, _, other) => one.ids().into_iter().chain(other.ids()).collect(),
        }
    }

    /// Its ends, worked out from the ends of its values; none where a value is not known or divides by zero.
    pub(super) fn span(&self, value: &dyn Fn(&str) -> Option<Span>) -> Option<Span> {
        match self {
            Self::Number(number) => Some((number.clone(), number.clone())),
            Self::Id(id) => value(id),
            Self::Joined(one, sign, other) => {
                let ((a, b), (c, d)) = (one.span(value)?, other.span(value)?);
                match sign {
                    Sign::Plus => Some((a + c, b + d)),
                    Sign::Minus => Some((a - d, b - c)),
                    Sign::Times => ends(&[a.clone() * c.clone(), a * d.clone(), b.clone() * c, b * d]),
                    Sign::Over if c.is_negative() != d.is_negative() || c.is_zero() || d.is_zero() => None,
                    Sign::Over => ends(&[a.over(&c)?, a.over(&d)?, b.over(&c)?, b.over(&d)?]),
                }
            }
        }
    }

    /// How many lengths are multiplied in it: 1 for a length, 0 for a plain number. None where a plain number is
    /// added to a length, which is a length without its unit.
    pub(super) fn degree(&self) -> Option<i32> {
        match self {
            Self::Number(_) => Some(0),
            Self::Id(_) => Some(1),
            Self::Joined(one, sign, other) => {
                let (one, other) = (one.degree()?, other.degree()?);
                match sign {
                    Sign::Plus | Sign::Minus => (one == other).then_some(one),
                    Sign::Times => one.checked_add(other),
                    Sign::Over => one.checked_sub(other),
                }
            }
        }
    }
}

/// A formula's text with one space between its words and signs, as `trade` reads it; none where it has strange signs.
#[must_use]
pub fn spaced(text: &str) -> Option<String> {
    tokens(text).ok().map(|tokens| tokens.join(" "))
}

fn ends(all: &[Exact; 4]) -> Option<Span> {
    let low = all.iter().min()?.clone();
    let high = all.iter().max()?.clone();
    Some((low, high))
}

/// The words, numbers and signs of a formula.
fn tokens(text: &str) -> Result<Vec<String>, String> {
    let mut all: Vec<String> = Vec::new();
    let mut word = String::new();
    let signs: Vec<char> = text.chars().collect();
    for (at, sign) in signs.iter().enumerate() {
        let inside = !word.is_empty() && signs.get(at + 1).is_some_and(char::is_ascii_alphanumeric);
        match sign {
            'a'..='z' | '0'..='9' | '.' => word.push(*sign),
            '-' if inside => word.push('-'),
            '+' | '-' | '−' | '×' | '*' | '÷' | '/' | '(' | ')' => {
                all.extend((!word.is_empty()).then(|| std::mem::take(&mut word)));
                let usual = match sign {
                    '−' => '-',
                    '*' => '×',
                    '/' => '÷',
                    other => *other,
                };
                all.push(usual.to_string());
            }
            _ if sign.is_whitespace() => all.extend((!word.is_empty()).then(|| std::mem::take(&mut word))),
            _ => return Err(format!("‘{sign}’ is neither a number, an id nor one of + - × ÷ ( )")),
        }
    }
    all.extend((!word.is_empty()).then_some(word));
    if all.is_empty() { Err("it is empty".to_owned()) } else { Ok(all) }
}

struct Reader<'t> {
    tokens: &'t [String],
    at: usize,
    depth: usize,
}

impl Reader<'_> {
    fn sum(&mut self) -> Result<Formula, String> {
        let mut formula = self.product()?;
        while let Some(sign) = self.sign(&[("+", Sign::Plus), ("-", Sign::Minus)]) {
            formula = Formula::Joined(Box::new(formula), sign, Box::new(self.product()?));
        }
        Ok(formula)
    }

    fn product(&mut self) -> Result<Formula, String> {
        let mut formula = self.value()?;
        while let Some(sign) = self.sign(&[("×", Sign::Times), ("÷", Sign::Over)]) {
            formula = Formula::Joined(Box::new(formula), sign, Box::new(self.value()?));
        }
        Ok(formula)
    }

    fn value(&mut self) -> Result<Formula, String> {
        let Some(token) = self.tokens.get(self.at) else { return Err("something is missing at its end".to_owned()) };
        self.at += 1;
        if token == "(" {
            self.depth += 1;
            if self.depth > DEEPEST {
                return Err("its brackets are too deep".to_owned());
            }
            let inner = self.sum()?;
            self.depth -= 1;
            let closed = self.tokens.get(self.at).is_some_and(|token| token == ")");
            self.at += 1;
            return if closed { Ok(inner) } else { Err("a bracket is not closed".to_owned()) };
        }
        if let Some(number) = Exact::decimal(token) {
            return Ok(Formula::Number(number));
        }
        if token.starts_with(|sign: char| sign.is_ascii_lowercase()) { Ok(Formula::Id(token.clone())) } else { Err(format!("‘{token}’ stands where a value should")) }
    }

    fn sign(&mut self, known: &[(&str, Sign)]) -> Option<Sign> {
        let token = self.tokens.get(self.at)?;
        let sign = known.iter().find(|(word, _)| word == token).map(|(_, sign)| *sign)?;
        self.at += 1;
        Some(sign)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(id: &str) -> Option<Span> {
        let (low, high) = match id {
            "bore" => ("34.000", "34.160"),
            "shaft-end" => ("33.720", "33.880"),
            _ => return None,
        };
        Some((Exact::decimal(low)?, Exact::decimal(high)?))
    }

    fn worked(text: &str) -> Option<(String, String)> {
        let (low, high) = Formula::parse(text).unwrap().span(&values)?;
        Some((low.digits(-3), high.digits(-3)))
    }

    #[test]
    fn a_published_fit_comes_out() {
        // J. E. Shigley and others, Mechanical Engineering Design, 9th edition, example 7-7: 34H11/c11 has a
        // clearance of 0.120 to 0.440 mm.
        assert_eq!(worked("bore - shaft-end"), Some(("0.120".to_owned(), "0.440".to_owned())));
        assert_eq!(worked("(bore - shaft-end) ÷ 2"), Some(("0.060".to_owned(), "0.220".to_owned())));
        assert_eq!(worked("bore - missing"), None);
        assert_eq!(worked("bore ÷ (bore - bore)"), None);
    }

    #[test]
    fn what_is_no_formula_is_refused() {
        for text in ["", "bore -", "bore shaft", "(bore", "bore)", "bore & 2", "bore + × 2", "1.2.3", "Bore"] {
            assert!(Formula::parse(text).is_err(), "{text}");
        }
        assert!(Formula::parse(&"(".repeat(10_000)).is_err());
        assert_eq!(Formula::parse("bore - 2").unwrap().degree(), None);
        assert_eq!(Formula::parse("bore - 2 × shaft-end").unwrap().degree(), Some(1));
    }
}
