//! A cover with its gasket or a bead, bolts in order, and an inspection plug.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade::{self, Bolts};
use super::{AGAIN, DEGREASER, fastener, guard_or_cap, stop};

pub(crate) fn cover(book: &mut Book<'_>, words: &Words) {
    let (with_gasket, in_aluminium) = (!book.random.once_in(3), book.random.once_in(3));
    let (material, grade) = if in_aluminium { ("aluminium", trade::PASTE) } else { ("cast-iron", trade::DRY) };
    let count = book.random.pick(&[6, 8, 10, 12]);
    let thread = book.random.pick(&[trade::M6, trade::M8, trade::M10]);
    let stages = if count > 8 { 3 } else { 2 };
    let bolts = Bolts { thread, grade, count, role: "clamp", into: material, stages }.choose(book.random);
    let plug = trade::plug(book.random);
    let mut words = words.clone();
    words.set("material", material);
    words.set("n", ["", "", "", "", "", "", "six", "", "eight", "", "ten", "", "twelve"].get(count).copied().unwrap_or("all"));
    let mut page = Page::new(book, &words, "$s-cover", &["Cover of the $s case", "$S case and its cover", "Close the $s case"]);
    lists(&mut page, with_gasket, &bolts.fields, &plug);
    opening(&mut page);
    faces(&mut page);
    joint(&mut page, with_gasket, grade.threads == "anti-seize", bolts.stages);
    let drawing = "The $s cover seen from outside. The bolts stand round its rim in one circle, with the joint inside them; the inspection plug sits above the middle.";
    page.figure(Drawing::Flange(count), drawing, "Numbers go across the cover, never to a neighbour", &["$s-cover-bolt", "$s-case-cover", "$s-plug"]);
    passes(&mut page, with_gasket, bolts.stages);
    ending(&mut page, with_gasket);
    page.done();
}

fn lists(page: &mut Page<'_, '_>, with_gasket: bool, bolts: &str, plug: &str) {
    let kit = if with_gasket { "$s-gasket: 1, $s-washer: 1" } else { "$s-washer: 1" };
    page.list("kits", &format!("$s-cover-kit: {{name: Closing kit of the $s case (invented), holds: {{{kit}}}, source: data-book}}"));
    let held = if with_gasket { "[$s-case-cover, $s-gasket]" } else { "[$s-case-cover]" };
    fastener(page, "$s-cover-bolt", &format!("Cover bolt of the $s case\n    holds: {held}"), bolts, AGAIN);
    fastener(page, "$s-plug", "Inspection plug of the $s case", plug, "");
    page.list("parts", "$s-case:       {name: $S case, kind: housing, material: $material, mass: 12 kg, count: 1, reuse: inspect, when: joint face flat and threads whole, source: data-book}");
    page.list("parts", "$s-gear:       {name: Gear of the $s case, kind: gear, count: 1, faces: {mark: $s-case-cover}, reuse: inspect, when: $s-thrust-wear, source: data-book}");
    page.list("parts", "$s-case-cover: {name: Cover of the $s case, kind: cover, material: $material, mass: 3 kg, count: 1, covers: [$s-thrust-wear], reuse: inspect, when: joint face flat, source: data-book}");
    if with_gasket {
        page.list("parts", "$s-gasket:     {name: Gasket of the $s cover, kind: gasket, under: $s-case-cover, count: 1, faces: either, note: fitted dry, reuse: never, from: $s-cover-kit, source: data-book}");
    } else {
        page.list("beads", "$s-bead: {name: Bead of the $s cover, of: joint-sealant, between: [$s-case, $s-case-cover], diameter: 2 mm, path: 640 mm, source: data-book}");
        page.list("waits", "$s-cover-cure: {name: Sealant of the $s cover cures, time: ≥ 24 h, of: [$s-bead], needs: torque:$s-cover-bolt, source: store-cards}");
    }
    page.list("parts", "$s-dowel:      {name: Dowel of the $s cover, kind: pin, count: 2, faces: either, reuse: inspect, when: straight and without burrs, source: data-book}");
    page.list("parts", "$s-washer:     {name: Sealing washer of the inspection plug, kind: sealing-washer, count: 1, faces: either, reuse: never, from: $s-cover-kit, source: data-book}");
    page.list("measures", "$s-thrust-wear: {name: Wear of the gear at its thrust face, kind: wear, limit: max 0.12 mm, with: bench-micrometer, count: 3, when: clean and dry, otherwise: new gear, source: bench-sheet-3}");
}

fn opening(page: &mut Page<'_, '_>) {
    page.say(&[
        "The $s case is closed once and then left alone for years, so whatever is wrong inside has to be found now.",
        "What the cover hides nobody sees again until it comes loose. These pages look first and close afterwards.",
        "A cover is quickly bolted on. Most of the time here goes into what lies under it.",
    ]);
    page.say(&["Lay everything out before the joint is wet.", "Have the kit open and its list ticked off before you begin.", "Clear the bench: bolts on the left, kit on the right."]);
    page.next();
    page.look_abroad(&["The same joint on another machine is shown under [$title]($abroad).", "If you know [$title]($abroad) from another machine: the order here is another one."]);
    page.step("bench", 10, &["Set the case up", "Case on the bench", "Begin with the case"]);
    page.say(&["[Set the case on the bench, joint face upwards](fit:$s-case).", "[Stand the case on two blocks, its joint face upwards](fit:$s-case)."]);
    page.say(&["[Slide the gear on to its shaft, mark towards the cover](fit:$s-gear).", "[Put the gear on its shaft so that its mark can be seen](fit:$s-gear)."]);
    page.say(&["Turn it by hand and listen: a gear that runs true makes no sound.", "Turn it once round by hand and feel for a catch."]);
    page.step("wear", 15, &["Read the wear", "Judge the gear before it is hidden", "Measure what the cover will hide"]);
    page.say(&["The thrust face wears in a ring that the thumb finds before the eye does.", "Wear shows as a bright ring on the thrust face."]);
    page.say(&["Take the [micrometer](tool:bench-micrometer) across the ring at three places.", "Set the [micrometer](tool:bench-micrometer) on the ring, a third of a turn apart."]);
    page.say(&["[Read the wear of the gear at its thrust face](measure:$s-thrust-wear).", "[Read the wear three times and write each down](measure:$s-thrust-wear)."]);
    page.say(&["[Oil the teeth](apply:case-oil@$s-gear).", "[Brush oil over every tooth](apply:case-oil@$s-gear)."]);
    page.next();
    page.block("| What you see | What it means |\n| --- | --- |\n| a bright ring, even all round | the gear runs true |\n| a bright patch on one side | the shaft is bent, or its bearing is |\n| blue colour | it has run without oil |");
    page.say(&["[Second reader agrees that the gear stays](hold:second-reader)", "[Second reader has seen the three readings](hold:second-reader)"]);
}

fn faces(page: &mut Page<'_, '_>) {
    page.step("faces", 15, &["Clean both faces", "Faces clean and dry", "Make the joint clean"]);
    page.notice("CAUTION", &DEGREASER);
    page.say(&["Old gasket comes off with a wooden scraper; steel leaves grooves that leak.", "Scrape with wood, never with steel: a groove is a leak."]);
    page.say(&["[Brush degreaser along the face of the case](apply:case-degreaser@$s-case).", "[Brush the case's face with degreaser](apply:case-degreaser@$s-case)."]);
    page.say(&["[Wipe the face of the case dry](clean:$s-case) and [wipe the face of the cover clean](clean:$s-case-cover).", "[Wipe the case's face until the cloth stays white](clean:$s-case). [Do the same to the cover's face](clean:$s-case-cover)."]);
    page.step("look", 5, &["Look inside last", "Lamp in, rags out"]);
    page.say(&["Lamp in, rags out, count the tools.", "Take every rag out and hold a lamp to each corner."]);
    page.say(&["[Tap the two dowels into the case](fit:$s-dowel).", "[Set both dowels in the case's face](fit:$s-dowel)."]);
    page.next();
    page.say(&["[Line warden looks inside last](hold:line-warden)", "[Line warden has looked into the open case](hold:line-warden)"]);
}

fn joint(page: &mut Page<'_, '_>, with_gasket: bool, pasted: bool, stages: usize) {
    page.step("close", 12, &["Close the case", "Put the cover on", "Cover on"]);
    if pasted {
        page.say(&["[Wipe the $n bolts clean](clean:$s-cover-bolt) and [brush paste on their threads](apply:thread-paste@$s-cover-bolt)."]);
    }
    if with_gasket {
        page.say(&["[Lay the new gasket on the dowels, dry](fit:$s-gasket).", "[Hang the new gasket on the two dowels without paste or sealant](fit:$s-gasket)."]);
    } else {
        page.say(&["The sealant begins to set as soon as it leaves the tube, so the bolts lie ready.", "From the tube to the first pass is one movement."]);
        page.say(&["[Lay the bead inside the bolt holes, without a gap](apply:$s-bead).", "[Lay an unbroken bead inside the bolt holes](apply:$s-bead)."]);
    }
    page.say(&["[Lower the cover over the dowels](fit:$s-case-cover).", "[Bring the cover down square on its dowels](fit:$s-case-cover)."]);
    page.say(&["[Run the $n bolts in by hand](start:$s-cover-bolt).", "[Put the $n bolts in and run them up with the fingers](start:$s-cover-bolt)."]);
    if stages > 1 {
        page.say(&["[Tighten the first pass in the order shown](torque:$s-cover-bolt/1)."]);
    } else {
        page.say(&["[Tighten the cover bolts in the order shown](torque:$s-cover-bolt)."]);
    }
}

fn passes(page: &mut Page<'_, '_>, with_gasket: bool, stages: usize) {
    if stages > 1 {
        page.step("passes", 10, &["Bring the cover to its value", "The passes that remain"]);
        page.say(&["Same order, same wrench, set anew for each pass.", "Begin each pass at the bolt with the first number."]);
        page.say(&["[Tighten the second pass in the same order](torque:$s-cover-bolt/2)."]);
        if stages > 2 {
            page.say(&["[Tighten the third pass in the same order](torque:$s-cover-bolt/3)."]);
        }
    }
    if !with_gasket {
        page.step("cure", 3, &["Let the sealant cure", "Leave the cover alone"]);
        page.say(&["[Write the hour on the cover](begin:$s-cover-cure).", "[Write day and hour on the case](begin:$s-cover-cure)."]);
        stop(page, &["[Safe to stop: the cover is tightened and cures](stop:)"]);
        page.say(&["[The sealant has cured](wait:$s-cover-cure)."]);
    }
}

fn ending(page: &mut Page<'_, '_>, with_gasket: bool) {
    guard_or_cap(page);
    page.step("plug", 8, &["Close the inspection hole", "Fit the inspection plug"]);
    page.say(&["[Hang the new washer on the plug](fit:$s-washer) and [tighten the inspection plug](torque:$s-plug).", "[Push the new washer over the plug's thread](fit:$s-washer). [Tighten the inspection plug](torque:$s-plug)."]);
    page.say(&["Wipe round it; a drop here tomorrow is an answer.", "Wipe the case dry, so that a leak shows itself."]);
    if with_gasket {
        page.change("of: $s-thrust-wear.limit, was: max 0.15 mm", &["gears worn so far were noisy", "the gears of three machines were measured"]);
    }
    stop(page, &["[Safe to stop: the $s case is closed](stop:)", "[Safe to stop: case closed and plug in](stop:)"]);
}
