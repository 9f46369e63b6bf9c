//! What Markdown comes out as, and what is said of its faults.

use super::*;
use crate::finding::FileTable;
use proptest::prelude::*;

fn read(text: &str) -> (Body, Vec<Finding>) {
    let file = FileTable::default().add("x.md", text);
    let mut report = Report::default();
    let body = read_body(&Slice::whole(file, text), &mut report);
    (body, report.into_findings())
}

/// A body read without a word.
fn clean(text: &str) -> Body {
    let (body, findings) = read(text);
    assert!(findings.is_empty(), "{text:?}: {findings:#?}");
    body
}

/// The blocks of a one-step body.
fn blocks(text: &str) -> Vec<Block> {
    let body = clean(&format!("## S {{#s}}\n\n{text}"));
    body.steps.into_iter().next().expect("a step").blocks
}

/// One fault: its rule, the text under the caret, words of the fix.
fn fault(text: &str, rule: &str, caret: &str, fix: &str) -> Body {
    let (body, findings) = read(text);
    let [finding] = findings.as_slice() else { panic!("{text:?}: {findings:#?}") };
    assert_eq!(finding.rule().name, rule, "{text:?}");
    assert_eq!(&text[finding.place().start..finding.place().end], caret, "{text:?}: {finding:#?}");
    assert!(finding.fix_text().contains(fix), "{text:?}: {}", finding.fix_text());
    assert!(!finding.label_text().is_empty(), "{text:?}");
    body
}

/// A fault in the only step.
fn in_step(text: &str, rule: &str, caret: &str, fix: &str) -> Body {
    fault(&format!("## S {{#s}}\n\n{text}"), rule, caret, fix)
}

#[test]
fn steps() {
    let text = "Before.\n\n## Fit the *carrier* {#carrier time=10min at=8:20–9:05 for=shaft-L}\n\nOne.\n\n### Note\n\n## Next {#next}\n";
    let body = clean(text);
    assert_eq!(body.introduction.len(), 1);
    let [first, second] = body.steps.as_slice() else { panic!("{body:#?}") };
    assert_eq!(first.title, "Fit the carrier");
    assert_eq!(first.id.as_ref().map(|(id, at)| (id.as_str(), &text[at.start..at.end])), Some(("carrier", "carrier")));
    let attributes: Vec<(&str, &str, &str)> = first
        .attributes
        .iter()
        .map(|(key, value, at)| (key.as_str(), value.as_str(), &text[at.start..at.end]))
        .collect();
    assert_eq!(
        attributes,
        [("time", "10min", "10min"), ("at", "8:20–9:05", "8:20–9:05"), ("for", "shaft-L", "shaft-L")]
    );
    assert_eq!(
        &text[first.place.start..first.place.end],
        "## Fit the *carrier* {#carrier time=10min at=8:20–9:05 for=shaft-L}"
    );
    assert!(matches!(first.blocks.as_slice(), [Block::Paragraph(_), Block::Heading(3, _)]));
    assert_eq!(second.title, "Next");
}

#[test]
fn step_faults() {
    fault("## Fit the carrier\n", "step-id-missing", "## Fit the carrier", "{#fit-the-carrier}");
    fault("Words\n---\n", "step-id-missing", "Words\n---", "empty line");
    fault("## A {#a}\n\n## B {#a}\n", "doubled-id", "a", "{#a-2}");
    fault("## A {#a time=10 min}\n", "step-braces-broken", "min", "time=10min");
    let body = fault("## A {#a x=\"b c\"} ##\n", "step-braces-broken", "{#a x=\"b c\"}", "quotes");
    assert_eq!((body.steps[0].title.as_str(), body.steps[0].id.as_ref().map(|(id, _)| id.as_str())), ("A", Some("a")));
    fault("## A {#a time=1min\n", "step-braces-broken", "{#a time=1min", "close");
    fault("## A {#a} b\n", "step-braces-broken", "{#a}", "end of the heading");
    fault("## A {#a fro=x}\n", "step-attribute-unknown", "fro", "for=x");
    fault("## A {#a tme=1min}\n", "step-attribute-unknown", "tme", "time=1min");
    fault("## A {#B}\n", "name-not-an-id", "B", "{#b}");
    fault("# Title\n", "heading-out-of-place", "# Title", "front matter");
    in_step("> ## B\n", "heading-out-of-place", "## B", "first column");
    in_step("### B {#b}\n", "step-attribute-unknown", "{#b}", "take them out");
    assert_eq!(read("## A\n\n## B\n").1.len(), 2);
}

#[test]
fn acts() {
    let text = "## S {#s}\n\n[Warm *the carrier*](heat:warm-carrier), then [drop it in](<fit:carrier-bearing> \"t\").\n\n- [Pack](apply:grease@outer)\n\n[stop](stop:) [x]\n\n[x]: dry-fit:clips*4\n";
    let body = clean(text);
    let acts: Vec<(&str, &str, &str, &str, usize)> = body.steps[0]
        .acts
        .iter()
        .map(|a| {
            (
                a.verb.as_str(),
                a.target.as_str(),
                a.words.as_str(),
                &text[a.target_place.start..a.target_place.end],
                a.block,
            )
        })
        .collect();
    assert_eq!(
        acts,
        [
            ("heat", "warm-carrier", "Warm the carrier", "heat:warm-carrier", 0),
            ("fit", "carrier-bearing", "drop it in", "fit:carrier-bearing", 0),
            ("apply", "grease@outer", "Pack", "apply:grease@outer", 1),
            ("stop", "", "stop", "stop:", 2),
            ("dry-fit", "clips*4", "x", "dry-fit:clips*4", 2),
        ]
    );
    assert_eq!(
        &text[body.steps[0].acts[0].place.start..body.steps[0].acts[0].place.end],
        "[Warm *the carrier*](heat:warm-carrier)"
    );
}

#[test]
fn other_links() {
    let found =
        blocks("[a](see:pinion#backlash) [b](https://films.example) <https://films.example> <a@b.example> [c](#s)");
    let Some(Block::Paragraph(inlines)) = found.first() else { panic!("{found:?}") };
    let addresses: Vec<&str> = inlines
        .iter()
        .filter_map(|inline| match inline {
            Inline::See(address, ..) | Inline::Link(address, ..) => Some(address.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(
        addresses,
        ["pinion#backlash", "https://films.example", "https://films.example", "mailto:a@b.example", "#s"]
    );
}

#[test]
fn link_faults() {
    in_step("[x](torque: nut)", "address-with-space", "torque: nut", "(torque:nut)");
    in_step("[x](<torque: nut>)", "address-with-space", "torque: nut", "(torque:nut)");
    in_step("*[x](torque: nut)*", "address-with-space", "torque: nut", "(torque:nut)");
    in_step("[x](torque:nut", "address-with-space", "torque:nut", "(torque:nut)");
    in_step("![x](pictures/my photo.jpg)", "address-with-space", "pictures/my photo.jpg", "rename");
    in_step("[](torque:nut)", "link-without-words", "[](torque:nut)", "[Torque the nut](torque:nut)");
    in_step("<torque:nut>", "link-without-words", "<torque:nut>", "(torque:nut)");
    in_step("[x]()", "link-without-address", "[x]()", "(torque:ID)");
    in_step("[x][y]", "link-without-address", "[x][y]", "[name]: torque:ID");
    in_step("[x](javascript:y())", "link-not-let-through", "javascript:y()", "take the link out");
    in_step("[x](data:text/html,y)", "link-not-let-through", "data:text/html,y", "take the link out");
    in_step("[x](pinion.md#y)", "link-not-let-through", "pinion.md#y", "see:pinion#y");
    fault("[x](torque:nut)\n\n## S {#s}\n", "act-outside-step", "[x](torque:nut)", "into the text of the step");
    fault("## [x](torque:nut) {#s}\n", "act-outside-step", "[x](torque:nut)", "into the text");
    in_step("a[^1]\n\n[^1]: [x](torque:nut)\n", "act-outside-step", "[x](torque:nut)", "into the text");
    in_step("![[x](torque:nut)](pictures/a.jpg)", "act-outside-step", "[x](torque:nut)", "into the text");
    in_step("a[^1]", "footnote-missing", "[^1]", "[^1]: …");
    in_step("a[^1]\n\n[^1]: b\n\n[^1]: c\n", "doubled-id", "[^1]", "another name");
    for kept in ["[x\\](y z)", "`[x](y z)`", "f[x] (y z)", "a \\[^1]", "[ ] open"] {
        blocks(kept);
    }
}

#[test]
fn what_no_link_leaves_are_words() {
    for text in ["[x *y*](javascript:z)", "[x *y*](a.md)", "[x *y*]()"] {
        let (body, _) = read(&format!("## S {{#s}}\n\n{text}"));
        let Some(Block::Paragraph(inlines)) = body.steps[0].blocks.first() else { panic!("{body:?}") };
        assert_eq!(plain_text(inlines), "x y");
        assert!(body.steps[0].acts.is_empty());
    }
    let body = in_step("<torque:nut>", "link-without-words", "<torque:nut>", "");
    assert_eq!(body.steps[0].acts.len(), 1);
}

#[test]
fn html_is_refused_and_shown() {
    in_step("a <b>c</b>", "html-not-let-through", "<b>", "**words**");
    in_step("a <!-- c --> d", "html-not-let-through", "<!-- c -->", "comment");
    let body = in_step(
        "<div onclick=\"x()\">\n[x](torque:nut)\n</div>\n",
        "html-not-let-through",
        "<div onclick=\"x()\">\n[x](torque:nut)\n</div>",
        "&lt;",
    );
    let Some(Block::Paragraph(inlines)) = body.steps[0].blocks.first() else { panic!("{body:?}") };
    assert!(plain_text(inlines).starts_with("<div"));
    assert!(body.steps[0].acts.is_empty());
    blocks("2 < 3, a<b, `<b>`, &lt;b&gt;");
}

#[test]
fn notices() {
    let text =
        "## S {#s}\n\n[a](fit:b)\n\n> **WARNING** Hot. Wear [gloves](tool:gloves).\n> Twice.\n>\n> More.\n\n> plain\n";
    let body = clean(text);
    let Some(Block::Notice(notice)) = body.steps[0].blocks.get(1) else { panic!("{body:#?}") };
    assert_eq!((notice.word.as_str(), notice.acts_before, notice.blocks.len()), ("WARNING", 1, 2));
    let Some(Block::Paragraph(inlines)) = notice.blocks.first() else { panic!("{notice:#?}") };
    assert_eq!(plain_text(inlines), "Hot. Wear gloves. Twice.");
    let Some(Inline::Text(words, at)) = inlines.first() else { panic!("{inlines:#?}") };
    assert_eq!(&text[at.start..at.end], words);
    assert!(matches!(body.steps[0].blocks.get(2), Some(Block::Quote(_))));
    assert_eq!(body.steps[0].acts[1].block, 1);
    for word in ["> **DANGER**\n> X", "> **CAUTION:** X", "> **NOTICE** – X"] {
        let found = blocks(word);
        let Some(Block::Notice(notice)) = found.first() else { panic!("{found:#?}") };
        let Some(Block::Paragraph(inlines)) = notice.blocks.first() else { panic!("{notice:#?}") };
        assert_eq!(plain_text(inlines), "X");
    }
    assert!(matches!(clean("> **WARNING** X\n").introduction.as_slice(), [Block::Notice(_)]));
}

#[test]
fn notices_in_the_wrong_dress() {
    in_step("> WARNING hot", "signal-word-not-bold", "WARNING", "> **WARNING** …");
    in_step("> Warning: hot", "signal-word-not-bold", "Warning", "> **WARNING** …");
    in_step("> **Caution** hot", "signal-word-not-bold", "Caution", "> **CAUTION** …");
    in_step("> **WARNING hot**", "signal-word-not-bold", "WARNING hot", "nothing else");
    blocks("> Caution is what it takes.");
    blocks("> Warnings are elsewhere.");
}

#[test]
fn blocks_of_every_kind() {
    let found = blocks(
        "p *e* **s** `c`\nsoft\\\nhard\n\n1. a\n2. b\n   - c\n\n| h | i |\n|---|:-:|\n| j | k \\| l |\n\n```yaml\na: b\n```\n\n---\n\n![alt *x*](pictures/a.svg \"cap\")\n\na[^n]\n\n[^n]: note\n",
    );
    let kinds: Vec<&str> = found
        .iter()
        .map(|block| match block {
            Block::Paragraph(_) => "paragraph",
            Block::Heading(..) => "heading",
            Block::List(Some(1), items) if items.len() == 2 => "list",
            Block::List(..) => "other list",
            Block::Table(table) if table.align == [Align::Start, Align::Centre] && table.rows.len() == 1 => "table",
            Block::Table(_) => "other table",
            Block::Code(language, text) if language == "yaml" && text == "a: b\n" => "code",
            Block::Code(..) => "other code",
            Block::Quote(_) => "quote",
            Block::Notice(_) => "notice",
            Block::Rule => "rule",
        })
        .collect();
    assert_eq!(kinds, ["paragraph", "list", "table", "code", "rule", "paragraph", "paragraph"]);
    let Some(Block::List(_, items)) = found.get(1) else { panic!() };
    assert!(matches!(items[1].as_slice(), [Block::Paragraph(_), Block::List(None, _)]), "{items:#?}");
    let Some(Block::Paragraph(inlines)) = found.get(5) else { panic!() };
    let [Inline::Picture(picture)] = inlines.as_slice() else { panic!("{inlines:#?}") };
    assert_eq!(
        (picture.path.as_str(), picture.alternative.as_str(), picture.caption.as_str()),
        ("pictures/a.svg", "alt x", "cap")
    );
    let Some(Block::Paragraph(inlines)) = found.get(6) else { panic!() };
    assert!(matches!(inlines.as_slice(), [Inline::Text(..), Inline::FootnoteMark(name, _)] if name == "n"));
}

#[test]
fn split_texts_are_joined() {
    let text = "## S {#s}\n\n24&nbsp;N&middot;m \\* [x] &amp; y";
    let body = clean(text);
    let Some(Block::Paragraph(inlines)) = body.steps[0].blocks.first() else { panic!("{body:?}") };
    let [Inline::Text(words, at)] = inlines.as_slice() else { panic!("{inlines:#?}") };
    assert_eq!(words, "24\u{a0}N·m * [x] & y");
    assert_eq!(&text[at.start..at.end], "24&nbsp;N&middot;m \\* [x] &amp; y");
}

#[test]
fn tables_lose_nothing() {
    in_step("| a |\n|---|\n| b | 24 N·m |\n", "table-cell-lost", "24 N·m", "one more column");
    blocks("| a | b |\n|---|---|\n| c |\n| d | e |\n");
}

#[test]
fn carriage_returns() {
    let text = "## A {#a time=1min}\r\n\r\n[x](fit:y)\r\nand\r\n\r\n> **NOTICE** z\r\n";
    let body = clean(text);
    let at = &body.steps[0].acts[0].target_place;
    assert_eq!(&text[at.start..at.end], "fit:y");
    assert_eq!(&text[body.steps[0].place.start..body.steps[0].place.end], "## A {#a time=1min}");
    assert!(matches!(body.steps[0].blocks.as_slice(), [Block::Paragraph(_), Block::Notice(_)]));
}

#[test]
fn depth_is_bounded() {
    let deep = |text: String| {
        let (body, findings) = read(&text);
        assert!(findings.iter().any(|f| f.rule().name == "nesting-too-deep"), "{}", &text[..20]);
        body
    };
    deep(">".repeat(10_000) + " a");
    deep("> ".repeat(10_000) + "a\n\nb");
    deep("- ".repeat(3_000) + "a\n");
    deep("*a **b ".repeat(5_000) + &"c** d* ".repeat(5_000));
    let body = deep((0..40).map(|n| "  ".repeat(n) + "- a\n").collect::<String>() + "\n## S {#s}\n");
    assert_eq!(body.steps.len(), 1);
    for harmless in [
        "[".repeat(10_000),
        "![".repeat(10_000),
        "*".repeat(10_000),
        "[a](".repeat(10_000),
        "`".repeat(10_000),
        "<".repeat(10_000),
    ] {
        read(&harmless);
    }
    blocks(&("> ".repeat(30) + "a"));
}

#[test]
fn work_is_linear() {
    // Quadratic work would take minutes.
    for piece in [
        "](",
        "[^",
        "\\](",
        "> ",
        "[",
        "*a ",
        "[a](b c) ",
        "[^a] ",
        "<b>",
        "[a][b] ",
        "**a _b ",
        "| a ",
        "## a {#a b=c\n",
        "![[x](fit:y)](z)",
    ] {
        read(&piece.repeat(500_000 / piece.len()));
    }
}

fn in_file(text: &str, place: &Place) -> bool {
    text.get(place.start..place.end).is_some()
}

fn inlines_in_file(text: &str, inlines: &[Inline]) -> bool {
    inlines.iter().all(|inline| match inline {
        Inline::Text(_, at) | Inline::Code(_, at) | Inline::FootnoteMark(_, at) => in_file(text, at),
        Inline::Emphasis(inner) | Inline::Strong(inner) | Inline::Act(_, inner) => inlines_in_file(text, inner),
        Inline::Link(_, inner, at) | Inline::See(_, inner, at) => in_file(text, at) && inlines_in_file(text, inner),
        Inline::Picture(picture) => in_file(text, &picture.place),
        Inline::SoftBreak | Inline::HardBreak => true,
    })
}

fn blocks_in_file(text: &str, blocks: &[Block]) -> bool {
    blocks.iter().all(|block| match block {
        Block::Paragraph(inlines) | Block::Heading(_, inlines) => inlines_in_file(text, inlines),
        Block::List(_, items) => items.iter().all(|item| blocks_in_file(text, item)),
        Block::Table(table) => {
            table.head.iter().chain(table.rows.iter().flatten()).all(|cell| inlines_in_file(text, cell))
        }
        Block::Quote(blocks) => blocks_in_file(text, blocks),
        Block::Notice(notice) => in_file(text, &notice.place) && blocks_in_file(text, &notice.blocks),
        Block::Code(..) | Block::Rule => true,
    })
}

fn answered(text: &str) -> Result<(), TestCaseError> {
    let (body, findings) = read(text);
    for finding in &findings {
        prop_assert!(in_file(text, finding.place()), "{finding:#?}");
    }
    prop_assert!(blocks_in_file(text, &body.introduction));
    for step in &body.steps {
        prop_assert!(in_file(text, &step.place) && blocks_in_file(text, &step.blocks));
        for (_, value, at) in &step.attributes {
            prop_assert_eq!(&text[at.start..at.end], value);
        }
        for act in &step.acts {
            prop_assert!(in_file(text, &act.place) && in_file(text, &act.target_place));
            prop_assert!(act.block < step.blocks.len());
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_text_is_answered(text in "\\PC{0,80}") {
        answered(&text)?;
    }

    #[test]
    fn any_markdown_like_text_is_answered(
        text in "([a-c°·\\[\\]()!*_`<>#{}=:|\\\\&;^\"~-]|\\n|\\r\\n|\\n\\n|\\n## |\\{#a |\\n> |\\n- |\\n  |\\[x\\]\\(fit:y\\)|\\*\\*WARNING\\*\\*|\\[\\^a\\]|\\n\\|-\\|\\n| ){0,40}"
    ) {
        answered(&text)?;
    }

    #[test]
    fn plain_words_come_out_as_written(words in "[A-Za-z0-9°·±≥–][A-Za-z0-9 °·±≥–,]{0,30}[A-Za-z0-9°·]") {
        let text = format!("## S {{#s}}\n\nx {words}");
        let (body, _) = read(&text);
        let Some(Block::Paragraph(inlines)) = body.steps[0].blocks.first() else { panic!("{body:?}") };
        let [Inline::Text(found, at)] = inlines.as_slice() else { panic!("{inlines:?}") };
        prop_assert_eq!(&text[at.start..at.end], found);
    }
}
