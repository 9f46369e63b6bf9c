#![no_main]
//! Any bytes as a picture; the first byte chooses its ending.

#[path = "../entries/mod.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Some((first, rest)) = bytes.split_first() {
        entries::picture(["jpg", "png", "webp", "svg"][usize::from(first % 4)], rest);
    }
});
