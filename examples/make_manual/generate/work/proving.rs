//! The machine is tried by hand and in runs, what was provisional is set again, and two people sign.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::{extras, stop};

/// What running machines do to people, and what keeps them off.
const RUNS: [&str; 2] = [
    "A machine that has never run can throw what was left in it, and takes a sleeve with it. Close the [barrier](tool:test-barrier), tie back hair and cloth, and keep everyone behind it.",
    "Turning shafts catch cloth and crush hands. Stand behind the [barrier](tool:test-barrier), with one person at the stop and nobody alone.",
];

pub(crate) fn proving(book: &mut Book<'_>, words: &Words) {
    let travels = book.travels.clone();
    let mut page = Page::new(book, words, "proving", &["Runs and signatures", "Prove the $kind", "First runs"]);
    page.list("tests", "by-hand: {name: Both ways by hand, kind: function, expect: 'turns both ways, evenly and without a catch', otherwise: go back to the shaft that catches, source: data-book}");
    page.list("tests", "first-runs: {name: Three runs without load, kind: run, expect: 'no sound that was not there by hand, and it stops when told', otherwise: stop at once and find the sound, source: data-book}");
    page.list("tests", "after-runs: {name: Leaks after the runs, kind: leak, expect: 'the paper under the machine is dry', otherwise: find the joint that weeps and make it anew, source: data-book}");
    page.list("measures", "warm-bearing: {name: Warmth of the hottest bearing, kind: other, spec: max 65 °C, with: contact-probe, count: 3, when: after the third run, otherwise: let it cool and look at its preload, source: data-book}");
    page.say(&["Nobody signs this machine alone.", "What is proved here was built over many evenings, so take another one for it."]);
    page.say(&["Read the whole page to everyone who will stand there.", "Agree on one word that stops everything, and on who may say it."]);
    page.next();
    page.block("```text\nrun          1 .......     2 .......     3 .......\nwarmest      .......       .......       .......\nsigned       ..........    ..........\n```");
    page.step("ready", 5, &["Is it ready", "Before the first turn"]);
    page.say(&["The oil is in and its level was read under [oil](see:oil#pour).", "Level read, plugs closed, as told under [oil](see:oil#pour)."]);
    page.next();
    page.say(&["[Line warden finds the machine clear](hold:line-warden)"]);
    page.step("hand", 10, &["Turn it by hand", "By hand first"]);
    page.say(&["[Turn the machine both ways by hand](test:by-hand) and listen as much as you count.", "[Try both ways by hand](test:by-hand), with an ear at each bearing."]);
    page.say(&["What catches by hand breaks under power.", "Go round twice: some faults come once in two turns."]);
    page.step("runs", 20, &["Three runs without load", "The first runs"]);
    page.notice("WARNING", &RUNS);
    page.say(&["[Let it run three times and stop it each time](test:first-runs).", "[Make three runs without load](test:first-runs), each longer than the one before."]);
    page.say(&["Between the runs hold the [contact probe](tool:contact-probe) to each bearing. [Read the warmest bearing](measure:warm-bearing).", "The [contact probe](tool:contact-probe) goes to each bearing in turn. [Write the warmest reading down](measure:warm-bearing)."]);
    page.figure(Drawing::Section(5), "The machine from the side, with its bearings cut open. Each is a place for the probe, and the barrier stands a long step away.", "A place for the probe at each bearing", &[]);
    page.words.set("s", "frame");
    page.words.set("S", "Frame");
    extras(&mut page, "frame", 3);
    for station in &travels {
        page.words.set("s", station.as_str());
        page.step("$s-travel", 8, &["Set the travel of the $s brake again"]);
        page.say(&["The travel was provisional since [the pack was closed](see:$s-pack#adjuster). [Set and read the lever travel](measure:$s-travel), with the [steel rule](tool:steel-rule) square to the lever."]);
        page.say(&["Take the tag off the lever.", "The tag comes off the lever with the last reading."]);
    }
    page.step("paper", 5, &["Look for leaks", "Read the paper"]);
    page.say(&["[Look at the paper under the machine](test:after-runs).", "[Draw the paper out and hold it to the light](test:after-runs)."]);
    page.say(&["One drop has a place above it: look up, not down.", "A drop tells where to look, not what to blame."]);
    page.step("sign", 5, &["Sign the machine off", "Two signatures"]);
    page.say(&["No tag hangs on it any more. Look, then sign.", "Look once more, all round, then sign."]);
    page.next();
    page.say(&["[Second reader and line warden sign the machine off](sign:second-reader,line-warden)"]);
    stop(&mut page, &["[Safe to stop: the machine is signed off](stop:)"]);
    page.done();
}
