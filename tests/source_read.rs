//! Reads whole folders from the disk: a small manual, and everything hostile or broken that a folder can hold.

#![expect(clippy::disallowed_methods, clippy::expect_used, reason = "a test makes its own folders")]

use benchleaf::finding::{FileTable, Finding};
use benchleaf::source::{Block, Inline, RULES, Sources, Value, read, read_picture, read_theme, resolve_picture};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const MANUAL: &str = "title: Little manual\npublisher: Nobody (invented)\nlanguage: en\n";
const SHOP: &str = "tools:\n  holder: {name: Shaft holder, kind: holding-tool}\n";
const MACHINE: &str =
    "name: Motor\nfasteners:\n  nut:\n    name: Nut\n    thread: M12x1.25\n    torque: {early: 70 N·m, late: 78 N·m}\n";
const PROCEDURE: &str = "---\ntitle: Nut\nrevision: 1\n---\n\nFirst words.\n\n## Torque the nut {#nut time=5min}\n\n> **WARNING** Hot.\n\n[Torque it](torque:nut) to the end.\n\n![The nut](pictures/nut.svg \"The nut\")\n";
const DRAWING: &str =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" viewBox=\"0 0 40 30\"><path d=\"M0 0\"/></svg>";

struct Manual {
    folder: TempDir,
}

impl Manual {
    fn new() -> Self {
        let manual = Self { folder: TempDir::new().expect("a folder") };
        manual
            .with("manual.yaml", MANUAL)
            .with("shop.yaml", SHOP)
            .with("motor/machine.yaml", MACHINE)
            .with("motor/nut.md", PROCEDURE)
            .with("motor/pictures/nut.svg", DRAWING)
    }

    fn with(self, name: &str, content: impl AsRef<[u8]>) -> Self {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("folders");
        fs::write(path, content).expect("a file");
        self
    }

    fn path(&self, name: &str) -> std::path::PathBuf {
        self.folder.path().join(name)
    }

    fn read(&self) -> (Sources, Vec<Finding>) {
        read(self.folder.path()).expect("a manual")
    }

    /// The findings as `rule file line:column`, sorted.
    fn report(&self) -> Vec<String> {
        let (sources, findings) = self.read();
        let mut lines: Vec<String> = findings.iter().map(|finding| line(&sources.files, finding)).collect();
        lines.sort();
        lines
    }
}

fn line(files: &FileTable, finding: &Finding) -> String {
    let place = finding.place();
    let at = files.position(place.file, place.start);
    assert!(RULES.iter().any(|rule| rule.name == finding.rule().name), "{}", finding.rule().name);
    assert!(
        !finding.message().is_empty() && !finding.label_text().is_empty() && !finding.fix_text().is_empty(),
        "{finding:#?}"
    );
    format!("{} {} {}:{}", finding.rule().name, files.name(place.file), at.line, at.column)
}

#[test]
fn a_sound_manual_is_read_without_a_word() {
    let manual = Manual::new();
    let (sources, findings) = manual.read();
    assert!(findings.is_empty(), "{findings:#?}");
    assert_eq!(sources.manual.root.get("title").and_then(|n| n.text()), Some("Little manual"));
    assert!(sources.shop.is_some());
    let [motor] = sources.machines.as_slice() else { panic!("{:#?}", sources.machines) };
    assert_eq!(motor.id, "motor");
    let torque =
        motor.head.root.get("fasteners").and_then(|n| n.get("nut")).and_then(|n| n.get("torque")).expect("a torque");
    let late = torque.get("late").expect("a value");
    assert_eq!(late.text(), Some("78 N·m"));
    assert_eq!(&MACHINE[late.place.start..late.place.end], "78 N·m");
    let [nut] = motor.procedures.as_slice() else { panic!("{:#?}", motor.procedures) };
    assert_eq!((nut.id.as_str(), sources.files.name(nut.file)), ("nut", "motor/nut.md"));
    let [step] = nut.body.steps.as_slice() else { panic!("{:#?}", nut.body) };
    assert_eq!((step.title.as_str(), step.acts.len(), step.blocks.len()), ("Torque the nut", 1, 3));
    assert_eq!(&PROCEDURE[step.acts[0].place.start..step.acts[0].place.end], "[Torque it](torque:nut)");
    assert_eq!(&PROCEDURE[step.acts[0].target_place.start..step.acts[0].target_place.end], "torque:nut");
    assert!(matches!(step.blocks.as_slice(), [Block::Notice(_), Block::Paragraph(_), Block::Paragraph(_)]));
    let Block::Paragraph(inlines) = &step.blocks[2] else { panic!() };
    let [Inline::Picture(picture)] = inlines.as_slice() else { panic!("{inlines:#?}") };
    let path = resolve_picture(&motor.id, &picture.path).expect("a path");
    let facts = sources.pictures.get(&path).expect("the picture");
    // 40 mm at 96 pixels to the inch of 25.4 mm (CSS Values and Units 4): 151.18.
    assert_eq!((facts.width, facts.height), (151, 113));
    assert_eq!(read_picture(&sources, &path).expect("bytes"), DRAWING.as_bytes());
    assert!(read_picture(&sources, "motor/machine.yaml").is_err());
    assert!(read_picture(&sources, "../etc/passwd").is_err());
}

#[test]
fn the_same_folder_reads_the_same() {
    let manual = Manual::new().with("other/machine.yaml", "a: [").with("other/z.md", "x").with("other/b.md", "y");
    let (first, second) = (format!("{:?}", manual.read()), format!("{:?}", manual.read()));
    assert_eq!(first, second);
    let ids: Vec<String> = manual.read().0.machines[1].procedures.iter().map(|p| p.id.clone()).collect();
    assert_eq!(ids, ["b", "z"]);
}

#[test]
fn what_is_no_manual() {
    let empty = TempDir::new().expect("a folder");
    let told = |path: &Path| read(path).expect_err("no manual").to_string();
    assert!(told(empty.path()).contains("no manual.yaml"));
    assert!(told(&empty.path().join("nowhere")).contains("no such folder"));
    fs::write(empty.path().join("manual.yml"), MANUAL).expect("a file");
    assert!(told(empty.path()).contains("rename manual.yml"));
    assert!(told(&empty.path().join("manual.yml")).contains("not a folder"));
    fs::create_dir(empty.path().join("manual.yaml")).expect("a folder");
    assert!(told(empty.path()).contains("no manual.yaml"));
}

#[test]
fn what_is_passed_over() {
    let manual = Manual::new()
        .with("README.md", "# About")
        .with("LICENSE", "x")
        .with(".git/config", "x")
        .with(".hidden.md", "x")
        .with("motor/nut.md~", "x")
        .with("motor/#nut.md#", "x")
        .with("motor/nut.md.bak", "x")
        .with("motor/.nut.md.swp", "x")
        .with("motor/builds/one.json", "{}")
        .with("motor/pictures/Thumbs.db", "x");
    assert_eq!(manual.report(), Vec::<String>::new());
    let themed = Manual::new()
        .with("manual.yaml", format!("{MANUAL}theme: look\n"))
        .with("look/page.html", "x")
        .with("look/notes.md", "x");
    assert_eq!(themed.report(), Vec::<String>::new());
    let theme = read_theme(themed.folder.path(), "look").expect("a theme");
    assert_eq!(theme.keys().collect::<Vec<_>>(), ["notes.md", "page.html"]);
}

#[test]
fn what_stands_in_the_wrong_place() {
    let manual = Manual::new()
        .with("stray.md", PROCEDURE)
        .with("motor/deep/two.md", PROCEDURE)
        .with("motor/notes.txt", "x")
        .with("motor/pictures/notes.txt", "x")
        .with("motor/machine.yml", MACHINE)
        .with("motor/Upper.MD", PROCEDURE)
        .with("motor/shop.yaml", SHOP);
    assert_eq!(
        manual.report(),
        [
            "file-out-of-place motor/Upper.MD 1:1",
            "file-out-of-place motor/deep/two.md 1:1",
            "file-out-of-place motor/machine.yml 1:1",
            "file-out-of-place motor/notes.txt 1:1",
            "file-out-of-place motor/pictures/notes.txt 1:1",
            "file-out-of-place motor/shop.yaml 1:1",
            "file-out-of-place stray.md 1:1",
        ]
    );
}

#[test]
fn names_that_are_no_ids() {
    let manual = Manual::new()
        .with("motor/Foo Bar.md", PROCEDURE)
        .with("Big Motor/machine.yaml", MACHINE)
        .with("motor/pictures/my photo.svg", DRAWING);
    assert_eq!(
        manual.report(),
        [
            "name-not-an-id Big Motor 1:1",
            "name-not-an-id motor/Foo Bar.md 1:1",
            "name-not-an-id motor/pictures/my photo.svg 1:1"
        ]
    );
    let (_, findings) = manual.read();
    assert!(findings.iter().any(|f| f.fix_text().contains("foo-bar.md")), "{findings:#?}");
}

#[test]
fn a_machine_without_a_head_is_a_hole() {
    let manual = Manual::new().with("other/x.md", PROCEDURE);
    assert_eq!(manual.report(), ["machine-head-missing other/machine.yaml 1:1"]);
    let (sources, _) = manual.read();
    assert_eq!(sources.machines[1].head.root.value, Value::Hole);
    assert_eq!(sources.machines[1].procedures.len(), 1);
}

#[test]
fn front_matter() {
    let cases = [
        ("", "front-matter-missing motor/x.md 1:1"),
        ("## S {#s}\n", "front-matter-missing motor/x.md 1:1"),
        ("\n\n---\ntitle: x\n---\n", "front-matter-missing motor/x.md 3:1"),
        ("---\ntitle: x\n\n## S {#s}\n", "front-matter-unclosed motor/x.md 1:1"),
        ("---\ntitle: x: y\n---\n", "yaml-unreadable motor/x.md 2:9"),
        ("---\r\ntitle: a\r\nx: {t: 22,5 N·m}\r\n---\r\n", "yaml-trap motor/x.md 3:11"),
        ("\u{feff}---\ntitle: a\nx: @y\n---\n", "yaml-unreadable motor/x.md 3:4"),
        ("---\ntitle: a\n---\n\n## S\n", "step-id-missing motor/x.md 5:1"),
        ("\u{feff}---\r\ntitle: a\r\n---\r\n\r\nä [x](torque: y)\r\n", "address-with-space motor/x.md 5:7"),
    ];
    for (text, expected) in cases {
        assert_eq!(Manual::new().with("motor/x.md", text).report(), [expected], "{text:?}");
    }
}

#[test]
fn files_that_are_too_large() {
    let manual = Manual::new()
        .with("motor/ten-megabytes.md", format!("---\n{}---\n", "a: b\n".repeat(2_000_000)))
        .with("motor/front.md", format!("---\ntext: {}\n---\n\n## S {{#s}}\n", "x".repeat(600 * 1024)))
        .with("shop.yaml", "#".repeat(3 * 1024 * 1024));
    assert_eq!(
        manual.report(),
        [
            "file-too-large motor/front.md 1:1",
            "file-too-large motor/ten-megabytes.md 1:1",
            "file-too-large shop.yaml 1:1"
        ]
    );
    let (sources, _) = manual.read();
    assert_eq!(sources.shop.map(|shop| shop.root.value), Some(Value::Hole));
    assert!(sources.files.iter().all(|(_, file)| file.text.len() < 1024 * 1024));
    let front = &sources.machines[0].procedures[0];
    assert_eq!((front.id.as_str(), &front.head.value, front.body.steps.len()), ("front", &Value::Hole, 1));
}

#[test]
fn files_that_are_not_utf8() {
    let manual = Manual::new()
        .with("motor/machine.yaml", b"name: Motor\ntorque: 24 N\xb7m\n")
        .with("shop.yaml", b"\xff\xfet\0o\0")
        .with("motor/x.md", b"\0\x80");
    assert_eq!(
        manual.report(),
        ["text-not-utf8 motor/machine.yaml 2:13", "text-not-utf8 motor/x.md 1:2", "text-not-utf8 shop.yaml 1:1"]
    );
    let (_, findings) = manual.read();
    let figures: Vec<&String> = findings.iter().flat_map(Finding::figure_lines).collect();
    assert!(figures.iter().any(|line| line.contains("byte 24 (line 2, column 13) is B7")), "{figures:?}");
    assert!(figures.iter().any(|line| line.contains("‘·’")), "{figures:?}");
    assert!(figures.iter().any(|line| line.contains("UTF-16")), "{figures:?}");
}

#[test]
fn empty_files() {
    let manual = Manual::new()
        .with("manual.yaml", "")
        .with("shop.yaml", "\u{feff}")
        .with("motor/machine.yaml", "# nothing\n")
        .with("motor/nut.md", "")
        .with("motor/pictures/a.jpg", "");
    assert_eq!(
        manual.report(),
        ["front-matter-missing motor/nut.md 1:1", "picture-unreadable motor/pictures/a.jpg 1:1"]
    );
    let (sources, _) = manual.read();
    assert_eq!(sources.manual.root.value, Value::Map(Vec::new()));
    assert!(sources.unusable_pictures.contains("motor/pictures/a.jpg"));
    assert!(!sources.pictures.contains_key("motor/pictures/a.jpg"));
}

#[test]
fn hostile_text() {
    let mut bomb = "a0: &a0 [x, x]\n".to_owned();
    for n in 1..100 {
        bomb += &format!("a{n}: &a{n} [{}]\n", vec![format!("*a{}", n - 1); 9].join(", "));
    }
    let blocks: String = (0..1_400).map(|n| " ".repeat(n) + "a:\n").collect();
    let manual = Manual::new()
        .with("shop.yaml", &bomb)
        .with("motor/machine.yaml", format!("name: Motor\nx: {}\ny: z\n", "[".repeat(10_000)))
        .with("motor/a.md", format!("---\n{blocks}---\n{}\n", ">".repeat(10_000)))
        .with(
            "motor/b.md",
            format!("---\na: b\n---\n{} {} {}\n", "[".repeat(10_000), "*a ".repeat(10_000), "- ".repeat(10_000)),
        )
        .with("motor/c.md", "---\na: b\n---\n".to_owned() + &"* ".repeat(10_000));
    let report = manual.report();
    for file in ["motor/machine.yaml", "motor/a.md"] {
        assert!(report.iter().any(|line| line.starts_with(&format!("nesting-too-deep {file}"))), "{report:#?}");
    }
    assert!(report.iter().any(|line| line.starts_with("too-many-faults shop.yaml")), "{report:#?}");
    let (sources, _) = manual.read();
    assert_eq!(sources.machines[0].head.root.get("name").and_then(|n| n.text()), Some("Motor"));
    assert_eq!(sources.machines[0].head.root.get("y").and_then(|n| n.text()), Some("z"));
}

#[test]
fn pictures() {
    let mut png = std::io::Cursor::new(Vec::new());
    image::RgbImage::new(4, 3).write_to(&mut png, image::ImageFormat::Png).expect("an encoder");
    let png = png.into_inner();
    let manual = Manual::new()
        .with("motor/pictures/good.png", &png)
        .with("motor/pictures/misnamed.jpg", &png)
        .with("motor/pictures/cut.png", &png[..png.len() - 5])
        .with("motor/pictures/text.png", "hello")
        .with("motor/pictures/moving.gif", "GIF89a")
        .with("motor/pictures/script.svg", "<svg viewBox='0 0 1 1'>\n<script>x</script></svg>")
        .with("shared/pictures/CAMERA.PNG", &png);
    assert_eq!(
        manual.report(),
        [
            "picture-misnamed motor/pictures/misnamed.jpg 1:1",
            "picture-refused motor/pictures/script.svg 2:1",
            "picture-unreadable motor/pictures/cut.png 1:1",
            "picture-unreadable motor/pictures/moving.gif 1:1",
            "picture-unreadable motor/pictures/text.png 1:1",
        ]
    );
    let (sources, _) = manual.read();
    let good = &sources.pictures["motor/pictures/good.png"];
    assert_eq!((good.width, good.height, good.key.len()), (4, 3, 16));
    assert_eq!(good.key, sources.pictures["shared/pictures/CAMERA.PNG"].key);
    assert_eq!(sources.machines.len(), 1);
}

#[cfg(unix)]
mod links {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};

    #[test]
    fn links_are_followed_within_the_folder_only() {
        let outside = TempDir::new().expect("a folder");
        fs::write(outside.path().join("secret.md"), PROCEDURE).expect("a file");
        fs::write(outside.path().join("secret.svg"), DRAWING).expect("a file");
        let manual = Manual::new();
        let link = |target: &Path, name: &str| symlink(target, manual.path(name)).expect("a link");
        link(&outside.path().join("secret.md"), "motor/out.md");
        link(outside.path(), "away");
        link(&outside.path().join("secret.svg"), "motor/pictures/out.svg");
        link(Path::new("loop-b"), "loop-a");
        link(Path::new("loop-a"), "loop-b");
        link(Path::new("."), "motor/self");
        link(Path::new("../motor"), "motor/pictures/up");
        link(Path::new("nothing"), "motor/broken.md");
        link(Path::new("nut.md"), "motor/same.md");
        link(Path::new("motor/pictures"), "side");
        assert_eq!(
            manual.report(),
            [
                "symbolic-link-refused away 1:1",
                "symbolic-link-refused loop-a 1:1",
                "symbolic-link-refused loop-b 1:1",
                "symbolic-link-refused motor/broken.md 1:1",
                "symbolic-link-refused motor/out.md 1:1",
                "symbolic-link-refused motor/pictures/out.svg 1:1",
                "symbolic-link-refused motor/pictures/up 1:1",
                "symbolic-link-refused motor/self 1:1",
                "symbolic-link-refused side 1:1",
            ]
        );
        let (sources, _) = manual.read();
        let ids: Vec<&str> = sources.machines[0].procedures.iter().map(|p| p.id.as_str()).collect();
        assert_eq!(ids, ["nut", "same"]);
        assert_eq!(sources.pictures.len(), 1);
        assert!(read_theme(manual.folder.path(), "motor").is_err());
        let whole = TempDir::new().expect("a folder");
        symlink(manual.folder.path(), whole.path().join("manual")).expect("a link");
        assert!(read(&whole.path().join("manual")).is_ok());
        fs::remove_file(manual.path("manual.yaml")).expect("a file");
        fs::write(outside.path().join("manual.yaml"), MANUAL).expect("a file");
        link(&outside.path().join("manual.yaml"), "manual.yaml");
        assert!(read(manual.folder.path()).expect_err("a link out").to_string().contains("leads out"));
    }

    /// A manual that came from elsewhere names no folder of this machine as its theme.
    #[test]
    fn a_theme_lies_below_its_manual() {
        let outside = TempDir::new().expect("a folder");
        fs::write(outside.path().join("secret.txt"), "secret").expect("a file");
        let manual = Manual::new().with("look/page.css", "x").with("motor/pictures/plain.txt", "x");
        symlink(outside.path(), manual.path("away")).expect("a link");
        symlink(manual.path("look"), manual.path("near")).expect("a link");
        let read = |theme: &str| read_theme(manual.folder.path(), theme);
        let far = outside.path().display().to_string();
        for theme in [far.as_str(), "/", "/etc", "..", ".", "", "look/..", "look/../..", "away", "away/.", "none", "manual.yaml"] {
            assert!(read(theme).is_err(), "{theme}");
        }
        assert!(read(&far).expect_err("outside").to_string().contains("a theme lies below the manual's folder"));
        for theme in ["look", "./look", "motor/../look", "near"] {
            assert_eq!(read(theme).expect("a theme").keys().collect::<Vec<_>>(), ["page.css"], "{theme}");
        }
    }

    #[test]
    fn a_picture_swapped_for_a_link_is_not_read() {
        let outside = TempDir::new().expect("a folder");
        fs::write(outside.path().join("secret"), "secret").expect("a file");
        let manual = Manual::new();
        let (sources, _) = manual.read();
        fs::remove_file(manual.path("motor/pictures/nut.svg")).expect("a file");
        symlink(outside.path().join("secret"), manual.path("motor/pictures/nut.svg")).expect("a link");
        assert!(read_picture(&sources, "motor/pictures/nut.svg").is_err());
    }

    #[test]
    fn sockets_are_not_opened() {
        let manual = Manual::new();
        let _socket = std::os::unix::net::UnixListener::bind(manual.path("motor/x.md")).expect("a socket");
        assert_eq!(manual.report(), ["special-file motor/x.md 1:1"]);
    }

    #[test]
    fn files_without_permission() {
        let manual = Manual::new().with("motor/x.md", PROCEDURE).with("closed/y.md", PROCEDURE);
        fs::set_permissions(manual.path("motor/x.md"), fs::Permissions::from_mode(0o000)).expect("permissions");
        fs::set_permissions(manual.path("closed"), fs::Permissions::from_mode(0o000)).expect("permissions");
        let free = fs::read(manual.path("motor/x.md")).is_ok();
        let report = manual.report();
        fs::set_permissions(manual.path("closed"), fs::Permissions::from_mode(0o755)).expect("permissions");
        // The system's own user may read everything; for it there is nothing to see here.
        if !free {
            assert_eq!(report, ["file-not-readable closed 1:1", "file-not-readable motor/x.md 1:1"]);
        }
    }
}
