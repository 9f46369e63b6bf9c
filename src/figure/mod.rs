//! figure
