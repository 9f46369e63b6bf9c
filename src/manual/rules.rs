//! Rules of form: what reading a front matter and its acts can find.

use crate::finding::{Explanation, Rule, Severity};

/// A thing is defined in two places.
pub static TWO_HOMES: Rule = Rule {
    name: "two-homes",
    severity: Severity::Error,
    summary: "A thing is defined in two places.",
    explanation: Explanation {
        finds: "An id that stands in two lists of the same kind within reach of one another: in a procedure and in its machine, or in a machine and in the shop. Also one id for two things that can be fitted, a fastener and a part, and a word that two axes of a machine have for a variant.",
        matters: "One value, one home. With two definitions nobody can say which one was tightened to.",
        may_be_wrong: "Never: two things that differ need two ids, two that don't need one home.",
        example: "machine.yaml:  fasteners: {cap-bolt: {torque: 24 N·m, …}}\npump.md:       fasteners: {cap-bolt: {torque: 26 N·m, …}}",
        instead: "Keep the definition in machine.yaml, where both procedures find it, and delete the other.",
    },
};

/// An id has letters that ids don't have.
pub static ID_SHAPE: Rule = Rule {
    name: "id-shape",
    severity: Severity::Error,
    summary: "An id has letters that ids don't have.",
    explanation: Explanation {
        finds: "Ids that are not lower-case words joined by hyphens (a–z, 0–9).",
        matters: "Ids become addresses of pages and anchors; one spelling works everywhere, also read aloud.",
        may_be_wrong: "Never.",
        example: "fasteners: {Pinion_Nut: {…}}",
        instead: "fasteners: {pinion-nut: {name: Pinion nut, …}}",
    },
};

/// A key that must be there is missing.
pub static KEY_MISSING: Rule = Rule {
    name: "key-missing",
    severity: Severity::Error,
    summary: "A key that must be there is missing.",
    explanation: Explanation {
        finds: "Maps without a key that everybody needs: a manual without a publisher, a source without a kind, an open item without the step that finishes it.",
        matters: "A value nobody answers for, or a nut left by hand with no step that finishes it, is found at the worst moment.",
        may_be_wrong: "Never; if the answer is not known yet, the value is not ready to be published.",
        example: "leaves_open: {carrier: {left: dry-fitted, because: measured first}}",
        instead: "leaves_open: {carrier: {left: dry-fitted, because: measured first, finish_in: close-gearcase#carrier}}",
    },
};

/// A key has nothing behind it.
pub static KEY_WITHOUT_VALUE: Rule = Rule {
    name: "key-without-value",
    severity: Severity::Error,
    summary: "A key has nothing behind it.",
    explanation: Explanation {
        finds: "Keys whose value is empty.",
        matters: "An empty torque reads as “none needed”.",
        may_be_wrong: "Never: take the key out where there is nothing to say.",
        example: "pinion-nut: {torque: , thread: M12x1.25}",
        instead: "pinion-nut: {torque: 78 N·m, thread: M12x1.25}",
    },
};

/// Something is still a question.
pub static QUESTION_UNANSWERED: Rule = Rule {
    name: "question-unanswered",
    severity: Severity::Error,
    summary: "Something is still a question.",
    explanation: Explanation {
        finds: "Values that begin with a question mark ('?', '? 22, in which unit'), and headings, paragraphs and words of acts in a procedure that begin with one. A draft marks so what nobody has answered yet.",
        matters: "What is left undone on the page is made up at the bench.",
        may_be_wrong: "Where the reader is asked something: begin with a word.",
        example: "cap-bolt: {name: Cap bolt, torque: '?'}",
        instead: "cap-bolt: {name: Cap bolt, torque: 24 N·m}",
    },
};

/// A thread is missing its pitch or does not exist.
pub static THREAD_UNREADABLE: Rule = Rule {
    name: "thread-unreadable",
    severity: Severity::Error,
    summary: "A thread is missing its pitch or does not exist.",
    explanation: Explanation {
        finds: "Threads that are neither ISO metric with a pitch (ISO 261) nor Unified coarse or fine (ASME B1.1), nor a pipe thread of ISO 228-1 (G) or ISO 7-1 (R, Rp, Rc).",
        matters: "M10 alone may be 1.5, 1.25 or 1.0: all three start by hand, two strip.",
        may_be_wrong: "A thread outside these series (NPT, special pitch) can't be written yet; say so in a note.",
        example: "cap-bolt: {thread: M10}",
        instead: "cap-bolt: {thread: M10x1.25}",
    },
};

/// An id points to nothing.
pub static UNKNOWN_ID: Rule = Rule {
    name: "unknown-id",
    severity: Severity::Error,
    summary: "An id points to nothing.",
    explanation: Explanation {
        finds: "Acts, links and fields that name an id which stands in none of the lists they look in: the procedure's, its machine's, the shop's.",
        matters: "A step that tightens a fastener which is not listed has no torque to show.",
        may_be_wrong: "Never: list the thing, or correct the spelling (the nearest one is offered).",
        example: "[Tighten the nut](torque:pinoin-nut)",
        instead: "[Tighten the nut](torque:pinion-nut)",
    },
};

/// A key is not known here.
pub static UNKNOWN_KEY: Rule = Rule {
    name: "unknown-key",
    severity: Severity::Error,
    summary: "A key is not known here.",
    explanation: Explanation {
        finds: "Keys that the format does not have in this place. The nearest known one is offered.",
        matters: "A misspelt key is a value that silently does not count.",
        may_be_wrong: "When the manual was written for a newer Benchleaf.",
        example: "pinion-nut: {torqe: 78 N·m}",
        instead: "pinion-nut: {torque: 78 N·m}",
    },
};

/// A variant is not declared.
pub static UNKNOWN_VARIANT: Rule = Rule {
    name: "unknown-variant",
    severity: Severity::Error,
    summary: "A variant is not declared.",
    explanation: Explanation {
        finds: "Values by variant, conditions (for:) and steps (for=) that name an axis or a value the machine does not have.",
        matters: "A value for a variant that does not exist is a value missing for one that does.",
        may_be_wrong: "Never: declare it under variants: in machine.yaml, or correct the spelling.",
        example: "torque: {early: 70 N·m, lat: 78 N·m}",
        instead: "torque: {early: 70 N·m, late: 78 N·m}",
    },
};

/// A link has a verb that is no act.
pub static UNKNOWN_VERB: Rule = Rule {
    name: "unknown-verb",
    severity: Severity::Error,
    summary: "A link has a verb that is no act.",
    explanation: Explanation {
        finds: "Links in a step whose address looks like an act, but whose verb the format does not have. The nearest one is offered.",
        matters: "An act that is not understood makes no line on the bench sheet.",
        may_be_wrong: "For web links: write the whole address, with https.",
        example: "[Tighten the nut](tighten:pinion-nut)",
        instead: "[Tighten the nut](torque:pinion-nut)",
    },
};

/// The manual is written for a later edition of the format.
pub static FORMAT_TOO_NEW: Rule = Rule {
    name: "format-too-new",
    severity: Severity::Error,
    summary: "The manual is written for an edition of the format that this program does not know.",
    explanation: Explanation {
        finds: "manual.yaml with format: above the edition this program reads, or below 1. Nothing else of the manual is looked at.",
        matters: "What is understood by half may be printed by half, and a sheet that lacks a line looks like one that does not.",
        may_be_wrong: "Where the number is a slip of the pen: without format: the first edition is meant.",
        example: "format: 7",
        instead: "take a newer benchleaf, or write format: 1",
    },
};

/// A word is not one of those this key knows.
pub static UNKNOWN_WORD: Rule = Rule {
    name: "unknown-word",
    severity: Severity::Error,
    summary: "A word is not one of those this key knows.",
    explanation: Explanation {
        finds: "Keys with a fixed choice of words (role, lock, kind …) that hold another.",
        matters: "The word decides what is checked; one that is not understood switches the check off.",
        may_be_wrong: "Never; where no word fits, take the nearest and say more in note:.",
        example: "pinion-nut: {role: shaft nut}",
        instead: "pinion-nut: {role: shaft-nut}",
    },
};

/// An act's address is incomplete or says too much.
pub static ACT_UNCLEAR: Rule = Rule {
    name: "act-unclear",
    severity: Severity::Error,
    summary: "An act's address is incomplete or says too much.",
    explanation: Explanation {
        finds: "Acts without an id where one is needed, with a number or stage where none can be, or apply: without the thing the material goes on.",
        matters: "Each act becomes one line to tick; half an act becomes half a line.",
        may_be_wrong: "Never.",
        example: "[Locker on the thread](apply:medium-locker)",
        instead: "[Locker on the thread](apply:medium-locker@pinion-nut)",
    },
};

/// A value has another form than its key wants.
pub static VALUE_OF_ANOTHER_FORM: Rule = Rule {
    name: "value-of-another-form",
    severity: Severity::Error,
    summary: "A value has another form than its key wants.",
    explanation: Explanation {
        finds: "A list where a single value is wanted, words where a count is, a date that is in no calendar.",
        matters: "What can't be read can't be printed.",
        may_be_wrong: "Never.",
        example: "stator-screw: {count: three}",
        instead: "stator-screw: {count: 3}",
    },
};

/// Procedures wait for each other in a ring.
pub static AFTER_RING: Rule = Rule {
    name: "after-ring",
    severity: Severity::Error,
    summary: "Procedures wait for each other in a ring.",
    explanation: Explanation {
        finds: "after: entries that lead back to where they started, so that no procedure can come first.",
        matters: "The build order can't be printed, and nobody can start.",
        may_be_wrong: "Never.",
        example: "a.md: after: [b]\nb.md: after: [a]",
        instead: "Take out the one that is not really needed first; use a step's own order, or leaves_open:, for the rest.",
    },
};

/// An act uses something that stands in no list.
pub static USED_NOT_LISTED: Rule = Rule {
    name: "used-not-listed",
    severity: Severity::Error,
    summary: "An act uses something that stands in no list.",
    explanation: Explanation {
        finds: "Acts on an id that is in none of the lists its verb can act on: the procedure's, its machine's or the shop's.",
        matters: "What is not listed has no torque, no count and no line in the parts list: nobody lays it out before the work starts.",
        may_be_wrong: "Never: list the thing, or correct the spelling (the nearest one is offered).",
        example: "[Thin washer on](fit:thin-washer)",
        instead: "parts: {thin-washer: {name: Thin washer, kind: washer, count: 1}}",
    },
};

/// One fastener has two different torques.
pub static TWO_VALUES_ONE_FASTENER: Rule = Rule {
    name: "two-values-one-fastener",
    severity: Severity::Error,
    summary: "One fastener has two different torques.",
    explanation: Explanation {
        finds: "A fastener defined in two places with different torques, and an act whose words name another torque than the list.",
        matters: "The reader takes the one he sees first.",
        may_be_wrong: "Where two fasteners really differ: give each its own id.",
        example: "fasteners: {cap-bolt: {torque: 24 N·m}}\n[Tighten the cap bolts to 26 N·m](torque:cap-bolt)",
        instead: "[Tighten the cap bolts](torque:cap-bolt)",
    },
};
/// A build record has a key that is not known.
pub static RECORD_KEY_UNKNOWN: Rule = Rule {
    name: "record-key-unknown",
    severity: Severity::Note,
    summary: "A build record has a key that is not known here.",
    explanation: Explanation {
        finds: "Keys in a build record that this version does not know. They are passed over, and the rest of the record is read.",
        matters: "A misspelt key is a reading or a deviation that nobody sees; a key of a newer version is something this one can't show.",
        may_be_wrong: "When another tool keeps something of its own in the file.",
        example: "{\"step\": \"tighten\", \"act\": \"torque:pinion-nut\", \"valeu\": \"78 N·m\"}",
        instead: "{\"step\": \"tighten\", \"act\": \"torque:pinion-nut\", \"value\": \"78 N·m\"}",
    },
};

/// A build record is not of its form.
pub static RECORD_MALFORMED: Rule = Rule {
    name: "record-malformed",
    severity: Severity::Warning,
    summary: "Something in a build record is not of the form that records have.",
    explanation: Explanation {
        finds: "Records of another format: or version, without a machine; ticks, readings, signatures and open items without their step, act or item; texts, whole numbers, moments and lists where something else stands; texts too long to be one, or with signs that can't be seen. What is of no form is left out; the rest of the record is read.",
        matters: "A reading that is left out can't be judged, and a build whose record is left out hears of no bulletin.",
        may_be_wrong: "When a newer version wrote the record: read it with that one.",
        example: "{\"format\": \"benchleaf-build/1\", \"machine\": \"tarn-18\", \"begun\": \"yesterday\"}",
        instead: "{\"format\": \"benchleaf-build/1\", \"machine\": \"tarn-18\", \"begun\": \"2026-09-14T18:02:00Z\"}",
    },
};

/// The rules of this stage, beside those of quantities.
pub static FORM: &[&Rule] = &[
    &ACT_UNCLEAR,
    &AFTER_RING,
    &ID_SHAPE,
    &KEY_MISSING,
    &KEY_WITHOUT_VALUE,
    &QUESTION_UNANSWERED,
    &RECORD_KEY_UNKNOWN,
    &RECORD_MALFORMED,
    &THREAD_UNREADABLE,
    &TWO_HOMES,
    &TWO_VALUES_ONE_FASTENER,
    &UNKNOWN_ID,
    &UNKNOWN_KEY,
    &UNKNOWN_VARIANT,
    &UNKNOWN_VERB,
    &FORMAT_TOO_NEW,
    &UNKNOWN_WORD,
    &USED_NOT_LISTED,
    &VALUE_OF_ANOTHER_FORM,
];
