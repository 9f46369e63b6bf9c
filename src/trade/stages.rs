//! Stages of tightening: how a final torque is reached in passes.
//!
//! Sources: passes of 30, 60 and 100 % crosswise with a last round (common practice after ASME PCC-1, as in piping texts);
//! 70 % first above 30 lbf·ft (US Army general torque notes, TM 5-3805-291-23-2).

use super::guard::{finite, positive};

/// Shares of the final torque, pass by pass.
pub const CROSSWISE_PASSES: [f64; 3] = [0.30, 0.60, 1.00];

/// Torque above which a first stage of 70 % is asked for: 30 lbf·ft in N·m.
pub const STAGED_FROM_NM: f64 = 40.674_538_449_942_01;

/// Torques of the crosswise passes, N·m.
#[must_use]
pub fn crosswise_nm(final_nm: f64) -> Option<[f64; 3]> {
    let torque = positive(final_nm)?;
    Some(CROSSWISE_PASSES.map(|share| share * torque))
}

/// First stage by the 70 % rule, N·m; `None` below the torque it begins at.
#[must_use]
pub fn first_stage_nm(final_nm: f64) -> Option<f64> {
    let torque = positive(final_nm).filter(|torque| *torque > STAGED_FROM_NM)?;
    finite(0.7 * torque)
}

/// The first stage (counted from 0) that does not rise above the one before it.
#[must_use]
pub fn first_not_rising(stages_nm: &[f64]) -> Option<usize> {
    // `total_cmp` would call a NaN rising: what cannot be compared does not rise.
    stages_nm.windows(2).position(|pair| !matches!(pair, [before, after] if after > before)).map(|at| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn falling_and_equal_stages_are_found() {
        assert_eq!(first_not_rising(&[10.0, 25.0, 18.0]), Some(2));
        assert_eq!(first_not_rising(&[10.0, 10.0]), Some(1));
        assert_eq!(first_not_rising(&[10.0, 18.0, 25.0]), None);
        assert_eq!(first_not_rising(&[]), None);
        assert_eq!(first_not_rising(&[10.0, f64::NAN]), Some(1));
    }

    #[test]
    fn proposed_passes_rise() {
        assert_eq!(first_not_rising(&crosswise_nm(48.0).unwrap()), None);
        assert_eq!(crosswise_nm(f64::NAN), None);
        assert_eq!(first_stage_nm(30.0), None);
    }
}
