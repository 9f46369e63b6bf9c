//! The typed model of a manual: ids resolved, variants known, the order of work.
//!
//! Invariants: lowering never fails, what can't be read becomes a finding and a hole; every field is
//! read as text and parsed here, once; nothing later parses text again.

mod acts;
mod build_schema;
mod builds;
mod change_chain;
mod claims;
mod expected;
mod film_steps;
mod fingerprint;
mod instant;
mod ledger;
mod lists;
mod lower;
mod lower_builds;
mod lower_lists;
mod model;
mod order;
mod outline;
mod quantity_rules;
mod read;
mod reading;
mod resolve;
pub mod rules;
mod scalars;
mod schema;
pub mod shape;
mod sheet_things;
mod sheets;
mod shop;
pub mod tables;
mod things;
mod value_list;
mod varied;
mod verb;
mod wall_papers;

pub use build_schema::build_schema;
pub use builds::{BUILD_FORMAT, Build, BuildWork, Deviation, LeftOpen, Tick};
pub use film_steps::corrected_step;
pub use fingerprint::{Fingerprint, SheetValues, canonical_text, things_on_sheet};
pub use instant::Instant;
pub use ledger::{Ledger, LedgerHome, LedgerPlace, homes, ledger_place};
pub use claims::{Claim, Claims, Decision};
pub use lists::{EntryHead, Home, List, ListKind, Lists, Scope, ThingRef, WrittenValue};
pub use lower::{is_too_new, lower, lower_frame, lower_machine};
pub use lower_builds::lower_record;
pub(crate) use lower_lists::is_id;
pub use model::{Act, Change, History, Machine, Manual, Paper, Procedure, Profile, Step, Waiver};
pub use outline::{Outline, ProcedureOutline, links_abroad, machine_named};
pub use quantity_rules::QUANTITY as QUANTITY_RULES;
pub use resolve::{DIRECTIONS, MEDIA};
pub use schema::schema;
pub use sheets::sheet_variants;
pub use tables::FileKind;
pub use shop::{Correction, Date, Material, Person, Recording, Source, Term, Tool};
pub use expected::Expect;
pub use things::{
    Adapter, Align, Away, BacklashAt, Balloon, Bead, Bearing, BearingFit, Cord, Edges, Entry, Faces, Fastener, Figure, Fill, Heat, InsteadOf, Kit, Layout, Measure, OpenItem, Part, Seal, Shaft, Shim, Spot, Stack, Test, Torque, Turn, Wait, WorkedShim,
};
pub use value_list::{ListedValue, value_list, value_list_schema};
pub use varied::{Axis, AxisValue, Case, Combination, Varied, combinations};
pub use wall_papers::{board_text, card_text, placed_fasteners};
pub use verb::{VERBS, Verb, VerbRow};
