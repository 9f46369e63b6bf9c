//! Drawings of acts on published pages and sheets: there, drawn from the same values that stand beside them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::disallowed_methods, reason = "what fails here fails its test; it writes a manual and reads what is published")]

use std::fs;
use std::process::Command;

/// Page and sheet of a manual with one procedure.
fn published(front: &str, body: &str) -> (String, String) {
    let [page, sheet] = pages("name: Tarn\n", front, body, ["trial.html", "trial-sheet.html"]);
    (page, sheet)
}

/// Pages of a manual with one procedure.
fn pages<const N: usize>(machine: &str, front: &str, body: &str, names: [&str; N]) -> [String; N] {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::create_dir_all(at("m/tarn")).unwrap();
    fs::write(at("m/manual.yaml"), "title: Sample manual\npublisher: Slip Road Works\nlanguage: en\nunits: {torque: [N·m, lbf·ft]}\n").unwrap();
    fs::write(at("m/tarn/machine.yaml"), machine).unwrap();
    let page = format!("---\ntitle: Trial\nrevision: 1\ndate: 2026-09-14\n{front}---\n\n{body}\n");
    fs::write(at("m/tarn/trial.md"), page).unwrap();
    let run = Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(["bind", "--proof-copy", "--into"]).arg(at("site")).arg(at("m")).output().unwrap();
    names.map(|name| {
        fs::read_to_string(at("site/tarn").join(name)).unwrap_or_else(|error| {
            panic!("{name}: {error}\n{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr))
        })
    })
}

/// The texts of the drawing whose title begins so.
fn texts(page: &str, title: &str) -> Vec<String> {
    let start = page.find(&format!(".title\">{title}")).unwrap_or_else(|| panic!("no drawing of {title}"));
    let drawing = &page[start..start + page[start..].find("</svg>").unwrap()];
    drawing.split("<text ").skip(1).map(|text| text[text.find('>').unwrap() + 1..text.find("</text>").unwrap()].replace('\u{a0}', " ")).collect()
}

#[test]
fn the_order_that_is_worked_out_is_drawn_and_printed() {
    let fastener = "fasteners:\n  cap-bolt: {name: Cap bolt, count: 6, thread: M8x1.25, class: 8.8, threads: dry, torque: [10 N·m, 24 N·m], layout: {circle: 6}}\n";
    let (page, sheet) = published(fastener, "## Tighten {#tighten}\n\n[Tighten the cap](torque:cap-bolt).");
    // Crosswise for six, as tests/trade_orders.rs has it.
    assert!(page.contains("positions <bdi>1-4-2-5-3-6</bdi>, by their places"));
    let head = &sheet[sheet.find("<thead><tr><th scope=\"col\">").unwrap()..];
    let columns: Vec<&str> = head[..head.find("</thead>").unwrap()].split("<th scope=\"col\">").skip(1).map(|cell| &cell[..1]).collect();
    // The boxes go by turn, as the circles of the drawing beside them do.
    assert_eq!(columns, ["1", "2", "3", "4", "5", "6"]);
    for shown in [&page, &sheet] {
        let texts = texts(shown, "Cap bolt: tightening order");
        // By position: its place in the order, then its number.
        let numbers: Vec<&str> = texts.iter().map(String::as_str).take(12).collect();
        assert_eq!(numbers, ["1", "1", "3", "2", "5", "3", "2", "4", "4", "5", "6", "6"]);
        // On the sheet the grid beside the drawing has the stages.
        assert_eq!(texts.contains(&"stage 2: 24 N·m".to_owned()), shown == &page, "{texts:?}");
    }
    let grid = &sheet[sheet.find("<table class=\"grid\">").unwrap()..];
    assert!(grid[..grid.find("</table>").unwrap()].replace('\u{a0}', " ").contains("<b class=\"figure\">24 N·m</b>"));
}

/// Two wrenches, each for one stage: 38 N·m is 28.03 lbf·ft (1 lbf·ft = 1.3558 N·m, NIST SP 811, B.8), and 28 the nearest mark of half a
/// pound-foot.
#[test]
fn the_drawing_of_the_stages_says_the_figures_that_are_set() {
    let front = "tools:\n  click: {name: Click torque wrench, kind: torque-wrench, range: 5–25 N·m, scale: N·m, step: 0.5 N·m}\n  foot: {name: Long torque wrench, kind: torque-wrench, range: 25–80 lbf·ft, scale: lbf·ft, step: 0.5 lbf·ft}\nfasteners:\n  head-bolt: {name: Head bolt, count: 4, thread: M10x1.25, class: 10.9, threads: oiled, torque: [20 N·m, 38 N·m], layout: {circle: 4}}\n";
    let (page, _) = published(front, "## Tighten {#tighten}\n\n[Tighten the head](torque:head-bolt).");
    let drawn = texts(&page, "Head bolt: ");
    let page = page.replace('\u{a0}', " ");
    assert!(page.contains("(28 lbf·ft)"), "the act's own line");
    assert!(!page.contains("28.0 lbf·ft"), "{drawn:?}");
    assert_eq!(page.matches("to 38 N·m (28 lbf·ft)").count(), 2, "drawn and described");
}

/// A cover with a bead and a fastener under it: the STOP line stands before the bead, and names the lines of the work.
#[test]
fn a_stop_line_stands_before_the_bead_of_a_cover_that_hides_work() {
    let front = "materials:\n  paste: {name: Joint paste, kind: sealant}\nfasteners:\n  nut: {name: Hub nut, count: 1, thread: M12x1.25, class: 8, threads: dry, torque: 60 N·m}\n  lid-bolt: {name: Lid bolt, count: 4, holds: [lid], thread: M6x1.0, class: 8.8, threads: dry, torque: 9 N·m}\nparts:\n  case: {name: Case, kind: housing, count: 1}\n  lid: {name: Lid, kind: cover, count: 1, covers: [nut], reuse: yes}\nbeads:\n  lid-bead: {name: Bead of the lid, of: paste, between: [case, lid], diameter: 2 mm, path: 300 mm}\n";
    let body = "## Tighten {#tighten}\n\n[Tighten the hub nut](torque:nut). [Paint a line](mark:nut).\n\n## Close {#close}\n\n[Wipe the lid clean](clean:lid). [Lay the bead](apply:lid-bead). [Lower the lid on](fit:lid) and [tighten the lid](torque:lid-bolt).";
    let (_, sheet) = published(front, body);
    let stops: Vec<usize> = sheet.match_indices("mark-close").map(|(at, _)| at).collect();
    let [stop] = stops.as_slice() else { panic!("one STOP line, not {}", stops.len()) };
    let at = |words: &str| sheet.find(words).unwrap_or_else(|| panic!("no {words}"));
    assert!(at("Wipe the lid clean") < *stop && *stop < at("Lay the bead"));
    let said = &sheet[*stop..at("Lay the bead")];
    assert!(said.contains("Before it is closed: Lid") && said.contains("Hub nut (lines 1.1, 1.2)"), "{said}");
}

#[test]
fn a_group_comes_loose_in_the_reverse_of_its_order() {
    let front = "fasteners:\n  cap-bolt: {name: Cap bolt, count: 6, thread: M8x1.25, class: 8.8, threads: dry, torque: 24 N·m, layout: {circle: 6}}\n  pin: {name: Pin, count: 2, thread: M6x1.0, class: 8.8, threads: dry, torque: 9 N·m}\n";
    let (page, sheet) = published(front, "## Open {#open}\n\n[Slacken the cap](loosen:cap-bolt), then [take the bolts out](remove:cap-bolt). [Take the pins out](remove:pin).");
    // The order of tightening is 1-4-2-5-3-6. What is loose has no order any more, two pins have none at all.
    assert_eq!(page.matches("loosen in this order: <bdi>6-3-5-2-4-1</bdi>").count(), 1);
    // A sheet has no room for the drawing, and leads to it.
    assert_eq!(sheet.matches("order <bdi>6-3-5-2-4-1</bdi>, as on the page").count(), 1);
    let drawn = texts(&page, "Cap bolt: order of loosening");
    // By position: its turn, then its number. The last that is tightened comes loose first.
    let numbers: Vec<&str> = drawn.iter().map(String::as_str).take(12).collect();
    assert_eq!(numbers, ["6", "1", "4", "2", "2", "3", "5", "4", "3", "5", "1", "6"]);
    assert_eq!(page.matches(".title\">Cap bolt: order of loosening").count(), 1, "none at what is loose already");
    assert!(!sheet.contains("order of loosening"));
    assert!(sheet.contains("6 pieces") && sheet.contains("2 pieces") && !sheet.contains("2 ×"), "on paper no number stands alone");
    let (page, _) = published(front, "## Open {#open}\n\n[Take the bolts out](remove:cap-bolt).");
    assert!(page.contains("loosen in this order: <bdi>6-3-5-2-4-1</bdi>"), "taken out at once");
    // Of six bolts three: an order of all tells nobody which.
    let (page, sheet) = published(front, "## Open {#open}\n\n[Take three bolts out, every other one](remove:cap-bolt*3).");
    assert!([page, sheet].iter().all(|shown| !shown.contains("order of loosening") && !shown.contains("6-3-5-2-4-1")));
}

#[test]
fn a_left_hand_thread_is_drawn_with_its_arrow_where_it_is_turned() {
    let front = "fasteners:\n  nut: {name: Pipe nut, count: 1, thread: M14x1.5 left-hand, class: 8, threads: dry, torque: 40 N·m}\n";
    let body = "## Open {#open}\n\n[Turn the left-hand nut off clockwise](remove:nut).\n\n## Close {#close}\n\n[Run the left-hand nut on](start:nut) and [tighten the left-hand nut](torque:nut).";
    let (page, sheet) = published(front, body);
    for shown in [&page, &sheet] {
        assert_eq!(texts(shown, "Pipe nut: left-hand thread").join(" "), "left-hand: clockwise loosens");
        let closing = &shown[shown.find("Run the left-hand nut on").unwrap()..];
        assert_eq!(texts(closing, "Pipe nut: left-hand thread").join(" "), "left-hand: anticlockwise tightens");
        assert_eq!(shown.matches(".title\">Pipe nut: left-hand thread").count(), 2, "once a step");
        assert!(shown.contains("M14 × 1.5</bdi>, left-hand thread, class 8"), "the size says it in words");
    }
    let (page, _) = published("fasteners:\n  nut: {name: Pipe nut, count: 1, thread: M14x1.5, class: 8, threads: dry, torque: 40 N·m}\n", "## Close {#close}\n\n[Tighten the nut](torque:nut).");
    assert!(!page.contains("left-hand"));
}

#[test]
fn all_places_to_stop_stand_at_the_head_of_long_work() {
    let (_, sheet) = published("", "## One {#one time=50min}\n\n[Safe to stop: dry](stop:)\n\n## Two {#two time=30min}\n\n[Safe to stop: closed](stop:)\n\n## Three {#three time=75min}\n\nGo on.");
    assert!(sheet.replace('\u{a0}', " ").contains("Places to stop: after step 1 (50 min), after step 2 (30 min), then 1 h 15 min to the end."), "{sheet}");
    let (_, sheet) = published("", "## One {#one time=50min}\n\n[Safe to stop: dry](stop:)\n\n## Two {#two}\n\n[Safe to stop: closed](stop:)");
    assert!(!sheet.contains("Places to stop"), "half a plan is none");
}

#[test]
fn a_wrench_with_a_crowfoot_shows_its_setting() {
    let front = "tools:\n  wrench: {name: Click wrench, kind: torque-wrench, range: 10–100 N·m, scale: N·m, length: 300 mm}\nfasteners:\n  nut: {name: Pipe nut, count: 1, thread: M14x1.5, class: 8, threads: dry, torque: 40 N·m, tool: wrench, adapter: {length: 45 mm, angle: 0°}}\n";
    let (page, sheet) = published(front, "## Tighten {#tighten}\n\n[Tighten the pipe nut](torque:nut).");
    // FAA AC 43.13-1B, chapter 7: 40 × 300 ÷ (300 + 45) = 34.78.
    for shown in [&page, &sheet] {
        assert!(shown.replace('\u{a0}', " ").contains("set 34.8 N·m"));
        assert!(texts(shown, "Pipe nut: wrench with adapter").contains(&"set 34.8 N·m for 40 N·m".to_owned()));
    }
}

#[test]
fn stages_fits_and_marks_are_drawn() {
    let front = "fasteners:
  head-bolt: {name: Head bolt, count: 6, thread: M10x1.25, class: 10.9, threads: oiled, torque: [20 N·m, 38 N·m, 90°], order: [1, 4, 2, 5, 3, 6]}
parts:
  carrier: {name: Carrier, kind: housing, count: 1}
bearings:
  ball: {name: Carrier bearing, size: 30x62x16 mm, in: carrier, fit: {bore: 62 mm, interference: max 0.040 mm, housing: aluminium}}
heats:
  warm: {name: Heat for the carrier, of: carrier, from: 20 °C, to: 85 ± 5 °C, cool: ≥ 30 min}
aligns:
  timing: {name: Stator position, marks: [stator line, case line], arc: 2 mm, diameter: 98 mm, sense: clockwise, viewed_from: flywheel end}
  cam: {name: Cam position, marks: [cam line, case line], offset: 6°, viewed_from: rotor end}
";
    let body = "## Work {#work}\n\n[Warm the carrier](heat:warm), [fit the bearing](fit:ball), [tighten](torque:head-bolt), [set the lines](align:timing) and [the cam](align:cam).";
    let (page, _) = published(front, body);
    let stages = texts(&page, "Head bolt: stages");
    assert!(["20 N·m", "38 N·m", "90°"].iter().all(|value| stages.contains(&(*value).to_owned())), "{stages:?}");
    assert!(!page.contains("Head bolt: tightening order"), "where they sit is not known");
    // 62 mm × 23·10⁻⁶/K × 60 K − 0.040 mm = 0.0456 mm, rounded down.
    let fit = texts(&page, "Carrier bearing: fit and temperature").join(" ");
    assert!(fit.contains("tight by max 0.040 mm") && fit.contains("gap at least 0.045 mm") && fit.contains("Ø 62 mm"), "{fit}");
    let marks = texts(&page, "Stator position: marks");
    assert!(["2.34°", "2 mm of arc", "Ø 98 mm", "stator line", "case line", "seen from flywheel end"].iter().all(|text| marks.contains(&(*text).to_owned())), "{marks:?}");
    assert!(page.contains("stator line clockwise of case line"));
    let untold = texts(&page, "Cam position: marks").join(" ");
    assert!(untold.contains("To which side, no value tells"), "{untold}");
}

#[test]
fn what_lies_at_an_edge_of_a_layout_stands_in_its_drawing_and_in_the_words_for_it() {
    let front = "fasteners:\n  case-bolt: {name: Case bolt, count: 4, thread: M8x1.25, class: 8.8, role: clamp, torque: 25 N·m, layout: {rows: [2, 2], left: flywheel end, bottom: sump}}\n";
    let (page, sheet) = published(front, "## Tighten {#t}\n\n[Tighten the case bolts](torque:case-bolt).");
    for text in [&page, &sheet] {
        let drawn = texts(text, "Case bolt: tightening order");
        assert!(drawn.contains(&"flywheel end".to_owned()) && drawn.contains(&"sump".to_owned()), "{drawn:?}");
        assert!(text.contains("On the left: flywheel end.") && text.contains("At the bottom: sump."), "who hears the drawing is told it");
    }
}

#[test]
fn a_part_is_drawn_once_on_its_page_and_wherever_it_goes_in_on_its_sheet() {
    let front = "parts:\n  pinion: {name: Pinion, kind: gear, count: 1, faces: {back: shim, nose: nut}}\n  shim: {name: Shim, kind: shim, count: 1}\n  nut: {name: Nut, kind: other, count: 1}\n";
    let body = "## Try {#try}\n\n[Try the pinion](dry-fit:pinion). [Take the pinion off](remove:pinion).\n\n## Fit {#fit}\n\n[Fit the pinion](fit:pinion).";
    let (page, sheet) = published(front, body);
    let count = |text: &str| text.matches(".title\">Pinion: which way round").count();
    assert_eq!((count(&page), count(&sheet)), (1, 2));
    assert!(page.find("Pinion: which way round").unwrap() < page.find("id=\"fit\"").unwrap(), "where it goes in first");
}

#[test]
fn what_lies_under_another_is_drawn_with_that_above_it() {
    let front = "parts:\n  head: {name: Head, kind: cover, count: 1}\n  block: {name: Block, kind: housing, count: 1}\n  gasket: {name: Gasket, kind: gasket, under: head, count: 1, faces: {plain: block, mark: head}}\n";
    let (page, _) = published(front, "## Lay {#lay}\n\n[Lay the gasket on](fit:gasket).");
    let start = page.find(".title\">Gasket").unwrap();
    let drawing = &page[start..start + page[start..].find("</svg>").unwrap()];
    let height = |words: &str| -> f64 {
        let text = drawing.split("<text ").find(|text| text.contains(&format!(">{words}<"))).unwrap_or_else(|| panic!("{words}: {drawing}"));
        text.split(" y=\"").nth(1).or_else(|| text.split("y=\"").nth(1)).unwrap().split('"').next().unwrap().parse().unwrap()
    };
    assert!(height("to Head") < height("mark") && height("mark") < height("plain") && height("plain") < height("to Block"), "{drawing}");
}

/// A bolt board for the variants that have the bolt: each shows its own places, lengths and edges, whatever cases stand before it.
#[test]
fn a_board_shows_the_values_of_its_own_variant() {
    let machine = "name: Tarn\nvariants:\n  shaft: {S: short, L: long}\n  start: {R: recoil, E: electric}\n";
    let places = "[[0, 0], [40, 0], [0, 40], [40, 40]]";
    let with = |layout: &str| {
        let bolt = format!("fasteners:\n  bolt: {{name: Ring bolt, for: {{start: E}}, count: 4, thread: M6x1.0, length: {{S: 16 mm, L: 14 mm}}, class: 8.8, threads: dry, torque: 9 N·m, layout: {layout}}}\n");
        let [board] = pages(machine, &bolt, "## Tighten {#tighten for=start:E}\n\n[Tighten the ring](torque:bolt).", ["trial-board-bolt.html"]);
        board.replace('\u{a0}', " ")
    };
    let not_at_hand = format!("{{for: {{start: R}}, is: {{at: {places}, top: rope side}}}}");
    let long = format!("{{for: {{start: E, shaft: L}}, is: {{at: {places}, top: starter side}}}}");
    let short = format!("{{for: {{start: E, shaft: S}}, is: {{at: {places}, top: mirror side}}}}");
    for order in [[&not_at_hand, &long, &short], [&long, &not_at_hand, &short], [&short, &long, &not_at_hand]] {
        let board = with(&format!("[{}]", order.map(String::as_str).join(", ")));
        assert!(!board.contains("rope side"), "{board}");
        let heads: Vec<&str> = board.split("<section class=\"board-frame\"").skip(1).filter_map(|section| section.split("</section>").next()).collect();
        assert_eq!(heads.len(), 2, "{board}");
        for (head, length, edge) in [("(L)", "14 mm", "starter side"), ("(S)", "16 mm", "mirror side")] {
            let shown = heads.iter().find(|shown| shown.contains(head)).unwrap();
            assert!(shown.contains(length) && shown.contains(edge), "{head}: {shown}");
            for (_, other, edge) in [("(L)", "14 mm", "starter side"), ("(S)", "16 mm", "mirror side")].iter().filter(|(of, ..)| *of != head) {
                assert!(!shown.contains(other) && !shown.contains(edge), "{head}: {shown}");
            }
        }
    }
}
