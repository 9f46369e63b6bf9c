//! What handbooks know: pure functions and tables, each with its source.
//!
//! Invariant: nothing here reads a file, a clock or a manual; values in, values out. Values are `f64` with the unit in
//! the name. What cannot be worked out (a value that is no number, zero or negative where a size is meant, a result
//! beyond all numbers) gives `None` or an error, never a panic and never a silent infinity.
//!
//! Every result is a screening: it can tell that a value is implausible or inconsistent, never that it is correct.

pub mod arc;
pub mod backlash;
pub mod bead;
pub mod clearance;
pub mod cylinder;
pub mod drag;
pub mod engagement;
pub mod fit;
pub mod formula;
pub mod friction;
pub mod galvanic;
mod guard;
pub mod hexagon;
pub mod iso_limits;
pub mod locker;
pub mod mix;
pub mod multiplier;
pub mod order;
pub mod plastic;
pub mod preload;
pub mod prevailing;
pub mod property;
pub mod reread;
pub mod scatter;
pub mod screening;
pub mod seal;
pub mod shim;
pub mod signal;
pub mod stages;
pub mod stretch;
pub mod strip;
pub mod thread;
pub mod thread_form;
pub mod thread_limits;
pub mod thread_pipe;
pub mod wrench;
