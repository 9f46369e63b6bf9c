//! Mixtures of fuel and oil.
//!
//! Source: arithmetic of the ratio fuel : oil, as it is written on two-stroke machines (50:1).

use super::guard::positive;

/// Oil for an amount of fuel, mL.
#[must_use]
pub fn oil_ml(fuel_ml: f64, fuel_parts: f64, oil_parts: f64) -> Option<f64> {
    positive(positive(fuel_ml)? * positive(oil_parts)? / positive(fuel_parts)?)
}

/// Parts of fuel for one part of oil that two amounts in the same unit make.
#[must_use]
pub fn fuel_parts(fuel: f64, oil: f64) -> Option<f64> {
    positive(positive(fuel)? / positive(oil)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_litres_at_fifty_to_one() {
        assert_eq!(oil_ml(5000.0, 50.0, 1.0), Some(100.0));
        assert_eq!(fuel_parts(5000.0, 200.0), Some(25.0));
    }

    #[test]
    fn nothing_mixes_with_nothing() {
        assert_eq!((oil_ml(0.0, 50.0, 1.0), oil_ml(5000.0, 0.0, 1.0), fuel_parts(5.0, f64::NAN)), (None, None, None));
    }
}
