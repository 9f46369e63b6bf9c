//! What handbooks know: pure functions and tables, each with its source.
//!
//! Invariant: nothing here reads a file, a clock or a manual; values in, values out.

pub mod signal;
pub mod thread;
