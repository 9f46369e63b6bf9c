//! A procedure for machines that read pages: schema.org's `HowTo` as JSON-LD, in a data block of the page.
//!
//! Words and properties are those of schema.org (version 28, `HowTo`, `HowToStep`); durations are ISO 8601.

use super::before::{Before, Item};
use super::link;
use super::markup::Markup;
use super::site::Scene;
use super::sources::date_text;
use crate::manual::Procedure;
use serde::Serialize;

#[derive(Serialize)]
struct HowTo<'v> {
    #[serde(rename = "@context")]
    context: &'static str,
    #[serde(rename = "@type")]
    kind: &'static str,
    name: &'v str,
    about: Named<'v>,
    publisher: Named<'v>,
    #[serde(rename = "inLanguage", skip_serializing_if = "str::is_empty")]
    language: &'v str,
    #[serde(skip_serializing_if = "Option::is_none")]
    version: Option<u64>,
    #[serde(rename = "dateModified", skip_serializing_if = "Option::is_none")]
    date: Option<String>,
    #[serde(rename = "totalTime", skip_serializing_if = "Option::is_none")]
    time: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tool: Vec<&'v str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    supply: Vec<&'v str>,
    step: Vec<HowToStep<'v>>,
}

#[derive(Serialize)]
struct Named<'v> {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: &'v str,
}

#[derive(Serialize)]
struct HowToStep<'v> {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: &'v str,
    url: String,
}

impl Scene<'_> {
    /// A procedure as JSON-LD.
    pub(super) fn structured(&self, procedure: &Procedure, before: &Before) -> Markup {
        let manual = self.site.input.manual;
        let how_to = HowTo {
            context: "https://schema.org",
            kind: "HowTo",
            name: &procedure.title,
            about: Named { kind: "Product", name: &self.machine.name },
            publisher: Named { kind: "Organization", name: &manual.publisher },
            language: &manual.language,
            version: procedure.history.revision,
            date: procedure.history.date.as_ref().map(date_text),
            time: self.most_minutes(procedure).map(|minutes| format!("PT{:.0}M", minutes.clamp(0.0, 1e9))),
            tool: names(&[&before.wrenches, &before.tools, &before.protection]),
            supply: names(&[&before.new_parts, &before.materials]),
            step: procedure
                .steps
                .iter()
                .map(|step| HowToStep { kind: "HowToStep", name: &step.title, url: format!("#{}", link::anchor_part(&step.id)) })
                .collect(),
        };
        Markup::json(&how_to)
    }
}

fn names<'v>(lists: &[&'v [Item]]) -> Vec<&'v str> {
    lists.iter().copied().flatten().map(|item| item.name.text.as_str()).collect()
}
