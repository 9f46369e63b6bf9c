//! What must hold for every quantity, tried on random ones.

#![allow(clippy::panic, reason = "a test says what went wrong by panicking")]

use benchleaf::quantity::{Dimension, Exact, Moment, MomentSpan, Quantity, Size, Unit, find_in_prose, shared_unit};
use proptest::prelude::*;

/// A positive decimal as an author writes one: one to five digits, up to four of them behind the point.
fn decimal() -> impl Strategy<Value = String> {
    (1u32..100_000, 0usize..5).prop_map(|(digits, places)| {
        let text = format!("{digits:0>width$}", width = places + 1);
        let (whole, part) = text.split_at(text.len() - places);
        if part.is_empty() { whole.to_owned() } else { format!("{whole}.{part}") }
    })
}

/// Two decimals, the first below the second.
fn rising() -> impl Strategy<Value = (String, String)> {
    (decimal(), decimal()).prop_filter_map("equal ends", |(a, b)| {
        let (first, second) = (Exact::decimal(&a)?, Exact::decimal(&b)?);
        match first.cmp(&second) {
            std::cmp::Ordering::Less => Some((a, b)),
            std::cmp::Ordering::Greater => Some((b, a)),
            std::cmp::Ordering::Equal => None,
        }
    })
}

fn any_unit() -> impl Strategy<Value = &'static Unit> {
    let units: Vec<&'static Unit> = Unit::all().iter().filter(|unit| !unit.symbol().is_empty()).collect();
    prop::sample::select(units)
}

/// Two units of one kind.
fn unit_pair() -> impl Strategy<Value = (&'static Unit, &'static Unit)> {
    let units = || Unit::all().iter().filter(|unit| !unit.symbol().is_empty());
    let pairs: Vec<_> = units().flat_map(|a| units().filter(move |b| a.dimension() == b.dimension()).map(move |b| (a, b))).collect();
    prop::sample::select(pairs)
}

fn torque_unit() -> impl Strategy<Value = &'static Unit> {
    let units: Vec<&'static Unit> = Unit::all().iter().filter(|unit| unit.dimension() == Dimension::Torque).collect();
    prop::sample::select(units)
}

/// Two units of torque.
fn torque_pair() -> impl Strategy<Value = (&'static Unit, &'static Unit)> {
    (torque_unit(), torque_unit())
}

/// A quantity in any form, as text without its unit.
fn numbers() -> impl Strategy<Value = String> {
    prop_oneof![
        decimal(),
        decimal().prop_map(|number| format!("min {number}")),
        decimal().prop_map(|number| format!("≤ {number}")),
        rising().prop_map(|(low, high)| format!("{low}–{high}")),
        rising().prop_map(|(low, high)| format!("{low} to {high}")),
        rising().prop_map(|(off_by, nominal)| format!("{nominal} ± {off_by}")),
    ]
}

fn read(text: &str, kind: Dimension) -> Quantity {
    Quantity::parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// What is shown lies within what was written, exactly, end by end.
fn check_inward(quantity: &Quantity, to: &'static Unit) -> Result<(), TestCaseError> {
    let Some(shown) = quantity.convert(to) else { return Err(TestCaseError::fail("no conversion")) };
    let (low, high) = quantity.exact_low_high();
    let (shown_low, shown_high) = shown.exact_low_high();
    let base = |value: &Exact| shown.unit().to_base(value);
    let single = matches!(quantity.form(), benchleaf::quantity::Form::Single(_));
    if single {
        return Ok(());
    }
    prop_assert_eq!(low.is_some(), shown_low.is_some());
    prop_assert_eq!(high.is_some(), shown_high.is_some());
    if let (Some(low), Some(shown_low)) = (&low, &shown_low) {
        prop_assert!(base(shown_low) >= *low, "{} shown as {}", quantity, shown);
    }
    if let (Some(high), Some(shown_high)) = (&high, &shown_high) {
        prop_assert!(base(shown_high) <= *high, "{} shown as {}", quantity, shown);
    }
    if let (Some(shown_low), Some(shown_high)) = (&shown_low, &shown_high) {
        prop_assert!(shown_low < shown_high, "{} shown as {}", quantity, shown);
        if let Some(nominal) = shown.exact_nominal() {
            prop_assert!(*shown_low < nominal && nominal < *shown_high, "{} shown as {}", quantity, shown);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        for &kind in Dimension::all() {
            let _ = Quantity::parse(&text, kind).map_err(|error| (error.to_string(), error.name(), text.get(error.span()).is_some()));
        }
        let _ = (Quantity::parse_free(&text), Size::parse(&text), Moment::parse(&text), MomentSpan::parse(&text), Unit::find(&text));
    }

    #[test]
    fn no_near_miss_makes_it_panic(text in r"(min|max|≥|<|~)?[ -]?[0-9,. /'eE:x×±–+-]{0,12}[ ]?(N·m|lbs|pt|C|°|in|\(|\)|ft-lb|K|nm|%|k|mN|é)?[0-9() –.±/]{0,8}(mm|to|max|\)|\(US\))?") {
        for kinds in [&[][..], &[Dimension::Torque], &[Dimension::Length], &[Dimension::Count], &[Dimension::Ratio, Dimension::Temperature]] {
            match Quantity::parse_any(&text, kinds) {
                Ok(quantity) => { let _ = (quantity.to_string(), quantity.spoken(), quantity.low_high()); }
                Err(error) => prop_assert!(text.get(error.span()).is_some() && !error.message().is_empty() && !error.fix().is_empty(), "{text}"),
            }
        }
        for span in find_in_prose(&text) {
            prop_assert!(text.get(span).is_some());
        }
        let _ = (Size::parse(&text), MomentSpan::parse(&text));
    }

    #[test]
    fn what_is_found_in_prose_is_in_order(text in r"([A-Za-zé,.() ]{0,6}[0-9½.,/–x-]{0,5} ?(mm|in|N·m|°|h|C|s|turns|lbs)?){0,8}") {
        let spans = find_in_prose(&text);
        for span in &spans {
            prop_assert!(!text[span.clone()].is_empty() && text[span.clone()].chars().any(|sign| sign.is_ascii_digit() || sign == '½'));
        }
        prop_assert!(spans.windows(2).all(|pair| pair[0].end <= pair[1].start));
    }

    #[test]
    fn a_clear_value_in_prose_is_found_whole(number in decimal(), unit in prop::sample::select(vec!["N·m", "mm", "°C", "lbf·ft", "kPa", "mL", "psi", "µm", "r/min"])) {
        let text = format!("Set it to {number} {unit}, then look.");
        let spans = find_in_prose(&text);
        prop_assert_eq!(spans.len(), 1);
        prop_assert_eq!(&text[spans[0].clone()], &format!("{number} {unit}"));
    }

    #[test]
    fn what_is_shown_is_read_back(numbers in numbers(), unit in any_unit()) {
        let text = format!("{numbers} {unit}");
        let Ok(quantity) = Quantity::parse(&text, unit.dimension()) else {
            // A tolerance wider than its nominal, where below zero means nothing.
            prop_assert!(numbers.contains('±'), "{}", text);
            return Ok(());
        };
        let again = read(&quantity.to_string(), unit.dimension());
        prop_assert!(quantity.same_value(&again));
        prop_assert_eq!(quantity.to_string(), again.to_string());
        prop_assert_eq!(quantity.written(), text);
    }

    #[test]
    fn every_spelling_of_a_unit_is_the_unit(number in decimal(), unit in any_unit()) {
        for spelling in std::iter::once(&unit.symbol()).chain(unit.other_spellings()) {
            let quantity = read(&format!("{number} {spelling}"), unit.dimension());
            prop_assert_eq!(quantity.unit(), unit);
        }
    }

    #[test]
    fn a_limit_never_leaves_the_authors(numbers in numbers(), (from, to) in unit_pair()) {
        if let Ok(quantity) = Quantity::parse(&format!("{numbers} {from}"), from.dimension()) {
            check_inward(&quantity, to)?;
        }
    }

    #[test]
    fn a_single_value_moves_by_one_per_cent_at_most(number in decimal(), (from, to) in unit_pair()) {
        let quantity = read(&format!("{number} {from}"), from.dimension());
        let shown = quantity.convert(to).unwrap();
        prop_assert_eq!(shown.unit(), to);
        let (Some(exact), Some(shown_value)) = (quantity.exact_nominal(), shown.exact_nominal()) else { return Err(TestCaseError::fail("no nominal")) };
        if from.dimension() == Dimension::Temperature {
            return Ok(());
        }
        let apart = (to.to_base(&shown_value) - exact.clone()).abs();
        prop_assert!(apart * Exact::whole(100) <= exact, "{} shown as {}", quantity, shown);
    }

    #[test]
    fn what_is_set_on_a_scale_is_what_is_printed(numbers in numbers(), step in decimal(), (from, to) in torque_pair(), has_step in any::<bool>()) {
        let Ok(quantity) = Quantity::parse(&format!("{numbers} {from}"), Dimension::Torque) else { return Ok(()) };
        let step = has_step.then(|| Quantity::parse(&format!("{step} {to}"), Dimension::Torque).ok()).flatten();
        let printed = quantity.on_scale(to, step.as_ref()).unwrap();
        let set = quantity.setting(to, step.as_ref(), &Exact::whole(1)).unwrap();
        prop_assert_eq!(printed.unit(), to);
        if printed.exact_nominal().is_some() {
            prop_assert!(printed.to_string() == set || printed.to_string().starts_with(&format!("{set} (")), "{} set, {} printed", set, printed);
        }
        // Nothing is set that lies outside what was asked for, but for the rounding of a single value.
        let value = read(&set, Dimension::Torque).exact_nominal().unwrap();
        let (low, high) = quantity.exact_low_high();
        let loose = |end: Exact, per_cent: i64| end.clone() * Exact::fraction(100 + i128::from(per_cent), 100).unwrap();
        prop_assert!(low.is_none_or(|low| value >= loose(low, -1)), "{} set for {}", set, quantity);
        prop_assert!(high.is_none_or(|high| value <= loose(high, 1)), "{} set for {}", set, quantity);
    }

    #[test]
    fn what_stands_together_is_told_in_one_unit(all in prop::collection::vec((numbers(), torque_unit()), 1..6), (_, to) in torque_pair()) {
        let stages: Vec<Quantity> = all.iter().filter_map(|(numbers, unit)| Quantity::parse(&format!("{numbers} {unit}"), Dimension::Torque).ok()).collect();
        let unit = shared_unit(&stages, to);
        prop_assert!(stages.iter().all(|stage| stage.convert_into(unit).is_some_and(|shown| shown.unit() == unit)));
    }

    #[test]
    fn what_is_converted_can_be_written_and_read(numbers in numbers(), (from, to) in unit_pair()) {
        let Ok(quantity) = Quantity::parse(&format!("{numbers} {from}"), from.dimension()) else { return Ok(()) };
        let shown = quantity.convert(to).unwrap();
        if shown.exact_nominal().is_none() || matches!(quantity.form(), benchleaf::quantity::Form::Single(_)) {
            let again = read(&shown.to_string(), to.dimension());
            prop_assert_eq!(again.exact_low_high().0, shown.exact_low_high().0.map(|end| shown.unit().to_base(&end)));
            prop_assert_eq!(again.exact_low_high().1, shown.exact_low_high().1.map(|end| shown.unit().to_base(&end)));
        }
    }

    #[test]
    fn conversion_keeps_the_order(a in decimal(), b in decimal(), (from, to) in unit_pair()) {
        let (a, b) = (read(&format!("{a} {from}"), from.dimension()), read(&format!("{b} {from}"), from.dimension()));
        let there = |quantity: &Quantity| to.from_base(&quantity.exact_nominal().unwrap());
        prop_assert_eq!(a.exact_nominal().cmp(&b.exact_nominal()), there(&a).cmp(&there(&b)));
        // Converting there and back is exact.
        prop_assert_eq!(to.to_base(&there(&a)), a.exact_nominal().unwrap());
    }

    #[test]
    fn a_value_and_its_own_conversion_agree(number in decimal(), (from, to) in unit_pair()) {
        let quantity = read(&format!("{number} {from}"), from.dimension());
        let text = format!("{quantity} ({})", quantity.convert(to).unwrap());
        prop_assert!(Quantity::parse(&text, from.dimension()).is_ok_and(|both| both.second().is_some()), "{}", text);
    }

    #[test]
    fn a_moment_is_read_back(seconds in 0u32..3_600_000) {
        let moment = Moment::from_seconds(seconds);
        prop_assert_eq!(Moment::parse(&moment.to_string()), Ok(moment));
    }

    #[test]
    fn a_size_is_read_back(lengths in prop::collection::vec(decimal(), 2..=3)) {
        let size = Size::parse(&format!("{} mm", lengths.join("x"))).unwrap();
        prop_assert_eq!(Size::parse(&size.to_string()).unwrap(), size);
    }
}

/// Every pair of units of a kind, not only those a random draw meets.
#[test]
fn limits_hold_for_every_pair_of_units() {
    let units = || Unit::all().iter().filter(|unit| !unit.symbol().is_empty());
    for from in units() {
        for to in units().filter(|to| to.dimension() == from.dimension()) {
            for numbers in ["10 ± 1", "70–80", "0.20–0.32", "99–101", "1000.1–1000.2", "min 0.10", "max 150", "5–350", "85 ± 5", "40 ± 1", "1/4–3/8"] {
                check_inward(&read(&format!("{numbers} {from}"), from.dimension()), to).unwrap();
            }
        }
    }
}
