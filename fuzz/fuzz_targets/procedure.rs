#![no_main]
//! Any bytes into `entries::procedure`.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::procedure(bytes));
