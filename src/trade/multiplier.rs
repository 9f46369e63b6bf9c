//! A torque multiplier: a gear between wrench and nut.
//!
//! Source: mechanics, T = S·i·η; that a gear gives back less than its teeth say, and how much less, is common practice
//! (some 10 % are lost in a planetary one), and its maker's plate decides.

use super::guard::{finite, not_negative, positive};

/// What to set on the wrench for a torque at the nut, N·m: `ratio` by the teeth, from 1, `efficiency` from above 0 to 1.
#[must_use]
pub fn set_nm(torque_nm: f64, ratio: f64, efficiency: f64) -> Option<f64> {
    let share = positive(efficiency).filter(|share| *share <= 1.0)?;
    // Below 1:1 it would be a reducer, or the plate was read the other way round.
    let ratio = finite(ratio).filter(|ratio| *ratio >= 1.0)?;
    finite(not_negative(torque_nm)? / positive(ratio * share)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    // By hand: 480 / (4 × 0.9) = 133.33; a loss-free 4:1 gear takes 120.
    #[test]
    fn a_gear_of_four_to_one() {
        assert!((set_nm(480.0, 4.0, 0.9).unwrap() - 133.333_333).abs() < 1e-5);
        assert_eq!(set_nm(480.0, 4.0, 1.0), Some(120.0));
    }

    #[test]
    fn no_gear_gives_more_than_its_teeth() {
        assert_eq!((set_nm(480.0, 0.25, 0.9), set_nm(480.0, f64::INFINITY, 0.9)), (None, None));
        assert_eq!((set_nm(480.0, 4.0, 1.1), set_nm(480.0, 0.0, 0.9), set_nm(f64::NAN, 4.0, 0.9), set_nm(480.0, 4.0, 0.0)), (None, None, None, None));
    }
}
