//! manual
