//! Air, then oil: everything that was open is closed, the case holds pressure, and the oil goes in.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade;
use super::stop;

pub(crate) fn oil(book: &mut Book<'_>, words: &Words) {
    let (drain, filler) = (trade::plug(book.random), trade::plug(book.random));
    let finished = book.finished.clone();
    let mut page = Page::new(book, words, "oil", &["Air and oil", "Oil of the $kind", "Pressure test and oil"]);
    page.list("kits", "plug-kit: {name: Washers of the oil plugs (invented), holds: {plug-washer: 2}, source: data-book}");
    super::fastener(&mut page, "drain-plug", "Drain plug", &drain, "");
    super::fastener(&mut page, "filler-plug", "Filler plug", &filler, "");
    page.list("fasteners", "blank-screw:\n    name: Blanking screw of the hand pump\n    count: 1\n    thread: M10x1.0\n    class: 8.8\n    role: soft\n    threads: dry\n    torque: hand\n    because: its own rubber ring seals it while the case is under test\n    temporary: true\n    source: bench-practice");
    page.list("parts", "plug-washer: {name: Sealing washer of the oil plugs, kind: sealing-washer, count: 2, faces: either, reuse: never, from: plug-kit, source: data-book}");
    page.list("parts", "drive-motor: {name: Electric motor, for: {drive: E}, kind: other, count: 1, mass: 18 kg, side: cable downwards, reuse: inspect, when: coupling and cable unmarked, source: data-book}");
    page.list("parts", "hand-crank: {name: Hand crank, for: {drive: M}, kind: other, count: 1, side: handle outwards, reuse: inspect, when: splines unmarked, source: data-book}");
    page.list("measures", "oil-level: {name: Level below the filler hole, kind: other, spec: 8–14 mm, with: depth-gauge, count: 2, when: level and cold, otherwise: pour or draw off and read again, source: data-book}");
    page.list("tests", "case-air: {name: Pressure test of the case, kind: pressure, expect: {pressure: 0.35–0.50 bar, hold: 5 min, drop: max 0.02 bar}, otherwise: find the leak under soapy water and put it right before any oil, source: bench-sheet-3}");
    opening(&mut page, &finished);
    air(&mut page);
    pour(&mut page);
    drives(&mut page);
    page.done();
}

fn opening(page: &mut Page<'_, '_>, finished: &[String]) {
    page.say(&["Air comes before oil. A leak found with air costs a ring; a leak found with oil costs an evening.", "Whatever was left open is closed by now, and here it is proved."]);
    page.say(&["Go round the machine once with the list in hand and take off every tag.", "A tag that still hangs anywhere ends this work before it begins."]);
    page.next();
    page.step("round", 10, &["Go round the machine", "Every tag is off"]);
    page.say(&["Look at each of these with your own eyes:", "Put a finger on each of these:"]);
    page.next();
    if !finished.is_empty() {
        page.block(&finished.iter().map(|link| format!("- {link}")).collect::<Vec<_>>().join("\n"));
    }
    page.say(&["[Second reader has been round the machine](hold:second-reader)", "[Second reader finds no tag](hold:second-reader)"]);
}

fn air(page: &mut Page<'_, '_>) {
    page.step("air", 15, &["Put the case under air", "Air first"]);
    page.notice("CAUTION", &["Air under pressure can drive a loose plug into an eye. Stand to the side of both holes, wear the [eye shield](tool:eye-shield), and let the air out before you unscrew anything."]);
    page.say(&["[Run the blanking screw into the filler hole by hand](start:blank-screw). Screw the [hand pump](tool:pressure-tester) into the drain hole."]);
    page.say(&["[Pump the case up, wait, and read the drop](test:case-air).", "[Pump the case up and watch the needle](test:case-air)."]);
    page.say(&["Let the air out and [take the blanking screw out](remove:blank-screw)."]);
    let shows = "The case from the side. The filler hole above is blanked, and the hand pump with its gauge is screwed into the drain hole below.";
    page.figure(Drawing::Flange(8), shows, "The upper hole blanked, the pump in the lower one", &["blank-screw", "drain-plug", "filler-plug"]);
    page.step("drain", 5, &["Close the drain", "Drain plug first"]);
    page.say(&["[Hang a new washer on the drain plug](fit:plug-washer*1) and [tighten the drain plug](torque:drain-plug).", "[Push a new washer over the drain plug](fit:plug-washer*1). [Tighten the drain plug](torque:drain-plug)."]);
    page.say(&["Look at its magnet before it goes in: wool on it is wear, chips are damage.", "Wipe its magnet and look at what stays on the cloth."]);
}

fn pour(page: &mut Page<'_, '_>) {
    page.step("pour", 15, &["Fill with oil", "Oil in"]);
    page.say(&["[Pour the oil in at the filler hole](fill:case-oil), slowly, so that air finds its way out.", "[Fill the case through the filler hole](fill:case-oil) and give it time to run through the bearings."]);
    page.say(&["Hold the [depth gauge](tool:depth-gauge) in the hole. [Read the level twice](measure:oil-level).", "With the [depth gauge](tool:depth-gauge), [read how far the oil stands below the hole](measure:oil-level)."]);
    page.step("filler", 5, &["Close the filler hole", "Filler plug"]);
    page.say(&["[Hang a new washer on the filler plug](fit:plug-washer*1) and [tighten the filler plug](torque:filler-plug)."]);
    page.say(&["Wipe the case dry; a drop here tomorrow is an answer.", "Put clean paper under the machine and look at it in the morning."]);
    stop(page, &["[Safe to stop: the oil is in and both holes are closed](stop:)"]);
}

fn drives(page: &mut Page<'_, '_>) {
    page.step_for("crank", 5, "drive-M", &["Fit the hand crank", "Crank on"]);
    page.say(&["[Slide the crank on to its splines, handle outwards](fit:hand-crank). It turns freely and stops where you let it go.", "[Push the crank on with its handle outwards](fit:hand-crank)."]);
    page.step_for("motor", 20, "drive-E", &["Fit the motor", "Motor on"]);
    page.notice("DANGER", &["A live motor will start under your hands and tear a limb off, or kill by shock. Have a qualified person disconnect it and prove it dead. Put your own [padlock on the isolator](tool:isolator-lock) and keep the key in your pocket until the machine has been tried by hand."]);
    page.say(&["[Slide the motor on to its splines, cable downwards](fit:drive-motor), a second pair of hands under it."]);
    page.step("end", 3, &["Hand it on", "Before the runs"]);
    page.say(&["The runs come [next](see:proving#runs), on another day and with the warden.", "What remains are [the runs](see:proving#runs) and two signatures."]);
    stop(page, &["[Safe to stop: the machine is filled](stop:)"]);
}
