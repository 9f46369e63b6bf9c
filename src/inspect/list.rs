//! Every rule there is, whichever stage finds it.

use super::{deferrals, fasteners, links, lockers, parts, pictures, seals, text, variants, waivers, walk};
use crate::finding::Rule;
use crate::{manual, source};

/// The rules of this stage. A new rule adds its line here, in order.
static RULES: &[&Rule] = &[
    &pictures::ALT_TEXT_MISSING,
    &links::BROKEN_OR_VAGUE_LINK,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &pictures::FIGURE_NOT_SHOWN,
    &fasteners::FINAL_TORQUE_MISSING,
    &parts::LISTED_NOT_USED,
    &lockers::LOCKER_GRADE_MISSING,
    &text::NAKED_VALUE,
    &pictures::PICTURE_MISSING,
    &seals::SEAL_ORIENTATION_MISSING,
    &fasteners::STARTED_NEVER_FINISHED,
    &variants::VARIANT_GAP,
    &variants::VARIANT_OVERLAP,
    &walk::VARIANTS_TOO_MANY,
    &waivers::WAIVER_EXPIRED,
    &text::WARNING_AFTER_STEP,
];

/// Every rule of every stage, by name.
#[must_use]
pub fn rules() -> Vec<&'static Rule> {
    let mut all: Vec<&Rule> =
        [RULES, manual::rules::FORM, manual::QUANTITY_RULES, source::RULES].into_iter().flatten().copied().collect();
    all.sort_by_key(|rule| rule.name);
    all
}

/// The rule of a name.
#[must_use]
pub fn rule(name: &str) -> Option<&'static Rule> {
    rules().into_iter().find(|rule| rule.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_are_sorted_named_once_and_explained() {
        assert!(RULES.windows(2).all(|pair| pair[0].name < pair[1].name));
        let all = rules();
        assert!(all.windows(2).all(|pair| pair[0].name < pair[1].name), "a name stands twice");
        for rule in all {
            assert!(rule.name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-'), "{}", rule.name);
            assert!(rule.summary.ends_with('.'), "{}", rule.name);
            for (heading, text) in rule.explanation.sections() {
                assert!(!text.trim().is_empty(), "{}: {heading} is empty", rule.name);
            }
        }
    }
}
