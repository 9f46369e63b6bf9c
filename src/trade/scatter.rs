//! How far the preload of a torqued bolt scatters.
//!
//! Sources: NASA-STD-5020B, App. A.2 (statistics of torque tests), NSTS 08307 Rev. A, 3.3 (greatest and least preload)
//! and 3.4 (uncertainty by method), VDI 2230-1, App. A8 (tightening factor αA = Fmax/Fmin).

use super::guard::{finite, not_negative, positive};

/// Mean and scatter of measured preloads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestStatistics {
    /// How many.
    pub count: usize,
    /// Mean, in the unit of the readings.
    pub mean: f64,
    /// Sample standard deviation (n − 1).
    pub deviation: f64,
    /// Greatest reading above the mean, as a share of it.
    pub above: f64,
    /// Least reading below the mean, as a share of it.
    pub below: f64,
}

/// What a preload may come to, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PreloadLimits {
    /// Least, N.
    pub low_n: f64,
    /// Greatest, N.
    pub high_n: f64,
}

/// A toleranced torque, without the running torque of a self-locking nut, N·m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TorqueLimits {
    /// Least, N·m.
    pub low_nm: f64,
    /// Greatest, N·m.
    pub high_nm: f64,
}

/// Uncertainty of a way of tightening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Method {
    /// How it is tightened.
    pub name: &'static str,
    /// Uncertainty of the preload, ± as a share.
    pub uncertainty: f64,
}

/// Uncertainties by method: NSTS 08307 Rev. A, 3.4.
pub static METHODS: &[Method] = &[
    Method { name: "torque wrench, unlubricated", uncertainty: 0.35 },
    Method { name: "torque wrench, cadmium plated, unlubricated", uncertainty: 0.30 },
    Method { name: "torque wrench, lubricated", uncertainty: 0.25 },
    Method { name: "hydraulic tensioner", uncertainty: 0.15 },
    Method { name: "load-indicating washer", uncertainty: 0.10 },
    Method { name: "ultrasonic", uncertainty: 0.10 },
    Method { name: "measured elongation", uncertainty: 0.05 },
    Method { name: "instrumented bolt", uncertainty: 0.05 },
];

/// Statistics of readings; `None` for fewer than two, or readings that are no numbers above zero.
#[must_use]
pub fn statistics(readings: &[f64]) -> Option<TestStatistics> {
    let count = readings.len();
    if count < 2 || readings.iter().any(|reading| positive(*reading).is_none()) {
        return None;
    }
    let number = f64::from(u32::try_from(count).ok()?);
    let mean = positive(readings.iter().sum::<f64>() / number)?;
    let squares: f64 = readings.iter().map(|reading| (reading - mean).powi(2)).sum();
    let greatest = readings.iter().copied().fold(f64::MIN, f64::max);
    let least = readings.iter().copied().fold(f64::MAX, f64::min);
    let deviation = finite((squares / (number - 1.0)).sqrt())?;
    Some(TestStatistics { count, mean, deviation, above: greatest / mean - 1.0, below: 1.0 - least / mean })
}

/// Greatest and least preload of a toleranced torque: (1 + Γ)·Tmax/(K·d) and (1 − Γ)·(Tmin − Tp)/(K·d), where Γ is the
/// uncertainty of the method and Tp the prevailing torque of a self-locking nut (0 if none); thermal load and losses
/// are left to the caller.
#[must_use]
pub fn preload_limits(torque: TorqueLimits, prevailing_nm: f64, diameter_mm: f64, nut_factor: f64, uncertainty: f64) -> Option<PreloadLimits> {
    let lever_m = positive(nut_factor)? * positive(diameter_mm)? / 1000.0;
    let uncertainty = not_negative(uncertainty).filter(|share| *share < 1.0)?;
    let (low, high) = (not_negative(torque.low_nm)?, positive(torque.high_nm)?);
    let useful = not_negative(low - not_negative(prevailing_nm)?)?;
    if low > high {
        return None;
    }
    Some(PreloadLimits { low_n: finite((1.0 - uncertainty) * useful / lever_m)?, high_n: finite((1.0 + uncertainty) * high / lever_m)? })
}

/// Least preload where the greatest is known: Fmin = Fmax/αA (αA of a torque wrench: 1.6 to 2.0).
#[must_use]
pub fn least_preload_n(greatest_n: f64, tightening_factor: f64) -> Option<f64> {
    let factor = finite(tightening_factor).filter(|factor| *factor >= 1.0)?;
    finite(not_negative(greatest_n)? / factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_input_has_no_statistics() {
        assert_eq!(statistics(&[]), None);
        assert_eq!(statistics(&[1.0]), None);
        assert_eq!(statistics(&[1.0, f64::NAN]), None);
        assert_eq!(statistics(&[1.0, -1.0]), None);
        assert_eq!(statistics(&[f64::MAX, f64::MAX]), None);
    }

    #[test]
    fn limits_need_a_torque_above_the_running_torque() {
        let torque = TorqueLimits { low_nm: 10.0, high_nm: 12.0 };
        assert_eq!(preload_limits(torque, 11.0, 8.0, 0.2, 0.25), None);
        assert_eq!(preload_limits(torque, 0.0, 8.0, 0.2, 1.0), None);
        let limits = preload_limits(torque, 2.0, 8.0, 0.2, 0.25).unwrap();
        assert!((limits.low_n - 3750.0).abs() < 1e-6 && (limits.high_n - 9375.0).abs() < 1e-6);
        assert_eq!(least_preload_n(1000.0, 0.5), None);
    }
}
