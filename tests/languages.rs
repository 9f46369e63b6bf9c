//! The catalogues side by side, and manuals in other languages than English from end to end.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
#![expect(clippy::disallowed_methods, reason = "the test reads catalogues and publishes real folders")]

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A message as Fluent's own parser (crate `fluent-syntax`) reads it.
#[derive(Debug, Default, PartialEq, Eq)]
struct Message {
    variables: BTreeSet<String>,
    /// Texts between the variables.
    texts: Vec<String>,
    /// Whether nothing else is in it.
    plain: bool,
    /// The variables that choose among forms, each with its forms.
    choices: BTreeMap<String, BTreeSet<String>>,
}

fn catalogue(name: &str) -> BTreeMap<String, Message> {
    let text = fs::read_to_string(project().join("themes/workshop/messages").join(name)).unwrap();
    let parsed = fluent_syntax::parser::parse(text.as_str()).unwrap_or_else(|(_, errors)| panic!("{name}: {errors:?}"));
    let mut found = BTreeMap::new();
    for entry in parsed.body {
        let Entry::Message(message) = entry else { continue };
        let mut read = Message { plain: true, ..Message::default() };
        pattern(&message.value.expect("a message has a text"), &mut read);
        assert!(found.insert(message.id.name.to_owned(), read).is_none(), "{name}: {} twice", message.id.name);
    }
    found
}

fn pattern(parts: &Pattern<&str>, read: &mut Message) {
    for part in &parts.elements {
        match part {
            PatternElement::TextElement { value } => read.texts.push((*value).to_owned()),
            PatternElement::Placeable { expression } => {
                read.plain = false;
                match expression {
                    Expression::Inline(inline) => variable(inline, read),
                    Expression::Select { selector, variants } => {
                        variable(selector, read);
                        let InlineExpression::VariableReference { id } = selector else { panic!("chosen by {selector:?}") };
                        let forms = variants.iter().map(|variant| format!("{:?}{}", variant.key, variant.default)).collect();
                        read.choices.insert(id.name.to_owned(), forms);
                        variants.iter().for_each(|variant| pattern(&variant.value, read));
                    }
                }
            }
        }
    }
}

fn variable(inline: &InlineExpression<&str>, read: &mut Message) {
    match inline {
        InlineExpression::VariableReference { id } => {
            read.variables.insert(id.name.to_owned());
        }
        InlineExpression::StringLiteral { .. } => {}
        other => panic!("no message uses {other:?}"),
    }
}

#[test]
fn both_catalogues_have_the_same_messages_with_the_same_variables() {
    let (english, german) = (catalogue("en.ftl"), catalogue("de.ftl"));
    assert!(english.len() > 700, "{}", english.len());
    assert_eq!(english.keys().collect::<Vec<_>>(), german.keys().collect::<Vec<_>>());
    for (key, message) in &english {
        assert_eq!(message.variables, german[key].variables, "{key}");
        // German has the plural forms of English: one and other (Unicode CLDR, plural rules for cardinals). A message may do
        // without where both forms are the same word.
        for (chosen, forms) in &german[key].choices {
            assert_eq!(message.choices.get(chosen), Some(forms), "{key}");
        }
    }
    let swiss = catalogue("de-CH.ftl");
    assert!(!swiss.is_empty() && swiss.keys().all(|key| german.contains_key(key)));
}

#[test]
fn the_german_catalogue_keeps_to_its_words() {
    let text = fs::read_to_string(project().join("themes/workshop/messages/de.ftl")).unwrap();
    let messages: Vec<&str> = text.lines().filter(|line| !line.starts_with('#')).collect();
    // One word for one thing: what the head of the catalogue chose something else for.
    for other in ["Drehmomentenschlüssel", "Shim", "Checkliste", "Anzugsmoment", "Locker", "Blattnummer", "Vorgang", "Nm"] {
        assert!(!messages.iter().any(|line| line.split(|c: char| !c.is_alphanumeric()).any(|word| word == other)), "{other}");
    }
    // The marks of quotation of the other language.
    assert!(!messages.iter().any(|line| line.contains(['‘', '“', '"']) && !line.contains("{ \" ")), "quotation marks");
}

fn benchleaf(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).args(words).current_dir(project()).output().unwrap()
}

/// The files of the small German manual, published in a language.
fn published(language: &str) -> (TempDir, BTreeMap<String, String>) {
    let root = tempfile::tempdir().unwrap();
    let (manual, site) = (root.path().join("manual"), root.path().join("site"));
    copy(&project().join("tests/german"), &manual);
    let head = fs::read_to_string(manual.join("manual.yaml")).unwrap();
    assert!(head.contains("\nlanguage: de\n"));
    fs::write(manual.join("manual.yaml"), head.replace("\nlanguage: de\n", &format!("\nlanguage: {language}\n"))).unwrap();
    let output = benchleaf(&["bind", manual.to_str().unwrap(), "--into", site.to_str().unwrap()]);
    assert!(output.status.success(), "{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    let mut files = BTreeMap::new();
    let mut waiting = vec![PathBuf::new()];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(site.join(&folder)).unwrap() {
            let path = folder.join(entry.unwrap().file_name());
            if site.join(&path).is_dir() {
                waiting.push(path);
            } else if let Ok(text) = fs::read_to_string(site.join(&path)) {
                files.insert(path.to_str().unwrap().to_owned(), text);
            }
        }
    }
    (root, files)
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.path().is_dir() { copy(&entry.path(), &target) } else { fs::copy(entry.path(), target).map(|_| ()).unwrap() }
    }
}

/// What a reader meets on a page: texts between tags, and what is read aloud; not what scripts read nor an author's source.
fn readable(html: &str) -> Vec<String> {
    // What keeps a value on one line parts no text.
    let mut rest = html.replace("<bdi>", "").replace("</bdi>", "");
    for name in ["script", "style", "pre", "code"] {
        while let Some(open) = rest.find(&format!("<{name}")) {
            let close = format!("</{name}>");
            let end = rest[open..].find(&close).map_or(rest.len(), |at| open + at + close.len());
            rest.replace_range(open..end, "");
        }
    }
    let mut found = Vec::new();
    for attribute in ["aria-label", "alt", "title"] {
        let mark = format!(" {attribute}=\"");
        found.extend(rest.match_indices(&mark).filter_map(|(at, _)| rest[at + mark.len()..].split('"').next()).map(str::to_owned));
    }
    found.extend(rest.split('<').filter_map(|part| part.split_once('>')).map(|(_, text)| text.to_owned()));
    let plain = |text: String| text.replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&").replace('\u{a0}', " ");
    found.into_iter().map(|text| plain(text).trim().to_owned()).filter(|text| !text.is_empty()).collect()
}

fn pages(files: &BTreeMap<String, String>) -> impl Iterator<Item = (&String, &String)> {
    files.iter().filter(|(path, _)| path.ends_with(".html"))
}

#[test]
fn a_manual_in_german_has_no_english_word_of_the_catalogue() {
    let (english, german) = (catalogue("en.ftl"), catalogue("de.ftl"));
    let (_root, files) = published("de");
    let same: BTreeSet<&String> = german.values().flat_map(|message| &message.texts).collect();
    let others: Vec<(&String, &Message)> = english.iter().filter(|(key, message)| german[*key] != **message).collect();
    let whole: BTreeMap<&str, &String> =
        others.iter().filter(|(_, m)| m.plain).flat_map(|(key, m)| m.texts.iter().map(move |text| (text.trim(), *key))).filter(|(text, _)| text.len() > 1).collect();
    // Pieces of sentences that are long enough not to stand there by chance.
    let pieces: Vec<(&str, &String)> =
        others.iter().flat_map(|(key, m)| m.texts.iter().map(move |text| (text.trim(), *key))).filter(|(text, _)| text.len() > 9 && text.contains(' ')).collect();
    assert!(whole.len() > 300 && pieces.len() > 300, "{} {}", whole.len(), pieces.len());
    let mut read = 0;
    for (path, html) in pages(&files) {
        // The review tells what stands in the files, by the format's own words.
        let words_of_format = path.ends_with(".review.html");
        for text in readable(html) {
            read += 1;
            if let Some(key) = whole.get(text.as_str()).filter(|_| !words_of_format && !same.contains(&text)) {
                panic!("{path}: ‘{text}’ is English ({key})");
            }
            if let Some((piece, key)) = pieces.iter().find(|(piece, _)| text.contains(piece)) {
                panic!("{path}: ‘{piece}’ is English ({key}) in ‘{text}’");
            }
        }
    }
    assert!(read > 1000, "{read}");
    // And what scripts say.
    let sheet = &files["speisepumpe/deckel-sheet-neu.html"];
    let said = &data(sheet, "bench-data")["words"];
    assert!(said.as_object().unwrap().len() > 100);
    for (key, words) in said.as_object().unwrap() {
        // Without the names of what is filled in.
        let words: String = words.as_str().unwrap().split('{').map(|part| part.split_once('}').map_or(part, |(_, text)| text)).collect();
        let key = key.as_str();
        assert!(german[key] == english[key] || !english[key].texts.iter().any(|text| text.trim().len() > 4 && words.contains(text.trim())), "{key}: {words}");
    }
    assert!(files["search-index.js"].contains("Im Handbuch suchen"));
}

fn data(html: &str, id: &str) -> Value {
    let mark = format!("id=\"{id}\">");
    let from = html.find(&mark).unwrap() + mark.len();
    serde_json::from_str(html[from..].split("</script>").next().unwrap()).unwrap()
}

/// Every number with a point in a text, with what follows; of a day the first point only.
fn with_point(text: &str) -> Vec<&str> {
    let digit = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
    let points = text.match_indices('.').filter(|(at, _)| *at > 0 && digit(at - 1) && digit(at + 1));
    let starts = points.map(|(at, _)| text[..at].trim_end_matches(|c: char| c.is_ascii_digit()).len());
    starts.filter(|start| !text[..*start].ends_with('.')).map(|start| &text[start..]).collect()
}

#[test]
fn german_pages_have_the_comma_and_machines_the_point() {
    let (_root, files) = published("de");
    let page = &files["speisepumpe/deckel.html"];
    let text = readable(page).join(" ");
    for value in ["8,5 N·m", "9,5 N·m", "M6 × 1,0 × 25 mm, Klasse 8.8", "1,5 mm tief", "0,10–0,25 mm", "0,25 L", "(7,01 lbf·ft)", "12,5 kg", "Klasse 8.8 in Aluminium", "2,5–25 N·m"] {
        assert!(text.contains(value), "‘{value}’ is not in: {text}");
    }
    assert!(readable(&files["speisepumpe/index.html"]).join(" ").contains("M6 × 1,0"), "the tables of the machine");
    for (path, html) in pages(&files) {
        for text in readable(html) {
            for number in with_point(&text) {
                let class = ["8.8", "10.9", "12.9"].iter().any(|class| number.starts_with(class));
                let day = number.len() >= 10 && number.as_bytes()[2] == b'.' && number.as_bytes()[5] == b'.';
                // What stands alone is the number of a line.
                assert!(class || day || number == text || text.contains("Zeile"), "{path}: ‘{number}’ in ‘{text}’");
            }
        }
    }
    // What machines read is the same in every language: values, fingerprints, numbers of data blocks, dates.
    let (_other, english) = published("en");
    let sheet = "speisepumpe/deckel-sheet-neu.html";
    let (here, there) = (data(&files[sheet], "bench-data"), data(&english[sheet], "bench-data"));
    for key in ["acts", "fingerprint", "units", "variant", "revision"] {
        let same = |value: &Value| value[key].to_string().replace("Tiefe", "depth").replace("Sollwert", "spec").replace("Grenzwert", "limit");
        assert_eq!(same(&here), same(&there), "{key}");
    }
    assert!(here["acts"].to_string().contains("9.5 N·m") && !here["acts"].to_string().contains("9,5"));
    assert!(files["search-index.js"].contains("0.10–0.25") && !files["search-index.js"].contains("0,10"));
    assert!(page.contains("\"dateModified\":\"2026-09-14\""), "JSON-LD keeps ISO 8601");
    assert!(files["sitemap.xml"].contains("<lastmod>2026-09-14</lastmod>") && files["changes.atom"].contains("2026-09-14T00:00:00Z"));
}

#[test]
fn days_stand_as_german_writes_them_and_as_iso_has_them_in_title_blocks() {
    let (_root, files) = published("de");
    assert!(readable(&files["index.html"]).iter().any(|text| text.contains("14.09.2026")), "the first page");
    assert!(readable(&files["speisepumpe/index.html"]).iter().any(|text| text == "11.04.2026"), "a source's day");
    let waived = readable(&files["speisepumpe/deckel.html"]).join(" ");
    assert!(waived.contains("(Obmann, bis 01.03.2027)"), "{waived}");
    let block = readable(&files["speisepumpe/deckel.html"]);
    let date = block.iter().position(|text| text == "Ausgabedatum").unwrap();
    assert_eq!(block[date + 1], "2026-09-14");
}

#[test]
fn plural_forms_are_german() {
    let (_root, files) = published("de");
    let home = readable(&files["index.html"]).join(" ");
    assert!(home.contains("1 Arbeitsanweisung") && !home.contains("1 Arbeitsanweisungen"), "{home}");
    assert!(files["speisepumpe/deckel.html"].contains("4 Arbeitsschritte mit jedem Wert"));
}

#[test]
fn switzerland_and_austria_have_their_own_marks() {
    let (_root, swiss) = published("de-CH");
    let text = readable(&swiss["speisepumpe/deckel.html"]).join(" ");
    assert!(text.contains("9.5 N·m") && text.contains("Ausgabedatum") && !swiss.iter().any(|(path, text)| path.ends_with(".html") && text.contains("maßstäblich")));
    let (_root, austrian) = published("de-AT");
    assert!(readable(&austrian["speisepumpe/deckel.html"]).join(" ").contains("9,5 N·m"));
    assert!(austrian["index.html"].contains("<html lang=\"de-AT\">"));
}

#[test]
fn a_language_from_right_to_left_has_its_direction_and_english_words() {
    let (_root, files) = published("ar");
    for (path, html) in pages(&files) {
        assert!(html.contains("<html lang=\"ar\" dir=\"rtl\">"), "{path}");
    }
    let text = readable(&files["speisepumpe/deckel.html"]).join(" ");
    assert!(text.contains("Date of issue") && text.contains("9.5 N·m"));
    let (_root, german) = published("de");
    assert!(pages(&german).all(|(_, html)| html.contains("<html lang=\"de\">")));
}

#[test]
fn findings_stay_english_and_say_so_to_whoever_reads_them_aloud() {
    let root = tempfile::tempdir().unwrap();
    let (manual, site) = (root.path().join("manual"), root.path().join("site"));
    copy(&project().join("tests/german"), &manual);
    let file = manual.join("speisepumpe/deckel.md");
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("neu: 9.5 N·m}, layout", "neu: 9.5 lbs}, layout")).unwrap();
    benchleaf(&["bind", manual.to_str().unwrap(), "--into", site.to_str().unwrap(), "--proof-copy"]);
    let page = fs::read_to_string(site.join("speisepumpe/deckel.html")).unwrap();
    assert!(page.contains("PROBEABZUG, NICHT VERWENDEN"));
    let fault = page.split("torque-unit-ambiguous").nth(1).unwrap_or_else(|| panic!("not on the page: {page}"));
    let fault = fault.split("</li>").next().unwrap();
    assert!(fault.contains("<span lang=\"en\">") && fault.contains("Stattdessen:") && fault.contains("9.5 lbf"), "{fault}");
}

/// The rules that find something in `tests/german_work`, written in a language as it says, with one text in place of another.
fn found_in_german_work(language: &str, file: &str, from: &str, to: &str) -> Vec<String> {
    let root = tempfile::tempdir().unwrap();
    copy(&project().join("tests/german_work"), root.path());
    let change = |file: &str, from: &str, to: &str| {
        let text = fs::read_to_string(root.path().join(file)).unwrap();
        assert_eq!(text.matches(from).count(), 1, "{file}: {from}");
        fs::write(root.path().join(file), text.replace(from, to)).unwrap();
    };
    change("manual.yaml", "language: de", &format!("language: {language}"));
    change(file, from, to);
    let report: Value = serde_json::from_slice(&benchleaf(&["inspect", root.path().to_str().unwrap(), "--format", "json"]).stdout).unwrap();
    report["findings"].as_array().unwrap().iter().map(|finding| finding["rule"].as_str().unwrap().to_owned()).collect()
}

/// Ordinary good work in German, with words that are English ones as well (Nut, die, Hand, Tag, Rest, Test, war, also, links).
#[test]
fn good_work_in_german_is_found_fault_with_by_no_rule_that_reads_sentences() {
    for language in ["de", "de-CH", "de_AT", "sv"] {
        assert_eq!(found_in_german_work(language, "winde/winde.md", "Das Rad ist schwer.", "Das Rad wiegt viel."), [""; 0], "{language}");
    }
}

/// What is missed in an English text is missed in a German one, and of a text that nobody reads nothing is said.
#[test]
fn what_a_german_text_does_not_say_is_missed() {
    for (rule, from, to) in [
        ("left-hand-unmarked", ": Linksgewinde, gegen den Uhrzeigersinn fest](", "]("),
        ("lift", "Zu zweit [das", "Nun [das"),
        ("stored-energy", " Danach den Druck über den Hahn ablassen, bis nichts mehr zischt.", ""),
        ("no-temperature-check", " und mit der Temperaturkreide prüfen", ""),
        ("condition-missing", "when: bei kaltem Motor", "when: am Morgen"),
        ("sealing-washer-count", "note: kegeliges Gewinde", "note: am Gehäuse"),
    ] {
        assert_eq!(found_in_german_work("de", "winde/winde.md", from, to), [rule], "{from}");
        assert_eq!(found_in_german_work("sv", "winde/winde.md", from, to), [""; 0], "{from}");
    }
}
