//! Rules of quantities: what a number and its unit can have wrong.

use crate::finding::{Explanation, Rule, Severity};

/// A number has no unit.
pub(super) static UNIT_MISSING: Rule = Rule {
    name: "unit-missing",
    severity: Severity::Error,
    summary: "A number has no unit.",
    explanation: Explanation {
        finds: "A number where a quantity is wanted, with no unit behind it.",
        matters: "The same number is a tight bolt in one unit and a broken one in another.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "carrier-inner: {depth: 10}",
        instead: "carrier-inner: {depth: 10 mm}",
    },
};

/// A torque has no unit.
pub(super) static TORQUE_UNIT_MISSING: Rule = Rule {
    name: "torque-unit-missing",
    severity: Severity::Error,
    summary: "A torque has no unit.",
    explanation: Explanation {
        finds: "A number without a unit in a torque.",
        matters: "25 N·m and 25 lbf·ft differ by a third, 25 kgf·cm by ten times.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "cap-bolt: {torque: 25}",
        instead: "cap-bolt: {torque: 25 N·m}",
    },
};

/// A unit can mean two things.
pub(super) static UNIT_AMBIGUOUS: Rule = Rule {
    name: "unit-ambiguous",
    severity: Severity::Error,
    summary: "A unit can mean two things.",
    explanation: Explanation {
        finds: "Ranges and tolerances whose two ends have different units, so that nobody knows which of them holds. Torques, volumes and temperatures in doubtful units have rules of their own.",
        matters: "Both readings look sensible, one of them breaks the part.",
        may_be_wrong: "Never: write both ends in the unit of your source. A value may be given in a second unit, in brackets.",
        example: "backlash: {spec: 0.12 mm – 0.009 in}",
        instead: "backlash: {spec: 0.12–0.22 mm}",
    },
};

/// A torque's unit can mean two things.
pub(super) static TORQUE_UNIT_AMBIGUOUS: Rule = Rule {
    name: "torque-unit-ambiguous",
    severity: Severity::Error,
    summary: "A torque's unit can mean two things.",
    explanation: Explanation {
        finds: "Torques in ‘lbs’, ‘kg’, ‘pounds’ and the like: units of force or mass, not of torque. The likely meanings are computed.",
        matters: "9 lbf·ft and 9 lbf·in differ by twelve.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "cap-bolt: {torque: 9 lbs}",
        instead: "cap-bolt: {torque: 9 lbf·ft}",
    },
};

/// A unit is not known.
pub(super) static UNIT_UNKNOWN: Rule = Rule {
    name: "unit-unknown",
    severity: Severity::Error,
    summary: "A unit is not known.",
    explanation: Explanation {
        finds: "Units that are in no list of units; the nearest known spelling is offered.",
        matters: "A unit that is not understood can't be converted or compared.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "cap-bolt: {torque: 24 Nmm2}",
        instead: "cap-bolt: {torque: 24 N·m}",
    },
};

/// A unit measures something else.
pub(super) static UNIT_OF_ANOTHER_KIND: Rule = Rule {
    name: "unit-of-another-kind",
    severity: Severity::Error,
    summary: "A unit measures something else.",
    explanation: Explanation {
        finds: "Units of another kind than the key wants: a length as a torque, a rise of temperature as a temperature.",
        matters: "Two columns were swapped, or a digit slipped into the wrong row.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "cap-bolt: {torque: 24 mm}",
        instead: "cap-bolt: {torque: 24 N·m}",
    },
};

/// Two units disagree.
pub(super) static DUAL_UNIT_MISMATCH: Rule = Rule {
    name: "dual-unit-mismatch",
    severity: Severity::Error,
    summary: "Two units disagree.",
    explanation: Explanation {
        finds: "Values written in two units that differ by more than their last digits allow. Both are converted.",
        matters: "The reader trusts whichever his wrench shows.",
        may_be_wrong: "Never: one of the two is wrong. Write the one of your source; the other is worked out from it.",
        example: "pump-cap-bolt: {torque: 24 N·m (28 lbf·ft)}",
        instead: "pump-cap-bolt: {torque: 24 N·m (17.7 lbf·ft)}",
    },
};

/// A comma in a number can mean two things.
pub(super) static DECIMAL_COMMA_OR_THOUSAND: Rule = Rule {
    name: "decimal-comma-or-thousand",
    severity: Severity::Error,
    summary: "A comma in a number can mean two things.",
    explanation: Explanation {
        finds: "Decimal commas and thousands separators. The likely meanings are computed.",
        matters: "1,500 is one and a half here and fifteen hundred there.",
        may_be_wrong: "Never: write a point for the decimals and nothing between the thousands.",
        example: "cap-bolt: {torque: '22,5 N·m'}",
        instead: "cap-bolt: {torque: 22.5 N·m}",
    },
};

/// A range runs backwards.
pub(super) static RANGE_REVERSED: Rule = Rule {
    name: "range-reversed",
    severity: Severity::Error,
    summary: "A range runs backwards.",
    explanation: Explanation {
        finds: "Ranges whose low end is above the high end.",
        matters: "Swapped, or one digit wrong: the reader can't tell which.",
        may_be_wrong: "Never: look in your source, and write the low end first.",
        example: "end-float: {spec: 0.24–0.18 mm}",
        instead: "end-float: {spec: 0.18–0.24 mm}",
    },
};

/// A number can't be read.
pub(super) static NUMBER_UNREADABLE: Rule = Rule {
    name: "number-unreadable",
    severity: Severity::Error,
    summary: "A number can't be read.",
    explanation: Explanation {
        finds: "Text where a number with a unit is wanted, numbers in powers of ten, numbers beyond all measure.",
        matters: "A value that can't be read can't be checked, converted or printed.",
        may_be_wrong: "Where words are all there is: put them in note:, and give a range or a limit beside them.",
        example: "cap-bolt: {torque: about 24}",
        instead: "cap-bolt: {torque: 22–26 N·m}",
    },
};

/// A volume in ounces, pints, quarts or gallons does not say whose.
pub(super) static VOLUME_UNIT_AMBIGUOUS: Rule = Rule {
    name: "volume-unit-ambiguous",
    severity: Severity::Error,
    summary: "A volume in ounces, pints, quarts or gallons does not say whose.",
    explanation: Explanation {
        finds: "fl oz, pt, qt and gal without (US) or (imp); both are computed.",
        matters: "An imperial pint is a fifth more than a US one: the seal leaks, or the gears run dry.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "gear-oil: {amount: 12 fl oz}",
        instead: "gear-oil: {amount: 12 fl oz (US)}",
    },
};

/// Degrees don't say of which scale.
pub(super) static TEMPERATURE_UNIT_MISSING: Rule = Rule {
    name: "temperature-unit-missing",
    severity: Severity::Error,
    summary: "Degrees don't say of which scale.",
    explanation: Explanation {
        finds: "Temperatures in degrees, C or F alone; both readings are computed.",
        matters: "90 °C opens an aluminium bore, 90 °F does not.",
        may_be_wrong: "Never: write the unit of your source, as the source has it.",
        example: "warm-carrier: {to: 90 degrees}",
        instead: "warm-carrier: {to: 90 °C}",
    },
};

/// The rule a quantity's error belongs to.
#[must_use]
pub(super) fn of_quantity(name: &str) -> &'static Rule {
    match name {
        "unit-missing" => &UNIT_MISSING,
        "torque-unit-missing" => &TORQUE_UNIT_MISSING,
        "unit-ambiguous" => &UNIT_AMBIGUOUS,
        "torque-unit-ambiguous" => &TORQUE_UNIT_AMBIGUOUS,
        "unit-unknown" => &UNIT_UNKNOWN,
        "unit-of-another-kind" => &UNIT_OF_ANOTHER_KIND,
        "dual-unit-mismatch" => &DUAL_UNIT_MISMATCH,
        "decimal-comma-or-thousand" => &DECIMAL_COMMA_OR_THOUSAND,
        "range-reversed" => &RANGE_REVERSED,
        "number-unreadable" => &NUMBER_UNREADABLE,
        "volume-unit-ambiguous" => &VOLUME_UNIT_AMBIGUOUS,
        "temperature-unit-missing" => &TEMPERATURE_UNIT_MISSING,
        _ => &NUMBER_UNREADABLE,
    }
}

/// The few words under the caret.
#[must_use]
pub(super) fn label(name: &str) -> &'static str {
    match name {
        "unit-missing" => "no unit",
        "torque-unit-missing" => "no unit",
        "unit-ambiguous" => "which unit?",
        "torque-unit-ambiguous" => "which unit?",
        "unit-unknown" => "not a unit we know",
        "unit-of-another-kind" => "measures something else",
        "dual-unit-mismatch" => "these two disagree",
        "decimal-comma-or-thousand" => "a comma or gap",
        "range-reversed" => "not from low to high",
        "number-unreadable" => "can't be read",
        "volume-unit-ambiguous" => "whose?",
        "temperature-unit-missing" => "of which scale?",
        _ => "",
    }
}
/// The rules of quantities.
pub static QUANTITY: &[&Rule] = &[
    &DECIMAL_COMMA_OR_THOUSAND,
    &DUAL_UNIT_MISMATCH,
    &NUMBER_UNREADABLE,
    &RANGE_REVERSED,
    &TEMPERATURE_UNIT_MISSING,
    &TORQUE_UNIT_AMBIGUOUS,
    &TORQUE_UNIT_MISSING,
    &UNIT_AMBIGUOUS,
    &UNIT_MISSING,
    &UNIT_OF_ANOTHER_KIND,
    &UNIT_UNKNOWN,
    &VOLUME_UNIT_AMBIGUOUS,
];
