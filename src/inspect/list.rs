//! Every rule there is, whichever stage finds it.

use super::{against_list, amounts, balloons, barriers, bearings, bolts, burdens, chains, changes, claims, counts, deferrals, fasteners, film, fits, harvest, heat_checks, heat_work, held, holds, holes, joints, kits, links, live, locker_choice, locker_place, locker_work, lockers, locking, measures, order, overload, parts, patterns, phrases, pictures, pressures, put_back, readings, records, retorque, reuse, rings, safety, seal_fit, seal_sides, seal_tracks, sealants, seals, sent_away, sessions, shims, sides, slips, sourced, spares, stages, starts, still_on, swaps, text, torque, turning, vague, vapour, variant_links, variants, waits, waivers, walk, wrenches};
use crate::finding::Rule;
use crate::{manual, source};

/// The rules of this stage. A new rule adds its line here, in order.
static RULES: &[&Rule] = &[
    &wrenches::ABOVE_WRENCH_RANGE,
    &pictures::ALT_TEXT_MISSING,
    &stages::ANGLE_INCOMPLETE,
    &chains::ARC_TO_DEGREES,
    &readings::BACKLASH_RADIUS,
    &balloons::BALLOON_MISMATCH,
    &barriers::BARRIER_CROSSED,
    &amounts::BEAD_AMOUNT,
    &sides::BEARING_SIDE_MISSING,
    &wrenches::BELOW_WRENCH_RANGE,
    &holes::BOLT_BOTTOMS,
    &links::BROKEN_OR_VAGUE_LINK,
    &records::values::BULLETIN_AFFECTS_BUILD,
    &heat_checks::CHILL_MOISTURE,
    &sides::CIRCLIP_ORIENTATION,
    &claims::CLAIM_OR_UNDISCLOSED,
    &holes::CLASS_DOWNGRADE,
    &torque::CLASS_THREAD_MISMATCH,
    &chains::CLEARANCE_CHAIN,
    &barriers::CLOSED_BEFORE_OPENED,
    &sealants::COATING_UNDER_CLAMP,
    &readings::CONDITION_MISSING,
    &amounts::CONSUMABLE_SHORT,
    &counts::COUNT_MISMATCH,
    &safety::COUNTERHOLD_MISSING,
    &still_on::COVER_STILL_ON,
    &order::COVERED_BEFORE_FINAL,
    &safety::CRITICAL_SINGLE_SIGNATURE,
    &variant_links::CROSS_VARIANT_LINK,
    &wrenches::CROWFOOT_UNCORRECTED,
    &joints::CURE_BEFORE_FLUID,
    &retorque::CURED_JOINT_RELEASED,
    &rings::DEFERRAL_CYCLE,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &heat_checks::DELTA_VERSUS_ABSOLUTE,
    &harvest::DESTRUCTIVE_HARVEST,
    &bolts::DISSIMILAR_METAL,
    &seal_sides::DOUBLE_SEAL_PAIR,
    &readings::DRAG_FORCE,
    &seal_tracks::DRAG_WITH_SEALS,
    &bolts::DRIVER_MISMATCH,
    &order::DRY_FIT_NOT_UNDONE,
    &bearings::EITHER_WAY_NOT_DECLARED,
    &holes::ENGAGEMENT_SHORT,
    &bolts::FALSE_PRECISION,
    &pictures::FIGURE_NOT_SHOWN,
    &fasteners::FINAL_TORQUE_MISSING,
    &order::FINISH_BEFORE_FIT,
    &records::signatures::FINISHED_WITH_GAPS,
    &barriers::FINISHED_WITH_OPEN_ITEMS,
    &burdens::FOOD_CONTAINER,
    &chains::FORMULA_UNREADABLE,
    &holes::FOULS_MOVING_PART,
    &joints::GASKET_CRUSHED_EARLY,
    &counts::GASKET_REUSED,
    &pressures::GAUGE_OR_ABSOLUTE,
    &safety::HAZARD_WITHOUT_PPE,
    &heat_work::HEAT_AFTER_SEAL,
    &vapour::HEAT_HAZARD,
    &fits::HEAT_INSUFFICIENT,
    &heat_work::HEAT_OVER_PART_LIMIT,
    &held::HELD_PART_MISSING,
    &locker_choice::HIGH_STRENGTH_WHERE_SERVICED,
    &holds::HOLD_POINT_MISSING,
    &vapour::IGNITION_AND_VAPOUR,
    &live::IGNITION_LIVE,
    &locker_choice::INACTIVE_SURFACE,
    &slips::INCH_MM_SLIP,
    &swaps::INHERITED_VALUE_UNCHECKED,
    &measures::INSTRUMENT_TOO_COARSE,
    &sides::LEFT_HAND_UNMARKED,
    &burdens::LIFT,
    &measures::LIMIT_INSIDE_SPEC,
    &seal_fit::LIP_OVER_EDGE,
    &parts::LISTED_NOT_USED,
    &holds::LOAD_BEFORE_SIGNOFF,
    &locking::LOCK_LEFT_OUT,
    &locking::LOCK_METHOD_SWAPPED,
    &phrases::LOCKER_BY_COLOUR_OR_NAME,
    &locker_work::LOCKER_CURE_SHORT,
    &lockers::LOCKER_GRADE_MISSING,
    &locker_place::LOCKER_ON_FITTED_THREAD,
    &locker_choice::LOCKER_ON_PLASTIC,
    &locker_choice::LOCKER_THREAD_RANGE,
    &locker_work::LOCKER_WET_AT_DEFERRAL,
    &locker_work::LOCKER_WITHOUT_CLEANING,
    &bearings::LOOK_ALIKE_BEARINGS,
    &sourced::MACHINE_TEXT_UNCONFIRMED,
    &measures::MEASUREMENT_WITHOUT_SPEC,
    &amounts::MIX_RATIO,
    &bolts::MIXED_LENGTHS_UNMAPPED,
    &text::NAKED_VALUE,
    &measures::NO_ACTION_WHEN_OUT,
    &heat_checks::NO_TEMPERATURE_CHECK,
    &kits::NOT_IN_KIT,
    &safety::NOTICE_MISSING,
    &counts::ONE_TIME_REUSED,
    &records::signatures::OPEN_ITEM_NOT_CARRIED,
    &overload::OVERLOADED_STEP,
    &joints::PART_AWAY,
    &put_back::PART_NOT_PUT_BACK,
    &reuse::PART_NUMBER_SHAPE,
    &patterns::PATTERN_INVALID,
    &patterns::PATTERN_MISSING,
    &pictures::PICTURE_MISSING,
    &chains::PLATES_OUT_OF_TURN,
    &torque::PRELOAD_OVER_PROOF,
    &bearings::PRESS_THROUGH_ROLLING_ELEMENTS,
    &pressures::PRESSURE_SLIP,
    &locking::PREVAILING_TORQUE_IGNORED,
    &phrases::PROMISE_PHRASE,
    &counts::QUANTITY_MISMATCH,
    &records::values::READING_OUT_OF_LIMIT,
    &records::values::READING_UNCLEAR,
    &records::names::RECORD_MISFILED,
    &records::names::RECORD_NAMES_UNKNOWN,
    &records::names::RECORD_VARIANT_WRONG,
    &retorque::RETORQUE_CONFLICT,
    &reuse::REUSE_WITHOUT_CONDITION,
    &locking::ROTATING_JOINT_UNLOCKED,
    &turning::ROTATION_SENSE_MISSING,
    &readings::RUNOUT_HALVED,
    &seal_fit::SEAL_DEPTH_OR_VENT,
    &seal_fit::SEAL_LUBE,
    &seal_tracks::SEAL_ON_WORN_TRACK,
    &seals::SEAL_ORIENTATION_MISSING,
    &seal_tracks::SEAL_ORIENTATION_RELATIVE,
    &heat_work::SEAL_OVER_TEMPERATURE,
    &seal_fit::SEAL_SIZE_MISMATCH,
    &sealants::SEALANT_MEDIUM,
    &sealants::SEALANT_ON_DRY_GASKET,
    &joints::SEALANT_OPEN_TIME,
    &sealants::SEALING_WASHER_COUNT,
    &shims::SHIM_ARITHMETIC,
    &shims::SHIM_NOT_AVAILABLE,
    &records::signatures::SIGNED_TWICE_BY_ONE,
    &film::SILENT_SPAN,
    &changes::SILENT_VALUE_CHANGE,
    &waits::SOAK_MEDIUM_MISSING,
    &sent_away::SOFT_PART_SENT_AWAY,
    &sourced::SOURCE_MISSING,
    &spares::SPARE_MISSING,
    &seal_sides::SPRING_SIDE_WRONG_MEDIUM,
    &chains::STACK_HEIGHT,
    &sides::STACK_ORDER_INCOMPLETE,
    &stages::STAGES_NOT_RISING,
    &locking::STAKING_MISUSE,
    &starts::START_STATE_MISSING,
    &fasteners::STARTED_NEVER_FINISHED,
    &records::values::STATE_PRINT_STALE,
    &phrases::STEP_WITHOUT_INSTRUCTION,
    &swaps::STOCK_ON_AFTERMARKET,
    &burdens::STORED_ENERGY,
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
    &waits::WAIT_VAGUE,
    &waivers::WAIVER_EXPIRED,
    &text::WARNING_AFTER_STEP,
    &locking::WITNESS_MARK_MISSING,
    &against_list::WORDS_AGAINST_LIST,
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
