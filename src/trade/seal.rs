//! tmp
/// tmp
#[must_use]
pub fn continuous_limit(_: &str) -> Option<f64> { Some(100.0) }
