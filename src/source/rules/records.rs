//! Rules about build records as files.

use crate::finding::{Explanation, Rule, Severity};

/// A build record that is no record.
pub static RECORD_UNREADABLE: Rule = Rule {
    name: "record-unreadable",
    severity: Severity::Warning,
    summary: "A build record can't be read, so it is left out.",
    explanation: Explanation {
        finds: "Files in a machine's builds/ that are no JSON (RFC 8259), end in the middle, are larger than 2 MiB, nested deeper than any record, not written in UTF-8, or whose name is not lower-case words joined by hyphens. Like everything found in a record it is told and never keeps the manual from being published.",
        matters: "A record that is left out is not told of by a bulletin: whoever built by the old value hears nothing.",
        may_be_wrong: "When a telephone is still writing the file: inspect again.",
        example: "tarn-18/builds/Hull 7.json, cut off in a message",
        instead: "tarn-18/builds/hull-7.json, exported again",
    },
};
