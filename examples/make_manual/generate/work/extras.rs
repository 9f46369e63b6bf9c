//! Small pieces of work that hang on many procedures: a bracket, a lubricator, a window, a slinger.

use super::super::page::Page;
use super::super::trade::{self, Bolts};
use super::{AGAIN, fastener};

type Extra = fn(&mut Page<'_, '_>);

/// Some of the small pieces, each once. `tag` tells the page's things from those of other pages of the same shaft.
pub(super) fn extras(page: &mut Page<'_, '_>, tag: &str, how_many: usize) {
    let mut all: [Extra; 4] = [bracket, lubricator, window, slinger];
    page.book.random.shuffle(&mut all);
    page.words.set("p", tag);
    for extra in all.iter().take(how_many) {
        extra(page);
    }
}

fn bracket(page: &mut Page<'_, '_>) {
    let thread = page.book.random.pick(&[trade::M6, trade::M8, trade::M10]);
    let bolts = Bolts { thread, grade: trade::DRY, count: 2, role: "clamp", into: "cast-iron", stages: 1 }.choose(page.book.random);
    fastener(page, "$s-$p-bracket-bolt", "Bolt of the pipe bracket\n    holds: [$s-$p-bracket]", &bolts.fields, AGAIN);
    page.list("parts", "$s-$p-bracket: {name: Pipe bracket of the $s shaft, kind: other, count: 1, side: rubber to the pipe, reuse: inspect, when: rubber whole, source: data-book}");
    page.step("bracket", 8, &["Fit the pipe bracket", "Hang the oil pipe", "Bracket of the oil pipe"]);
    page.say(&["An oil pipe that swings cracks at its flare, so a bracket holds it in the middle.", "The pipe has been bent once and must not be bent again: the bracket follows the pipe."]);
    page.say(&["[Lay the bracket round the pipe, rubber inwards](fit:$s-$p-bracket).", "[Hang the bracket on the pipe with its rubber inwards](fit:$s-$p-bracket)."]);
    page.say(&["[Run both bolts in by hand](start:$s-$p-bracket-bolt) and see that the pipe lies free of strain.", "[Put its two bolts in with the fingers](start:$s-$p-bracket-bolt). The pipe must lie in it without strain."]);
    page.say(&["[Tighten the bracket bolts](torque:$s-$p-bracket-bolt), the upper one first.", "[Tighten the bracket bolts, first the one nearer to the case](torque:$s-$p-bracket-bolt)."]);
    page.say(&["Pull at the pipe: bracket and pipe move together or not at all.", "Tap the pipe with a knuckle. It sounds dull when it is held."]);
}

fn lubricator(page: &mut Page<'_, '_>) {
    let plug = trade::plug(page.book.random);
    page.list("kits", "$s-$p-oiler-kit: {name: Washer of the lubricator (invented), holds: {$s-$p-oiler-washer: 1}, source: data-book}");
    fastener(page, "$s-$p-oiler", "Lubricator of the $s shaft", &plug, "");
    page.list("parts", "$s-$p-oiler-washer: {name: Sealing washer of the lubricator, kind: sealing-washer, count: 1, faces: either, reuse: never, from: $s-$p-oiler-kit, source: data-book}");
    page.step("oiler", 7, &["Fit the lubricator", "Lubricator with its new washer"]);
    page.say(&["Blow through the lubricator before it goes in: a blocked one starves the bearing in silence.", "Hold the lubricator against the light. Its bore must be clear from end to end."]);
    page.say(&["[Wipe thread and seat clean](clean:$s-$p-oiler).", "[Wipe the seat of the lubricator until it shines](clean:$s-$p-oiler)."]);
    page.say(&["[Hang a new washer on it](fit:$s-$p-oiler-washer) and [tighten the lubricator](torque:$s-$p-oiler).", "[Push the new washer over its thread](fit:$s-$p-oiler-washer). [Tighten the lubricator](torque:$s-$p-oiler)."]);
    page.say(&["Its lid must open towards the walkway, where a hand with an oil can comes from.", "Try the lid: it closes by itself, or the spring in it is dead."]);
}

fn window(page: &mut Page<'_, '_>) {
    let count = page.book.random.pick(&[4, 6]);
    let bolts = Bolts { thread: trade::M6, grade: trade::DRY, count, role: "cover", into: "cast-iron", stages: 2 }.choose(page.book.random);
    page.list("kits", "$s-$p-window-kit: {name: Ring of the window (invented), holds: {$s-$p-window-ring: 1}, source: data-book}");
    fastener(page, "$s-$p-window-screw", "Screw of the window\n    holds: [$s-$p-window]", &bolts.fields, AGAIN);
    page.list("parts", "$s-$p-window-ring: {name: O-ring of the window, kind: o-ring, count: 1, material: NBR, in: $s-$p-window, reuse: never, from: $s-$p-window-kit, source: data-book}");
    page.list("parts", "$s-$p-window: {name: Window of the $s case, kind: cover, count: 1, side: red line upwards, reuse: inspect, when: glass without a star, source: data-book}");
    page.step("window", 10, &["Fit the window", "The oil's window"]);
    page.say(&["Through this window the warden reads the oil, so the glass has to be clean on the side that no hand reaches again.", "A star in the glass runs across it one cold night. Look at it against the light."]);
    page.say(&["[Grease the ring](apply:shaft-grease@$s-$p-window-ring) and [lay the ring in the window's groove](fit:$s-$p-window-ring).", "[Draw the ring through greased fingers](apply:shaft-grease@$s-$p-window-ring). [Lay it in the groove of the window](fit:$s-$p-window-ring)."]);
    page.say(&["[Set the window in, red line upwards](fit:$s-$p-window) and [run its screws in by hand](start:$s-$p-window-screw).", "[Put the window in with its red line upwards](fit:$s-$p-window). [Run all its screws in with the fingers](start:$s-$p-window-screw)."]);
    if bolts.stages > 1 {
        page.say(&["[Tighten the first pass in the order shown](torque:$s-$p-window-screw/1), then [tighten the second pass in the same order](torque:$s-$p-window-screw/2)."]);
    } else {
        page.say(&["[Tighten the window screws in the order shown](torque:$s-$p-window-screw)."]);
    }
}

fn slinger(page: &mut Page<'_, '_>) {
    page.list("parts", "$s-$p-slinger: {name: Slinger ring of the $s shaft, kind: other, count: 1, side: hollow side to the bearing, reuse: inspect, when: round and without cracks, source: data-book}");
    page.list("measures", "$s-$p-slinger-gap:\n    name: Gap beside the slinger ring\n    kind: other\n    spec: 0.40–0.80 mm\n    limit: max 1.20 mm\n    with: feeler-gauge\n    count: 3\n    when: cold and dry\n    otherwise: press the ring further on and read again\n    source: data-book");
    page.step("slinger", 8, &["Fit the slinger ring", "Slinger ring and its gap"]);
    page.say(&["The slinger throws oil back into the bearing. Turned round it throws the oil out.", "Oil that creeps along the shaft is thrown off here, on to the bearing that wants it."]);
    page.say(&["[Push the slinger ring on, hollow side to the bearing](fit:$s-$p-slinger).", "[Slide the slinger ring on with its hollow side to the bearing](fit:$s-$p-slinger)."]);
    page.say(&["Lead the [feeler](tool:feeler-gauge) round it. [Read the gap beside it at three places](measure:$s-$p-slinger-gap).", "With the [feeler](tool:feeler-gauge), [read the gap beside the ring, three times round](measure:$s-$p-slinger-gap)."]);
    page.say(&["A ring that touches anywhere sings from the first turn.", "Turn the shaft and listen. A ring that touches sings."]);
}
