//! What must hold for every value: round trips, proposals that pass their own check, limits that only shrink, and no
//! panic on anything.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail by panicking, as the tests do")]

use benchleaf::trade::backlash::BacklashRadii;
use benchleaf::trade::clearance::{Span, clearance};
use benchleaf::trade::engagement::{BoltedHole, InternalMaterial};
use benchleaf::trade::fit::{Interference, Warmed, growth_mm};
use benchleaf::trade::formula::Formula;
use benchleaf::trade::friction::ThreadCondition;
use benchleaf::trade::locker::{ThreadRange, cure_at, outside_service_k};
use benchleaf::trade::order::{Layout, Position, check, loosening, propose};
use benchleaf::trade::preload::{JointFriction, Seat, long_preload_n, long_torque_nm, power_screw_nut_factor, preload_at_yield_n, preload_n, torque_nm};
use benchleaf::trade::property::PropertyClass;
use benchleaf::trade::reread::{TorqueUnit, readings};
use benchleaf::trade::scatter::{TorqueLimits, preload_limits, statistics};
use benchleaf::trade::screening::{Role, ScreenedJoint, Standing};
use benchleaf::trade::seal::{Medium, Rubber, covers_vent, shaft_mismatch_mm};
use benchleaf::trade::shim::{ShimSeries, choose, misses_by_mm};
use benchleaf::trade::strip::strip_loads;
use benchleaf::trade::thread::Thread;
use benchleaf::trade::thread_form::metric_form;
use benchleaf::trade::wrench::{Adapter, Wrench, best, joint_torque_nm, set_value_nm};
use proptest::prelude::*;

fn anything() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        -1e3..1e3_f64,
        prop::sample::select(vec![0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN_POSITIVE, 1e300, -1.0]),
    ]
}

fn a_thread() -> impl Strategy<Value = Thread> {
    prop::sample::select(vec!["M3x0.5", "M6x1", "M8x1.25", "M8x1", "M12x1.25", "M20x2.5", "M2x0.4", "1/4-20 UNC", "#10-32 UNF", "1-8 UNC"])
        .prop_map(|text| Thread::parse(text).unwrap())
}

fn a_layout() -> impl Strategy<Value = Layout> {
    let position = (-200.0..200.0_f64, -200.0..200.0_f64).prop_map(|(x_mm, y_mm)| Position { x_mm, y_mm });
    prop_oneof![
        (1_usize..80).prop_map(Layout::Circle),
        prop::collection::vec(0_usize..12, 1..5).prop_map(Layout::Rows),
        prop::collection::vec(position, 1..24).prop_map(Layout::Positions),
    ]
}

proptest! {
    #[test]
    fn torque_and_preload_undo_each_other(torque in 0.1..1000.0_f64, diameter in 2.0..64.0_f64, factor in 0.05..0.4_f64) {
        let force = preload_n(torque, diameter, factor).unwrap();
        prop_assert!((torque_nm(force, diameter, factor).unwrap() / torque - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_long_form_undoes_itself(thread in a_thread(), torque in 0.1..1000.0_f64, thread_mu in 0.0..0.4_f64, seat_mu in 0.0..0.4_f64) {
        let (form, friction) = (thread.form(), JointFriction { thread: thread_mu, seat: seat_mu });
        let seat = Seat { outside_mm: 1.6 * form.major_mm, hole_mm: 1.1 * form.major_mm };
        let force = long_preload_n(&form, seat, friction, torque).unwrap();
        prop_assert!((long_torque_nm(&form, seat, friction, force).unwrap() / torque - 1.0).abs() < 1e-12);
    }

    // A rougher thread makes less preload, and the plausible torques of a role stand inside it.
    #[test]
    fn plausible_torques_stand_inside_their_band(thread in a_thread(), share in 0.0..1.0_f64) {
        let class = PropertyClass::assumed(&thread);
        for (_, condition) in ThreadCondition::WORDS {
            for (_, role) in Role::WORDS {
                let Ok(joint) = ScreenedJoint::new(&thread, class, condition, role) else { continue };
                let Some(band) = joint.plausible_torque_nm() else { continue };
                let torque = band.low + share * (band.high - band.low);
                let spread = joint.share(torque).unwrap();
                prop_assert!(spread.low <= spread.mid && spread.mid <= spread.high);
                prop_assert_eq!(joint.standing(torque), Some(Standing::Inside));
                for unit in TorqueUnit::ALL {
                    // Whatever unit it is written in, the right one is offered.
                    let number = torque / TorqueUnit::NewtonMetre.newton_metres();
                    let offered = readings(number * 0.999_999, unit, &joint);
                    let right = offered.iter().any(|reading| reading.unit == TorqueUnit::NewtonMetre);
                    prop_assert!(right || unit == TorqueUnit::NewtonMetre || share < 1e-4);
                    prop_assert!(offered.iter().all(|reading| reading.unit != unit));
                }
            }
        }
    }

    #[test]
    fn proposed_orders_pass_their_own_check(layout in a_layout()) {
        if let Ok(order) = propose(&layout) {
            let checked = check(&layout, &order).unwrap();
            prop_assert!(checked.faults.is_empty(), "{:?} {:?} {:?}", layout, order, checked.faults);
            let mut backwards = loosening(&order);
            backwards.reverse();
            prop_assert_eq!(backwards, order);
        }
    }

    #[test]
    fn an_order_short_of_a_bolt_or_with_one_twice_is_found(layout in a_layout(), at in any::<prop::sample::Index>()) {
        if let Ok(order) = propose(&layout) {
            let at = at.index(order.len());
            let mut short = order.clone();
            short.remove(at);
            prop_assert!(!check(&layout, &short).unwrap().faults.is_empty());
            if order.len() > 1 {
                let mut twice = order.clone();
                twice[at] = order[(at + 1) % order.len()];
                prop_assert!(!check(&layout, &twice).unwrap().faults.is_empty());
            }
        }
    }

    #[test]
    fn a_setting_through_an_adapter_reaches_the_joint(torque in 1.0..500.0_f64, length in 100.0..900.0_f64, offset in 0.0..90.0_f64, angle in -180.0..180.0_f64) {
        let adapter = Adapter { length_mm: offset, angle_deg: angle };
        let set = set_value_nm(torque, length, adapter).unwrap();
        prop_assert!((joint_torque_nm(set, length, adapter).unwrap() / torque - 1.0).abs() < 1e-12);
    }

    // No reading inside the dial's limits lies outside the limits at the gear, and no further step would fit.
    #[test]
    fn dial_limits_only_shrink(low in 0.01..0.5_f64, width in 0.0..0.5_f64, gear in 10.0..200.0_f64, dial in 10.0..200.0_f64, step in prop::sample::select(vec![0.001, 0.01, 0.02])) {
        let radii = BacklashRadii { gear_mm: gear, dial_mm: dial };
        let limits = Span::new(low, low + width).unwrap();
        if let Some(shown) = radii.limits_at_dial(limits, step) {
            for reading in [shown.low_mm, shown.high_mm] {
                let backlash = radii.at_gear_mm(reading).unwrap();
                prop_assert!(limits.low_mm - 1e-9 <= backlash && backlash <= limits.high_mm + 1e-9);
            }
            prop_assert!(radii.at_gear_mm(shown.low_mm - step).unwrap() < limits.low_mm);
            prop_assert!(radii.at_gear_mm(shown.high_mm + step).unwrap() > limits.high_mm);
        }
    }

    // Inside the series one neighbour lies within a step on each side, the best within half of one; what it gives,
    // put back into the formula, asks for it.
    #[test]
    fn a_shim_lies_within_a_step(old in 0.5..3.0_f64, reading in 0.0..1.0_f64, target in 0.0..1.0_f64, step in prop::sample::select(vec![0.01, 0.05, 0.1])) {
        let formula = Formula::parse("old + reading - target").unwrap();
        let value = |name: &str| match name { "old" => Some(old), "reading" => Some(reading), "target" => Some(target), _ => None };
        let series = ShimSeries::new(0.1, 6.0, step).unwrap();
        let choice = choose(&formula, &value, series, None).unwrap();
        if (0.1..5.9).contains(&choice.exact_mm) {
            let best = choice.best().unwrap();
            prop_assert_eq!(misses_by_mm(best.size_mm, choice.exact_mm, step), None);
            prop_assert!(choice.below.is_some_and(|below| choice.exact_mm - below.size_mm < step + 1e-6));
            prop_assert!(choice.above.is_none_or(|above| above.size_mm - choice.exact_mm < step + 1e-6));
            let gives = best.gives_mm.unwrap();
            let again = formula.evaluate(&|name: &str| if name == "target" { Some(gives) } else { value(name) }).unwrap();
            prop_assert!((again - best.size_mm).abs() < 1e-9);
        }
    }

    #[test]
    fn clearances_hold_every_pair(hole_low in 10.0..20.0_f64, hole_width in 0.0..0.1_f64, part_low in 9.0..20.0_f64, part_width in 0.0..0.1_f64, a in 0.0..1.0_f64, b in 0.0..1.0_f64) {
        let hole = Span::new(hole_low, hole_low + hole_width).unwrap();
        let part = Span::new(part_low, part_low + part_width).unwrap();
        let found = clearance(hole, part).unwrap();
        prop_assert!(found.holds(hole_low + a * hole_width - part_low - b * part_width));
    }

    // A formula made of sums and products of known names comes to what the same sums and products come to here.
    #[test]
    fn formulas_reckon_as_arithmetic_does(a in -9.0..9.0_f64, b in -9.0..9.0_f64, c in 1.0..9.0_f64) {
        let value = |name: &str| match name { "a" => Some(a), "b" => Some(b), "c" => Some(c), _ => None };
        for (text, expected) in [
            ("a + b × c", a + b * c), ("(a + b) × c", (a + b) * c), ("a - b - c", a - b - c), ("a - (b - c)", a - (b - c)), ("a ÷ c / c", a / c / c),
            ("a × b - c × c + 2.5", a * b - c * c + 2.5),
        ] {
            let ours = Formula::parse(text).unwrap().evaluate(&value).unwrap();
            prop_assert!((ours - expected).abs() < 1e-9, "{}: {} {}", text, ours, expected);
        }
        let solved = Formula::parse("(a + b) × c").unwrap().solve_for("b", 5.0, &value).unwrap();
        prop_assert!(((a + solved) * c - 5.0).abs() < 1e-9);
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,60}", near in "[-+×÷*/(). a-z0-9M–x]{0,40}") {
        for text in [text.as_str(), near.as_str()] {
            if let Err(error) = Formula::parse(text) {
                prop_assert!(text.get(error.span).is_some());
            }
            if let Ok(formula) = Formula::parse(text) {
                let _ = formula.evaluate(&|_| Some(1.5));
                let _ = formula.power();
                for name in formula.names() {
                    let _ = formula.solve_for(name, 2.0, &|_| Some(1.5));
                }
            }
            let _ = (Thread::parse(text), ThreadRange::parse(text), PropertyClass::find(text), Rubber::find(text), Role::find(text));
            let _ = (ThreadCondition::find(text), InternalMaterial::find(text), Medium::find(text, Some(text)));
        }
    }

    #[test]
    fn no_number_panics(a in anything(), b in anything(), c in anything(), d in anything(), thread in a_thread()) {
        let finite = |value: Option<f64>| value.is_none_or(f64::is_finite);
        prop_assert!(finite(preload_n(a, b, c)) && finite(torque_nm(a, b, c)) && finite(growth_mm(a, b, c)));
        let form = thread.form();
        let (seat, friction) = (Seat { outside_mm: a, hole_mm: b }, JointFriction { thread: c, seat: d });
        prop_assert!(finite(long_torque_nm(&form, seat, friction, a)) && finite(long_preload_n(&form, seat, friction, a)));
        prop_assert!(finite(power_screw_nut_factor(&form, friction)) && finite(preload_at_yield_n(&form, a, b, c)));
        if let Some(form) = metric_form(a, b) {
            prop_assert!(form.stress_area_mm2.is_finite() && form.root_mm > 0.0);
        }
        let joint = ScreenedJoint { diameter_mm: a, stress_area_mm2: b, proof_mpa: c, nut_factor: ThreadCondition::Dry.nut_factor(), role: Role::Cover };
        let _ = (joint.standing(d), joint.plausible_torque_nm(), readings(d, TorqueUnit::NewtonMetre, &joint));
        let hole = BoltedHole { length_mm: a, clamped_mm: b, washer_mm: c, hole_mm: Some(d) };
        prop_assert!(finite(hole.reach_mm()) && finite(hole.engagement_mm()) && finite(hole.bottoms_by_mm(a)) && finite(hole.protrusion_mm(d)));
        let _ = InternalMaterial::Brass.standing(a, b);
        if let Some(loads) = strip_loads(&thread, a, InternalMaterial::Aluminium, b) {
            prop_assert!(loads.weaker_n().is_finite());
        }
        let wrench = Wrench { low_nm: a, high_nm: b, step_nm: Some(c) };
        let _ = (wrench.fit(d), wrench.delivers(d), wrench.nearest_setting_nm(d), best(&[wrench, wrench], d));
        let set = set_value_nm(a, b, Adapter { length_mm: c, angle_deg: d });
        prop_assert!(finite(set));
        let fit = Interference { diameter_mm: a, greatest_mm: b, gap_mm: c };
        let warmed = Warmed { expansion_per_k: d, from_c: a, to_c: b };
        prop_assert!(finite(fit.heat_to_c(d, 12e-6)) && finite(fit.chill_to_c(d, 12e-6)) && finite(fit.gap_at_mm(warmed, warmed)));
        let _ = (cure_at(a, b), outside_service_k(a, b, c), covers_vent(a, b, c), shaft_mismatch_mm(a, b));
        let _ = (statistics(&[a, b, c, d]), preload_limits(TorqueLimits { low_nm: a, high_nm: b }, c, d, 0.2, 0.3));
        if let (Some(span), Some(other)) = (Span::new(a, b), Span::new(c, d)) {
            let _ = (clearance(span, other), span.plus(other), span.times(u32::MAX), BacklashRadii { gear_mm: a, dial_mm: c }.limits_at_dial(span, d));
        }
        if let Some(series) = ShimSeries::new(a, b, c) {
            let _ = (series.not_above(d), series.above(d), series.has(d));
        }
        let positions = vec![Position { x_mm: a, y_mm: b }, Position { x_mm: c, y_mm: d }, Position { x_mm: b, y_mm: d }];
        if let Ok(order) = propose(&Layout::Positions(positions)) {
            prop_assert_eq!(order.len(), 3);
        }
    }
}
