//! What stands at an act that puts a compound on: a thread is tightened while its locker is wet, a bearing is joined.

#![expect(clippy::disallowed_methods, reason = "a test makes its own folders")]

use std::fs;
use std::process::Command;
use tempfile::TempDir;

const PROCEDURE: &str = "---
title: Hub
revision: 1
date: 2026-09-14
materials:
  hub-compound: {name: Retaining compound, kind: retaining-compound, strength: high, working: 7 min, cure: 24 h}
  nut-locker: {name: Medium-strength thread locker, kind: thread-locker, strength: medium, working: 9 min, cure: 24 h}
fasteners:
  hub-bolt: {name: Hub bolt, count: 2, thread: M6x1.0, class: 8.8, role: cover, threads: locker, locker: nut-locker, torque: 9 N·m}
bearings:
  hub-bearing: {name: Bearing of the hub, size: 25x52x15 mm, faces: either}
---

## Close the hub {#close}

[Compound on the outer ring](apply:hub-compound@hub-bearing) and [bearing in](fit:hub-bearing). [Clean the bolts](clean:hub-bolt),
[put locker on](apply:nut-locker@hub-bolt) and [tighten them](torque:hub-bolt).
";

#[test]
fn a_bearing_is_joined_and_a_bolt_tightened_within_the_time_of_its_compound() {
    let folder = TempDir::new().unwrap();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    fs::create_dir_all(folder.path().join("manual/tarn")).unwrap();
    write("manual/manual.yaml", "title: Little manual\npublisher: Example club (invented)\nlanguage: en\nprofile: working\n");
    write("manual/shop.yaml", "tools:\n  wrench: {name: Torque wrench 5–25 N·m, kind: torque-wrench, range: 5–25 N·m}\n");
    write("manual/tarn/machine.yaml", "name: Tarn\nmaker: Example works (invented)\n");
    write("manual/tarn/hub.md", PROCEDURE);
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["bind", "manual", "--into", "site"]).current_dir(folder.path()).output().unwrap();
    assert!(run.status.success(), "{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
    let page = fs::read_to_string(folder.path().join("site/tarn/hub.html")).unwrap().replace("<bdi>", "").replace("</bdi>", "").replace('\u{a0}', " ");
    let sheet = fs::read_to_string(folder.path().join("site/tarn/hub-sheet.html")).unwrap().replace("<bdi>", "").replace("</bdi>", "").replace('\u{a0}', " ");
    for text in [&page, &sheet] {
        assert!(text.contains("join within 7 min") && text.contains("tighten within 9 min"), "{text}");
        assert!(!text.contains("tighten within 7 min") && !text.contains("join within 9 min"), "{text}");
    }
}
