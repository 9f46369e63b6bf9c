//! inspect
