//! A wet plate pack: plates that soak first, springs under load, a lever travel that is provisional.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade::{self, Bolts};
use super::{AGAIN, fastener, stop};

pub(crate) fn pack(book: &mut Book<'_>, words: &Words) {
    let friction = book.random.between(5, 7);
    // Tenths of a millimetre.
    let (thick, thin) = (book.random.pick(&[30_u32, 25]), book.random.pick(&[20_u32, 16]));
    let height = friction * thick + (friction - 1) * thin;
    let count = book.random.pick(&[6, 8]);
    let bolts = Bolts { thread: trade::M6, grade: trade::DRY, count, role: "clamp", into: "cast-iron", stages: 2 }.choose(book.random);
    let mut words = words.clone();
    let tenths = |tenths: u32| format!("{}.{}", tenths / 10, tenths % 10);
    words.set("friction", friction.to_string());
    words.set("steel", (friction - 1).to_string());
    words.set("thick", tenths(thick));
    words.set("thin", tenths(thin));
    words.set("height", tenths(height));
    words.set("worn", tenths(height - 8));
    words.set("springs", count.to_string());
    words.set("held", (count - 2).to_string());
    words.set("n", if count == 6 { "six" } else { "eight" });
    words.set("most", if count == 6 { "four" } else { "six" });
    let mut page = Page::new(book, &words, "$s-pack", &["Plate pack of the $s brake", "$S brake and its plates", "Wet plates of the $s brake"]);
    lists(&mut page, &bolts.fields);
    soak(&mut page);
    stack(&mut page);
    springs(&mut page, bolts.stages);
    page.book.travels.push(words.fill("$s"));
    page.done();
}

fn lists(page: &mut Page<'_, '_>, bolts: &str) {
    page.share("measures", "$s-travel: {name: Lever travel of the $s brake, kind: other, spec: 18–22 mm, with: steel-rule, count: 1, when: unloaded, otherwise: move the adjuster by half a turn and read again, source: data-book}");
    page.leave("$s-adjuster: {of: $s-travel, left: provisional, because: the plates settle over the first runs, finish_in: proving#$s-travel, forbids: [sign]}");
    page.list("kits", "$s-plate-kit: {name: Tarrow plate kit (invented), for: {plates: kit}, holds: {$s-friction: $friction, $s-steel: $steel, $s-spring: $springs}, source: data-book}");
    page.list("parts", "$s-hub: {name: Splined hub of the $s brake, kind: other, count: 1, faces: {plain-collar: $s-drum}, from: stock, reuse: inspect, when: $s-spline-wear, source: data-book}");
    page.list("parts", "$s-drum: {name: Drum of the $s brake, kind: housing, material: cast-iron, mass: 14 kg, count: 1, reuse: inspect, when: slots without steps, source: data-book}");
    for (id, name, kind, count, rest, passes) in [
        ("friction", "Friction plate", "plate", "$friction", "thickness: $thick mm, ", "$s-height"),
        ("steel", "Steel plate", "plate", "$steel", "thickness: $thin mm, ", "flat on glass"),
        ("spring", "Spring", "spring", "$springs", "", "$s-free-length"),
    ] {
        page.list("parts", &format!("$s-{id}: {{name: {name} of the $s brake, kind: {kind}, count: {count}, {rest}faces: either, reuse: {{stock: inspect, kit: never}}, when: {{stock: {passes}}}, from: {{stock: stock, kit: $s-plate-kit}}, source: data-book}}"));
    }
    page.list("parts", "$s-retainer: {name: Spring retainer of the $s brake, kind: cover, count: 1, covers: [$s-height], reuse: inspect, when: flat and holes round, source: data-book}");
    page.list("stacks", "$s-plates: {name: Plates of the $s brake, of: [$s-friction, $s-steel], begin: $s-friction, end: $s-friction, source: data-book}");
    page.list("waits", "$s-soak: {name: Friction plates under oil, time: ≥ 12 h, of: [$s-friction], in: case-oil, covered: true, needs: nothing, source: data-book}");
    page.list("measures", "$s-spline-wear: {name: Wear of the hub's splines, kind: wear, limit: max 0.10 mm, with: bench-micrometer, count: 3, when: clean and dry, otherwise: new hub, source: data-book}");
    page.list("measures", "$s-free-length: {name: Free length of a spring, for: {plates: stock}, kind: free-length, spec: 42.0 mm, limit: min 40.5 mm, with: bench-micrometer, count: $springs, when: unloaded, otherwise: new set, source: data-book}");
    page.list("measures", "$s-height: {name: Height of the $s pack, kind: height, of: $s-plates, spec: $height mm, limit: min $worn mm, with: bench-micrometer, count: 3, when: pressed together by hand, otherwise: new friction plates, source: data-book}");
    fastener(page, "$s-retainer-bolt", "Spring retainer bolt of the $s brake\n    holds: [$s-retainer]", bolts, AGAIN);
    page.list("fasteners", "$s-stud:\n    name: Long stud for easing the springs\n    count: 2\n    thread: M6x1.0\n    length: 90 mm\n    class: 8.8\n    role: soft\n    threads: dry\n    torque: hand\n    because: it only guides the retainer while the springs are drawn down\n    temporary: true\n    source: bench-practice");
}

fn soak(page: &mut Page<'_, '_>) {
    page.say(&["The brake holds the load when nobody does. Everything in this pack runs wet, so the plates soak first.", "Dry plates grab and burn. Start the soak before you touch anything else, and keep the evening after for the rest."]);
    page.next();
    page.block("| | Stock plates | Tarrow kit |\n| --- | --- | --- |\n| Plates and springs | measured, and used again if they pass | new from the kit |\n| Hub | the machine's own, if its splines pass | the machine's own, if its splines pass |");
    page.step("soak", 5, &["Start the soak", "Plates under oil"]);
    page.say(&["Stand the plates on edge in the [lidded tray](tool:soak-tray), a washer between one and the next so that oil reaches each face.", "The plates stand on edge in the [lidded tray](tool:soak-tray); where two lie on each other, nothing soaks."]);
    page.say(&["[Put the friction plates under the oil and write the hour on the lid](begin:$s-soak)."]);
    stop(page, &["[Safe to stop: the plates are soaking](stop:)"]);
    page.step("hub", 12, &["Judge the hub", "Splines first"]);
    page.say(&["[Set the drum on the bench, slots upwards](fit:$s-drum).", "[Stand the drum on two blocks, its slots upwards](fit:$s-drum)."]);
    page.say(&["Wear shows as a step where a plate has hammered its tooth. Measure across it with the [micrometer](tool:bench-micrometer)."]);
    page.say(&["[Read the wear of the hub's splines](measure:$s-spline-wear).", "[Read the wear at three splines](measure:$s-spline-wear)."]);
    page.next();
    page.say(&["[Line warden agrees that the hub stays](hold:line-warden)"]);
    page.step_for("springs-old", 12, "plates-stock", &["Judge the old springs and plates"]);
    page.say(&["[Read the free length of each spring](measure:$s-free-length), between the jaws of the [micrometer](tool:bench-micrometer)."]);
    page.say(&["One short spring condemns the set, because the retainer then leans.", "One short spring and all go: a retainer that leans wears its bolts."]);
    page.say(&["Lay each steel plate on a sheet of glass: light under it sends it to the scrap."]);
    page.step_for("kit-new", 5, "plates-kit", &["Open the kit", "Count the kit"]);
    page.say(&["Lay plates and springs out and count them against the kit's sheet before the paper goes in the bin."]);
    page.next();
    page.say(&["[Second reader has counted the kit](hold:second-reader)"]);
}

fn stack(page: &mut Page<'_, '_>) {
    page.step("stack", 15, &["Stack the plates", "Plates in turn"]);
    page.say(&["[The soak is over](wait:$s-soak). [Set the hub in the drum, plain collar down](fit:$s-hub).", "[The soak is over](wait:$s-soak). [Lower the hub into the drum with its plain collar down](fit:$s-hub)."]);
    page.say(&["Friction plate first and last, steel between: [stack the plates on the hub](fit:$s-plates), oil running off each one."]);
    page.say(&["[Read the height of the pack](measure:$s-height).", "[Press the pack together by hand and read its height](measure:$s-height)."]);
    let shows = "The pack of the $s brake in section. On the splined hub lie friction plates and steel plates in turn, a friction plate at both ends; above them the springs under their retainer, held by bolts.";
    page.figure(Drawing::Section(6), shows, "Friction plate first and last", &["$s-hub", "$s-friction", "$s-steel", "$s-spring", "$s-retainer"]);
}

fn springs(page: &mut Page<'_, '_>, stages: usize) {
    page.step("springs", 15, &["Fit springs and retainer", "Springs under the retainer"]);
    page.notice("WARNING", &["The springs push against this plate. A plate let go on one side flies into eyes and teeth. Wear the [eye shield](tool:eye-shield), keep your face out of its path, and draw the plate down evenly, half a turn at each bolt."]);
    page.say(&["[Screw the two long studs in, opposite each other](start:$s-stud). [Stand the $n springs in their pockets](fit:$s-spring) and [lower the retainer over the studs](fit:$s-retainer)."]);
    page.say(&["[Run $most bolts in by hand](start:$s-retainer-bolt*$held) and draw the plate down."]);
    page.step("studs", 5, &["Change the studs for bolts", "Studs out, last bolts in"]);
    page.notice("WARNING", &["The springs are under load now. A bolt backed out by mistake lets the plate fly into your face. Keep the [eye shield](tool:eye-shield) on and touch no bolt but the last two."]);
    page.say(&["[Take the two long studs out](remove:$s-stud) and [run the last two bolts in by hand](start:$s-retainer-bolt*2)."]);
    page.step("retainer", 12, &["Tighten the retainer", "Bring the retainer to its value"]);
    if stages > 1 {
        page.say(&["[Tighten the first pass in the order shown](torque:$s-retainer-bolt/1) and [tighten the second pass in the same order](torque:$s-retainer-bolt/2)."]);
    } else {
        page.say(&["[Tighten the retainer bolts in the order shown](torque:$s-retainer-bolt)."]);
    }
    page.say(&["[Paint a line across each head](mark:$s-retainer-bolt)."]);
    page.next();
    page.say(&["[Second reader has watched the wrench](hold:second-reader) [Line warden has seen the painted lines](hold:line-warden)"]);
    page.step("adjuster", 10, &["Set the adjuster", "The first travel"]);
    page.say(&["Hold the [steel rule](tool:steel-rule) square to the lever. [Set the lever travel and write it down](measure:$s-travel)."]);
    page.say(&["The plates have yet to settle, so this reading is provisional. It is taken again [after the first runs](see:proving#$s-travel)."]);
    page.say(&["Tie a tag to the lever: not signed.", "A tag on the lever says that it is not signed."]);
    stop(page, &["[Safe to stop: the pack is closed](stop:)"]);
}
