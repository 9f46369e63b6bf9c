//! Benchleaf turns illustrated rebuild procedures into a cross-linked manual with printable bench
//! checklists, and refuses to publish a value that is wrong, missing, ambiguous or left undone.
//!
//! The modules are the stages of one line, and data runs along it in one direction only:
//! [`source`] reads files, [`manual`] gives them meaning, [`inspect`] looks for faults, [`figure`]
//! makes pictures, [`page`] makes pages and sheets, [`output`] writes them. [`quantity`],
//! [`trade`] and [`finding`] are vocabulary that any stage may use. [`reckon`] is the table of calculations, [`bulletin`]
//! tells what changed between two states of a manual.

#![forbid(unsafe_code)]

pub mod bulletin;
pub mod command;
mod crew;
pub mod draft;
pub mod figure;
pub mod finding;
pub mod inspect;
pub mod manual;
pub mod output;
pub mod page;
pub mod proof;
pub mod quantity;
pub mod reckon;
pub mod recording;
pub mod source;
pub mod trade;
