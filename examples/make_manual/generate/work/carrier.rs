//! A bearing and its seals in a carrier that is warmed; tried in dry in one procedure, fitted for good in another.

use super::super::book::{Book, ThirdAxis};
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade::{self, Bolts};
use super::{AGAIN, HOT, extras, fastener, guard_or_cap, stop};

pub(crate) fn carrier(book: &mut Book<'_>, words: &Words) {
    let size = book.random.pick(&trade::SHAFTS);
    let pair = book.random.once_in(2);
    let material = book.random.pick(&["aluminium", "cast-iron"]);
    let mut words = words.clone();
    words.set("material", material);
    words.set("interference", if material == "aluminium" { "0.040" } else { "0.020" });
    words.set("to", if material == "aluminium" { "85 ± 5 °C" } else { "110 ± 5 °C" });
    words.set("ball", size.ball);
    words.set("seal", size.seal);
    words.set("bore", size.bore.to_string());
    words.set("deep", (size.width + 3).to_string());
    words.set("vent", format!("{}.5", size.width + 1));
    words.set("rubber", book.random.pick(&["NBR", "HNBR", "FKM"]));
    dry(book, &words, pair);
    for_good(book, &words, material);
}

fn dry(book: &mut Book<'_>, words: &Words, pair: bool) {
    let mut page = Page::new(book, words, "$s-carrier-dry", &["Carrier of the $s shaft", "$S carrier with bearing and seals", "Bearing and seals of the $s carrier"]);
    page.share("parts", "$s-carrier: {name: Carrier of the $s shaft, kind: housing, material: $material, count: 1, mass: 3 kg, reuse: inspect, when: bore and O-ring groove unmarked, source: data-book}");
    page.leave("$s-carrier: {left: dry-fitted, because: the shaft is tried before the carrier is sealed, finish_in: $s-carrier-fit#carrier, forbids: [fill:case-oil]}");
    let seals = if pair { "$s-inner: 1, $s-outer: 1" } else { "$s-outer: 1" };
    page.list("kits", &format!("$s-carrier-kit: {{name: Bearing and seal kit of the $s carrier (invented), holds: {{$s-ball: 1, $s-clip: 2, {seals}}}, source: data-book}}"));
    page.list("bearings", "$s-ball:\n    name: Ball bearing of the $s shaft\n    size: $ball\n    count: 1\n    in: $s-carrier\n    fit: {bore: $bore mm, interference: max $interference mm, housing: $material}\n    faces: {numbers: $s-clip}\n    limit: max 120 °C\n    source: data-book");
    page.list("parts", "$s-clip: {name: Circlip $bore mm, kind: circlip, count: 1, reuse: never, spare: 1, from: $s-carrier-kit, in: $s-carrier, faces: {sharp-edge: case-oil}, source: data-book}");
    let rest = "lip: shaft-grease, in: $s-carrier, over: splines, sleeve: spline-sleeve";
    if pair {
        page.list("seals", &format!("$s-inner: {{name: Inner seal of the $s carrier, type: rotary-lip, size: $seal, material: $rubber, count: 1, reuse: never,\n             faces: {{spring: case-oil, back: shaft-grease}}, depth: $deep mm, {rest}, vent: $vent mm, source: data-book}}"));
        page.list("seals", &format!("$s-outer: {{name: Outer seal of the $s carrier, type: rotary-lip, size: $seal, material: $rubber, count: 1, reuse: never,\n             faces: {{spring: water, back: shaft-grease}}, depth: 0 mm, {rest}, vent: $vent mm, source: data-book}}"));
        page.list("shafts", "$s-shaft-line: [case-oil, $s-inner, shaft-grease, $s-outer, water]");
    } else {
        page.list("seals", &format!("$s-outer: {{name: Seal of the $s carrier, type: rotary-lip, size: $seal, material: $rubber, count: 1, reuse: never,\n             faces: {{spring: case-oil, back: air}}, depth: 0 mm, {rest}, source: data-book}}"));
        page.list("shafts", "$s-shaft-line: [case-oil, $s-outer, air]");
    }
    page.list("heats", "$s-heat: {name: Heat for the $s carrier, of: $s-carrier, from: 20 °C, to: $to, cool: ≥ 30 min, check_with: contact-probe, source: bench-sheet-3}");
    warm(&mut page);
    extras(&mut page, "dry", 1);
    seals_text(&mut page, pair);
    page.done();
}

fn warm(page: &mut Page<'_, '_>) {
    page.say(&[
        "The carrier holds the $s shaft: a bearing, a circlip and what seals them. Heat comes first and rubber last.",
        "Heat ruins rubber, so the bearing goes in before anything soft does.",
        "One part is warm for a few minutes here, and the bearing will not wait. Read the page to its end before you begin.",
    ]);
    page.say(&["Have the kit open before the plate is switched on.", "Lay bearing and circlip beside the plate, not on it."]);
    page.next();
    page.look_abroad(&["Another machine warms its parts under [$title]($abroad).", "See also [$title]($abroad), where the work is like this."]);
    page.step("bare", 5, &["Check the bare bore", "Look into the bore", "Nothing soft in the bore"]);
    page.say(&["No seal, no circlip and no O-ring may be left in the carrier.", "Look for an old seal or ring: heat would bake it into the bore."]);
    page.say(&["[Wipe the carrier's bores clean and dry](clean:$s-carrier).", "[Wipe every bore and groove of the carrier](clean:$s-carrier)."]);
    let shows = "The upper half of the $s carrier cut open. From the oil's end: circlip, ball bearing, a wall, then what seals the shaft, flush with the outer face.";
    page.figure(Drawing::Section(4), shows, "Numbered in the order they go in", &["$s-ball", "$s-clip", "$s-outer"]);
    page.step("bearing", 15, &["Drop the bearing into the warm carrier", "Warm the carrier, drop the bearing"]);
    page.notice("WARNING", &HOT);
    page.say(&["Stand the carrier on the [heat plate](tool:heat-plate), oil end upwards.", "Lay the carrier on the [heat plate](tool:heat-plate) with its oil end upwards."]);
    page.say(&["[Warm the carrier](heat:$s-heat).", "[Warm the carrier through](heat:$s-heat)."]);
    page.say(&["Read the bore with the [contact probe](tool:contact-probe), because bare metal fools an infrared gun.", "Hold the [contact probe](tool:contact-probe) to the bore itself."]);
    page.next();
    page.say(&["[Drop the bearing in, numbers upwards](fit:$s-ball).", "[Let the bearing fall into its bore, numbers upwards](fit:$s-ball)."]);
    page.say(&["If it stops on the way, push it home by the outer ring alone, with the [driver](tool:ring-driver).", "Where it hangs, the [driver for the outer ring](tool:ring-driver) brings it home; nothing may touch the inner ring."]);
    page.step("clip", 10, &["Fit the circlip and let it cool", "Circlip, then patience"]);
    page.notice("CAUTION", &["A circlip under strain can fly off the pliers and hurt an eye. Cover it with your free hand and wear the [eye shield](tool:eye-shield).", "A circlip that slips off the pliers flies into the face. Wear the [eye shield](tool:eye-shield) and keep a hand over it."]);
    page.say(&["Take the [circlip pliers](tool:circlip-pliers).", "With the [circlip pliers](tool:circlip-pliers):"]);
    page.say(&["[Fit the new circlip, sharp edge away from the bearing](fit:$s-clip)."]);
    page.say(&["Turn it once round its groove: a ring that turns is a ring that sits.", "Turn it in its groove to prove that it sits."]);
    page.say(&["[Let the carrier come back to the bench's warmth](cool:$s-heat).", "[Let the carrier cool on wood, not on steel](cool:$s-heat)."]);
    stop(page, &["[Safe to stop: bearing and circlip are in](stop:)"]);
}

fn seals_text(page: &mut Page<'_, '_>, pair: bool) {
    page.step("seals", 15, &["Fit what seals it", "Rubber last"]);
    page.say(&["Say aloud what the spring looks at before you take up the [seal driver](tool:seal-driver).", "Lay the [seal driver](tool:seal-driver) ready and look for the spring."]);
    if pair {
        page.say(&["[Grease the lip of the inner seal](apply:shaft-grease@$s-inner). [Seat the inner seal, spring side to the oil](fit:$s-inner).", "[Grease the inner lip all round](apply:shaft-grease@$s-inner) and [seat the inner seal, its spring to the oil](fit:$s-inner)."]);
        page.next();
        page.say(&["[Grease the lip of the outer seal and the gap](apply:shaft-grease@$s-outer). [Seat the outer seal, spring side to the water](fit:$s-outer).", "[Pack the gap and grease the outer lip](apply:shaft-grease@$s-outer). [Seat the outer seal, its spring to the water](fit:$s-outer)."]);
        page.say(&["The weep hole between them stays clear.", "Look through the weep hole: it must be open."]);
    } else {
        page.say(&["[Grease the lip](apply:shaft-grease@$s-outer) and [seat the seal, spring side to the oil](fit:$s-outer).", "[Grease the lip all round](apply:shaft-grease@$s-outer). [Seat the seal with its spring to the oil](fit:$s-outer)."]);
        page.say(&["Its face ends level with the carrier's face.", "Feel across it: the face is level all round."]);
    }
    page.next();
    page.say(&["[Second reader has seen the spring side](hold:second-reader)", "[Line warden has seen what the spring looks at](hold:line-warden)"]);
    page.step("dry", 10, &["Put the carrier in dry", "Try the carrier in"]);
    page.say(&["Slide the [sleeve](tool:spline-sleeve) over the splines.", "The splines first: slide the [thin sleeve](tool:spline-sleeve) over them."]);
    page.say(&["[Put the carrier in dry, without O-ring](dry-fit:$s-carrier), then draw the sleeve off.", "[Try the carrier in, dry and without its O-ring](dry-fit:$s-carrier). Draw the sleeve off."]);
    page.say(&["Turn the shaft with two fingers.", "The shaft must turn with two fingers and without a catch."]);
    page.next();
    page.say(&["It goes in for good [with its O-ring](see:$s-carrier-fit#carrier). Tie a tag to it: no oil in this case.", "A tag says: no oil. The carrier is sealed under [its own heading](see:$s-carrier-fit#carrier)."]);
    stop(page, &["[Safe to stop: the carrier is in dry and tagged](stop:)"]);
}

fn for_good(book: &mut Book<'_>, words: &Words, material: &'static str) {
    let thread = book.random.pick(&[trade::M6, trade::M8, trade::M10]);
    let count = book.random.pick(&[4, 5, 6]);
    let into = if material == "aluminium" { "aluminium" } else { "cast-iron" };
    let bolts = Bolts { thread, grade: trade::PASTE, count, role: "clamp", into, stages: 1 }.choose(book.random);
    let water = book.axis == ThirdAxis::Water;
    let mut page = Page::new(book, words, "$s-carrier-fit", &["Close the $s carrier", "$S carrier for good", "Seal the $s carrier"]);
    page.list("kits", "$s-ring-kit: {name: O-ring of the $s carrier (invented), holds: {$s-ring: 1}, source: data-book}");
    fastener(&mut page, "$s-carrier-bolt", "Bolt of the $s carrier\n    holds: [$s-carrier]", &bolts.fields, AGAIN);
    page.list("parts", "$s-ring: {name: O-ring of the $s carrier, kind: o-ring, count: 1, material: $rubber, in: $s-carrier, reuse: never, from: $s-ring-kit, source: data-book}");
    page.list("measures", "$s-carrier-float: {name: End float in the $s carrier, kind: other, spec: 0.10–0.20 mm, limit: max 0.30 mm, with: dial-indicator, count: 2, when: cold and dry, otherwise: take the carrier out and look at the circlip, source: data-book}");
    fit_text(&mut page);
    if water {
        anodes(&mut page);
    }
    extras(&mut page, "fit", 2);
    guard_or_cap(&mut page);
    page.step("end", 5, &["Wipe it and hand it on", "Before you leave it"]);
    page.say(&["Wipe carrier and case dry, so that a leak shows itself.", "Take the tag off and wipe round the joint."]);
    page.next();
    page.say(&["[Second reader hands the carrier on](hold:second-reader)", "[Line warden has seen all heads and no tag](hold:line-warden)"]);
    stop(&mut page, &["[Safe to stop: the $s carrier is closed](stop:)"]);
    let link = page.words.fill("[the carrier of the $s shaft](see:$s-carrier-fit#carrier)");
    page.book.finished.push(link);
    page.done();
}

fn fit_text(page: &mut Page<'_, '_>) {
    page.say(&[
        "This is the work that [the dry carrier](see:$s-carrier-dry#dry) was waiting for.",
        "The carrier has been tried in [without its O-ring](see:$s-carrier-dry#dry). Now it is sealed.",
    ]);
    page.say(&["A pinched O-ring costs the whole evening again, so go slowly at the edge.", "Stainless bolts seize without paste; brush it on before the carrier goes in."]);
    page.next();
    page.block("```text\n$s carrier    read by ..........    date ..........\n\nend float     push ......    pull ......\n```");
    page.step("look", 5, &["Look once more", "Before it is hidden"]);
    page.say(&["Hold a lamp into the case and turn the shaft once round by hand.", "Lamp in: nothing lies in the case that does not belong there."]);
    page.next();
    page.say(&["[Second reader has seen the spring side and the circlip](hold:second-reader)", "[Line warden looks inside last](hold:line-warden)"]);
    page.step("out", 8, &["Take the dry carrier out", "Out it comes again"]);
    page.say(&["Slide the [sleeve](tool:spline-sleeve) over the splines and [draw the carrier out](remove:$s-carrier).", "With the [sleeve](tool:spline-sleeve) on the splines, [take the dry carrier out](remove:$s-carrier)."]);
    page.say(&["[Wipe carrier and seat clean](clean:$s-carrier).", "[Wipe the groove and the seat of the carrier](clean:$s-carrier)."]);
    page.step("carrier", 12, &["Fit the carrier for good", "O-ring in, carrier in"]);
    page.say(&["[Grease the O-ring](apply:shaft-grease@$s-ring) and [lay the O-ring in the carrier's groove](fit:$s-ring).", "[Draw the O-ring through greased fingers](apply:shaft-grease@$s-ring). [Lay the O-ring in its groove without a twist](fit:$s-ring)."]);
    page.say(&["[Put the carrier in, weep hole downwards](fit:$s-carrier), and draw the sleeve off.", "[Push the carrier home over the sleeve](fit:$s-carrier). Draw the sleeve off."]);
    let shows = "The $s carrier in its case. The O-ring lies in its groove between carrier and case; the bolts stand round the flange, and the weep hole looks down.";
    page.figure(Drawing::Flange(6), shows, "The weep hole looks down", &["$s-ring", "$s-carrier-bolt", "$s-carrier"]);
    page.step("bolts", 10, &["Tighten the carrier", "Bolts with paste"]);
    page.say(&["[Wipe the bolts clean](clean:$s-carrier-bolt) and [brush paste on their threads](apply:thread-paste@$s-carrier-bolt).", "[Wipe every bolt](clean:$s-carrier-bolt). [Brush paste on the threads and leave the heads dry](apply:thread-paste@$s-carrier-bolt)."]);
    page.say(&["[Tighten the carrier bolts in the order shown](torque:$s-carrier-bolt)."]);
    page.step("float", 10, &["Read the end float", "Push and pull"]);
    page.say(&["Set the [dial indicator](tool:dial-indicator) on the end of the shaft.", "The [dial indicator](tool:dial-indicator) stands on the case and feels the shaft's end."]);
    page.say(&["[Read the end float, once each way](measure:$s-carrier-float).", "[Push, pull and read the end float](measure:$s-carrier-float)."]);
}

fn anodes(page: &mut Page<'_, '_>) {
    page.list("parts", "$s-zinc: {name: Anode of zinc, for: {water: salt}, kind: other, number: AZ-0732, material: zinc, count: 1, side: slot to the case, reuse: never, from: order, source: data-book}");
    page.list("parts", "$s-magnesium: {name: Anode of magnesium, for: {water: fresh}, kind: other, number: AM-0731, material: magnesium, count: 1, side: slot to the case, reuse: never, from: order, source: data-book}");
    for (id, water, part) in [("zinc", "water-salt", "zinc"), ("magnesium", "water-fresh", "magnesium")] {
        page.step_for(id, 5, water, &[&format!("Hang the anode of {part}")]);
        page.notice("NOTICE", &["Paint or paste under an anode cuts it off, and the case is eaten in its place. Leave both faces bare."]);
        page.say(&[&format!("[Hook the anode of {part} on its bare seat](fit:$s-{id})."), &format!("[Push the anode of {part} on to its bare pin](fit:$s-{id}).")]);
    }
}
