//! Two published sites compared: photographs by their pixels, everything else to the byte. The vector instructions of one
//! processor round otherwise than another's, and an encoder may make another coefficient of it.

#![allow(unreachable_pub, reason = "each test file uses the parts it needs")]
#![expect(clippy::unwrap_used, reason = "helpers of tests fail by panicking, as the tests do")]

use std::collections::BTreeMap;

/// The mean difference of the channels of two photographs that count as the same, of 255.
const MEAN: f64 = 1.0;
/// The largest difference of one channel of one pixel: about a step of the coarsest coefficient.
const MOST: u8 = 32;

/// The program's record lists the hash of every file, photographs too.
const RECORD: &str = ".benchleaf-record.json";

/// Paths at which two sites differ.
pub fn differences(one: &BTreeMap<String, Vec<u8>>, other: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let mut paths: Vec<&String> = one.keys().chain(other.keys()).collect();
    paths.sort();
    paths.dedup();
    paths.into_iter().filter(|path| !alike(path, one.get(*path), other.get(*path))).cloned().collect()
}

fn alike(path: &str, one: Option<&Vec<u8>>, other: Option<&Vec<u8>>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) if one == other => true,
        (Some(one), Some(other)) if is_photograph(path) => same_pixels(one, other),
        (Some(one), Some(other)) if path == RECORD => without_photographs(one) == without_photographs(other),
        _ => false,
    }
}

fn is_photograph(path: &str) -> bool {
    path.ends_with(".jpg") || path.ends_with(".png")
}

fn same_pixels(one: &[u8], other: &[u8]) -> bool {
    let (Ok(one), Ok(other)) = (image::load_from_memory(one), image::load_from_memory(other)) else { return false };
    if (one.width(), one.height(), one.color()) != (other.width(), other.height(), other.color()) {
        return false;
    }
    let (mut sum, mut most) = (0u64, 0u8);
    for (a, b) in one.as_bytes().iter().zip(other.as_bytes()) {
        sum += u64::from(a.abs_diff(*b));
        most = most.max(a.abs_diff(*b));
    }
    #[expect(clippy::cast_precision_loss, reason = "sums of small numbers over a picture")]
    let mean = sum as f64 / one.as_bytes().len() as f64;
    mean <= MEAN && most <= MOST
}

/// The record with the hashes of photographs blanked; their paths stay.
fn without_photographs(record: &[u8]) -> serde_json::Value {
    let mut record: serde_json::Value = serde_json::from_slice(record).unwrap();
    for (path, hash) in record["files"].as_object_mut().unwrap() {
        if is_photograph(path) {
            *hash = serde_json::Value::Null;
        }
    }
    record
}
