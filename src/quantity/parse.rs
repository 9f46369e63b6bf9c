//! Reading a quantity: bound, numbers, unit, second unit. The grammar stands in the module's description.

use super::cursor::Cursor;
use super::dimension::Dimension;
use super::dual;
use super::exact::Exact;
use super::fault::{Fault, QuantityError, Unreadable};
use super::number::{self, Number, shorten};
use super::resolve;
use super::spelling::{self, Meaning};
use super::table;
use super::unit::Unit;
use super::value::{Form, Quantity, Second};
use std::ops::Range;

type Read<T> = Result<T, QuantityError>;

/// A value as it stands in the text, its unit not yet judged.
pub(super) struct RawValue {
    pub(super) form: Form,
    pub(super) numbers: Range<usize>,
    pub(super) unit: RawUnit,
}

/// What stands where the unit belongs.
#[derive(Clone, Debug)]
pub(super) struct RawUnit {
    pub(super) sort: UnitSort,
    pub(super) span: Range<usize>,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum UnitSort {
    Missing,
    Colon,
    Known(Meaning),
    Unknown,
}

/// Reads a whole text as a quantity of one of the wanted kinds (any, when none is named).
pub(super) fn quantity(text: &str, wanted: &[Dimension]) -> Read<Quantity> {
    let mut cursor = Cursor::new(text);
    let start = cursor.at();
    if cursor.rest().is_empty() {
        return Err(QuantityError::new(start..start, Fault::Empty { wanted: wanted.to_vec() }));
    }
    let value = read_value(&mut cursor, wanted)?;
    let inner = read_bracket(&mut cursor, &value, wanted)?;
    if matches!(value.unit.sort, UnitSort::Missing) && cursor.rest().trim_start().starts_with('(') {
        // `24 (17.7 lbf·ft)`: the missing unit is the first thing to put right.
        resolve::unit(&cursor, &value, wanted)?;
    }
    refuse_rest(&mut cursor, start)?;
    let unit = resolve::unit(&cursor, &value, wanted)?;
    check(&cursor, &value, unit)?;
    let second = inner.map(|inner| read_second(&cursor, &value, unit, &inner)).transpose()?;
    let written = cursor.between(start..cursor.end());
    let lower_case = cursor.between(value.unit.span.clone()) == "nm";
    Ok(Quantity { written: written.to_owned(), form: value.form, unit, second, lower_case })
}

#[derive(Clone, Copy, PartialEq)]
enum Bound {
    Least,
    Most,
}

enum Joint {
    Range,
    Tolerance,
}

fn read_value(cursor: &mut Cursor<'_>, wanted: &[Dimension]) -> Read<RawValue> {
    let start = cursor.at();
    let bound = read_bound(cursor)?;
    cursor.skip_spaces();
    if !number::begins(cursor) {
        let seen = shorten(cursor.between(start..cursor.end()));
        return Err(QuantityError::new(start..cursor.end(), Fault::NumberMissing { seen, wanted: wanted.to_vec() }));
    }
    let first = number::read(cursor)?;
    let first_end = cursor.at();
    if let Some(value) = read_ratio(cursor, start, bound, &first, wanted)? {
        return Ok(value);
    }
    refuse_size(cursor, start)?;
    let mut joint = read_joint(cursor);
    let mut unit = RawUnit { sort: UnitSort::Missing, span: first_end..first_end };
    if joint.is_none() {
        unit = read_unit(cursor);
        joint = read_joint(cursor);
    }
    let Some(joint) = joint else {
        return Ok(RawValue { form: bounded(bound, first), numbers: start..first_end, unit });
    };
    let second = number::read(cursor)?;
    let numbers_end = cursor.at();
    let second_unit = read_unit(cursor);
    if bound.is_some() {
        return Err(unreadable(cursor, start..cursor.at(), Unreadable::BoundWithRange));
    }
    let form = match joint {
        Joint::Range => Form::Range { low: first, high: second },
        Joint::Tolerance => Form::Tolerance { nominal: first, off_by: second },
    };
    let unit = resolve::common_unit(cursor, &form, unit, second_unit)?;
    // With the unit inside (`70 N·m–80 N·m`) the numbers alone are not one piece; the span is then the whole value.
    Ok(RawValue { form, numbers: start..numbers_end, unit })
}

fn bounded(bound: Option<Bound>, number: Number) -> Form {
    match bound {
        None => Form::Single(number),
        Some(Bound::Least) => Form::AtLeast(number),
        Some(Bound::Most) => Form::AtMost(number),
    }
}

fn read_bound(cursor: &mut Cursor<'_>) -> Read<Option<Bound>> {
    const WORDS: &[(&str, Bound)] = &[
        ("≥", Bound::Least),
        (">=", Bound::Least),
        ("=>", Bound::Least),
        ("⩾", Bound::Least),
        ("≤", Bound::Most),
        ("<=", Bound::Most),
        ("=<", Bound::Most),
        ("⩽", Bound::Most),
        ("minimum", Bound::Least),
        ("min.", Bound::Least),
        ("min", Bound::Least),
        ("at least", Bound::Least),
        ("maximum", Bound::Most),
        ("max.", Bound::Most),
        ("max", Bound::Most),
        ("at most", Bound::Most),
    ];
    const VAGUE: &[&str] = &["~", "≈", "about ", "approx.", "approx ", "approximately ", "ca.", "ca ", "circa ", "around ", "roughly "];
    let start = cursor.at();
    for (word, bound) in WORDS {
        let signs = !word.ends_with(|sign: char| sign.is_ascii_alphabetic());
        let mut ahead = cursor.clone();
        if ahead.eat(word) && (signs || !ahead.peek().is_some_and(char::is_alphabetic)) {
            *cursor = ahead;
            return Ok(Some(*bound));
        }
    }
    if cursor.peek().is_some_and(|sign| matches!(sign, '<' | '>')) {
        return Err(unreadable(cursor, start..start + 1, Unreadable::StrictSign));
    }
    if let Some(word) = VAGUE.iter().find(|word| cursor.rest().starts_with(*word)) {
        return Err(unreadable(cursor, start..start + word.trim_end().len(), Unreadable::Approximate));
    }
    Ok(None)
}

/// `50:1`, where a ratio may stand. Elsewhere a colon after a number is refused.
fn read_ratio(cursor: &mut Cursor<'_>, start: usize, bound: Option<Bound>, upper: &Number, wanted: &[Dimension]) -> Read<Option<RawValue>> {
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    if !ahead.eat(":") {
        return Ok(None);
    }
    ahead.skip_spaces();
    let possible = wanted.is_empty() || wanted.contains(&Dimension::Ratio);
    if !possible || !number::begins(&ahead) {
        return Err(unreadable(cursor, start..cursor.end(), Unreadable::Colon));
    }
    let lower = number::read(&mut ahead)?;
    let positive = !upper.value().is_negative() && *lower.value() > Exact::zero();
    let Some(ratio) = Number::ratio(upper, &lower).filter(|_| positive) else {
        return Err(unreadable(cursor, start..ahead.at(), Unreadable::BelowZero));
    };
    *cursor = ahead;
    let end = cursor.at();
    let unit = RawUnit { sort: UnitSort::Colon, span: end..end };
    Ok(Some(RawValue { form: bounded(bound, ratio), numbers: start..end, unit }))
}

fn refuse_size(cursor: &Cursor<'_>, start: usize) -> Read<()> {
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    ahead.eat_any(super::size::CROSSES);
    ahead.skip_spaces();
    if ahead.at() > cursor.at() && number::begins(&ahead) && cursor.rest().trim_start().starts_with(super::size::CROSSES) {
        return Err(unreadable(cursor, start..cursor.end(), Unreadable::Size));
    }
    Ok(())
}

/// A dash, `to` or `±` with a number after it.
fn read_joint(cursor: &mut Cursor<'_>) -> Option<Joint> {
    const TOLERANCE: &[&str] = &["±", "+/-", "+/−", "+-", "+−"];
    const RANGE: &[&str] = &["–", "—", "‒", "‑", "‐", "−", "-", "...", "…"];
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    let joint = if TOLERANCE.iter().any(|sign| ahead.eat(sign)) {
        Joint::Tolerance
    } else if RANGE.iter().any(|sign| ahead.eat(sign)) || ahead.eat("to ") {
        Joint::Range
    } else {
        return None;
    };
    ahead.skip_spaces();
    if !number::begins(&ahead) {
        return None;
    }
    *cursor = ahead;
    Some(joint)
}

fn read_unit(cursor: &mut Cursor<'_>) -> RawUnit {
    let before = cursor.at();
    cursor.skip_spaces();
    let start = cursor.at();
    let (sort, length) = match spelling::leading(cursor.rest()) {
        Some((length, meaning)) => (UnitSort::Known(meaning), length),
        None => (UnitSort::Unknown, unknown_length(cursor)),
    };
    if length == 0 {
        cursor.go_to(before);
        return RawUnit { sort: UnitSort::Missing, span: before..before };
    }
    cursor.skip(length);
    RawUnit { sort, span: start..cursor.at() }
}

/// How far a text goes that is not a known unit: to a bracket, a joint, or the end.
fn unknown_length(cursor: &Cursor<'_>) -> usize {
    /// Beyond this it is no unit, whatever follows; each further sign would cost a look ahead.
    const LOOKED_AT: usize = 80;
    let mut ahead = cursor.clone();
    if one_sided(&ahead) {
        return 0;
    }
    for looked_at in 0.. {
        let Some(sign) = ahead.peek() else { break };
        if looked_at == LOOKED_AT {
            ahead.go_to(ahead.end());
        }
        if matches!(sign, '(' | ')' | '[' | '=') || read_joint(&mut ahead.clone()).is_some() {
            break;
        }
        ahead.skip(sign.len_utf8());
    }
    let text = cursor.between(cursor.at()..ahead.at()).trim_end();
    let (first, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    // `5 mm max`, where the unit is unknown: the bound is not part of it.
    if is_bound_word(rest.trim()) { first.len() } else { text.len() }
}

/// `+2/-1`: a tolerance of its own for each side.
fn one_sided(cursor: &Cursor<'_>) -> bool {
    let mut ahead = cursor.clone();
    ahead.eat("+") && number::begins(&ahead)
}

fn is_bound_word(text: &str) -> bool {
    matches!(text, "min" | "max" | "min." | "max." | "minimum" | "maximum")
}

/// A bracket after the value: its second unit.
fn read_bracket(cursor: &mut Cursor<'_>, outer: &RawValue, wanted: &[Dimension]) -> Read<Option<RawValue>> {
    let mut ahead = cursor.clone();
    ahead.skip_spaces();
    let start = ahead.at();
    if !ahead.eat("(") {
        return Ok(None);
    }
    ahead.skip_spaces();
    if !matches!(outer.unit.sort, UnitSort::Known(_)) || !(number::begins(&ahead) || read_bound(&mut ahead.clone())?.is_some()) {
        return Ok(None);
    }
    let inner = read_value(&mut ahead, wanted)?;
    ahead.skip_spaces();
    if !ahead.eat(")") {
        return Err(unreadable(cursor, start..cursor.end(), Unreadable::OpenBracket));
    }
    *cursor = ahead;
    Ok(Some(inner))
}

fn read_second(cursor: &Cursor<'_>, outer: &RawValue, unit: &'static Unit, inner: &RawValue) -> Read<Second> {
    let second_unit = resolve::unit(cursor, inner, &[unit.dimension()])?;
    check(cursor, inner, second_unit)?;
    let agreement = dual::compare((&outer.form, unit), (&inner.form, second_unit));
    if !agreement.agrees {
        let span = outer.numbers.start..inner.unit.span.end;
        return Err(QuantityError::new(span, dual::mismatch((&outer.form, unit), (&inner.form, second_unit))));
    }
    Ok(Second { form: inner.form.clone(), unit: second_unit, to_the_digit: agreement.to_the_digit })
}

/// Whatever is left over after the value.
fn refuse_rest(cursor: &mut Cursor<'_>, start: usize) -> Read<()> {
    cursor.skip_spaces();
    let rest = cursor.rest();
    if rest.is_empty() {
        return Ok(());
    }
    let span = cursor.at()..cursor.end();
    let seen = shorten(rest);
    let body = cursor.between(start..cursor.at()).trim_end();
    let (reason, readings) = if one_sided(cursor) || (rest.starts_with('/') && body.contains('+')) {
        (Unreadable::TwoTolerances, Vec::new())
    } else if is_bound_word(rest) {
        let word = rest.get(..3).unwrap_or("max");
        (Unreadable::BoundBehind, vec![format!("{word} {}", shorten(body))])
    } else if let Some(other) = rest.strip_prefix(['/', '=', '[']) {
        (Unreadable::TwoUnitsLoose, vec![format!("{} ({})", shorten(body), shorten(other.trim_matches([' ', ']'])))])
    } else if let Some(stages) = stages(body, rest) {
        (Unreadable::Stages, vec![stages])
    } else {
        (Unreadable::Trailing, Vec::new())
    };
    Err(QuantityError::new(span, Fault::Unreadable { seen, reason, readings }))
}

/// The longest text behind a value that is looked at for stages, in bytes.
const MOST_STAGES: usize = 60;

/// `18 Nm` with `+ 90 deg` behind it: the stages of a tightening, written as a list.
fn stages(body: &str, rest: &str) -> Option<String> {
    if rest.len() > MOST_STAGES {
        return None;
    }
    let words = rest.replace(" then ", " + ").replace(" and ", " + ").replace([',', ';'], "+");
    let words = words.strip_prefix("then ").or_else(|| words.strip_prefix("and ")).unwrap_or(&words);
    let first = quantity(body, &[Dimension::Torque]).ok()?;
    let mut all = vec![first.form().with_unit(first.unit())];
    for part in words.split('+').map(str::trim).filter(|part| !part.is_empty()) {
        // Nothing stands behind a stage: what does is not looked at for stages of its own, which would double with each.
        let alone = |kind| read_value(&mut Cursor::new(part), &[kind]).is_ok_and(|value| value.unit.span.end == part.len());
        let kind = [Dimension::Angle, Dimension::Torque].into_iter().find(|kind| alone(*kind))?;
        let stage = quantity(part, &[kind]).ok()?;
        all.push(stage.form().with_unit(stage.unit()));
    }
    (all.len() > 1).then(|| format!("[{}]", all.join(", ")))
}

/// Whether the numbers make sense in their unit.
fn check(cursor: &Cursor<'_>, value: &RawValue, unit: &Unit) -> Read<()> {
    let span = value.numbers.clone();
    let (low, high) = value.form.ends();
    match &value.form {
        Form::Range { low, high } if low.value() >= high.value() => {
            let swapped = Form::Range { low: high.clone(), high: low.clone() };
            let equal = low.value() == high.value();
            let mut readings = if equal { Vec::new() } else { vec![swapped.with_unit(unit)] };
            // `1-1/4 in` is also written for one and a quarter.
            readings.extend(low.with_fraction(high).map(|mixed| Form::Single(mixed).with_unit(unit)));
            let fault = Fault::RangeReversed { low: low.to_string(), high: high.to_string(), equal, readings };
            return Err(QuantityError::new(span, fault));
        }
        Form::Tolerance { off_by, .. } if *off_by.value() <= Exact::zero() => {
            return Err(unreadable(cursor, span, Unreadable::EmptyTolerance));
        }
        _ => {}
    }
    let lowest = low.or(high).unwrap_or_else(Exact::zero);
    if lowest.is_negative() && !unit.dimension().may_be_negative() {
        return Err(unreadable(cursor, span, Unreadable::BelowZero));
    }
    if unit.has_scale() && unit.to_base(&lowest) < absolute_zero() {
        return Err(unreadable(cursor, span, Unreadable::BelowAbsoluteZero));
    }
    if unit.dimension() == Dimension::Count && !is_whole(&value.form) {
        return Err(unreadable(cursor, span, Unreadable::NotWhole));
    }
    Ok(())
}

fn is_whole(form: &Form) -> bool {
    form.place() >= 0 && [form.ends().0, form.ends().1].into_iter().flatten().all(|end| end.is_whole())
}

/// 0 K in °C (SI brochure, 9th ed.).
fn absolute_zero() -> Exact {
    Exact::fraction(-27_315, 100).unwrap_or_else(Exact::zero)
}

pub(super) fn unreadable(cursor: &Cursor<'_>, span: Range<usize>, reason: Unreadable) -> QuantityError {
    let seen = shorten(cursor.between(span.clone()).trim());
    QuantityError::new(span, Fault::Unreadable { seen, reason, readings: Vec::new() })
}

/// The unit of counts and ratios: none.
pub(super) fn no_unit(dimension: Dimension) -> &'static Unit {
    table::base_of(dimension)
}

#[cfg(test)]
mod tests;
