//! What YAML comes out as, and what is said of its faults.

use super::*;
use crate::finding::FileTable;
use proptest::prelude::*;
use std::fmt::Write as _;

/// The tree of a text in one line, quoted scalars in quotes, holes as `?`, and the findings.
fn read(text: &str) -> (Node, Vec<Finding>) {
    let file = FileTable::default().add("x.yaml", text);
    let mut report = Report::default();
    let node = read_map(&Slice::whole(file, text), &mut report);
    (node, report.into_findings())
}

fn shown(node: &Node) -> String {
    let mut out = String::new();
    show(node, &mut out);
    out
}

fn show(node: &Node, out: &mut String) {
    match &node.value {
        Value::Scalar(scalar) if scalar.quoted => write!(out, "{:?}", scalar.text).expect("a string"),
        Value::Scalar(scalar) => out.push_str(&scalar.text),
        Value::List(items) => {
            out.push('[');
            for item in items {
                show(item, out);
                out.push(';');
            }
            out.push(']');
        }
        Value::Map(pairs) => {
            out.push('{');
            for pair in pairs {
                write!(out, "{}=", pair.key).expect("a string");
                show(&pair.node, out);
                out.push(';');
            }
            out.push('}');
        }
        Value::Hole => out.push('?'),
    }
}

/// Reads without a word.
fn reads(text: &str, tree: &str) {
    let (node, findings) = read(text);
    assert_eq!(shown(&node), tree, "{text:?}");
    assert!(findings.is_empty(), "{text:?}: {findings:#?}");
    places_are_true(text, &node);
}

/// One fault: the tree that is left, the rule, the text under the caret, and words of the fix.
fn fault(text: &str, tree: &str, rule: &str, caret: &str, fix: &str) {
    let (node, findings) = read(text);
    assert_eq!(shown(&node), tree, "{text:?}: {findings:#?}");
    let [finding] = findings.as_slice() else { panic!("{text:?}: {findings:#?}") };
    assert_eq!(finding.rule().name, rule, "{text:?}");
    assert_eq!(&text[finding.place().start..finding.place().end], caret, "{text:?}: {finding:#?}");
    assert!(finding.fix_text().contains(fix), "{text:?}: {}", finding.fix_text());
    assert!(!finding.label_text().is_empty(), "{text:?}");
    places_are_true(text, &node);
}

/// Every span lies in the file on character boundaries; a plain scalar on one line is its span's text.
fn places_are_true(text: &str, node: &Node) {
    let written = text.get(node.place.start..node.place.end).unwrap_or_else(|| panic!("{:?} in {text:?}", node.place));
    match &node.value {
        Value::Scalar(scalar) if !scalar.quoted && !written.contains(['\n', '\r']) => assert_eq!(written, scalar.text),
        Value::Scalar(_) | Value::Hole => {}
        Value::List(items) => {
            for item in items {
                assert!(node.place.start <= item.place.start && item.place.end <= node.place.end, "{text:?} {node:#?}");
                places_are_true(text, item);
            }
        }
        Value::Map(pairs) => {
            for pair in pairs {
                let key = text.get(pair.key_place.start..pair.key_place.end).unwrap_or_else(|| panic!("{text:?}"));
                assert!(
                    key.contains(pair.key.trim()) || key.starts_with(['"', '\'', '|', '>']) || key.contains('\n'),
                    "{key:?} {:?}",
                    pair.key
                );
                assert!(
                    node.place.start <= pair.key_place.start && pair.node.place.end <= node.place.end,
                    "{text:?} {node:#?}"
                );
                places_are_true(text, &pair.node);
            }
        }
    }
}

#[test]
fn scalars_come_out_as_written() {
    for text in [
        "10.10",
        "0714",
        "NO",
        "5:40",
        "1e3",
        "~",
        "null",
        "2026-09-14",
        "70 N·m",
        "≥ 12 h",
        "75 ± 5 N·m",
        "-55 to 150 °C",
        "true",
        "a:b",
        "1_000",
        "0x1F",
        "?x",
        "-5",
    ] {
        reads(&format!("a: {text}\n"), &format!("{{a={text};}}"));
        reads(&format!("a: {{b: {text}}}\n"), &format!("{{a={{b={text};}};}}"));
        reads(&format!("{text}: b\n"), &format!("{{{text}=b;}}"));
    }
}

#[test]
fn reads_what_it_should() {
    reads("", "{}");
    reads("# nothing\n", "{}");
    reads("a: b", "{a=b;}");
    reads("---\na: b\n", "{a=b;}");
    reads("a: 'x''y'\nb: \"1\\u00b0\"\n", "{a=\"x'y\";b=\"1°\";}");
    reads("a: |\n  one\n  two\nb: >\n  one\n  two\n", "{a=\"one\\ntwo\\n\";b=\"one two\\n\";}");
    reads("a: one\n  two\n\nb: c\n", "{a=one two;b=c;}");
    reads("a: [1, [2, x y], {b: c}]\n", "{a=[1;[2;x y;];{b=c;};];}");
    reads("a:\n- b\n- c: d\n  e: f\n", "{a=[b;{c=d;e=f;};];}");
    reads("a:\n  b:\n    c: d\n", "{a={b={c=d;};};}");
    reads("a: {b: c,\n    d: e}\n", "{a={b=c;d=e;};}");
    reads("a:\nb: {c: , d: }\n", "{a=;b={c=;d=;};}");
    reads("a: b  # a comment\n#c\nd: 'e' #f\n", "{a=b;d=\"e\";}");
    reads("a: b\r\nc: [d,\r\n  e]\r\n", "{a=b;c=[d;e;];}");
    reads("\u{feff}a: b\n", "{a=b;}");
    reads("'a b': c\n\"0714\": d\n", "{a b=c;0714=d;}");
    reads("a: []\nb: {}\n", "{a=[];b={};}");
}

#[test]
fn places_are_exact() {
    let text = "größe: {torque: 22.5 N·m, list: [a, 'b']}\nx:\n  y: z\n";
    let (node, _) = read(text);
    let at = |place: &Place| &text[place.start..place.end];
    let map = node.get("größe").expect("there");
    assert_eq!(at(&map.place), "{torque: 22.5 N·m, list: [a, 'b']}");
    assert_eq!(at(&map.pairs()[0].key_place), "torque");
    assert_eq!(at(&map.pairs()[0].node.place), "22.5 N·m");
    assert_eq!(at(&map.pairs()[1].node.place), "[a, 'b']");
    assert_eq!(at(&node.get("x").expect("there").place), "y: z");
}

#[test]
fn traps() {
    fault("a: {torque: 22,5 N·m}\n", "{a={torque=22;5 N·m=;};}", "yaml-trap", "5 N·m", "write 22.5");
    fault("{name: Bolt, left, x: y}\n", "{name=Bolt;left=;x=y;}", "yaml-trap", "left", "'Bolt, left'");
    fault("a: {x:y, c: d}\n", "{a={x:y=;c=d;};}", "yaml-trap", "x:y", "‘x: y’");
    fault("a: {b}\n", "{a={b=;};}", "yaml-trap", "b", "key: value");
    fault("a: [turn:]\n", "{a=[{turn=;};];}", "yaml-trap", "turn", "without the colon");
    fault("a: >2\nb: c\n", "{a=\"\";b=c;}", "yaml-trap", ">2", "≥ 2");
    fault("a: Screw #4\n", "{a=Screw;}", "yaml-trap", "#4", "'Screw #4'");
    fault("a: *b\n", "{a=?;}", "yaml-trap", "*b", "'*b'");
    fault("a: &b c\n", "{a=c;}", "yaml-trap", "&b", "take it out");
    fault("a: !imp 3 pt\n", "{a=?;}", "yaml-trap", "!imp", "quotes");
    fault("a: !!str 3\n", "{a=?;}", "yaml-trap", "!!str", "quotes");
    fault("a: !x [b]\n", "{a=[b;];}", "yaml-trap", "!x", "quotes");
    fault("<<: {a: b}\nc: d\n", "{c=d;}", "yaml-trap", "<<", "machine.yaml");
    fault("? [a]\n: b\nc: d\n", "{c=d;}", "yaml-trap", "[a]", "name: …");
    let (_, findings) = read("a: {torque: 22,5 N·m}\n");
    assert!(
        findings[0].figure_lines().iter().any(|line| line == "read as torque 22 and a stray key ‘5 N·m’"),
        "{findings:#?}"
    );
    let (_, findings) = read("a: {name: Bolt, left, front, x: y}\n");
    assert!(findings[1].fix_text().contains("‘name: 'Bolt, left, front'’"), "{findings:#?}");
    let (_, findings) = read("a: Screw #4\n");
    assert_eq!(findings[0].grade(), Severity::Warning);
}

#[test]
fn doubled_keys() {
    fault("a: 1\nb: 2\na: 3\n", "{a=1;b=2;}", "doubled-key", "a", "keep the right one");
    fault("x: {a: 1, a: 2}\n", "{x={a=1;};}", "doubled-key", "a", "keep the right one");
    fault("a: 1\n'a': 2\n", "{a=1;}", "doubled-key", "'a'", "keep the right one");
    let (_, findings) = read("a: 1\na: [2, {b: c}]\n");
    assert_eq!(findings[0].place().start, 5);
    assert_eq!(findings[0].related_places()[0].0.start, 0);
}

#[test]
fn unreadable_places() {
    let cases = [
        ("faces: spring: oil\n", ":", "‘faces: {spring: oil}’"),
        ("time: > 12 h\n", ">", "‘≥ 12 h’ or ‘min 12 h’"),
        ("a: {time: > 12 h}\n", ">", "‘≥ 12 h’"),
        ("a: @b\n", "@", "'@ b'"),
        ("a: `b`\n", "`", "quotes"),
        ("a: %b\n", "%", "quotes"),
        ("a: & b\n", "&", "quotes"),
        ("a: | b\n", "|", "quotes"),
        ("a: , b\n", ",", "quotes"),
        ("a:\n\tb: c\n", "\t", "spaces"),
        ("a: [1, 2\n", "[", "missing ‘]’"),
        ("a: {b: c\n", "{", "missing ‘}’"),
        ("a: {b: [c}\n", "[", "‘]’ before the ‘}’"),
        ("a: }\n", "}", "quotes"),
        ("a: 'b\n", "'", "close it"),
        ("a: \"b\n", "\"", "close it"),
        ("a: 'b' c\n", "c", "whole value"),
        ("a: \"\\q\"\n", "\"", "single quotes"),
        ("a: {b: [c] d}\n", "d", "comma"),
        ("a: - b\n", "-", "[a, b]"),
        ("a: [-]\n", "-", "[a, b]"),
        ("a: ? b\n", "?", "quotes"),
        ("a: [b]: c\n", ":", "quotes"),
        ("%YAML 1.2\n---\na: b\n", "%", "quotes"),
    ];
    for (text, caret, fix) in cases {
        let (node, findings) = read(text);
        let [finding] = findings.as_slice() else { panic!("{text:?}: {findings:#?}") };
        assert_eq!(finding.rule().name, "yaml-unreadable", "{text:?}");
        assert_eq!(&text[finding.place().start..finding.place().end], caret, "{text:?}: {finding:#?}");
        assert!(finding.fix_text().contains(fix), "{text:?}: {}", finding.fix_text());
        places_are_true(text, &node);
    }
    fault("a: *two words*\n", "{a=?;}", "yaml-trap", "*two", "'*two words*'");
    let (_, findings) = read("a: {b: Screw #4}\n");
    let rules: Vec<&str> = findings.iter().map(|f| f.rule().name).collect();
    assert_eq!(rules, ["yaml-trap", "yaml-unreadable"]);
    assert!(findings[1].fix_text().contains("comment"), "{findings:#?}");
    fault("- a\n- b\n", "?", "yaml-unreadable", "- a\n- b", "name: …");
    fault("a:b\n", "?", "yaml-unreadable", "a:b", "‘a: b’");
    fault("text\n", "?", "yaml-unreadable", "text", "key: value");
    fault("a: b\n---\nc: d\n", "{a=b;}", "yaml-unreadable", "---", "one document");
}

#[test]
fn reads_on_behind_a_mistake() {
    fault("a: 1\nb: [\nc: 3\n", "{a=1;b=?;c=3;}", "yaml-unreadable", "[", "missing");
    fault("a: 1\nb: 'x\nc: 3\n", "{a=1;b=?;c=3;}", "yaml-unreadable", "'", "close");
    fault("a: 1\nstray\nc: 3\n", "{a=1;c=3;}", "yaml-unreadable", "s", "key: value");
    fault(
        "f:\n  a: {t: 1}\n  b: {t: 1\n  c: {t: 3}\ng: 4\n",
        "{f={a={t=1;};b=?;c={t=3;};};g=4;}",
        "yaml-unreadable",
        "{",
        "missing",
    );
    fault("f:\n  a:\n    t: > 1\n    u: 2\n  c: 3\n", "{f={a={t=?;u=2;};c=3;};}", "yaml-unreadable", ">", "≥ 1");
    fault("f:\n  a: 1\n   b: 2\n  c: 3\nd: 4\n", "{f={a=?;c=3;};d=4;}", "yaml-unreadable", ":", "same column");
    fault("f:\n  a: 1\n b: 2\n  c: 3\nd: 4\n", "{f={a=1;c=3;};d=4;}", "yaml-unreadable", "b", "same column");
    fault("l:\n- a\n- > 2\n- c\nd: 4\n", "{l=[a;?;c;];d=4;}", "yaml-unreadable", ">", "≥ 2");
    fault("f: # all\n\n  # first\n  a: @\n  b: 2\n", "{f={a=?;b=2;};}", "yaml-unreadable", "@", "quotes");
    fault("f:\r\n  a: @\r\n  b: 2\r\n", "{f={a=?;b=2;};}", "yaml-unreadable", "@", "quotes");
    fault("a: {b: c}\n  d: e\nf: g\n", "{a=?;f=g;}", "yaml-unreadable", "d", "same column");
}

#[test]
fn all_mistakes_in_one_run() {
    let text = "a: > 1\nb: {t: 22,5 N·m}\nc: faces: oil\nd: 1\nd: 2\ne:\n  f: @x\n  g: *y\n  h: fine\n";
    let (node, findings) = read(text);
    assert_eq!(shown(&node), "{a=?;b={t=22;5 N·m=;};c=?;d=1;e={f=?;g=?;h=fine;};}");
    let mut lines: Vec<usize> = findings.iter().map(|f| text[..f.place().start].matches('\n').count() + 1).collect();
    lines.sort_unstable();
    assert_eq!(lines, [1, 2, 3, 5, 7, 8], "{findings:#?}");
}

#[test]
fn depth_is_bounded() {
    for text in
        ["[".repeat(10_000), "{a: ".repeat(10_000), "a: ".to_owned() + &"[".repeat(100_000), "- ".repeat(10_000)]
    {
        let (_, findings) = read(&text);
        assert!(findings.iter().any(|f| f.rule().name == "nesting-too-deep"), "{} {findings:#?}", &text[..9]);
    }
    let steps: String = (0..1_000).map(|n| " ".repeat(n) + "a:\n").collect();
    let (_, findings) = read(&steps);
    assert!(findings.iter().any(|f| f.rule().name == "nesting-too-deep"), "{findings:#?}");
    let mixed = "a: ".to_owned() + &"[{b: ".repeat(16) + "c" + &"}]".repeat(16) + "\n";
    assert!(read(&mixed).1.iter().any(|f| f.rule().name == "nesting-too-deep"));
    reads(
        &format!("a: {}b{}\n", "[".repeat(31), "]".repeat(31)),
        &format!("{{a={}b{};}}", "[".repeat(31), ";]".repeat(31)),
    );
}

#[test]
fn an_alias_bomb_costs_nothing() {
    let mut text = "a0: &a0 [x, x]\n".to_owned();
    for n in 1..200 {
        let before = format!("*a{}", n - 1);
        writeln!(text, "a{n}: &a{n} [{}]", [before.as_str(); 9].join(", ")).expect("a string");
    }
    let (node, findings) = read(&text);
    assert_eq!(node.pairs().len(), 200);
    assert_eq!(findings.len(), 201);
    assert_eq!(findings.last().map(|f| f.rule().name), Some("too-many-faults"));
}

#[test]
fn many_faults_stay_few() {
    let (_, findings) = read(&"a: > 1\n".repeat(100_000));
    assert_eq!(findings.len(), 201);
}

#[test]
fn work_is_linear() {
    // Quadratic work would take minutes.
    for (start, piece) in [
        ("a: [", "b, "),
        ("a: [", "*b, "),
        ("a: {", "b, "),
        ("a: {", "b: c,d "),
        ("a: [", "b: , "),
        ("", "a: >\n"),
        ("", "a #b\n"),
        ("a: ", "b "),
        ("a: [", "!x b, "),
        ("", "\t"),
        ("", "a:\n"),
        ("a: \n", "- > b\n"),
        ("a: '", "b''"),
        ("", "a: b\nc\n"),
    ] {
        read(&(start.to_owned() + &piece.repeat(500_000 / piece.len())));
    }
}

proptest! {
    #[test]
    fn any_text_is_answered(text in "\\PC{0,60}") {
        let (node, findings) = read(&text);
        places_are_true(&text, &node);
        for finding in findings {
            prop_assert!(text.get(finding.place().start..finding.place().end).is_some());
        }
    }

    #[test]
    fn any_yaml_like_text_is_answered(text in "([a-c: \\-\\[\\]{},'\"#&*!|>%@?°·\\n\\t]|\\n  |: |\\r\\n|\\n- |\u{feff}){0,40}") {
        let (node, findings) = read(&text);
        places_are_true(&text, &node);
        for finding in findings {
            prop_assert!(text.get(finding.place().start..finding.place().end).is_some());
        }
    }

    #[test]
    fn plain_values_come_out_as_written(value in "[A-Za-z0-9±≥°·–.(][A-Za-z0-9 ±≥°·–.()/:-]{0,20}[A-Za-z0-9°.)]") {
        let text = format!("key: {value}\nnext: [{value}]\n");
        prop_assume!(!value.contains(": ") && !value.contains(" #"));
        let (node, findings) = read(&text);
        prop_assert!(findings.is_empty(), "{:#?}", findings);
        prop_assert_eq!(node.get("key").and_then(Node::text), Some(value.as_str()));
        places_are_true(&text, &node);
    }
}
