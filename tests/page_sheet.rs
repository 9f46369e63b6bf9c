//! Bench sheets: one box for each act that ticks, one sheet for each variant that matters.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use benchleaf::finding::{Explanation, Finding, Rule, Severity};
use benchleaf::manual::{Axis, AxisValue, Case, Combination, Torque, Varied, Verb};
use benchleaf::quantity::{Dimension, Quantity};
use page_sample::{sample, when, words};

fn sheets(files: &[benchleaf::page::PageFile]) -> Vec<&str> {
    files.iter().map(|file| file.path.as_str()).filter(|path| path.contains("-sheet")).collect()
}

/// The line of an act: from its number to the end of its row.
fn line<'t>(sheet: &'t str, number: &str) -> &'t str {
    let start = sheet.find(&format!("<span class=\"tick-number\">{number}</span>")).unwrap_or_else(|| panic!("no line {number}"));
    let rest = &sheet[start..];
    rest[1..].find("class=\"tick\"").map_or(rest, |end| &rest[..end])
}

#[test]
fn there_is_one_sheet_for_each_variant_that_touches_the_procedure() {
    let files = sample().publish().unwrap();
    assert_eq!(sheets(&files), [
        "tarn-18/carrier-sheet.html",
        "tarn-18/close-sheet-L.html",
        "tarn-18/close-sheet-S.html",
        "tarn-18/pinion-sheet-early.html",
        "tarn-18/pinion-sheet-late.html",
    ]);
}

#[test]
fn combinations_that_were_not_made_have_no_sheet() {
    let mut sample = sample();
    // A step for one serial number range brings the second axis in; L and early were never made together.
    sample.manual.machines[0].procedures[2].steps[0].only = when(&[("serial", "late")]);
    let files = sample.publish().unwrap();
    let close: Vec<_> = sheets(&files).into_iter().filter(|path| path.contains("/close")).collect();
    assert_eq!(close, ["tarn-18/close-sheet-L-late.html", "tarn-18/close-sheet-S-early.html", "tarn-18/close-sheet-S-late.html"]);
}

#[test]
fn too_many_variants_make_one_sheet_with_every_value_named() {
    let mut sample = sample();
    let machine = &mut sample.manual.machines[0];
    let place = machine.axes[0].place.clone();
    for letter in ["a", "b", "c", "d", "e"] {
        let value = |n: u8| AxisValue { name: format!("{letter}{n}"), meaning: String::new(), quantity: None, place: place.clone() };
        machine.axes.push(Axis { name: letter.to_owned(), values: vec![value(1), value(2)], place: place.clone() });
        let mut only = Combination::default();
        only.0.insert(letter.to_owned(), format!("{letter}1"));
        let mut step = machine.procedures[1].steps[0].clone();
        step.id = format!("extra-{letter}");
        step.number = machine.procedures[1].steps.len() + 1;
        step.only = only;
        machine.procedures[1].steps.push(step);
    }
    let files = sample.publish().unwrap();
    let pinion: Vec<_> = sheets(&files).into_iter().filter(|path| path.contains("/pinion")).collect();
    assert_eq!(pinion, ["tarn-18/pinion-sheet.html"]);
    let said = words(line(&sample.page("tarn-18/pinion-sheet.html"), "3.5"));
    assert!(said.contains("early 51.6 lbf·ft (70 N·m) late 57.5 lbf·ft (78 N·m)"), "{said}");
}

#[test]
fn every_act_that_ticks_has_exactly_one_box() {
    let sample = sample();
    let known = when(&[("serial", "late"), ("shaft", "L")]);
    for (procedure, path) in [(0, "carrier-sheet"), (1, "pinion-sheet-late"), (2, "close-sheet-L")] {
        let sheet = sample.page(&format!("tarn-18/{path}.html"));
        let acts = sample.manual.machines[0].procedures[procedure]
            .steps
            .iter()
            .filter(|step| step.only.agrees_with(&known))
            .flat_map(|step| &step.acts);
        let ticking = acts.filter(|act| act.verb.is_some_and(Verb::ticks)).count();
        assert_eq!(sheet.matches("<div class=\"tick\" data-act=").count(), ticking, "{path}");
        assert_eq!(sheet.matches("<span class=\"tick-number\">").count(), ticking, "{path}");
    }
}

#[test]
fn a_step_or_thing_of_another_variant_is_left_out() {
    let sample = sample();
    assert!(words(&sample.page("tarn-18/close-sheet-L.html")).contains("Set the spacer on the gearcase"));
    assert!(!words(&sample.page("tarn-18/close-sheet-S.html")).contains("pacer"));
}

#[test]
fn the_wrenchs_own_unit_is_large_and_the_authors_beside_it() {
    // The only wrench whose usable range (from a fifth of full scale, common practice) holds 78 N·m reads lbf·ft.
    let sheet = sample().page("tarn-18/pinion-sheet-late.html");
    let line = line(&sheet, "3.5");
    assert!(line.contains("<b class=\"figure\">57.5\u{a0}lbf·ft</b> <span class=\"other\">(78\u{a0}N·m)</span>"), "{line}");
    assert!(line.contains("wrench set by"), "a critical one");
}

#[test]
fn the_spanner_stands_in_the_line_of_its_torque() {
    let drive = |size: &str| {
        let mut sample = sample();
        let procedures = &mut sample.manual.machines[0].procedures;
        for (procedure, fastener) in [(1, "pinion-nut"), (2, "cover-bolt")] {
            let entry = procedures[procedure].lists.fasteners.get_mut(fastener).unwrap();
            entry.what.drive = Varied { cases: vec![Case { when: Combination::default(), value: size.to_owned(), place: entry.id_place.clone() }] };
        }
        sample
    };
    // A short one beside the value, a hexagon by its size alone where that has room; one for which the value would need another
    // row, behind the wrench; with stages behind it, too.
    let sheet = drive("T40").page("tarn-18/pinion-sheet-late.html");
    assert!(line(&sheet, "3.5").contains("<span class=\"label\">T40</span> <b class=\"figure\">57.5\u{a0}lbf·ft</b>"), "{}", line(&sheet, "3.5"));
    let hexagon = drive("8 mm hex");
    let nut = words(line(&hexagon.page("tarn-18/pinion-sheet-late.html"), "3.5"));
    assert!(nut.contains("8 mm 57.5 lbf·ft (78 N·m)") && !nut.contains("hex"), "{nut}");
    let long = drive("24 mm hex");
    let nut = words(line(&long.page("tarn-18/pinion-sheet-late.html"), "3.5"));
    assert!(!nut.contains("24 mm hex 57.5") && nut.contains("24 mm hex"), "{nut}");
    let sheet = long.page("tarn-18/close-sheet-S.html");
    let cover = words(line(&sheet, "3.2"));
    assert!(cover.contains("24 mm hex") && cover.find("24 mm hex") < cover.find("stage 1:"), "{cover}");
    // What is run up by hand needs none.
    assert!(!words(line(&sheet, "3.1")).contains("24 mm hex"));
}

#[test]
fn card_table_sheet_and_phone_tell_a_torque_by_the_mark_of_its_wrench() {
    // 70 and 78 N·m are 51.63 and 57.53 lbf·ft (1 lbf·ft = 1.3558179483314004 N·m, NIST SP 811, appendix B); a scale that has a
    // mark at each half is set to 51.5 and 57.5.
    let mut sample = sample();
    for tool in sample.manual.shop.tools.values_mut().filter(|tool| tool.what.scale.as_deref() == Some("lbf·ft")) {
        tool.what.step = Some(page_sample::quantity("0.5 lbf·ft"));
    }
    let cover = sample.manual.machines[0].procedures[2].lists.fasteners.get_mut("cover-bolt").unwrap();
    cover.what.torque.cases[0].value = Torque::Stages(["10 N·m", "70 N·m", "90°"].map(page_sample::quantity).to_vec());
    let card = words(&sample.page("tarn-18/torque-card.html"));
    let sheet = sample.page("tarn-18/close-sheet-S.html");
    // By variant and by stage.
    for said in ["early 51.5 lbf·ft (70 N·m)", "late 57.5 lbf·ft (78 N·m)", "stage 1: 10 N·m (7.4 lbf·ft)", "stage 2: 51.5 lbf·ft (70 N·m)"] {
        assert!(card.contains(said), "{said}: {card}");
    }
    assert!(words(line(&sheet, "3.2")).contains("stage 2: 51.5 lbf·ft (70 N·m)"), "{}", words(line(&sheet, "3.2")));
    assert!(sheet.contains("\"text\":\"70 N·m (51.5 lbf·ft)\""), "what the phone is told");
    let table = words(&sample.page("tables/torque.html"));
    assert!(table.contains("stage 2: 70 N·m (51.5 lbf·ft)") && table.contains("early 70 N·m (51.5 lbf·ft)"), "{table}");
    assert!(![card, words(&sheet), table].iter().any(|said| said.contains("51.6")), "converted, where nobody can set it");
}

#[test]
fn stages_make_a_grid_in_the_order_of_tightening() {
    let sheet = sample().page("tarn-18/close-sheet-S.html");
    let cover = line(&sheet, "3.2");
    assert_eq!(words(&cover[cover.find("<thead>").unwrap()..cover.find("</thead>").unwrap()]), "1 4 2 5 3 6");
    assert_eq!(cover.matches("small-box").count(), 18, "six bolts, three stages");
    assert!(words(cover).contains("stage 1: 10 N·m (7.4 lbf·ft)") && words(cover).contains("stage 3: 90°"), "{}", words(cover));
    assert_eq!(line(&sheet, "3.3").matches("small-box").count(), 6, "one stage");
    assert!(words(&sheet[sheet.find("mark-reset").unwrap()..]).contains("→ 10 N·m"), "the wrench stands at the last stage when the first is gone over again");
    let bolts = words(line(&sheet, "3.1"));
    assert!(bolts.contains("6 × M8 × 1.25 × 40 mm, class 8.8"), "the length of this variant: {bolts}");
}

#[test]
fn readings_have_a_blank_each_and_the_shim_its_formula() {
    let sheet = sample().page("tarn-18/pinion-sheet-early.html");
    let depth = line(&sheet, "1.3");
    assert_eq!(depth.matches("<span class=\"blank\">").count(), 3);
    assert!(words(depth).contains("new shim = 0.90 mm + reading − 0.64 mm ="));
    assert_eq!(line(&sheet, "2.1").matches("<span class=\"blank\">").count(), 4);
}

#[test]
fn a_fastener_says_where_the_new_one_comes_from() {
    let mut sample = sample();
    let nut = sample.manual.machines[0].procedures[1].lists.fasteners.get_mut("pinion-nut").unwrap();
    let ordered = Case { when: Combination::default(), value: "order".to_owned(), place: nut.id_place.clone() };
    nut.what.from = Varied { cases: vec![ordered] };
    let said = words(&sample.page("tarn-18/pinion-sheet-late.html"));
    assert!(said.contains("1 × Pinion nut (M12 × 1.25, class 8, ordered separately)"), "{said}");
    assert!(words(&sample.page("tarn-18/index.html")).contains("ordered separately"), "in the table of fasteners");
}

/// No rule has to ask for a blank: each act that measures has one on its sheet, whatever its entry leaves out.
#[test]
fn whatever_is_measured_has_a_blank() {
    let mut sample = sample();
    let machine = &mut sample.manual.machines[0];
    let lists = machine.procedures.iter_mut().map(|procedure| &mut procedure.lists).chain([&mut machine.lists]);
    for entry in lists.flat_map(|lists| lists.measures.values_mut()) {
        entry.what = benchleaf::manual::Measure::default();
    }
    let mut measured = 0;
    for (procedure, path) in [(0, "carrier-sheet"), (1, "pinion-sheet-late"), (2, "close-sheet-L")] {
        let sheet = sample.page(&format!("tarn-18/{path}.html"));
        let lines: Vec<&str> = sheet.split("<div class=\"tick\" data-act=").skip(1).collect();
        let steps = &sample.manual.machines[0].procedures[procedure].steps;
        for act in steps.iter().flat_map(|step| &step.acts).filter(|act| act.verb == Some(Verb::Measure)) {
            let line = lines.iter().find(|line| line.contains(&act.words)).unwrap_or_else(|| panic!("no line ‘{}’", act.words));
            assert_eq!(line.matches("<span class=\"blank\">").count(), 1, "{line}");
            measured += 1;
        }
    }
    assert!(measured >= 2, "the sample measures");
}

#[test]
fn sentences_that_say_more_than_their_acts_stand_above_the_lines() {
    let said = words(&sample().page("tarn-18/pinion-sheet-late.html"));
    assert!(said.contains("Hold the shaft with the splined holder. TOOL Splined shaft holder"), "{said}");
    assert!(said.contains("Rock the shaft, never turn it"));
    assert!(!said.contains("Lay the thinnest shim in, then run the old nut up by hand"), "acts alone are not said twice");
}

#[test]
fn marks_have_no_box_and_hold_points_a_signature() {
    let sheet = sample().page("tarn-18/close-sheet-S.html");
    let sign = &sheet[sheet.find("SIGN OFF").unwrap()..];
    let sign = words(&sign[..sign.find("</div>").unwrap()]);
    assert!(sign.contains("Workshop editor signature") && sign.contains("Second reader signature"), "{sign}");
    assert!(words(&sample().page("tarn-18/carrier-sheet.html")).contains("PAUSE Safe to stop: the carrier is cold"));
}

#[test]
fn the_sheet_begins_with_what_must_be_at_hand_and_ends_with_what_stays_open() {
    let said = words(&sample().page("tarn-18/pinion-sheet-late.html"));
    assert!(said.contains("Complete: Propeller-shaft carrier"));
    assert!(said.contains("New, in hand 1 × Pinion nut (M12 × 1.25, class 8)"), "{said}");
    assert!(said.contains("Variant serial late (≥ 4200)"));
    assert!(said.contains("I stopped here"));
    // A torque of one number is told of once; where each has its tolerance, nothing is. ISO 6789:2003, type II class A: ± 4 %, and
    // ± 6 % up to 10 N·m at full scale.
    let told = "a torque without a tolerance: as it stands; a wrench may be out by ± 4 %, up to 10 N·m full scale ± 6 % (ISO 6789)";
    assert_eq!(said.matches(told).count(), 1, "{said}");
    assert_eq!(words(&sample().page("tarn-18/pinion.html")).matches(told).count(), 1);
    let mut exact = sample();
    for entry in exact.manual.machines[0].procedures[1].lists.fasteners.values_mut() {
        for case in &mut entry.what.torque.cases {
            case.value = Torque::Stages(vec![Quantity::parse("70 ± 4 N·m", Dimension::Torque).unwrap()]);
        }
    }
    assert!(!words(&exact.page("tarn-18/pinion-sheet-late.html")).contains("ISO 6789"));
    let said = words(&sample().page("tarn-18/carrier-sheet.html"));
    let tag = "Propeller-shaft carrier: left fitted dry, because it comes out again for the pinion&#39;s height and backlash. \
               Until then no filling (Gear oil). Finish it in step 1 of Close the gearcase. Tarn 18, Serial no.";
    assert!(said.contains(tag), "{said}");
}

#[test]
fn what_is_laid_out_is_counted_and_the_spanners_are_named() {
    let mut sample = sample();
    let nut = sample.manual.machines[0].procedures[1].lists.fasteners.get_mut("pinion-nut").unwrap();
    nut.what.drive = Varied { cases: vec![Case { when: Combination::default(), value: "19 mm hex".to_owned(), place: nut.id_place.clone() }] };
    // What nobody counts is one.
    nut.what.count = Varied::default();
    let said = words(&sample.page("tarn-18/pinion-sheet-late.html"));
    assert!(said.contains("1 × Pinion nut (M12 × 1.25, class 8)"), "{said}");
    assert!(said.contains("Spanners and keys: 19 mm hex"), "{said}");
    let card = words(&sample.page("tarn-18/torque-card.html"));
    assert!(card.contains("M12 × 1.25, class 8; 19 mm hex"), "{card}");
}

#[test]
fn a_sentence_is_parted_among_its_lines_and_no_word_is_told_twice() {
    let sheet = sample().page("tarn-18/carrier-sheet.html");
    let said = words(line(&sheet, "4.3"));
    assert!(said.contains("Put the carrier in dry, without O-ring or paste, then draw the sleeve off."), "{said}");
    let text = words(&sheet);
    assert_eq!(text.matches("draw the sleeve off").count(), 1, "{text}");
    assert_eq!(text.matches("ut the carrier in dry").count(), 2, "the step's heading and its line: {text}");
}

#[test]
fn a_stop_line_stands_before_what_an_open_item_has_barred() {
    let sheet = sample().page("tarn-18/close-sheet-S.html");
    assert_eq!(sheet.matches("mark-close").count(), 1, "the carrier bars the oil, and nothing else is barred");
    let stop = sheet.find("mark-close").unwrap();
    let said = words(&sheet[stop..]);
    assert!(said.contains("STOP Before this:") && said.contains("Look for Propeller-shaft carrier (line"), "{said}");
    let next = &sheet[stop..][..sheet[stop..].find("class=\"box\"").unwrap()];
    assert!(!next.contains("tick-number"), "it stands right before its line");
    assert!(!sample().page("tarn-18/carrier-sheet.html").contains("mark-close"), "what is left open here bars nothing here");
}

static RULE: Rule = Rule {
    name: "torque-outside-band",
    severity: Severity::Warning,
    summary: "",
    explanation: Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" },
};

#[test]
fn a_proof_sheet_prints_each_finding_under_its_line() {
    let mut sample = sample();
    let act = sample.manual.machines[0].procedures[1].steps[2].acts[4].place.clone();
    sample.findings = vec![Finding::new(&RULE, act, "too much for the thread")];
    sample.proof_copy = true;
    let sheet = sample.page("tarn-18/pinion-sheet-late.html");
    assert!(words(line(&sheet, "3.5")).contains("warning torque-outside-band too much for the thread"));
    assert!(sheet.contains("<strong class=\"running-proof\">PROOF, NOT FOR USE</strong>"), "in the head that repeats on each page");
}
