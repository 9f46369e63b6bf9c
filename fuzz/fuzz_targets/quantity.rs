#![no_main]
//! Any bytes into `entries::quantity`.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::quantity(bytes));
