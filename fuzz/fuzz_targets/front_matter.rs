#![no_main]
//! Any bytes into `entries::front_matter`.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| entries::front_matter(bytes));
