//! The theme's templates: built in, replaceable file by file, compiled once.

use super::bounds::{Bounded, range};
use super::{PageFile, assets, turns};
use super::error::PageError;
use super::markup::{Markup, escape};
use super::words::{Arg, Words};
use serde::Serialize;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;
use tera::{Context, Kwargs, State, Tera};

macro_rules! built_in {
    ($($name:literal),+ $(,)?) => {
        &[$(($name, include_str!(concat!("../../themes/workshop/templates/", $name)))),+]
    };
}

/// The built-in templates by name.
pub(super) const TEMPLATES: &[(&str, &str)] = built_in!(
    "act-notes.html",
    "act.html",
    "base.html",
    "behind.html",
    "bulletins.html",
    "matrix.html",
    "review.html",
    "source.html",
    "board.html",
    "book.html",
    "build.html",
    "components.html",
    "home.html",
    "machine.html",
    "notice.html",
    "paper-news.html",
    "paper.html",
    "picture.html",
    "procedure.html",
    "proof-absent.html",
    "proof-bar.html",
    "proof-desk.html",
    "proof-findings.html",
    "sheet.html",
    "square-code.html",
    "table-machine.html",
    "table.html",
    "torque-card.html",
);

/// The compiled templates.
#[derive(Debug)]
pub(super) struct Templates {
    tera: Tera,
}

impl Templates {
    /// Compiles the built-in templates, those of `theme` in place of them.
    pub(super) fn compile(theme: &BTreeMap<String, Vec<u8>>, words: &Arc<Words>) -> Result<Self, PageError> {
        let mut tera = Tera::new();
        // Whatever a theme's template is called: an author's text is escaped in it.
        tera.autoescape_on(vec![""]);
        tera.set_escape_fn(escape);
        turns::register(&mut tera);
        let spoken = Arc::clone(words);
        tera.register_function("say", move |kwargs: Kwargs, _: &State| say(&spoken, &kwargs));
        tera.register_function("range", range());
        let mut sources: BTreeMap<&str, Cow<'_, str>> = TEMPLATES.iter().map(|(name, text)| (*name, Cow::Owned(spoken_already(text, words)))).collect();
        for (path, bytes) in theme {
            if let Some(name) = path.strip_prefix("templates/") {
                let text = std::str::from_utf8(bytes).map_err(|_| PageError::in_theme(path, None, "is not UTF-8 text"))?;
                sources.insert(name, Cow::Owned(turns::counted(text)));
            }
        }
        tera.add_raw_templates(sources).map_err(|error| PageError::of_template("", &error))?;
        Ok(Self { tera })
    }

    /// Prints a view.
    pub(super) fn render(&self, template: &str, view: &impl Serialize) -> Result<Markup, PageError> {
        self.render_beside(0, template, view)
    }

    /// The same, where the view holds so many bytes that are printed already.
    pub(super) fn render_beside(&self, printed: usize, template: &str, view: &impl Serialize) -> Result<Markup, PageError> {
        let context = Context::from_serialize(view).map_err(|error| PageError::of_template(template, &error))?;
        turns::begin();
        let mut page = Bounded::beside(printed);
        let done = self.tera.render_to(template, &context, &mut page);
        if page.is_full() {
            return Err(PageError::in_theme(format!("templates/{template}"), None, page.complaint()));
        }
        done.map_err(|error| PageError::of_template(template, &error))?;
        let html = page.into_text().ok_or_else(|| PageError::in_theme(format!("templates/{template}"), None, "prints what is no text"))?;
        Ok(Markup::rendered(html))
    }
}

/// A built-in template with the words that are the same on every page in place of the calls that ask for them: a page has a
/// hundred. A call stays where its words could be read as part of the template, or would move what stands behind them.
fn spoken_already(template: &str, words: &Words) -> String {
    const CALL: &str = "{{ say(key=\"";
    let mut pieces = template.split(CALL);
    let mut out = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let call = piece.split_once('"').and_then(|(key, behind)| Some((words.say(key), behind.strip_prefix(") }}")?)));
        match call.filter(|(said, _)| !said.is_empty() && said.trim() == said && !said.contains(['{', '\n'])) {
            Some((said, behind)) => {
                out.push_str(Markup::text(&said).as_str());
                out.push_str(behind);
            }
            None => {
                out.push_str(CALL);
                out.push_str(piece);
            }
        }
    }
    out
}

/// Files of the theme that are neither templates, messages nor parts of styles and scripts: they go to `theme/`.
pub(super) fn passed_through(theme: &BTreeMap<String, Vec<u8>>) -> Vec<PageFile> {
    theme
        .iter()
        .filter(|(path, _)| !path.starts_with("templates/") && !path.starts_with("messages/") && !assets::is_part(path))
        .map(|(path, bytes)| PageFile { path: format!("theme/{path}"), bytes: bytes.clone() })
        .collect()
}

/// `say(key="…", name=value)` of the templates.
fn say(words: &Words, kwargs: &Kwargs) -> Result<String, tera::Error> {
    let key: &str = kwargs.must_get("key")?;
    let mut args: Vec<(&str, Arg<'_>)> = Vec::new();
    for (name, value) in kwargs.iter() {
        let Some(name) = name.as_str().filter(|name| *name != "key") else { continue };
        if let Some(count) = value.as_u64() {
            args.push((name, Arg::Count(count)));
        } else if let Some(text) = value.as_str() {
            args.push((name, Arg::Text(text)));
        }
    }
    Ok(words.say_with(key, &args))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_never_differ_stand_in_a_template_before_it_is_compiled() {
        let own = "a = A & B\nb = { \"{{\" }\nc = { \"\" }\nd = { \" \" }d\n";
        let words = Words::load("en", &BTreeMap::from([("messages/en.ftl".to_owned(), own.as_bytes().to_vec())])).unwrap();
        for (written, spoken) in [
            ("<b>{{ say(key=\"a\") }}</b>{{ say(key=\"a\") }}", "<b>A &amp; B</b>A &amp; B"),
            ("{{ say(key=\"no-such\") }}", "no-such"),
            ("{{ say(key=\"a\", count=2) }}", "{{ say(key=\"a\", count=2) }}"),
            ("{{ say(key=\"b\") }} {{ say(key=\"c\") }}{{ say(key=\"d\") }}", "{{ say(key=\"b\") }} {{ say(key=\"c\") }}{{ say(key=\"d\") }}"),
            ("{{ say(key=\"a", "{{ say(key=\"a"),
        ] {
            assert_eq!(spoken_already(written, &words), spoken);
        }
    }
}
