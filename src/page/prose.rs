//! The author's text on a procedure's page: acts with their values, cross-links, pictures, notices.

use super::details::Told;
use super::error::PageError;
use super::highlight;
use super::html::Inserts;
use super::link;
use super::markup::Markup;
use super::numbered::{ItemRow, Numbers};
use super::site::Scene;
use super::values::cases;
use crate::figure::{Picture, Rendition};
use crate::manual::{ListKind, Step};
use crate::source::{Notice, PictureText};
use crate::trade::signal::SignalWord;
use serde::Serialize;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

/// Text of one step, of the introduction, or of a footnote.
pub(super) struct Prose<'s> {
    /// From where it is shown.
    pub scene: Scene<'s>,
    /// The step, where it is a step's text.
    pub step: Option<&'s Step>,
    /// What stands on the page before it.
    pub shown: &'s Shown,
    /// Drawings that have not been shown yet, by the act they stand at.
    pub drawings: RefCell<BTreeMap<usize, Markup>>,
    /// What the acts show whose notes are still to come.
    pub told: RefCell<BTreeMap<usize, Told>>,
}

impl Prose<'_> {
    fn notes(&self, step: &Step, acts: &[usize]) -> Result<Markup, PageError> {
        let mut told = self.told.borrow_mut();
        let told = acts.iter().map(|index| (*index, told.remove(index).unwrap_or_else(|| self.scene.told_in(step, *index))));
        self.scene.act_notes(step, told)
    }

    /// The drawings that stand at none of the text's paragraphs: an act in a table has no room beside it.
    pub(super) fn other_drawings(&self) -> Markup {
        let mut out = Markup::default();
        for drawing in std::mem::take(&mut *self.drawings.borrow_mut()).values() {
            out.push(drawing);
        }
        out
    }
}

/// What a page has shown so far, from its top.
#[derive(Debug, Default)]
pub(super) struct Shown {
    /// Footnotes that a mark points to already: only the first mark of a footnote has an anchor.
    pub marked: RefCell<BTreeSet<String>>,
    /// How many pictures stand there already: those behind the first wait until they are scrolled to.
    pub pictures: Cell<usize>,
}

/// A picture as a template prints it.
#[derive(Serialize)]
struct PictureView<'v> {
    src: Option<String>,
    /// Every size with its width, where there is more than one.
    srcset: Option<String>,
    width: u32,
    height: u32,
    /// Width over height, for how wide a picture of bounded height is.
    shape: f64,
    photograph: bool,
    /// Whether it waits until it is scrolled to.
    late: bool,
    alternative: &'v str,
    caption: &'v str,
    by: Option<String>,
    licence: Option<&'v str>,
    numbers: Option<Numbers>,
    balloons: Vec<ItemRow>,
}

/// A safety notice as a template prints it.
#[derive(Serialize)]
struct NoticeView<'v> {
    class: &'static str,
    word: String,
    text: &'v Markup,
}

impl Inserts for Prose<'_> {
    fn act(&self, index: usize, words: &Markup) -> Result<Markup, PageError> {
        let Some(step) = self.step else { return Ok(words.clone()) };
        let told = self.scene.told_in(step, index);
        let html = self.scene.act(step, index, words, &told)?;
        self.told.borrow_mut().insert(index, told);
        Ok(html)
    }

    fn after(&self, acts: &[usize]) -> Result<Markup, PageError> {
        match self.step {
            Some(step) => {
                let mut out = self.notes(step, acts)?;
                let mut drawings = self.drawings.borrow_mut();
                acts.iter().filter_map(|act| drawings.remove(act)).for_each(|drawing| out.push(&drawing));
                Ok(out)
            }
            None => Ok(Markup::default()),
        }
    }

    fn beneath(&self, acts: &[usize]) -> Result<Markup, PageError> {
        self.step.map_or_else(|| Ok(Markup::default()), |step| self.notes(step, acts))
    }

    fn see(&self, target: &str, words: &Markup) -> Result<Markup, PageError> {
        let Some(href) = self.scene.see_link(target) else { return Ok(words.clone()) };
        let mut out = Markup::default();
        out.push_tag("<a class=\"see\" href=\"");
        out.push_text(&href);
        out.push_tag("\">");
        out.push(words);
        out.push_tag("</a>");
        Ok(out)
    }

    fn picture(&self, picture: &PictureText) -> Result<Markup, PageError> {
        let before = self.shown.pictures.get();
        self.shown.pictures.set(before + 1);
        self.scene.picture(picture, before)
    }

    fn notice(&self, notice: &Notice, text: &Markup) -> Result<Markup, PageError> {
        self.scene.notice(notice, text)
    }

    fn code(&self, language: &str, text: &str) -> Markup {
        highlight::code_block(language, text)
    }

    fn footnote(&self, name: &str) -> Markup {
        let mut out = Markup::default();
        let position = self.scene.procedure.and_then(|p| p.footnotes.iter().position(|(known, _)| known == name));
        let Some(position) = position else { return out };
        let number = (position + 1).to_string();
        out.push_tag("<sup class=\"foot\"><a class=\"note-mark\" href=\"#note.");
        out.push_text(&number);
        if self.shown.marked.borrow_mut().insert(name.to_owned()) {
            out.push_tag("\" id=\"note.");
            out.push_text(&number);
            out.push_tag(".mark");
        }
        out.push_tag("\">");
        out.push_text(&number);
        out.push_tag("</a></sup>");
        out
    }

    fn heading_level(&self) -> u8 {
        3
    }

    fn scroll_label(&self) -> String {
        self.scene.site.say("scroll-table")
    }
}

impl Scene<'_> {
    /// The address of a cross-link: `PROCEDURE#STEP`, `MACHINE/PROCEDURE`, `#STEP`. None where there is no such page.
    pub(super) fn see_link(&self, target: &str) -> Option<String> {
        let (path, step) = target.split_once('#').map_or((target, None), |(path, step)| (path, Some(step)));
        let page = match path.split_once('/') {
            Some((other, procedure)) if other != self.machine.id => {
                let outline = self.site.input.manual.outline(other)?;
                link::procedure_path(other, &outline.procedure(procedure)?.id)
            }
            found => {
                let procedure = found.map_or(path, |(_, procedure)| procedure);
                let procedure = if procedure.is_empty() { self.procedure? } else { self.machine.procedure(procedure)? };
                link::procedure_path(&self.machine.id, &procedure.id)
            }
        };
        Some(match step {
            Some(step) => self.link(&format!("{page}#{}", link::anchor_part(step))),
            None => self.link(&page),
        })
    }

    /// A picture with its numbers, its caption and the table of its items. `before` counts the pictures above it.
    fn picture(&self, text: &PictureText, before: usize) -> Result<Markup, PageError> {
        let key = format!("{}/{}", self.machine.id, text.path.trim_start_matches("./"));
        let picture = self.site.input.pictures.get(&key);
        let sizes = picture.map_or(&[][..], Picture::renditions);
        let many = sizes.len() > 1;
        let largest = sizes.last();
        let (width, height) = largest.map_or((0, 0), |largest| (largest.width, largest.height));
        let known = self.scope().entry(|l| &l.figures, &text.path).map(|entry| &entry.what);
        let balloons = known.map_or(&[][..], |figure| &figure.balloons);
        let view = PictureView {
            src: largest.map(|largest| self.link(&largest.path)),
            srcset: many.then(|| self.srcset(sizes)),
            width,
            height,
            shape: shape(width, height),
            photograph: matches!(picture, Some(Picture::Photograph(_))),
            late: before > 0,
            alternative: &text.alternative,
            caption: &text.caption,
            by: known.and_then(|figure| figure.by.as_deref()).map(|by| self.name_in(ListKind::People, by)),
            licence: known.and_then(|figure| figure.licence.as_deref()),
            numbers: self.numbers(before + 1, width, height, balloons),
            balloons: self.item_rows(before + 1, balloons),
        };
        self.site.templates.render("picture.html", &view)
    }

    /// The sizes as HTML lists them: address and width in pixels of each.
    fn srcset(&self, sizes: &[Rendition]) -> String {
        sizes.iter().map(|size| format!("{} {}w", self.link(&size.path), size.width)).collect::<Vec<_>>().join(", ")
    }

    /// What kind of thing it is, in a few words: a fastener's thread, a seal's size.
    pub(super) fn short_text(&self, thing: &crate::manual::ThingRef) -> Option<String> {
        match thing.kind {
            ListKind::Fasteners => self.scope().thing(|l| &l.fasteners, thing).and_then(|e| self.fastener_text(&e.what, None)),
            ListKind::Seals => self.scope().thing(|l| &l.seals, thing).and_then(|e| self.seal_text(&e.what, None)),
            ListKind::Parts => self.scope().thing(|l| &l.parts, thing).and_then(|e| self.part_text(&e.what)),
            ListKind::Shims => self.scope().thing(|l| &l.shims, thing).and_then(|e| self.shim_text(&e.what)),
            ListKind::Bearings => self
                .scope()
                .thing(|l| &l.bearings, thing)
                .and_then(|e| cases(&e.what.size, self.known).next().map(|(_, size)| size.written().to_owned())),
            _ => None,
        }
    }

    /// A safety notice as a panel.
    pub(super) fn notice(&self, notice: &Notice, text: &Markup) -> Result<Markup, PageError> {
        let (class, word) = match SignalWord::find(&notice.word) {
            Some(SignalWord::Danger) => ("danger", self.site.say("signal-danger")),
            Some(SignalWord::Warning) => ("warning", self.site.say("signal-warning")),
            Some(SignalWord::Caution) => ("caution", self.site.say("signal-caution")),
            Some(SignalWord::Notice) => ("notice", self.site.say("signal-notice")),
            None => ("notice", notice.word.clone()),
        };
        self.site.templates.render("notice.html", &NoticeView { class, word, text })
    }
}

/// Width over height in hundredths, rounded up: less would make a browser fetch a size too small.
fn shape(width: u32, height: u32) -> f64 {
    let hundredths = (u64::from(width) * 100).div_ceil(u64::from(height.max(1)));
    u32::try_from(hundredths).map_or(f64::from(u32::MAX), f64::from) / 100.0
}
