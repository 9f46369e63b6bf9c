#![no_main]
//! Any bytes into `entries::body`.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::body(bytes));
