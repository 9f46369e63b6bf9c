//! Every word of pages and sheets, from one catalogue a language. What a language lacks is English.

use super::error::PageError;
use super::markup::Markup;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::collections::{BTreeMap, HashMap};
use std::sync::{OnceLock, RwLock};
use unic_langid::LanguageIdentifier;

/// The built-in English catalogue.
pub(super) const ENGLISH: &str = include_str!("../../themes/workshop/messages/en.ftl");

/// The words of one language, with English behind them.
pub(super) struct Words {
    /// Most wanted first.
    bundles: Vec<FluentBundle<FluentResource>>,
    /// What was asked for without anything to be filled in: it is the same every time.
    known: RwLock<HashMap<String, Option<String>>>,
    /// The words of the bench's scripts, the same on every sheet.
    pub bench: OnceLock<BTreeMap<&'static str, String>>,
    /// The words of the scripts of every page, as its data block has them.
    pub page: OnceLock<Markup>,
}

/// What a sentence is filled with.
#[derive(Clone, Copy, Debug)]
pub(super) enum Arg<'a> {
    /// Text, put in as it is.
    Text(&'a str),
    /// A count, which chooses singular or plural.
    Count(u64),
}

impl Words {
    /// The catalogues for a language: those of the theme before the built-in ones.
    pub(super) fn load(language: &str, theme: &BTreeMap<String, Vec<u8>>) -> Result<Self, PageError> {
        let primary = language.split(['-', '_']).next().unwrap_or("en");
        let mut bundles = Vec::new();
        let mut wanted = vec![language, primary, "en"];
        wanted.dedup();
        for tag in wanted {
            let file = format!("messages/{tag}.ftl");
            if let Some(bytes) = theme.get(&file) {
                let text = std::str::from_utf8(bytes)
                    .map_err(|_| PageError::in_theme(&file, None, "is not UTF-8 text"))?;
                bundles.push(bundle(tag, &file, text)?);
            }
            if tag == "en" {
                bundles.push(bundle(tag, &file, ENGLISH)?);
            }
        }
        Ok(Self { bundles, known: RwLock::default(), bench: OnceLock::new(), page: OnceLock::new() })
    }

    /// The words of a key.
    pub(super) fn say(&self, key: &str) -> String {
        self.say_with(key, &[])
    }

    /// The words of a key, filled in.
    pub(super) fn say_with(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        self.find(key, args).unwrap_or_else(|| key.to_owned())
    }

    /// The words for one of the format's own words: `left` and `dry-fitted`. A word that the catalogue
    /// does not know is printed as written, with spaces for hyphens.
    pub(super) fn of(&self, family: &str, word: &str) -> String {
        self.find(&format!("{family}-{word}"), &[]).unwrap_or_else(|| word.replace('-', " "))
    }

    fn find(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        if !args.is_empty() {
            return self.filled(key, args);
        }
        let known = self.known.read().ok().and_then(|known| known.get(key).cloned());
        known.unwrap_or_else(|| {
            let found = self.filled(key, &[]);
            if let Ok(mut known) = self.known.write() {
                known.insert(key.to_owned(), found.clone());
            }
            found
        })
    }

    fn filled(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        let mut filled = FluentArgs::new();
        for (name, arg) in args {
            filled.set((*name).to_owned(), match arg {
                Arg::Text(text) => FluentValue::from(*text),
                Arg::Count(count) => FluentValue::from(*count),
            });
        }
        self.bundles.iter().find_map(|bundle| {
            let pattern = bundle.get_message(key)?.value()?;
            Some(bundle.format_pattern(pattern, Some(&filled), &mut Vec::new()).into_owned())
        })
    }
}

fn bundle(tag: &str, file: &str, text: &str) -> Result<FluentBundle<FluentResource>, PageError> {
    let language: LanguageIdentifier = tag.parse().unwrap_or_default();
    let resource = FluentResource::try_new(text.to_owned()).map_err(|(_, errors)| {
        let line = errors.first().map(|e| text.get(..e.pos.start).unwrap_or("").matches('\n').count() + 1);
        let message = errors.first().map_or_else(String::new, ToString::to_string);
        PageError::in_theme(file, line, message)
    })?;
    let mut bundle = FluentBundle::new_concurrent(vec![language]);
    bundle.set_use_isolating(false);
    bundle.add_resource(resource).map_err(|errors| {
        PageError::in_theme(file, None, errors.first().map_or_else(String::new, ToString::to_string))
    })?;
    Ok(bundle)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn theme(file: &str, text: &str) -> BTreeMap<String, Vec<u8>> {
        BTreeMap::from([(file.to_owned(), text.as_bytes().to_vec())])
    }

    #[test]
    fn a_language_without_a_catalogue_speaks_english() {
        let words = Words::load("nl-BE", &BTreeMap::new()).unwrap();
        assert_eq!(words.say("proof-mark"), "PROOF, NOT FOR USE");
    }

    #[test]
    fn the_theme_speaks_first_and_english_fills_its_gaps() {
        let words = Words::load("nl-BE", &theme("messages/nl.ftl", "proof-mark = PROEF\n")).unwrap();
        assert_eq!(words.say("proof-mark"), "PROEF");
        assert_eq!(words.of("left", "dry-fitted"), "fitted dry");
    }

    #[test]
    fn a_broken_catalogue_is_told_with_its_line() {
        let error = Words::load("nl", &theme("messages/nl.ftl", "a = b\n\nc d\n")).err().unwrap();
        assert_eq!((error.file.as_deref(), error.line), (Some("messages/nl.ftl"), Some(3)));
    }

    #[test]
    fn a_word_the_catalogue_does_not_know_is_printed_as_written() {
        let words = Words::load("en", &BTreeMap::new()).unwrap();
        assert_eq!(words.of("left", "half-way-there"), "half way there");
    }
}
