//! A wheel on a shaft: its nut run up by hand in one procedure, tightened with locker and holder in another.

use super::super::book::Book;
use super::super::drawing::Drawing;
use super::super::page::{Page, Words};
use super::super::trade;
use super::{DEGREASER, HOLDER, extras, stop};

pub(crate) fn nut(book: &mut Book<'_>, words: &Words) {
    // A staked nut is new each time, so the old one does the trial; another is used again.
    let staked = book.random.once_in(2);
    let mut words = words.clone();
    let nut = trade::shaft_nut(book.random);
    words.set("thread", nut.thread);
    words.set("locker", if nut.fields.contains("high-locker") { "high-locker" } else { "medium-locker" });
    words.set("trial", if staked { "$s-old-nut" } else { "$s-nut" }.replace("$s", &words.fill("$s")));
    let lock = if staked { "\n    lock: staked\n    reuse: never" } else { "\n    reuse: inspect\n    when: thread clean and collar whole" };
    let shared = format!("$s-nut:\n    name: Nut of the $s shaft\n    holds: [$s-wheel]{}{lock}\n    source: {{early: data-book, late: nut-bulletin}}", nut.fields);
    book.shared.add("fasteners", words.fill(&shared));
    if book.random.once_in(2) {
        let because = book.random.pick(&["nuts of late machines backed off", "late shafts are of another steel"]);
        let change = format!("{{revision: 2, of: $s-nut.torque, was: {}, because: {because}, source: nut-bulletin}}", nut.was);
        book.changes.push(words.fill(&change));
    }
    trial(book, &words, staked);
    final_nut(book, &words, staked);
}

fn trial(book: &mut Book<'_>, words: &Words, staked: bool) {
    let mut page = Page::new(book, words, "$s-wheel", &["Wheel of the $s shaft", "$S wheel and its backlash", "$S shaft and wheel"]);
    page.share("parts", "$s-wheel: {name: Wheel of the $s shaft, kind: gear, material: bronze, count: 1, mass: 6 kg, faces: {long-boss: $s-spacer}, reuse: inspect, when: teeth without steps or pits, source: data-book}");
    page.share("parts", "$s-spacer: {name: Spacer of the $s shaft, kind: spacer, thickness: 8 mm, count: 1, faces: either, reuse: inspect, when: both faces flat, source: data-book}");
    page.share("turns", "$s-turns: {name: $S shaft, of: $s-wheel, amount: 3 turn, sense: clockwise, viewed_from: wheel end, source: data-book}");
    if staked {
        page.share("fasteners", "$s-old-nut:\n    name: Old nut of the $s shaft\n    count: 1\n    thread: $thread\n    class: 8\n    role: soft\n    threads: dry\n    torque: hand\n    because: it only holds the wheel while the backlash is read\n    temporary: true\n    source: bench-practice");
        page.leave("$s-old-nut: {left: provisional, because: the new nut goes on once and comes last, finish_in: $s-nut-final#off, forbids: [turn:$s-turns, fill:case-oil]}");
    } else {
        page.leave("$s-nut: {left: hand-tight, because: the backlash is read before the locker goes on, finish_in: $s-nut-final#tighten, forbids: [turn:$s-turns, fill:case-oil]}");
    }
    page.list("parts", "$s-shaft: {name: $S shaft, kind: shaft, count: 1, side: threaded end upwards, reuse: inspect, when: seat and thread unmarked, source: data-book}");
    page.list("parts", "$s-key: {name: Key of the $s wheel, kind: key, count: 1, reuse: inspect, when: no shear mark and flush in its slot, source: data-book}");
    page.list("measures", "$s-backlash:\n    name: Backlash of the $s wheel\n    spec: 0.12–0.22 mm\n    at: {gear_radius: 70 mm, dial_radius: 90 mm}\n    with: dial-indicator\n    count: 4\n    when: cold and dry\n    otherwise: turn the spacer round and read again\n    source: bench-sheet-3");
    trial_text(&mut page);
    let last = if staked {
        page.say(&["[Run the old nut up by hand](start:$s-old-nut) until the wheel sits against its spacer.", "[Spin the old nut on with the fingers](start:$s-old-nut): it only holds the wheel."]);
        "[Safe to stop: the old nut holds the wheel for the trial](stop:)"
    } else {
        page.say(&["[Run the nut up by hand, dry](start:$s-nut) until the wheel sits against its spacer.", "[Spin the nut on with the fingers, without locker](start:$s-nut)."]);
        "[Safe to stop: the nut is on by hand and tagged](stop:)"
    };
    backlash(&mut page);
    extras(&mut page, "wheel", 3);
    tag(&mut page, last);
    page.done();
}

fn trial_text(page: &mut Page<'_, '_>) {
    page.say(&[
        "The $s wheel goes on twice in the mind and once on the shaft: first its backlash, then its nut.",
        "Here the $s wheel is put on and measured. Its nut gets its value in [a procedure of its own](see:$s-nut-final).",
        "A wheel that was never measured is a wheel that will be taken off again.",
    ]);
    page.say(&["Work cold and dry.", "Nothing here is oiled, nothing is warm.", "Have the dial set up before the wheel goes on."]);
    page.next();
    page.block("```text\n$s wheel     read by ..........      date ..........\n\ndial, wheel at   12 ......   3 .......   6 .......   9 o'clock .......\n```");
    page.step("shaft", 10, &["Stand the shaft up", "Shaft on the bench", "Begin with the bare shaft"]);
    page.say(&["[Clamp the shaft between soft jaws, threaded end upwards](fit:$s-shaft).", "[Stand the shaft in its block, thread upwards](fit:$s-shaft)."]);
    page.say(&["[Wipe the seat of the wheel clean and dry](clean:$s-shaft).", "[Wipe the shaft from shoulder to thread](clean:$s-shaft)."]);
    page.say(&["Run a fingernail over the thread: it must not catch.", "Look along the thread against the light."]);
    page.step("key", 5, &["Set the key", "Key and spacer"]);
    page.say(&["[Seat the key flush in its slot](fit:$s-key).", "[Tap the key home with brass until it lies flush](fit:$s-key)."]);
    page.say(&["A key that rocks has sheared once before; it goes in the bin.", "It must go in with taps and not with blows."]);
    page.say(&["[Drop the spacer over the shaft](fit:$s-spacer).", "[Slide the spacer down to the shoulder](fit:$s-spacer)."]);
    page.step("wheel", 10, &["Put the wheel on", "Wheel on its key"]);
    page.say(&["[Slide the wheel over the key, long boss to the spacer](fit:$s-wheel).", "[Lower the wheel over the key with its long boss to the spacer](fit:$s-wheel)."]);
    page.say(&["It stops square or it comes off again; nothing is driven.", "Do not drive it: a wheel that sticks is crooked."]);
}

fn backlash(page: &mut Page<'_, '_>) {
    let shows = "The $s wheel seen from its end. The arm of the dial stands further from the middle of the shaft than the teeth do.";
    page.figure(Drawing::Section(4), shows, "The dial sits further out than the tooth", &["$s-wheel", "$s-spacer", "$s-key", "$s-shaft"]);
    page.step("backlash", 20, &["Read the backlash", "Rock it and read"]);
    page.say(&["Clamp the [dial indicator](tool:dial-indicator) to the bench and its arm to the wheel.", "Set the [dial indicator](tool:dial-indicator) on the arm that is clamped to the wheel."]);
    page.say(&["Rock the wheel against its pinion, never turn it, and read at four places.", "Hold the pinion, rock the wheel, and read a quarter of a turn apart."]);
    page.say(&["[Read the backlash](measure:$s-backlash).[^dial]", "[Read the backlash at four places](measure:$s-backlash).[^dial]"]);
    page.footnote("dial", &["The limits hold at the teeth. The dial sits further from the middle, so it moves further than a tooth does. Compare what you read with the limits for the dial.", "A dial on a long arm reads more than the tooth moves. The sheet gives the limits for the dial, so that nobody has to reckon at the bench."]);
    page.next();
    page.say(&["[Second reader has seen the four readings](hold:second-reader)", "[Second reader agrees with the backlash](hold:second-reader)"]);
}

fn tag(page: &mut Page<'_, '_>, stop_words: &str) {
    page.step("tag", 5, &["Hang a tag on it", "Say what is open"]);
    page.say(&["Tie a tag to the nut: not tightened, do not turn.", "A tag on the nut says that it has no value yet."]);
    page.say(&["It gets its value in [the procedure of the nut](see:$s-nut-final#tighten).", "What remains is told under [the nut itself](see:$s-nut-final#tighten)."]);
    page.say(&["Cover the wheel with a clean cloth.", "Nothing is poured and nothing turned before that."]);
    stop(page, &[stop_words]);
}

fn final_nut(book: &mut Book<'_>, words: &Words, staked: bool) {
    let mut page = Page::new(book, words, "$s-nut-final", &["Nut of the $s shaft", "Tighten the $s nut", "$S nut, tightened and cured"]);
    if staked {
        page.list("kits", "$s-nut-kit: {name: Nut of the $s shaft (invented), holds: {$s-nut: 1}, source: data-book}");
    }
    page.list("waits", "$s-nut-cure: {name: Locker cures at the $s nut, time: ≥ 24 h, of: [$s-nut], needs: torque:$s-nut, source: bench-practice}");
    page.list("measures", "$s-nut-float: {name: End float of the $s shaft, kind: other, spec: 0.10–0.20 mm, limit: max 0.30 mm, with: dial-indicator, count: 2, when: cold and before the oil, otherwise: take the wheel down and read the spacer, source: data-book}");
    page.say(&[
        "From the locker to the torque is one movement. Have the wrench set and the holder in place before you open the bottle.",
        "This nut carries everything that the $s shaft does. Two people sign for it.",
        "Early and late machines have the same nut and not the same value: read the serial before you set the wrench.",
    ]);
    page.next();
    page.say(&["The wheel under it was measured [when it went on](see:$s-wheel#backlash).", "What was read at [the backlash](see:$s-wheel#backlash) must be signed before you begin."]);
    page.look_abroad(&["A like joint is told under [$title]($abroad)."]);
    page.block("| Machine | Which value | Whose |\n| --- | --- | --- |\n| early | the lower one | the data book |\n| late | the higher one | the bulletin |");
    off(&mut page, staked);
    tighten(&mut page, staked);
    cure(&mut page);
    page.done();
}

fn off(page: &mut Page<'_, '_>, staked: bool) {
    page.step("off", 10, &["Take the nut off and clean it", "Off, and clean"]);
    page.notice("CAUTION", &DEGREASER);
    if staked {
        page.say(&["[Take the old nut off and bin it](remove:$s-old-nut), so that nobody takes it for the new one.", "[Spin the old nut off and throw it away](remove:$s-old-nut)."]);
    } else {
        page.say(&["[Spin the nut off by hand](remove:$s-nut) and look at its thread.", "[Take the nut off](remove:$s-nut) and look at its collar against the light."]);
    }
    page.say(&["[Brush degreaser into the thread of the nut](apply:case-degreaser@$s-nut).", "[Wash the nut's thread with degreaser](apply:case-degreaser@$s-nut)."]);
    page.say(&["[Wipe nut and shaft clean and dry](clean:$s-nut).", "[Wipe both threads until the cloth stays white](clean:$s-nut)."]);
}

fn tighten(page: &mut Page<'_, '_>, staked: bool) {
    page.step("tighten", 8, &["Tighten the nut", "Locker, nut, wrench", "Bring the nut to its value"]);
    page.notice("CAUTION", &HOLDER);
    if staked {
        page.notice("WARNING", &["The staking punch throws splinters of steel that blind. Wear the [eye shield](tool:eye-shield), send helpers out of line, and strike once, with the punch square in the slot."]);
    }
    page.say(&["[Put locker on the shaft's thread](apply:$locker@$s-nut).", "[Wet the shaft's thread with locker all round](apply:$locker@$s-nut)."]);
    page.say(&["[Run the nut up by hand](start:$s-nut) and [tighten the nut](torque:$s-nut).", "[Spin the nut on with the fingers](start:$s-nut). [Tighten the nut in one pull](torque:$s-nut)."]);
    if staked {
        page.say(&["Straight away, with the [staking punch](tool:staking-punch), [stake the nut's collar into the slot](lock:$s-nut).", "Take the [staking punch](tool:staking-punch) and [stake the collar into the slot at once](lock:$s-nut)."]);
    }
    page.say(&["[Paint a line from nut to shaft](mark:$s-nut)."]);
    page.next();
    page.say(&["[Shop editor has watched the wrench](hold:shop-editor) [Second reader has seen the painted line](hold:second-reader)", "[Second reader has watched the wrench](hold:second-reader) [Line warden has seen the painted line](hold:line-warden)"]);
}

fn cure(page: &mut Page<'_, '_>) {
    let shows = "The end of the $s shaft. The nut stands on the wheel, a painted line runs from the nut across the end of the shaft, and the holder grips the splines.";
    page.figure(Drawing::Section(3), shows, "One line from nut to shaft", &["$s-nut", "$s-wheel"]);
    page.step("cure", 3, &["Leave the nut alone", "Let the locker cure"]);
    page.say(&["[Write the hour on the tag](begin:$s-nut-cure).", "[Write day and hour beside the painted line](begin:$s-nut-cure)."]);
    page.say(&["Take the holder off the shaft without turning it.", "Draw the holder off straight."]);
    stop(page, &["[Safe to stop: the nut is tightened and painted](stop:)"]);
    page.say(&["[The locker has cured](wait:$s-nut-cure)."]);
    page.step("turn", 10, &["Turn it for the first time", "The first turns"]);
    page.say(&["[Turn the shaft by hand and listen](turn:$s-turns).", "[Turn the shaft and feel for a catch](turn:$s-turns)."]);
    page.say(&["Set the [dial indicator](tool:dial-indicator) on the end of the shaft, push and pull."]);
    page.say(&["[Read the end float](measure:$s-nut-float).", "[Read how far the shaft moves along its axis](measure:$s-nut-float)."]);
    extras(page, "nut", 2);
    super::guard_or_cap(page);
    page.step("end", 3, &["What must be true now", "Before you leave it"]);
    page.say(&["No tag hangs on the nut any more, and the line is whole.", "Tag off, line whole, readings written down."]);
    stop(page, &["[Safe to stop: the $s nut is cured](stop:)"]);
    page.book.finished.push(page.words.fill("[the nut of the $s shaft](see:$s-nut-final#tighten)"));
}
