//! What stands on every page: the title block, the way to the tables, the standing caution.

use super::assets::{self, Assets};
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::offline;
use super::site::Site;
use super::sources::date_text;
use super::tables;
use super::sitemap;
use super::words::{self, Arg};
use crate::manual::{Date, History, Paper};
use serde::Serialize;
use tera::Value;

/// What every template finds under `frame`.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Frame {
    /// Language of the manual.
    pub language: String,
    /// `rtl` where its script runs from right to left.
    pub direction: Option<&'static str>,
    /// Title of the document, for the browser.
    pub title: String,
    /// What the page is about, in a sentence.
    pub description: String,
    /// The page's address on the web, where the manual's is known.
    pub address: Option<String>,
    /// The manual's title.
    pub manual: String,
    /// Who answers for the values.
    pub publisher: String,
    /// The manual's notice.
    pub notice: Option<String>,
    /// Whether this is a proof copy.
    pub proof: bool,
    /// Link to the feed of changes, on the first page of a manual whose address is known.
    pub feed: Option<String>,
    /// Link to the stylesheet.
    pub style: String,
    /// Link to the script.
    pub script: String,
    /// Link to what lets a phone keep the manual beside its programs.
    pub app: String,
    /// Link to the manual's mark.
    pub icon: String,
    /// What every page's script may say.
    pub words: Markup,
    /// Link to the first page.
    pub home: String,
    /// The way to the first page's folder: empty, or ending with a slash.
    pub root: String,
    /// Whether this is the first page.
    pub at_home: bool,
    /// The ways to the tables, printed.
    pub tables: Value,
    /// Class of the page's body.
    pub class: &'static str,
}

/// The title block, by the data fields of ISO 7200.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct TitleBlock {
    /// Title of the document.
    pub title: String,
    /// What kind of document.
    pub kind: String,
    /// Legal owner.
    pub owner: String,
    /// The machine, with a link.
    pub machine: Option<Detail>,
    /// Identification number.
    pub id: String,
    /// Revision index.
    pub revision: Option<u64>,
    /// Date of issue.
    pub date: Option<String>,
    /// Language.
    pub language: String,
    /// Sheet: which of how many.
    pub sheet: Option<String>,
}

impl Site<'_> {
    /// The frame of a page.
    pub(super) fn frame(&self, page: &str, title: &str, class: &'static str) -> Frame {
        // A procedure's page is the one that is read with one bar of signal: it loads nothing that others need.
        self.framed(page, title, class, if class == "procedure" { assets::PAGE } else { assets::LISTS })
    }

    /// The frame of a bench sheet.
    pub(super) fn sheet_frame(&self, page: &str, title: &str) -> Frame {
        let class = match self.input.manual.paper {
            Paper::A4 => "sheet paper-a4",
            Paper::Letter => "sheet paper-letter",
        };
        self.framed(page, title, class, assets::SHEET)
    }

    /// The frame of a book.
    pub(super) fn book_frame(&self, page: &str, title: &str) -> Frame {
        let class = match self.input.manual.paper {
            Paper::A4 => "book paper-a4",
            Paper::Letter => "book paper-letter",
        };
        self.framed(page, title, class, assets::BOOK)
    }

    fn framed(&self, page: &str, title: &str, class: &'static str, assets: Assets) -> Frame {
        let manual = self.input.manual;
        let title = if title == manual.title { title.to_owned() } else { format!("{title} – {}", manual.title) };
        Frame {
            language: language(&manual.language),
            direction: words::direction(&manual.language),
            description: self.say_with("description-manual", &[("title", Arg::Text(&title)), ("publisher", Arg::Text(&manual.publisher))]),
            address: sitemap::address(manual, page),
            feed: None,
            title,
            manual: manual.title.clone(),
            publisher: manual.publisher.clone(),
            notice: manual.notice.clone(),
            proof: self.input.proof_copy,
            style: link::relative(page, assets.style),
            script: link::relative(page, assets.script),
            app: link::relative(page, offline::APP),
            icon: link::relative(page, offline::ICON),
            words: self.page_words(),
            home: link::relative(page, link::HOME),
            root: "../".repeat(page.matches('/').count()),
            at_home: page == link::HOME,
            tables: self.tables(page),
            class,
        }
    }

    /// The tables as a page leads to them: all pages of a folder lead there alike, but for the tables themselves.
    fn tables(&self, page: &str) -> Value {
        let folder = page.rsplit_once('/').map_or("", |(folder, _)| folder);
        let is_table = tables::Kind::ALL.iter().any(|kind| kind.path() == page);
        if let Some(known) = self.ways.lock().ok().filter(|_| !is_table).and_then(|ways| ways.get(folder).cloned()) {
            return known;
        }
        let way = |kind: &tables::Kind| {
            let mut way = Markup::default();
            if kind.path() == page {
                way.push_tag("<span aria-current=\"page\">");
                way.push_text(&self.say(kind.title()));
                way.push_tag("</span>");
            } else {
                Detail { text: self.say(kind.title()), href: Some(link::relative(page, kind.path())) }.push_to(&mut way);
            }
            way
        };
        let tables = Value::try_from_serializable(&tables::Kind::ALL.iter().map(way).collect::<Vec<Markup>>()).unwrap_or_else(|_| Value::none());
        if let Some(mut ways) = self.ways.lock().ok().filter(|_| !is_table) {
            ways.insert(folder.to_owned(), tables.clone());
        }
        tables
    }

    /// A title block with what every document has.
    pub(super) fn title_block(&self, kind: &str, title: &str, id: &str, history: Option<&History>) -> TitleBlock {
        let manual = self.input.manual;
        TitleBlock {
            title: title.to_owned(),
            kind: self.say(kind),
            owner: manual.publisher.clone(),
            machine: None,
            id: id.to_owned(),
            revision: history.and_then(|h| h.revision),
            date: history.and_then(|h| h.date.as_ref().map(date_text)),
            language: language(&manual.language),
            sheet: None,
        }
    }
}

/// A whole document: frame, title block and the page's own view.
#[derive(Serialize)]
pub(super) struct Document<'v, V: Serialize> {
    /// What stands on every page.
    pub frame: Frame,
    /// The title block.
    pub block: TitleBlock,
    /// The page's own.
    pub view: &'v V,
}

impl TitleBlock {
    /// Gives a page of several front matters the day of the newest change that it rests on, where that is known.
    pub(super) fn of_day(&mut self, day: Option<Date>) {
        if let Some(day) = &day {
            self.date = Some(date_text(day));
        }
    }
}

impl Site<'_> {
    /// Prints a document.
    pub(super) fn document<V: Serialize>(
        &self,
        template: &str,
        frame: Frame,
        block: TitleBlock,
        view: &V,
    ) -> Result<Markup, super::PageError> {
        self.templates.render(template, &Document { frame, block, view })
    }
}

/// The language tag, English where there is none.
fn language(tag: &str) -> String {
    if tag.is_empty() { "en".to_owned() } else { tag.to_owned() }
}
