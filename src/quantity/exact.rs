//! Exact numbers: what an author wrote and what a definition says, without the noise of binary fractions.
//!
//! A limit is only trustworthy if comparing and rounding it is exact: 0.1 mm is one tenth, not the nearest double.

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};
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
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Exact(BigRational);

impl Exact {
    /// Nothing.
    pub fn zero() -> Self {
        Self(BigRational::zero())
    }

    /// A whole number.
    pub fn whole(number: i64) -> Self {
        Self(BigRational::from_integer(BigInt::from(number)))
    }

    /// A fraction; `None` when the lower part is zero.
    pub fn fraction(upper: i128, lower: i128) -> Option<Self> {
        (lower != 0).then(|| Self(BigRational::new(BigInt::from(upper), BigInt::from(lower))))
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
        let number = all.parse::<BigInt>().ok()?;
        let places = u32::try_from(part.len()).ok()?;
        let value = match places {
            0 => Self(BigRational::from_integer(number)),
            places => Self(BigRational::new(number, BigInt::from(10).pow(places))),
        };
        Some(if negative { -value } else { value })
    }

    /// The exact value of a double; `None` for infinities and not-a-number.
    pub fn from_f64(number: f64) -> Option<Self> {
        BigRational::from_float(number).map(Self)
    }

    /// A power of ten.
    pub fn ten_to(exponent: i32) -> Self {
        let power = BigRational::from_integer(BigInt::from(10).pow(exponent.unsigned_abs()));
        Self(if exponent < 0 { power.recip() } else { power })
    }

    /// The nearest double (finite for every value a reader accepts).
    pub fn to_f64(&self) -> f64 {
        self.0.to_f64().unwrap_or(f64::NAN)
    }

    /// Without its sign.
    pub fn abs(&self) -> Self {
        Self(self.0.abs())
    }

    /// Whether it is zero.
    pub fn is_zero(&self) -> bool {
        self.0.is_zero()
    }

    /// Whether it is below zero.
    pub fn is_negative(&self) -> bool {
        self.0.is_negative()
    }

    /// Whether it is one.
    pub fn is_one(&self) -> bool {
        self.0.is_one()
    }

    /// Whether it is a whole number.
    pub fn is_whole(&self) -> bool {
        self.0.is_integer()
    }

    /// The quotient; `None` when dividing by zero.
    pub fn over(&self, divisor: &Self) -> Option<Self> {
        (!divisor.is_zero()).then(|| Self(&self.0 / &divisor.0))
    }

    /// The exponent of the leading digit (2 for 345, −3 for 0.0012); `None` for zero.
    pub fn magnitude(&self) -> Option<i32> {
        if self.is_zero() {
            return None;
        }
        let size = self.abs();
        let upper = i32::try_from(size.0.numer().to_string().len()).ok()?;
        let lower = i32::try_from(size.0.denom().to_string().len()).ok()?;
        let mut exponent = upper - lower;
        if Self::ten_to(exponent) > size {
            exponent -= 1;
        }
        Some(exponent)
    }

    /// Rounded to a multiple of ten to the `step`.
    pub fn rounded(&self, step: i32, rounding: Rounding) -> Self {
        let steps = BigRational::from_integer(self.steps(step, rounding));
        Self(steps) * Self::ten_to(step)
    }

    /// How many times ten to the `step` it is, rounded. In whole numbers, as this is done more often than all else.
    fn steps(&self, step: i32, rounding: Rounding) -> BigInt {
        let power = BigInt::from(10).pow(step.unsigned_abs());
        let (mut upper, mut lower) = (self.0.numer().clone(), self.0.denom().clone());
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
        if moves_away { toward_zero + away } else { toward_zero }
    }

    /// As plain decimal digits down to ten to the `step` (nearest), with a true minus sign `−`.
    pub fn digits(&self, step: i32) -> String {
        let places = usize::try_from(step.min(0).unsigned_abs()).unwrap_or(0);
        let number = self.steps(step, Rounding::Nearest) * BigInt::from(10).pow(step.max(0).unsigned_abs());
        let mut digits = number.abs().to_string();
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

impl Add for Exact {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Exact {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Mul for Exact {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(self.0 * other.0)
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
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
}
