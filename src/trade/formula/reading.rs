//! Reading a formula: words and signs first, then sums and products.

use super::{FormulaError, FormulaFault, Node, NodeKind, Sign};
use std::ops::Range;

const LONGEST: usize = 400;
const DEEPEST: usize = 32;

/// Units somebody may write behind a number.
const UNITS: &[&str] = &["mm", "cm", "m", "in", "thou", "µm", "um"];

#[derive(Clone, Debug, PartialEq)]
enum Token {
    Number(f64),
    Name(String),
    Sign(Sign),
    Open,
    Close,
}

struct Placed {
    token: Token,
    span: Range<usize>,
}

/// Reads a formula to the end of its text.
pub(super) fn read(text: &str) -> Result<Node, FormulaError> {
    if text.len() > LONGEST {
        return Err(fault(0..text.len(), FormulaFault::TooLong));
    }
    if text.trim().is_empty() {
        return Err(fault(0..0, FormulaFault::Empty));
    }
    let tokens = tokens(text)?;
    let mut reader = Reader { tokens: &tokens, at: 0, depth: 0 };
    let root = reader.sum()?;
    match reader.tokens.get(reader.at) {
        None => Ok(root),
        Some(left) if left.token == Token::Close => Err(fault(left.span.clone(), FormulaFault::NotOpened)),
        Some(left) => Err(fault(left.span.clone(), reader.operator_missing(left))),
    }
}

fn fault(span: Range<usize>, fault: FormulaFault) -> FormulaError {
    FormulaError { span, fault }
}

struct Reader<'a> {
    tokens: &'a [Placed],
    at: usize,
    depth: usize,
}

impl Reader<'_> {
    fn sum(&mut self) -> Result<Node, FormulaError> {
        let mut left = self.product()?;
        while let Some(sign) = self.eat_sign(&[Sign::Plus, Sign::Minus]) {
            left = operation(sign, left, self.product()?);
        }
        Ok(left)
    }

    fn product(&mut self) -> Result<Node, FormulaError> {
        let mut left = self.operand()?;
        while let Some(sign) = self.eat_sign(&[Sign::Times, Sign::Over]) {
            left = operation(sign, left, self.operand()?);
        }
        Ok(left)
    }

    fn operand(&mut self) -> Result<Node, FormulaError> {
        let Some(placed) = self.tokens.get(self.at) else {
            let last = self.tokens.last().map_or(0..0, |last| last.span.clone());
            let open = self.tokens.last().is_some_and(|last| last.token == Token::Open);
            return Err(fault(last, if open { FormulaFault::NotClosed } else { FormulaFault::OperandMissing }));
        };
        self.at += 1;
        let span = placed.span.clone();
        match &placed.token {
            Token::Number(number) => Ok(Node { span, kind: NodeKind::Number(*number) }),
            Token::Name(name) => Ok(Node { span, kind: NodeKind::Name(name.clone()) }),
            Token::Open => self.bracket(span),
            Token::Sign(_) | Token::Close => Err(fault(span, FormulaFault::OperandMissing)),
        }
    }

    fn bracket(&mut self, open: Range<usize>) -> Result<Node, FormulaError> {
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(fault(open, FormulaFault::TooDeep));
        }
        let inside = self.sum()?;
        self.depth -= 1;
        match self.tokens.get(self.at) {
            Some(placed) if placed.token == Token::Close => {
                self.at += 1;
                Ok(Node { span: open.start..placed.span.end, kind: inside.kind })
            }
            Some(placed) => Err(fault(placed.span.clone(), self.operator_missing(placed))),
            None => Err(fault(open, FormulaFault::NotClosed)),
        }
    }

    fn eat_sign(&mut self, wanted: &[Sign]) -> Option<Sign> {
        match self.tokens.get(self.at).map(|placed| &placed.token) {
            Some(Token::Sign(sign)) if wanted.contains(sign) => {
                self.at += 1;
                Some(*sign)
            }
            _ => None,
        }
    }

    /// Two operands in a row: a unit behind a number is the usual reason.
    fn operator_missing(&self, second: &Placed) -> FormulaFault {
        let before = self.at.checked_sub(1).and_then(|at| self.tokens.get(at));
        let after_number = before.is_some_and(|first| matches!(first.token, Token::Number(_)));
        match &second.token {
            Token::Name(name) if after_number && UNITS.contains(&name.as_str()) => FormulaFault::Unit,
            _ => FormulaFault::OperatorMissing,
        }
    }
}

fn operation(sign: Sign, left: Node, right: Node) -> Node {
    let span = left.span.start..right.span.end;
    Node { span, kind: NodeKind::Operation { sign, left: Box::new(left), right: Box::new(right) } }
}

fn tokens(text: &str) -> Result<Vec<Placed>, FormulaError> {
    let mut tokens: Vec<Placed> = Vec::new();
    let mut at = 0;
    while let Some(sign) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let end = at + sign.len_utf8();
        if sign.is_whitespace() {
            at = end;
            continue;
        }
        let operand_before = tokens.last().is_some_and(|last| matches!(last.token, Token::Number(_) | Token::Name(_) | Token::Close));
        let placed = match sign {
            '(' => Placed { token: Token::Open, span: at..end },
            ')' => Placed { token: Token::Close, span: at..end },
            '-' | '−' if !operand_before && begins_number(text, end) => {
                let (number, span) = word(text, end)?;
                match number {
                    Token::Number(number) => Placed { token: Token::Number(-number), span: at..span.end },
                    _ => return Err(fault(at..end, FormulaFault::SpaceMissing)),
                }
            }
            '+' | '-' | '−' | '×' | '*' | '÷' | '/' => Placed { token: Token::Sign(operator(text, at, end, sign)?), span: at..end },
            _ if sign.is_ascii_lowercase() || sign.is_ascii_digit() || sign == '.' => {
                let (token, span) = word(text, at)?;
                Placed { token, span }
            }
            _ => return Err(fault(at..end, FormulaFault::UnknownSign)),
        };
        at = placed.span.end;
        tokens.push(placed);
    }
    Ok(tokens)
}

fn begins_number(text: &str, at: usize) -> bool {
    text.get(at..).is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit() || c == '.'))
}

/// An operator, with a space (or the text's end) on either side.
fn operator(text: &str, at: usize, end: usize, sign: char) -> Result<Sign, FormulaError> {
    let open_before = text.get(..at).and_then(|before| before.chars().next_back()).is_none_or(char::is_whitespace);
    let open_after = text.get(end..).and_then(|after| after.chars().next()).is_none_or(char::is_whitespace);
    if !(open_before && open_after) {
        return Err(fault(at..end, FormulaFault::SpaceMissing));
    }
    Ok(match sign {
        '+' => Sign::Plus,
        '×' | '*' => Sign::Times,
        '÷' | '/' => Sign::Over,
        _ => Sign::Minus,
    })
}

/// A number or an id: the longest run of what both are made of.
fn word(text: &str, at: usize) -> Result<(Token, Range<usize>), FormulaError> {
    let rest = text.get(at..).unwrap_or("");
    let made_of = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || matches!(c, '.' | '-');
    let run = rest.find(|c: char| !made_of(c)).map_or(rest, |length| rest.get(..length).unwrap_or(rest));
    // A hyphen at the end belongs to no id: it is an operator without its space.
    let run = run.trim_end_matches('-');
    let span = at..at + run.len();
    let digits = |c: char| c.is_ascii_digit();
    if run.chars().all(|c| digits(c) || c == '.') {
        let number = run.parse::<f64>().ok().filter(|number| number.is_finite() && run.contains(digits));
        return number.map(|number| (Token::Number(number), span.clone())).ok_or(fault(span, FormulaFault::UnknownSign));
    }
    if run.chars().all(|c| digits(c) || matches!(c, '.' | '-')) {
        return Err(fault(span, FormulaFault::SpaceMissing));
    }
    let unit = run.trim_start_matches(|c: char| digits(c) || c == '.');
    if unit.len() < run.len() && UNITS.contains(&unit) {
        return Err(fault(span, FormulaFault::Unit));
    }
    if run.contains('.') || run.split('-').any(str::is_empty) {
        return Err(fault(span, FormulaFault::UnknownSign));
    }
    Ok((Token::Name(run.to_owned()), span))
}
