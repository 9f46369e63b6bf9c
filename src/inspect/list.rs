//! Every rule there is, whichever stage finds it.

use super::{barriers, changes, counts, deferrals, fasteners, heat_work, holes, joints, links, locker_work, lockers, order, parts, patterns, pictures, safety, seals, sessions, text, torque, variants, waivers, walk, wrenches};
use crate::finding::Rule;
use crate::{manual, source};

/// The rules of this stage. A new rule adds its line here, in order.
static RULES: &[&Rule] = &[
    &wrenches::ABOVE_WRENCH_RANGE,
    &pictures::ALT_TEXT_MISSING,
    &barriers::BARRIER_CROSSED,
    &wrenches::BELOW_WRENCH_RANGE,
    &holes::BOLT_BOTTOMS,
    &links::BROKEN_OR_VAGUE_LINK,
    &holes::CLASS_DOWNGRADE,
    &torque::CLASS_THREAD_MISMATCH,
    &barriers::CLOSED_BEFORE_OPENED,
    &counts::COUNT_MISMATCH,
    &safety::COUNTERHOLD_MISSING,
    &order::COVERED_BEFORE_FINAL,
    &safety::CRITICAL_SINGLE_SIGNATURE,
    &wrenches::CROWFOOT_UNCORRECTED,
    &joints::CURE_BEFORE_FLUID,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &order::DRY_FIT_NOT_UNDONE,
    &holes::ENGAGEMENT_SHORT,
    &pictures::FIGURE_NOT_SHOWN,
    &fasteners::FINAL_TORQUE_MISSING,
    &order::FINISH_BEFORE_FIT,
    &barriers::FINISHED_WITH_OPEN_ITEMS,
    &holes::FOULS_MOVING_PART,
    &joints::GASKET_CRUSHED_EARLY,
    &counts::GASKET_REUSED,
    &safety::HAZARD_WITHOUT_PPE,
    &heat_work::HEAT_AFTER_SEAL,
    &heat_work::HEAT_OVER_PART_LIMIT,
    &parts::LISTED_NOT_USED,
    &locker_work::LOCKER_CURE_SHORT,
    &lockers::LOCKER_GRADE_MISSING,
    &locker_work::LOCKER_WET_AT_DEFERRAL,
    &locker_work::LOCKER_WITHOUT_CLEANING,
    &text::NAKED_VALUE,
    &safety::NOTICE_MISSING,
    &counts::ONE_TIME_REUSED,
    &joints::PART_AWAY,
    &patterns::PATTERN_INVALID,
    &patterns::PATTERN_MISSING,
    &pictures::PICTURE_MISSING,
    &torque::PRELOAD_OVER_PROOF,
    &counts::QUANTITY_MISMATCH,
    &seals::SEAL_ORIENTATION_MISSING,
    &heat_work::SEAL_OVER_TEMPERATURE,
    &joints::SEALANT_OPEN_TIME,
    &changes::SILENT_VALUE_CHANGE,
    &fasteners::STARTED_NEVER_FINISHED,
    &holes::SUBSTITUTION_INCOMPLETE,
    &order::TEMPORARY_LEFT_IN,
    &locker_work::THREAD_CONDITION_CONFLICT,
    &torque::THREAD_CONDITION_MISSING,
    &order::TIGHTENED_TWICE,
    &torque::TORQUE_OUTSIDE_BAND,
    &torque::UNIT_SLIP_SUSPECTED,
    &sessions::UNSAFE_SESSION_END,
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
