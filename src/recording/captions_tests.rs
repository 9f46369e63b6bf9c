//! Captions of the three kinds. The forms of WebVTT are those of the W3C's specification, from memory.

use super::*;
use proptest::prelude::*;

fn read(text: &str) -> Captions {
    read_captions(text.as_bytes()).unwrap()
}

fn cues(text: &str) -> Vec<(u64, u64, String)> {
    read(text).cues.into_iter().map(|cue| (cue.span.unwrap().0, cue.span.unwrap().1, cue.text)).collect()
}

#[test]
fn webvtt_is_read() {
    let file = "\u{feff}WEBVTT - A film\nKind: captions\n\nNOTE\nnot spoken --- at all\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:a\n\nfirst\n00:08.000 --> 00:11.500 align:start position:0%\n<v Editor>Twenty-two <c.loud>newton</c> <00:09.000>metres</v>\nand &lt;no&gt; more &amp; no less\n\n01:02:03.004 --> 01:02:05.000\r\n- [ratchet] Next";
    assert_eq!(cues(file), [(8000, 11_500, "Twenty-two newton metres and <no> more & no less".to_owned()), (3_723_004, 3_725_000, "Next".to_owned())]);
    assert_eq!(read(file).faults, []);
}

#[test]
fn srt_is_read() {
    let file = "1\r\n00:00:01,000 --> 00:00:03,000\r\n<i>Now the nut.</i>\r\n\r\n2\r\n00:00:04,250 --> 00:00:06,000\r\nQuarter turn\r\nmore.\r\n";
    assert_eq!(cues(file), [(1000, 3000, "Now the nut.".to_owned()), (4250, 6000, "Quarter turn more.".to_owned())]);
    // Some writers leave the empty line out.
    assert_eq!(cues("1\n00:00:01,000 --> 00:00:03,000\nOne\n2\n00:00:04,000 --> 00:00:06,000\nTwo\n3\n00:00:07,000 --> 00:00:08,000\nThree").len(), 3);
}

#[test]
fn plain_text_is_read_with_and_without_moments() {
    assert_eq!(cues("0:05 Now the nut.\n[0:20] Then the\ncover.\n1:00:00\nDone"), [
        (5000, 20_000, "Now the nut.".to_owned()), (20_000, 3_600_000, "Then the cover.".to_owned()), (3_600_000, 3_601_000, "Done".to_owned()),
    ]);
    let untimed = read("Now the nut.\nTighten it.\n\nThen the cover.");
    assert_eq!(untimed.cues.iter().map(|cue| (cue.span, cue.text.as_str())).collect::<Vec<_>>(), [(None, "Now the nut. Tighten it."), (None, "Then the cover.")]);
}

#[test]
fn a_transcript_may_be_one_long_line() {
    let long = "set it to twenty newton metres ".repeat(2000);
    assert_eq!(read(&long).cues.len(), 1);
}

#[test]
fn rolling_captions_are_said_once() {
    let file = "WEBVTT\n\n00:01.000 --> 00:03.000\nset it to\n\n00:03.000 --> 00:05.000\nset it to\ntwenty newton metres\n\n00:05.000 --> 00:07.000\ntwenty newton metres\nand mark it\n\n00:20.000 --> 00:21.000\nand mark it";
    let said: Vec<String> = cues(file).into_iter().map(|(_, _, text)| text).collect();
    assert_eq!(said, ["set it to", "twenty newton metres", "and mark it", "and mark it"]);
}

#[test]
fn what_can_not_be_read_is_told_with_its_line() {
    let file = "WEBVTT\n\n00:61.000 --> 00:62.000\nbad\n\n00:05.000 --> 00:04.000\nbackwards\n\nwords alone\n\n00:06.000 --> 00:07.000\ngood";
    let captions = read(file);
    assert_eq!(captions.cues.len(), 1);
    assert_eq!(captions.faults.iter().map(|fault| fault.line).collect::<Vec<_>>(), [3, 6, 9]);
}

#[test]
fn a_time_that_can_not_be_read_is_shown_with_a_caret() {
    for (line, below) in [
        ("a --> b", "^"),
        ("00:01.000 --> soon", "              ^^^^"),
        ("  8h20 --> 00:09.000", "  ^^^^"),
        ("00:05.000 --> 00:04.000 align:start", "              ^^^^^^^^^"),
        ("ää:bb --> 00:09.000", "^^^^^"),
        ("00:01.000 -->", "          ^^^"),
        ("--> 00:01.000", "^^^"),
    ] {
        let captions = read(&format!("WEBVTT\n\n{line}\nbad\n\n00:06.000 --> 00:07.000\ngood"));
        let [fault] = captions.faults.as_slice() else { unreachable!("{line}: {:?}", captions.faults) };
        assert_eq!((fault.line, fault.excerpt()), (3, format!("\n      {line}\n      {below}")), "{}", fault.what);
    }
}

#[test]
fn what_gives_no_captions_is_refused() {
    assert_eq!(read_captions(b""), Err(CaptionError::Empty));
    assert_eq!(read_captions(b"WEBVTT\n\nNOTE nothing"), Err(CaptionError::Empty));
    assert_eq!(read_captions(b"WEBVTT\n\n00:01.000 --> 00:02.000\n[music]"), Err(CaptionError::Empty));
    assert_eq!(read_captions(b"ab\xff"), Err(CaptionError::NotUtf8(2)));
    assert_eq!(read_captions(&vec![b'a'; CAPTION_LIMIT + 1]), Err(CaptionError::TooLarge(CAPTION_LIMIT + 1)));
    assert!(matches!(read_captions(b"WEBVTT\n\n00:61.000 --> 00:62.000\na"), Err(CaptionError::Faulty(CaptionFault { line: 3, .. }))));
    let many = "00:00:01,000 --> 00:00:02,000\na\n\n".repeat(MOST_CUES + 1);
    assert_eq!(read_captions(many.as_bytes()), Err(CaptionError::TooMany));
    let packed = "00:00:01,000 --> 00:00:02,000\na\n".repeat(MOST_CUES + 1);
    assert_eq!(read_captions(packed.as_bytes()), Err(CaptionError::TooMany));
}

#[test]
fn another_arrow_is_shown_and_a_table_is_no_speech() {
    let captions = read("WEBVTT\n\n00:01.000 --> 00:02.000\na\n\n00:03.000 -> 00:04.000\nb");
    let fault = captions.faults.first().unwrap();
    assert_eq!((fault.line, fault.excerpt().as_str()), (6, "\n      00:03.000 -> 00:04.000\n                ^^"));
    assert!(matches!(read_captions(b"1\n00:00:03,000 -> 00:00:04,000\nb"), Err(CaptionError::Faulty(CaptionFault { line: 2, .. }))));
    assert!(matches!(read_captions(b"name,torque,count\ncap bolt,24 N.m,4\nhub bolt,9 N.m,2\n"), Err(CaptionError::Table(_))));
    assert!(read_captions(b"Clean it, dry it, then oil it.\nTurn it, slowly, by hand.\nNow look.").is_ok());
}

proptest! {
    #[test]
    fn no_bytes_make_it_fail(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = read_captions(&bytes);
    }

    #[test]
    fn no_text_makes_it_fail(parts in prop::collection::vec(prop_oneof![Just("WEBVTT".to_owned()), Just("-->".to_owned()), Just("\n".to_owned()), Just("\n\n".to_owned()),
        Just("00:01.000 --> 00:02.000\n".to_owned()), Just("NOTE ".to_owned()), Just("<v".to_owned()), Just("8:20 ".to_owned()), Just("[".to_owned()), Just("&amp".to_owned()), "\\PC{0,12}"], 0..40)) {
        if let Ok(captions) = read_captions(parts.concat().as_bytes()) {
            for cue in &captions.cues {
                prop_assert!(cue.span.is_none_or(|(from, to)| from <= to));
                prop_assert!(!cue.text.contains('\n'));
            }
        }
    }

    #[test]
    fn times_are_read_as_written(ms in 0_u64..3_599_999_000, length in 0_u64..10_000) {
        let stamp = |ms: u64| format!("{:02}:{:02}:{:02}.{:03}", ms / 3_600_000, ms / 60_000 % 60, ms / 1000 % 60, ms % 1000);
        let end = (ms + length).min(3_599_999_000);
        let file = format!("WEBVTT\n\n{} --> {}\nword", stamp(ms), stamp(end));
        prop_assert_eq!(cues(&file), [(ms, end, "word".to_owned())]);
    }
}
