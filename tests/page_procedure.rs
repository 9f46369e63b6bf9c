//! A procedure's page: every value where its act stands, every act an anchor, nothing of an author's
//! text taken for markup.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use benchleaf::finding::{Explanation, Finding, Rule, Severity};
use benchleaf::manual::{Case, Varied};
use benchleaf::quantity::Unit;
use page_sample::{sample, when, words};

/// What stands between an act's anchor and the next one, and the note that belongs to it.
fn act(page: &str, anchor: &str) -> String {
    let start = page.find(&format!(" id=\"{anchor}\"")).unwrap_or_else(|| panic!("no act {anchor}"));
    let rest = &page[start..];
    let own = rest[10..].find("class=\"act").map_or(rest, |end| &rest[..end + 10]);
    let number = anchor.rsplit('.').next().unwrap();
    let notes = rest.find("<ul class=\"act-notes\">").map_or("", |at| &rest[at..]);
    let notes = &notes[..notes.find("</ul>").unwrap_or(0)];
    let note = notes.split("<li>").find(|note| note.starts_with(&format!("<sup>{number}</sup>"))).unwrap_or("");
    format!("{own} {note}")
}

#[test]
fn a_torque_stands_at_its_act_in_the_authors_unit_first_and_by_variant() {
    // 70 and 78 N·m in lbf·ft, by 1 lbf·ft = 1.3558179483314004 N·m (NIST SP 811, appendix B): 51.63 and 57.53.
    let page = sample().page("tarn-18/pinion.html");
    let said = words(&act(&page, "tighten.5"));
    assert!(said.contains("early 70 N·m (51.6 lbf·ft) · late 78 N·m (57.5 lbf·ft)"), "{said}");
    assert!(said.contains("M12 × 1.25, class 8") && said.contains("Medium-strength thread locker"), "{said}");
    assert!(said.contains("hold with Splined shaft holder") && said.contains("two signatures"), "{said}");
}

#[test]
fn an_act_leads_to_the_row_of_its_thing_and_the_row_leads_back() {
    let sample = sample();
    let row = "tarn-18.pinion.fasteners.pinion-nut";
    assert!(sample.page("tarn-18/pinion.html").contains(&format!("id=\"tighten.5\" href=\"../tables/torque.html#{row}\"")));
    let table = sample.page("tables/torque.html");
    let cells = &table[table.find(&format!("id=\"{row}\"")).unwrap()..];
    let cells = &cells[..cells.find("</tr>").unwrap()];
    assert!(cells.contains("href=\"../tarn-18/pinion.html#tighten.2\""), "the first act of the step that uses it: {cells}");
}

#[test]
fn a_value_only_in_one_variant_is_named_by_it() {
    let page = sample().page("tarn-18/close.html");
    assert!(words(&page).contains("only L Time 5 min Set the spacer on the gearcase"), "the step says for which variant");
    assert!(!act(&page, "spacer.1").contains("only L"), "what the step says the act need not repeat");
}

#[test]
fn what_is_noted_of_a_reading_a_shim_or_a_fill_stands_at_its_act_on_page_and_sheet() {
    let mut sample = sample();
    let machine = &mut sample.manual.machines[0];
    machine.lists.fills.get_mut("gear-oil").unwrap().note = Some("or 9.2 imperial fluid ounces".to_owned());
    let pinion = machine.procedures.iter_mut().find(|procedure| procedure.id == "pinion").unwrap();
    pinion.lists.measures.get_mut("backlash").unwrap().note = Some("rock the shaft".to_owned());
    pinion.lists.shims.get_mut("pinion-shim").unwrap().note = Some("a thicker one brings it down".to_owned());
    let page = sample.page("tarn-18/pinion.html");
    assert!(words(&act(&page, "backlash.1")).contains("rock the shaft"));
    assert!(words(&act(&page, "gap.3")).contains("a thicker one brings it down"));
    assert!(words(&sample.page("tarn-18/close.html")).contains("or 9.2 imperial fluid ounces"));
    let sheet = words(&sample.page("tarn-18/pinion-sheet-early.html"));
    assert!(sheet.contains("rock the shaft") && sheet.contains("a thicker one brings it down"), "{sheet}");
}

#[test]
fn what_is_thrown_away_in_one_variant_is_looked_at_in_the_other() {
    let mut sample = sample();
    let pinion = sample.manual.machines[0].procedures.iter_mut().find(|procedure| procedure.id == "pinion").unwrap();
    let nut = pinion.lists.fasteners.get_mut("trial-nut").unwrap();
    let place = nut.id_place.clone();
    let case = |value: &str, reuse: &str| Case { when: when(&[("serial", value)]), value: reuse.to_owned(), place: place.clone() };
    nut.what.reuse = Varied { cases: vec![case("early", "inspect"), case("late", "never")] };
    let said = words(&sample.page("tarn-18/pinion.html"));
    assert!(said.contains("early again only after a look at it · late do not use again"), "{said}");
}

#[test]
fn readings_show_spec_limit_and_what_the_dial_shows() {
    let page = sample().page("tarn-18/pinion.html");
    let said = words(&act(&page, "backlash.1"));
    // 0.12 and 0.22 mm at 70 mm, read at 90 mm: 0.1543 and 0.2829 mm; inwards to the hundredth 0.16 and 0.28.
    assert!(said.contains("spec 0.12–0.22 mm") && said.contains("limit max 0.25 mm") && said.contains("on the dial 0.16–0.28 mm"), "{said}");
    let said = words(&act(&page, "gap.3"));
    assert!(said.contains("new shim = 0.90 mm + reading − 0.64 mm"), "{said}");
}

#[test]
fn a_seal_says_what_each_side_looks_at() {
    let said = words(&act(&sample().page("tarn-18/carrier.html"), "seals.2"));
    assert!(said.contains("spring side to Gear oil, back to Waterproof grease") && said.contains("depth 10 mm"), "{said}");
}

#[test]
fn open_items_are_found_and_left_with_what_they_forbid() {
    let sample = sample();
    let left = words(&sample.page("tarn-18/carrier.html"));
    assert!(left.contains("What stays open Propeller-shaft carrier: left fitted dry"), "{left}");
    assert!(left.contains("Until then no filling (Gear oil). Finish it in step 1 of Close the gearcase."));
    let found = words(&sample.page("tarn-18/close.html"));
    assert!(found.contains("Found open Propeller-shaft carrier: left fitted dry"));
    assert!(found.contains("Finished here, in step 1."));
}

#[test]
fn a_moment_opens_the_recording_there() {
    let page = sample().page("tarn-18/carrier.html");
    assert!(page.contains("<a href=\"https://films.example/tarn-18#t=1770\"><bdi>29:30–31:05</bdi></a>"));
}

#[test]
fn a_notice_has_its_word_and_a_shape() {
    let page = sample().page("tarn-18/carrier.html");
    let panel = &page[page.find("class=\"panel panel-warning\"").unwrap()..];
    let panel = &panel[..panel.find("</p>").unwrap()];
    assert!(panel.contains("<svg") && panel.ends_with("WARNING"), "{panel}");
}

#[test]
fn nothing_of_an_authors_text_is_markup() {
    let mut sample = sample();
    let evil = "<img src=x onerror=alert(1)>\"'&";
    let machine = &mut sample.manual.machines[0];
    machine.name = evil.to_owned();
    machine.procedures[1].title = evil.to_owned();
    machine.procedures[1].steps[2].title = evil.to_owned();
    machine.procedures[1].steps[2].acts[4].words = evil.to_owned();
    for entry in machine.procedures[1].lists.fasteners.values_mut() {
        entry.name = evil.to_owned();
        entry.note = Some(evil.to_owned());
        entry.what.class = Varied::default();
    }
    sample.manual.title = evil.to_owned();
    sample.manual.notice = Some(evil.to_owned());
    for file in sample.publish().unwrap().iter().filter(|file| file.path.ends_with(".html")) {
        let html = std::str::from_utf8(&file.bytes).unwrap();
        assert!(!html.contains("<img src=x"), "{}", file.path);
        assert!(!html.contains("onerror=alert(1)>\""), "{}", file.path);
    }
}

#[test]
fn sources_are_spelled_out_with_what_rests_on_them() {
    let sample = sample();
    assert!(sample.page("tarn-18/pinion.html").contains("href=\"pinion.behind.html\""));
    let said = words(&sample.page("tarn-18/pinion.behind.html"));
    assert!(said.contains("Club measurement sheet 12 measured 2 2026-04-11 Workshop editor Second reader Pinion shim Gap from gauge bar to pinion Backlash at the gear"), "{said}");
}

#[test]
fn a_change_tells_what_it_was_and_why() {
    let said = words(&sample().page("tarn-18/pinion.html"));
    assert!(said.contains("revision 4: Pinion nut: torque, was late 70 N·m; nuts of late machines backed off; Bulletin 2 (invented)"), "{said}");
}

#[test]
fn an_author_who_wrote_the_wrenchs_unit_sees_it_first() {
    let mut sample = sample();
    sample.manual.units = ["lbf·ft", "N·m"].iter().filter_map(|unit| Unit::find(unit)).collect();
    let said = words(&act(&sample.page("tarn-18/pinion.html"), "tighten.5"));
    assert!(said.contains("late 78 N·m (57.5 lbf·ft)"), "{said}");
}

static RULE: Rule = Rule {
    name: "torque-outside-band",
    severity: Severity::Warning,
    summary: "",
    explanation: Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" },
};

#[test]
fn a_proof_copy_says_so_everywhere_and_prints_each_finding_where_it_stands() {
    let mut sample = sample();
    let step = &sample.manual.machines[0].procedures[1].steps[2];
    let at_act = Finding::new(&RULE, step.acts[4].place.clone(), "too much for the thread").figure("u = 1.10").fix("look it up again");
    let at_step = Finding::new(&RULE, step.place.clone(), "a step without a moment");
    sample.findings = vec![at_act, at_step];
    assert!(!sample.page("tarn-18/pinion.html").contains("too much for the thread"), "only on a proof copy");
    sample.proof_copy = true;
    for file in sample.publish().unwrap().iter().filter(|file| file.path.ends_with(".html")) {
        assert!(std::str::from_utf8(&file.bytes).unwrap().contains("PROOF, NOT FOR USE"), "{}", file.path);
    }
    let page = sample.page("tarn-18/pinion.html");
    let said = words(&act(&page, "tighten.5"));
    assert!(said.contains("warning torque-outside-band too much for the thread u = 1.10 Instead: look it up again tarn-18/pinion.md:"), "{said}");
    let step = &page[page.find("id=\"tighten\"").unwrap()..];
    assert!(words(&step[..step.find("id=\"tighten.1\"").unwrap()]).contains("a step without a moment"));
    assert_eq!(page.matches("too much for the thread").count(), 1, "said once");
}
