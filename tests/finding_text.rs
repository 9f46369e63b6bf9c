//! The report for people, pinned word for word: odd characters, odd spans, hostile text.

use benchleaf::finding::{Explanation, FileId, FileTable, Finding, Look, Place, Rule, Severity, text};

const EXPLANATION: Explanation = Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" };

static WITHOUT_UNIT: Rule = Rule {
    name: "torque-without-unit",
    severity: Severity::Error,
    summary: "A torque has no unit.",
    explanation: EXPLANATION,
};

static LEFT_UNDONE: Rule = Rule {
    name: "left-undone",
    severity: Severity::Warning,
    summary: "A part taken off is never put back.",
    explanation: EXPLANATION,
};

/// The place of the first `words` in the file.
fn place_of(files: &FileTable, file: FileId, words: &str) -> Place {
    let start = files.text(file).find(words).unwrap_or_default();
    Place::new(file, start..start + words.len())
}

/// The report about one file in which `marked` is at fault.
fn report_on(content: &str, marked: &str) -> String {
    let mut files = FileTable::default();
    let file = files.add("hub.md", content);
    let place = place_of(&files, file, marked);
    text(&[Finding::new(&WITHOUT_UNIT, place, "no unit").label("here")], &files, Look::default())
}

#[test]
fn a_whole_finding() {
    let mut files = FileTable::default();
    let machine = files.add("axle/machine.yaml", "seals:\n  - id: pinion-nut\n    thread: M20\n");
    let hub = files.add("axle/hub.md", "---\ntorque: 25–30\n---\n");
    let finding =
        Finding::new(&WITHOUT_UNIT, place_of(&files, hub, "25–30"), "the torque of the pinion nut has no unit")
            .label("newton metres or pound-feet?")
            .figure("25 N·m is 18 lbf·ft")
            .figure("25 lbf·ft is 34 N·m")
            .related(place_of(&files, machine, "pinion-nut"), "the nut")
            .fix("write the unit, such as `25–30 N·m`");
    let expected = "\
Error — the torque of the pinion nut has no unit (torque-without-unit)
  axle/hub.md:2:9
      torque: 25–30
              ^^^^^ newton metres or pound-feet?
  figures: 25 N·m is 18 lbf·ft
           25 lbf·ft is 34 N·m
  see axle/machine.yaml:2:9, the nut
        - id: pinion-nut
              ^^^^^^^^^^
  instead: write the unit, such as `25–30 N·m`

1 error in 1 file
";
    assert_eq!(text(&[finding], &files, Look::default()), expected);
}

#[test]
fn an_en_dash_before_the_caret_takes_one_column() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:1:7
      10–12 25
            ^^ here

1 error in 1 file
";
    assert_eq!(report_on("10–12 25\n", "25"), expected);
}

#[test]
fn tabs_widen_the_line_and_count_as_one_column() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:1:4
          a   25
              ^^ here

1 error in 1 file
";
    assert_eq!(report_on("\ta\t25\n", "25"), expected);
}

#[test]
fn line_endings_with_carriage_returns_are_no_part_of_the_line() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:2:9
      torque: 25
              ^^ here

1 error in 1 file
";
    assert_eq!(report_on("---\r\ntorque: 25\r\n---\r\n", "25"), expected);
    assert_eq!(report_on("---\r\ntorque: 25\r\n---\r\n", "25\r\n"), expected, "the ending is no further line");
}

#[test]
fn wide_characters_take_two_columns_on_screen() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:1:4
      軸受 25
           ^^ here

1 error in 1 file
";
    assert_eq!(report_on("軸受 25\n", "25"), expected);
}

#[test]
fn a_byte_order_mark_takes_no_column() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:1:1
      25
      ^^ here

1 error in 1 file
";
    assert_eq!(report_on("\u{feff}25\n", "25"), expected);
}

#[test]
fn an_empty_span_at_the_end_of_the_file() {
    let report = |content: &str| {
        let mut files = FileTable::default();
        let file = files.add("hub.md", content);
        let end = Place::new(file, content.len()..content.len());
        text(&[Finding::new(&LEFT_UNDONE, end, "the nut is never put back")], &files, Look::default())
    };
    let expected = "\
Warning — the nut is never put back (left-undone)
  hub.md:2:1
      (end of the file)
      ^

1 warning in 1 file
";
    assert_eq!(report("last line\n"), expected);
    let expected = "\
Warning — the nut is never put back (left-undone)
  hub.md:1:10
      last line
               ^

1 warning in 1 file
";
    assert_eq!(report("last line"), expected);
}

#[test]
fn a_span_past_the_end_or_inside_a_character_is_shown_where_it_can_be() {
    let mut files = FileTable::default();
    let file = files.add("hub.md", "25–30");
    let past = Finding::new(&WITHOUT_UNIT, Place::new(file, 90..99), "past the end");
    let inside = Finding::new(&WITHOUT_UNIT, Place::new(file, 3..4), "inside a character");
    let expected = "\
Error — inside a character (torque-without-unit)
  hub.md:1:3
      25–30
        ^

Error — past the end (torque-without-unit)
  hub.md:1:6
      25–30
           ^

2 errors in 1 file
";
    assert_eq!(text(&[past, inside], &files, Look::default()), expected);
}

#[test]
fn a_span_over_lines_shows_the_first_and_counts_the_others() {
    let expected = "\
Error — no unit (torque-without-unit)
  hub.md:2:3
        torque:
        ^^^^^^^ here
      (and 2 lines more)

1 error in 1 file
";
    assert_eq!(
        report_on("nut:\n  torque:\n    low: 25\n    high: 30\nend: 1\n", "torque:\n    low: 25\n    high: 30\n"),
        expected
    );
    assert!(report_on("a\nb\n", "a\nb\n").contains("(and 1 line more)"));
}

#[test]
fn hostile_text_cannot_drive_the_terminal() {
    let mut files = FileTable::default();
    let file = files.add("\x1b]0;owned\x07.md", "id: \x1b[2J\u{202e}25\n");
    let finding = Finding::new(&WITHOUT_UNIT, place_of(&files, file, "25"), "`\x1b[31mred` has no unit")
        .label("\x1b[0m")
        .figure("\u{9b}31m")
        .related(place_of(&files, file, "id"), "\rforged")
        .fix("line one\nline \x08two");
    let expected = "\
Error — `␛[31mred` has no unit (torque-without-unit)
  ␛]0;owned␇.md:1:10
      id: ␛[2J<U+202E>25
                      ^^ ␛[0m
  figures: <U+009B>31m
  see ␛]0;owned␇.md:1:1, ␍forged
      id: ␛[2J<U+202E>25
      ^^
  instead: line one
           line ␈two

1 error in 1 file
";
    assert_eq!(text(&[finding], &files, Look::default()), expected);
}

#[test]
fn several_findings_in_several_files_come_in_the_order_of_reading() {
    let mut files = FileTable::default();
    let wheel = files.add("wheel.md", "one\ntwo\n");
    let axle = files.add("axle.md", "three\n");
    let unreadable = files.add("photo.png", "");
    let findings = [
        Finding::new(&LEFT_UNDONE, place_of(&files, wheel, "two"), "second in the wheel"),
        Finding::new(&WITHOUT_UNIT, place_of(&files, wheel, "one"), "first in the wheel"),
        Finding::new(&LEFT_UNDONE, Place::whole_file(unreadable), "not a picture").label("starts with zeros"),
        Finding::new(&LEFT_UNDONE, place_of(&files, axle, "three"), "lighter").severity(Severity::Note),
        Finding::new(&WITHOUT_UNIT, place_of(&files, axle, "three"), "graver"),
    ];
    let expected = "\
Error — graver (torque-without-unit)
  axle.md:1:1
      three
      ^^^^^

Note — lighter (left-undone)
  axle.md:1:1
      three
      ^^^^^

Warning — not a picture (left-undone)
  photo.png
      starts with zeros

Error — first in the wheel (torque-without-unit)
  wheel.md:1:1
      one
      ^^^

Warning — second in the wheel (left-undone)
  wheel.md:2:1
      two
      ^^^

2 errors, 2 warnings, 1 note in 3 files
";
    assert_eq!(text(&findings, &files, Look::default()), expected);
    let mut shuffled = findings;
    shuffled.reverse();
    assert_eq!(text(&shuffled, &files, Look::default()), expected);
}

#[test]
fn narrow_terminals_get_wrapped_words_and_cut_lines() {
    let mut files = FileTable::default();
    let content = format!("{} 25 {}\n", "before ".repeat(10).trim(), "after ".repeat(10).trim());
    let file = files.add("hub.md", content);
    let finding = Finding::new(&WITHOUT_UNIT, place_of(&files, file, "25"), "the torque of the pinion nut has no unit")
        .label("newton metres or pound-feet, who can tell?")
        .figure("25 N·m is 18 lbf·ft, and 25 lbf·ft is 34 N·m")
        .fix("write the unit");
    let expected = "\
Error — the torque of the pinion nut has no
  unit (torque-without-unit)
  hub.md:1:71
      …re before before 25 after after afte…
                        ^^
      newton metres or pound-feet, who can
      tell?
  figures: 25 N·m is 18 lbf·ft, and 25
           lbf·ft is 34 N·m
  instead: write the unit

1 error in 1 file
";
    let report = text(&[finding], &files, Look { colour: false, width: 44 });
    assert_eq!(report, expected);
    assert!(report.lines().all(|line| line.chars().count() <= 44), "{report}");
}

#[test]
fn colour_only_repeats_what_the_words_say() {
    let mut files = FileTable::default();
    let file = files.add("hub.md", "torque: 25\n");
    let finding = [Finding::new(&WITHOUT_UNIT, place_of(&files, file, "25"), "no unit").label("here").fix("`25 N·m`")];
    let plain = text(&finding, &files, Look::default());
    let coloured = text(&finding, &files, Look { colour: true, ..Look::default() });
    assert!(coloured.contains("\x1b[1;31m"), "{coloured:?}");
    let mut stripped = coloured;
    for code in ["\x1b[1;31m", "\x1b[1m", "\x1b[2m", "\x1b[0m"] {
        stripped = stripped.replace(code, "");
    }
    assert_eq!(stripped, plain);
}

#[test]
fn nothing_found_is_said() {
    assert_eq!(text(&[], &FileTable::default(), Look::default()), "no findings\n");
}
