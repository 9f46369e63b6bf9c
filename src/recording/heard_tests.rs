//! What is heard, sentence by sentence. The sentences are invented; the ways to say numbers and units are common usage.

use super::*;
use crate::recording::read_captions;
use proptest::prelude::*;

fn hear(text: &str) -> Vec<Heard> {
    heard(&Speech::of(&read_captions(text.as_bytes()).unwrap()))
}

fn values(text: &str) -> Vec<Vec<String>> {
    hear(text).into_iter().filter(|heard| heard.kind == HeardKind::Quantity).map(|heard| heard.readings).collect()
}

/// A word of several pieces is shown whole, also where what is heard begins at a later piece of it.
#[test]
fn what_begins_within_a_word_shows_the_word() {
    let all = hear("0:12 Torque the nut\n1:0-02:03 and wait twelve hours\n8:20 to seventy five newton metres\n");
    assert_eq!(all.iter().map(|heard| heard.said.as_str()).collect::<Vec<_>>(), ["1:0-02:03", "twelve hours", "seventy five newton metres"]);
}

#[test]
fn quantities_are_heard_in_words_and_figures() {
    for (text, readings) in [
        ("Take it to twenty-two newton metres.", "22 N·m"), ("that's 22 Nm on the wrench", "22 N·m"), ("set 22.5 N·m", "22.5 N·m"),
        ("about five thou of play", "5 thou"), ("then a quarter turn", "1/4 turn"), ("give it half a turn more", "1/2 turn"),
        ("three quarters of a turn", "3/4 turn"), ("eighteen foot-pounds", "18 lbf·ft"), ("two hundred and ten inch pounds", "210 lbf·in"),
        ("point one two of a millimetre", ""), ("nought point one two millimetres", "0.12 mm"), ("between five and seven thou", "5–7 thou"),
        ("twenty to twenty-five newton metres", "20–25 N·m"), ("nine plus or minus one newton metres", "9 ± 1 N·m"),
        ("no more than five thousandths of an inch", "max 5 thou"), ("at least twelve hours", "min 12 h"), ("up to 130 degrees celsius", "max 130 °C"),
        ("then another ninety degrees", "90 °"), ("two hundred and sixty mils", "260 mm|260 thou|260 mL"), ("one and a half litres", "1 1/2 L"),
        ("pull it to twenty pounds", "20 lbf·ft|20 lbf·in|20 lb|20 psi"), ("torque those to twenty-two and move on", "22 N·m|22 lbf·ft|22 lbf·in"),
        ("one twenty newton metres", "120 N·m|1.20 N·m"), ("five hundredths", ""), ("two pints", "2 pt (US)|2 pt (imp)"), ("a 20-25 Nm range", "20–25 N·m"),
        ("warm it to eighty degrees", "80 °|80 °C|80 °F"), ("three sixteenths of an inch", "3/16 in"),
    ] {
        let wanted: Vec<String> = readings.split('|').filter(|text| !text.is_empty()).map(str::to_owned).collect();
        let got = values(text);
        if wanted.is_empty() {
            assert!(got.is_empty(), "{text}: {got:?}");
        } else {
            assert_eq!(got, [wanted], "{text}");
        }
    }
}

/// How numbers are said digit by digit, and what may stand before them: common usage.
#[test]
fn a_number_keeps_its_beginning() {
    for (text, readings) in [
        ("torque it to one oh five newton metres", "105 N·m|1.05 N·m"), ("two oh eight foot-pounds", "208 lbf·ft|2.08 lbf·ft"),
        ("tighten to one hundred oh five newton metres", "105 N·m|100.05 N·m"), ("thirty thirty-five newton metres", "30–35 N·m|3035 N·m|30.35 N·m"),
        ("minus forty degrees celsius", "−40 °C"), ("chill it to negative forty degrees celsius", "−40 °C"), ("chill it to -40 °C in there", "−40 °C"),
        ("minus forty to minus twenty degrees celsius", "−40 to −20 °C"), ("between minus five and plus five degrees celsius", "−5 to 5 °C"),
        ("no colder than, at least minus ten celsius", "min −10 °C"), ("plus or minus two thou", "2 thou"), ("it says -.05 mm here", "−0.05 mm"),
        // Figures beside each other, as captions have them.
        ("torque to 1 oh 5 newton metres", "105 N·m|1.05 N·m|5 N·m"), ("torque to 1 05 Nm", "105 N·m|1.05 N·m|5 N·m"), ("30 35 Nm", "30–35 N·m|3035 N·m|30.35 N·m|35 N·m"),
        ("a class 8.8 22 Nm", "22 N·m|8.8 N·m"), ("oh five newton metres", "5 N·m|0.5 N·m"), ("oh, twenty newton metres", "20 N·m"), ("2 point 5 newton metres", "2.5 N·m"),
        ("one twenty point five newton metres", "120.5 N·m"), ("20 -25 Nm", "20–25 N·m|25 N·m|20 N·m"), ("plus two minus one newton metres", "1 N·m|2 N·m"),
        ("ten minus two millimetres", "−2 mm|2 mm|10 mm"),
        // A dash before a speaker's words is no sign.
        ("-22 Nm on this one", "22 N·m"), ("-40 degrees celsius", "−40 °C|40 °C"), ("- 22 Nm", "22 N·m"),
        ("How cold? -40 degrees celsius", "−40 °C|40 °C"), ("WEBVTT\n\n00:10.000 --> 00:12.000\nchill it to\n-40 °C", "−40 °C"),
        // A sentence that ends parts two numbers.
        ("There are three. Twenty newton metres each.", "20 N·m"), ("torque it to one oh and", "10 N·m|10 lbf·ft|10 lbf·in|1.0 N·m|1.0 lbf·ft|1.0 lbf·in|1 N·m|1 lbf·ft|1 lbf·in"),
    ] {
        let wanted: Vec<String> = readings.split('|').map(str::to_owned).collect();
        assert_eq!(values(text), [wanted], "{text}");
    }
    // A long row of numbers stays small.
    let row = format!("{} Nm", (1..500).map(|number| number.to_string()).collect::<Vec<_>>().join(" "));
    assert!(values(&row).iter().flatten().count() < 20);
    // A torque below nothing is none: it is asked for.
    assert_eq!(values("minus two newton metres"), [Vec::<String>::new()]);
    let sign = &hear("chill it to minus fifty degrees celsius")[0];
    assert_eq!((sign.said.as_str(), sign.sounds_like.as_deref()), ("minus fifty degrees celsius", Some("−15")));
    assert_eq!(hear("chill it to -40 °C in there")[0].said, "-40 °C");
    assert_eq!(hear("torque it to one oh five newton metres")[0].said, "one oh five newton metres");
    // The size of a tool is no worse for how many there are.
    assert_eq!(hear("with six 10 mm bolts")[0].readings, ["10 mm"]);
}

#[test]
fn talk_is_no_quantity() {
    for text in [
        "Give me one second.", "in half a minute", "We had six. Newton metres are torque.", "there are two of them", "step five and six", "at 8:20 in the film",
        "I've done this for twenty years", "number one bolt", "one of the turns",
    ] {
        assert!(values(text).is_empty(), "{text}: {:?}", values(text));
    }
}

#[test]
fn a_phrase_goes_on_over_captions_but_not_over_a_pause() {
    let split = "WEBVTT\n\n00:10.500 --> 00:12.000\nset it to twenty\n\n00:12.000 --> 00:14.000\ntwo newton metres";
    assert_eq!(values(split), [["22 N·m"]]);
    assert_eq!(hear(split)[0].at.map(|at| at.to_string()).as_deref(), Some("0:11"));
    let apart = "WEBVTT\n\n00:10.000 --> 00:12.000\nthere were twenty\n\n00:40.000 --> 00:42.000\nnewton metres it is";
    assert!(values(apart).is_empty());
}

#[test]
fn sizes_lockers_sides_and_promises_are_told_apart() {
    for (text, kind, readings, said) in [
        ("with a ten millimetre socket", HeardKind::Size, "10 mm", "ten millimetre"),
        ("a drop of medium strength thread locker on it", HeardKind::Locker, "medium", "medium strength thread locker"),
        ("some thread lock on the bolts", HeardKind::Locker, "", "some thread lock"),
        ("blue locker goes here", HeardKind::Locker, "", "blue locker"),
        ("the spring side towards the oil", HeardKind::SealSide, "", "the spring side towards the oil"),
        ("put the lip facing out", HeardKind::SealSide, "", "put the lip facing out"),
        ("leave the other one for now", HeardKind::PutOff, "", "leave the other one for now"),
        ("we'll do that later", HeardKind::PutOff, "", "we'll do that later"),
    ] {
        let all = hear(text);
        assert_eq!(all.len(), 1, "{text}: {all:?}");
        assert_eq!((all[0].kind, all[0].readings.join("|").as_str(), all[0].said.as_str()), (kind, readings, said), "{text}");
    }
    for text in ["the spring in the pump", "an hour later it is dry", "a seal lip", "the low side"] {
        assert_eq!(hear(text), [], "{text}");
    }
}

#[test]
fn fifteen_and_fifty_sound_alike() {
    let alike = |text: &str| hear(text)[0].sounds_like.clone();
    assert_eq!(alike("fifteen newton metres").as_deref(), Some("50"));
    assert_eq!(alike("50 Nm").as_deref(), Some("15"));
    assert_eq!(alike("22 Nm"), None);
}

proptest! {
    #[test]
    fn no_words_make_it_fail(parts in prop::collection::vec(prop_oneof![Just("twenty"), Just("two"), Just("newton"), Just("metres"), Just("between"), Just("and"), Just("a"),
        Just("half"), Just("turn"), Just("thread"), Just("locker"), Just("spring"), Just("side"), Just("later"), Just("22Nm"), Just("1/4"), Just("."), Just("to"), Just("±"), Just("high"), Just("strength")], 1..60)) {
        if let Ok(captions) = read_captions(parts.join(" ").as_bytes()) {
            let all = heard(&Speech::of(&captions));
            for heard in &all {
                for reading in &heard.readings {
                    prop_assert!(heard.kind == HeardKind::Locker || Quantity::parse_free(reading).is_ok());
                }
            }
        }
    }
}
