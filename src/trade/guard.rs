//! The door every value passes: a finite number, above zero where a size is meant.

/// The value, if it is a finite number.
pub(super) fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// The value, if it is a finite number above zero.
pub(super) fn positive(value: f64) -> Option<f64> {
    (value.is_finite() && value > 0.0).then_some(value)
}

/// The value, if it is a finite number, zero or above.
pub(super) fn not_negative(value: f64) -> Option<f64> {
    (value.is_finite() && value >= 0.0).then_some(value)
}

/// Text for comparing names: lower case, without spaces, hyphens and underscores.
pub(super) fn folded(name: &str) -> String {
    name.chars().filter(|c| !c.is_whitespace() && !matches!(c, '-' | '_')).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_numbers_pass() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!((finite(value), positive(value), not_negative(value)), (None, None, None));
        }
        assert_eq!((finite(-1.0), positive(-1.0), not_negative(-1.0)), (Some(-1.0), None, None));
        assert_eq!((finite(0.0), positive(0.0), not_negative(0.0)), (Some(0.0), None, Some(0.0)));
    }

    #[test]
    fn names_are_compared_without_their_joints() {
        assert_eq!(folded("Anti-Seize"), folded("anti seize"));
    }
}
