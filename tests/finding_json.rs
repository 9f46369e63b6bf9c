//! The report for scripts: its shape is a promise, so it is pinned whole.

use benchleaf::finding::{Explanation, FileTable, Finding, Place, Rule, Severity, json};

static WITHOUT_UNIT: Rule = Rule {
    name: "torque-without-unit",
    severity: Severity::Error,
    summary: "A torque has no unit.",
    explanation: Explanation { finds: "", matters: "", may_be_wrong: "", example: "", instead: "" },
};

#[test]
fn version_1() {
    let mut files = FileTable::default();
    let file = files.add("hub.md", "nut:\n  torque: 25–30\n  \"x\n");
    let full = Finding::new(&WITHOUT_UNIT, Place::new(file, 15..22), "no unit")
        .label("here")
        .figure("25 N·m is 18 lbf·ft")
        .related(Place::new(file, 0..3), "the nut")
        .fix("write `25–30 N·m`")
        .about("nut.torque");
    let bare = Finding::new(&WITHOUT_UNIT, Place::new(file, 0..0), "a \"quoted\" word").severity(Severity::Note);
    let expected = r#"{
  "format": "benchleaf-findings",
  "version": 1,
  "findings": [
    {
      "rule": "torque-without-unit",
      "severity": "note",
      "message": "a \"quoted\" word",
      "place": {
        "file": "hub.md",
        "start_byte": 0,
        "end_byte": 0,
        "line": 1,
        "column": 1,
        "end_line": 1,
        "end_column": 1
      },
      "label": null,
      "figures": [],
      "related": [],
      "fix": null,
      "about": null
    },
    {
      "rule": "torque-without-unit",
      "severity": "error",
      "message": "no unit",
      "place": {
        "file": "hub.md",
        "start_byte": 15,
        "end_byte": 22,
        "line": 2,
        "column": 11,
        "end_line": 2,
        "end_column": 16
      },
      "label": "here",
      "figures": [
        "25 N·m is 18 lbf·ft"
      ],
      "related": [
        {
          "place": {
            "file": "hub.md",
            "start_byte": 0,
            "end_byte": 3,
            "line": 1,
            "column": 1,
            "end_line": 1,
            "end_column": 4
          },
          "what": "the nut"
        }
      ],
      "fix": "write `25–30 N·m`",
      "about": "nut.torque"
    }
  ],
  "waived": []
}
"#;
    assert_eq!(json(&[full.clone(), bare.clone()], &files).unwrap(), expected);
    assert_eq!(json(&[bare, full], &files).unwrap(), expected, "the order of finding changes nothing");
}
