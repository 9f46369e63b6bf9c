//! Rules about YAML: the values of a manual.

use crate::finding::{Explanation, Rule, Severity};

/// A key that stands twice in one map.
pub static DOUBLED_KEY: Rule = Rule {
    name: "doubled-key",
    severity: Severity::Error,
    summary: "A key stands twice in one list of values.",
    explanation: Explanation {
        finds: "The same key twice in one map: two `torque:` lines under one fastener, two fasteners with one id in one list, `count` twice on a step's heading.",
        matters: "Only one of the two values can be meant, and programs differ in which they take. The mechanic would get one of two torques by chance. Here the first is kept, and the sheet is not published until one is gone.",
        may_be_wrong: "Never. If both values are right, they belong to two things or two variants.",
        example: "pinion-nut:\n  torque: 70 N·m\n  torque: 78 N·m",
        instead: "pinion-nut:\n  torque: {early: 70 N·m, late: 78 N·m}",
    },
};

/// Lists within lists beyond any real use.
pub static NESTING_TOO_DEEP: Rule = Rule {
    name: "nesting-too-deep",
    severity: Severity::Error,
    summary: "Lists, maps, quotes or marks are nested more than 32 deep.",
    explanation: Explanation {
        finds: "More than 32 levels of lists and maps in YAML, or of quotes, lists and emphasis in a procedure's text. What lies deeper is not read as structure.",
        matters: "No value is ever that deep. Mostly brackets were opened and never closed, and the values behind them belong elsewhere.",
        may_be_wrong: "Hardly ever: the deepest value of a real manual stands six levels down.",
        example: "torque: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[20 N·m]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]",
        instead: "torque: [20 N·m, 38 N·m]",
    },
};

/// Something YAML reads otherwise than a reader does.
pub static YAML_TRAP: Rule = Rule {
    name: "yaml-trap",
    severity: Severity::Error,
    summary: "YAML reads something else here than what a person reads.",
    explanation: Explanation {
        finds: "Spellings that YAML takes for something else without a word: a key without a value after a comma (`22,5 N·m` in braces), `5:40` or `0714` or `NO` where text is wanted, an empty block of text after `>`, a ` #` that swallows the rest of a line; and anchors, aliases, merge keys and tags, which a manual does not use.",
        matters: "`22,5 N·m` in braces becomes a torque of 22 and a stray `5 N·m`, and nothing complains. A part number `0714` becomes 460. Such a value is wrong on every sheet and looks right in the file.",
        may_be_wrong: "A word directly after ` #` may be meant as a comment: write a space after the `#`.",
        example: "cap-bolt: {torque: 22,5 N·m}",
        instead: "cap-bolt: {torque: 22.5 N·m}",
    },
};

/// A place where YAML can't be read on.
pub static YAML_UNREADABLE: Rule = Rule {
    name: "yaml-unreadable",
    severity: Severity::Error,
    summary: "The YAML can't be read at this place.",
    explanation: Explanation {
        finds: "Mistakes of writing that stop the reading of a value: brackets or quotes that are never closed, two `: ` in one value, tabs as indentation, a line indented unlike its neighbours, a value that begins with a sign YAML keeps for itself. The values around it are read all the same, entry by entry, so that one run shows every such place.",
        matters: "The entry it stands in has no values until it is mended, and guessing where a bracket was meant to close would be guessing which fastener a torque belongs to.",
        may_be_wrong: "The place is where reading failed; the cause may stand a little before it, mostly an unclosed quote or bracket.",
        example: "faces: spring: oil",
        instead: "faces: {spring: oil}",
    },
};
