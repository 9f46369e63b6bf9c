//! The rules of reading, with the pages that explain them.

mod body;
mod files;
mod pictures;
mod records;
mod yaml;

pub use body::{
    ACT_OUTSIDE_STEP, ADDRESS_WITH_SPACE, DOUBLED_ID, FOOTNOTE_MISSING, HEADING_OUT_OF_PLACE, HTML_NOT_LET_THROUGH,
    LINK_NOT_LET_THROUGH, LINK_WITHOUT_ADDRESS, LINK_WITHOUT_WORDS, SIGNAL_WORD_NOT_BOLD, STEP_ATTRIBUTE_UNKNOWN,
    STEP_BRACES_BROKEN, STEP_ID_MISSING, TABLE_CELL_LOST,
};
pub use files::{
    FILE_NOT_READABLE, FILE_OUT_OF_PLACE, FILE_TOO_LARGE, FRONT_MATTER_MISSING, FRONT_MATTER_UNCLOSED,
    MACHINE_HEAD_MISSING, MERGE_UNFINISHED, NAME_NOT_AN_ID, SPECIAL_FILE, SYMBOLIC_LINK_REFUSED, TEXT_NOT_UTF8, THEME_UNUSABLE, TOO_MANY_FAULTS,
};
pub use pictures::{PICTURE_MISNAMED, PICTURE_REFUSED, PICTURE_TOO_LARGE, PICTURE_UNREADABLE};
pub use records::RECORD_UNREADABLE;
pub use yaml::{DOUBLED_KEY, NESTING_TOO_DEEP, YAML_TRAP, YAML_UNREADABLE};

use crate::finding::Rule;

/// The rules that tell of a file of which nothing, or not all, could be read: what is made of the rest has holes.
pub static HOLED: &[&Rule] = &[
    &FILE_NOT_READABLE,
    &FILE_TOO_LARGE,
    &FRONT_MATTER_MISSING,
    &FRONT_MATTER_UNCLOSED,
    &MACHINE_HEAD_MISSING,
    &MERGE_UNFINISHED,
    &NESTING_TOO_DEEP,
    &TEXT_NOT_UTF8,
    &YAML_UNREADABLE,
];

/// Every rule of this stage, by name.
pub static RULES: &[&Rule] = &[
    &ACT_OUTSIDE_STEP,
    &ADDRESS_WITH_SPACE,
    &DOUBLED_ID,
    &DOUBLED_KEY,
    &FILE_NOT_READABLE,
    &FILE_OUT_OF_PLACE,
    &FILE_TOO_LARGE,
    &FOOTNOTE_MISSING,
    &FRONT_MATTER_MISSING,
    &FRONT_MATTER_UNCLOSED,
    &HEADING_OUT_OF_PLACE,
    &HTML_NOT_LET_THROUGH,
    &LINK_NOT_LET_THROUGH,
    &LINK_WITHOUT_ADDRESS,
    &LINK_WITHOUT_WORDS,
    &MACHINE_HEAD_MISSING,
    &MERGE_UNFINISHED,
    &NAME_NOT_AN_ID,
    &NESTING_TOO_DEEP,
    &PICTURE_MISNAMED,
    &PICTURE_REFUSED,
    &PICTURE_TOO_LARGE,
    &PICTURE_UNREADABLE,
    &RECORD_UNREADABLE,
    &SIGNAL_WORD_NOT_BOLD,
    &SPECIAL_FILE,
    &STEP_ATTRIBUTE_UNKNOWN,
    &STEP_BRACES_BROKEN,
    &STEP_ID_MISSING,
    &SYMBOLIC_LINK_REFUSED,
    &TABLE_CELL_LOST,
    &TEXT_NOT_UTF8,
    &THEME_UNUSABLE,
    &TOO_MANY_FAULTS,
    &YAML_TRAP,
    &YAML_UNREADABLE,
];

#[cfg(test)]
mod tests {
    use super::RULES;

    #[test]
    fn the_list_is_sorted_and_without_doubles() {
        assert!(RULES.windows(2).all(|pair| pair[0].name < pair[1].name));
    }

    #[test]
    fn every_rule_explains_itself_under_every_heading() {
        for rule in RULES {
            assert!(!rule.summary.is_empty(), "{}", rule.name);
            for (heading, text) in rule.explanation.sections() {
                assert!(text.len() >= 10, "{}: {heading}", rule.name);
            }
            assert_ne!(rule.explanation.example, rule.explanation.instead, "{}", rule.name);
        }
    }
}
