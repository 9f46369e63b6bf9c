//! The fingerprint of a bench sheet: any value on the sheet changes it, and nothing else does.

#![expect(clippy::unwrap_used, reason = "a test fails by saying so")]
#![expect(clippy::disallowed_methods, reason = "a test makes its own folders")]

mod demo;

use benchleaf::manual::{Combination, Fingerprint, Home, Ledger, Lists, Machine, Manual, Procedure, SheetValues, board_text, canonical_text, card_text, lower, placed_fasteners, sheet_variants, things_on_sheet};
use benchleaf::page::{Input, PageFile, publish};
use benchleaf::source::{Sources, read};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

static DEMO: LazyLock<(Sources, Manual)> = LazyLock::new(|| manual_of(&demo::original()));

fn manual_of(folder: &Path) -> (Sources, Manual) {
    let (sources, _) = read(folder).unwrap();
    let (manual, _) = lower(&sources);
    (sources, manual)
}

/// Every sheet of a manual: machine, procedure, variant.
fn sheets(manual: &Manual) -> Vec<(&Machine, &Procedure, Combination)> {
    let procedures = manual.machines.iter().flat_map(|machine| machine.procedures.iter().map(move |procedure| (machine, procedure)));
    procedures.flat_map(|(m, p)| sheet_variants(manual, m, p).into_iter().map(move |known| (m, p, known))).collect()
}

fn all_fingerprints(manual: &Manual) -> Vec<Fingerprint> {
    sheets(manual).into_iter().map(|(m, p, known)| Fingerprint::of(manual, m, p, &known)).collect()
}

const SMALL: &str = "---\ntitle: Trial\nrevision: 3\ndate: 2026-09-14\nfasteners:\n  nut: {name: Hub nut, count: 1, thread: M12x1.25, torque: {early: 70 N·m, late: 78 N·m}, locker: glue, source: book}\nleaves_open:\n  cap: {left: hand-tight, because: measured first, finish_in: other#end}\nparts:\n  cap: {name: Cap, number: '0714'}\n---\n\nIntroduction.\n\n## Tighten {#tighten time=5min}\n\n[Fit the cap](fit:cap), then [tighten the nut](torque:nut).\n\n## Late only {#late for=serial-late}\n\n[Loosen it](loosen:nut).\n";

fn small(trial: &str) -> (Sources, Manual) {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    fs::create_dir(folder.path().join("tarn")).unwrap();
    write("manual.yaml", "title: Little\npublisher: Example club\n");
    write("shop.yaml", "materials:\n  glue: {name: Thread locker, kind: thread-locker, strength: medium, cure: 24 h}\nsources:\n  book: {title: Book, kind: maker}\n");
    write("tarn/machine.yaml", "name: Tarn\nvariants: {serial: {early: ≤ 10, late: ≥ 11}}\n");
    write("tarn/trial.md", trial);
    write("tarn/other.md", "---\ntitle: Other\nrevision: 1\ndate: 2026-09-14\nafter: [trial]\n---\n\n## End {#end}\n\n[Look](stop:)\n");
    manual_of(folder.path())
}

fn small_sheet(trial: &str, variant: &str) -> (String, Fingerprint) {
    let (_, manual) = small(trial);
    let machine = &manual.machines[0];
    let procedure = machine.procedure("trial").unwrap();
    let known = Combination(BTreeMap::from([("serial".to_owned(), variant.to_owned())]));
    assert!(sheet_variants(&manual, machine, procedure).contains(&known));
    (canonical_text(&manual, machine, procedure, &known), Fingerprint::of(&manual, machine, procedure, &known))
}

/// The canonical text is a promise: papers are compared by it. The fingerprint was worked out outside of this project, with
/// Python 3's `hashlib.sha256` and Crockford's alphabet:
/// `d=int.from_bytes(sha256(text).digest(),'big'); ''.join(A[(d>>(256-5*(i+1)))&31] for i in range(12))`.
#[test]
fn the_canonical_text_of_version_2_stands() {
    let (text, fingerprint) = small_sheet(SMALL, "late");
    let wanted = "benchleaf-sheet/2\n\
        sheet tarn/trial serial=late\n\
        trial tighten fit:cap\n\
        trial tighten fit:cap parts/cap.number 0714\n\
        trial tighten torque:nut\n\
        trial tighten torque:nut fasteners/nut.count 1\n\
        trial tighten torque:nut fasteners/nut.locker glue\n\
        trial tighten torque:nut fasteners/nut.thread M12x1.25\n\
        trial tighten torque:nut fasteners/nut.torque 78 N·m\n\
        trial tighten torque:nut materials/glue.cure 24 h\n\
        trial tighten torque:nut materials/glue.kind thread-locker\n\
        trial tighten torque:nut materials/glue.strength medium\n\
        trial late loosen:nut\n\
        trial - open leaves_open/cap\n\
        trial - open leaves_open/cap.finish_in other#end\n\
        trial - open leaves_open/cap.left hand-tight\n";
    assert_eq!(text, wanted);
    assert_eq!(fingerprint.as_str(), "V5ER-9WF5-XTQN");
}

/// A bolt that is only slackened or run up has no torque on the sheet: another torque is no other sheet.
#[test]
fn a_torque_counts_where_an_act_tightens() {
    let changed = |text: &str| {
        let other = text.replace("late: 78 N·m", "late: 80 N·m");
        assert_ne!(other, text);
        (small_sheet(text, "late"), small_sheet(&other, "late"))
    };
    let (old, new) = changed(SMALL);
    assert_ne!(old.1, new.1);
    for act in ["loosen:nut", "start:nut", "remove:nut"] {
        let (old, new) = changed(&SMALL.replace("torque:nut", act));
        assert_eq!(old, new, "{act}");
        // What the sheet says of it still counts.
        let longer = SMALL.replace("torque:nut", act).replace("M12x1.25", "M12x1.75");
        assert_ne!(old.1, small_sheet(&longer, "late").1, "{act}");
    }
    // Tightened only in a step of the other variant, which this sheet does not have.
    let elsewhere = |torque: &str| SMALL.replace("torque:nut", "loosen:nut").replace("for=serial-late}\n\n[Loosen it](loosen:nut)", "for=serial-early}\n\n[Tighten it](torque:nut)").replace("late: 78 N·m", torque);
    assert!(elsewhere("late: 78 N·m").contains("for=serial-early"));
    assert_eq!(small_sheet(&elsewhere("late: 78 N·m"), "late"), small_sheet(&elsewhere("late: 80 N·m"), "late"));
}

/// A procedure with a group of bolts in true places, beside the machine's torque card. No wrench is named: it is chosen.
const WALL: &str = "---\ntitle: Trial\nrevision: 3\ndate: 2026-09-14\nfasteners:\n  bolt: {name: Hub bolt, count: 3, thread: M8x1.25, length: {early: 30 mm, late: 35 mm}, torque: {early: 20 N·m, late: 22 N·m}, layout: {at: [[0, 0], [80, 0], [40, 30]]}, locker: glue, hold_with: holder, critical: true, source: book, note: hold the hub}\n  stop: {name: Stop, count: 1, thread: M6x1.0, for: {serial: late}, torque: 9 N·m, tool: small}\n  pin: {name: Pin, count: 1}\ntools:\n  holder: {name: Holder, kind: holding-tool}\n  small: {name: Small wrench, kind: torque-wrench, range: 2–20 N·m}\n  large: {name: Large wrench, kind: torque-wrench, range: 10–60 N·m, scale: N·m}\n---\n\nIntroduction.\n\n## Tighten {#tighten time=5min}\n\n[Fit the pin](fit:pin), then [tighten the bolts](torque:bolt).\n";

/// The texts and fingerprints of the card and of the board.
fn small_wall(trial: &str) -> [(String, Fingerprint); 2] {
    let (_, manual) = small(trial);
    let machine = &manual.machines[0];
    let procedure = machine.procedure("trial").unwrap();
    let placed = placed_fasteners(manual.scope(machine, procedure), procedure);
    assert_eq!(placed.len(), 1);
    let board = SheetValues::of_board(&manual, machine, procedure, &placed[0]);
    [(card_text(&manual, machine), SheetValues::of_card(&manual, machine).fingerprint), (board_text(&manual, machine, procedure, &placed[0]), board.fingerprint)]
}

/// Until when a wrench is calibrated stands on the sheet and is no value of the work: a new day makes no paper stale, and nobody
/// has to say in a change line why.
#[test]
fn a_renewed_calibration_leaves_papers_current_and_is_no_change_of_a_value() {
    let calibrated = |day: &str, range: &str| WALL.replace("range: 2–20 N·m}", &format!("range: {range}, calibrated: {day}, calibrate_every: 12 months}}"));
    let (old, new) = (calibrated("2025-03-02", "2–20 N·m"), calibrated("2026-03-02", "2–20 N·m"));
    assert_ne!(old, WALL);
    assert_eq!(small_wall(&old), small_wall(&new));
    assert_eq!(small_sheet(&old, "late"), small_sheet(&new, "late"));
    assert_eq!(Ledger::of(&small(&old).1), Ledger::of(&small(&new).1));
    // Its scale is another matter.
    let other = calibrated("2026-03-02", "2–25 N·m");
    assert_ne!(small_wall(&new)[0], small_wall(&other)[0]);
    assert_ne!(Ledger::of(&small(&new).1), Ledger::of(&small(&other).1));
}

/// As for sheets; the fingerprints were worked out in the same way.
#[test]
fn the_canonical_texts_of_card_and_board_stand() {
    let [(card, card_print), (board, board_print)] = small_wall(WALL);
    let wanted = "benchleaf-card/1\n\
        card tarn\n\
        tarn/trial fasteners/bolt -\n\
        tarn/trial fasteners/bolt.count 3\n\
        tarn/trial fasteners/bolt.critical true\n\
        tarn/trial fasteners/bolt.layout {at: [[0, 0], [80, 0], [40, 30]]}\n\
        tarn/trial fasteners/bolt.length [serial=early] 30 mm\n\
        tarn/trial fasteners/bolt.length [serial=late] 35 mm\n\
        tarn/trial fasteners/bolt.locker glue\n\
        tarn/trial fasteners/bolt.thread M8x1.25\n\
        tarn/trial fasteners/bolt.torque [serial=early] 20 N·m\n\
        tarn/trial fasteners/bolt.torque [serial=late] 22 N·m\n\
        shop materials/glue.strength medium\n\
        tarn/trial tools/large.kind torque-wrench\n\
        tarn/trial tools/large.range 10–60 N·m\n\
        tarn/trial tools/large.scale N·m\n\
        tarn/trial tools/small.kind torque-wrench\n\
        tarn/trial tools/small.range 2–20 N·m\n\
        tarn/trial fasteners/stop serial=late\n\
        tarn/trial fasteners/stop.count 1\n\
        tarn/trial fasteners/stop.thread M6x1.0\n\
        tarn/trial fasteners/stop.tool small\n\
        tarn/trial fasteners/stop.torque 9 N·m\n";
    assert_eq!(card, wanted);
    let wanted = "benchleaf-board/1\n\
        board tarn/trial bolt\n\
        tarn/trial fasteners/bolt -\n\
        tarn/trial fasteners/bolt.count 3\n\
        tarn/trial fasteners/bolt.layout {at: [[0, 0], [80, 0], [40, 30]]}\n\
        tarn/trial fasteners/bolt.length [serial=early] 30 mm\n\
        tarn/trial fasteners/bolt.length [serial=late] 35 mm\n\
        tarn/trial fasteners/bolt.thread M8x1.25\n";
    assert_eq!(board, wanted);
    assert_eq!((card_print.as_str(), board_print.as_str()), ("R9C5-5PKS-RZ4E", "Z92V-HXXD-CJH8"));
}

#[test]
fn what_counts_on_card_and_board_and_what_does_not() {
    let [(_, card), (_, board)] = small_wall(WALL);
    // From, to, and whether the card and the board are other ones then.
    for (from, to, card_changes, board_changes) in [
        ("late: 22 N·m", "late: 23 N·m", true, false),
        ("torque: 9 N·m", "torque: 10 N·m", true, false),
        ("[40, 30]", "[40, 31]", true, true),
        ("late: 35 mm", "late: 40 mm", true, true),
        ("M8x1.25", "M8x1.0", true, true),
        ("count: 3", "count: 4", true, true),
        ("locker: glue", "threads: oiled", true, false),
        ("critical: true", "critical: false", true, false),
        ("for: {serial: late}", "for: {serial: early}", true, false),
        ("tool: small", "tool: large", true, false),
        ("2–20 N·m", "2–25 N·m", true, false),
        // Neither shows who holds the shaft, nor what has no torque, nor any work.
        ("hold_with: holder, ", "", false, false),
        ("{name: Pin, count: 1}", "{name: Pin, count: 2}", false, false),
        ("[Fit the pin](fit:pin), then ", "", false, false),
        // Words.
        ("Introduction.", "Another introduction.", false, false),
        ("[tighten the bolts]", "[now tighten all bolts]", false, false),
        ("note: hold the hub", "note: hold the hub by hand", false, false),
        ("name: Hub bolt", "name: Bolt of the hub", false, false),
        ("name: Large wrench", "name: Long wrench", false, false),
        (", source: book", "", false, false),
        ("title: Trial", "title: Trial of the hub", false, false),
        ("revision: 3", "revision: 4", false, false),
        ("{name: Stop, count: 1, thread: M6x1.0", "{thread: M6x1.0, count: 1, name: Stop", false, false),
    ] {
        assert_eq!(WALL.matches(from).count(), 1, "{from}");
        let [(_, other_card), (_, other_board)] = small_wall(&WALL.replace(from, to));
        assert_eq!(other_card != card, card_changes, "card: {from} → {to}");
        assert_eq!(other_board != board, board_changes, "board: {from} → {to}");
    }
}

/// What a card prints is counted, and card and board print the fingerprint they have.
#[test]
fn card_and_board_print_their_fingerprints_and_count_what_they_print() {
    let manual = &DEMO.1;
    let (mut values, mut boards) = (0, 0);
    let files = published();
    let page = |path: &str| files.iter().find(|file| file.path == path).map(|file| String::from_utf8_lossy(&file.bytes).replace('\u{a0}', " "));
    for machine in &manual.machines {
        let text = card_text(manual, machine);
        let card = page(&format!("{}/torque-card.html", machine.id)).unwrap();
        let mark = |print: &Fingerprint| format!("<b class=\"fingerprint\">{print}</b>");
        assert!(card.contains(&mark(&SheetValues::of_card(manual, machine).fingerprint)));
        for piece in card.split("<b class=\"figure\">").skip(1) {
            let (main, behind) = piece.split_once("</b>").unwrap();
            let other = behind.trim_start().strip_prefix("<span class=\"other\">").and_then(|other| other.split("</span>").next());
            let other = other.map(|other| other.trim_matches(['(', ')', '[', ']']).to_owned());
            // What is tightened by hand is written `torque: hand`.
            let main = if main == "by hand" { ".torque hand" } else { main };
            assert!(text.contains(main) || other.as_ref().is_some_and(|other| text.contains(other)), "{}: ‘{main}’ {other:?}", machine.id);
            values += 1;
        }
        for procedure in &machine.procedures {
            for thing in placed_fasteners(manual.scope(machine, procedure), procedure) {
                let Some(board) = page(&format!("{}/{}-board-{}.html", machine.id, procedure.id, thing.id)) else { continue };
                assert!(board.contains(&mark(&SheetValues::of_board(manual, machine, procedure, &thing).fingerprint)));
                boards += 1;
            }
        }
    }
    assert!(values > 40 && boards > 1, "{values} {boards}");
}

/// A wrench that no `tool:` names is chosen: a sheet tells its torque by that wrench's scale, and is another one where the wrench is.
/// Of the others nothing stands on it.
#[test]
fn the_chosen_wrench_counts_on_a_sheet_and_the_others_do_not() {
    let (text, sheet) = small_sheet(WALL, "late");
    assert!(text.contains("trial tighten torque:bolt tools/large.scale N·m\n") && !text.contains("tools/small"), "{text}");
    let drive = WALL.replace("scale: N·m}", "scale: N·m, drive: 1/2 in}");
    assert_ne!(drive, WALL);
    // From, to, and whether the sheet is another one then.
    for (base, from, to, changes) in [
        (WALL, "scale: N·m", "scale: lbf·ft", true),
        (WALL, "10–60 N·m", "12–60 N·m", true),
        (drive.as_str(), "drive: 1/2 in", "drive: 3/8 in", true),
        (WALL, "2–20 N·m", "2–19 N·m", false),
        (WALL, "name: Large wrench", "name: Long wrench", false),
        // Another one is chosen.
        (WALL, "10–60 N·m, scale", "100–600 N·m, scale", true),
        // Nothing is tightened: the sheet names no wrench.
        (WALL.replace("torque:bolt", "loosen:bolt").as_str(), "scale: N·m", "scale: lbf·ft", false),
    ] {
        assert_eq!(base.matches(from).count(), 1, "{from}");
        let before = if base == WALL { sheet.clone() } else { small_sheet(base, "late").1 };
        assert_eq!(small_sheet(&base.replace(from, to), "late").1 != before, changes, "{from} → {to}");
    }
}

#[test]
fn what_counts_and_what_does_not() {
    let (_, late) = small_sheet(SMALL, "late");
    let (_, early) = small_sheet(SMALL, "early");
    assert_ne!(late, early);
    // From, to, and whether the late sheet is another one then. The early sheet tells whether the variants are kept apart.
    for (from, to, late_changes, early_changes) in [
        ("78 N·m", "79 N·m", true, false),
        ("78 N·m", "78.0 N·m", true, false),
        ("78 N·m", "57.5 lbf·ft", true, false),
        ("70 N·m", "71 N·m", false, true),
        ("M12x1.25", "M12x1.5", true, true),
        ("'0714'", "\"0714\"", false, false),
        ("'0714'", "'0715'", true, true),
        ("hand-tight", "trial-torque", true, true),
        ("[Fit the cap](fit:cap), then [tighten the nut](torque:nut)", "[Tighten the nut](torque:nut), then [fit the cap](fit:cap)", true, true),
        ("(loosen:nut)", "(mark:nut)", true, false),
        ("#tighten time", "#tight time", true, true),
        ("[tighten the nut]", "[run the nut tight]", false, false),
        ("Introduction.", "Another introduction.", false, false),
        ("title: Trial", "title: Trial of the hub", false, false),
        ("revision: 3", "revision: 4", false, false),
        ("2026-09-14", "2026-09-15", false, false),
        ("time=5min", "time=50min", false, false),
        ("name: Hub nut", "name: Nut of the hub", false, false),
        (", source: book", "", false, false),
        ("because: measured first", "because: the gauge is away", false, false),
        ("{name: Cap, number: '0714'}", "{number: '0714',\n        name: Cap}", false, false),
    ] {
        assert_eq!(SMALL.matches(from).count(), 1, "{from}");
        let changed = SMALL.replace(from, to);
        assert_eq!(small_sheet(&changed, "late").1 != late, late_changes, "late: {from} → {to}");
        assert_eq!(small_sheet(&changed, "early").1 != early, early_changes, "early: {from} → {to}");
    }
}

#[test]
fn no_two_sheets_of_the_demo_have_one_fingerprint() {
    let all = all_fingerprints(&DEMO.1);
    assert!(all.len() >= 7, "{}", all.len());
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len());
}

/// The demo's pages.
fn published() -> Vec<PageFile> {
    let (sources, manual) = &*DEMO;
    let (pictures, theme) = (BTreeMap::new(), BTreeMap::new());
    let input = Input { manual, files: &sources.files, pictures: &pictures, findings: &[], waived: &[], proof_copy: false, theme: &theme, threads: 2 };
    publish(&input).unwrap()
}

/// Whatever a sheet prints large, to be read and set by, is in its canonical text: as printed, or as the author's own unit
/// beside it.
#[test]
fn every_value_that_a_sheet_prints_is_counted() {
    let manual = &DEMO.1;
    let files = published();
    let (mut values, mut uncounted) = (0, Vec::new());
    for (machine, procedure, known) in sheets(manual) {
        let fingerprint = Fingerprint::of(manual, machine, procedure, &known);
        let text = canonical_text(manual, machine, procedure, &known);
        let mark = format!("data-fingerprint=\"{fingerprint}\"");
        let page = files.iter().map(|file| String::from_utf8_lossy(&file.bytes)).find(|page| page.contains(&mark)).unwrap();
        let mut before = "";
        for piece in page.split("<b class=\"figure\">") {
            let (line, label) = (piece.replace('\u{a0}', " "), std::mem::replace(&mut before, piece));
            // The first piece stands before the first value.
            if label.is_empty() {
                continue;
            }
            let (main, behind) = line.split_once("</b>").unwrap();
            let other = behind.trim_start().strip_prefix("<span class=\"other\">").and_then(|other| other.split("</span>").next());
            let other = other.map(|other| other.trim_matches(['(', ')', '[', ']']).to_owned());
            // A second unit of the author's that has parentheses of its own is set in brackets: `1.2 L [2.5 pt (US)]`.
            let main = main.replace('[', "(").replace(']', ")");
            // `10 turn` of a list is `10 turns` in words.
            let counted = text.contains(main.strip_suffix('s').filter(|main| main.ends_with("turn")).unwrap_or(&main)) || other.as_ref().is_some_and(|other| text.contains(other));
            // Worked out from counted values: the dial's share of a backlash, from the spec and the two radii.
            let derived = label.trim_end().ends_with("on the dial</span>");
            if !counted && !derived { uncounted.push(format!("{}/{} {}: ‘{main}’ {other:?}", machine.id, procedure.id, known.words())); }
            values += 1;
        }
    }
    assert!(uncounted.is_empty(), "printed and not counted:\n{}", uncounted.join("\n"));
    assert!(values > 40, "{values}");
}

/// The lists of a manual with their places in it, to be changed one value at a time.
fn homes(manual: &mut Manual) -> Vec<(Option<usize>, Home, &mut Lists)> {
    let mut homes = vec![(None, Home::Shop, &mut manual.shop)];
    for (index, machine) in manual.machines.iter_mut().enumerate() {
        homes.push((Some(index), Home::Machine, &mut machine.lists));
        for procedure in &mut machine.procedures {
            homes.push((Some(index), Home::Procedure(procedure.id.clone()), &mut procedure.lists));
        }
    }
    homes
}

fn is_tightened(procedure: &Procedure, known: &Combination, fastener: &str) -> bool {
    let acts = procedure.steps.iter().filter(|step| step.only.agrees_with(known)).flat_map(|step| &step.acts);
    acts.filter(|act| act.address.starts_with("torque:")).any(|act| act.things.iter().any(|thing| thing.id == fastener))
}

const WORDS: [&str; 9] = ["name", "note", "source", "by", "licence", "balloons", "because", "title", "means"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// One value of the demo is changed. The sheets on which its thing stands in a variant in which it holds are other
    /// sheets then; all others stay what they were. A torque stands only where an act tightens.
    #[test]
    fn a_changed_value_changes_the_sheets_it_stands_on_and_no_other(home in any::<prop::sample::Index>(), at in any::<prop::sample::Index>()) {
        let manual = &DEMO.1;
        let mut changed = manual.clone();
        let (machine, home, written) = {
            let mut homes = homes(&mut changed);
            let with_values: Vec<usize> = (0..homes.len()).filter(|index| !homes[*index].2.written.is_empty()).collect();
            let (machine, home, lists) = &mut homes[with_values[home.index(with_values.len())]];
            let index = at.index(lists.written.len());
            lists.written[index].text.push_str(" and a bit");
            (*machine, home.clone(), lists.written[index].clone())
        };
        let after = all_fingerprints(&changed);
        for ((m, p, known), after) in sheets(manual).into_iter().zip(after) {
            let before = Fingerprint::of(manual, m, p, &known);
            let of_this_machine = machine.is_none_or(|index| manual.machines[index].id == m.id);
            let stands = of_this_machine
                && !WORDS.contains(&written.field)
                && written.when.agrees_with(&known)
                && ((written.kind.key(), written.field) != ("fasteners", "torque") || is_tightened(p, &known, &written.id))
                && things_on_sheet(manual, m, p, &known).iter().any(|t| t.kind == written.kind && t.id == written.id && t.home == home);
            // Open items stand on sheets without being acted on; only whether others change is asked of them.
            if !["leaves_open", "away"].contains(&written.kind.key()) {
                prop_assert_eq!(before != after, stands, "{}/{} {}: {}.{}", m.id, p.id, known.words(), written.id, written.field);
            }
        }
    }
}
