#![no_main]
//! Any bytes into `entries::yaml`.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::yaml(bytes));
