//! Exact numbers: what an author wrote and what a definition says, without the noise of binary fractions.
//!
//! A limit is only trustworthy if comparing and rounding it is exact: 0.1 mm is one tenth, not the nearest double.

use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, One, Signed, ToPrimitive, Zero};
use std::borrow::Cow;
use std::cmp::Ordering;
use std::ops::{Add, Mul, Neg, Sub};

/// Which way a number gives when it is cut to fewer digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearest step, a half away from zero.
    Nearest,
    /// To the next step above (for a low limit).
    Up,
    /// To the next step below (for a high limit).
    Down,
}

/// An exact rational number, totally ordered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exact(Size);

/// A reduced fraction. What fits is `Small`, always, so that equal numbers look alike: in a workshop's manual everything
/// fits, and reckoning with numbers of any length was an eighth of a run.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Size {
    /// Above the least number of 128 bits, which has no opposite.
    Small(Ratio<i128>),
    Large(Box<BigRational>),
}

impl Exact {
    fn small(fraction: Ratio<i128>) -> Self {
        if *fraction.numer() == i128::MIN { Self(Size::Large(Box::new(widened(&fraction)))) } else { Self(Size::Small(fraction)) }
    }

    fn of(fraction: BigRational) -> Self {
        match (fraction.numer().to_i128(), fraction.denom().to_i128()) {
            (Some(upper), Some(lower)) if upper != i128::MIN => Self(Size::Small(Ratio::new_raw(upper, lower))),
            _ => Self(Size::Large(Box::new(fraction))),
        }
    }

    fn wide(&self) -> Cow<'_, BigRational> {
        match &self.0 {
            Size::Small(fraction) => Cow::Owned(widened(fraction)),
            Size::Large(fraction) => Cow::Borrowed(fraction),
        }
    }

    /// The result of two numbers: in 128 bits where it fits, otherwise in as many as it takes.
    fn with(
        &self,
        other: &Self,
        small: impl FnOnce(&Ratio<i128>, &Ratio<i128>) -> Option<Ratio<i128>>,
        large: impl FnOnce(&BigRational, &BigRational) -> BigRational,
    ) -> Self {
        if let (Size::Small(one), Size::Small(two)) = (&self.0, &other.0)
            && let Some(result) = small(one, two)
        {
            return Self::small(result);
        }
        Self::of(large(&self.wide(), &other.wide()))
    }

    /// Nothing.
    pub fn zero() -> Self {
        Self(Size::Small(Ratio::zero()))
    }

    /// A whole number.
    pub fn whole(number: i64) -> Self {
        Self(Size::Small(Ratio::from_integer(i128::from(number))))
    }

    /// A fraction; `None` when the lower part is zero.
    pub fn fraction(upper: i128, lower: i128) -> Option<Self> {
        if upper == i128::MIN || lower == i128::MIN {
            return (lower != 0).then(|| Self::of(BigRational::new(BigInt::from(upper), BigInt::from(lower))));
        }
        (lower != 0).then(|| Self::small(Ratio::new(upper, lower)))
    }

    /// A plain decimal: ASCII digits, at most one point, a `-` in front if negative. Anything else is `None`.
    pub fn decimal(text: &str) -> Option<Self> {
        let (negative, digits) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let all = format!("{whole}{part}");
        if all.is_empty() || !all.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        let places = i32::try_from(part.len()).ok()?;
        let number = match all.parse::<i128>() {
            Ok(number) => Self::small(Ratio::from_integer(number)),
            Err(_) => Self::of(BigRational::from_integer(all.parse::<BigInt>().ok()?)),
        };
        let value = if places == 0 { number } else { number * Self::ten_to(-places) };
        Some(if negative { -value } else { value })
    }

    /// The exact value of a double; `None` for infinities and not-a-number.
    pub fn from_f64(number: f64) -> Option<Self> {
        BigRational::from_float(number).map(Self::of)
    }

    /// A power of ten.
    pub fn ten_to(exponent: i32) -> Self {
        if let Some(power) = 10_i128.checked_pow(exponent.unsigned_abs()) {
            return Self(Size::Small(if exponent < 0 { Ratio::new_raw(1, power) } else { Ratio::from_integer(power) }));
        }
        let power = BigRational::from_integer(BigInt::from(10).pow(exponent.unsigned_abs()));
        Self::of(if exponent < 0 { power.recip() } else { power })
    }

    /// The nearest double (finite for every value a reader accepts).
    pub fn to_f64(&self) -> f64 {
        /// Up to here whole numbers are doubles, and the quotient of two doubles is the nearest to the true one.
        const WHOLE: i128 = 1 << 53;
        match &self.0 {
            Size::Small(fraction) if fraction.numer().abs() <= WHOLE && *fraction.denom() <= WHOLE => {
                match (fraction.numer().to_f64(), fraction.denom().to_f64()) {
                    (Some(upper), Some(lower)) => upper / lower,
                    _ => f64::NAN,
                }
            }
            _ => self.wide().to_f64().unwrap_or(f64::NAN),
        }
    }

    /// Without its sign.
    pub fn abs(&self) -> Self {
        if self.is_negative() { -self.clone() } else { self.clone() }
    }

    /// Whether it is zero.
    pub fn is_zero(&self) -> bool {
        matches!(&self.0, Size::Small(fraction) if fraction.is_zero())
    }

    /// Whether it is below zero.
    pub fn is_negative(&self) -> bool {
        match &self.0 {
            Size::Small(fraction) => fraction.is_negative(),
            Size::Large(fraction) => fraction.is_negative(),
        }
    }

    /// Whether it is one.
    pub fn is_one(&self) -> bool {
        matches!(&self.0, Size::Small(fraction) if fraction.is_one())
    }

    /// Whether it is a whole number.
    pub fn is_whole(&self) -> bool {
        match &self.0 {
            Size::Small(fraction) => fraction.is_integer(),
            Size::Large(fraction) => fraction.is_integer(),
        }
    }

    /// The quotient; `None` when dividing by zero.
    pub fn over(&self, divisor: &Self) -> Option<Self> {
        (!divisor.is_zero()).then(|| self.with(divisor, |a, b| a.checked_div(b), |a, b| a / b))
    }

    /// The exponent of the leading digit (2 for 345, −3 for 0.0012); `None` for zero.
    pub fn magnitude(&self) -> Option<i32> {
        if self.is_zero() {
            return None;
        }
        let size = self.abs();
        let (upper, lower) = match &size.0 {
            Size::Small(fraction) => (fraction.numer().checked_ilog10()?, fraction.denom().checked_ilog10()?),
            Size::Large(fraction) => {
                let figures = |number: &BigInt| u32::try_from(number.to_string().len());
                (figures(fraction.numer()).ok()?, figures(fraction.denom()).ok()?)
            }
        };
        let mut exponent = i32::try_from(upper).ok()? - i32::try_from(lower).ok()?;
        if Self::ten_to(exponent) > size {
            exponent -= 1;
        }
        Some(exponent)
    }

    /// Rounded to a multiple of ten to the `step`.
    pub fn rounded(&self, step: i32, rounding: Rounding) -> Self {
        self.steps(step, rounding) * Self::ten_to(step)
    }

    /// How many times ten to the `step` it is, rounded: a whole number. In whole numbers, as this is done more often than
    /// all else.
    fn steps(&self, step: i32, rounding: Rounding) -> Self {
        if let Size::Small(fraction) = &self.0
            && let Some(steps) = small_steps(fraction, step, rounding)
        {
            return Self::small(Ratio::from_integer(steps));
        }
        let wide = self.wide();
        let power = BigInt::from(10).pow(step.unsigned_abs());
        let (mut upper, mut lower) = (wide.numer().clone(), wide.denom().clone());
        if step < 0 {
            upper *= power;
        } else {
            lower *= power;
        }
        let rest = &upper % &lower;
        let toward_zero = &upper / &lower;
        let away = BigInt::from(if upper.is_negative() { -1 } else { 1 });
        let moves_away = match rounding {
            Rounding::Nearest => rest.abs() * 2 >= lower,
            Rounding::Up => rest.is_positive(),
            Rounding::Down => rest.is_negative(),
        };
        Self::of(BigRational::from_integer(if moves_away { toward_zero + away } else { toward_zero }))
    }

    /// As plain decimal digits down to ten to the `step` (nearest), with a true minus sign `−`.
    pub fn digits(&self, step: i32) -> String {
        let places = usize::try_from(step.min(0).unsigned_abs()).unwrap_or(0);
        let number = self.steps(step, Rounding::Nearest) * Self::ten_to(step.max(0));
        let mut digits = match &number.0 {
            Size::Small(fraction) => fraction.numer().unsigned_abs().to_string(),
            Size::Large(fraction) => fraction.numer().abs().to_string(),
        };
        if digits.len() <= places {
            digits.insert_str(0, &"0".repeat(places + 1 - digits.len()));
        }
        if places > 0 {
            digits.insert(digits.len() - places, '.');
        }
        if number.is_negative() { format!("−{digits}") } else { digits }
    }

    /// As plain decimal digits with `count` significant ones (at least one).
    pub fn significant(&self, count: i32, rounding: Rounding) -> String {
        let Some(magnitude) = self.magnitude() else {
            return "0".to_owned();
        };
        let step = magnitude + 1 - count.max(1);
        let rounded = self.rounded(step, rounding);
        // 9.996 becomes 10.00 by rounding up: one digit too many by then.
        let step = rounded.magnitude().map_or(step, |new| step.max(new + 1 - count.max(1)));
        rounded.digits(step)
    }
}

fn widened(fraction: &Ratio<i128>) -> BigRational {
    BigRational::new_raw(BigInt::from(*fraction.numer()), BigInt::from(*fraction.denom()))
}

fn small_steps(fraction: &Ratio<i128>, step: i32, rounding: Rounding) -> Option<i128> {
    let power = 10_i128.checked_pow(step.unsigned_abs())?;
    let (upper, lower) = if step < 0 {
        (fraction.numer().checked_mul(&power)?, *fraction.denom())
    } else {
        (*fraction.numer(), fraction.denom().checked_mul(&power)?)
    };
    let rest = upper.checked_rem(lower)?;
    let moves_away = match rounding {
        // Twice the rest may be more than fits; what is left to the whole never is.
        Rounding::Nearest => rest.checked_abs()? >= lower - rest.checked_abs()?,
        Rounding::Up => rest > 0,
        Rounding::Down => rest < 0,
    };
    let away = if !moves_away { 0 } else if upper < 0 { -1 } else { 1 };
    upper.checked_div(lower)?.checked_add(away)
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        match (&self.0, &other.0) {
            (Size::Small(one), Size::Small(two)) => one.cmp(two),
            _ => self.wide().cmp(&other.wide()),
        }
    }
}

impl Add for Exact {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        self.with(&other, |a, b| a.checked_add(b), |a, b| a + b)
    }
}

impl Sub for Exact {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self.with(&other, |a, b| a.checked_sub(b), |a, b| a - b)
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        self.with(&other, |a, b| a.checked_mul(b), |a, b| a * b)
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        match self.0 {
            Size::Small(fraction) => Self(Size::Small(-fraction)),
            Size::Large(fraction) => Self::of(-*fraction),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn n(text: &str) -> Exact {
        Exact::decimal(text).unwrap()
    }

    #[test]
    fn decimals_are_read_exactly() {
        assert_eq!(n("0.1") + n("0.2"), n("0.3"));
        assert_eq!(n("-1.50"), -n("1.5"));
        assert_eq!(n(".5"), Exact::fraction(1, 2).unwrap());
        for bad in ["", "-", ".", "1e3", "1,5", "--1", "1.2.3", "١", " 1"] {
            assert_eq!(Exact::decimal(bad), None, "{bad}");
        }
    }

    #[test]
    fn magnitude_is_the_place_of_the_first_digit() {
        for (text, place) in [("1", 0), ("9.99", 0), ("10", 1), ("345", 2), ("0.0012", -3), ("-0.1", -1), ("1000", 3)] {
            assert_eq!(n(text).magnitude(), Some(place), "{text}");
        }
        assert_eq!(Exact::zero().magnitude(), None);
        assert_eq!(Exact::fraction(1, 3).unwrap().magnitude(), Some(-1));
    }

    #[test]
    fn a_half_is_rounded_away_from_zero() {
        assert_eq!(n("2.5").rounded(0, Rounding::Nearest), n("3"));
        assert_eq!(n("-2.5").rounded(0, Rounding::Nearest), n("-3"));
        assert_eq!(n("-2.5").rounded(0, Rounding::Up), n("-2"));
        assert_eq!(n("-2.5").rounded(0, Rounding::Down), n("-3"));
        assert_eq!(n("1250").rounded(2, Rounding::Down), n("1200"));
    }

    #[test]
    fn digits_are_plain() {
        assert_eq!(n("0.05").digits(-3), "0.050");
        assert_eq!(n("-18").digits(0), "−18");
        assert_eq!(n("1250").digits(2), "1300");
        assert_eq!(n("-0.4").digits(0), "0");
        assert_eq!(n("9.996").significant(3, Rounding::Nearest), "10.0");
        assert_eq!(n("37.96").significant(3, Rounding::Nearest), "38.0");
        assert_eq!(n("37.96").significant(3, Rounding::Down), "37.9");
    }

    proptest::proptest! {
        /// Beside num-rational's own numbers of any length.
        #[test]
        fn the_short_way_and_the_long_way_agree(
            (a, b) in (proptest::num::i128::ANY, 1..i128::MAX),
            (c, d) in (proptest::num::i128::ANY, 1..i128::MAX),
            (cut, cut_too) in (0_u32..127, 0_u32..127),
            step in -20_i32..20,
        ) {
            let (a, b, c, d) = (a >> cut, (b >> cut).max(1), c >> cut_too, (d >> cut_too).max(1));
            let (one, two) = (Exact::fraction(a, b).unwrap(), Exact::fraction(c, d).unwrap());
            let (big_one, big_two) = (BigRational::new(a.into(), b.into()), BigRational::new(c.into(), d.into()));
            proptest::prop_assert_eq!(one.clone() + two.clone(), Exact::of(&big_one + &big_two));
            proptest::prop_assert_eq!(one.clone() - two.clone(), Exact::of(&big_one - &big_two));
            proptest::prop_assert_eq!(one.clone() * two.clone(), Exact::of(&big_one * &big_two));
            if c != 0 {
                proptest::prop_assert_eq!(one.over(&two).unwrap(), Exact::of(&big_one / &big_two));
            }
            proptest::prop_assert_eq!(one.cmp(&two), big_one.cmp(&big_two));
            proptest::prop_assert_eq!(one == two, big_one == big_two);
            proptest::prop_assert_eq!(one.to_f64().to_bits(), big_one.to_f64().unwrap().to_bits());
            let ten = BigRational::from_integer(BigInt::from(10)).pow(step);
            proptest::prop_assert_eq!(one.rounded(step, Rounding::Up), Exact::of((&big_one / &ten).ceil() * &ten));
            proptest::prop_assert_eq!(one.rounded(step, Rounding::Down), Exact::of((&big_one / &ten).floor() * &ten));
            proptest::prop_assert_eq!(one.rounded(step, Rounding::Nearest), Exact::of((&big_one / &ten).round() * &ten));
        }
    }
}
