//! A toothed belt set by its marks, its pulley locked, and the marks looked at again after turning.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade::{self, Bolts};
use super::{AGAIN, HOLDER, fastener, guard_or_cap, stop};

pub(crate) fn belt(book: &mut Book<'_>, words: &Words) {
    let thread = book.random.pick(&[trade::M10, trade::M12]);
    let pulley = Bolts { thread, grade: trade::LOCKER, count: 1, role: "drive", into: "steel", stages: 1 }.choose(book.random);
    let tensioner = Bolts { thread: trade::M8, grade: book.random.pick(&[trade::DRY, trade::HARD]), count: 2, role: "clamp", into: "cast-iron", stages: 1 }.choose(book.random);
    let mut words = words.clone();
    // An arc on the pulley's rim and the degrees it makes: 360·s ÷ (π·D).
    let (arc, diameter) = (f64::from(book.random.between(2, 4)), f64::from(book.random.pick(&[98_u32, 120, 140])));
    words.set("arc", trade::number(arc));
    words.set("dia", trade::number(diameter));
    words.set("offset", format!("{:.2}", 360.0 * arc / (std::f64::consts::PI * diameter)));
    let mut page = Page::new(book, &words, "$s-belt", &["Belt of the $s shaft", "$S belt and its marks", "Set the $s belt"]);
    lists(&mut page, &pulley.fields, &tensioner.fields);
    pulley_text(&mut page);
    marks(&mut page);
    again(&mut page);
    page.done();
}

fn lists(page: &mut Page<'_, '_>, pulley: &str, tensioner: &str) {
    fastener(page, "$s-pulley-bolt", "Pulley bolt of the $s shaft\n    holds: [$s-pulley]", pulley, "\n    locker: medium-locker\n    hold_with: shaft-holder\n    reuse: inspect\n    when: thread clean and head unmarked");
    fastener(page, "$s-tension-bolt", "Bolt of the $s tensioner\n    holds: [$s-tensioner]", tensioner, AGAIN);
    page.list("parts", "$s-pulley: {name: Pulley of the $s shaft, kind: gear, count: 1, faces: {marked-rim: $s-tensioner}, reuse: inspect, when: teeth without hooks, source: data-book}");
    page.list("parts", "$s-pulley-key: {name: Key of the $s pulley, kind: key, count: 1, reuse: inspect, when: no shear mark, source: data-book}");
    page.list("parts", "$s-tensioner: {name: Tensioner of the $s belt, kind: other, count: 1, side: eccentric to the case, reuse: inspect, when: runs without sound, source: data-book}");
    page.list("parts", "$s-toothed-belt: {name: Toothed belt of the $s shaft, kind: other, number: TB-0$dia, count: 1, side: arrow in the sense of turning, reuse: never, from: order, source: data-book}");
    page.list("measures", "$s-sag: {name: Force that bends the $s belt, kind: other, spec: 18–24 N, with: spring-scale, count: 2, when: cold and in the middle of the long side, otherwise: set the tensioner again, source: data-book}");
    page.list("waits", "$s-pulley-cure: {name: Locker cures at the $s pulley, time: ≥ 24 h, of: [$s-pulley-bolt], needs: torque:$s-pulley-bolt, source: bench-practice}");
    page.list("aligns", "$s-marks: {name: Marks of the $s belt, marks: [pulley line, case line], offset: $offset°, arc: $arc mm, diameter: $dia mm, viewed_from: pulley end, check_with: steel-rule, source: data-book}");
    page.list("turns", "$s-two-turns: {name: $S pulley, of: $s-pulley, amount: 2 turn, sense: clockwise, viewed_from: pulley end, source: data-book}");
}

fn pulley_text(page: &mut Page<'_, '_>) {
    page.say(&[
        "A belt that is one tooth out runs, and runs badly. So the marks are set, the shaft is turned, and the marks are looked at again.",
        "The belt ties the $s shaft to its neighbour. Which tooth meets which is decided here and nowhere else.",
    ]);
    page.say(&["Look at every mark straight from the front: seen from the side it lies.", "Keep one eye shut when you read a mark."]);
    page.next();
    page.look_abroad(&["Another machine is put together under [$title]($abroad)."]);
    page.step("pulley", 8, &["Put the pulley on", "Pulley and key"]);
    page.say(&["[Seat the key flush in its slot](fit:$s-pulley-key) and [slide the pulley over the key, marked rim outwards](fit:$s-pulley).", "[Tap the key home](fit:$s-pulley-key). [Slide the pulley on with its marked rim outwards](fit:$s-pulley)."]);
    page.say(&["It goes on by hand or it is the wrong one.", "Nothing is driven here: the shaft's bearing would take the blows."]);
    page.step("pulley-bolt", 8, &["Tighten the pulley bolt", "Locker on the pulley bolt"]);
    page.notice("CAUTION", &HOLDER);
    page.say(&["[Wipe bolt and thread clean and dry](clean:$s-pulley-bolt). [Put locker on the bolt's thread](apply:medium-locker@$s-pulley-bolt).", "[Clean the bolt and its hole](clean:$s-pulley-bolt) and [wet the thread with locker](apply:medium-locker@$s-pulley-bolt)."]);
    page.say(&["[Run the bolt in by hand](start:$s-pulley-bolt) and [tighten the pulley bolt](torque:$s-pulley-bolt)."]);
    page.say(&["[Paint a line across its head](mark:$s-pulley-bolt)."]);
    page.step("cure", 3, &["Let the locker cure", "Nothing turns today"]);
    page.say(&["[Write the hour on the tag](begin:$s-pulley-cure).", "[Write day and hour beside the painted line](begin:$s-pulley-cure)."]);
    stop(page, &["[Safe to stop: the pulley bolt is tightened and painted](stop:)"]);
    page.say(&["[The locker has cured](wait:$s-pulley-cure)."]);
}

fn marks(page: &mut Page<'_, '_>) {
    page.step("belt", 15, &["Lay the belt on its marks", "Belt on, marks together"]);
    page.say(&["[Hang the tensioner on its stud](fit:$s-tensioner) and [run its two bolts in by hand](start:$s-tension-bolt).", "[Put the tensioner in place](fit:$s-tensioner). [Run both bolts in by hand](start:$s-tension-bolt)."]);
    page.say(&["[Lay the belt over both wheels, arrow in the sense of turning](fit:$s-toothed-belt)."]);
    page.say(&["[Set the pulley line on the case line](align:$s-marks), with the [steel rule](tool:steel-rule) along the rim."]);
    let shows = "Two wheels and the belt between them, seen from the pulley end. The red lines are the marks: one on the rim, one on the case.";
    page.figure(Drawing::Wheels, shows, "Seen straight from the front", &["$s-pulley", "$s-toothed-belt", "$s-tensioner"]);
    page.step("tension", 10, &["Set the tension", "Bend it and read"]);
    page.say(&["Hook the [spring scale](tool:spring-scale) into the middle of the long side and pull until the belt touches the gauge line.", "The [spring scale](tool:spring-scale) pulls in the middle of the long side, up to the gauge line."]);
    page.say(&["[Read the force that bends the belt](measure:$s-sag) and [tighten the tensioner bolts](torque:$s-tension-bolt).", "[Read the force at the gauge line](measure:$s-sag). [Tighten both tensioner bolts](torque:$s-tension-bolt)."]);
    page.say(&["The tensioner moves with its bolts, so hold it while they come up.", "Hold the tensioner with the free hand until both bolts have their value."]);
}

fn again(page: &mut Page<'_, '_>) {
    page.step("turn", 10, &["Turn it and look again", "Two turns, then the marks"]);
    page.notice("WARNING", &["A finger between belt and pulley is crushed before the hand stops. One person turns, and nobody else is near the belt.", "Belt and pulley draw in what touches them, and crush it. Turn alone, with both hands on the pulley's rim and the sleeves tied."]);
    page.say(&["[Turn the pulley so that the belt settles](turn:$s-two-turns), always the same way.", "[Turn the pulley by hand and never back](turn:$s-two-turns)."]);
    page.say(&["[Look at the marks again](align:$s-marks). [Read the belt's force again](measure:$s-sag).", "[See that the lines meet again](align:$s-marks) and [read the force once more](measure:$s-sag)."]);
    page.say(&["Lines that part by a tooth send you back to [the belt](see:$s-belt#belt).", "Where the lines no longer meet, begin again at [the belt](see:$s-belt#belt)."]);
    page.next();
    page.block("```text\n$s belt      read by ..........      date ..........\n\nforce        before the turns .......      after .......\nmarks        meet ....    one tooth out ....\n```");
    page.say(&["[Second reader has seen the marks after the turns](hold:second-reader)"]);
    guard_or_cap(page);
    page.step("end", 3, &["Hand it on", "Before you leave it"]);
    page.say(&["Spin the tensioner's wheel with a finger: it stands against the belt and makes no sound.", "No tool lies on the belt, no tag hangs on the pulley."]);
    stop(page, &["[Safe to stop: the $s belt is set](stop:)"]);
    page.book.finished.push(page.words.fill("[the marks of the $s belt](see:$s-belt#turn)"));
}
