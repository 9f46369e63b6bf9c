//! A theme that replaces files of the built-in one, and what is said when such a file is broken.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what fails here fails its test")]
mod page_sample;

use page_sample::{Sample, sample};

fn with(file: &str, text: &str) -> Sample {
    let mut sample = sample();
    sample.theme.insert(file.to_owned(), text.as_bytes().to_vec());
    sample
}

#[test]
fn a_template_of_the_theme_stands_in_for_the_built_in_one() {
    let page = with("templates/notice.html", "<p class=\"mine\">{{ word }}: {{ text }}</p>").page("tarn-18/carrier.html");
    assert!(page.contains("<p class=\"mine\">WARNING: <p>Hot metal."));
}

#[test]
fn a_broken_template_is_told_with_its_file_and_line() {
    let error = with("templates/notice.html", "<p>\n{{ word\n</p>").publish().unwrap_err();
    assert_eq!(error.file.as_deref(), Some("templates/notice.html"));
    assert!(error.line.is_some_and(|line| line >= 2), "{error}");
    assert!(error.to_string().starts_with("templates/notice.html, line "), "{error}");
}

#[test]
fn a_template_that_asks_for_what_is_not_there_is_told_with_its_file() {
    let error = with("templates/notice.html", "{{ word }}\n{{ there_is_no_such.thing }}").publish().unwrap_err();
    assert_eq!((error.file.as_deref(), error.line), (Some("templates/notice.html"), Some(2)));
}

/// A template from before acts were handed printed asked for the values only where there were any: without them it must not go through.
#[test]
fn a_template_that_would_leave_the_values_of_acts_out_is_refused() {
    for (file, template) in [
        ("templates/sheet.html", "{% for step in view.steps %}{% for group in step.groups %}{% for row in group %}{{ row.text }}{% if row.details %}{% for detail in row.details %}{{ detail }}{% endfor %}{% endif %}{% endfor %}{% endfor %}{% endfor %}"),
        ("templates/act-notes.html", "{% for note in notes %}{{ note.text }}{% if note.details %}{% for detail in note.details %}{{ detail }}{% endfor %}{% endif %}{% endfor %}"),
    ] {
        let error = with(file, template).publish().unwrap_err();
        assert_eq!(error.file.as_deref(), Some(file), "{error}");
        assert!(error.to_string().contains("text"), "{error}");
    }
}

#[test]
fn words_of_the_theme_replace_those_of_the_catalogue() {
    let sample = with("messages/en-GB.ftl", "before-title = Have ready\n");
    assert!(sample.page("tarn-18/carrier.html").contains(">Have ready</h2>"));
}

#[test]
fn a_part_of_the_styles_is_replaced_and_other_files_go_along() {
    let mut sample = with("styles/page.css", "body { color: black }");
    sample.theme.insert("mark.svg".to_owned(), b"<svg/>".to_vec());
    let files = sample.publish().unwrap();
    let bytes = |path: &str| files.iter().find(|file| file.path == path).map(|file| file.bytes.clone());
    let style = String::from_utf8(bytes("page.css").unwrap()).unwrap();
    assert!(style.contains("body { color: black }") && !style.contains(".strip ol"));
    assert_eq!(bytes("theme/mark.svg").as_deref(), Some(&b"<svg/>"[..]));
}

#[test]
fn a_file_that_is_no_text_is_told() {
    let mut sample = sample();
    sample.theme.insert("templates/act.html".to_owned(), vec![0xff, 0xfe]);
    let error = sample.publish().unwrap_err();
    assert_eq!(error.file.as_deref(), Some("templates/act.html"));
}

/// What is said where a template of the theme is not let through.
fn refusal(template: &str) -> String {
    with("templates/notice.html", template).publish().unwrap_err().to_string()
}

#[test]
fn a_template_reads_nothing_but_templates() {
    for name in ["/etc/hostname", "../../Cargo.toml", "templates/../../manual.yaml", "file:///etc/hostname", "manual.yaml"] {
        let error = refusal(&format!("{{% include \"{name}\" %}}"));
        assert!(error.contains("Unknown template"), "{name}: {error}");
    }
    refusal("{% extends \"/etc/hostname\" %}");
    // No function of the engine reads files, the environment or the clock.
    for call in ["load_data(path=\"/etc/hostname\")", "get_env(name=\"HOME\")", "now()", "read(path=\"x\")"] {
        let error = refusal(&format!("{{{{ {call} }}}}"));
        assert!(error.contains("nknown function") || error.contains("not found") || error.contains("not registered"), "{call}: {error}");
    }
}

#[test]
fn a_template_comes_to_an_end() {
    refusal("{% include \"notice.html\" %}");
    refusal("{% extends \"notice.html\" %}");
    refusal("{% component again() %}{{ <again()/> }}{% endcomponent again %}{{ <again()/> }}");
    let rounds = "`range` asks for too many rounds";
    assert!(refusal("{% for i in range(end=100001) %}x{% endfor %}").contains(rounds));
    assert!(refusal("{% for i in range(start=-9223372036854775807, end=9223372036854775807) %}x{% endfor %}").contains(rounds));
    refusal("{% for i in range(end=3, step_by=0) %}x{% endfor %}");
    let endless = "goes on without end";
    assert!(refusal("{% for i in range(end=100000) %}{% for j in range(end=100000) %}{% endfor %}{% endfor %}").contains(endless));
    assert!(refusal(&format!("{{% for i in range(end=900) %}}{}{{% endfor %}}", "{% set n = range(end=100000) %}")).contains(rounds));
    let loops = |list: &str| format!("{{% set n = {list} %}}{}{}", "{% for i in n %}".repeat(9), "{% endfor %}".repeat(9));
    assert!(refusal(&loops("range(end=1000)")).contains(endless), "loops over one list that was asked for once");
    assert!(refusal(&loops("[1, 2, 3, 4, 5, 6, 7, 8, 9]")).contains(endless));
    let branches = "{{ <again n={n - 1}/> }}".repeat(10);
    assert!(refusal(&format!("{{% component again(n) %}}{{% if n > 0 %}}{branches}{{% endif %}}{{% endcomponent again %}}{{{{ <again n={{12}}/> }}}}")).contains(endless));
    let mut chain = with("templates/notice.html", &"{% include \"chain-0.html\" %}".repeat(10));
    for link in 0..12 {
        chain.theme.insert(format!("templates/chain-{link}.html"), format!("{{% include \"chain-{}.html\" %}}", link + 1).repeat(10).into_bytes());
    }
    chain.theme.insert("templates/chain-12.html".to_owned(), Vec::new());
    assert!(chain.publish().unwrap_err().to_string().contains(endless));
    let long = "y".repeat(2000);
    assert!(refusal(&format!("{{% for i in range(end=100000) %}}{long}{{% endfor %}}")).contains("more than 64 MiB"));
    let page = with("templates/notice.html", "<p>{% for i in range(start=1, end=6, step_by=2) %}{{ i }},{% endfor %}</p>").page("tarn-18/carrier.html");
    assert!(page.contains("<p>1,3,5,</p>"));
}

#[test]
fn an_author_s_text_is_escaped_whatever_a_template_is_called() {
    let mut sample = with("templates/notice.html", "{% include \"words.txt\" %}");
    sample.theme.insert("templates/words.txt".to_owned(), b"<q>{{ \"<script>\" }}</q>".to_vec());
    assert!(sample.page("tarn-18/carrier.html").contains("<q>&lt;script&gt;</q>"));
}
