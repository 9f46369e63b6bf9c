//! Every rule there is, whichever stage finds it.

use super::{balloons, barriers, chains, changes, claims, counts, deferrals, fasteners, film, fits, heat_work, holds, holes, joints, kits, links, live, locker_work, lockers, measures, order, overload, parts, patterns, phrases, pictures, reuse, rings, safety, seal_fit, seal_sides, seals, sessions, sides, slips, sourced, stages, starts, text, torque, turning, vague, variant_links, variants, waits, waivers, walk, wrenches};
use crate::finding::Rule;
use crate::{manual, source};

/// The rules of this stage. A new rule adds its line here, in order.
static RULES: &[&Rule] = &[
    &wrenches::ABOVE_WRENCH_RANGE,
    &pictures::ALT_TEXT_MISSING,
    &stages::ANGLE_INCOMPLETE,
    &chains::ARC_TO_DEGREES,
    &balloons::BALLOON_MISMATCH,
    &barriers::BARRIER_CROSSED,
    &sides::BEARING_SIDE_MISSING,
    &wrenches::BELOW_WRENCH_RANGE,
    &holes::BOLT_BOTTOMS,
    &links::BROKEN_OR_VAGUE_LINK,
    &sides::CIRCLIP_ORIENTATION,
    &claims::CLAIM_OR_UNDISCLOSED,
    &holes::CLASS_DOWNGRADE,
    &torque::CLASS_THREAD_MISMATCH,
    &chains::CLEARANCE_CHAIN,
    &barriers::CLOSED_BEFORE_OPENED,
    &counts::COUNT_MISMATCH,
    &safety::COUNTERHOLD_MISSING,
    &order::COVERED_BEFORE_FINAL,
    &safety::CRITICAL_SINGLE_SIGNATURE,
    &variant_links::CROSS_VARIANT_LINK,
    &wrenches::CROWFOOT_UNCORRECTED,
    &joints::CURE_BEFORE_FLUID,
    &rings::DEFERRAL_CYCLE,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &seal_sides::DOUBLE_SEAL_PAIR,
    &order::DRY_FIT_NOT_UNDONE,
    &holes::ENGAGEMENT_SHORT,
    &pictures::FIGURE_NOT_SHOWN,
    &fasteners::FINAL_TORQUE_MISSING,
    &order::FINISH_BEFORE_FIT,
    &barriers::FINISHED_WITH_OPEN_ITEMS,
    &chains::FORMULA_UNREADABLE,
    &holes::FOULS_MOVING_PART,
    &joints::GASKET_CRUSHED_EARLY,
    &counts::GASKET_REUSED,
    &safety::HAZARD_WITHOUT_PPE,
    &heat_work::HEAT_AFTER_SEAL,
    &fits::HEAT_INSUFFICIENT,
    &heat_work::HEAT_OVER_PART_LIMIT,
    &holds::HOLD_POINT_MISSING,
    &live::IGNITION_LIVE,
    &slips::INCH_MM_SLIP,
    &measures::INSTRUMENT_TOO_COARSE,
    &sides::LEFT_HAND_UNMARKED,
    &measures::LIMIT_INSIDE_SPEC,
    &seal_fit::LIP_OVER_EDGE,
    &parts::LISTED_NOT_USED,
    &holds::LOAD_BEFORE_SIGNOFF,
    &phrases::LOCKER_BY_COLOUR_OR_NAME,
    &locker_work::LOCKER_CURE_SHORT,
    &lockers::LOCKER_GRADE_MISSING,
    &locker_work::LOCKER_WET_AT_DEFERRAL,
    &locker_work::LOCKER_WITHOUT_CLEANING,
    &sourced::MACHINE_TEXT_UNCONFIRMED,
    &measures::MEASUREMENT_WITHOUT_SPEC,
    &text::NAKED_VALUE,
    &measures::NO_ACTION_WHEN_OUT,
    &kits::NOT_IN_KIT,
    &safety::NOTICE_MISSING,
    &counts::ONE_TIME_REUSED,
    &overload::OVERLOADED_STEP,
    &joints::PART_AWAY,
    &reuse::PART_NUMBER_SHAPE,
    &patterns::PATTERN_INVALID,
    &patterns::PATTERN_MISSING,
    &pictures::PICTURE_MISSING,
    &chains::PLATES_OUT_OF_TURN,
    &torque::PRELOAD_OVER_PROOF,
    &phrases::PROMISE_PHRASE,
    &counts::QUANTITY_MISMATCH,
    &reuse::REUSE_WITHOUT_CONDITION,
    &turning::ROTATION_SENSE_MISSING,
    &seal_fit::SEAL_DEPTH_OR_VENT,
    &seal_fit::SEAL_LUBE,
    &seals::SEAL_ORIENTATION_MISSING,
    &heat_work::SEAL_OVER_TEMPERATURE,
    &seal_fit::SEAL_SIZE_MISMATCH,
    &joints::SEALANT_OPEN_TIME,
    &film::SILENT_SPAN,
    &changes::SILENT_VALUE_CHANGE,
    &waits::SOAK_MEDIUM_MISSING,
    &sourced::SOURCE_MISSING,
    &seal_sides::SPRING_SIDE_WRONG_MEDIUM,
    &chains::STACK_HEIGHT,
    &sides::STACK_ORDER_INCOMPLETE,
    &stages::STAGES_NOT_RISING,
    &starts::START_STATE_MISSING,
    &fasteners::STARTED_NEVER_FINISHED,
    &phrases::STEP_WITHOUT_INSTRUCTION,
    &holes::SUBSTITUTION_INCOMPLETE,
    &order::TEMPORARY_LEFT_IN,
    &measures::TEST_INCOMPLETE,
    &locker_work::THREAD_CONDITION_CONFLICT,
    &torque::THREAD_CONDITION_MISSING,
    &order::TIGHTENED_TWICE,
    &film::TIMECODE_ORDER,
    &turning::TIMING_NOT_RECHECKED,
    &torque::TORQUE_OUTSIDE_BAND,
    &torque::UNIT_SLIP_SUSPECTED,
    &sessions::UNSAFE_SESSION_END,
    &vague::VAGUE_ADJUSTMENT,
    &vague::VAGUE_TIGHTNESS,
    &variants::VARIANT_GAP,
    &variants::VARIANT_OVERLAP,
    &walk::VARIANTS_TOO_MANY,
    &waits::WAIT_COULD_START_EARLIER,
    &waits::WAIT_SKIPPED,
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
