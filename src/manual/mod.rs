//! The typed model of a manual: ids resolved, variants known, the order of work.
//!
//! Invariants: lowering never fails, what can't be read becomes a finding and a hole; every field is
//! read as text and parsed here, once; nothing later parses text again.

mod acts;
mod lists;
mod lower;
mod lower_lists;
mod model;
mod order;
mod quantity_rules;
mod read;
mod reading;
mod resolve;
pub mod rules;
mod scalars;
mod schema;
pub mod shape;
pub mod tables;
mod things;
mod varied;
mod verb;

pub use lists::{EntryHead, Home, List, ListKind, Lists, Scope, ThingRef, WrittenValue};
pub use lower::lower;
pub(crate) use lower_lists::is_id;
pub use model::{Act, Change, History, Machine, Manual, Paper, Procedure, Profile, Step, Waiver};
pub use quantity_rules::QUANTITY as QUANTITY_RULES;
pub use resolve::MEDIA;
pub use schema::schema;
pub use tables::FileKind;
pub use things::{
    Adapter, Align, Away, BacklashAt, Balloon, Bead, Bearing, BearingFit, Correction, Date, Entry, Expect, Faces,
    Fastener, Figure, Fill, Heat, InsteadOf, Kit, Layout, Material, Measure, OpenItem, Part, Person, Recording, Seal,
    Shaft, Shim, Source, Spot, Stack, Term, Test, Tool, Torque, Turn, Wait, WorkedShim,
};
pub use varied::{Axis, AxisValue, Case, Combination, Varied, combinations};
pub use verb::{VERBS, Verb, VerbRow};
