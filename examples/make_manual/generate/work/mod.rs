//! The archetypes of work, one file each, and the passages that several of them share.

mod belt;
mod carrier;
mod cover;
mod extras;
mod nut;
mod oil;
mod pack;
mod preload;
mod proving;

pub(super) use belt::belt;
pub(super) use carrier::carrier;
pub(super) use cover::cover;
pub(super) use nut::nut;
pub(super) use oil::oil;
pub(super) use pack::pack;
pub(super) use preload::preload;
pub(super) use proving::proving;

use super::page::Page;
use extras::extras;

/// A fastener's entry: its name, what it holds, the fields that its values gave, and the rest.
fn fastener(page: &mut Page<'_, '_>, id: &str, name: &str, fields: &str, rest: &str) {
    page.list("fasteners", &format!("{id}:\n    name: {name}{fields}{rest}\n    source: data-book"));
}

/// The condition on which a bolt is used again.
const AGAIN: &str = "\n    reuse: inspect\n    when: thread clean and head unmarked";

/// What solvent does to people, and what to wear.
const DEGREASER: [&str; 3] = [
    "Degreaser dries out the skin and stings the eyes. Work with the doors open, keep it off hot things, and wear [solvent-proof gloves and eye shield](tool:solvent-gloves).",
    "The vapour of degreaser makes the head swim and its splash burns the eye. Open the doors first and put on the [solvent-proof gloves and eye shield](tool:solvent-gloves).",
    "Degreaser goes through leather and inflames the skin. Wear the [solvent-proof gloves and eye shield](tool:solvent-gloves), and keep flame and hot metal out of the room.",
];

/// What hot metal does to people, and what to wear.
const HOT: [&str; 3] = [
    "Hot metal looks like cold metal and burns to the bone. Wear [heat gloves and eye shield](tool:heat-gloves) from here until it has cooled, and carry solvent and fuel out of the room first.",
    "The part burns skin through a wet glove and can spit into an eye. Wear dry [heat gloves and eye shield](tool:heat-gloves) until it has cooled, and keep solvent and fuel away from the plate.",
    "Whoever touches the plate or what lies on it is burnt. Put on the [heat gloves and eye shield](tool:heat-gloves) before the plate is switched on, and let nobody near it who has none.",
];

/// What a holder does that slips.
const HOLDER: [&str; 3] = [
    "The holder can slip and crush a hand against the case. Seat the [holder](tool:shaft-holder) over the full length of the splines, lay its bar against the bench, and keep the free hand off it.",
    "A bar that jumps off breaks fingers. Push the [holder](tool:shaft-holder) on to its stop, let its bar rest on the bench, and stand clear of its swing.",
    "The bar of the holder turns with the whole pull of the wrench and crushes what is behind it. Rest it on the bench, not on your arm, with the [holder](tool:shaft-holder) seated to its stop.",
];

/// The day's end on something that may wait.
fn stop(page: &mut Page<'_, '_>, words: &[&str]) {
    page.next();
    page.say(words);
    page.next();
}

/// A guard that only machines with a motor have, and a cap that only those with a crank have.
fn guard_or_cap(page: &mut Page<'_, '_>) {
    page.list("parts", "$s-guard:   {name: Guard of the $s shaft, for: {drive: E}, kind: other, count: 1, side: slot over the cable, reuse: inspect, when: no crack at its slots, source: data-book}");
    page.list("parts", "$s-dust-cap: {name: Dust cap of the $s shaft, for: {drive: M}, kind: other, count: 1, side: lug to the crank, reuse: inspect, when: lug whole, source: data-book}");
    page.step_for("guard", 5, "drive-E", &["Hang the guard", "Fit the motor's guard"]);
    page.say(&[
        "The motor's cable runs past here, so machines with a motor have a guard over it.",
        "A cable that touches the shaft is through within a week, so it lies behind a guard.",
    ]);
    page.say(&["[Hang the guard over its two pins, slot over the cable](fit:$s-guard).", "[Push the guard on to its pins with the cable in its slot](fit:$s-guard)."]);
    page.say(&["Pull at the cable: it must lie loose.", "Move the cable with a finger and see that nothing pinches it."]);
    page.step_for("dust-cap", 5, "drive-M", &["Push the dust cap on", "Fit the dust cap"]);
    page.say(&["A crank throws grit where a motor throws none.", "Machines with a crank stand outdoors, and grit finds every gap."]);
    page.say(&["[Push the dust cap on until it clicks](fit:$s-dust-cap).", "[Press the dust cap home, lug to the crank](fit:$s-dust-cap)."]);
}
