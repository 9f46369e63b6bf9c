//! Every word of pages and sheets, from one catalogue a language. What a language lacks is English.

use super::error::PageError;
use super::markup::Markup;
use crate::manual::Date;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use foldhash::HashMap;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::sync::{OnceLock, RwLock};
use unic_langid::{CharacterDirection, LanguageIdentifier};

/// The built-in English catalogue.
pub(super) const ENGLISH: &str = include_str!("../../themes/workshop/messages/en.ftl");

/// The built-in catalogues of other languages, by tag.
const OTHERS: &[(&str, &str)] = &[
    ("de", include_str!("../../themes/workshop/messages/de.ftl")),
    ("de-CH", include_str!("../../themes/workshop/messages/de-CH.ftl")),
    // Liechtenstein writes as Switzerland does.
    ("de-LI", include_str!("../../themes/workshop/messages/de-CH.ftl")),
];

/// The words of one language, with English behind them.
pub(super) struct Words {
    /// Most wanted first.
    bundles: Vec<FluentBundle<FluentResource>>,
    /// What was asked for, by the question: a manual has the same durations, counts and sizes over and over.
    known: RwLock<HashMap<String, Option<String>>>,
    /// What the data block of every sheet ends with: units and the words of the bench's scripts.
    pub bench: OnceLock<Markup>,
    /// The words of the scripts of every page, as its data block has them.
    pub page: OnceLock<Markup>,
}

/// So many answers are remembered; then it begins anew.
const MOST_KNOWN: usize = 20_000;
/// A longer question is not asked twice; with [`MOST_KNOWN`] it bounds what is remembered to a few megabytes.
const LONGEST_KNOWN: usize = 140;

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
        let mut bundles = Vec::new();
        let tags = wanted(language);
        // Swiss spelling has no ß, whatever catalogue the words come from.
        let swiss = tags.iter().any(|tag| matches!(tag.as_str(), "de-CH" | "de-LI"));
        for tag in &tags {
            let file = format!("messages/{tag}.ftl");
            if let Some(bytes) = theme.get(&file) {
                let text = std::str::from_utf8(bytes)
                    .map_err(|_| PageError::in_theme(&file, None, "is not UTF-8 text"))?;
                bundles.push(bundle(tag, &file, text)?);
            }
            if tag == "en" {
                bundles.push(bundle(tag, &file, ENGLISH)?);
            }
            if let Some((_, text)) = OTHERS.iter().find(|(known, _)| known == tag) {
                let text = if swiss { text.replace('ß', "ss") } else { (*text).to_owned() };
                bundles.push(bundle(tag, &file, &text)?);
            }
        }
        Ok(Self { bundles, known: RwLock::default(), bench: OnceLock::new(), page: OnceLock::new() })
    }

    /// What stands between the whole part of a number and its decimals.
    pub(super) fn decimal_mark(&self) -> char {
        if self.say("decimal-mark") == "," { ',' } else { '.' }
    }

    /// A day in running words: `14.09.2026`. Title blocks keep ISO 8601.
    pub(super) fn day(&self, date: &Date) -> String {
        let (year, month, day) = (format!("{:04}", date.year), format!("{:02}", date.month), format!("{:02}", date.day));
        self.say_with("date-day", &[("year", Arg::Text(&year)), ("month", Arg::Text(&month)), ("day", Arg::Text(&day))])
    }

    /// A text that begins with a day of ISO 8601, with that day as in running words: `2026-09-14 10:20 UTC`.
    pub(super) fn dated(&self, text: &str) -> String {
        let (day, rest) = text.split_at_checked(10).unwrap_or(("", text));
        let parts: Vec<&str> = day.split('-').collect();
        match parts.as_slice() {
            [year, month, day] if [4, 2, 2] == [year.len(), month.len(), day.len()] => {
                let filled = [("year", Arg::Text(year)), ("month", Arg::Text(month)), ("day", Arg::Text(day))];
                format!("{}{rest}", self.say_with("date-day", &filled))
            }
            _ => text.to_owned(),
        }
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
        self.find(&[family, "-", word].concat(), &[]).unwrap_or_else(|| word.replace('-', " "))
    }

    fn find(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        let Some(question) = question(key, args) else { return self.filled(key, args) };
        let known = self.known.read().ok().and_then(|known| known.get(&*question).cloned());
        known.unwrap_or_else(|| {
            let found = self.filled(key, args);
            if let Ok(mut known) = self.known.write() {
                if known.len() >= MOST_KNOWN {
                    known.clear();
                }
                known.insert(question.into_owned(), found.clone());
            }
            found
        })
    }

    fn filled(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        let mut filled = FluentArgs::new();
        for (name, arg) in args {
            filled.set(*name, match arg {
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

/// A key and what its sentence is filled with, in one text. None for what is not remembered: a long one, and one in which the
/// sign that parts its pieces stands already.
fn question<'k>(key: &'k str, args: &[(&str, Arg<'_>)]) -> Option<Cow<'k, str>> {
    let mut length = key.len();
    let mut ambiguous = key.contains('\0');
    for (name, arg) in args {
        length += name.len() + 10;
        if let Arg::Text(text) = arg {
            length += text.len();
            ambiguous |= text.contains('\0');
        }
    }
    if ambiguous || length > LONGEST_KNOWN {
        return None;
    }
    if args.is_empty() {
        return Some(Cow::Borrowed(key));
    }
    let mut question = String::with_capacity(length);
    question.push_str(key);
    for (name, arg) in args {
        question.push('\0');
        question.push_str(name);
        question.push('\0');
        match arg {
            Arg::Text(text) => question.push_str(text),
            Arg::Count(count) => write!(question, "\0{count}").ok()?,
        }
    }
    Some(Cow::Owned(question))
}

/// The tags whose catalogues are asked, in turn: the language as written, as BCP 47 writes it, with its region alone,
/// alone, and English.
fn wanted(language: &str) -> Vec<String> {
    let mut tags = vec![language.to_owned()];
    if let Ok(known) = language.parse::<LanguageIdentifier>() {
        tags.push(known.to_string());
        tags.extend(known.region.map(|region| format!("{}-{region}", known.language)));
        tags.push(known.language.to_string());
    }
    tags.push(language.split(['-', '_']).next().unwrap_or("en").to_lowercase());
    tags.push("en".to_owned());
    let mut seen = BTreeSet::new();
    tags.retain(|tag| !tag.is_empty() && seen.insert(tag.clone()));
    tags
}

/// `rtl` for a language that is written from right to left; none for others and for what is no language.
pub(super) fn direction(language: &str) -> Option<&'static str> {
    let known: LanguageIdentifier = language.parse().ok()?;
    (known.character_direction() == CharacterDirection::RTL).then_some("rtl")
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
    fn what_is_asked_again_is_answered_alike_and_no_question_is_taken_for_another() {
        let words = Words::load("en", &theme("messages/en.ftl", "a = { $x }-{ $y }\nb = { $x ->\n    [one] one\n   *[other] { $x }\n}\n")).unwrap();
        let asked = |x: Arg<'_>, y: Arg<'_>| words.say_with("a", &[("x", x), ("y", y)]);
        for _ in 0..2 {
            assert_eq!(asked(Arg::Text("1"), Arg::Text("")), "1-");
            assert_eq!(asked(Arg::Text(""), Arg::Text("1")), "-1");
            assert_eq!(asked(Arg::Text("\0y\0"), Arg::Text("1")), "\0y\0-1");
            assert_eq!(asked(Arg::Text(&"z".repeat(LONGEST_KNOWN)), Arg::Count(2)), format!("{}-2", "z".repeat(LONGEST_KNOWN)));
            assert_eq!((words.say_with("b", &[("x", Arg::Count(1))]), words.say_with("b", &[("x", Arg::Text("1"))])), ("one".to_owned(), "1".to_owned()));
        }
        for count in 0..=20_000 {
            words.say_with("b", &[("x", Arg::Count(count))]);
        }
        assert!(words.known.read().unwrap().len() <= MOST_KNOWN);
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
    fn german_is_built_in_by_tag_by_language_and_as_switzerland_writes_it() {
        for tag in ["de", "de-AT", "de-DE-1996", "DE", "de_DE", "de-Latn-DE"] {
            let words = Words::load(tag, &BTreeMap::new()).unwrap();
            assert_eq!((words.say("signal-notice").as_str(), words.decimal_mark()), ("HINWEIS", ','), "{tag}");
            assert!(words.say("drawing-not-to-scale").contains("maßstäblich"), "{tag}");
        }
        for tag in ["de-CH", "de-ch", "de-LI", "de-Latn-CH"] {
            let words = Words::load(tag, &BTreeMap::new()).unwrap();
            assert_eq!((words.say("signal-notice").as_str(), words.decimal_mark()), ("HINWEIS", '.'), "{tag}");
            assert!(words.say("drawing-not-to-scale").contains("massstäblich"), "{tag}");
        }
    }

    #[test]
    fn a_theme_brings_marks_and_days_of_its_own_language() {
        let own = theme("messages/nl.ftl", "decimal-mark = ,\ndate-day = { $day }-{ $month }-{ $year }\n");
        let words = Words::load("nl-BE", &own).unwrap();
        let date = Date { year: 2026, month: 9, day: 4 };
        assert_eq!((words.decimal_mark(), words.day(&date).as_str()), (',', "04-09-2026"));
        let words = Words::load("de", &BTreeMap::new()).unwrap();
        assert_eq!(words.day(&date), "04.09.2026");
        assert_eq!((words.dated("2026-09-04 10:20 UTC"), words.dated("soon")), ("04.09.2026 10:20 UTC".to_owned(), "soon".to_owned()));
        let words = Words::load("", &BTreeMap::new()).unwrap();
        assert_eq!((words.decimal_mark(), words.day(&date).as_str()), ('.', "2026-09-04"));
    }

    #[test]
    fn the_direction_follows_the_language_and_its_script() {
        for tag in ["ar", "ar-EG", "he", "fa", "ur"] {
            assert_eq!(direction(tag), Some("rtl"), "{tag}");
        }
        for tag in ["en", "de-CH", "", "?", "ja"] {
            assert_eq!(direction(tag), None, "{tag}");
        }
    }

    #[test]
    fn a_word_the_catalogue_does_not_know_is_printed_as_written() {
        let words = Words::load("en", &BTreeMap::new()).unwrap();
        assert_eq!(words.of("left", "half-way-there"), "half way there");
    }
}
