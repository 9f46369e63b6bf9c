//! Drawings on pages and sheets: where their act stands, once a step, with words for those who can't see them, and
//! turned as the values say.

#![expect(clippy::unwrap_used, clippy::disallowed_methods, reason = "a test may fail loudly and looks at real folders")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

const MANUAL: &str = "title: Sheds\npublisher: The shed\nlanguage: en\n";
const SHOP: &str = "materials:\n  gear-oil: {name: Gear oil, kind: oil}\n  grease: {name: Grease, kind: grease}\n";
const MACHINE: &str = "name: Ash 4\nkind: test bench\nvariants: {drive: {M: by hand, E: by motor}}\n";

fn procedure(faces: &str) -> String {
    format!(
        "---\ntitle: Drum\nseals:\n  drum-seal: {{name: Drum seal, type: rotary-lip, size: 30x42x7 mm, faces: {faces}}}\n\
         shafts:\n  drum: [gear-oil, drum-seal, air]\n\
         parts:\n  hub: {{name: Hub, kind: gear, faces: {{long-boss: drum-seal}}}}\n  cap: {{name: Cap, kind: cover, faces: either}}\n\
         \u{20} friction: {{name: Friction plate, kind: plate, count: {{M: 2, E: 3}}, thickness: 2 mm}}\n\
         \u{20} steel: {{name: Steel plate, kind: plate, count: {{M: 1, E: 2}}, thickness: 2 mm}}\n\
         stacks:\n  pack: {{name: Pack, of: [friction, steel], begin: friction, end: friction}}\n---\n\n\
         ## Fit the seal {{#seal}}\n\n[Seat the seal](fit:drum-seal). [Take it out](remove:drum-seal). [Seat the seal](fit:drum-seal).\n\n\
         ## Fit the hub {{#hub}}\n\n[Slide the hub on](fit:hub) and [fit the cap](fit:cap).\n\n\
         ## Fit the pack {{#pack}}\n\n| Work |\n| --- |\n| [stack the plates](fit:pack) |\n"
    )
}

/// The pages of a manual with that seal: the procedure's and one of its sheets.
fn bound(faces: &str) -> (String, String) {
    let folder = TempDir::new().unwrap();
    let manual = folder.path().join("manual");
    fs::create_dir_all(manual.join("ash-4")).unwrap();
    let files = [("manual.yaml", MANUAL.to_owned()), ("shop.yaml", SHOP.to_owned()), ("ash-4/machine.yaml", MACHINE.to_owned()), ("ash-4/drum.md", procedure(faces))];
    for (path, text) in files {
        fs::write(manual.join(path), text).unwrap();
    }
    let into = folder.path().join("site");
    let done = Command::new(env!("CARGO_BIN_EXE_benchleaf"))
        .args(["bind", "--proof-copy", manual.to_str().unwrap(), "--into", into.to_str().unwrap()])
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
        .output()
        .unwrap();
    assert!(into.is_dir(), "{}", String::from_utf8_lossy(&done.stderr));
    let read = |path: &str| fs::read_to_string(into.join(path)).unwrap();
    (read("ash-4/drum.html"), read("ash-4/drum-sheet-E.html"))
}

/// The drawings of a page whose title has these words, each with all its markup.
fn drawings<'p>(page: &'p str, title: &str) -> Vec<&'p str> {
    page.split("<svg class=\"line-drawing\"").skip(1).filter_map(|rest| rest.split_once("</svg>")).map(|(svg, _)| svg).filter(|svg| svg.contains(title)).collect()
}

fn number(text: &str, key: &str) -> f64 {
    text.split_once(key).and_then(|(_, rest)| rest.split('"').next()).unwrap().parse().unwrap()
}

/// Where the spring is, and where the two media's names are: x in millimetres.
fn places(drawing: &str) -> (Option<f64>, f64, f64) {
    // A garter spring is the one inked circle drawn with a wide line.
    let spring = drawing.lines().find(|line| line.starts_with("<circle") && line.contains("stroke-width=\"0.35\" fill=\"currentColor\""));
    let named = |name: &str| number(drawing.lines().find(|line| line.starts_with("<text") && line.contains(name)).unwrap(), " x=\"");
    (spring.map(|line| number(line, " cx=\"")), named(">Gear oil<"), named(">air<"))
}

#[test]
fn the_spring_is_drawn_to_the_medium_that_the_values_name() {
    // The room's names stand on both sides of the seal in the middle; its lip and spring are right of its own left edge.
    for (faces, near_oil) in [("{spring: gear-oil, back: air}", true), ("{spring: air, back: gear-oil}", false), ("{back: air}", true)] {
        let (page, sheet) = bound(faces);
        for text in [&page, &sheet] {
            let drawn = drawings(text, "Drum in section");
            assert_eq!(drawn.len(), 1, "{faces}: once a step");
            let (spring, oil, air) = places(drawn[0]);
            let lines: Vec<f64> = drawn[0].lines().filter(|line| line.starts_with("<circle")).map(|line| number(line, " cx=\"")).collect();
            // The balloon's leader ends in the seal's back: the spring is on the other side of it.
            let back = lines.iter().copied().find(|x| Some(*x) != spring).unwrap();
            assert!(oil < spring.unwrap() && spring.unwrap() < air, "{faces}");
            assert_eq!(spring.unwrap() < back, near_oil, "{faces}");
        }
    }
    for unknown in ["either", "{spring: water}", "{spring: gear-oil, back: gear-oil}"] {
        let (page, _) = bound(unknown);
        assert_eq!(places(drawings(&page, "Drum in section")[0]).0, None, "{unknown}: no side is made up");
    }
}

#[test]
fn each_drawing_stands_at_its_act_once_and_says_what_it_shows() {
    let (page, sheet) = bound("{spring: gear-oil, back: air}");
    let at = |text: &str, what: &str| text.find(what).unwrap();
    assert!(at(&page, "id=\"seal.1\"") < at(&page, "Drum in section") && at(&page, "Drum in section") < at(&page, "id=\"hub\""));
    assert!(at(&page, "id=\"hub.1\"") < at(&page, "Hub: which way round") && at(&page, "Hub: which way round") < at(&page, "id=\"pack\""));
    assert_eq!(drawings(&page, "Cap").len(), 0, "either way round is nothing to draw");
    let said = drawings(&page, "Drum in section")[0];
    assert!(said.contains("role=\"img\"") && said.contains("from left to right: Gear oil; Drum seal: spring side to Gear oil, back to air; air."), "{said}");
    // The page shows the pack for each variant and says which; the sheet shows its own.
    assert_eq!((drawings(&page, "plates in their order").len(), drawings(&sheet, "plates in their order").len()), (2, 1));
    assert!(page.contains("plates in their order <strong class=\"only\">only M</strong>"));
    assert!(drawings(&sheet, "plates in their order")[0].contains("5 plates on each other"));
    for text in [&page, &sheet] {
        let ids: Vec<&str> = text.match_indices(" id=\"").filter_map(|(at, key)| text[at + key.len()..].split('"').next()).collect();
        assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "an id is there once");
        for names in text.match_indices("aria-labelledby=\"").filter_map(|(at, key)| text[at + key.len()..].split('"').next()) {
            assert!(names.split(' ').all(|name| ids.contains(&name)), "{names}");
        }
    }
}
