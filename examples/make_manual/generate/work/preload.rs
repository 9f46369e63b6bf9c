//! Two taper bearings whose preload a shim decides; the seal is left out for the drag and fitted in another procedure.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade::{self, Bolts};
use super::{AGAIN, HOT, extras, fastener, guard_or_cap, stop};

pub(crate) fn preload(book: &mut Book<'_>, words: &Words) {
    let size = book.random.pick(&trade::SHAFTS);
    let mut words = words.clone();
    words.set("taper", size.taper);
    words.set("seal", size.seal);
    words.set("dia", size.shaft.to_string());
    words.set("rubber", book.random.pick(&["NBR", "HNBR", "FKM"]));
    // Hundredths of a millimetre: the reading, and what it gives at a preload of four.
    let reading = 50 + 2 * book.random.between(0, 14);
    words.set("reading", format!("0.{reading}"));
    words.set("gives", format!("0.{}", reading - 4));
    squeeze(book, &words);
    seal(book, &words);
}

fn squeeze(book: &mut Book<'_>, words: &Words) {
    let count = book.random.pick(&[4, 6, 8]);
    let thread = book.random.pick(&[trade::M8, trade::M10]);
    let bolts = Bolts { thread, grade: trade::DRY, count, role: "clamp", into: "cast-iron", stages: 1 }.choose(book.random);
    let mut words = words.clone();
    words.set("half", ["", "", "", "", "two", "", "three", "", "four"].get(count).copied().unwrap_or("half"));
    words.set("few", (count / 2).to_string());
    let mut page = Page::new(book, &words, "$s-preload", &["$S shaft and its preload", "Preload of the $s shaft", "Taper bearings of the $s shaft"]);
    page.share("parts", "$s-cap: {name: Cap of the $s shaft, kind: cover, material: cast-iron, count: 1, reuse: inspect, when: spigot and joint face unmarked, source: data-book}");
    page.share("seals", "$s-cap-seal: {name: Seal in the $s cap, type: rotary-lip, size: $seal, material: $rubber, count: 1, reuse: never,\n                faces: {spring: case-oil, back: air}, depth: 1 mm, lip: shaft-grease, in: $s-cap, over: splines, sleeve: spline-sleeve, source: data-book}");
    page.share("shafts", "$s-cap-line: [case-oil, $s-cap-seal, air]");
    page.leave("$s-cap-seal: {left: absent, because: the drag of the bearings is read without it, finish_in: $s-cap-close#seal, forbids: [fill:case-oil]}");
    page.list("kits", "$s-taper-kit: {name: Bearing kit of the $s shaft (invented), holds: {$s-taper: 2, $s-spigot-ring: 1, $s-shim: 8}, source: data-book}");
    page.list("bearings", "$s-taper:\n    name: Taper bearing of the $s shaft\n    size: $taper\n    count: 2\n    fit: {shaft: $dia mm, interference: max 0.008 mm}\n    faces: {large-end: $s-worm}\n    limit: max 120 °C\n    source: data-book");
    page.list("parts", "$s-housing: {name: $S housing, kind: housing, material: cast-iron, mass: 19 kg, count: 1, reuse: inspect, when: bores and joint faces unmarked, source: data-book}");
    page.list("parts", "$s-worm: {name: $S worm, kind: shaft, count: 1, side: splines towards the cap, reuse: inspect, when: flanks and seal track unmarked, source: data-book}");
    page.list("parts", "$s-spigot-ring: {name: O-ring of the $s cap, kind: o-ring, count: 1, material: $rubber, in: $s-cap, reuse: never, from: $s-taper-kit, source: data-book}");
    page.list("shims", "$s-shim: {name: Shims under the $s cap, from: 0.40–0.80 mm, step: 0.02 mm, is: reading - target, target: 0.04 mm, accept: 0.02–0.06 mm, worked: {reading: $reading mm, gives: $gives mm}, source: data-book}");
    page.list("heats", "$s-warm: {name: Heat for the $s bearings, of: $s-taper, from: 20 °C, to: 110 ± 5 °C, cool: ≥ 20 min, check_with: contact-probe, source: bench-practice}");
    page.list("measures", "$s-gap: {name: Gap under the $s cap without shims, with: feeler-gauge, count: 3, when: cold and without shims, chooses: $s-shim, otherwise: turn the worm and read again, source: data-book}");
    page.list("measures", "$s-pull:\n    name: Steady pull on the cord\n    kind: other\n    spec: 20–30 N\n    with: spring-scale\n    count: 2\n    when: oiled and without seals\n    otherwise: one shim thicker if it drags too much, one thinner if it runs too freely\n    source: data-book");
    page.list("turns", "$s-settle: {name: $S worm, of: $s-worm, amount: 10 turn, sense: clockwise, viewed_from: splined end, source: data-book}");
    fastener(&mut page, "$s-cap-bolt", "Bolt of the $s cap\n    holds: [$s-cap]", &bolts.fields, AGAIN);
    rings(&mut page);
    gap(&mut page);
    drag(&mut page);
    page.done();
}

fn rings(page: &mut Page<'_, '_>) {
    page.say(&[
        "Two taper bearings carry the $s worm, their large ends against its shoulders. The shim under the cap says how hard they are squeezed.",
        "A shim decides how long these bearings live. It is chosen from what you read, not from what was in before.",
        "Too thin a shim and the bearings run hot; too thick and the worm walks to and fro under load.",
    ]);
    page.say(&["You read two things: the gap, which chooses the shim, and the pull, which proves it.", "Write every reading down when you take it."]);
    page.next();
    page.block("```text\n$s worm                  read by ..........      date ..........\n\ngap without shims        1 .......   2 .......   3 .......\nshim chosen              .......\npull after the turns     clockwise .......       anticlockwise .......\n```");
    page.step("housing", 10, &["Set the housing up", "Housing on the bench"]);
    page.say(&["[Set the housing on the bench, cap end upwards](fit:$s-housing). [Wipe its bores clean and dry](clean:$s-housing).", "[Stand the housing on blocks with its cap end upwards](fit:$s-housing). [Wipe both bores](clean:$s-housing)."]);
    page.say(&["[Wipe the shoulders of the worm](clean:$s-worm).", "[Wipe the worm from shoulder to shoulder](clean:$s-worm)."]);
    page.step("warm", 15, &["Warm the inner rings and drop them on", "Warm rings, cold shaft"]);
    page.notice("WARNING", &HOT);
    page.say(&["Lay both inner rings on the [heat plate](tool:heat-plate), not on its bare coil.", "Both inner rings lie flat on the [heat plate](tool:heat-plate)."]);
    page.say(&["[Warm the inner rings](heat:$s-warm) and read them with the [contact probe](tool:contact-probe).", "[Warm both rings through](heat:$s-warm). The [contact probe](tool:contact-probe) says when."]);
    page.next();
    page.say(&["[Drop one on each end, large end against the shoulder](fit:$s-taper).", "[Drop a ring on each end, its large end to the shoulder](fit:$s-taper)."]);
    page.say(&["Hold each down until it grips: a ring that cools short of its shoulder gives a false preload.", "Keep a hand on each until it has gripped its seat."]);
    page.step("cool", 5, &["Let them cool", "Cold before they are judged"]);
    page.say(&["[Let the rings come back to the bench's warmth](cool:$s-warm).", "[Let both rings cool where they sit](cool:$s-warm)."]);
    page.say(&["Try each shoulder with the thinnest [feeler](tool:feeler-gauge); it must not go in.", "The thinnest [feeler](tool:feeler-gauge) may not go in at either shoulder."]);
    stop(page, &["[Safe to stop: both rings are on and cold](stop:)"]);
}

fn gap(page: &mut Page<'_, '_>) {
    page.step("gap", 20, &["Read the gap without shims", "The gap that chooses the shim"]);
    page.say(&["[Oil both bearings](apply:case-oil@$s-taper) and [lower the worm into the housing](fit:$s-worm).", "[Drip oil on both bearings](apply:case-oil@$s-taper). [Lower the worm into its bores](fit:$s-worm)."]);
    page.say(&["[Put the cap on without shims or O-ring](dry-fit:$s-cap).", "[Lay the cap on bare, without shims and without its O-ring](dry-fit:$s-cap)."]);
    page.say(&["[Run $half bolts up by hand, one in every second hole](start:$s-cap-bolt*$few), until the worm has no end play and still turns."]);
    page.next();
    page.say(&["[Read the gap at three places](measure:$s-gap). Choose the shim from the mean of the three.", "[Read the gap with the feelers, three times round](measure:$s-gap). The mean of the three chooses the shim."]);
    let shows = "The $s worm in section, lying down. Two taper bearings stand with their large ends against its shoulders; the cap presses on the outer ring, with a shim under its flange and an empty place where the seal will sit.";
    page.figure(Drawing::Section(5), shows, "Gap less preload is the shim; the seal's place stays empty", &["$s-taper", "$s-worm", "$s-shim", "$s-spigot-ring", "$s-cap-bolt"]);
    page.step("shim", 12, &["Fit the shim", "The chosen shim goes in"]);
    page.say(&["[Take the $half bolts out](remove:$s-cap-bolt) and [lift the cap off](remove:$s-cap).", "[Screw the $half bolts out](remove:$s-cap-bolt). [Lift the cap off again](remove:$s-cap)."]);
    page.say(&["[Lay the chosen shim on the housing](fit:$s-shim).", "[Lay the chosen shim flat on the housing's face](fit:$s-shim)."]);
    page.say(&["[Grease the O-ring](apply:shaft-grease@$s-spigot-ring) and [roll the O-ring on to the cap's spigot](fit:$s-spigot-ring)."]);
    page.step("cap", 12, &["Tighten the cap", "Cap on for good"]);
    page.say(&["[Put the cap on, seal pocket outwards](fit:$s-cap) and [run all bolts in by hand](start:$s-cap-bolt).", "[Lower the cap on, its seal pocket outwards](fit:$s-cap). [Put all bolts in with the fingers](start:$s-cap-bolt)."]);
    page.say(&["[Tighten the cap bolts in the order shown](torque:$s-cap-bolt)."]);
    page.say(&["Turn the worm with your fingers after each bolt. If it stiffens all at once, stop: an outer ring is standing askew.", "Turn the worm between the bolts; a ring that stands askew tells itself at once."]);
}

fn drag(page: &mut Page<'_, '_>) {
    page.step("drag", 25, &["Read the drag", "The pull that proves it"]);
    page.say(&["Wind the cord of the [spring scale](tool:spring-scale) on the coupling.", "The cord of the [spring scale](tool:spring-scale) goes round the coupling, without a knot."]);
    page.say(&["[Turn the worm so that the rollers settle](turn:$s-settle), then pull the cord off at a walking pace.", "[Turn the worm until its rollers sit](turn:$s-settle). Pull the cord off evenly."]);
    page.say(&["[Read the steady pull, once each way](measure:$s-pull), and leave out the jerk at the start.[^drag]"]);
    page.footnote("drag", &["A lip seal drags about as much as a pair of bearings does. Read with the seal in, the pull would say more about the seal than about the preload.", "That is why the seal waits: its lip would drag as much as both bearings together."]);
    page.next();
    page.say(&["[Second reader agrees with shim and pull](hold:second-reader)", "[Second reader has seen the readings and the shim's mark](hold:second-reader)"]);
    page.say(&["A change of shim starts again at [the gap](see:$s-preload#gap), with a new O-ring."]);
    page.step("cap-over", 5, &["Cover the shaft", "Keep the dirt out"]);
    page.say(&["Push the [bore cap](tool:bore-cap) over the empty seal pocket and tie a tag to it: no oil in this housing.", "The [bore cap](tool:bore-cap) goes over the empty pocket, with a tag: no oil."]);
    page.say(&["The seal goes in [when the cap is closed](see:$s-cap-close#seal)."]);
    stop(page, &["[Safe to stop: the worm is in, its seal is not](stop:)"]);
}

fn seal(book: &mut Book<'_>, words: &Words) {
    let count = book.random.pick(&[4, 6]);
    let bolts = Bolts { thread: trade::M6, grade: trade::DRY, count, role: "cover", into: "cast-iron", stages: 2 }.choose(book.random);
    let mut page = Page::new(book, words, "$s-cap-close", &["Seal of the $s cap", "Close the $s cap", "Seal and shroud of the $s cap"]);
    page.list("kits", "$s-shroud-kit: {name: Seal and gasket of the $s cap (invented), holds: {$s-cap-seal: 1, $s-shroud-gasket: 1}, source: data-book}");
    fastener(&mut page, "$s-shroud-bolt", "Bolt of the $s shroud\n    holds: [$s-shroud, $s-shroud-gasket]", &bolts.fields, AGAIN);
    page.list("parts", "$s-shroud: {name: Shroud of the $s cap, kind: cover, material: cast-iron, count: 1, covers: [$s-cap-seal], reuse: inspect, when: face flat and drain clear, source: data-book}");
    page.list("parts", "$s-shroud-gasket: {name: Gasket of the $s shroud, kind: gasket, under: $s-shroud, count: 1, faces: either, note: fitted dry, reuse: never, from: $s-shroud-kit, source: data-book}");
    page.list("measures", "$s-track: {name: Groove of the seal's track, kind: wear, limit: max 0.10 mm, with: dial-indicator, count: 3, when: clean and dry, otherwise: new worm, source: data-book}");
    page.say(&[
        "The drag of the bearings was read [without this seal](see:$s-preload#drag). Now it goes in.",
        "One seal, one gasket and a shroud: short work that the whole case waits for.",
    ]);
    page.say(&["Until then no oil may be poured.", "Have the pull and the shim signed before you begin."]);
    page.next();
    page.block("| Part | New or used again |\n| --- | --- |\n| seal | new, from the kit |\n| gasket | new, from the kit |\n| shroud and bolts | used again if they pass |");
    page.step("track", 10, &["Judge the track of the seal", "Where the lip will run"]);
    page.say(&["Pull the bore cap off and wipe the splines.", "Take cap and tag off the pocket."]);
    page.say(&["Lead the [dial indicator](tool:dial-indicator) along the track. [Read the groove at three places](measure:$s-track).", "The tip of the [dial indicator](tool:dial-indicator) feels the groove that the old lip has left. [Read how deep the groove is](measure:$s-track)."]);
    page.next();
    page.say(&["[Second reader agrees that the track is good](hold:second-reader)"]);
    page.step("seal", 10, &["Fit the seal", "Seal into the cap"]);
    page.say(&["Slide the [sleeve](tool:spline-sleeve) over the splines.", "First the [sleeve](tool:spline-sleeve), over all the splines."]);
    page.say(&["[Grease the seal's lip](apply:shaft-grease@$s-cap-seal) and, with the [seal driver](tool:seal-driver), [seat the seal in the cap, spring side to the oil](fit:$s-cap-seal).", "[Grease the lip all round](apply:shaft-grease@$s-cap-seal). With the [seal driver](tool:seal-driver), [seat the seal, its spring to the oil](fit:$s-cap-seal)."]);
    page.say(&["Draw the sleeve off and look at the lip all round.", "Draw the sleeve off; the lip lies even."]);
    let shows = "The $s cap from outside. The seal sits below the cap's face, its spring turned away from the viewer; the shroud with its gasket closes the pocket.";
    page.figure(Drawing::Flange(count), shows, "The spring looks at the oil, away from you", &["$s-cap-seal", "$s-shroud-gasket", "$s-shroud", "$s-shroud-bolt"]);
    page.step("shroud", 10, &["Fit the shroud", "Close the pocket"]);
    page.say(&["[Lay the new gasket down dry](fit:$s-shroud-gasket) and [put the shroud on, drain downwards](fit:$s-shroud).", "[Hang the dry gasket on the studs of your fingers](fit:$s-shroud-gasket). [Bring the shroud up, its drain downwards](fit:$s-shroud)."]);
    page.say(&["[Run the bolts in by hand](start:$s-shroud-bolt)."]);
    if bolts.stages > 1 {
        page.say(&["[Tighten the first pass crosswise](torque:$s-shroud-bolt/1) and [tighten the second pass crosswise](torque:$s-shroud-bolt/2)."]);
    } else {
        page.say(&["[Tighten the shroud bolts crosswise](torque:$s-shroud-bolt)."]);
    }
    extras(&mut page, "shroud", 2);
    guard_or_cap(&mut page);
    page.step("end", 5, &["Hand it on", "Before you leave it"]);
    page.say(&["Turn the worm by its splines: it drags more than it did, and evenly.", "The worm turns more heavily now; that is the lip."]);
    page.next();
    page.say(&["[Line warden has seen the tag come off](hold:line-warden)"]);
    stop(&mut page, &["[Safe to stop: the $s cap is closed](stop:)"]);
    let link = page.words.fill("[the seal of the $s cap](see:$s-cap-close#seal)");
    page.book.finished.push(link);
    page.done();
}
