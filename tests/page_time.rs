//! How long a procedure takes: work and waiting apart in its head and on its sheet, together for machines that read pages.
//! Every expected time is added up by hand beside its test; the working of it is written there.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use benchleaf::manual::{Act, Case, Step, Varied, Verb};
use page_sample::{Sample, quantity, sample, when, words};

const PINION: usize = 1;

fn total(page: &str) -> &str {
    let rest = page.split_once("\"totalTime\":\"").unwrap().1;
    rest.split('"').next().unwrap()
}

fn head(page: &str) -> String {
    words(page.split_once("<dt>Time</dt>").unwrap().1.split("</dd>").next().unwrap())
}

fn steps(sample: &mut Sample, procedure: usize) -> &mut Vec<Step> {
    &mut sample.manual.machines[0].procedures[procedure].steps
}

/// Takes the act that begins the cure out of the last step of the pinion's procedure.
fn begin(sample: &mut Sample) -> Act {
    let acts = &mut steps(sample, PINION)[2].acts;
    let at = acts.iter().position(|act| act.verb == Some(Verb::Begin)).unwrap();
    acts.remove(at)
}

#[test]
fn a_cure_is_told_beside_the_work_and_added_for_those_who_plan() {
    // Steps of 20, 25 and 8 min; the locker cures 24 h = 1440 min. 53 + 1440 = 1493.
    let sample = sample();
    let page = sample.page("tarn-18/pinion.html");
    assert_eq!(head(&page).trim(), "53 min of work, 24 h of waiting");
    assert_eq!(total(&page), "PT1493M");
    let sheet = sample.publish().unwrap().into_iter().find(|page| page.path.starts_with("tarn-18/pinion-sheet")).unwrap();
    let sheet = words(&String::from_utf8(sheet.bytes).unwrap());
    assert!(sheet.contains("Besides, 24 h of waiting."), "{sheet}");
    // The build order says the same as the page.
    assert!(words(&sample.page("tarn-18/index.html")).contains("53 min of work, 24 h of waiting"));
}

#[test]
fn cooling_is_waited_for_and_work_without_a_wait_is_told_alone() {
    // 5 + 15 + 20 + 10 = 50 min of work and 30 min until the carrier is cold; 15 + 5 + 15 + 20 = 55 min without a
    // wait on the long shaft, whose step of 5 min the short one has not.
    let sample = sample();
    let carrier = sample.page("tarn-18/carrier.html");
    assert_eq!((head(&carrier).trim(), total(&carrier)), ("50 min of work, 30 min of waiting", "PT80M"));
    let close = sample.page("tarn-18/close.html");
    assert_eq!((head(&close).trim(), total(&close)), ("50 min to 55 min", "PT55M"));
}

#[test]
fn work_that_goes_on_meanwhile_is_not_counted_again() {
    // Begun at the end of the first step, minute 20, the cure is over in minute 20 + 1440 = 1460. The second step ends in
    // minute 45, so 1415 min = 23 h 35 min are sat out, and the last 8 min end in minute 1468.
    let mut sample = sample();
    let begin = begin(&mut sample);
    steps(&mut sample, PINION)[0].acts.push(begin);
    let page = sample.page("tarn-18/pinion.html");
    assert_eq!((head(&page).trim(), total(&page)), ("53 min of work, 23 h 35 min of waiting", "PT1468M"));
}

#[test]
fn a_wait_that_an_earlier_procedure_began_has_the_work_since_behind_it() {
    // Begun in the carrier's seals step: the step behind it takes 10 min, the steps of the pinion before the wait 20 and 25.
    // 1440 − 55 = 1385 min = 23 h 5 min, and 53 min of work: 1438.
    let mut sample = sample();
    let begin = begin(&mut sample);
    let seals = steps(&mut sample, 0).iter_mut().find(|step| step.id == "seals").unwrap();
    seals.acts.push(begin);
    let page = sample.page("tarn-18/pinion.html");
    assert_eq!((head(&page).trim(), total(&page)), ("53 min of work, 23 h 5 min of waiting", "PT1438M"));
    // The cooling alone is waited for where it was begun.
    assert_eq!(total(&sample.page("tarn-18/carrier.html")), "PT80M");
}

#[test]
fn two_waits_at_once_are_as_long_as_the_longer_one() {
    // Both begin with the end of the first step, minute 20. The cure is over in minute 1460; the other, of 1500 min, in
    // minute 1520: another 60 min, not another 1500. 1415 + 60 = 1475 min = 24 h 35 min; 53 + 1475 = 1528.
    let mut sample = sample();
    let mut begin = begin(&mut sample);
    let machine = &mut sample.manual.machines[0];
    let waits = &mut machine.procedures[PINION].lists.waits;
    let mut other = waits.get("locker-cure").unwrap().clone();
    other.id = "soak".to_owned();
    other.what.time.cases[0].value = quantity("1500 min");
    waits.insert("soak".to_owned(), other);
    let steps = steps(&mut sample, PINION);
    let mut wait = steps[2].acts.iter().find(|act| act.verb == Some(Verb::Wait)).unwrap().clone();
    wait.things[0].id = "soak".to_owned();
    steps[2].acts.push(wait);
    steps[0].acts.push(begin.clone());
    begin.things[0].id = "soak".to_owned();
    steps[0].acts.push(begin);
    let page = sample.page("tarn-18/pinion.html");
    assert_eq!((head(&page).trim(), total(&page)), ("53 min of work, 24 h 35 min of waiting", "PT1528M"));
}

#[test]
fn a_wait_that_differs_between_variants_is_told_as_a_span_and_planned_for_at_its_longest() {
    // 12 h for early numbers, 24 h for late ones; who plans by the total is told 53 + 1440.
    let mut sample = sample();
    let wait = &mut sample.manual.machines[0].procedures[PINION].lists.waits["locker-cure"].what;
    let place = wait.time.cases[0].place.clone();
    let case = |serial, time| Case { when: when(&[("serial", serial)]), value: quantity(time), place: place.clone() };
    wait.time = Varied { cases: vec![case("early", "≥ 12 h"), case("late", "≥ 24 h")] };
    let page = sample.page("tarn-18/pinion.html");
    assert_eq!((head(&page).trim(), total(&page)), ("53 min of work, 12 h to 24 h of waiting", "PT1493M"));
    let sheets: Vec<_> = sample.publish().unwrap().into_iter().filter(|page| page.path.starts_with("tarn-18/pinion-sheet")).collect();
    let said = |serial: &str| words(&String::from_utf8(sheets.iter().find(|sheet| sheet.path.contains(serial)).unwrap().bytes.clone()).unwrap());
    assert!(said("early").contains("Besides, 12 h of waiting."));
    assert!(said("late").contains("Besides, 24 h of waiting."));
}
